/* Which boats there are on a day, who goes out, and on which days they are short. */
#include "desk/bookings.h"
#include "page/planning.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

void
add_shortages(const struct muster *muster, struct text *out)
{
	const char *between = "";
	for (size_t i = 0; i < muster->shortage_count; i++) {
		text_add_format(out, "%s%s (%d)", between,
		    muster->shortages[i].line->title, muster->shortages[i].most);
		between = ", ";
	}
	for (size_t i = 0; i < muster->line_count && muster->shortage_count == 0; i++) {
		if (muster->lines[i].asks[0] != '\0') {
			text_add(out, between);
			add_missing_words(muster->lines[i].asks, out);
			between = ", ";
		}
	}
	if (!muster->has_lines) {
		text_add(out, "her sheets carry no list of what must be aboard");
	}
}

static void
find_bookings(struct saturday *day, struct saturday_boat *boat)
{
	const struct vessel *vessel = boat->vessel;
	struct span *spans = arena_alloc(
	    &day->visit->desk.arena, (vessel->booking_count + 1) * sizeof *spans);
	for (size_t i = 0; i < vessel->booking_count; i++) {
		struct span days = vessel->bookings[i].days;
		if (days.first <= day->axis.last && days.last >= day->axis.first) {
			spans[boat->bookings.count++] = days;
		}
	}
	boat->bookings.items = spans;
}

static bool
goes_out(const struct saturday_boat *boat)
{
	return boat->booked.booking != NULL;
}

/* For each vessel the booking of hers that begins on the day; NULL for none. */
static const struct booked **
booked_by_vessel(const struct saturday *day, const struct booked *all, size_t count)
{
	struct desk *desk = &day->visit->desk;
	const struct booked **of = arena_alloc(&desk->arena,
	    (desk->contents.inventory.vessel_count + 1) * sizeof(const struct booked *));
	for (size_t i = 0; i < count; i++) {
		if (all[i].booking->days.first == day->on) {
			of[all[i].vessel] = &all[i];
		}
	}
	return of;
}

/* True for a boat that is in the fleet on the day, and lies at the base asked for. */
static bool
is_looked_at(const struct saturday *day, const struct vessel *vessel)
{
	return !vessel->store && vessel_is_here(vessel, day->on) &&
	       base_choice_has(
		   &day->choice, vessel->name, vessel_base_on(vessel, day->on));
}

/* Musters every boat that is in the fleet on the day, and finds a cure for each that is
 * not let, when no boat goes out. */
static void
muster_boats(struct saturday *day, const struct booked *all, size_t count)
{
	struct desk *desk = &day->visit->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	struct muster *musters =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *musters);
	day->boats =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *day->boats);
	const struct booked **booked_of = booked_by_vessel(day, all, count);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		if (!is_looked_at(day, vessel)) {
			continue;
		}
		const struct booked *booked = booked_of[i];
		struct saturday_boat *boat = &day->boats[day->count];
		struct span on = {day->on, day->on};
		muster_vessel(&desk->engine, i, on, &desk->arena, &musters[day->count]);
		boat->booked =
		    booked != NULL ? *booked : (struct booked){.vessel = i, .days = on};
		boat->vessel = vessel;
		boat->base = vessel_base_on(vessel, day->on);
		day->going += booked != NULL ? 1 : 0;
		day->count++;
	}
	if (day->going == 0 && day->count > 0) {
		muster_cure(&desk->engine, musters, day->count, &desk->arena);
	}
	for (size_t i = 0; i < day->count; i++) {
		day->boats[i].on = musters[i];
		if (!goes_out(&day->boats[i])) {
			day->boats[i].booked.muster = musters[i];
		}
	}
}

static int
compare_boats(const void *left, const void *right)
{
	const struct saturday_boat *a = left;
	const struct saturday_boat *b = right;
	if (goes_out(a) != goes_out(b)) {
		return goes_out(a) ? -1 : 1;
	}
	int order = strcmp(a->base, b->base);
	return order != 0 ? order : strcmp(a->vessel->name, b->vessel->name);
}

bool
saturday_reckon(struct saturday *day, struct fault *fault)
{
	struct desk *desk = &day->visit->desk;
	const struct bookings_asked asked = {.days = {day->on, day->on},
	    .base = day->choice.base,
	    .boats = day->choice.boats};
	struct booked *booked = NULL;
	size_t count = 0;
	if (!bookings_muster(desk, &asked, &booked, &count, fault)) {
		return false;
	}
	muster_boats(day, booked, count);
	if (day->count > 0) {
		qsort(day->boats, day->count, sizeof *day->boats, compare_boats);
	}
	for (size_t i = 0; i < day->count; i++) {
		struct saturday_boat *boat = &day->boats[i];
		find_bookings(day, boat);
		muster_short_days(&desk->engine, boat->booked.vessel,
		    (struct span){day->axis.first, day->axis.last}, &desk->arena,
		    &boat->lapses);
	}
	return true;
}
