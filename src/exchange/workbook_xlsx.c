/* .xlsx: ECMA-376 part 1, SpreadsheetML (section 18). Elements are known by their local names,
 * so that the transitional and the strict form read alike. */
#include "exchange/list_inside.h"

#include <stdlib.h>
#include <string.h>

struct strings {
	const char **items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* How cells of each style (cellXfs) are shown. */
struct xlsx_styles {
	enum shown *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* A number format of the file's own. */
struct format {
	long id;
	enum shown shown;
};

struct formats {
	struct format *items; /* in the arena */
	size_t count;
	size_t capacity;
};

struct worksheets {
	const char **names;
	const char **relations;
	size_t count;
	size_t shown; /* the first that is not hidden */
};

struct xlsx {
	struct workbook *book;
	struct arena *arena;
	struct strings strings;
	struct xlsx_styles styles;
	bool from_1904; /* days count from 1904-01-01 */
};

/* ---- number formats (18.8.30) ---- */

/* The end of what is quoted, bracketed or escaped from here on; `at` itself where nothing
 * is, NULL where it has no end. */
static const char *
end_of_literal(const char *at)
{
	switch (*at) {
	case '"':
		return strchr(at + 1, '"');
	case '[':
		return strchr(at + 1, ']');
	case '\\':
	case '_':
	case '*':
		return at[1] == '\0' ? NULL : at + 1;
	default:
		return at;
	}
}

/* What of a date a format code shows: letters outside quotes, brackets and escapes, of its
 * first section. */
static enum shown
shown_by_code(const char *code)
{
	bool has[128] = {false};
	for (const char *at = code; at != NULL && *at != '\0' && *at != ';';) {
		const char *end = end_of_literal(at);
		if (end == at) {
			has[(unsigned char)text_lower(*at) & 127] = true;
		}
		at = end == NULL ? NULL : end + 1;
	}
	bool clock = has['h'] || has['s'];
	if (has['d']) {
		return SHOWN_DAY;
	}
	if (has['y']) {
		return has['m'] ? SHOWN_MONTH : SHOWN_YEAR;
	}
	return clock ? SHOWN_TIME : has['m'] ? SHOWN_MONTH : SHOWN_PLAIN;
}

/* The formats that every file has without saying so. */
static enum shown
shown_built_in(long id)
{
	if (id == 17) {
		return SHOWN_MONTH;
	}
	if ((id >= 18 && id <= 21) || (id >= 45 && id <= 47)) {
		return SHOWN_TIME;
	}
	return (id >= 14 && id <= 16) || id == 22 || (id >= 27 && id <= 36) ||
		       (id >= 50 && id <= 58)
		   ? SHOWN_DAY
		   : SHOWN_PLAIN;
}

static enum shown
shown_by_format(const struct formats *formats, long id)
{
	for (size_t i = 0; i < formats->count; i++) {
		if (formats->items[i].id == id) {
			return formats->items[i].shown;
		}
	}
	return shown_built_in(id);
}

static long
number_attribute(const struct xml_part *part, const char *name)
{
	SCOPED_ARENA arena = {0};
	const char *text = xml_attribute(part, name, &arena);
	return text == NULL ? -1 : strtol(text, NULL, 10);
}

static bool
read_styles(struct xlsx *xlsx, struct fault *fault)
{
	SCOPED_XML part = {0};
	struct formats formats = {0};
	bool in_cells = false;
	xml_open(xlsx->book, "xl/styles.xml", &part);
	while (xml_next(&part, fault)) {
		if (xml_starts(&part, "numFmt")) {
			const char *code =
			    xml_attribute(&part, "formatCode", xlsx->arena);
			ARENA_ADD(xlsx->arena, &formats,
			    (struct format){number_attribute(&part, "numFmtId"),
				shown_by_code(code == NULL ? "" : code)});
		} else if (xml_starts(&part, "xf") && in_cells) {
			ARENA_ADD(xlsx->arena, &xlsx->styles,
			    shown_by_format(
				&formats, number_attribute(&part, "numFmtId")));
		}
		if (strcmp(part.element, "cellXfs") == 0) {
			in_cells = part.starts && !part.ends;
		}
	}
	return fault->kind == FAULT_NONE;
}

/* ---- strings ---- */

/* Adds the text of <t> elements up to the end of `element`, without that of phonetic guides. */
static bool
read_string(
    struct xml_part *part, const char *element, struct text *out, struct fault *fault)
{
	bool text = false;
	bool guide = false;
	while (!xml_ends(part, element) && xml_next(part, fault)) {
		if (strcmp(part->element, "rPh") == 0) {
			guide = part->starts && !part->ends;
		} else if (strcmp(part->element, "t") == 0) {
			text = part->starts && !part->ends;
		} else if (text && !guide) {
			xml_add_text(part, out);
		}
	}
	return fault->kind == FAULT_NONE;
}

static bool
read_strings(struct xlsx *xlsx, struct fault *fault)
{
	SCOPED_XML part = {0};
	SCOPED_TEXT string = {0};
	xml_open(xlsx->book, "xl/sharedStrings.xml", &part);
	while (xml_next(&part, fault)) {
		if (!xml_starts(&part, "si")) {
			continue;
		}
		text_reset(&string);
		if (!read_string(&part, "si", &string, fault)) {
			return false;
		}
		ARENA_ADD(xlsx->arena, &xlsx->strings,
		    arena_string(xlsx->arena, text_string(&string)));
	}
	return fault->kind == FAULT_NONE;
}

/* ---- cells ---- */

/* A serial number of a day as its style shows it. Days before March 1900 are left as numbers:
 * the format has a 29 February 1900, and no gear is so old. */
static const char *
serial_text(const struct xlsx *xlsx, double serial, enum shown shown,
    char buffer[NUMBER_TEXT_SIZE])
{
	bool known = serial >= 61 && serial < 110000;
	if (shown == SHOWN_PLAIN || shown == SHOWN_TIME || !known) {
		return number_text(serial, buffer);
	}
	day_t zero =
	    xlsx->from_1904 ? day_from_civil(1904, 1, 1) : day_from_civil(1899, 12, 30);
	return shown_day(zero + (day_t)serial, shown, buffer);
}

/* What a cell holds: `type` as the file has it (NULL for a number), `value` its <v>. */
static const char *
cell_text(const struct xlsx *xlsx, const char *type, enum shown shown, const char *value,
    char buffer[NUMBER_TEXT_SIZE])
{
	if (*value == '\0') {
		return "";
	}
	if (type != NULL && strcmp(type, "s") == 0) {
		size_t index = strtoul(value, NULL, 10);
		return index < xlsx->strings.count ? xlsx->strings.items[index] : "";
	}
	if (type != NULL && strcmp(type, "b") == 0) {
		return *value == '1' ? "TRUE" : "FALSE";
	}
	if (type != NULL && strcmp(type, "n") != 0) {
		return value;
	}
	char *end = NULL;
	double number = strtod(value, &end);
	return *end != '\0' ? value : serial_text(xlsx, number, shown, buffer);
}

/* "C7" is column 2; a cell that does not say stands after the one before it. */
static size_t
column_of(const char *reference, size_t next)
{
	size_t column = 0;
	for (; reference != NULL && *reference >= 'A' && *reference <= 'Z' &&
	       column < 100000;
	     reference++) {
		column = column * 26 + (size_t)(*reference - 'A') + 1;
	}
	return column == 0 ? next : column - 1;
}

/* Reads one <c>, whose start the part stands at, into the row. */
static bool
read_cell(
    const struct xlsx *xlsx, struct xml_part *part, size_t *column, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT value = {0};
	char buffer[NUMBER_TEXT_SIZE];
	const char *type = xml_attribute(part, "t", &arena);
	long style = number_attribute(part, "s");
	bool in_value = false;
	*column = column_of(xml_attribute(part, "r", &arena), *column);
	while (!xml_ends(part, "c") && xml_next(part, fault)) {
		if (xml_starts(part, "is")) {
			if (!read_string(part, "is", &value, fault)) {
				return false;
			}
		} else if (strcmp(part->element, "v") == 0) {
			in_value = part->starts && !part->ends;
		} else if (in_value) {
			xml_add_text(part, &value);
		}
	}
	enum shown shown = style >= 0 && (size_t)style < xlsx->styles.count
			       ? xlsx->styles.items[style]
			       : SHOWN_PLAIN;
	const char *text = cell_text(xlsx, type, shown, text_string(&value), buffer);
	return fault->kind == FAULT_NONE &&
	       grid_put(&xlsx->book->grid, (*column)++, text, fault);
}

static bool
read_rows(const struct xlsx *xlsx, const char *name, struct fault *fault)
{
	SCOPED_XML part = {0};
	struct grid *grid = &xlsx->book->grid;
	size_t line = 0;
	size_t column = 0;
	xml_open(xlsx->book, name, &part);
	if (part.xml == NULL) {
		return fault_set(fault, FAULT_INPUT, "its part %s is not there", name);
	}
	while (xml_next(&part, fault)) {
		if (xml_starts(&part, "row")) {
			long told = number_attribute(&part, "r");
			line = told > 0 ? (size_t)told : line + 1;
			grid->row.line = line;
			column = 0;
		}
		if (xml_starts(&part, "c") && !read_cell(xlsx, &part, &column, fault)) {
			return false;
		}
		if (xml_ends(&part, "row") && !grid_row_end(grid, line, fault)) {
			return false;
		}
	}
	return fault->kind == FAULT_NONE;
}

/* ---- which worksheet ---- */

static bool
read_worksheets(struct xlsx *xlsx, struct worksheets *out, struct fault *fault)
{
	enum { WORKSHEETS_MOST = 1000 };

	SCOPED_XML part = {0};
	struct arena *arena = xlsx->arena;
	out->names = arena_alloc(arena, WORKSHEETS_MOST * sizeof *out->names);
	out->relations = arena_alloc(arena, WORKSHEETS_MOST * sizeof *out->relations);
	out->shown = WORKSHEETS_MOST;
	xml_open(xlsx->book, "xl/workbook.xml", &part);
	while (out->count < WORKSHEETS_MOST && xml_next(&part, fault)) {
		if (xml_starts(&part, "workbookPr")) {
			const char *from = xml_attribute(&part, "date1904", arena);
			xlsx->from_1904 = from != NULL && (strcmp(from, "1") == 0 ||
							      strcmp(from, "true") == 0);
		} else if (xml_starts(&part, "sheet")) {
			const char *state = xml_attribute(&part, "state", arena);
			const char *name = xml_attribute(&part, "name", arena);
			bool hidden = state != NULL && strcmp(state, "visible") != 0;
			if (!hidden && out->shown > out->count) {
				out->shown = out->count;
			}
			out->names[out->count] = name == NULL ? "" : name;
			out->relations[out->count++] = xml_attribute(&part, "id", arena);
		}
	}
	return fault->kind == FAULT_NONE;
}

/* The part a relation of the workbook leads to (ECMA-376 part 2, section 9); "" for none. */
static const char *
related_part(struct xlsx *xlsx, const char *relation, struct fault *fault)
{
	SCOPED_XML part = {0};
	SCOPED_TEXT name = {0};
	xml_open(xlsx->book, "xl/_rels/workbook.xml.rels", &part);
	while (name.length == 0 && xml_next(&part, fault)) {
		if (!xml_starts(&part, "Relationship")) {
			continue;
		}
		const char *id = xml_attribute(&part, "Id", xlsx->arena);
		const char *target = xml_attribute(&part, "Target", xlsx->arena);
		if (id != NULL && target != NULL && strcmp(id, relation) == 0) {
			text_add(&name, *target == '/' ? "" : "xl/");
			text_add(&name, *target == '/' ? target + 1 : target);
		}
	}
	return arena_string(xlsx->arena, text_string(&name));
}

bool
xlsx_scan(struct workbook *book, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct xlsx xlsx = {.book = book, .arena = &arena};
	struct worksheets sheets = {0};
	if (!read_worksheets(&xlsx, &sheets, fault)) {
		return false;
	}
	size_t read = book->worksheet == NULL ? sheets.shown : 0;
	while (book->worksheet != NULL && read < sheets.count &&
	       strcmp(sheets.names[read], book->worksheet) != 0) {
		read++;
	}
	read = read < sheets.count ? read : sheets.count;
	if (!workbook_note_choice(book, sheets.names, sheets.count, read, fault)) {
		return false;
	}
	const char *relation = sheets.relations[read];
	const char *name = related_part(&xlsx, relation == NULL ? "" : relation, fault);
	return fault->kind == FAULT_NONE && read_styles(&xlsx, fault) &&
	       read_strings(&xlsx, fault) && read_rows(&xlsx, name, fault);
}
