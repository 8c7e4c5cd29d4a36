/* Remarks on a file that is taken, each told once. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_NOTES_H
#define BECKET_EXCHANGE_CSV_NOTES_H

#include "base/memory.h"
#include "base/text.h"

/* Starts as `{ .arena = arena }`; free with csv_notes_clear. */
struct csv_notes {
	struct arena *arena; /* borrowed */
	struct text text;    /* a line each */
	const char **told;   /* owned: what was said already */
	size_t count;
	size_t capacity;
};

void csv_notes_clear(struct csv_notes *notes);

/* Adds "line 7: ..." unless the same was said of a line before. */
void csv_note_once(struct csv_notes *notes, size_t line, const char *format, ...)
    FORMAT_LIKE(3, 4);

#endif
