#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "desk/stores.h"
#include "exchange/inventory_csv.h"
#include "life/planning.h"

struct act {
	const struct move_request *request;
	struct move_outcome *out;
	struct store store; /* to whose spares it goes */
};

static bool
contains(const size_t *items, size_t count, size_t item)
{
	for (size_t i = 0; i < count; i++) {
		if (items[i] == item) {
			return true;
		}
	}
	return false;
}

static bool
has_parts(const struct inventory *inventory, size_t item)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (inventory->items[i].parent == item &&
		    inventory->items[i].state != PLACE_WITHDRAWN) {
			return true;
		}
	}
	return false;
}

/* Makes so many pieces of the named lot an item of their own, under a fresh tag. */
static bool
plan_split(struct desk *desk, struct act *act, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct gear_outcome *gear = &act->out->gear;
	const struct item *lot = &inventory->items[gear->items[0]];
	int quantity = act->request->quantity;
	const char **fresh = NULL;
	if (gear->count != 1) {
		return fault_set(fault, FAULT_USAGE, FIELD "quantity is of one lot");
	}
	if (quantity > lot->quantity) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "quantity: found %d, but %s has %d", quantity, lot->tag,
		    lot->quantity);
	}
	if (quantity == lot->quantity) {
		return true;
	}
	if (has_parts(inventory, gear->items[0])) {
		return fault_set(fault, FAULT_INPUT,
		    "%s has parts, and which of them go along can't be told; enter its "
		    "pieces one by one",
		    lot->tag);
	}
	if (!tags_fresh(lot->kind, inventory, 1, &desk->arena, &fresh)) {
		return false;
	}
	act->out->lot = lot->tag;
	act->out->piece = fresh[0];
	gear->tags[0] = fresh[0];
	return true;
}

/* "split from the lot FL-1; for the passage" */
static const char *
note_of(struct desk *desk, const struct act *act)
{
	const char *said = act->request->note;
	if (act->out->piece == NULL) {
		return said;
	}
	return arena_format(&desk->arena, "split from the lot %s%s%s", act->out->lot,
	    said[0] == '\0' ? "" : "; ", said);
}

static bool
carry_all(struct act *act, struct life_planning *planning, struct carrying *carrying,
    struct fault *fault)
{
	const struct gear_outcome *gear = &act->out->gear;
	for (size_t i = 0; i < gear->count; i++) {
		const struct item *item = &planning->inventory->items[gear->items[i]];
		carrying->with_whole = item->parent != ITEM_NO_PARENT &&
				       contains(gear->items, gear->count, item->parent);
		if (!carry(planning, carrying, gear->items[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct move_request *request = act->request;
	struct gear_outcome *gear = &act->out->gear;
	struct life_planning planning;
	struct carrying carrying = {
	    .on = request->on,
	    .place = request->place,
	    .alone = request->alone,
	    .say = FIELD "alone",
	};
	*act->out = (struct move_outcome){.to = request->vessel};
	act->store = (struct store){0};
	desk_note_future(desk, "on", stamp_of_day(request->on));
	if (!gear_find(desk, &request->tags, gear, &planning, fault) ||
	    !(request->vessel != NULL
		    ? vessel_check(desk, request->vessel, fault)
		    : store_find(desk, request->spares, &act->store, fault)) ||
	    (request->quantity > 0 && !plan_split(desk, act, fault))) {
		return false;
	}
	carrying.note = note_of(desk, act);
	act->out->to = request->vessel != NULL ? request->vessel : act->store.name;
	carrying.to = act->out->to;
	if (!carry_all(act, &planning, &carrying, fault)) {
		return false;
	}
	if (act->out->piece != NULL) {
		gear->plan.items[0].tag = act->out->piece;
	}
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	const struct move_outcome *out = act->out;
	return store_make(desk, &act->store, fault) &&
	       (out->piece == NULL || book_split_item(desk->book, out->lot, out->piece,
					  act->request->quantity, fault)) &&
	       plan_write(desk, &out->gear.plan, fault);
}

bool
desk_move(struct desk *desk, const struct move_request *request, struct move_outcome *out,
    struct fault *fault)
{
	struct act act = {.request = request, .out = out};
	bool splits = request->quantity > 0 && request->tags.count > 0;
	const struct newcomers newcomers = {.lot = splits ? request->tags.items[0] : NULL,
	    .fresh = splits ? 1 : 0,
	    .with = request->tags,
	    .vessel = request->vessel,
	    .base = request->spares};
	return act_run_about(
	    desk, newcomers_part(desk, &newcomers), "moving", plan, write, &act, fault);
}
