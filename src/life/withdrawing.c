#include "life/family.h"
#include "life/planning.h"

#include <string.h>

static void
withdraw_one(struct life_planning *planning, const struct withdrawing *how, size_t index,
    bool named)
{
	struct life_row row = {.item = index, .moves = true};
	row.movement = life_movement(MOVE_WITHDRAWN, how->on, how->note);
	row.movement.because = how->because;
	row.movement.result = named ? how->result : RESULT_NOT_SAID;
	row.movement.station = how->station;
	if (named) {
		row.movement.certificate = how->certificate;
		row.movement.price_minor = how->price_minor;
	}
	row.change = (struct item_change){
	    .set = 1U << FIELD_STATE | 1U << FIELD_BECAUSE | 1U << FIELD_LANDED_TO |
		   1U << FIELD_LANDED_ON,
	    .state = PLACE_WITHDRAWN,
	    .because = how->because,
	    .landed_to = "",
	    .landed_on = DAY_NONE,
	};
	planning_add(planning, &row);
}

/* A part that outlives its whole, with its own parts. */
static void
keep_part(struct life_planning *planning, const struct withdrawing *how, size_t index)
{
	const struct item *item = &planning->inventory->items[index];
	struct life_row row = {.item = index};
	row.change = (struct item_change){.set = 1U << FIELD_PART_OF, .part_of = ""};
	if (item->state == PLACE_LANDED) {
		row.moves = true;
		row.movement = life_movement(MOVE_RETURNED, how->on, how->note);
		row.movement.station = item->landed_to;
		row.change.set |=
		    1U << FIELD_STATE | 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON;
		row.change.state = PLACE_ABOARD;
		row.change.landed_to = "";
		row.change.landed_on = DAY_NONE;
	}
	planning_add(planning, &row);
}

/* True when the item, which is inside of `whole`, or something it is inside of within
 * that, is kept. */
static bool
is_kept(const struct inventory *inventory, const bool *kept, size_t whole, size_t item)
{
	for (size_t at = item; at != whole; at = inventory->items[at].parent) {
		if (kept[at]) {
			return true;
		}
	}
	return false;
}

void
note_stand_ins(struct life_planning *planning, size_t index, bool back)
{
	const struct inventory *inventory = planning->inventory;
	const char *tag = inventory->items[index].tag;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		char until[DAY_WORDS_SIZE];
		if (item->state != PLACE_STAND_IN || strcmp(item->stands_for, tag) != 0) {
			continue;
		}
		bool hired = item->hired_until != DAY_NONE;
		const char *now = back ? "which is back: it is no longer needed"
				       : "which is gone for good";
		planning_note(planning,
		    "%s stands in for %s, %s%s%s; \"becket withdraw %s " FIELD
		    "because given-back\" gives it back",
		    item->tag, tag, now, hired ? ", and is hired until " : "",
		    hired ? day_words(item->hired_until, until) : "", item->tag);
	}
}

bool
withdraw(struct life_planning *planning, const struct withdrawing *how, size_t index,
    struct fault *fault)
{
	const struct inventory *inventory = planning->inventory;
	const struct item *item = &inventory->items[index];
	struct family family = {0};
	if (item->state == PLACE_WITHDRAWN) {
		return fault_set(fault, FAULT_INPUT, "%s is withdrawn already%s%s",
		    item->tag, item->because == BECAUSE_NOT_SAID ? "" : ": ",
		    because_word(item->because));
	}
	if (how->because == BECAUSE_GIVEN_BACK && item->state != PLACE_STAND_IN &&
	    item->hired_until == DAY_NONE) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is not hired, so it can't be given back; expected another reason",
		    item->tag);
	}
	family_of(inventory, index, planning->arena, &family);
	note_stand_ins(planning, index, false);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		bool stays = i > 0 && is_kept(inventory, how->kept, index, at);
		if (planning_has(planning, at)) {
			continue;
		}
		if (!stays) {
			withdraw_one(planning, how, at, i == 0);
		} else if (how->kept[at]) {
			keep_part(planning, how, at);
		}
	}
	return true;
}
