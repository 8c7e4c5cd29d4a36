/* Keeping the dates as last reckoned. */
#include "base/memory.h"
#include "base/numbers.h"
#include "book/reckoned.h"
#include "book/rows.h"

#include <stdlib.h>
#include <string.h>

/* ---- the dates of an item ---- */

/* An item as it is kept; in an arena. */
struct kept_item {
	const char *tag;
	const char *vessel;
	const char *dates; /* as the schema has them */
};

struct kept_items {
	struct kept_item *items; /* by tag */
	size_t count;
	size_t capacity;
};

static void
add_word(struct text *dates, const char *word)
{
	text_add(dates, word);
	text_add(dates, RECKONED_END);
}

static void
add_day(struct text *dates, day_t day)
{
	char digits[] = "00000000" RECKONED_END;
	int64_t stored = stored_day(day);
	if (stored == 0) {
		add_word(dates, "0");
		return;
	}
	(void)digits_put(digits, stored, 8);
	text_add_bytes(dates, digits, sizeof digits - 1);
}

static void
add_date(struct text *dates, const struct reckoned *row)
{
	add_word(dates, TASK_CODES.words[row->task]);
	add_day(dates, row->due);
	add_day(dates, row->good_through);
	add_word(dates, STATE_CODES.words[row->state]);
	add_word(dates, row->rule);
	add_word(dates, row->sheet);
}

static struct kept_item
take_item(struct call *call, struct arena *arena)
{
	struct kept_item item = {0};
	item.tag = take_text(call, arena);
	item.vessel = take_text(call, arena);
	item.dates = take_text(call, arena);
	return item;
}

/* ---- writing ---- */

/* The dates kept of these vessels' gear. */
static bool
load_of(struct book *book, const struct reckoned_change *change, struct arena *arena,
    struct kept_items *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = !change->all && !change->none_kept && change->vessel_count > 0;
	if (!row) {
		return true;
	}
	const char **names = arena_alloc(arena, change->vessel_count * sizeof *names);
	for (size_t i = 0; i < change->vessel_count; i++) {
		names[i] = change->vessels[i].name;
	}
	if (!call_open(book, RECKONED_OF, &call, fault)) {
		return false;
	}
	give_words(&call, names, change->vessel_count);
	while (call_row(&call, &row, fault) && row) {
		ARENA_ADD(arena, out, take_item(&call, arena));
	}
	return !row;
}

static int
compare_tags(const void *a, const void *b)
{
	const struct kept_item *left = a;
	const struct kept_item *right = b;
	return strcmp(left->tag, right->tag);
}

/* Puts the dates of each item together. */
static void
gather(const struct reckoned_change *change, struct arena *arena, struct kept_items *out)
{
	SCOPED_TEXT dates = {0};
	for (size_t i = 0; i < change->row_count;) {
		const struct reckoned *first = &change->rows[i];
		text_reset(&dates);
		do {
			add_date(&dates, &change->rows[i++]);
		} while (i < change->row_count &&
			 strcmp(change->rows[i].tag, first->tag) == 0);
		ARENA_ADD(arena, out,
		    (struct kept_item){first->tag, first->vessel,
			arena_string(arena, text_string(&dates))});
	}
	ARRAY_SORT(out->items, out->count, compare_tags);
}

/* What is kept of the same item; NULL for nothing. */
static const struct kept_item *
find_item(const struct kept_items *among, const struct kept_item *of)
{
	return among->count == 0 ? NULL
				 : bsearch(of, among->items, among->count,
				       sizeof *among->items, compare_tags);
}

/* Drops what is kept of gear that has no dates any more, and of gear no longer in the
 * book. */
static bool
drop_gone(struct book *book, const struct reckoned_change *change,
    const struct kept_items *old, const struct kept_items *now, struct fault *fault)
{
	SCOPED_ROW_LIST gone = {0};
	for (size_t i = 0; i < old->count; i++) {
		if (find_item(now, &old->items[i]) == NULL) {
			row_list_row(&gone);
			row_list_text(&gone, old->items[i].tag);
		}
	}
	for (size_t i = 0; !change->all && i < change->gone_count; i++) {
		row_list_row(&gone);
		row_list_text(&gone, change->gone[i]);
	}
	return row_list_run(&gone, book, RECKONED_ROWS_DROP, fault);
}

/* Puts ROWS_MANY items by one statement. */
static bool
put_many(struct book *book, const struct kept_item *items, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open_many(book, RECKONED_ROW_PUT, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < ROWS_MANY; i++) {
		give_text(&call, items[i].tag);
		give_text(&call, items[i].vessel);
		give_text(&call, items[i].dates);
	}
	return call_run(&call, fault);
}

/* Those that differ from what was kept: most of it is as it was. */
static void
gather_differing(const struct kept_items *old, const struct kept_items *now,
    struct arena *arena, struct kept_items *out)
{
	for (size_t i = 0; i < now->count; i++) {
		const struct kept_item *item = &now->items[i];
		const struct kept_item *was = find_item(old, item);
		if (was == NULL || strcmp(was->vessel, item->vessel) != 0 ||
		    strcmp(was->dates, item->dates) != 0) {
			ARENA_ADD(arena, out, *item);
		}
	}
}

/* Keeps items. Few, which are all there are after an act on a few pieces, go as one list, in
 * which a row costs three times as much. */
static bool
put_items(struct book *book, const struct kept_items *items, struct fault *fault)
{
	SCOPED_ROW_LIST rows = {0};
	size_t next = 0;
	while (items->count > ROWS_IN_LIST && next + ROWS_MANY <= items->count) {
		if (!put_many(book, &items->items[next], fault)) {
			return false;
		}
		next += ROWS_MANY;
	}
	for (; next < items->count; next++) {
		row_list_row(&rows);
		row_list_text(&rows, items->items[next].tag);
		row_list_text(&rows, items->items[next].vessel);
		row_list_text(&rows, items->items[next].dates);
	}
	return row_list_run(&rows, book, RECKONED_ROWS_PUT, fault);
}

/* Notes the day for which they were reckoned; what is kept of a boat that is in the book no longer
 * goes. */
static bool
put_vessels(struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	SCOPED_ROW_LIST there = {0};
	SCOPED_ROW_LIST gone = {0};
	for (size_t i = 0; i < change->vessel_count; i++) {
		struct row_list *list = change->vessels[i].there ? &there : &gone;
		row_list_row(list);
		row_list_text(list, change->vessels[i].name);
		row_list_int(list, stored_day(change->seen));
	}
	return row_list_run(&gone, book, RECKONED_VESSELS_DROP, fault) &&
	       row_list_run(&there, book, RECKONED_VESSELS_PUT, fault);
}

static bool
put_dates(struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct kept_items old = {0};
	struct kept_items now = {0};
	struct kept_items differing = {0};
	if (!put_vessels(book, change, fault) ||
	    !load_of(book, change, &arena, &old, fault)) {
		return false;
	}
	gather(change, &arena, &now);
	gather_differing(&old, &now, &arena, &differing);
	return drop_gone(book, change, &old, &now, fault) &&
	       put_items(book, &differing, fault);
}

static bool
put_by(struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, RECKONED_BY_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, change->figures);
	give_int(&call, change->meanings);
	return call_run(&call, fault);
}

bool
book_put_reckoned(
    struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	return ((!change->all ||
		    (call_plain(book, RECKONED_DROP_ALL, fault) &&
			call_plain(book, RECKONED_VESSELS_DROP_ALL, fault))) &&
		   put_dates(book, change, fault) &&
		   (change->figures == NULL || put_by(book, change, fault))) ||
	       fault_prefix(fault, "keeping the dates reckoned");
}
