#include "book/putting.h"
#include "desk/giving_out.h"
#include "desk/inside.h"
#include "desk/reminding.h"

#include <string.h>

bool
desk_read_calendar(struct desk *desk, const struct text *bytes, struct calendar_read *out,
    struct fault *fault)
{
	struct ics_found *found = NULL;
	struct read_back_sides sides = {
	    .reminders = &out->reminders, .today = desk->today};
	*out = (struct calendar_read){0};
	if (!ics_read(text_string(bytes), bytes->length, &desk->arena, &found,
		&sides.found_count, fault)) {
		return false;
	}
	sides.found = found;
	if (!reminding_seen_both(desk, &out->reminders, fault) ||
	    !book_load_reminders(
		desk->book, &desk->arena, &sides.known, &sides.known_count, fault) ||
	    !book_load_given(
		desk->book, &desk->arena, &sides.given, &sides.given_count, fault)) {
		return false;
	}
	read_back(&sides, &desk->arena, &out->back);
	return true;
}

/* A tick does not say what is printed on the new thing. */
static bool
check_renewal(const struct proposal *proposal, struct fault *fault)
{
	char day[DAY_ISO_SIZE];
	if (proposal->kind != PROPOSAL_DONE || proposal->todo.task != TASK_RENEW) {
		return true;
	}
	return fault_set(fault, FAULT_INPUT,
	    "%s was renewed: whether it is another one, or the same refitted, and what is "
	    "printed on the new, is wanted, so it can't be taken by itself; enter it: becket "
	    "record renew %s " FIELD "on %s " FIELD "expires DATE, with " FIELD
	    "refit where only what is in it is new",
	    proposal->todo.tag, proposal->todo.tag, day_iso(proposal->day, day));
}

struct act {
	const struct text *bytes;
	const struct read_back *seen;
	const bool *taken;
	struct read_back back; /* as it is now */
};

static bool
is_same(const struct proposal *a, const struct proposal *b)
{
	return a->kind == b->kind && a->day == b->day && a->both == b->both &&
	       a->reminder->day == b->reminder->day &&
	       strcmp(a->reminder->key, b->reminder->key) == 0;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct calendar_read read = {0};
	if (!desk_read_calendar(desk, act->bytes, &read, fault)) {
		return false;
	}
	act->back = read.back;
	bool same = read.back.count == act->seen->count;
	for (size_t i = 0; i < read.back.count && same; i++) {
		same = is_same(&read.back.proposals[i], &act->seen->proposals[i]);
	}
	if (!same) {
		return fault_set(fault, FAULT_INPUT,
		    "the book was changed since this file was looked through, and what it "
		    "proposes is another now; nothing is taken, so look again");
	}
	for (size_t i = 0; i < act->back.count; i++) {
		if (act->taken[i] && !check_renewal(&act->back.proposals[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
take_one(struct desk *desk, const struct proposal *proposal, struct fault *fault)
{
	if (proposal->kind == PROPOSAL_MOVED) {
		const struct planned_day planned = {.key = proposal->reminder->key,
		    .day = proposal->day,
		    .summary = proposal->reminder->summary};
		const struct choices_change change = {
		    .planned = &planned, .planned_count = 1};
		return book_put_choices(desk->book, &change, fault) &&
		       reminding_keep_hand_in(desk, proposal->reminder->key, fault);
	}
	const struct record record = {.task = proposal->todo.task,
	    .on = stamp_of_day(proposal->day),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	return book_add_record(desk->book, proposal->todo.tag, &record, fault);
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	for (size_t i = 0; i < act->back.count; i++) {
		if (act->taken[i] && !take_one(desk, &act->back.proposals[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
desk_take_calendar(struct desk *desk, const struct text *bytes,
    const struct read_back *seen, const bool *taken, struct fault *fault)
{
	struct act act = {.bytes = bytes, .seen = seen, .taken = taken};
	desk->left_gear = LEFT_ASHORE;
	return act_run(desk, NULL, plan, write, &act, fault);
}
