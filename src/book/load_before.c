/* Reusing what was loaded before: a transaction that began with the book as it was then,
 * and has written to only some tables, takes the rows of the others from that. */
#include "base/numbers.h"
#include "book/rows.h"

#include <stdlib.h>
#include <string.h>

static int
compare_numbers(const void *a, const void *b)
{
	int64_t left = *(const int64_t *)a;
	int64_t right = *(const int64_t *)b;
	return ORDER(left, right);
}

/* The numbers of the vessels wanted, in order; the list is of SQLite's making. */
static int64_t *
wanted_numbers(const struct loading *loading, size_t *count_out)
{
	size_t most = strlen(loading->wanted) / 2 + 1;
	int64_t *numbers = arena_alloc(loading->arena, most * sizeof *numbers);
	const char *at = loading->wanted;
	*count_out = 0;
	while ((at = strpbrk(at, "0123456789")) != NULL) {
		char *end = NULL;
		numbers[(*count_out)++] = strtoll(at, &end, 10);
		at = end;
	}
	qsort(numbers, *count_out, sizeof *numbers, compare_numbers);
	return numbers;
}

static bool
is_among(const int64_t *numbers, size_t count, int64_t number)
{
	return count > 0 &&
	       bsearch(&number, numbers, count, sizeof number, compare_numbers) != NULL;
}

void
load_take(struct loading *loading, const struct book_part *part)
{
	const struct book *book = loading->book;
	const struct book_contents *before = part == NULL ? NULL : part->before;
	if (before == NULL || !book->begun || before->within >= 0 ||
	    before->revision != book->as_of ||
	    before->with_withdrawn != loading->with_withdrawn) {
		return;
	}
	size_t count = 0;
	size_t found = 0;
	const int64_t *numbers = wanted_numbers(loading, &count);
	for (size_t i = 0; i < before->read_vessel_count; i++) {
		found += is_among(numbers, count, before->read_vessels[i].id);
	}
	if (found < count) {
		return;
	}
	loading->before = before;
	loading->numbers = numbers;
	loading->number_count = count;
	loading->taken = ~book->touched;
	if ((book->touched & LOADS_RECORDS) != 0) {
		/* those from before a renewal were left out */
		loading->taken &= ~(unsigned)(LOADS_EXTENSIONS | LOADS_INTERVALS);
	}
	if (!before->with_stations) {
		loading->taken &= ~(unsigned)LOADS_STATIONS;
	}
}

void
load_vessels_taken(struct loading *loading)
{
	const struct book_contents *before = loading->before;
	load_room(
	    loading, before->read_vessel_count, sizeof(struct vessel), &loading->vessels);
	for (size_t i = 0; i < before->read_vessel_count; i++) {
		if (is_among(loading->numbers, loading->number_count,
			before->read_vessels[i].id)) {
			loading->vessels[loading->vessel_count++] =
			    before->read_vessels[i];
		}
	}
}

static int
compare_ids(const void *a, const void *b)
{
	return compare_numbers(
	    &(*(const struct item *const *)a)->id, &(*(const struct item *const *)b)->id);
}

/* The items that were loaded before, by number. */
static const struct item **
items_before(struct loading *loading)
{
	const struct book_contents *before = loading->before;
	const struct item **items = NULL;
	load_room(loading, before->read_item_count, sizeof(const struct item *), &items);
	for (size_t i = 0; i < before->read_item_count; i++) {
		items[i] = &before->read_items[i];
	}
	qsort(items, before->read_item_count, sizeof(const struct item *), compare_ids);
	return items;
}

void
load_items_taken(
    struct loading *loading, const struct place_of_id *vessels, struct part_of *parents)
{
	const struct book_contents *before = loading->before;
	const struct item **items = items_before(loading);
	for (size_t i = 0; i < before->read_item_count; i++) {
		const struct item *from = items[i];
		const struct place_of_id *vessel = place_find(vessels,
		    loading->vessel_count, before->read_vessels[from->vessel].id);
		if (vessel == NULL) {
			continue;
		}
		parents[loading->item_count] = (struct part_of){from->id,
		    from->parent == ITEM_NO_PARENT ? 0
						   : before->read_items[from->parent].id};
		struct item *item = &loading->items[loading->item_count++];
		item->id = from->id;
		item->vessel = vessel->index;
		item->parent = ITEM_NO_PARENT;
		item->tag = from->tag;
		item->values = from->values;
		item->split_from = from->split_from;
	}
}

/* What hangs on an item as it was before it was cut at a renewal (load_item.c). */
static void
take_lists(struct item *item, const struct item *from, unsigned taken)
{
	if ((taken & LOADS_RECORDS) != 0) {
		item->records = from->past_records;
		item->record_count = from->past_record_count + from->record_count;
	}
	if ((taken & LOADS_EVENTS) != 0) {
		item->events = from->past_events;
		item->event_count = from->past_event_count + from->event_count;
	}
	if ((taken & LOADS_EXTENSIONS) != 0) {
		item->extensions = from->extensions;
		item->extension_count = from->extension_count;
	}
	if ((taken & LOADS_INTERVALS) != 0) {
		item->intervals = from->intervals;
		item->interval_count = from->interval_count;
	}
	if ((taken & LOADS_MOVEMENTS) != 0) {
		item->movements = from->movements;
		item->movement_count = from->movement_count;
	}
}

void
load_lists_taken(struct loading *loading)
{
	const struct item **items = items_before(loading);
	size_t count = loading->before->read_item_count;
	for (size_t i = 0; i < loading->item_count; i++) {
		const struct item *wanted = &loading->items[i];
		const struct item *const *from = bsearch(
		    &wanted, items, count, sizeof(const struct item *), compare_ids);
		if (from != NULL) {
			take_lists(&loading->items[i], *from, loading->taken);
		}
	}
}
