/* What if: a boat as she would be if something else held of her from a day on, and what
 * that would change of her gear's dates. Nothing is written anywhere: the answers are those
 * the engine gives over a copy of the boat.
 *
 * Pure: no clock is read, the day is an argument. */
#ifndef BECKET_DUE_SUPPOSE_H
#define BECKET_DUE_SUPPOSE_H

#include "due/due.h"

/* What is supposed of a vessel from a day on, each until the next day for which something
 * else is on record of it: as the book would have it after the same words were entered. */
struct supposition {
	day_t from;
	unsigned
	    says; /* SAYS_ bits of what below is supposed; with SAYS_SHEETS the rulebook
			   * is of the sheets supposed, which she follows at all times */
	enum use use;     /* with SAYS_USE */
	const char *area; /* with SAYS_AREA; borrowed */
	int persons;      /* with SAYS_PERSONS; 0 not known */
	/* with SAYS_SHEETS: names, borrowed; none when the rulebook holds what she follows at
	 * all times */
	const char *const *sheets;
	size_t sheet_count;
};

/* Copies the vessel with the supposition among her periods. The periods are in `arena`, all
 * else is borrowed from the vessel. */
void vessel_suppose(const struct vessel *vessel, const struct supposition *supposition,
    struct arena *arena, struct vessel *out);

/* How one task stands, seen from today. */
struct change_side {
	bool
	    there; /* there is such a task, and some day it will lapse, or something is asked for */
	enum state state; /* STATE_IN_DATE when not there */
	day_t due;        /* as in struct obligation; DAY_NONE when not there */
	day_t good_through;
	enum grade grade;
	const char *rule;    /* id of the rule that binds; "" when none does. Borrowed */
	const char *missing; /* name of what is not known: "made"; "" when nothing */
};

/* One task of one item, as it is and as it would be. */
struct change {
	size_t item; /* index in the inventory */
	enum task task;
	bool routine;
	struct change_side now;
	struct change_side then;
	enum state on_the_day; /* as it would be on the day of the switch if nothing were
				* done; a switch that is past is looked at today */
	bool must;    /* it would not be in date on that day, so it must be done before */
	bool cannot;  /* ... but even done on the last day it would not be */
	bool printed; /* ... and what is printed on the new one decides */
	/* first day on which doing it makes it in date on the switch day; DAY_NONE
	 * when nothing must be done or nothing can */
	day_t not_before;
	day_t by; /* last day to do it: the day before the switch, or today when
			   * that is past; DAY_NONE as above */
};

/* Changes of one item in task order; in the arena. */
struct changes {
	struct change *items;
	size_t count;
};

/* Changes of many items, in the arena they are gathered in. Starts as `{ 0 }`. */
struct change_rows {
	struct change *items;
	size_t count;
	size_t capacity;
};

/* What is supposed, for who has to word it. */
struct supposed {
	struct supposition supposition;
};

/* Two engines over the same items: as she is, and as she would be from a day on. */
struct what_if {
	const struct due_engine *now;
	const struct due_engine *then; /* other vessels or rulebooks, the same items */
	day_t from;                    /* the day of the switch */
	day_t today;
};

/* Every task of an item that is there before or after. Doing it is tried day by day with
 * due_if_done; a task done later never lapses sooner, so the first day is found by halving. */
void changes_of_item(
    const struct what_if *what_if, size_t item, struct arena *arena, struct changes *out);

/* Adds those of an item to `rows`, in `arena`; routines only where they are wanted, too. */
void changes_add(const struct what_if *what_if, size_t item, bool routine,
    struct arena *arena, struct change_rows *rows);

/* True when the task stands otherwise than before: its state, its days, or that it is asked
 * for at all. */
bool change_matters(const struct change *change);

#endif
