#include "base/csv_line.h"

#include <assert.h>
#include <csv.h>
#include <string.h>

/* Separators that other readers expect are quoted too, and blanks that readers trim. */
static bool
needs_quotes(const char *cell, size_t length)
{
	return strpbrk(cell, ",;\"\t\r\n") != NULL ||
	       (length > 0 && (cell[0] == ' ' || cell[length - 1] == ' '));
}

bool
csv_is_run(const char *cell)
{
	static const char *const WIDE[] = {
	    "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};
	for (size_t i = 0; cell[0] == WIDE[0][0] && i < sizeof WIDE / sizeof WIDE[0];
	     i++) {
		if (strncmp(cell, WIDE[i], strlen(WIDE[i])) == 0) {
			return true;
		}
	}
	return cell[0] != '\0' && strchr("=+-@\t\r\n", cell[0]) != NULL;
}

bool
csv_is_disarmed(const char *cell)
{
	size_t marks = strspn(cell, DISARMING);
	return marks > 0 && csv_is_run(cell + marks);
}

void
csv_line_cell(struct csv_line *line, const char *bare)
{
	SCOPED_TEXT marked = {0};
	const char *cell = bare;
	if (line->cells > 0) {
		text_add_byte(line->out, ',');
	}
	line->cells++;
	if (line->disarmed && (csv_is_run(bare) || csv_is_disarmed(bare))) {
		text_add_format(&marked, DISARMING "%s", bare);
		cell = text_string(&marked);
	}
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
csv_line_end(struct csv_line *line)
{
	assert(line->columns == 0 || line->cells == line->columns);
	text_add(line->out, "\r\n");
	line->cells = 0;
}
