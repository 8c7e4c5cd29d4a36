/* The card of one piece: facts, clocks, reasons, what was written about it, its papers. */
#include "gear/money.h"
#include "page/draw.h"
#include "page/pieces.h"
#include "page/shell.h"
#include "report/journal_terms.h"
#include "report/report_life.h"
#include "report/why.h"
#include "report/words.h"

#include <string.h>

/* The most changes of the journal that a card shows. */
enum { CHANGES_MOST = 12 };

bool
locker_piece(
    struct desk *desk, size_t item, struct locker_piece *out, struct fault *fault)
{
	struct obligation *obligations = NULL;
	*out = (struct locker_piece){.item = item};
	due_of_item(&desk->engine, item, desk->today, &desk->arena, &obligations,
	    &out->obligation_count);
	out->obligations = obligations;
	return desk_papers_of(
	    desk, desk->contents.inventory.items[item].tag, &out->papers, fault);
}

static const struct item *
item_of(const struct visit *visit, const struct locker_piece *piece)
{
	return &visit->desk.contents.inventory.items[piece->item];
}

static const char *
currency_of(const struct visit *visit)
{
	return visit->desk.contents.inventory.currency;
}

static void
write_head(struct visit *visit, const struct locker_piece *piece, const char *back)
{
	SCOPED_TEXT what = {0};
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "div", "cardhead");
	MARKUP_BEGIN(markup, "h3", NULL, "id", "piece");
	markup_element(markup, "span", "tag", item_of(visit, piece)->tag);
	text_add_byte(&what, ' ');
	add_item_words(visit->desk.engine.kinds, &visit->desk.contents.inventory,
	    piece->item, &what);
	markup_text(markup, text_string(&what));
	markup_end(markup);
	shell_link(visit, "button", "Close", "%s", back);
	markup_end(markup);
}

static void
write_fact(struct visit *visit, const char *name, const char *words)
{
	SCOPED_TEXT title = {0};
	if (words[0] == '\0') {
		return;
	}
	text_add_capital(&title, name);
	markup_begin(visit->markup, "div");
	markup_element(visit->markup, "dt", NULL, text_string(&title));
	markup_element(visit->markup, "dd", NULL, words);
	markup_end(visit->markup);
}

static void
write_last_record(struct visit *visit, const struct item *item)
{
	const struct record *last = &item->records[item->record_count - 1];
	SCOPED_TEXT title = {0};
	char on[STAMP_TEXT_SIZE];
	text_add_format(&title, "last %s", task_noun(last->task));
	write_fact(visit, text_string(&title), stamp_words(last->on, on));
	write_fact(visit, "by", last->station);
	write_fact(visit, "paper", last->certificate);
}

static void
write_facts(struct visit *visit, const struct locker_piece *piece)
{
	const struct item *item = item_of(visit, piece);
	const struct item_change values =
	    item_as_change(&visit->desk.contents.inventory, piece->item);
	SCOPED_TEXT words = {0};
	markup_begin_class(visit->markup, "dl", "facts");
	for (const struct field *field = field_shown_after(0); field != NULL;
	     field = field_shown_after(field->shown)) {
		text_reset(&words);
		field_add_words(field, &values, currency_of(visit), &words);
		write_fact(visit, field->label == NULL ? field->name : field->label,
		    text_string(&words));
	}
	if (item->record_count > 0) {
		write_last_record(visit, item);
	}
	if (item->split_from[0] != '\0') {
		write_fact(visit, "split from", item->split_from);
	}
	write_fact(visit, "notes", item->notes);
	markup_end(visit->markup);
}

static void
write_act(
    struct visit *visit, const struct item *item, const char *act, const char *words)
{
	SCOPED_TEXT tag = {0};
	form_escape(item->tag, &tag);
	shell_link(visit, "button", words, "/%s/%s", act, text_string(&tag));
}

/* What one may do oneself, as done today: the form comes with what that changes. */
static void
write_done_today(struct visit *visit, const struct locker_piece *piece)
{
	static const char *const WORDS[TASK_COUNT] = {
	    [TASK_INSPECT] = "Looked over today",
	    [TASK_WEIGH] = "Weighed today",
	    [TASK_TEST] = "Tested today",
	    [TASK_SERVICE] = "Serviced today"};
	SCOPED_TEXT tag = {0};
	form_escape(item_of(visit, piece)->tag, &tag);
	for (size_t i = 0; i < piece->obligation_count; i++) {
		const struct obligation *obligation = &piece->obligations[i];
		if (obligation->doer == DOER_OWNER && WORDS[obligation->task] != NULL) {
			shell_link(visit, "button", WORDS[obligation->task],
			    "/done/%s?task=%s&on=today&look=yes", text_string(&tag),
			    task_word(obligation->task));
		}
	}
}

static void
write_acts(struct visit *visit, const struct locker_piece *piece)
{
	const struct item *item = item_of(visit, piece);
	markup_begin_class(visit->markup, "div", "acts");
	if (item->state != PLACE_WITHDRAWN) {
		write_done_today(visit, piece);
		write_act(visit, item, "done", "Something was done today");
	}
	write_act(visit, item, "mend", "Mend what is written");
	write_act(visit, item, "buy",
	    item->to_buy[0] == '\0' ? "Put it on the list to buy"
				    : "On the list to buy: change it");
	if (item->state != PLACE_WITHDRAWN) {
		write_act(visit, item, "move", "Move it");
		write_act(visit, item, "gone", "Gone for good");
		write_act(visit, item, "extra",
		    item->state == PLACE_RESERVE ? "Count it again"
						 : "Keep it as an extra");
	}
	markup_end(visit->markup);
}

/* The way to a rule in its sheet; nothing for what the piece's own papers say. */
static void
write_sheet_link(struct visit *visit, const struct rule *rule)
{
	SCOPED_TEXT path = {0};
	if (rule == NULL) {
		return;
	}
	form_escape(rule->sheet, &path);
	text_add(&path, "#rule.");
	form_escape(rule->id, &path);
	markup_text(visit->markup, " ");
	shell_link(visit, NULL, "The rule in its sheet", "/sheet/%s", text_string(&path));
}

/* One clock in full, without what only a command is told by: its rule's name, which a link has, and the column
 * or the option of what is asked. */
static void
add_clock(const struct visit *visit, const struct obligation *obligation,
    const struct reading *reading, struct text *out)
{
	const char *asks =
	    strcmp(reading->asks, "made-day") == 0 ? "made" : reading->asks;
	SCOPED_TEXT full = {0};
	SCOPED_TEXT rule = {0};
	SCOPED_TEXT column = {0};
	SCOPED_TEXT option = {0};
	add_clock_in_full(obligation, reading, visit->desk.today, &full);
	text_add_format(&rule, "; rule %s of sheet %s, ",
	    reading->rule == NULL ? "" : reading->rule->id,
	    reading->rule == NULL ? "" : reading->rule->sheet);
	text_add_format(&column, " (column %s)", asks);
	text_add_format(&option, " (option --%s)", asks);
	const char *const table[][2] = {{text_string(&rule), "; "},
	    {text_string(&column), ""}, {text_string(&option), ""},
	    {" (becket interval)", ""}, {" (becket record test, --next)", ""}};
	text_in_place(text_string(&full), table, sizeof table / sizeof table[0], out);
}

/* Every clock that counts or might, in its order, with its source. */
static void
write_why(struct visit *visit, const struct obligation *obligation)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT words = {0};
	for (int role = 0; role < ROLE_IDLE; role++) {
		for (size_t i = 0; i < obligation->reading_count; i++) {
			const struct reading *reading = &obligation->readings[i];
			if (clock_role_of(reading) != (enum clock_role)role) {
				continue;
			}
			text_reset(&words);
			text_add_format(
			    &words, ". %s: ", clock_role_word((enum clock_role)role));
			add_clock(visit, obligation, reading, &words);
			markup_begin(markup, "p");
			markup_element(markup, "b", NULL, task_noun(obligation->task));
			markup_text(markup, text_string(&words));
			write_sheet_link(visit, reading->rule);
			markup_end(markup);
		}
	}
}

static void
write_whys(struct visit *visit, const struct locker_piece *piece)
{
	markup_begin(visit->markup, "details");
	markup_element(visit->markup, "summary", NULL, "Why, in full");
	for (size_t i = 0; i < piece->obligation_count; i++) {
		write_why(visit, &piece->obligations[i]);
	}
	if (piece->obligation_count == 0) {
		markup_element(visit->markup, "p", NULL, "No rule asks anything of it.");
	}
	markup_end(visit->markup);
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
		: money_words(record->price_minor, currency_of(visit), money));
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
	    .today = visit->desk.today, .currency = currency_of(visit)};
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

static void
write_written(struct visit *visit, const struct locker_piece *piece)
{
	static const char *const COLUMNS[] = {"Day", "Done", "By", "Paper", "Price"};
	const struct item *item = item_of(visit, piece);
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
	shell_table(visit, &(struct shell_table){.label = text_string(&label),
			       .columns = COLUMNS,
			       .count = 5,
			       .figures = 1});
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
	const struct shell_field note = {
	    .name = "note", .label = "What it shows", .value = ""};
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
	shell_field(visit, &note);
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, false, NULL, NULL, text_string(&words));
	markup_ends(markup, 3);
}

static void
write_papers(struct visit *visit, const struct locker_piece *piece)
{
	if (piece->papers.count > 0) {
		markup_begin_class(visit->markup, "div", "pics");
		for (size_t i = 0; i < piece->papers.count; i++) {
			write_paper(visit, &piece->papers.papers[i]);
		}
		markup_end(visit->markup);
	}
	write_attach(visit, item_of(visit, piece));
}

/* "place was cabin, became cockpit". */
static void
add_change(struct visit *visit, const struct journal_line *line, struct text *out)
{
	const struct journal_speech speech = {
	    currency_of(visit), visit->desk.engine.kinds};
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

static bool
write_journal(struct visit *visit, const struct locker_piece *piece, struct fault *fault)
{
	struct journal journal = {0};
	const struct journal_query query = {
	    .about = item_of(visit, piece)->tag, .since = DAY_NONE};
	if (!desk_journal(&visit->desk, &query, &journal, fault)) {
		return false;
	}
	if (journal.count == 0) {
		return true;
	}
	size_t shown = journal.count < CHANGES_MOST ? journal.count : CHANGES_MOST;
	markup_begin(visit->markup, "details");
	markup_element(visit->markup, "summary", NULL, "Changes, the last first");
	markup_begin_class(visit->markup, "ul", "small");
	for (size_t i = 0; i < shown; i++) {
		write_entry(visit, &journal.entries[journal.count - 1 - i]);
	}
	markup_ends(visit->markup, 2);
	return true;
}

static void
write_caution(struct visit *visit, const struct locker_piece *piece)
{
	const struct kinds *kinds = visit->desk.engine.kinds;
	const struct kind *kind = kinds_find(kinds, item_of(visit, piece)->kind);
	const char *caution =
	    kind == NULL ? "" : kinds_carry_caution(kinds, kind->hazard);
	if (caution[0] != '\0') {
		markup_element(visit->markup, "p", "caution", caution);
	}
}

bool
draw_card(struct visit *visit, const struct locker_piece *piece, const char *back,
    struct fault *fault)
{
	SCOPED_TEXT why = {0};
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "div", "card");
	write_head(visit, piece, back);
	add_why_sentence(piece, visit->desk.today, &why);
	markup_element(markup, "p", "say", text_string(&why));
	write_acts(visit, piece);
	write_facts(visit, piece);
	draw_piece_clocks(visit, piece);
	write_whys(visit, piece);
	write_written(visit, piece);
	write_papers(visit, piece);
	if (!write_journal(visit, piece, fault)) {
		return false;
	}
	write_caution(visit, piece);
	markup_end(markup);
	return true;
}
