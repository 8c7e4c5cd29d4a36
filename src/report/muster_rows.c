/* A muster as rows for a spreadsheet: one a line of each vessel. */
#include "report/parts_inside.h"

static void
add_tags(const struct inventory *inventory, const struct muster_items *items,
    struct reply_table *table)
{
	SCOPED_TEXT tags = {0};
	for (size_t i = 0; i < items->count; i++) {
		text_add_format(&tags, "%s%s", i == 0 ? "" : " ",
		    inventory->items[items->items[i]].tag);
	}
	reply_cell(table, HUE_NONE, text_string(&tags));
}

static void
add_vessel(const struct inventory *inventory, const struct muster *muster,
    struct reply_table *table)
{
	reply_cell(table, HUE_NONE, inventory->vessels[muster->vessel].name);
	reply_day(table, HUE_NONE, muster->days.first, "");
	reply_day(table, HUE_NONE, muster->days.last, "");
	reply_cell(table, HUE_NONE, muster->ok ? "yes" : "no");
	reply_day(table, HUE_NONE, muster->good_through, "");
	reply_day(table, HUE_NONE, muster->first_short, "");
	reply_day(table, HUE_NONE, muster->on, "");
}

static void
add_line(const struct inventory *inventory, const struct muster_line *line,
    struct reply_table *table)
{
	bool told = line->asks[0] == '\0';
	reply_cell(table, HUE_NONE, line->line->id);
	reply_cell(table, HUE_NONE, line->line->title);
	reply_number(table, HUE_NONE, told ? line->need : -1, "");
	reply_number(table, HUE_NONE, line->have, "");
	reply_number(table, HUE_NONE, told ? line->missing : -1, "");
	add_tags(inventory, &line->counted, table);
	add_tags(inventory, &line->lapsed, table);
	add_tags(inventory, &line->unknown, table);
	reply_cell(table, HUE_NONE, line->asks);
	reply_cell(table, HUE_NONE, line->line->source);
	reply_cell(table, HUE_NONE, standing_word(line->line->standing));
}

/* A vessel without lines has a row too, so that she is not thought to be all right. */
void
muster_add_rows(const struct inventory *inventory, const struct muster *muster,
    struct reply_table *table)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		add_vessel(inventory, muster, table);
		add_line(inventory, &muster->lines[i], table);
	}
	if (muster->line_count == 0) {
		add_vessel(inventory, muster, table);
		reply_row_end(table);
	}
}

struct reply_table *
muster_table(struct reply *reply)
{
	static const struct reply_column COLUMNS[] = {{.key = "vessel"},
	    {.key = "from", .type = CELL_DAY}, {.key = "to", .type = CELL_DAY},
	    {.key = "ok"}, {.key = "good_through", .type = CELL_DAY},
	    {.key = "first_short", .type = CELL_DAY},
	    {.key = "seen_on", .type = CELL_DAY}, {.key = "line"}, {.key = "title"},
	    {.key = "need", .type = CELL_NUMBER}, {.key = "have", .type = CELL_NUMBER},
	    {.key = "short", .type = CELL_NUMBER}, {.key = "counted"}, {.key = "lapsed"},
	    {.key = "unknown"}, {.key = "asks"}, {.key = "source"}, {.key = "standing"}};
	return REPLY_TABLE(reply, COLUMNS, 0);
}
