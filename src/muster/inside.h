/* Inside the muster: counting gear against lines, the roll call of a day, and cures. Not
 * for other rooms. */
#ifndef BECKET_MUSTER_INSIDE_H
#define BECKET_MUSTER_INSIDE_H

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
void pieces_gather(const struct due_engine *engine, size_t vessel, day_t today,
    struct arena *arena, struct pieces *out);

/* One piece as if it were aboard a vessel: in a store, it may be lent to her. */
void piece_read(const struct due_engine *engine, size_t item, size_t vessel, day_t today,
    struct arena *arena, struct piece *out);

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

/* What one piece is worth in a line by itself; 0 nothing. Where that can't be told,
 * `*asks` names what must be known of the item: "rating", "capacity", "place"; else it is
 * "". */
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
void muster_with(const struct due_engine *engine, size_t vessel, struct span days,
    struct cure_given extra, struct arena *arena, struct muster *out);

/* muster_vessel, with these pieces and no others; they must be readable until it returns. What
 * is needed on the way is taken from `scratch`. */
void muster_of_pieces(const struct due_engine *engine, size_t vessel, struct span days,
    struct pieces pieces, struct arena *scratch, struct arena *arena, struct muster *out);

/* What a piece is worth in a line, and what must be known of it, as line_worth has them. */
struct piece_worth {
	int worth;
	const char *asks;
};

/* A vessel being mustered. All borrowed. */
struct roll {
	const struct due_engine *engine;
	const struct vessel *vessel;
	const struct carriage *const *lines;
	size_t line_count;
	struct pieces pieces;
	/* of all pieces in the first line, then in the next; this and below in the scratch */
	struct piece_worth *worths;
	struct muster_line *found; /* room for all lines */
	size_t found_count;
	struct muster_shortage *shortages; /* room for all lines */
	size_t shortage_count;
	struct muster_lapse *lapses; /* room for all pieces */
	size_t lapse_count;
	int *quantities; /* room for all pieces: how many there are of each counted one */
	int *missing[2]; /* of every line, on a day and on the day after it */
};

/* Makes room in the arena for every line, with lists as long as there are pieces, and finds what
 * each piece is worth. */
void roll_room(struct roll *roll, struct arena *arena);

/* Musters one day into roll->found; true when all is right. */
bool roll_day(struct roll *roll, day_t day);

/* Lists in roll->lapses the pieces that count on `first`, in the order in which they stop.
 * What roll->found holds after it is another day's. */
void roll_lapses(struct roll *roll, day_t first);

/* Fills muster->silences: the subjects of which none of the lines is that hold for her on
 * muster->on, or may hold. */
void roll_silences(const struct roll *roll, struct arena *arena, struct muster *muster);

/* Fills one vessel's cure from what is not taken, and takes it; with `wholly` only when that
 * leaves no shortage. `muster` is hers with what is given; `taken` counts pieces by item of the
 * inventory. */
void cure_one(const struct due_engine *engine, struct muster *muster,
    struct cure_given given, bool wholly, int *taken, struct arena *arena);

/* A spare that would count aboard her: a piece, or a lot of which so many are free. What moves
 * at once is one piece, or all of a lot with parts. */
struct spare {
	size_t item;
	int unit;   /* pieces that move at once */
	int units;  /* how many of them there are */
	int used;   /* of them */
	int *worth; /* of one unit in each shortage, by itself: the most it can add */
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
