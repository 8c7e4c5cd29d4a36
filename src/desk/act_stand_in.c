#include "desk/inside.h"
#include "desk/ranges.h"
#include "desk/stores.h"
#include "life/planning.h"

#include <string.h>

struct act {
	const struct stand_in_request *request;
	struct stand_in_outcome *out;
	const char *stands_for;     /* the own item's tag; "" when not told */
	struct enter_request hired; /* what is new to the book */
	struct movement movement;   /* its movement */
};

/* Remarks on the own item: a place that is not empty is filled twice. */
static void
note_own(struct desk *desk, const struct item *own, const char *kind)
{
	if (own->state == PLACE_ABOARD || own->state == PLACE_STAND_IN) {
		desk_note(desk,
		    "%s is aboard, so both count; \"becket land %s\" "
		    "says that it went ashore",
		    own->tag, own->tag);
	}
	if (kind != NULL && strcmp(kind, own->kind) != 0) {
		desk_note(desk, "%s is a %s, and what stands in is a %s", own->tag,
		    own->kind, kind);
	}
}

static bool
check_item(const struct item *item, struct fault *fault)
{
	switch (item->state) {
	case PLACE_ABOARD:
	case PLACE_RESERVE:
	case PLACE_STAND_IN:
		return true;
	case PLACE_LANDED:
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore; \"becket return\" brings it back first", item->tag);
	case PLACE_WITHDRAWN:
		return planning_withdrawn(item, fault);
	}
	return false;
}

static bool
plan_one(
    struct act *act, struct life_planning *planning, size_t index, struct fault *fault)
{
	const struct stand_in_request *request = act->request;
	const struct inventory *inventory = planning->inventory;
	const struct item *item = &inventory->items[index];
	struct life_row row = {.item = index, .moves = true};
	const struct carrying carrying = {
	    .to = act->out->vessel, .on = request->on, .note = request->note};
	bool there = strcmp(inventory->vessels[item->vessel].name, act->out->vessel) == 0;
	if (strcmp(item->tag, act->stands_for) == 0) {
		return fault_set(
		    fault, FAULT_INPUT, "%s can't stand in for itself", item->tag);
	}
	if (!check_item(item, fault) ||
	    (!there && !carry(planning, &carrying, index, fault))) {
		return false;
	}
	row.movement = life_movement(MOVE_STOOD_IN, request->on, request->note);
	row.movement.stands_for = act->stands_for;
	row.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_STANDS_FOR |
		   (request->until != DAY_NONE ? 1U << FIELD_HIRED_UNTIL : 0U),
	    .state = PLACE_STAND_IN,
	    .stands_for = act->stands_for,
	    .hired_until = request->until,
	};
	planning_add(planning, &row);
	return true;
}

/* The vessel and the own item. */
static bool
find_place(struct desk *desk, struct act *act, const char *kind, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const char *own = act->request->stands_for;
	const char *vessel = act->request->vessel;
	size_t item = 0;
	act->stands_for = own == NULL ? "" : own;
	if (own != NULL) {
		if (!desk_find_tag(desk, own, &item, fault)) {
			return fault_prefix(fault, FIELD "for");
		}
		const struct item *it = &inventory->items[item];
		const char *hers = inventory->vessels[it->vessel].name;
		vessel = vessel == NULL ? hers : vessel;
		if (strcmp(vessel, hers) != 0) {
			return fault_set(fault, FAULT_INPUT,
			    "%s is on %s, so nothing on %s can stand in for it", own,
			    hers, vessel);
		}
		note_own(desk, it, kind);
	}
	if (vessel == NULL) {
		return fault_set(fault, FAULT_USAGE,
		    FIELD "for TAG or " FIELD "vessel NAME is missing");
	}
	act->out->vessel = vessel;
	return vessel_check(desk, vessel, fault);
}

static bool
check_days(const struct stand_in_request *request, struct fault *fault)
{
	return request->until == DAY_NONE || request->until >= request->on ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "until: expected a day after it began to stand in, found one "
			 "before");
}

/* ---- something in the book ---- */

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct gear_outcome *gear = &act->out->gear;
	struct life_planning planning;
	desk_note_future(desk, "on", stamp_of_day(act->request->on));
	if (!check_days(act->request, fault) ||
	    !gear_find(desk, &act->request->tags, gear, &planning, fault) ||
	    !find_place(
		desk, act, planning.inventory->items[gear->items[0]].kind, fault)) {
		return false;
	}
	for (size_t i = 0; i < gear->count; i++) {
		if (!plan_one(act, &planning, gear->items[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	return plan_write(desk, &act->out->gear.plan, fault);
}

bool
desk_stand_in(struct desk *desk, const struct stand_in_request *request,
    struct stand_in_outcome *out, struct fault *fault)
{
	struct act act = {.request = request, .out = out};
	struct word_list tags = {0};
	for (size_t i = 0; i < request->tags.count; i++) {
		ARENA_ADD(&desk->arena, &tags, request->tags.items[i]);
	}
	if (request->stands_for != NULL) {
		ARENA_ADD(&desk->arena, &tags, request->stands_for);
	}
	return act_run_about(desk, range_part(desk, &tags, request->vessel), NULL, plan,
	    write, &act, fault);
}

/* ---- something hired that is new to the book ---- */

static bool
plan_hired(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct stand_in_request *request = act->request;
	struct item_change *like = &act->hired.like;
	act->hired = *request->hired;
	desk_note_future(desk, "on", stamp_of_day(request->on));
	if (!check_days(request, fault) || !find_place(desk, act, like->kind, fault)) {
		return false;
	}
	like->vessel = act->out->vessel;
	like->state = PLACE_STAND_IN;
	like->stands_for = act->stands_for;
	like->hired_until = request->until;
	like->set |= 1U << FIELD_KIND | 1U << FIELD_VESSEL | 1U << FIELD_STATE |
		     1U << FIELD_STANDS_FOR | 1U << FIELD_HIRED_UNTIL;
	act->movement = life_movement(MOVE_STOOD_IN, request->on, request->note);
	act->movement.stands_for = act->stands_for;
	act->hired.movement = &act->movement;
	return enter_plan(desk, &act->hired, &act->out->entered, fault);
}

static bool
write_hired(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	return enter_write(desk, &act->hired, &act->out->entered, fault);
}

bool
desk_stand_in_hired(struct desk *desk, const struct stand_in_request *request,
    struct stand_in_outcome *out, struct fault *fault)
{
	struct act act = {.request = request, .out = out};
	struct enter_request hired = *request->hired;
	hired.like.vessel = request->vessel;
	return act_run_about(desk, enter_part(desk, &hired, request->stands_for), NULL,
	    plan_hired, write_hired, &act, fault);
}
