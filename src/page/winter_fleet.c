/* This winter, of a fleet: the hand-ins of all boats together, and what each boat
 * asks. */
#include "desk/giving_out.h"
#include "gear/money.h"
#include "page/draw.h"
#include "page/planning.h"
#include "page/shell.h"

struct fleet_page {
	struct visit *visit;
	const struct base_choice *choice;
	struct winter_answer answer;
};

/* "Two hand-ins of 12 boats; the first on Wednesday 2 Dec 2026 at Holm Quay." */
static void
add_sentence(const struct fleet_page *page, struct text *out)
{
	const struct dockets *going = &page->answer.going;
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	char day[DAY_WORDS_SIZE];
	size_t cannot = 0;
	if (page->answer.count == 0) {
		text_add(out, "No boat is in the book.");
		return;
	}
	if (going->count == 0) {
		text_add(out, "Nothing is to be handed in this winter.");
	} else {
		day_t first = going->items[0].hand_in;
		text_capital_number(going->count, out);
		text_add_format(out, " hand-in%s for ", going->count == 1 ? "" : "s");
		add_count(page->answer.count, "boat", "boats", out);
		text_add_format(out, "; the first on %s %s at %s.",
		    weekday_name(day_of_week(first)), day_words(first, day),
		    going->items[0].station[0] == '\0' ? "an approved station"
						       : going->items[0].station);
	}
	for (size_t i = 0; i < page->answer.count; i++) {
		cannot += shore_pieces(inventory, &page->answer.lists[i].cannot);
	}
	if (cannot > 0) {
		text_add_byte(out, ' ');
		add_count(cannot, "piece can’t", "pieces can’t", out);
		text_add(out, " be done in time: see the boats.");
	}
}

static void
open_page(const struct fleet_page *page)
{
	struct visit *visit = page->visit;
	SCOPED_TEXT say = {0};
	SCOPED_TEXT boats = {0};
	text_add_format(&boats, "%zu", page->answer.count);
	add_sentence(page, &say);
	const struct head_box boxes[] = {
	    {"Boats", text_string(&boats)}, {"Base", page->choice->base}};
	SHELL_OPEN(visit, .title = "This winter", .margin = "all boats",
	    .under = page->choice->base, .say = text_string(&say), .boxes = boxes,
	    .box_count = page->choice->base == NULL ? 1 : 2);
	draw_defs(visit->markup);
}

/* The boats that have something in the docket, each once. */
static void
add_boats(const struct fleet_page *page, const struct docket *docket, struct text *out)
{
	const struct inventory *inventory = &page->visit->desk.contents.inventory;
	size_t last = SIZE_MAX;
	for (size_t i = 0; i < docket->piece_count; i++) {
		size_t vessel = inventory->items[docket->pieces[i].item].vessel;
		if (vessel != last) {
			text_add(out, last == SIZE_MAX ? "" : ", ");
			text_add(out, inventory->vessels[vessel].name);
			last = vessel;
		}
	}
}

static void
write_print_form(const struct fleet_page *page, const struct docket *docket)
{
	struct visit *visit = page->visit;
	char day[DAY_ISO_SIZE];
	/* printing gives days out for a base or for all boats; for a choice of boats,
	 * each boat's own page prints them */
	if (page->choice->boats != NULL) {
		return;
	}
	shell_form(visit, "/winter", NULL);
	shell_hidden(visit, "station", docket->station);
	shell_hidden(visit, "hand-in", day_iso(docket->hand_in, day));
	shell_hidden(visit, "base", page->choice->base == NULL ? "" : page->choice->base);
	shell_button(visit, false, "act", "papers", "Print tags and docket");
	markup_end(visit->markup);
}

/* One hand-in of all boats: when, where, how much, and when it is back. */
static void
write_hand_in(const struct fleet_page *page, const struct docket *docket)
{
	struct markup *markup = page->visit->markup;
	SCOPED_TEXT words = {0};
	markup_begin_class(markup, "li", "row");
	markup_begin_class(markup, "div", "k");
	markup_begin(markup, "b");
	winter_day(page->visit, docket->hand_in, false);
	markup_ends(markup, 2);
	markup_begin_class(markup, "div", "w two");
	markup_begin(markup, "span");
	markup_element(markup, "b", NULL, station_words(docket->station));
	text_add(&words, ": ");
	add_count(docket->piece_count, "piece of ", "pieces of ", &words);
	add_boats(page, docket, &words);
	markup_text(markup, text_string(&words));
	markup_begin(markup, "br");
	markup_end(markup);
	markup_begin_class(markup, "span", "soft");
	markup_text(markup, "collect ");
	winter_day(page->visit, docket->collect, docket->assumed);
	markup_ends(markup, 2);
	write_print_form(page, docket);
	markup_ends(markup, 2);
}

static void
write_fleet_hand_ins(const struct fleet_page *page)
{
	struct markup *markup = page->visit->markup;
	const struct dockets *going = &page->answer.going;
	if (going->count == 0) {
		return;
	}
	shell_rows(page->visit, "all together", "To hand in");
	for (size_t i = 0; i < going->count; i++) {
		write_hand_in(page, &going->items[i]);
	}
	markup_ends(markup, 2);
}

static void
write_ashore(const struct fleet_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct dockets *landed = &page->answer.landed;
	if (landed->count == 0) {
		return;
	}
	shell_rows(visit, "to fetch", "Ashore already");
	for (size_t i = 0; i < landed->count; i++) {
		const struct docket *docket = &landed->items[i];
		SCOPED_TEXT words = {0};
		SCOPED_TEXT path = {0};
		add_count(docket->piece_count, "piece of ", "pieces of ", &words);
		add_boats(page, docket, &words);
		text_add(&path, "/back?station=");
		form_escape(docket->station, &path);
		markup_begin_class(markup, "li", "row");
		markup_begin_class(markup, "div", "k");
		winter_day(visit, docket->collect, docket->assumed);
		markup_end(markup);
		markup_begin_class(markup, "div", "w two");
		markup_begin(markup, "span");
		markup_element(markup, "b", NULL,
		    docket->station[0] == '\0' ? "a station not told" : docket->station);
		markup_text_format(markup, ": %s", text_string(&words));
		markup_end(markup);
		shell_link(visit, "go", "It came back", "%s", text_string(&path));
		markup_ends(markup, 2);
	}
	markup_ends(markup, 2);
}

/* "2 bags, the first on Wed 2 Dec; 3 things to do oneself, 4 to buy". */
static void
add_work(const struct shore_list *list, struct text *out)
{
	size_t own = list->self.count + list->paperwork.count;
	const char *between = "";
	char day[DAY_WORDS_SIZE];
	if (!list->has_winter) {
		text_add(out, "in use all year");
		between = "; ";
	}
	if (list->hand_in.count > 0) {
		text_add(out, between);
		add_count(list->hand_in.count, "bag", "bags", out);
		text_add_format(out,
		    list->hand_in.count == 1 ? " on %s" : ", the first on %s",
		    day_words(list->hand_in.items[0].hand_in, day));
		between = "; ";
	}
	if (own > 0) {
		text_add(out, between);
		add_count(own, "thing to do oneself", "things to do oneself", out);
		between = "; ";
	}
	if (list->buy.count + list->wanted.count > 0) {
		text_add(out, between);
		text_add_format(out, "%zu to buy", list->buy.count + list->wanted.count);
		between = "; ";
	}
	if (between[0] == '\0') {
		text_add(out, "nothing is asked this winter");
	}
}

/* What needs action first: what can't be done in time, and what must be done now. */
static void
write_urgent(struct markup *markup, const struct inventory *inventory,
    const struct shore_list *list)
{
	SCOPED_TEXT words = {0};
	if (list->cannot.count > 0) {
		add_count(
		    shore_pieces(inventory, &list->cannot), "piece", "pieces", &words);
		text_add(&words, " not in time");
	}
	if (list->now.count > 0) {
		text_add(&words, words.length > 0 ? "; " : "");
		text_add_format(&words, "%zu to do now", list->now.count);
	}
	if (words.length > 0) {
		markup_begin(markup, "br");
		markup_end(markup);
		markup_begin_class(markup, "span", "state");
		draw_mark(markup, MARK_SHORT);
		markup_text(markup, text_string(&words));
		markup_end(markup);
	}
}

static void
write_boat(const struct fleet_page *page, const struct shore_list *list)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	const struct inventory *inventory = &visit->desk.contents.inventory;
	const struct vessel *vessel = &inventory->vessels[list->vessel];
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT path = {0};
	SCOPED_TEXT work = {0};
	text_add(&path, "/winter?vessel=");
	form_escape(vessel->name, &path);
	add_work(list, &work);
	markup_begin_class(markup, "li", "row");
	markup_element(markup, "div", "k", vessel->base);
	markup_begin_class(markup, "div", "w asks");
	markup_begin(markup, "span");
	shell_link(visit, NULL, vessel->name, "%s", text_string(&path));
	write_urgent(markup, inventory, list);
	markup_end(markup);
	markup_element(markup, "span", NULL, text_string(&work));
	markup_element(markup, "span", "num",
	    list->cost_minor == 0
		? ""
		: money_words(list->cost_minor, inventory->currency, money));
	markup_ends(markup, 2);
}

static void
write_sum(const struct fleet_page *page)
{
	struct visit *visit = page->visit;
	struct markup *markup = visit->markup;
	char money[MONEY_WORDS_SIZE];
	int64_t minor = 0;
	size_t unpriced = 0;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < page->answer.count; i++) {
		minor += page->answer.lists[i].cost_minor;
		unpriced += page->answer.lists[i].unpriced;
	}
	if (unpriced > 0) {
		text_add_byte(&words, ' ');
		add_count(unpriced, "line has", "lines have", &words);
		text_add(&words, " no price yet.");
	}
	markup_begin_class(markup, "div", "entry");
	markup_begin_class(markup, "div", "m");
	markup_element(markup, "b", NULL, "in all");
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_begin(markup, "p");
	markup_element(markup, "b", NULL,
	    money_words(minor, visit->desk.contents.inventory.currency, money));
	markup_text_format(markup,
	    " is what this winter costs for all these boats, as far as it is known.%s",
	    text_string(&words));
	markup_ends(markup, 3);
}

bool
winter_of_fleet(
    struct visit *visit, const struct base_choice *choice, struct fault *fault)
{
	struct fleet_page page = {.visit = visit, .choice = choice};
	const struct plans_wish wish = base_choice_wish(choice);
	if (!desk_hand_ins(&visit->desk, &wish, &page.answer, fault)) {
		return false;
	}
	open_page(&page);
	base_choice_form(visit, choice, "/winter", "Look at these");
	write_fleet_hand_ins(&page);
	write_ashore(&page);
	if (page.answer.count > 0) {
		shell_rows(visit, "press a name", "Boat by boat");
		for (size_t i = 0; i < page.answer.count; i++) {
			write_boat(&page, &page.answer.lists[i]);
		}
		markup_ends(visit->markup, 2);
		write_sum(&page);
	}
	shell_close(visit);
	return true;
}

bool
winter_fleet_papers(struct visit *visit, struct fault *fault)
{
	SCOPED_DESK desk = {0};
	SCOPED_TEXT query = {0};
	const char *base = page_value(visit, "base");
	page_write(visit, &desk, "printed tags and docket");
	if (!desk_give_hand_ins(&desk, NULL, base[0] == '\0' ? NULL : base, fault)) {
		return false;
	}
	page_done(visit, &desk);
	text_add(&query, "station=");
	form_escape(page_value(visit, "station"), &query);
	if (base[0] != '\0') {
		text_add(&query, "&base=");
		form_escape(base, &query);
	}
	page_go(visit, "/shore-papers/all?%s&hand-in=%s", text_string(&query),
	    page_value(visit, "hand-in"));
	return true;
}
