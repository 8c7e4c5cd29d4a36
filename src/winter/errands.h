/* Errands: which things go to which station on which days, so that all of it costs
 * least.
 *
 * A thing has one or more ways: a station, the first day on which it may be handed in
 * there, the day by which it must be back, and what the work and the carriage cost
 * there. An errand is one hand-in day at one station; things share it, and its trip is
 * paid once. The best plan costs least; of plans that cost the same it has the fewest
 * errands; then the lowest sum of hand-in days, which keeps them out of the spring
 * rush; then the least strangeness of its stations.
 *
 * The days that serve a thing may have gaps between them: where February's turn-round
 * is longer than March's, gear handed in later may be back sooner. So every open day
 * of a station is a candidate; a day is left out only where an earlier one serves
 * everything that it serves. What is left is a choice of facilities without
 * capacities. It is solved by branching on a day with bounds from a dual ascent
 * (Erlenkotter, "A dual-based procedure for uncapacitated facility location", 1978).
 *
 * Where a station takes only so many pieces a week and there are few things, they are
 * placed one by one, those that must be back first coming first, by a search that goes
 * on until it meets its bound. When there are many, the number of trips to each
 * station is decided first, then the number up to each week, under a bound in which
 * every thing is charged for being serviced at all (Lagrange's relaxation; see
 * limits_inside.h). What is proven there is the cost and the number of errands; of
 * equally good plans it keeps an early one. A search that is given up reports so, with
 * its bound.
 *
 * Measured on 29 November 2026 over 40 random winters of 20 to 100 things, two to four
 * stations, most of them with a weekly limit (tests/support/errands_problems.py): 11
 * are proven, the others on average within 1.7 % of their bound, the slowest in 0.2 s.
 * Without looking at the trips to all stations together (errands_together.c) 1 is
 * proven; with the bound of the first branch alone 1, and what is found is 1.8 %
 * dearer; without errands_branch.c none, and 7.5 % dearer. Of 30 winters of 8 to 12
 * things it proves 26, and 24, 5 and none without these. */
#ifndef BECKET_WINTER_ERRANDS_H
#define BECKET_WINTER_ERRANDS_H

#include "base/memory.h"
#include "gear/booking.h"
#include "gear/station.h"

/* Pieces that are to come to a station already in one week. */
struct errand_load {
	int week; /* errand_week */
	int pieces;
};

/* What errands need to know of a station. All borrowed. */
struct errand_stop {
	const struct station *station;
	const struct errand_load *loads; /* looked at only where it has a weekly limit */
	size_t load_count;
};

/* One way to have a thing done. */
struct errand_way {
	size_t stop;     /* index in the stops */
	day_t first;     /* not handed in before it */
	day_t back_by;   /* to be fetched on or before it */
	day_t last;      /* nor handed in after it; DAY_NEVER: no such limit. A thing that
			  * costs more there from some day on has two ways to one stop,
			  * which share no day */
	int64_t minor;   /* what the work and the carriage cost there: 0 or more */
	int strangeness; /* 0 to 100; the lower is preferred */
};

/* One thing that is handed in as a whole. */
struct errand_thing {
	const struct errand_way *ways; /* borrowed */
	size_t way_count;              /* 1 or more */
	int pieces;                    /* for weekly limits: 1 or more */
	/* of the errands to its station that serve it, it goes on the latest, not the
	 * earliest */
	bool late;
	bool binding; /* if left out, it lapses by law or maker */
	bool at_once; /* fetched as soon as it is ready: of a boat in use all year */
	/* for a boat in use all year that is let: the thing is ashore on none of these
	 * days, the days of hand-in and collect included. Borrowed; errands_plan does
	 * not look at them */
	const struct booking *bookings;
	size_t booking_count;
};

struct errand {
	size_t stop;
	day_t hand_in;
	day_t ready; /* the first day on which it can be fetched */
	/* the day it is fetched: `ready`, or the day of a later hand-in at the same
	 * station, where everything on it may wait until then: that saves a journey */
	day_t collect;
	bool held; /* not to be put off */
};

#define NO_ERRAND ((size_t)-1)

struct errand_plan {
	struct errand *errands; /* in the arena, by stop and day */
	size_t count;
	/* in the arena, one for each thing; NO_ERRAND where no day serves it, or no
	 * week has room for it */
	size_t *errand_of;
	int64_t minor; /* what all of it costs, trips counted in */
	bool proven;   /* no plan that takes as many things is better */
	/* no plan that takes as many pieces costs less; as `minor` when proven */
	int64_t bound_minor;
	size_t bound_count; /* no plan at that cost has fewer errands */
};

/* The number of the week, from Monday to Sunday, that a day is in. */
int errand_week(day_t day);

/* The room in a week at a station without a weekly limit. */
#define ERRAND_ROOM_ANY ((int64_t)1 << 40)

/* How many more pieces a stop takes in a week, besides those that are to come already:
 * less than 0 where those are too many, ERRAND_ROOM_ANY where there is no limit. */
int64_t errand_room(const struct errand_stop *stop, int week);

/* The way by which a thing may be handed in at a stop on a day, when it is ready there
 * on `ready`; NULL for none. */
const struct errand_way *errand_way_on(
    const struct errand_thing *thing, size_t stop, day_t day, day_t ready);

/* True when a thing has a way to another stop. */
bool errand_goes_elsewhere(const struct errand_thing *thing, size_t stop);

/* Any number of errands. */
#define ERRANDS_ANY ((size_t)-1)

/* Makes the best plan of at most `most` errands, or of any number where that is
 * ERRANDS_ANY. The plan lives in `arena`. Every errand is fetched on the first day on
 * which it is ready. Where more errands than `most` would be needed, as few pieces as
 * possible are left out: first as few as possible of those that law or maker bind,
 * then of the others. Among such plans the best is chosen as without a limit. `proven`
 * then says that none is better in all of this; with a weekly limit it is not proven. */
void errands_plan(const struct errand_stop *stops, size_t stop_count,
    const struct errand_thing *things, size_t thing_count, size_t most,
    struct arena *arena, struct errand_plan *out);

/* Sets the collect days: each errand is fetched on the day of the next hand-in at its
 * station, if everything on it may wait that long. Where no hand-in fits, one that
 * lies before the errand is ready is put off to the day on which it is, if everything
 * on that one may wait and the station has no weekly limit. Both save a journey. */
void errands_join(const struct errand_stop *stops, const struct errand_thing *things,
    size_t thing_count, struct errand_plan *plan);

/* Why an errand goes where it goes. */
struct errand_reason {
	bool
	    any; /* some of what is on it could go elsewhere, and what follows is proven */
	bool
	    no_room; /* but not all of it at once, with all that the plan takes: then no more
		       * is said */
	int64_t
	    saves_minor; /* what the best plan that sends it elsewhere costs more; 0 or
			      * more, but where the plan is not the best one of its things */
	int saves_count; /* how many errands that one has more, which may be less than 0 */
};

/* What a plan was made of. All borrowed. */
struct errands_asked {
	const struct errand_stop *stops;
	size_t stop_count;
	const struct errand_thing *things;
	size_t thing_count;
	size_t most; /* errands; ERRANDS_ANY for any number */
};

/* Compares a plan, as errands_plan made it of these things, with the best plan of at
 * most `most` errands that takes the same things but sends those of one errand to
 * other stops, where they can go elsewhere at all. Other errands may still go to that
 * stop. */
void errands_why(const struct errands_asked *asked, const struct errand_plan *plan,
    size_t errand, struct arena *scratch, struct errand_reason *out);

#endif
