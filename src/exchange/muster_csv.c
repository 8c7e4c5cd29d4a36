#include "exchange/answers.h"
#include "exchange/csv_quote.h"

static const char *const COLUMNS[] = {"vessel", "from", "to", "ok", "good_through",
    "first_short", "seen_on", "line", "title", "need", "have", "short", "counted",
    "lapsed", "unknown", "asks", "source", "standing"};

static void
put_number(struct csv_line *row, bool known, int number, struct text *cell)
{
	text_reset(cell);
	if (known) {
		text_add_format(cell, "%d", number);
	}
	csv_line_cell(row, text_string(cell));
}

static void
put_tags(struct csv_line *row, const struct inventory *inventory,
    const struct muster_items *items, struct text *cell)
{
	text_reset(cell);
	for (size_t i = 0; i < items->count; i++) {
		text_add(cell, i == 0 ? "" : " ");
		text_add(cell, inventory->items[items->items[i]].tag);
	}
	csv_line_cell(row, text_string(cell));
}

static void
put_vessel(
    struct csv_line *row, const struct inventory *inventory, const struct muster *muster)
{
	csv_line_cell(row, inventory->vessels[muster->vessel].name);
	csv_line_day(row, muster->days.first);
	csv_line_day(row, muster->days.last);
	csv_line_cell(row, muster->ok ? "yes" : "no");
	csv_line_day(row, muster->good_through);
	csv_line_day(row, muster->first_short);
	csv_line_day(row, muster->on);
}

static void
put_line(struct csv_line *row, const struct inventory *inventory,
    const struct muster_line *line, struct text *cell)
{
	bool told = line->asks[0] == '\0';
	csv_line_cell(row, line->line->id);
	csv_line_cell(row, line->line->title);
	put_number(row, told, line->need, cell);
	put_number(row, true, line->have, cell);
	put_number(row, told, line->missing, cell);
	put_tags(row, inventory, &line->counted, cell);
	put_tags(row, inventory, &line->lapsed, cell);
	put_tags(row, inventory, &line->unknown, cell);
	csv_line_cell(row, line->asks);
	csv_line_cell(row, line->line->source);
	csv_line_cell(row, standing_word(line->line->standing));
}

/* A vessel without lines has a row too, lest she is thought to be all right. */
static void
put_no_line(struct csv_line *row)
{
	for (size_t i = 0; i < 11; i++) {
		csv_line_cell(row, "");
	}
}

void
csv_write_muster(const struct inventory *inventory, const struct muster *musters,
    size_t count, struct text *out)
{
	SCOPED_TEXT cell = {0};
	csv_header(COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], out);
	for (size_t i = 0; i < count; i++) {
		const struct muster *muster = &musters[i];
		for (size_t j = 0; j < muster->line_count || j == 0; j++) {
			struct csv_line row = {
			    .out = out, .columns = sizeof COLUMNS / sizeof COLUMNS[0]};
			put_vessel(&row, inventory, muster);
			if (j < muster->line_count) {
				put_line(&row, inventory, &muster->lines[j], &cell);
			} else {
				put_no_line(&row);
			}
			csv_line_end(&row);
		}
	}
}
