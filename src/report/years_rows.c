/* The coming years as rows for a spreadsheet: one for each thing done and each trip. */
#include "report/words_inside.h"

/* The columns every row begins with. */
static void
begin_row(const struct outlook_view *view, const struct named_outlook *named,
    size_t winter, size_t station, struct reply_table *table)
{
	reply_cell(table, HUE_NONE, named->name);
	reply_number(table, HUE_NONE, named->plan.first_year + (int)winter, "");
	reply_cell(
	    table, HUE_NONE, station == NO_STATION ? "" : view->stations[station].name);
}

static void
add_trip(const struct outlook_view *view, const struct named_outlook *named,
    const struct outlook_trip *trip, struct reply_table *table)
{
	begin_row(view, named, trip->winter, trip->station, table);
	reply_cell(table, HUE_NONE, "");
	reply_cell(table, HUE_NONE, "");
	reply_cell(table, HUE_NONE, "trip");
	reply_cell(table, HUE_NONE, doer_word(DOER_OWNER));
	reply_day(table, HUE_NONE, DAY_NONE, "");
	reply_price(table, trip->minor, view->currency);
	reply_cell(table, HUE_NONE, "");
}

static void
add_done(const struct outlook_view *view, const struct named_outlook *named,
    const struct outlook_line *done, struct reply_table *table)
{
	const struct item *item = &view->inventory->items[done->item];
	begin_row(view, named, done->winter, done->station, table);
	reply_cell(table, HUE_NONE, item->tag);
	reply_cell(table, HUE_NONE, item->kind);
	reply_cell(table, HUE_NONE, task_word(done->task));
	reply_cell(table, HUE_NONE, doer_word(done->doer));
	reply_day(table, HUE_NONE, done->by, "");
	reply_price(table, done->minor, view->currency);
	reply_price(
	    table, done->carriage_minor > 0 ? done->carriage_minor : -1, view->currency);
}

struct reply_table *
years_rows_table(struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {{.key = "plan"},
	    {.key = "winter", .type = CELL_NUMBER}, {.key = "station"},
	    {.key = "tag", .type = CELL_TAG}, {.key = "kind"}, {.key = "task"},
	    {.key = "doer"}, {.key = "by", .type = CELL_DAY},
	    {.key = "price", .type = CELL_PRICE},
	    {.key = "carriage", .type = CELL_PRICE}};
	return REPLY_TABLE(reply, COLUMNS, 0);
}

void
add_years_rows(const struct outlook_view *view, const struct named_outlook *named,
    struct reply_table *table)
{
	const struct outlook *plan = &named->plan;
	for (size_t i = 0; i < plan->trip_count; i++) {
		add_trip(view, named, &plan->trips[i], table);
	}
	for (size_t i = 0; i < plan->line_count; i++) {
		add_done(view, named, &plan->lines[i], table);
	}
}
