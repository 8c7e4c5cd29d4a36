#include "desk/inside.h"
#include "exchange/tag_index.h"
#include "report/tags.h"

#include <string.h>

enum { TAGS_MOST = 20 };

/* Renewals of a list being looked at. */
struct renewals_looking {
	struct desk *desk;
	const struct import_request *request;
	const struct csv_rows *rows;
	struct tag_index index;
	struct text
	    tags; /* of gear of which the list does not say whether it was refitted */
	struct tag_list list;
	size_t count;
};

/* True for a renewal that the book has; `item` is NULL for what it does not have. */
static bool
is_known(const struct record *renewal, const struct item *item)
{
	bool known = false;
	for (size_t i = 0; item != NULL && i < item->record_count; i++) {
		known = known || record_same(&item->records[i], renewal);
	}
	for (size_t i = 0; item != NULL && i < item->past_record_count; i++) {
		known = known || record_same(&item->past_records[i], renewal);
	}
	return known;
}

/* The index of the vessel of this name; the count of them for a new one. */
static size_t
find_vessel(const struct inventory *inventory, const char *name)
{
	size_t at = 0;
	while (at < inventory->vessel_count &&
	       strcmp(inventory->vessels[at].name, name) != 0) {
		at++;
	}
	return at;
}

/* Remembers a renewal that the list brings, where it should say which it was. Where her rules can't
 * be read that is not known, and the list is no worse for it. */
static void
look_whether_told(
    struct renewals_looking *looking, const struct csv_row *row, const struct item *known)
{
	struct desk *desk = looking->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	const char *tag = row->change.tag;
	const char *kind = known != NULL ? known->kind : row->change.kind;
	size_t vessel =
	    known != NULL ? known->vessel : find_vessel(inventory, row->change.vessel);
	struct fault unread = {0};
	bool either = false;
	if (may_be_refitted(desk, kind, vessel, &either, &unread) && either &&
	    looking->count++ < TAGS_MOST) {
		tag_list_add(&looking->list, arena_string(&desk->arena, tag));
	}
}

/* Remarks on a mark that the list brings with a renewal of before a refit that the book has. */
static void
look_at_mark(
    struct renewals_looking *looking, const struct csv_row *row, const struct item *item)
{
	const struct item_change *change = &row->change;
	if ((change->set & 1U << FIELD_EXPIRES) == 0) {
		return;
	}
	const struct record *last =
	    item->record_count == 0 ? NULL : &item->records[item->record_count - 1];
	while (last != NULL && !last->refit) {
		last = last == item->records ? NULL : last - 1;
	}
	if (last != NULL && stamp_first(last->on) > stamp_first(row->record.on) &&
	    !stamp_same(item->expires, change->expires)) {
		char on[STAMP_TEXT_SIZE];
		desk_note(looking->desk,
		    "line %zu: %s has the mark of the list now, given with a renewal before "
		    "its refit of %s; \"becket amend\" with " FIELD
		    "expires enters what is marked on it",
		    row->line, item->tag, stamp_words(last->on, on));
	}
}

static bool
look_at_row(struct csv_row *row, void *context, struct fault *fault)
{
	struct renewals_looking *looking = context;
	char on[STAMP_TEXT_SIZE];
	char today[DAY_WORDS_SIZE];
	if (!row->has_record || row->record.task != TASK_RENEW) {
		return true;
	}
	if (stamp_first(row->record.on) > looking->desk->today) {
		return fault_set(fault, FAULT_INPUT,
		    "%s: line %zu, %s: %s is after today, %s; a renewal moves dates, and is "
		    "told once it is done",
		    looking->request->name, row->line, looking->rows->served_cell,
		    stamp_words(row->record.on, on),
		    day_words(looking->desk->today, today));
	}
	size_t at = tag_index_find(&looking->index, row->change.tag);
	const struct item *known =
	    at == ITEM_NO_PARENT ? NULL : &looking->desk->contents.inventory.items[at];
	if (known != NULL) {
		look_at_mark(looking, row, known);
	}
	if (is_known(&row->record, known)) {
		return true;
	}
	if (known != NULL && !renewal_check_day(&row->record, known, fault)) {
		return fault_prefix(
		    fault, "%s: line %zu", looking->request->name, row->line);
	}
	if (!looking->rows->tells_refits) {
		look_whether_told(looking, row, known);
	}
	return true;
}

static void
note_untold(struct renewals_looking *looking)
{
	tag_list_end(&looking->list);
	if (looking->count > TAGS_MOST) {
		text_add_format(
		    &looking->tags, " and %zu more", looking->count - TAGS_MOST);
	}
	if (looking->count > 0) {
		desk_note(looking->desk,
		    "the list has no column refit, so what was renewed is taken for another "
		    "one in its place, of which nothing done to the old one counts: %s; "
		    "\"yes\" in such a column says that it is the same one with something "
		    "new in it, as a battery",
		    text_string(&looking->tags));
	}
}

bool
import_renewals(struct desk *desk, const struct import_request *request,
    const struct csv_rows *rows, struct fault *fault)
{
	struct renewals_looking looking = {
	    .desk = desk, .request = request, .rows = rows};
	if (!rows->renewing) {
		return true;
	}
	looking.list.out = &looking.tags;
	tag_index_make(&desk->contents.inventory, &looking.index);
	bool done = csv_rows_each(rows, look_at_row, &looking, fault);
	if (done) {
		note_untold(&looking);
	}
	tag_index_clear(&looking.index);
	text_clear(&looking.tags);
	return done;
}
