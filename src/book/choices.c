/* What a person chose about reminders. */
#include "book/call.h"
#include "book/reminders.h"

/* Reads the choice, and whether there are notices and planned days. */
static bool
load_choice(struct book *book, struct reminder_choices *choices, bool *notices_out,
    bool *planned_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, CHOICE_GET, &call, fault) || !call_row(&call, &row, fault)) {
		return false;
	}
	if (!row) {
		return fault_set(fault, FAULT_BOOK, "the choices' row is missing");
	}
	choices->weekday = (int)take_int(&call);
	choices->routines = take_int(&call) != 0;
	choices->singles = take_int(&call) != 0;
	*notices_out = take_int(&call) != 0;
	*planned_out = take_int(&call) != 0;
	return true;
}

static void
take_notice(struct call *call, struct arena *arena, void *out)
{
	struct notice *notice = out;
	notice->kind = take_text(call, arena);
	notice->days = (int)take_int(call);
}

static bool
load_notices(struct book *book, struct arena *arena, struct reminder_choices *choices,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_NOTICES, &call, fault) &&
	       call_rows(&call, arena, take_notice, sizeof *choices->notices,
		   &choices->notices, &choices->notice_count, fault);
}

static void
take_planned(struct call *call, struct arena *arena, void *out)
{
	struct planned_day *planned = out;
	planned->key = take_text(call, arena);
	planned->day = take_day(call);
	planned->summary = take_text(call, arena);
	planned->confirmed = take_int(call) != 0;
	const char *given_up = take_text(call, arena);
	planned->given_up = given_up[0] == '\0' ? NULL : given_up;
}

static bool
load_planned(struct book *book, struct arena *arena, struct reminder_choices *choices,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	return call_open(book, LOAD_PLANNED, &call, fault) &&
	       call_rows(&call, arena, take_planned, sizeof *choices->planned,
		   &choices->planned, &choices->planned_count, fault);
}

bool
book_load_choices(struct book *book, struct arena *arena, struct reminder_choices *out,
    struct fault *fault)
{
	struct reminder_choices choices = {0};
	bool notices = false;
	bool planned = false;
	if (!load_choice(book, &choices, &notices, &planned, fault) ||
	    (notices && !load_notices(book, arena, &choices, fault)) ||
	    (planned && !load_planned(book, arena, &choices, fault))) {
		return fault_prefix(fault, "reading what was chosen about reminders");
	}
	*out = choices;
	return true;
}

static bool
put_choice(struct book *book, const struct choices_change *change, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (change->set_weekday && (change->weekday < 0 || change->weekday > 6)) {
		return fault_set(
		    fault, FAULT_INPUT, "%d is no day of the week", change->weekday);
	}
	if (!call_open(book, CHOICE_PUT, &call, fault)) {
		return false;
	}
	change->set_weekday ? give_int(&call, change->weekday) : give_null(&call);
	change->set_routines ? give_int(&call, change->routines) : give_null(&call);
	change->set_singles ? give_int(&call, change->singles) : give_null(&call);
	return call_run(&call, fault);
}

static bool
put_notice(struct book *book, const struct notice *notice, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool drop = notice->days < 0;
	if (!name_check("the kind", notice->kind, fault) ||
	    !call_open(book, drop ? NOTICE_DROP : NOTICE_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, notice->kind);
	if (!drop) {
		give_int(&call, notice->days);
	}
	return call_run(&call, fault);
}

static bool
put_planned(struct book *book, const struct planned_day *planned, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool drop = planned->day == DAY_NONE;
	if (!call_open(book, drop ? PLANNED_DROP : PLANNED_PUT, &call, fault)) {
		return false;
	}
	give_text(&call, planned->key);
	if (!drop) {
		give_day(&call, planned->day);
		give_text(&call, planned->summary);
		give_int(&call, planned->confirmed);
		give_text(&call, planned->given_up == NULL ? "" : planned->given_up);
	}
	return call_run(&call, fault);
}

static bool
put_all(struct book *book, const struct choices_change *change, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	if (!writing_begin(book, &writing, fault) || !put_choice(book, change, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->notice_count; i++) {
		if (!put_notice(book, &change->notices[i], fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < change->planned_count; i++) {
		if (!put_planned(book, &change->planned[i], fault)) {
			return false;
		}
	}
	return writing_keep(&writing, fault);
}

bool
book_put_choices(
    struct book *book, const struct choices_change *change, struct fault *fault)
{
	return put_all(book, change, fault) ||
	       fault_prefix(fault, "keeping what was chosen about reminders");
}
