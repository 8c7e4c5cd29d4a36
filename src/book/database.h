/* SQLite, which the rest of the room uses through these functions alone. Only what
 * listens to each row that is written (collect.c) and what copies files page by page
 * (copy.c) call SQLite themselves, with database_handle. Only for files of this room. */
#ifndef BECKET_BOOK_DATABASE_H
#define BECKET_BOOK_DATABASE_H

#include "base/embedded.h"
#include "book/value.h"

/* A file that is open, or a book in memory. */
struct database;

/* How a file is opened. */
enum database_way {
	DATABASE_READS,
	DATABASE_WRITES,
	DATABASE_MAKES, /* the same; one that is not there is made */
	/* as it is, without reading a log beside it: nobody else may write it
	 * meanwhile */
	DATABASE_READS_FIXED,
	/* locked as if for writing; its log is read too, and nothing is written, not even
	 * at the end */
	DATABASE_READS_ALONE,
	DATABASE_IN_MEMORY, /* an empty one; the name says nothing */
};

/* Opens a file; FAULT_BOOK. One is used by one thread at a time. */
MUST_CHECK bool database_open(const char *path, enum database_way way,
    struct database **database_out, struct fault *fault);

/* Rolls back what is open. Accepts NULL. */
void database_close(struct database *database);

/* SQLite's own connection. */
void *database_handle(const struct database *database);

/* The file's full name; "" for none. */
const char *database_path(const struct database *database);

/* True where nothing can be written. */
bool database_only_reads(const struct database *database);

/* What the last failure was, where that matters. */
enum database_trouble {
	DATABASE_TROUBLE,
	DATABASE_NO_FILE_BESIDE, /* a file beside it can't be made or written */
	DATABASE_NO_SENSE,       /* the file is damaged, or no such file */
	DATABASE_CONSTRAINT, /* a constraint of the schema failed: nothing was written */
};

enum database_trouble database_trouble(const struct database *database);

/* Words the last failure, FAULT_BOOK; ends the program where memory ran out. Returns
 * false. */
bool database_fault(const struct database *database, struct fault *fault);

/* Runs statements that ask for nothing, one after the other: migrations, settings of the
 * file. */
MUST_CHECK bool database_execute(
    struct database *database, const char *sql, struct fault *fault);

/* Reads the numbers of a statement's one row. */
MUST_CHECK bool database_numbers(struct database *database, const char *sql,
    int64_t *const out[], int count, struct fault *fault);

/* Makes the open file one without a log beside it; true when it has a write-ahead log. */
MUST_CHECK bool one_file(struct database *database, struct fault *fault);
bool has_write_ahead_log(struct database *database);

/* Sets whether the text of the schema itself is guarded: only a migration may write
 * it. */
MUST_CHECK bool database_guard_schema(
    struct database *database, bool guarded, struct fault *fault);

/* Rows added, changed and removed since the file was opened, and by the last statement
 * that did so; not those that a reference removed with them. */
int64_t database_changes(const struct database *database);
int64_t database_changes_last(const struct database *database);

/* A statement made ready to run, with room for its parameters. */
struct prepared {
	void *handle;          /* SQLite's own statement */
	int count;             /* of parameters */
	struct value values[]; /* to be bound; and behind them, as many that are */
};

/* Makes a statement ready; NULL when it fails. One that is `kept` is run again and
 * again. */
struct prepared *database_prepare(struct database *database, const char *sql, bool kept);
void prepared_drop(struct prepared *prepared); /* accepts NULL */

/* Binds the values, which SQLite borrows until the statement is reset; false when it
 * fails. */
MUST_CHECK bool prepared_give(struct prepared *prepared);

enum stepped { STEPPED_ROW, STEPPED_END, STEPPED_FAILED };

/* Steps to the next row. */
enum stepped prepared_step(struct prepared *prepared);

/* Ends it, so that it can be given values anew. */
void prepared_reset(struct prepared *prepared);

/* A column of the row at hand, borrowed until the next step; text ends in a zero byte,
 * and a real, which no column of a book takes, is its text. */
struct value prepared_value(const struct prepared *prepared, int column);

/* The same of a column that is an integer, into `*out`; false for any other. */
bool prepared_integer(const struct prepared *prepared, int column, int64_t *out);

const char *prepared_column(const struct prepared *prepared, int column); /* its name */

/* The schema, as the bytes of migrations/NNNN_name.sql, put in the program at build. */

/* In the order of their numbers: the first makes version 1. */
extern const struct embedded_file MIGRATIONS[];
extern const size_t MIGRATIONS_COUNT;

/* One script, drawn from them at build (newest.py), that makes the newest version at once. */
extern const struct embedded_file NEWEST[];

#endif
