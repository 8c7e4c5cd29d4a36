#include "life/whereabouts.h"

#include "base/numbers.h"
#include "base/text.h"
#include "gear/going.h"
#include "life/serials.h"

#include <string.h>

/* The day on which it was last withdrawn; DAY_NONE when it never was. */
static day_t
day_of_withdrawal(const struct item *item)
{
	for (size_t i = item->movement_count; i > 0; i--) {
		if (item->movements[i - 1].move == MOVE_WITHDRAWN) {
			return item->movements[i - 1].on;
		}
	}
	return DAY_NONE;
}

/* Walks out to what the item has gone along with. */
static size_t
outermost(const struct inventory *inventory, size_t item)
{
	const struct item *items = inventory->items;
	size_t at = item;
	for (size_t steps = 0;
	     items[at].parent != ITEM_NO_PARENT && steps < inventory->item_count;
	     steps++) {
		const struct item *part = &items[at];
		const struct item *whole = &items[part->parent];
		bool apart = part->state != whole->state ||
			     strcmp(part->landed_to, whole->landed_to) != 0;
		/* What stands aboard inside what is ashore was left aboard. */
		if (apart || part->vessel != whole->vessel) {
			break;
		}
		at = part->parent;
	}
	return at;
}

struct whereabouts
whereabouts_of(const struct known_gear *known, size_t index)
{
	const struct inventory *inventory = known->inventory;
	size_t whole = outermost(inventory, index);
	const struct item *item = &inventory->items[whole];
	struct whereabouts where = {
	    .item = index,
	    .whole = whole,
	    .state = item->state,
	    .station = item->landed_to,
	    .since = DAY_NONE,
	    .collect = DAY_NONE,
	};
	if (item->state == PLACE_LANDED) {
		where.since = item->landed_on;
		where.collect = ashore_collect(inventory, item, known->stations,
		    known->station_count, &where.assumed);
	}
	if (item->state == PLACE_WITHDRAWN) {
		where.since = day_of_withdrawal(&inventory->items[index]);
	}
	return where;
}

static void
add_where(const struct known_gear *known, size_t item, struct arena *arena,
    struct whereabouts_list *list)
{
	if (list->items == NULL) {
		list->items = arena_alloc(
		    arena, (known->inventory->item_count + 1) * sizeof *list->items);
	}
	list->items[list->count++] = whereabouts_of(known, item);
}

/* True when `word`, of `length` bytes, stands in `text` in any case of letters. */
static bool
stands_in(const char *text, const char *word, size_t length)
{
	for (; *text != '\0'; text++) {
		size_t same = 0;
		while (same < length && text[same] != '\0' &&
		       text_lower(text[same]) == text_lower(word[same])) {
			same++;
		}
		if (same == length) {
			return true;
		}
	}
	return false;
}

/* True when every word stands somewhere in what is said of the item. */
static bool
means(const struct known_gear *known, const struct item *item, const char *words)
{
	const struct kind *kind = kinds_find(known->kinds, item->kind);
	const char *const told[] = {item->tag, item->kind, kind == NULL ? "" : kind->name,
	    item->description, item->make, item->place, item->serial};
	bool any = false;
	for (const char *at = words + strspn(words, " "); *at != '\0';
	     at += strspn(at, " ")) {
		size_t length = strcspn(at, " ");
		bool found = false;
		for (size_t i = 0; i < sizeof told / sizeof told[0]; i++) {
			found = found || stands_in(told[i], at, length);
		}
		if (!found) {
			return false;
		}
		any = true;
		at += length;
	}
	return any;
}

void
whereabouts_find(const struct known_gear *known, const char *words, struct arena *arena,
    struct whereabouts_list *out)
{
	enum { BY_TAG, BY_SERIAL, BY_WORDS, WAYS };

	const struct inventory *inventory = known->inventory;
	struct whereabouts_list list = {0};
	for (int way = BY_TAG; way < WAYS && list.count == 0; way++) {
		for (size_t i = 0; i < inventory->item_count; i++) {
			const struct item *item = &inventory->items[i];
			bool meant = way == BY_TAG      ? strcmp(item->tag, words) == 0
				     : way == BY_SERIAL ? serial_same(item->serial, words)
							: means(known, item, words);
			if (meant) {
				add_where(known, i, arena, &list);
			}
		}
	}
	*out = list;
}

static int
by_collect(const void *left, const void *right)
{
	const struct whereabouts *a = left;
	const struct whereabouts *b = right;
	int order = strcmp(a->station, b->station);
	order = ORDER_THEN(order, a->collect, b->collect);
	return ORDER_THEN(order, a->item, b->item);
}

void
whereabouts_ashore(const struct known_gear *known, const char *station,
    struct arena *arena, struct whereabouts_list *out)
{
	const struct inventory *inventory = known->inventory;
	struct whereabouts_list list = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool there = item->state == PLACE_LANDED &&
			     outermost(inventory, i) == i &&
			     (station == NULL || strcmp(item->landed_to, station) == 0);
		if (there) {
			add_where(known, i, arena, &list);
		}
	}
	ARRAY_SORT(list.items, list.count, by_collect);
	*out = list;
}
