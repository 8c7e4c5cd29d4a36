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
	    .with_left = context->with_left,
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

/* Gives each vessel the base, lay-up and sheets she has today. */
static bool
see_today(struct context *context, struct fault *fault)
{
	struct inventory *inventory = &context->contents.inventory;
	size_t size = inventory->vessel_count * sizeof *inventory->vessels;
	struct vessel *vessels = arena_alloc(&context->contents.arena, size + 1);
	if (vessels == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		vessels[i] = inventory->vessels[i];
		vessel_set_day(&vessels[i], context->today);
	}
	inventory->vessels = vessels;
	return true;
}

/* True for gear of a vessel that has left, unless it is at a station. */
static bool
is_gone(const struct context *context, const struct item *item)
{
	const struct vessel *vessel = &context->contents.inventory.vessels[item->vessel];
	return !vessel_is_here(vessel, context->today) && item->state != PLACE_LANDED;
}

/* Drops the gear that went with vessels. */
static bool
drop_left(struct context *context, struct fault *fault)
{
	struct inventory *inventory = &context->contents.inventory;
	struct arena *arena = &context->contents.arena;
	size_t count = inventory->item_count;
	size_t kept = 0;
	bool any = false;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		any = any || !vessel_is_here(&inventory->vessels[i], context->today);
	}
	if (!any) {
		return true;
	}
	struct item *items = arena_alloc(arena, (count + 1) * sizeof *items);
	size_t *places = arena_alloc(arena, (count + 1) * sizeof *places);
	if (items == NULL || places == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		bool gone = is_gone(context, &inventory->items[i]);
		places[i] = gone ? ITEM_NO_PARENT : kept;
		if (!gone) {
			items[kept++] = inventory->items[i];
		}
	}
	for (size_t i = 0; i < kept; i++) {
		if (items[i].parent != ITEM_NO_PARENT) {
			items[i].parent = places[items[i].parent];
		}
	}
	inventory->items = items;
	inventory->item_count = kept;
	return true;
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
	if (!see_today(context, fault) ||
	    (!with_withdrawn && !context->with_left && !drop_left(context, fault))) {
		return false;
	}
	context->style.currency = context->contents.inventory.currency;
	return true;
}

static bool
same_words(const char *const *a, size_t a_count, const char *const *b, size_t b_count)
{
	if (a_count != b_count) {
		return false;
	}
	for (size_t i = 0; i < a_count; i++) {
		if (strcmp(a[i], b[i]) != 0) {
			return false;
		}
	}
	return true;
}

/* True when two vessels follow the same sheets in the same order, now and at all times. */
static bool
same_sheets(const struct vessel *a, const struct vessel *b)
{
	bool change = vessel_changes(a, SAYS_SHEETS) || vessel_changes(b, SAYS_SHEETS);
	return !change &&
	       same_words(a->sheets, a->sheet_count, b->sheets, b->sheet_count);
}

/* Finds the sheets of these names, and checks that they can be followed together. */
static bool
find_sheets(struct context *context, const char *const *names, size_t count,
    const struct sheet **out, struct rulebook **rulebook_out, struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		if (!shelf_sheet(
			&context->shelf, names[i], &context->notes, &out[i], fault)) {
			return false;
		}
	}
	return rulebook_new(out, count, rulebook_out, fault);
}

/* Adds the sheets of a period to those there are, each once. */
static void
add_sheets(const struct sheet *const *sheets, size_t count, const struct sheet **all,
    size_t *all_count)
{
	for (size_t i = 0; i < count; i++) {
		bool there = false;
		for (size_t j = 0; j < *all_count; j++) {
			there = there || all[j] == sheets[i];
		}
		if (!there) {
			all[(*all_count)++] = sheets[i];
		}
	}
}

/* The rulebook of a vessel whose sheets change: of all she follows at some time. */
static bool
rulebook_over_time(struct context *context, const struct vessel *vessel,
    struct rulebook **out, struct fault *fault)
{
	size_t most = 0;
	size_t count = 0;
	for (size_t i = 0; i < vessel->period_count; i++) {
		most += vessel->periods[i].sheet_count;
	}
	const struct sheet **all =
	    arena_alloc(&context->arena, (2 * most + 1) * sizeof(const struct sheet *));
	if (all == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < vessel->period_count; i++) {
		const struct period *period = &vessel->periods[i];
		struct rulebook *together = NULL;
		if (!find_sheets(context, period->sheets, period->sheet_count, all + most,
			&together, fault)) {
			return false;
		}
		rulebook_free(together);
		add_sheets(all + most, period->sheet_count, all, &count);
	}
	return rulebook_of_times(all, count, out, fault);
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
	bool made = vessel_changes(vessel, SAYS_SHEETS)
			? rulebook_over_time(context, vessel, out, fault)
			: find_sheets(context, vessel->sheets, vessel->sheet_count,
			      sheets, out, fault);
	return made || fault_prefix(fault, "vessel %s", vessel->name);
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
context_engine(struct context *context, const char *vessel, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (context->rulebooks != NULL) {
		return true;
	}
	if (!context_load(context, vessel, true, fault) ||
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
