/* The dates as last reckoned. */
#include "book/reckoned.h"

#include "base/numbers.h"
#include "base/words.h"
#include "book/rows.h"

#include <stdlib.h>
#include <string.h>

/* The first columns of each row, which say the same in all of them. */
static bool
take_by(
    struct call *call, struct arena *arena, struct reckoned_by *out, struct fault *fault)
{
	struct word_list sheets = {0};
	out->news = take_int(call) != 0;
	if (!take_null(call) &&
	    !words_cut(arena, take_text(call, arena), &sheets, fault)) {
		return fault_prefix(fault, "reading which sheets are followed");
	}
	out->sheets = (const char *const *)sheets.items;
	out->sheet_count = sheets.count;
	if (take_null(call)) {
		out->figures = NULL;
		(void)take_int(call);
		return true;
	}
	out->figures = take_text(call, arena);
	out->meanings = (int)take_int(call);
	return true;
}

struct touched_vessels {
	struct touched_vessel *items; /* in an arena */
	size_t count;
	size_t capacity;
};

bool
book_load_reckoned_by(
    struct book *book, struct arena *arena, struct reckoned_by *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct touched_vessels touched = {0};
	bool row = false;
	*out = (struct reckoned_by){0};
	if (!call_open(book, RECKONED_BY, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		if (!take_by(&call, arena, out, fault)) {
			return false;
		}
		if (take_null(&call)) {
			continue;
		}
		ARENA_ROOM(arena, &touched);
		struct touched_vessel *vessel = &touched.items[touched.count++];
		vessel->name = take_text(&call, arena);
		vessel->there = take_int(&call) != 0;
	}
	out->touched = touched.items;
	out->touched_count = touched.count;
	return !row || fault_prefix(fault, "reading by what dates were reckoned");
}

static void
take_vessel(struct call *call, struct arena *arena, void *out)
{
	struct reckoned_vessel *vessel = out;
	vessel->name = take_text(call, arena);
	vessel->seen = take_day(call);
}

static void
take_row(struct call *call, struct arena *arena, void *out)
{
	struct reckoned *row = out;
	row->vessel = take_text(call, arena);
	row->tag = take_text(call, arena);
	row->task = (enum task)take_code(call, &TASK_CODES);
	row->due = take_day(call);
	row->good_through = take_day(call);
	row->state = (enum state)take_code(call, &STATE_CODES);
	row->rule = take_text(call, arena);
	row->sheet = take_text(call, arena);
}

bool
book_load_reckoned(struct book *book, struct arena *arena, struct reckoned_dates *out,
    struct fault *fault)
{
	SCOPED_CALL vessels = {0};
	SCOPED_CALL rows = {0};
	return (call_open(book, LOAD_RECKONED_VESSELS, &vessels, fault) &&
		   call_rows(&vessels, arena, take_vessel, sizeof *out->vessels,
		       &out->vessels, &out->vessel_count, fault) &&
		   call_open(book, LOAD_RECKONED, &rows, fault) &&
		   call_rows(&rows, arena, take_row, sizeof *out->rows, &out->rows,
		       &out->row_count, fault)) ||
	       fault_prefix(fault, "reading the dates last reckoned");
}

/* The dates kept of these vessels' gear. */
static bool
load_of(struct book *book, const struct touched_vessel *vessels, size_t vessel_count,
    struct arena *arena, const struct reckoned **out, size_t *count_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	const char **names = arena_alloc(arena, (vessel_count + 1) * sizeof *names);
	for (size_t i = 0; i < vessel_count; i++) {
		names[i] = vessels[i].name;
	}
	if (!call_open(book, RECKONED_OF, &call, fault)) {
		return false;
	}
	give_words(&call, names, vessel_count);
	return call_rows(&call, arena, take_row, sizeof **out, out, count_out, fault);
}

static bool
is_same(const struct reckoned *a, const struct reckoned *b)
{
	return a->due == b->due && a->good_through == b->good_through &&
	       a->state == b->state && strcmp(a->vessel, b->vessel) == 0 &&
	       strcmp(a->rule, b->rule) == 0 && strcmp(a->sheet, b->sheet) == 0;
}

/* By tag and task, which no two rows have in common. */
static int
compare_rows(const void *a, const void *b)
{
	const struct reckoned *left = *(const struct reckoned *const *)a;
	const struct reckoned *right = *(const struct reckoned *const *)b;
	int order = strcmp(left->tag, right->tag);
	return ORDER_THEN(order, left->task, right->task);
}

/* Rows in the order of compare_rows. */
struct ordered {
	const struct reckoned **rows;
	size_t count;
};

static struct ordered
in_order(const struct reckoned *rows, size_t count, struct arena *arena)
{
	const struct reckoned **order =
	    arena_alloc(arena, (count + 1) * sizeof(const struct reckoned *));
	for (size_t i = 0; i < count; i++) {
		order[i] = &rows[i];
	}
	qsort(order, count, sizeof *order, compare_rows);
	return (struct ordered){order, count};
}

/* The row of the same task of the same item; NULL for none. */
static const struct reckoned *
find_row(const struct ordered *among, const struct reckoned *of)
{
	const struct reckoned *const *found =
	    bsearch(&of, among->rows, among->count, sizeof *among->rows, compare_rows);
	return found == NULL ? NULL : *found;
}

/* Drops the kept dates of tasks that are no longer asked for, and of gear no longer in
 * the book. */
static bool
drop_gone(struct book *book, const struct ordered *old, const struct ordered *now,
    struct fault *fault)
{
	SCOPED_ROW_LIST gone = {0};
	for (size_t i = 0; i < old->count; i++) {
		if (find_row(now, old->rows[i]) == NULL) {
			row_list_row(&gone);
			row_list_text(&gone, old->rows[i]->tag);
			row_list_text(&gone, TASK_CODES.words[old->rows[i]->task]);
		}
	}
	return row_list_run(&gone, book, RECKONED_ROWS_DROP, fault);
}

static void
list_row(struct row_list *list, const struct reckoned *row)
{
	row_list_row(list);
	row_list_text(list, row->vessel);
	row_list_text(list, row->tag);
	row_list_text(list, TASK_CODES.words[row->task]);
	row_list_int(list, stored_day(row->due));
	row_list_int(list, stored_day(row->good_through));
	row_list_text(list, STATE_CODES.words[row->state]);
	row_list_text(list, row->rule);
	row_list_text(list, row->sheet);
}

/* Puts a row by a statement of its own, which costs a third of what it does in a list. */
static bool
put_row(struct book *book, const struct reckoned *row, struct fault *fault)
{
	SCOPED_CALL put = {0};
	if (!call_open(book, RECKONED_ROW_PUT, &put, fault)) {
		return false;
	}
	give_text(&put, row->vessel);
	give_text(&put, row->tag);
	give_code(&put, &TASK_CODES, row->task);
	give_day(&put, row->due);
	give_day(&put, row->good_through);
	give_code(&put, &STATE_CODES, row->state);
	give_text(&put, row->rule);
	give_text(&put, row->sheet);
	return call_run(&put, fault);
}

/* Keeps what differs from what was kept: most of it is as it was. The first of them,
 * which are all there are after an act on a few pieces, go as one list. */
static bool
put_rows(struct book *book, const struct ordered *old, const struct ordered *now,
    struct fault *fault)
{
	SCOPED_ROW_LIST rows = {0};
	if (!drop_gone(book, old, now, fault)) {
		return false;
	}
	for (size_t i = 0; i < now->count; i++) {
		const struct reckoned *was = find_row(old, now->rows[i]);
		bool same = was != NULL && is_same(was, now->rows[i]);
		if (!same && rows.count < ROWS_IN_LIST) {
			list_row(&rows, now->rows[i]);
		} else if (!same && !put_row(book, now->rows[i], fault)) {
			return false;
		}
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
	const struct reckoned *kept = NULL;
	size_t count = 0;
	bool asks = !change->all && change->vessel_count > 0;
	if (!put_vessels(book, change, fault) ||
	    (asks && !load_of(book, change->vessels, change->vessel_count, &arena, &kept,
			 &count, fault))) {
		return false;
	}
	const struct ordered old = in_order(kept, count, &arena);
	const struct ordered now = in_order(change->rows, change->row_count, &arena);
	return put_rows(book, &old, &now, fault);
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
	return ((!change->all || call_plain(book, RECKONED_DROP_ALL, fault)) &&
		   put_dates(book, change, fault) &&
		   (change->figures == NULL || put_by(book, change, fault))) ||
	       fault_prefix(fault, "keeping the dates reckoned");
}
