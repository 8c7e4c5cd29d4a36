#include "calendar/tidy.h"

#include <string.h>

/* What one character means to a calendar's text. */
enum sort {
	SORT_LETTER,
	SORT_BLANK,
	SORT_BREAK,
	SORT_DROPPED,
};

/* The sort of the character at `at`, which starts well-formed UTF-8, and how many bytes it
 * takes. A CR is taken together with an LF that follows it. */
static enum sort
sort_of(const char *at, size_t *size_out)
{
	const unsigned char *byte = (const unsigned char *)at;
	*size_out = byte[0] < 0x80 ? 1 : byte[0] < 0xE0 ? 2 : byte[0] < 0xF0 ? 3 : 4;
	if (byte[0] == '\r' || byte[0] == '\n') {
		*size_out = byte[0] == '\r' && byte[1] == '\n' ? 2 : 1;
		return SORT_BREAK;
	}
	if (byte[0] == ' ' || byte[0] == '\t') {
		return SORT_BLANK;
	}
	if (byte[0] < 0x20 || byte[0] == 0x7F) {
		return SORT_DROPPED;
	}
	if (byte[0] == 0xC2 && byte[1] < 0xA0) {
		return byte[1] == 0x85 ? SORT_BREAK : SORT_DROPPED;
	}
	bool separator = byte[0] == 0xE2 && byte[1] == 0x80;
	if (separator && (byte[2] == 0xA8 || byte[2] == 0xA9)) {
		return SORT_BREAK;
	}
	return SORT_LETTER;
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
		switch (sort_of(at, &size)) {
		case SORT_LETTER:
			add_gap(out, start, breaks, blank);
			breaks = 0;
			blank = false;
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
	return text_check(out, fault);
}
