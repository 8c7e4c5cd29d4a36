#include "cli/terminal.h"
#include "desk/files.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

bool
output_write(const char *bytes, size_t length, struct fault *fault)
{
	if (!bytes_write(STDOUT_FILENO, bytes, length)) {
		return fault_set(
		    fault, FAULT_FILE, "writing to standard output: %s", strerror(errno));
	}
	return true;
}

/* True for a control character, including those that take two bytes in UTF-8. */
static bool
is_obeyed(unsigned char byte, unsigned char before)
{
	bool keeps = byte == '\n' || byte == '\t';
	return (byte < ' ' && !keeps) || byte == 0x7F ||
	       (before == 0xC2 && byte >= 0x80 && byte < 0xA0);
}

void
add_typed(struct text *out, const char *words)
{
	for (const char *at = words; *at != '\0'; at++) {
		if (*at == FIELD[0]) {
			text_add(out, "--");
		} else {
			text_add_byte(out, *at);
		}
	}
}

void
add_shown(struct text *out, const char *words, size_t length)
{
	unsigned char before = 0;
	for (size_t i = 0; i < length; i++) {
		unsigned char byte = (unsigned char)words[i];
		unsigned char after = i + 1 < length ? (unsigned char)words[i + 1] : 0;
		bool leads = byte == 0xC2 && is_obeyed(after, byte) && after >= 0x80;
		if (byte == (unsigned char)FIELD[0]) {
			text_add(out, "--");
		} else if (is_obeyed(byte, before)) {
			text_add_byte(out, '?');
		} else if (!leads) {
			text_add_byte(out, words[i]);
		}
		before = byte;
	}
}

void
remark_write(const char *label, const char *words, size_t length)
{
	SCOPED_TEXT line = {0};
	add_shown(&line, words, length);
	(void)fprintf(stderr, "becket: %s%s\n", label, text_string(&line));
}
