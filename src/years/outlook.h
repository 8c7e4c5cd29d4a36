/* The outlook: for every item of some vessels, in which of the coming winters it is
 * serviced and when it is renewed instead, so that nothing lapses in a season and
 * prices and trips together cost least. Pure.
 *
 * What follows what is asked of the due engine: an item's record is continued with
 * what would be done, and the engine says in which seasons something would lapse. From
 * those answers come the courses of src/years/courses.h, which finds the cheapest plan
 * and proves it.
 *
 * How a plan counts:
 *   - What is done in a winter is taken as done on the last day on which the gear can
 *     be handed in and be back by fitting-out less her margin: the earliest such day
 *     of the stations that could do it; for what goes to no station, the day it must
 *     be back. A vessel in use all year has years that begin on the day asked about
 *     and on its anniversaries, and everything is done on their first day.
 *   - A season runs from the day after fitting-out to the day before the next lay-up.
 *     In it nothing of the grades asked for may lapse. Where that can't be helped, the
 *     plan with the fewest lapses is taken, and says which they are.
 *   - An item goes to one station a winter, and there may have any of its station's
 *     work done. Parts that a station renews, and those inside what only a station
 *     opens, go with it. Parts that an owner renews are renewed when they are due. A
 *     thing bought new brings new parts.
 *   - A thing bought new is taken to be made on that day. Where the old one has a
 *     printed date, so has the new: as long after as the old one's, counted from its
 *     oldest other date. Where that is not known, the rules for one without a printed
 *     date hold; where they have nothing for it, it is printed_life_months. What the
 *     maker wants of the old one (gear/item.h, struct interval) counts for the new.
 *   - It is renewed before it must be only where the price of a new one is known and a
 *     station's work is saved.
 *   - Where a renewal is a refit (due_refits) the thing goes on: its age, and what else
 *     is done to it, stay; only its mark is new. So long after the refit as the old mark
 *     was after the last refit on record; where none is, after its oldest date, but no
 *     longer than printed_life_months: which refit the mark is of is not known then.
 *     Where a station refits it, that is work of the station's like another. What an
 *     owner refits is refitted when it is due. Another one is bought as said before.
 *   - A station's price for work is that for the age a thing has on the day the work
 *     is done; where that is not known, the dearest of any age.
 *   - An owner's own work costs nothing and is done when it is due, as is paperwork.
 *   - A price that is not known counts as winter/prices.h says: as the highest known
 *     for the same work, or where there is none as nothing. So the bound, and
 *     "proven", hold for the prices known; which are not is told, for what is planned
 *     and for what could be.
 *   - Gear in reserve, hired gear, and routines are left out. */
#ifndef BECKET_YEARS_OUTLOOK_H
#define BECKET_YEARS_OUTLOOK_H

#include "winter/winter.h"
#include "years/courses.h"

/* The most winters that can be looked ahead. */
enum { OUTLOOK_WINTERS_MOST = 20 };

/* No item. */
#define NO_ITEM ((size_t)-1)

/* A price to use instead of those in the book. */
struct outlook_price {
	const char *kind;
	enum task task;
	int64_t minor; /* for one piece */
	int from_years; /* the age from which it holds, as struct station_price has it; below
			 * the first of these the stations' own hold. 0 for TASK_RENEW */
};

/* A value of `most_states` for callers that need no other. */
enum { YEARS_STATES = 40000 };

/* What is asked. All borrowed. */
struct outlook_ask {
	const struct due_engine *engine;
	/* a copy of all the inventory's items: changed while a plan is made, and put
	 * back as it was when that is done */
	struct item *copy;
	const struct station *stations;
	size_t station_count;
	day_t today;
	size_t winters;        /* 1 to OUTLOOK_WINTERS_MOST */
	const size_t *vessels; /* planned together: they share trips */
	size_t vessel_count;
	enum grade least; /* what is of this grade or more binding may not lapse */
	/* by station: true for one that must not be used. It is treated as if it
	 * were not in the book, except that its prices still count as known for the
	 * same work; NULL for none */
	const bool *shunned;
	const struct outlook_price *prices;
	size_t price_count;
	int skip_year;     /* the winter in which nobody goes to a station; 0 for none */
	size_t renew_now;  /* the item that is renewed in her first winter; NO_ITEM */
	size_t most_looks; /* as courses_solve has it */
	/* of one unit; beyond so many only one way out of each is followed, and the plan
	 * says that it is not proven */
	size_t most_states;
};

/* One thing done. */
struct outlook_line {
	size_t item;
	enum task task;
	bool refit;    /* a renewal that is of what is in the thing alone */
	size_t winter; /* 0 for the first */
	/* NO_STATION for the owner's own, and where none in the book will do it */
	size_t station;
	enum doer doer;
	int64_t minor;          /* what counts: -1 when no price is known for it anywhere;
				 * 0 for own work */
	bool supposed;          /* not known there: that is the highest known for the same
				 * work */
	int64_t carriage_minor; /* what carrying the item there costs; on the first of its
				 * lines of a winter */
	int from_years;         /* the age from which that price holds; 0 from new */
	day_t by;               /* the day it is taken as done */
};

struct outlook_trip {
	size_t winter;
	size_t station;
	int64_t minor;
};

/* What lapses in a season although the plan does what it can. */
struct outlook_gap {
	size_t item;
	enum task task;
	size_t winter; /* the winter before that season */
};

/* One price of several for the same work, by the age of what is worked on. */
struct outlook_step {
	size_t station; /* NO_STATION for one that is not in the book */
	const char *kind;
	enum task task;
	int from_years; /* the age from which it holds */
	int64_t minor;  /* for one piece; -1 when not known */
};

/* A price that is not known, of work that is planned or could be within the winters. */
struct outlook_unknown {
	size_t station; /* NO_STATION for one that is not in the book */
	const char *kind;
	enum task task; /* TASK_RENEW: what a new one costs, where it could save work */
	bool refit;     /* or where so what the station's refit costs */
	int64_t minor;  /* what counts for it, for all pieces of the first such item, the
			* dearest of any age; -1 when none is known */
};

/* The plan. */
struct outlook {
	int first_year; /* the year of winter 0 */
	size_t winters;
	struct outlook_line *lines; /* by winter, then as the inventory has them */
	size_t line_count;
	struct outlook_trip *trips; /* by winter, then station */
	size_t trip_count;
	struct outlook_gap *gaps;
	size_t gap_count;
	struct outlook_step *steps; /* prices that change with age for something planned,
				     * within the winters: those for the same work
				     * together, by age from 0 */
	size_t step_count;
	size_t *ageless; /* items whose age is not known though such a price depends on
			  * it: the dearest is reckoned with */
	size_t ageless_count;
	int64_t minor;
	int64_t bound; /* no plan costs less; `minor` when proven */
	bool proven;
	size_t unpriced; /* lines no price is known for, counted as 0 */
	size_t supposed; /* lines counted at the highest price known elsewhere */
	struct outlook_unknown *unknowns; /* each once */
	size_t unknown_count;
	size_t assumed;         /* items whose successor's printed date is assumed */
	int64_t when_due_minor; /* what doing each thing only when it is due would cost */
	size_t items;           /* how many were planned */
	bool all_year;          /* some vessel is in use all year */
};

/* A number of winters as a bit of a set of them. */
#define WINTERS_BIT(winters) (1U << ((winters)-1))

/* A thing that is bought new in the first winter when some numbers of winters are
 * looked at, and not when others are. Parts of such a thing have none of their own. */
struct outlook_tip {
	size_t item;
	unsigned renewed; /* the numbers of winters with which it is; WINTERS_BIT */
	unsigned kept; /* and those with which it is not. Numbers whose plan is not proven
			   * are in neither */
};

struct outlook_tips {
	struct outlook_tip *items; /* in the arena, as the inventory has them */
	size_t count;
};

/* A plan, and the name of the vessel or of the base that it is for. */
struct named_outlook {
	const char *name; /* borrowed */
	struct outlook plan;
	struct outlook_tips tips;      /* none where they were not looked for */
	struct winter_clashes clashes; /* with the shore list; likewise */
};

/* Plans, and what is needed to tell about them. All borrowed. */
struct outlook_view {
	const struct inventory *inventory;
	const struct station *stations;
	size_t station_count;
	const char *currency;
	const struct named_outlook *plans; /* one or more */
	size_t count;
};

/* True for a line that is a station's work on a thing that stays. */
bool outlook_is_work(const struct outlook_line *line);

/* Money, by what it is spent on. */
struct outlook_sum {
	int64_t trips;
	int64_t work; /* at stations, refits and what carrying there costs counted in */
	int64_t new_gear; /* renewals, wherever they are made, and owners' refits */
};

/* The money of one winter; of all winters together where `winter` is the number of
 * winters. */
struct outlook_sum outlook_sum_of(const struct outlook *plan, size_t winter);

/* The three together. */
int64_t outlook_minor_of(const struct outlook *plan, size_t winter);

/* What a kind costs over all winters of a plan. */
struct outlook_share {
	const char *kind;
	size_t works;    /* times something was done at a station */
	size_t renewals; /* times something was renewed */
	int64_t minor;
};

/* The kinds that cost something, the dearest first. In the arena. */
void outlook_shares(const struct outlook_view *view, struct arena *arena,
    struct outlook_share **out, size_t *count_out);

/* Plans added up: what they cost and are proven to cost, and the winters they span. Starts
 * as `{ 0 }`. */
struct outlook_total {
	size_t plans;
	int first_year;
	int last_year; /* before the first where there are no plans */
	int64_t minor;
	int64_t bound;
	int64_t when_due_minor;
	size_t unpriced;
	size_t supposed;
	size_t unknowns; /* prices of the plans that are not known */
	size_t assumed;
	size_t gaps;
	bool proven;
	bool all_year; /* some vessel is in use all year */
};

/* Adds plans to those that are added up; with none of them at all it is a total of none. */
void outlook_total_add(
    struct outlook_total *total, const struct named_outlook *plans, size_t count);

struct outlook_total outlook_total_of(const struct named_outlook *plans, size_t count);

/* How long a new thing's printed date is after the day it is bought, where nothing
 * better is known: 36 months for whatever is dated as flares and smokes are when
 * unprinted, 60 for beacons, the shorter end of their batteries' printed 5 to 10 years
 * (both common practice, no published source). */
int printed_life_months(const char *kind);

/* Makes the plan of the vessels asked about. It lives in `arena`. FAULT_INPUT when
 * prices are too large to be added up, or when an item can stand in more ways than can
 * be looked at; `out` is then as it was. */
MUST_CHECK bool outlook_make(const struct outlook_ask *ask, struct arena *arena,
    struct outlook *out, struct fault *fault);

#endif
