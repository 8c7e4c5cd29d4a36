/* Keeping the dates of gear that was just written by the rows it was written from: reading it all
 * back would take longer than reckoning with it. */
#include "base/numbers.h"
#include "base/spool.h"
#include "base/text.h"
#include "desk/reckoning.h"
#include "exchange/csv_rows.h"
#include "exchange/tag_index.h"

#include <stdlib.h>
#include <string.h>

/* So many bytes of rows are read at once. */
enum { ROWS_AT_ONCE = 256 * 1024 };

struct rows_reckoning {
	struct desk *desk;
	const struct reckoned_change *whole;
	struct reckoned_change change; /* what is kept next */
	bool *kept;                    /* of each vessel of the whole */
};

/* Marks a vessel as kept, and gives her name; NULL for one that is not to be kept, or has been. */
static const char *
mark_kept(struct rows_reckoning *reckoning, const char *name)
{
	const struct reckoned_change *whole = reckoning->whole;
	const struct touched_vessel *found =
	    touched_find(whole->vessels, whole->vessel_count, name);
	size_t at = found == NULL ? 0 : (size_t)(found - whole->vessels);
	if (found == NULL || !found->there || reckoning->kept[at]) {
		return NULL;
	}
	reckoning->kept[at] = true;
	return found->name;
}

/* Gathers the vessels of some rows, those of each of which stand together. */
static bool
gather_vessels(struct rows_reckoning *reckoning, const struct csv_batch *rows,
    const char **names, struct book_part *part)
{
	part->vessels = names;
	for (size_t i = 0; i < rows->count; i++) {
		const char *name = rows->items[i].change.vessel;
		if (i > 0 && strcmp(name, rows->items[i - 1].change.vessel) == 0) {
			continue;
		}
		names[part->vessel_count] = mark_kept(reckoning, name);
		if (names[part->vessel_count++] == NULL) {
			return false;
		}
	}
	return true;
}

static int
compare_vessels(const void *key, const void *element)
{
	return strcmp(key, ((const struct vessel *)element)->name);
}

/* Fills items in from rows; a vessel that is not loaded is FAULT_INPUT. As load_item.c has them of
 * the book. */
static bool
fill_items(const struct csv_batch *rows, const struct inventory *inventory,
    struct item *items, struct fault *fault)
{
	for (size_t i = 0; i < rows->count; i++) {
		const struct csv_row *row = &rows->items[i];
		const struct vessel *vessel = bsearch(row->change.vessel,
		    inventory->vessels, inventory->vessel_count,
		    sizeof *inventory->vessels, compare_vessels);
		if (vessel == NULL) {
			return fault_set(fault, FAULT_INPUT, "no vessel of the row's");
		}
		items[i] = (struct item){.id = (int64_t)i + 1,
		    .vessel = (size_t)(vessel - inventory->vessels),
		    .tag = row->change.tag,
		    .values = row->change.values,
		    .split_from = "",
		    .parent = ITEM_NO_PARENT,
		    .records = &row->record,
		    .record_count = row->has_record ? 1 : 0,
		    .past_records = &row->record};
	}
	return true;
}

static int
compare_items(const void *a, const void *b)
{
	const struct item *x = a;
	const struct item *y = b;
	int order = ORDER(x->vessel, y->vessel);
	order = order != 0 ? order : text_compare_natural(x->tag, y->tag);
	return order != 0 ? order : strcmp(x->tag, y->tag);
}

/* Ties parts to their wholes; false where one is on another vessel. */
static bool
tie_parts(
    const struct csv_batch *rows, const struct inventory *inventory, struct item *items)
{
	SCOPED_TAG_INDEX index = {0};
	bool tied = true;
	tag_index_make(inventory, &index);
	for (size_t i = 0; tied && i < rows->count; i++) {
		const struct item_change *change = &rows->items[i].change;
		if (*change->part_of == '\0') {
			continue;
		}
		size_t part = tag_index_find(&index, change->tag);
		size_t whole = tag_index_find(&index, change->part_of);
		tied =
		    whole != ITEM_NO_PARENT && items[whole].vessel == items[part].vessel;
		items[part].parent = whole;
	}
	return tied;
}

/* Puts the gear of rows where it would be had it been loaded; in the desk's arena. */
static bool
take_rows(struct desk *loaded, const struct csv_batch *rows, struct fault *fault)
{
	struct inventory *inventory = &loaded->contents.inventory;
	struct item *items = ARENA_MANY(&loaded->arena, struct item, rows->count);
	if (!fill_items(rows, inventory, items, fault)) {
		return false;
	}
	ARRAY_SORT(items, rows->count, compare_items);
	inventory->items = items;
	inventory->item_count = rows->count;
	return tie_parts(rows, inventory, items);
}

/* Keeps the dates of what is loaded, whose vessels are all that are kept now. */
static bool
keep_loaded(struct rows_reckoning *reckoning, struct desk *loaded, struct fault *fault)
{
	const struct inventory *inventory = &loaded->contents.inventory;
	struct reckoned_change *change = &reckoning->change;
	struct touched_vessel *vessels =
	    ARENA_MANY(&loaded->arena, struct touched_vessel, inventory->vessel_count);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		vessels[i] = (struct touched_vessel){inventory->vessels[i].name, true};
	}
	change->vessels = vessels;
	change->vessel_count = inventory->vessel_count;
	bool done = engine_of_open_book(loaded, NULL, fault) &&
		    reckoning_put_loaded(reckoning->desk, loaded, change, fault);
	change->none_kept = change->none_kept || change->all;
	change->all = false;
	return done;
}

/* Keeps the dates of some rows, which are all of their vessels'. */
static bool
keep_rows(
    struct rows_reckoning *reckoning, const struct csv_batch *rows, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct book_part part = {
	    .reach = REACH_ALONE, .without_stations = true, .without_gear = true};
	struct desk loaded = reckoning_desk_on(reckoning->desk, &part);
	bool done = gather_vessels(reckoning, rows,
			ARENA_MANY(&arena, const char *, rows->count), &part) &&
		    load_open_book(&loaded, NULL, true, fault) &&
		    loaded.contents.inventory.vessel_count == part.vessel_count &&
		    take_rows(&loaded, rows, fault) &&
		    keep_loaded(reckoning, &loaded, fault);
	reckoning_desk_clear(&loaded, reckoning->desk);
	return done;
}

/* How many of the rows read are those of vessels that have no more of them: all at the end of the
 * list, else those before the last vessel's. */
static size_t
whole_vessels(const struct csv_batch *rows)
{
	size_t count = rows->count;
	if (count == 0 || rows->next == rows->rows->packed.length) {
		return count;
	}
	const char *last = rows->items[--count].change.vessel;
	while (count > 0 && strcmp(rows->items[count - 1].change.vessel, last) == 0) {
		count--;
	}
	return count;
}

/* Keeps the dates of all rows, some vessels at a time. */
static bool
keep_all_rows(struct rows_reckoning *reckoning, struct fault *fault)
{
	const struct csv_rows *rows = reckoning->desk->written;
	size_t at_once = ROWS_AT_ONCE;
	for (size_t from = 0; from < rows->packed.length;) {
		SCOPED_BATCH batch = {.rows = rows, .next = from, .at_once = at_once};
		if (!csv_batch_next(&batch, fault)) {
			return false;
		}
		size_t read = batch.count;
		batch.count = whole_vessels(&batch);
		if (batch.count == 0) {
			at_once *= 2;
			continue;
		}
		if (!keep_rows(reckoning, &batch, fault)) {
			return false;
		}
		from = batch.count < read ? batch.items[batch.count].at
					  : rows->packed.length;
		at_once = ROWS_AT_ONCE;
	}
	return true;
}

bool
reckoning_put_rows(
    struct desk *desk, const struct reckoned_change *change, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	SCOPED_RUNS waiting = {0};
	struct rows_reckoning reckoning = {.desk = desk,
	    .whole = change,
	    .change = *change,
	    .kept = ARENA_MANY(&arena, bool, change->vessel_count)};
	struct touched_vessel *others =
	    ARENA_MANY(&arena, struct touched_vessel, change->vessel_count);
	size_t count = 0;
	reckoning.change.figures = NULL;
	reckoning.change.gone_count = 0;
	reckoning.change.waiting = &waiting;
	if (!keep_all_rows(&reckoning, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->vessel_count; i++) {
		if (!reckoning.kept[i]) {
			others[count++] = change->vessels[i];
		}
	}
	struct reckoned_change last = *change;
	last.all = reckoning.change.all;
	last.none_kept = reckoning.change.none_kept;
	last.waiting = &waiting;
	last.vessels = others;
	last.vessel_count = count;
	return reckoning_put_loaded(desk, NULL, &last, fault);
}
