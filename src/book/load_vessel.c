/* Loading vessels. */
#include "book/rows.h"
#include "gear/fleet_change.h"

#include <stdlib.h>
#include <string.h>

/* The vessel with this number, from `*at` on; NULL when it is not among those loaded. */
static void *
owner_vessel(struct loading *loading, size_t *at, int64_t id)
{
	while (*at < loading->vessel_count && loading->vessels[*at].id < id) {
		++*at;
	}
	bool found = *at < loading->vessel_count && loading->vessels[*at].id == id;
	return found ? &loading->vessels[*at] : NULL;
}

static bool
load_vessel_rows(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	size_t room = loading->counts.vessels;
	load_room(loading, room, sizeof(struct vessel), &loading->vessels);
	if (!load_open(loading, LOAD_VESSELS, room, &call, fault)) {
		return false;
	}
	while (load_next(&call, loading->vessel_count < room, &done, fault)) {
		struct vessel *vessel = &loading->vessels[loading->vessel_count++];
		struct vessel_change taken = {0};
		vessel->id = take_int(&call);
		vessel->name = take_text(&call, loading->arena);
		vessel->base = take_text(&call, loading->arena);
		vessel->laid_up = take_int(&call) != 0;
		vessel->lay_up = take_yearly(&call);
		vessel->left = take_day(&call);
		vessel->leaves = vessel->left != DAY_NONE;
		vessel->goes = (unsigned)take_int(&call);
		for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
			if (!VESSEL_FIELDS[i].part && !VESSEL_FIELDS[i].timed) {
				take_field(
				    &call, loading->arena, &VESSEL_FIELDS[i], &taken);
			}
		}
		vessel->own = taken.own;
	}
	return done;
}

/* What a period does not tell stays as in the one before. */
static void
take_period(const struct load_row *row)
{
	struct call *call = row->call;
	struct loading *loading = row->loading;
	const struct vessel *vessel = row->owner;
	struct period *period = row->into;
	const struct period first = {.area = "",
	    .base = vessel->base,
	    .laid_up = vessel->laid_up,
	    .lay_up = vessel->lay_up};
	loading->periods = loading->periods == NULL ? period : loading->periods;
	*period = vessel->period_count == 1 ? first : period[-1];
	struct vessel_change taken = {.timed = period->timed};
	period->from = take_day(call);
	period->says = 0;
	for (size_t i = 0; i < VESSEL_FIELD_COUNT; i++) {
		if (VESSEL_FIELDS[i].timed && !take_null(call)) {
			take_field(call, loading->arena, &VESSEL_FIELDS[i], &taken);
			period->says |= 1U << i;
		}
	}
	period->timed = taken.timed;
	if (!take_null(call)) {
		period->base = take_text(call, loading->arena);
		period->says |= SAYS_BASE;
	}
	if (!take_null(call)) {
		period->laid_up = take_int(call) != 0;
		period->says |= SAYS_LAY_UP;
		period->lay_up = period->laid_up ? take_yearly(call) : period->lay_up;
	}
}

static void
take_winter(const struct load_row *row)
{
	struct odd_winter *winter = row->into;
	winter->year = (int)take_int(row->call);
	winter->span.first = take_day(row->call);
	winter->span.last = take_day(row->call);
}

static void
take_booking(const struct load_row *row)
{
	struct booking *booking = row->into;
	booking->days.first = take_day(row->call);
	booking->days.last = take_day(row->call);
	booking->persons = (int)take_int(row->call);
	booking->children = (int)take_int(row->call);
	booking->note = take_text(row->call, row->loading->arena);
}

#define LIST(statement, member, number, counts, take_)                                   \
	LOAD_LIST(statement, vessel, member, number, counts, .take = (take_))

static const struct load_list LISTS[] = {
    LIST(LOAD_PERIODS, periods, period_count, periods, take_period),
    LIST(LOAD_WINTERS, odd_winters, odd_winter_count, winters, take_winter),
    LIST(LOAD_AWAY, away, away_count, away, load_take_days),
    LIST(LOAD_BOOKINGS, bookings, booking_count, bookings, take_booking),
};

/* The period of hers that starts on a day; NULL when there is none. */
static struct period *
period_from(struct loading *loading, const struct vessel *vessel, day_t from)
{
	size_t first = (size_t)(vessel->periods - loading->periods);
	for (size_t i = 0; i < vessel->period_count; i++) {
		if (loading->periods[first + i].from == from) {
			return &loading->periods[first + i];
		}
	}
	return NULL;
}

/* Adds a sheet to those that hold from the beginning, or to those of a period. */
static void
add_sheet(struct loading *loading, struct vessel *vessel, day_t from, const char **sheet)
{
	struct period *period = from == DAY_NONE || vessel->period_count == 0
				    ? NULL
				    : period_from(loading, vessel, from);
	if (from == DAY_NONE) {
		vessel->sheets = vessel->sheet_count++ == 0 ? sheet : vessel->sheets;
	} else if (period != NULL) {
		period->says |= SAYS_SHEETS;
		period->sheets = period->sheet_count++ == 0 ? sheet : period->sheets;
	}
}

/* Where sheets change, every period gets those it follows. */
static void
carry_sheets(struct loading *loading, struct vessel *vessel)
{
	struct period *periods =
	    &loading->periods[(size_t)(vessel->periods - loading->periods)];
	bool change = false;
	for (size_t i = 0; i < vessel->period_count; i++) {
		change = change || (periods[i].says & SAYS_SHEETS) != 0;
	}
	const char *const *sheets = vessel->sheets;
	size_t count = vessel->sheet_count;
	for (size_t i = 0; change && i < vessel->period_count; i++) {
		if ((periods[i].says & SAYS_SHEETS) == 0) {
			periods[i].sheets = sheets;
			periods[i].sheet_count = count;
		}
		sheets = periods[i].sheets;
		count = periods[i].sheet_count;
	}
}

static bool
load_sheets(struct loading *loading, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool done = true;
	const char **sheets = NULL;
	size_t count = 0;
	size_t at = 0;
	size_t room = loading->counts.sheets;
	load_room(loading, room, sizeof *sheets, &sheets);
	if (!load_open(loading, LOAD_SHEETS, room, &call, fault)) {
		return false;
	}
	while (load_next(&call, count < room, &done, fault)) {
		struct vessel *vessel = owner_vessel(loading, &at, take_int(&call));
		if (vessel == NULL) {
			continue;
		}
		day_t from = take_day(&call);
		(void)take_int(&call);
		sheets[count] = take_text(&call, loading->arena);
		add_sheet(loading, vessel, from, &sheets[count++]);
	}
	for (size_t i = 0; i < loading->vessel_count && done; i++) {
		if (loading->vessels[i].period_count > 0) {
			carry_sheets(loading, &loading->vessels[i]);
		}
	}
	return done;
}

static int
compare_vessels(const void *a, const void *b)
{
	return strcmp(((const struct vessel *)a)->name, ((const struct vessel *)b)->name);
}

/* The rules rely on every vessel having a first period and a sheet. */
static bool
check_vessels(const struct loading *loading, struct fault *fault)
{
	for (size_t i = 0; i < loading->vessel_count; i++) {
		const struct vessel *vessel = &loading->vessels[i];
		if (vessel->period_count == 0 || vessel->sheet_count == 0 ||
		    vessel->periods[0].from != DAY_NONE) {
			return fault_set(fault, FAULT_BOOK,
			    "vessel \"%.80s\" has no use or no sheet on record",
			    vessel->name);
		}
	}
	return true;
}

bool
load_vessels(struct loading *loading, struct fault *fault)
{
	if ((loading->taken & LOADS_VESSELS) != 0) {
		load_vessels_taken(loading);
		return true;
	}
	if (!load_vessel_rows(loading, fault) ||
	    !load_lists(
		loading, LISTS, sizeof LISTS / sizeof LISTS[0], owner_vessel, fault) ||
	    !load_sheets(loading, fault) || !check_vessels(loading, fault)) {
		return fault_prefix(fault, "vessels");
	}
	qsort(loading->vessels, loading->vessel_count, sizeof *loading->vessels,
	    compare_vessels);
	return true;
}
