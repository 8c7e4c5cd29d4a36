/* What may come of every state of a unit, and the course that makes. States with the
 * same future are one, whosever they are; what may come of things bought new is found
 * once for all that are alike. */
#include "years/moves_inside.h"

#include <stdlib.h>
#include <string.h>

/* The states of a unit whose future is known. */
struct memo {
	struct memo_slot {
		const uint32_t *key; /* winter, then the state; NULL where open */
		struct future *future;
	} * slots;

	size_t mask;
	size_t count;
	size_t width; /* of a key */
	bool cut;     /* true when some ways out of its states were left out */
};

/* Units whose heirs are alike share what may come of those. */
struct unit_type {
	struct unit_type *next;
	const struct unit *like;
	struct memo memo;
};

/* A unit being looked at. */
struct unit_looking {
	struct unit *unit;
	struct arena *arena;   /* for this search only */
	struct memo own;       /* states in which some member is still the present item */
	struct memo *of_heirs; /* all others */
	size_t states;
};

static void
memo_open(struct arena *arena, size_t width, size_t slots, struct memo *out)
{
	*out = (struct memo){.mask = slots - 1, .width = width};
	out->slots = ARENA_MANY(arena, struct memo_slot, slots);
}

static struct memo_slot *
memo_slot(const struct memo *memo, const uint32_t *key)
{
	uint64_t digest = DIGEST_START;
	for (size_t i = 0; i < memo->width; i++) {
		digest = digest_mix(digest, key[i]);
	}
	size_t at = (size_t)(digest ^ digest >> 29) & memo->mask;
	while (memo->slots[at].key != NULL &&
	       memcmp(memo->slots[at].key, key, memo->width * sizeof *key) != 0) {
		at = (at + 1) & memo->mask;
	}
	return &memo->slots[at];
}

/* Keeps a future; `arena` is the one the memo was opened with. */
static void
memo_put(
    struct memo *memo, struct arena *arena, const uint32_t *key, struct future *future)
{
	if (memo->count * 2 > memo->mask) {
		struct memo grown;
		memo_open(arena, memo->width, (memo->mask + 1) * 4, &grown);
		for (size_t i = 0; i <= memo->mask; i++) {
			if (memo->slots[i].key != NULL) {
				*memo_slot(&grown, memo->slots[i].key) = memo->slots[i];
			}
		}
		grown.count = memo->count;
		*memo = grown;
	}
	uint32_t *kept = ARENA_MANY(arena, uint32_t, memo->width);
	memcpy(kept, key, memo->width * sizeof *kept);
	*memo_slot(memo, kept) = (struct memo_slot){kept, future};
	memo->count++;
}

/* The future of a state: `key` is the winter and the state. The recursion is as deep
 * as there are winters. */
static struct future *
look_ahead(struct unit_looking *looking, const uint32_t *key)
{
	struct unit *unit = looking->unit;
	struct outlook_make *make = unit->make;
	bool heirs = true;
	for (size_t i = 0; i < unit->count; i++) {
		heirs = heirs && (key[1 + i] & 1U) != 0;
	}
	struct memo *memo = heirs ? looking->of_heirs : &looking->own;
	if (key[0] == make->ask->winters) {
		return &make->futures->end;
	}
	const struct memo_slot *known = memo_slot(memo, key);
	if (known->key != NULL) {
		return known->future;
	}
	size_t width = unit->count + 2;
	uint32_t *next = ARENA_MANY(looking->arena, uint32_t, width);
	struct laying laying = {0};
	laying_open(unit, looking->arena, key[0], &key[1], &laying);
	laying_moves(&laying);
	if (++looking->states > make->ask->most_states) {
		laying.moves.count = 1;
		memo->cut = true;
	}
	next[0] = key[0] + 1;
	for (size_t i = 0; i < laying.moves.count; i++) {
		struct course_move *move = &laying.moves.items[i];
		memcpy(&next[1], move->to, (width - 1) * sizeof *next);
		move->after = look_ahead(looking, next);
	}
	uint32_t lapses = moves_sift(&laying.moves);
	struct future *found = futures_find(make, &laying.moves, unit->count, lapses);
	memo_put(memo, heirs ? make->arena : looking->arena, key, found);
	free(laying.moves.items);
	return found;
}

/* True when at a station the same counts for one item as for another of the same kind,
 * at any age and where that is not known. */
static bool
like_prices(const struct outlook_make *make, size_t one, size_t other, size_t station)
{
	bool like =
	    carriage_price(make, one, station) == carriage_price(make, other, station);
	bool last = false;
	for (int age = 0; like && !last; age = next_counted_age(make, one, age)) {
		last = age == AGE_NOT_KNOWN;
		for (unsigned task = 0; task < TASK_COUNT && like; task++) {
			like = counted_price(make, one, station, (enum task)task, age)
				   .minor ==
			       counted_price(make, other, station, (enum task)task, age)
				   .minor;
		}
	}
	return like;
}

/* True when a member's heirs lead the same lives at the same prices as another's; those
 * before it being so, what rides and what is inside follows from that. */
static bool
like_members(const struct unit *a, const struct unit *b, size_t index)
{
	const struct member *one = &a->members[index];
	const struct member *other = &b->members[index];
	bool like = one->heirs == other->heirs && one->parent == other->parent &&
		    one->tasks == other->tasks && one->new_minor == other->new_minor &&
		    one->refit_minor == other->refit_minor &&
		    one->renew_ashore == other->renew_ashore;
	for (size_t i = 0; i < a->station_count && like; i++) {
		like = like_prices(a->make, one->item, other->item, a->stations[i]);
	}
	return like;
}

/* True when two units of a vessel may go to the same stations in the same winters, and
 * their heirs are alike. */
static bool
like_units(const struct unit *a, const struct unit *b)
{
	size_t winters = a->make->ask->winters;
	bool like = a->count == b->count && a->station_count == b->station_count;
	for (size_t i = 0; i < a->station_count && like; i++) {
		like = a->stations[i] == b->stations[i] &&
		       memcmp(&a->open[i * winters], &b->open[i * winters],
			   winters * sizeof *a->open) == 0;
	}
	for (size_t i = 0; i < a->count && like; i++) {
		like = like_members(a, b, i);
	}
	return like;
}

/* The memo of what may come of the unit's heirs, shared with units like it. An item
 * that is to be renewed at once shares it with none. */
static struct memo *
memo_of_heirs(struct unit *unit)
{
	struct outlook_make *make = unit->make;
	struct unit_type *type = make->types;
	/* the newest are in front, and vessels come one by one */
	for (; type != NULL && type->like->place == unit->place; type = type->next) {
		if (make->ask->renew_now == NO_ITEM && like_units(type->like, unit)) {
			return &type->memo;
		}
	}
	type = arena_alloc(make->arena, sizeof *type);
	struct unit *like = arena_alloc(make->arena, sizeof *like);
	*like = *unit;
	type->like = like;
	type->next = make->types;
	make->types = type;
	memo_open(make->arena, unit->count + 2, 64, &type->memo);
	return &type->memo;
}

void
unit_lay(struct unit *unit, struct arena *arena)
{
	struct outlook_make *make = unit->make;
	struct unit_looking looking = {.unit = unit, .arena = arena};
	size_t width = unit->count + 2;
	if (make->futures == NULL) {
		make->futures = arena_alloc(make->arena, sizeof *make->futures);
	}
	looking.of_heirs = memo_of_heirs(unit);
	memo_open(arena, width, 64, &looking.own);
	struct future *start = look_ahead(&looking, ARENA_MANY(arena, uint32_t, width));
	unit->cut = looking.own.cut || looking.of_heirs->cut;
	if (start->course == NULL) {
		course_write(unit, start, arena);
	}
	unit->course = *start->course; /* written once, whoever it is for */
	unit->acts = start->course_acts;
}
