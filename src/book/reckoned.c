/* The dates as last reckoned. */
#include "book/reckoned.h"

#include "base/words.h"
#include "book/batch.h"

#include <stdlib.h>
#include <string.h>

bool
book_load_reckoned_by(
    struct book *book, struct arena *arena, struct reckoned_by *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	*out = (struct reckoned_by){0};
	if (!call_open(book, RECKONED_BY, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return fault_prefix(fault, "reading by what dates were reckoned");
	}
	if (!row) {
		return true;
	}
	out->last = take_int(&call);
	struct word_list sheets = {0};
	if (!take_null(&call) &&
	    !words_cut(arena, take_text(&call, arena), &sheets, fault)) {
		return fault_prefix(fault, "reading which sheets are followed");
	}
	out->sheets = (const char *const *)sheets.items;
	out->sheet_count = sheets.count;
	if (!take_null(&call)) {
		out->figures = take_text(&call, arena);
		out->meanings = (int)take_int(&call);
		out->entry = take_int(&call);
	}
	return true;
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

static void
take_touched(struct call *call, struct arena *arena, void *out)
{
	struct touched_vessel *vessel = out;
	vessel->name = take_text(call, arena);
	vessel->there = take_int(call) != 0;
}

bool
book_touched_since(struct book *book, int64_t entry, struct arena *arena,
    const struct touched_vessel **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, RECKONED_TOUCHED, &call, fault)) {
		return false;
	}
	give_int(&call, entry);
	return call_rows(
		   &call, arena, take_touched, sizeof **out, out, count_out, fault) ||
	       fault_prefix(fault, "reading what was written since");
}

/* The dates kept of one vessel's gear, by tag and the task's word. */
static bool
load_of(struct book *book, const char *vessel, struct arena *arena,
    const struct reckoned **out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, RECKONED_OF, &call, fault)) {
		return false;
	}
	give_text(&call, vessel);
	return call_rows(&call, arena, take_row, sizeof **out, out, count_out, fault);
}

static bool
is_same(const struct reckoned *a, const struct reckoned *b)
{
	return a->due == b->due && a->good_through == b->good_through &&
	       a->state == b->state && strcmp(a->vessel, b->vessel) == 0 &&
	       strcmp(a->rule, b->rule) == 0 && strcmp(a->sheet, b->sheet) == 0;
}

/* By vessel, tag and task. */
static int
compare_rows(const void *a, const void *b)
{
	const struct reckoned *left = *(const struct reckoned *const *)a;
	const struct reckoned *right = *(const struct reckoned *const *)b;
	int order = strcmp(left->vessel, right->vessel);
	order = order != 0 ? order : strcmp(left->tag, right->tag);
	return order != 0
		   ? order
		   : (int)(left->task > right->task) - (int)(left->task < right->task);
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

/* The first of them that is not of a vessel before this one. */
static size_t
first_of(const struct ordered *all, const char *vessel)
{
	size_t first = 0;
	size_t end = all->count;
	while (first < end) {
		size_t middle = first + (end - first) / 2;
		if (strcmp(all->rows[middle]->vessel, vessel) < 0) {
			first = middle + 1;
		} else {
			end = middle;
		}
	}
	return first;
}

/* Those of one vessel. */
static struct ordered
rows_of(const struct ordered *all, const char *vessel)
{
	size_t first = first_of(all, vessel);
	size_t last = first;
	while (last < all->count && strcmp(all->rows[last]->vessel, vessel) == 0) {
		last++;
	}
	return (struct ordered){all->rows + first, last - first};
}

/* The row of the same task of the same item; NULL for none. */
static const struct reckoned *
find_row(const struct ordered *among, const struct reckoned *of)
{
	const struct reckoned *const *found =
	    bsearch(&of, among->rows, among->count, sizeof *among->rows, compare_rows);
	return found == NULL ? NULL : *found;
}

/* Drops the kept dates of what is no longer asked, or no longer hers. */
static bool
drop_gone(struct book *book, const struct ordered *old, const struct ordered *now,
    struct fault *fault)
{
	SCOPED_CALL drop = {0};
	if (!call_open(book, RECKONED_ROW_DROP, &drop, fault)) {
		return false;
	}
	for (size_t i = 0; i < old->count; i++) {
		if (find_row(now, old->rows[i]) != NULL) {
			continue;
		}
		give_text(&drop, old->rows[i]->vessel);
		give_text(&drop, old->rows[i]->tag);
		give_code(&drop, &TASK_CODES, old->rows[i]->task);
		if (!call_run(&drop, fault)) {
			return false;
		}
	}
	return true;
}

/* What is kept of a boat that is in the book no longer goes. */
static bool
drop_vessel(struct book *book, const char *vessel, struct fault *fault)
{
	SCOPED_CALL drop = {0};
	if (!call_open(book, RECKONED_DROP, &drop, fault)) {
		return false;
	}
	give_text(&drop, vessel);
	return call_run(&drop, fault);
}

static bool
put_vessel(struct book *book, const char *vessel, day_t seen, struct fault *fault)
{
	SCOPED_CALL put = {0};
	if (!call_open(book, RECKONED_VESSEL_PUT, &put, fault)) {
		return false;
	}
	give_text(&put, vessel);
	give_day(&put, seen);
	return call_run(&put, fault);
}

static bool
put_row(struct batch *batch, const struct reckoned *row, struct fault *fault)
{
	struct call *add = NULL;
	if (!batch_row(batch, &add, fault)) {
		return false;
	}
	give_text(add, row->vessel);
	give_text(add, row->tag);
	give_code(add, &TASK_CODES, row->task);
	give_day(add, row->due);
	give_day(add, row->good_through);
	give_code(add, &STATE_CODES, row->state);
	give_text(add, row->rule);
	give_text(add, row->sheet);
	return batch_add(batch, fault);
}

/* Keeps what is another of a vessel than was kept: most of it is as it was. */
static bool
put_hers(struct batch *batch, const char *vessel, const struct ordered *now,
    struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	const struct reckoned *kept = NULL;
	size_t count = 0;
	if (!load_of(batch->book, vessel, &arena, &kept, &count, fault)) {
		return false;
	}
	const struct ordered old = in_order(kept, count, &arena);
	if (!drop_gone(batch->book, &old, now, fault)) {
		return false;
	}
	for (size_t i = 0; i < now->count; i++) {
		const struct reckoned *was = find_row(&old, now->rows[i]);
		if ((was == NULL || !is_same(was, now->rows[i])) &&
		    !put_row(batch, now->rows[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
put_vessels(struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	static const struct batch_kind ROWS = BATCH_KIND(RECKONED);

	SCOPED_ARENA arena = {0};
	SCOPED_BATCH batch = {.book = book, .kind = &ROWS};
	const struct ordered now = in_order(change->rows, change->row_count, &arena);
	for (size_t i = 0; i < change->vessel_count; i++) {
		const char *vessel = change->vessels[i].name;
		const struct ordered hers = rows_of(&now, vessel);
		bool put = change->vessels[i].there
			       ? put_vessel(book, vessel, change->seen, fault) &&
				     put_hers(&batch, vessel, &hers, fault)
			       : drop_vessel(book, vessel, fault);
		if (!put) {
			return false;
		}
	}
	return batch_move(&batch, fault);
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
	SCOPED_STEP step = {0};
	return (step_begin(book, &step, fault) &&
		   (!change->all || call_plain(book, RECKONED_DROP_ALL, fault)) &&
		   put_vessels(book, change, fault) && put_by(book, change, fault) &&
		   step_keep(&step, fault)) ||
	       fault_prefix(fault, "keeping the dates reckoned");
}
