/* Rows with the same words for something, found by digests, so that these alone are read
 * again. */
#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/csv_rows.h"

#include <stdlib.h>
#include <string.h>

static int
by_digest(const void *a, const void *b)
{
	const struct csv_digest *x = a;
	const struct csv_digest *y = b;
	return ORDER_THEN(ORDER(x->digest, y->digest), x->at, y->at);
}

static void
sort(struct csv_digests *digests)
{
	if (!digests->sorted) {
		ARRAY_SORT(digests->items, digests->count, by_digest);
		digests->sorted = true;
	}
}

/* Reads so many rows, whose digests are one, and hands them over. */
static bool
take_group(const struct csv_rows *rows, const struct csv_digest *group, size_t count,
    csv_alike_take *take, void *context, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct csv_row *items = ARENA_MANY(&arena, struct csv_row, count);
	for (size_t i = 0; i < count; i++) {
		if (!csv_rows_at(rows, group[i].at, &arena, &items[i], fault)) {
			return false;
		}
	}
	take(items, count, context);
	return true;
}

bool
csv_rows_alike(const struct csv_rows *rows, struct csv_digests *digests,
    csv_alike_take *take, void *context, struct fault *fault)
{
	size_t first = 0;
	sort(digests);
	for (size_t i = 1; i <= digests->count; i++) {
		const struct csv_digest *group = &digests->items[first];
		if (i < digests->count && digests->items[i].digest == group->digest) {
			continue;
		}
		if (i - first > 1 &&
		    !take_group(rows, group, i - first, take, context, fault)) {
			return false;
		}
		first = i;
	}
	return true;
}

bool
csv_rows_tagged(struct csv_rows *rows, const char *tag, bool *out, struct fault *fault)
{
	const struct csv_digest wanted = {csv_digest_of(&tag, 1), 0};
	size_t low = 0;
	size_t high = rows->tags.count;
	sort(&rows->tags);
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (rows->tags.items[middle].digest < wanted.digest) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	*out = false;
	for (size_t i = low;
	     !*out && i < rows->tags.count && rows->tags.items[i].digest == wanted.digest;
	     i++) {
		SCOPED_ARENA arena = {0};
		struct csv_row row;
		if (!csv_rows_at(rows, rows->tags.items[i].at, &arena, &row, fault)) {
			return false;
		}
		*out = strcmp(row.change.tag, tag) == 0;
	}
	return true;
}
