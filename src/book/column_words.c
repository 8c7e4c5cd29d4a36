/* How the columns of a table are told. */
#include "book/journal_inside.h"

#include <string.h>

size_t
shape_column(const struct table_shape *shape, const char *name)
{
	size_t i = 0;
	while (i < shape->count && strcmp(shape->columns[i].name, name) != 0) {
		i++;
	}
	return i;
}

static bool
ends_in(const char *name, const char *ending)
{
	size_t length = strlen(name);
	size_t tail = strlen(ending);
	return length > tail && strcmp(name + length - tail, ending) == 0;
}

/* The column beside a stamp's day: made_wording for made, on_wording for on_day. The number
 * of columns when there is none. */
static size_t
column_beside(const struct table_shape *shape, const char *day, const char *ending)
{
	char name[64];
	size_t length = strlen(day) - (ends_in(day, "_day") ? strlen("_day") : 0);
	if (length + strlen(ending) >= sizeof name) {
		return shape->count;
	}
	memcpy(name, day, length);
	memcpy(name + length, ending, strlen(ending) + 1);
	return shape_column(shape, name);
}

static bool
holds_day(const char *name)
{
	static const char *const ENDINGS[] = {"_day", "_on", "_until", "_first", "_last"};
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		if (ends_in(name, ENDINGS[i])) {
			return true;
		}
	}
	return false;
}

static bool
is_silent(const char *name)
{
	static const char *const SILENT[] = {
	    "id", "position", "sha256", "key", "summary", "entered"};
	for (size_t i = 0; i < sizeof SILENT / sizeof SILENT[0]; i++) {
		if (strcmp(name, SILENT[i]) == 0) {
			return true;
		}
	}
	return ends_in(name, "_wording") || ends_in(name, "_estimated");
}

void
add_column_label(const char *name, struct text *out)
{
	static const char *const DROPPED[] = {"_day", "_id", "_minor"};
	size_t length = strlen(name);
	for (size_t i = 0; i < sizeof DROPPED / sizeof DROPPED[0]; i++) {
		if (ends_in(name, DROPPED[i])) {
			length -= strlen(DROPPED[i]);
			break;
		}
	}
	for (size_t i = 0; i < length; i++) {
		text_add_byte(out, (char)(name[i] == '_' ? ' ' : name[i]));
	}
	if (ends_in(name, "_minor")) {
		text_add(out, " (minor units)");
	}
}

void
column_settle(
    const struct table_shape *shape, struct column *columns, struct arena *arena)
{
	for (size_t i = 0; i < shape->count; i++) {
		SCOPED_TEXT label = {0};
		struct column *column = &columns[i];
		add_column_label(column->name, &label);
		column->label = arena_string(arena, text_string(&label));
		column->silent = is_silent(column->name);
		column->money = ends_in(column->name, "_minor");
		column->worded = column_beside(shape, column->name, "_wording");
		column->estimated = column_beside(shape, column->name, "_estimated");
		column->holds_day =
		    holds_day(column->name) || column->worded < shape->count;
	}
}
