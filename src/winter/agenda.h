/* The agenda: every obligation of a fleet in one flat list, with the winter it belongs to.
 * Pure, and flat in memory. */
#ifndef BECKET_WINTER_AGENDA_H
#define BECKET_WINTER_AGENDA_H

#include "due/due.h"

struct agenda_row {
	size_t item; /* index in the inventory */
	enum task task;
	enum state state;
	day_t due;          /* DAY_NONE when unknown or when nothing will lapse */
	day_t good_through; /* as in struct obligation */
	enum grade grade;
	enum doer doer;
	const char *rule;  /* the binding rule's id; "" when the date is unknown. Borrowed
			      * from the rulebook, or static */
	const char *sheet; /* the sheet it is in; "" for the item's own papers */
	enum anchor clock; /* what the binding clock counts from */
	int winter;        /* 0 for now or no winter, as winter_of_obligation */
	bool routine;
	bool asks;
	/* the tag of the working part for want of which it does not work; NULL or "" when
	 * it does. Borrowed from the inventory */
	const char *not_working;
	const char *missing; /* the name of what is not known: "made"; "" when nothing */
};

struct agenda {
	/* in the arena; lapsed and unknown first, then by due day, then as the inventory has
	 * them */
	struct agenda_row *items;
	size_t count;
	size_t capacity;
};

/* All obligations of all items of the inventory as seen from `today`, gear in reserve too
 * (who asks whether all is well leaves that out). */
MUST_CHECK bool agenda_make(const struct due_engine *engine, day_t today,
    struct arena *arena, struct agenda *out, struct fault *fault);

#endif
