/* Of a boat in use all year: where what waits for a station's work may go, and by when. */
#include "winter/shore.h"

/* No hand-in is looked for earlier before the due day than this. */
enum { LOOKED_BACK = 400 };

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

/* The first day that serves from one day on in steps of one, up to another; DAY_NONE for none. */
static day_t
first_of(const struct vessel *vessel, const struct shore_line *line, struct span span,
    int step)
{
	for (int bookings = 1; bookings >= 0; bookings--) {
		day_t day = step > 0 ? span.first : span.last;
		for (; day >= span.first && day <= span.last; day += step) {
			if (serves(vessel, line, day, bookings == 1)) {
				return day;
			}
		}
	}
	return DAY_NONE;
}

day_t
waits_hand_in(const struct vessel *vessel, const struct shore_line *line, day_t latest)
{
	return first_of(vessel, line, (struct span){line->due - LOOKED_BACK, latest}, -1);
}

day_t
waits_hand_in_from(const struct vessel *vessel, const struct shore_line *line, day_t from)
{
	return first_of(vessel, line, (struct span){from, line->hand_in_by}, 1);
}

void
waits_find_station(const struct planning *planning, struct shore_line *line)
{
	struct way *ways = NULL;
	size_t count = 0;
	int strangeness = 0;
	list_ways(planning, planning_item(planning, line->item), &ways, &count);
	for (size_t i = 0; i < count; i++) {
		struct shore_line other = *line;
		other.station = way_station(planning, &ways[i]);
		other.hand_in_by = waits_hand_in(planning->vessel, &other, line->due);
		bool better = line->station == NULL ||
			      ways[i].strangeness < strangeness ||
			      (ways[i].strangeness == strangeness &&
				  other.hand_in_by > line->hand_in_by);
		if (other.hand_in_by != DAY_NONE && better) {
			strangeness = ways[i].strangeness;
			*line = other;
		}
	}
}
