#include "desk/copied.h"

#include "desk/files.h"

#include <errno.h>
#include <inttypes.h>
#include <stdlib.h>

enum { LONGEST = 1024 * 1024 };

static void
add_path(const struct desk *desk, struct text *out)
{
	text_add_format(out, "%s.copied", desk->book_path);
}

/* Takes "AT NUMBER", what copied_note wrote; false for other words. */
static bool
take_words(const char *words, struct copied *out)
{
	char *end = NULL;
	errno = 0;
	out->at = strtoll(words, &end, 10);
	bool first = end != words && *end == ' ';
	const char *second = end;
	out->number = strtoll(second, &end, 10);
	return first && end != second && errno == 0 && out->at > 0;
}

void
copied_read(const struct desk *desk, struct copied *out)
{
	SCOPED_TEXT path = {0};
	SCOPED_TEXT bytes = {0};
	struct fault none = {0};
	struct copied copied = {0};
	*out = copied;
	add_path(desk, &path);
	if (file_is_plain(text_string(&path)) &&
	    file_read_most(text_string(&path), LONGEST, &bytes, &none) &&
	    take_words(text_string(&bytes), &copied)) {
		*out = copied;
	}
}

void
copied_note(struct desk *desk)
{
	int64_t number = 0;
	struct fault fault = {0};
	SCOPED_TEXT path = {0};
	SCOPED_TEXT bytes = {0};
	SCOPED_NEW_FILE file = {0};
	add_path(desk, &path);
	bool done = book_last_entry(desk->book, &number, &fault);
	text_add_format(&bytes, "%" PRId64 " %" PRId64 "\n", desk->now, number);
	if (!done ||
	    !new_file_write(
		text_string(&path), text_string(&bytes), bytes.length, &file, &fault) ||
	    !new_file_keep(&file, &fault)) {
		desk_note(desk, "that it was copied could not be noted: %s", fault.text);
	}
}
