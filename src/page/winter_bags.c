/* This winter: the bags by station, and what is ashore. */
#include "page/draw.h"
#include "page/planning.h"
#include "page/shell.h"
#include "report/words.h"
#include "rules/kinds.h"

#include <stdio.h>
#include <string.h>

static bool
is_packed(const struct winter_page *page, const char *tag)
{
	return words_have(page->packed, page->packed_count, tag);
}

/* The eye of a luggage tag with its becket of line. */
static void
write_eye(struct markup *markup)
{
	MARKUP_BEGIN(markup, "svg", "eye", "viewBox", "0 0 40 40", "aria-hidden", "true");
	MARKUP_BEGIN(markup, "circle", "paperfill buffline", "cx", "20", "cy", "20", "r",
	    "11", "stroke-width", "5");
	markup_end(markup);
	MARKUP_BEGIN(markup, "path", "line", "d", "M22 18C6 8-20 2-26 16S-4 34 22 21",
	    "stroke-width", "2.5");
	markup_ends(markup, 2);
}

/* A small label over a day of the tag; the day's element is left open. */
static void
begin_tag_day(struct markup *markup, const char *word)
{
	markup_begin(markup, "div");
	markup_element(markup, "dt", NULL, word);
	markup_begin(markup, "dd");
}

static void
end_tag_day(struct markup *markup)
{
	markup_ends(markup, 2);
}

static void
write_tag_days(struct visit *visit, const struct trip *trip)
{
	struct markup *markup = visit->markup;
	day_t last = trip_last_day(trip);
	markup_begin(markup, "dl");
	begin_tag_day(markup, trip->chosen ? "hand in, your day" : "hand in");
	shell_weekday(visit, trip->hand_in);
	end_tag_day(markup);
	if (last != DAY_NONE) {
		begin_tag_day(markup, "last day");
		shell_weekday(visit, last);
		end_tag_day(markup);
	}
	begin_tag_day(markup, "collect");
	if (trip->collect == DAY_NONE || trip->collect == DAY_NEVER) {
		markup_text(markup, "ask");
	} else if (trip->assumed) {
		markup_text(markup, "about ");
		shell_weekday(visit, trip->collect);
		markup_text(markup, ", ask");
	} else {
		shell_weekday(visit, trip->collect);
	}
	end_tag_day(markup);
	markup_end(markup);
}

/* The luggage tag at the head of a bag. */
static void
write_tag(const struct winter_page *page, const struct trip *trip, const char *id)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "div", "bag");
	write_eye(markup);
	markup_begin(markup, "div");
	MARKUP_BEGIN(markup, "h3", NULL, "id", id);
	markup_text(markup, station_words(trip->name));
	markup_end(markup);
	write_tag_days(page->visit, trip);
	markup_ends(markup, 2);
}

/* A note on a bag, as a paragraph right of the margin. */
static void
write_remark(const struct winter_page *page, const char *words)
{
	struct markup *markup = page->visit->markup;
	shell_entry(page->visit);
	markup_element(markup, "p", "caution", words);
	markup_ends(markup, 2);
}

/* How each hazard in the bag may travel, once. */
static void
write_cautions(const struct winter_page *page, const struct docket *docket)
{
	const struct kinds *kinds = page->visit->desk.engine.kinds;
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	bool told[HAZARD_COUNT] = {false};
	for (size_t i = 0; i < docket->piece_count; i++) {
		const struct kind *kind =
		    kinds_find(kinds, inventory->items[docket->pieces[i].item].kind);
		enum hazard hazard = kind == NULL ? HAZARD_NONE : kind->hazard;
		const char *words = kinds_carry_caution(kinds, hazard);
		if (told[hazard] || words == NULL || words[0] == '\0') {
			continue;
		}
		told[hazard] = true;
		write_remark(page, words);
	}
}

/* A tick box with the piece's tag. Its state in the book is sent with it, so that only
 * what this person changes is written. */
static void
write_packed_tick(const struct winter_page *page, const struct item *item)
{
	struct markup *markup = page->visit->markup;
	if (words_have(page->in_book, page->in_book_count, item->tag)) {
		shell_hidden(page->visit, "was", item->tag);
	}
	markup_begin_class(markup, "label", "tick");
	MARKUP_BEGIN(markup, "input", NULL, "type", "checkbox");
	markup_attribute_format(markup, "name", "packed.%s", item->tag);
	markup_attribute(markup, "value", "yes");
	markup_attribute(markup, "checked", is_packed(page, item->tag) ? "checked" : "");
	markup_end(markup);
	markup_element(markup, "span", "tag", item->tag);
	markup_element_format(markup, "span", "vh", " packed: %s",
	    kind_name(page->visit->desk.engine.kinds, item->kind));
	markup_end(markup);
}

/* What it is, what is wanted, and when that is due. */
static void
write_cells(
    const struct winter_page *page, const struct shore_line *line, const char *wanted)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "div", "w");
	markup_begin_class(markup, "span", "what");
	write_what(page, line->item);
	markup_end(markup);
	markup_element(markup, "span", "wanted", wanted);
	markup_begin(markup, "span");
	write_line_state(page, line);
	markup_ends(markup, 2);
}

/* The piece's own task that is due first. */
static const struct shore_line *
first_due(const struct docket_piece *piece)
{
	const struct shore_line *first = piece->lines[0];
	for (size_t i = 1; i < piece->own_count; i++) {
		const struct shore_line *line = piece->lines[i];
		bool worse =
		    first->state == STATE_IN_DATE && line->state != STATE_IN_DATE;
		bool sooner = line->due != DAY_NONE && first->due != DAY_NONE &&
			      line->due < first->due;
		first = worse || (sooner && first->state == line->state) ? line : first;
	}
	return first;
}

static void
write_piece(const struct winter_page *page, const struct docket_piece *piece)
{
	struct markup *markup = page->visit->markup;
	SCOPED_TEXT wanted = {0};
	for (size_t i = 0; i < piece->own_count; i++) {
		text_add_format(
		    &wanted, "%s%s", i > 0 ? ", " : "", task_word(piece->lines[i]->task));
	}
	markup_begin_class(markup, "li", "row");
	write_packed_tick(page, &page->visit->desk.contents.inventory.items[piece->item]);
	write_cells(page, first_due(piece), text_string(&wanted));
	markup_end(markup);
	for (size_t i = piece->own_count; i < piece->line_count; i++) {
		const struct shore_line *line = piece->lines[i];
		markup_begin_class(markup, "li", "row inside");
		markup_begin_class(markup, "div", "k");
		markup_element(markup, "span", "tag", line_item(page, line)->tag);
		markup_end(markup);
		write_cells(page, line,
		    line->task == TASK_RENEW ? "inside it: new one by"
					     : "inside it, as well");
		markup_end(markup);
	}
}

/* Notes on its day: that it does not serve all, was missed, or must be asked for. */
static void
write_day_remarks(const struct winter_page *page, const struct trip *trip)
{
	static const char *const MISFITS[] = {
	    [DAY_SERVES] = NULL,
	    [DAY_CLOSED] = "Your day does not serve: nothing is taken in there on it.",
	    [DAY_NOT_THEIRS] =
		"Your day does not serve: it is none of the days on which you go.",
	    [DAY_TOO_LATE] =
		"Your day is too late: some of it would not be back in time.",
	    [DAY_TOO_EARLY] = "Your day is too early for some of it.",
	};
	if (MISFITS[trip->misfit] != NULL) {
		write_remark(page, MISFITS[trip->misfit]);
	}
	if (trip->missed) {
		write_remark(page,
		    "An earlier day for this bag has passed; this is the next "
		    "that serves.");
	}
	if (trip->moved_why != DAY_SERVES) {
		write_remark(
		    page, "The day given out before serves no more, so it was moved.");
	}
}

/* Begins a form about a bag, which sends the bag's name. */
static void
begin_bag_form(const struct winter_page *page, const struct trip *trip, const char *id)
{
	char day[DAY_ISO_SIZE];
	SCOPED_TEXT path = {0};
	text_add(&path, "/winter");
	add_whose(page, &path);
	text_add_format(&path, "#%s", id);
	shell_form(page->visit, text_string(&path), NULL);
	shell_hidden(page->visit, "bag", id);
	shell_hidden(page->visit, "station", trip->name);
	shell_hidden(page->visit, "hand-in", day_iso(trip->hand_in, day));
}

/* The trial of another day: a separate form, so that the return key pressed in the day's
 * field does not hand the bag in. */
static void
write_trial(const struct winter_page *page, const struct trip *trip, const char *id)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct bag_trial *trial = &page->trial;
	bool here = trial->station != NULL && trial->hand_in == trip->hand_in &&
		    strcmp(trial->station, trip->name) == 0;
	char day[DAY_WORDS_SIZE];
	char name[40];
	(void)snprintf(name, sizeof name, "day-%s", id);
	begin_bag_form(page, trip, id);
	MARKUP_BEGIN(markup, "details", NULL, "open", here ? "open" : "");
	markup_element(markup, "summary", NULL, "Another day for this bag");
	markup_begin_class(markup, "div", "fields");
	SHELL_FIELD(visit, .name = name, .label = "Hand in on",
	    .value = here ? trial->typed : day_words(trip->hand_in, day),
	    .wrong = here ? trial->wrong : NULL);
	markup_end(markup);
	markup_element(markup, "p", "small soft",
	    "Any open day to the last day serves. The day you choose is yours: it is kept, "
	    "here, in your calendar and on the tags.");
	if (here && trial->wrong == NULL) {
		char digest[PAGE_DIGEST_SIZE];
		markup_begin_class(markup, "div", "change");
		markup_element(markup, "h4", NULL, "If you hand it in on that day");
		text_lines(markup, trial->changes);
		shell_hidden(visit, "seen", page_digest(trial->changes, digest));
		markup_begin_class(markup, "div", "acts");
		shell_button(visit, true, "act", "mine", "Keep this day");
		shell_button(visit, false, "act", "look", "Reckon another day");
		markup_ends(markup, 2);
	} else {
		markup_begin_class(markup, "div", "acts");
		shell_button(visit, false, "act", "look", "Reckon this day");
		markup_end(markup);
	}
	markup_ends(markup, 2);
}

/* How many pieces of a bag are ticked. */
static size_t
count_packed(const struct winter_page *page, const struct docket *docket)
{
	const struct item *items = page->visit->desk.contents.inventory.items;
	size_t packed = 0;
	for (size_t i = 0; i < docket->piece_count; i++) {
		packed += is_packed(page, items[docket->pieces[i].item].tag) ? 1 : 0;
	}
	return packed;
}

/* The foot of a bag: how much is packed, and what can be done with it. */
static void
write_bag_foot(const struct winter_page *page, const struct trip *trip,
    const struct docket *docket, const char *id)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	markup_begin_class(markup, "div", "entry bagfoot");
	markup_begin_class(markup, "div", "m");
	markup_begin_class(markup, "b", "tally");
	markup_text_format(
	    markup, "%zu of %zu packed", count_packed(page, docket), docket->piece_count);
	markup_ends(markup, 2);
	markup_begin_class(markup, "div", "t");
	if (trip->name[0] == '\0') {
		char name[40];
		(void)snprintf(name, sizeof name, "to-%s", id);
		markup_begin_class(markup, "div", "fields noprint");
		SHELL_FIELD(visit, .name = name, .label = "Which station it went to",
		    .value = page_value(visit, name));
		markup_end(markup);
	}
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, "act", "handed", "Handed in today: what is ticked");
	shell_button(visit, false, "act", "keep", "Keep the ticks");
	shell_button(visit, false, "act", "tags", "Print tags and docket");
	markup_ends(markup, 3);
}

/* What is in the bag; folded away on a phone when all of it is packed. */
static void
write_pieces(const struct winter_page *page, const struct docket *docket)
{
	struct markup *markup = page->visit->markup;
	bool finished = count_packed(page, docket) == docket->piece_count;
	if (finished) {
		SCOPED_TEXT words = {0};
		add_count(
		    docket->piece_count, "piece, packed", "pieces, all packed", &words);
		markup_begin_class(markup, "details", "finished");
		markup_element(markup, "summary", NULL, text_string(&words));
	}
	write_cautions(page, docket);
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = 0; i < docket->piece_count; i++) {
		write_piece(page, &docket->pieces[i]);
	}
	markup_end(markup);
	if (finished) {
		markup_end(markup);
	}
}

static void
write_bag(const struct winter_page *page, const struct trip *trip, size_t number)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct docket *docket = docket_of(page, trip);
	char id[32];
	if (docket == NULL) {
		return;
	}
	(void)snprintf(id, sizeof id, "bag-%zu", number);
	MARKUP_BEGIN(markup, "section", NULL, "aria-labelledby", id);
	begin_bag_form(page, trip, id);
	shell_default(visit, "keep");
	write_tag(page, trip, id);
	write_day_remarks(page, trip);
	write_pieces(page, docket);
	write_bag_foot(page, trip, docket, id);
	markup_end(markup);
	shell_entry(page->visit);
	write_trial(page, trip, id);
	markup_ends(markup, 3);
}

/* Hand-ins that are given out from a later day on. */
static void
write_later(const struct winter_page *page, const struct trip *trip)
{
	char from[DAY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	if (trip->held_back) {
		text_add_format(&words,
		    "The bag for %s is packed together from %s on, when the boats of her base "
		    "have all fitted out.",
		    station_words(trip->name), day_words(trip->given_from, from));
		write_remark(page, text_string(&words));
	}
}

void
winter_bags(struct winter_page *page)
{
	struct visit *visit = page->visit;
	const struct trips *trips = &page->list->hand_in;
	SCOPED_TEXT under = {0};
	if (trips->count == 0) {
		return;
	}
	add_count(trips->count, "bag", "bags", &under);
	shell_section(visit, NULL, text_string(&under), "Bags to hand in");
	markup_ends(visit->markup, 2);
	for (size_t i = 0; i < trips->count; i++) {
		write_later(page, &trips->items[i]);
		write_bag(page, &trips->items[i], i + 1);
	}
}
