#include "winter/station.h"

#include <string.h>

/* How far the searches below look before they say that a station never opens. */
enum { SEARCH_DAYS = 800 };

bool
station_open(const struct station *station, day_t day)
{
	int year = day_to_civil(day).year;
	for (size_t i = 0; i < station->closed_count; i++) {
		if (span_has(yearly_in(station->closed[i], year), day) ||
		    span_has(yearly_in(station->closed[i], year - 1), day)) {
			return false;
		}
	}
	return true;
}

bool
station_takes(const struct station *station, const char *kind)
{
	for (size_t i = 0; i < station->kind_count; i++) {
		if (strcmp(station->kinds[i], kind) == 0) {
			return true;
		}
	}
	return station->kind_count == 0;
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
	for (int left = station->turn_round_days; left > 0; left--) {
		day = station_next_open(station, day + 1);
		if (day == DAY_NEVER) {
			return DAY_NEVER;
		}
	}
	return day;
}

day_t
station_last_hand_in(const struct station *station, day_t back_by)
{
	/* Counting back from the last open collect day gives a day whose collect is on time;
	 * every open day after it collects later. */
	day_t day = back_by;
	for (int left = station->turn_round_days + 1; day > back_by - SEARCH_DAYS;
	     day--) {
		left -= station_open(station, day) ? 1 : 0;
		if (left == 0) {
			return day;
		}
	}
	return DAY_NONE;
}
