#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"

#include <string.h>

struct act {
	const struct record_request *request;
	struct gear_outcome *out;
};

static bool
write_entry(struct desk *desk, const struct record_request *request,
    const struct item *item, struct fault *fault)
{
	const char *tag = item->tag;
	if (request->is_event) {
		return book_add_event(desk->book, tag, &request->event, fault);
	}
	struct item_change renewed = request->renewed;
	bool past = false;
	renewed.tag = tag;
	if (!book_is_past_renewal(desk->book, tag, &request->record, &past, fault)) {
		return false;
	}
	if (request->record.task == TASK_RENEW && !past &&
	    !renewal_settle(desk, request, item, &renewed, fault)) {
		return false;
	}
	if (!book_add_record(desk->book, tag, &request->record, fault)) {
		return false;
	}
	if (past && renewal_was_of_the_whole(&request->record, item)) {
		desk_note(desk, "what is in %s was renewed since, and %s", tag,
		    renewed.set == 0
			? "it keeps the mark of that"
			: "it keeps the mark of that, not the one given here");
		return true;
	}
	if (past) {
		desk_note(desk,
		    "what is in place as %s now is newer, so this is kept as history and "
		    "changes none of its dates%s",
		    tag, renewed.set == 0 ? "" : "; those given here were not kept");
		return true;
	}
	return renewed.set == 0 || book_put_items(desk->book, &renewed, 1, NULL, fault);
}

/* The new thing's number is asked about; one number can't be that of several things. */
static bool
check_serial(struct desk *desk, const struct record_request *request, const size_t *items,
    size_t count, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	if (request->is_event || !record_is_new_thing(&request->record)) {
		return true;
	}
	if (request->renewed.serial == NULL) {
		for (size_t i = 0; i < count; i++) {
			const struct item *item = &inventory->items[items[i]];
			if (item->serial[0] != '\0') {
				desk_note(desk,
				    "serial %s of %s went with the old one; \"becket amend\" "
				    "with " FIELD "serial enters the new one's",
				    item->serial, item->tag);
			}
		}
		return true;
	}
	if (count != 1) {
		return fault_set(fault, FAULT_USAGE,
		    FIELD "serial is the number of one thing, and %zu are named", count);
	}
	const struct serial_entry number = {
	    .kind = inventory->items[items[0]].kind,
	    .serial = request->renewed.serial,
	    .item = ITEM_NO_PARENT,
	    .fresh = true,
	};
	return serials_check(desk, &number, 1, request->said, fault);
}

/* Work on a thing that was not there yet: one of the two dates is wrong. */
static void
note_before_made(struct desk *desk, const struct record_request *request, size_t index)
{
	const struct item *item = &desk->contents.inventory.items[index];
	day_t on = request->is_event ? request->event.on : stamp_last(request->record.on);
	char made[STAMP_TEXT_SIZE];
	if (item->made.precision != STAMP_NONE && on < stamp_first(item->made)) {
		desk_note(desk, "%s was made %s, after the day recorded", item->tag,
		    stamp_words(item->made, made));
	}
}

/* The same work of the same day is one record; with another paper or next date it is a second. */
static void
note_told_again(struct desk *desk, const struct record *told, size_t index)
{
	const struct item *item = &desk->contents.inventory.items[index];
	const struct record *other = NULL;
	char on[STAMP_TEXT_SIZE];
	bool same = false;
	for (size_t i = 0; i < item->record_count && !same; i++) {
		const struct record *record = &item->records[i];
		if (record->task == told->task && stamp_same(record->on, told->on)) {
			other = record;
			same = strcmp(record->certificate, told->certificate) == 0 &&
			       stamp_same(record->next, told->next);
		}
	}
	if (other == NULL) {
		return;
	}
	desk_note(desk,
	    same
		? "%s: %s on %s stood in the book already, and counts once"
		: "%s: %s on %s stands in the book with another paper or next date, and now "
		  "a second time; if it was one, \"becket book undo\" takes this back",
	    item->tag, task_word(told->task), stamp_words(told->on, on));
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	const struct record_request *request = act->request;
	struct life_planning planning;
	struct stamp on =
	    request->is_event ? stamp_of_day(request->event.on) : request->record.on;
	if (!desk_check_done(desk, "on", on, fault)) {
		return false;
	}
	if (!gear_find(desk, &request->tags, act->out, &planning, fault)) {
		return false;
	}
	if (!renewal_check(desk, request, act->out, fault)) {
		return false;
	}
	for (size_t i = 0; i < act->out->count; i++) {
		note_before_made(desk, request, act->out->items[i]);
		if (!request->is_event) {
			note_told_again(desk, &request->record, act->out->items[i]);
		}
	}
	return check_serial(desk, request, act->out->items, act->out->count, fault);
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	for (size_t i = 0; i < act->out->count; i++) {
		const struct item *item =
		    &desk->contents.inventory.items[act->out->items[i]];
		if (!write_entry(desk, act->request, item, fault)) {
			return fault_prefix(fault, "recording %s", act->out->tags[i]);
		}
	}
	return true;
}

bool
desk_record(struct desk *desk, const struct record_request *request,
    struct gear_outcome *out, struct fault *fault)
{
	struct act act = {request, out};
	const char *serial = request->renewed.serial;
	const struct newcomers newcomers = {.with = request->tags,
	    .serials = {.items = &serial, .count = serial != NULL ? 1 : 0}};
	return act_run_about(
	    desk, newcomers_part(desk, &newcomers), NULL, plan, write, &act, fault);
}
