#include "base/text.h"
#include "exchange/csv_inside.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The most that are told, and the bytes kept free for "and 12 more" and for the prefixes
 * that the layers above put in front. */
enum {
	TOLD_MOST = 20,
	FAULT_ROOM = sizeof((struct fault *)NULL)->text,
	ROOM_KEPT = 256,
	WORDS_SIZE = 512,
};

void
complaints_clear(struct complaints *complaints)
{
	free(complaints->items);
	*complaints = (struct complaints){0};
}

/* The words without what they quote and without digits, which are the cell's own. */
static const char *
like_of(struct arena *arena, const char *cell, const char *words)
{
	SCOPED_TEXT like = {0};
	bool quoted = false;
	text_add(&like, cell);
	for (const char *at = words; *at != '\0'; at++) {
		quoted = quoted != (*at == '"');
		if (!quoted && (*at < '0' || *at > '9')) {
			text_add_byte(&like, *at);
		}
	}
	return arena_string(arena, text_string(&like));
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

	const char *kept = arena_format(complaints->arena, "line %zu%s%s: %s", line,
	    *cell == '\0' ? "" : ", ", cell, words);
	const char *like = like_of(complaints->arena, cell, words);
	ARRAY_ROOM(complaints);
	complaints->items[complaints->count] = (struct complaint){.line = line,
	    .order = complaints->count,
	    .text = kept,
	    .like = like,
	    .asked = complaints->asked_next};
	complaints->asked_next = false;
	complaints->count++;
}

void
complain_answered(struct complaints *complaints)
{
	complaints->doubted++;
	complaints->asked_next = true;
}

void
complain_doubt(struct complaints *complaints, enum csv_doubt_about about,
    const char *theirs, size_t line, const char *example)
{
	complain_answered(complaints);
	csv_doubt(complaints->doubts, about, theirs, line, example);
}

void
complain_mendable(struct complaints *complaints)
{
	complaints->items[complaints->count - 1].asked = true;
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

/* How many of those behind `at` are wrong in the same way, with their lines; of many the last. */
static size_t
count_alike(const struct complaints *complaints, size_t at, struct text *lines_out)
{
	enum { LINES_MOST = 8 };

	size_t count = 0;
	size_t last = 0;
	for (size_t i = at + 1; i < complaints->count; i++) {
		if (strcmp(complaints->items[i].like, complaints->items[at].like) == 0) {
			last = complaints->items[i].line;
			count++;
			text_add_format(lines_out, "%s %zu", count == 1 ? "" : ",", last);
		}
	}
	if (count > LINES_MOST) {
		text_reset(lines_out);
		text_add_format(lines_out, " to %zu", last);
	}
	return count;
}

static bool
told_before(
    const struct complaints *complaints, const size_t *told, size_t count, size_t at)
{
	for (size_t i = 0; i < count; i++) {
		if (strcmp(complaints->items[told[i]].like, complaints->items[at].like) ==
		    0) {
			return true;
		}
	}
	return false;
}

/* Adds what fits into a fault: a line for each way in which something is wrong, and in the end
 * how many there are beyond that. */
static void
tell_some(const struct complaints *complaints, struct text *out)
{
	size_t told[TOLD_MOST];
	size_t told_count = 0;
	size_t covered = 0;
	for (size_t i = 0; i < complaints->count && told_count < TOLD_MOST; i++) {
		const char *line = complaints->items[i].text;
		SCOPED_TEXT lines = {0};
		if (told_before(complaints, told, told_count, i)) {
			continue;
		}
		if (out->length + strlen(line) + 1 > FAULT_ROOM - ROOM_KEPT) {
			break;
		}
		size_t alike = count_alike(complaints, i, &lines);
		told[told_count++] = i;
		covered += 1 + alike;
		text_add_format(out, "\n%s", line);
		if (alike > 0) {
			text_add_format(out, "\n    and %zu more like it: line%s%s",
			    alike, alike == 1 ? "" : "s", text_string(&lines));
		}
	}
	if (covered < complaints->count) {
		text_add_format(out, "\nand %zu more", complaints->count - covered);
	}
}

static void
tell_all(const struct complaints *complaints, const char *name)
{
	for (size_t i = 0; i < complaints->count && complaints->all != NULL; i++) {
		text_add_format(
		    complaints->all, "%s: %s\n", name, complaints->items[i].text);
	}
}

/* Tells the doubts of what no answer to one of them cures. */
static void
tell_rest(const struct complaints *complaints)
{
	SCOPED_COMPLAINTS rest = {0};
	SCOPED_TEXT text = {0};
	for (size_t i = 0; i < complaints->count; i++) {
		if (!complaints->items[i].asked) {
			ARRAY_ADD(&rest, complaints->items[i]);
		}
	}
	tell_some(&rest, &text);
	complaints->doubts->rest =
	    arena_string(complaints->doubts->arena, text_string(&text));
}

bool
complaints_none(struct complaints *complaints, const char *name, struct fault *fault)
{
	if (complaints->count == 0) {
		return true;
	}
	qsort(complaints->items, complaints->count, sizeof *complaints->items, by_line);
	if (complaints->doubts != NULL) {
		tell_rest(complaints);
	}
	tell_all(complaints, name);
	if (complaints->count == 1) {
		return fault_set(
		    fault, FAULT_INPUT, "%s: %s", name, complaints->items[0].text);
	}
	SCOPED_TEXT text = {0};
	text_add_format(&text,
	    "%s: %zu things are wrong, so nothing is taken from it:", name,
	    complaints->count);
	tell_some(complaints, &text);
	return fault_set(fault, FAULT_INPUT, "%s", text_string(&text));
}
