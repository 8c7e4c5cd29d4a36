/* Inside the trips: hand-ins bundled into things for errands. Not for others. */
#ifndef BECKET_WINTER_BUNDLES_H
#define BECKET_WINTER_BUNDLES_H

#include "winter/shore.h"

struct errand_mark; /* settled.h */

/* The tasks of one item that go to a station together: hand-ins of one vessel, neighbours in
 * her list. */
struct bundle {
	size_t sorting;
	size_t first;
	size_t count;
};

/* A station as a place for errands. */
struct place {
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
	struct place *places;
	struct errand_place *errand_places; /* the same places */
	size_t place_count;
	struct errand_plan plan;
	struct errand_reason *reasons; /* one an errand of the plan */
	struct errand_mark *marks;     /* one an errand of the plan */

	/* what is on no hand-in that was given out before, as it was planned by itself */
	struct errand_rest {
		const struct errand_place *places; /* with what those bring counted in */
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

/* Bundles the hand-ins of all vessels, makes a thing of each bundle and a place of each
 * station, with what is to come to it already. */
MUST_CHECK bool bundles_gather(struct gathering *gathering, struct fault *fault);

#endif
