/* The acts on one piece: what is asked, and what the desk does with it. */
#include "page/pieces.h"
#include "page/shell.h"

#include <string.h>

/* The task of the form that is a renewal of what is in the piece. */
#define REFIT "refit"

static const struct item *
item_of(const struct piece_form *form)
{
	return &form->visit->desk.contents.inventory.items[form->item];
}

/* Reads a day that was typed. */
static bool
read_day(const struct piece_form *form, day_t *out, struct fault *fault)
{
	return day_typed(form_typed(form, "on", "today"), form->visit->desk.today, out,
		   fault) ||
	       fault_prefix(fault, FIELD "on");
}

static bool
read_record(const struct piece_form *form, struct desk *desk, struct record *record,
    struct fault *fault)
{
	static const int NAMES[] = {
	    RECORD_SERVED, RECORD_NEXT, RECORD_STATION, RECORD_CERTIFICATE, RECORD_PAID};
	static const char *const TYPED[] = {"on", "next", "by", "certificate", "price"};
	for (size_t i = 0; i < sizeof NAMES / sizeof NAMES[0]; i++) {
		const struct field *field = &RECORD_FIELDS[NAMES[i]];
		const char *typed = form_typed(form, TYPED[i], "");
		field_empty(field, record);
		if (typed[0] != '\0' &&
		    !form_read_field(desk, field, TYPED[i], typed, record, fault)) {
			return false;
		}
	}
	return record->on.precision != STAMP_NONE ||
	       fault_set(fault, FAULT_INPUT, FIELD "on: the day it was done is missing");
}

/* What is known of the new thing, where one took the old one's place. */
static bool
read_renewed(const struct piece_form *form, struct desk *desk, struct item_change *change,
    struct fault *fault)
{
	static const enum item_field FIELDS[] = {FIELD_SERIAL, FIELD_MADE, FIELD_EXPIRES};

	static const char *const TYPED[] = {"new-serial", "new-made", "new-expires"};
	*change = blank_change();
	for (size_t i = 0; i < sizeof FIELDS / sizeof FIELDS[0]; i++) {
		const char *typed = form_typed(form, TYPED[i], "");
		if (typed[0] == '\0') {
			continue;
		}
		if (!form_read_field(
			desk, &ITEM_FIELDS[FIELDS[i]], TYPED[i], typed, change, fault)) {
			return false;
		}
		change->set |= 1U << FIELDS[i];
	}
	return true;
}

static bool
run_done(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	const char *task = form_typed(form, "task", "service");
	bool refit = strcmp(task, REFIT) == 0;
	const char *tag = form->tag;
	struct fault none = {0};
	struct gear_outcome done = {0};
	struct record_request request = {.tags = {&tag, 1, 1}};
	form_concerns_it(form);
	request.is_event = event_parse(task, &request.event.kind, &none);
	if (request.is_event) {
		return read_day(form, &request.event.on, fault) &&
		       desk_record(desk, &request, &done, fault);
	}
	if (!read_record(form, desk, &request.record, fault) ||
	    !task_parse(refit ? "renew" : task, &request.record.task, fault) ||
	    !read_renewed(form, desk, &request.renewed, fault)) {
		return false;
	}
	request.record.refit = refit;
	request.is_new = request.record.task == TASK_RENEW && !refit;
	if (request.renewed.set != 0 && request.record.task != TASK_RENEW) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "task: the new one's number and dates go with a renewal");
	}
	return desk_record(desk, &request, &done, fault);
}

/* The choice of what was done or happened: tasks, then events. A renewal is of the whole, or of
 * what is in it. */
static void
choose_task(struct piece_form *form)
{
	static const char *const VALUES[] = {"service", "inspect", "weigh", "test",
	    "renew", REFIT, "register", "fired", "inflated", "activated", "used", NULL};
	static const char *const WORDS[] = {"serviced", "looked over", "weighed",
	    "tested", "renewed: a new one in its place",
	    "refitted: the same one with a new battery, cells or the like", "registered",
	    "it was fired", "it was inflated", "it was activated", "it was used", NULL};
	form_choice(form, "task", "What was done, or happened", VALUES, WORDS);
}

static void
fields_done(struct piece_form *form)
{
	choose_task(form);
	form_field(form, "on", "Day", "today");
	form_field(form, "by", "By whom", "");
	form_field(form, "certificate", "Number of its paper", "");
	form_field(form, "next", "Next date on its paper", "");
	form_field(form, "price", "What it cost", "");
	form_field(form, "new-serial", "Renewed: the new one's serial number", "");
	form_field(form, "new-made", "Renewed: the new one was made", "");
	form_field(form, "new-expires",
	    "Renewed: the mark on the new one, or on what is new in it", "");
}

const struct piece_act PIECE_DONE = {
    "/done/", "Something was done", "it was done", run_done, fields_done};

/* The fields that can be corrected, in the order of the form. */
static const enum item_field MENDED[] = {FIELD_DESCRIPTION, FIELD_MAKE, FIELD_SERIAL,
    FIELD_PLACE, FIELD_QUANTITY, FIELD_MADE, FIELD_PACKED, FIELD_BOUGHT, FIELD_FITTED,
    FIELD_EXPIRES, FIELD_CAPACITY, FIELD_RATING, FIELD_PRICE, FIELD_NOTES};

enum { MENDED_COUNT = sizeof MENDED / sizeof MENDED[0] };

/* The value of a field of the piece as it is in the book now. */
static void
add_now(const struct piece_form *form, const struct field *field, struct text *out)
{
	const struct inventory *inventory = &form->visit->desk.contents.inventory;
	const struct item_change values = item_as_change(inventory, form->item);
	add_typed_value(field, &values, inventory->currency, out);
}

/* The name under which the form sends the value that a field had when it was first
 * seen. */
static const char *
add_was(const struct field *field, struct text *out)
{
	text_reset(out);
	text_add_format(out, "was.%s", field->name);
	return text_string(out);
}

static bool
run_mend(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	const char *tag = form->tag;
	struct amend_request request = {.tags = {&tag, 1, 1}, .change = blank_change()};
	struct gear_outcome done = {0};
	SCOPED_TEXT was = {0};
	form_concerns_it(form);
	for (size_t i = 0; i < MENDED_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[MENDED[i]];
		const char *typed = form_typed(form, field->name, "");
		if (strcmp(typed, form_typed(form, add_was(field, &was), "")) == 0) {
			continue; /* this person did not change it */
		}
		if (!form_read_field(
			desk, field, field->name, typed, &request.change, fault)) {
			return false;
		}
		request.change.set |= 1U << MENDED[i];
	}
	return request.change.set == 0 || desk_amend(desk, &request, &done, fault);
}

/* When this person and another both changed a field, it keeps what was typed and says
 * what is in the book; when only another did, it shows what is in the book. */
static void
fields_mend(struct piece_form *form)
{
	SCOPED_TEXT now = {0};
	SCOPED_TEXT was = {0};
	SCOPED_TEXT label = {0};
	for (size_t i = 0; i < MENDED_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[MENDED[i]];
		text_reset(&now);
		text_reset(&label);
		add_now(form, field, &now);
		const char *seen =
		    form_typed(form, add_was(field, &was), text_string(&now));
		const char *typed = form_typed(form, field->name, text_string(&now));
		bool mine = strcmp(typed, seen) != 0;
		bool theirs = strcmp(seen, text_string(&now)) != 0;
		text_add_capital(
		    &label, field->label == NULL ? field->name : field->label);
		SHELL_FIELD(form->visit, .name = field->name,
		    .label = text_string(&label),
		    .value = mine ? typed : text_string(&now),
		    .wrong = strcmp(form->wrong, field->name) == 0 ? form->why : NULL);
		if (mine && theirs) {
			SCOPED_TEXT both = {0};
			text_add_format(&both,
			    "%s: another wrote %s meanwhile; you typed %s, and saving "
			    "writes yours. To keep theirs, type it here.",
			    text_string(&label),
			    now.length == 0 ? "nothing" : text_string(&now),
			    typed[0] == '\0' ? "nothing" : typed);
			markup_element(
			    form->visit->markup, "p", "both", text_string(&both));
		}
		shell_hidden(form->visit, add_was(field, &was), text_string(&now));
	}
}

const struct piece_act PIECE_MEND = {
    "/mend/", "Mend what is written", "mend it so", run_mend, fields_mend};

static bool
run_move(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	const char *tag = form->tag;
	const char *place = form_typed(form, "place", "");
	struct move_outcome done = {0};
	struct move_request request = {.tags = {&tag, 1, 1},
	    .vessel = form_typed(form, "to", ""),
	    .place = place[0] == '\0' ? NULL : place,
	    .note = form_typed(form, "note", "")};
	const char *number = form_typed(form, "quantity", "");
	form_concerns_it(form);
	if (request.vessel[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, FIELD "to: say where it goes");
	}
	if (number[0] != '\0') {
		struct item_change some = blank_change();
		if (!form_read_field(desk, &ITEM_FIELDS[FIELD_QUANTITY], "quantity",
			number, &some, fault)) {
			return false;
		}
		request.quantity = some.quantity;
	}
	if (!read_day(form, &request.on, fault) ||
	    !desk_move(desk, &request, &done, fault)) {
		return false;
	}
	if (done.piece != NULL) {
		form_concerns(form, done.piece);
	}
	return true;
}

/* The boats and the spares of bases, by their names in the book. */
static void
fields_move(struct piece_form *form)
{
	const struct inventory *inventory = &form->visit->desk.contents.inventory;
	const char **names = arena_alloc(
	    &form->visit->arena, (inventory->vessel_count + 1) * sizeof *names);
	size_t count = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (i != item_of(form)->vessel) {
			names[count++] = inventory->vessels[i].name;
		}
	}
	form_choice(form, "to", "To which boat, or spares", names, names);
	if (item_of(form)->quantity > 1) {
		form_field(form, "quantity", "How many of them; all if left out", "");
	}
	form_field(form, "place", "Where it is kept there", "");
	form_field(form, "on", "Day", "today");
	form_field(form, "note", "Note", "");
}

const struct piece_act PIECE_MOVE = {
    "/move/", "Move it", "move it", run_move, fields_move};

static bool
run_withdraw(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	const char *tag = form->tag;
	const char *certificate = form_typed(form, "certificate", "");
	struct gear_outcome done = {0};
	struct withdraw_request request = {.tags = {&tag, 1, 1},
	    .certificate = certificate[0] == '\0' ? NULL : certificate,
	    .note = form_typed(form, "note", ""),
	    .price_minor = -1};
	form_concerns_it(form);
	return because_parse(
		   form_typed(form, "because", "condemned"), &request.because, fault) &&
	       read_day(form, &request.on, fault) &&
	       desk_withdraw(desk, &request, &done, fault);
}

static void
fields_withdraw(struct piece_form *form)
{
	static const char *const VALUES[] = {
	    "condemned", "lost", "used", "expired", "sold", "given-back", NULL};
	static const char *const WORDS[] = {"condemned", "lost", "used", "expired",
	    "sold", "given back, a hired one", NULL};
	form_choice(form, "because", "Because", VALUES, WORDS);
	form_field(form, "on", "Day", "today");
	form_field(form, "certificate", "Number of the paper", "");
	form_field(form, "note", "Note", "");
}

const struct piece_act PIECE_WITHDRAW = {
    "/gone/", "Gone for good", "gone for good", run_withdraw, fields_withdraw};

/* Set aside, or counted again: the one that would be a change is offered first. */
static bool
run_reserve(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	const char *tag = form->tag;
	bool extra = item_of(form)->state == PLACE_RESERVE;
	struct gear_outcome done = {0};
	struct reserve_request request = {
	    .tags = {&tag, 1, 1}, .note = form_typed(form, "note", "")};
	request.aboard =
	    strcmp(form_typed(form, "as", extra ? "counted" : "extra"), "counted") == 0;
	form_concerns_it(form);
	return read_day(form, &request.on, fault) &&
	       desk_reserve(desk, &request, &done, fault);
}

static void
fields_reserve(struct piece_form *form)
{
	bool extra = item_of(form)->state == PLACE_RESERVE;
	const char *const values[] = {
	    extra ? "counted" : "extra", extra ? "extra" : "counted", NULL};
	const char *const words[] = {extra ? "counted again" : "an extra, never counted",
	    extra ? "an extra, never counted" : "counted again", NULL};
	form_choice(form, "as", "From that day on it is", values, words);
	form_field(form, "on", "Day", "today");
	form_field(form, "note", "Note", "");
}

const struct piece_act PIECE_SET_ASIDE = {
    "/extra/", "An extra, or counted", "so it is", run_reserve, fields_reserve};

/* Puts it on the list to buy, with the person's words; takes it off when there are
 * none. */
static bool
run_buy(struct piece_form *form, struct desk *desk, struct fault *fault)
{
	const char *tag = form->tag;
	const struct field *field = &ITEM_FIELDS[FIELD_TO_BUY];
	struct amend_request request = {.tags = {&tag, 1, 1}, .change = blank_change()};
	struct gear_outcome done = {0};
	form_concerns_it(form);
	request.change.set = 1U << FIELD_TO_BUY;
	return form_read_field(desk, field, "to_buy", form_typed(form, "to_buy", ""),
		   &request.change, fault) &&
	       desk_amend(desk, &request, &done, fault);
}

static void
fields_buy(struct piece_form *form)
{
	const char *now = item_of(form)->to_buy;
	form_field(form, "to_buy", "What to buy; left empty, it is taken off the list",
	    now[0] == '\0' ? "one" : now);
}

const struct piece_act PIECE_BUY = {
    "/buy/", "The list to buy", "so it is", run_buy, fields_buy};
