/* Inside the muster room: what its files share. Not for other rooms. */
#ifndef BECKET_MUSTER_COUNT_H
#define BECKET_MUSTER_COUNT_H

#include "muster/muster.h"

/* Why a piece counts or does not. */
enum count_state {
	COUNT_YES,
	COUNT_REMARK, /* counts, though lapsed by common practice */
	COUNT_LAPSED,
	COUNT_UNKNOWN,
};

/* A piece that is there, and the days on which it does not simply count. */
struct piece {
	size_t item;
	struct spans lapsed;   /* at grade law or maker */
	struct spans unknown;  /* a date is not known */
	struct spans practice; /* lapsed by common practice */
};

struct pieces {
	struct piece *items; /* in the arena */
	size_t count;
};

/* The pieces of a vessel that are aboard or standing in and of a kind that some line of hers
 * takes, seen from `today`. */
MUST_CHECK bool pieces_gather(const struct due_engine *engine, size_t vessel, day_t today,
    struct arena *arena, struct pieces *out, struct fault *fault);

enum count_state piece_on(const struct piece *piece, day_t day);

/* What one piece of a kind is worth in a line; 0 nothing. */
int line_points(const struct carriage *line, const char *kind);

/* Whether a line holds for a vessel on a day: 1 it does, 0 not, -1 can't be told; then
 * `*asks` is what must be known. */
int line_holds(const struct vessel *vessel, const struct carriage *line, day_t day,
    const char **asks);

/* The need of a line for so many persons. */
int line_need(const struct carriage *line, int persons);

#endif
