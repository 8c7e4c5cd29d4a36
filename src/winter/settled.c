/* Hand-ins that were given out before, taken into a new plan. */
#include "winter/settled_inside.h"

#include <string.h>

static bool
goes_to(const struct settling *settling, size_t thing, size_t stop)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	bool goes = false;
	for (size_t k = 0; k < of->way_count; k++) {
		goes = goes || of->ways[k].stop == stop;
	}
	return goes;
}

/* True when a bundle's item was given out on a hand-in, for this work. */
static bool
lists_bundle(
    const struct gathering *gathering, size_t bundle, const struct settled_hand_in *of)
{
	const char *tag = bundle_item(gathering, bundle)->tag;
	return bundle_planning(gathering, bundle)->list->has_winter
		   ? settling_lists(of, tag)
		   : settled_has_work(
			 of, tag, bundle_hand_in(gathering, bundle, 0)->line.due);
}

static size_t
stop_named(const struct gathering *gathering, const char *name)
{
	for (size_t i = 0; i < gathering->stop_count; i++) {
		if (strcmp(gathering->stops[i].name, name) == 0) {
			return i;
		}
	}
	return NO_ERRAND;
}

/* Puts on a hand-in the things it was given out with, if they still wait to go. */
static void
take_things(struct settling *settling, int held)
{
	const struct gathering *gathering = settling->gathering;
	const struct held_hand_in *of = &settling->held[held];
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		bool goes = of->of->given_up != NULL || goes_to(settling, i, of->stop);
		if (settling->held_by[i] == NOT_HELD && goes &&
		    settling_is_hers(bundle_planning(gathering, i), of->of) &&
		    lists_bundle(gathering, i, of->of)) {
			settling->held_by[i] = held;
		}
	}
}

/* Keeps the day of a hand-in while it lies ahead and serves something; what it does
 * not serve leaves it. */
static void
keep_day(struct settling *settling, int held)
{
	struct held_hand_in *of = &settling->held[held];
	size_t served = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		served += settling->held_by[i] == held &&
			  settling_way(settling, i, of->stop, of->day) != NULL;
	}
	if (of->day >= settling->today && of->chosen) {
		return;
	}
	if (of->day >= settling->today && served > 0) {
		for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
			if (settling->held_by[i] == held &&
			    settling_way(settling, i, of->stop, of->day) == NULL) {
				settling->held_by[i] = NOT_HELD;
			}
		}
		return;
	}
	if (of->day >= settling->today && settling_things_on(settling, held) > 0) {
		of->moved_why = settling_misfit(settling, held);
		of->moved_from = of->day;
	}
	of->chosen = false;
	of->missed = of->missed || of->of->day < settling->today;
	while (settling_things_on(settling, held) > 0 &&
	       (of->day = settling_new_day(settling, held)) == DAY_NONE) {
		settling_let_one_go(settling, held);
	}
}

static void
take_held(struct settling *settling, const struct settled_hand_in *of)
{
	size_t stop = stop_named(settling->gathering, of->station);
	int held = (int)settling->held_count;
	bool planned = settled_is_ahead(settling_planning(settling->gathering), of);
	if (stop == NO_ERRAND || (of->day == DAY_NONE && !planned) ||
	    !settling_is_ours(settling->gathering, of)) {
		return;
	}
	settling->held[held] = (struct held_hand_in){.of = of,
	    .stop = stop,
	    .day = planned ? of->planned : of->day,
	    .chosen = planned,
	    .missed = of->missed};
	/* a person's choice that was taken back leaves no day to keep */
	if (!planned && of->chosen && of->day >= settling->today) {
		settling->held[held].day = settling->today - 1;
	}
	settling->held_count++;
	take_things(settling, held);
	keep_day(settling, held);
	if (settling_things_on(settling, held) == 0) {
		settling->held[held].day = DAY_NONE;
	}
}

/* How many more pieces a stop takes in the week of a day. */
static int64_t
week_room(const struct settling *settling, size_t stop, day_t day)
{
	const struct gathering *gathering = settling->gathering;
	int64_t room = errand_room(&gathering->errand_stops[stop], errand_week(day));
	if (room == ERRAND_ROOM_ANY) {
		return room;
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		int held = settling->held_by[i];
		bool there = held != NOT_HELD && settling->held[held].stop == stop &&
			     errand_week(settling->held[held].day) == errand_week(day);
		room -= there ? gathering->things[i].pieces : 0;
	}
	return room;
}

/* Puts a thing that is on no hand-in on the one that serves it best, where there is
 * one. */
static void
join(struct settling *settling, size_t thing)
{
	const struct errand_way *best = NULL;
	for (size_t h = 0; h < settling->held_count; h++) {
		const struct held_hand_in *held = &settling->held[h];
		const struct planning *hers = bundle_planning(settling->gathering, thing);
		bool open = held->day != DAY_NONE &&
			    (held->of->of_base || settled_is_of(held->of, hers->vessel));
		const struct errand_way *way =
		    !open ? NULL : settling_way(settling, thing, held->stop, held->day);
		bool room = way != NULL && week_room(settling, held->stop, held->day) >=
					       settling->gathering->things[thing].pieces;
		if (room &&
		    (best == NULL || ORDER_THEN(ORDER(way->minor, best->minor),
					 way->strangeness, best->strangeness) < 0)) {
			best = way;
			settling->held_by[thing] = (int)h;
		}
	}
}

void
settled_plan(struct gathering *gathering)
{
	const struct planning *planning = settling_planning(gathering);
	struct arena *scratch = &gathering->scratch;
	size_t room = gathering->bundle_count + 1;
	struct errand_plan rest = {0};
	size_t *index = ARENA_MANY(scratch, size_t, room);
	size_t hand_ins = planning->settled_count;
	struct settling settling = {
	    .gathering = gathering,
	    .held = ARENA_MANY(scratch, struct held_hand_in, hand_ins),
	    .held_by = ARENA_MANY(scratch, int, room),
	    .today = planning->today,
	    .lead_days = planning->lead_days,
	};
	struct errand_thing *asked = ARENA_MANY(scratch, struct errand_thing, room);
	memcpy(asked, gathering->things, gathering->bundle_count * sizeof *asked);
	settling.asked = asked;
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		settling.held_by[i] = NOT_HELD;
	}
	for (size_t i = 0; i < planning->settled_count; i++) {
		/* what was given up stays on a hand-in that has no day */
		const struct settled_hand_in *of = &planning->settled[i];
		if (of->given_up != NULL && settling_is_ours(gathering, of)) {
			settling.held[settling.held_count] = (struct held_hand_in){
			    .of = of, .stop = NO_ERRAND, .day = DAY_NONE};
			take_things(&settling, (int)settling.held_count++);
		}
	}
	for (size_t i = 0; i < planning->settled_count; i++) {
		if (planning->settled[i].given_up == NULL) {
			take_held(&settling, &planning->settled[i]);
		}
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (settling.held_by[i] == NOT_HELD) {
			join(&settling, i);
		}
	}
	settling_plan_rest(&settling, &rest, index);
	settling_put_together(&settling, &rest, index);
	settled_note_earliest(gathering, asked, planning->today);
}
