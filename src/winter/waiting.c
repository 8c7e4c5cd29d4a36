/* Of a boat in use all year: where what waits for a station's work may go, and by when. */
#include "winter/shore.h"

/* What is due later than so many months from now is told of next year: no station is closed for
 * longer than station_last_hand_in looks back. */
enum { MONTHS_LOOKED_AT = 40 };

/* True when what is handed in on a day is back while it is in date, and with `bookings` she is not
 * let meanwhile. */
static bool
serves(
    const struct vessel *vessel, const struct shore_line *line, day_t day, bool bookings)
{
	if (!station_open(line->station, day)) {
		return false;
	}
	day_t collect = station_collect(line->station, day);
	return collect <= line->due &&
	       !(bookings && booking_meets(vessel->bookings, vessel->booking_count,
				 (struct span){day, collect}));
}

day_t
waits_hand_in_from(const struct vessel *vessel, const struct shore_line *line, day_t from)
{
	for (int bookings = 1; bookings >= 0; bookings--) {
		for (day_t day = from; day <= line->hand_in_by; day++) {
			if (serves(vessel, line, day, bookings == 1)) {
				return day;
			}
		}
	}
	return DAY_NONE;
}

void
waits_find_station(const struct planning *planning, struct shore_line *line)
{
	struct way *ways = NULL;
	size_t count = 0;
	int strangeness = 0;
	if (line->due > day_add_months(planning->today, MONTHS_LOOKED_AT)) {
		return;
	}
	list_ways(planning, planning_item(planning, line->item), &ways, &count);
	for (size_t i = 0; i < count; i++) {
		const struct station *station = way_station(planning, &ways[i]);
		bool nearer = line->station == NULL || ways[i].strangeness < strangeness;
		if (!nearer && ways[i].strangeness > strangeness) {
			continue;
		}
		day_t last = station_last_hand_in(station, line->due);
		if (last == DAY_NONE || (!nearer && last <= line->hand_in_by)) {
			continue;
		}
		day_t between = last_between_bookings(planning, &ways[i], last);
		last = between != DAY_NONE ? between : last;
		if (nearer || last > line->hand_in_by) {
			strangeness = ways[i].strangeness;
			line->station = station;
			line->hand_in_by = last;
		}
	}
}
