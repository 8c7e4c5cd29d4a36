/* What the files for weekly limits share: trips to stations that take only so many
 * pieces a week. Not for others.
 *
 * What a thing costs at a station is the same on every day, so the hard question is
 * how many trips go to which station. A placing (errands_placing.c) opens days and has
 * things share them so that no exchange along a chain of them saves money. Charges
 * (errands_charges.c) give the bound: every thing is charged something for being
 * serviced at all, and a week of a station is worth a trip when the things that fit
 * into it are charged more than it costs. The sum of the charges, less the most that
 * the best weeks gain by them, is a lower bound on the cost of every plan, whatever
 * the charges are; this is Lagrange's relaxation of "every thing goes somewhere".
 * errands_branch.c brings the two together by branching on the number of trips to each
 * station and then on days. */
#ifndef BECKET_WINTER_LIMITS_INSIDE_H
#define BECKET_WINTER_LIMITS_INSIDE_H

#include "winter/errands_inside.h"

/* Charges are counted in fractions of a minor unit: so many make one unit. */
enum { CHARGE_SCALE = 64 };

/* The days of one week at one station; each day by itself where it has no limit. */
struct limit_week {
	size_t first; /* column */
	size_t count;
	size_t stop;
	int64_t trip_minor; /* of its stop */
	int64_t room;       /* pieces; 0 or more */
};

/* A station with days, and its weeks. */
struct limit_stop {
	size_t first; /* week */
	size_t count;
	size_t columns;
	size_t row; /* where it begins in arrays by stop and trips, 0 to `columns` */
	int64_t trip_minor;
};

/* The problem. Memory is the scratch's. */
struct limits {
	size_t classes; /* how many the table has */
	size_t columns;
	struct limit_stop *stops;
	size_t stop_count;
	struct limit_week *weeks;
	size_t week_count;
	size_t *week_of;       /* by column */
	int64_t *count;        /* by class: its things */
	int64_t *pieces;       /* by class: of one thing */
	int64_t *one;          /* class x column: what one thing costs; WORTH_NEVER */
	int64_t *least;        /* class x stop: the least of these */
	unsigned char *serves; /* column x class */
	int64_t unit;          /* every sum is a multiple of this */
	int64_t most_charge;   /* it is no use to charge a thing more; scaled */
	bool units;            /* every thing is one piece */
};

/* What a branch has decided about a day. */
enum limit_mark {
	LIMIT_FREE,
	LIMIT_IN,
	LIMIT_OUT,
};

/* How many trips to its stop a branch allows up to the end of each week (up to the
 * last week: in the whole winter), and which days it has decided on. */
struct limit_branch {
	size_t *fewest; /* by week */
	size_t *most;
	unsigned char *marks; /* enum limit_mark, by column */
};

static inline size_t
last_week(const struct limits *limits, size_t stop)
{
	return limits->stops[stop].first + limits->stops[stop].count - 1;
}

/* Reads the problem out of a table. */
void limits_make(
    const struct errand_table *table, struct arena *scratch, struct limits *out);

/* True when the problem is too large: sums of charges might overflow, or chains among
 * its weeks would take too long. */
bool limits_too_large(const struct limits *limits);

/* ---- charges ---- */

struct charge_gain;

struct charges {
	const struct limits *limits;
	int64_t *charged; /* by class, for one thing; scaled */
	int64_t left_out; /* so many pieces may be left out at no charge */
	int64_t *taken;   /* by class: the pieces taken by the weeks that gain most */
	int64_t *gains;   /* by stop and trips: the least they come to; scaled */
	size_t *trips;    /* by stop: the number that gains most */
	size_t *runs;     /* by week: how many of these are in it */
	size_t *column;   /* by week: the day that gains most by itself */
	int64_t *value;   /* by week: what one trip in it comes to: below 0 gains */
	double *often;    /* by column: how much it was used in the last steps */
	struct charge_gain *order; /* room for the classes of a stop */
	int64_t *reach;            /* room for the weeks of a stop by trips */
	size_t *chosen;            /* the same */
	size_t looks;              /* one is a class on a day looked at */
};

void charges_make(
    const struct limits *limits, struct arena *scratch, struct charges *out);

/* The least that any plan of the branch costs, by the present charges; scaled.
 * WORTH_NEVER or more when the branch has no plan. */
int64_t charges_bound(struct charges *charges, const struct limit_branch *branch);

/* Moves the charges by how much too often or too seldom things are taken, towards a
 * bound that is higher by up to `gap` (scaled). False when there is nothing to move. */
bool charges_move(struct charges *charges, double gap);

/* ---- trips together ---- */

struct together {
	const struct limits *limits;
	int64_t *capacity; /* by stop and trips: pieces that so many take at most */
	int64_t part;      /* room is counted in parts of so many pieces */
	int64_t needed;    /* pieces in all */
	int64_t *reach;    /* room for two tables by parts and trips */
};

void together_make(
    const struct limits *limits, struct arena *scratch, struct together *out);

/* The least that trips to all stops come to by the present charges, when their weeks
 * have room for all pieces but `left_out`: one value for each number of trips from 0
 * to `most`, the last one for `most` or more; scaled, WORTH_NEVER where there is none.
 * Valid until the next call. */
const int64_t *together_least(struct together *together, const struct charges *charges,
    const struct limit_branch *branch, int64_t left_out, size_t most);

/* ---- placings ---- */

struct placing {
	const struct limits *limits;
	unsigned char *open; /* by column */
	int *on;             /* column x class: how many things */
	int *nowhere;        /* by class: things that are on no day */
	int64_t *room;       /* by week: what is left of it */
	int64_t minor;       /* what it costs, trips counted in */
	size_t trips;
	int64_t left_out; /* pieces */
};

/* A placing with room for trying changes. */
struct placer {
	struct placing now;
	struct placing before; /* to go back to */
	size_t *live;          /* weeks with an open day */
	size_t live_count;
	int64_t *arcs;  /* week x week: what moving the best thing costs */
	size_t *movers; /* the same: its class */
	bool *stale;    /* by week: its arcs are to be found anew */
	int64_t *far;   /* by week: what the best chain to it costs */
	size_t *via;    /* by week: the week before it */
	size_t *queue;  /* room for weeks */
	size_t head;    /* where it begins, and how many wait in it */
	size_t waiting;
	bool *queued;  /* by week */
	int64_t *cost; /* class x week: the least of its open days */
	size_t *order; /* room for columns */
	size_t looks;
	size_t most_looks;
	bool cut; /* chains were not followed to their end somewhere */
};

void placer_make(const struct limits *limits, struct arena *scratch, struct placer *out);

/* Inside the placer: to be called when days of a week were opened or closed
 * (NO_ERRAND: of any week). */
void placer_refresh(struct placer *placer, size_t week);

/* Inside the placer: adds so many things to a day, or takes them away. */
void placing_put(struct placing *placing, size_t class, size_t column, int count);

/* Inside the placer: what one thing costs in a week, on its open days; WORTH_NEVER
 * when none serves it. */
int64_t placer_cost(const struct placer *placer, size_t class, size_t week);

/* Inside the placer: how many things of a class are on a day. */
int placing_things(const struct placing *placing, size_t class, size_t column);

/* Inside the placer: places one thing where that is cheapest, moving others to make
 * room where they can; leaves it nowhere when nothing helps. */
void placer_insert(struct placer *placer, size_t class);

/* Inside the placer: finds the most that one more piece of room in each week would
 * save, as `far` below 0. False when chains can't be followed. */
bool placer_price_rooms(struct placer *placer);

/* Inside the placer: fills the room of a week as long as something saves money by
 * going there. */
void placer_draw_in(struct placer *placer, size_t week);

/* Inside the placer: tries again to place what is nowhere. */
void placer_insert_left_out(struct placer *placer);

/* Places all things anew on the days that gain most by the charges, and on more days
 * where those are not enough; on none that the branch has decided against. Then opens
 * and closes days as long as that improves the placing. */
void placer_build(struct placer *placer, const struct charges *charges,
    const struct limit_branch *branch);

/* True when `a` has fewer pieces left out than `b`; or as many, and is cheaper; or
 * costs the same, with fewer trips. */
bool placing_better(const struct placing *a, const struct placing *b);

void placing_copy(const struct placing *from, struct placing *to);

void placing_make(
    const struct limits *limits, struct arena *scratch, struct placing *out);

/* Moves trips to earlier days where all of their things can move along at no more
 * cost. */
void placing_hasten(struct placing *placing);

/* ---- branches ---- */

struct branch_search {
	const struct limits *limits;
	struct charges charges;
	struct together together;
	struct placer placer;
	struct placing best;
	int64_t *kept;      /* by class: the charges of the best bound of a branch */
	int64_t left_bound; /* the least bound of a branch given up; INT64_MAX for none */
	size_t left_trips;
	size_t looks; /* at totals; charges and placer count their own */
	size_t most_looks;
	struct arena *scratch;
};

/* What is known of a branch. */
struct verdict {
	int64_t minor; /* no plan of it costs less; INT64_MAX when it has none */
	size_t trips;  /* none that costs as little as the best has fewer */
};

/* Moves the charges for some steps, more of them at the first branch, and returns the
 * best bound found for the branch. It takes off, at either end of the numbers of trips
 * that the branch allows, those that can't be better. */
struct verdict branch_tighten(
    struct branch_search *search, struct limit_branch *branch, bool first);

/* Builds a placing from the present charges, as long as the placer has looks left; keeps
 * it when it is the best so far. */
void branch_build(struct branch_search *search, const struct limit_branch *branch);

/* True when no plan at the cost of a verdict or more, with at least its number of
 * trips, can be better than the best. */
bool branch_is_beaten(const struct branch_search *search, struct verdict verdict);

/* True when the search is to be given up; the placer has its own share of looks. */
bool branch_spent(const struct branch_search *search);

#endif
