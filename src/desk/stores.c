#include "desk/stores.h"

#include "base/words.h"
#include "book/putting.h"

#include <string.h>

bool
left_check_on(const struct vessel *vessel, day_t day, struct fault *fault)
{
	char left[DAY_WORDS_SIZE];
	return vessel_is_here(vessel, day) ||
	       fault_set(fault, FAULT_INPUT,
		   "%s left on %s; if she did not, \"becket vessel '%s' " FIELD
		   "back\" first",
		   vessel->name, day_words(vessel->left, left), vessel->name);
}

bool
left_check(const struct desk *desk, const struct vessel *vessel, struct fault *fault)
{
	return left_check_on(vessel, desk->today, fault);
}

bool
left_check_named(const struct desk *desk, const char *vessel, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; vessel != NULL && i < inventory->vessel_count; i++) {
		if (strcmp(inventory->vessels[i].name, vessel) == 0) {
			return left_check(desk, &inventory->vessels[i], fault);
		}
	}
	return true;
}

bool
vessel_check(const struct desk *desk, const char *name, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const char *nearest = NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *known = inventory->vessels[i].name;
		if (strcmp(known, name) == 0) {
			return left_check(desk, &inventory->vessels[i], fault);
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
base_check(const struct desk *desk, const char *base, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const char *nearest = NULL;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const char *known = inventory->vessels[i].base;
		if (strcmp(known, base) == 0) {
			return true;
		}
		nearest = nearest == NULL ? nearest_word(base, &known, 1) : nearest;
	}
	return fault_set(fault, FAULT_INPUT,
	    FIELD "spares: no vessel lies at \"%s\"%s%s; \"becket vessel NAME " FIELD
		  "base PLACE\" "
		  "says where one lies",
	    base, nearest == NULL ? "" : ", but one does at ",
	    nearest == NULL ? "" : nearest);
}

bool
store_find(struct desk *desk, const char *base, struct store *out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		if (vessel->store && strcmp(vessel->base, base) == 0) {
			*out = (struct store){.name = vessel->name, .base = base};
			return true;
		}
	}
	const char *made = arena_format(&desk->arena, "Spares at %s", base);
	*out = (struct store){.name = made, .base = base, .fresh = true};
	return base[0] != '\0' && base_check(desk, base, fault);
}

bool
store_make(struct desk *desk, const struct store *store, struct fault *fault)
{
	const struct vessel_change change = {
	    .name = store->name,
	    .set = 1U << VESSEL_BASE | 1U << VESSEL_STORE,
	    .base = store->base,
	    .store = true,
	};
	return !store->fresh || book_put_vessel(desk->book, &change, fault);
}

bool
whole_check(const struct desk *desk, const char *tag, const char *vessel,
    const struct item *whole, struct fault *fault)
{
	const char *there = desk->contents.inventory.vessels[whole->vessel].name;
	return strcmp(vessel, there) == 0 ||
	       fault_set(fault, FAULT_INPUT,
		   "%s can't be part of %s: it is on %s, and %s on %s; say " FIELD
		   "vessel \"%s\", "
		   "or move %s first",
		   tag, whole->tag, vessel, whole->tag, there, there, whole->tag);
}
