/* Joins hand-ins that were given out before and those of the rest into one plan. */
#include "winter/settled_inside.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* An errand with its mark, and where it was. */
struct joined {
	struct errand errand;
	struct errand_mark mark;
	size_t from; /* index among the held ones, or behind them of the rest */
};

static int
compare_joined(const void *left, const void *right)
{
	const struct joined *a = left;
	const struct joined *b = right;
	int order = ORDER(a->errand.stop, b->errand.stop);
	order = ORDER_THEN(order, a->errand.hand_in, b->errand.hand_in);
	return ORDER_THEN(order, a->from, b->from);
}

/* What a thing costs on the held errand it is on. */
static int64_t
held_minor(const struct settling *settling, size_t thing)
{
	const struct held_hand_in *held = &settling->held[settling->held_by[thing]];
	if (held->day == DAY_NONE) {
		return 0; /* given up */
	}
	return settled_way_kept(&settling->asked[thing],
	    settling_station(settling, held->stop), held->stop, held->day)
	    ->minor;
}

/* True when nothing of it differs from what was given out last. */
static bool
is_as_given(const struct settling *settling, size_t h)
{
	const struct held_hand_in *held = &settling->held[h];
	bool same = held->day == held->of->day && held->chosen == held->of->chosen;
	size_t pieces = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count && same; i++) {
		if (settling->held_by[i] == (int)h) {
			pieces++;
			same = settling_lists(
			    held->of, bundle_item(settling->gathering, i)->tag);
		}
	}
	return same && pieces == held->of->tag_count;
}

static struct joined
join_held(const struct settling *settling, size_t h)
{
	const struct held_hand_in *held = &settling->held[h];
	day_t ready = station_collect(settling_station(settling, held->stop), held->day);
	bool there = held->day == held->of->day && held->chosen == held->of->chosen;
	return (struct joined){{held->stop, held->day, ready, ready, true},
	    {.of_base = held->of->of_base,
		.number = held->of->number,
		.winter = held->of->winter,
		.settled = true,
		.chosen = held->chosen,
		.confirmed = held->chosen && held->of->confirmed,
		.misfit = settling_misfit(settling, (int)h),
		.missed = held->missed,
		.given_by = there ? held->of->given_by : GIVEN_BY_UNKNOWN,
		.given_on = held->of->given_on,
		.earliest = DAY_NONE,
		.moved_from = held->moved_from,
		.moved_why = held->moved_why,
		.as_given = is_as_given(settling, h)},
	    h};
}

/* A number that no hand-in of the owner to this stop in that winter has had. */
static size_t
free_number(const struct settling *settling, const struct joined *joined, size_t count,
    size_t stop, int winter)
{
	const struct gathering *gathering = settling->gathering;
	size_t number = 0;
	for (size_t i = 0; i < settling_planning(gathering)->settled_count; i++) {
		const struct settled_hand_in *of =
		    &settling_planning(gathering)->settled[i];
		if (settling_is_ours(gathering, of) && of->winter == winter &&
		    strcmp(of->station, gathering->stops[stop].name) == 0) {
			number = GREATER(number, of->number);
		}
	}
	for (size_t i = 0; i < count; i++) {
		if (joined[i].errand.stop == stop && joined[i].mark.winter == winter) {
			number = GREATER(number, joined[i].mark.number);
		}
	}
	return number + 1;
}

/* The earliest winter of the vessels with gear on an errand of the rest. */
static int
winter_of(const struct settling *settling, const size_t *index,
    const struct errand_plan *rest, size_t errand)
{
	int year = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		if (settling->held_by[i] != NOT_HELD ||
		    rest->errand_of[index[i]] != errand) {
			continue;
		}
		int own = bundle_planning(settling->gathering, i)->list->winter.year;
		if (own == 0) { /* in use all year */
			own = day_to_civil(rest->errands[errand].hand_in).year;
		}
		year = year == 0 || own < year ? own : year;
	}
	return year;
}

/* Lines up the held hand-ins and those of the rest, by stop and day; adds the trips of
 * the held ones to the plan's sum. Returns how many there are. */
static size_t
join_all(const struct settling *settling, const struct errand_plan *rest,
    const size_t *index, struct joined *joined, struct errand_plan *plan)
{
	size_t count = 0;
	for (size_t h = 0; h < settling->held_count; h++) {
		if (settling->held[h].day != DAY_NONE) {
			joined[count++] = join_held(settling, h);
			plan->minor += settling_station(settling, settling->held[h].stop)
					   ->trip_minor;
		}
	}
	for (size_t e = 0; e < rest->count; e++) {
		int winter = winter_of(settling, index, rest, e);
		joined[count] = (struct joined){.errand = rest->errands[e],
		    .mark = {.of_base = settling->gathering->sorting_count > 1,
			.winter = winter,
			.rest = e,
			.earliest = DAY_NONE},
		    .from = settling->held_count + e};
		joined[count].mark.number =
		    free_number(settling, joined, count, rest->errands[e].stop, winter);
		count++;
	}
	qsort(joined, count, sizeof *joined, compare_joined);
	return count;
}

/* Finds the hand-in of every bundle among those lined up, and adds what the things on
 * held ones cost. */
static void
find_errands(const struct settling *settling, const struct errand_plan *rest,
    const size_t *index, const struct joined *joined, size_t count, size_t *errand_of,
    struct errand_plan *plan)
{
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		int held = settling->held_by[i];
		/* the cost of what is not held is in the plan of the rest already */
		assert(held != NOT_HELD || rest->errand_of != NULL);
		size_t old = held == NOT_HELD ? rest->errand_of[index[i]] : (size_t)held;
		size_t from = old == NO_ERRAND   ? NO_ERRAND
			      : held == NOT_HELD ? settling->held_count + old
						 : old;
		errand_of[i] = NO_ERRAND;
		plan->minor += held == NOT_HELD ? 0 : held_minor(settling, i);
		for (size_t e = 0; e < count; e++) {
			errand_of[i] = joined[e].from == from ? e : errand_of[i];
		}
	}
}

void
settling_put_together(
    struct settling *settling, const struct errand_plan *rest, const size_t *index)
{
	struct gathering *gathering = settling->gathering;
	struct arena *scratch = &gathering->scratch;
	size_t room = settling->held_count + rest->count + 1;
	struct joined *joined = ARENA_MANY(scratch, struct joined, room);
	struct errand *errands = ARENA_MANY(scratch, struct errand, room);
	size_t *errand_of = ARENA_MANY(scratch, size_t, gathering->bundle_count);
	gathering->marks = arena_alloc(scratch, room * sizeof *gathering->marks);
	struct errand_plan plan = *rest;
	size_t count = join_all(settling, rest, index, joined, &plan);
	find_errands(settling, rest, index, joined, count, errand_of, &plan);
	for (size_t e = 0; e < count; e++) {
		errands[e] = joined[e].errand;
		gathering->marks[e] = joined[e].mark;
	}
	plan.bound_minor += plan.minor - rest->minor;
	plan.bound_count += count - rest->count;
	plan.errands = errands;
	plan.errand_of = errand_of;
	plan.count = count;
	gathering->plan = plan;
}
