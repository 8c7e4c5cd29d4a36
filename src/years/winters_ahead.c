/* The outlook's winters: whose they are, and when gear can be handed in. */
#include "gear/going.h"
#include "winter/reach.h"
#include "years/outlook_inside.h"

#include <string.h>

/* A year of a vessel that is in use all year: it begins on the day asked about. */
static struct outlook_year
rolling_year(day_t today, int number)
{
	day_t first = day_add_months(today, 12 * number);
	day_t last = day_add_months(today, 12 * (number + 1)) - 1;
	return (struct outlook_year){.there = true,
	    .first = first,
	    .back_by = first,
	    .season = {first, last},
	    .all_year = true};
}

static struct outlook_year
winter_year(const struct vessel *vessel, const struct winter *winter, day_t today)
{
	day_t first = day_max(winter->lay_up, today);
	day_t back_by = winter->fitting_out - vessel->margin_days;
	return (struct outlook_year){
	    .there = true,
	    .first = first,
	    .back_by = day_max(back_by, first),
	    .season = {winter->fitting_out + 1, winter->next_lay_up - 1},
	};
}

/* The year of a vessel's first winter from today on. */
static int
first_year_of(const struct vessel *vessel, day_t today)
{
	struct winter winter;
	return winter_at(vessel, today, &winter) ? winter.year : day_to_civil(today).year;
}

/* A year after the last of her winters, of which there is one, in use all through it, or
 * none where a later winter still comes: that long season belongs to the winter
 * before. */
static struct outlook_year
year_after_last(const struct vessel *vessel, int year)
{
	struct winter winter;
	int last = year;
	if (winter_at(vessel, day_from_civil(year, 12, 31), &winter)) {
		return (struct outlook_year){0};
	}
	while (!winter_of_year(vessel, last, &winter)) {
		last--;
	}
	return rolling_year(winter.lay_up, year - last);
}

static struct outlook_year
year_of(const struct outlook_make *make, const struct vessel *vessel, int number)
{
	day_t today = make->ask->today;
	int year = make->first_year + number;
	struct winter winter;
	if (!winter_at(vessel, today, &winter)) {
		return rolling_year(today, number);
	}
	int first = winter.year;
	if (year < first) {
		return (struct outlook_year){0};
	}
	return winter_of_year(vessel, year, &winter) ? winter_year(vessel, &winter, today)
						     : year_after_last(vessel, year);
}

/* The last day a station takes gear in so that it is back in time, no sooner than it
 * said; DAY_NONE for none. */
static day_t
last_hand_in(const struct going *going, const struct station *station,
    const struct outlook_year *year)
{
	if (!year->there) {
		return DAY_NONE;
	}
	day_t first =
	    going_next(going, station, day_max(year->first, station->not_before));
	if (year->all_year) {
		return first == DAY_NEVER ? DAY_NONE : first;
	}
	day_t last = going_last_hand_in(going, station, year->back_by);
	return last < first ? DAY_NONE : last; /* DAY_NONE is before every day */
}

static void
fill_vessel(struct outlook_make *make, size_t place)
{
	const struct outlook_ask *ask = make->ask;
	const struct vessel *vessel =
	    &ask->engine->inventory->vessels[ask->vessels[place]];
	const struct going going =
	    going_of(ask->engine->inventory, ask->vessels[place], ask->today);
	size_t winters = ask->winters;
	make->first_there[place] = winters;
	for (size_t winter = 0; winter < winters; winter++) {
		struct outlook_year year = year_of(make, vessel, (int)winter);
		make->years[place * winters + winter] = year;
		if (year.there && make->first_there[place] == winters) {
			make->first_there[place] = winter;
		}
		for (size_t i = 0; i <= ask->station_count; i++) {
			const struct station *station = i == ask->station_count
							    ? &ASSUMED_STATION
							    : &ask->stations[i];
			size_t at =
			    (place * (ask->station_count + 1) + i) * winters + winter;
			bool skipped = ask->skip_year != 0 &&
				       ask->skip_year == make->first_year + (int)winter;
			make->last_hand_in[at] =
			    skipped ? DAY_NONE : last_hand_in(&going, station, &year);
		}
	}
}

void
outlook_years(struct outlook_make *make)
{
	const struct outlook_ask *ask = make->ask;
	const struct inventory *inventory = ask->engine->inventory;
	size_t years = ask->vessel_count * ask->winters + 1;
	make->years = ARENA_MANY(make->arena, struct outlook_year, years);
	make->last_hand_in =
	    ARENA_MANY(make->arena, day_t, years * (ask->station_count + 1));
	make->first_there = ARENA_MANY(make->arena, size_t, ask->vessel_count);
	for (size_t i = 0; i < ask->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[ask->vessels[i]];
		int year = first_year_of(vessel, ask->today);
		make->first_year = i == 0 ? year : LESSER(year, make->first_year);
	}
	for (size_t i = 0; i < ask->vessel_count; i++) {
		fill_vessel(make, i);
	}
}

/* Whether a unit may go to a station in a winter: it takes the kind and the make, and
 * it serves her base of then or the item was there before. */
static bool
serves(const struct unit *unit, const struct station *station, size_t winter)
{
	const struct outlook_make *make = unit->make;
	const struct inventory *inventory = make->ask->engine->inventory;
	const struct item *item = &inventory->items[unit->members[0].item];
	const struct outlook_year *year = year_at(make, unit->place, winter);
	const char *base = vessel_base_on(&inventory->vessels[item->vessel], year->first);
	return station_in_reach(station, base, item) &&
	       station_fit(station, item->kind, item->make) == FIT_YES;
}

/* Gathers the stations approved for it, but for those shunned; the one it went to last
 * first. Approval is never assumed: a make that is not known has none. Returns how
 * many. */
static size_t
gather_stations(const struct unit *unit, size_t *stations)
{
	const struct outlook_ask *ask = unit->make->ask;
	const struct item *item = &ask->engine->inventory->items[unit->members[0].item];
	size_t count = 0;
	for (size_t i = 0; i < ask->station_count; i++) {
		bool ever = false;
		for (size_t winter = 0; winter < ask->winters && !ever; winter++) {
			ever = year_at(unit->make, unit->place, winter)->there &&
			       serves(unit, &ask->stations[i], winter);
		}
		if (!ever || (ask->shunned != NULL && ask->shunned[i])) {
			continue;
		}
		stations[count++] = i;
		if (strcmp(ask->stations[i].name, last_station(item)) == 0) {
			stations[count - 1] = stations[0];
			stations[0] = i;
		}
	}
	return count;
}

/* The day the unit's work of a winter is done on, and where it may be handed in. */
static day_t
work_day(struct unit *unit, size_t winter)
{
	const struct outlook_make *make = unit->make;
	size_t winters = make->ask->winters;
	const struct outlook_year *year = year_at(make, unit->place, winter);
	day_t work = DAY_NEVER;
	for (size_t i = 0; i < unit->station_count; i++) {
		size_t row =
		    unit->place * (make->ask->station_count + 1) + unit->stations[i];
		day_t day = make->last_hand_in[row * winters + winter];
		bool assumed = unit->stations[i] == assumed_station(make);
		if (day != DAY_NONE && !assumed &&
		    !serves(unit, &make->ask->stations[unit->stations[i]], winter)) {
			day = DAY_NONE;
		}
		unit->open[i * winters + winter] = day != DAY_NONE;
		work = day == DAY_NONE ? work : day_min(work, day);
	}
	return work == DAY_NEVER ? year->back_by : work;
}

void
unit_stations(struct unit *unit, bool ashore)
{
	struct outlook_make *make = unit->make;
	size_t winters = make->ask->winters;
	size_t most = make->ask->station_count + 1;
	size_t *stations = ARENA_MANY(make->arena, size_t, most);
	day_t *work = ARENA_MANY(make->arena, day_t, winters);
	unit->open = arena_alloc(make->arena, most * winters * sizeof *unit->open);
	unit->station_count = ashore ? gather_stations(unit, stations) : 0;
	if (ashore && unit->station_count == 0) {
		stations[unit->station_count++] = assumed_station(make);
	}
	unit->stations = stations;
	for (size_t winter = 0; winter < winters; winter++) {
		work[winter] = work_day(unit, winter);
	}
	unit->work = work;
}
