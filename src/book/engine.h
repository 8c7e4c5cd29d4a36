/* The engine below the book: SQLite, reached by the rest of the room through these functions alone. What
 * listens to each row that is written (collect.c) and what copies files page by page (copy.c) ask SQLite
 * themselves, with engine_handle; no other file does. Only for files of this room. */
#ifndef BECKET_BOOK_ENGINE_H
#define BECKET_BOOK_ENGINE_H

#include "base/embedded.h"
#include "book/value.h"

/* A file that is open, or a book in memory. */
struct engine;

/* How a file is opened. */
enum engine_way {
	ENGINE_READS,
	ENGINE_WRITES,
	ENGINE_MAKES, /* the same; one that is not there is made */
	/* as it stands, with no look at a log beside it: nobody else writes it meanwhile */
	ENGINE_READS_FIXED,
	/* locked as if for writing, what waits in its log read too, and nothing written, not even at the
	 * end */
	ENGINE_READS_ALONE,
	ENGINE_IN_MEMORY, /* an empty one; the name says nothing */
};

/* Opens a file; FAULT_BOOK. One is used by one thread at a time. */
MUST_CHECK bool engine_open(const char *path, enum engine_way way,
    struct engine **engine_out, struct fault *fault);

/* Rolls back what is open. Accepts NULL. */
void engine_close(struct engine *engine);

/* SQLite's own connection. */
void *engine_handle(const struct engine *engine);

/* The file's full name; "" for none. */
const char *engine_path(const struct engine *engine);

/* True where nothing can be written. */
bool engine_only_reads(const struct engine *engine);

/* What the last failure was, where that matters. */
enum engine_trouble {
	ENGINE_TROUBLE,
	ENGINE_NO_FILE_BESIDE, /* a file beside it can't be made or written */
	ENGINE_NO_SENSE,       /* the file is damaged, or no such file */
	ENGINE_CONSTRAINT, /* what the schema holds would not hold: nothing was written */
};

enum engine_trouble engine_trouble(const struct engine *engine);

/* Words the last failure, FAULT_BOOK; ends the program where memory ran out. Returns false. */
bool engine_fault(const struct engine *engine, struct fault *fault);

/* Runs statements that ask for nothing, one after the other: migrations, settings of the file. */
MUST_CHECK bool engine_execute(
    struct engine *engine, const char *sql, struct fault *fault);

/* Reads the numbers of a statement's one row. */
MUST_CHECK bool engine_numbers(struct engine *engine, const char *sql,
    int64_t *const out[], int count, struct fault *fault);

/* Makes the open file one without a log beside it; true when it has a write-ahead log. */
MUST_CHECK bool one_file(struct engine *engine, struct fault *fault);
bool has_write_ahead_log(struct engine *engine);

/* Whether the words of the schema itself are guarded: only a migration may write them. */
MUST_CHECK bool engine_guard_schema(
    struct engine *engine, bool guarded, struct fault *fault);

/* Rows added, changed and removed since it was opened, and by the last statement that did: without
 * those that went with them by a reference. */
int64_t engine_changes(const struct engine *engine);
int64_t engine_changes_last(const struct engine *engine);

/* A statement made ready to run, with room for its parameters. */
struct prepared {
	void *handle; /* the engine's own */
	int count;    /* of parameters */
	struct value values[];
};

/* Makes a statement ready; NULL when it fails. One that is `kept` is run again and again. */
struct prepared *engine_prepare(struct engine *engine, const char *sql, bool kept);
void prepared_drop(struct prepared *prepared); /* accepts NULL */

/* Gives the engine the values, which it borrows until the statement is reset; false when it fails. */
MUST_CHECK bool prepared_give(struct prepared *prepared);

enum stepped { STEPPED_ROW, STEPPED_END, STEPPED_FAILED };

/* Steps to the next row. */
enum stepped prepared_step(struct prepared *prepared);

/* Ends it, so that it can be given values anew. */
void prepared_reset(struct prepared *prepared);

/* A column of the row at hand, borrowed until the next step; text ends in a zero byte, and a real, which no column of
 * a book takes, is its text. */
struct value prepared_value(const struct prepared *prepared, int column);
const char *prepared_column(const struct prepared *prepared, int column); /* its name */

/* The schema, as the bytes of migrations/NNNN_name.sql, put in the program at build. */

/* In the order of their numbers: the first makes version 1. */
extern const struct embedded_file MIGRATIONS[];
extern const size_t MIGRATIONS_COUNT;

#endif
