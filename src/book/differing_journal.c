/* A book made anew from its journal, and held against what the file has. */
#include "base/memory.h"
#include "book/collect.h"
#include "book/copy.h"
#include "book/differing.h"
#include "book/sums.h"
#include "book/undo.h"

#include <sqlite3.h>
#include <string.h>

/* Making it anew. */
struct redoing {
	struct row_wording wording;
	struct applying applying;
};

/* The work on one book. */
struct against_journal {
	struct row_wording wording; /* of the book as it is */
	struct book *anew;          /* in memory; owned */
	struct arena *arena;
	struct differing *out;
};

/* Does in the book made anew what one change did. What has changed by another way than the journal's since
 * gives way, for its last word counts; what does not fit is left undone. */
static bool
redo(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	struct redoing *redoing = context;
	struct fault ignored = {0};
	struct table_shape *shape = NULL;
	enum applied applied = APPLIED;
	if (shape_find(&redoing->wording, change->table, &shape, &ignored) &&
	    change_fits(change, shape)) {
		(void)!change_apply(
		    &redoing->applying, shape, change, &applied, &ignored);
	}
	return true;
}

/* What is damaged of an entry is left undone. */
static bool
redo_entries(struct book *book, struct book *anew, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT changes = {0};
	struct redoing redoing = {
	    .wording = {.book = anew}, .applying = {.book = anew, .over = true}};
	struct fault ignored = {0};
	bool row = true;
	bool going = call_open(book, JOURNAL_LATER, &call, fault);
	if (going) {
		give_int(&call, 0);
	}
	while (going && (going = call_row(&call, &row, fault)) && row) {
		(void)take_int(&call); /* its number, and which it takes back */
		(void)take_int(&call);
		text_reset(&changes);
		take_bytes(&call, &changes);
		(void)!changes_each(changes.bytes, changes.length,
		    &redoing.wording.passing, redo, &redoing, &ignored);
	}
	applying_clear(&redoing.applying);
	wording_clear(&redoing.wording);
	return going;
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
	const struct row row =
	    row_texts(change_row(change), change->count, &against->wording.passing);
	struct row_subject subject = {0};
	SCOPED_TEXT part = {0};
	SCOPED_TEXT all = {0};
	SCOPED_TEXT words = {0};
	if (!row_subject(&against->wording, shape, &row, &subject, fault) ||
	    !row_in_words(&against->wording, shape, &row, &subject, &all, fault)) {
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
	    (struct differing_value){text_string(&words), change_sum(change), !gone});
	return true;
}

/* A changed row, column by column: a migration may have rewritten one, and a disk another. */
static bool
tell_columns(struct against_journal *against, const struct row_change *change,
    struct table_shape *shape, struct fault *fault)
{
	struct arena *passing = &against->wording.passing;
	struct row is = {0};
	const struct row told = row_texts(change->was, change->count, passing);
	if (!row_now(&against->wording, shape, &told, &is, fault)) {
		return false;
	}
	const char **values = arena_alloc(passing, shape->count * sizeof *values);
	for (size_t i = 0; i < shape->count; i++) {
		bool another = change->is[i].held != HELD_UNSAID;
		values[i] = another ? told.values[i] : is.values[i];
	}
	const struct row was = {values};
	for (size_t i = 0; i < change->count; i++) {
		SCOPED_TEXT words = {0};
		if (change->is[i].held == HELD_UNSAID) {
			continue;
		}
		if (!differing_value_words(
			&against->wording, shape, &was, &is, i, &words, fault)) {
			return false;
		}
		differing_add(against->arena, against->out,
		    (struct differing_value){
			text_string(&words), column_sum(change, i), false});
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
	void *bytes = NULL;
	int size = 0;
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
	if (row) {
		return false;
	}
	if (sqlite3session_changeset(session, &size, &bytes) != SQLITE_OK) {
		memory_ended();
	}
	bool told = changes_each(bytes, (size_t)size, &against->wording.passing,
	    tell_difference, against, fault);
	sqlite3_free(bytes);
	return told;
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
