/* The trips of vessels that share them: hand-ins turned into errands, and errands into
 * trips. */
#include "base/text.h"
#include "winter/settled.h"

#include <string.h>

/* ---- why there ---- */

/* Finds why each errand goes where it goes. Settled errands are kept, whatever they
 * would cost elsewhere: the others are weighed among themselves. */
static void
explain_errands(struct gathering *gathering)
{
	const struct errand_rest *rest = &gathering->rest;
	SCOPED_ARENA scratch = {0};
	size_t count = gathering->plan.count;
	const struct errands_asked asked = {rest->stops, gathering->stop_count,
	    rest->things, rest->thing_count, rest->most_trips};
	gathering->reasons = ARENA_MANY(&gathering->scratch, struct errand_reason, count);
	for (size_t i = 0; i < count; i++) {
		arena_reset(&scratch);
		if (gathering->marks[i].settled) {
			settled_why(gathering, i, &scratch, &gathering->marks[i].weighed,
			    &gathering->reasons[i]);
			continue;
		}
		errands_why(&asked, &rest->plan, gathering->marks[i].rest, &scratch,
		    &gathering->reasons[i]);
	}
}

/* ---- writing to the lists ---- */

/* How many vessels have gear on an errand. */
static size_t
count_vessels(const struct gathering *gathering, size_t errand)
{
	size_t vessels = 0;
	size_t last = NO_ERRAND;
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		size_t sorting = gathering->bundles[i].sorting;
		if (gathering->plan.errand_of[i] == errand) {
			vessels += last != sorting; /* they come vessel by vessel */
			last = sorting;
		}
	}
	return vessels;
}

static enum days_agree
days_of(const struct station *station, day_t hand_in)
{
	if (station->weekdays == 0) {
		return (STATION_WEEKDAYS_SUPPOSED >> day_of_week(hand_in) & 1U) == 0
			   ? DAYS_TO_ASK
			   : DAYS_AGREE;
	}
	return station->goes != 0 && (station->goes & station->weekdays) == 0
		   ? DAYS_NOT_SHARED
		   : DAYS_AGREE;
}

/* The day from which an errand is given out, as struct trip has it. */
static day_t
given_from(const struct gathering *gathering, size_t errand)
{
	day_t lay_up = DAY_NEVER;
	day_t from = DAY_NONE;
	if (gathering->marks[errand].settled) {
		return DAY_NONE;
	}
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (gathering->plan.errand_of[i] == errand) {
			const struct planning *planning = bundle_planning(gathering, i);
			lay_up = day_min(lay_up, planning->list->winter.lay_up);
		}
	}
	for (size_t i = 0; i < gathering->sorting_count; i++) {
		const struct planning *planning = gathering->sortings[i].planning;
		const struct winter *winter = &planning->list->winter;
		bool laid_up =
		    planning->list->has_winter && winter->lay_up <= planning->today;
		if (laid_up && winter->fitting_out < lay_up) {
			from = day_max(from, winter->fitting_out + 1);
		}
	}
	return from > gathering->sortings[0].planning->today ? from : DAY_NONE;
}

/* The trip for an errand, without its lines and shares. */
static struct trip
trip_of(const struct gathering *gathering, size_t errand)
{
	const struct errand *of = &gathering->plan.errands[errand];
	const struct bundle_station *stop = &gathering->stops[of->stop];
	const struct errand_reason *reason = &gathering->reasons[errand];
	const struct errand_mark *mark = &gathering->marks[errand];
	struct trip trip = {
	    .station = stop->station,
	    .name = stop->name,
	    .assumed = stop->station == NO_STATION,
	    .hand_in = of->hand_in,
	    .ready = of->ready,
	    .collect = of->collect,
	    .of_base = mark->of_base,
	    .choice = {.any = reason->any,
		.no_room = reason->no_room,
		.not_weighed = mark->settled && !mark->weighed,
		.saves_minor = reason->saves_minor > 0 ? reason->saves_minor : 0,
		.cheaper_minor = reason->saves_minor < 0 ? -reason->saves_minor : 0,
		.saves_trips = reason->saves_minor < 0 ? 0 : reason->saves_count},
	    .vessels = count_vessels(gathering, errand),
	    .year = mark->winter,
	    .number = mark->number,
	    .settled = mark->settled,
	    .chosen = mark->chosen,
	    .confirmed = mark->confirmed,
	    .misfit = mark->misfit,
	    .days = mark->confirmed
			? DAYS_AGREE
			: days_of(gathering->errand_stops[of->stop].station, of->hand_in),
	    .missed = mark->missed,
	    .given_on = mark->given_on,
	    .given_by = mark->given_by,
	    .earliest = mark->earliest,
	    .as_given = mark->as_given,
	    .moved_from = mark->moved_from,
	    .moved_why = mark->moved_why,
	    .given_from = given_from(gathering, errand),
	};
	trip.held_back = trip.given_from != DAY_NONE;
	return trip;
}

/* Notes on a line which task counts as its work; that task is charged, and this line
 * is not. */
static void
set_counted(const struct planning *planning, struct shore_line *line)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words, "its %s counts as the %s, and alone is charged",
	    task_word(line->counted_by), task_word(line->task));
	line->price_minor = 0;
	if (line->note[0] == '\0') {
		line->note = arena_string(planning->arena, text_string(&words));
	}
}

/* Sets what a line's work costs by its way when handed in on a day, and what it costs
 * later. */
static void
set_price(const struct planning *planning, const struct way *way, day_t hand_in,
    struct shore_line *line)
{
	struct way_price price = way_price(planning, line, way, hand_in);
	if (line->counted) {
		set_counted(planning, line);
		return;
	}
	if (price.minor < 0) {
		return;
	}
	line->price_minor = price.minor;
	line->price_from_years = price.from_years;
	line->price_age_missed = price.age_missed;
	for (day_t day = way_price_changes(planning, line, way, hand_in);
	     day <= way->last && line->later_years == 0;
	     day = way_price_changes(planning, line, way, day)) {
		struct way_price later = way_price(planning, line, way, day);
		if (later.minor != price.minor) {
			line->later_years = later.from_years;
			line->later_from = day;
			line->later_minor = later.minor;
		}
	}
}

/* Adds the lines of a bundle to a trip. */
static void
add_lines(const struct gathering *gathering, size_t bundle, struct trip *trip)
{
	const struct planning *planning = bundle_planning(gathering, bundle);
	for (size_t i = 0; i < gathering->bundles[bundle].count; i++) {
		const struct hand_in *hand_in = bundle_hand_in(gathering, bundle, i);
		struct shore_line line = hand_in->line;
		for (size_t k = 0; k < hand_in->way_count; k++) {
			const struct way *way = &hand_in->ways[k];
			if (way->station != trip->station) {
				continue;
			}
			set_price(planning, way, trip->hand_in, &line);
			/* a boat in use all year has no last day for what lapses
			 * before it */
			line.not_after =
			    planning->list->has_winter || way->last <= line.due
				? way->last
				: DAY_NONE;
		}
		line.due_again = due_again(planning->engine, line.item, line.task,
		    trip->hand_in, planning->scratch);
		ARENA_ADD(planning->arena, &trip->lines, line);
	}
	arena_reset(planning->scratch);
}

/* Writes an errand to the lists of all vessels with gear on it; the trip's price is
 * shared evenly, and the first pays the remainder. */
static void
write_errand(const struct gathering *gathering, size_t errand)
{
	const struct trip shared = trip_of(gathering, errand);
	int64_t minor =
	    shared.assumed
		? 0
		: gathering->sortings[0].planning->stations[shared.station].trip_minor;
	int64_t vessels = (int64_t)shared.vessels;
	size_t nth = 0;
	struct trip trip = shared;
	size_t sorting = NO_ERRAND;
	for (size_t i = 0; i <= gathering->bundle_count; i++) {
		bool end = i == gathering->bundle_count;
		if (!end && gathering->plan.errand_of[i] != errand) {
			continue;
		}
		if (sorting != NO_ERRAND &&
		    (end || gathering->bundles[i].sorting != sorting)) {
			trip.share_minor =
			    minor / vessels + (nth++ == 0 ? minor % vessels : 0);
			const struct planning *planning =
			    gathering->sortings[sorting].planning;
			ARENA_ADD(planning->arena, &planning->list->hand_in, trip);
			trip = shared;
		}
		if (!end) {
			sorting = gathering->bundles[i].sorting;
			add_lines(gathering, i, &trip);
		}
	}
}

/* Trips by day, then station; there are few, so insertion sort is enough. */
static void
sort_trips(struct trips *trips)
{
	for (size_t i = 1; i < trips->count; i++) {
		struct trip moved = trips->items[i];
		size_t j = i;
		while (
		    j > 0 && (trips->items[j - 1].hand_in > moved.hand_in ||
				 (trips->items[j - 1].hand_in == moved.hand_in &&
				     strcmp(trips->items[j - 1].name, moved.name) > 0))) {
			trips->items[j] = trips->items[j - 1];
			j--;
		}
		trips->items[j] = moved;
	}
}

/* Lists the lines for which no week has room, or which would need more trips than they
 * will make. */
static void
write_left_out(const struct gathering *gathering)
{
	bool trips = gathering->plan.count >= gathering->sortings[0].planning->most_trips;
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		if (gathering->plan.errand_of[i] != NO_ERRAND) {
			continue;
		}
		for (size_t k = 0; k < gathering->bundles[i].count; k++) {
			add_no_room(bundle_planning(gathering, i),
			    bundle_hand_in(gathering, i, k), trips);
		}
	}
}

/* Notes what each station with a weekly limit is to take in. */
static void
note_loads(struct gathering *gathering)
{
	for (size_t i = 0; i < gathering->bundle_count; i++) {
		size_t index = gathering->plan.errand_of[i];
		const struct errand *errand =
		    index == NO_ERRAND ? NULL : &gathering->plan.errands[index];
		if (errand != NULL &&
		    gathering->errand_stops[errand->stop].station->weekly_pieces > 0) {
			const struct station_load load = {
			    gathering->stops[errand->stop].station,
			    {errand_week(errand->hand_in), gathering->things[i].pieces}};
			ARRAY_ADD(gathering->loads, load);
		}
	}
}

static void
write_lists(struct gathering *gathering)
{
	const struct errand_plan *plan = &gathering->plan;
	for (size_t i = 0; i < plan->count; i++) {
		write_errand(gathering, i);
	}
	for (size_t s = 0; s < gathering->sorting_count; s++) {
		struct shore_list *list = gathering->sortings[s].planning->list;
		sort_trips(&list->hand_in);
		list->proof = (struct trips_proof){plan->proven, plan->minor,
		    plan->bound_minor, plan->count, plan->bound_count};
	}
	write_left_out(gathering);
	note_loads(gathering);
}

void
gather_trips(const struct sorting *sortings, size_t count, struct station_loads *loads)
{
	struct gathering gathering = {
	    .sortings = sortings, .sorting_count = count, .loads = loads};
	bundles_gather(&gathering);
	settled_plan(&gathering);
	explain_errands(&gathering);
	errands_join(gathering.errand_stops, gathering.things, gathering.bundle_count,
	    &gathering.plan);
	write_lists(&gathering);
	arena_clear(&gathering.scratch);
}
