/* multipart/form-data (RFC 7578, RFC 2046 section 5.1): how a form with files is sent. */
#include "page/form.h"

#include <string.h>
#include <strings.h>

/* A stretch of bytes within the body. */
struct slice {
	const char *at;
	size_t length;
};

static bool
not_well_formed(struct fault *fault)
{
	return fault_set(
	    fault, FAULT_INPUT, "the form was sent in a shape that can't be read");
}

/* Where the bytes occur first; NULL when they do not. */
static const char *
find(struct slice in, const char *bytes, size_t length)
{
	for (const char *at = in.at; (size_t)(at - in.at) + length <= in.length; at++) {
		at = memchr(at, bytes[0], in.length - (size_t)(at - in.at) - length + 1);
		if (at == NULL) {
			return NULL;
		}
		if (memcmp(at, bytes, length) == 0) {
			return at;
		}
	}
	return NULL;
}

/* The boundary that a content type names, with what stands before it between two parts. */
static bool
read_boundary(const char *content_type, struct text *out, struct fault *fault)
{
	const char *at = strstr(content_type, "boundary=");
	if (at == NULL) {
		return not_well_formed(fault);
	}
	at += strlen("boundary=");
	bool quoted = *at == '"';
	at += quoted ? 1 : 0;
	size_t length = strcspn(at, quoted ? "\"" : "; \t");
	/* at most 70 characters: RFC 2046 section 5.1.1 */
	if (length == 0 || length > 70) {
		return not_well_formed(fault);
	}
	text_add(out, "\r\n--");
	text_add_bytes(out, at, length);
	return true;
}

/* The value of name="..." in a line, copied; NULL when it is not there. In names a quote is sent
 * as %22 (WHATWG HTML, multipart/form-data encoding). */
static const char *
parameter(const char *line, const char *name, struct arena *arena)
{
	size_t length = strlen(name);
	for (const char *at = strchr(line, ';'); at != NULL; at = strchr(at, ';')) {
		at += 1 + strspn(at + 1, " \t");
		if (strncasecmp(at, name, length) != 0 || at[length] != '=' ||
		    at[length + 1] != '"') {
			continue;
		}
		const char *value = at + length + 2;
		size_t size = strcspn(value, "\"");
		SCOPED_TEXT text = {0};
		text_add_bytes(&text, value, size);
		return utf8_valid(value, size) ? arena_string(arena, text_string(&text))
					       : NULL;
	}
	return NULL;
}

/* The part's content-disposition, as a string; NULL when it has none. */
static const char *
disposition(struct slice head, struct arena *arena)
{
	static const char NAME[] = "content-disposition:";
	struct slice rest = head;
	while (rest.length > 0) {
		const char *stop = find(rest, "\r\n", 2);
		size_t length = stop == NULL ? rest.length : (size_t)(stop - rest.at);
		if (length > strlen(NAME) &&
		    strncasecmp(rest.at, NAME, strlen(NAME)) == 0) {
			SCOPED_TEXT line = {0};
			text_add_bytes(&line, rest.at, length);
			return arena_string(arena, text_string(&line));
		}
		size_t step = stop == NULL ? rest.length : length + 2;
		rest = (struct slice){rest.at + step, rest.length - step};
	}
	return NULL;
}

/* The last part of a path, with slashes or backslashes. */
static const char *
without_folders(const char *name)
{
	for (const char *at = name; *at != '\0'; at++) {
		name = *at == '/' || *at == '\\' ? at + 1 : name;
	}
	return name;
}

static bool
read_part(struct slice part, struct arena *arena, struct form *out, struct fault *fault)
{
	const char *gap = find(part, "\r\n\r\n", 4);
	if (gap == NULL) {
		return not_well_formed(fault);
	}
	struct slice head = {part.at, (size_t)(gap - part.at)};
	struct slice body = {gap + 4, part.length - head.length - 4};
	const char *line = disposition(head, arena);
	struct form_field field = {
	    .name = line == NULL ? NULL : parameter(line, "name", arena), .value = ""};
	if (field.name == NULL) {
		return not_well_formed(fault);
	}
	field.file_name = parameter(line, "filename", arena);
	if (field.file_name != NULL) {
		field.file_name = without_folders(field.file_name);
		field.bytes = body.at;
		field.length = body.length;
	} else if (!form_keep_text(body.at, body.length, arena, &field.value, fault)) {
		return false;
	}
	return form_add(out, field, arena, fault);
}

bool
form_read_parts(const char *content_type, const struct text *body, struct arena *arena,
    struct form *out, struct fault *fault)
{
	SCOPED_TEXT boundary = {0};
	if (!read_boundary(content_type, &boundary, fault)) {
		return false;
	}
	const char *mark = text_string(&boundary);
	struct slice rest = {text_string(body), body->length};
	/* the first boundary has no end of line before it */
	if (rest.length < boundary.length ||
	    memcmp(rest.at, mark + 2, boundary.length - 2) != 0) {
		return not_well_formed(fault);
	}
	rest.at += boundary.length - 2;
	rest.length -= boundary.length - 2;
	while (rest.length >= 2 && memcmp(rest.at, "\r\n", 2) == 0) {
		rest = (struct slice){rest.at + 2, rest.length - 2};
		const char *stop = find(rest, mark, boundary.length);
		if (stop == NULL) {
			return not_well_formed(fault);
		}
		struct slice part = {rest.at, (size_t)(stop - rest.at)};
		if (!read_part(part, arena, out, fault)) {
			return false;
		}
		rest.length -= part.length + boundary.length;
		rest.at = stop + boundary.length;
	}
	return rest.length >= 2 && memcmp(rest.at, "--", 2) == 0 ? true
								 : not_well_formed(fault);
}
