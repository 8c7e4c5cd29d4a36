/* The years ahead as a page: what the plan costs, drawn and in tables. */
#include "report/markup.h"
#include "report/words.h"
#include "report/years_chart.h"
#include "report/years_words.h"

/* A page being written. */
struct page_writing {
	struct markup *markup;
	struct years_page page;
};

static void
cell(const struct page_writing *writing, const char *class_name, const char *words)
{
	markup_element(writing->markup, "td", class_name, words);
}

/* A head row in which the columns from `numbers` on are figures. */
static void
head_row(const struct page_writing *writing, const char *const *columns, size_t count,
    size_t numbers)
{
	markup_begin(writing->markup, "thead");
	markup_begin(writing->markup, "tr");
	for (size_t i = 0; i < count; i++) {
		bool number = i >= numbers;
		markup_element(
		    writing->markup, "th", number ? "number" : NULL, columns[i]);
	}
	markup_end(writing->markup);
	markup_end(writing->markup);
}

static void
money_cell(const struct page_writing *writing, int64_t minor)
{
	char buffer[MONEY_WORDS_SIZE];
	cell(writing, "number word", years_figure(&writing->page, minor, buffer));
}

static void
write_money(const struct page_writing *writing, const struct outlook *plan)
{
	static const char *const COLUMNS[] = {
	    "Winter", "Trips", "Stations", "New gear", "Together"};
	markup_begin(writing->markup, "table");
	head_row(writing, COLUMNS, 5, 1);
	for (size_t winter = 0; winter <= plan->winters; winter++) {
		struct outlook_sum sum = outlook_sum_of(plan, winter);
		markup_begin(writing->markup, "tr");
		markup_begin(writing->markup, "td");
		if (winter == plan->winters) {
			markup_text(writing->markup, "all");
		} else {
			markup_text_format(
			    writing->markup, "%d", plan->first_year + (int)winter);
		}
		markup_end(writing->markup);
		money_cell(writing, sum.trips);
		money_cell(writing, sum.work);
		money_cell(writing, sum.new_gear);
		money_cell(writing, sum.trips + sum.work + sum.new_gear);
		markup_end(writing->markup);
	}
	markup_end(writing->markup);
}

static void
write_drivers(const struct page_writing *writing, int64_t all_minor)
{
	static const char *const COLUMNS[] = {
	    "Kind", "At stations", "Renewed", "Together", "Share"};
	SCOPED_ARENA arena = {0};
	struct outlook_share *shares = NULL;
	size_t count = 0;
	outlook_shares(writing->page.view, &arena, &shares, &count);
	if (count == 0 || all_minor == 0) {
		return;
	}
	markup_element(writing->markup, "h3", NULL, "What drives it");
	markup_begin(writing->markup, "table");
	head_row(writing, COLUMNS, 5, 1);
	for (size_t i = 0; i < count && i < DRIVERS_MOST; i++) {
		SCOPED_TEXT words = {0};
		markup_begin(writing->markup, "tr");
		cell(writing, NULL, kind_name(writing->page.kinds, shares[i].kind));
		text_add_format(&words, "%zu", shares[i].works);
		cell(writing, "number", text_string(&words));
		text_reset(&words);
		text_add_format(&words, "%zu", shares[i].renewals);
		cell(writing, "number", text_string(&words));
		money_cell(writing, shares[i].minor);
		text_reset(&words);
		text_add_format(&words, "%lld %%",
		    (long long)((200 * shares[i].minor / all_minor + 1) / 2));
		cell(writing, "number", text_string(&words));
		markup_end(writing->markup);
	}
	markup_end(writing->markup);
}

static void
add_row(void *context, const struct years_row *row)
{
	const struct page_writing *writing = context;
	markup_begin(writing->markup, "tr");
	cell(writing, "word", task_word(row->task));
	cell(writing, NULL, row->tags);
	cell(writing, NULL, row->where);
	SCOPED_TEXT price = {0};
	add_years_price(&writing->page, row, &price);
	cell(writing, row->minor > 0 ? "number" : "number word", text_string(&price));
	markup_end(writing->markup);
}

static void
write_winter(struct page_writing *writing, const struct outlook *plan, size_t winter)
{
	static const char *const COLUMNS[] = {"What", "Gear", "Where", "Price"};
	markup_begin(writing->markup, "h3");
	markup_text_format(writing->markup, "%s %d", plan->all_year ? "Year" : "Winter",
	    plan->first_year + (int)winter);
	markup_end(writing->markup);
	markup_begin(writing->markup, "table");
	head_row(writing, COLUMNS, 4, 3);
	for (size_t i = 0; i < plan->trip_count; i++) {
		const struct outlook_trip *trip = &plan->trips[i];
		if (trip->winter == winter) {
			markup_begin(writing->markup, "tr");
			cell(writing, "word", "trip");
			cell(writing, NULL, "there and back");
			cell(writing, NULL,
			    writing->page.view->stations[trip->station].name);
			money_cell(writing, trip->minor);
			markup_end(writing->markup);
		}
	}
	(void)years_rows(&writing->page, plan, winter, add_row, writing);
	markup_end(writing->markup);
}

static void
write_plan(
    const struct page_writing *writing, const struct named_outlook *named, size_t number)
{
	const struct outlook *plan = &named->plan;
	const struct outlook_view *view = writing->page.view;
	const struct outlook_view own = {view->inventory, view->stations,
	    view->station_count, view->currency, named, 1};
	struct page_writing single = *writing;
	struct outlook_total total = outlook_total_of(named, 1);
	SCOPED_TEXT words = {0};
	single.page.view = &own;
	markup_element(writing->markup, "h2", NULL, named->name);
	add_years_verdict(&single.page, &total, &words);
	markup_element(writing->markup, "p", NULL, text_string(&words));
	text_reset(&words);
	add_years_gaps(&single.page, plan, &words);
	if (words.length > 0) {
		markup_element(writing->markup, "p", "care", text_string(&words));
	}
	draw_years(writing->markup, &single.page, plan, number);
	markup_element(writing->markup, "h3", NULL, "Money by winter");
	write_money(&single, plan);
	write_drivers(&single, total.minor);
	text_reset(&words);
	add_years_ages(&single.page, plan, &words);
	if (words.length > 0) {
		markup_element(writing->markup, "p", NULL, text_string(&words));
	}
	text_reset(&words);
	add_years_unknowns(&single.page, plan, &words);
	if (words.length > 0) {
		markup_element(writing->markup, "p", NULL, text_string(&words));
	}
	for (size_t winter = 0; winter < plan->winters; winter++) {
		write_winter(&single, plan, winter);
	}
}

static void
write_plans(const struct page_writing *writing)
{
	const struct outlook_view *view = writing->page.view;
	struct outlook_total total = outlook_total_of(view->plans, view->count);
	SCOPED_TEXT words = {0};
	bool all_year = false;
	text_add(&words, "Seen on ");
	add_day(writing->page.style->today, "", &words);
	text_add(&words, ". ");
	if (view->count > 1) {
		text_add(&words, "All together. ");
		add_years_verdict(&writing->page, &total, &words);
	}
	markup_element(writing->markup, "p", NULL, text_string(&words));
	markup_element(writing->markup, "p", "caution", REPORT_CAUTION);
	for (size_t i = 0; i < view->count; i++) {
		all_year = all_year || view->plans[i].plan.all_year;
		write_plan(writing, &view->plans[i], i);
	}
	text_reset(&words);
	add_years_notes(&total, all_year, &words);
	markup_element(writing->markup, "h2", NULL, "What this takes for granted");
	markup_element(writing->markup, "p", "quiet", text_string(&words));
}

void
page_years(const struct report_style *style, const struct kinds *kinds,
    const struct outlook_view *view, struct text *out)
{
	struct page_writing writing = {NULL, {style, kinds, view}};
	static const char TITLE[] = "The years ahead";
	markup_open(TITLE, &writing.markup);
	markup_element(writing.markup, "h1", NULL, TITLE);
	write_plans(&writing);
	markup_close(writing.markup, out);
}
