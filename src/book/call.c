#include "book/call.h"

#include "base/memory.h"
#include "base/text.h"

#include <assert.h>
#include <string.h>

bool
call_open(struct book *book, enum statement statement, struct call *call_out,
    struct fault *fault)
{
	const struct statement_text *text = statement_text(statement);
	struct prepared **prepared = &book->statements[statement];
	assert(book->reading == NULL);
	if (*prepared == NULL) {
		*prepared = database_prepare(book->database, text->sql, true);
	}
	if (*prepared == NULL) {
		return database_fault(book->database, fault);
	}
	*call_out = (struct call){
	    .book = book, .prepared = *prepared, .rows = text->rows, .text = text->sql};
	return true;
}

bool
call_open_text(
    struct book *book, const char *sql, struct call *call_out, struct fault *fault)
{
	assert(book->reading == NULL);
	struct prepared *prepared = database_prepare(book->database, sql, false);
	if (prepared == NULL) {
		return database_fault(book->database, fault);
	}
	*call_out = (struct call){.book = book,
	    .prepared = prepared,
	    .own = true,
	    .rows = ROWS_ANY,
	    .text = sql};
	return true;
}

bool
call_open_kept(
    struct book *book, const char *sql, struct call *call_out, struct fault *fault)
{
	assert(book->reading == NULL);
	if (book->kept_one == NULL || strcmp(text_string(&book->kept_text), sql) != 0) {
		prepared_drop(book->kept_one);
		book->kept_one = database_prepare(book->database, sql, true);
		text_reset(&book->kept_text);
		text_add(&book->kept_text, sql);
	}
	if (book->kept_one == NULL) {
		return database_fault(book->database, fault);
	}
	*call_out = (struct call){.book = book,
	    .prepared = book->kept_one,
	    .rows = ROWS_ANY,
	    .text = text_string(&book->kept_text)};
	return true;
}

void
add_quoted(struct text *sql, const char *name)
{
	text_add_byte(sql, '"');
	for (const char *at = name; *at != '\0'; at++) {
		text_add_byte(sql, *at);
		if (*at == '"') {
			text_add_byte(sql, '"');
		}
	}
	text_add_byte(sql, '"');
}

/* Ends a run; values can be given anew. */
static void
end_run(struct call *call)
{
	if (call->running) {
		prepared_reset(call->prepared);
	}
	if (call->book->reading == call) {
		call->book->reading = NULL;
	}
	call->running = false;
	call->given = 0;
	if (call->copies.first != NULL) {
		arena_reset(&call->copies);
	}
}

void
call_close(struct call *call)
{
	if (call->prepared == NULL) {
		return;
	}
	end_run(call);
	if (call->copies.first != NULL) {
		arena_clear(&call->copies);
	}
	if (call->own) {
		prepared_drop(call->prepared);
	}
	call->prepared = NULL;
}

static inline struct value *
next_value(struct call *call)
{
	assert(call->prepared != NULL && !call->running);
	assert(call->given < call->prepared->count);
	return &call->prepared->values[call->given++];
}

void
give_text(struct call *call, const char *text)
{
	size_t length = text == NULL ? 0 : strlen(text);
	if (call->trouble == CALL_FINE && text != NULL && !utf8_valid(text, length)) {
		call->trouble = CALL_BAD_UTF8;
	}
	*next_value(call) =
	    (struct value){.held = text == NULL ? HELD_NOTHING : HELD_TEXT,
		.bytes = text,
		.length = length};
}

void
give_copy(struct call *call, const char *text)
{
	give_text(call, arena_string(&call->copies, text));
}

void
give_int(struct call *call, int64_t value)
{
	*next_value(call) = (struct value){.held = HELD_INTEGER, .number = value};
}

void
give_null(struct call *call)
{
	*next_value(call) = (struct value){0};
}

void
give_bytes(struct call *call, const void *bytes, size_t length)
{
	*next_value(call) =
	    (struct value){.held = bytes == NULL ? HELD_NOTHING : HELD_BYTES,
		.bytes = bytes,
		.length = length};
}

void
give_day(struct call *call, day_t day)
{
	give_int(call, stored_day(day));
}

void
give_code(struct call *call, const struct codes *codes, unsigned value)
{
	assert(value < (unsigned)codes->count);
	give_text(call, codes->words[value]);
}

void
give_codes(struct call *call, const struct codes *codes, unsigned set)
{
	SCOPED_TEXT words = {0};
	assert(set >> codes->count == 0);
	for (int i = 0; i < codes->count; i++) {
		if ((set & 1U << i) != 0) {
			text_add_format(&words, "%s%s", words.length == 0 ? "" : " ",
			    codes->words[i]);
		}
	}
	give_copy(call, text_string(&words));
}

void
give_stamp(struct call *call, const struct stamp *stamp)
{
	if (stamp == NULL) {
		give_null(call);
		give_null(call);
		give_null(call);
		return;
	}
	bool known = stamp->precision != STAMP_NONE;
	give_int(call, stored_stamp(*stamp));
	give_int(call, known ? (int64_t)stamp->wording : 0);
	give_int(call, known && stamp->estimated);
}

static bool
trouble_tell(struct call *call, struct fault *fault)
{
	switch (call->trouble) {
	case CALL_FINE:
		return true;
	case CALL_BAD_UTF8:
		return fault_set(fault, FAULT_INPUT, "a text is not valid UTF-8");
	case CALL_BAD_VALUE:
		return fault_set(fault, FAULT_BOOK,
		    "the book holds a value that makes no sense (column %s)",
		    prepared_column(call->prepared, call->bad_column));
	}
	return false;
}

/* At the end of a statement: whether it changed as many rows as it promises. */
static bool
count_fits(const struct call *call, struct fault *fault)
{
	int64_t changed = database_changes_last(call->book->database);
	int least = 0;
	int most = 1;
	switch (call->rows) {
	case ROWS_READ:
	case ROWS_ANY:
		return true;
	case ROWS_ONE:
		least = 1;
		break;
	case ROWS_ONE_AT_MOST:
		break;
	case ROWS_LISTED:
		least = call->listed;
		most = call->listed;
		break;
	case ROWS_LISTED_AT_MOST:
		most = call->listed;
		break;
	}
	return (changed >= least && changed <= most) ||
	       fault_set(fault, FAULT_BOOK,
		   "%lld rows changed where %s%d should have: \"%.40s...\"; nothing of it is "
		   "kept, and \"becket book check\" looks the book over",
		   (long long)changed, least < most ? "at most " : "", most, call->text);
}

/* Gives the values at the first step. */
static enum stepped
step(struct call *call)
{
	if (!call->running) {
		assert(call->given == call->prepared->count);
		call->running = true;
		if (!prepared_give(call->prepared)) {
			return STEPPED_FAILED;
		}
	}
	return prepared_step(call->prepared);
}

bool
call_row(struct call *call, bool *row_out, struct fault *fault)
{
	assert(call->book != NULL && call->prepared != NULL);
	assert(call->book->reading == NULL || call->book->reading == call);
	if (!trouble_tell(call, fault)) {
		return false;
	}
	enum stepped stepped = step(call);
	if (stepped == STEPPED_FAILED) {
		/* the hook may have reported rows that were then taken back */
		call->book->spoilt = call->book->spoilt || call->book->told.listens;
		return database_fault(call->book->database, fault);
	}
	call->taken = 0;
	*row_out = stepped == STEPPED_ROW;
	call->book->reading = *row_out ? call : NULL;
	return *row_out || count_fits(call, fault);
}

bool
call_run(struct call *call, struct fault *fault)
{
	bool row = true;
	while (row) {
		if (!call_row(call, &row, fault)) {
			return false;
		}
	}
	end_run(call);
	return true;
}

bool
call_run_changed(struct call *call, int64_t *changed_out, struct fault *fault)
{
	if (!call_run(call, fault)) {
		return false;
	}
	*changed_out = database_changes_last(call->book->database);
	return true;
}

bool
call_rows(struct call *call, struct arena *arena, row_taker *take, size_t size,
    void *items_out, size_t *count_out, struct fault *fault)
{
	char *items = NULL;
	size_t capacity = 0;
	size_t count = 0;
	bool row = true;
	for (;;) {
		if (!call_row(call, &row, fault)) {
			return false;
		}
		if (!row) {
			break;
		}
		arena_reserve(arena, &items, &capacity, size, count + 1);
		take(call, arena, items + size * count++);
	}
	memcpy(items_out, &items, sizeof items);
	*count_out = count;
	return true;
}

bool
call_plain(struct book *book, enum statement statement, struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, statement, &call, fault) && call_run(&call, fault);
}

bool
call_id(struct book *book, enum statement statement, const char *text, int64_t *id_out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, statement, &call, fault)) {
		return false;
	}
	give_text(&call, text);
	bool row = false;
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*id_out = row ? take_int(&call) : 0;
	return true;
}

bool
call_number(
    struct book *book, enum statement statement, int64_t *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, statement, &call, fault) || !call_row(&call, &row, fault)) {
		return false;
	}
	*out = row ? take_int(&call) : 0;
	return true;
}
