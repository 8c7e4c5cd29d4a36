/* Whose lists may have a part of one trip: looked up, for a fleet of thousands has as many
 * bases. */
#include "base/numbers.h"
#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

/* A list, and the base of its vessel. */
struct based_list {
	const char *base;
	const struct shore_list *list;
};

static int
compare_based(const void *left, const void *right)
{
	const struct based_list *a = left;
	const struct based_list *b = right;
	int order = strcmp(a->base, b->base);
	return ORDER_THEN(order, a->list, b->list);
}

void
making_sort_lists(struct making *making)
{
	SCOPED_ARENA scratch = {0};
	size_t count = making->list_count;
	struct based_list *based = arena_alloc(&scratch, (count + 1) * sizeof *based);
	for (size_t i = 0; i < count; i++) {
		const struct shore_list *list = &making->lists[i];
		based[i] = (struct based_list){making_base(making, list), list};
	}
	qsort(based, count, sizeof *based, compare_based);
	making->by_base =
	    arena_alloc(making->arena, (count + 1) * sizeof(const struct shore_list *));
	for (size_t i = 0; i < count; i++) {
		making->by_base[i] = based[i].list;
	}
}

/* Where the list at hand stands among those sorted. */
static size_t
place_of_hers(const struct making *making)
{
	const struct based_list hers = {making_base(making, making->list), making->list};
	size_t low = 0;
	size_t high = making->list_count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		const struct shore_list *list = making->by_base[middle];
		const struct based_list other = {making_base(making, list), list};
		if (compare_based(&other, &hers) < 0) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low;
}

const struct shore_list *const *
making_peers(const struct making *making, bool of_base, size_t *count_out)
{
	const char *base = making_base(making, making->list);
	size_t first = place_of_hers(making);
	size_t end = first + 1;
	while (of_base && first > 0 &&
	       strcmp(making_base(making, making->by_base[first - 1]), base) == 0) {
		first--;
	}
	while (of_base && end < making->list_count &&
	       strcmp(making_base(making, making->by_base[end]), base) == 0) {
		end++;
	}
	*count_out = end - first;
	return making->by_base + first;
}
