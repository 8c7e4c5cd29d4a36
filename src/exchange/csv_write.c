#include "base/csv_line.h"
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"
#include "exchange/inventory_csv.h"

struct csv_style {
	const char *currency;
	bool for_spreadsheet;
};

/* One row. A further one says no more of the item than whose and what it is. */
static void
write_row(const struct item_change *change, const struct record *record, bool further,
    const struct csv_style *style, struct text *cell, struct text *out)
{
	const unsigned short_form =
	    1U << FIELD_TAG | 1U << FIELD_VESSEL | 1U << FIELD_KIND;
	struct csv_line line = {.out = out, .disarmed = style->for_spreadsheet};
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		enum csv_column column = (enum csv_column)i;
		int field = csv_column_field(column);
		const struct field *row = csv_column_row(column);
		text_reset(cell);
		if (field == NO_FIELD && record != NULL) {
			field_add(row, record, style->currency, cell);
		} else if (field != NO_FIELD &&
			   (!further || (short_form & 1U << field) != 0)) {
			field_add(row, change, style->currency, cell);
		}
		csv_line_cell(&line, text_string(cell));
	}
	if (style->for_spreadsheet) {
		csv_line_cell(&line, "");
	}
	csv_line_end(&line);
}

void
csv_write_names(bool for_spreadsheet, struct text *out)
{
	struct csv_line line = {.out = out};
	for (size_t i = 0; i < CSV_COLUMN_COUNT; i++) {
		csv_line_cell(&line, CSV_COLUMNS[i]);
	}
	if (for_spreadsheet) {
		csv_line_cell(&line, DISARMING); /* tells such a file */
	}
	csv_line_end(&line);
}

void
csv_write_items(const struct inventory *inventory, const size_t *items, size_t count,
    bool for_spreadsheet, struct text *out)
{
	const struct csv_style style = {inventory->currency, for_spreadsheet};
	SCOPED_TEXT cell = {0};
	for (size_t i = 0; i < count; i++) {
		const struct item *item = &inventory->items[items[i]];
		struct item_change change = item_as_change(inventory, items[i]);
		size_t left = item->record_count;
		write_row(&change, left == 0 ? NULL : &item->records[left - 1], false,
		    &style, &cell, out);
		while (left > 1) {
			left--;
			write_row(
			    &change, &item->records[left - 1], true, &style, &cell, out);
		}
	}
}
