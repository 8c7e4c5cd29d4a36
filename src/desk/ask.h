/* What the questions share. Inside the desk room only. */
#ifndef BECKET_DESK_ASK_H
#define BECKET_DESK_ASK_H

#include "desk/questions.h"

/* Loads the book anew for a question, so that it is as it was written last and no earlier question
 * has changed what is seen of it. `vessel` as desk_load has it. */
MUST_CHECK bool ask_load(struct desk *desk, const char *vessel, enum left_gear left,
    bool with_withdrawn, struct fault *fault);

/* Loads anew what a question is about, withdrawn gear too; NULL for all of the book. */
MUST_CHECK bool ask_about(struct desk *desk, const struct book_part *about,
    enum left_gear left, struct fault *fault);

/* The same as ask_load, and makes the engine ready. */
MUST_CHECK bool ask_engine(
    struct desk *desk, const char *vessel, enum left_gear left, struct fault *fault);

/* FAULT_USAGE where days end before they begin. */
MUST_CHECK bool ask_in_order(struct span days, struct fault *fault);

/* What is asked of the years of some vessels as the book has it. `copy` as outlook_ask has it, made
 * with items_copy. */
struct outlook_ask ask_outlook(
    const struct desk *desk, struct item *copy, const size_t *vessels, size_t count);

/* A copy of all items that are loaded, for plans to be made with; in the desk's arena. */
struct item *items_copy(struct desk *desk);

/* A wish for gear with its kinds found. */
struct gear_sieve {
	const char *base;       /* NULL for any */
	struct word_list kinds; /* ids; none for any */
};

/* FAULT_INPUT where no kind is meant. */
MUST_CHECK bool gear_sieve(struct desk *desk, const struct gear_wish *wish,
    struct gear_sieve *out, struct fault *fault);

/* True for an item that passes, of those of the vessel that was loaded. */
bool gear_passes(const struct gear_sieve *sieve, const struct inventory *inventory,
    const struct item *item);

#endif
