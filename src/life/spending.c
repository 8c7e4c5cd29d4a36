#include "life/spending.h"

#include "base/numbers.h"

#include <string.h>

struct summing {
	struct arena *arena;
	int year;
	struct spending sums;
	size_t kind_room, station_room, year_room;
};

static int
year_of(day_t day)
{
	return day_to_civil(day).year;
}

/* The sum of this name and year, made when there is none. */
static struct spent *
sum_of(struct arena *arena, struct spent_list *list, size_t *room, const char *name,
    int year)
{
	for (size_t i = 0; i < list->count; i++) {
		if (list->items[i].year == year &&
		    strcmp(list->items[i].name, name) == 0) {
			return &list->items[i];
		}
	}
	if (list->count == *room) {
		size_t more = *room == 0 ? 16 : *room * 2;
		struct spent *grown = arena_alloc(arena, more * sizeof *grown);
		if (list->count > 0) {
			memcpy(grown, list->items, list->count * sizeof *grown);
		}
		list->items = grown;
		*room = more;
	}
	list->items[list->count] = (struct spent){.name = name, .year = year};
	return &list->items[list->count++];
}

static void
add_to(struct spent *spent, int64_t minor, bool bought)
{
	if (bought) {
		spent->bought_minor += minor;
	} else {
		spent->work_minor += minor;
	}
	spent->priced++;
}

/* Adds one price to every sum it belongs to. `station` is NULL for what was bought. */
static void
add_price(struct summing *summing, const struct item *item, const char *station,
    day_t day, int64_t minor)
{
	struct spending *sums = &summing->sums;
	bool bought = station == NULL;
	if (day == DAY_NONE || (summing->year != 0 && year_of(day) != summing->year)) {
		return;
	}
	if (minor < 0) {
		sums->unpriced += bought ? 0 : 1;
		return;
	}
	struct spent *kind =
	    sum_of(summing->arena, &sums->kinds, &summing->kind_room, item->kind, 0);
	struct spent *year =
	    sum_of(summing->arena, &sums->years, &summing->year_room, "", year_of(day));
	add_to(kind, minor, bought);
	add_to(year, minor, bought);
	add_to(&sums->total, minor, bought);
	if (bought) {
		return;
	}
	struct spent *by =
	    sum_of(summing->arena, &sums->stations, &summing->station_room, station, 0);
	add_to(by, minor, false);
}

static void
add_records(struct summing *summing, const struct item *item,
    const struct record *records, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		add_price(summing, item, records[i].station, stamp_first(records[i].on),
		    records[i].price_minor);
	}
}

static void
add_item(struct summing *summing, const struct item *item)
{
	bool hired = item->hired_until != DAY_NONE;
	int64_t price = item->price_minor < 0 ? -1 : item->price_minor * item->quantity;
	add_records(summing, item, item->past_records, item->past_record_count);
	add_records(summing, item, item->records, item->record_count);
	for (size_t i = 0; i < item->movement_count; i++) {
		const struct movement *movement = &item->movements[i];
		if (movement->price_minor >= 0) {
			add_price(summing, item, movement->station, movement->on,
			    movement->price_minor);
		}
	}
	if (!hired) {
		if (item->bought.precision != STAMP_NONE) {
			add_price(summing, item, NULL, stamp_first(item->bought), price);
		}
	}
}

static int
dearest_first(const void *left, const void *right)
{
	const struct spent *a = left;
	const struct spent *b = right;
	int64_t x = a->work_minor + a->bought_minor;
	int64_t y = b->work_minor + b->bought_minor;
	int order = ORDER(y, x);
	return order != 0 ? order : strcmp(a->name, b->name);
}

static int
by_year(const void *left, const void *right)
{
	const struct spent *a = left;
	const struct spent *b = right;
	return a->year - b->year;
}

void
spending_sum(const struct inventory *inventory, int year, struct arena *arena,
    struct spending *out)
{
	struct summing summing = {
	    .arena = arena, .year = year, .sums = {.year = year, .total = {.name = ""}}};
	for (size_t i = 0; i < inventory->item_count; i++) {
		add_item(&summing, &inventory->items[i]);
	}
	struct spending *sums = &summing.sums;
	ARRAY_SORT(sums->kinds.items, sums->kinds.count, dearest_first);
	ARRAY_SORT(sums->stations.items, sums->stations.count, dearest_first);
	ARRAY_SORT(sums->years.items, sums->years.count, by_year);
	*out = *sums;
}
