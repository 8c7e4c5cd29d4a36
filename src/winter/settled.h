/* Hand-ins that hold still: what was given out is taken as it is while it lies ahead and serves.
 * Inside the winter room.
 *
 * A piece goes on the hand-in it was given out on, as long as that day lies ahead and serves the
 * piece; on a day that a person chose it goes whatever the day serves, and also when its winter, or
 * the last day that serves in it, has gone by. What serves nothing of its
 * own any more, or has passed with gear not landed, is put to one day for all of it: the first a
 * week or more ahead that serves it all, or the last that serves where none of those does (a rota's
 * that lay ahead moves to the last before its day); what shares no such day leaves it. A piece that is on none joins one that lies ahead and serves it,
 * where that costs least, within the station's weekly limit; what is left is planned anew. What
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

/* The tasks of one item that go to a station together: hand-ins of one vessel, neighbours in
 * her list. */
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

	/* what is on no hand-in that was given out before, as it was planned by itself */
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
 * station, with what is to come to it already. */
void bundles_gather(struct gathering *gathering);

/* One hand-in of a plan, beside its errand. */
struct errand_mark {
	bool of_base;  /* its owner is the base, not the only vessel with gear on it */
	size_t number; /* of its owner's to this station in that winter */
	int winter;    /* 0: not settled, the earliest of its vessels' */
	bool settled;
	bool weighed; /* settled: what its reason says was found */
	size_t rest;  /* not settled: the errand's index in the plan of the rest */
	bool chosen;
	bool confirmed;         /* on a day that the station said */
	enum day_misfit misfit; /* of a person's day */
	bool missed;            /* a day it was given out for has passed */
	enum given_by
	    given_by;   /* by what it was given out for the day it has, where known, */
	day_t given_on; /* and when */
	day_t earliest; /* as struct trip has it, as the next */
	bool as_given;
	day_t moved_from;
	enum day_misfit moved_why;
};

/* True when the boat whose thing it is has a booking between a hand-in and its collect. */
bool is_let(const struct errand_thing *thing, day_t hand_in, day_t collect);

/* The cheapest way by which a thing may be handed in at a stop, which is the station, on
 * a day; NULL when none. */
const struct errand_way *way_on_day(const struct errand_thing *thing,
    const struct station *station, size_t stop, day_t day);

/* The way by which a thing is on a hand-in that is kept: the cheapest on its day, or where that
 * day does not serve it the first to that stop; NULL where it has none to there. */
const struct errand_way *settled_way_kept(const struct errand_thing *thing,
    const struct station *station, size_t stop, day_t day);

/* Why a settled errand of the plan, before its errands are joined, goes where it goes,
 * seen from now: all else that is settled stays as it is, and what is not is planned anew
 * beside what is on this one, which is kept from its stop wherever it can go elsewhere,
 * and may go on any day from today on. `*out` as errands_why has it, but that its
 * saves_minor is less than 0 where that plan costs less than this one. `*weighed_out` is
 * false where that could not be found, since the search was left off, or what is settled
 * stands on days that its stations do not take it in. */
void settled_why(const struct gathering *gathering, size_t errand, struct arena *scratch,
    bool *weighed_out, struct errand_reason *out);

/* Fills the earliest day of each mark of the plan. `asked` are the gathering's things with the
 * days on which they may go, not put ahead. */
void settled_note_earliest(
    struct gathering *gathering, const struct errand_thing *asked, day_t today);

/* True when a hand-in is a vessel's own, or her base's. */
bool settled_is_of(const struct settled_hand_in *of, const struct vessel *vessel);

/* True when an item was given out on a hand-in for work that was due on `due`: of boats in use all
 * year, whose work of another year is due later. */
bool settled_has_work(const struct settled_hand_in *of, const char *tag, day_t due);

/* True when work on an item of a vessel in use all year waits for a hand-in that a rota gave out. */
bool settled_waits(const struct planning *planning, const char *tag, day_t due);

/* True when it is on a day that a person chose, which lies ahead. */
bool settled_is_ahead(const struct planning *planning, const struct settled_hand_in *of);

/* True when an item of a laid-up vessel stays on a hand-in at a station, on a day of a person's
 * that lies ahead, though no day would do any more: it is too late, and kept. */
bool settled_is_kept_at(
    const struct planning *planning, const char *tag, const char *station);

/* Why a person gave up the hand-in that an item of a laid-up vessel was given out on in the winter
 * that is planned; NULL when none did. */
const char *settled_given_up(const struct planning *planning, const char *tag);

/* Chooses the errands of all that was gathered, settled ones first, into gathering->plan, and
 * fills gathering->marks. */
void settled_plan(struct gathering *gathering);

#endif
