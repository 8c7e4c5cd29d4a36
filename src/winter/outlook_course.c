/* Moves made into a course: fewest lapses, no two states with the same future, nothing that
 * is never cheaper. */
#include "winter/outlook_make.h"

#include <string.h>

/* States of one layer that have the same future are one kind of future. */
struct futures {
	uint32_t *of_state; /* by state; UINT32_MAX while not known */
	size_t count;
	size_t *first; /* by future: its first move among those kept; count + 1 */
};

struct tidying {
	const struct course_moves *moves;
	const size_t *states;
	size_t winters;
	const uint8_t *acts;
	size_t members;
	struct arena *scratch;
	size_t *winter_first;      /* by winter + 1: its first move */
	struct course_move **kept; /* by winter: moves by future; `to` is a future */
	struct futures *futures;   /* by layer */
	uint32_t *lapses;       /* by state of the layer at hand: fewest from there on */
	uint32_t *lapses_after; /* the same of the layer after */
};

/* True when `a` makes `b` useless: it leads to the same, costs no more (or as much and is
 * no more work), and needs no trip that `b` does not need. Of equals the first stays. */
static bool
spares(const struct course_move *a, const struct course_move *b)
{
	bool no_more =
	    a->minor < b->minor || (a->minor == b->minor && a->work <= b->work);
	bool no_other_trip = a->station == ARC_NO_TRIP || a->station == b->station;
	return a->to == b->to && no_more && no_other_trip;
}

/* Adds a move to those of its state unless another spares it; drops those it spares. Returns
 * how many there are. */
static size_t
add_kept(struct course_move *kept, size_t count, const struct course_move *move)
{
	size_t left = 0;
	for (size_t i = 0; i < count; i++) {
		if (spares(&kept[i], move)) {
			return count;
		}
	}
	for (size_t i = 0; i < count; i++) {
		if (!spares(move, &kept[i])) {
			kept[left++] = kept[i];
		}
	}
	kept[left++] = *move;
	return left;
}

static bool
same_move(const struct tidying *tidying, const struct course_move *a,
    const struct course_move *b)
{
	return a->to == b->to && a->station == b->station && a->minor == b->minor &&
	       a->work == b->work &&
	       memcmp(&tidying->acts[a->acts * tidying->members],
		   &tidying->acts[b->acts * tidying->members], tidying->members) == 0;
}

/* The future among those known that begins with just these moves; `count` when none does. */
static size_t
find_future(const struct tidying *tidying, const struct futures *futures,
    const struct course_move *kept, const struct course_move *moves, size_t count)
{
	for (size_t i = 0; i < futures->count; i++) {
		const struct course_move *known = &kept[futures->first[i]];
		bool same = futures->first[i + 1] - futures->first[i] == count;
		for (size_t j = 0; j < count && same; j++) {
			same = same_move(tidying, &known[j], &moves[j]);
		}
		if (same) {
			return i;
		}
	}
	return futures->count;
}

/* The fewest lapses from a state on, by its moves from `first` up to `end`. */
static uint32_t
fewest_lapses(const struct tidying *tidying, size_t first, size_t end)
{
	uint32_t fewest = UINT32_MAX;
	for (size_t i = first; i < end; i++) {
		const struct course_move *move = &tidying->moves->items[i];
		uint32_t lapses = move->lapses + tidying->lapses_after[move->to];
		fewest = lapses < fewest ? lapses : fewest;
	}
	return fewest;
}

/* Finds the futures of one layer from those of the next. */
static void
tidy_winter(struct tidying *tidying, size_t winter)
{
	struct futures *futures = &tidying->futures[winter];
	const struct futures *after = &tidying->futures[winter + 1];
	struct course_move *kept = tidying->kept[winter];
	size_t next = tidying->winter_first[winter];
	size_t end = tidying->winter_first[winter + 1];
	for (uint32_t state = 0; state < tidying->states[winter]; state++) {
		size_t first = next;
		size_t count = 0;
		struct course_move *own = &kept[futures->first[futures->count]];
		while (next < end && tidying->moves->items[next].from == state) {
			next++;
		}
		uint32_t fewest = fewest_lapses(tidying, first, next);
		tidying->lapses[state] = fewest;
		for (size_t i = first; i < next; i++) {
			struct course_move move = tidying->moves->items[i];
			if (move.lapses + tidying->lapses_after[move.to] == fewest) {
				move.to = after->of_state[move.to];
				count = add_kept(own, count, &move);
			}
		}
		size_t future = find_future(tidying, futures, kept, own, count);
		if (future == futures->count) {
			futures->first[future + 1] = futures->first[future] + count;
			futures->count++;
		}
		futures->of_state[state] = (uint32_t)future;
	}
}

static bool
open_layers(struct tidying *tidying, struct fault *fault)
{
	size_t winters = tidying->winters;
	size_t most = 0;
	tidying->futures =
	    arena_alloc(tidying->scratch, (winters + 1) * sizeof *tidying->futures);
	tidying->kept =
	    arena_alloc(tidying->scratch, winters * sizeof(struct course_move *));
	if (tidying->futures == NULL || tidying->kept == NULL) {
		return fault_memory(fault);
	}
	for (size_t layer = 0; layer <= winters; layer++) {
		struct futures *futures = &tidying->futures[layer];
		size_t states = tidying->states[layer];
		size_t moves = layer == winters ? 0
						: tidying->winter_first[layer + 1] -
						      tidying->winter_first[layer];
		most = states > most ? states : most;
		futures->of_state =
		    arena_alloc(tidying->scratch, states * sizeof *futures->of_state);
		futures->first =
		    arena_alloc(tidying->scratch, (states + 1) * sizeof *futures->first);
		if (futures->of_state == NULL || futures->first == NULL) {
			return fault_memory(fault);
		}
		if (layer < winters) {
			tidying->kept[layer] = arena_alloc(
			    tidying->scratch, (moves + 1) * sizeof(struct course_move));
		}
		if (layer < winters && tidying->kept[layer] == NULL) {
			return fault_memory(fault);
		}
	}
	tidying->lapses = arena_alloc(tidying->scratch, most * sizeof *tidying->lapses);
	tidying->lapses_after =
	    arena_alloc(tidying->scratch, most * sizeof *tidying->lapses_after);
	return (tidying->lapses != NULL && tidying->lapses_after != NULL) ||
	       fault_memory(fault);
}

/* A course being written: nodes are numbered as they are come upon from the start. */
struct writing {
	const struct tidying *tidying;
	struct course_arc *arcs;
	uint8_t *acts; /* by arc x members */
	size_t arc_count;
	uint32_t layer_node;  /* the number of the first node of the layer */
	uint32_t layer_count; /* how many it has */
	uint32_t *future;     /* by node of the layer: its future */
};

static void
write_arc(
    struct writing *writing, const struct course_move *move, uint32_t from, uint32_t to)
{
	const struct tidying *tidying = writing->tidying;
	memcpy(&writing->acts[writing->arc_count * tidying->members],
	    &tidying->acts[move->acts * tidying->members], tidying->members);
	writing->arcs[writing->arc_count++] = (struct course_arc){
	    .from = writing->layer_node + from,
	    .to = writing->layer_node + writing->layer_count + to,
	    .station = move->station,
	    .minor = move->minor,
	    .work = move->work,
	};
}

/* Writes the arcs of one winter and goes on to the next layer. */
static bool
write_winter(struct writing *writing, size_t winter, struct fault *fault)
{
	const struct tidying *tidying = writing->tidying;
	const struct futures *futures = &tidying->futures[winter];
	size_t most = tidying->futures[winter + 1].count;
	uint32_t *number = arena_alloc(tidying->scratch, most * sizeof *number);
	uint32_t *next = arena_alloc(tidying->scratch, most * sizeof *next);
	uint32_t count = 0;
	if (number == NULL || next == NULL) {
		return fault_memory(fault);
	}
	for (uint32_t node = 0; node < writing->layer_count; node++) {
		size_t end = futures->first[writing->future[node] + 1];
		for (size_t i = futures->first[writing->future[node]]; i < end; i++) {
			const struct course_move *move = &tidying->kept[winter][i];
			if (number[move->to] == 0) {
				next[count] = move->to;
				number[move->to] = ++count;
			}
			write_arc(writing, move, node, number[move->to] - 1);
		}
	}
	writing->layer_node += writing->layer_count;
	writing->layer_count = count;
	writing->future = next;
	return true;
}

static bool
write_course(const struct tidying *tidying, struct unit *unit, struct fault *fault)
{
	struct arena *arena = unit->make->arena;
	uint32_t start = tidying->futures[0].of_state[0];
	size_t most = 0;
	for (size_t winter = 0; winter < tidying->winters; winter++) {
		const struct futures *futures = &tidying->futures[winter];
		most += futures->first[futures->count];
	}
	struct writing writing = {.tidying = tidying, .layer_count = 1, .future = &start};
	size_t *ends = arena_alloc(arena, tidying->winters * sizeof *ends);
	writing.arcs = arena_alloc(arena, (most + 1) * sizeof *writing.arcs);
	writing.acts = arena_alloc(arena, most * tidying->members + 1);
	if (ends == NULL || writing.arcs == NULL || writing.acts == NULL) {
		return fault_memory(fault);
	}
	for (size_t winter = 0; winter < tidying->winters; winter++) {
		if (!write_winter(&writing, winter, fault)) {
			return false;
		}
		ends[winter] = writing.arc_count;
	}
	uint32_t nodes = writing.layer_node + writing.layer_count;
	unit->course = (struct course){writing.arcs, ends, nodes};
	unit->acts = writing.acts;
	return true;
}

/* Where each winter's moves begin. */
static bool
find_winters(struct tidying *tidying, const size_t *winter_end, struct fault *fault)
{
	tidying->winter_first = arena_alloc(
	    tidying->scratch, (tidying->winters + 1) * sizeof *tidying->winter_first);
	if (tidying->winter_first == NULL) {
		return fault_memory(fault);
	}
	for (size_t winter = 0; winter < tidying->winters; winter++) {
		tidying->winter_first[winter + 1] = winter_end[winter];
	}
	return true;
}

bool
course_tidy(const struct course_moves *moves, const size_t *winter_end,
    const size_t *states, const uint8_t *acts, struct unit *unit, struct arena *scratch,
    struct fault *fault)
{
	struct tidying tidying = {
	    .moves = moves,
	    .states = states,
	    .winters = unit->make->ask->winters,
	    .acts = acts,
	    .members = unit->count,
	    .scratch = scratch,
	};
	if (!find_winters(&tidying, winter_end, fault) || !open_layers(&tidying, fault)) {
		return false;
	}
	tidying.futures[tidying.winters].count = 1; /* the end: nothing more to come */
	for (size_t winter = tidying.winters; winter > 0; winter--) {
		tidy_winter(&tidying, winter - 1);
		uint32_t *spare = tidying.lapses_after;
		tidying.lapses_after = tidying.lapses;
		tidying.lapses = spare;
	}
	return write_course(&tidying, unit, fault);
}
