/* The dates as last reckoned. */
#include "book/reckoned.h"

#include "book/call.h"

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
	if (row) {
		out->figures = take_text(&call, arena);
		out->meanings = (int)take_int(&call);
		out->entry = take_int(&call);
	}
	return true;
}

static void
take_name(struct call *call, struct arena *arena, void *out)
{
	*(const char **)out = take_text(call, arena);
}

bool
book_followed_sheets(struct book *book, struct arena *arena, const char *const **out,
    size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return (call_open(book, FOLLOWED_SHEETS, &call, fault) &&
		   call_rows(
		       &call, arena, take_name, sizeof **out, out, count_out, fault)) ||
	       fault_prefix(fault, "reading which sheets are followed");
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

static bool
load_all(struct book *book, enum statement statement, row_taker *take, size_t size,
    struct arena *arena, void *out, size_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return (call_open(book, statement, &call, fault) &&
		   call_rows(&call, arena, take, size, out, count_out, fault)) ||
	       fault_prefix(fault, "reading the dates last reckoned");
}

bool
book_load_reckoned(struct book *book, struct arena *arena, struct reckoned_dates *out,
    struct fault *fault)
{
	return load_all(book, LOAD_RECKONED_VESSELS, take_vessel, sizeof *out->vessels,
		   arena, &out->vessels, &out->vessel_count, fault) &&
	       load_all(book, LOAD_RECKONED, take_row, sizeof *out->rows, arena,
		   &out->rows, &out->row_count, fault);
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

/* Drops what was kept of a vessel's gear, and keeps that it is kept anew. */
static bool
put_vessels(struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	SCOPED_CALL drop = {0};
	SCOPED_CALL add = {0};
	if (!call_open(book, RECKONED_DROP, &drop, fault) ||
	    !call_open(book, RECKONED_VESSEL_ADD, &add, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->vessel_count; i++) {
		give_text(&drop, change->vessels[i].name);
		if (!call_run(&drop, fault)) {
			return false;
		}
		if (!change->vessels[i].there) {
			continue;
		}
		give_text(&add, change->vessels[i].name);
		give_day(&add, change->seen);
		if (!call_run(&add, fault)) {
			return false;
		}
	}
	return true;
}

static bool
put_rows(struct book *book, const struct reckoned_change *change, struct fault *fault)
{
	SCOPED_CALL add = {0};
	if (!call_open(book, RECKONED_ADD, &add, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->row_count; i++) {
		const struct reckoned *row = &change->rows[i];
		give_text(&add, row->vessel);
		give_text(&add, row->tag);
		give_code(&add, &TASK_CODES, row->task);
		give_day(&add, row->due);
		give_day(&add, row->good_through);
		give_code(&add, &STATE_CODES, row->state);
		give_text(&add, row->rule);
		give_text(&add, row->sheet);
		if (!call_run(&add, fault)) {
			return false;
		}
	}
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
	SCOPED_STEP step = {0};
	return (step_begin(book, &step, fault) &&
		   (!change->all || call_plain(book, RECKONED_DROP_ALL, fault)) &&
		   put_vessels(book, change, fault) && put_rows(book, change, fault) &&
		   put_by(book, change, fault) && step_keep(&step, fault)) ||
	       fault_prefix(fault, "keeping the dates reckoned");
}
