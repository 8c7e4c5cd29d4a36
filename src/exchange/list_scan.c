#include "exchange/list_inside.h"

#include <string.h>

/* The compound file that older spreadsheets, and encrypted newer ones, are kept in. */
static bool
is_compound_file(const char *bytes, size_t length)
{
	return length >= 4 && memcmp(bytes, "\xD0\xCF\x11\xE0", 4) == 0;
}

static bool
scan_workbook(const struct csv_source *source, const struct list_how *how,
    struct arena *arena, struct csv_taker taker, struct csv_notes *notes,
    struct fault *fault)
{
	SCOPED_TEXT room = {0};
	struct csv_source held = *source;
	return csv_source_hold(&held, &room, fault) &&
	       workbook_scan(&held, how->worksheet, arena, taker, notes, fault);
}

bool
list_scan(const struct csv_source *source, const struct list_how *how,
    struct arena *arena, struct csv_taker taker, struct csv_notes *notes,
    struct csv_stop *stop_out, struct fault *fault)
{
	SCOPED_FEED head = {.source = source};
	if (!list_feed_more(&head, fault)) {
		return false;
	}
	if (workbook_is(head.at, head.left)) {
		*stop_out = (struct csv_stop){0};
		return scan_workbook(source, how, arena, taker, notes, fault);
	}
	if (is_compound_file(head.at, head.left)) {
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
	       csv_scan(&text, arena, taker, stop_out, fault);
}
