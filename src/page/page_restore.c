/* A copy replaces the book, or begins one. What is in it is shown beside what is here
 * before anything is changed, and what is here is kept. */
#include "desk/keeping.h"
#include "desk/questions.h"
#include "page/shell.h"

#include <string.h>

/* What is shown of a book. */
struct held_book {
	size_t boats;
	size_t pieces;
	struct journal journal;
};

static bool
look(struct desk *desk, struct held_book *out, struct fault *fault)
{
	const struct journal_query all = {.since = DAY_NONE, .lines_most = 1};
	if (!desk_load(desk, NULL, true, fault) ||
	    !page_journal(desk, &all, &out->journal, fault)) {
		return false;
	}
	out->boats = desk->contents.inventory.vessel_count;
	out->pieces = desk->contents.inventory.item_count;
	return true;
}

static void
add_told(const char *what, const struct held_book *told, struct text *out)
{
	const struct journal *journal = &told->journal;
	char day[DAY_WORDS_SIZE];
	text_add_format(out, "%s has %zu boat%s and %zu piece%s", what, told->boats,
	    told->boats == 1 ? "" : "s", told->pieces, told->pieces == 1 ? "" : "s");
	if (journal->count > 0) {
		const struct journal_entry *last = &journal->entries[journal->count - 1];
		bool here = strncmp(last->act, PAGE_ACT, strlen(PAGE_ACT)) == 0;
		text_add_format(out, "; its last change was on %s%s%s",
		    day_words((day_t)(last->at / 86400), day), here ? ", " : "",
		    here ? last->act + strlen(PAGE_ACT) : "");
	}
	text_add(out, ".\n");
}

/* True when the same change is in the other journal. */
static bool
has_entry(const struct journal *journal, const struct journal_entry *entry)
{
	for (size_t i = 0; i < journal->count; i++) {
		const struct journal_entry *other = &journal->entries[i];
		if (other->number == entry->number) {
			return other->at == entry->at &&
			       strcmp(other->act, entry->act) == 0;
		}
	}
	return false;
}

/* What putting it back would change, a line each. */
static void
add_difference(
    const struct held_book *here, const struct held_book *copy, struct text *out)
{
	size_t lost = 0;
	add_told("The copy", copy, out);
	add_told("The book as it is here", here, out);
	for (size_t i = 0; i < here->journal.count; i++) {
		lost += !has_entry(&copy->journal, &here->journal.entries[i]);
	}
	if (lost == 0) {
		text_add(out, "Every change that is in the book here is in the copy.\n");
	} else {
		text_add_format(out,
		    "%zu change%s that %s in the book here %s not in the copy.\n", lost,
		    lost == 1 ? "" : "s", lost == 1 ? "is" : "are",
		    lost == 1 ? "is" : "are");
	}
	text_add(out, "The book as it is here is kept beside it first.\n");
}

/* Reads the copy and what is here, each through a desk that is closed again: nobody may
 * have the book open while it is put back. */
static bool
reckon(struct visit *visit, const char *path, struct text *out, struct fault *fault)
{
	SCOPED_DESK copy = {0};
	SCOPED_DESK here = {0};
	struct held_book copy_told = {0};
	struct held_book here_told = {0};
	page_look(visit, &copy);
	page_look(visit, &here);
	copy.book_path = path;
	bool done = look(&copy, &copy_told, fault);
	if (!done) {
		/* the fault names a temporary path, which means nothing to the sender */
		(void)fault_set(fault, FAULT_INPUT,
		    "this file is no copy of a book that can be put back, or it is damaged; "
		    "nothing was changed");
	}
	if (done && !desk_has_book(&here)) {
		add_told("The copy", &copy_told, out);
		text_add(out, "There is no book here yet: the copy becomes it.\n");
	} else if (done && look(&here, &here_told, fault)) {
		add_difference(&here_told, &copy_told, out);
	} else if (done) {
		*fault = (struct fault){0};
		add_told("The copy", &copy_told, out);
		text_add(out,
		    "The book as it is here can't be read; it is kept beside it "
		    "first.\n");
	}
	return done;
}

static void
show(struct visit *visit, const char *said)
{
	struct markup *markup = NULL;
	char digest[PAGE_DIGEST_SIZE];
	SHELL_OPEN(visit, .title = "Put a copy back",
	    .say = "Look whether this is the copy you mean; nothing is changed yet.");
	markup = visit->markup;
	shell_form(visit, "/restore", "restore");
	shell_hidden(visit, "seen", page_digest(said, digest));
	shell_entry(visit);
	markup_begin_class(markup, "div", "change");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, "What putting it back changes");
	markup_end(markup);
	text_lines(markup, said);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, "act", "restore", "Put it in the place of the book");
	shell_button(visit, false, "act", "away", "Leave the book as it is");
	markup_ends(markup, 5);
	shell_close(visit);
}

static bool
restore(struct visit *visit, const char *path, struct fault *fault)
{
	SCOPED_DESK desk = {0};
	struct keeping keeping = {0};
	const struct progress silent = {NULL, NULL};
	page_write(visit, &desk, "put a copy back");
	if (!desk_restore(&desk, path, &silent, &keeping, fault)) {
		return false;
	}
	page_say(visit, "The book is as the copy has it.");
	if (keeping.kept[0] != '\0') {
		page_say(visit, "What was here is kept in %s", keeping.kept);
	}
	for (size_t i = 0; i < keeping.sheet_count; i++) {
		const struct kept_sheet *sheet = &keeping.sheets[i];
		page_say(visit, "Your own rule sheet %s came with it.%s%s", sheet->name,
		    sheet->kept[0] == '\0' ? "" : " Another of that name is kept in ",
		    sheet->kept);
	}
	page_done(visit, &desk);
	text_clear(&visit->session->copy);
	page_go(visit, "/");
	return true;
}

/* Shows what it would change, or does it if that has been shown. */
static bool
answer(struct visit *visit, struct fault *fault)
{
	const struct text *bytes = &visit->session->copy;
	struct brought brought = {0};
	SCOPED_TEXT said = {0};
	char digest[PAGE_DIGEST_SIZE];
	bool done = brought_write(&visit->desk, text_string(bytes), bytes->length,
			&brought, fault) &&
		    reckon(visit, text_string(&brought.path), &said, fault);
	bool seen = done && strcmp(page_digest(text_string(&said), digest),
				page_value(visit, "seen")) == 0;
	if (done && seen && strcmp(page_value(visit, "act"), "restore") == 0) {
		done = restore(visit, text_string(&brought.path), fault);
	} else if (done) {
		show(visit, text_string(&said));
	}
	brought_clear(&brought);
	return done;
}

void
page_restore_form(struct visit *visit)
{
	struct markup *markup = visit->markup;
	shell_file_form(visit, "/restore", "put-back");
	markup_begin_class(markup, "div", "fields");
	shell_file(visit, "copy", "The copy: a file that ends in .db", ".db");
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, false, "act", "look", "Look at the copy");
	markup_ends(markup, 2);
}

bool
page_restore(struct visit *visit, struct fault *fault)
{
	const struct form_field *file = form_file(&visit->sent, "copy");
	struct text *held = &visit->session->copy;
	if (file != NULL) {
		text_reset(held);
		text_add_bytes(held, file->bytes, file->length);
	}
	if (strcmp(page_value(visit, "act"), "away") == 0) {
		text_clear(held);
		page_say(visit, "The copy was put away; the book is as it was.");
		page_go(visit, "/safe");
		return true;
	}
	if (held->length == 0) {
		page_say(visit, "No copy was chosen; the book is as it was.");
		page_go(visit, "/safe");
		return true;
	}
	if (answer(visit, fault)) {
		return true;
	}
	text_clear(held);
	return false;
}
