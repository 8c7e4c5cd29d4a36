#include "life/family.h"
#include "life/planning.h"

#include <string.h>

static bool
check_carry(struct life_planning *planning, const struct carrying *carrying,
    const struct item *item, struct fault *fault)
{
	const struct inventory *inventory = planning->inventory;
	if (item->state == PLACE_WITHDRAWN) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is withdrawn; \"becket reserve " FIELD
		    "aboard %s\" brings it back first",
		    item->tag, item->tag);
	}
	if (strcmp(inventory->vessels[item->vessel].name, carrying->to) == 0) {
		return fault_set(
		    fault, FAULT_INPUT, "%s is on %s already", item->tag, carrying->to);
	}
	if (item->parent != ITEM_NO_PARENT && !carrying->with_whole && !carrying->alone) {
		const char *whole = inventory->items[item->parent].tag;
		return fault_set(fault, FAULT_INPUT,
		    "%s is part of %s: move %s and it goes along, or say %s and it is no "
		    "part of it after that",
		    item->tag, whole, whole, carrying->say);
	}
	return true;
}

/* One of a family; the first of it is what was named. */
static void
carry_one(struct life_planning *planning, const struct carrying *carrying, size_t index,
    bool named)
{
	struct life_row row = {.item = index, .moves = true};
	row.movement = life_movement(MOVE_CARRIED, carrying->on, carrying->note);
	row.movement.vessel = carrying->to;
	row.change = (struct item_change){
	    .set = 1U << FIELD_VESSEL,
	    .vessel = carrying->to,
	    .place = carrying->place == NULL ? "" : carrying->place,
	    .part_of = "",
	};
	if (named && !carrying->with_whole) {
		bool part = planning->inventory->items[index].parent != ITEM_NO_PARENT;
		row.change.set |= 1U << FIELD_PLACE | (part ? 1U << FIELD_PART_OF : 0U);
	}
	planning_add(planning, &row);
}

bool
carry(struct life_planning *planning, const struct carrying *carrying, size_t item,
    struct fault *fault)
{
	const struct inventory *inventory = planning->inventory;
	struct family family = {0};
	if (planning_has(planning, item)) {
		return true;
	}
	if (!check_carry(planning, carrying, &inventory->items[item], fault)) {
		return false;
	}
	family_of(inventory, item, planning->arena, &family);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		bool there = strcmp(inventory->vessels[inventory->items[at].vessel].name,
				 carrying->to) == 0;
		if (!there && !planning_has(planning, at)) {
			carry_one(planning, carrying, at, i == 0);
		}
	}
	return true;
}
