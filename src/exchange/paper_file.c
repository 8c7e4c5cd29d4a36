#include "exchange/paper_file.h"

#include "base/memory.h"
#include "exchange/magic_calls.h"

#include <stdint.h>
#include <string.h>

enum { NAME_LONGEST = 120, ENDING_LONGEST = 5 };

/* ---- content ---- */

static void
close_magic(magic_t *magic)
{
	if (*magic != NULL) {
		magic_close(*magic);
	}
}

/* The media type of some bytes, as the library that knows such things sees it, in `out`. */
static bool
look_inside(const struct text *bytes, struct text *out, struct fault *fault)
{
	__attribute__((cleanup(close_magic))) magic_t magic = memory_held(
	    magic_open(MAGIC_MIME_TYPE | MAGIC_NO_CHECK_COMPRESS | MAGIC_NO_CHECK_TAR));
	if (magic_load(magic, NULL) != 0) {
		return fault_set(fault, FAULT_FILE,
		    "the table of file types can't be read (%s); it comes with libmagic",
		    magic_error(magic));
	}
	const char *found = magic_buffer(magic, text_string(bytes), bytes->length);
	text_add(out, found == NULL ? "unknown" : found);
	return true;
}

/* What follows the last dot of a name when it is an ending: short, of letters and digits and
 * with a letter among them; else "". */
static const char *
ending_of(const char *name)
{
	static const char LETTERS[] =
	    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
	const char *dot = strrchr(name, '.');
	const char *ending = dot == NULL || dot == name ? "" : dot + 1;
	size_t length = strlen(ending);
	bool plain = true;
	for (const char *at = ending; *at != '\0'; at++) {
		plain =
		    plain && (strchr(LETTERS, *at) != NULL || (*at >= '0' && *at <= '9'));
	}
	bool some_letter = ending[strcspn(ending, LETTERS)] != '\0';
	return plain && some_letter && length <= ENDING_LONGEST ? ending : "";
}

/* True when the ending is one of the type's. */
static bool
ending_fits(const struct paper_type *type, const char *ending)
{
	size_t length = strlen(ending);
	for (const char *at = type->endings; *at != '\0'; at += strcspn(at, " ") + 1) {
		size_t i = 0;
		while (i < length && text_lower(ending[i]) == at[i]) {
			i++;
		}
		if (i == length && at[i] == ' ') {
			return true;
		}
	}
	return false;
}

static bool
type_fault(const char *found, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	for (const struct paper_type *type = PAPER_TYPES; type->media_type != NULL;
	     type++) {
		text_add_format(
		    &words, "%s%s", type == PAPER_TYPES ? "" : ", ", type->words);
	}
	return fault_set(fault, FAULT_INPUT,
	    "its content is %.60s, which is not taken; expected one of: %s", found,
	    text_string(&words));
}

bool
paper_file_type(const char *name, const struct text *bytes, const struct paper_type **out,
    struct fault *fault)
{
	SCOPED_TEXT found = {0};
	if (bytes->length == 0) {
		return fault_set(fault, FAULT_INPUT, "the file is empty");
	}
	if (!look_inside(bytes, &found, fault)) {
		return false;
	}
	const struct paper_type *type = paper_type_find(text_string(&found));
	if (type == NULL) {
		return type_fault(text_string(&found), fault);
	}
	const char *ending = ending_of(name);
	if (ending[0] != '\0' && !ending_fits(type, ending)) {
		return fault_set(fault, FAULT_INPUT,
		    "its name ends in \".%s\", but its content is %s; expected it to end in "
		    "\".%.*s\"",
		    ending, type->words, (int)strcspn(type->endings, " "), type->endings);
	}
	*out = type;
	return true;
}

/* ---- names ---- */

/* How many bytes the character at `at` has; 0 when it is malformed. */
static size_t
character_length(const char *at)
{
	for (size_t length = 1; length <= 4 && at[length - 1] != '\0'; length++) {
		if (utf8_valid(at, length)) {
			return length;
		}
	}
	return 0;
}

/* True for a character that has no place in a file name. */
static bool
is_unsafe(const char *at, size_t length)
{
	unsigned char first = (unsigned char)at[0];
	unsigned char second = length > 1 ? (unsigned char)at[1] : 0;
	unsigned char third = length > 2 ? (unsigned char)at[2] : 0;
	if (length == 1) {
		return first < ' ' || first == 0x7F ||
		       strchr("/\\:*?\"<>|", first) != NULL;
	}
	if (length == 2) {
		/* U+0080 to U+009F; U+061C turns the direction */
		return (first == 0xC2 && second < 0xA0) ||
		       (first == 0xD8 && second == 0x9C);
	}
	/* U+200B to 200F, U+2028 to 202E, U+2060 to 206F; U+FEFF */
	bool invisible =
	    first == 0xE2 && ((second == 0x80 && ((third >= 0x8B && third <= 0x8F) ||
						     (third >= 0xA8 && third <= 0xAE))) ||
				 (second == 0x81 && third >= 0xA0 && third <= 0xAF));
	bool mark = first == 0xEF && second == 0xBB && third == 0xBF;
	return length == 3 && (invisible || mark);
}

/* Adds the name with "_" for what is unsafe, at most so many bytes of it; a character is
 * whole or not there. */
static void
add_cleaned(const char *name, size_t most, struct text *out)
{
	size_t start = out->length;
	while (*name != '\0') {
		size_t length = character_length(name);
		bool bad = length == 0 || is_unsafe(name, length);
		size_t adds = bad ? 1 : length;
		if (out->length - start + adds > most) {
			return;
		}
		text_add_bytes(out, bad ? "_" : name, adds);
		name += length == 0 ? 1 : length;
	}
}

/* Takes blanks and dots from the end. */
static void
trim_end(struct text *name)
{
	while (name->length > 0 && strchr(" .", name->bytes[name->length - 1]) != NULL) {
		name->bytes[--name->length] = '\0';
	}
}

void
paper_file_name(const char *path, struct text *out)
{
	const char *slash = strrchr(path, '/');
	SCOPED_TEXT clean = {0};
	SCOPED_TEXT name = {0};
	SCOPED_TEXT stem = {0};
	add_cleaned(slash == NULL ? path : slash + 1, SIZE_MAX, &clean);
	trim_end(&clean);
	if (clean.length > 0 && strchr(". ", clean.bytes[0]) != NULL) {
		clean.bytes[0] = '_';
	}
	const char *ending = ending_of(text_string(&clean));
	size_t tail = ending[0] == '\0' ? 0 : strlen(ending) + 1;
	text_add_bytes(&stem, text_string(&clean), clean.length - tail);
	add_cleaned(text_string(&stem), NAME_LONGEST - tail, &name);
	text_add(&name, text_string(&clean) + clean.length - tail);
	trim_end(&name);
	text_add(out, name.length == 0 ? "paper" : text_string(&name));
}

void
paper_out_name(const struct paper *paper, struct text *out)
{
	text_add_format(out, "%lld-", (long long)paper->number);
	paper_file_name(paper->name, out);
}
