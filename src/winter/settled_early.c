/* The other days on which a hand-in could be. */
#include "winter/settled.h"

bool
is_let(const struct errand_thing *thing, day_t hand_in, day_t collect)
{
	return booking_meets(
	    thing->bookings, thing->booking_count, (struct span){hand_in, collect});
}

const struct errand_way *
way_on_day(const struct errand_thing *thing, const struct station *station, size_t stop,
    day_t day)
{
	if (!station_open(station, day)) {
		return NULL;
	}
	day_t collect = station_collect(station, day);
	return is_let(thing, day, collect) ? NULL
					   : errand_way_on(thing, stop, day, collect);
}

const struct errand_way *
settled_way_kept(const struct errand_thing *thing, const struct station *station,
    size_t stop, day_t day)
{
	const struct errand_way *way = way_on_day(thing, station, stop, day);
	for (size_t k = 0; k < thing->way_count && way == NULL; k++) {
		way = thing->ways[k].stop == stop ? &thing->ways[k] : NULL;
	}
	return way;
}

/* True when the station's week of a day has room for everything on an errand, beside
 * what else the plan brings to it. */
static bool
has_room(const struct gathering *gathering, size_t errand, day_t day)
{
	const struct errand_plan *plan = &gathering->plan;
	const struct errand *of = &plan->errands[errand];
	const struct errand_stop *stop = &gathering->errand_stops[of->stop];
	int64_t room = errand_room(stop, errand_week(day));
	if (room == ERRAND_ROOM_ANY || errand_week(day) == errand_week(of->hand_in)) {
		return true;
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		size_t own = plan->errand_of[i];
		bool there = own != NO_ERRAND && plan->errands[own].stop == of->stop;
		bool then =
		    there && errand_week(plan->errands[own].hand_in) == errand_week(day);
		room -= own == errand || then ? gathering->things[i].pieces : 0;
	}
	return room >= 0;
}

/* True when everything on an errand could be handed in on a day. */
static bool
could_be(const struct gathering *gathering, const struct errand_thing *asked,
    size_t errand, day_t day)
{
	size_t stop = gathering->plan.errands[errand].stop;
	const struct station *station = gathering->errand_stops[stop].station;
	if (!station_open(station, day) || !has_room(gathering, errand, day)) {
		return false;
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (gathering->plan.errand_of[i] == errand &&
		    way_on_day(&asked[i], station, stop, day) == NULL) {
			return false;
		}
	}
	return true;
}

void
settled_note_earliest(
    struct gathering *gathering, const struct errand_thing *asked, day_t today)
{
	for (size_t e = 0; e < gathering->plan.count; e++) {
		day_t before = gathering->plan.errands[e].hand_in;
		day_t day = today;
		while (day < before && !could_be(gathering, asked, e, day)) {
			day++;
		}
		gathering->marks[e].earliest = day < before ? day : DAY_NONE;
	}
}

const char *
day_misfit_word(enum day_misfit misfit)
{
	static const char *const WORDS[] = {
	    "", "closed", "not your day", "booked", "too late", "too early"};
	return WORDS[misfit];
}

const char *
given_by_word(enum given_by by)
{
	static const char *const WORDS[] = {
	    "", "file", "feed", "push", "papers", "rota", "person"};
	return WORDS[by];
}
