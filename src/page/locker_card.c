/* The card of one piece: facts, acts, clocks, reasons. */
#include "page/draw.h"
#include "page/pieces.h"
#include "page/shell.h"
#include "report/why.h"
#include "report/words.h"

#include <string.h>

bool
locker_piece(
    struct desk *desk, size_t item, struct locker_piece *out, struct fault *fault)
{
	struct obligation *obligations = NULL;
	*out = (struct locker_piece){.item = item};
	due_of_item(&desk->engine, item, desk->today, &desk->arena, &obligations,
	    &out->obligation_count);
	out->obligations = obligations;
	due_working(&desk->engine, item, desk->contents.inventory.items[item].vessel,
	    desk->today, &desk->arena, &out->working);
	return desk_papers_of(
	    desk, desk->contents.inventory.items[item].tag, &out->papers, fault);
}

static void
write_head(struct visit *visit, const struct locker_piece *piece, const char *back)
{
	SCOPED_TEXT what = {0};
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "div", "cardhead");
	MARKUP_BEGIN(markup, "h3", NULL, "id", "piece");
	markup_element(markup, "span", "tag", locker_item(visit, piece)->tag);
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
	text_add_format(&title, "last %s", record_noun(last));
	write_fact(visit, text_string(&title), stamp_words(last->on, on));
	write_fact(visit, "by", last->station);
	write_fact(visit, "paper", last->certificate);
}

static void
write_facts(struct visit *visit, const struct locker_piece *piece)
{
	const struct item *item = locker_item(visit, piece);
	const struct item_change values =
	    item_as_change(&visit->desk.contents.inventory, piece->item);
	SCOPED_TEXT words = {0};
	markup_begin_class(visit->markup, "dl", "facts");
	for (const struct field *field = field_shown_after(0); field != NULL;
	     field = field_shown_after(field->shown)) {
		text_reset(&words);
		field_add_words(field, &values, locker_currency(visit), &words);
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
	form_escape(locker_item(visit, piece)->tag, &tag);
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
	const struct item *item = locker_item(visit, piece);
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

/* One clock in full, without what only a command is told by: its rule's name, which a
 * link has, and the column or the option of what is asked. */
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
write_caution(struct visit *visit, const struct locker_piece *piece)
{
	const struct kinds *kinds = visit->desk.engine.kinds;
	const struct kind *kind = kinds_find(kinds, locker_item(visit, piece)->kind);
	const char *caution =
	    kind == NULL ? "" : kinds_carry_caution(kinds, kind->hazard);
	if (caution[0] != '\0') {
		markup_element(visit->markup, "p", "caution", caution);
	}
}

/* That it does not work, and for which of its parts. */
static void
write_trouble(struct visit *visit, const struct locker_piece *piece)
{
	const struct inventory *inventory = &visit->desk.contents.inventory;
	const struct working *working = &piece->working;
	if (working->trouble == PART_FINE ||
	    locker_item(visit, piece)->state == PLACE_WITHDRAWN) {
		return;
	}
	markup_begin_class(visit->markup, "p", "state");
	draw_mark(visit->markup, MARK_SHORT);
	markup_text_format(visit->markup,
	    "It does not work and is not counted: its part %s, %s, %s.",
	    inventory->items[working->part].tag,
	    kind_name(visit->desk.engine.kinds, inventory->items[working->part].kind),
	    part_trouble_words(working->trouble));
	markup_end(visit->markup);
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
	write_trouble(visit, piece);
	write_acts(visit, piece);
	write_facts(visit, piece);
	draw_piece_clocks(visit, piece);
	write_whys(visit, piece);
	draw_written(visit, piece);
	draw_papers(visit, piece);
	if (!draw_journal(visit, piece, fault)) {
		return false;
	}
	write_caution(visit, piece);
	markup_end(markup);
	return true;
}
