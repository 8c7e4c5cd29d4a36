#include "base/memory.h"
#include "base/numbers.h"
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"
#include "exchange/inventory_csv.h"
#include "exchange/tag_index.h"
#include "life/serials.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The book's items by vessel and kind, and which of them a row has been given. */
struct candidate {
	const char *vessel;
	const char *kind;
	size_t item;
	bool given;
};

struct tag_finding {
	const struct inventory *inventory; /* borrowed, as all but what is owned */
	struct csv_rows *rows;
	struct csv_rows found; /* owned: the rows with their tags, where any had none */
	struct complaints complaints; /* owned */
	struct tag_index index;       /* owned: the tags in the book */
	struct numbers numbers;       /* owned */
	struct candidate *items;      /* owned */
	bool *in_file;                /* owned: of each item of the book */
	struct csv_digests bearers;   /* owned: of rows with a serial and no tag */
	struct csv_places lone;       /* owned: of parts whose whole is nowhere */
	struct arena words;           /* owned: of the row at hand */
};

static void
finding_clear(struct tag_finding *finding)
{
	complaints_clear(&finding->complaints);
	tag_index_clear(&finding->index);
	numbers_clear(&finding->numbers);
	free(finding->items);
	free(finding->in_file);
	csv_rows_clear(&finding->found);
	csv_digests_clear(&finding->bearers);
	free(finding->lone.items);
	arena_clear(&finding->words);
}

static int
by_vessel_and_kind(const void *a, const void *b)
{
	const struct candidate *x = a;
	const struct candidate *y = b;
	int order = strcmp(x->vessel, y->vessel);
	return order != 0 ? order : strcmp(x->kind, y->kind);
}

static int
by_vessel_kind_item(const void *a, const void *b)
{
	const struct candidate *x = a;
	const struct candidate *y = b;
	int order = by_vessel_and_kind(a, b);
	return order != 0 ? order : (x->item > y->item) - (x->item < y->item);
}

/* Notes what must be known of all rows before one of them can be given a tag. */
static bool
look_over(struct csv_row *row, void *context, struct fault *fault)
{
	struct tag_finding *finding = context;
	const struct item_change *change = &row->change;
	(void)fault;
	if (*change->part_of != '\0' &&
	    tag_index_find(&finding->index, change->part_of) == ITEM_NO_PARENT) {
		csv_digests_add(&finding->rows->tags, &change->part_of, 1, row->at, true);
	}
	if (change->tag == NULL) {
		const char *const words[] = {
		    change->vessel, change->kind, change->serial};
		if (row->tag_made && *change->serial != '\0') {
			csv_digests_add(&finding->bearers, words, 3, row->at, false);
		}
		return true;
	}
	size_t at = tag_index_find(&finding->index, change->tag);
	if (at != ITEM_NO_PARENT) {
		finding->in_file[at] = true;
	}
	return numbers_count(&finding->numbers, change->tag);
}

static bool
finding_make(struct tag_finding *finding, struct fault *fault)
{
	const struct inventory *inventory = finding->inventory;
	finding->items = memory_zeroed(inventory->item_count + 1, sizeof *finding->items);
	finding->in_file =
	    memory_zeroed(inventory->item_count + 1, sizeof *finding->in_file);
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		finding->items[i] =
		    (struct candidate){.vessel = inventory->vessels[item->vessel].name,
			.kind = item->kind,
			.item = i};
	}
	qsort(finding->items, inventory->item_count, sizeof *finding->items,
	    by_vessel_kind_item);
	tag_index_make(inventory, &finding->index);
	return csv_rows_each(finding->rows, look_over, finding, fault) &&
	       numbers_count_book(&finding->numbers, inventory);
}

/* True when a row could be about this item: the same serial, or where there is none the
 * same description, place and dates, as far as the row has them. */
static bool
is_about(const struct tag_finding *finding, const struct item_change *change, size_t item)
{
	static const enum item_field TELLING[] = {FIELD_DESCRIPTION, FIELD_PLACE,
	    FIELD_MADE, FIELD_PACKED, FIELD_BOUGHT, FIELD_FITTED, FIELD_EXPIRES};
	struct item_change old = item_as_change(finding->inventory, item);
	if (*change->serial != '\0' || *old.serial != '\0') {
		return strcmp(change->serial, old.serial) == 0;
	}
	for (size_t i = 0; i < sizeof TELLING / sizeof TELLING[0]; i++) {
		if ((change->set & 1U << TELLING[i]) != 0 &&
		    !field_same(&ITEM_FIELDS[TELLING[i]], change, &old)) {
			return false;
		}
	}
	return true;
}

/* The first candidate of the row's vessel and kind. */
static size_t
first_candidate(const struct tag_finding *finding, const struct item_change *change)
{
	struct candidate wanted = {.vessel = change->vessel, .kind = change->kind};
	size_t low = 0;
	size_t high = finding->inventory->item_count;
	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (by_vessel_and_kind(&finding->items[middle], &wanted) < 0) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low;
}

/* The item in the book that a row without a tag is about; NULL when it is a new one. */
static struct candidate *
find_candidate(struct tag_finding *finding, const struct item_change *change)
{
	struct candidate wanted = {.vessel = change->vessel, .kind = change->kind};
	for (size_t i = first_candidate(finding, change);
	     i < finding->inventory->item_count; i++) {
		struct candidate *candidate = &finding->items[i];
		if (by_vessel_and_kind(candidate, &wanted) != 0) {
			return NULL;
		}
		if (!candidate->given && !finding->in_file[candidate->item] &&
		    is_about(finding, change, candidate->item)) {
			return candidate;
		}
	}
	return NULL;
}

static bool
give_tag(struct tag_finding *finding, struct csv_row *row)
{
	struct candidate *candidate = find_candidate(finding, &row->change);
	if (candidate == NULL) {
		return numbers_next(&finding->numbers, row->change.kind, &finding->words,
		    &row->change.tag);
	}
	row->change.tag = finding->inventory->items[candidate->item].tag;
	size_t other = serial_shared_with(finding->inventory, candidate->item);
	if (*row->change.serial != '\0' && other != ITEM_NO_PARENT) {
		complain(&finding->complaints, row->line, "column serial",
		    "\"%.60s\" is that of %.60s and of %.60s, pieces of one lot; a tag "
		    "must say which",
		    row->change.serial, row->change.tag,
		    finding->inventory->items[other].tag);
	}
	candidate->given = true;
	return true;
}

/* Complains of what is missing of an item that is new to the book. */
static void
check_new(struct tag_finding *finding, const struct csv_row *row)
{
	const struct item_change *change = &row->change;
	if (tag_index_find(&finding->index, change->tag) != ITEM_NO_PARENT) {
		return;
	}
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (field->needed && (change->set & 1U << i) == 0) {
			char column[64];
			(void)snprintf(column, sizeof column, "column %s", field->name);
			complain(&finding->complaints, row->line, column,
			    "it is blank, and %.60s is not in the book%s", change->tag,
			    i == FIELD_KIND ? "; where another column says what things "
					      "are: --map \"HEADER=kind\""
					    : "");
		}
	}
}

static void
check_parent(struct tag_finding *finding, const struct csv_row *row)
{
	const char *parent = row->change.part_of;
	if (strcmp(parent, row->change.tag) == 0) {
		complain(&finding->complaints, row->line, "column part_of",
		    "%.60s would be a part of itself", parent);
	} else if (csv_places_have(&finding->lone, row->at)) {
		complain(&finding->complaints, row->line, "column part_of",
		    "\"%.60s\" is no tag in the book or in this file", parent);
	}
}

static int
compare_identity(const struct csv_row *a, const struct csv_row *b)
{
	int order = strcmp(a->change.vessel, b->change.vessel);
	order = order != 0 ? order : strcmp(a->change.kind, b->change.kind);
	return order != 0 ? order : strcmp(a->change.serial, b->change.serial);
}

static int
by_identity(const void *a, const void *b)
{
	const struct csv_row *x = a;
	const struct csv_row *y = b;
	return ORDER_THEN(compare_identity(x, y), x->at, y->at);
}

/* Complains of a serial that two rows without tags of one vessel and kind share. */
static void
check_bearers(struct csv_row *rows, size_t count, void *context)
{
	struct tag_finding *finding = context;
	ARRAY_SORT(rows, count, by_identity);
	for (size_t i = 1; i < count; i++) {
		if (compare_identity(&rows[i - 1], &rows[i]) == 0) {
			complain(&finding->complaints, rows[i].line, "column serial",
			    "%.60s is in line %zu already; give the rows different tags",
			    rows[i].change.serial, rows[i - 1].line);
		}
	}
}

static bool
settle_tag(struct csv_row *row, void *context, struct fault *fault)
{
	struct tag_finding *finding = context;
	(void)fault;
	arena_reset(&finding->words);
	if (row->change.tag == NULL && !give_tag(finding, row)) {
		return false;
	}
	if (!row->further) {
		check_new(finding, row);
		check_parent(finding, row);
	}
	if (finding->rows->untagged) {
		csv_rows_add(&finding->found, row);
	}
	return true;
}

static bool
find_all(struct tag_finding *finding, const char *name, struct fault *fault)
{
	return finding_make(finding, fault) &&
	       csv_rows_without_whole(finding->rows, &finding->lone, fault) &&
	       csv_rows_alike(
		   finding->rows, &finding->bearers, check_bearers, finding, fault) &&
	       csv_rows_each(finding->rows, settle_tag, finding, fault) &&
	       complaints_none(&finding->complaints, name, fault);
}

/* Has the rows with their tags take the place of those without. */
static void
hand_over(struct tag_finding *finding)
{
	struct csv_rows *rows = finding->rows;
	if (rows->untagged) {
		finding->found.notes = rows->notes;
		finding->found.complaints = rows->complaints;
		finding->found.served_cell = rows->served_cell;
		finding->found.tells_refits = rows->tells_refits;
		rows->notes = (struct text){0};
		csv_rows_clear(rows);
		*rows = finding->found;
		finding->found = (struct csv_rows){0};
	}
	csv_digests_clear(&rows->tags);
}

bool
csv_find_tags(const char *name, struct csv_rows *rows, const struct inventory *inventory,
    struct arena *arena, struct fault *fault)
{
	struct tag_finding finding = {.inventory = inventory,
	    .rows = rows,
	    .complaints = {.arena = arena, .all = rows->complaints}};
	bool done = find_all(&finding, name, fault);
	if (done) {
		hand_over(&finding);
	}
	finding_clear(&finding);
	return done;
}
