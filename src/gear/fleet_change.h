/* What is to be written of a vessel or a station: what is not set is kept as it is. */
#ifndef BECKET_GEAR_FLEET_CHANGE_H
#define BECKET_GEAR_FLEET_CHANGE_H

#include "gear/station.h"

/* In `set` of a vessel's change: `from` is told. */
#define SET_FROM (1U << VESSEL_FIELD_COUNT)

struct vessel_change {
	const char *name;
	unsigned set; /* bit 1 << enum vessel_field, and SET_FROM */
	/* where SET_FROM is set: what is timed, base, lay-up and sheets hold from this day, each
	 * until the next day from which something else was said of it; else, or DAY_NONE, since
	 * ever */
	day_t from;
	VESSEL_VALUES;
	PERIOD_VALUES;
	const char *base;
	bool laid_up;
	struct yearly lay_up;
	/* added, or replaced where the year is there */
	const struct odd_winter *odd_winters;
	size_t odd_winter_count;
	const char *const *sheets; /* replaces the list; at least one */
	size_t sheet_count;
	unsigned
	    goes; /* as struct vessel has it; so the next, which replace those before */
	const struct span *away;
	size_t away_count;
	day_t left; /* first day on which she is not in the fleet any more; DAY_NONE takes
		     * that back */
	enum because
	    left_because; /* BECAUSE_SOLD, _LOST, _CONDEMNED, _GIVEN_BACK or not said */
};

struct station_change {
	const char *name;
	unsigned set; /* bit 1 << enum station_field */
	STATION_VALUES;
	unsigned weekdays;
	/* both replace what is there; with none of either all closures are forgotten */
	const struct yearly *closed;
	size_t closed_count;
	const struct span *shut;
	size_t shut_count;
	const struct station_pace *paces; /* replaces the list, which may be none */
	size_t pace_count;
	const char *const *kinds; /* replaces the list; none for every kind */
	size_t kind_count;
	const char *const *make_kinds; /* the makes of these kinds are forgotten first */
	size_t make_kind_count;
	const struct station_make *makes; /* then these are added */
	size_t make_count;
	bool no_prices; /* forgets all prices before those below are put */
	/* put in place of those for the same kind, task and age, in this order; one
	 * below 0 is forgotten, and if it is one from new all its steps with it */
	const struct station_price *prices;
	size_t price_count;
};

#endif
