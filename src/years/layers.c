/* What may come of a state written out as a course, a graph in layers. */
#include "years/moves_inside.h"

#include <string.h>

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
	number_node(writing, start);
	for (size_t node = 0; node < writing->node_count; node++) {
		const struct future *from = writing->nodes[node];
		writing->arc_count += from->count;
		for (size_t i = 0; i < from->count; i++) {
			number_node(writing, from->arcs[i].to);
		}
	}
}

/* Writes the arcs of all nodes; those of one winter end where a node of the next begins. */
static void
write_arcs(struct course_writing *writing, size_t winters, size_t *ends)
{
	size_t layer_end = 1; /* the node after the last of the winter */
	size_t winter = 0;
	size_t count = 0;
	size_t next_end = 1;
	for (size_t node = 0; node < writing->node_count && winter < winters; node++) {
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
