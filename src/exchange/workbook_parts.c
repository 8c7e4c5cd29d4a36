/* What both spreadsheet formats are read with: their parts, unpacked and parsed, and the row. */
#include "base/memory.h"
#include "exchange/list_inside.h"
#include "exchange/reader_calls.h"
#include "exchange/zip_calls.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { COLUMNS_MOST = 1024 };

static const zip_int64_t UNPACKED_MOST = 256L * 1024 * 1024;

/* ---- the grid ---- */

bool
grid_put(struct grid *grid, size_t column, const char *text, struct fault *fault)
{
	struct csv_cells *row = &grid->row;
	if (*text == '\0') {
		return true;
	}
	if (column >= COLUMNS_MOST || grid->cells_left == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "row %zu: more cells than a list of gear can have; expected at most %d "
		    "columns and %d cells",
		    row->line, COLUMNS_MOST, CELLS_MOST);
	}
	if (grid->passing != NULL && row->count == 0) {
		arena_reset(grid->passing);
	}
	while (row->count <= column) {
		ARRAY_ADD(row, (struct csv_cell){"", 0});
	}
	grid->cells_left--;
	row->items[column] =
	    (struct csv_cell){arena_string(grid->arena, text), strlen(text)};
	return true;
}

bool
grid_row_end(struct grid *grid, size_t line, struct fault *fault)
{
	grid->row.line = line;
	grid->row.open_ended = true;
	bool taken = grid->row.count == 0 ||
		     grid->taker.row(&grid->row, grid->taker.context, fault);
	grid->row.count = 0;
	return taken;
}

const char *
number_text(double number, char buffer[NUMBER_TEXT_SIZE])
{
	/* Fifteen digits are what a spreadsheet shows: 45.1, not 45.100000000000001. */
	(void)snprintf(buffer, NUMBER_TEXT_SIZE, "%.15g", number);
	return buffer;
}

const char *
shown_day(day_t day, enum shown shown, char buffer[NUMBER_TEXT_SIZE])
{
	struct civil civil = day_to_civil(day);
	size_t length = shown == SHOWN_YEAR ? 4 : shown == SHOWN_MONTH ? 7 : 10;
	(void)snprintf(buffer, NUMBER_TEXT_SIZE, "%04d-%02d-%02d", civil.year,
	    civil.month, civil.day);
	buffer[length] = '\0';
	return buffer;
}

/* ---- the parts of the archive ---- */

/* A part being unpacked, so many bytes of it at the most. */
struct unpacking {
	zip_file_t *file;
	zip_int64_t left;
};

static int
unpack(void *context, char *buffer, int length)
{
	struct unpacking *unpacking = context;
	zip_int64_t got = zip_fread(unpacking->file, buffer, (zip_uint64_t)length);
	unpacking->left -= got;
	return got < 0 || unpacking->left < 0 ? -1 : (int)got;
}

static int
unpacked(void *context)
{
	struct unpacking *unpacking = context;
	(void)zip_fclose(unpacking->file);
	free(unpacking);
	return 0;
}

/* xml_next says what is wrong; the library would say it on standard error. */
static void
say_nothing(void *context, xmlErrorPtr error)
{
	(void)context;
	(void)error;
}

void
xml_open(const struct workbook *book, const char *name, struct xml_part *out)
{
	*out = (struct xml_part){.name = name};
	zip_file_t *file = zip_fopen(book->zip, name, 0);
	if (file == NULL) {
		return;
	}
	struct unpacking *unpacking = memory_zeroed(1, sizeof *unpacking);
	*unpacking = (struct unpacking){file, UNPACKED_MOST};
	out->xml =
	    xmlReaderForIO(unpack, unpacked, unpacking, NULL, NULL, XML_PARSE_NONET);
	if (out->xml == NULL) {
		memory_ended();
	}
	xmlTextReaderSetStructuredErrorHandler(out->xml, say_nothing, NULL);
}

void
xml_close(struct xml_part *part)
{
	xmlFreeTextReader(part->xml);
	part->xml = NULL;
}

bool
xml_next(struct xml_part *part, struct fault *fault)
{
	if (part->xml == NULL) {
		return false;
	}
	int stepped = xmlTextReaderRead(part->xml);
	int type = stepped == 1 ? xmlTextReaderNodeType(part->xml) : XML_READER_TYPE_NONE;
	/* Neither format allows a document type, so that no file can define entities of its own. */
	if (stepped < 0 || type == XML_READER_TYPE_DOCUMENT_TYPE) {
		return fault_set(fault, FAULT_INPUT,
		    "its part %s can't be read; it is damaged, encrypted or too large",
		    part->name);
	}
	const xmlChar *element = xmlTextReaderConstLocalName(part->xml);
	part->element = element == NULL ? "" : (const char *)element;
	part->starts = type == XML_READER_TYPE_ELEMENT;
	part->ends = type == XML_READER_TYPE_END_ELEMENT ||
		     (part->starts && xmlTextReaderIsEmptyElement(part->xml) == 1);
	return stepped == 1;
}

bool
xml_starts(const struct xml_part *part, const char *element)
{
	return part->starts && strcmp(part->element, element) == 0;
}

bool
xml_ends(const struct xml_part *part, const char *element)
{
	return part->ends && strcmp(part->element, element) == 0;
}

const char *
xml_attribute(const struct xml_part *part, const char *name, struct arena *arena)
{
	const char *found = NULL;
	while (found == NULL && xmlTextReaderMoveToNextAttribute(part->xml) == 1) {
		const char *local = (const char *)xmlTextReaderConstLocalName(part->xml);
		const char *value = (const char *)xmlTextReaderConstValue(part->xml);
		if (local != NULL && strcmp(local, name) == 0) {
			found = arena_string(arena, value == NULL ? "" : value);
		}
	}
	(void)xmlTextReaderMoveToElement(part->xml);
	return found;
}

size_t
xml_count(const struct xml_part *part, const char *name, size_t most)
{
	SCOPED_ARENA arena = {0};
	const char *text = xml_attribute(part, name, &arena);
	unsigned long count = text == NULL ? 1 : strtoul(text, NULL, 10);
	return count < most ? (size_t)count : most;
}

void
xml_add_text(const struct xml_part *part, struct text *out)
{
	switch (xmlTextReaderNodeType(part->xml)) {
	case XML_READER_TYPE_TEXT:
	case XML_READER_TYPE_CDATA:
	case XML_READER_TYPE_SIGNIFICANT_WHITESPACE:
		text_add(out, (const char *)xmlTextReaderConstValue(part->xml));
		break;
	default:
		break;
	}
}

/* ---- the file ---- */

bool
workbook_note_choice(const struct workbook *book, const char *const *names, size_t count,
    size_t read, struct fault *fault)
{
	SCOPED_TEXT others = {0};
	for (size_t i = 0; i < count; i++) {
		if (i != read) {
			text_add_format(&others, "%s\"%.60s\"",
			    others.length > 0 ? ", " : "", names[i]);
		}
	}
	if (read == count) {
		return fault_set(fault, FAULT_INPUT,
		    "it has no worksheet \"%.60s\"; it has %s",
		    book->worksheet == NULL ? "that is shown" : book->worksheet,
		    count == 0 ? "none" : text_string(&others));
	}
	if (count > 1 && book->worksheet == NULL) {
		text_add_format(&book->notes->text,
		    "worksheet \"%.60s\" read, and not %s: --worksheet NAME reads another\n",
		    names[read], text_string(&others));
	}
	return true;
}
