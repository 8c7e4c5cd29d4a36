#include "exchange/bookings_csv.h"

#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"
#include "exchange/list_inside.h"

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

static const char *const SYNONYMS[BOOKING_COLUMNS] = {
    [BOOKING_VESSEL] = "boat boatname yacht ship boot schiff bateau navire bat fartoy",
    [BOOKING_FROM] = ("start starts begin begins firstday out departure von ab beginn du "
		      "debut depart fra"),
    [BOOKING_TO] = "end ends until lastday back return bis ende au fin retour til",
    [BOOKING_PERSONS] = "people pax guests crew personen personnes personer",
    [BOOKING_CHILDREN] = "kids kinder enfants barn",
    [BOOKING_NOTE] = "notes remark remarks comment comments bemerkung remarque merknad",
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
	struct named_list list;
	struct booking_request *items; /* in the arena */
	size_t count;
	size_t capacity;
};

static bool
read_number(const char *word, int *out, struct fault *fault)
{
	/* "4.0" as a spreadsheet writes it; no children at all are 0 */
	bool none = *word == '0' && strspn(word, "0.,") == strlen(word);
	long number = none ? 0 : csv_count(word);
	if ((number == 0 && !none) || number > BOOKING_PERSONS_MOST) {
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
		return named_list_day(
		    &reader->list, word, &request->booking.days.first, fault);
	case BOOKING_TO:
		return named_list_day(
		    &reader->list, word, &request->booking.days.last, fault);
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
	enum booking_column column = (enum booking_column)reader->list.columns[index];
	/* Blanks at the end of a worksheet's row are not in it. */
	static const struct csv_cell BLANK = {"", 0};
	const struct csv_cell *cell =
	    index < cells->count ? &cells->items[index] : &BLANK;
	struct fault wrong = {0};
	const char *word = csv_trimmed(reader->list.complaints.arena, cell->text);
	if (strlen(cell->text) != cell->length) {
		(void)fault_set(&wrong, FAULT_INPUT, "there is a zero byte in it");
	} else if (*word == '\0' ? column > BOOKING_TO
				 : read_cell(reader, column, word, request, &wrong)) {
		return;
	}
	complain(&reader->list.complaints, cells->line, CELL_NAMES[column], "%s",
	    wrong.text[0] == '\0' ? "it is blank" : wrong.text);
}

/* A booking of hers that begins on the same day is the one meant. */
static day_t
same_before(const struct bookings_reader *reader, const struct booking_request *request)
{
	const struct inventory *inventory = reader->list.source->inventory;
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

static void
take_row(void *context, const struct csv_cells *cells)
{
	struct bookings_reader *reader = context;
	struct complaints *complaints = &reader->list.complaints;
	struct booking_request request = {
	    .vessel = "", .was = DAY_NONE, .booking.note = ""};
	struct fault wrong = {0};
	size_t before = complaints->count;
	for (size_t i = 0; i < reader->list.column_count; i++) {
		take_cell(reader, cells, i, &request);
	}
	if (complaints->count > before) {
		return;
	}
	ARENA_ROOM(complaints->arena, reader);
	request.was = same_before(reader, &request);
	reader->items[reader->count] = request;
	if (!booking_check(
		reader->list.source->inventory, reader->items, reader->count, &wrong)) {
		complain(complaints, cells->line, "", "%s", wrong.text);
	}
	reader->count++;
}

bool
csv_read_bookings(const struct list_source *source, struct booking_request **out,
    size_t *count_out, struct fault *fault)
{
	struct bookings_reader reader = {
	    .list = {.source = source,
		.names = {COLUMN_NAMES, BOOKING_COLUMNS, 3, SYNONYMS},
		.nothing = "no booking is in it; expected a row of column names, and a "
			   "row a booking",
		.take = take_row}};
	reader.list.reader = &reader;
	if (!named_list_read(&reader.list, fault)) {
		return false;
	}
	*out = reader.items;
	*count_out = reader.count;
	return true;
}
