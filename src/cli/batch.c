#include "cli/gear_options.h"
#include "desk/files.h"

#include <string.h>

/* Reads a file's lines, blank ones left out. */
static bool
read_lines(
    struct context *context, const char *path, struct word_list *out, struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	struct word_list lines = {0};
	if (!file_read(path, &bytes, fault)) {
		return false;
	}
	char *copy = arena_alloc(&context->desk.arena, bytes.length + 1);
	lines.items = arena_alloc(
	    &context->desk.arena, (bytes.length / 2 + 1) * sizeof *lines.items);
	memcpy(copy, text_string(&bytes), bytes.length);
	if (strlen(copy) != bytes.length || !utf8_valid(copy, bytes.length)) {
		return fault_set(fault, FAULT_INPUT,
		    "--serials: %s is no UTF-8 text; expected a serial a line", path);
	}
	char *rest = NULL;
	for (char *line = strtok_r(copy, "\r\n", &rest); line != NULL;
	     line = strtok_r(NULL, "\r\n", &rest)) {
		line += strspn(line, " \t");
		size_t length = strlen(line);
		while (length > 0 && strchr(" \t", line[length - 1]) != NULL) {
			line[--length] = '\0';
		}
		if (length > 0) {
			lines.items[lines.count++] = line;
		}
	}
	*out = lines;
	return true;
}

static bool
read_serials(struct context *context, const char *value, struct word_list *out,
    struct fault *fault)
{
	if (value == NULL) {
		return true;
	}
	if (value[0] == '@' && value[1] != '\0') {
		return read_lines(context, value + 1, out, fault);
	}
	return range_words(&context->desk.arena, "--serials", value, out, fault);
}

/* A list only where it looks like one: a tag may have a comma or two dots in it. */
static bool
read_list(struct context *context, const char *option, const char *value,
    struct word_list *out, struct fault *fault)
{
	return value == NULL || value[0] == '\0' ||
	       range_words(&context->desk.arena, option, value, out, fault);
}

bool
batch_read(struct context *context, const struct batch_said *said,
    struct enter_request *request, struct fault *fault)
{
	if (said->tag != NULL && said->tag[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "--tag: a tag can't be blank");
	}
	request->count = said->count;
	return read_list(context, "--tag", said->tag, &request->tags, fault) &&
	       read_list(context, "--part-of", request->like.part_of, &request->wholes,
		   fault) &&
	       read_serials(context, said->serials, &request->serials, fault);
}
