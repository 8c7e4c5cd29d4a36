/* Writing vessels. */
#include "book/putting.h"
#include "book/rows.h"

/* From which day the timed values hold. */
static day_t
since(const struct vessel_change *change)
{
	return (change->set & SET_FROM) != 0 ? change->from : DAY_NONE;
}

/* True when base, lay-up and sheets are told from a day on, and so belong to the period
 * of that day; what holds from the beginning belongs to the vessel. */
static bool
is_later(const struct vessel_change *change)
{
	return since(change) != DAY_NONE;
}

static bool
has(const struct vessel_change *change, enum vessel_field field)
{
	return (change->set & 1U << field) != 0;
}

/* Gives her own values that are set, or those that are timed. */
static void
give_values(struct call *call, const struct vessel_change *change, bool timed)
{
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		const struct field *field = &VESSEL_FIELDS[i];
		if (!field->part && field->timed == timed) {
			bool told = has(change, (enum vessel_field)i);
			give_field(call, field, told ? change : NULL);
		}
	}
}

/* Gives whether she is laid up, and the days, as far as they are set. */
static void
give_lay_up(struct call *call, const struct vessel_change *change, bool set)
{
	const struct yearly *lay_up = &change->lay_up;
	bool window = set && change->laid_up;
	set ? give_int(call, change->laid_up) : give_null(call);
	window ? give_int(call, stored_month_day(lay_up->first_month, lay_up->first_day))
	       : give_null(call);
	window ? give_int(call, stored_month_day(lay_up->last_month, lay_up->last_day))
	       : give_null(call);
}

static bool
put_period(struct book *book, int64_t id, const struct vessel_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool later = is_later(change);
	if (!call_open(book, PERIOD_PUT, &call, fault)) {
		return false;
	}
	give_int(&call, id);
	give_day(&call, since(change));
	give_values(&call, change, true);
	give_text(&call, later && has(change, VESSEL_BASE) ? change->base : NULL);
	give_lay_up(&call, change, later && has(change, VESSEL_LAY_UP));
	return call_run(&call, fault);
}

/* A new vessel: in private use, following common practice, laid up as the schema says. */
static bool
add_vessel(struct book *book, const char *name, int64_t *id_out, struct fault *fault)
{
	const struct vessel_change first = {
	    .set = 1U << VESSEL_USE | 1U << VESSEL_AREA | 1U << VESSEL_PERSONS,
	    .use = USE_PRIVATE,
	    .area = ""};
	const char *const sheets[] = {"practice"};
	return name_check_new("the vessel's name", name, NAME_LONGEST, fault) &&
	       add_named(book, VESSEL_ADD, NUMBERED_VESSEL, name, id_out, fault) &&
	       put_period(book, *id_out, &first, fault) &&
	       put_words(book, SHEET_ADD, *id_out, sheets, 1, fault);
}

bool
vessel_need(struct book *book, const char *name, int64_t *id_out, struct fault *fault)
{
	int64_t id = 0;
	if (!name_check("the vessel's name", name, fault) ||
	    !call_id(book, VESSEL_FIND, name, &id, fault) ||
	    (id == 0 && !add_vessel(book, name, &id, fault))) {
		return false;
	}
	*id_out = id;
	return true;
}

static bool
put_own(struct book *book, int64_t id, const struct vessel_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool later = is_later(change);
	if (!call_open(book, VESSEL_CHANGE, &call, fault)) {
		return false;
	}
	give_text(&call, !later && has(change, VESSEL_BASE) ? change->base : NULL);
	give_lay_up(&call, change, !later && has(change, VESSEL_LAY_UP));
	bool left = has(change, VESSEL_LEFT);
	left ? give_day(&call, change->left) : give_null(&call);
	left ? give_code(&call, &BECAUSE_CODES, change->left_because) : give_null(&call);
	has(change, VESSEL_GOES) ? give_int(&call, change->goes) : give_null(&call);
	give_values(&call, change, false);
	give_int(&call, id);
	return call_run(&call, fault);
}

/* Puts the sheets she follows from a day on in place of those named for that day before. */
static bool
put_later_sheets(struct book *book, int64_t id, const struct vessel_change *change,
    struct fault *fault)
{
	SCOPED_CALL drop = {0};
	SCOPED_CALL add = {0};
	if (!call_open(book, PERIOD_SHEETS_DROP, &drop, fault)) {
		return false;
	}
	give_int(&drop, id);
	give_day(&drop, since(change));
	if (!call_run(&drop, fault) || !call_open(book, PERIOD_SHEET_ADD, &add, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->sheet_count; i++) {
		give_int(&add, id);
		give_day(&add, since(change));
		give_int(&add, (int64_t)i);
		give_text(&add, change->sheets[i]);
		if (!name_check("a name in a list", change->sheets[i], fault) ||
		    !call_run(&add, fault)) {
			return false;
		}
	}
	return true;
}

static bool
put_sheets(struct book *book, int64_t id, const struct vessel_change *change,
    struct fault *fault)
{
	if (!has(change, VESSEL_SHEETS)) {
		return true;
	}
	if (is_later(change)) {
		return put_later_sheets(book, id, change, fault);
	}
	return drop_of(book, SHEETS_DROP, id, fault) &&
	       put_words(book, SHEET_ADD, id, change->sheets, change->sheet_count, fault);
}

static bool
put_odd_winters(struct book *book, int64_t id, const struct vessel_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!has(change, VESSEL_WINTERS)) {
		return true;
	}
	if (!call_open(book, WINTER_PUT, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->odd_winter_count; i++) {
		const struct odd_winter *winter = &change->odd_winters[i];
		if (winter->span.last < winter->span.first) {
			return fault_set(fault, FAULT_INPUT,
			    "winter %d ends before it starts", winter->year);
		}
		give_int(&call, id);
		give_int(&call, winter->year);
		give_day(&call, winter->span.first);
		give_day(&call, winter->span.last);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

/* Puts the days on which nobody goes in place of those before. */
static bool
put_away(struct book *book, int64_t id, const struct vessel_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!has(change, VESSEL_AWAY)) {
		return true;
	}
	if (!drop_of(book, AWAY_DROP, id, fault) ||
	    !call_open(book, AWAY_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->away_count; i++) {
		give_int(&call, id);
		give_int(&call, (int64_t)i);
		give_day(&call, change->away[i].first);
		give_day(&call, change->away[i].last);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

static bool
check_vessel(const struct vessel_change *change, struct fault *fault)
{
	if (has(change, VESSEL_LAY_UP) && change->laid_up &&
	    (change->lay_up.first_month == 0 || change->lay_up.last_month == 0)) {
		return fault_set(
		    fault, FAULT_INPUT, "the lay-up has no days; expected MM-DD..MM-DD");
	}
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		if (has(change, (enum vessel_field)i) && !VESSEL_FIELDS[i].part &&
		    !field_check(&VESSEL_FIELDS[i], change, fault)) {
			return false;
		}
	}
	return true;
}

static bool
write_vessel(struct book *book, const struct vessel_change *change, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	int64_t id = 0;
	if (!check_vessel(change, fault) || !writing_begin(book, &writing, fault) ||
	    !vessel_need(book, change->name, &id, fault) ||
	    !put_own(book, id, change, fault) ||
	    !put_odd_winters(book, id, change, fault) ||
	    !put_away(book, id, change, fault)) {
		return false;
	}
	const unsigned parts = SAYS_BASE | SAYS_LAY_UP | SAYS_SHEETS;
	bool period = (change->set & SAYS_ANYTHING & ~parts) != 0;
	bool later = is_later(change) && (change->set & parts) != 0;
	if (((period || later) && !put_period(book, id, change, fault)) ||
	    !put_sheets(book, id, change, fault)) {
		return false;
	}
	return writing_keep(&writing, fault);
}

bool
book_put_vessel(
    struct book *book, const struct vessel_change *change, struct fault *fault)
{
	return write_vessel(book, change, fault) ||
	       fault_prefix(fault, "writing vessel \"%.80s\"",
		   change->name == NULL ? "" : change->name);
}
