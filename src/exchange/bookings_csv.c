#include "exchange/bookings_csv.h"

#include "exchange/csv_names.h"
#include "exchange/csv_read.h"
#include "exchange/list_scan.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum booking_column {
	BOOKING_VESSEL,
	BOOKING_FROM,
	BOOKING_TO,
	BOOKING_PERSONS,
	BOOKING_CHILDREN,
	BOOKING_NOTE,
};

enum { BOOKING_COLUMNS = BOOKING_NOTE + 1 };

static const char *const COLUMN_NAMES[BOOKING_COLUMNS] = {
    [BOOKING_VESSEL] = "vessel",
    [BOOKING_FROM] = "from",
    [BOOKING_TO] = "to",
    [BOOKING_PERSONS] = "persons",
    [BOOKING_CHILDREN] = "children",
    [BOOKING_NOTE] = "note",
};

/* The words for each in a complaint. */
static const char *const CELL_NAMES[BOOKING_COLUMNS] = {
    [BOOKING_VESSEL] = "column vessel",
    [BOOKING_FROM] = "column from",
    [BOOKING_TO] = "column to",
    [BOOKING_PERSONS] = "column persons",
    [BOOKING_CHILDREN] = "column children",
    [BOOKING_NOTE] = "column note",
};

struct bookings_reader {
	enum date_order order;
	const struct inventory *inventory;
	struct complaints complaints;
	struct csv_notes notes;
	bool has_header;
	bool usable;           /* nothing is wrong with the header; else no row is read */
	const size_t *columns; /* of each cell, enum booking_column, in the arena */
	size_t column_count;
	struct booking_request *items; /* in the arena */
	size_t count;
	size_t capacity;
};

static void
read_header(struct bookings_reader *reader, const struct csv_cells *cells)
{
	static const struct csv_names NAMES = {COLUMN_NAMES, BOOKING_COLUMNS, 3};
	reader->has_header = true;
	reader->columns = csv_names_read(cells, &NAMES, &reader->complaints);
	reader->column_count = cells->count;
	reader->usable = reader->complaints.count == 0;
}

static bool
read_day(const struct bookings_reader *reader, const char *word, day_t *out,
    struct fault *fault)
{
	struct stamp stamp = {0};
	if (!stamp_parse(word, reader->order, &stamp, fault)) {
		return false;
	}
	if (stamp.precision != STAMP_DAY || stamp.wording != WORDING_PLAIN) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no day; expected one as 2026-12-09", word);
	}
	*out = stamp_first(stamp);
	return true;
}

static bool
read_number(const char *word, int *out, struct fault *fault)
{
	char *end = NULL;
	long number = strtol(word, &end, 10);
	if (!isdigit((unsigned char)*word) || *end != '\0' ||
	    number > BOOKING_PERSONS_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "found \"%.40s\", expected a whole number from 0 to %d", word,
		    BOOKING_PERSONS_MOST);
	}
	*out = (int)number;
	return true;
}

/* Reads a cell that is not blank. */
static bool
read_cell(const struct bookings_reader *reader, enum booking_column column,
    const char *word, struct booking_request *request, struct fault *fault)
{
	switch (column) {
	case BOOKING_VESSEL:
		request->vessel = word;
		return true;
	case BOOKING_FROM:
		return read_day(reader, word, &request->booking.days.first, fault);
	case BOOKING_TO:
		return read_day(reader, word, &request->booking.days.last, fault);
	case BOOKING_PERSONS:
		return read_number(word, &request->booking.persons, fault);
	case BOOKING_CHILDREN:
		return read_number(word, &request->booking.children, fault);
	case BOOKING_NOTE:
		request->booking.note = word;
		return true;
	}
	return false;
}

static void
take_cell(struct bookings_reader *reader, const struct csv_cells *cells, size_t index,
    struct booking_request *request)
{
	enum booking_column column = (enum booking_column)reader->columns[index];
	/* Blanks at the end of a worksheet's row are not in it. */
	static const struct csv_cell BLANK = {"", 0};
	const struct csv_cell *cell =
	    index < cells->count ? &cells->items[index] : &BLANK;
	struct fault wrong = {0};
	const char *word = csv_trimmed(reader->complaints.arena, cell->text);
	if (strlen(cell->text) != cell->length) {
		(void)fault_set(&wrong, FAULT_INPUT, "there is a zero byte in it");
	} else if (*word == '\0' ? column > BOOKING_TO
				 : read_cell(reader, column, word, request, &wrong)) {
		return;
	}
	complain(&reader->complaints, cells->line, CELL_NAMES[column], "%s",
	    wrong.text[0] == '\0' ? "it is blank" : wrong.text);
}

/* A booking of hers that begins on the same day is the one meant. */
static day_t
same_before(const struct bookings_reader *reader, const struct booking_request *request)
{
	const struct inventory *inventory = reader->inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		for (size_t j = 0; j < vessel->booking_count; j++) {
			if (strcmp(vessel->name, request->vessel) == 0 &&
			    vessel->bookings[j].days.first ==
				request->booking.days.first) {
				return request->booking.days.first;
			}
		}
	}
	return DAY_NONE;
}

static bool
take_row(const struct csv_cells *cells, void *context, struct fault *fault)
{
	(void)fault;
	struct bookings_reader *reader = context;
	struct complaints *complaints = &reader->complaints;
	struct booking_request request = {.was = DAY_NONE, .booking.note = ""};
	struct fault wrong = {0};
	size_t before = complaints->count;
	if (!reader->has_header) {
		read_header(reader, cells);
		return true;
	}
	if (!reader->usable) {
		return true;
	}
	if (cells->count > reader->column_count ||
	    (cells->count < reader->column_count && !cells->open_ended)) {
		complain(complaints, cells->line, "",
		    "it has %zu cell%s, and the header has %zu", cells->count,
		    cells->count == 1 ? "" : "s", reader->column_count);
		return true;
	}
	for (size_t i = 0; i < reader->column_count; i++) {
		take_cell(reader, cells, i, &request);
	}
	if (complaints->count > before) {
		return true;
	}
	ARENA_ROOM(complaints->arena, reader);
	request.was = same_before(reader, &request);
	reader->items[reader->count] = request;
	if (!booking_check(reader->inventory, reader->items, reader->count, &wrong)) {
		complain(complaints, cells->line, "", "%s", wrong.text);
	}
	reader->count++;
	return true;
}

static bool
read_all(struct bookings_reader *reader, const struct csv_source *source,
    const struct list_how *how, struct fault *fault)
{
	struct complaints *complaints = &reader->complaints;
	struct csv_stop stop = {0};
	struct csv_taker taker = {take_row, reader};
	if (!list_scan(
		source, how, complaints->arena, taker, &reader->notes, &stop, fault)) {
		return false;
	}
	if (stop.why != NULL) {
		complain(complaints, stop.line, "", "%s; nothing after it could be read",
		    stop.why);
	} else if (reader->count == 0 && complaints->count == 0) {
		complain(complaints, 1, "",
		    "no booking is in it; expected a row of column names, and a row a "
		    "booking");
	}
	return complaints_none(complaints, source->name, fault);
}

bool
csv_read_bookings(const struct csv_source *source, const struct list_how *how,
    enum date_order order, const struct inventory *inventory, struct arena *arena,
    struct booking_request **out, size_t *count_out, struct text *notes,
    struct fault *fault)
{
	struct bookings_reader reader = {.order = order,
	    .inventory = inventory,
	    .complaints = {.arena = arena},
	    .notes = {.arena = arena}};
	bool done = read_all(&reader, source, how, fault);
	text_add(notes, text_string(&reader.notes.text));
	csv_notes_clear(&reader.notes);
	complaints_clear(&reader.complaints);
	if (done) {
		*out = reader.items;
		*count_out = reader.count;
	}
	return done;
}
