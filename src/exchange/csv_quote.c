#include "exchange/csv_inside.h"
#include "gear/money.h"

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
