/* The card of one piece: what was written about it, its papers, and the journal. */
#include "base/numbers.h"
#include "gear/money.h"
#include "page/pieces.h"
#include "page/shell.h"
#include "report/journal_terms.h"
#include "report/words.h"

#include <string.h>

/* The most changes of the journal that a card shows. */
enum { CHANGES_MOST = 12 };

const struct item *
locker_item(const struct visit *visit, const struct locker_piece *piece)
{
	return &visit->desk.contents.inventory.items[piece->item];
}

const char *
locker_currency(const struct visit *visit)
{
	return visit->desk.contents.inventory.currency;
}

static void
write_record(struct visit *visit, const struct record *record)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT done = {0};
	char words[STAMP_TEXT_SIZE];
	char money[MONEY_WORDS_SIZE];
	text_add(&done, task_noun(record->task));
	if (record->next.precision != STAMP_NONE) {
		text_add_format(
		    &done, "; its paper says next %s", stamp_words(record->next, words));
	}
	markup_begin(markup, "tr");
	MARKUP_BEGIN(markup, "th", "day", "scope", "row");
	markup_text(markup, stamp_words(record->on, words));
	markup_end(markup);
	markup_element(markup, "td", NULL, text_string(&done));
	markup_element(markup, "td", NULL, record->station);
	markup_element(markup, "td", "paperno", record->certificate);
	markup_element(markup, "td", "num",
	    record->price_minor < 0
		? ""
		: money_words(record->price_minor, locker_currency(visit), money));
	markup_end(markup);
}

/* A line of the table that is no record: what happened, or where it went. */
static void
write_other(struct visit *visit, day_t on, const char *what)
{
	struct markup *markup = visit->markup;
	char day[DAY_WORDS_SIZE];
	markup_begin(markup, "tr");
	MARKUP_BEGIN(markup, "th", "day", "scope", "row");
	markup_text(markup, on == DAY_NONE ? "not known" : day_words(on, day));
	markup_end(markup);
	MARKUP_BEGIN(markup, "td", NULL, "colspan", "4");
	markup_text(markup, what);
	markup_ends(markup, 2);
}

static void
write_others(struct visit *visit, const struct item *item)
{
	const struct report_style style = {
	    .today = visit->desk.today, .currency = locker_currency(visit)};
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < item->event_count; i++) {
		write_other(visit, item->events[i].on, event_word(item->events[i].kind));
	}
	for (size_t i = 0; i < item->extension_count; i++) {
		const struct extension *given = &item->extensions[i];
		text_reset(&words);
		text_add_format(&words, "%s extended until ", task_noun(given->task));
		add_day(given->until, "", &words);
		text_add_format(&words, ", paper %s", given->paper);
		write_other(visit, given->given, text_string(&words));
	}
	for (size_t i = 0; i < item->interval_count; i++) {
		text_reset(&words);
		add_interval_words(&item->intervals[i], &words);
		write_other(visit, item->intervals[i].on, text_string(&words));
	}
	for (size_t i = 0; i < item->movement_count; i++) {
		const struct movement *movement = &item->movements[i];
		text_reset(&words);
		text_add(&words, move_word(movement->move));
		add_movement_particulars(&style, movement, &words);
		write_other(visit, movement->on, text_string(&words));
	}
}

void
draw_written(struct visit *visit, const struct locker_piece *piece)
{
	static const char *const COLUMNS[] = {"Day", "Done", "By", "Paper", "Price"};
	const struct item *item = locker_item(visit, piece);
	struct markup *markup = visit->markup;
	SCOPED_TEXT label = {0};
	markup_element(markup, "h4", NULL, "Written about it");
	if (item->record_count + item->event_count + item->movement_count +
		item->extension_count + item->interval_count ==
	    0) {
		markup_element(markup, "p", "soft", "Nothing yet.");
		return;
	}
	text_add_format(&label, "Records of %s", item->tag);
	SHELL_TABLE(visit, .label = text_string(&label), .columns = COLUMNS, .count = 5,
	    .figures = 1);
	markup_begin(markup, "tbody");
	for (size_t i = 0; i < item->record_count; i++) {
		write_record(visit, &item->records[i]);
	}
	write_others(visit, item);
	markup_ends(markup, 3);
}

static void
write_paper(struct visit *visit, const struct paper *paper)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT words = {0};
	bool picture = strncmp(paper->media_type, "image/", 6) == 0;
	add_paper_words(paper, &words);
	markup_begin(markup, "figure");
	markup_begin(markup, "a");
	markup_attribute_format(markup, "href", "/paper/%lld", (long long)paper->number);
	if (picture) {
		markup_begin_class(markup, "img", "paper-pic");
		markup_attribute_format(
		    markup, "src", "/paper/%lld", (long long)paper->number);
		markup_attribute_format(markup, "alt", "Picture of %s", paper->name);
		markup_attribute(markup, "loading", "lazy");
		markup_end(markup);
	} else {
		markup_text_format(markup, "Open %s", paper->name);
	}
	markup_end(markup);
	markup_element(markup, "figcaption", NULL, text_string(&words));
	markup_end(markup);
}

/* The form that keeps one more picture or paper with it. */
static void
write_attach(struct visit *visit, const struct item *item)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT path = {0};
	SCOPED_TEXT words = {0};
	text_add(&path, "/attach/");
	form_escape(item->tag, &path);
	text_add_format(&words, "Keep it with %s", item->tag);
	markup_begin_class(markup, "details", "noprint");
	markup_element(markup, "summary", NULL, "Keep a picture or a paper with it");
	shell_file_form(visit, text_string(&path), "attach");
	markup_begin_class(markup, "div", "fields");
	shell_file(visit, "paper",
	    "Picture of its label, or its paper as a picture or PDF",
	    "image/*,application/pdf");
	SHELL_FIELD(visit, .name = "note", .label = "What it shows", .value = "");
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, false, NULL, NULL, text_string(&words));
	markup_ends(markup, 3);
}

void
draw_papers(struct visit *visit, const struct locker_piece *piece)
{
	if (piece->papers.count > 0) {
		markup_begin_class(visit->markup, "div", "pics");
		for (size_t i = 0; i < piece->papers.count; i++) {
			write_paper(visit, &piece->papers.papers[i]);
		}
		markup_end(visit->markup);
	}
	write_attach(visit, locker_item(visit, piece));
}

/* "place was cabin, became cockpit". */
static void
add_change(struct visit *visit, const struct journal_line *line, struct text *out)
{
	const struct journal_speech speech = {
	    locker_currency(visit), visit->desk.engine.kinds};
	SCOPED_TEXT was = {0};
	SCOPED_TEXT became = {0};
	journal_term_value(&speech, line, line->was, &was);
	journal_term_value(&speech, line, line->became, &became);
	journal_term(line, out);
	switch (line->act) {
	case JOURNAL_ADDED:
		text_add_format(out, " written: %s", text_string(&became));
		break;
	case JOURNAL_CHANGED:
		text_add_format(out, " was %s, became %s",
		    was.length > 0 ? text_string(&was) : "not known",
		    became.length > 0 ? text_string(&became) : "not known");
		break;
	case JOURNAL_REMOVED:
		text_add_format(out, " taken out: %s", text_string(&was));
		break;
	}
}

static void
write_entry(struct visit *visit, const struct journal_entry *entry)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT words = {0};
	char day[DAY_WORDS_SIZE];
	text_add_format(&words, "%s", day_words((day_t)(entry->at / 86400), day));
	if (entry->who[0] != '\0') {
		text_add_format(&words, ", %s", entry->who);
	}
	text_add(&words, ": ");
	for (size_t i = 0; i < entry->line_count && i < CHANGES_MOST; i++) {
		text_add(&words, i == 0 ? "" : "; ");
		add_change(visit, &entry->lines[i], &words);
	}
	markup_element(markup, "li", NULL, text_string(&words));
}

bool
draw_journal(struct visit *visit, const struct locker_piece *piece, struct fault *fault)
{
	struct journal journal = {0};
	const struct journal_query query = {
	    .about = locker_item(visit, piece)->tag, .since = DAY_NONE};
	if (!desk_journal(&visit->desk, &query, &journal, fault)) {
		return false;
	}
	page_journal_caution(visit, &journal);
	if (journal.count == 0) {
		return true;
	}
	size_t shown = LESSER(journal.count, CHANGES_MOST);
	markup_begin(visit->markup, "details");
	markup_element(visit->markup, "summary", NULL, "Changes, the last first");
	markup_begin_class(visit->markup, "ul", "small");
	for (size_t i = 0; i < shown; i++) {
		write_entry(visit, &journal.entries[journal.count - 1 - i]);
	}
	markup_ends(visit->markup, 2);
	return true;
}
