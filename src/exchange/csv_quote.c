#include "exchange/csv_quote.h"

#include "gear/money.h"

#include <csv.h>
#include <string.h>

/* Separators of other readers' liking are quoted too, and blanks that readers trim. */
static bool
needs_quotes(const char *cell, size_t length)
{
	return strpbrk(cell, ",;\"\t\r\n") != NULL ||
	       (length > 0 && (cell[0] == ' ' || cell[length - 1] == ' '));
}

void
csv_line_cell(struct csv_line *line, const char *cell)
{
	if (line->begun) {
		text_add_byte(line->out, ',');
	}
	line->begun = true;
	size_t length = strlen(cell);
	if (!needs_quotes(cell, length)) {
		text_add_bytes(line->out, cell, length);
		return;
	}
	/* csv_write says how much it wants before it is given any room. */
	size_t size = csv_write(NULL, 0, cell, length);
	size_t at = line->out->length;
	for (size_t i = 0; i < size; i++) {
		text_add_byte(line->out, '"');
	}
	(void)csv_write(line->out->bytes + at, size, cell, length);
}

void
csv_line_day(struct csv_line *line, day_t day)
{
	char buffer[DAY_ISO_SIZE];
	csv_line_cell(line, day_iso(day, buffer));
}

void
csv_line_price(struct csv_line *line, const char *currency, int64_t minor)
{
	SCOPED_TEXT price = {0};
	money_add(minor, currency, &price);
	csv_line_cell(line, text_string(&price));
}

void
csv_header(const char *const *columns, size_t count, struct text *out)
{
	struct csv_line line = {.out = out};
	for (size_t i = 0; i < count; i++) {
		csv_line_cell(&line, columns[i]);
	}
	csv_line_end(&line);
}

void
csv_line_end(struct csv_line *line)
{
	text_add(line->out, "\r\n");
	line->begun = false;
}
