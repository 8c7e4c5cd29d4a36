/* The muster: what is aboard counted against what a vessel's sheets say must be carried.
 *
 * A piece counts on a day when it is aboard or standing in (and so is all it is part of),
 * every date its tasks need is known, and nothing has lapsed at grade law or maker: a rule
 * of that grade, the date marked on it, its certificate, the end of its hire, or an event after
 * which it is out.
 * A piece counts only while it works: a working part of it (the kinds catalogue names them)
 * that has lapsed at such a grade, that such a rule should date and can't, or that is ashore
 * or gone takes it out; a part never entered takes nothing out.
 * What has lapsed by common practice alone is counted and named, and so is a lapsed part of
 * another sort, such as a light. A pyrotechnic
 * without any date to go by is of unknown date. A routine counts only where it was ever
 * recorded for the piece. Reserve, landed and withdrawn gear never counts.
 *
 * All days are seen from the first day asked about: a record of a later day has not happened.
 * A condition about the vessel that can't be told is not assumed either way: the line is
 * not told, names what it asks for, and the vessel is not all right.
 *
 * Pure: no clock is read, the day is an argument. */
#ifndef BECKET_MUSTER_MUSTER_H
#define BECKET_MUSTER_MUSTER_H

#include "base/text.h"
#include "due/due.h"

/* Indices into the inventory's items, in its order. */
struct muster_items {
	size_t *items; /* in the arena */
	size_t count;
};

/* A piece that would serve a line if more were known of it. */
struct muster_untold {
	size_t item;
	const char *asks; /* "rating", "capacity", "place": the column to fill in */
};

/* One carriage line that holds, or may hold, on the day. */
struct muster_line {
	const struct carriage *line; /* borrowed from the rulebook */
	const char *asks; /* "persons", "length", "area", "built": what must be known
			   * to tell the line; "" when it is told */
	int need;         /* points; 0 when not told */
	int have;         /* points of what is counted */
	int missing;      /* need less have, 0 or more; 0 when one more of its group of
			   * alternatives is met */
	struct muster_items counted;
	struct muster_items lapsed;  /* aboard, but lapsed at grade law or maker */
	struct muster_items unknown; /* aboard, but a date is not known */
	struct muster_items remarks; /* counted, but lapsed by common practice */
	/* lapsed parts, at any grade, of what is counted, which works without them: a light */
	struct muster_items parts;
	/* in the arena; in date, but not counted for want of what is asked */
	struct muster_untold *untold;
	size_t untold_count;
};

/* A line that is short on some of the days asked about. Of a group of alternatives all are
 * here, when none is met. */
struct muster_shortage {
	const struct carriage *line; /* borrowed from the rulebook */
	day_t from;                  /* the first such day */
	int most;                    /* the most points it is short of on any of them */
};

/* A piece that counts on the first day asked about, and not for ever. */
struct muster_lapse {
	size_t item;
	day_t last;       /* the last day it counts; it may count again later */
	bool counted;     /* a line that holds on that day or the next takes it */
	bool makes_short; /* on the next day such a line is short of more */
};

/* How many of the next lapses are told. */
enum { MUSTER_LAPSES_MOST = 10 };

/* So many pieces of an item in a store; of a lot perhaps not all. */
struct muster_move {
	size_t item; /* index in the inventory */
	int quantity;
};

/* What a store at her base could lend. */
struct muster_cure {
	struct muster_move *moves; /* in the order of the inventory; in the arena */
	size_t count;
	bool cures; /* with these aboard no line is short on any day asked about; one that
		      * is not told stays so */
	bool fewest; /* no smaller number of pieces does as much; else they were found by
		      * taking the most useful first, for there were too many to try */
};

/* A subject of which none of her carriage lines is, on the day told of: she may lack all of it
 * and be short of nothing. */
struct muster_silence {
	enum carriage_subject subject;
	/* whom her sheets say to ask, each once, in the arena; none where they do not say */
	const char **ask;
	size_t ask_count;
};

/* One vessel's muster. */
struct muster {
	size_t vessel;     /* index in the inventory */
	struct span days;  /* the days asked about */
	bool has_lines;    /* her sheets have carriage lines at all */
	bool ok;           /* on every day asked about each line that holds is met, all
			     * are told, and there is one */
	day_t on;          /* the day `lines` are of: the first day on which not all is
			     * right, else the first day asked about */
	day_t first_short; /* the first such day of those asked about; DAY_NONE when ok */
	day_t good_through; /* the last day before that changes, from the first day asked
			     * about; DAY_NONE when it is not all right then, DAY_NEVER
			     * when it never changes */
	struct muster_line *lines; /* in the arena */
	size_t line_count;
	/* in the arena; by first day, then sheet order */
	struct muster_shortage *shortages;
	size_t shortage_count;
	struct muster_lapse *lapses; /* in the arena; the next ones, by day */
	size_t lapse_count;
	struct muster_cure cure;            /* empty until muster_cure */
	const struct not_stated **subjects; /* in the arena; what must be carried of which
					     * her sheets have no figure, on that day */
	size_t subject_count;
	struct muster_silence
	    *silences; /* in the arena; in the order of enum carriage_subject */
	size_t silence_count;
};

/* Musters a vessel on every day from days.first to days.last (the same for one day).
 * Everything in `out` lives in `arena`, or as long as the engine. */
void muster_vessel(const struct due_engine *engine, size_t vessel, struct span days,
    struct arena *arena, struct muster *out);

/* The days of a span on which not all is right aboard a vessel, as in muster_vessel of
 * that span; in the arena. Her gear is read once, however many days there are. */
void muster_short_days(const struct due_engine *engine, size_t vessel, struct span days,
    struct arena *arena, struct spans *out);

/* What a muster was asked: one span for all, or each boat's own season. */
struct muster_question {
	struct span days; /* over all boats, from the earliest to the latest */
	bool season;      /* each muster's own days are her season */
};

/* Looks for spares that would cure the shortages of some vessels, and fills each one's cure:
 * pieces in the stores of her base that are no part of another, and would count aboard her,
 * under her own sheets and use, on every day from her first shortage to the last day asked
 * about. Pieces are counted: a lot may go to several vessels, so many to each, and no piece is
 * promised twice. A lot with parts goes as a whole and counts as one, for which part belongs
 * to which piece is not known.
 *
 * Who has a booking soonest is served first, one that is running before one to come;
 * those without a booking come after, who is first short first. Of two alike the first of
 * `musters`. First each vessel gets what makes her whole, if what is left there does;
 * then those that can't be made whole get what meets lines of theirs or leaves less
 * missing in them. Of alternatives of which none can be met nothing is moved: half of one
 * is worth no more than none. */
void muster_cure(const struct due_engine *engine, struct muster *musters, size_t count,
    struct arena *arena);

/* Adds the words that a person types to do a move: "becket move FL-1 --quantity 2 --vessel
 * Egret", without a quantity where it takes all there are. */
void muster_move_words(const struct inventory *inventory, const struct muster_move *move,
    size_t vessel, struct text *out);

/* Why one piece counts in a line, or does not. */
enum piece_reason {
	PIECE_COUNTS,
	PIECE_REMARKED,  /* counts, though lapsed by common practice */
	PIECE_LAPSED,    /* at grade law or maker */
	PIECE_NOT_KNOWN, /* a date is not known */
	PIECE_UNTOLD,    /* its rating, capacity or place must be known */
	PIECE_UNFIT,     /* it has not the rating, size or place that is asked for */
	PIECE_RESERVE,   /* it, or what it is part of, is in reserve */
	PIECE_LANDED,    /* ... is ashore */
	PIECE_WITHDRAWN, /* ... is gone for good */
};

struct piece_why {
	size_t item;
	int worth; /* points if it counts */
	enum piece_reason reason;
	enum task task; /* the task that lapsed or is not known; of a remark, the one of
			 * common practice */
	/* the clock that ran out first; NULL where none did */
	const struct reading *reading;
	const char *missing; /* name of what is not known: "made", "rating"; "" when
			      * nothing */
	/* the working part that keeps it from counting, and what is wrong with that; its tag,
	 * "" and PART_FINE where it is the piece's own dates */
	const char *part;
	enum part_trouble trouble;
	day_t last; /* the last day it counts, seen from the day asked about; DAY_NEVER
		     * when it goes on; DAY_NONE when it does not count then */
};

/* One line explained. */
struct line_why {
	size_t vessel;
	day_t on;
	const struct carriage *line;
	bool holds;              /* or may hold: then `told` says which */
	struct muster_line told; /* as in the muster of that day; zeroed when it does not
				  * hold */
	int persons;             /* hers on that day; 0 not known */
	/* everything of hers that a line like this takes, in the order of the
	 * inventory; in the arena */
	struct piece_why *pieces;
	size_t count;
};

/* Explains a line of a vessel's sheets, by its id, on a day. FAULT_INPUT with the ids there
 * are when none of hers has this one. Everything in `out` lives in `arena` or as long as the
 * engine. */
MUST_CHECK bool muster_why(const struct due_engine *engine, size_t vessel,
    const char *line, day_t day, struct arena *arena, struct line_why *out,
    struct fault *fault);

#endif
