/* A shore list as rows for a spreadsheet: one for each of its lines. */
#include "report/reply.h"
#include "report/report.h"

#include <string.h>

/* A list being composed. */
struct shore_rows {
	const struct inventory *inventory;
	const struct shore_list *list;
	struct reply_table *table;
};

/* The state of a hand-in's day: "new" when it was not given out yet, "later" when it
 * comes only after all boats of the base have fitted out, "settled", "chosen" by a
 * person, or what is wrong with a chosen one. */
static const char *
hand_in_word(const struct trip *trip)
{
	if (trip->misfit != DAY_SERVES) {
		return day_misfit_word(trip->misfit);
	}
	return trip->chosen      ? "chosen"
	       : trip->settled   ? "settled"
	       : trip->held_back ? "later"
				 : "new";
}

/* The winter that the line waits for, or this one; negative for a vessel in use all
 * year, and for what waits until she is. */
static int
winter_of(const struct shore_list *list, const char *part, const struct shore_line *line)
{
	bool of_this = list->has_winter && strcmp(part, "waits") != 0;
	return line->winter != 0 ? line->winter : of_this ? list->winter.year : -1;
}

/* One row. `trip` is NULL for what goes to no station. */
static void
add_row(const struct shore_rows *rows, const char *part, const struct trip *trip,
    const struct shore_line *line)
{
	struct reply_table *table = rows->table;
	const struct item *item = &rows->inventory->items[line->item];
	bool refused = line->why != NULL && *line->why != '\0';
	const char *what = line->what == NULL ? "" : line->what;
	reply_cell(table, HUE_NONE, rows->inventory->vessels[rows->list->vessel].name);
	reply_number(table, HUE_NONE, winter_of(rows->list, part, line), "");
	reply_cell(table, HUE_NONE, part);
	reply_cell(table, HUE_NONE, trip == NULL ? "" : trip->name);
	reply_day(table, HUE_NONE, trip == NULL ? DAY_NONE : trip->hand_in, "");
	reply_day(table, HUE_NONE, trip == NULL ? DAY_NONE : trip->collect, "");
	reply_cell(table, HUE_NONE, item->tag);
	reply_cell(table, HUE_NONE, item->kind);
	reply_cell(table, HUE_NONE, line->wanted ? "" : task_word(line->task));
	reply_day(table, HUE_NONE, line->due, "");
	reply_day(table, HUE_NONE, line->not_before, "");
	reply_day(table, HUE_NONE, line->not_after, "");
	reply_price(table, line->price_minor, rows->inventory->currency);
	reply_cell(table, HUE_NONE, refused ? line->why : what);
	reply_cell(table, HUE_NONE, trip == NULL ? "" : hand_in_word(trip));
	reply_day(table, HUE_NONE, trip == NULL ? DAY_NONE : trip->earliest, "");
}

static void
add_part(const struct shore_rows *rows, const char *part, const struct trip *trip,
    const struct shore_lines *lines)
{
	for (size_t i = 0; i < lines->count; i++) {
		add_row(rows, part, trip, &lines->items[i]);
	}
}

static void
add_list(const struct shore_rows *rows)
{
	const struct shore_list *list = rows->list;
	for (size_t i = 0; i < list->hand_in.count; i++) {
		const struct trip *trip = &list->hand_in.items[i];
		add_part(rows, "hand-in", trip, &trip->lines);
	}
	add_part(rows, "self", NULL, &list->self);
	add_part(rows, "buy", NULL, &list->buy);
	add_part(rows, "wanted", NULL, &list->wanted);
	add_part(rows, "paperwork", NULL, &list->paperwork);
	add_part(rows, "dispose", NULL, &list->dispose);
	add_part(rows, "waits", NULL, &list->waits);
	add_part(rows, "cannot", NULL, &list->cannot);
	add_part(rows, "now", NULL, &list->now);
}

void
report_winters_csv(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.key = "vessel"},
	    {.key = "winter", .type = CELL_NUMBER}, {.key = "part"}, {.key = "station"},
	    {.key = "hand_in", .type = CELL_DAY}, {.key = "collect", .type = CELL_DAY},
	    {.key = "tag", .type = CELL_TAG}, {.key = "kind"}, {.key = "task"},
	    {.key = "due", .type = CELL_DAY}, {.key = "not_before", .type = CELL_DAY},
	    {.key = "not_after", .type = CELL_DAY}, {.key = "price", .type = CELL_PRICE},
	    {.key = "why"}, {.key = "standing"}, {.key = "earliest", .type = CELL_DAY}};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, 0);
	for (size_t i = 0; i < count; i++) {
		add_list(&(struct shore_rows){inventory, &lists[i], table});
	}
	reply_csv(&reply, out);
}
