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

#endif
