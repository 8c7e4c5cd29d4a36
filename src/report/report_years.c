/* The years ahead in words: money by winter, what drives it, and what is done when. */
#include "report/money.h"
#include "report/report.h"
#include "report/table.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

#define SCOPED_ARENA __attribute__((cleanup(arena_clear))) struct arena

/* Kinds named as what drives the money. */
enum { DRIVERS_MOST = 6 };

/* What all parts need; all borrowed. */
struct years_page {
	const struct report_style *style;
	const struct kinds *kinds;
	const struct outlook_view *view;
	struct text *out;
};

static void
add_money(const struct years_page *page, int64_t minor, struct text *out)
{
	char money[MONEY_WORDS_SIZE];
	text_add(out, money_words(minor, page->style->currency, money));
}

/* Adds an amount without its currency, for columns. */
static void
add_figure(
    const struct years_page *page, enum hue hue, int64_t minor, struct table *table)
{
	char money[MONEY_WORDS_SIZE];
	const char *words = money_words(minor, page->style->currency, money);
	const char *blank = strchr(words, ' ');
	table_add(table, hue, blank == NULL ? words : blank + 1);
}

/* What the plan costs, whether that is proven, and what doing things when due would cost. */
static void
write_verdict(const struct years_page *page, const struct outlook_total *total)
{
	SCOPED_TEXT words = {0};
	text_add(
	    &words, total->gaps == 0
			? "Cheapest plan in which nothing lapses in a season: "
			: "Cheapest plan of those in which least lapses in a season: ");
	add_money(page, total->minor, &words);
	if (total->proven) {
		text_add(&words, ", proven: no plan costs less.");
	} else {
		text_add(
		    &words, ", not proven to be the cheapest: no plan costs less than ");
		add_money(page, total->bound, &words);
		text_add(&words, ".");
	}
	text_add(&words, " Doing each thing only when it falls due would cost ");
	add_money(page, total->when_due_minor, &words);
	if (total->when_due_minor > total->minor) {
		text_add(&words, ", ");
		add_money(page, total->when_due_minor - total->minor, &words);
		text_add(&words, " more.");
	} else {
		text_add(&words, ".");
	}
	paragraph(text_string(&words), 0, 0, page->out);
	page->out->failed = page->out->failed || words.failed;
}

static void
add_money_row(const struct years_page *page, enum hue hue, const char *name,
    const struct outlook_sum *sum, struct table *table)
{
	table_add(table, hue, name);
	add_figure(page, hue, sum->trips, table);
	add_figure(page, hue, sum->work, table);
	add_figure(page, hue, sum->new_gear, table);
	add_figure(page, hue, sum->trips + sum->work + sum->new_gear, table);
}

/* The money of each winter. */
static bool
write_money(
    const struct years_page *page, const struct outlook *plan, struct fault *fault)
{
	static const struct table_column COLUMNS[] = {{.heading = "Winter"},
	    {.heading = "Trips", .align = ALIGN_RIGHT},
	    {.heading = "Stations", .align = ALIGN_RIGHT},
	    {.heading = "New gear", .align = ALIGN_RIGHT},
	    {.heading = "Together", .align = ALIGN_RIGHT}};
	SCOPED_TABLE table;
	table_init(
	    &table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2, page->style->colour);
	text_add_format(page->out, "\nMoney by winter, in %s\n", page->style->currency);
	for (size_t winter = 0; winter <= plan->winters; winter++) {
		char year[16] = "all";
		bool all = winter == plan->winters;
		struct outlook_sum sum = outlook_sum_of(plan, winter);
		SCOPED_TEXT name = {0};
		text_add_format(&name, "%d", plan->first_year + (int)winter);
		add_money_row(page, all ? HUE_STRONG : HUE_NONE,
		    all ? year : text_string(&name), &sum, &table);
	}
	return table_write(&table, page->out, fault);
}

/* The kinds that cost most. */
static bool
write_drivers(
    const struct years_page *page, const struct outlook_total *total, struct fault *fault)
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
	if (!outlook_shares(page->view, &arena, &shares, &count, fault)) {
		return false;
	}
	if (count == 0 || total->minor == 0) {
		return true;
	}
	SCOPED_TABLE table;
	table_init(
	    &table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2, page->style->colour);
	for (size_t i = 0; i < count && i < DRIVERS_MOST; i++) {
		const struct outlook_share *share = &shares[i];
		SCOPED_TEXT words = {0};
		table_add(&table, HUE_NONE, kind_name(page->kinds, share->kind));
		text_add_format(&words, "%zu", share->works);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		text_add_format(&words, "%zu", share->renewals);
		table_add(&table, HUE_NONE, text_string(&words));
		add_figure(page, HUE_NONE, share->minor, &table);
		text_reset(&words);
		text_add_format(&words, "%lld %%",
		    (long long)((200 * share->minor / total->minor + 1) / 2));
		table_add(&table, HUE_NONE, text_string(&words));
	}
	text_add(page->out, "\nWhat drives it\n");
	return table_write(&table, page->out, fault);
}

/* Lines that stand in one row: the same winter, task, doer and station. */
static bool
same_row(const struct outlook_line *a, const struct outlook_line *b)
{
	return a->winter == b->winter && a->task == b->task && a->doer == b->doer &&
	       a->station == b->station;
}

/* One row: all lines like the one at `at`, none of which stands before it. */
static void
add_row(const struct years_page *page, const struct outlook *plan, size_t at,
    struct table *table)
{
	const struct outlook_line *line = &plan->lines[at];
	const struct item *items = page->view->inventory->items;
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	int64_t minor = 0;
	bool unpriced = false;
	for (size_t i = at; i < plan->line_count; i++) {
		if (same_row(&plan->lines[i], line)) {
			tag_list_add(&list, items[plan->lines[i].item].tag);
			minor += plan->lines[i].minor > 0 ? plan->lines[i].minor : 0;
			minor += plan->lines[i].carriage_minor;
			unpriced = unpriced || plan->lines[i].minor < 0;
		}
	}
	tag_list_end(&list);
	const char *where = line->station != NO_STATION
				? page->view->stations[line->station].name
			    : line->doer == DOER_STATION ? "an approved station"
							 : "";
	table_add(table, HUE_NONE, task_word(line->task));
	table_add(table, HUE_NONE, text_string(&tags));
	table_add(table, HUE_NONE, where);
	if (minor > 0) {
		add_figure(page, HUE_NONE, minor, table);
	} else {
		table_add(table, HUE_NONE, unpriced ? "no price" : "");
	}
	page->out->failed = page->out->failed || tags.failed;
}

static bool
stands_before(const struct outlook *plan, size_t at)
{
	for (size_t i = at; i > 0 && plan->lines[i - 1].winter == plan->lines[at].winter;
	     i--) {
		if (same_row(&plan->lines[i - 1], &plan->lines[at])) {
			return true;
		}
	}
	return false;
}

/* A winter's rows: what goes to stations first, then what is bought, then own work. */
static bool
write_winter(const struct years_page *page, const struct outlook *plan, size_t winter,
    struct fault *fault)
{
	static const struct table_column COLUMNS[] = {{.heading = ""},
	    {.heading = "", .flexible = true}, {.heading = "", .most = 28},
	    {.heading = "", .align = ALIGN_RIGHT}};
	SCOPED_TABLE table;
	table_init(
	    &table, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 2, page->style->colour);
	for (size_t i = 0; i < plan->trip_count; i++) {
		const struct outlook_trip *trip = &plan->trips[i];
		if (trip->winter == winter) {
			table_add(&table, HUE_NONE, "trip");
			table_add(&table, HUE_NONE, "there and back");
			table_add(
			    &table, HUE_NONE, page->view->stations[trip->station].name);
			add_figure(page, HUE_NONE, trip->minor, &table);
		}
	}
	for (int part = 0; part < 3; part++) {
		for (size_t i = 0; i < plan->line_count; i++) {
			const struct outlook_line *line = &plan->lines[i];
			int own = line->doer == DOER_STATION ? 0
				  : line->task == TASK_RENEW ? 1
							     : 2;
			if (line->winter == winter && own == part &&
			    !stands_before(plan, i)) {
				add_row(page, plan, i, &table);
			}
		}
	}
	text_add_format(page->out, "\n%s %d%s\n", plan->all_year ? "Year" : "Winter",
	    plan->first_year + (int)winter,
	    table_rows(&table) == 0 ? ": nothing is to be done" : "");
	return table_write(&table, page->out, fault);
}

/* What lapses all the same. */
static bool
write_gaps(const struct years_page *page, const struct outlook *plan)
{
	const struct item *items = page->view->inventory->items;
	SCOPED_TEXT words = {0};
	if (plan->gap_count == 0) {
		return true;
	}
	text_add(
	    &words, "No plan keeps these in date in the season after the winter named: ");
	for (size_t i = 0; i < plan->gap_count; i++) {
		const struct outlook_gap *gap = &plan->gaps[i];
		text_add_format(&words, "%s%s (%s, %d)", i > 0 ? ", " : "",
		    items[gap->item].tag, task_noun(gap->task),
		    plan->first_year + (int)gap->winter);
	}
	text_add(&words, ".");
	text_add(page->out, "\n");
	paragraph(text_string(&words), 0, 2, page->out);
	page->out->failed = page->out->failed || words.failed;
	return true;
}

/* What the plan takes for granted. */
static void
write_notes(
    const struct years_page *page, const struct outlook_total *total, bool all_year)
{
	SCOPED_TEXT words = {0};
	if (total->unpriced > 0) {
		text_add_format(&words, "%zu %s without a price, counted as nothing. ",
		    total->unpriced, total->unpriced == 1 ? "line is" : "lines are");
	}
	text_add(&words,
	    "Each thing is taken as done on the last day that brings it back for "
	    "fitting-out, and new gear as made on the day it is bought, with a printed date "
	    "as far ahead as the old one's. ");
	if (total->assumed > 0) {
		text_add_format(&words,
		    "For %zu %s that is not known: 36 months, 60 for beacons, are taken. ",
		    total->assumed, total->assumed == 1 ? "item" : "items");
	}
	if (all_year) {
		text_add(&words,
		    "A vessel in use all year has years from today on in place of winters. ");
	}
	text_add(&words, "What comes after the last winter counts for nothing.");
	text_add(page->out, "\n");
	paragraph(text_string(&words), 0, 0, page->out);
	paragraph(REPORT_CAUTION, 0, 0, page->out);
	page->out->failed = page->out->failed || words.failed;
}

static bool
write_plan(
    const struct years_page *page, const struct named_outlook *named, struct fault *fault)
{
	const struct outlook *plan = &named->plan;
	const struct outlook_view own = {
	    page->view->inventory, page->view->stations, page->view->currency, named, 1};
	struct years_page single = *page;
	single.view = &own;
	struct outlook_total total = outlook_total_of(named, 1);
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: the next %zu %s, seen on ", named->name,
	    plan->winters, plan->winters == 1 ? "winter" : "winters");
	add_day(page->style->today, "", &words);
	text_add(&words, ".");
	paragraph(text_string(&words), 0, 2, page->out);
	page->out->failed = page->out->failed || words.failed;
	write_verdict(page, &total);
	if (!write_money(&single, plan, fault) ||
	    !write_drivers(&single, &total, fault)) {
		return false;
	}
	for (size_t winter = 0; winter < plan->winters; winter++) {
		if (!write_winter(&single, plan, winter, fault)) {
			return false;
		}
	}
	return write_gaps(&single, plan);
}

bool
report_years(const struct report_style *style, const struct kinds *kinds,
    const struct outlook_view *view, struct text *out, struct fault *fault)
{
	const struct years_page page = {style, kinds, view, out};
	struct outlook_total total = outlook_total_of(view->plans, view->count);
	bool all_year = false;
	for (size_t i = 0; i < view->count; i++) {
		if (i > 0) {
			text_add(out, "\n");
		}
		if (!write_plan(&page, &view->plans[i], fault)) {
			return false;
		}
		all_year = all_year || view->plans[i].plan.all_year;
	}
	if (view->count > 1) {
		text_add(out, "\nAll together. ");
		write_verdict(&page, &total);
	}
	write_notes(&page, &total, all_year);
	return text_check(out, fault);
}
