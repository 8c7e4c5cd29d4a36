/* The fields of an address or of a form that was sent, read into plain values. Pure. */
#ifndef BECKET_PAGE_FORM_H
#define BECKET_PAGE_FORM_H

#include "base/memory.h"
#include "base/text.h"

/* How much a form may hold: a fleet's bag has some thousand fields. */
enum { FORM_FIELDS_MOST = 20000, FORM_VALUE_MOST = 100000 };

struct form_field {
	const char *name;
	const char *value; /* its text; "" for a file */
	const char
	    *file_name;    /* of a file, without its folders; NULL for a field of text */
	const char *bytes; /* of a file */
	size_t length;     /* of it */
};

/* In the order in which they were sent; a name may stand several times. */
struct form {
	struct form_field *items; /* in the arena, with all they point at */
	size_t count;
	size_t capacity;
};

/* Reads "name=value&name=value" (application/x-www-form-urlencoded, WHATWG URL section 5.1).
 * Adds to `out`. FAULT_INPUT for a text that is no UTF-8 or holds a zero byte, for a value or a
 * number of fields over the limits. */
MUST_CHECK bool form_read(const char *words, size_t length, struct arena *arena,
    struct form *out, struct fault *fault);

/* Reads multipart/form-data (RFC 7578) by the boundary that the content type names. FAULT_INPUT
 * as above, and for what is not well formed. Files are kept as they are. */
MUST_CHECK bool form_read_parts(const char *content_type, const struct text *body,
    struct arena *arena, struct form *out, struct fault *fault);

/* The text of the first field of that name; NULL when there is none. */
const char *form_value(const struct form *form, const char *name);

/* The first file of that name that holds anything; NULL when there is none. */
const struct form_field *form_file(const struct form *form, const char *name);

/* What follows the prefix in a field's name, "LJ-1" of "packed.LJ-1"; NULL where the name
 * does not begin so. */
const char *form_rest(const struct form_field *field, const char *prefix);

/* Adds the bytes with their %-escapes undone; those may be any bytes. */
void form_unescape(
    const char *words, size_t length, bool plus_is_blank, struct text *out);

/* Copies a field's text, with lines that end in a line feed alone. FAULT_INPUT as above. */
MUST_CHECK bool form_keep_text(const char *bytes, size_t length, struct arena *arena,
    const char **out, struct fault *fault);

/* Adds a field, whose strings are kept. FAULT_INPUT when there are too many. */
MUST_CHECK bool form_add(
    struct form *form, struct form_field field, struct arena *arena, struct fault *fault);

/* Adds a value so that it can stand in an address: every byte but letters, digits and "-._~"
 * escaped (RFC 3986 section 2.3). */
void form_escape(const char *value, struct text *out);

#endif
