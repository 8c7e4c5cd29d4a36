#include "cli/stores.h"

#include "cli/leaving.h"
#include "life/family.h"

#include <string.h>

bool
vessel_check(const struct context *context, const char *name, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *nearest = NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *known = inventory->vessels[i].name;
		if (strcmp(known, name) == 0) {
			return left_check(context, &inventory->vessels[i], fault);
		}
		nearest = nearest == NULL ? nearest_word(name, &known, 1) : nearest;
	}
	return fault_set(fault, FAULT_INPUT,
	    "there is no vessel \"%s\"%s%s%s; \"becket vessel\" lists them, \"becket "
	    "vessel NAME\" enters one",
	    name, nearest == NULL ? "" : " (did you mean \"",
	    nearest == NULL ? "" : nearest, nearest == NULL ? "" : "\"?)");
}

/* A base is known when a boat lies there. */
static bool
base_check(const struct context *context, const char *base, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	const char *nearest = NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *known = inventory->vessels[i].base;
		if (strcmp(known, base) == 0) {
			return true;
		}
		nearest = nearest == NULL ? nearest_word(base, &known, 1) : nearest;
	}
	return fault_set(fault, FAULT_INPUT,
	    "--spares: no vessel lies at \"%s\"%s%s; \"becket vessel NAME --base PLACE\" "
	    "says where one lies",
	    base, nearest == NULL ? "" : ", but one does at ",
	    nearest == NULL ? "" : nearest);
}

bool
store_need(struct context *context, const char *base, const char **vessel_out,
    struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	SCOPED_TEXT name = {0};
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		if (vessel->store && strcmp(vessel->base, base) == 0) {
			*vessel_out = vessel->name;
			return true;
		}
	}
	text_add_format(&name, "Spares at %s", base);
	const char *made = arena_string(&context->desk.arena, text_string(&name));
	const struct vessel_change change = {
	    .name = made,
	    .set = 1U << VESSEL_BASE | 1U << VESSEL_STORE,
	    .base = base,
	    .store = true,
	};
	*vessel_out = made;
	return base[0] != '\0' && base_check(context, base, fault) &&
	       book_put_vessel(context->desk.book, &change, fault);
}

bool
whole_check(const struct context *context, const char *tag, const char *vessel,
    const struct item *whole, struct fault *fault)
{
	const char *there = context->desk.contents.inventory.vessels[whole->vessel].name;
	return strcmp(vessel, there) == 0 ||
	       fault_set(fault, FAULT_INPUT,
		   "%s can't be part of %s: it is on %s, and %s on %s; say --vessel \"%s\", "
		   "or move %s first",
		   tag, whole->tag, vessel, whole->tag, there, there, whole->tag);
}

static bool
check_carry(const struct context *context, const struct carrying *carrying,
    const struct item *item, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (item->state == PLACE_WITHDRAWN) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is withdrawn; \"becket reserve --aboard %s\" brings it back first",
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
carry_one(struct context *context, const struct carrying *carrying, size_t index,
    bool named, struct life_plan *plan)
{
	struct life_step step = {.item = index, .moves = true};
	step.movement = life_movement(MOVE_CARRIED, carrying->on, carrying->note);
	step.movement.vessel = carrying->to;
	step.change = (struct item_change){
	    .set = 1U << FIELD_VESSEL,
	    .vessel = carrying->to,
	    .place = carrying->place == NULL ? "" : carrying->place,
	    .part_of = "",
	};
	if (named && !carrying->with_whole) {
		step.change.set |= 1U << FIELD_PLACE | 1U << FIELD_PART_OF;
	}
	life_add(context, plan, &step);
}

bool
carry(struct context *context, const struct carrying *carrying, size_t item,
    struct life_plan *plan, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct family family = {0};
	if (life_has(plan, item)) {
		return true;
	}
	if (!check_carry(context, carrying, &inventory->items[item], fault)) {
		return false;
	}
	family_of(inventory, item, &context->desk.arena, &family);
	for (size_t i = 0; i < family.count; i++) {
		size_t at = family.items[i];
		bool there = strcmp(inventory->vessels[inventory->items[at].vessel].name,
				 carrying->to) == 0;
		if (!there) {
			if (!life_has(plan, at)) {
				carry_one(context, carrying, at, i == 0, plan);
			}
		}
	}
	return true;
}
