/* Keeping the dates as last reckoned. */
#include "base/memory.h"
#include "base/numbers.h"
#include "base/spool.h"
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
	size_t length; /* of what waits: vessel and dates, one behind the other, with the
			    * zeros at their ends; 0 for what is kept already */
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
	text_add_byte(dates, RECKONED_END[0]);
}

static void
word_day(day_t day, char digits[9])
{
	int64_t stored = stored_day(day);
	(void)memcpy(digits, "0", 2);
	if (stored != 0) {
		*digits_put(digits, stored, 8) = '\0';
	}
}

/* The day due and the last day in date, which most often are the same. */
static void
add_days(struct text *dates, const struct reckoned *row)
{
	char digits[9];
	word_day(row->due, digits);
	add_word(dates, digits);
	if (row->good_through != row->due) {
		word_day(row->good_through, digits);
	}
	add_word(dates, digits);
}

static void
add_date(struct text *dates, const struct reckoned *row)
{
	add_word(dates, TASK_CODES.words[row->task]);
	add_days(dates, row);
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
	SCOPED_TEXT all = {0};
	for (size_t i = 0; i < change->row_count;) {
		const struct reckoned *first = &change->rows[i];
		size_t dates = strlen(first->vessel) + 1;
		text_reset(&all);
		text_add_bytes(&all, first->vessel, dates);
		do {
			add_date(&all, &change->rows[i++]);
		} while (i < change->row_count &&
			 strcmp(change->rows[i].tag, first->tag) == 0);
		size_t length = all.length + 1;
		char *kept = arena_alloc(arena, length);
		memcpy(kept, text_string(&all), length);
		ARENA_ADD(arena, out,
		    (struct kept_item){first->tag, kept, kept + dates, length});
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

/* Leaves those that differ from what was kept: most of it is as it was. */
static void
leave_differing(const struct kept_items *old, struct kept_items *now)
{
	size_t count = 0;
	for (size_t i = 0; i < now->count; i++) {
		const struct kept_item *item = &now->items[i];
		const struct kept_item *was = find_item(old, item);
		if (was == NULL || strcmp(was->vessel, item->vessel) != 0 ||
		    strcmp(was->dates, item->dates) != 0) {
			now->items[count++] = *item;
		}
	}
	now->count = count;
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

/* ---- by tag, some at a time ---- */

/* So many items that wait are put at once. */
enum { ITEMS_AT_ONCE = 10 * ROWS_MANY };

/* Has items wait, which are by tag. */
static void
have_wait(struct runs *waiting, const struct kept_items *items)
{
	for (size_t i = 0; i < items->count; i++) {
		const struct kept_item *item = &items->items[i];
		runs_add(waiting, &(struct run_piece){.bytes = item->vessel,
				      .length = item->length,
				      .word = item->tag});
	}
	runs_end(waiting);
}

/* The putting of what waits. */
struct put_waiting {
	struct book *book;
	struct arena arena;
	struct kept_items items; /* that come next; in the arena */
	struct fault *fault;
	bool failed;
};

static void
put_next(struct put_waiting *putting)
{
	putting->failed = !put_items(putting->book, &putting->items, putting->fault);
	putting->items = (struct kept_items){0};
	arena_reset(&putting->arena);
}

static void
take_waiting(const struct run_piece *piece, void *context)
{
	struct put_waiting *putting = context;
	if (putting->failed) {
		return;
	}
	size_t word = strlen(piece->word) + 1;
	size_t vessel = strlen(piece->bytes) + 1;
	char *kept = arena_alloc(&putting->arena, word + piece->length);
	memcpy(kept, piece->word, word);
	memcpy(kept + word, piece->bytes, piece->length);
	ARENA_ADD(&putting->arena, &putting->items,
	    (struct kept_item){kept, kept + word, kept + word + vessel, piece->length});
	if (putting->items.count == ITEMS_AT_ONCE) {
		put_next(putting);
	}
}

/* Puts all that waits by tag, which is how the table has it. */
static bool
put_waiting(struct book *book, const struct runs *waiting, struct fault *fault)
{
	struct put_waiting putting = {.book = book, .fault = fault};
	bool put =
	    waiting == NULL ||
	    (runs_merge(waiting, take_waiting, &putting, fault) && !putting.failed);
	if (put) {
		put_next(&putting);
	}
	arena_clear(&putting.arena);
	return put && !putting.failed;
}

/* ---- all that is told ---- */

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
	if (!put_vessels(book, change, fault) ||
	    !load_of(book, change, &arena, &old, fault)) {
		return false;
	}
	gather(change, &arena, &now);
	if (!drop_gone(book, change, &old, &now, fault)) {
		return false;
	}
	leave_differing(&old, &now);
	if (change->waiting == NULL) {
		return put_items(book, &now, fault);
	}
	have_wait(change->waiting, &now);
	return true;
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
		   (change->figures == NULL ||
		       (put_waiting(book, change->waiting, fault) &&
			   put_by(book, change, fault)))) ||
	       fault_prefix(fault, "keeping the dates reckoned");
}
