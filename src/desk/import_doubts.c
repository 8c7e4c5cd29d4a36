#include "desk/inside.h"
#include "exchange/tag_index.h"
#include "life/names.h"

#include <stdlib.h>
#include <string.h>

enum { REMARKS_MOST = 20 };

/* Adds a remark on a row, or counts it. */
static void
remark(struct desk *desk, const struct csv_row *row, const char *column,
    const char *words, struct stamp stamp, size_t *count)
{
	char buffer[STAMP_TEXT_SIZE];
	if ((*count)++ < REMARKS_MOST) {
		desk_note(desk, "line %zu, column %s: %s %s", row->line, column,
		    stamp_words(stamp, buffer), words);
	}
}

/* The fields, as bits, with a day that has been. */
static unsigned
days_gone_by(void)
{
	unsigned days = 0;
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		days |= field->type == VALUE_STAMP && !field->mark ? 1U << i : 0;
	}
	return days;
}

static void
remark_future(
    struct desk *desk, const struct csv_row *row, unsigned gone_by, size_t *count)
{
	const struct item_change *change = &row->change;

	for (unsigned left = change->set & gone_by; left != 0; left &= left - 1) {
		const struct field *field = &ITEM_FIELDS[__builtin_ctz(left)];
		struct stamp stamp = *(const struct stamp *)field_of(field, change);
		if (stamp.precision != STAMP_NONE && stamp_first(stamp) > desk->today) {
			remark(desk, row, field->name, "is after today", stamp, count);
		}
	}
	if (row->has_record && stamp_first(row->record.on) > desk->today) {
		remark(desk, row, "served", "is after today", row->record.on, count);
	}
}

static void
remark_impossible(struct desk *desk, const struct csv_row *row, size_t *count)
{
	const struct item_change *change = &row->change;
	bool made =
	    (change->set & 1U << FIELD_MADE) != 0 && change->made.precision != STAMP_NONE;
	bool marked = (change->set & 1U << FIELD_EXPIRES) != 0 &&
		      change->expires.precision != STAMP_NONE;
	day_t first = made ? stamp_first(change->made) : DAY_NONE;
	if (made && row->has_record && stamp_last(row->record.on) < first) {
		remark(
		    desk, row, "served", "is before it was made", row->record.on, count);
	}
	if (made && marked && stamp_good_through(change->expires) < first) {
		remark(desk, row, "expires", "is before it was made", change->expires,
		    count);
	}
}

/* The days remarked on. */
struct remarking {
	struct desk *desk;
	unsigned gone_by;
	size_t count;
};

static bool
remark_row(struct csv_row *row, void *context, struct fault *fault)
{
	struct remarking *remarking = context;
	(void)fault;
	remark_future(remarking->desk, row, remarking->gone_by, &remarking->count);
	remark_impossible(remarking->desk, row, &remarking->count);
	return true;
}

bool
import_remarks(struct desk *desk, const struct csv_rows *rows, struct fault *fault)
{
	struct remarking remarking = {.desk = desk, .gone_by = days_gone_by()};
	if (rows->count == 0) {
		desk_note(desk, "the list has no row of gear under its column names");
	}
	if (!csv_rows_each(rows, remark_row, &remarking, fault)) {
		return false;
	}
	if (remarking.count > REMARKS_MOST) {
		desk_note(
		    desk, "and %zu more days like these", remarking.count - REMARKS_MOST);
	}
	return true;
}

/* Asks whether a doubt is right; `hint` names the field that says so beforehand. */
static bool
ask(struct desk *desk, const char *words, const char *hint, struct fault *fault)
{
	SCOPED_TEXT unasked = {0};
	SCOPED_TEXT no = {0};
	text_add_format(&unasked, "%s; %s", words, hint);
	text_add_format(&no, "nothing is written: %s", words);
	return desk_ask(desk, words, text_string(&unasked), text_string(&no), fault);
}

/* A new name and the one of the book that it may be. */
static bool
ask_name(struct desk *desk, const struct import_request *request,
    const struct csv_row *row, const char *what, const char *found, const char *known,
    struct fault *fault)
{
	SCOPED_TEXT words = {0};
	if (request->names_right) {
		return true;
	}
	text_add_format(&words,
	    "%s: line %zu: there is no %s \"%s\" in the book, but there is \"%s\"",
	    request->name, row->line, what, found, known);
	return ask(desk, text_string(&words),
	    FIELD "names-are-right enters it as a new one", fault);
}

static bool
check_vessel(struct desk *desk, const struct import_request *request,
    const struct csv_row *row, struct fault *fault)
{
	const char *found = row->change.vessel;
	const char *near = NULL;
	if (found != NULL && (row->change.set & 1U << FIELD_VESSEL) != 0) {
		near = vessel_name_near(&desk->contents.inventory, found);
	}
	return near == NULL || ask_name(desk, request, row, "vessel", found, near, fault);
}

/* The tags of the book, by their letters whatever their case. */
struct tags {
	const char **items; /* in the desk's arena */
	size_t count;
	const struct inventory *inventory;
	struct tag_index index;
	/* how many more tags may be compared with one another: every pair would be too
	 * many in a large book, where only capitals are looked at after that */
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
open_tags(struct desk *desk, struct tags *tags)
{
	tags->inventory = &desk->contents.inventory;
	tags->count = tags->inventory->item_count;
	tags->comparisons = COMPARISONS_MOST;
	tags->items = arena_alloc(&desk->arena, (tags->count + 1) * sizeof *tags->items);
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
check_lot(struct desk *desk, const struct item *lot, const struct import_request *request,
    const struct csv_row *row, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	SCOPED_TEXT words = {0};
	bool raised = (row->change.set & 1U << FIELD_QUANTITY) != 0 &&
		      row->change.quantity > lot->quantity;
	const char *piece = NULL;
	for (size_t i = 0; raised && i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		bool of_it = strcmp(item->split_from, lot->tag) == 0;
		piece = of_it && item->state != PLACE_WITHDRAWN ? item->tag : piece;
	}
	if (piece == NULL || request->lots_right) {
		return true;
	}
	text_add_format(&words,
	    "%s: line %zu: %s has %d since %s was split from it; the file says %d",
	    request->name, row->line, lot->tag, lot->quantity, piece,
	    row->change.quantity);
	return ask(desk, text_string(&words),
	    FIELD "lots-are-right raises it all the same", fault);
}

static bool
check_tag(struct desk *desk, struct tags *tags, const struct import_request *request,
    const struct csv_row *row, struct fault *fault)
{
	const char *found = row->change.tag;
	if (tags->count == 0) {
		return true;
	}
	size_t at = tag_index_find(&tags->index, found);
	if (at != ITEM_NO_PARENT) {
		return check_lot(desk, &tags->inventory->items[at], request, row, fault);
	}
	const char **same = bsearch(
	    &found, tags->items, tags->count, sizeof *tags->items, compare_letters);
	const char *near = same != NULL ? *same : letter_apart(tags, &row->change);
	return near == NULL || ask_name(desk, request, row, "tag", found, near, fault);
}

/* The rows' names being checked. */
struct naming_rows {
	struct desk *desk;
	const struct import_request *request;
	struct tags tags;
	struct text last; /* the vessel of the row before */
};

static bool
check_row(struct csv_row *row, void *context, struct fault *fault)
{
	struct naming_rows *naming = context;
	const char *vessel = row->change.vessel;
	if (strcmp(text_string(&naming->last), vessel) != 0) {
		text_reset(&naming->last);
		text_add(&naming->last, vessel);
		if (!check_vessel(naming->desk, naming->request, row, fault)) {
			return false;
		}
	}
	return row->further || row->tag_made ||
	       check_tag(naming->desk, &naming->tags, naming->request, row, fault);
}

bool
import_names(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault)
{
	struct naming_rows naming = {.desk = desk, .request = request};
	if (desk->contents.inventory.vessel_count == 0) {
		return true; /* nothing that a name could be meant for */
	}
	if (desk->contents.inventory.item_count > 0) {
		open_tags(desk, &naming.tags);
	}
	bool right = csv_rows_each(rows, check_row, &naming, fault);
	tag_index_clear(&naming.tags.index);
	text_clear(&naming.last);
	return right;
}
