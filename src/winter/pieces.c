#include "base/memory.h"
#include "base/numbers.h"
#include "winter/winter.h"

#include <stdlib.h>

static int
compare_items(const void *left, const void *right)
{
	return ORDER(*(const size_t *)left, *(const size_t *)right);
}

size_t
shore_pieces(const struct inventory *inventory, const struct shore_lines *lines)
{
	size_t *items = memory_zeroed(lines->count + 1, sizeof *items);
	size_t pieces = 0;
	for (size_t i = 0; i < lines->count; i++) {
		items[i] = lines->items[i].item;
	}
	qsort(items, lines->count, sizeof *items, compare_items);
	for (size_t i = 0; i < lines->count; i++) {
		if (i == 0 || items[i] != items[i - 1]) {
			pieces += (size_t)inventory->items[items[i]].quantity;
		}
	}
	free(items);
	return pieces;
}

struct shore_line
shore_line_plain(size_t item, enum task task)
{
	return (struct shore_line){.item = item,
	    .task = task,
	    .due = DAY_NONE,
	    .not_before = DAY_NONE,
	    .not_after = DAY_NONE,
	    .due_again = DAY_NONE,
	    .carries = true,
	    .price_minor = -1,
	    .what = "",
	    .why = "",
	    .first_possible = DAY_NONE};
}

bool
shore_lines_have(const struct shore_lines *lines, size_t item)
{
	for (size_t i = 0; i < lines->count; i++) {
		if (lines->items[i].item == item) {
			return true;
		}
	}
	return false;
}
