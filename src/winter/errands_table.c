/* Days, things that are alike, and stations whose choices depend on each other, as a
 * table. */
#include "winter/errands_inside.h"

#include <stdlib.h>

int
errand_week(day_t day)
{
	/* 1970-01-01, day 0, was a Thursday */
	enum { FROM_MONDAY = 3, WEEK = 7 };

	int shifted = day + FROM_MONDAY;
	return shifted >= 0 ? shifted / WEEK : -((WEEK - 1 - shifted) / WEEK);
}

int64_t
errand_room(const struct errand_stop *stop, int week)
{
	int64_t room = stop->station->weekly_pieces;
	if (room == 0) {
		return ERRAND_ROOM_ANY;
	}
	for (size_t i = 0; i < stop->load_count; i++) {
		room -= stop->loads[i].week == week ? stop->loads[i].pieces : 0;
	}
	return room;
}

/* ---- timetables ---- */

static struct span
span_of_stop(const struct errand_working *working, size_t stop)
{
	struct span span = {DAY_NEVER, DAY_NONE};
	for (size_t i = 0; i < working->thing_count; i++) {
		const struct errand_thing *thing = &working->things[i];
		for (size_t k = 0; k < thing->way_count; k++) {
			const struct errand_way *way = &thing->ways[k];
			if (way->stop == stop && way->first <= way->back_by) {
				span.first = day_min(span.first, way->first);
				span.last = day_max(span.last, way->back_by);
			}
		}
	}
	return span;
}

static void
make_timetable(struct errand_working *working, size_t stop)
{
	const struct station *station = working->stops[stop].station;
	struct errand_timetable *timetable = &working->timetables[stop];
	struct span span = span_of_stop(working, stop);
	if (span.first > span.last) {
		return;
	}
	size_t count = (size_t)(span.last - span.first) + 1;
	timetable->ready = arena_alloc(working->scratch, count * sizeof(day_t));
	timetable->first = span.first;
	timetable->count = count;
	for (size_t i = 0; i < count; i++) {
		day_t day = span.first + (day_t)i;
		day_t ready = station_open(station, day) ? station_collect(station, day)
							 : DAY_NEVER;
		timetable->ready[i] = ready <= span.last ? ready : DAY_NONE;
	}
}

static bool
way_allows(const struct errand_way *way, size_t stop, day_t day, day_t ready)
{
	return way->stop == stop && way->first <= day && day <= way->last &&
	       ready != DAY_NONE && ready <= way->back_by;
}

const struct errand_way *
errand_way_on(const struct errand_thing *thing, size_t stop, day_t day, day_t ready)
{
	for (size_t k = 0; k < thing->way_count; k++) {
		if (way_allows(&thing->ways[k], stop, day, ready)) {
			return &thing->ways[k];
		}
	}
	return NULL;
}

/* True when some day of some stop serves a thing. */
static bool
has_day(const struct errand_working *working, const struct errand_thing *thing)
{
	for (size_t k = 0; k < thing->way_count; k++) {
		const struct errand_way *way = &thing->ways[k];
		/* which spans the days of all ways to the stop */
		const struct errand_timetable *timetable =
		    &working->timetables[way->stop];
		for (day_t day = way->first; day <= way->back_by; day++) {
			if (way_allows(way, way->stop, day,
				timetable->ready[day - timetable->first])) {
				return true;
			}
		}
	}
	return false;
}

/* ---- classes ---- */

static int
compare_things(const struct errand_thing *a, const struct errand_thing *b)
{
	int order = ORDER_THEN(ORDER(a->way_count, b->way_count), a->pieces, b->pieces);
	order = ORDER_THEN(order, a->binding, b->binding);
	for (size_t k = 0; order == 0 && k < a->way_count; k++) {
		const struct errand_way *left = &a->ways[k];
		const struct errand_way *right = &b->ways[k];
		order =
		    ORDER_THEN(ORDER(left->stop, right->stop), left->first, right->first);
		order = ORDER_THEN(order, left->back_by, right->back_by);
		order = ORDER_THEN(order, left->last, right->last);
		order = ORDER_THEN(order, left->minor, right->minor);
		order = ORDER_THEN(order, left->strangeness, right->strangeness);
	}
	return order;
}

static int
compare_members(const void *left, const void *right)
{
	const struct errand_member *a = left;
	const struct errand_member *b = right;
	return ORDER_THEN(compare_things(a->thing, b->thing), a->index, b->index);
}

/* Gathers the things that some day serves into classes. */
static void
gather_classes(struct errand_working *working)
{
	size_t count = 0;
	for (size_t i = 0; i < working->thing_count; i++) {
		working->members[i] = (struct errand_member){&working->things[i], i};
	}
	qsort(working->members, working->thing_count, sizeof *working->members,
	    compare_members);
	for (size_t i = 0; i < working->thing_count;) {
		size_t end = i + 1;
		while (end < working->thing_count &&
		       compare_things(
			   working->members[i].thing, working->members[end].thing) == 0) {
			end++;
		}
		if (has_day(working, working->members[i].thing)) {
			working->first_member[count] = i;
			working->classes[count++] =
			    (struct errand_class){working->members[i].thing, end - i};
		}
		i = end;
	}
	working->class_count = count;
}

/* ---- groups of stops whose choices depend on each other ---- */

size_t
errands_group(const struct errand_working *working, size_t stop)
{
	while (working->group[stop] != stop) {
		stop = working->group[stop];
	}
	return stop;
}

static void
gather_groups(struct errand_working *working)
{
	for (size_t i = 0; i < working->stop_count; i++) {
		working->group[i] = i;
	}
	for (size_t j = 0; j < working->class_count; j++) {
		const struct errand_thing *thing = working->classes[j].thing;
		for (size_t k = 1; k < thing->way_count; k++) {
			size_t a = errands_group(working, thing->ways[0].stop);
			size_t b = errands_group(working, thing->ways[k].stop);
			working->group[GREATER(a, b)] = LESSER(a, b);
		}
	}
}

void
errands_gather(struct errand_working *working)
{
	struct arena *scratch = working->scratch;
	size_t stops = working->stop_count;
	size_t things = working->thing_count;
	working->timetables = ARENA_MANY(scratch, struct errand_timetable, stops);
	working->group = ARENA_MANY(scratch, size_t, stops);
	working->members = ARENA_MANY(scratch, struct errand_member, things);
	working->classes = ARENA_MANY(scratch, struct errand_class, things);
	working->first_member = ARENA_MANY(scratch, size_t, things);
	for (size_t i = 0; i < working->stop_count; i++) {
		make_timetable(working, i);
	}
	gather_classes(working);
	gather_groups(working);
}

/* ---- the table of a group ---- */

static void
pick_classes(
    const struct errand_working *working, size_t group, struct errand_making *making)
{
	size_t count = 0;
	for (size_t j = 0; j < working->class_count; j++) {
		size_t stop = working->classes[j].thing->ways[0].stop;
		if (errands_group(working, stop) == group) {
			making->numbers[count] = j;
			making->classes[count++] = working->classes[j];
		}
	}
	making->table.classes = making->classes;
	making->table.class_count = count;
}

/* True when the day serves nothing that the column does not; for no column, when it
 * serves nothing at all. */
static bool
serves_no_more(const struct errand_making *making, const struct errand_column *column,
    size_t stop, day_t day, day_t ready)
{
	for (size_t j = 0; j < making->table.class_count; j++) {
		const struct errand_thing *thing = making->classes[j].thing;
		const struct errand_way *here = errand_way_on(thing, stop, day, ready);
		const struct errand_way *there =
		    column == NULL
			? NULL
			: errand_way_on(thing, stop, column->day, column->ready);
		if (here != NULL && (there == NULL || there->minor > here->minor)) {
			return false;
		}
	}
	return true;
}

/* Adds the days of a stop that serve something and that no earlier day can replace.
 * Where there is a weekly limit, only a day of the same week can replace another. */
static void
add_columns(const struct errand_working *working, size_t stop, day_t from,
    struct errand_making *making)
{
	const struct errand_timetable *timetable = &working->timetables[stop];
	const struct station *station = working->stops[stop].station;
	size_t start = making->table.column_count;
	for (size_t i = 0; i < timetable->count; i++) {
		struct errand_column column = {
		    .stop = stop,
		    .day = timetable->first + (day_t)i,
		    .ready = timetable->ready[i],
		    .week = errand_week(timetable->first + (day_t)i),
		};
		bool wanted =
		    column.ready != DAY_NONE &&
		    !serves_no_more(making, NULL, stop, column.day, column.ready);
		for (size_t k = start; wanted && k < making->table.column_count; k++) {
			const struct errand_column *earlier = &making->columns[k];
			bool same_week = earlier->week == column.week;
			wanted = (station->weekly_pieces > 0 && !same_week) ||
				 !serves_no_more(
				     making, earlier, stop, column.day, column.ready);
		}
		column.open = (struct worth){
		    station->trip_minor, RANK_ERRAND + (column.day - from) * RANK_DAY};
		if (wanted) {
			making->columns[making->table.column_count++] = column;
		}
	}
}

static void
fill_costs(struct errand_making *making)
{
	struct errand_table *table = &making->table;
	for (size_t j = 0; j < table->class_count; j++) {
		const struct errand_class *class = &table->classes[j];
		int64_t count = (int64_t) class->count;
		for (size_t i = 0; i < table->column_count; i++) {
			const struct errand_column *column = &table->columns[i];
			const struct errand_way *way = errand_way_on(
			    class->thing, column->stop, column->day, column->ready);
			making->costs[j * table->column_count + i] =
			    way == NULL ? (struct worth){WORTH_NEVER, 0}
					: (struct worth){way->minor * count,
					      way->strangeness * count};
		}
	}
	table->costs = making->costs;
}

void
errands_table(
    const struct errand_working *working, size_t group, struct errand_making *making)
{
	size_t days = 0;
	day_t from = DAY_NEVER;
	for (size_t i = 0; i < working->stop_count; i++) {
		if (errands_group(working, i) == group &&
		    working->timetables[i].count > 0) {
			days += working->timetables[i].count;
			from = day_min(from, working->timetables[i].first);
			making->weekly = making->weekly ||
					 working->stops[i].station->weekly_pieces > 0;
		}
	}
	struct arena *scratch = working->scratch;
	size_t classes = working->class_count;
	making->table.stops = working->stops;
	making->columns = ARENA_MANY(scratch, struct errand_column, days);
	making->classes = ARENA_MANY(scratch, struct errand_class, classes);
	making->numbers = ARENA_MANY(scratch, size_t, classes);
	pick_classes(working, group, making);
	for (size_t i = 0; i < working->stop_count; i++) {
		if (errands_group(working, i) == group) {
			add_columns(working, i, from, making);
		}
	}
	making->table.columns = making->columns;
	size_t cells = making->table.class_count * making->table.column_count;
	making->costs = ARENA_MANY(scratch, struct worth, cells);
	fill_costs(making);
}
