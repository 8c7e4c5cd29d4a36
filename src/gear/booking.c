#include "gear/booking.h"

#include "gear/item.h"

#include <string.h>

bool
bookings_clash(const struct span *a, const struct span *b)
{
	bool long_ones = a->first < a->last && b->first < b->last;
	return long_ones ? a->first < b->last && b->first < a->last
			 : a->first <= b->last && b->first <= a->last;
}

static const struct vessel *
vessel_of(const struct inventory *inventory, const char *name)
{
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (strcmp(inventory->vessels[i].name, name) == 0) {
			return &inventory->vessels[i];
		}
	}
	return NULL;
}

static bool
check_itself(
    const struct vessel *vessel, const struct booking *booking, struct fault *fault)
{
	char day[DAY_WORDS_SIZE];
	if (booking->days.last < booking->days.first) {
		return fault_set(fault, FAULT_INPUT,
		    "it ends on %s, before it begins; expected that day or a later one",
		    day_words(booking->days.last, day));
	}
	if (booking->persons > 0 && booking->children > booking->persons) {
		return fault_set(fault, FAULT_INPUT,
		    "found %d children among %d persons; expected no more children than "
		    "persons, who are everyone aboard",
		    booking->children, booking->persons);
	}
	if (vessel->store) {
		return fault_set(fault, FAULT_INPUT,
		    "%.60s is a store; only boats are booked", vessel->name);
	}
	if (!vessel_is_here(vessel, booking->days.last)) {
		return fault_set(fault, FAULT_INPUT,
		    "%.60s leaves on %s; expected a booking that ends before that",
		    vessel->name, day_words(vessel->left, day));
	}
	return true;
}

static bool
clash_fault(const struct vessel *vessel, const struct span *with, struct fault *fault)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	return fault_set(fault, FAULT_INPUT,
	    "%.60s is booked from %s to %s already; expected other days, or \"becket "
	    "booking\" with --change or --remove for that one first",
	    vessel->name, day_words(with->first, first), day_words(with->last, last));
}

/* True when a request before this one replaces the booking, or this one does. */
static bool
is_replaced(
    const struct booking_request *requests, size_t at, const struct booking *booking)
{
	for (size_t i = 0; i <= at; i++) {
		if (requests[i].was == booking->days.first &&
		    strcmp(requests[i].vessel, requests[at].vessel) == 0) {
			return true;
		}
	}
	return false;
}

bool
booking_check(const struct inventory *inventory, const struct booking_request *requests,
    size_t at, struct fault *fault)
{
	const struct booking_request *request = &requests[at];
	const struct span *days = &request->booking.days;
	const struct vessel *vessel = vessel_of(inventory, request->vessel);
	if (vessel == NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "there is no vessel \"%.60s\" in the book", request->vessel);
	}
	if (!check_itself(vessel, &request->booking, fault)) {
		return false;
	}
	for (size_t i = 0; i < vessel->booking_count; i++) {
		const struct booking *other = &vessel->bookings[i];
		if (bookings_clash(&other->days, days) &&
		    !is_replaced(requests, at, other)) {
			return clash_fault(vessel, &other->days, fault);
		}
	}
	for (size_t i = 0; i < at; i++) {
		const struct span *other = &requests[i].booking.days;
		if (strcmp(requests[i].vessel, request->vessel) == 0 &&
		    bookings_clash(other, days)) {
			return clash_fault(vessel, other, fault);
		}
	}
	return true;
}

const struct booking *
booking_on(const struct booking *bookings, size_t count, day_t day)
{
	const struct booking *found = NULL;
	for (size_t i = 0; i < count; i++) {
		bool has = span_has(bookings[i].days, day);
		bool begins = bookings[i].days.first == day;
		found = has && (found == NULL || begins) ? &bookings[i] : found;
	}
	return found;
}

const struct booking *
booking_next(const struct booking *bookings, size_t count, day_t day)
{
	size_t i = 0;
	while (i < count && bookings[i].days.last < day) {
		i++;
	}
	return i < count ? &bookings[i] : NULL;
}

bool
booking_meets(const struct booking *bookings, size_t count, struct span span)
{
	const struct booking *next = booking_next(bookings, count, span.first);
	return next != NULL && next->days.first <= span.last;
}
