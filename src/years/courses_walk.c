/* Cheapest ways through courses, and courses that ask the same put together. */
#include "years/courses_inside.h"

#include <string.h>

static bool
arc_is_sound(const struct courses_problem *problem, const struct course *course,
    const struct course_arc *arc)
{
	return arc->from < course->node_count && arc->to < course->node_count &&
	       arc->station >= ARC_NO_TRIP && arc->station < (int)problem->stations &&
	       arc->minor >= 0 && arc->minor <= YEARS_MINOR_MOST;
}

static size_t
arc_count(const struct courses_problem *problem, const struct course *course)
{
	return course->winter_end[problem->winters - 1];
}

/* Adds what the dearest way through a course could cost. False when it is too much. */
static bool
add_dearest(
    const struct courses_problem *problem, const struct course *course, int64_t *sum)
{
	size_t next = 0;
	for (size_t winter = 0; winter < problem->winters; winter++) {
		int64_t dearest = 0;
		for (; next < course->winter_end[winter]; next++) {
			dearest = GREATER(dearest, course->arcs[next].minor);
		}
		*sum += dearest * FEE_SCALE;
		if (*sum > FEE_SHUT / 2) {
			return false;
		}
	}
	return true;
}

static bool
check_problem(const struct courses_problem *problem, struct fault *fault)
{
	int64_t sum = 0;
	bool sound = problem->winters > 0;
	for (size_t i = 0; i < problem->stations && sound; i++) {
		sound = problem->trip_minor[i] >= 0 &&
			problem->trip_minor[i] <= YEARS_MINOR_MOST;
		sum += problem->trip_minor[i] * FEE_SCALE * (int64_t)problem->winters;
		sound = sound && sum <= FEE_SHUT / 2;
	}
	for (size_t i = 0; i < problem->course_count && sound; i++) {
		const struct course *course = &problem->courses[i];
		for (size_t j = 0; j < arc_count(problem, course) && sound; j++) {
			sound = arc_is_sound(problem, course, &course->arcs[j]);
		}
		sound = sound && add_dearest(problem, course, &sum);
	}
	return sound || fault_set(fault, FAULT_INPUT,
			    "a price or the cost of a trip is too large to be added up");
}

static bool
same_course(
    const struct courses_problem *problem, const struct course *a, const struct course *b)
{
	size_t ends = problem->winters * sizeof *a->winter_end;
	if (a->node_count != b->node_count ||
	    memcmp(a->winter_end, b->winter_end, ends) != 0) {
		return false;
	}
	bool same = true;
	for (size_t i = 0; i < arc_count(problem, a) && same; i++) {
		const struct course_arc *one = &a->arcs[i];
		const struct course_arc *other = &b->arcs[i];
		same = one->from == other->from && one->to == other->to &&
		       one->station == other->station && one->minor == other->minor &&
		       one->work == other->work;
	}
	return same;
}

/* A hash: the same for courses that are the same. */
static uint64_t
course_digest(const struct courses_problem *problem, const struct course *course)
{
	uint64_t digest = DIGEST_START;
	for (size_t i = 0; i < arc_count(problem, course); i++) {
		const struct course_arc *arc = &course->arcs[i];
		const uint64_t figures[] = {arc->from, arc->to, (uint64_t)arc->minor,
		    (uint64_t)(arc->station + 1), arc->work};
		for (size_t j = 0; j < sizeof figures / sizeof figures[0]; j++) {
			digest = digest_mix(digest, figures[j]);
		}
	}
	return digest;
}

/* Lets a class take every arc of its course, and lists the trips that they need. */
static void
fill_arcs(const struct courses_problem *problem, struct class *class)
{
	const struct course *course = class->course;
	size_t trips = problem->stations * problem->winters;
	size_t i = 0;
	for (size_t winter = 0; winter < problem->winters; winter++) {
		for (; i < course->winter_end[winter]; i++) {
			const struct course_arc *arc = &course->arcs[i];
			size_t trip =
			    arc->station == ARC_NO_TRIP
				? trips
				: trip_at(problem, (size_t)arc->station, winter);
			class->arcs[i] = (struct walk_arc){arc->minor * FEE_SCALE,
			    arc->from, arc->to, (uint32_t)trip, arc->work};
			class->mean[trip] = 1;
		}
	}
	for (size_t trip = 0; trip < trips; trip++) {
		if (class->mean[trip] > 0) {
			class->trips[class->trip_count++] = (uint32_t)trip;
		}
	}
}

/* Room for one class's fees and path, and the class itself. */
static void
class_open(const struct courses_problem *problem, const struct course *course,
    struct arena *arena, struct class *out)
{
	size_t trips = problem->stations * problem->winters;
	*out = (struct class){.course = course, .weight = 0};
	out->arcs =
	    arena_alloc(arena, (arc_count(problem, course) + 1) * sizeof *out->arcs);
	out->fees = ARENA_MANY(arena, int64_t, trips);
	out->trips = arena_alloc(arena, (trips + 1) * sizeof *out->trips);
	out->best_fees = ARENA_MANY(arena, int64_t, trips);
	out->mean = ARENA_MANY(arena, double, trips);
	out->path = ARENA_MANY(arena, size_t, problem->winters);
	out->gone = ARENA_MANY(arena, size_t, problem->winters);
	out->tried = arena_alloc(arena, problem->winters * sizeof *out->tried);
	out->stale = true;
	fill_arcs(problem, out);
}

/* The slots of a table of classes by digest: an open one holds 0, a taken one class +
 * 1. */
struct slots {
	size_t *items;
	size_t mask;
};

static bool
find_class(const struct courses_problem *problem, const struct course *course,
    struct slots slots, struct classes *classes, size_t *class_out, size_t **slot_out)
{
	size_t at = (size_t)course_digest(problem, course) & slots.mask;
	while (slots.items[at] != 0) {
		size_t class = slots.items[at] - 1;
		if (same_course(problem, classes->items[class].course, course)) {
			*class_out = class;
			return true;
		}
		at = (at + 1) & slots.mask;
	}
	*slot_out = &slots.items[at];
	return false;
}

static void
gather(const struct courses_problem *problem, struct slots slots, struct arena *arena,
    struct classes *classes)
{
	for (size_t i = 0; i < problem->course_count; i++) {
		const struct course *course = &problem->courses[i];
		size_t class = classes->count;
		size_t *slot = NULL;
		if (!find_class(problem, course, slots, classes, &class, &slot)) {
			class_open(
			    problem, course, arena, &classes->items[classes->count]);
			*slot = ++classes->count;
		}
		classes->items[class].weight++;
		classes->of_course[i] = class;
	}
}

bool
classes_make(const struct courses_problem *problem, struct arena *arena,
    struct classes *out, struct fault *fault)
{
	if (!check_problem(problem, fault)) {
		return false;
	}
	size_t most_nodes = 0;
	for (size_t i = 0; i < problem->course_count; i++) {
		most_nodes = GREATER(most_nodes, problem->courses[i].node_count);
	}
	struct slots slots = {.mask = 15};
	while (slots.mask < 2 * problem->course_count) {
		slots.mask = 2 * slots.mask + 1;
	}
	size_t count = problem->course_count + 1;
	struct classes classes = {0};
	slots.items = ARENA_MANY(arena, size_t, slots.mask);
	classes.items = ARENA_MANY(arena, struct class, count);
	classes.of_course = ARENA_MANY(arena, size_t, count);
	classes.nodes = ARENA_MANY(arena, struct walk_node, most_nodes);
	classes.before = ARENA_MANY(arena, int64_t, most_nodes);
	classes.after = ARENA_MANY(arena, int64_t, most_nodes);
	gather(problem, slots, arena, &classes);
	*out = classes;
	return true;
}

/* Goes along one arc where that is a cheaper way to its end, or one as cheap with less
 * work when that is asked for. */
static inline void
go_along(struct walk_node *nodes, const struct walk_arc *arc, const int64_t *fees,
    size_t at, bool least_work)
{
	const struct walk_node *from = &nodes[arc->from];
	struct walk_node *to = &nodes[arc->to];
	int64_t cost = from->cost + arc->minor + fees[arc->trip];
	uint64_t work = least_work ? from->work + arc->work : 0;
	if (cost < to->cost ||
	    (least_work && cost == to->cost && cost < FEE_SHUT && work < to->work)) {
		*to = (struct walk_node){cost, work, at};
	}
}

/* True when the end of a way is better than another. */
static bool
ends_better(const struct walk_node *end, const struct walk_node *other, bool least_work)
{
	return end->cost < other->cost ||
	       (least_work && end->cost == other->cost && end->work < other->work);
}

static inline int64_t
walk(const struct courses_problem *problem, const struct classes *classes,
    const struct class *class, const int64_t *fees, size_t *path, bool least_work)
{
	struct walk_node *nodes = classes->nodes;
	size_t count = arc_count(problem, class->course);
	size_t last =
	    problem->winters > 1 ? class->course->winter_end[problem->winters - 2] : 0;
	for (uint32_t i = 0; i < class->course->node_count; i++) {
		nodes[i].cost = FEE_SHUT;
	}
	nodes[0] = (struct walk_node){0, 0, 0};
	for (size_t i = 0; i < count; i++) {
		go_along(nodes, &class->arcs[i], fees, i, least_work);
	}
	if (last == count) {
		return FEE_SHUT;
	}
	size_t node = class->arcs[last].to;
	for (size_t i = last + 1; i < count; i++) {
		size_t to = class->arcs[i].to;
		node = ends_better(&nodes[to], &nodes[node], least_work) ? to : node;
	}
	int64_t cost = nodes[node].cost;
	if (cost >= FEE_SHUT) {
		return FEE_SHUT;
	}
	for (size_t winter = problem->winters; winter > 0; winter--) {
		path[winter - 1] = nodes[node].came;
		node = class->arcs[nodes[node].came].from;
	}
	return cost;
}

int64_t
class_walk(const struct courses_problem *problem, const struct classes *classes,
    const struct class *class, const int64_t *fees, size_t *path)
{
	return walk(problem, classes, class, fees, path, false);
}

int64_t
class_walk_least_work(const struct courses_problem *problem,
    const struct classes *classes, const struct class *class, const int64_t *fees,
    size_t *path)
{
	return walk(problem, classes, class, fees, path, true);
}
