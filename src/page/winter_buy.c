/* This winter: what to buy, because the rules ask for it or a person put it on the
 * list. */
#include "gear/money.h"
#include "page/draw.h"
#include "page/planning.h"

static const char *
currency_of(const struct winter_page *page)
{
	return page->visit->desk.contents.inventory.currency;
}

/* "16 things, EUR 921.20 at the prices in your book." */
static void
write_sum(const struct winter_page *page)
{
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	int64_t sum = 0;
	size_t unpriced = 0;
	const struct shore_lines *buy = &page->list->buy;
	for (size_t i = 0; i < buy->count; i++) {
		unpriced += buy->items[i].price_minor < 0;
		sum += buy->items[i].price_minor < 0 ? 0 : buy->items[i].price_minor;
	}
	add_count(buy->count, "thing", "things", &words);
	if (unpriced < buy->count) {
		text_add_format(&words, ", %s at the prices in your book",
		    money_words(sum, currency_of(page), money));
	}
	if (unpriced > 0) {
		text_add_format(&words, "; %zu without a price", unpriced);
	}
	text_add_byte(&words, '.');
	markup_element(page->visit->markup, "p", NULL, text_string(&words));
}

static void
write_price(const struct winter_page *page, int64_t minor)
{
	SCOPED_TEXT money = {0};
	money_add(minor, currency_of(page), &money);
	markup_element(page->visit->markup, "span", "num", text_string(&money));
}

/* The link to the list on a page of its own. */
static void
write_way_along(const struct winter_page *page)
{
	SCOPED_TEXT path = {0};
	text_add(&path, "/winter");
	add_whose(page, &path);
	text_add_format(&path, "%sonly=buy", page->several ? "&" : "?");
	if (!page->along) {
		shell_link(page->visit, "button noprint", "Print the list to take along",
		    "%s", text_string(&path));
	}
}

void
winter_buy(struct winter_page *page)
{
	struct markup *markup = page->visit->markup;
	const struct shore_lines *buy = &page->list->buy;
	if (buy->count == 0) {
		return;
	}
	static const struct shore_lines NONE = {0};
	winter_section_by(page, buy, &NONE, "Buy");
	write_sum(page);
	write_way_along(page);
	markup_end(markup);
	MARKUP_BEGIN(markup, "ul", "rows", "id", "buy");
	for (size_t i = 0; i < buy->count; i++) {
		const struct shore_line *line = &buy->items[i];
		markup_begin_class(markup, "li", "row");
		if (page->along) {
			winter_tick(page, line, "have", "yes", "bought");
		} else {
			winter_key(page, line);
		}
		markup_begin_class(markup, "div", "w money");
		markup_begin(markup, "span");
		write_what(page, line->item);
		markup_end(markup);
		winter_state(page, line);
		write_price(page, line->price_minor);
		markup_ends(markup, 2);
	}
	markup_ends(markup, 2);
}

/* The tick sends the words that were shown, so that words changed since are not taken off
 * unseen. */
static void
write_wanted(const struct winter_page *page, const struct shore_line *line)
{
	struct markup *markup = page->visit->markup;
	markup_begin_class(markup, "li", "row");
	winter_tick(page, line, "bought", line->what, "bought");
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	write_what(page, line->item);
	if (shore_lines_have(&page->list->buy, line->item)) {
		markup_element(
		    markup, "span", "small soft", " (a new one is above, too)");
	}
	markup_end(markup);
	markup_element(markup, "b", NULL, line->what);
	markup_ends(markup, 2);
}

void
winter_wanted(struct winter_page *page)
{
	struct markup *markup = page->visit->markup;
	const struct shore_lines *wanted = &page->list->wanted;
	if (wanted->count == 0) {
		return;
	}
	if (!page->along) {
		winter_form(page, "wanted");
	}
	shell_section(page->visit, NULL, "as you said", "On your list to buy");
	markup_element(markup, "p", NULL,
	    "Put there by hand, from a piece’s card in the locker; in no sum.");
	if (page->list->buy.count == 0) {
		write_way_along(page);
	}
	markup_end(markup);
	markup_begin_class(markup, "ul", "rows");
	for (size_t i = 0; i < wanted->count; i++) {
		write_wanted(page, &wanted->items[i]);
	}
	markup_ends(markup, 2);
	if (!page->along) {
		winter_foot(page, "bought", "Bought: take off what is ticked");
		markup_end(markup);
	}
}

void
winter_take_along(struct winter_page *page)
{
	struct visit *visit = page->visit;
	const struct shore_list *list = page->list;
	SCOPED_TEXT back = {0};
	const struct head_box boxes[] = {{"Boat", page->vessel->name}};
	page->along = true;
	SHELL_OPEN(visit, .title = "To buy", .about = page->vessel->name,
	    .say = list->buy.count + list->wanted.count == 0
		       ? "Nothing is to be bought."
		       : "A tick here is for you alone: it is kept nowhere.",
	    .boxes = boxes, .box_count = 1);
	draw_defs(visit->markup);
	/* a form that only loads the same list again: tick boxes need a form, and nothing
	 * is written */
	shell_asking_form(visit, "/winter");
	shell_hidden(visit, "only", "buy");
	if (page->several) {
		shell_hidden(visit, "vessel", page->vessel->name);
	}
	winter_buy(page);
	winter_wanted(page);
	markup_end(visit->markup);
	shell_entry(visit);
	text_add(&back, "/winter");
	add_whose(page, &back);
	shell_link(visit, "go", "Back to This winter", "%s", text_string(&back));
	markup_ends(visit->markup, 2);
	shell_close(visit);
}
