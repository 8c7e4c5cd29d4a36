/* Inside the muster room: a choice among spares. Not for other rooms. */
#ifndef BECKET_MUSTER_CURE_SEARCH_H
#define BECKET_MUSTER_CURE_SEARCH_H

#include "muster/count.h"

/* A spare that would count aboard her. */
struct spare {
	size_t item;
	int *worth; /* in each shortage, by itself: the most it can add */
	bool used;
};

/* The search. All borrowed, or in the scratch arena. What pieces are worth is added up; where
 * a line has a limit, or must do without its largest piece, that is the most there can be,
 * and a choice that seems to do is tried by mustering her with it. */
struct search {
	const struct due_engine *engine;
	const struct muster *muster;
	size_t *tried; /* items of one trial */
	bool *limited; /* shortages of lines whose pieces don't simply add up */
	struct fault *fault;
	bool failed; /* memory ran out; the fault says so */
	const struct muster_shortage *shortages;
	size_t shortage_count;
	struct spare *spares;
	size_t spare_count;
	int *gained;    /* points for each shortage by what is used */
	bool *hopeless; /* not to be met by all spares together */
	size_t choices;
};

/* Uses the fewest spares that do, by trying one, then two, then three ...; true when the number
 * is certain. */
bool cure_find_fewest(struct search *search);

#endif
