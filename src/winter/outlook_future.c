/* What may come of every state of a unit, and the course that makes. States with the same future
 * are one, whosever they are; what may come of things bought new is found once for all that are
 * alike. */
#include "winter/outlook_moves.h"

#include <stdlib.h>
#include <string.h>

/* Most states that are looked at of one unit; beyond, one way out of each is followed, and the
 * plan says so. */
enum { STATES_MOST = 40000 };

/* What may come of a state: the ways on that let fewest tasks lapse, none of which another makes
 * useless. Two that look the same are the same. */
struct future {
	struct future *next; /* of those with a like digest */
	uint64_t digest;
	size_t members;

	struct future_arc {
		struct future *to;
		const uint8_t *acts;
		int station;
		uint32_t work;
		int64_t minor;
	} * arcs;

	size_t count;
	uint32_t lapses; /* of the ways on, all seasons together */

	const struct course *course; /* of what begins with it, when asked for */
	const uint8_t *course_acts;
	size_t numbered; /* its number, one up, while a course is written; 0 otherwise */
};

enum { FUTURE_SLOTS = 1 << 13 };

struct futures {
	struct future *slots[FUTURE_SLOTS];
	struct future end; /* nothing more to come */
};

/* The states of a unit whose future is known. */
struct memo {
	struct memo_slot {
		const uint32_t *key; /* winter, then the state; NULL where open */
		struct future *future;
	} * slots;

	size_t mask;
	size_t count;
	size_t width; /* of a key */
	bool cut;     /* some ways out of its states were left out */
};

/* Units whose heirs are alike share what may come of those. */
struct unit_type {
	struct unit_type *next;
	const struct unit *like;
	struct memo memo;
};

/* A unit being looked at. */
struct looking {
	struct unit *unit;
	struct arena *arena;   /* for the looking alone */
	struct memo own;       /* states with something of now in them */
	struct memo *of_heirs; /* all others */
	size_t states;
};

static uint64_t
mix(uint64_t digest, uint64_t figure)
{
	return (digest ^ figure) * 1099511628211U;
}

static bool
memo_open(struct arena *arena, size_t width, size_t slots, struct memo *out,
    struct fault *fault)
{
	*out = (struct memo){.mask = slots - 1, .width = width};
	out->slots = arena_alloc(arena, slots * sizeof *out->slots);
	return out->slots != NULL || fault_memory(fault);
}

static struct memo_slot *
memo_slot(const struct memo *memo, const uint32_t *key)
{
	uint64_t digest = 14695981039346656037U;
	for (size_t i = 0; i < memo->width; i++) {
		digest = mix(digest, key[i]);
	}
	size_t at = (size_t)(digest ^ digest >> 29) & memo->mask;
	while (memo->slots[at].key != NULL &&
	       memcmp(memo->slots[at].key, key, memo->width * sizeof *key) != 0) {
		at = (at + 1) & memo->mask;
	}
	return &memo->slots[at];
}

/* Keeps a future; `arena` is the one the memo was opened with. */
static bool
memo_put(struct memo *memo, struct arena *arena, const uint32_t *key,
    struct future *future, struct fault *fault)
{
	if (memo->count * 2 > memo->mask) {
		struct memo grown;
		if (!memo_open(arena, memo->width, (memo->mask + 1) * 4, &grown, fault)) {
			return false;
		}
		for (size_t i = 0; i <= memo->mask; i++) {
			if (memo->slots[i].key != NULL) {
				*memo_slot(&grown, memo->slots[i].key) = memo->slots[i];
			}
		}
		grown.count = memo->count;
		*memo = grown;
	}
	uint32_t *kept = arena_alloc(arena, memo->width * sizeof *kept);
	if (kept == NULL) {
		return fault_memory(fault);
	}
	memcpy(kept, key, memo->width * sizeof *kept);
	*memo_slot(memo, kept) = (struct memo_slot){kept, future};
	memo->count++;
	return true;
}

/* True when `a` makes `b` useless: it leads to the same, costs no more (or as much and is no
 * more work), and needs no trip that `b` does not need. Of equals the first stays. */
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

/* Keeps the moves that let fewest tasks lapse in all, less those that are spared. Returns the
 * fewest lapses. */
static uint32_t
sift_moves(struct course_moves *moves)
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
same_arc(const struct future_arc *arc, const struct course_move *move, size_t members)
{
	return arc->to == move->after && arc->station == move->station &&
	       arc->minor == move->minor && arc->work == move->work &&
	       memcmp(arc->acts, move->acts, members) == 0;
}

static bool
same_future(const struct future *future, const struct course_moves *moves, size_t members)
{
	bool same = future->count == moves->count && future->members == members;
	for (size_t i = 0; i < moves->count && same; i++) {
		same = same_arc(&future->arcs[i], &moves->items[i], members);
	}
	return same;
}

static uint64_t
moves_digest(const struct course_moves *moves, size_t members)
{
	uint64_t digest = mix(14695981039346656037U, members);
	for (size_t i = 0; i < moves->count; i++) {
		const struct course_move *move = &moves->items[i];
		digest = mix(digest, (uint64_t)(uintptr_t)move->after);
		digest = mix(digest, (uint64_t)move->minor);
		digest = mix(digest, (uint64_t)(move->station + 1) << 32 | move->work);
		for (size_t j = 0; j < members; j++) {
			digest = mix(digest, move->acts[j]);
		}
	}
	return digest ^ digest >> 31;
}

/* The arcs of a new future, copied from the moves. */
static bool
copy_arcs(struct arena *arena, const struct course_moves *moves, struct future *out,
    struct fault *fault)
{
	size_t members = out->members;
	out->arcs = arena_alloc(arena, (moves->count + 1) * sizeof *out->arcs);
	uint8_t *acts = arena_alloc(arena, moves->count * members + 1);
	if (out->arcs == NULL || acts == NULL) {
		return fault_memory(fault);
	}
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
	return true;
}

/* The future that these moves are: one that is known, or a new one. */
static bool
find_future(struct outlook_make *make, const struct course_moves *moves, size_t members,
    uint32_t lapses, struct future **out, struct fault *fault)
{
	uint64_t digest = moves_digest(moves, members);
	struct future **slot = &make->futures->slots[digest & (FUTURE_SLOTS - 1)];
	for (struct future *known = *slot; known != NULL; known = known->next) {
		if (known->digest == digest && known->lapses == lapses &&
		    same_future(known, moves, members)) {
			*out = known;
			return true;
		}
	}
	struct future *future = arena_alloc(make->arena, sizeof *future);
	if (future == NULL) {
		return fault_memory(fault);
	}
	*future = (struct future){
	    .next = *slot, .digest = digest, .members = members, .lapses = lapses};
	if (!copy_arcs(make->arena, moves, future, fault)) {
		return false;
	}
	*slot = future;
	*out = future;
	return true;
}

static bool
all_heirs(const uint32_t *state, size_t members)
{
	bool heirs = true;
	for (size_t i = 0; i < members; i++) {
		heirs = heirs && (state[i] & 1U) != 0;
	}
	return heirs;
}

/* What may come of a state: `key` is the winter and the state. As deep as there are winters. */
static bool
look_ahead(struct looking *looking, const uint32_t *key, struct future **out,
    struct fault *fault)
{
	struct unit *unit = looking->unit;
	struct outlook_make *make = unit->make;
	bool heirs = all_heirs(&key[1], unit->count);
	struct memo *memo = heirs ? looking->of_heirs : &looking->own;
	if (key[0] == make->ask->winters) {
		*out = &make->futures->end;
		return true;
	}
	const struct memo_slot *known = memo_slot(memo, key);
	if (known->key != NULL) {
		*out = known->future;
		return true;
	}
	size_t width = unit->count + 2;
	uint32_t *next = arena_alloc(looking->arena, width * sizeof *next);
	struct laying laying = {0};
	if (next == NULL) {
		return fault_memory(fault);
	}
	bool done = laying_open(unit, looking->arena, key[0], &key[1], &laying, fault) &&
		    laying_moves(&laying, fault);
	if (++looking->states > STATES_MOST && done) {
		laying.moves.count = 1;
		memo->cut = true;
	}
	for (size_t i = 0; i < laying.moves.count && done; i++) {
		struct course_move *move = &laying.moves.items[i];
		next[0] = key[0] + 1;
		memcpy(&next[1], move->to, (width - 1) * sizeof *next);
		done = look_ahead(looking, next, &move->after, fault);
	}
	if (done) {
		uint32_t lapses = sift_moves(&laying.moves);
		done =
		    find_future(make, &laying.moves, unit->count, lapses, out, fault) &&
		    memo_put(
			memo, heirs ? make->arena : looking->arena, key, *out, fault);
	}
	free(laying.moves.items);
	return done;
}

/* True when a station asks for one item what it asks for another of the same kind, at any
 * age. */
static bool
like_prices(const struct outlook_make *make, size_t one, size_t other, size_t station)
{
	bool like =
	    carriage_price(make, one, station) == carriage_price(make, other, station);
	for (int age = 0; age != AGE_NOT_KNOWN && like;
	     age = next_price_age(make, one, station, age)) {
		for (unsigned task = 0; task < TASK_COUNT && like; task++) {
			like =
			    task_price(make, one, station, (enum task)task, age).minor ==
			    task_price(make, other, station, (enum task)task, age).minor;
		}
	}
	return like;
}

/* True when a member's heirs lead the same lives at the same prices as another's. */
static bool
like_members(const struct unit *a, const struct unit *b, size_t index)
{
	const struct member *one = &a->members[index];
	const struct member *other = &b->members[index];
	bool like = one->heirs == other->heirs && one->parent == other->parent &&
		    one->tasks == other->tasks && one->rides == other->rides &&
		    one->inside == other->inside && one->new_minor == other->new_minor &&
		    one->renew_ashore == other->renew_ashore;
	for (size_t i = 0; i < a->station_count && like; i++) {
		like = like_prices(a->make, one->item, other->item, a->stations[i]);
	}
	return like;
}

static bool
like_units(const struct unit *a, const struct unit *b)
{
	bool like = a->count == b->count && a->place == b->place &&
		    a->station_count == b->station_count;
	for (size_t i = 0; i < a->station_count && like; i++) {
		like = a->stations[i] == b->stations[i];
	}
	for (size_t i = 0; i < a->count && like; i++) {
		like = like_members(a, b, i);
	}
	return like;
}

/* The memo of what may come of the unit's heirs, shared with units like it. An item that is to
 * be renewed at once shares it with none. */
static bool
memo_of_heirs(struct unit *unit, struct memo **out, struct fault *fault)
{
	struct outlook_make *make = unit->make;
	for (struct unit_type *type = make->types; type != NULL; type = type->next) {
		if (type->like->place != unit->place) {
			break; /* the newest are in front, and vessels come one by one */
		}
		if (make->ask->renew_now == NO_ITEM && like_units(type->like, unit)) {
			*out = &type->memo;
			return true;
		}
	}
	struct unit_type *type = arena_alloc(make->arena, sizeof *type);
	struct unit *like = arena_alloc(make->arena, sizeof *like);
	if (type == NULL || like == NULL) {
		return fault_memory(fault);
	}
	*like = *unit;
	type->like = like;
	type->next = make->types;
	make->types = type;
	*out = &type->memo;
	return memo_open(make->arena, unit->count + 2, 64, &type->memo, fault);
}

/* A course being written: nodes are numbered as they are come upon from the start. */
struct writing {
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
static bool
number_node(struct writing *writing, struct future *future, struct fault *fault)
{
	if (future->numbered != 0) {
		return true;
	}
	if (!arena_reserve(writing->arena, &writing->nodes, &writing->node_capacity,
		sizeof(struct future *), writing->node_count + 1, fault)) {
		return false;
	}
	writing->nodes[writing->node_count++] = future;
	future->numbered = writing->node_count;
	return true;
}

/* Numbers everything that may come of the first node, and counts the arcs. */
static bool
number_nodes(struct writing *writing, struct future *start, struct fault *fault)
{
	if (!number_node(writing, start, fault)) {
		return false;
	}
	for (size_t node = 0; node < writing->node_count; node++) {
		const struct future *from = writing->nodes[node];
		writing->arc_count += from->count;
		for (size_t i = 0; i < from->count; i++) {
			if (!number_node(writing, from->arcs[i].to, fault)) {
				return false;
			}
		}
	}
	return true;
}

/* Writes the arcs of all nodes; those of one winter end where a node of the next begins. */
static void
write_arcs(struct writing *writing, size_t winters, size_t *ends)
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

/* Writes the course that begins with a future; NULL, with the fault set, when it can't. */
static const struct course *
write_course(
    struct unit *unit, struct future *start, struct arena *scratch, struct fault *fault)
{
	struct arena *arena = unit->make->arena;
	size_t winters = unit->make->ask->winters;
	struct writing writing = {.members = unit->count, .arena = scratch};
	struct course *course = arena_alloc(arena, sizeof *course);
	size_t *ends = arena_alloc(arena, winters * sizeof *ends);
	if (course == NULL || ends == NULL) {
		(void)fault_memory(fault);
		return NULL;
	}
	if (!number_nodes(&writing, start, fault)) {
		return NULL;
	}
	size_t arcs = writing.arc_count;
	writing.arcs = arena_alloc(arena, (arcs + 1) * sizeof *writing.arcs);
	writing.acts = arena_alloc(arena, arcs * unit->count + 1);
	if (writing.arcs == NULL || writing.acts == NULL) {
		(void)fault_memory(fault);
		return NULL;
	}
	write_arcs(&writing, winters, ends);
	for (size_t i = 0; i < writing.node_count; i++) {
		writing.nodes[i]->numbered = 0;
	}
	*course = (struct course){writing.arcs, ends, (uint32_t)writing.node_count};
	start->course = course;
	start->course_acts = writing.acts;
	return course;
}

bool
unit_lay(struct unit *unit, struct arena *arena, struct fault *fault)
{
	struct outlook_make *make = unit->make;
	struct looking looking = {.unit = unit, .arena = arena};
	size_t width = unit->count + 2;
	uint32_t *key = arena_alloc(arena, width * sizeof *key); /* all as it is */
	if (make->futures == NULL) {
		make->futures = arena_alloc(make->arena, sizeof *make->futures);
	}
	if (key == NULL || make->futures == NULL) {
		return fault_memory(fault);
	}
	struct future *start = &make->futures->end;
	looking.of_heirs = &looking.own;
	if (!memo_open(arena, width, 64, &looking.own, fault) ||
	    !memo_of_heirs(unit, &looking.of_heirs, fault) ||
	    !look_ahead(&looking, key, &start, fault)) {
		return false;
	}
	unit->cut = looking.own.cut || looking.of_heirs->cut;
	const struct course *course = start->course;
	if (course == NULL) {
		course = write_course(unit, start, arena, fault);
	}
	if (course == NULL) {
		return false;
	}
	unit->course = *course; /* written once, whoever it is for */
	unit->acts = start->course_acts;
	return true;
}
