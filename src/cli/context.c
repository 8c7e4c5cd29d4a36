#include "cli/context.h"

#include "cli/command.h"
#include "cli/files.h"
#include "cli/signing.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* The machine's day, where the person is. */
static day_t
day_of_machine(void)
{
	time_t now = time(NULL);
	struct tm here = {0};
	if (localtime_r(&now, &here) == NULL) {
		return (day_t)(now / 86400);
	}
	return day_from_civil(here.tm_year + 1900, here.tm_mon + 1, here.tm_mday);
}

void
context_read_clock(struct context *context)
{
	if (!context->today_given) {
		context->today = day_of_machine();
		context->now = (int64_t)time(NULL);
		context->style.today = context->today;
	}
}

void
context_again(const struct context *context, struct context *out)
{
	*out = (struct context){.command = context->command,
	    .words = context->words,
	    .given = context->given,
	    .book_path = context->book_path,
	    .book_named = context->book_named,
	    .today = context->today,
	    .today_given = context->today_given,
	    .now = context->now,
	    .style = context->style,
	    .shelf = {.folder = context->shelf.folder}};
	context_read_clock(out);
}

void
context_note(struct context *context, const char *format, ...)
{
	char line[1024];
	va_list args;
	va_start(args, format);
	(void)vsnprintf(line, sizeof line, format, args);
	va_end(args);
	text_add_format(&context->notes, "%s\n", line);
}

void
context_note_future(struct context *context, const char *option, struct stamp stamp)
{
	char words[STAMP_TEXT_SIZE];
	char today[DAY_WORDS_SIZE];
	if (stamp.precision != STAMP_NONE && stamp_first(stamp) > context->today) {
		context_note(context, "--%s %s is after today, %s", option,
		    stamp_words(stamp, words), day_words(context->today, today));
	}
}

bool
context_has_book(const struct context *context)
{
	return access(context->book_path, F_OK) == 0;
}

bool
context_open(struct context *context, enum book_mode mode, struct fault *fault)
{
	if (context->book != NULL) {
		return true;
	}
	bool there = context_has_book(context);
	if (!there && mode != BOOK_CREATE) {
		return fault_set(fault, FAULT_BOOK,
		    "there is no book at %s; \"becket vessel NAME\" or \"becket import "
		    "FILE\" begins one, --book FILE names another",
		    context->book_path);
	}
	if (!there && !context->book_named && !folders_make(context->book_path, fault)) {
		return false;
	}
	return book_open(context->book_path, mode, &context->book, fault) &&
	       (mode == BOOK_READ || context_sign(context, fault));
}

bool
context_book(struct context *context, struct fault *fault)
{
	switch (context->command->needs) {
	case NEEDS_NOTHING:
	case NEEDS_READ:
		return context_open(context, BOOK_READ, fault);
	case NEEDS_WRITE:
		return context_open(context, BOOK_WRITE, fault);
	case NEEDS_CREATE:
		return context_open(context, BOOK_CREATE, fault);
	}
	return fault_set(fault, FAULT_BOOK, "unknown way to open a book");
}

bool
context_currency(struct context *context, const char **out, struct fault *fault)
{
	if (context->book == NULL && !context_has_book(context)) {
		*out = BOOK_NEW_CURRENCY;
		return true;
	}
	if (!context_book(context, fault)) {
		return false;
	}
	*out = book_currency(context->book);
	return true;
}

bool
context_kinds(struct context *context, const struct kinds **out, struct fault *fault)
{
	return shelf_kinds(&context->shelf, out, fault);
}

bool
context_load(
    struct context *context, const char *vessel, bool with_withdrawn, struct fault *fault)
{
	if (context->loaded) {
		return true;
	}
	if (!context_book(context, fault) ||
	    !book_load(
		context->book, vessel, with_withdrawn, &context->contents, fault)) {
		return false;
	}
	context->loaded = true;
	context->style.currency = context->contents.inventory.currency;
	return true;
}

/* True when two vessels follow the same sheets in the same order. */
static bool
same_sheets(const struct vessel *a, const struct vessel *b)
{
	if (a->sheet_count != b->sheet_count) {
		return false;
	}
	for (size_t i = 0; i < a->sheet_count; i++) {
		if (strcmp(a->sheets[i], b->sheets[i]) != 0) {
			return false;
		}
	}
	return true;
}

bool
context_rulebook(struct context *context, const struct vessel *vessel,
    struct rulebook **out, struct fault *fault)
{
	const struct sheet **sheets = arena_alloc(
	    &context->arena, (vessel->sheet_count + 1) * sizeof(const struct sheet *));
	if (sheets == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < vessel->sheet_count; i++) {
		if (!shelf_sheet(&context->shelf, vessel->sheets[i], &context->notes,
			&sheets[i], fault)) {
			return fault_prefix(fault, "vessel %s", vessel->name);
		}
	}
	return rulebook_new(sheets, vessel->sheet_count, out, fault);
}

/* True when the rulebook at `index` was made for an earlier vessel. */
static struct rulebook *
shared_rulebook(const struct context *context, size_t index)
{
	const struct vessel *vessels = context->contents.inventory.vessels;
	size_t back = 0;
	for (size_t i = index; i > 0 && back < 32; i--, back++) {
		if (same_sheets(&vessels[i - 1], &vessels[index])) {
			return context->rulebooks[i - 1];
		}
	}
	return NULL;
}

static bool
make_rulebooks(struct context *context, struct fault *fault)
{
	size_t count = context->contents.inventory.vessel_count;
	context->rulebooks =
	    arena_alloc(&context->arena, (count + 1) * sizeof(struct rulebook *));
	if (context->rulebooks == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		struct rulebook *shared = shared_rulebook(context, i);
		if (shared != NULL) {
			context->rulebooks[i] = shared;
		} else if (!context_rulebook(context,
			       &context->contents.inventory.vessels[i],
			       &context->rulebooks[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
context_engine(
    struct context *context, const char *vessel, bool with_withdrawn, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (context->rulebooks != NULL) {
		return true;
	}
	if (!context_load(context, vessel, with_withdrawn, fault) ||
	    !context_kinds(context, &kinds, fault) || !make_rulebooks(context, fault)) {
		return false;
	}
	context->engine = (struct due_engine){
	    .kinds = kinds,
	    .rulebooks = (const struct rulebook *const *)context->rulebooks,
	    .inventory = &context->contents.inventory,
	};
	return due_index_parts(&context->contents.inventory, &context->arena,
	    &context->engine.first_part, &context->engine.next_part, fault);
}

bool
context_find_tag(
    struct context *context, const char *tag, size_t *item_out, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (strcmp(inventory->items[i].tag, tag) == 0) {
			*item_out = i;
			return true;
		}
	}
	const char **tags =
	    arena_alloc(&context->arena, (inventory->item_count + 1) * sizeof *tags);
	if (tags == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < inventory->item_count; i++) {
		tags[i] = inventory->items[i].tag;
	}
	const char *nearest = nearest_word(tag, tags, inventory->item_count);
	if (nearest != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "there is no item with the tag \"%s\"; did you mean %s?", tag,
		    nearest);
	}
	return fault_set(fault, FAULT_INPUT,
	    "there is no item with the tag \"%s\"; \"becket list\" shows them all", tag);
}

bool
context_find_vessel(
    struct context *context, const char *name, size_t *vessel_out, struct fault *fault)
{
	const struct inventory *inventory = &context->contents.inventory;
	const char **names =
	    arena_alloc(&context->arena, (inventory->vessel_count + 1) * sizeof *names);
	if (names == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		names[i] = inventory->vessels[i].name;
		if (strcmp(names[i], name) == 0) {
			*vessel_out = i;
			return true;
		}
	}
	const char *nearest = nearest_word(name, names, inventory->vessel_count);
	return nearest == NULL
		   ? fault_set(fault, FAULT_INPUT,
			 "there is no vessel \"%.80s\"; \"becket vessel\" lists them",
			 name)
		   : fault_set(fault, FAULT_INPUT,
			 "there is no vessel \"%.80s\"; did you mean %s?", name, nearest);
}

bool
context_is_empty(struct context *context)
{
	if (context->contents.inventory.vessel_count > 0) {
		return false;
	}
	if (!context->json) {
		text_add(&context->out,
		    "There is no vessel in the book yet.\n"
		    "Begin with:  becket vessel NAME --lay-up 11-01..03-31\n"
		    "then:        becket enter KIND --vessel NAME --made DATE ...\n"
		    "or read a list you have:  becket import FILE.csv\n");
	}
	return true;
}

/* Frees each rulebook once: shared ones stand several times in the array. */
static void
free_rulebooks(struct context *context)
{
	if (context->rulebooks == NULL) {
		return;
	}
	for (size_t i = 0; i < context->contents.inventory.vessel_count; i++) {
		if (shared_rulebook(context, i) == NULL) {
			rulebook_free(context->rulebooks[i]);
		}
	}
}

void
context_forget(struct context *context)
{
	free_rulebooks(context);
	context->rulebooks = NULL;
	if (context->loaded) {
		book_contents_clear(&context->contents);
	}
	context->loaded = false;
}

void
context_clear(struct context *context)
{
	context_forget(context);
	book_close(context->book);
	shelf_clear(&context->shelf);
	text_clear(&context->out);
	text_clear(&context->notes);
	arena_clear(&context->arena);
	*context = (struct context){0};
}
