/* Safe-keeping: the last changes, each of which can be taken back, and a copy of the
 * book. */
#include "desk/keeping.h"
#include "desk/questions.h"
#include "page/shell.h"
#include "report/journal_terms.h"

#include <stdlib.h>
#include <string.h>

/* How many entries are shown at once; how many lines and letters of each are shown
 * unfolded; how many lines when it is opened. */
enum { ENTRIES_MOST = 40, LINES_SHOWN = 2, ACT_SHOWN = 80, LINES_MOST = 40 };

/* Adds a time as people read it: "28 Nov 2026, 10:12 UTC"; only the day if only the day
 * was given. */
static void
add_time(const struct journal_entry *entry, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	int minute = (int)(entry->at / 60 % 1440);
	text_add(out, day_words((day_t)(entry->at / 86400), day));
	if (!entry->told) {
		text_add_format(out, ", %02d:%02d UTC", minute / 60, minute % 60);
	}
}

/* What is needed to put a line of the journal, which was read, into words. */
static struct journal_speech
speech_of(struct visit *visit)
{
	struct fault none = {0};
	struct journal_speech speech = {NULL, NULL};
	if (!desk_currency(&visit->desk, &speech.currency, &none) ||
	    !desk_kinds(&visit->desk, &speech.kinds, &none)) {
		speech.kinds = NULL;
	}
	return speech;
}

static void
write_lines(struct visit *visit, const struct journal_entry *entry, size_t most)
{
	struct markup *markup = visit->markup;
	const struct journal_speech speech = speech_of(visit);
	markup_begin_class(markup, "ul", "small");
	for (size_t i = 0; i < entry->line_count && i < most; i++) {
		SCOPED_TEXT words = {0};
		journal_line_words(&speech, &entry->lines[i], &words);
		markup_element(markup, "li", NULL, text_string(&words));
	}
	if (entry->line_count > most) {
		markup_element_format(
		    markup, "li", NULL, "and %zu more", entry->line_count - most);
	}
	markup_end(markup);
}

/* True when the sender may take the entry back: whoever records, only their own; whoever
 * manages, any. */
static bool
may_take_back(const struct visit *visit, const struct journal_entry *entry)
{
	const char *who = visit->session == NULL ? NULL : visit->session->who;
	return visit->right >= RIGHT_MANAGE ||
	       (visit->right >= RIGHT_RECORD && who != NULL &&
		   strcmp(who, entry->who) == 0);
}

/* Answers a request to take back somebody else's entry by a person who may not. */
static bool
is_anothers(struct visit *visit, const struct journal_entry *entry)
{
	if (may_take_back(visit, entry)) {
		return false;
	}
	shell_words(visit, 403, "This is not yours to do",
	    "It is another's entry: who wrote it, or who keeps the book, can take it back.");
	return true;
}

static void
write_state(struct visit *visit, const struct journal_entry *entry)
{
	struct markup *markup = visit->markup;
	markup_begin(markup, "div");
	if (entry->undone_by != 0) {
		markup_element_format(markup, "span", "soft", "taken back by entry %lld",
		    (long long)entry->undone_by);
	} else if (entry->line_count > 0 && may_take_back(visit, entry)) {
		markup_begin_class(markup, "a", "button");
		markup_attribute_format(
		    markup, "href", "/safe/%lld", (long long)entry->number);
		markup_text(markup, "Take it back");
		markup_element_format(
		    markup, "span", "vh", ": entry %lld", (long long)entry->number);
		markup_end(markup);
	}
	markup_end(markup);
}

/* True when the entry was written by a command, whose options are not for reading. */
static bool
was_typed(const struct journal_entry *entry)
{
	return strncmp(entry->act, PAGE_ACT, strlen(PAGE_ACT)) != 0 &&
	       entry->line_count > 0;
}

/* What was done, in the page's words or as it was typed. */
static const char *
act_of(const struct journal_entry *entry)
{
	bool here = strncmp(entry->act, PAGE_ACT, strlen(PAGE_ACT)) == 0;
	return entry->act + (here ? strlen(PAGE_ACT) : 0);
}

static void
write_typed(struct markup *markup, const struct journal_entry *entry)
{
	markup_begin_class(markup, "p", "small soft");
	markup_text(markup, "Typed: ");
	markup_element(markup, "code", NULL, entry->act);
	markup_end(markup);
}

/* True when the entry began the book, which then has nothing but its identity. */
static bool
began_book(const struct journal_entry *entry)
{
	static const char COMMAND[] = "book new";
	return strncmp(entry->act, COMMAND, strlen(COMMAND)) == 0;
}

/* What was done, if that is short; for a command typed at a terminal, the first thing it
 * changed. The rest is shown when the entry is opened. */
static void
write_act(struct visit *visit, const struct journal_entry *entry)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT all = {0};
	SCOPED_TEXT words = {0};
	if (began_book(entry)) {
		text_add(&all, "The book was begun");
	} else if (was_typed(entry)) {
		const struct journal_speech speech = speech_of(visit);
		journal_line_words(&speech, &entry->lines[0], &all);
	} else {
		text_add(&all, act_of(entry));
	}
	size_t length = all.length;
	const char *string = text_string(&all);
	if (length > ACT_SHOWN) {
		length = ACT_SHOWN;
		while (length > 0 && string[length] != ' ') {
			length--;
		}
	}
	text_add_bytes(&words, string, length);
	text_add(&words, string[length] != '\0' ? " ..." : "");
	markup_element(markup, "b", NULL, text_string(&words));
	markup_element_format(markup, "span", "soft", " by %s%s%s",
	    entry->who[0] != '\0' ? entry->who : "somebody",
	    was_typed(entry) ? ", at a terminal" : "",
	    entry->undoes != 0 ? "; takes back an earlier entry" : "");
}

/* What it changed; a long list is folded. */
static void
write_changed(struct visit *visit, const struct journal_entry *entry)
{
	struct markup *markup = visit->markup;
	bool typed = was_typed(entry);
	if (!typed && entry->line_count <= LINES_SHOWN &&
	    strlen(entry->act) <= ACT_SHOWN) {
		write_lines(visit, entry, LINES_SHOWN);
		return;
	}
	markup_begin(markup, "details");
	markup_element_format(markup, "summary", NULL, "%zu change%s in it",
	    entry->line_count, entry->line_count == 1 ? "" : "s");
	write_lines(visit, entry, LINES_MOST);
	if (typed) {
		write_typed(markup, entry);
	} else if (strlen(entry->act) > ACT_SHOWN) {
		markup_element(markup, "p", "small", act_of(entry));
	}
	markup_end(markup);
}

static void
write_entry(struct visit *visit, const struct journal_entry *entry)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT time = {0};
	add_time(entry, &time);
	markup_begin_class(markup, "li", "row");
	markup_element(markup, "div", "k", text_string(&time));
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "div");
	write_act(visit, entry);
	write_changed(visit, entry);
	markup_end(markup);
	write_state(visit, entry);
	markup_ends(markup, 2);
}

bool
page_safe(struct visit *visit, struct fault *fault)
{
	const struct journal_query query = {.since = DAY_NONE, .lines_most = LINES_MOST};
	struct journal journal = {0};
	SCOPED_TEXT say = {0};
	SCOPED_TEXT margin = {0};
	if (!desk_journal(&visit->desk, &query, &journal, fault)) {
		return false;
	}
	text_add_format(
	    &margin, "%zu change%s", journal.count, journal.count == 1 ? "" : "s");
	if (journal.count > 0) {
		const struct journal_entry *last = &journal.entries[journal.count - 1];
		text_add(&say, "The last change was on ");
		add_time(last, &say);
		text_add_format(&say,
		    ", by %s. Each can be taken back, and so can the taking back.",
		    last->who[0] != '\0' ? last->who : "somebody");
	}
	SHELL_OPEN(visit, .title = "Safe-keeping", .margin = text_string(&margin),
	    .say = journal.count > 0 ? text_string(&say) : "Nothing was changed yet.");
	page_journal_caution(visit, &journal);
	page_copy_section(visit, &journal);
	page_move_section(visit);
	shell_section(visit, NULL, NULL, "Where the dates come from");
	markup_element(visit->markup, "p", NULL,
	    "Every figure has its source, how binding it is, and the pieces here it holds for.");
	markup_begin(visit->markup, "p");
	shell_link(visit, "go", "The rule sheets", "/sheets");
	markup_ends(visit->markup, 3);
	shell_rows(visit, "the last first", "What was changed");
	for (size_t i = 0; i < journal.count && i < ENTRIES_MOST; i++) {
		write_entry(visit, &journal.entries[journal.count - 1 - i]);
	}
	markup_ends(visit->markup, 2);
	shell_close(visit);
	return true;
}

/* The number of the entry that the address names; 0 for none. */
static int64_t
number_of(const struct visit *visit)
{
	bool digits = strspn(visit->rest, "0123456789") == strlen(visit->rest);
	return digits && strlen(visit->rest) < 19 ? strtoll(visit->rest, NULL, 10) : -1;
}

/* What taking it back would write, tried on a copy of the book. */
static void
write_trial(struct visit *visit)
{
	SCOPED_DESK trial = {0};
	struct fault refused = {0};
	struct journal journal = {0};
	struct journal_query query = {.since = DAY_NONE};
	struct markup *markup = visit->markup;
	SCOPED_TEXT words = {0};
	int64_t undone = 0;
	page_try(visit, &trial);
	bool can =
	    desk_undo(&trial, number_of(visit), &undone, &query.number, &refused) &&
	    desk_journal(&trial, &query, &journal, &refused);
	markup_begin_class(markup, "div", "change");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL, "What taking it back changes");
	markup_end(markup);
	if (can && journal.count > 0) {
		write_lines(visit, &journal.entries[0], SIZE_MAX);
		markup_begin_class(markup, "div", "acts");
		shell_button(visit, true, "save", "yes", "Take it back");
		markup_end(markup);
	} else {
		page_words(refused.text, &words);
		markup_element(markup, "p", "caution", text_string(&words));
	}
	markup_end(markup);
}

/* The entry that the address names. */
static bool
find_entry(struct visit *visit, struct journal *out, struct fault *fault)
{
	const struct journal_query query = {
	    .since = DAY_NONE, .number = number_of(visit)};
	if (!page_journal(&visit->desk, &query, out, fault)) {
		return false;
	}
	return out->count > 0 || fault_set(fault, FAULT_INPUT, "there is no such entry");
}

bool
page_take_back(struct visit *visit, struct fault *fault)
{
	struct journal journal = {0};
	SCOPED_TEXT path = {0};
	SCOPED_TEXT say = {0};
	SCOPED_TEXT margin = {0};
	if (!find_entry(visit, &journal, fault)) {
		return false;
	}
	const struct journal_entry *entry = &journal.entries[0];
	if (is_anothers(visit, entry)) {
		return true;
	}
	text_add_format(&margin, "entry %lld", (long long)entry->number);
	text_add_format(&say, "%s, by %s, on ",
	    was_typed(entry) ? "What was typed at a terminal" : act_of(entry),
	    entry->who[0] != '\0' ? entry->who : "somebody");
	add_time(entry, &say);
	text_add_byte(&say, '.');
	SHELL_OPEN(visit, .title = "Take it back", .margin = text_string(&margin),
	    .say = text_string(&say));
	shell_section(visit, NULL, NULL, "What it changed");
	write_lines(visit, entry, SIZE_MAX);
	if (was_typed(entry)) {
		write_typed(visit->markup, entry);
	}
	text_add_format(&path, "/safe/%lld", (long long)entry->number);
	shell_form(visit, text_string(&path), NULL);
	write_trial(visit);
	markup_end(visit->markup);
	markup_begin(visit->markup, "p");
	shell_link(visit, "go", "Back to safe-keeping, nothing changed", "/safe");
	markup_ends(visit->markup, 3);
	shell_close(visit);
	return true;
}

bool
page_taken_back(struct visit *visit, struct fault *fault)
{
	struct desk desk = {0};
	struct journal journal = {0};
	int64_t undone = 0;
	int64_t entry = 0;
	if (!find_entry(visit, &journal, fault)) {
		return false;
	}
	if (is_anothers(visit, &journal.entries[0])) {
		return true;
	}
	page_write(visit, &desk, "take back entry %lld", (long long)number_of(visit));
	bool done = desk_undo(&desk, number_of(visit), &undone, &entry, fault);
	if (done) {
		page_say(visit, "Entry %lld is taken back, which is entry %lld.",
		    (long long)undone, (long long)entry);
		page_go(visit, "/safe");
	}
	page_done(visit, &desk);
	return done;
}
