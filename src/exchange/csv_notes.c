#include "exchange/csv_inside.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WORDS_SIZE = 512 };

void
csv_notes_clear(struct csv_notes *notes)
{
	text_clear(&notes->text);
	free(notes->told);
	*notes = (struct csv_notes){.arena = notes->arena};
}

void
csv_note_once(struct csv_notes *notes, size_t line, const char *format, ...)
{
	char words[WORDS_SIZE];
	va_list args;
	va_start(args, format);
	(void)vsnprintf(words, sizeof words, format, args);
	va_end(args);

	for (size_t i = 0; i < notes->count; i++) {
		if (strcmp(notes->told[i], words) == 0) {
			return;
		}
	}
	array_reserve(
	    &notes->told, &notes->capacity, sizeof *notes->told, notes->count + 1);
	notes->told[notes->count] = arena_string(notes->arena, words);
	notes->count++;
	text_add_format(&notes->text, "line %zu: %s\n", line, words);
}
