#include "book/putting.h"
#include "desk/inside.h"
#include "desk/stores.h"
#include "gear/booking.h"
#include "life/planning.h"

struct act {
	const struct leave_request *request;
	size_t *aboard_out;
	struct vessel_change change;
	struct store store; /* to whose spares her gear goes */
	struct life_plan plan;
};

/* FATE_NOT_SAID has none. */
static const char *const FATE_WORDS[] = {
    [FATE_WITH_HER] = "with-her",
    [FATE_SPARES] = "spares",
    [FATE_WITHDRAWN] = "withdrawn",
};

/* Her gear aboard, and what is lent to her. What is at a station stays hers. */
static size_t
count_aboard(const struct inventory *inventory, size_t vessel)
{
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	size_t aboard = 0;
	for (size_t i = first; i < first + count; i++) {
		enum place_state state = inventory->items[i].state;
		aboard += state != PLACE_WITHDRAWN && state != PLACE_LANDED ? 1 : 0;
	}
	return aboard;
}

/* What is hired is not hers to go with her. */
static bool
check_stand_ins(const struct inventory *inventory, size_t vessel, struct fault *fault)
{
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	for (size_t i = first; i < first + count; i++) {
		const struct item *item = &inventory->items[i];
		if (item->state == PLACE_STAND_IN) {
			return fault_set(fault, FAULT_INPUT,
			    "%s stands in aboard %s; \"becket withdraw %s " FIELD
			    "because given-back\" or \"becket move %s " FIELD
			    "vessel NAME\" first",
			    item->tag, inventory->vessels[vessel].name, item->tag,
			    item->tag);
		}
	}
	return true;
}

/* What the gear is withdrawn for when she leaves for this reason: given-back is said of what was
 * hired. */
static enum because
gear_because(enum because because)
{
	return because == BECAUSE_GIVEN_BACK ? BECAUSE_NOT_SAID : because;
}

static bool
plan_gear(struct desk *desk, struct act *act, size_t vessel, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct vessel_change *change = &act->change;
	struct life_planning planning = {
	    inventory, &desk->arena, &desk->notes, &act->plan};
	struct carrying carrying = {.on = change->left, .note = "", .with_whole = true};
	struct withdrawing how = {.on = change->left,
	    .because = gear_because(change->left_because),
	    .note = "",
	    .price_minor = -1};
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	how.kept = arena_alloc(&desk->arena, (inventory->item_count + 1) * sizeof(bool));
	if (act->request->gear == FATE_SPARES &&
	    !store_find(desk, inventory->vessels[vessel].base, &act->store, fault)) {
		return fault_prefix(fault, FIELD "gear spares");
	}
	carrying.to = act->store.name;
	for (size_t i = first; i < first + count; i++) {
		enum place_state state = inventory->items[i].state;
		bool aboard = state != PLACE_WITHDRAWN && state != PLACE_LANDED;
		if (!aboard || planning_has(&planning, i)) {
			continue;
		}
		bool planned = act->request->gear == FATE_SPARES
				   ? carry(&planning, &carrying, i, fault)
				   : withdraw(&planning, &how, i, fault);
		if (!planned) {
			return false;
		}
	}
	return true;
}

static void
note_ashore(struct desk *desk, size_t vessel)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t count = 0;
	size_t first = inventory_aboard(inventory, vessel, &count);
	for (size_t i = first; i < first + count; i++) {
		const struct item *item = &inventory->items[i];
		if (item->state == PLACE_LANDED) {
			desk_note(desk, "%s is ashore%s%s, and stays to be collected",
			    item->tag, item->landed_to[0] == '\0' ? "" : " at ",
			    item->landed_to);
		}
	}
}

/* Her bookings that end later: a party counts on her. */
static void
note_bookings(struct desk *desk, const struct vessel *vessel, day_t left)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	const struct booking *next =
	    booking_next(vessel->bookings, vessel->booking_count, left);
	size_t count = 0;
	for (size_t i = 0; i < vessel->booking_count; i++) {
		count += vessel->bookings[i].days.last >= left ? 1 : 0;
	}
	if (count == 0) {
		return;
	}
	desk_note(desk,
	    "%zu booking%s of %s end%s on that day or later, the first of %s to %s: still in "
	    "\"becket booking\", but not mustered from that day on",
	    count, count == 1 ? "" : "s", vessel->name, count == 1 ? "s" : "",
	    day_words(next->days.first, first), day_words(next->days.last, last));
}

/* Asks what becomes of her gear. */
static bool
ask_fate(struct desk *desk, const char *name, size_t aboard, struct fault *fault)
{
	desk->question = (struct question){
	    .words = arena_format(&desk->arena,
		"%s has %zu piece%s of gear aboard. What becomes of it: with-her (h), spares (s) "
		"or withdrawn (w)? ",
		name, aboard, aboard == 1 ? "" : "s"),
	    .no = "nothing is written: expected with-her, spares or withdrawn",
	    .choices = &FATE_WORDS[FATE_WITH_HER],
	    .choice_count = FATE_COUNT - FATE_WITH_HER,
	};
	return fault_set(fault, FAULT_USAGE,
	    "%s has %zu piece%s of gear aboard; expected " FIELD "gear with-her, " FIELD
	    "gear spares or " FIELD "gear withdrawn",
	    name, aboard, aboard == 1 ? "" : "s");
}

static bool
plan_leaving(struct desk *desk, struct act *act, size_t vessel, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct leave_request *request = act->request;
	size_t aboard = count_aboard(inventory, vessel);
	bool moves = request->gear == FATE_SPARES || request->gear == FATE_WITHDRAWN;
	*act->aboard_out = aboard;
	if (aboard > 0 && !check_stand_ins(inventory, vessel, fault)) {
		return false;
	}
	if (aboard > 0 && request->gear == FATE_NOT_SAID) {
		return ask_fate(desk, request->name, aboard, fault);
	}
	if (aboard > 0 && moves && request->left > desk->today) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD
		    "left: gear is moved or withdrawn on the day, which is still to "
		    "come; say " FIELD "gear with-her, or enter it then");
	}
	if (aboard > 0 && moves && !plan_gear(desk, act, vessel, fault)) {
		return false;
	}
	note_ashore(desk, vessel);
	note_bookings(desk, &inventory->vessels[vessel], request->left);
	return true;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct leave_request *request = act->request;
	size_t vessel = 0;
	act->plan = (struct life_plan){0};
	act->store = (struct store){0};
	act->change = (struct vessel_change){
	    .name = request->name,
	    .set = 1U << VESSEL_LEFT,
	    .left = request->left,
	    .left_because = request->because,
	};
	if (!desk_find_vessel(desk, request->name, &vessel, fault)) {
		return false;
	}
	if (request->left != DAY_NONE) {
		return plan_leaving(desk, act, vessel, fault);
	}
	return desk->contents.inventory.vessels[vessel].leaves ||
	       fault_set(fault, FAULT_INPUT, "%s has not left: nothing to take back",
		   request->name);
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	return store_make(desk, &act->store, fault) &&
	       book_put_vessel(desk->book, &act->change, fault) &&
	       plan_write(desk, &act->plan, fault);
}

bool
desk_leave(struct desk *desk, const struct leave_request *request, size_t *aboard_out,
    struct fault *fault)
{
	struct act act = {.request = request, .aboard_out = aboard_out};
	return act_run(desk, NULL, plan, write, &act, fault);
}
