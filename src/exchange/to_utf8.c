#include "exchange/list_inside.h"

#include <errno.h>
#include <iconv.h>
#include <string.h>

/* The line in which the byte at `at` stands, from 1. */
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

/* No list has the currency sign of Latin-1 and Windows-1252: its byte is the euro sign of Latin-9,
 * which has no characters at 80 to 9F as Windows has. */
static bool
euro_of_latin_9(const char *bytes, size_t length)
{
	bool euro = false;
	for (size_t i = 0; i < length; i++) {
		unsigned char byte = (unsigned char)bytes[i];
		if (byte >= 0x80 && byte < 0xA0) {
			return false;
		}
		euro = euro || byte == 0xA4;
	}
	return euro;
}

/* The set that the beginning of a list tells; NULL for none. */
static const char *
wide_set_of(const char *bytes, size_t length)
{
	bool marked = length >= 2 && (memcmp(bytes, "\xFF\xFE", 2) == 0 ||
					 memcmp(bytes, "\xFE\xFF", 2) == 0);
	return marked ? "UTF-16" : utf16_by_zeros(bytes, length);
}

/* Passes over a byte order mark; NULL in *wide_out, or the set of two bytes a letter that the list
 * is in. */
static bool
look_at_head(struct csv_source *list, const char **wide_out, struct fault *fault)
{
	static const char MARK[] = "\xEF\xBB\xBF";
	SCOPED_FEED head = {.source = list};
	if (!list_feed_more(&head, fault)) {
		return false;
	}
	size_t mark = head.left >= 3 && memcmp(head.at, MARK, 3) == 0 ? 3 : 0;
	*wide_out = wide_set_of(head.at + mark, head.left - mark);
	list->bytes += list->bytes == NULL ? 0 : mark;
	list->begin += mark;
	list->length -= mark;
	return true;
}

/* The first word with a letter beyond ASCII, and its line, so that a person can see
 * whether the character set is right. */
static void
note_set(const char *string, const char *from, struct csv_notes *notes)
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
	    "line %zu: it is not UTF-8, so it is read as %s: \"%.*s\"; if that is not as it "
	    "should be, name its character set: --encoding %s\n",
	    line_of(string, (size_t)(at - string)), from, length < 60 ? (int)length : 60,
	    first, *from == 'W' ? "ISO-8859-15" : "WINDOWS-1252");
}

bool
to_utf8(const struct csv_source *source, const char *character_set,
    struct csv_notes *notes, struct text *room, struct csv_source *out,
    struct fault *fault)
{
	SCOPED_TEXT whole = {0};
	struct csv_source rest = *source;
	const char *wide = NULL;
	bool utf8 = false;
	if (!look_at_head(&rest, &wide, fault) || !list_is_utf8(&rest, &utf8, fault)) {
		return false;
	}
	const char *from = character_set != NULL ? character_set : wide;
	from = from == NULL && utf8 ? "UTF-8" : from;
	if (utf8 && strcmp(from, "UTF-8") == 0) {
		*out = rest;
		return true;
	}
	if (!csv_source_hold(&rest, &whole, fault)) {
		return false;
	}
	if (from == NULL) {
		from = euro_of_latin_9(rest.bytes, rest.length) ? "ISO-8859-15"
								: "WINDOWS-1252";
	}
	if (!convert_from(&rest, from, room, fault)) {
		return false;
	}
	if (character_set == NULL && strcmp(from, "WINDOWS-1252") == 0) {
		note_set(text_string(room), "Windows-1252", notes);
	} else if (character_set == NULL && strcmp(from, "ISO-8859-15") == 0) {
		note_set(text_string(room), from, notes);
	}
	*out = (struct csv_source){
	    .name = source->name, .bytes = text_string(room), .length = room->length};
	return true;
}
