/* Transactions: whole ones, and parts of one that is open. */
#include "base/memory.h"
#include "base/text.h"
#include "book/check_inside.h"
#include "book/rows.h"

#include <string.h>

/* Sets what the program says should memory run out from here on. */
static void
note_changed(const struct book *book)
{
	if (!book->aside) {
		memory_tell("The book had been changed by then and is whole; \"becket "
			    "book journal\" tells what was written.");
	}
}

/* Begins to write, and to watch; nothing is open when that fails. */
static bool
transaction_open(struct book *book, struct fault *fault)
{
	if (!call_plain(book, BEGIN_WRITING, fault)) {
		return false;
	}
	book->total = database_changes(book->database);
	book->entering = 0;
	book->touched = 0;
	book->found = (struct item_found){0};
	book->as_of = -1;
	book->numbered = false;
	book->sum = 0;
	journal_watch(book);
	return true;
}

/* Ends the transaction that is open: raises the revision where it changed something, writes its
 * entry, and commits. */
static bool
transaction_keep(struct book *book, struct fault *fault)
{
	bool changed = database_changes(book->database) != book->total;
	if (book->spoilt) {
		return fault_set(fault, FAULT_BOOK,
		    "a part of the change failed, so nothing of it is written");
	}
	if (book->strange) {
		return fault_set(fault, FAULT_BOOK,
		    "a table of the book is not as this program makes it, so nothing is "
		    "written; \"becket book check\" looks the book over");
	}
	if (!journal_write(book, 0, fault) || (changed && !revision_raise(book, fault)) ||
	    !call_plain(book, COMMIT, fault)) {
		return false;
	}
	journal_forget(book);
	book->entries += book->entering;
	book->entering = 0;
	return true;
}

bool
writing_begin(struct book *book, struct writing *writing_out, struct fault *fault)
{
	bool whole = !book->begun;
	if (whole && !transaction_open(book, fault)) {
		return false;
	}
	*writing_out = (struct writing){.book = book, .whole = whole};
	return true;
}

bool
writing_keep(struct writing *writing, struct fault *fault)
{
	if (writing->whole && !transaction_keep(writing->book, fault)) {
		return false;
	}
	if (writing->whole) {
		note_changed(writing->book);
	}
	writing->book = NULL;
	return true;
}

void
writing_undo(struct writing *writing)
{
	struct fault ignored = {0};
	if (writing->book == NULL) {
		return;
	}
	/* SQLite may have rolled back by itself (disk full); nothing is left to undo then. */
	if (writing->whole) {
		journal_forget(writing->book);
		(void)!call_plain(writing->book, ROLLBACK, &ignored);
	} else {
		writing->book->spoilt = true;
	}
	writing->book = NULL;
}

bool
journal_note(struct book *book, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	return writing_begin(book, &writing, fault) && journal_note_too(book, fault) &&
	       writing_keep(&writing, fault);
}

static bool
begin(struct book *book, bool reading, struct fault *fault)
{
	if (book->begun) {
		return fault_set(fault, FAULT_BOOK, "a transaction is open already");
	}
	if (!(reading ? call_plain(book, BEGIN_READING, fault)
		      : transaction_open(book, fault))) {
		return fault_prefix(fault, "opening a transaction");
	}
	book->begun = true;
	return true;
}

bool
book_begin(struct book *book, struct fault *fault)
{
	return begin(book, book->alone || database_only_reads(book->database), fault);
}

bool
book_begin_reading(struct book *book, struct fault *fault)
{
	return begin(book, true, fault);
}

bool
book_begin_as_of(
    struct book *book, int64_t revision, bool *stale_out, struct fault *fault)
{
	int64_t now = 0;
	if (!book_begin(book, fault)) {
		return false;
	}
	if (!numbers_read(book, &now, fault)) {
		book_rollback(book);
		return false;
	}
	*stale_out = now != revision;
	book->as_of = now;
	if (*stale_out) {
		book_rollback(book);
	}
	return true;
}

bool
book_revision(struct book *book, int64_t *out, struct fault *fault)
{
	return call_number(book, REVISION_GET, out, fault) &&
	       (*out > 0 || fault_set(fault, FAULT_BOOK, "the book has no revision"));
}

bool
book_enter(struct book *book, struct fault *fault)
{
	return journal_write(book, 0, fault) || fault_prefix(fault, "writing the book");
}

bool
book_commit(struct book *book, struct fault *fault)
{
	if (!book->begun) {
		return fault_set(fault, FAULT_BOOK, "no transaction is open");
	}
	if (!transaction_keep(book, fault)) {
		return fault_prefix(fault, "writing the book");
	}
	book->begun = false;
	note_changed(book);
	return true;
}

void
book_rollback(struct book *book)
{
	struct fault ignored = {0};
	if (!book->begun) {
		return;
	}
	journal_forget(book);
	(void)!call_plain(book, ROLLBACK, &ignored);
	book->begun = false;
	(void)!identity_read(book, &ignored);
}

bool
name_check(const char *what, const char *name, struct fault *fault)
{
	if (name == NULL || name[strspn(name, " ")] == '\0') {
		return fault_set(
		    fault, FAULT_INPUT, "%s is blank; expected a name", what);
	}
	if (!utf8_valid(name, strlen(name))) {
		return fault_set(fault, FAULT_INPUT, "%s is not valid UTF-8", what);
	}
	for (const char *at = name; *at != '\0'; at++) {
		if ((unsigned char)*at < ' ' || *at == 0x7f) {
			return fault_set(fault, FAULT_INPUT,
			    "%s has a control character (byte %d)", what,
			    (int)(at - name) + 1);
		}
	}
	return true;
}

bool
name_check_new(const char *what, const char *name, size_t most, struct fault *fault)
{
	if (!name_check(what, name, fault)) {
		return false;
	}
	const char *hidden = utf8_hidden(name);
	if (hidden != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "%s has a character that can't be seen or that turns the direction of "
		    "writing (byte %d); expected none",
		    what, (int)(hidden - name) + 1);
	}
	if (utf8_count(name) > most) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is of %zu characters, expected no more than %zu", what,
		    utf8_count(name), most);
	}
	return true;
}
