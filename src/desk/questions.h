/* Every question as one function: what is asked in, an answer out. A face turns words or a form
 * into what is asked, and shows the answer; nothing is reckoned there.
 *
 * Each reads the book anew, with the gear of boats that have left as far as the question is about
 * it. So an answer, and what it borrows from desk->contents and desk->engine, holds until the next
 * question to the same desk, or desk_clear; who wants two at once takes two desks. Nothing is
 * written, and looking gives no day out. A fault or remark about a field names it as base/fault.h
 * has it. An empty book is no fault: desk->contents has no vessel then, and the answer is empty. */
#ifndef BECKET_DESK_QUESTIONS_H
#define BECKET_DESK_QUESTIONS_H

#include "desk/plans.h"
#include "due/suppose.h"
#include "winter/agenda.h"
#include "winter/dockets.h"

/* The winters the years are planned over where nobody says how many. */
enum { YEARS_WINTERS = 8 };

/* What comes ashore this winter, to whom, by when, and what can wait. */
struct winter_answer {
	struct shore_list *lists; /* one a vessel, in the inventory's order */
	size_t count;
	/* the same by station and day, all these vessels together */
	struct dockets going;  /* to be handed in */
	struct dockets landed; /* ashore already */
};

/* Answers for the vessels wished for. A single boat's list of the winter at hand also says where
 * the cheapest plan of the coming YEARS_WINTERS winters has it otherwise; with anything supposed,
 * or a winter named, it does not. FAULT_INPUT where no vessel, base or station is of that name. */
MUST_CHECK bool desk_winter(struct desk *desk, const struct plans_wish *asked,
    struct winter_answer *out, struct fault *fault);

/* Which gear is asked about; all of it where nothing is said. */
struct gear_wish {
	const char *vessel; /* NULL for any */
	const char *base;   /* NULL for any; today's */
	const char *kind;   /* in a person's words; NULL for any */
};

/* What there is. */
struct list_asked {
	struct gear_wish gear;
	int state; /* an enum place_state; -1 for any but withdrawn */
	bool all;  /* what was withdrawn, too, and gear of boats that have left */
};

struct list_answer {
	const struct kinds *kinds;
	const size_t *items; /* in the inventory's order */
	size_t count;
};

MUST_CHECK bool desk_list(struct desk *desk, const struct list_asked *asked,
    struct list_answer *out, struct fault *fault);

/* What is due, and when. */
struct due_asked {
	struct gear_wish gear;
	int state;       /* an enum state; -1 for any */
	int within_days; /* what is in date only where it is due by then; -1 for any day */
	bool
	    all; /* else, and where neither of the above is said, what is in date and not due
		   * within twelve months is counted only */
	bool routine; /* routines, too */
};

struct due_answer {
	struct agenda agenda;
	size_t later; /* tasks left out, for they are due after `until` */
	day_t until;  /* twelve months from today */
	bool wrong;   /* something in it is not in date, and is not in reserve */
};

MUST_CHECK bool desk_due(struct desk *desk, const struct due_asked *asked,
    struct due_answer *out, struct fault *fault);

/* How that would change if something else held of a vessel from a day on. */
struct suppose_asked {
	struct gear_wish gear;
	struct supposed supposed;
	bool routine;
};

/* Rows by item. FAULT_INPUT for a sheet that is not there. */
MUST_CHECK bool desk_suppose(struct desk *desk, const struct suppose_asked *asked,
    struct change_rows *out, struct fault *fault);

#endif
