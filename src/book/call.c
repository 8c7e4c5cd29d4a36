#include "book/call.h"

#include "base/memory.h"
#include "base/text.h"

#include <assert.h>
#include <errno.h>
#include <string.h>

static const char NO_ROOM[] = "there is no room left on the disk; nothing was written";

bool
call_found_no_room(sqlite3 *db)
{
	int error = sqlite3_system_errno(db);
	return error == ENOSPC || error == EDQUOT;
}

bool
call_fault(sqlite3 *db, struct fault *fault)
{
	switch (sqlite3_errcode(db)) {
	case SQLITE_NOMEM:
		memory_ended();
	case SQLITE_BUSY:
		return fault_set(fault, FAULT_BOOK,
		    "another program is writing to the book and did not finish "
		    "within 5 seconds");
	case SQLITE_READONLY:
		return fault_set(fault, FAULT_BOOK, "the book can't be written");
	case SQLITE_FULL:
		return fault_set(fault, FAULT_BOOK, "%s", NO_ROOM);
	case SQLITE_IOERR:
		if (call_found_no_room(db)) {
			return fault_set(fault, FAULT_BOOK, "%s", NO_ROOM);
		}
		return fault_set(fault, FAULT_BOOK, "%s (%s)", sqlite3_errmsg(db),
		    strerror(sqlite3_system_errno(db)));
	case SQLITE_CORRUPT:
		return fault_set(fault, FAULT_BOOK,
		    "the file is damaged; restore a backup with \"becket book restore "
		    "FILE\"");
	case SQLITE_NOTADB:
		return fault_set(fault, FAULT_BOOK, "the file is no book");
	default:
		return fault_set(fault, FAULT_BOOK, "%s", sqlite3_errmsg(db));
	}
}

bool
call_open(struct book *book, enum statement statement, struct call *call_out,
    struct fault *fault)
{
	sqlite3_stmt **stmt = &book->statements[statement];
	if (*stmt == NULL && sqlite3_prepare_v3(book->db, STATEMENTS[statement], -1,
				 SQLITE_PREPARE_PERSISTENT, stmt, NULL) != SQLITE_OK) {
		return call_fault(book->db, fault);
	}
	*call_out = (struct call){.book = book, .stmt = *stmt, .statement = statement};
	return true;
}

void
call_close(struct call *call)
{
	if (call->stmt != NULL) {
		(void)sqlite3_reset(call->stmt);
		(void)sqlite3_clear_bindings(call->stmt);
	}
	call->stmt = NULL;
}

static void
trouble_set(struct call *call, enum call_trouble trouble)
{
	if (call->trouble == CALL_FINE) {
		call->trouble = trouble;
	}
}

/* The value last taken, which fills so many columns, makes no sense. */
static void
bad_value(struct call *call, int columns)
{
	if (call->trouble == CALL_FINE) {
		call->trouble = CALL_BAD_VALUE;
		call->bad_column = call->taken - columns;
	}
}

static void
bound(struct call *call, int result)
{
	if (result == SQLITE_NOMEM) {
		memory_ended();
	} else if (result != SQLITE_OK) {
		trouble_set(call, CALL_BAD_BIND);
	}
}

void
give_text(struct call *call, const char *text)
{
	if (text != NULL && !utf8_valid(text, strlen(text))) {
		trouble_set(call, CALL_BAD_UTF8);
	}
	bound(
	    call, sqlite3_bind_text(call->stmt, ++call->given, text, -1, SQLITE_STATIC));
}

void
give_copy(struct call *call, const char *text)
{
	give_text(call, text);
	bound(
	    call, sqlite3_bind_text(call->stmt, call->given, text, -1, SQLITE_TRANSIENT));
}

void
give_int(struct call *call, int64_t value)
{
	bound(call, sqlite3_bind_int64(call->stmt, ++call->given, value));
}

void
give_null(struct call *call)
{
	bound(call, sqlite3_bind_null(call->stmt, ++call->given));
}

void
give_bytes(struct call *call, const void *bytes, size_t length)
{
	bound(call,
	    sqlite3_bind_blob64(call->stmt, ++call->given, bytes, length, SQLITE_STATIC));
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
	case CALL_BAD_BIND:
		return call_fault(call->book->db, fault);
	case CALL_BAD_VALUE:
		return fault_set(fault, FAULT_BOOK,
		    "the book holds a value that makes no sense (column %s)",
		    sqlite3_column_name(call->stmt, call->bad_column));
	}
	return false;
}

/* At the end of a statement: whether it changed as many rows as it says. */
static bool
count_fits(const struct call *call, struct fault *fault)
{
	int changed = sqlite3_changes(call->book->db);
	int least = 0;
	int most = 1;
	switch (STATEMENT_ROWS[call->statement]) {
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
		   "%d rows changed where %s%d should have: \"%.40s...\"; nothing of it is "
		   "kept, and \"becket book check\" looks the book over",
		   changed, least < most ? "at most " : "", most,
		   STATEMENTS[call->statement]);
}

bool
call_row(struct call *call, bool *row_out, struct fault *fault)
{
	assert(call->book != NULL && call->stmt != NULL);
	assert(call->given == sqlite3_bind_parameter_count(call->stmt));
	if (!trouble_tell(call, fault)) {
		return false;
	}
	int result = sqlite3_step(call->stmt);
	if (result != SQLITE_ROW && result != SQLITE_DONE) {
		/* it may have told of rows that it then took back */
		call->book->spoilt = call->book->spoilt || call->book->told.wants != NULL;
		return call_fault(call->book->db, fault);
	}
	call->taken = 0;
	*row_out = result == SQLITE_ROW;
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
	(void)sqlite3_reset(call->stmt);
	(void)sqlite3_clear_bindings(call->stmt);
	call->given = 0;
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

int64_t
take_int(struct call *call)
{
	return sqlite3_column_int64(call->stmt, call->taken++);
}

const char *
take_text(struct call *call, struct arena *arena)
{
	const unsigned char *text = sqlite3_column_text(call->stmt, call->taken);
	int length = sqlite3_column_bytes(call->stmt, call->taken++);
	if (text == NULL || length == 0) {
		return "";
	}
	char *copy = arena_alloc(arena, (size_t)length + 1);
	memcpy(copy, text, (size_t)length);
	return copy;
}

void
take_bytes(struct call *call, struct text *out)
{
	const void *bytes = sqlite3_column_blob(call->stmt, call->taken);
	int length = sqlite3_column_bytes(call->stmt, call->taken++);
	if (bytes != NULL) {
		text_add_bytes(out, bytes, (size_t)length);
	}
}

bool
take_null(struct call *call)
{
	bool null = sqlite3_column_type(call->stmt, call->taken) == SQLITE_NULL;
	call->taken += null;
	return null;
}

/* The value of a word that is not ended by a zero byte; -1 for none. */
static int
code_of(const struct codes *codes, const char *word, size_t length)
{
	for (int i = 0; i < codes->count; i++) {
		if (strlen(codes->words[i]) == length &&
		    memcmp(codes->words[i], word, length) == 0) {
			return i;
		}
	}
	return -1;
}

int
take_code(struct call *call, const struct codes *codes)
{
	const unsigned char *text = sqlite3_column_text(call->stmt, call->taken);
	int length = sqlite3_column_bytes(call->stmt, call->taken++);
	int code = text == NULL ? -1 : code_of(codes, (const char *)text, (size_t)length);
	if (code < 0) {
		bad_value(call, 1);
	}
	return code < 0 ? 0 : code;
}

unsigned
take_codes(struct call *call, const struct codes *codes)
{
	const char *at = (const char *)sqlite3_column_text(call->stmt, call->taken++);
	unsigned set = 0;
	while (at != NULL && *at != '\0') {
		size_t length = strcspn(at, " ");
		int code = code_of(codes, at, length);
		if (code < 0) {
			bad_value(call, 1);
			return 0;
		}
		set |= 1U << code;
		at += length + (at[length] == ' ' ? 1 : 0);
	}
	return set;
}

bool
stamp_of_stored(int64_t day, int64_t wording, bool estimated, struct stamp *out)
{
	int64_t year = day / 10000;
	int month = (int)(day / 100 % 100);
	int of_month = (int)(day % 100);
	bool sound = day == 0 || (year >= 1900 && year <= 2199 && month <= 12);
	if (sound && of_month > 0) {
		sound = month > 0 && of_month <= days_in_month((int)year, month);
	}
	if (!sound || wording < WORDING_PLAIN || wording > WORDING_USE_BY) {
		return false;
	}
	if (day == 0) {
		*out = (struct stamp){0};
		return true;
	}
	*out = (struct stamp){
	    .year = (int16_t)year,
	    .month = (int8_t)month,
	    .day = (int8_t)of_month,
	    .precision = of_month > 0 ? STAMP_DAY
			 : month > 0  ? STAMP_MONTH
				      : STAMP_YEAR,
	    .wording = (enum stamp_wording)wording,
	    .estimated = estimated,
	};
	return true;
}

struct stamp
take_stamp(struct call *call)
{
	int64_t day = take_int(call);
	int64_t wording = take_int(call);
	bool estimated = take_int(call) != 0;
	struct stamp stamp = {0};
	if (!stamp_of_stored(day, wording, estimated, &stamp)) {
		bad_value(call, 3);
	}
	return stamp;
}

day_t
take_day(struct call *call)
{
	int64_t day = take_int(call);
	if (day == 0) {
		return DAY_NONE;
	}
	int64_t year = day / 10000;
	int month = (int)(day / 100 % 100);
	int of_month = (int)(day % 100);
	if (year < 1900 || year > 2199 || month < 1 || month > 12 || of_month < 1 ||
	    of_month > days_in_month((int)year, month)) {
		bad_value(call, 1);
		return DAY_NONE;
	}
	return day_from_civil((int)year, month, of_month);
}

/* 29 February is allowed: it means the last day of the month. */
static bool
month_day_sound(int64_t stored)
{
	int month = (int)(stored / 100);
	int day = (int)(stored % 100);
	return stored > 0 && stored < 1300 && month >= 1 && day >= 1 &&
	       day <= days_in_month(2024, month);
}

struct yearly
take_yearly(struct call *call)
{
	int64_t first = take_int(call);
	int64_t last = take_int(call);
	if (!month_day_sound(first) || !month_day_sound(last)) {
		bad_value(call, 2);
		return (struct yearly){0};
	}
	return (struct yearly){(int8_t)(first / 100), (int8_t)(first % 100),
	    (int8_t)(last / 100), (int8_t)(last % 100)};
}

int64_t
stored_month_day(int month, int day)
{
	return (int64_t)month * 100 + day;
}

int64_t
stored_day(day_t day)
{
	if (day == DAY_NONE) {
		return 0;
	}
	struct civil civil = day_to_civil(day);
	return (int64_t)civil.year * 10000 + stored_month_day(civil.month, civil.day);
}

int64_t
stored_stamp(struct stamp stamp)
{
	switch (stamp.precision) {
	case STAMP_NONE:
		return 0;
	case STAMP_YEAR:
		return (int64_t)stamp.year * 10000;
	case STAMP_MONTH:
		return (int64_t)stamp.year * 10000 + stored_month_day(stamp.month, 0);
	case STAMP_DAY:
		break;
	}
	return (int64_t)stamp.year * 10000 + stored_month_day(stamp.month, stamp.day);
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
