/* Bookings of boats: which can't stand beside each other, and which can't be at all. */
#include "gear/booking.h"

#include "becket_test.h"
#include "gear/item.h"
#include "in_words.h"

#include <string.h>

static struct span
days(const char *first, const char *last)
{
	return (struct span){day_of(first), day_of(last)};
}

/* Weeks from Saturday to Saturday share their Saturday; a day's charter has a day to itself. */
TEST(parties_may_share_only_the_day_one_leaves_and_the_next_comes)
{
	static const struct {
		const char *first, *last, *other_first, *other_last;
		bool clash;
	} ROWS[] = {
	    {"2027-06-05", "2027-06-12", "2027-06-12", "2027-06-19", false},
	    {"2027-06-05", "2027-06-12", "2027-06-13", "2027-06-19", false},
	    {"2027-06-05", "2027-06-12", "2027-06-11", "2027-06-19", true},
	    {"2027-06-05", "2027-06-12", "2027-06-07", "2027-06-08", true},
	    {"2027-06-05", "2027-06-12", "2027-06-05", "2027-06-12", true},
	    {"2027-06-05", "2027-06-12", "2027-06-12", "2027-06-12", true},
	    {"2027-06-05", "2027-06-12", "2027-06-05", "2027-06-05", true},
	    {"2027-06-05", "2027-06-12", "2027-06-13", "2027-06-13", false},
	    {"2027-06-05", "2027-06-05", "2027-06-05", "2027-06-05", true},
	    {"2027-06-05", "2027-06-05", "2027-06-06", "2027-06-06", false},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct span a = days(ROWS[i].first, ROWS[i].last);
		struct span b = days(ROWS[i].other_first, ROWS[i].other_last);
		assert_int_equal(bookings_clash(&a, &b), ROWS[i].clash);
		assert_int_equal(bookings_clash(&b, &a), ROWS[i].clash);
	}
}

/* What is said of a boat that leaves on 1 July 2027 and has a week in June, and of a store. */
static const char *
said_of(const char *vessel, const char *was, struct booking booking, struct fault *fault)
{
	static struct booking June;
	June = (struct booking){days("2027-06-05", "2027-06-12"), 4, 0, ""};
	const struct vessel vessels[] = {{.name = "Boat",
					     .bookings = &June,
					     .booking_count = 1,
					     .leaves = true,
					     .left = day_of("2027-07-01")},
	    {.name = "Store", .store = true}};
	const struct inventory inventory = {.vessels = vessels, .vessel_count = 2};
	const struct booking_request request = {
	    vessel, was == NULL ? DAY_NONE : day_of(was), booking};
	*fault = (struct fault){0};
	return booking_check(&inventory, &request, 0, fault) ? "" : fault->text;
}

TEST(what_can_not_be_is_refused_with_words)
{
	static const struct {
		const char *vessel, *was, *first, *last;
		int persons, children;
		const char *says; /* "" for what is taken */
	} ROWS[] = {
	    {"Boat", NULL, "2027-06-12", "2027-06-19", 4, 4, ""},
	    {"Boat", NULL, "2027-06-12", "2027-06-19", 0, 3, ""},
	    {"Boat", NULL, "2027-06-19", "2027-06-30", 4, 0, ""},
	    {"Boat", NULL, "2027-06-20", "2027-06-19", 4, 0, "before it begins"},
	    {"Boat", NULL, "2027-06-12", "2027-06-19", 4, 5, "5 children among 4"},
	    {"Boat", NULL, "2027-06-12", "2027-06-19", 1, 2, "2 children among 1"},
	    {"Boat", NULL, "2027-06-11", "2027-06-19", 4, 0, "booked from 5 Jun 2027"},
	    {"Boat", "2027-06-05", "2027-06-11", "2027-06-19", 4, 0, ""},
	    {"Boat", NULL, "2027-06-25", "2027-07-01", 4, 0, "leaves on 1 Jul 2027"},
	    {"Store", NULL, "2027-06-25", "2027-06-28", 4, 0, "is a store"},
	    {"Other", NULL, "2027-06-25", "2027-06-28", 4, 0, "no vessel \"Other\""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault;
		struct booking booking = {days(ROWS[i].first, ROWS[i].last),
		    ROWS[i].persons, ROWS[i].children, ""};
		const char *said = said_of(ROWS[i].vessel, ROWS[i].was, booking, &fault);
		if ((ROWS[i].says[0] == '\0') != (said[0] == '\0') ||
		    strstr(said, ROWS[i].says) == NULL) {
			fail_msg("row %zu: \"%s\"", i, said);
		}
	}
}

/* Of several at once each is held against those before it; one that an earlier one moved out of
 * the way is no hindrance. */
TEST(requests_are_held_against_those_before_them)
{
	struct booking june = {days("2027-06-05", "2027-06-12"), 4, 0, ""};
	const struct vessel boat = {
	    .name = "Boat", .bookings = &june, .booking_count = 1};
	const struct inventory inventory = {.vessels = &boat, .vessel_count = 1};
	const struct booking_request requests[] = {
	    {"Boat", day_of("2027-06-05"), {days("2027-08-07", "2027-08-14"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-06-07", "2027-06-14"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-08-01", "2027-08-08"), 4, 0, ""}},
	};
	struct fault fault = {0};
	assert_true(booking_check(&inventory, requests, 0, &fault));
	assert_true(booking_check(&inventory, requests, 1, &fault));
	assert_false(booking_check(&inventory, requests, 2, &fault));
	assert_non_null(strstr(fault.text, "7 Aug 2027 to 14 Aug 2027"));
}

/* Whichever it is: the second of her bookings, or of the requests before. */
TEST(each_booking_and_each_request_is_in_the_way_of_another)
{
	const struct booking hers[] = {{days("2027-05-01", "2027-05-08"), 4, 0, ""},
	    {days("2027-06-05", "2027-06-12"), 4, 0, ""}};
	const struct vessel boat = {.name = "Boat", .bookings = hers, .booking_count = 2};
	const struct inventory inventory = {.vessels = &boat, .vessel_count = 1};
	const struct booking_request requests[] = {
	    {"Boat", DAY_NONE, {days("2027-07-03", "2027-07-10"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-08-07", "2027-08-14"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-08-09", "2027-08-11"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-06-07", "2027-06-14"), 4, 0, ""}},
	};
	struct fault fault = {0};
	assert_true(booking_check(&inventory, requests, 0, &fault));
	assert_true(booking_check(&inventory, requests, 1, &fault));
	assert_false(booking_check(&inventory, requests, 2, &fault));
	assert_non_null(strstr(fault.text, "7 Aug 2027 to 14 Aug 2027"));
	fault = (struct fault){0};
	assert_false(booking_check(&inventory, requests, 3, &fault));
	assert_non_null(strstr(fault.text, "5 Jun 2027 to 12 Jun 2027"));
}

TEST(a_booking_is_found_by_any_day_of_it_and_the_next_by_its_end)
{
	const struct booking bookings[] = {{days("2027-06-05", "2027-06-12"), 4, 0, ""},
	    {days("2027-06-12", "2027-06-19"), 4, 0, ""}};
	assert_ptr_equal(booking_on(bookings, 2, day_of("2027-06-05")), &bookings[0]);
	assert_ptr_equal(booking_on(bookings, 2, day_of("2027-06-12")), &bookings[1]);
	assert_ptr_equal(booking_on(bookings, 2, day_of("2027-06-19")), &bookings[1]);
	assert_null(booking_on(bookings, 2, day_of("2027-06-20")));
	assert_ptr_equal(booking_next(bookings, 2, day_of("2027-06-12")), &bookings[0]);
	assert_ptr_equal(booking_next(bookings, 2, day_of("2027-06-13")), &bookings[1]);
	assert_null(booking_next(bookings, 2, day_of("2027-06-20")));
	/* the one that begins on a day has it, in whatever order they stand */
	const struct booking backwards[] = {bookings[1], bookings[0]};
	assert_ptr_equal(booking_on(backwards, 2, day_of("2027-06-12")), &backwards[0]);
}

/* What one boat is asked for, or moves out of the way, says nothing of another. */
TEST(boats_do_not_stand_in_each_others_way)
{
	struct booking june = {days("2027-06-05", "2027-06-12"), 4, 0, ""};
	const struct vessel boats[] = {
	    {.name = "Boat", .bookings = &june, .booking_count = 1},
	    {.name = "Other", .bookings = &june, .booking_count = 1}};
	const struct inventory inventory = {.vessels = boats, .vessel_count = 2};
	const struct booking_request requests[] = {
	    {"Other", day_of("2027-06-05"), {days("2027-08-07", "2027-08-14"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-08-07", "2027-08-14"), 4, 0, ""}},
	    {"Boat", DAY_NONE, {days("2027-06-07", "2027-06-14"), 4, 0, ""}},
	};
	struct fault fault = {0};
	assert_true(booking_check(&inventory, requests, 1, &fault));
	assert_false(booking_check(&inventory, requests, 2, &fault));
	assert_non_null(strstr(fault.text, "Boat is booked from 5 Jun 2027"));
}

RUN_TESTS(NULL, NULL)
