#include "gear/station.h"

#include "base/text.h"

#include <string.h>
#include <strings.h>

/* How far the searches below look before they say that a station never opens. */
enum { SEARCH_DAYS = 800 };

static bool
is_among(const struct span *spans, size_t count, day_t day)
{
	for (size_t i = 0; i < count; i++) {
		if (span_has(spans[i], day)) {
			return true;
		}
	}
	return false;
}

/* True on a day in one of its closed periods, when nothing is worked on there. */
static bool
is_shut(const struct station *station, day_t day)
{
	int year = day_to_civil(day).year;
	if (is_among(station->shut, station->shut_count, day)) {
		return true;
	}
	for (size_t i = 0; i < station->closed_count; i++) {
		if (span_has(yearly_in(station->closed[i], year), day) ||
		    span_has(yearly_in(station->closed[i], year - 1), day)) {
			return true;
		}
	}
	return false;
}

unsigned
station_weekdays(const struct station *station)
{
	unsigned known = station->weekdays;
	if (station->goes == 0) {
		return known == 0 ? STATION_WEEKDAYS_SUPPOSED : known;
	}
	if (known == 0) {
		return station->goes;
	}
	return (known & station->goes) != 0 ? known & station->goes : known;
}

bool
station_open(const struct station *station, day_t day)
{
	bool confirmed = is_among(station->confirmed, station->confirmed_count, day);
	unsigned weekdays = !confirmed           ? station_weekdays(station)
			    : station->goes == 0 ? WEEKDAYS_ALL
						 : station->goes;
	return (weekdays >> day_of_week(day) & 1U) != 0 &&
	       !is_among(station->away, station->away_count, day) &&
	       (confirmed || !is_shut(station, day));
}

bool
station_said_closed(const struct station *station, day_t day)
{
	return station->weekdays != 0 ? !station_open(station, day)
				      : is_shut(station, day);
}

static bool
station_takes(const struct station *station, const char *kind)
{
	return station->kind_count == 0 ||
	       words_have(station->kinds, station->kind_count, kind);
}

enum station_fit
station_fit(const struct station *station, const char *kind, const char *make)
{
	bool lists_makes = false;
	if (!station_takes(station, kind)) {
		return FIT_NO;
	}
	for (size_t i = 0; i < station->make_count; i++) {
		if (strcmp(station->makes[i].kind, kind) != 0) {
			continue;
		}
		if (strcasecmp(station->makes[i].make, make) == 0) {
			return FIT_YES;
		}
		lists_makes = true;
	}
	if (!lists_makes) {
		return FIT_YES;
	}
	return make[0] == '\0' ? FIT_ASK : FIT_OTHER_MAKE;
}

/* The price that holds at an age among those for the task, or among those for every task. */
static const struct station_price *
step_at(const struct station *station, const char *kind, bool every_task, enum task task,
    int age_years)
{
	const struct station_price *found = NULL;
	for (size_t i = 0; i < station->price_count; i++) {
		const struct station_price *price = &station->prices[i];
		bool meant = price->every_task == every_task &&
			     (every_task || price->task == task) &&
			     price->from_years <= age_years &&
			     strcmp(price->kind, kind) == 0;
		if (meant && (found == NULL || price->from_years > found->from_years)) {
			found = price;
		}
	}
	return found;
}

static const struct station_price *
price_at(const struct station *station, const char *kind, enum task task, int age_years)
{
	const struct station_price *own = step_at(station, kind, false, task, age_years);
	return own != NULL ? own : step_at(station, kind, true, task, age_years);
}

int
station_next_age(const struct station *station, const char *kind, int age_years)
{
	int next = AGE_NOT_KNOWN;
	for (size_t i = 0; i < station->price_count; i++) {
		const struct station_price *price = &station->prices[i];
		if (price->from_years > age_years &&
		    (next == AGE_NOT_KNOWN || price->from_years < next) &&
		    strcmp(price->kind, kind) == 0) {
			next = price->from_years;
		}
	}
	return next;
}

const struct station_price *
station_price(
    const struct station *station, const char *kind, enum task task, int age_years)
{
	const struct station_price *dearest = NULL;
	if (age_years != AGE_NOT_KNOWN) {
		return price_at(station, kind, task, age_years);
	}
	for (int age = 0; age != AGE_NOT_KNOWN;
	     age = station_next_age(station, kind, age)) {
		const struct station_price *price = price_at(station, kind, task, age);
		if (price != NULL && (dearest == NULL || price->minor > dearest->minor)) {
			dearest = price;
		}
	}
	return dearest;
}

bool
station_price_varies(const struct station *station, const char *kind, enum task task)
{
	const struct station_price *first = price_at(station, kind, task, 0);
	for (int age = station_next_age(station, kind, 0); age != AGE_NOT_KNOWN;
	     age = station_next_age(station, kind, age)) {
		const struct station_price *price = price_at(station, kind, task, age);
		if ((first == NULL) != (price == NULL) ||
		    (first != NULL && first->minor != price->minor)) {
			return true;
		}
	}
	return false;
}

int
station_turn_round(const struct station *station, day_t hand_in)
{
	int month = day_to_civil(hand_in).month;
	for (size_t i = 0; i < station->pace_count; i++) {
		const struct station_pace *pace = &station->paces[i];
		bool crosses = pace->last_month < pace->first_month;
		bool from = month >= pace->first_month;
		bool to = month <= pace->last_month;
		if (crosses ? from || to : from && to) {
			return pace->turn_round_days;
		}
	}
	return station->turn_round_days;
}

day_t
station_next_open(const struct station *station, day_t day)
{
	for (day_t open = day; open < day + SEARCH_DAYS; open++) {
		if (station_open(station, open)) {
			return open;
		}
	}
	return DAY_NEVER;
}

day_t
station_collect(const struct station *station, day_t hand_in)
{
	day_t day = hand_in;
	for (int left = station_turn_round(station, hand_in); left > 0; day++) {
		if (day > hand_in + 2 * SEARCH_DAYS) {
			return DAY_NEVER;
		}
		left -= is_shut(station, day) ? 0 : 1;
	}
	return station_next_open(station, day);
}

day_t
station_last_hand_in(const struct station *station, day_t back_by)
{
	/* It is fetched on the last open day there is; going back from that with a count of the
	 * days that are worked on, the first hand-in day with as many as its own turn-round. */
	day_t fetched = back_by;
	while (fetched > back_by - SEARCH_DAYS && !station_open(station, fetched)) {
		fetched--;
	}
	int worked = 0;
	for (day_t day = fetched; day > back_by - SEARCH_DAYS; day--) {
		worked += day < fetched && !is_shut(station, day) ? 1 : 0;
		if (worked >= station_turn_round(station, day) &&
		    station_open(station, day)) {
			return day;
		}
	}
	return DAY_NONE;
}

const struct station *
station_named(const struct station *stations, size_t count, const char *name)
{
	for (size_t i = 0; i < count; i++) {
		if (strcmp(stations[i].name, name) == 0) {
			return &stations[i];
		}
	}
	return NULL;
}
