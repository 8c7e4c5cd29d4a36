/* The shore lists of vessels, for the question of the winter, the calendar and the shore
 * papers. */
#ifndef BECKET_DESK_PLANS_H
#define BECKET_DESK_PLANS_H

#include "desk/desk.h"
#include "winter/winter.h"

/* Whose lists are wanted, and of which winter. */
struct plans_wish {
	const char *vessel; /* NULL for all */
	const char *base;   /* NULL for all; vessels of this base */
	bool offered; /* the base is one of the book's, though none may lie there then */
	const struct word_list
	    *boats;                  /* NULL for all; those of these that have no base */
	int year;                    /* 0 for the winter each is in, or else her next */
	const char *without_station; /* NULL, or one that is not to be used */
	const char *only_station;    /* NULL, or the only one to be used */
	int most_trips;              /* in a winter; 0 as the vessels say */
	/* what a person chose about hand-ins, where it is read already */
	const struct reminder_choices *choices;
};

/* Makes the shore lists of the vessels wished for, in the inventory's order. All vessels
 * of their bases are planned with them, since they share trips, and the whole fleet where
 * a station takes only so many pieces a week; so a vessel's list is the same whoever else
 * is asked about. A vessel's base is the one of the winter (desk_see_winter). Loads the
 * book and readies the engine. In the desk's arena. FAULT_INPUT when there is no such
 * vessel, base or station. */
MUST_CHECK bool plans_make(struct desk *desk, const struct plans_wish *wish,
    struct shore_list **lists_out, size_t *count_out, struct fault *fault);

/* True when the vessel, with the base that desk_see_day or desk_see_winter gave her, is
 * one of those wished for. */
bool plans_want(const struct plans_wish *wish, const struct vessel *vessel);

/* True when a station has a weekly limit, so that every vessel's plan depends on every
 * other's. The book must be loaded. */
bool plans_are_one(const struct desk *desk);

#endif
