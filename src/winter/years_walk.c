/* Cheapest ways through courses, and courses that ask the same put together. */
#include "winter/years_walk.h"

#include <stdlib.h>
#include <string.h>

static bool
arc_is_sound(const struct years_problem *problem, const struct course *course,
    const struct course_arc *arc)
{
	return arc->from < course->node_count && arc->to < course->node_count &&
	       arc->station >= ARC_NO_TRIP && arc->station < (int)problem->stations &&
	       arc->minor >= 0 && arc->minor <= YEARS_MINOR_MOST;
}

static size_t
arc_count(const struct years_problem *problem, const struct course *course)
{
	return course->winter_end[problem->winters - 1];
}

/* Adds what the dearest way through a course could cost. False when it is too much. */
static bool
add_dearest(
    const struct years_problem *problem, const struct course *course, int64_t *sum)
{
	size_t next = 0;
	for (size_t winter = 0; winter < problem->winters; winter++) {
		int64_t dearest = 0;
		for (; next < course->winter_end[winter]; next++) {
			int64_t minor = course->arcs[next].minor;
			dearest = minor > dearest ? minor : dearest;
		}
		*sum += dearest * FEE_SCALE;
		if (*sum > FEE_SHUT / 2) {
			return false;
		}
	}
	return true;
}

static bool
check_problem(const struct years_problem *problem, struct fault *fault)
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
same_arc(const struct course_arc *a, const struct course_arc *b)
{
	return a->from == b->from && a->to == b->to && a->station == b->station &&
	       a->minor == b->minor && a->work == b->work;
}

static bool
same_course(
    const struct years_problem *problem, const struct course *a, const struct course *b)
{
	size_t ends = problem->winters * sizeof *a->winter_end;
	if (a->node_count != b->node_count ||
	    memcmp(a->winter_end, b->winter_end, ends) != 0) {
		return false;
	}
	for (size_t i = 0; i < arc_count(problem, a); i++) {
		if (!same_arc(&a->arcs[i], &b->arcs[i])) {
			return false;
		}
	}
	return true;
}

/* A number that is the same for like courses (Fowler, Noll, Vo: FNV-1a over the figures). */
static uint64_t
course_digest(const struct years_problem *problem, const struct course *course)
{
	uint64_t digest = 14695981039346656037U;
	for (size_t i = 0; i < arc_count(problem, course); i++) {
		const struct course_arc *arc = &course->arcs[i];
		const uint64_t figures[] = {arc->from, arc->to, (uint64_t)arc->minor,
		    (uint64_t)(arc->station + 1), arc->work};
		for (size_t j = 0; j < sizeof figures / sizeof figures[0]; j++) {
			digest = (digest ^ figures[j]) * 1099511628211U;
		}
	}
	return digest;
}

/* Writes a course's arcs as steps. */
static void
fill_steps(const struct years_problem *problem, const struct course *course,
    struct walk_step *steps)
{
	size_t i = 0;
	for (size_t winter = 0; winter < problem->winters; winter++) {
		for (; i < course->winter_end[winter]; i++) {
			const struct course_arc *arc = &course->arcs[i];
			size_t trip =
			    arc->station == ARC_NO_TRIP
				? problem->stations * problem->winters
				: trip_at(problem, (size_t)arc->station, winter);
			steps[i] = (struct walk_step){arc->minor * FEE_SCALE, arc->from,
			    arc->to, (uint32_t)trip, arc->work};
		}
	}
}

/* Room for one class's fees and path, and the class itself. */
static bool
class_open(const struct years_problem *problem, const struct course *course,
    struct arena *arena, struct class *out, struct fault *fault)
{
	size_t trips = problem->stations * problem->winters;
	*out = (struct class){.course = course, .weight = 0};
	out->steps =
	    arena_alloc(arena, (arc_count(problem, course) + 1) * sizeof *out->steps);
	out->fees = arena_alloc(arena, (trips + 1) * sizeof *out->fees);
	out->path = arena_alloc(arena, problem->winters * sizeof *out->path);
	out->gone = arena_alloc(arena, problem->winters * sizeof *out->gone);
	out->tried = arena_alloc(arena, problem->winters * sizeof *out->tried);
	out->stale = true;
	if (out->steps == NULL || out->fees == NULL || out->path == NULL ||
	    out->gone == NULL || out->tried == NULL) {
		return fault_memory(fault);
	}
	fill_steps(problem, course, out->steps);
	return true;
}

/* The slots of a table of classes by digest: an open one holds 0, a taken one class + 1. */
struct slots {
	size_t *items;
	size_t mask;
};

static bool
find_class(const struct years_problem *problem, const struct course *course,
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

static bool
gather(const struct years_problem *problem, struct slots slots, struct arena *arena,
    struct classes *classes, struct fault *fault)
{
	for (size_t i = 0; i < problem->course_count; i++) {
		const struct course *course = &problem->courses[i];
		size_t class = classes->count;
		size_t *slot = NULL;
		if (!find_class(problem, course, slots, classes, &class, &slot)) {
			if (!class_open(problem, course, arena,
				&classes->items[classes->count], fault)) {
				return false;
			}
			*slot = ++classes->count;
		}
		classes->items[class].weight++;
		classes->of_course[i] = class;
	}
	return true;
}

bool
classes_make(const struct years_problem *problem, struct arena *arena,
    struct classes *out, struct fault *fault)
{
	if (!check_problem(problem, fault)) {
		return false;
	}
	size_t most_nodes = 1;
	for (size_t i = 0; i < problem->course_count; i++) {
		size_t nodes = problem->courses[i].node_count;
		most_nodes = nodes > most_nodes ? nodes : most_nodes;
	}
	struct slots slots = {.mask = 15};
	while (slots.mask < 2 * problem->course_count) {
		slots.mask = 2 * slots.mask + 1;
	}
	size_t count = problem->course_count + 1;
	struct classes classes = {0};
	slots.items = arena_alloc(arena, (slots.mask + 1) * sizeof *slots.items);
	classes.items = arena_alloc(arena, count * sizeof *classes.items);
	classes.of_course = arena_alloc(arena, count * sizeof *classes.of_course);
	classes.nodes = arena_alloc(arena, most_nodes * sizeof *classes.nodes);
	if (slots.items == NULL || classes.items == NULL || classes.of_course == NULL ||
	    classes.nodes == NULL) {
		return fault_memory(fault);
	}
	if (!gather(problem, slots, arena, &classes, fault)) {
		return false;
	}
	*out = classes;
	return true;
}

/* Goes along one arc; true when that is a cheaper way to its end, or one as cheap with less
 * work. */
static inline bool
go_along(struct walk_node *nodes, const struct walk_step *step, const int64_t *fees,
    size_t arc)
{
	const struct walk_node *from = &nodes[step->from];
	struct walk_node *to = &nodes[step->to];
	int64_t cost = from->cost + step->minor + fees[step->trip];
	if (cost > to->cost || cost >= FEE_SHUT) {
		return false;
	}
	uint64_t work = from->work + step->work;
	if (cost == to->cost && work >= to->work) {
		return false;
	}
	*to = (struct walk_node){cost, work, arc};
	return true;
}

/* True when the end of a way is better than another, or there is no other. */
static bool
ends_better(const struct walk_node *nodes, size_t end, size_t other)
{
	return other == SIZE_MAX || nodes[end].cost < nodes[other].cost ||
	       (nodes[end].cost == nodes[other].cost &&
		   nodes[end].work < nodes[other].work);
}

int64_t
class_walk(const struct years_problem *problem, const struct classes *classes,
    const struct class *class, const int64_t *fees, size_t *path)
{
	const struct course *course = class->course;
	struct walk_node *nodes = classes->nodes;
	size_t last = problem->winters > 1 ? course->winter_end[problem->winters - 2] : 0;
	size_t end = arc_count(problem, course);
	size_t node = SIZE_MAX;
	for (uint32_t i = 0; i < course->node_count; i++) {
		nodes[i].cost = FEE_SHUT;
	}
	nodes[0] = (struct walk_node){0, 0, 0};
	for (size_t i = 0; i < last; i++) {
		(void)go_along(nodes, &class->steps[i], fees, i);
	}
	for (size_t i = last; i < end; i++) {
		size_t to = class->steps[i].to;
		if (go_along(nodes, &class->steps[i], fees, i) &&
		    ends_better(nodes, to, node)) {
			node = to;
		}
	}
	if (node == SIZE_MAX) {
		return FEE_SHUT;
	}
	int64_t cost = nodes[node].cost;
	for (size_t winter = problem->winters; winter > 0; winter--) {
		path[winter - 1] = nodes[node].came;
		node = class->steps[nodes[node].came].from;
	}
	return cost;
}
