/* Writing stations. */
#include "book/putting.h"
#include "book/rows.h"

static bool
has(const struct station_change *change, enum station_field field)
{
	return (change->set & 1U << field) != 0;
}

static bool
put_shut(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!drop_of(book, SHUT_DROP, id, fault) ||
	    !call_open(book, SHUT_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->shut_count; i++) {
		struct span shut = change->shut[i];
		if (shut.last < shut.first) {
			return fault_set(
			    fault, FAULT_INPUT, "a closed period ends before it starts");
		}
		give_int(&call, id);
		give_int(&call, (int64_t)i);
		give_day(&call, shut.first);
		give_day(&call, shut.last);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

static bool
put_closures(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!drop_of(book, CLOSURES_DROP, id, fault) ||
	    !call_open(book, CLOSURE_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->closed_count; i++) {
		const struct yearly *closed = &change->closed[i];
		if (closed->first_month == 0 || closed->last_month == 0) {
			return fault_set(fault, FAULT_INPUT,
			    "a closed period has no days; expected MM-DD..MM-DD");
		}
		give_int(&call, id);
		give_int(&call, (int64_t)i);
		give_int(&call, stored_month_day(closed->first_month, closed->first_day));
		give_int(&call, stored_month_day(closed->last_month, closed->last_day));
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return put_shut(book, id, change, fault);
}

static bool
put_paces(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!drop_of(book, PACES_DROP, id, fault) ||
	    !call_open(book, PACE_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->pace_count; i++) {
		const struct station_pace *pace = &change->paces[i];
		if (pace->first_month < 1 || pace->first_month > 12 ||
		    pace->last_month < 1 || pace->last_month > 12) {
			return fault_set(fault, FAULT_INPUT,
			    "a turn-round is for months %d to %d; expected 1 to 12",
			    pace->first_month, pace->last_month);
		}
		give_int(&call, id);
		give_int(&call, (int64_t)i);
		give_int(&call, pace->first_month);
		give_int(&call, pace->last_month);
		give_int(&call, pace->turn_round_days);
		if (pace->turn_round_days < 0) {
			return fault_set(fault, FAULT_INPUT,
			    "turn-round is %d; expected 0 or more",
			    pace->turn_round_days);
		}
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

static bool
drop_makes(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, MAKES_DROP, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->make_kind_count; i++) {
		give_int(&call, id);
		give_text(&call, change->make_kinds[i]);
		if (!call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

static bool
put_makes(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!drop_makes(book, id, change, fault) ||
	    !call_open(book, MAKE_ADD, &call, fault)) {
		return false;
	}
	for (size_t i = 0; i < change->make_count; i++) {
		give_int(&call, id);
		give_text(&call, change->makes[i].kind);
		give_text(&call, change->makes[i].make);
		if (!name_check("the make", change->makes[i].make, fault) ||
		    !name_check("the kind", change->makes[i].kind, fault) ||
		    !call_run(&call, fault)) {
			return false;
		}
	}
	return true;
}

/* Runs one of the statements on a price; each takes what it names of it. */
static bool
run_price(struct book *book, enum statement statement, int64_t id,
    const struct station_price *price, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool step = statement == STEP_PUT || statement == STEP_DROP;
	bool put = statement == STEP_PUT || statement == PRICE_PUT;
	if (!name_check("the kind", price->kind, fault) ||
	    !call_open(book, statement, &call, fault)) {
		return false;
	}
	give_int(&call, id);
	give_text(&call, price->kind);
	give_text(&call, price->every_task ? "" : TASK_CODES.words[price->task]);
	if (step) {
		give_int(&call, price->from_years);
	}
	if (put) {
		give_int(&call, price->minor);
	}
	return call_run(&call, fault);
}

/* Puts a price, or forgets it where it is below 0: one from new with all its steps. */
static bool
put_price(
    struct book *book, int64_t id, const struct station_price *price, struct fault *fault)
{
	bool drop = price->minor < 0;
	bool step = price->from_years != 0;
	enum statement put = step ? STEP_PUT : PRICE_PUT;
	if (price->from_years < 0 || price->from_years > STATION_AGE_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "a price is from an age of %d years; expected 0 to %d",
		    price->from_years, STATION_AGE_MOST);
	}
	if (!drop) {
		return run_price(book, put, id, price, fault);
	}
	return step ? run_price(book, STEP_DROP, id, price, fault)
		    : run_price(book, PRICE_DROP, id, price, fault) &&
			  run_price(book, STEPS_DROP_OF, id, price, fault);
}

static bool
put_prices(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	if (change->no_prices && (!drop_of(book, PRICES_DROP, id, fault) ||
				     !drop_of(book, STEPS_DROP, id, fault))) {
		return false;
	}
	for (size_t i = 0; i < change->price_count; i++) {
		if (!put_price(book, id, &change->prices[i], fault)) {
			return false;
		}
	}
	return true;
}

static bool
put_fields(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, STATION_CHANGE, &call, fault)) {
		return false;
	}
	has(change, STATION_OPEN) ? give_int(&call, change->weekdays) : give_null(&call);
	for (size_t i = 0; i < STATION_FIELD_COUNT; i++) {
		bool told = has(change, (enum station_field)i);
		if (!STATION_FIELDS[i].part) {
			give_field(&call, &STATION_FIELDS[i], told ? change : NULL);
		}
	}
	give_int(&call, id);
	return call_run(&call, fault);
}

static bool
check_station(const struct station_change *change, struct fault *fault)
{
	for (size_t i = 0; i < STATION_FIELD_COUNT; i++) {
		if (has(change, (enum station_field)i) && !STATION_FIELDS[i].part &&
		    !field_check(&STATION_FIELDS[i], change, fault)) {
			return false;
		}
	}
	if (has(change, STATION_OPEN) &&
	    (change->weekdays == 0 || change->weekdays > WEEKDAYS_ALL)) {
		return fault_set(fault, FAULT_INPUT,
		    "the station is open on no day of the week; expected at least one");
	}
	return name_check("the station's name", change->name, fault);
}

/* The lists of a station, each replaced only when the change says so. */
static bool
put_lists(struct book *book, int64_t id, const struct station_change *change,
    struct fault *fault)
{
	if ((has(change, STATION_CLOSED) && !put_closures(book, id, change, fault)) ||
	    (has(change, STATION_PACES) && !put_paces(book, id, change, fault))) {
		return false;
	}
	if (has(change, STATION_KINDS) &&
	    (!drop_of(book, STATION_KINDS_DROP, id, fault) ||
		!put_words(book, STATION_KIND_ADD, id, change->kinds, change->kind_count,
		    fault))) {
		return false;
	}
	return put_makes(book, id, change, fault) && put_prices(book, id, change, fault);
}

static bool
write_station(struct book *book, const struct station_change *change, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	int64_t id = 0;
	if (!check_station(change, fault) || !writing_begin(book, &writing, fault) ||
	    !call_id(book, STATION_FIND, change->name, &id, fault) ||
	    (id == 0 && !(name_check_new(
			      "the station's name", change->name, NAME_LONGEST, fault) &&
			    add_named(book, STATION_ADD, NUMBERED_STATION, change->name,
				&id, fault)))) {
		return false;
	}
	return put_fields(book, id, change, fault) &&
	       put_lists(book, id, change, fault) && writing_keep(&writing, fault);
}

bool
book_put_station(
    struct book *book, const struct station_change *change, struct fault *fault)
{
	return write_station(book, change, fault) ||
	       fault_prefix(fault, "writing station \"%.80s\"",
		   change->name == NULL ? "" : change->name);
}
