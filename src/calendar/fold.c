#include "calendar/ics.h"

enum { LINE_OCTETS = 75 }; /* RFC 5545, section 3.1 */

/* True when a line that starts at `from` may end before the byte at `at`. `from` is never
 * inside an escape, so an odd number of backslashes before `at` means that the last of them
 * belongs to the letter after it. */
static bool
may_break(const char *line, size_t from, size_t at)
{
	bool inside_letter = ((unsigned char)line[at] & 0xC0) == 0x80;
	bool after_blank = line[at - 1] == ' ' || line[at - 1] == '\t';
	size_t backslashes = 0;
	while (at - backslashes > from && line[at - backslashes - 1] == '\\') {
		backslashes++;
	}
	return !inside_letter && !after_blank && backslashes % 2 == 0;
}

/* Where a line that starts at `from` ends, with more than `room` bytes to come. */
static size_t
find_break(const char *line, size_t from, size_t room)
{
	for (size_t at = from + room; at > from; at--) {
		if (may_break(line, from, at)) {
			return at;
		}
	}
	/* Nothing but blanks, or bytes that are no UTF-8: the length is what is left to
	 * keep. ics_write lets neither come here. */
	return from + room;
}

void
ics_fold(const char *line, size_t length, struct text *out)
{
	while (length > 0 && (line[length - 1] == ' ' || line[length - 1] == '\t')) {
		length--;
	}
	size_t from = 0;
	size_t room = LINE_OCTETS;
	while (length - from > room) {
		size_t at = find_break(line, from, room);
		text_add_bytes(out, line + from, at - from);
		text_add(out, "\r\n ");
		from = at;
		room = LINE_OCTETS - 1;
	}
	text_add_bytes(out, line + from, length - from);
	text_add(out, "\r\n");
}
