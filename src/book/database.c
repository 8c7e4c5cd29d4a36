/* SQLite. */
#include "book/database.h"

#include "base/memory.h"
#include "base/text.h"

#include <errno.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>

enum { BUSY_TIMEOUT_MS = 5000 };

struct database {
	sqlite3 *db; /* owned */
};

/* ---- what went wrong ---- */

static bool
found_no_room(sqlite3 *db)
{
	int error = sqlite3_system_errno(db);
	return error == ENOSPC || error == EDQUOT;
}

static bool
word_failure(sqlite3 *db, struct fault *fault)
{
	static const char NO_ROOM[] =
	    "there is no room left on the disk; nothing was written";

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
		if (found_no_room(db)) {
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
	case SQLITE_CONSTRAINT:
		return fault_set(fault, FAULT_BOOK,
		    "%s; where another program has added rows to the book, \"becket book "
		    "accept\" takes it as it is",
		    sqlite3_errmsg(db));
	default:
		return fault_set(fault, FAULT_BOOK, "%s", sqlite3_errmsg(db));
	}
}

bool
database_fault(const struct database *database, struct fault *fault)
{
	return word_failure(database->db, fault);
}

enum database_trouble
database_trouble(const struct database *database)
{
	switch (sqlite3_errcode(database->db)) {
	case SQLITE_CANTOPEN:
	case SQLITE_READONLY:
	case SQLITE_FULL:
		return DATABASE_NO_FILE_BESIDE;
	case SQLITE_IOERR:
		return found_no_room(database->db) ? DATABASE_NO_FILE_BESIDE
						   : DATABASE_TROUBLE;
	case SQLITE_NOTADB:
	case SQLITE_CORRUPT:
		return DATABASE_NO_SENSE;
	case SQLITE_CONSTRAINT:
		return DATABASE_CONSTRAINT;
	default:
		return DATABASE_TROUBLE;
	}
}

/* ---- opening ---- */

static bool
configure(sqlite3 *db, enum database_way way)
{
	return sqlite3_busy_timeout(db, BUSY_TIMEOUT_MS) == SQLITE_OK &&
	       sqlite3_extended_result_codes(db, 0) == SQLITE_OK &&
	       sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL) == SQLITE_OK &&
	       sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_FKEY, 1, NULL) == SQLITE_OK &&
	       sqlite3_db_config(db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL) ==
		   SQLITE_OK &&
	       sqlite3_exec(db, "PRAGMA temp_store = MEMORY", NULL, NULL, NULL) ==
		   SQLITE_OK &&
	       (way != DATABASE_READS_ALONE ||
		   (sqlite3_db_config(db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, NULL) ==
			   SQLITE_OK &&
		       sqlite3_exec(db,
			   "PRAGMA locking_mode = EXCLUSIVE; PRAGMA query_only = ON",
			   NULL, NULL, NULL) == SQLITE_OK));
}

/* The path as a file: URI, every byte but letters, digits and "/._-" escaped. */
static void
add_uri(struct text *uri, const char *path)
{
	text_add(uri, "file:");
	for (const char *at = path; *at != '\0'; at++) {
		unsigned char byte = (unsigned char)*at;
		bool plain = (byte >= 'a' && byte <= 'z') ||
			     (byte >= 'A' && byte <= 'Z') ||
			     (byte >= '0' && byte <= '9') || strchr("/._-", byte) != NULL;
		text_add_format(uri, plain ? "%c" : "%%%02X", byte);
	}
	text_add(uri, "?immutable=1");
}

static int
open_way(const char *path, enum database_way way, sqlite3 **out)
{
	SCOPED_TEXT name = {0};
	int flags = SQLITE_OPEN_READWRITE;
	switch (way) {
	case DATABASE_READS:
		flags = SQLITE_OPEN_READONLY;
		break;
	case DATABASE_READS_FIXED:
		flags = SQLITE_OPEN_READONLY | SQLITE_OPEN_URI;
		break;
	case DATABASE_MAKES:
		flags |= SQLITE_OPEN_CREATE;
		break;
	case DATABASE_WRITES:
	case DATABASE_READS_ALONE:
	case DATABASE_IN_MEMORY:
		break;
	}
	if (way == DATABASE_READS_FIXED) {
		add_uri(&name, path);
	} else {
		text_add(&name, way == DATABASE_IN_MEMORY ? ":memory:" : path);
	}
	/* one thread at a time: SQLite need not lock itself for each value that is read of a row */
	return sqlite3_open_v2(
	    text_string(&name), out, flags | SQLITE_OPEN_NOMUTEX, NULL);
}

bool
database_open(const char *path, enum database_way way, struct database **database_out,
    struct fault *fault)
{
	sqlite3 *db = NULL;
	/* nobody asks how much memory SQLite has; counting it locks at each allocation.
	 * Only the first call does anything: once it is at work it refuses. */
	(void)sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
	if (open_way(path, way, &db) != SQLITE_OK || !configure(db, way)) {
		(void)memory_held(db);
		(void)word_failure(db, fault);
		(void)sqlite3_close(db);
		return false;
	}
	*database_out = memory_zeroed(1, sizeof **database_out);
	(*database_out)->db = db;
	return true;
}

void
database_close(struct database *database)
{
	if (database != NULL) {
		(void)sqlite3_close(database->db);
	}
	free(database);
}

void *
database_handle(const struct database *database)
{
	return database->db;
}

const char *
database_path(const struct database *database)
{
	const char *path = sqlite3_db_filename(database->db, "main");
	return path == NULL ? "" : path;
}

bool
database_only_reads(const struct database *database)
{
	return sqlite3_db_readonly(database->db, "main") == 1;
}

/* ---- the whole file ---- */

bool
database_execute(struct database *database, const char *sql, struct fault *fault)
{
	return sqlite3_exec(database->db, sql, NULL, NULL, NULL) == SQLITE_OK ||
	       word_failure(database->db, fault);
}

bool
database_numbers(struct database *database, const char *sql, int64_t *const out[],
    int count, struct fault *fault)
{
	struct prepared *prepared = database_prepare(database, sql, false);
	bool read = prepared != NULL && prepared_step(prepared) == STEPPED_ROW;
	for (int i = 0; read && i < count; i++) {
		*out[i] = prepared_value(prepared, i).number;
	}
	read = read || word_failure(database->db, fault);
	prepared_drop(prepared);
	return read;
}

bool
one_file(struct database *database, struct fault *fault)
{
	return database_execute(database, "PRAGMA journal_mode = DELETE", fault);
}

bool
has_write_ahead_log(struct database *database)
{
	struct fault ignored = {0};
	int64_t has = 0;
	int64_t *const out[] = {&has};
	return database_numbers(database,
		   "SELECT journal_mode = 'wal' FROM pragma_journal_mode", out, 1,
		   &ignored) &&
	       has == 1;
}

bool
database_guard_schema(struct database *database, bool guarded, struct fault *fault)
{
	return sqlite3_db_config(database->db, SQLITE_DBCONFIG_DEFENSIVE, guarded ? 1 : 0,
		   NULL) == SQLITE_OK ||
	       word_failure(database->db, fault);
}

int64_t
database_changes(const struct database *database)
{
	return sqlite3_total_changes(database->db);
}

int64_t
database_changes_last(const struct database *database)
{
	return sqlite3_changes(database->db);
}

/* ---- statements ---- */

struct prepared *
database_prepare(struct database *database, const char *sql, bool kept)
{
	sqlite3_stmt *stmt = NULL;
	if (sqlite3_prepare_v3(database->db, sql, -1,
		kept ? SQLITE_PREPARE_PERSISTENT : 0, &stmt, NULL) != SQLITE_OK) {
		return NULL;
	}
	int count = sqlite3_bind_parameter_count(stmt);
	struct prepared *prepared = memory_zeroed(
	    1, sizeof *prepared + 2 * (size_t)count * sizeof prepared->values[0]);
	prepared->handle = stmt;
	prepared->count = count;
	return prepared;
}

void
prepared_drop(struct prepared *prepared)
{
	if (prepared != NULL) {
		(void)sqlite3_finalize(prepared->handle);
	}
	free(prepared);
}

/* True for a value that is bound already; of text this means the very bytes that are
 * still borrowed. */
static bool
is_bound(const struct value *bound, const struct value *value)
{
	return bound->held == value->held && bound->number == value->number &&
	       bound->bytes == value->bytes && bound->length == value->length;
}

static int
bind(sqlite3_stmt *stmt, int place, const struct value *value)
{
	switch (value->held) {
	case HELD_NOTHING:
	case HELD_UNSAID:
		break;
	case HELD_INTEGER:
		return sqlite3_bind_int64(stmt, place, value->number);
	case HELD_REAL:
		return sqlite3_bind_double(stmt, place, value_real(value));
	case HELD_TEXT:
		return sqlite3_bind_text64(
		    stmt, place, value->bytes, value->length, SQLITE_STATIC, SQLITE_UTF8);
	case HELD_BYTES:
		return sqlite3_bind_blob64(
		    stmt, place, value->bytes, value->length, SQLITE_STATIC);
	}
	return sqlite3_bind_null(stmt, place);
}

/* Binds only what changed: most values of a row are those of the row before. */
bool
prepared_give(struct prepared *prepared)
{
	for (int i = 0; i < prepared->count; i++) {
		const struct value *value = &prepared->values[i];
		struct value *bound = &prepared->values[prepared->count + i];
		if (is_bound(bound, value)) {
			continue;
		}
		*bound = (struct value){
		    0}; /* nothing, which is what a bind that fails leaves */
		if (bind(prepared->handle, i + 1, value) != SQLITE_OK) {
			return false;
		}
		*bound = *value;
	}
	return true;
}

enum stepped
prepared_step(struct prepared *prepared)
{
	int result = sqlite3_step(prepared->handle);
	return result == SQLITE_ROW    ? STEPPED_ROW
	       : result == SQLITE_DONE ? STEPPED_END
				       : STEPPED_FAILED;
}

void
prepared_reset(struct prepared *prepared)
{
	(void)sqlite3_reset(prepared->handle);
}

bool
prepared_integer(const struct prepared *prepared, int column, int64_t *out)
{
	sqlite3_value *of = sqlite3_column_value(prepared->handle, column);
	if (sqlite3_value_type(of) != SQLITE_INTEGER) {
		return false;
	}
	*out = sqlite3_value_int64(of);
	return true;
}

/* Fetches the column's value once and reads from that: safe with one thread, and
 * cheaper. */
struct value
prepared_value(const struct prepared *prepared, int column)
{
	sqlite3_value *of = sqlite3_column_value(prepared->handle, column);
	int type = sqlite3_value_type(of);
	if (type == SQLITE_INTEGER) {
		return (struct value){
		    .held = HELD_INTEGER, .number = sqlite3_value_int64(of)};
	}
	if (type == SQLITE_NULL) {
		return (struct value){0};
	}
	const void *bytes =
	    type == SQLITE_BLOB ? sqlite3_value_blob(of) : sqlite3_value_text(of);
	if (bytes == NULL && type != SQLITE_BLOB) {
		memory_ended(); /* the only reason for text without bytes */
	}
	return (struct value){
	    .held = type == SQLITE_BLOB ? HELD_BYTES : HELD_TEXT,
	    .bytes = bytes == NULL ? "" : bytes,
	    .length = (size_t)sqlite3_value_bytes(of),
	};
}

const char *
prepared_column(const struct prepared *prepared, int column)
{
	return sqlite3_column_name(prepared->handle, column);
}
