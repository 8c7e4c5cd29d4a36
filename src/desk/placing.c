/* Hand-ins that are found base by base and kept until they are written. */
#include "base/numbers.h"
#include "desk/reminding.h"

/* Keeps a hand-in when the boats that it is of are no longer loaded. */
static void
keep(struct placed_hand_ins *placed, struct arena *arena,
    const struct settled_hand_in *row, size_t place)
{
	const char **tags = ARENA_MANY(arena, const char *, row->tag_count);
	day_t *dues = ARENA_MANY(arena, day_t, row->tag_count);
	for (size_t i = 0; i < row->tag_count; i++) {
		tags[i] = arena_string(arena, row->tags[i]);
		dues[i] = row->dues[i];
	}
	ARENA_ADD(arena, placed, (struct placed_hand_in){place, placed->count, *row});
	struct settled_hand_in *kept = &placed->items[placed->count - 1].of;
	kept->owner = arena_string(arena, row->owner);
	kept->station = arena_string(arena, row->station);
	kept->tags = tags;
	kept->dues = dues;
}

bool
placing_find(struct desk *desk, const struct shore_list *lists, size_t count,
    const struct settling_which *which, const size_t *places, struct arena *arena,
    struct placed_hand_ins *out, struct fault *fault)
{
	struct settled_found found = {0};
	if (!settling_find(desk, lists, count, which, &found, fault)) {
		return false;
	}
	for (size_t i = 0; i < found.count; i++) {
		keep(out, arena, &found.rows[i], places[found.vessels[i]]);
	}
	return true;
}

static int
compare_placed(const void *left, const void *right)
{
	const struct placed_hand_in *a = left;
	const struct placed_hand_in *b = right;
	return ORDER_THEN(ORDER(a->place, b->place), a->order, b->order);
}

bool
placing_write(struct desk *desk, struct placed_hand_ins *placed, struct fault *fault)
{
	bool done = true;
	ARRAY_SORT(placed->items, placed->count, compare_placed);
	for (size_t i = 0; i < placed->count && done; i++) {
		done = book_put_settled(desk->book, &placed->items[i].of, 1, fault);
	}
	return done;
}
