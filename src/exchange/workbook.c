/* A spreadsheet told from a list in text, and read by the format it is of. */
#include "exchange/list_inside.h"
#include "exchange/zip_calls.h"

#include <stdlib.h>
#include <string.h>

bool
workbook_is(const char *bytes, size_t length)
{
	return length >= 4 && memcmp(bytes, "PK\003\004", 4) == 0;
}

static void
discard(zip_t **zip)
{
	if (*zip != NULL) {
		zip_discard(*zip);
	}
}

static bool
scan_zip(struct workbook *book, struct fault *fault)
{
	if (zip_name_locate(book->zip, "content.xml", 0) >= 0) {
		return ods_scan(book, fault);
	}
	if (zip_name_locate(book->zip, "[Content_Types].xml", 0) >= 0) {
		return xlsx_scan(book, fault);
	}
	return fault_set(fault, FAULT_INPUT,
	    "it is an archive, and no spreadsheet; expected .xlsx, .ods or CSV");
}

bool
workbook_scan(const struct csv_source *source, const char *worksheet, struct arena *arena,
    struct csv_taker taker, struct csv_notes *notes, struct fault *fault)
{
	zip_error_t error;
	zip_error_init(&error);
	zip_source_t *bytes =
	    zip_source_buffer_create(source->bytes, source->length, 0, &error);
	__attribute__((cleanup(discard))) zip_t *zip =
	    bytes == NULL ? NULL : zip_open_from_source(bytes, ZIP_RDONLY, &error);
	if (zip == NULL) {
		(void)fault_set(fault, FAULT_INPUT,
		    "%s: it begins as a spreadsheet does, and can't be opened: %s",
		    source->name, zip_error_strerror(&error));
		zip_source_free(bytes);
		zip_error_fini(&error);
		return false;
	}
	struct workbook book = {
	    .zip = zip,
	    .worksheet = worksheet,
	    .grid = {.cells_left = CELLS_MOST, .arena = arena, .taker = taker},
	    .notes = notes,
	};
	SCOPED_ARENA passing = {0};
	book.grid.passing = arena == NULL ? &passing : NULL;
	book.grid.arena = arena == NULL ? &passing : arena;
	bool done = scan_zip(&book, fault) || fault_prefix(fault, "%s", source->name);
	free(book.grid.row.items);
	return done;
}
