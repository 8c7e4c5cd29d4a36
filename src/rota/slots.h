/* Slots: when each of many pieces goes ashore for its service, so that as few spares
 * as possible are needed. This is the rota as a problem by itself: src/rota/rota.h
 * makes such a problem of the gear of boats and says what the answer means. Pure.
 *
 * A job is one piece to be handed in once, at one of some places, on a day from its
 * first to its last. It is away from its hand-in to the day before its collect; on
 * its collect day it is aboard again, and a spare that stood in for it may go to the
 * next boat that very day. Where its boat would be short without it a spare stands
 * in, each for one job at a time and only on days on which it is in date. A boat can
 * do without some pieces, up to a number at once: so many may be away bare, that is,
 * without a spare; for each one more a spare stands in.
 *
 * Wanted is a slot for every job, first with the fewest different spares; then with
 * each job as late as possible, because a service done early wastes days; then with
 * jobs joined to others that are handed in a few days before them.
 *
 * How: jobs are taken in the order of their last days, each on the earliest possible
 * day, going back where a later one finds no room. If all places have one
 * turn-round, all jobs one first day and all spares are alike, with no closed days,
 * no weekly limit and no boat out, the first try is the best there is; else the
 * search goes on until it has tried all days, or as many as it may. That fewer
 * spares are not enough is known from a search that ended, or from counting: jobs
 * that begin and end within so many days need so many spares, whatever their order. */
#ifndef BECKET_ROTA_SLOTS_H
#define BECKET_ROTA_SLOTS_H

#include "base/memory.h"
#include "dates/spans.h"
#include "gear/station.h"

#define SLOT_NONE ((size_t)-1)

/* Something of a boat's that is away bare whatever the plan. */
struct slot_bare {
	day_t hand_in;
	day_t collect;
	int most; /* with it away, so many bare pieces of hers may be away, itself included */
};

/* A piece to be handed in. Jobs of one boat stand together. */
struct slot_job {
	size_t boat;          /* whose it is: any number that tells boats apart */
	day_t first;          /* not handed in before it */
	day_t last;           /* nor after it */
	const size_t *places; /* stations it may go to, as indices; borrowed */
	size_t place_count;   /* 1 or more */
	int pieces;           /* towards a station's weekly limit: 1 or more */
	int bare_most; /* so many bare jobs of hers may be away at once, this one among them;
			* 0: a spare must stand in for it */
	int capacity;                  /* least capacity of such a spare; 0 any */
	const struct slot_bare *bares; /* that count together with it; borrowed */
	size_t bare_count;
	/* days on which its boat is out with it: none of them may lie from the
	 * hand-in to the collect, both days included. One array for all jobs of a
	 * boat; borrowed */
	const struct span *busy;
	size_t busy_count;
};

/* A spare, and the days on which it is in date. */
struct slot_spare {
	struct span days; /* the last day it stands in is the one before a collect */
	int capacity;
};

/* What is away whatever the plan. */
struct slot_taken {
	size_t place; /* SLOT_NONE: at none that matters here */
	day_t hand_in;
	day_t collect;
	int pieces;  /* towards a station's weekly limit */
	bool counts; /* whether it counts towards `most_away` */
};

/* All borrowed. */
struct slot_problem {
	const struct station *stations;
	size_t station_count;
	const struct slot_job *jobs;
	size_t job_count;
	const struct slot_spare *spares;
	size_t spare_count;
	const struct slot_taken *taken;
	size_t taken_count;
	int most_away;     /* jobs away at once; 0 for no limit */
	int together_days; /* a job may join a hand-in up to so many days earlier */
	day_t until;       /* the last day of any hand-in, late ones too */
	bool only_whether; /* only whether all can be in time is asked: no plan is made */
	/* for each number of spares tried, how many days are tried; some more are
	 * allowed */
	size_t most_looks;
};

/* When and where one job is done. */
struct slot {
	size_t place; /* SLOT_NONE where no day up to `until` does */
	day_t hand_in;
	day_t collect;
	bool bare;    /* no spare stands in */
	size_t spare; /* SLOT_NONE where none stands in */
	bool late;    /* after its last day */
};

struct slot_plan {
	struct slot *slots;  /* in the arena, one a job; NULL where no plan is wanted */
	bool possible;       /* all jobs are in time */
	size_t spares;       /* different ones that stand in */
	size_t least_spares; /* fewer are proven not to do; where impossible, of how many
			      * that is proven whatever the spares are */
	bool proven; /* possible: no fewer spares do; impossible: it is so, for no search
			* was given up */
	/* where impossible: the first job, by last day, that can't be in time with
	 * all those before it; SLOT_NONE otherwise */
	size_t failed;
};

/* Makes the plan. Where not all jobs can be in time, those that can't are as soon as
 * possible after their last day. */
void slots_solve(
    const struct slot_problem *problem, struct arena *arena, struct slot_plan *out);

/* A value of `most_looks` for callers that need no other. */
enum { SLOT_LOOKS = 200000 };

#endif
