/* The years ahead, as text and as a page: money by winter, what drives it, and what is done
 * when. */
#include "report/reply.h"
#include "report/words.h"
#include "report/words_inside.h"

/* What of a plan is drawn. */
struct drawing {
	struct years_page page;
	const struct outlook *plan;
	size_t number;
};

static void
add_figure(const struct years_composing *composing, enum hue hue, int64_t minor,
    struct reply_table *table)
{
	char buffer[MONEY_WORDS_SIZE];
	reply_cell(table, hue, years_figure(&composing->page, minor, buffer));
}

static void
add_verdict(const struct years_composing *composing, const struct outlook_total *total)
{
	SCOPED_TEXT words = {0};
	add_years_verdict(&composing->page, total, &words);
	reply_words(composing->reply, VOICE_PLAIN, false, 0, text_string(&words));
}

static void
add_money_row(const struct years_composing *composing, enum hue hue, const char *name,
    const struct outlook_sum *sum, struct reply_table *table)
{
	reply_cell(table, hue, name);
	add_figure(composing, hue, sum->trips, table);
	add_figure(composing, hue, sum->work, table);
	add_figure(composing, hue, sum->new_gear, table);
	add_figure(composing, hue, sum->trips + sum->work + sum->new_gear, table);
}

/* The money of each winter. */
static void
add_money(const struct years_composing *composing, const struct outlook *plan)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Winter"},
	    {.heading = "Trips", .type = CELL_PRICE},
	    {.heading = "Stations", .type = CELL_PRICE},
	    {.heading = "New gear", .type = CELL_PRICE},
	    {.heading = "Together", .type = CELL_PRICE}};
	SCOPED_TEXT words = {0};
	text_add_format(
	    &words, "Money by winter, in %s", composing->page.style->currency);
	reply_heading(composing->reply, 3, text_string(&words));
	struct reply_table *table = REPLY_TABLE(composing->reply, COLUMNS, 0);
	for (size_t winter = 0; winter <= plan->winters; winter++) {
		bool all = winter == plan->winters;
		struct outlook_sum sum = outlook_sum_of(plan, winter);
		text_reset(&words);
		text_add_format(&words, "%d", plan->first_year + (int)winter);
		add_money_row(composing, all ? HUE_STRONG : HUE_NONE,
		    all ? "all" : text_string(&words), &sum, table);
	}
}

/* The kinds that cost most. */
static void
add_drivers(const struct years_composing *composing, int64_t all_minor)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Kind", .flexible = true},
	    {.heading = "At stations", .type = CELL_NUMBER},
	    {.heading = "Renewed", .type = CELL_NUMBER},
	    {.heading = "Together", .type = CELL_PRICE},
	    {.heading = "Share", .type = CELL_NUMBER}};
	struct outlook_share *shares = NULL;
	size_t count = 0;
	outlook_shares(composing->page.view, composing->reply->arena, &shares, &count);
	if (count == 0 || all_minor == 0) {
		return;
	}
	reply_heading(composing->reply, 3, "What drives it");
	struct reply_table *table = REPLY_TABLE(composing->reply, COLUMNS, 0);
	for (size_t i = 0; i < count && i < DRIVERS_MOST; i++) {
		SCOPED_TEXT share = {0};
		reply_cell(
		    table, HUE_NONE, kind_name(composing->page.kinds, shares[i].kind));
		reply_number(table, HUE_NONE, (int64_t)shares[i].works, "");
		reply_number(table, HUE_NONE, (int64_t)shares[i].renewals, "");
		add_figure(composing, HUE_NONE, shares[i].minor, table);
		text_add_format(&share, "%lld %%",
		    (long long)((200 * shares[i].minor / all_minor + 1) / 2));
		reply_cell(table, HUE_NONE, text_string(&share));
	}
}

/* A table being filled with a winter's rows. */
struct filling {
	const struct years_composing *composing;
	struct reply_table *table;
};

static void
add_row(void *context, const struct years_row *row)
{
	const struct filling *filling = context;
	SCOPED_TEXT price = {0};
	reply_cell(filling->table, HUE_NONE, task_word(row->task));
	reply_cell(filling->table, HUE_NONE, row->gear);
	reply_cell(filling->table, HUE_NONE, row->where);
	add_years_price(&filling->composing->page, row, &price);
	reply_cell(filling->table, HUE_NONE, text_string(&price));
}

static void
add_trip(const struct years_composing *composing, const struct outlook_trip *trip,
    struct reply_table *table)
{
	reply_cell(table, HUE_NONE, "trip");
	reply_cell(table, HUE_NONE, "there and back");
	reply_cell(table, HUE_NONE, composing->page.view->stations[trip->station].name);
	add_figure(composing, HUE_NONE, trip->minor, table);
}

/* True when something is done in a winter, or a trip made. */
static bool
is_anything(const struct outlook *plan, size_t winter)
{
	bool any = false;
	for (size_t i = 0; i < plan->trip_count; i++) {
		any = any || plan->trips[i].winter == winter;
	}
	for (size_t i = 0; i < plan->line_count; i++) {
		any = any || plan->lines[i].winter == winter;
	}
	return any;
}

/* A winter: its trips, then what is done. */
static void
add_winter(
    const struct years_composing *composing, const struct outlook *plan, size_t winter)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "What", .type = CELL_STATE},
	    {.heading = "Gear", .flexible = true}, {.heading = "Where", .most = 28},
	    {.heading = "Price", .type = CELL_PRICE}};
	SCOPED_TEXT words = {0};
	bool any = is_anything(plan, winter);
	text_add_format(&words, "%s %d%s", plan->all_year ? "Year" : "Winter",
	    plan->first_year + (int)winter, any ? "" : ": nothing is to be done");
	reply_heading(composing->reply, 3, text_string(&words));
	if (!any) {
		return;
	}
	struct filling filling = {
	    composing, REPLY_TABLE(composing->reply, COLUMNS, LOOK_BARE)};
	for (size_t i = 0; i < plan->trip_count; i++) {
		if (plan->trips[i].winter == winter) {
			add_trip(composing, &plan->trips[i], filling.table);
		}
	}
	years_rows(&composing->page, plan, winter, add_row, &filling);
}

static void
add_gaps(const struct years_composing *composing, const struct outlook *plan)
{
	SCOPED_TEXT words = {0};
	add_years_gaps(&composing->page, plan, &words);
	reply_words(composing->reply, VOICE_CARE, true, 2, text_string(&words));
}

static void
draw(const void *of, struct markup *markup)
{
	const struct drawing *drawing = of;
	draw_years(markup, &drawing->page, drawing->plan, drawing->number);
}

static void
add_drawing(
    const struct years_composing *composing, const struct outlook *plan, size_t number)
{
	struct drawing *drawing = arena_alloc(composing->reply->arena, sizeof *drawing);
	*drawing = (struct drawing){composing->page, plan, number};
	reply_drawing(composing->reply, draw, drawing);
}

/* The prices that change with age, or that are not known. */
static void
add_prices(const struct years_composing *composing, const struct outlook *plan,
    void (*add)(const struct years_page *, const struct outlook *, struct text *))
{
	SCOPED_TEXT words = {0};
	add(&composing->page, plan, &words);
	reply_words(composing->reply, VOICE_PLAIN, true, 2, text_string(&words));
}

/* What hangs on the number of winters, and what the shore list has otherwise. */
static void
add_asides(const struct years_composing *composing, const struct named_outlook *named)
{
	SCOPED_TEXT words = {0};
	add_years_clashes(&composing->page, named, &words);
	reply_words(composing->reply, VOICE_PLAIN, true, 2, text_string(&words));
	text_reset(&words);
	add_years_tips(&composing->page, named, &words);
	reply_words(composing->reply, VOICE_PLAIN, true, 2, text_string(&words));
}

void
compose_years(const struct years_composing *composing, const struct named_outlook *named,
    size_t number)
{
	const struct outlook *plan = &named->plan;
	const struct outlook_view *view = composing->page.view;
	struct outlook_view *own = arena_alloc(composing->reply->arena, sizeof *own);
	*own = (struct outlook_view){view->inventory, view->stations, view->station_count,
	    view->currency, named, 1};
	struct years_composing single = *composing;
	single.page.view = own;
	struct outlook_total total = outlook_total_of(named, 1);
	SCOPED_TEXT words = {0};
	text_add_format(&words, "%s: the next %zu %s, seen on ", named->name,
	    plan->winters, plan->winters == 1 ? "winter" : "winters");
	add_day(composing->page.style->today, "", &words);
	reply_heading(composing->reply, 2, text_string(&words));
	add_verdict(&single, &total);
	if (single.drawn) {
		add_gaps(&single, plan);
		add_drawing(&single, plan, number);
	}
	add_money(&single, plan);
	add_drivers(&single, total.minor);
	add_prices(&single, plan, add_years_ages);
	add_prices(&single, plan, add_years_unknowns);
	add_asides(&single, named);
	for (size_t winter = 0; winter < plan->winters; winter++) {
		add_winter(&single, plan, winter);
	}
	if (!single.drawn) {
		add_gaps(&single, plan);
	}
}

void
compose_years_end(
    const struct years_composing *composing, const struct outlook_total *total)
{
	SCOPED_TEXT words = {0};
	if (total->plans > 1) {
		reply_heading(composing->reply, 3, "All together");
		add_verdict(composing, total);
	}
	add_years_notes(total, total->all_year, &words);
	reply_words(composing->reply, VOICE_QUIET, true, 0, text_string(&words));
	reply_words(
	    composing->reply, VOICE_CAUTION, words.length == 0, 0, REPORT_CAUTION);
}

/* ---- in words and as CSV: plans that come some at a time ---- */

/* What stands between two plans in words. */
#define BETWEEN "\n"

/* Adds the rows of a plan as CSV, without the row of column names. */
static void
add_rows(
    const struct outlook_view *view, const struct named_outlook *named, struct text *out)
{
	SCOPED_REPLY(reply);
	SCOPED_TEXT rows = {0};
	struct reply_table *table = years_rows_table(&reply);
	reply_csv(&reply, &rows);
	size_t names = rows.length;
	text_reset(&rows);
	add_years_rows(view, named, table);
	reply_csv(&reply, &rows);
	text_add(out, text_string(&rows) + names);
}

void
report_years_some(struct years_report *report, const struct kinds *kinds,
    const struct outlook_view *view, const size_t *places)
{
	for (size_t i = 0; i < view->count; i++) {
		SCOPED_REPLY(reply);
		SCOPED_TEXT words = {.columns = report->columns};
		if (report->style->csv) {
			add_rows(view, &view->plans[i], &words);
		} else {
			compose_years(
			    &(struct years_composing){
				{report->style, kinds, view}, &reply, false},
			    &view->plans[i], i);
			text_add(&words, BETWEEN);
			reply_write(&reply, report->style, &words);
		}
		runs_add_long(&report->kept,
		    &(struct run_piece){(int64_t)(places == NULL ? i : places[i]),
			text_string(&words), words.length, NULL});
	}
	runs_end(&report->kept);
	outlook_total_add(&report->total, view->plans, view->count);
	text_reset(&report->currency);
	text_add(&report->currency, view->currency);
}

/* Being written. */
struct plans_written {
	struct text *out;
	size_t
	    left_out; /* bytes of the next piece: nothing stands before the first plan */
};

static void
add_kept(const struct run_piece *piece, void *of)
{
	struct plans_written *writing = of;
	text_add_bytes(writing->out, piece->bytes + writing->left_out,
	    piece->length - writing->left_out);
	text_hand_on(writing->out);
	writing->left_out = 0;
}

bool
report_years_end(const struct years_report *report, struct text *out, struct fault *fault)
{
	SCOPED_REPLY(reply);
	struct report_style style = *report->style;
	struct plans_written writing = {out, style.csv ? 0 : sizeof BETWEEN - 1};
	style.currency = text_string(&report->currency);
	if (style.csv) {
		(void)years_rows_table(&reply);
		reply_write(&reply, &style, out);
	}
	if (!runs_merge(&report->kept, add_kept, &writing, fault)) {
		return false;
	}
	if (!style.csv) {
		compose_years_end(
		    &(struct years_composing){{&style, NULL, NULL}, &reply, false},
		    &report->total);
		reply_write(&reply, &style, out);
	}
	return true;
}

void
years_report_clear(struct years_report *report)
{
	runs_clear(&report->kept);
	text_clear(&report->currency);
	report->total = (struct outlook_total){0};
}
