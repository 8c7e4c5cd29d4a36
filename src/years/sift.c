/* Moves sifted: those that are worth following, the future that they are, and the course
 * that begins with it. */
#include "years/moves_inside.h"

#include <assert.h>
#include <string.h>

/* True when `a` makes `b` useless: it leads to the same, costs no more (or as much and
 * is no more work), and needs no trip that `b` does not need. Of equals the first
 * stays. */
static bool
spares(const struct course_move *a, const struct course_move *b)
{
	bool no_more =
	    a->minor < b->minor || (a->minor == b->minor && a->work <= b->work);
	bool no_other_trip = a->station == ARC_NO_TRIP || a->station == b->station;
	return a->after == b->after && no_more && no_other_trip;
}

/* Puts a move among the first `count`, unless another spares it; drops those it spares.
 * Returns how many there are. */
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

uint32_t
moves_sift(struct course_moves *moves)
{
	uint32_t fewest = UINT32_MAX;
	size_t kept = 0;
	for (size_t i = 0; i < moves->count; i++) {
		uint32_t lapses = moves->items[i].lapses + moves->items[i].after->lapses;
		fewest = lapses < fewest ? lapses : fewest;
	}
	for (size_t i = 0; i < moves->count; i++) {
		struct course_move move = moves->items[i];
		if (move.lapses + move.after->lapses == fewest) {
			kept = add_kept(moves->items, kept, &move);
		}
	}
	moves->count = kept;
	return fewest;
}

static bool
same_future(const struct future *future, const struct course_moves *moves, size_t members)
{
	bool same = future->count == moves->count && future->members == members;
	for (size_t i = 0; i < moves->count && same; i++) {
		const struct future_arc *arc = &future->arcs[i];
		const struct course_move *move = &moves->items[i];
		same = arc->to == move->after && arc->station == move->station &&
		       arc->minor == move->minor && arc->work == move->work &&
		       memcmp(arc->acts, move->acts, members) == 0;
	}
	return same;
}

static uint64_t
moves_digest(const struct course_moves *moves, size_t members)
{
	uint64_t digest = digest_mix(DIGEST_START, members);
	for (size_t i = 0; i < moves->count; i++) {
		const struct course_move *move = &moves->items[i];
		digest = digest_mix(digest, (uint64_t)(uintptr_t)move->after);
		digest = digest_mix(digest, (uint64_t)move->minor);
		digest =
		    digest_mix(digest, (uint64_t)(move->station + 1) << 32 | move->work);
		for (size_t j = 0; j < members; j++) {
			digest = digest_mix(digest, move->acts[j]);
		}
	}
	return digest ^ digest >> 31;
}

/* The arcs of a new future, copied from the moves. */
static void
copy_arcs(struct arena *arena, const struct course_moves *moves, struct future *out)
{
	size_t members = out->members;
	out->arcs = arena_alloc(arena, (moves->count + 1) * sizeof *out->arcs);
	uint8_t *acts = arena_alloc(arena, moves->count * members + 1);
	for (size_t i = 0; i < moves->count; i++) {
		const struct course_move *move = &moves->items[i];
		memcpy(&acts[i * members], move->acts, members);
		out->arcs[i] = (struct future_arc){.to = move->after,
		    .acts = &acts[i * members],
		    .station = move->station,
		    .work = move->work,
		    .minor = move->minor};
	}
	out->count = moves->count;
}

struct future *
futures_find(struct outlook_make *make, const struct course_moves *moves, size_t members,
    uint32_t lapses)
{
	uint64_t digest = moves_digest(moves, members);
	struct future **slot = &make->futures->slots[digest & (FUTURE_SLOTS - 1)];
	for (struct future *known = *slot; known != NULL; known = known->next) {
		if (known->digest == digest && known->lapses == lapses &&
		    same_future(known, moves, members)) {
			return known;
		}
	}
	struct future *future = arena_alloc(make->arena, sizeof *future);
	*future = (struct future){
	    .next = *slot, .digest = digest, .members = members, .lapses = lapses};
	copy_arcs(make->arena, moves, future);
	*slot = future;
	return future;
}

/* ---- written out as a course, a graph in layers ---- */

/* A course being written: nodes are numbered as they are come upon from the start. */
struct course_writing {
	struct future **nodes; /* by number; those of one winter stand together */
	size_t node_count;
	size_t node_capacity;
	struct arena *arena; /* where they are */
	struct course_arc *arcs;
	uint8_t *acts;
	size_t arc_count;
	size_t members;
};

/* Gives a future the next number unless it has one. */
static void
number_node(struct course_writing *writing, struct future *future)
{
	if (future->numbered != 0) {
		return;
	}
	arena_reserve(writing->arena, &writing->nodes, &writing->node_capacity,
	    sizeof(struct future *), writing->node_count + 1);
	writing->nodes[writing->node_count++] = future;
	future->numbered = writing->node_count;
}

/* Numbers everything that may come of the first node, and counts the arcs. */
static void
number_nodes(struct course_writing *writing, struct future *start)
{
	assert(start->numbered == 0);
	number_node(writing, start);
	for (size_t node = 0; node < writing->node_count; node++) {
		const struct future *from = writing->nodes[node];
		writing->arc_count += from->count;
		for (size_t i = 0; i < from->count; i++) {
			number_node(writing, from->arcs[i].to);
		}
	}
}

/* Writes the arcs of all nodes; those of one winter end where a node of the next
 * begins. */
static void
write_arcs(struct course_writing *writing, size_t winters, size_t *ends)
{
	size_t layer_end = 1; /* the node after the last of the winter */
	size_t winter = 0;
	size_t count = 0;
	size_t next_end = 1;
	for (size_t node = 0; winter < winters; node++) {
		const struct future *from = writing->nodes[node];
		for (size_t i = 0; i < from->count; i++) {
			const struct future_arc *arc = &from->arcs[i];
			size_t to = arc->to->numbered - 1;
			memcpy(&writing->acts[count * writing->members], arc->acts,
			    writing->members);
			writing->arcs[count++] = (struct course_arc){
			    .from = (uint32_t)node,
			    .to = (uint32_t)to,
			    .station = arc->station,
			    .minor = arc->minor,
			    .work = arc->work,
			};
			next_end = to + 1 > next_end ? to + 1 : next_end;
		}
		if (node + 1 == layer_end) {
			ends[winter++] = count;
			layer_end = next_end;
		}
	}
}

void
course_write(struct unit *unit, struct future *start, struct arena *scratch)
{
	struct arena *arena = unit->make->arena;
	size_t winters = unit->make->ask->winters;
	struct course_writing writing = {.members = unit->count, .arena = scratch};
	struct course *course = arena_alloc(arena, sizeof *course);
	size_t *ends = ARENA_MANY(arena, size_t, winters);
	number_nodes(&writing, start);
	size_t arcs = writing.arc_count;
	writing.arcs = ARENA_MANY(arena, struct course_arc, arcs);
	writing.acts = arena_alloc(arena, arcs * unit->count + 1);
	write_arcs(&writing, winters, ends);
	for (size_t i = 0; i < writing.node_count; i++) {
		writing.nodes[i]->numbered = 0;
	}
	*course = (struct course){writing.arcs, ends, (uint32_t)writing.node_count};
	start->course = course;
	start->course_acts = writing.acts;
}
