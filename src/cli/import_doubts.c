#include "cli/import_doubts.h"

#include "cli/ask.h"
#include "exchange/tag_index.h"
#include "life/names.h"

#include <stdlib.h>
#include <string.h>

enum { REMARKS_MOST = 20 };

/* Adds a remark on a row, or counts it. */
static void
remark(struct context *context, const struct csv_row *row, const char *column,
    const char *words, struct stamp stamp, size_t *count)
{
	char buffer[STAMP_TEXT_SIZE];
	if ((*count)++ < REMARKS_MOST) {
		desk_note(&context->desk, "line %zu, column %s: %s %s", row->line, column,
		    stamp_words(stamp, buffer), words);
	}
}

static void
remark_future(struct context *context, const struct csv_row *row, size_t *count)
{
	const struct item_change *change = &row->change;

	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (field->type != VALUE_STAMP || field->mark ||
		    (change->set & 1U << i) == 0) {
			continue;
		}
		struct stamp stamp = *(const struct stamp *)field_of(field, change);
		if (stamp.precision != STAMP_NONE &&
		    stamp_first(stamp) > context->desk.today) {
			remark(context, row, field->name, "is after today", stamp, count);
		}
	}
	if (row->has_record && stamp_first(row->record.on) > context->desk.today) {
		remark(context, row, "served", "is after today", row->record.on, count);
	}
}

static void
remark_impossible(struct context *context, const struct csv_row *row, size_t *count)
{
	const struct item_change *change = &row->change;
	bool made =
	    (change->set & 1U << FIELD_MADE) != 0 && change->made.precision != STAMP_NONE;
	bool marked = (change->set & 1U << FIELD_EXPIRES) != 0 &&
		      change->expires.precision != STAMP_NONE;
	day_t first = made ? stamp_first(change->made) : DAY_NONE;
	if (made && row->has_record && stamp_last(row->record.on) < first) {
		remark(context, row, "served", "is before it was made", row->record.on,
		    count);
	}
	if (made && marked && stamp_good_through(change->expires) < first) {
		remark(context, row, "expires", "is before it was made", change->expires,
		    count);
	}
}

void
import_remarks(struct context *context, const struct csv_rows *rows)
{
	size_t count = 0;
	for (size_t i = 0; i < rows->count; i++) {
		remark_future(context, &rows->items[i], &count);
		remark_impossible(context, &rows->items[i], &count);
	}
	if (count > REMARKS_MOST) {
		desk_note(
		    &context->desk, "and %zu more days like these", count - REMARKS_MOST);
	}
}

/* A new name and the one of the book that it may be. */
static bool
ask_name(struct context *context, const char *file, const struct csv_row *row,
    const char *what, const char *found, const char *known, struct fault *fault)
{
	SCOPED_TEXT words = {0};
	bool yes = false;
	if (options_has(context->given, "names-are-right")) {
		return true;
	}
	text_add_format(&words,
	    "%s: line %zu: there is no %s \"%s\" in the book, but there is \"%s\"", file,
	    row->line, what, found, known);
	if (!ask_is_possible()) {
		return fault_set(fault, FAULT_INPUT,
		    "%s; --names-are-right enters it as a new one", text_string(&words));
	}
	return ask_yes(text_string(&words), &yes, fault) &&
	       (yes || fault_set(fault, FAULT_INPUT, "nothing is written: %s",
			   text_string(&words)));
}

static bool
check_vessel(struct context *context, const char *file, const struct csv_row *row,
    struct fault *fault)
{
	const char *found = row->change.vessel;
	const char *near = NULL;
	if (found != NULL && (row->change.set & 1U << FIELD_VESSEL) != 0) {
		near = vessel_name_near(&context->desk.contents.inventory, found);
	}
	return near == NULL || ask_name(context, file, row, "vessel", found, near, fault);
}

/* The tags of the book, by their letters whatever their case. */
struct tags {
	const char **items; /* in the context's arena */
	size_t count;
	const struct inventory *inventory;
	struct tag_index index;
	/* how many more tags may be held against one another: every pair would be too many in
	 * a large book, where only capitals are looked at after that */
	size_t comparisons;
};

enum { COMPARISONS_MOST = 50000000 };

static int
compare_letters(const void *a, const void *b)
{
	const char *one = *(const char *const *)a;
	const char *other = *(const char *const *)b;
	while (*one != '\0' && text_lower(*one) == text_lower(*other)) {
		one++;
		other++;
	}
	return text_lower(*one) - text_lower(*other);
}

static void
open_tags(struct context *context, struct tags *tags)
{
	tags->inventory = &context->desk.contents.inventory;
	tags->count = tags->inventory->item_count;
	tags->comparisons = COMPARISONS_MOST;
	tags->items =
	    arena_alloc(&context->desk.arena, (tags->count + 1) * sizeof *tags->items);
	for (size_t i = 0; i < tags->count; i++) {
		tags->items[i] = tags->inventory->items[i].tag;
	}
	qsort(tags->items, tags->count, sizeof *tags->items, compare_letters);
	tag_index_make(tags->inventory, &tags->index);
}

/* A tag of the same kind that is one letter apart; NULL when there is none. */
static const char *
letter_apart(struct tags *tags, const struct item_change *change)
{
	const struct inventory *inventory = tags->inventory;
	if (change->kind == NULL || tags->comparisons < inventory->item_count) {
		return NULL;
	}
	tags->comparisons -= inventory->item_count;
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (name_one_letter_apart(item->tag, change->tag) &&
		    strcmp(item->kind, change->kind) == 0) {
			return item->tag;
		}
	}
	return NULL;
}

/* A lot that was split is not raised again by a list from before that. */
static bool
check_lot(struct context *context, const struct item *lot, const char *file,
    const struct csv_row *row, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	SCOPED_TEXT words = {0};
	bool yes = false;
	bool raised = (row->change.set & 1U << FIELD_QUANTITY) != 0 &&
		      row->change.quantity > lot->quantity;
	const char *piece = NULL;
	for (size_t i = 0; raised && i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool of_it = strcmp(item->split_from, lot->tag) == 0;
		piece = of_it && item->state != PLACE_WITHDRAWN ? item->tag : piece;
	}
	if (piece == NULL || options_has(context->given, "lots-are-right")) {
		return true;
	}
	text_add_format(&words,
	    "%s: line %zu: %s has %d since %s was split from it; the file says %d", file,
	    row->line, lot->tag, lot->quantity, piece, row->change.quantity);
	if (!ask_is_possible()) {
		return fault_set(fault, FAULT_INPUT,
		    "%s; --lots-are-right raises it all the same", text_string(&words));
	}
	return ask_yes(text_string(&words), &yes, fault) &&
	       (yes || fault_set(fault, FAULT_INPUT, "nothing is written: %s",
			   text_string(&words)));
}

static bool
check_tag(struct context *context, struct tags *tags, const char *file,
    const struct csv_row *row, struct fault *fault)
{
	const char *found = row->change.tag;
	if (tags->count == 0) {
		return true;
	}
	size_t at = tag_index_find(&tags->index, found);
	if (at != ITEM_NO_PARENT) {
		return check_lot(context, &tags->inventory->items[at], file, row, fault);
	}
	const char **same = bsearch(
	    &found, tags->items, tags->count, sizeof *tags->items, compare_letters);
	const char *near = same != NULL ? *same : letter_apart(tags, &row->change);
	return near == NULL || ask_name(context, file, row, "tag", found, near, fault);
}

static bool
check_rows(struct context *context, struct tags *tags, const char *name,
    const struct csv_rows *rows, struct fault *fault)
{
	const char *last = NULL;
	for (size_t i = 0; i < rows->count; i++) {
		const struct csv_row *row = &rows->items[i];
		const char *vessel = row->change.vessel;
		bool again = last != NULL && vessel != NULL && strcmp(last, vessel) == 0;
		last = vessel;
		if ((!again && !check_vessel(context, name, row, fault)) ||
		    (!row->further && !row->tag_made &&
			!check_tag(context, tags, name, row, fault))) {
			return false;
		}
	}
	return true;
}

bool
import_names(struct context *context, const char *name, const struct csv_rows *rows,
    struct fault *fault)
{
	struct tags tags = {0};
	if (context->desk.contents.inventory.item_count != 0) {
		open_tags(context, &tags);
	}
	bool right = true;
	right = right && check_rows(context, &tags, name, rows, fault);
	tag_index_clear(&tags.index);
	return right;
}
