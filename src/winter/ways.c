/* Which stations a thing may go to, and between which days. */
#include "winter/prices.h"
#include "winter/settled.h"

#include <assert.h>
#include <string.h>

const struct station ASSUMED_STATION = {
    .name = "", .base = "", .turn_round_days = ASSUMED_TURN_ROUND_DAYS};

/* Boats in use all year have no fitting-out by which gear must be back: instead, so
 * many months ahead are looked at. */
enum { MONTHS_OPEN = 24 };

void
ready_stations(struct planning *planning)
{
	planning->first_day = day_max(planning->list->winter.lay_up, planning->today);
	planning->back_by =
	    planning->list->has_winter
		? planning->list->winter.fitting_out - planning->vessel->margin_days
		: day_add_months(planning->today, MONTHS_OPEN);
	planning->first_open =
	    ARENA_MANY(planning->passing, day_t, planning->station_count);
	planning->last_hand_in =
	    ARENA_MANY(planning->passing, day_t, planning->station_count);
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		planning->first_open[i] = station_next_open(
		    station, day_max(planning->first_day, station->not_before));
		planning->last_hand_in[i] =
		    station_last_hand_in(station, planning->back_by);
	}
}

/* The station an item went to last; "" when none is on record, or when it is not to be
 * used. */
static const char *
station_before(const struct planning *planning, const struct item *item)
{
	const char *name = last_station(item);
	const struct station *last =
	    station_named(planning->stations, planning->station_count, name);
	return last != NULL && last->left_out ? "" : name;
}

bool
station_in_reach(const struct station *station, const char *base, const struct item *item)
{
	return !station->left_out &&
	       (station->base[0] == '\0' || strcmp(station->base, base) == 0 ||
		   strcmp(station->name, last_station(item)) == 0);
}

static bool
is_eligible(const struct planning *planning, const struct station *station,
    const struct item *item)
{
	return station_in_reach(station, planning->vessel->base, item) &&
	       station_fit(station, item->kind, item->make) == FIT_YES;
}

struct way_price
way_price(const struct planning *planning, const struct shore_line *line,
    const struct way *way, day_t hand_in)
{
	const struct item *item = planning_item(planning, line->item);
	if (way->station == NO_STATION) {
		return (struct way_price){.minor = -1};
	}
	const struct station *station = &planning->stations[way->station];
	int age = item_age(item, hand_in);
	struct asked_price price = price_asked(station, item, line->task, age);
	bool missed =
	    age == AGE_NOT_KNOWN && station_price_varies(station, item->kind, line->task);
	return (struct way_price){price.minor, price.from_years, missed};
}

day_t
way_price_changes(const struct planning *planning, const struct shore_line *line,
    const struct way *way, day_t after)
{
	const struct item *item = planning_item(planning, line->item);
	day_t born = item_born(item);
	if (born == DAY_NONE) {
		return DAY_NEVER;
	}
	int age = station_next_age(
	    &planning->stations[way->station], item->kind, item_age(item, after));
	return age == AGE_NOT_KNOWN ? DAY_NEVER : day_add_months(born, 12 * age);
}

void
list_ways(const struct planning *planning, const struct item *item, struct way **ways_out,
    size_t *count_out)
{
	struct way *ways =
	    ARENA_MANY(planning->passing, struct way, planning->station_count);
	const char *last = station_before(planning, item);
	size_t count = 0;
	for (size_t i = 0; i < planning->station_count; i++) {
		const struct station *station = &planning->stations[i];
		int strangeness = strcmp(station->name, last) == 0 ? 0
				  : station->base[0] == '\0'       ? 2
								   : 1;
		if (is_eligible(planning, station, item)) {
			ways[count++] =
			    (struct way){i, station->name, planning->first_open[i],
				planning->last_hand_in[i], strangeness};
		}
	}
	if (count == 0) {
		ways[count++] = (struct way){NO_STATION, last, planning->first_day,
		    station_last_hand_in(planning->assumed, planning->back_by), 0};
	}
	*ways_out = ways;
	*count_out = count;
}

/* Keeps the ways that have a day that serves, none of them before `not_before`
 * (DAY_NONE: any day). Leaves `ways` as it is when none has. */
static bool
keep_ways(
    const struct planning *planning, day_t not_before, struct way *ways, size_t *count)
{
	size_t kept_count = 0;
	for (size_t i = 0; i < *count; i++) {
		struct way way = ways[i];
		if (not_before != DAY_NONE && not_before > way.first) {
			way.first =
			    station_next_open(way_station(planning, &way), not_before);
		}
		if (way.last != DAY_NONE && way.first <= way.last) {
			ways[kept_count++] = way;
		}
	}
	*count = kept_count > 0 ? kept_count : *count;
	return kept_count > 0;
}

/* Keeps the ways to stations where a person's day for the item lies ahead, though it
 * is too late. Leaves `ways` as it is when there is none. */
static bool
keep_chosen(const struct planning *planning, const struct shore_line *line,
    struct way *ways, size_t *count)
{
	const char *tag = planning_item(planning, line->item)->tag;
	size_t kept_count = 0;
	for (size_t i = 0; i < *count; i++) {
		if (settled_is_kept_at(planning, tag, ways[i].name)) {
			ways[kept_count++] = ways[i];
		}
	}
	*count = kept_count > 0 ? kept_count : *count;
	return kept_count > 0;
}

day_t
last_between_bookings(const struct planning *planning, const struct way *way, day_t last)
{
	const struct station *station = way_station(planning, way);
	const struct vessel *vessel = planning->vessel;
	for (day_t day = last; day >= way->first; day--) {
		if (station_open(station, day) &&
		    !booking_meets(vessel->bookings, vessel->booking_count,
			(struct span){day, station_collect(station, day)})) {
			return day;
		}
	}
	return DAY_NONE;
}

/* A boat in use all year hands in while the gear is in date, and between her bookings,
 * where a station can be reached in that way: up to the last day on which both hold.
 * Where no station can, it goes late. */
static void
keep_in_date(const struct planning *planning, const struct shore_line *line,
    struct way *ways, size_t count)
{
	day_t *lasts = ARENA_MANY(planning->scratch, day_t, count);
	bool any = false;
	for (size_t i = 0; i < count && line->due != DAY_NONE; i++) {
		lasts[i] = last_between_bookings(
		    planning, &ways[i], day_min(ways[i].last, line->due));
		any = any || lasts[i] != DAY_NONE;
	}
	for (size_t i = 0; i < count && any; i++) {
		ways[i].last =
		    lasts[i] != DAY_NONE ? lasts[i] : day_min(ways[i].last, line->due);
	}
}

bool
find_ways(const struct planning *planning, struct shore_line line, struct hand_in *out)
{
	struct way *ways = NULL;
	size_t count = 0;
	list_ways(planning, planning_item(planning, line.item), &ways, &count);
	assert(ways != NULL);
	day_t last = DAY_NONE;
	for (size_t i = 0; i < count; i++) {
		last = day_max(last, ways[i].last);
	}
	if (!planning->list->has_winter) {
		keep_in_date(planning, &line, ways, count);
	} else {
		find_not_before(planning, line.item, line.task,
		    last == DAY_NONE ? planning->list->winter.lay_up : last,
		    &line.not_before, &line.carries);
	}
	struct hand_in hand_in = {line, ways, count};
	bool found = keep_ways(planning, line.not_before, ways, &hand_in.way_count);
	if (!found && line.not_before != DAY_NONE) {
		/* It could be back in time, but not on a day so late that it carries
		 * her through the season: service before the season, though it falls
		 * due again in it, is better than none. */
		hand_in.line.carries = false;
		hand_in.line.not_before = DAY_NONE;
		found = keep_ways(planning, DAY_NONE, ways, &hand_in.way_count);
	}
	if (!found && keep_chosen(planning, &line, ways, &hand_in.way_count)) {
		hand_in.line = line; /* what it says holds still, too */
		found = true;
	}
	*out = hand_in;
	return found;
}
