/* An answer as CSV, or as the style says. */
#include "base/csv_line.h"
#include "report/reply.h"

#include <assert.h>
#include <string.h>

static bool
has_keys(const struct reply_table *table)
{
	for (size_t i = 0; i < table->column_count; i++) {
		if (table->columns[i].key != NULL) {
			return true;
		}
	}
	return false;
}

static bool
same_keys(const struct reply_table *a, const struct reply_table *b)
{
	bool same = a->column_count == b->column_count;
	for (size_t i = 0; same && i < a->column_count; i++) {
		const char *key = a->columns[i].key;
		const char *other = b->columns[i].key;
		same =
		    key == NULL || other == NULL ? key == other : strcmp(key, other) == 0;
	}
	return same;
}

static void
csv_keys(const struct reply_table *table, struct text *out)
{
	struct csv_line line = {.out = out};
	for (size_t i = 0; i < table->column_count; i++) {
		if (table->columns[i].key != NULL) {
			csv_line_cell(&line, table->columns[i].key);
		}
	}
	csv_line_end(&line);
}

static void
csv_rows(const struct reply_table *table, struct text *out)
{
	struct csv_line line = {.out = out};
	assert(table->cell_count % table->column_count == 0);
	for (size_t i = 0; i < table->cell_count; i++) {
		size_t column = i % table->column_count;
		if (table->columns[column].key != NULL) {
			csv_line_cell(&line, reply_cell_at(table, i)->code);
		}
		if (column + 1 == table->column_count) {
			csv_line_end(&line);
		}
	}
}

void
reply_csv(const struct reply *reply, struct text *out)
{
	const struct reply_table *last = NULL;
	for (size_t i = 0; i < reply->count; i++) {
		const struct reply_part *part = reply->items[i];
		if (part->is != PART_TABLE || !has_keys(&part->table)) {
			continue;
		}
		if (last == NULL || !same_keys(&part->table, last)) {
			csv_keys(&part->table, out);
			last = &part->table;
		}
		csv_rows(&part->table, out);
	}
}

void
reply_write(const struct reply *reply, const struct report_style *style, struct text *out)
{
	if (style->csv) {
		reply_csv(reply, out);
	} else {
		reply_text(reply, style->colour, out);
	}
}
