/* Rows with the same words for something, found by digests, so that these alone are read
 * again. */
#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/csv_rows.h"

#include <stdlib.h>
#include <string.h>

/* Those of one digest. */
struct alike_group {
	struct csv_digest *items; /* owned */
	size_t count;
	size_t capacity;
};

/* What is done with each group. */
struct grouping {
	const struct csv_rows *rows;
	struct alike_group group;
	bool (*end)(struct grouping *grouping, struct fault *fault);
	csv_alike_take *take;
	void *context;
	struct csv_places *places;
	struct arena arena; /* of the group at hand */
	struct fault *fault;
	bool failed;
};

static void
end_group(struct grouping *grouping)
{
	grouping->failed =
	    grouping->failed ||
	    (grouping->group.count > 0 && !grouping->end(grouping, grouping->fault));
	grouping->group.count = 0;
	arena_reset(&grouping->arena);
}

static void
take_digest(const struct csv_digest *one, void *context)
{
	struct grouping *grouping = context;
	const struct alike_group *group = &grouping->group;
	if (group->count > 0 && group->items[0].digest != one->digest) {
		end_group(grouping);
	}
	ARRAY_ADD(&grouping->group, *one);
}

/* Goes over all digests group by group. */
static bool
each_group(struct csv_digests *digests, struct grouping *grouping, struct fault *fault)
{
	grouping->fault = fault;
	bool done = csv_digests_each(digests, take_digest, grouping, fault);
	if (done) {
		end_group(grouping);
	}
	free(grouping->group.items);
	arena_clear(&grouping->arena);
	return done && !grouping->failed;
}

/* Reads the rows of a group that do not only ask, and hands them over where they are several. */
static bool
take_group(struct grouping *grouping, struct fault *fault)
{
	struct arena *arena = &grouping->arena;
	const struct alike_group *group = &grouping->group;
	if (group->count == 1) { /* as nearly all are */
		return true;
	}
	struct csv_row *items = ARENA_MANY(arena, struct csv_row, group->count);
	size_t count = 0;
	for (size_t i = 0; i < group->count; i++) {
		const struct csv_digest *one = &group->items[i];
		if (!one->asks && !csv_rows_at(grouping->rows, one->at, arena,
				      &items[count++], fault)) {
			return false;
		}
	}
	if (count > 1) {
		grouping->take(items, count, grouping->context);
	}
	return true;
}

bool
csv_rows_alike(const struct csv_rows *rows, struct csv_digests *digests,
    csv_alike_take *take, void *context, struct fault *fault)
{
	struct grouping grouping = {
	    .rows = rows, .end = take_group, .take = take, .context = context};
	return each_group(digests, &grouping, fault);
}

/* True when a row of the group has the tag that a part names as its whole's. */
static bool
has_whole(const struct alike_group *group, const struct csv_row *rows,
    const struct csv_row *part)
{
	for (size_t i = 0; i < group->count; i++) {
		if (!group->items[i].asks &&
		    strcmp(rows[i].change.tag, part->change.part_of) == 0) {
			return true;
		}
	}
	return false;
}

/* Keeps where those of a group stand that ask in vain. They are read where one is there that may
 * be asked for: another tag may have the same digest. */
static bool
keep_in_vain(struct grouping *grouping, struct fault *fault)
{
	struct arena *arena = &grouping->arena;
	const struct alike_group *group = &grouping->group;
	size_t asking = 0;
	for (size_t i = 0; i < group->count; i++) {
		asking += group->items[i].asks;
	}
	if (asking == 0) { /* as of nearly all */
		return true;
	}
	bool read = asking < group->count;
	struct csv_row *rows = ARENA_MANY(arena, struct csv_row, read ? group->count : 0);
	for (size_t i = 0; read && i < group->count; i++) {
		if (!csv_rows_at(
			grouping->rows, group->items[i].at, arena, &rows[i], fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < group->count; i++) {
		if (group->items[i].asks && !(read && has_whole(group, rows, &rows[i]))) {
			ARRAY_ADD(grouping->places, group->items[i].at);
		}
	}
	return true;
}

static int
by_place(const void *a, const void *b)
{
	return ORDER(*(const size_t *)a, *(const size_t *)b);
}

bool
csv_places_have(const struct csv_places *places, size_t at)
{
	return places->count > 0 && bsearch(&at, places->items, places->count,
					sizeof *places->items, by_place) != NULL;
}

bool
csv_rows_without_whole(struct csv_rows *rows, struct csv_places *out, struct fault *fault)
{
	struct grouping grouping = {.rows = rows, .end = keep_in_vain, .places = out};
	if (!each_group(&rows->tags, &grouping, fault)) {
		return false;
	}
	ARRAY_SORT(out->items, out->count, by_place);
	return true;
}
