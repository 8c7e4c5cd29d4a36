#include "winter/dockets.h"

#include "winter/shore.h"

#include <string.h>

/* Something to be put into a docket: a line of a trip, or an item that is ashore. */
struct docket_entry {
	const char *station;
	bool assumed;
	day_t day;
	day_t collect;
	size_t piece;                  /* the item it is handed over as, or with */
	const struct shore_line *line; /* NULL for what is ashore */
};

/* Entries of the same docket compare as equal. */
static int
compare_dockets(const struct docket_entry *left, const struct docket_entry *right)
{
	int order = ORDER(left->day, right->day);
	return order != 0 ? order : strcmp(left->station, right->station);
}

/* The item's own lines before its parts', then by item and task. */
static int
compare_lines(const struct docket_entry *left, const struct docket_entry *right)
{
	const struct shore_line *a = left->line;
	const struct shore_line *b = right->line;
	if (a == NULL || b == NULL) {
		return 0;
	}
	int order = ORDER(a->item != left->piece, b->item != right->piece);
	return ORDER_THEN(ORDER_THEN(order, a->item, b->item), a->task, b->task);
}

static int
compare_entries(const void *left, const void *right)
{
	const struct docket_entry *a = left;
	const struct docket_entry *b = right;
	int order = ORDER_THEN(compare_dockets(a, b), a->piece, b->piece);
	return order != 0 ? order : compare_lines(a, b);
}

/* The dockets being filled; there is room for one docket and one piece for each entry. */
struct docket_filling {
	const struct inventory *inventory;
	struct docket_entry *entries;
	size_t count;
	struct docket *dockets;
	size_t docket_count;
	struct docket_piece *pieces;
	const struct shore_line **lines;
};

static void
make_room(struct docket_filling *filling, size_t count, struct arena *arena)
{
	filling->entries = ARENA_MANY(arena, struct docket_entry, count);
	filling->dockets = ARENA_MANY(arena, struct docket, count);
	filling->pieces = ARENA_MANY(arena, struct docket_piece, count);
	filling->lines =
	    arena_alloc(arena, (count + 1) * sizeof(const struct shore_line *));
}

/* Adds the piece that begins with entry `at`; returns the entry after its last. */
static size_t
add_piece(struct docket_filling *filling, size_t at, struct docket *docket,
    struct docket_piece *piece)
{
	const struct docket_entry *first = &filling->entries[at];
	*piece =
	    (struct docket_piece){.item = first->piece, .lines = &filling->lines[at]};
	for (; at < filling->count; at++) {
		const struct docket_entry *entry = &filling->entries[at];
		if (compare_dockets(entry, first) != 0 || entry->piece != first->piece) {
			break;
		}
		docket->collect = day_max(docket->collect, entry->collect);
		docket->assumed = docket->assumed || entry->assumed;
		if (entry->line != NULL) {
			filling->lines[at] = entry->line;
			piece->line_count++;
			piece->own_count += entry->line->item == entry->piece;
		}
	}
	return at;
}

/* True when the piece belongs to another vessel than the one before it. */
static bool
is_next_vessel(const struct docket_filling *filling, const struct docket *docket)
{
	const struct item *items = filling->inventory->items;
	size_t count = docket->piece_count;
	return count == 1 || items[docket->pieces[count - 1].item].vessel !=
				 items[docket->pieces[count - 2].item].vessel;
}

/* How many pieces the entries from `first` to before `end` are about; when `whole`,
 * without the parts that are handed over inside others. */
static size_t
count_pieces(const struct docket_filling *filling, size_t first, size_t end, bool whole)
{
	SCOPED_ARENA arena = {0};
	struct shore_lines lines = {0};
	for (size_t i = first; i < end; i++) {
		const struct docket_entry *entry = &filling->entries[i];
		size_t item = entry->line == NULL ? entry->piece : entry->line->item;
		if (!whole || item == entry->piece) {
			ARENA_ADD(&arena, &lines, (struct shore_line){.item = item});
		}
	}
	return shore_pieces(filling->inventory, &lines);
}

/* Cuts the entries, in their order, into dockets and pieces. */
static void
fill_dockets(struct docket_filling *filling, struct dockets *out)
{
	size_t pieces = 0;
	ARRAY_SORT(filling->entries, filling->count, compare_entries);
	for (size_t at = 0; at < filling->count;) {
		size_t begin = at;
		const struct docket_entry *first = &filling->entries[at];
		struct docket *docket = &filling->dockets[filling->docket_count++];
		*docket = (struct docket){.station = first->station,
		    .landed = first->line == NULL,
		    .hand_in = first->day,
		    .collect = first->collect,
		    .pieces = &filling->pieces[pieces]};
		while (at < filling->count &&
		       compare_dockets(&filling->entries[at], first) == 0) {
			at = add_piece(filling, at, docket, &filling->pieces[pieces++]);
			docket->piece_count++;
			docket->vessel_count += is_next_vessel(filling, docket);
		}
		docket->count = count_pieces(filling, begin, at, false);
		docket->inside = docket->count - count_pieces(filling, begin, at, true);
	}
	*out = (struct dockets){filling->dockets, filling->docket_count};
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
add_trip(struct docket_filling *filling, const struct trip *trip)
{
	for (size_t i = 0; i < trip->lines.count && !trip->held_back; i++) {
		const struct shore_line *line = &trip->lines.items[i];
		/* a part is handed over with its parent, where the parent is on the
		 * same trip */
		size_t parent = filling->inventory->items[line->item].parent;
		bool together =
		    line->with_parent && shore_lines_have(&trip->lines, parent);
		filling->entries[filling->count++] = (struct docket_entry){
		    .station = trip->name,
		    .assumed = trip->assumed,
		    .day = trip->hand_in,
		    .collect = trip->collect,
		    .piece = together ? parent : line->item,
		    .line = line,
		};
	}
}

void
dockets_make(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct arena *arena, struct dockets *out)
{
	struct docket_filling filling = {.inventory = inventory};
	make_room(&filling, count_lines(lists, count), arena);
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i].hand_in.count; j++) {
			add_trip(&filling, &lists[i].hand_in.items[j]);
		}
	}
	fill_dockets(&filling, out);
}

/* True when the item is ashore as a part of the one that a line is about. */
static bool
lies_with(const struct inventory *inventory, size_t item, const struct ashore_line *line)
{
	const struct item *items = inventory->items;
	size_t at = items[item].parent;
	while (at != ITEM_NO_PARENT && at != line->item) {
		at = items[at].parent;
	}
	return at == line->item && items[item].state == PLACE_LANDED &&
	       strcmp(items[item].landed_to, line->station) == 0;
}

/* Adds the item of a line and, each as a piece, its parts that lie there with it. */
static void
add_landed(struct docket_filling *filling, const struct ashore_line *line)
{
	const struct inventory *inventory = filling->inventory;
	size_t vessel = inventory->items[line->item].vessel;
	size_t first = line->item;
	while (first > 0 && inventory->items[first - 1].vessel == vessel) {
		first--;
	}
	for (size_t i = first;
	     i < inventory->item_count && inventory->items[i].vessel == vessel; i++) {
		if (i == line->item || lies_with(inventory, i, line)) {
			filling->entries[filling->count++] = (struct docket_entry){
			    .station = line->station,
			    .assumed = line->assumed,
			    .day = line->since,
			    .collect = line->collect,
			    .piece = i,
			};
		}
	}
}

void
dockets_landed(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct arena *arena, struct dockets *out)
{
	struct docket_filling filling = {.inventory = inventory};
	/* each item belongs to one line at most */
	make_room(&filling, inventory->item_count, arena);
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < lists[i].ashore.count; j++) {
			add_landed(&filling, &lists[i].ashore.items[j]);
		}
	}
	fill_dockets(&filling, out);
}
