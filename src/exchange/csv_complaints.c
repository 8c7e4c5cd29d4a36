#include "exchange/csv_complaints.h"

#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The most that are told, and the bytes kept free for "and 12 more" and for the prefixes
 * that the layers above put in front. */
enum { TOLD_MOST = 20, ROOM_KEPT = 256, WORDS_SIZE = 512 };

void
complaints_clear(struct complaints *complaints)
{
	free(complaints->items);
	*complaints = (struct complaints){0};
}

void
complain(
    struct complaints *complaints, size_t line, const char *cell, const char *format, ...)
{
	char words[WORDS_SIZE];
	va_list args;
	va_start(args, format);
	(void)vsnprintf(words, sizeof words, format, args);
	va_end(args);

	SCOPED_TEXT text = {0};
	text_add_format(
	    &text, "line %zu%s%s: %s", line, *cell == '\0' ? "" : ", ", cell, words);
	struct fault fault = {0};
	const char *kept = arena_string(complaints->arena, text_string(&text));
	if (text.failed || kept == NULL || !ARRAY_ROOM(complaints, &fault)) {
		complaints->failed = true;
		return;
	}
	complaints->items[complaints->count] =
	    (struct complaint){.line = line, .order = complaints->count, .text = kept};
	complaints->count++;
}

static int
by_line(const void *a, const void *b)
{
	const struct complaint *x = a;
	const struct complaint *y = b;
	if (x->line != y->line) {
		return x->line < y->line ? -1 : 1;
	}
	return (x->order > y->order) - (x->order < y->order);
}

bool
complaints_none(struct complaints *complaints, const char *name, struct fault *fault)
{
	if (complaints->failed) {
		return fault_memory(fault);
	}
	if (complaints->count == 0) {
		return true;
	}
	if (complaints->count == 1) {
		return fault_set(
		    fault, FAULT_INPUT, "%s: %s", name, complaints->items[0].text);
	}
	qsort(complaints->items, complaints->count, sizeof *complaints->items, by_line);
	SCOPED_TEXT text = {0};
	text_add_format(&text,
	    "%s: %zu things are wrong, so nothing is taken from it:", name,
	    complaints->count);
	size_t told = 0;
	while (told < complaints->count && told < TOLD_MOST) {
		const char *line = complaints->items[told].text;
		if (text.length + strlen(line) + 1 > sizeof fault->text - ROOM_KEPT) {
			break;
		}
		text_add_format(&text, "\n%s", line);
		told++;
	}
	if (told < complaints->count) {
		text_add_format(&text, "\nand %zu more", complaints->count - told);
	}
	if (!text_check(&text, fault)) {
		return false;
	}
	return fault_set(fault, FAULT_INPUT, "%s", text_string(&text));
}
