/* The years ahead in words: money by winter, what drives it, and what is done when. */
#include "report/table.h"
#include "report/words.h"
#include "report/years_words.h"

/* A page in text. */
struct years_text {
	struct years_page page;
	struct text *out; /* borrowed */
};

static void
add_figure(
    const struct years_text *text, enum hue hue, int64_t minor, struct table *table)
{
	char buffer[MONEY_WORDS_SIZE];
	table_add(table, hue, years_figure(&text->page, minor, buffer));
}

static void
write_verdict(const struct years_text *text, const struct outlook_total *total)
{
	SCOPED_TEXT words = {0};
	add_years_verdict(&text->page, total, &words);
	paragraph(text_string(&words), 0, 0, text->out);
}

static void
add_money_row(const struct years_text *text, enum hue hue, const char *name,
    const struct outlook_sum *sum, struct table *table)
{
	table_add(table, hue, name);
	add_figure(text, hue, sum->trips, table);
	add_figure(text, hue, sum->work, table);
	add_figure(text, hue, sum->new_gear, table);
	add_figure(text, hue, sum->trips + sum->work + sum->new_gear, table);
}

/* The money of each winter. */
static void
write_money(const struct years_text *text, const struct outlook *plan)
{
	static const struct table_column COLUMNS[] = {{.heading = "Winter"},
	    {.heading = "Trips", .align = ALIGN_RIGHT},
	    {.heading = "Stations", .align = ALIGN_RIGHT},
	    {.heading = "New gear", .align = ALIGN_RIGHT},
	    {.heading = "Together", .align = ALIGN_RIGHT}};
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2,
	    text->page.style->colour);
	text_add_format(
	    text->out, "\nMoney by winter, in %s\n", text->page.style->currency);
	for (size_t winter = 0; winter <= plan->winters; winter++) {
		char year[16] = "all";
		bool all = winter == plan->winters;
		struct outlook_sum sum = outlook_sum_of(plan, winter);
		SCOPED_TEXT name = {0};
		text_add_format(&name, "%d", plan->first_year + (int)winter);
		add_money_row(text, all ? HUE_STRONG : HUE_NONE,
		    all ? year : text_string(&name), &sum, &table);
	}
	table_write(&table, text->out);
}

/* The kinds that cost most. */
static void
write_drivers(const struct years_text *text, const struct outlook_total *total)
{
	static const struct table_column COLUMNS[] = {
	    {.heading = "Kind", .flexible = true},
	    {.heading = "At stations", .align = ALIGN_RIGHT},
	    {.heading = "Renewed", .align = ALIGN_RIGHT},
	    {.heading = "Together", .align = ALIGN_RIGHT},
	    {.heading = "Share", .align = ALIGN_RIGHT}};
	SCOPED_ARENA arena = {0};
	struct outlook_share *shares = NULL;
	size_t count = 0;
	outlook_shares(text->page.view, &arena, &shares, &count);
	if (count == 0 || total->minor == 0) {
		return;
	}
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2,
	    text->page.style->colour);
	for (size_t i = 0; i < count && i < DRIVERS_MOST; i++) {
		const struct outlook_share *share = &shares[i];
		SCOPED_TEXT words = {0};
		table_add(&table, HUE_NONE, kind_name(text->page.kinds, share->kind));
		text_add_format(&words, "%zu", share->works);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		text_add_format(&words, "%zu", share->renewals);
		table_add(&table, HUE_NONE, text_string(&words));
		add_figure(text, HUE_NONE, share->minor, &table);
		text_reset(&words);
		text_add_format(&words, "%lld %%",
		    (long long)((200 * share->minor / total->minor + 1) / 2));
		table_add(&table, HUE_NONE, text_string(&words));
	}
	text_add(text->out, "\nWhat drives it\n");
	table_write(&table, text->out);
}

/* A table being filled with a winter's rows. */
struct filling {
	const struct years_text *text;
	struct table *table;
};

static void
add_row(void *context, const struct years_row *row)
{
	const struct filling *filling = context;
	table_add(filling->table, HUE_NONE, task_word(row->task));
	table_add(filling->table, HUE_NONE, row->tags);
	table_add(filling->table, HUE_NONE, row->where);
	SCOPED_TEXT price = {0};
	add_years_price(&filling->text->page, row, &price);
	table_add(filling->table, HUE_NONE, text_string(&price));
}

/* A winter: its trips, then what is done. */
static void
write_winter(const struct years_text *text, const struct outlook *plan, size_t winter)
{
	static const struct table_column COLUMNS[] = {{.heading = ""},
	    {.heading = "", .flexible = true}, {.heading = "", .most = 28},
	    {.heading = "", .align = ALIGN_RIGHT}};
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2,
	    text->page.style->colour);
	struct filling filling = {text, &table};
	for (size_t i = 0; i < plan->trip_count; i++) {
		const struct outlook_trip *trip = &plan->trips[i];
		if (trip->winter == winter) {
			table_add(&table, HUE_NONE, "trip");
			table_add(&table, HUE_NONE, "there and back");
			table_add(&table, HUE_NONE,
			    text->page.view->stations[trip->station].name);
			add_figure(text, HUE_NONE, trip->minor, &table);
		}
	}
	(void)years_rows(&text->page, plan, winter, add_row, &filling);
	text_add_format(text->out, "\n%s %d%s\n", plan->all_year ? "Year" : "Winter",
	    plan->first_year + (int)winter,
	    table_rows(&table) == 0 ? ": nothing is to be done" : "");
	table_write(&table, text->out);
}

/* The prices that change with age, or that are not known. */
static void
write_prices(const struct years_text *text, const struct outlook *plan,
    void (*add)(const struct years_page *, const struct outlook *, struct text *))
{
	SCOPED_TEXT words = {0};
	add(&text->page, plan, &words);
	text_add(text->out, words.length > 0 ? "\n" : "");
	paragraph(text_string(&words), 0, 2, text->out);
}

/* What hangs on the number of winters, and what the shore list has otherwise. */
static void
write_asides(const struct years_text *text, const struct named_outlook *named)
{
	SCOPED_TEXT words = {0};
	add_years_clashes(&text->page, named, &words);
	text_add(text->out, words.length > 0 ? "\n" : "");
	paragraph(text_string(&words), 0, 2, text->out);
	text_reset(&words);
	add_years_tips(&text->page, named, &words);
	text_add(text->out, words.length > 0 ? "\n" : "");
	paragraph(text_string(&words), 0, 2, text->out);
}

static void
write_plan(const struct years_text *text, const struct named_outlook *named)
{
	const struct outlook *plan = &named->plan;
	const struct outlook_view *view = text->page.view;
	const struct outlook_view own = {view->inventory, view->stations,
	    view->station_count, view->currency, named, 1};
	struct years_text single = *text;
	single.page.view = &own;
	struct outlook_total total = outlook_total_of(named, 1);
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: the next %zu %s, seen on ", named->name,
	    plan->winters, plan->winters == 1 ? "winter" : "winters");
	add_day(text->page.style->today, "", &words);
	text_add(&words, ".");
	paragraph(text_string(&words), 0, 2, text->out);
	write_verdict(&single, &total);
	write_money(&single, plan);
	write_drivers(&single, &total);
	write_prices(&single, plan, add_years_ages);
	write_prices(&single, plan, add_years_unknowns);
	write_asides(&single, named);
	for (size_t winter = 0; winter < plan->winters; winter++) {
		write_winter(&single, plan, winter);
	}
	text_reset(&words);
	add_years_gaps(&single.page, plan, &words);
	text_add(text->out, words.length > 0 ? "\n" : "");
	paragraph(text_string(&words), 0, 2, text->out);
}

void
report_years(const struct report_style *style, const struct kinds *kinds,
    const struct outlook_view *view, struct text *out)
{
	const struct years_text text = {{style, kinds, view}, out};
	struct outlook_total total = outlook_total_of(view->plans, view->count);
	bool all_year = false;
	for (size_t i = 0; i < view->count; i++) {
		text_add(out, i > 0 ? "\n" : "");
		write_plan(&text, &view->plans[i]);
		all_year = all_year || view->plans[i].plan.all_year;
	}
	if (view->count > 1) {
		text_add(out, "\nAll together\n");
		write_verdict(&text, &total);
	}
	SCOPED_TEXT words = {0};
	add_years_notes(&total, all_year, &words);
	text_add(out, "\n");
	paragraph(text_string(&words), 0, 0, out);
	paragraph(REPORT_CAUTION, 0, 0, out);
}
