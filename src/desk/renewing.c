#include "book/putting.h"
#include "desk/inside.h"

/* What says of a renewal that there is another thing now. */
static const unsigned OF_A_NEW_ONE =
    1U << FIELD_MADE | 1U << FIELD_PACKED | 1U << FIELD_SERIAL;

bool
may_be_refitted(
    struct desk *desk, const char *kind, size_t vessel, bool *out, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!desk_kinds(desk, &kinds, fault)) {
		return false;
	}
	const struct kind *known = kinds_find(kinds, kind);
	*out = known != NULL && known->service_ashore;
	if (*out || vessel >= desk->contents.inventory.vessel_count) {
		return true;
	}
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	*out = rulebook_renewals(desk->rulebooks[vessel], kind).refits > 0;
	return true;
}

static bool
ask_which(
    const struct record_request *request, const struct item *item, struct fault *fault)
{
	char on[STAMP_TEXT_SIZE];
	(void)stamp_text(request->record.on, on);
	return fault_set(fault, FAULT_INPUT,
	    "is it the same %s with something new in it, as a battery, or another in its place? "
	    "Its other dates hang on that. The same, whose age, service and tests go on: becket "
	    "record renew %s " FIELD "on %s " FIELD "refit " FIELD
	    "expires DATE; another, of which nothing done to the old one counts: becket record "
	    "renew %s " FIELD "on %s " FIELD "new " FIELD
	    "expires DATE, or with its " FIELD "made, " FIELD "packed or " FIELD "serial",
	    item->tag, item->tag, on, item->tag, on);
}

/* True where it is registered, or a rule that can be read asks for that. */
static bool
is_registered(struct desk *desk, const struct item *item)
{
	struct fault unread = {0};
	size_t count = 0;
	const struct rule *const *rules = NULL;
	if (desk_engine(desk, NULL, &unread)) {
		rules = rulebook_for(desk->rulebooks[item->vessel], item->kind, &count);
	}
	bool registered = false;
	for (size_t i = 0; i < count; i++) {
		registered = registered || rules[i]->task == TASK_REGISTER;
	}
	for (size_t i = 0; i < item->record_count; i++) {
		registered = registered || item->records[i].task == TASK_REGISTER;
	}
	return registered;
}

/* The record of it that is in the book already; NULL for none. */
static const struct record *
find_same(const struct record *renewal, const struct item *item)
{
	for (size_t i = 0; i < item->record_count; i++) {
		if (record_same(&item->records[i], renewal)) {
			return &item->records[i];
		}
	}
	return NULL;
}

/* True where it was registered on the day or later. */
static bool
registered_since(const struct item *item, struct stamp on)
{
	bool since = false;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		since = since || (record->task == TASK_REGISTER &&
				     stamp_first(record->on) >= stamp_first(on));
	}
	return since;
}

/* Remarks on a registration where the renewal is of what is in place and not on record yet. */
static bool
note_registration(struct desk *desk, const struct record *renewal,
    const struct item *item, struct fault *fault)
{
	const struct record *known = find_same(renewal, item);
	bool past = false;
	if (!book_is_past_renewal(desk->book, item->tag, renewal, &past, fault)) {
		return false;
	}
	if (past || (known != NULL && known->refit == renewal->refit) ||
	    !is_registered(desk, item) ||
	    (!renewal->refit && registered_since(item, renewal->on))) {
		return true;
	}
	desk_note(desk,
	    renewal->refit ? "%s: its registration is as it was"
			   : "%s is another one now, and has to be registered anew",
	    item->tag);
	return true;
}

/* True where a renewal of the day is on record, as a refit or of the whole. */
static bool
has_renewal_of(const struct item *item, struct stamp on, bool refit)
{
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (record->task == TASK_RENEW && record->refit == refit &&
		    stamp_same(record->on, on)) {
			return true;
		}
	}
	return false;
}

bool
renewal_check_day(
    const struct record *renewal, const struct item *item, struct fault *fault)
{
	if (!renewal->refit && has_renewal_of(item, renewal->on, true)) {
		return fault_set(fault, FAULT_INPUT,
		    "by the book %s was refitted on that day, and is the same one; where it is "
		    "another, \"becket book undo\" takes the refit back first",
		    item->tag);
	}
	if (renewal->refit && find_same(renewal, item) == NULL &&
	    has_renewal_of(item, renewal->on, false)) {
		return fault_set(fault, FAULT_INPUT,
		    "by the book %s is another one since that day, with another paper or next "
		    "date; where it is the same, record the refit with that paper and next "
		    "date, or \"becket book undo\" takes the renewal back first",
		    item->tag);
	}
	return true;
}

bool
renewal_was_of_the_whole(const struct record *renewal, const struct item *item)
{
	const struct record *known = find_same(renewal, item);
	return known != NULL && renewal->refit && !known->refit;
}

/* Gear of which the request says enough. */
static bool
check_item(struct desk *desk, const struct record_request *request, bool is_new,
    const struct item *item, struct fault *fault)
{
	const struct record *renewal = &request->record;
	bool told = renewal->refit || is_new;
	bool either = false;
	if (!told && !may_be_refitted(desk, item->kind, item->vessel, &either, fault)) {
		return fault_prefix(fault,
		    "whether what is in %s may be renewed alone is for her rules to say, unless "
		    "you say " FIELD "new or " FIELD "refit",
		    item->tag);
	}
	if (either) {
		return ask_which(request, item, fault);
	}
	if (!renewal_check_day(renewal, item, fault) ||
	    !note_registration(desk, renewal, item, fault)) {
		return false;
	}
	if (renewal_was_of_the_whole(renewal, item)) {
		desk_note(desk,
		    "%s was taken for another one on that day, and is the same one again: "
		    "what was done to it before counts; its serial number and its dates are "
		    "not known now, and \"becket amend\" enters them",
		    item->tag);
	}
	return true;
}

bool
renewal_check(struct desk *desk, const struct record_request *request,
    const struct gear_outcome *named, struct fault *fault)
{
	bool refit = request->record.refit;
	bool is_new = request->is_new || (request->renewed.set & OF_A_NEW_ONE) != 0;
	if (request->is_event || request->record.task != TASK_RENEW) {
		return !(refit || request->is_new) ||
		       fault_set(fault, FAULT_INPUT,
			   FIELD "refit and " FIELD "new are said of a renewal alone");
	}
	if (refit && is_new) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "refit says that it is the same thing still; " FIELD
			  "new, " FIELD "made, " FIELD "packed and " FIELD
			  "serial are of another one");
	}
	for (size_t i = 0; i < named->count; i++) {
		const struct item *item =
		    &desk->contents.inventory.items[named->items[i]];
		if (!check_item(desk, request, is_new, item, fault)) {
			return false;
		}
	}
	return true;
}

bool
refit_check_mark(
    const struct item *item, bool told, const char *field, struct fault *fault)
{
	char mark[STAMP_TEXT_SIZE];
	return told || item->expires.precision == STAMP_NONE ||
	       fault_set(fault, FAULT_INPUT,
		   "the mark %s of %s is that of what was in it before; " FIELD
		   "%s gives that of the new",
		   stamp_words(item->expires, mark), item->tag, field);
}

void
renewal_keep_later_mark(struct desk *desk, const struct record *renewal,
    const struct item *item, struct item_change *change)
{
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		bool later =
		    record->refit && stamp_first(record->on) > stamp_first(renewal->on);
		if (later && (change->set & 1U << FIELD_EXPIRES) != 0) {
			change->set &= ~(1U << FIELD_EXPIRES);
			desk_note(desk,
			    "what is in %s was renewed since, and it keeps the mark of that",
			    item->tag);
		}
	}
}

bool
renewal_settle(struct desk *desk, const struct record_request *request,
    const struct item *item, struct item_change *change, struct fault *fault)
{
	const struct record *renewal = &request->record;
	if (record_is_new_thing(renewal)) {
		renewal_keep_later_mark(desk, renewal, item, change);
		return true;
	}
	/* of a refit that is on record the mark in the book is what was given with it */
	const struct record *known = find_same(renewal, item);
	bool marked =
	    (change->set & 1U << FIELD_EXPIRES) != 0 || (known != NULL && known->refit);
	return refit_check_mark(item, marked, "expires", fault);
}
