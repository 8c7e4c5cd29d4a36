/* Inside the muster room: a choice among spares. Not for other rooms. */
#ifndef BECKET_MUSTER_CURE_SEARCH_H
#define BECKET_MUSTER_CURE_SEARCH_H

#include "muster/cure.h"

/* A spare that would count aboard her: a piece, or a lot of which so many are free. What moves
 * at once is one piece, or all of a lot with parts. */
struct spare {
	size_t item;
	int step;   /* pieces that move at once */
	int steps;  /* so often */
	int used;   /* of them */
	int *worth; /* of one step in each shortage, by itself: the most it can add */
};

/* The search. All borrowed, or in the scratch arena. What pieces are worth is added up; where
 * a line has a limit, or must do without its largest piece, that is the most there can be,
 * and a choice that seems to do is tried by mustering her with it. */
struct cure_search {
	const struct due_engine *engine;
	const struct muster *muster;
	struct cure_given given;   /* aboard in every trial */
	struct muster_move *tried; /* what is given, and what moves in one trial */
	bool *limited; /* shortages of lines whose pieces don't simply add up */
	struct fault *fault;
	const struct muster_shortage *shortages;
	size_t shortage_count;
	struct spare *spares;
	size_t spare_count;
	int *gained;    /* points for each shortage by what is used */
	int *missing;   /* points for each shortage in the last trial */
	bool *hopeless; /* not to be met by all spares together */
	size_t choices;
};

/* Finds out, by mustering her with them, what all spares together can't meet: those shortages
 * are hopeless. True when there are others. */
bool cure_has_hope(struct cure_search *search);

/* After that: uses what makes the hopeless ones smaller, and no piece that doesn't. True when
 * there is any. */
bool cure_take_parts(struct cure_search *search);

/* After that: uses the fewest more pieces that meet the others, by trying one, then two, then three
 * ...; true when the number is certain. */
bool cure_find_fewest(struct cure_search *search);

/* Lists in `moves`, which has room for all spares, what is used; returns how many. */
size_t cure_moves(const struct cure_search *search, struct muster_move *moves);

#endif
