/* It came back: the page. */
#include "page/shell.h"
#include "page/taking_in.h"
#include "report/words.h"

#include <stdio.h>
#include <string.h>

/* A field of the page, with what was typed in it. */
static void
write_field(
    const struct back_page *page, const char *name, const char *label, const char *mode)
{
	SHELL_FIELD(page->visit, .name = name, .label = label,
	    .value = page_value(page->visit, name), .wrong = field_wrong(page, name),
	    .mode = mode);
}

/* Adds what a part that is put in new is called: with its tag where another of the piece
 * is of the same kind, so that neither gets the other's date. */
static void
add_part(const struct back_page *page, const struct back_piece *piece, size_t part,
    struct text *out)
{
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	const struct item *items = inventory->items;
	bool alone = true;
	for (size_t i = 0; i < inventory->item_count; i++) {
		alone = alone && (i == part || !is_new_part(page, piece, i) ||
				     strcmp(items[i].kind, items[part].kind) != 0);
	}
	text_add(out, kind_name(page->visit->desk.engine.kinds, items[part].kind));
	if (!alone) {
		text_add_format(out, " %s", items[part].tag);
	}
}

/* "wanted: service, test; new automatic firing head". */
static void
add_wanted(const struct back_page *page, const struct back_piece *piece, struct text *out)
{
	const struct desk *desk = &page->visit->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	unsigned asked = homecoming_asked(back_item(page, piece));
	text_add(out, "wanted: ");
	if (asked == 0) {
		text_add(out, "not on record");
	} else {
		add_task_nouns(asked, out);
	}
	for (size_t i = 0, told = 0; i < inventory->item_count; i++) {
		if (is_new_part(page, piece, i)) {
			text_add(out, told++ == 0 ? "; new " : ", ");
			add_part(page, piece, i, out);
		}
	}
}

static void
write_result(const struct back_page *page, const struct back_piece *piece)
{
	static const char *const VALUES[] = {
	    "passed", "shorter", "condemned", "undone", "stays"};
	static const char *const WORDS[] = {
	    "passed", "shorter date", "condemned", "not done", "stays there"};
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct item *item = back_item(page, piece);
	const char *name = piece_field(page, "r", item->tag);
	const char *wrong = field_wrong(page, name);
	const char *chosen = page_value(visit, name);
	SCOPED_TEXT wanted = {0};
	if (chosen[0] == '\0' && piece->said && !piece->stays) {
		chosen = "passed";
	}
	add_wanted(page, piece, &wanted);
	markup_begin(markup, "fieldset");
	markup_begin(markup, "legend");
	markup_begin(markup, "b");
	text_what(markup, visit->desk.engine.kinds, item);
	markup_end(markup);
	markup_begin(markup, "br");
	markup_end(markup);
	markup_element(markup, "span", "soft", text_string(&wanted));
	markup_end(markup);
	markup_begin_class(markup, "div", "choice");
	for (size_t i = 0; i < sizeof VALUES / sizeof VALUES[0]; i++) {
		shell_tick(visit, "radio", name, VALUES[i],
		    strcmp(chosen, VALUES[i]) == 0, WORDS[i]);
	}
	markup_end(markup);
	if (wrong != NULL) {
		markup_element(markup, "p", "fault", wrong);
	}
	markup_end(markup);
}

static void
write_fields(const struct back_page *page, const struct back_piece *piece)
{
	struct markup *markup = page->visit->markup;
	const struct desk *desk = &page->visit->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	const char *tag = back_item(page, piece)->tag;
	char price[40];
	(void)snprintf(price, sizeof price, "Price, %s", inventory->currency);
	markup_begin_class(markup, "div", "fields");
	write_field(page, piece_field(page, "n", tag), "Next date on its paper", "text");
	write_field(page, piece_field(page, "c", tag), "Number of the paper", NULL);
	write_field(page, piece_field(page, "p", tag), price, "decimal");
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (is_new_part(page, piece, i)) {
			SCOPED_TEXT label = {0};
			text_add(&label, "New ");
			add_part(page, piece, i, &label);
			text_add(&label, ", marked");
			write_field(page, piece_field(page, "m", inventory->items[i].tag),
			    text_string(&label), NULL);
		}
	}
	write_field(page, piece_field(page, "y", tag), "Note", NULL);
	markup_end(markup);
}

static void
write_piece(const struct back_page *page, const struct back_piece *piece)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_element(markup, "span", "tag", back_item(page, piece)->tag);
	markup_end(markup);
	markup_begin_class(markup, "div", "t piece");
	write_result(page, piece);
	write_fields(page, piece);
	if (piece->then != NULL) {
		markup_begin_class(markup, "p", "then-line");
		MARKUP_BEGIN(markup, "span", NULL, "aria-hidden", "true");
		markup_text(markup, "→ ");
		markup_end(markup);
		markup_element(markup, "span", "vh", "After saving: ");
		markup_text(markup, piece->then);
		markup_end(markup);
	}
	markup_ends(markup, 2);
}

/* What is said once, for all of them. */
static void
write_whole(const struct back_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	SCOPED_TEXT all = {0};
	SCOPED_TEXT under = {0};
	text_add_format(&under, "for all %zu", page->count);
	shell_section(
	    visit, NULL, page->count > 1 ? text_string(&under) : NULL, "The whole bag");
	markup_begin_class(markup, "div", "fields whole");
	write_field(page, "on", "Back aboard on", NULL);
	write_field(page, "done", "Work done on, if before", NULL);
	write_field(page, "by", "By, if not by them", NULL);
	markup_end(markup);
	markup_begin_class(markup, "div", "acts");
	text_add(&all, "All ");
	text_number(page->count, &all);
	text_add(&all, " passed");
	shell_button(visit, false, "act", "all",
	    page->count == 1 ? "It passed" : text_string(&all));
	markup_ends(markup, 3);
}

static void
write_change(const struct back_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	char digest[PAGE_DIGEST_SIZE];
	markup_begin_class(markup, "div", "change");
	markup_element(markup, "h2", NULL, "What saving changes");
	if (page->changes == NULL) {
		markup_element(markup, "p", NULL,
		    "It stands here once you have said what became of each piece, before "
		    "anything is written.");
		markup_begin_class(markup, "div", "acts");
		shell_button(visit, true, "act", "look", "Reckon what it changes");
		markup_ends(markup, 2);
		return;
	}
	text_lines(markup, page->changes);
	shell_hidden(visit, "seen", page_digest(page->changes, digest));
	/* a browser drops the chosen file when the page is loaded again */
	shell_file(visit, "photo",
	    "Photo of the paper, kept with all that come back (may be left out)",
	    "image/*,application/pdf");
	SCOPED_TEXT save = {0};
	text_add_format(&save, "Save: %zu back aboard", page->back);
	if (page->gone > 0) {
		text_add_format(&save, ", %zu gone", page->gone);
	}
	markup_begin_class(markup, "div", "acts");
	shell_button(visit, true, "act", "save", text_string(&save));
	shell_button(visit, false, "act", "look", "Reckon again");
	markup_ends(markup, 2);
}

/* Since when they are there: of those that went on several days the first. */
static void
add_since(const struct back_page *page, struct text *say)
{
	day_t first = back_item(page, &page->pieces[0])->landed_on;
	bool together = true;
	char words[DAY_WORDS_SIZE];
	for (size_t i = 1; i < page->count; i++) {
		day_t landed = back_item(page, &page->pieces[i])->landed_on;
		together = together && landed == first;
		first = day_min(first, landed);
	}
	if (first != DAY_NONE) {
		text_add_format(say, "%s since %s", together ? "" : ", the first",
		    day_words(first, words));
	}
}

static void
open_page(const struct back_page *page)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT say = {0};
	if (page->wrong_count > 0) {
		text_add_format(&say,
		    "%zu %s wanting: look for what stands under %s. Nothing is "
		    "written.",
		    page->wrong_count, page->wrong_count == 1 ? "thing is" : "things are",
		    page->wrong_count == 1 ? "its field" : "their fields");
	} else {
		text_capital_number(page->count, &say);
		text_add_format(&say, " %s at %s",
		    page->count == 1 ? "piece has been" : "pieces have been",
		    page->station[0] == '\0' ? "a station that was not told"
					     : page->station);
		add_since(page, &say);
		text_add(
		    &say, ". Say what came back; nothing is written before you save.");
	}
	const struct head_box boxes[] = {{"Station", page->station}};
	SHELL_OPEN(visit, .title = "It came back", .about = page->station,
	    .say = text_string(&say), .boxes = boxes,
	    .box_count = page->station[0] == '\0' ? 0 : 1,
	    .status = page->wrong_count > 0 || page->problem != NULL ? 400 : 0);
	if (page->problem != NULL) {
		shell_note(visit, true, page->problem);
	}
}

void
back_write(struct back_page *page)
{
	struct visit *visit = page->visit;
	open_page(page);
	struct markup *markup = visit->markup;
	shell_file_form(visit, "/back#change", "back");
	shell_default(visit, "look");
	shell_hidden(visit, "station", page->station);
	write_whole(page);
	shell_rows(visit, NULL, "Each piece");
	for (size_t i = 0; i < page->count; i++) {
		write_piece(page, &page->pieces[i]);
	}
	markup_ends(markup, 2);
	MARKUP_BEGIN(markup, "section", "entry", "id", "change");
	markup_begin_class(markup, "div", "m");
	markup_element(markup, "b", NULL, "before");
	markup_text(markup, "you save");
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	write_change(page);
	markup_ends(markup, 3);
	shell_close(visit);
}
