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

/* A part without which a piece works, and the days on which it has lapsed. */
struct piece_part {
	size_t item;
	struct spans lapsed;
};

/* A piece that is there, and the days on which it does not simply count. */
struct piece {
	size_t item;
	int only;              /* so many of the lot are there; 0 all of it */
	struct spans lapsed;   /* at grade law or maker */
	struct spans unknown;  /* a date is not known */
	struct spans practice; /* lapsed by common practice */
	/* in the arena; those that lapse some day, for remarks */
	struct piece_part *parts;
	size_t part_count;
};

struct pieces {
	struct piece *items; /* in the arena */
	size_t count;
};

/* The pieces of a vessel that are aboard or standing in and of a kind that some line of hers
 * takes, seen from `today`. */
MUST_CHECK bool pieces_gather(const struct due_engine *engine, size_t vessel, day_t today,
    struct arena *arena, struct pieces *out, struct fault *fault);

/* One piece as if it were aboard a vessel: in a store, it may be lent to her. */
MUST_CHECK bool piece_read(const struct due_engine *engine, size_t item, size_t vessel,
    day_t today, struct arena *arena, struct piece *out, struct fault *fault);

/* Whether what a reading says outweighs common practice. */
bool reading_binds_count(const struct reading *reading);

/* Whether an obligation counts for an item: a routine binds who keeps it in the book. */
bool obligation_counts(const struct item *item, const struct obligation *obligation);

/* Whether an item, and all it is part of, is where it is said to be: not landed, not in
 * reserve, not gone. */
bool item_is_there(const struct inventory *inventory, size_t item);

/* The day after `day` on which the piece stops counting; DAY_NEVER when none is. It counts
 * on `day`. */
day_t piece_lapses(const struct piece *piece, day_t day);

enum count_state piece_on(const struct piece *piece, day_t day);

/* True when pieces of the kind may serve a line. */
bool line_takes(const struct carriage *line, const char *kind);

/* What one piece is worth in a line by itself; 0 nothing. Where that can't be told, `*asks` names what must be known of the item: "rating", "capacity",
 * "place"; else it is "". */
int line_worth_each(
    const struct carriage *line, const struct item *item, const char **asks);

/* The same of an item, which may be a lot of several. */
int line_worth(const struct carriage *line, const struct item *item, const char **asks);

/* True when what counts in a line does not simply add up: it has a limit on some pieces, or
 * does without its largest. */
bool line_is_limited(const struct carriage *line);

/* What the counted items, indices into `items`, are worth in a line together; there are
 * `quantities` of them. */
int line_total(const struct carriage *line, const struct item *items,
    const size_t *counted, const int *quantities, size_t count);

/* True when both are in one group of alternatives; when both are, and needed together there. */
bool lines_alternate(const struct carriage *a, const struct carriage *b);
bool lines_together(const struct carriage *a, const struct carriage *b);

/* Whether a line holds for a vessel on a day: 1 it does, 0 not, -1 can't be told; then
 * `*asks` is what must be known. */
int line_holds(const struct vessel *vessel, const struct carriage *line, day_t day,
    const char **asks);

/* The need of a line for so many persons. */
int line_need(const struct carriage *line, int persons);

/* Spares moved to her for another reason: they are as if aboard. */
struct cure_given {
	struct muster_move *moves;
	size_t count;
};

/* muster_vessel, with these pieces as if they were aboard her. */
MUST_CHECK bool muster_with(const struct due_engine *engine, size_t vessel,
    struct span days, struct cure_given extra, struct arena *arena, struct muster *out,
    struct fault *fault);

/* muster_vessel, with these pieces and no others; they must be readable until it returns. What
 * is needed on the way is taken from `scratch`. */
void muster_of_pieces(const struct due_engine *engine, size_t vessel, struct span days,
    struct pieces pieces, struct arena *scratch, struct arena *arena, struct muster *out);

#endif
