#include "desk/questions.h"
#include "page/pieces.h"
#include "page/shell.h"
#include "report/journal_terms.h"

#include <stdlib.h>
#include <string.h>

/* How many lines are shown unfolded. */
enum { LINES_SHOWN = 20 };

static bool
was_sent(const struct tried *tried)
{
	return strcmp(tried->visit->route->method, "POST") == 0;
}

const char *
tried_typed(const struct tried *tried, const char *name, const char *otherwise)
{
	const char *typed = form_value(
	    was_sent(tried) ? &tried->visit->sent : &tried->visit->asked, name);
	return typed == NULL ? otherwise : typed;
}

/* Put before a field's name: the value that the book had when the form was written. */
static const char WAS[] = "was.";

const char *
tried_chosen(const struct tried *tried, const char *name, const char *now)
{
	SCOPED_TEXT before = {0};
	text_add_format(&before, "%s%s", WAS, name);
	const char *was = tried_typed(tried, text_string(&before), now);
	const char *typed = tried_typed(tried, name, now);
	return strcmp(typed, was) == 0 ? now : typed;
}

void
tried_was(const struct tried *tried, const char *name, const char *now)
{
	SCOPED_TEXT before = {0};
	text_add_format(&before, "%s%s", WAS, name);
	shell_hidden(tried->visit, text_string(&before), now);
}

static void
write_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *value)
{
	bool wrong = tried->why != NULL && strcmp(tried->wrong, name) == 0;
	SHELL_FIELD(tried->visit, .name = name, .label = label, .value = value,
	    .mode = mode, .wrong = wrong ? tried->why : NULL);
}

void
tried_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *otherwise)
{
	write_field(tried, name, label, mode, tried_typed(tried, name, otherwise));
}

void
tried_kept_field(const struct tried *tried, const char *name, const char *label,
    const char *mode, const char *now)
{
	tried_was(tried, name, now);
	write_field(tried, name, label, mode, tried_chosen(tried, name, now));
}

bool
tried_refused(struct tried *tried, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	if (fault->kind == FAULT_BOOK || fault->kind == FAULT_FILE) {
		return false;
	}
	page_words(fault->text, &words);
	tried->why = arena_string(&tried->visit->arena, text_string(&words));
	text_reset(&tried->said);
	*fault = (struct fault){0};
	return true;
}

static bool
is_about(const struct tried_about *about, size_t count, const struct journal_line *line)
{
	bool is = false;
	for (size_t i = 0; i < count && !is; i++) {
		is = strcmp(line->about, about[i].about) == 0 &&
		     strncmp(line->field, about[i].field, strlen(about[i].field)) == 0 &&
		     (about[i].name == NULL || strcmp(line->name, about[i].name) == 0);
	}
	return is;
}

static void
add_entry(struct tried *tried, const struct tried_about *about, size_t count,
    const struct journal_entry *entry)
{
	const struct journal_speech speech = {
	    tried->visit->desk.contents.inventory.currency,
	    tried->visit->desk.engine.kinds};
	size_t told = 0;
	SCOPED_TEXT words = {0};
	if (entry->number <= tried->last) {
		return;
	}
	for (size_t i = 0; i < entry->line_count; i++) {
		if (is_about(about, count, &entry->lines[i])) {
			text_add(&words, told++ == 0 ? ": " : "; ");
			journal_line_words(&speech, &entry->lines[i], &words);
		}
	}
	if (told > 0) {
		meanwhile_entry(entry, &tried->meanwhile);
		text_add(&tried->meanwhile, text_string(&words));
		text_add_byte(&tried->meanwhile, '\n');
	}
}

bool
tried_look(struct tried *tried, const struct tried_about *about, size_t count,
    struct fault *fault)
{
	struct journal journal = {0};
	const struct journal_query query = {.about = about->name, .since = DAY_NONE};
	if (!page_journal(&tried->visit->desk, &query, &journal, fault)) {
		return false;
	}
	const char *seen = tried_typed(tried, "last", "");
	bool sent = was_sent(tried) && seen[0] != '\0';
	tried->last = sent ? strtoll(seen, NULL, 10) : INT64_MAX;
	for (size_t i = 0; i < journal.count; i++) {
		add_entry(tried, about, count, &journal.entries[i]);
	}
	tried->last = journal.count == 0 ? 0 : journal.entries[journal.count - 1].number;
	return true;
}

/* Shows the first lines, and the rest folded. */
static void
write_lines(struct markup *markup, const char *lines)
{
	const char *rest = lines;
	size_t count = 0;
	for (const char *at = lines; *at != '\0'; at++) {
		count += *at == '\n' ? 1 : 0;
		rest = count <= LINES_SHOWN ? at + 1 : rest;
	}
	SCOPED_TEXT first = {0};
	text_add_bytes(&first, lines, (size_t)(rest - lines));
	text_lines(markup, text_string(&first));
	if (*rest == '\0') {
		return;
	}
	markup_begin(markup, "details");
	markup_element_format(
	    markup, "summary", NULL, "and %zu more", count - LINES_SHOWN);
	text_lines(markup, rest);
	markup_end(markup);
}

static void
write_outcome(const struct tried *tried)
{
	struct markup *markup = tried->visit->markup;
	if (tried->meanwhile.length > 0) {
		markup_element(markup, "p", NULL,
		    "Another wrote about it since you saw it. Nothing of yours is saved yet:");
		write_lines(markup, text_string(&tried->meanwhile));
	}
	if (tried->why != NULL) {
		markup_element(markup, "p", "caution", tried->why);
	} else if (tried->said.length > 0) {
		if (tried->meanwhile.length > 0) {
			markup_element(markup, "p", NULL, "Yours, on top of that:");
		}
		write_lines(markup, text_string(&tried->said));
		if (tried->notes.length > 0) {
			markup_element(markup, "p", "soft", "Look twice:");
			text_lines(markup, text_string(&tried->notes));
		}
	} else {
		markup_element(
		    markup, "p", "soft", "Nothing is written before you have seen it.");
	}
}

void
tried_box(const struct tried *tried, const char *saving)
{
	struct visit *visit = tried->visit;
	struct markup *markup = visit->markup;
	char digest[PAGE_DIGEST_SIZE];
	bool can = tried->said.length > 0;
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%lld", (long long)tried->last);
	shell_hidden(visit, "last", text_string(&words));
	markup_begin_class(markup, "div", "change");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, "What saving changes");
	markup_end(markup);
	write_outcome(tried);
	markup_begin_class(markup, "div", "acts");
	if (can) {
		shell_hidden(
		    visit, "seen", page_digest(text_string(&tried->said), digest));
		text_reset(&words);
		text_add_format(&words, "Save: %s", saving);
		shell_button(visit, true, "act", "save", text_string(&words));
	}
	shell_button(
	    visit, !can, "act", "look", can ? "Reckon again" : "See what it changes");
	markup_ends(markup, 2);
}

int
tried_status(const struct tried *tried)
{
	return tried->why != NULL ? 400 : tried->meanwhile.length > 0 ? 409 : 0;
}

void
tried_close(const struct tried *tried, const char *back, const char *path)
{
	struct visit *visit = tried->visit;
	SCOPED_TEXT words = {0};
	text_add_format(&words, "Back to %s, nothing changed", back);
	markup_begin(visit->markup, "p");
	shell_link(visit, "go", text_string(&words), "%s", path);
	markup_ends(visit->markup, 3);
	shell_close(visit);
}

bool
tried_holds(const struct tried *tried)
{
	char digest[PAGE_DIGEST_SIZE];
	return was_sent(tried) && tried->said.length > 0 &&
	       tried->meanwhile.length == 0 &&
	       strcmp(tried_typed(tried, "act", ""), "save") == 0 &&
	       strcmp(page_digest(text_string(&tried->said), digest),
		   tried_typed(tried, "seen", "")) == 0;
}

void
tried_clear(struct tried *tried)
{
	text_clear(&tried->said);
	text_clear(&tried->notes);
	text_clear(&tried->meanwhile);
}

void
meanwhile_entry(const struct journal_entry *entry, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	int minute = (int)(entry->at / 60 % 1440);
	text_add_format(out, "changed on %s at %02d:%02d UTC by %s",
	    day_words((day_t)(entry->at / 86400), day), minute / 60, minute % 60,
	    entry->who[0] != '\0' ? entry->who : "somebody");
}

bool
meanwhile_last(struct desk *desk, const char *tag, struct text *out, struct fault *fault)
{
	struct journal journal = {0};
	const struct journal_query query = {.about = tag, .since = DAY_NONE};
	if (!desk_journal(desk, &query, &journal, fault)) {
		return false;
	}
	if (journal.count == 0 || journal.damaged_count > 0) {
		text_add(out, "changed");
		return true;
	}
	meanwhile_entry(&journal.entries[journal.count - 1], out);
	return true;
}
