#include "desk/inside.h"
#include "desk/ranges.h"

static bool
check_state(
    const struct reserve_request *request, const struct item *item, struct fault *fault)
{
	bool back = request->aboard;
	switch (item->state) {
	case PLACE_ABOARD:
		return !back ||
		       fault_set(fault, FAULT_INPUT, "%s is aboard already", item->tag);
	case PLACE_RESERVE:
		return back || fault_set(fault, FAULT_INPUT, "%s is in reserve already",
				   item->tag);
	case PLACE_LANDED:
		return fault_set(fault, FAULT_INPUT,
		    "%s is ashore; \"becket return\" brings it back first", item->tag);
	case PLACE_STAND_IN:
		return back || fault_set(fault, FAULT_INPUT,
				   "%s stands in for another and is no extra; \"becket "
				   "reserve " FIELD
				   "aboard\" makes it one of the boat's own first",
				   item->tag);
	case PLACE_WITHDRAWN:
		break;
	}
	if (!back) {
		return planning_withdrawn(item, fault);
	}
	if (item->because == BECAUSE_CONDEMNED && !request->again) {
		return fault_set(fault, FAULT_INPUT,
		    "%s was condemned, and what is condemned does not go back aboard; " FIELD
		    "again says that it does all the same",
		    item->tag);
	}
	return true;
}

static bool
plan_one(struct life_planning *planning, const struct reserve_request *request,
    size_t index, struct fault *fault)
{
	bool back = request->aboard;
	struct life_row row = {.item = index, .moves = true};
	const struct item *item = &planning->inventory->items[index];
	row.movement =
	    life_movement(back ? MOVE_ABOARD : MOVE_RESERVED, request->on, request->note);
	row.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_BECAUSE | 1U << FIELD_STANDS_FOR,
	    .state = back ? PLACE_ABOARD : PLACE_RESERVE,
	    .because = BECAUSE_NOT_SAID,
	    .stands_for = "",
	};
	if (!check_state(request, item, fault)) {
		return false;
	}
	planning_add(planning, &row);
	return true;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	const struct gear_act *act = of;
	const struct reserve_request *request = act->request;
	struct life_planning planning;
	desk_note_future(desk, "on", stamp_of_day(request->on));
	if (!gear_find(desk, &request->tags, act->out, &planning, fault)) {
		return false;
	}
	for (size_t i = 0; i < act->out->count; i++) {
		if (!plan_one(&planning, request, act->out->items[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_reserve(struct desk *desk, const struct reserve_request *request,
    struct gear_outcome *out, struct fault *fault)
{
	struct gear_act act = {request, out};
	return act_run_about(desk, range_part(desk, &request->tags, NULL),
	    "setting aside", plan, gear_write, &act, fault);
}
