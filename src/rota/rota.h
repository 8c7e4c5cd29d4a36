/* The rota: for boats in use all year there is no winter, so their services are
 * staggered. Every piece that a station must see within some days is given a day to be
 * handed in, so that on every day each boat's muster holds while gear is away: where
 * she would be short without a piece, a spare of her base stands in, or a hired one.
 * Pure.
 *
 * How it is made, and what is proven:
 *   - Pieces of one base, kind, rating and quantity are planned together, for a spare
 *     of the same stands in for any of them if it is for as many persons; and each
 *     such group by itself, one after the other, weekly limits counting over all of
 *     them.
 *   - A piece may go from the first day on which doing it then carries past the last
 *     day asked about, to the day it is due: the day before any window, as everywhere
 *     in the planning; the musters read the window's end. Where no day carries so far
 *     it may go on any day, is planned once, and the line says when it is due again.
 *   - Nothing is handed in on a day on which one of the boats asked about does not go;
 *     where some say their days of the week, on those that all of these have, or on
 *     any of them.
 *   - What has lapsed, is of unknown date, or is past its due day inside its window,
 *     goes on the first day a station takes it.
 *   - Gear goes ashore only between a boat's bookings: from the hand-in to the
 *     collect, both days too, she has none. What has lapsed goes on the first day that
 *     is so.
 *   - What is renewed at its service by a printed date, a beacon's battery or a raft's
 *     contents, is taken to have a new one as far ahead as printed_life_months
 *     (outlook.h) has it.
 *   - What she can do without is found by mustering her without it; of kinds that
 *     serve a line together no more are away at once than of either alone. A boat
 *     whose sheets have no carriage lines, or whose lines can't be told, is taken to
 *     need all of it.
 *   - A spare stands in only on days on which it counts aboard every boat of the
 *     group.
 *   - The fewest spares, then as late as does, is src/rota/slots.h's part, with the
 *     proof.
 *   - In the end every boat is mustered on every day of the plan, with what is away
 *     not counted, what stands in counted and what is back counted as serviced. A
 *     shortage found there that would be without the rota too is told apart from one
 *     the rota makes. */
#ifndef BECKET_ROTA_ROTA_H
#define BECKET_ROTA_ROTA_H

#include "rota/slots.h"
#include "winter/winter.h"

/* What is asked. All borrowed. */
struct rota_ask {
	const struct due_engine *engine;
	const struct station *stations;
	size_t station_count;
	day_t today;
	struct span days;      /* of the rota: from today on, or later */
	const size_t *vessels; /* in use all year; in the inventory's order */
	size_t vessel_count;
	const char *const *kinds; /* ids; none: every kind */
	size_t kind_count;
	int stand_ins; /* so many more of each group may be hired, in date throughout */
	int most_away; /* pieces of a group ashore at once; 0 for no limit */
	int together_days; /* go along with a trip up to so many days earlier */
	size_t most_looks; /* as slots_solve has it */
	/* What was given out before, as the shore lists have it now: a piece whose
	 * hand-in lies in the days of the rota keeps it, at that station on that day.
	 * Where no spare is left for it then, or that day does not serve, nothing
	 * stands in for it, and the group is not possible. */
	const struct settled_hand_in *settled;
	size_t settled_count;
};

/* What stands in for a piece that is away. */
enum rota_cover {
	ROTA_BARE,  /* nothing: she can do without it */
	ROTA_SPARE, /* a spare of the book */
	ROTA_HIRED, /* one to be hired or lent */
	ROTA_NOT, /* nothing, though she needs it: there is no day for it, or none on the day
		     * it was given out for */
};

/* The slot of one piece. */
struct rota_line {
	size_t item;      /* its parts go along */
	unsigned tasks;   /* 1 << enum task for each a station is to do, its parts' too */
	enum state state; /* of the work due first, as seen from the first day */
	day_t due;      /* the day it is due by, before any window; DAY_NONE not known */
	day_t due_last; /* the day the last of its work is due by */
	day_t
	    good_through; /* the last day it is in date, in a window too; DAY_NONE likewise */
	day_t first;      /* not handed in before it */
	day_t last;       /* nor after it, to be in time */
	size_t station; /* index; NO_STATION for one nobody has entered, or none */
	bool planned;   /* there is a day for it */
	bool late;      /* that day is after `last` */
	day_t hand_in;
	day_t collect;
	enum rota_cover cover;
	/* the spare, with ROTA_SPARE; the number of the hired one, from 1, with
	 * ROTA_HIRED */
	size_t cover_item;
	/* the day it is due by again when serviced then; DAY_NEVER, or DAY_NONE
	 * where that can't be known */
	day_t again;
};

/* What would help where a group can't be done in time. Each was tried out. */
enum rota_fix_kind {
	FIX_SPARES,     /* `number` more spares or stand-ins */
	FIX_STATION,    /* the station at `station` besides */
	FIX_TURN_ROUND, /* a turn-round of at most `number` days */
	FIX_EARLIER, /* going before the first days, though due again within the rota */
	FIX_AWAY,    /* at most `number` ashore at once */
	FIX_WEEKLY,  /* stations that take in `number` pieces a week */
	FIX_START,   /* a rota that begins on `day` or before */
};

struct rota_fix {
	enum rota_fix_kind kind;
	int number;     /* 0 where it says nothing */
	size_t station; /* NO_STATION likewise */
	day_t day;      /* DAY_NONE likewise */
};

/* A spare for a group, and how long it counts. */
struct rota_spare {
	size_t item;
	/* the last day on which it counts; DAY_NEVER for no end; DAY_NONE: it does
	 * not count on the first day, so it is not used */
	day_t counts_through;
	bool used;
};

/* Pieces that are planned together. All arrays in the arena. */
struct rota_group {
	const char *base; /* borrowed from a vessel; "" for none */
	const char *kind; /* borrowed from an item, as is the rating */
	const char *rating;
	int quantity;
	struct rota_line *lines; /* by hand-in, then as the inventory has them */
	size_t line_count;
	struct rota_spare *spares; /* those of the base's stores */
	size_t spare_count;
	size_t stood_in;     /* different spares and stand-ins that the plan needs */
	size_t least_spares; /* fewer are proven not to do */
	bool possible;       /* all pieces are in time */
	bool proven;         /* no fewer spares do; where not possible, that it is not */
	/* the first line that can't be in time with those due before it;
	 * SLOT_NONE where possible */
	size_t failed;
	struct rota_fix *fixes;
	size_t fix_count;
};

/* A boat that is short on some day of the plan. */
struct rota_short {
	size_t vessel;
	day_t from;                  /* the first such day */
	const struct carriage *line; /* borrowed from the rulebook */
	bool anyway; /* also short with all of the rota's gear aboard and in date */
};

struct rota {
	struct span days;
	struct rota_group *groups; /* by base, then kind, rating and quantity */
	size_t group_count;
	struct rota_short *shorts; /* by day, then vessel */
	size_t short_count;
	size_t boats;  /* that were mustered */
	size_t untold; /* of these: no carriage lines, or one that can't be told */
	/* The number of stand-ins of each sort with which all would be in time,
	 * counting those asked for; 0 where all is in time as it is, -1 where of some
	 * sort no number was found that would do. */
	int stand_ins_that_do;
	/* All is in time, all boats were mustered in full, and none is short for the
	 * rota's sake. */
	bool holds;
	/* The last day before something planned is due again, at most the last asked
	 * about. */
	day_t holds_through;
};

/* Makes the rota. It lives in `arena`. */
void rota_make(const struct rota_ask *ask, struct arena *arena, struct rota *out);

/* Makes the hand-ins of a rota that are to be given out, for the book to keep: each
 * belongs to the base of the boat, or to the boat itself where she has no base, and
 * to the year of its day. From then on the shore list, the reminders and the papers
 * show them like those of a winter (winter/settled.h). A piece that was given out
 * for this work before keeps its hand-in. Borrows from all its arguments. */
void rota_hand_ins(const struct rota_ask *ask, const struct rota *rota,
    struct arena *arena, struct settled_hand_in **out, size_t *count_out);

/* A rota, and what is needed to tell about it. All borrowed. */
struct rota_view {
	const struct inventory *inventory;
	const struct station *stations;
	const struct kinds *kinds;
	const struct rota *rota;
};

/* The fixed words for machines: "none needed", "spare", "hired", "none"; "spares",
 * "station", "turn-round", "earlier", "away", "weekly", "start". */
const char *rota_cover_word(enum rota_cover cover);
const char *rota_fix_word(enum rota_fix_kind fix);

/* The first day on which a boat is out of date or short for a failed line: the day
 * after its last good day (of what never lapses, after the day it is due), or the first
 * day of the rota where it has lapsed before; of one that stays on the day it was given
 * out for, in time, that day. */
day_t rota_fails_on(const struct rota *rota, const struct rota_line *line);

#endif
