#include "calendar/reminders_inside.h"

#include <string.h>

/* What one character means to a calendar's text. */
enum sort {
	SORT_LETTER,
	SORT_BLANK,
	SORT_BREAK,
	SORT_DROPPED,
};

/* How many bytes the character at `at` takes, a CR together with an LF that follows it. */
static size_t
size_of(const char *at)
{
	return at[0] == '\r' && at[1] == '\n' ? 2 : utf8_size(at[0]);
}

/* The sort of the character at `at`, which starts well-formed UTF-8. */
static enum sort
sort_of(const unsigned char *at)
{
	if (at[0] == '\r' || at[0] == '\n') {
		return SORT_BREAK;
	}
	if (at[0] == ' ' || at[0] == '\t') {
		return SORT_BLANK;
	}
	if (at[0] < 0x20 || at[0] == 0x7F) {
		return SORT_DROPPED;
	}
	if (at[0] == 0xC2 && at[1] < 0xA0) {
		return at[1] == 0x85 ? SORT_BREAK : SORT_DROPPED;
	}
	bool separator = strncmp((const char *)at, "\xE2\x80\xA8", 3) == 0 ||
			 strncmp((const char *)at, "\xE2\x80\xA9", 3) == 0;
	return separator ? SORT_BREAK : SORT_LETTER;
}

/* Adds the line breaks, or else the blank, that were held back until a letter follows. */
static void
add_gap(struct text *out, size_t start, size_t breaks, bool blank)
{
	if (out->length == start) {
		return;
	}
	for (size_t i = 0; i < breaks; i++) {
		text_add_byte(out, '\n');
	}
	if (breaks == 0 && blank) {
		text_add_byte(out, ' ');
	}
}

/* How many bytes there are to the next that is no plain letter: a blank, a control
 * character, or one beyond ASCII. */
static size_t
plain_run(const char *at)
{
	size_t length = 0;
	while (at[length] > ' ' && at[length] < 0x7F) {
		length++;
	}
	return length;
}

bool
tidy_text(
    const char *string, enum tidy_shape shape, struct text *out, struct fault *fault)
{
	if (!utf8_valid(string, strlen(string))) {
		return fault_set(fault, FAULT_INPUT, "a text is not well-formed UTF-8");
	}
	const size_t start = out->length;
	size_t breaks = 0;
	bool blank = false;
	size_t size = 0;
	for (const char *at = string; *at != '\0'; at += size) {
		size = size_of(at);
		switch (sort_of((const unsigned char *)at)) {
		case SORT_LETTER:
			add_gap(out, start, breaks, blank);
			breaks = 0;
			blank = false;
			size += plain_run(at + size);
			text_add_bytes(out, at, size);
			break;
		case SORT_BLANK:
			blank = true;
			break;
		case SORT_BREAK:
			breaks += shape == TIDY_LINES ? 1 : 0;
			blank = true;
			break;
		case SORT_DROPPED:
			break;
		}
	}
	return true;
}
