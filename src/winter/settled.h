/* Hand-ins that keep their day: what was given out stays as it is while its day lies
 * ahead and serves. Inside the winter room.
 *
 * A piece stays on the hand-in it was given out on, as long as that day lies ahead and
 * serves the piece. On a day ahead that a person chose it stays whatever the day serves,
 * and also when its winter, or the last day that serves in it, has gone by.
 *
 * A hand-in whose own day serves nothing on it any more, or has passed with gear not
 * landed, moves to one day for all of it: the first that is lead_days or more ahead and
 * serves it all, or where there is none, the last sooner one that does (a rota's hand-in
 * that lay ahead: before these, the last such day before its own). Where no day serves
 * all of it, pieces leave it until one does, first those that must go soonest.
 *
 * A piece that is on no hand-in joins one that lies ahead and serves it, the one where it
 * costs least of those with room in the station's week; the others are planned anew. What
 * was given out on a hand-in that a person gave up for the winter goes on none. */
#ifndef BECKET_WINTER_SETTLED_H
#define BECKET_WINTER_SETTLED_H

#include "winter/shore.h"

struct errand_mark;

/* The ways of a thing being made. */
struct errand_ways {
	struct errand_way *items; /* in an arena */
	size_t count;
	size_t capacity;
};

/* The tasks of one item that go to a station together: hand-ins of one vessel,
 * neighbours in her list. */
struct bundle {
	size_t sorting;
	size_t first;
	size_t count;
};

/* A station as a stop for errands. */
struct bundle_station {
	size_t station; /* index, or NO_STATION */
	const char *name;
};

/* What is being gathered. Memory is the arena's or the scratch's. */
struct gathering {
	const struct sorting *sortings;
	size_t sorting_count;
	struct station_loads *loads;
	struct bundle *bundles;
	size_t bundle_count;
	struct errand_thing *things; /* one a bundle */
	struct bundle_station *stops;
	struct errand_stop *errand_stops; /* the same stops */
	size_t stop_count;
	struct errand_plan plan;
	struct errand_reason *reasons; /* one an errand of the plan */
	struct errand_mark *marks;     /* one an errand of the plan */

	/* what is on no hand-in that was given out before, planned by itself */
	struct errand_rest {
		const struct errand_stop *stops; /* with what those bring counted in */
		const struct errand_thing *things;
		size_t thing_count;
		size_t most_trips;
		struct errand_plan plan;
	} rest;
	struct arena scratch; /* owned */
};

/* The planning of a bundle's vessel, and one of its hand-ins. */
const struct planning *bundle_planning(const struct gathering *gathering, size_t bundle);
struct hand_in *bundle_hand_in(
    const struct gathering *gathering, size_t bundle, size_t task);

/* The item of a bundle. */
const struct item *bundle_item(const struct gathering *gathering, size_t bundle);

/* Bundles the hand-ins of all vessels, makes a thing of each bundle and a stop of each
 * station, with the pieces that are to come to it already. */
void bundles_gather(struct gathering *gathering);

/* One hand-in of a plan, beside its errand. */
struct errand_mark {
	bool of_base;  /* its owner is the base, not the only vessel with gear on it */
	size_t number; /* among its owner's to this station in that winter */
	int winter;    /* 0: not settled, the earliest of its vessels' */
	bool settled;
	bool weighed; /* settled: what it would cost elsewhere was found */
	size_t rest;  /* not settled: the errand's index in the plan of the rest */
	bool chosen;
	bool confirmed;         /* on a day that the station said */
	enum day_misfit misfit; /* of a person's day */
	bool missed;            /* a day it was given out for has passed */
	enum given_by
	    given_by;   /* by what it was given out for the day it has, where known, */
	day_t given_on; /* and when */
	day_t earliest; /* this and the next three: as in struct trip */
	bool as_given;
	day_t moved_from;
	enum day_misfit moved_why;
};

/* True when the boat that a thing belongs to has a booking between its hand-in and its
 * collect. */
bool is_let(const struct errand_thing *thing, day_t hand_in, day_t collect);

/* The way by which a thing may be handed in at a stop on a day; NULL when there is
 * none. `station` is the station of the stop. */
const struct errand_way *way_on_day(const struct errand_thing *thing,
    const struct station *station, size_t stop, day_t day);

/* The way by which a thing stays on a hand-in that is kept: that of its day, or where
 * that day does not serve the thing, its first way to that stop; NULL where it has none
 * to there. */
const struct errand_way *settled_way_kept(const struct errand_thing *thing,
    const struct station *station, size_t stop, day_t day);

/* Why a settled errand of the plan, before errands are joined, goes where it goes,
 * seen from now. The plan it is compared with keeps all else that is settled, sends
 * what is on this errand to other stops wherever it can go elsewhere, on any day from
 * today on, and plans what is not settled anew; it makes no more trips than those who
 * share them will, or than this plan where that makes more. `*out` is as errands_why has
 * it, except that saves_minor is less than 0 where that plan costs less than this one.
 * `*weighed_out` is false where they can't be compared: a search was given up, for this
 * plan or for that one, or what stays settled lies on days on which its stations are
 * closed, or in weeks that have no room for it. It is true, and `*out` says nothing, where
 * nothing on the errand can go elsewhere. */
void settled_why(const struct gathering *gathering, size_t errand, struct arena *scratch,
    bool *weighed_out, struct errand_reason *out);

/* Fills the earliest day of each mark of the plan. `asked` are the gathering's things
 * with all the days on which they may go, before lead days are applied. */
void settled_note_earliest(
    struct gathering *gathering, const struct errand_thing *asked, day_t today);

/* True when work on an item of a vessel in use all year waits for a hand-in that a
 * rota gave out. */
bool settled_waits(const struct planning *planning, const char *tag, day_t due);

/* True when a hand-in is on a day that a person chose, which lies ahead. */
bool settled_is_ahead(const struct planning *planning, const struct settled_hand_in *of);

/* True when an item of a laid-up vessel stays on a hand-in at a station, on a day
 * ahead that a person chose, though no day serves it any more: it is too late, and
 * kept. */
bool settled_is_kept_at(
    const struct planning *planning, const char *tag, const char *station);

/* Why a person gave up the hand-in that an item of a laid-up vessel was given out on
 * in the winter that is planned; NULL when no person did. */
const char *settled_given_up(const struct planning *planning, const char *tag);

/* Chooses the errands of all that was gathered, settled ones first, into
 * gathering->plan, and fills gathering->marks. */
void settled_plan(struct gathering *gathering);

#endif
