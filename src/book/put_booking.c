/* Writing bookings. */
#include "book/putting.h"
#include "book/rows.h"

static bool
find_vessel(struct book *book, const char *name, int64_t *id_out, struct fault *fault)
{
	if (!call_id(book, VESSEL_FIND, name, id_out, fault)) {
		return false;
	}
	return *id_out != 0 || fault_set(fault, FAULT_INPUT,
				   "there is no vessel \"%.80s\" in the book", name);
}

/* Runs a statement about one booking, if it is there. */
static bool
run_for_one(struct call *call, const char *vessel, day_t first, struct fault *fault)
{
	char day[DAY_WORDS_SIZE];
	int64_t changed = 0;
	return call_run_changed(call, &changed, fault) &&
	       (changed > 0 ||
		   fault_set(fault, FAULT_INPUT, "%.80s has no booking that begins on %s",
		       vessel, day_words(first, day)));
}

static void
give_booking(struct call *call, const struct booking *booking)
{
	give_day(call, booking->days.first);
	give_day(call, booking->days.last);
	give_int(call, booking->persons);
	give_int(call, booking->children);
	give_text(call, booking->note);
}

static bool
put_booking(struct book *book, const struct booking_request *request, struct fault *fault)
{
	SCOPED_CALL call = {0};
	int64_t vessel = 0;
	int64_t number = 0;
	bool change = request->was != DAY_NONE;
	if (!find_vessel(book, request->vessel, &vessel, fault) ||
	    !call_open(book, change ? BOOKING_CHANGE : BOOKING_ADD, &call, fault)) {
		return false;
	}
	if (change) {
		give_booking(&call, &request->booking);
		give_int(&call, vessel);
		give_day(&call, request->was);
	} else if (number_give(&call, NUMBERED_BOOKING, &number, fault)) {
		give_int(&call, vessel);
		give_booking(&call, &request->booking);
	} else {
		return false;
	}
	return run_for_one(&call, request->vessel, request->was, fault);
}

bool
book_put_bookings(struct book *book, const struct booking_request *requests, size_t count,
    struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	bool put = writing_begin(book, &writing, fault);
	for (size_t i = 0; i < count && put; i++) {
		put = put_booking(book, &requests[i], fault);
	}
	return (put && writing_keep(&writing, fault)) ||
	       fault_prefix(fault, "writing a booking");
}

bool
book_drop_booking(struct book *book, const char *vessel, day_t first, struct fault *fault)
{
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	int64_t id = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !find_vessel(book, vessel, &id, fault) ||
	    !call_open(book, BOOKING_DROP, &call, fault)) {
		return false;
	}
	give_int(&call, id);
	give_day(&call, first);
	return run_for_one(&call, vessel, first, fault) && writing_keep(&writing, fault);
}
