/* Hand-ins that were given out before, taken into a new plan. */
#include "winter/settled.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* A settled hand-in in the making: its place, its day now, and its things. */
struct held {
	const struct settled_hand_in *of;
	size_t place;
	day_t day; /* DAY_NONE: nothing is on it */
	bool chosen;
	bool missed;
};

enum { NOT_HELD = -1 };

struct settling {
	struct gathering *gathering;
	const struct errand_thing *asked; /* the things, not put ahead */
	struct held *held;
	size_t held_count;
	int *held_by; /* index of the held one for each thing, or NOT_HELD */
	day_t today;
	int lead_days;
};

static const struct planning *
planning_of(const struct gathering *gathering)
{
	return gathering->sortings[0].planning;
}

static const struct station *
station_at(const struct settling *settling, size_t place)
{
	return settling->gathering->errand_places[place].station;
}

/* The cheapest way by which a thing may be handed in at a place on a day; NULL when none. */
static const struct errand_way *
way_on(const struct settling *settling, size_t thing, size_t place, day_t day)
{
	return way_on_day(
	    &settling->asked[thing], station_at(settling, place), place, day);
}

static bool
goes_to(const struct settling *settling, size_t thing, size_t place)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	bool goes = false;
	for (size_t k = 0; k < of->way_count; k++) {
		goes = goes || of->ways[k].place == place;
	}
	return goes;
}

/* True when the settled hand-in is of those whose trips are being planned: of their base, or of
 * one of them alone, from before she shared trips. */
static bool
is_ours(const struct gathering *gathering, const struct settled_hand_in *of)
{
	bool ours = false;
	for (size_t i = 0; i < gathering->sorting_count && !ours; i++) {
		const struct vessel *vessel = gathering->sortings[i].planning->vessel;
		ours = strcmp(of->owner, of->of_base ? vessel->base : vessel->name) == 0;
	}
	return ours;
}

/* True when a vessel's gear may be on a settled hand-in: it is her own or her base's, and of the
 * winter that is planned. One whose boats' winters start in different years is named by the earliest,
 * so its day counts, too: behind the winter before, and not behind this one. */
static bool
is_hers(const struct planning *planning, const struct settled_hand_in *of)
{
	const struct winter *winter = &planning->list->winter;
	struct winter before;
	if (!of->of_base && strcmp(of->owner, planning->vessel->name) != 0) {
		return false;
	}
	if (of->winter == winter->year) {
		return true;
	}
	bool passed = winter_before(planning->vessel, winter->lay_up - 1, &before) &&
		      of->day <= before.fitting_out;
	return of->day != DAY_NONE && !passed && of->day <= winter->fitting_out;
}

static size_t
place_named(const struct gathering *gathering, const char *name)
{
	for (size_t i = 0; i < gathering->place_count; i++) {
		if (strcmp(gathering->places[i].name, name) == 0) {
			return i;
		}
	}
	return NO_ERRAND;
}

static bool
lists_item(const struct settled_hand_in *of, const char *tag)
{
	for (size_t i = 0; i < of->tag_count; i++) {
		if (strcmp(of->tags[i], tag) == 0) {
			return true;
		}
	}
	return false;
}

/* ---- days ---- */

/* True when the day serves all that is on a held one. */
static bool
serves_all(const struct settling *settling, int held, day_t day)
{
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		if (settling->held_by[i] == held &&
		    way_on(settling, i, settling->held[held].place, day) == NULL) {
			return false;
		}
	}
	return true;
}

/* From the first day on which anything on it might go to the last by which it must be back. */
static struct span
days_of(const struct settling *settling, int held)
{
	struct span days = {DAY_NEVER, DAY_NONE};
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		const struct errand_thing *thing = &settling->gathering->things[i];
		for (size_t k = 0; settling->held_by[i] == held && k < thing->way_count;
		     k++) {
			days.first = day_min(days.first, thing->ways[k].first);
			days.last = day_max(days.last, thing->ways[k].back_by);
		}
	}
	days.first = day_max(days.first, settling->today);
	return days;
}

/* A new day for all that is on a held one: the first that is far enough ahead, else the last
 * that serves; DAY_NONE when no day serves all of it. */
static day_t
new_day(const struct settling *settling, int held)
{
	struct span days = days_of(settling, held);
	day_t soonest = settling->today + settling->lead_days;
	for (day_t day = day_max(days.first, soonest); day <= days.last; day++) {
		if (serves_all(settling, held, day)) {
			return day;
		}
	}
	for (day_t day = day_min(days.last, soonest - 1); day >= days.first; day--) {
		if (serves_all(settling, held, day)) {
			return day;
		}
	}
	return DAY_NONE;
}

/* Why the day of a held one does not serve all that is on it. */
static enum day_misfit
misfit_of(const struct settling *settling, int held)
{
	const struct held *of = &settling->held[held];
	enum day_misfit found = DAY_SERVES;
	struct station station = *station_at(settling, of->place);
	if (!station_open(&station, of->day)) {
		station.goes = 0;
		station.away_count = 0;
		return station_open(&station, of->day) ? DAY_NOT_THEIRS : DAY_CLOSED;
	}
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		const struct errand_thing *thing = &settling->asked[i];
		bool early = true;
		if (settling->held_by[i] != held ||
		    way_on(settling, i, of->place, of->day) != NULL) {
			continue;
		}
		for (size_t k = 0; k < thing->way_count; k++) {
			early = early && (thing->ways[k].place != of->place ||
					     thing->ways[k].first > of->day);
		}
		/* of two reasons the one that can't be waited out */
		found = early && found != DAY_TOO_LATE ? DAY_TOO_EARLY : DAY_TOO_LATE;
	}
	return found;
}

/* The last day on which a thing may go to a place. */
static day_t
last_day(const struct settling *settling, size_t thing, size_t place)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	day_t first = DAY_NEVER;
	day_t last = DAY_NONE;
	for (size_t k = 0; k < of->way_count; k++) {
		first = day_min(first, of->ways[k].first);
		last = day_max(last, of->ways[k].back_by);
	}
	while (last >= first && way_on(settling, thing, place, last) == NULL) {
		last--;
	}
	return last;
}

/* Lets go of the thing that must go first. */
static void
let_one_go(struct settling *settling, int held)
{
	size_t found = NO_ERRAND;
	day_t soonest = DAY_NEVER;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		day_t last = settling->held_by[i] == held
				 ? last_day(settling, i, settling->held[held].place)
				 : DAY_NEVER;
		if (settling->held_by[i] == held && last <= soonest) {
			soonest = last;
			found = i;
		}
	}
	if (found != NO_ERRAND) {
		settling->held_by[found] = NOT_HELD;
	}
}

static size_t
things_on(const struct settling *settling, int held)
{
	size_t count = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		count += settling->held_by[i] == held ? 1 : 0;
	}
	return count;
}

/* ---- taking them in ---- */

/* Puts on a hand-in what it was given out with, as far as that still waits. */
static void
take_things(struct settling *settling, int held)
{
	const struct gathering *gathering = settling->gathering;
	const struct held *of = &settling->held[held];
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (settling->held_by[i] == NOT_HELD && goes_to(settling, i, of->place) &&
		    is_hers(bundle_planning(gathering, i), of->of) &&
		    lists_item(of->of, bundle_item(gathering, i)->tag)) {
			settling->held_by[i] = held;
		}
	}
}

/* Keeps its day while that lies ahead and serves something; what it does not serve leaves. */
static void
keep_day(struct settling *settling, int held)
{
	struct held *of = &settling->held[held];
	size_t served = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		served += settling->held_by[i] == held &&
			  way_on(settling, i, of->place, of->day) != NULL;
	}
	if (of->day >= settling->today && of->chosen) {
		return;
	}
	if (of->day >= settling->today && served > 0) {
		for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
			if (settling->held_by[i] == held &&
			    way_on(settling, i, of->place, of->day) == NULL) {
				settling->held_by[i] = NOT_HELD;
			}
		}
		return;
	}
	of->chosen = false;
	of->missed =
	    of->missed || (of->of->day != DAY_NONE && of->of->day < settling->today);
	while (things_on(settling, held) > 0 &&
	       (of->day = new_day(settling, held)) == DAY_NONE) {
		let_one_go(settling, held);
	}
}

static void
take_held(struct settling *settling, const struct settled_hand_in *of)
{
	size_t place = place_named(settling->gathering, of->station);
	int held = (int)settling->held_count;
	bool planned = of->planned != DAY_NONE && of->planned >= settling->today;
	if (place == NO_ERRAND || (of->day == DAY_NONE && !planned) ||
	    !is_ours(settling->gathering, of)) {
		return;
	}
	settling->held[held] = (struct held){
	    of, place, planned ? of->planned : of->day, planned, of->missed};
	/* a choice that was taken back leaves no day to keep */
	if (!planned && of->chosen && of->day >= settling->today) {
		settling->held[held].day = settling->today - 1;
	}
	settling->held_count++;
	take_things(settling, held);
	keep_day(settling, held);
	if (things_on(settling, held) == 0) {
		settling->held[held].day = DAY_NONE;
	}
}

/* How many pieces a place takes in already in the week of a day. */
static int64_t
week_load(const struct settling *settling, size_t place, day_t day)
{
	const struct gathering *gathering = settling->gathering;
	const struct errand_place *of = &gathering->errand_places[place];
	int64_t pieces = 0;
	for (size_t i = 0; i < of->load_count; i++) {
		pieces += of->loads[i].week == errand_week(day) ? of->loads[i].pieces : 0;
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		int held = settling->held_by[i];
		bool there = held != NOT_HELD && settling->held[held].place == place &&
			     errand_week(settling->held[held].day) == errand_week(day);
		pieces += there ? gathering->things[i].pieces : 0;
	}
	return pieces;
}

/* True when more gear of a vessel's may go on a settled hand-in. */
static bool
may_join(const struct planning *planning, const struct settled_hand_in *of)
{
	return of->of_base || strcmp(of->owner, planning->vessel->name) == 0;
}

/* Puts a thing that is on none on the one that serves it best, where there is one. */
static void
join(struct settling *settling, size_t thing)
{
	const struct errand_way *best = NULL;
	for (size_t h = 0; h < settling->held_count; h++) {
		const struct held *held = &settling->held[h];
		bool open =
		    held->day != DAY_NONE &&
		    may_join(bundle_planning(settling->gathering, thing), held->of);
		const struct errand_way *way =
		    !open ? NULL : way_on(settling, thing, held->place, held->day);
		int weekly =
		    way == NULL ? 0 : station_at(settling, held->place)->weekly_pieces;
		bool room =
		    weekly == 0 || week_load(settling, held->place, held->day) +
					   settling->gathering->things[thing].pieces <=
				       weekly;
		bool better = way != NULL && room &&
			      (best == NULL || way->minor < best->minor ||
				  (way->minor == best->minor &&
				      way->strangeness < best->strangeness));
		if (better) {
			best = way;
			settling->held_by[thing] = (int)h;
		}
	}
}

/* ---- what is left ---- */

/* No way of a thing that is planned anew is sooner than the days a new hand-in is ahead, unless
 * that is too late: then the last day that serves. */
static bool
put_ahead(struct settling *settling, size_t thing, struct errand_thing *out,
    struct fault *fault)
{
	const struct errand_thing *of = &settling->gathering->things[thing];
	struct errand_way *ways = arena_alloc(
	    &settling->gathering->scratch, (of->way_count + 1) * sizeof *ways);
	if (ways == NULL) {
		return fault_memory(fault);
	}
	for (size_t k = 0; k < of->way_count; k++) {
		const struct station *station = station_at(settling, of->ways[k].place);
		day_t soonest = settling->today + settling->lead_days;
		day_t last = day_min(
		    of->ways[k].last, station_last_hand_in(station, of->ways[k].back_by));
		ways[k] = of->ways[k];
		if (ways[k].first < soonest && last >= ways[k].first) {
			ways[k].first = day_min(soonest, last);
		}
	}
	*out = *of;
	out->ways = ways;
	return true;
}

/* The places with what the held ones bring counted in. */
static bool
load_places(struct settling *settling, struct errand_place **out, struct fault *fault)
{
	struct gathering *gathering = settling->gathering;
	struct arena *scratch = &gathering->scratch;
	struct errand_place *places =
	    arena_alloc(scratch, (gathering->place_count + 1) * sizeof *places);
	if (places == NULL) {
		return fault_memory(fault);
	}
	for (size_t p = 0; p < gathering->place_count; p++) {
		const struct errand_place *of = &gathering->errand_places[p];
		size_t room = of->load_count + gathering->bundle_count + 1;
		struct errand_load *loads = arena_alloc(scratch, room * sizeof *loads);
		if (loads == NULL) {
			return fault_memory(fault);
		}
		if (of->load_count > 0) {
			memcpy(loads, of->loads, of->load_count * sizeof *loads);
		}
		places[p] = *of;
		places[p].loads = loads;
		for (size_t i = 0; i < gathering->bundle_count; i++) {
			int held = settling->held_by[i];
			if (held != NOT_HELD && settling->held[held].place == p) {
				loads[places[p].load_count++] = (struct errand_load){
				    errand_week(settling->held[held].day),
				    gathering->things[i].pieces};
			}
		}
	}
	*out = places;
	return true;
}

/* How many trips they will make beside those that are held. */
static size_t
trips_left(const struct settling *settling)
{
	size_t most = planning_of(settling->gathering)->most_trips;
	for (size_t h = 0; h < settling->held_count && most != ERRANDS_ANY; h++) {
		most -= settling->held[h].day != DAY_NONE && most > 0 ? 1 : 0;
	}
	return most;
}

static bool
plan_rest(struct settling *settling, struct errand_plan *out, size_t *index,
    struct fault *fault)
{
	struct gathering *gathering = settling->gathering;
	struct errand_place *places = NULL;
	size_t count = 0;
	struct errand_thing *rest = arena_alloc(
	    &gathering->scratch, (gathering->bundle_count + 1) * sizeof *rest);
	if (rest == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (settling->held_by[i] == NOT_HELD) {
			if (!put_ahead(settling, i, &rest[count], fault)) {
				return false;
			}
			gathering->things[i] = rest[count];
			index[i] = count++;
		}
	}
	return load_places(settling, &places, fault) &&
	       errands_plan_few(places, gathering->place_count, rest, count,
		   trips_left(settling), &gathering->scratch, out, fault);
}

/* ---- putting both together ---- */

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
	if (a->errand.place != b->errand.place) {
		return a->errand.place < b->errand.place ? -1 : 1;
	}
	if (a->errand.hand_in != b->errand.hand_in) {
		return a->errand.hand_in < b->errand.hand_in ? -1 : 1;
	}
	return (a->from > b->from) - (a->from < b->from);
}

/* What a thing costs on the errand it is on, a held one. */
static int64_t
held_minor(const struct settling *settling, size_t thing)
{
	const struct held *held = &settling->held[settling->held_by[thing]];
	const struct errand_way *way = way_on(settling, thing, held->place, held->day);
	const struct errand_thing *of = &settling->gathering->things[thing];
	for (size_t k = 0; k < of->way_count && way == NULL; k++) {
		way = of->ways[k].place == held->place ? &of->ways[k] : NULL;
	}
	return way == NULL ? 0 : way->minor;
}

/* True when nothing of it is other than it was given out last. */
static bool
is_as_given(const struct settling *settling, size_t h)
{
	const struct held *held = &settling->held[h];
	bool same = held->day == held->of->day && held->chosen == held->of->chosen &&
		    held->missed == held->of->missed;
	size_t pieces = 0;
	for (size_t i = 0; i < settling->gathering->bundle_count && same; i++) {
		if (settling->held_by[i] == (int)h) {
			pieces++;
			same = lists_item(
			    held->of, bundle_item(settling->gathering, i)->tag);
		}
	}
	return same && pieces == held->of->tag_count;
}

static struct joined
join_held(const struct settling *settling, size_t h)
{
	const struct held *held = &settling->held[h];
	day_t ready = station_collect(station_at(settling, held->place), held->day);
	return (struct joined){{held->place, held->day, ready, ready, true},
	    {.of_base = held->of->of_base,
		.number = held->of->number,
		.winter = held->of->winter,
		.settled = true,
		.chosen = held->chosen,
		.misfit = misfit_of(settling, (int)h),
		.missed = held->missed,
		.earliest = DAY_NONE,
		.as_given = is_as_given(settling, h)},
	    h};
}

/* The number that no hand-in of the owner to this place in that winter has had. */
static size_t
free_number(const struct settling *settling, const struct joined *joined, size_t count,
    size_t place, int winter)
{
	const struct gathering *gathering = settling->gathering;
	size_t number = 0;
	for (size_t i = 0; i < planning_of(gathering)->settled_count; i++) {
		const struct settled_hand_in *of = &planning_of(gathering)->settled[i];
		if (is_ours(gathering, of) && of->winter == winter &&
		    strcmp(of->station, gathering->places[place].name) == 0 &&
		    of->number > number) {
			number = of->number;
		}
	}
	for (size_t i = 0; i < count; i++) {
		if (joined[i].errand.place == place && joined[i].mark.winter == winter &&
		    joined[i].mark.number > number) {
			number = joined[i].mark.number;
		}
	}
	return number + 1;
}

/* The earliest winter of what is on an errand of the rest. */
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
		year = year == 0 || own < year ? own : year;
	}
	return year;
}

/* Lines up the hand-ins that are held and those of the rest, by place and day; adds the held
 * ones' trips to the plan's sum. How many there are. */
static size_t
join_all(const struct settling *settling, const struct errand_plan *rest,
    const size_t *index, struct joined *joined, struct errand_plan *plan)
{
	size_t count = 0;
	for (size_t h = 0; h < settling->held_count; h++) {
		if (settling->held[h].day != DAY_NONE) {
			joined[count++] = join_held(settling, h);
			plan->minor +=
			    station_at(settling, settling->held[h].place)->trip_minor;
		}
	}
	for (size_t e = 0; e < rest->count; e++) {
		int winter = winter_of(settling, index, rest, e);
		joined[count] = (struct joined){.errand = rest->errands[e],
		    .mark = {.of_base = settling->gathering->sorting_count > 1,
			.winter = winter,
			.earliest = DAY_NONE},
		    .from = settling->held_count + e};
		joined[count].mark.number =
		    free_number(settling, joined, count, rest->errands[e].place, winter);
		count++;
	}
	qsort(joined, count, sizeof *joined, compare_joined);
	return count;
}

/* Finds the hand-in of every bundle among those joined, and adds what the held ones cost. */
static void
find_errands(const struct settling *settling, const struct errand_plan *rest,
    const size_t *index, const struct joined *joined, size_t count, size_t *errand_of,
    struct errand_plan *plan)
{
	for (size_t i = 0; i < settling->gathering->bundle_count; i++) {
		int held = settling->held_by[i];
		/* what is not held was planned with the rest */
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

/* Writes both to the gathering's plan, by place and day. */
static bool
put_together(struct settling *settling, const struct errand_plan *rest,
    const size_t *index, struct fault *fault)
{
	struct gathering *gathering = settling->gathering;
	struct arena *scratch = &gathering->scratch;
	size_t room = settling->held_count + rest->count + 1;
	struct joined *joined = arena_alloc(scratch, room * sizeof *joined);
	struct errand *errands = arena_alloc(scratch, room * sizeof *errands);
	size_t *errand_of =
	    arena_alloc(scratch, (gathering->bundle_count + 1) * sizeof *errand_of);
	gathering->marks = arena_alloc(scratch, room * sizeof *gathering->marks);
	if (joined == NULL || errands == NULL || errand_of == NULL ||
	    gathering->marks == NULL) {
		return fault_memory(fault);
	}
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
	return true;
}

bool
settled_plan(struct gathering *gathering, struct fault *fault)
{
	const struct planning *planning = planning_of(gathering);
	struct arena *scratch = &gathering->scratch;
	size_t room = gathering->bundle_count + 1;
	struct errand_plan rest = {0};
	size_t *index = arena_alloc(scratch, room * sizeof *index);
	struct settling settling = {
	    .gathering = gathering,
	    .held = arena_alloc(scratch,
		(planning_of(gathering)->settled_count + 1) * sizeof *settling.held),
	    .held_by = arena_alloc(scratch, room * sizeof *settling.held_by),
	    .today = planning->today,
	    .lead_days = planning->lead_days,
	};
	struct errand_thing *asked = arena_alloc(scratch, room * sizeof *asked);
	if (index == NULL || settling.held == NULL || settling.held_by == NULL ||
	    asked == NULL) {
		return fault_memory(fault);
	}
	if (gathering->bundle_count > 0) {
		memcpy(asked, gathering->things, gathering->bundle_count * sizeof *asked);
	}
	settling.asked = asked;
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		settling.held_by[i] = NOT_HELD;
	}
	for (size_t i = 0; i < planning_of(gathering)->settled_count; i++) {
		take_held(&settling, &planning_of(gathering)->settled[i]);
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (settling.held_by[i] == NOT_HELD) {
			join(&settling, i);
		}
	}
	gathering->held_count = settling.held_count;
	if (!plan_rest(&settling, &rest, index, fault) ||
	    !put_together(&settling, &rest, index, fault)) {
		return false;
	}
	settled_note_earliest(gathering, asked, planning->today);
	return true;
}
