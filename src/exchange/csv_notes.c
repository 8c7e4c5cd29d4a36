#include "exchange/csv_notes.h"

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

bool
csv_note_once(
    struct csv_notes *notes, size_t line, struct fault *fault, const char *format, ...)
{
	char words[WORDS_SIZE];
	va_list args;
	va_start(args, format);
	(void)vsnprintf(words, sizeof words, format, args);
	va_end(args);

	for (size_t i = 0; i < notes->count; i++) {
		if (strcmp(notes->told[i], words) == 0) {
			return true;
		}
	}
	if (!array_reserve(&notes->told, &notes->capacity, sizeof *notes->told,
		notes->count + 1, fault)) {
		return false;
	}
	notes->told[notes->count] = arena_string(notes->arena, words);
	if (notes->told[notes->count] == NULL) {
		return fault_memory(fault);
	}
	notes->count++;
	text_add_format(&notes->text, "line %zu: %s\n", line, words);
	return true;
}
