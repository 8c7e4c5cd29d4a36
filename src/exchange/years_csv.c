#include "exchange/years_csv.h"

#include "exchange/csv_quote.h"

#include <stdio.h>

static const char *const YEARS_COLUMNS[] = {"plan", "winter", "station", "tag", "kind",
    "task", "doer", "by", "price", "carriage"};

/* The cells every row begins with. */
static void
begin_row(struct csv_line *line, const struct outlook_view *view,
    const struct named_outlook *named, size_t winter, size_t station)
{
	char year[16];
	(void)snprintf(year, sizeof year, "%d", named->plan.first_year + (int)winter);
	csv_line_cell(line, named->name);
	csv_line_cell(line, year);
	csv_line_cell(line, station == NO_STATION ? "" : view->stations[station].name);
}

static void
write_trip(const struct outlook_view *view, const struct named_outlook *named,
    const struct outlook_trip *trip, struct text *out)
{
	struct csv_line line = {
	    .out = out, .columns = sizeof YEARS_COLUMNS / sizeof YEARS_COLUMNS[0]};
	begin_row(&line, view, named, trip->winter, trip->station);
	csv_line_cell(&line, "");
	csv_line_cell(&line, "");
	csv_line_cell(&line, "trip");
	csv_line_cell(&line, doer_word(DOER_OWNER));
	csv_line_day(&line, DAY_NONE);
	csv_line_price(&line, view->currency, trip->minor);
	csv_line_cell(&line, "");
	csv_line_end(&line);
}

static void
write_line(const struct outlook_view *view, const struct named_outlook *named,
    const struct outlook_line *done, struct text *out)
{
	const struct item *item = &view->inventory->items[done->item];
	struct csv_line line = {
	    .out = out, .columns = sizeof YEARS_COLUMNS / sizeof YEARS_COLUMNS[0]};
	begin_row(&line, view, named, done->winter, done->station);
	csv_line_cell(&line, item->tag);
	csv_line_cell(&line, item->kind);
	csv_line_cell(&line, task_word(done->task));
	csv_line_cell(&line, doer_word(done->doer));
	csv_line_day(&line, done->by);
	csv_line_price(&line, view->currency, done->minor);
	csv_line_price(
	    &line, view->currency, done->carriage_minor > 0 ? done->carriage_minor : -1);
	csv_line_end(&line);
}

void
csv_write_years(const struct outlook_view *view, struct text *out)
{
	csv_header(YEARS_COLUMNS, sizeof YEARS_COLUMNS / sizeof YEARS_COLUMNS[0], out);
	for (size_t i = 0; i < view->count; i++) {
		const struct outlook *plan = &view->plans[i].plan;
		for (size_t j = 0; j < plan->trip_count; j++) {
			write_trip(view, &view->plans[i], &plan->trips[j], out);
		}
		for (size_t j = 0; j < plan->line_count; j++) {
			write_line(view, &view->plans[i], &plan->lines[j], out);
		}
	}
}
