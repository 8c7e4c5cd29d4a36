/* Loading stations. */
#include "book/rows.h"
#include "gear/fleet_change.h"

#include <stdlib.h>
#include <string.h>

static void *
owner_station(struct loading *loading, size_t *at, int64_t id)
{
	while (*at < loading->station_count && loading->stations[*at].id < id) {
		++*at;
	}
	bool found = *at < loading->station_count && loading->stations[*at].id == id;
	return found ? &loading->stations[*at] : NULL;
}

static bool
load_station_rows(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	size_t room = loading->counts.stations;
	load_room(loading, room, sizeof(struct station), &loading->stations);
	if (room > 0 && !call_open(loading->book, LOAD_STATIONS, &call, fault)) {
		return false;
	}
	while (load_next(&call, loading->station_count < room, &done, fault)) {
		struct station *station = &loading->stations[loading->station_count++];
		struct station_change taken = {0};
		station->id = take_int(&call);
		station->name = take_text(&call, loading->arena);
		station->weekdays = (unsigned)take_int(&call);
		for (size_t i = 0; i < STATION_FIELD_COUNT; i++) {
			if (!STATION_FIELDS[i].part) {
				take_field(
				    &call, loading->arena, &STATION_FIELDS[i], &taken);
			}
		}
		station->own = taken.own;
	}
	return done;
}

static void
take_closure(const struct load_row *row)
{
	*(struct yearly *)row->into = take_yearly(row->call);
}

static void
take_kind(const struct load_row *row)
{
	*(const char **)row->into = take_text(row->call, row->loading->arena);
}

static void
take_pace(const struct load_row *row)
{
	struct station_pace *pace = row->into;
	pace->first_month = (int)take_int(row->call);
	pace->last_month = (int)take_int(row->call);
	pace->turn_round_days = (int)take_int(row->call);
}

static void
take_make(const struct load_row *row)
{
	struct station_make *make = row->into;
	make->kind = take_text(row->call, row->loading->arena);
	make->make = take_text(row->call, row->loading->arena);
}

#define LIST(statement, member, number, counts, take_)                                   \
	LOAD_LIST(                                                                       \
	    statement, station, member, number, counts, .whole = true, .take = (take_))

static const struct load_list LISTS[] = {
    LIST(LOAD_CLOSURES, closed, closed_count, closures, take_closure),
    LIST(LOAD_STATION_KINDS, kinds, kind_count, kinds, take_kind),
    LIST(LOAD_SHUT, shut, shut_count, shut, load_take_days),
    LIST(LOAD_PACES, paces, pace_count, paces, take_pace),
    LIST(LOAD_MAKES, makes, make_count, makes, take_make),
};

/* True when two prices are for the same work from the same age. */
static bool
same_step(const struct station_price *a, const struct station_price *b)
{
	return a->from_years == b->from_years && a->every_task == b->every_task &&
	       a->task == b->task && strcmp(a->kind, b->kind) == 0;
}

static bool
load_prices(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	struct station_price *prices = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = loading->counts.prices;
	load_room(loading, room, sizeof *prices, &prices);
	if (room > 0 && !call_open(loading->book, LOAD_PRICES, &call, fault)) {
		return false;
	}
	while (load_next(&call, count < room, &done, fault)) {
		struct station *station = owner_station(loading, &at, take_int(&call));
		if (station == NULL) {
			continue;
		}
		if (station->price_count++ == 0) {
			station->prices = &prices[count];
		}
		struct station_price *price = &prices[count++];
		price->kind = take_text(&call, loading->arena);
		price->every_task = take_null(&call);
		price->task = price->every_task
				  ? TASK_SERVICE
				  : (enum task)take_code(&call, &TASK_CODES);
		price->minor = take_int(&call);
		int64_t from_years = take_int(&call);
		price->from_years = (int)from_years;
		if (price->minor < 0 || from_years < 0 || from_years > STATION_AGE_MOST ||
		    (station->price_count > 1 && same_step(price, price - 1))) {
			return fault_set(fault, FAULT_BOOK,
			    "%s asks %lld for %s from an age of %lld years, which can't be, "
			    "or is there twice",
			    station->name, (long long)price->minor, price->kind,
			    (long long)from_years);
		}
	}
	return done;
}

static int
compare_stations(const void *a, const void *b)
{
	return strcmp(
	    ((const struct station *)a)->name, ((const struct station *)b)->name);
}

bool
load_stations(struct loading *loading, struct fault *fault)
{
	if ((loading->taken & LOADS_STATIONS) != 0) {
		return true; /* they stay those of before */
	}
	if (!load_station_rows(loading, fault) ||
	    !load_lists(
		loading, LISTS, sizeof LISTS / sizeof LISTS[0], owner_station, fault) ||
	    !load_prices(loading, fault)) {
		return fault_prefix(fault, "stations");
	}
	qsort(loading->stations, loading->station_count, sizeof *loading->stations,
	    compare_stations);
	return true;
}
