/* Answers about the life of gear as CSV. */
#include "exchange/answers_life.h"
#include "exchange/csv_quote.h"

#include <stdio.h>

#define HEADER(columns, out)                                                             \
	csv_header((columns), sizeof(columns) / sizeof(columns)[0], (out))

void
csv_write_ashore(
    const struct lookout *lookout, const struct whereabouts_list *list, struct text *out)
{
	static const char *const COLUMNS[] = {"tag", "kind", "description", "serial",
	    "vessel", "station", "since", "collect", "assumed"};
	const struct inventory *inventory = lookout->inventory;
	HEADER(COLUMNS, out);
	for (size_t i = 0; i < list->count; i++) {
		const struct whereabouts *where = &list->items[i];
		const struct item *item = &inventory->items[where->item];
		struct csv_line line = {
		    .out = out, .columns = sizeof COLUMNS / sizeof COLUMNS[0]};
		csv_line_cell(&line, item->tag);
		csv_line_cell(&line, item->kind);
		csv_line_cell(&line, item->description);
		csv_line_cell(&line, item->serial);
		csv_line_cell(&line, inventory->vessels[item->vessel].name);
		csv_line_cell(&line, where->station);
		csv_line_day(&line, where->since);
		csv_line_day(&line, where->collect);
		csv_line_cell(&line, where->assumed ? "yes" : "no");
		csv_line_end(&line);
	}
}

static void
write_renewed(const struct inventory *inventory, const struct came_back *back,
    struct csv_line *line)
{
	SCOPED_TEXT tags = {0};
	for (size_t i = 0; i < back->renewed_count; i++) {
		text_add_format(&tags, "%s%s", i == 0 ? "" : ";",
		    inventory->items[back->renewed[i]].tag);
	}
	csv_line_cell(line, text_string(&tags));
}

void
csv_write_came_back(const struct lookout *lookout, const struct came_back_list *list,
    bool all, struct text *out)
{
	static const char *const COLUMNS[] = {"tag", "kind", "vessel", "on", "station",
	    "result", "next", "certificate", "price", "renewed", "note", "different"};
	const struct inventory *inventory = lookout->inventory;
	HEADER(COLUMNS, out);
	for (size_t i = 0; i < list->count; i++) {
		const struct came_back *back = &list->items[i];
		const struct item *item = &inventory->items[back->item];
		const struct record *record = back->record;
		struct csv_line line = {
		    .out = out, .columns = sizeof COLUMNS / sizeof COLUMNS[0]};
		if (!all && !back->different) {
			continue;
		}
		csv_line_cell(&line, item->tag);
		csv_line_cell(&line, item->kind);
		csv_line_cell(&line, inventory->vessels[item->vessel].name);
		csv_line_day(&line, back->movement->on);
		csv_line_cell(&line, back->movement->station);
		csv_line_cell(&line, result_word(back->movement->result));
		csv_line_day(
		    &line, record == NULL ? DAY_NONE : stamp_good_through(record->next));
		csv_line_cell(&line,
		    record == NULL ? back->movement->certificate : record->certificate);
		csv_line_price(&line, inventory->currency,
		    record == NULL ? back->movement->price_minor : record->price_minor);
		write_renewed(inventory, back, &line);
		csv_line_cell(&line, back->movement->note);
		csv_line_cell(&line, back->different ? "yes" : "no");
		csv_line_end(&line);
	}
}

static void
write_sums(
    const char *by, const char *currency, const struct spent_list *list, struct text *out)
{
	for (size_t i = 0; i < list->count; i++) {
		const struct spent *spent = &list->items[i];
		struct csv_line line = {.out = out};
		char year[16] = "";
		if (spent->year != 0) {
			(void)snprintf(year, sizeof year, "%d", spent->year);
		}
		csv_line_cell(&line, by);
		csv_line_cell(&line, spent->year != 0 ? year : spent->name);
		csv_line_price(&line, currency, spent->work_minor);
		csv_line_price(&line, currency, spent->bought_minor);
		csv_line_price(&line, currency, spent->work_minor + spent->bought_minor);
		csv_line_end(&line);
	}
}

void
csv_write_spent(const struct spending *spending, const char *currency, struct text *out)
{
	static const char *const COLUMNS[] = {"by", "name", "work", "bought", "together"};
	struct spent total = spending->total;
	const struct spent_list all = {&total, 1};
	HEADER(COLUMNS, out);
	write_sums("kind", currency, &spending->kinds, out);
	write_sums("station", currency, &spending->stations, out);
	write_sums("year", currency, &spending->years, out);
	write_sums("total", currency, &all, out);
}
