#include "winter/dockets.h"

#include <stdlib.h>
#include <string.h>

/* A line of a trip on its way into a docket. */
struct entry {
	const struct trip *trip;
	const struct shore_line *line;
	size_t piece; /* the item it is handed over as, or with */
};

static int
compare_numbers(int64_t left, int64_t right)
{
	return (left > right) - (left < right);
}

/* Trips that share a docket compare as equal. */
static int
compare_trips(const struct trip *left, const struct trip *right)
{
	int order = compare_numbers(left->hand_in, right->hand_in);
	return order != 0 ? order : strcmp(left->name, right->name);
}

/* By docket, then piece, the item's own lines before its parts', then by item and task. */
static int
compare_entries(const void *left, const void *right)
{
	const struct entry *a = left;
	const struct entry *b = right;
	int order = compare_trips(a->trip, b->trip);
	if (order == 0) {
		order = compare_numbers((int64_t)a->piece, (int64_t)b->piece);
	}
	if (order == 0) {
		order =
		    compare_numbers(a->line->item != a->piece, b->line->item != b->piece);
	}
	if (order == 0) {
		order = compare_numbers((int64_t)a->line->item, (int64_t)b->line->item);
	}
	return order != 0 ? order : compare_numbers(a->line->task, b->line->task);
}

/* The item a line is handed over with: its parent, where that is on the same trip. */
static size_t
piece_of(const struct inventory *inventory, const struct trip *trip,
    const struct shore_line *line)
{
	size_t parent = inventory->items[line->item].parent;
	for (size_t i = 0; line->with_parent && i < trip->lines.count; i++) {
		if (trip->lines.items[i].item == parent) {
			return parent;
		}
	}
	return line->item;
}

static size_t
count_lines(const struct shore_list *lists, size_t count)
{
	size_t lines = 0;
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i].hand_in.count; j++) {
			lines += lists[i].hand_in.items[j].lines.count;
		}
	}
	return lines;
}

static void
fill_entries(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct entry *entries)
{
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i].hand_in.count; j++) {
			const struct trip *trip = &lists[i].hand_in.items[j];
			for (size_t k = 0; k < trip->lines.count; k++) {
				const struct shore_line *line = &trip->lines.items[k];
				*entries++ = (struct entry){
				    trip, line, piece_of(inventory, trip, line)};
			}
		}
	}
}

/* What is being filled; there is room for a docket and a piece a line. */
struct filling {
	const struct inventory *inventory;
	const struct entry *entries;
	size_t count;
	struct docket *dockets;
	size_t docket_count;
	struct docket_piece *pieces;
	const struct shore_line **lines;
};

/* Adds the piece that begins with entry `at`; returns the entry after its last. */
static size_t
add_piece(
    struct filling *filling, size_t at, struct docket *docket, struct docket_piece *piece)
{
	const struct entry *first = &filling->entries[at];
	*piece =
	    (struct docket_piece){.item = first->piece, .lines = &filling->lines[at]};
	for (; at < filling->count; at++) {
		const struct entry *entry = &filling->entries[at];
		if (compare_trips(entry->trip, first->trip) != 0 ||
		    entry->piece != first->piece) {
			break;
		}
		filling->lines[at] = entry->line;
		piece->line_count++;
		piece->own_count += entry->line->item == entry->piece;
		docket->collect = day_max(docket->collect, entry->trip->collect);
		docket->assumed = docket->assumed || entry->trip->assumed;
	}
	return at;
}

/* True when the piece is of another vessel than the one before it. */
static bool
is_next_vessel(const struct filling *filling, const struct docket *docket)
{
	const struct item *items = filling->inventory->items;
	size_t count = docket->piece_count;
	return count == 1 || items[docket->pieces[count - 1].item].vessel !=
				 items[docket->pieces[count - 2].item].vessel;
}

static void
fill_dockets(struct filling *filling)
{
	size_t pieces = 0;
	for (size_t at = 0; at < filling->count;) {
		const struct trip *trip = filling->entries[at].trip;
		struct docket *docket = &filling->dockets[filling->docket_count++];
		*docket = (struct docket){.station = trip->name,
		    .hand_in = trip->hand_in,
		    .collect = trip->collect,
		    .pieces = &filling->pieces[pieces]};
		while (at < filling->count &&
		       compare_trips(filling->entries[at].trip, trip) == 0) {
			at = add_piece(filling, at, docket, &filling->pieces[pieces++]);
			docket->piece_count++;
			docket->vessel_count += is_next_vessel(filling, docket);
		}
	}
}

bool
dockets_make(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct arena *arena, struct dockets *out, struct fault *fault)
{
	size_t lines = count_lines(lists, count);
	struct entry *entries = arena_alloc(arena, (lines + 1) * sizeof *entries);
	struct filling filling = {
	    .inventory = inventory,
	    .entries = entries,
	    .count = lines,
	    .dockets = arena_alloc(arena, (lines + 1) * sizeof *filling.dockets),
	    .pieces = arena_alloc(arena, (lines + 1) * sizeof *filling.pieces),
	    .lines = arena_alloc(arena, (lines + 1) * sizeof *filling.lines),
	};
	if (entries == NULL || filling.dockets == NULL || filling.pieces == NULL ||
	    filling.lines == NULL) {
		return fault_memory(fault);
	}
	fill_entries(inventory, lists, count, entries);
	if (lines > 1) {
		qsort(entries, lines, sizeof *entries, compare_entries);
	}
	fill_dockets(&filling);
	*out = (struct dockets){filling.dockets, filling.docket_count};
	return true;
}
