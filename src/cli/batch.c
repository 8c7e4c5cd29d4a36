#include "cli/batch.h"

#include "cli/command.h"
#include "cli/ranges.h"
#include "cli/serial_check.h"
#include "cli/stores.h"
#include "cli/values.h"
#include "desk/files.h"
#include "exchange/inventory_csv.h"

#include <string.h>

/* What says how many there are. */
struct lists {
	struct word_range tags;
	struct word_range serials;
	struct word_range wholes;
	int count; /* 0 when not told */
};

/* Reads a file's lines, blank ones left out. */
static bool
read_lines(struct context *context, const char *path, struct word_range *out,
    struct fault *fault)
{
	SCOPED_TEXT bytes = {0};
	struct word_range lines = {0};
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
read_serials(struct context *context, struct lists *lists, struct fault *fault)
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
    struct word_range *out, struct fault *fault)
{
	const char *value = options_value(context->given, name);
	if (value == NULL || value[0] == '\0') {
		return true;
	}
	return range_words(&context->desk.arena, option, value, out, fault);
}

static bool
read_lists(struct context *context, struct lists *lists, struct fault *fault)
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

/* How many there are to be: what all that say so agree on. */
static bool
agree(const struct lists *lists, size_t *count_out, struct fault *fault)
{
	const struct {
		const char *name;
		size_t count;
	} said[] = {
	    {"--tag", lists->tags.count},
	    {"--serials", lists->serials.count},
	    {"--count", (size_t)lists->count},
	    {"--part-of", lists->wholes.count > 1 ? lists->wholes.count : 0},
	};

	size_t found = COUNT_OF(said);
	for (size_t i = 0; i < COUNT_OF(said); i++) {
		if (said[i].count == 0) {
			continue;
		}
		if (found == COUNT_OF(said)) {
			found = i;
		} else if (said[i].count != said[found].count) {
			return fault_set(fault, FAULT_INPUT,
			    "%s says %zu, and %s says %zu; expected as many of both",
			    said[found].name, said[found].count, said[i].name,
			    said[i].count);
		}
	}
	*count_out = found == COUNT_OF(said) ? 1 : said[found].count;
	return true;
}

/* Refuses tags that are in the book, or there twice. */
static bool
check_tags(const struct context *context, const struct batch *batch, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < batch->count; i++) {
		const char *tag = batch->items[i].tag;
		for (size_t j = 0; j < inventory->item_count; j++) {
			if (strcmp(inventory->items[j].tag, tag) == 0) {
				return fault_set(fault, FAULT_INPUT,
				    "%s is in the book already; \"becket amend %s\" "
				    "changes it",
				    tag, tag);
			}
		}
		for (size_t j = 0; j < i; j++) {
			if (strcmp(batch->items[j].tag, tag) == 0) {
				return fault_set(
				    fault, FAULT_INPUT, "--tag: %s is there twice", tag);
			}
		}
	}
	return true;
}

/* The book itself refuses a whole that it does not know; one that is entered in the same
 * batch is on the same vessel. */
static bool
check_wholes(
    const struct context *context, const struct batch *batch, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	for (size_t i = 0; i < batch->count; i++) {
		const struct item_change *item = &batch->items[i];
		const char *whole = item->part_of == NULL ? "" : item->part_of;
		for (size_t j = 0; *whole != '\0' && j < inventory->item_count; j++) {
			if (strcmp(inventory->items[j].tag, whole) == 0 &&
			    !whole_check(context, item->tag, item->vessel,
				&inventory->items[j], fault)) {
				return false;
			}
		}
	}
	return true;
}

bool
batch_make(struct context *context, const struct item_change *change, struct batch *out,
    struct fault *fault)
{
	struct lists lists = {0};
	struct batch batch = {0};
	if (!read_lists(context, &lists, fault) || !agree(&lists, &batch.count, fault)) {
		return false;
	}
	batch.items =
	    arena_alloc(&context->desk.arena, batch.count * sizeof *batch.items);
	if (lists.tags.count == 0 &&
	    !tags_fresh(change->kind, &context->desk.contents.inventory, batch.count,
		&context->desk.arena, &lists.tags.items)) {
		return false;
	}
	for (size_t i = 0; i < batch.count; i++) {
		struct item_change *item = &batch.items[i];
		*item = *change;
		item->tag = lists.tags.items[i];
		if (lists.serials.count > 0) {
			item->serial = lists.serials.items[i];
			item->set |= 1U << FIELD_SERIAL;
		}
		if (lists.wholes.count > 1) {
			item->part_of = lists.wholes.items[i];
		}
	}
	*out = batch;
	return check_tags(context, &batch, fault);
}

bool
batch_check_serials(
    struct context *context, const struct batch *batch, struct fault *fault)
{
	struct serial_entry *entries =
	    arena_alloc(&context->desk.arena, batch->count * sizeof *entries);
	for (size_t i = 0; i < batch->count; i++) {
		const struct item_change *item = &batch->items[i];
		entries[i] = (struct serial_entry){
		    .kind = item->kind,
		    .serial = item->serial == NULL ? "" : item->serial,
		    .item = ITEM_NO_PARENT,
		    .fresh = true,
		};
	}
	return serials_check(context, entries, batch->count, fault);
}

/* What comes with one item. */
static bool
write_rest(struct context *context, const char *tag, const struct record *record,
    const struct movement *movement, struct fault *fault)
{
	return (record == NULL ||
		   book_add_record(context->desk.book, tag, record, fault)) &&
	       (movement == NULL ||
		   book_add_movement(context->desk.book, tag, movement, fault));
}

bool
batch_write(struct context *context, const struct batch *batch,
    const struct record *record, const struct movement *movement, struct fault *fault)
{
	/* Between the questions and here another program may have taken the tags. */
	desk_forget(&context->desk);
	if (!desk_book(&context->desk, fault) || !book_begin(context->desk.book, fault) ||
	    !desk_load(&context->desk, NULL, true, fault) ||
	    !check_tags(context, batch, fault) || !check_wholes(context, batch, fault) ||
	    !book_put_items(
		context->desk.book, batch->items, batch->count, NULL, fault)) {
		return false;
	}
	for (size_t i = 0; i < batch->count; i++) {
		if (!write_rest(context, batch->items[i].tag, record, movement, fault)) {
			return false;
		}
	}
	return book_commit(context->desk.book, fault);
}
