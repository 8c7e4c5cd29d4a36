/* .ods: OASIS OpenDocument 1.3 part 3, a table:table in content.xml. */
#include "exchange/list_inside.h"

#include <stdlib.h>
#include <string.h>

/* A style, of cells or of dates, and how it shows a date. */
struct style {
	const char *name;
	const char *leads_to; /* a cell style's date style; NULL for none */
	enum shown shown;     /* a date style's */
	bool hidden;          /* a table style's: the table is not shown */
};

struct ods_styles {
	struct style *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* The default style of columns up to `until`, which is not one of them. */
struct stretch {
	size_t until;
	enum shown shown;
};

struct stretches {
	struct stretch *items;
	size_t count;
	size_t capacity;
};

struct ods {
	struct workbook *book;
	struct arena *arena;
	struct ods_styles styles;
	struct stretches columns; /* of the table being read */
	enum shown row_shown;     /* of the row being read: its default */
	size_t column;            /* the next cell's */
	size_t line;              /* the row's */
};

static const struct style *
find_style(const struct ods *ods, const char *name)
{
	for (size_t i = ods->styles.count; name != NULL && i-- > 0;) {
		if (strcmp(ods->styles.items[i].name, name) == 0) {
			return &ods->styles.items[i];
		}
	}
	return NULL;
}

/* How a cell style shows a date: by the date style it names; to the day where it names none
 * that the file has. */
static enum shown
shown_by_style(const struct ods *ods, const char *name)
{
	const struct style *cell = find_style(ods, name);
	const struct style *date = cell == NULL ? NULL : find_style(ods, cell->leads_to);
	return date == NULL ? SHOWN_PLAIN : date->shown;
}

/* Reads <number:date-style>: which of day, month and year it shows. */
static bool
read_date_style(struct xml_part *part, enum shown *out, struct fault *fault)
{
	bool day = false;
	bool month = false;
	bool year = false;
	while (!xml_ends(part, "date-style") && xml_next(part, fault)) {
		day = day || xml_starts(part, "day") || xml_starts(part, "day-of-week");
		month = month || xml_starts(part, "month");
		year = year || xml_starts(part, "year");
	}
	*out = day ? SHOWN_DAY : month ? SHOWN_MONTH : year ? SHOWN_YEAR : SHOWN_DAY;
	return fault->kind == FAULT_NONE;
}

/* Takes one style, whose start the part stands at. */
static bool
take_style(struct ods *ods, struct xml_part *part, struct fault *fault)
{
	const char *name = xml_attribute(part, "name", ods->arena);
	struct style style = {.name = name == NULL ? "" : name};
	if (xml_starts(part, "date-style")) {
		if (!read_date_style(part, &style.shown, fault)) {
			return false;
		}
	} else {
		style.leads_to = xml_attribute(part, "data-style-name", ods->arena);
		while (!xml_ends(part, "style") && xml_next(part, fault)) {
			if (xml_starts(part, "table-properties")) {
				const char *display =
				    xml_attribute(part, "display", ods->arena);
				style.hidden =
				    display != NULL && strcmp(display, "false") == 0;
			}
		}
	}
	if (fault->kind != FAULT_NONE) {
		return false;
	}
	ARENA_ADD(ods->arena, &ods->styles, style);
	return true;
}

static bool
is_style(const struct xml_part *part)
{
	return xml_starts(part, "date-style") || xml_starts(part, "style");
}

static bool
read_common_styles(struct ods *ods, struct fault *fault)
{
	SCOPED_XML part = {0};
	xml_open(ods->book, "styles.xml", &part);
	while (xml_next(&part, fault)) {
		if (is_style(&part) && !take_style(ods, &part, fault)) {
			return false;
		}
	}
	return fault->kind == FAULT_NONE;
}

/* ---- cells ---- */

/* Passes over all that is inside the element the part stands at. */
static void
pass_over(struct xml_part *part, const char *element, struct fault *fault)
{
	size_t depth = part->ends ? 0 : 1;
	while (depth > 0 && xml_next(part, fault)) {
		if (strcmp(part->element, element) == 0) {
			depth += part->starts && !part->ends ? 1 : 0;
			depth -= part->ends && !part->starts ? 1 : 0;
		}
	}
}

/* The text of a cell as it is shown: its paragraphs, without annotations. */
static void
read_paragraphs(
    struct xml_part *part, const char *element, struct text *out, struct fault *fault)
{
	size_t paragraphs = 0;
	while (!xml_ends(part, element) && xml_next(part, fault)) {
		if (xml_starts(part, "annotation") || xml_starts(part, "frame")) {
			pass_over(part, part->element, fault);
		} else if (xml_starts(part, "p")) {
			text_add(out, paragraphs++ > 0 ? "\n" : "");
		} else if (xml_starts(part, "s")) {
			for (size_t n = xml_count(part, "c", 100); n > 0; n--) {
				text_add_byte(out, ' ');
			}
		} else if (xml_starts(part, "tab")) {
			text_add_byte(out, '\t');
		} else {
			xml_add_text(part, out);
		}
	}
}

/* What a cell with a value of a type holds; `shown_text` is what it shows. */
static const char *
value_text(const struct ods *ods, const struct xml_part *part, enum shown shown,
    char buffer[NUMBER_TEXT_SIZE])
{
	const char *type = xml_attribute(part, "value-type", ods->arena);
	const char *value = xml_attribute(part, "value", ods->arena);
	const char *date = xml_attribute(part, "date-value", ods->arena);
	if (type == NULL || strcmp(type, "string") == 0) {
		return NULL;
	}
	if (date != NULL) {
		size_t length = shown == SHOWN_YEAR ? 4 : shown == SHOWN_MONTH ? 7 : 10;
		length = strlen(date) < length ? strlen(date) : length;
		memcpy(buffer, date, length);
		buffer[length] = '\0';
		return buffer;
	}
	return value == NULL ? NULL : number_text(strtod(value, NULL), buffer);
}

static enum shown
column_shown(const struct ods *ods, size_t column)
{
	for (size_t i = 0; i < ods->columns.count; i++) {
		if (column < ods->columns.items[i].until) {
			return ods->columns.items[i].shown;
		}
	}
	return SHOWN_PLAIN;
}

/* Reads one cell, or the same cell several times over. */
static bool
read_cell(struct ods *ods, struct xml_part *part, struct fault *fault)
{
	enum { REPEATED_MOST = 1 << 20 };

	SCOPED_TEXT shown_text = {0};
	const char *element = part->element;
	char buffer[NUMBER_TEXT_SIZE];
	size_t times = xml_count(part, "number-columns-repeated", REPEATED_MOST);
	const char *style = xml_attribute(part, "style-name", ods->arena);
	enum shown shown = style != NULL ? shown_by_style(ods, style)
			   : ods->row_shown != SHOWN_PLAIN
			       ? ods->row_shown
			       : column_shown(ods, ods->column);
	const char *value = value_text(ods, part, shown, buffer);
	read_paragraphs(part, element, &shown_text, fault);
	const char *text = value != NULL ? value : text_string(&shown_text);
	for (size_t i = 0; *text != '\0' && i < times; i++) {
		if (!grid_put(&ods->book->grid, ods->column + i, text, fault)) {
			return false;
		}
	}
	ods->column += times;
	return fault->kind == FAULT_NONE;
}

/* ---- rows ---- */

/* Reads one row. A row that is repeated is handed out once for each time. */
static bool
read_row(struct ods *ods, struct xml_part *part, struct fault *fault)
{
	enum { ROWS_MOST = 1 << 20, SAME_MOST = 1000 };
	struct grid *grid = &ods->book->grid;
	size_t times = xml_count(part, "number-rows-repeated", ROWS_MOST);
	const char *style = xml_attribute(part, "default-cell-style-name", ods->arena);
	ods->row_shown = shown_by_style(ods, style);
	ods->column = 0;
	grid->row.line = ods->line + 1;
	while (!xml_ends(part, "table-row") && xml_next(part, fault)) {
		if ((xml_starts(part, "table-cell") ||
			xml_starts(part, "covered-table-cell")) &&
		    !read_cell(ods, part, fault)) {
			return false;
		}
	}
	size_t count = grid->row.count;
	if (count > 0 && times > SAME_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "row %zu: it stands %zu times over; expected a list of gear",
		    ods->line + 1, times);
	}
	for (size_t i = 0; count > 0 && i < times; i++) {
		grid->row.count = count;
		if (!grid_row_end(grid, ods->line + 1 + i, fault)) {
			return false;
		}
	}
	ods->line += times;
	return fault->kind == FAULT_NONE;
}

static void
take_column(struct ods *ods, const struct xml_part *part)
{
	enum { COLUMNS_MOST = 1 << 20 };

	const char *style = xml_attribute(part, "default-cell-style-name", ods->arena);
	struct stretches *columns = &ods->columns;
	size_t from = columns->count == 0 ? 0 : columns->items[columns->count - 1].until;
	ARENA_ADD(ods->arena, columns,
	    (struct stretch){
		from + xml_count(part, "number-columns-repeated", COLUMNS_MOST),
		shown_by_style(ods, style)});
}

/* Reads the table the part stands at. */
static bool
read_table(struct ods *ods, struct xml_part *part, struct fault *fault)
{
	ods->columns.count = 0;
	ods->line = 0;
	while (!xml_ends(part, "table") && xml_next(part, fault)) {
		bool read = true;
		if (xml_starts(part, "table-column")) {
			take_column(ods, part);
			read = true;
		} else if (xml_starts(part, "table-row")) {
			read = read_row(ods, part, fault);
		} else if (xml_starts(part, "shapes")) {
			pass_over(part, "shapes", fault);
		}
		if (!read) {
			return false;
		}
	}
	return fault->kind == FAULT_NONE;
}

/* True for the worksheet that is asked for; without one, for any that is not hidden. */
static bool
is_wanted(const struct ods *ods, const char *name, const char *style_name)
{
	const char *worksheet = ods->book->worksheet;
	const struct style *style = find_style(ods, style_name);
	return worksheet == NULL ? style == NULL || !style->hidden
				 : strcmp(name, worksheet) == 0;
}

bool
ods_scan(struct workbook *book, struct fault *fault)
{
	enum { TABLES_MOST = 1000 };

	SCOPED_ARENA arena = {0};
	SCOPED_XML part = {0};
	struct ods ods = {.book = book, .arena = &arena};
	const char **names = arena_alloc(&arena, TABLES_MOST * sizeof *names);
	size_t count = 0;
	size_t read = TABLES_MOST;
	if (!read_common_styles(&ods, fault)) {
		return false;
	}
	xml_open(book, "content.xml", &part);
	while (count < TABLES_MOST && xml_next(&part, fault)) {
		if (is_style(&part) && !take_style(&ods, &part, fault)) {
			return false;
		}
		if (!xml_starts(&part, "table")) {
			continue;
		}
		const char *name = xml_attribute(&part, "name", &arena);
		names[count] = name == NULL ? "" : name;
		if (read == TABLES_MOST &&
		    is_wanted(
			&ods, names[count], xml_attribute(&part, "style-name", &arena))) {
			read = count;
			if (!read_table(&ods, &part, fault)) {
				return false;
			}
		} else {
			pass_over(&part, "table", fault);
		}
		count++;
	}
	return fault->kind == FAULT_NONE && workbook_note_choice(book, names, count,
						read < count ? read : count, fault);
}
