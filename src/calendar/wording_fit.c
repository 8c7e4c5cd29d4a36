/* Reminders that are no longer than a calendar takes. */
#include "calendar/reminders_inside.h"

#include <string.h>

/* How many characters of UTF-8: bytes that do not continue one. */
static size_t
characters(const char *bytes, size_t length)
{
	size_t count = 0;
	for (size_t i = 0; i < length; i++) {
		count += ((unsigned char)bytes[i] & 0xC0U) != 0x80U;
	}
	return count;
}

void
wording_words(const char *words, struct text *out)
{
	size_t count = 0;
	for (; *words != '\0'; words++) {
		count += ((unsigned char)*words & 0xC0U) != 0x80U;
		if (count > WORDING_WORDS_MOST) {
			text_add(out, "...");
			return;
		}
		text_add_byte(out, *words);
	}
}

static bool
is_listed(const char *line)
{
	return strncmp(line, "- ", 2) == 0;
}

static const char *
next_line(const char *line)
{
	line += strcspn(line, "\n");
	return line + (*line == '\n');
}

/* The end of the last line of a list; the text's own where there is none. */
static const char *
list_end(const char *text)
{
	const char *end = NULL;
	for (const char *line = text; *line != '\0'; line = next_line(line)) {
		end = is_listed(line) ? next_line(line) : end;
	}
	return end == NULL ? text + strlen(text) : end;
}

/* Where to cut: after the last line of a list that fits into so many characters. */
static const char *
last_fit(const char *text, const char *end, size_t room)
{
	const char *cut = text;
	for (const char *line = text; line < end; line = next_line(line)) {
		const char *next = next_line(line);
		if (characters(text, (size_t)(next - text)) > room) {
			break;
		}
		cut = is_listed(line) ? next : cut;
	}
	return cut;
}

/* Adds a text whose lists have what, but not why and for how much: "- LJ-1 lifejacket (locker):
 * service, due 1 Dec 2026". */
static void
add_without_terms(const char *text, struct text *out)
{
	const char *end = list_end(text);
	for (const char *line = text; line < end; line = next_line(line)) {
		const char *next = next_line(line);
		const char *task = strstr(line, ": ");
		const char *terms =
		    strstr(task == NULL || task > next ? line : task, "; ");
		bool cut = is_listed(line) && terms != NULL && terms < next;
		text_add_bytes(out, line, (size_t)((cut ? terms : next) - line));
		text_add(out, cut ? "\n" : "");
	}
	text_add(out, "Reasons and prices: see the list in becket.\n");
	text_add(out, end);
}

/* Adds a text without the last lines of its lists. */
static void
add_first_lines(const char *text, size_t most, struct text *out)
{
	enum { NOTE_MOST = 64 };

	size_t more = 0;
	const char *end = list_end(text);
	size_t behind = characters(end, strlen(end)) + NOTE_MOST;
	const char *cut = last_fit(text, end, most > behind ? most - behind : 0);
	for (const char *line = cut; line < end; line = next_line(line)) {
		more += is_listed(line);
	}
	text_add_bytes(out, text, (size_t)(cut - text));
	text_add_format(out, "And %zu more: see the list in becket.\n", more);
	text_add(out, end);
}

void
wording_fit(struct text *description, size_t most)
{
	SCOPED_TEXT terse = {0};
	SCOPED_TEXT first = {0};
	if (characters(text_string(description), description->length) <= most) {
		return;
	}
	add_without_terms(text_string(description), &terse);
	bool fits = characters(text_string(&terse), terse.length) <= most;
	if (!fits) {
		add_first_lines(text_string(&terse), most, &first);
	}
	text_reset(description);
	text_add(description, text_string(fits ? &terse : &first));
}
