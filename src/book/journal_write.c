/* Writing the entry of a transaction. */
#include "base/text.h"
#include "book/collect.h"
#include "book/guard.h"
#include "book/journal_lines.h"
#include "book/reckoned.h"
#include "book/sums.h"

#include <string.h>

bool
book_sign(struct book *book, const struct signature *signature, struct fault *fault)
{
	if (!utf8_valid(signature->who, strlen(signature->who)) ||
	    !utf8_valid(signature->act, strlen(signature->act))) {
		return fault_set(
		    fault, FAULT_INPUT, "the journal's signature is not valid UTF-8");
	}
	const char *who = arena_string(&book->signing, signature->who);
	const char *act = arena_string(&book->signing, signature->act);
	book->signature = (struct signature){who, act, signature->at, signature->told};
	return true;
}

/* The work on one entry. */
struct journal_writing {
	struct row_wording wording;
	struct guarding guarding; /* what the changes told of touch */
	struct entry_lines lines;
};

static bool
tell_whole(struct journal_writing *writing, const struct table_shape *shape,
    const struct row *row, enum journal_act act, struct fault *fault)
{
	SCOPED_TEXT field = {0};
	SCOPED_TEXT all = {0};
	struct row_subject subject = {0};
	if (!row_subject(&writing->wording, shape, row, &subject, fault) ||
	    !row_in_words(&writing->wording, shape, row, &subject, &all, fault)) {
		return false;
	}
	add_row_part(shape, &subject, &field);
	bool added = act == JOURNAL_ADDED;
	const struct journal_line line = {subject.about, subject.name, subject.kind,
	    subject.serial, act, text_string(&field), added ? "" : text_string(&all),
	    added ? text_string(&all) : ""};
	return entry_lines_add(&writing->lines, &line, fault);
}

/* True for a number of something else that is as it was: its name need not be asked. */
static bool
is_same_reference(
    const struct column *about, const struct row_change *change, size_t column)
{
	const char *was = change->old.values[column];
	const char *is = change->new.values[column];
	return about->refers[0] != '\0' && was != NULL && is != NULL &&
	       strcmp(was, is) == 0;
}

static bool
tell_column(struct journal_writing *writing, const struct table_shape *shape,
    const struct row_change *change, size_t column, const struct row_subject *subject,
    struct fault *fault)
{
	const char *was = "";
	const char *became = "";
	if (is_same_reference(&shape->columns[column], change, column)) {
		return true;
	}
	if (shape->columns[column].silent ||
	    !value_words(&writing->wording, shape, &change->old, column, &was, fault) ||
	    !value_words(
		&writing->wording, shape, &change->new, column, &became, fault) ||
	    strcmp(was, became) == 0) {
		return shape->columns[column].silent || strcmp(was, became) == 0;
	}
	SCOPED_TEXT field = {0};
	add_row_part(shape, subject, &field);
	text_add(&field, field.length > 0 ? " " : "");
	text_add(&field, shape->columns[column].label);
	const struct journal_line line = {subject->about, subject->name, subject->kind,
	    subject->serial, JOURNAL_CHANGED, text_string(&field), was, became};
	return entry_lines_add(&writing->lines, &line, fault);
}

static bool
tell_update(struct journal_writing *writing, const struct table_shape *shape,
    const struct row_change *change, struct fault *fault)
{
	struct row_subject subject = {0};
	if (!row_subject(&writing->wording, shape, &change->new, &subject, fault)) {
		return false;
	}
	for (size_t i = 0; i < shape->count; i++) {
		if (!tell_column(writing, shape, change, i, &subject, fault)) {
			return false;
		}
	}
	return true;
}

static bool
tell_change(const struct row_change *change, void *context, struct fault *fault)
{
	struct journal_writing *writing = context;
	struct table_shape *shape = NULL;
	if (!shape_find(&writing->wording, change->table, &shape, fault)) {
		return false;
	}
	guard_note(&writing->guarding, shape, change);
	writing->wording.book->sum += change->sum;
	switch (change->act) {
	case JOURNAL_ADDED:
		return tell_whole(writing, shape, &change->new, JOURNAL_ADDED, fault);
	case JOURNAL_REMOVED:
		return tell_whole(writing, shape, &change->old, JOURNAL_REMOVED, fault);
	case JOURNAL_CHANGED:
		break;
	}
	return tell_update(writing, shape, change, fault);
}

/* Adds an entry to the sum of the book: its columns as the schema has them in order. */
static void
sum_head(
    struct book *book, const struct changeset *changes, int64_t undoes, int64_t number)
{
	const struct signature *signature = &book->signature;
	const char *who = signature->who == NULL ? "" : signature->who;
	const char *act = signature->act == NULL ? "" : signature->act;
	struct row_sum row = row_sum_of("journal");
	row_sum_key(&row, 0, number);
	row_sum_int(&row, 1, signature->at);
	row_sum_int(&row, 2, signature->told);
	row_sum_bytes(&row, 3, who, strlen(who));
	row_sum_bytes(&row, 4, act, strlen(act));
	if (undoes != 0) {
		row_sum_int(&row, 5, undoes);
	}
	row_sum_bytes(&row, 6, changes->bytes, (size_t)changes->size);
	book->sum += row.seed + row.values;
}

static bool
write_head(struct book *book, const struct changeset *changes, int64_t undoes,
    int64_t *number_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	const struct signature *signature = &book->signature;
	if (!call_open(book, JOURNAL_ADD, &call, fault)) {
		return false;
	}
	give_int(&call, signature->at);
	give_int(&call, signature->told);
	give_text(&call, signature->who == NULL ? "" : signature->who);
	give_text(&call, signature->act == NULL ? "" : signature->act);
	undoes == 0 ? give_null(&call) : give_int(&call, undoes);
	/* no changes are no bytes, which is not NULL */
	give_bytes(
	    &call, changes->size == 0 ? "" : changes->bytes, (size_t)changes->size);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*number_out = take_int(&call);
	sum_head(book, changes, undoes, *number_out);
	book->entering++;
	return true;
}

static bool
write_entry(struct book *book, const struct changeset *changes,
    const struct changeset *whole, int64_t undoes, struct fault *fault)
{
	struct journal_writing writing = {
	    .wording = {.book = book}, .lines = {.book = book}};
	/* `whole` has every column of what was changed */
	bool written =
	    write_head(book, changes, undoes, &writing.lines.number, fault) &&
	    changes_each(whole, &writing.wording.passing, tell_change, &writing, fault) &&
	    entry_lines_end(&writing.lines, fault);
	written = written || fault_prefix(fault, "writing the journal");
	written = written && guard(book, &writing.guarding, fault);
	guard_clear(&writing.guarding);
	entry_lines_clear(&writing.lines);
	wording_clear(&writing.wording);
	return written;
}

bool
journal_write(struct book *book, int64_t undoes, struct fault *fault)
{
	SCOPED_CHANGESET changes = {0};
	SCOPED_CHANGESET whole = {0};
	if (book->told.wants == NULL) {
		return true;
	}
	book->told.wants = NULL;
	bool written =
	    collected_changeset(&book->told, false, &changes, fault) &&
	    collected_changeset(&book->told, true, &whole, fault) &&
	    (changes.size == 0 || write_entry(book, &changes, &whole, undoes, fault));
	collected_clear(&book->told);
	return written;
}

bool
journal_note_too(struct book *book, struct fault *fault)
{
	const struct changeset nothing = {0};
	return write_entry(book, &nothing, &nothing, 0, fault);
}

bool
book_tell(struct book *book, const struct journal_line *lines, size_t count,
    int64_t *entry_out, struct fault *fault)
{
	const struct changeset nothing = {0};
	struct entry_lines entry = {.book = book};
	bool told = write_head(book, &nothing, 0, &entry.number, fault);
	for (size_t i = 0; told && i < count; i++) {
		told = entry_lines_add(&entry, &lines[i], fault);
	}
	told = told && entry_lines_end(&entry, fault);
	entry_lines_clear(&entry);
	*entry_out = entry.number;
	return told || fault_prefix(fault, "writing the journal");
}

size_t
book_entries_made(const struct book *book)
{
	return book->entries;
}
