#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "exchange/paper_file.h"

#include <stdlib.h>
#include <string.h>

/* The item's only record with that certificate; NULL when there is none. */
static bool
by_certificate(const struct item *item, const char *certificate,
    const struct record **out, struct fault *fault)
{
	*out = NULL;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (strcmp(record->certificate, certificate) != 0) {
			continue;
		}
		if (*out != NULL) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "to-record: certificate %s is on records %d and %d of "
				  "%s; give the record's number",
			    certificate, (int)(*out - item->records) + 1, (int)i + 1,
			    item->tag);
		}
		*out = record;
	}
	return true;
}

/* The record with this number in the item's list, from 1; NULL when there is none. */
static const struct record *
by_number(const struct item *item, const char *words)
{
	bool digits = words[0] != '\0' && words[strspn(words, "0123456789")] == '\0';
	unsigned long number = digits ? strtoul(words, NULL, 10) : 0;
	return number >= 1 && number <= item->record_count ? &item->records[number - 1]
							   : NULL;
}

/* The record that was named; NULL when none was. */
static bool
find_record(const struct item *item, const char *named, const struct record **out,
    struct fault *fault)
{
	*out = NULL;
	if (named == NULL) {
		return true;
	}
	if (named[0] != '\0' && !by_certificate(item, named, out, fault)) {
		return false;
	}
	*out = *out == NULL ? by_number(item, named) : *out;
	return *out != NULL ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "to-record: \"%s\" is no certificate on record of %s, and no "
			 "number of one of its %zu records",
		   named, item->tag, item->record_count);
}

struct act {
	const struct attach_request *request;
	struct attach_outcome *out;
	const char **media_types; /* of each paper */
	const char **types;       /* in words */
	const char **names;
	struct gear_outcome gear;
	const struct record **records; /* of each item; NULL for none */
};

/* What each file is; needs no book. */
static bool
read_types(struct desk *desk, struct act *act, struct fault *fault)
{
	size_t room = (act->request->count + 1) * sizeof(const char *);
	act->media_types = arena_alloc(&desk->arena, room);
	act->types = arena_alloc(&desk->arena, room);
	act->names = arena_alloc(&desk->arena, room);
	for (size_t i = 0; i < act->request->count; i++) {
		const struct paper_said *said = &act->request->papers[i];
		const struct paper_type *type = NULL;
		SCOPED_TEXT name = {0};
		paper_file_name(said->path, &name);
		if (!paper_file_type(text_string(&name), said->bytes, &type, fault)) {
			return fault_prefix(fault, "attaching to %s: %s",
			    act->request->tags.items[0], said->path);
		}
		act->names[i] = arena_string(&desk->arena, text_string(&name));
		act->media_types[i] = type->media_type;
		act->types[i] = type->words;
	}
	return true;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct life_planning planning = {0};
	if (!gear_find(desk, &act->request->tags, &act->gear, &planning, fault) ||
	    !read_types(desk, act, fault)) {
		return false;
	}
	act->records = arena_alloc(
	    &desk->arena, (act->gear.count + 1) * sizeof(const struct record *));
	for (size_t i = 0; i < act->gear.count; i++) {
		const struct item *item =
		    &desk->contents.inventory.items[act->gear.items[i]];
		if (!find_record(
			item, act->request->to_record, &act->records[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
attach(struct desk *desk, const struct act *act, size_t item, size_t at,
    struct attached *out, struct fault *fault)
{
	const struct paper_said *said = &act->request->papers[at];
	const struct paper paper = {
	    .tag = act->gear.tags[item],
	    .name = act->names[at],
	    .media_type = act->media_types[at],
	    .note = act->request->note,
	    .added = desk->today,
	};
	struct paper_put put = {0};
	if (!book_put_paper(
		desk->book, &paper, act->records[item], said->bytes, &put, fault)) {
		return fault_prefix(fault, "attaching to %s", paper.tag);
	}
	*out = (struct attached){paper.tag, paper.name, act->types[at],
	    said->bytes->length, put.number, put.known};
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	struct attach_outcome *out = act->out;
	size_t papers = act->request->count;
	out->count = 0;
	out->items = arena_alloc(
	    &desk->arena, (act->gear.count * papers + 1) * sizeof *out->items);
	for (size_t i = 0; i < act->gear.count * papers; i++) {
		if (!attach(desk, act, i / papers, i % papers, &out->items[out->count++],
			fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_attach(struct desk *desk, const struct attach_request *request,
    struct attach_outcome *out, struct fault *fault)
{
	struct act act = {.request = request, .out = out};
	return act_run_about(
	    desk, range_part(desk, &request->tags, NULL), NULL, plan, write, &act, fault);
}

/* ---- out of the book ---- */

struct detaching {
	const char *tag;
	const int64_t *numbers;
	size_t count;
};

static bool
plan_detach(struct desk *desk, void *of, struct fault *fault)
{
	const struct detaching *act = of;
	size_t item = 0;
	return desk_find_tag(desk, act->tag, &item, fault);
}

static bool
write_detach(struct desk *desk, void *of, struct fault *fault)
{
	const struct detaching *act = of;
	for (size_t i = 0; i < act->count; i++) {
		if (!book_remove_paper(desk->book, act->tag, act->numbers[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_detach(struct desk *desk, const char *tag, const int64_t *numbers, size_t count,
    struct fault *fault)
{
	struct detaching act = {tag, numbers, count};
	const struct word_list tags = {.items = &tag, .count = 1};
	return act_run_about(desk, range_part(desk, &tags, NULL), NULL, plan_detach,
	    write_detach, &act, fault);
}
