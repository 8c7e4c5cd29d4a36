#include "cli/batch.h"

#include "cli/command.h"
#include "cli/values.h"
#include "desk/files.h"
#include "desk/ranges.h"

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
read_serials(struct context *context, struct enter_request *lists, struct fault *fault)
{
	const char *value = options_value(context->given, "serials");
	if (value == NULL) {
		return true;
	}
	if (options_has(context->given, "serial")) {
		return usage_fault(fault, "becket enter",
		    "--serial is one number and --serials is one each: expected one of them");
	}
	if (value[0] == '@' && value[1] != '\0') {
		return read_lines(context, value + 1, &lists->serials, fault);
	}
	return range_words(
	    &context->desk.arena, "--serials", value, &lists->serials, fault);
}

/* A list only where it looks like one: a tag may have a comma or two dots in it. */
static bool
read_list(struct context *context, const char *name, const char *option,
    struct word_list *out, struct fault *fault)
{
	const char *value = options_value(context->given, name);
	if (value == NULL || value[0] == '\0') {
		return true;
	}
	return range_words(&context->desk.arena, option, value, out, fault);
}

bool
batch_read(struct context *context, struct enter_request *lists, struct fault *fault)
{
	const char *tag = options_value(context->given, "tag");
	if (tag != NULL && tag[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "--tag: a tag can't be blank");
	}
	return read_list(context, "tag", "--tag", &lists->tags, fault) &&
	       read_list(context, "part-of", "--part-of", &lists->wholes, fault) &&
	       read_serials(context, lists, fault) &&
	       value_number(context->given, "count", (struct range){1, RANGE_MOST},
		   &lists->count, NULL, fault);
}
