/* Gear that goes for good, with its parts. Pure. */
#ifndef BECKET_LIFE_WITHDRAWING_H
#define BECKET_LIFE_WITHDRAWING_H

#include "life/planning.h"

struct withdrawing {
	enum because because;
	day_t on;
	const char *certificate; /* the paper that says so; NULL or "" for none */
	const char *note;
	const char *station; /* who said so; NULL or "" for none */
	enum result result;  /* condemned at a station: that */
	int64_t price_minor; /* what finding it out cost; -1 when not known */
	const bool *kept;    /* parts that stay, one mark an item of the inventory */
};

/* Plans the withdrawal of an item and its parts. A part that is kept leaves the item: it
 * stands aboard, or in reserve if it did, and is part of nothing. FAULT_INPUT when the item
 * is withdrawn already. */
MUST_CHECK bool withdraw(struct life_planning *planning, const struct withdrawing *how,
    size_t item, struct fault *fault);

/* Remarks on hired gear that stands in for this item. */
void note_stand_ins(struct life_planning *planning, size_t item, bool back);

#endif
