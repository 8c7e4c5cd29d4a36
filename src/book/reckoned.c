/* The dates as last reckoned. */
#include "book/reckoned.h"

#include "base/words.h"
#include "book/rows.h"

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

/* Takes a vessel that was touched, and a tag of hers that is gone: she has a row for
 * each, and perhaps one without. */
static void
take_touched(struct call *call, struct arena *arena, struct touched_vessels *touched,
    struct word_list *gone)
{
	const char *name = take_text(call, arena);
	bool there = take_int(call) != 0;
	const char *tag = take_text(call, arena);
	const struct touched_vessel *last =
	    touched->count == 0 ? NULL : &touched->items[touched->count - 1];
	if (last == NULL || strcmp(last->name, name) != 0) {
		ARENA_ADD(arena, touched, (struct touched_vessel){name, there});
	}
	if (tag[0] != '\0') {
		ARENA_ADD(arena, gone, tag);
	}
}

bool
book_load_reckoned_by(
    struct book *book, struct arena *arena, struct reckoned_by *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct touched_vessels touched = {0};
	struct word_list gone = {0};
	bool row = false;
	*out = (struct reckoned_by){0};
	if (!call_open(book, RECKONED_BY, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		if (!take_by(&call, arena, out, fault)) {
			return false;
		}
		if (!take_null(&call)) {
			take_touched(&call, arena, &touched, &gone);
		}
	}
	out->touched = touched.items;
	out->touched_count = touched.count;
	out->gone = (const char *const *)gone.items;
	out->gone_count = gone.count;
	return !row || fault_prefix(fault, "reading by what dates were reckoned");
}

/* ---- the dates of an item ---- */

/* Takes the next value, which `*out` has without its end; false where there is none. */
static bool
take_word(const char **at, struct value *out)
{
	size_t length = strcspn(*at, RECKONED_END);
	*out = (struct value){.held = HELD_TEXT, .bytes = *at, .length = length};
	if ((*at)[length] == '\0') {
		return false;
	}
	*at += length + 1;
	return true;
}

static bool
take_day_of(const char **at, day_t *out)
{
	struct value word = {0};
	int64_t stored = 0;
	bool sound = take_word(at, &word) && word.length >= 1 && word.length <= 8;
	for (size_t i = 0; sound && i < word.length; i++) {
		sound = word.bytes[i] >= '0' && word.bytes[i] <= '9';
		stored = stored * 10 + (word.bytes[i] - '0');
	}
	return sound && day_of_stored(stored, out);
}

static bool
take_code_of(const char **at, const struct codes *codes, int *out)
{
	struct value word = {0};
	bool taken = take_word(at, &word);
	*out = taken ? code_of(codes, word.bytes, word.length) : -1;
	return *out >= 0;
}

/* Takes the next of an item's dates. */
static bool
take_date(const char **at, struct arena *arena, struct reckoned *out)
{
	struct value rule = {0};
	struct value sheet = {0};
	int task = 0;
	int state = 0;
	if (!take_code_of(at, &TASK_CODES, &task) || !take_day_of(at, &out->due) ||
	    !take_day_of(at, &out->good_through) ||
	    !take_code_of(at, &STATE_CODES, &state) || !take_word(at, &rule) ||
	    !take_word(at, &sheet)) {
		return false;
	}
	out->task = (enum task)task;
	out->state = (enum state)state;
	out->rule = value_text(&rule, arena);
	out->sheet = value_text(&sheet, arena);
	return true;
}

static void
take_vessel(struct call *call, struct arena *arena, void *out)
{
	struct reckoned_vessel *vessel = out;
	vessel->name = take_text(call, arena);
	vessel->seen = take_day(call);
}

struct dates_read {
	struct reckoned *items; /* in an arena */
	size_t count;
	size_t capacity;
};

static bool
take_dates(
    struct call *call, struct arena *arena, struct dates_read *out, struct fault *fault)
{
	const char *tag = take_text(call, arena);
	const char *vessel = take_text(call, arena);
	const char *at = take_text(call, arena);
	while (*at != '\0') {
		struct reckoned row = {.tag = tag, .vessel = vessel};
		if (!take_date(&at, arena, &row)) {
			return fault_set(fault, FAULT_BOOK,
			    "the dates kept of %.60s make no sense", tag);
		}
		ARENA_ADD(arena, out, row);
	}
	return true;
}

static bool
load_rows(struct book *book, struct arena *arena, struct reckoned_dates *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct dates_read dates = {0};
	bool row = true;
	if (!call_open(book, LOAD_RECKONED, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		if (!take_dates(&call, arena, &dates, fault)) {
			return false;
		}
	}
	out->rows = dates.items;
	out->row_count = dates.count;
	return !row;
}

bool
book_load_reckoned(struct book *book, struct arena *arena, struct reckoned_dates *out,
    struct fault *fault)
{
	SCOPED_CALL vessels = {0};
	return (call_open(book, LOAD_RECKONED_VESSELS, &vessels, fault) &&
		   call_rows(&vessels, arena, take_vessel, sizeof *out->vessels,
		       &out->vessels, &out->vessel_count, fault) &&
		   load_rows(book, arena, out, fault)) ||
	       fault_prefix(fault, "reading the dates last reckoned");
}
