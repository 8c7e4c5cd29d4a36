#include "exchange/list_inside.h"

#include <string.h>

/* The compound file that older spreadsheets, and encrypted newer ones, are kept in. */
static bool
is_compound_file(const struct csv_source *source)
{
	return source->length >= 4 && memcmp(source->bytes, "\xD0\xCF\x11\xE0", 4) == 0;
}

bool
list_scan(const struct csv_source *source, const struct list_how *how,
    struct arena *arena, struct csv_taker taker, struct csv_notes *notes,
    struct csv_stop *stop_out, struct fault *fault)
{
	if (workbook_is(source->bytes, source->length)) {
		*stop_out = (struct csv_stop){0};
		return workbook_scan(source, how->worksheet, arena, taker, notes, fault);
	}
	if (is_compound_file(source)) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: it is an older spreadsheet (.xls), or one with a password; "
		    "expected .xlsx, .ods or CSV: open it, and save it as one of these",
		    source->name);
	}
	if (how->worksheet != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: it is a text and has no worksheet \"%.60s\"; leave out "
		    "--worksheet",
		    source->name, how->worksheet);
	}
	SCOPED_TEXT room = {0};
	struct csv_source text;
	return to_utf8(source, how->character_set, notes, &room, &text, fault) &&
	       csv_scan(text.bytes, text.length, arena, taker, stop_out, fault);
}
