/* What came back, and what was found of it. */
#include "base/numbers.h"
#include "life/family.h"
#include "life/whereabouts.h"

#include <string.h>

/* The day gear was last landed before one of its movements; DAY_NONE when not known. */
static day_t
landed_before(const struct item *item, size_t movement)
{
	for (size_t i = movement; i > 0; i--) {
		if (item->movements[i - 1].move == MOVE_LANDED) {
			return item->movements[i - 1].on;
		}
	}
	return DAY_NONE;
}

/* The first record of work between two days. */
static const struct record *
work_between(const struct item *item, day_t first, day_t last)
{
	for (size_t i = 0; i < item->record_count; i++) {
		day_t on = stamp_first(item->records[i].on);
		if (on >= first && on <= last) {
			return &item->records[i];
		}
	}
	return NULL;
}

/* True when the part was put in new between two days. */
static bool
renewed_between(const struct item *part, day_t first, day_t last)
{
	for (size_t i = 0; i < part->record_count; i++) {
		day_t on = stamp_first(part->records[i].on);
		if (part->records[i].task == TASK_RENEW && on >= first && on <= last) {
			return true;
		}
	}
	return false;
}

static void
find_renewed(const struct inventory *inventory, day_t first, struct arena *arena,
    struct came_back *back)
{
	struct family family = {0};
	if (first == DAY_NONE || back->movement->move != MOVE_RETURNED) {
		return;
	}
	family_of(inventory, back->item, arena, &family);
	back->renewed = arena_alloc(arena, family.count * sizeof *back->renewed);
	for (size_t i = 1; i < family.count; i++) {
		if (renewed_between(
			&inventory->items[family.items[i]], first, back->movement->on)) {
			back->renewed[back->renewed_count++] = family.items[i];
		}
	}
}

/* Whether a movement tells of a return, and not of a part that only went along. */
static bool
is_return(const struct movement *movement, const char *station, day_t since)
{
	bool told = movement->result != RESULT_NOT_SAID;
	bool back =
	    movement->move == MOVE_RETURNED ||
	    (movement->move == MOVE_WITHDRAWN && movement->result == RESULT_CONDEMNED);
	return told && back && (since == DAY_NONE || movement->on >= since) &&
	       (station == NULL || strcmp(movement->station, station) == 0);
}

static void
read_return(const struct inventory *inventory, size_t index, size_t movement,
    struct arena *arena, struct came_back *out)
{
	const struct item *item = &inventory->items[index];
	day_t first = landed_before(item, movement);
	struct came_back back = {
	    .item = index,
	    .movement = &item->movements[movement],
	};
	if (first != DAY_NONE) {
		back.record = work_between(item, first, back.movement->on);
	}
	find_renewed(inventory, first, arena, &back);
	back.different = back.movement->result != RESULT_PASSED ||
			 back.renewed_count > 0 || back.movement->note[0] != '\0';
	*out = back;
}

static int
latest_first(const void *left, const void *right)
{
	const struct came_back *a = left;
	const struct came_back *b = right;
	int order = ORDER(b->movement->on, a->movement->on);
	return ORDER_THEN(order, a->item, b->item);
}

void
came_back_since(const struct inventory *inventory, const char *station, day_t since,
    struct arena *arena, struct came_back_list *out)
{
	struct came_back_list list = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		for (size_t j = 0; j < item->movement_count; j++) {
			if (!is_return(&item->movements[j], station, since)) {
				continue;
			}
			ARENA_ROOM(arena, &list);
			read_return(inventory, i, j, arena, &list.items[list.count++]);
		}
	}
	ARRAY_SORT(list.items, list.count, latest_first);
	*out = list;
}
