/* A book made anew from its journal, and held against what the file has. */
#include "base/memory.h"
#include "book/collect.h"
#include "book/copy.h"
#include "book/differing.h"
#include "book/sums.h"

#include <sqlite3.h>
#include <string.h>

/* The work on one book. */
struct against_journal {
	struct row_wording wording; /* of the book as it is */
	struct book *anew;          /* in memory; owned */
	struct arena *arena;
	struct differing *out;
};

/* What has changed by another way than the journal's since: its last word counts. */
static int
go_on(void *context, int conflict, sqlite3_changeset_iter *at)
{
	(void)context;
	(void)at;
	return conflict == SQLITE_CHANGESET_DATA || conflict == SQLITE_CHANGESET_CONFLICT
		   ? SQLITE_CHANGESET_REPLACE
		   : SQLITE_CHANGESET_OMIT;
}

/* Does in the empty book what an entry did. What is damaged of it is left undone. */
static void
redo(struct book *anew, const void *bytes, int size)
{
	struct changeset changes = {size, memory_held(sqlite3_malloc(size + 1))};
	memcpy(changes.bytes, bytes == NULL ? "" : bytes, (size_t)size);
	if (changeset_is_whole(&changes)) {
		(void)sqlite3changeset_apply(engine_handle(anew->engine), changes.size,
		    changes.bytes, NULL, go_on, NULL);
	}
	changeset_clear(&changes);
}

static bool
redo_entries(struct book *book, struct book *anew, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = true;
	if (!call_open(book, JOURNAL_LATER, &call, fault)) {
		return false;
	}
	give_int(&call, 0);
	while (call_row(&call, &row, fault) && row) {
		(void)take_int(&call);
		(void)take_int(&call);
		struct value bytes = take_value(&call);
		redo(anew, bytes.bytes, (int)bytes.length);
	}
	return !row;
}

/* Gives the book made anew the present one beside its own, as "found". */
static bool
attach_found(struct book *book, struct book *anew, struct fault *fault)
{
	return engine_execute(anew->engine, "ATTACH ':memory:' AS found", fault) &&
	       copy_at_once(book->engine, anew->engine, "found", fault);
}

static bool
make_anew(struct book *book, struct book **out, struct fault *fault)
{
	/* no file has no name: an empty book in memory */
	return book_open("", BOOK_TRIAL, out, fault) &&
	       book_set_identity(*out, book->identity, fault) &&
	       call_plain(*out, FOREIGN_KEYS_OFF, fault) &&
	       redo_entries(book, *out, fault) && attach_found(book, *out, fault);
}

static bool
tell_row(struct against_journal *against, const struct row_change *change,
    const struct table_shape *shape, struct fault *fault)
{
	bool gone = change->act == JOURNAL_REMOVED;
	const struct row *row = gone ? &change->old : &change->new;
	struct row_subject subject = {0};
	SCOPED_TEXT part = {0};
	SCOPED_TEXT all = {0};
	SCOPED_TEXT words = {0};
	if (!row_subject(&against->wording, shape, row, &subject, fault) ||
	    !row_in_words(&against->wording, shape, row, &subject, &all, fault)) {
		return false;
	}
	add_row_part(shape, &subject, &part);
	differing_add_name(&subject, &words);
	text_add_format(
	    &words, ": %s", part.length > 0 ? text_string(&part) : subject.about);
	text_add_format(&words, all.length > 0 ? " (%s)" : "%s", text_string(&all));
	text_add(&words, gone ? " is gone, and becket did not take it out"
			      : " is there, and becket did not write it");
	differing_add(against->arena, against->out,
	    (struct differing_value){text_string(&words), change->sum, !gone});
	return true;
}

/* A changed row, column by column: a migration may have rewritten one, and a disk another. */
static bool
tell_columns(struct against_journal *against, const struct row_change *change,
    struct table_shape *shape, struct fault *fault)
{
	struct arena *passing = &against->wording.passing;
	struct row is = {0};
	if (!row_now(&against->wording, shape, &change->old, &is, fault)) {
		return false;
	}
	const char **values = arena_alloc(passing, shape->count * sizeof *values);
	for (size_t i = 0; i < shape->count; i++) {
		values[i] = change->has_new[i] ? change->old.values[i] : is.values[i];
	}
	const struct row was = {values};
	for (size_t i = 0; i < change->count; i++) {
		SCOPED_TEXT words = {0};
		if (!change->has_new[i]) {
			continue;
		}
		if (!differing_value_words(
			&against->wording, shape, &was, &is, i, &words, fault)) {
			return false;
		}
		uint64_t sum = column_sum(
		    change->at, change->table, (int)change->count, change->key, (int)i);
		differing_add(against->arena, against->out,
		    (struct differing_value){text_string(&words), sum, false});
	}
	return true;
}

static bool
tell_difference(const struct row_change *change, void *context, struct fault *fault)
{
	struct against_journal *against = context;
	struct table_shape *shape = NULL;
	if (!shape_find(&against->wording, change->table, &shape, fault)) {
		return false;
	}
	return change->act == JOURNAL_CHANGED
		   ? tell_columns(against, change, shape, fault)
		   : tell_row(against, change, shape, fault);
}

/* What makes of the rows of a table made anew those that were found. */
static bool
compare_table(sqlite3_session *session, const char *table, struct fault *fault)
{
	char *why = NULL;
	bool same = !journal_tells_of(table);
	bool done = same ||
		    (sqlite3session_attach(session, table) == SQLITE_OK &&
			sqlite3session_diff(session, "main", table, &why) == SQLITE_OK) ||
		    fault_set(fault, FAULT_BOOK, "comparing the table %s: %s", table,
			why == NULL ? "it is another" : why);
	sqlite3_free(why);
	return done;
}

static bool
compare_all(
    struct against_journal *against, sqlite3_session *session, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_CHANGESET changes = {0};
	bool row = true;
	if (!call_open(against->wording.book, TABLES, &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		const char *table = take_text(&call, &against->wording.kept);
		if (!compare_table(session, table, fault)) {
			return false;
		}
	}
	if (!row && sqlite3session_changeset(session, &changes.size, &changes.bytes) !=
			SQLITE_OK) {
		memory_ended();
	}
	return !row && changes_each(&changes, &against->wording.passing, tell_difference,
			   against, fault);
}

bool
differing_by_journal(
    struct book *book, struct arena *arena, struct differing *out, struct fault *fault)
{
	struct against_journal against = {
	    .wording = {.book = book}, .arena = arena, .out = out};
	sqlite3_session *session = NULL;
	bool done = make_anew(book, &against.anew, fault);
	if (done) {
		collect_end(against.anew); /* a session listens in its place */
	}
	if (done && sqlite3session_create(engine_handle(against.anew->engine), "found",
			&session) != SQLITE_OK) {
		memory_ended();
	}
	done = done && compare_all(&against, session, fault);
	if (session != NULL) {
		sqlite3session_delete(session);
	}
	wording_clear(&against.wording);
	book_close(against.anew);
	return done;
}
