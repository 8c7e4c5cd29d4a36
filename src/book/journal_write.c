/* Writing the entry of a transaction. */
#include "base/text.h"
#include "book/check_inside.h"
#include "book/journal_inside.h"
#include "book/reckoned.h"
#include "book/rows.h"

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

/* SQLite's own limit of a value, as it is built everywhere. */
enum { CHANGES_LONGEST = 1000000000 };

/* What an entry in pieces has in its own row: a byte with which no entry begins. */
#define IN_PIECES "\x02"

/* The work on one entry. */
struct journal_writing {
	struct row_wording wording;
	const struct table_shape *shape; /* of the last change; NULL for none yet */
	struct guarding guarding;        /* what the changes told of touch */
	struct entry_lines lines;
	struct entry_pieces pieces; /* its bytes, where they are not in one */
	struct text field, all;     /* of the row at hand; owned */
};

static bool
tell_whole(struct journal_writing *writing, const struct table_shape *shape,
    const struct value *row, enum journal_act act, struct fault *fault)
{
	struct text *field = &writing->field;
	struct text *all = &writing->all;
	struct row_subject subject = {0};
	text_reset(field);
	text_reset(all);
	if (!row_subject(&writing->wording, shape, row, &subject, fault) ||
	    !row_in_words(&writing->wording, shape, row, &subject, all, fault)) {
		return false;
	}
	add_row_part(shape, &subject, field);
	bool added = act == JOURNAL_ADDED;
	const struct journal_line line = {subject.about, subject.name, subject.kind,
	    subject.serial, act, text_string(field), added ? "" : text_string(all),
	    added ? text_string(all) : ""};
	return entry_lines_add(&writing->lines, &line, fault);
}

static bool
tell_column(struct journal_writing *writing, const struct table_shape *shape,
    const struct row_change *change, size_t column, const struct row_subject *subject,
    struct fault *fault)
{
	const char *was = "";
	const char *became = "";
	/* an unchanged number of another row: its name need not be looked up */
	if (shape->columns[column].refers != NULL &&
	    value_same(&change->was[column], &change->is[column])) {
		return true;
	}
	if (shape->columns[column].silent ||
	    !value_words(&writing->wording, shape, change->was, column, &was, fault) ||
	    !value_words(&writing->wording, shape, change->is, column, &became, fault) ||
	    strcmp(was, became) == 0) {
		return shape->columns[column].silent || strcmp(was, became) == 0;
	}
	SCOPED_TEXT field = {0};
	add_row_part(shape, subject, &field);
	text_add(&field, field.length > 0 ? " " : "");
	add_column_label(shape->columns[column].name, &field);
	const struct journal_line line = {subject->about, subject->name, subject->kind,
	    subject->serial, JOURNAL_CHANGED, text_string(&field), was, became};
	return entry_lines_add(&writing->lines, &line, fault);
}

static bool
tell_update(struct journal_writing *writing, const struct table_shape *shape,
    const struct row_change *change, struct fault *fault)
{
	struct row_subject subject = {0};
	if (!row_subject(&writing->wording, shape, change->is, &subject, fault)) {
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
	if (writing->shape == NULL || writing->shape->name != change->table) {
		writing->shape = shape_find(&writing->wording, change->table);
	}
	const struct table_shape *shape = writing->shape;
	writing->wording.of = change->of;
	if (writing->pieces.book != NULL &&
	    !pieces_add(&writing->pieces, change, fault)) {
		return false;
	}
	guard_note(&writing->guarding, shape, change);
	writing->wording.book->sum += change_sum(change);
	switch (change->act) {
	case JOURNAL_ADDED:
		return tell_whole(writing, shape, change->is, JOURNAL_ADDED, fault);
	case JOURNAL_REMOVED:
		return tell_whole(writing, shape, change->was, JOURNAL_REMOVED, fault);
	case JOURNAL_CHANGED:
		break;
	}
	return tell_update(writing, shape, change, fault);
}

/* Adds an entry to the sum of the book: its columns as the schema has them in order. */
static void
sum_head(struct book *book, const struct text *changes, int64_t undoes, int64_t number)
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
	row_sum_bytes(&row, 6, changes->bytes, changes->length);
	book->sum += row.seed + row.values;
}

static bool
write_head(struct book *book, const struct text *changes, int64_t undoes,
    int64_t *number_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	const struct signature *signature = &book->signature;
	if (!call_open(book, JOURNAL_ADD, &call, fault) ||
	    !number_give(&call, NUMBERED_ENTRY, number_out, fault)) {
		return false;
	}
	give_int(&call, signature->at);
	give_int(&call, signature->told);
	give_text(&call, signature->who == NULL ? "" : signature->who);
	give_text(&call, signature->act == NULL ? "" : signature->act);
	undoes == 0 ? give_null(&call) : give_int(&call, undoes);
	/* without changes there are no bytes, which is not NULL */
	give_bytes(&call, text_string(changes), changes->length);
	if (!call_run(&call, fault)) {
		return false;
	}
	sum_head(book, changes, undoes, *number_out);
	book->entering++;
	return true;
}

/* Writes the entry of what was told of; `changes` are its bytes, or say that they are in pieces. */
static bool
write_entry(struct book *book, const struct text *changes, bool in_pieces, int64_t undoes,
    struct fault *fault)
{
	struct journal_writing writing = {
	    .wording = {.book = book}, .lines = {.book = book, .in_pages = in_pieces}};
	bool written = write_head(book, changes, undoes, &writing.lines.number, fault);
	if (in_pieces) {
		pieces_begin(&writing.pieces, book, writing.lines.number);
	}
	written = (written &&
		      collected_each(book, &book->told, &writing.wording.passing,
			  tell_change, &writing, fault) &&
		      entry_lines_end(&writing.lines, fault) &&
		      pieces_write(&writing.pieces, fault)) ||
		  fault_prefix(fault, "writing the journal");
	written = written && guard(book, &writing.guarding, fault);
	guard_clear(&writing.guarding);
	entry_lines_clear(&writing.lines);
	text_clear(&writing.pieces.bytes);
	text_clear(&writing.field);
	text_clear(&writing.all);
	wording_clear(&writing.wording);
	return written;
}

bool
journal_write(struct book *book, int64_t undoes, struct fault *fault)
{
	SCOPED_TEXT changes = {0};
	if (!book->told.listens) {
		return true;
	}
	book->told.listens = false;
	bool in_pieces =
	    book->told.large || collected_touched(&book->told) > TOUCHED_WITHOUT_RUN;
	if (!in_pieces) {
		collected_add(&book->told, &changes);
	} else if (collected_tables(&book->told) > 0) {
		text_add(&changes, IN_PIECES);
	}
	if (changes.length > CHANGES_LONGEST) {
		return fault_set(fault, FAULT_INPUT,
		    "that is more than the journal can hold in one entry; do it in parts");
	}
	bool written =
	    changes.length == 0 || write_entry(book, &changes, in_pieces, undoes, fault);
	collected_clear(&book->told);
	return written;
}

bool
journal_note_too(struct book *book, struct fault *fault)
{
	const struct text nothing = {0};
	int64_t number = 0;
	return write_head(book, &nothing, 0, &number, fault) ||
	       fault_prefix(fault, "writing the journal");
}

bool
book_tell(struct book *book, const struct journal_line *lines, size_t count,
    int64_t *entry_out, struct fault *fault)
{
	const struct text nothing = {0};
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
