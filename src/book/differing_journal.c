/* A book rebuilt from its journal, and compared with what the file has. */
#include "base/memory.h"
#include "book/check_inside.h"
#include "book/copy.h"
#include "book/journal_inside.h"

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

/* Applies one change to the rebuilt book. Where a row has since changed in another way
 * than the journal says, the journal counts; what does not fit is left out. */
static bool
redo(const struct row_change *change, void *context, struct fault *fault)
{
	(void)fault;
	struct redoing *redoing = context;
	struct fault ignored = {0};
	const struct table_shape *shape = shape_find(&redoing->wording, change->table);
	enum applied applied = APPLIED;
	if (change_fits(change, shape)) {
		(void)!change_apply(
		    &redoing->applying, shape, change, &applied, &ignored);
	}
	return true;
}

/* The damaged part of an entry is left out. */
static bool
redo_entries(struct book *book, struct book *anew, struct fault *fault)
{
	SCOPED_ENTRIES entries = {0};
	struct redoing redoing = {
	    .wording = {.book = anew}, .applying = {.book = anew, .over = true}};
	struct fault ignored = {0};
	bool found = false;
	bool going = entries_read(book, 0, &entries, fault);
	while (going && (going = entries_next(&entries, &found, fault)) && found) {
		(void)!changes_each(entries.changes.bytes, entries.changes.length,
		    &redoing.wording.passing, redo, &redoing, &ignored);
	}
	applying_clear(&redoing.applying);
	wording_clear(&redoing.wording);
	return going;
}

/* Attaches the present book to the rebuilt one, as "found". */
static bool
attach_found(struct book *book, struct book *anew, struct fault *fault)
{
	return database_execute(anew->database, "ATTACH ':memory:' AS found", fault) &&
	       copy_at_once(book->database, anew->database, "found", fault);
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
	const struct value *row = change_row(change);
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
	    (struct differing_value){text_string(&words), change_sum(change), !gone});
	return true;
}

/* A changed row, column by column: a migration may have rewritten one, and a disk another. */
static bool
tell_columns(struct against_journal *against, const struct row_change *change,
    const struct table_shape *shape, struct fault *fault)
{
	for (size_t i = 0; i < change->count; i++) {
		SCOPED_TEXT words = {0};
		if (value_same(&change->was[i], &change->is[i])) {
			continue;
		}
		if (!differing_value_words(&against->wording, shape, change->was,
			change->is, i, &words, fault)) {
			return false;
		}
		differing_add(against->arena, against->out,
		    (struct differing_value){
			text_string(&words), column_sum(change, i), false});
	}
	return true;
}

/* All rows of a table, the rebuilt columns before those found; a row that is on one side
 * alone has NULLs on the other. */
static void
write_comparison(const struct table_shape *shape, struct text *sql)
{
	static const char *const SIDES[] = {"made.", "found."};
	const char *between = "SELECT ";
	for (size_t i = 0; i < 2 * shape->count; i++) {
		text_add(sql, between);
		text_add(sql, SIDES[i / shape->count]);
		add_quoted(sql, shape->columns[i % shape->count].name);
		between = ", ";
	}
	text_add(sql, " FROM main.");
	add_quoted(sql, shape->name);
	text_add(sql, " AS made FULL JOIN found.");
	add_quoted(sql, shape->name);
	text_add(sql, " AS found");
	between = " ON ";
	for (size_t i = 0; i < shape->count; i++) {
		if (shape->columns[i].key != 0) {
			text_add(sql, between);
			text_add(sql, SIDES[0]);
			add_quoted(sql, shape->columns[i].name);
			text_add(sql, " = ");
			text_add(sql, SIDES[1]);
			add_quoted(sql, shape->columns[i].name);
			between = " AND ";
		}
	}
}

/* Whether there is a row on a side: its key is then not NULL. */
static bool
is_there(const struct row_change *change, const struct value *values)
{
	bool there = true;
	for (size_t i = 0; i < change->count; i++) {
		there = there && (change->key[i] == 0 || values[i].held != HELD_NOTHING);
	}
	return there;
}

static bool
tell_difference(struct against_journal *against, const struct table_shape *shape,
    const unsigned char *key, const struct value *values, struct fault *fault)
{
	struct row_change change = {
	    .table = shape->name, .count = shape->count, .key = key};
	bool made = is_there(&change, values);
	bool found = is_there(&change, values + shape->count);
	change.was = made ? values : NULL;
	change.is = found ? values + shape->count : NULL;
	change.act = !made ? JOURNAL_ADDED : !found ? JOURNAL_REMOVED : JOURNAL_CHANGED;
	return change.act == JOURNAL_CHANGED
		   ? tell_columns(against, &change, shape, fault)
		   : tell_row(against, &change, shape, fault);
}

static bool
compare_table(
    struct against_journal *against, const struct table_shape *shape, struct fault *fault)
{
	SCOPED_CALL call = {0};
	SCOPED_TEXT sql = {0};
	struct arena *kept = &against->wording.kept;
	struct value *values = arena_alloc(kept, 2 * shape->count * sizeof *values);
	unsigned char *key = arena_alloc(kept, shape->count);
	bool row = true;
	for (size_t i = 0; i < shape->count; i++) {
		key[i] = (unsigned char)shape->columns[i].key;
	}
	write_comparison(shape, &sql);
	if (!call_open_text(against->anew, text_string(&sql), &call, fault)) {
		return false;
	}
	while (call_row(&call, &row, fault) && row) {
		for (size_t i = 0; i < 2 * shape->count; i++) {
			values[i] = take_value(&call);
		}
		if (!tell_difference(against, shape, key, values, fault)) {
			return false;
		}
		arena_reset(&against->wording.passing);
	}
	return !row;
}

static bool
compare_all(struct against_journal *against, struct fault *fault)
{
	bool done = true;
	for (size_t i = 0; done && i < TABLE_COUNT; i++) {
		done = TABLES[i].kept != KEEPING_TOLD ||
		       compare_table(against, &TABLES[i], fault);
	}
	return done;
}

bool
differing_by_journal(
    struct book *book, struct arena *arena, struct differing *out, struct fault *fault)
{
	struct against_journal against = {
	    .wording = {.book = book}, .arena = arena, .out = out};
	bool done = make_anew(book, &against.anew, fault) && compare_all(&against, fault);
	wording_clear(&against.wording);
	book_close(against.anew);
	return done;
}
