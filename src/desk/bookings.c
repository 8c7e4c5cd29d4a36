#include "book/putting.h"
#include "desk/inside.h"
#include "winter/winter.h"

#include <string.h>

/* Adds the days as a person says them. */
static const char *
days_words(const struct span *days, struct text *words)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	text_reset(words);
	text_add_format(words, "%s to %s", day_words(days->first, first),
	    day_words(days->last, last));
	return text_string(words);
}

/* Remarks on what is allowed and may still be a mistake. */
static void
remark(struct desk *desk, const struct vessel *vessel, const struct booking *booking)
{
	SCOPED_TEXT words = {0};
	struct winter winter = {0};
	int most = vessel_period_on(vessel, booking->days.first)->persons;
	char day[DAY_WORDS_SIZE];
	if (winter_at(vessel, booking->days.first, &winter) &&
	    winter.lay_up <= booking->days.last) {
		char other[DAY_WORDS_SIZE];
		desk_note(desk,
		    "%s is laid up from %s to %s; the booking of %s touches that",
		    vessel->name, day_words(winter.lay_up, day),
		    day_words(winter.fitting_out, other),
		    days_words(&booking->days, &words));
	}
	if (most > 0 && booking->persons > most) {
		desk_note(desk,
		    "%s is entered for %d persons; the booking of %s is for %d",
		    vessel->name, most, days_words(&booking->days, &words),
		    booking->persons);
	}
}

/* Loads some boats, all where none is named; nothing where something is loaded. */
static bool
load_boats(struct desk *desk, const char *const *names, size_t count, struct fault *fault)
{
	const struct book_part boats = {.vessels = names, .vessel_count = count};
	return part_load(desk, count > 0 ? &boats : NULL, false, fault);
}

bool
bookings_put(struct desk *desk, const struct booking_request *requests, size_t count,
    struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const char **names = arena_alloc(&desk->arena, (count + 1) * sizeof *names);
	for (size_t i = 0; i < count; i++) {
		names[i] = requests[i].vessel;
	}
	if (!load_boats(desk, names, count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		size_t vessel = 0;
		if (!desk_find_vessel(desk, requests[i].vessel, &vessel, fault) ||
		    !booking_check(inventory, requests, i, fault)) {
			return false;
		}
		remark(desk, &inventory->vessels[vessel], &requests[i].booking);
	}
	return book_put_bookings(desk->book, requests, count, fault);
}

bool
bookings_find(struct desk *desk, const char *vessel, day_t day,
    const struct booking **out, struct fault *fault)
{
	size_t at = 0;
	if (!load_boats(desk, &vessel, 1, fault) ||
	    !desk_find_vessel(desk, vessel, &at, fault)) {
		return false;
	}
	const struct vessel *boat = &desk->contents.inventory.vessels[at];
	*out = booking_on(boat->bookings, boat->booking_count, day);
	if (*out == NULL) {
		char words[DAY_WORDS_SIZE];
		return fault_set(fault, FAULT_INPUT,
		    "%.60s has no booking on %s; \"becket booking\" with her name lists "
		    "them",
		    vessel, day_words(day, words));
	}
	return true;
}

bool
bookings_drop(struct desk *desk, const char *vessel, day_t first, struct fault *fault)
{
	return book_drop_booking(desk->book, vessel, first, fault);
}

static bool
is_asked(const struct bookings_asked *asked, const struct vessel *vessel, day_t first)
{
	return (asked->vessel == NULL || strcmp(vessel->name, asked->vessel) == 0) &&
	       (asked->boats == NULL ||
		   words_have(asked->boats->items, asked->boats->count, vessel->name)) &&
	       (asked->base == NULL ||
		   strcmp(vessel_base_on(vessel, first), asked->base) == 0);
}

/* True when she lies there at any time. */
static bool
lies_at(const struct vessel *vessel, const char *base)
{
	for (size_t i = 0; i < vessel->period_count; i++) {
		if (strcmp(vessel_base_on(vessel, vessel->periods[i].from), base) == 0) {
			return true;
		}
	}
	return false;
}

/* A typing mistake in a name must not read as "no bookings". */
static bool
check_asked(struct desk *desk, const struct bookings_asked *asked, struct fault *fault)
{
	size_t vessel = 0;
	const struct inventory *inventory = &desk->contents.inventory;
	if (asked->vessel != NULL) {
		return desk_find_vessel(desk, asked->vessel, &vessel, fault);
	}
	bool found = asked->base == NULL;
	for (size_t i = 0; i < inventory->vessel_count && !found; i++) {
		found = lies_at(&inventory->vessels[i], asked->base);
	}
	return found ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD
		   "base: found \"%.60s\", expected the base of a vessel in the book",
		   asked->base);
}

bool
bookings_list(struct desk *desk, const struct bookings_asked *asked, struct booked **out,
    size_t *count_out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t count = 0;
	if (!ask_in_order(asked->days, fault) ||
	    !load_boats(desk, &asked->vessel, asked->vessel != NULL ? 1 : 0, fault) ||
	    !check_asked(desk, asked, fault)) {
		return false;
	}
	size_t most = 1;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		most += inventory->vessels[i].booking_count;
	}
	struct booked *listed = arena_alloc(&desk->arena, most * sizeof *listed);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		size_t found = booked_of_vessel(
		    inventory, i, asked->days, desk->today, &listed[count]);
		for (size_t j = count; found > 0; found--, j++) {
			if (is_asked(asked, &inventory->vessels[i],
				listed[j].booking->days.first)) {
				listed[count++] = listed[j];
			}
		}
	}
	*out = listed;
	*count_out = count;
	return true;
}

bool
bookings_muster(struct desk *desk, const struct bookings_asked *asked,
    struct booked **out, size_t *count_out, struct fault *fault)
{
	/* A boat's spares are in another's name. */
	const struct book_part *about =
	    boats_part(desk, asked->vessel, asked->base, asked->boats, REACH_STORES);
	if (!ask_about(desk, about, LEFT_ALL, fault) || !desk_engine(desk, NULL, fault) ||
	    !bookings_list(desk, asked, out, count_out, fault)) {
		return false;
	}
	*count_out = booked_while_here(&desk->contents.inventory, *out, *count_out);
	muster_bookings(&desk->engine, *out, *count_out, &desk->arena);
	booked_sort(*out, *count_out);
	return true;
}
