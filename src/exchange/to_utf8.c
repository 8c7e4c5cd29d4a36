#include "exchange/to_utf8.h"

#include <errno.h>
#include <iconv.h>
#include <string.h>

/* Bytes that a well-formed text of the set cannot have, as line and as words, come from here. */
static size_t
line_of(const char *bytes, size_t at)
{
	size_t line = 1;
	for (size_t i = 0; i < at; i++) {
		line += bytes[i] == '\n';
	}
	return line;
}

static bool
convert(const struct csv_source *source, const char *from, iconv_t how, struct text *out,
    struct fault *fault)
{
	char piece[4096];
	/* iconv takes its input as char ** and does not write to it. */
	char *in = (char *)(uintptr_t)source->bytes;
	size_t left = source->length;
	while (left > 0) {
		char *to = piece;
		size_t room = sizeof piece;
		size_t done = iconv(how, &in, &left, &to, &room);
		text_add_bytes(out, piece, (size_t)(to - piece));
		if (done == (size_t)-1 && errno != E2BIG) {
			return fault_set(fault, FAULT_INPUT,
			    "%s: line %zu: it is not text in the character set %.40s; "
			    "expected UTF-8, or its own set named: --encoding "
			    "ISO-8859-15",
			    source->name,
			    line_of(source->bytes, (size_t)(in - source->bytes)), from);
		}
	}
	return true;
}

static bool
convert_from(const struct csv_source *source, const char *from, struct text *out,
    struct fault *fault)
{
	iconv_t how = iconv_open("UTF-8", from);
	if (how == (iconv_t)-1) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no character set that this machine knows; expected "
		    "one such as UTF-8, WINDOWS-1252 or ISO-8859-15 (iconv -l lists "
		    "them)",
		    from);
	}
	bool done = convert(source, from, how, out, fault);
	(void)iconv_close(how);
	return done;
}

/* UTF-16 without a mark: ASCII letters have a zero beside them, at odd places where the low
 * byte comes first. NULL for anything else. */
static const char *
utf16_by_zeros(const char *bytes, size_t length)
{
	size_t seen = length < 512 ? length & ~(size_t)1 : 512;
	size_t zeros[2] = {0};
	for (size_t i = 0; i < seen; i++) {
		zeros[i % 2] += bytes[i] == '\0';
	}
	if (seen == 0 || (zeros[0] + zeros[1]) * 3 < seen) {
		return NULL;
	}
	return zeros[1] > zeros[0] ? "UTF-16LE" : "UTF-16BE";
}

static const char *
set_of(const char *bytes, size_t length)
{
	bool marked = length >= 2 && (memcmp(bytes, "\xFF\xFE", 2) == 0 ||
					 memcmp(bytes, "\xFE\xFF", 2) == 0);
	const char *wide = marked ? "UTF-16" : utf16_by_zeros(bytes, length);
	return wide != NULL ? wide : utf8_valid(bytes, length) ? "UTF-8" : "WINDOWS-1252";
}

/* The first word with a letter beyond ASCII, and its line, that a person may see whether the
 * character set is right. */
static void
note_set(const char *string, struct csv_notes *notes)
{
	const char *at = string;
	while (*at != '\0' && (unsigned char)*at < 0x80) {
		at++;
	}
	const char *first = at;
	while (first > string && strchr(" ,;\t\r\n\"", first[-1]) == NULL) {
		first--;
	}
	size_t length = strcspn(first, " ,;\t\r\n\"");
	text_add_format(&notes->text,
	    "line %zu: it is not UTF-8, so it is read as Windows-1252: \"%.*s\"; if that "
	    "is not as it should be, name its character set: --encoding ISO-8859-15\n",
	    line_of(string, (size_t)(at - string)), length < 60 ? (int)length : 60,
	    first);
}

bool
to_utf8(const struct csv_source *source, const char *character_set,
    struct csv_notes *notes, struct text *out, struct fault *fault)
{
	static const char MARK[] = "\xEF\xBB\xBF";
	struct csv_source rest = *source;
	if (rest.length >= 3 && memcmp(rest.bytes, MARK, 3) == 0) {
		rest.bytes += 3;
		rest.length -= 3;
	}
	const char *from =
	    character_set != NULL ? character_set : set_of(rest.bytes, rest.length);
	if (strcmp(from, "UTF-8") == 0 && utf8_valid(rest.bytes, rest.length)) {
		text_add_bytes(out, rest.bytes, rest.length);
		return true;
	}
	if (!convert_from(&rest, from, out, fault)) {
		return false;
	}
	if (character_set == NULL && strcmp(from, "WINDOWS-1252") == 0) {
		note_set(text_string(out), notes);
	}
	return true;
}
