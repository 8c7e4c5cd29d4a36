/* Trips of boats that share them, the choice of a station, and what would help where nothing
 * can be done in time. Every day and sum is derived beside the test. */
#include "becket_test.h"
#include "draw.h"
#include "scene.h"

#include <assert.h>

#define SOURCE "    source: test\n    standing: common practice\n"

static const char YEARLY[] =
    "  - id: yearly\n    kinds: [lifejacket-auto, liferaft-canister]\n"
    "    task: service\n    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE;

/* Two boats at Port Marrin, laid up 1 November to 31 March, seen on 25 November 2026. */
struct port {
	struct scene scene;
	struct vessel vessels[2];
	const struct rulebook *rulebooks[2];
	struct shore_list lists[2];
	struct settled_hand_in settled; /* where `settled_count` is 1 */
	size_t settled_count;
};

static void
port_open(struct port *port)
{
	port->settled_count = 0;
	scene_open(&port->scene, YEARLY);
	for (size_t i = 0; i < 2; i++) {
		port->vessels[i] = port->scene.vessel;
		port->vessels[i].name = i == 0 ? "Amberjay" : "Brindlewing";
		port->vessels[i].base = "Port Marrin";
		port->rulebooks[i] = port->scene.rulebook;
	}
	port->scene.inventory.vessels = port->vessels;
	port->scene.inventory.vessel_count = 2;
}

/* A thing last serviced on a day; those of the first boat come first. */
static struct item *
add_item(struct port *port, size_t vessel, const char *kind, const char *served)
{
	struct item *item = scene_item(&port->scene, kind);
	item->vessel = vessel;
	scene_record(&port->scene, item, TASK_SERVICE, served, NULL);
	return item;
}

static void
plan_on(
    struct port *port, const struct station *stations, size_t count, const char *today)
{
	const size_t both[] = {0, 1};
	struct scene *scene = &port->scene;
	(void)scene_due(scene, &scene->items[0], TASK_SERVICE, today);
	scene->engine.rulebooks = port->rulebooks;
	const struct winter_request request = {&scene->engine, stations, count, 0,
	    day_of(today), 0, &port->settled, port->settled_count, 0};
	winter_plan_fleet(&request, both, 2, &scene->arena, port->lists);
}

TEST(two_boats_go_together_on_the_first_day_that_does_for_both)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* The second is laid up again on 10 December 2027: a yearly service must be done on or
	 * after 9 December 2026 to be in date on 9 December 2027. The first may go at once. */
	const struct odd_winter odd = {
	    2027, {day_of("2027-12-10"), day_of("2028-03-31")}};
	port.vessels[1].odd_winters = &odd;
	port.vessels[1].odd_winter_count = 1;
	(void)add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	(void)add_item(&port, 1, "lifejacket-auto", "2026-03-01");
	const struct station depot = {.weekdays = WEEKDAYS_ALL,
	    .name = "Depot",
	    .base = "",
	    .turn_round_days = 14,
	    .trip_minor = 2001};
	plan_on(&port, &depot, 1, "2026-11-25");
	for (size_t i = 0; i < 2; i++) {
		assert_int_equal(port.lists[i].hand_in.count, 1);
		const struct trip *trip = &port.lists[i].hand_in.items[0];
		assert_int_equal(trip->hand_in, day_of("2026-12-09"));
		assert_int_equal(trip->collect, day_of("2026-12-23"));
		assert_int_equal(trip->vessels, 2);
		assert_int_equal(trip->lines.count, 1);
		assert_true(trip->of_base);
		assert_true(port.lists[i].proof.proven);
		assert_int_equal(port.lists[i].proof.trips, 1);
	}
	/* 20.01 is shared: 10.01 and 10.00 */
	assert_int_equal(port.lists[0].cost_minor, 1001);
	assert_int_equal(port.lists[1].cost_minor, 1000);
}

TEST(the_next_winters_trips_are_given_out_once_all_boats_have_fitted_out)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* The second is laid up a month longer, to 30 April 2027; the jackets are due on 15
	 * December 2027, so in the winter that starts on 1 November 2027. */
	const struct odd_winter odd = {
	    2026, {day_of("2026-11-01"), day_of("2027-04-30")}};
	port.vessels[1].odd_winters = &odd;
	port.vessels[1].odd_winter_count = 1;
	(void)add_item(&port, 0, "lifejacket-auto", "2026-12-15");
	(void)add_item(&port, 1, "lifejacket-auto", "2026-12-15");
	const struct station depot = {.weekdays = WEEKDAYS_ALL,
	    .name = "Depot",
	    .base = "",
	    .turn_round_days = 14,
	    .trip_minor = 2000};
	plan_on(&port, &depot, 1, "2027-04-01");
	assert_int_equal(port.lists[0].hand_in.count, 1);
	assert_int_equal(port.lists[1].hand_in.count, 0);
	assert_int_equal(port.lists[0].hand_in.items[0].given_from, day_of("2027-05-01"));
	plan_on(&port, &depot, 1, "2027-04-30");
	assert_int_equal(port.lists[0].hand_in.items[0].given_from, day_of("2027-05-01"));
	plan_on(&port, &depot, 1, "2027-05-01");
	assert_int_equal(port.lists[0].hand_in.items[0].vessels, 2);
	assert_false(port.lists[0].hand_in.items[0].held_back);
}

TEST(what_a_boat_was_given_out_alone_stays_hers_when_another_joins_her_base)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	const struct item *jacket = add_item(&port, 0, "lifejacket-auto", "2025-12-01");
	(void)add_item(&port, 1, "lifejacket-auto", "2025-12-01");
	const char *const tags[] = {jacket->tag};
	const struct station depot = {
	    .weekdays = WEEKDAYS_ALL, .name = "Depot", .base = "", .turn_round_days = 14};
	port.settled = (struct settled_hand_in){.owner = "Amberjay",
	    .winter = 2026,
	    .station = "Depot",
	    .number = 2,
	    .day = day_of("2026-12-10"),
	    .planned = DAY_NONE,
	    .tags = tags,
	    .tag_count = 1};
	port.settled_count = 1;
	plan_on(&port, &depot, 1, "2026-11-25");
	const struct trip *own = &port.lists[0].hand_in.items[0];
	assert_int_equal(own->hand_in, day_of("2026-12-10"));
	assert_int_equal(own->number, 2);
	assert_true(own->settled);
	assert_false(own->of_base);
	/* the other's gear is no part of it, but a trip of the base's */
	assert_int_equal(own->vessels, 1);
	assert_true(port.lists[1].hand_in.items[0].of_base);
	assert_false(port.lists[1].hand_in.items[0].settled);
}

TEST(boats_without_a_base_go_each_on_its_own)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	port.vessels[0].base = "";
	port.vessels[1].base = "";
	(void)add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	(void)add_item(&port, 1, "lifejacket-auto", "2026-03-01");
	const struct station depot = {.weekdays = WEEKDAYS_ALL,
	    .name = "Depot",
	    .base = "",
	    .turn_round_days = 14,
	    .trip_minor = 2000};
	plan_on(&port, &depot, 1, "2026-11-25");
	for (size_t i = 0; i < 2; i++) {
		assert_int_equal(port.lists[i].hand_in.items[0].vessels, 1);
		assert_false(port.lists[i].hand_in.items[0].of_base);
		assert_int_equal(port.lists[i].cost_minor, 2000);
	}
}

TEST(what_one_boat_alone_would_send_near_goes_far_with_the_other)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* Three jackets each: far 30.00 each and the trip 40.00, near 36.00 and 10.00. Three:
	 * far 130.00, near 118.00. Six: far 220.00, near 226.00. */
	for (size_t i = 0; i < 6; i++) {
		(void)add_item(&port, i / 3, "lifejacket-auto", "2026-03-01");
	}
	const struct station_price far_price = {
	    "lifejacket-auto", false, TASK_SERVICE, 3000, 0};
	const struct station_price near_price = {
	    "lifejacket-auto", false, TASK_SERVICE, 3600, 0};
	const struct station stations[] = {
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Far",
		.base = "",
		.turn_round_days = 14,
		.trip_minor = 4000,
		.prices = &far_price,
		.price_count = 1},
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Near",
		.base = "",
		.turn_round_days = 14,
		.trip_minor = 1000,
		.prices = &near_price,
		.price_count = 1},
	};
	plan_on(&port, stations, 2, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_string_equal(trip->name, "Far");
	assert_int_equal(trip->lines.items[0].price_minor, 3000);
	assert_int_equal(port.lists[0].proof.minor, 22000);
	assert_true(trip->choice.any);
	assert_int_equal(trip->choice.saves_minor, 600);
	assert_int_equal(trip->choice.saves_trips, 0);
	/* half of the trip and three services */
	assert_int_equal(port.lists[1].cost_minor, 2000 + 3 * 3000);

	struct shore_list alone = {0};
	port.vessels[0].base = "";
	const struct winter_request request = {.engine = &port.scene.engine,
	    .stations = stations,
	    .station_count = 2,
	    .today = day_of("2026-11-25")};
	winter_plan_fleet(&request, &(size_t){0}, 1, &port.scene.arena, &alone);
	assert_string_equal(alone.hand_in.items[0].name, "Near");
	assert_int_equal(alone.proof.minor, 11800);
}

TEST(carriage_a_piece_weighs_against_a_dearer_service_nearby)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* A lot of four: far 4 x (30.00 + 8.00 carriage) = 152.00, near 4 x 36.00 = 144.00 */
	struct item *lot = add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	lot->quantity = 4;
	const struct station_price far_price = {
	    "lifejacket-auto", true, TASK_SERVICE, 3000, 0};
	const struct station_price near_price = {
	    "lifejacket-auto", true, TASK_SERVICE, 3600, 0};
	const struct station stations[] = {
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Far",
		.base = "",
		.turn_round_days = 14,
		.carriage_minor = 800,
		.prices = &far_price,
		.price_count = 1},
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Near",
		.base = "",
		.turn_round_days = 14,
		.prices = &near_price,
		.price_count = 1},
	};
	plan_on(&port, stations, 2, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_string_equal(trip->name, "Near");
	assert_int_equal(trip->lines.items[0].price_minor, 14400);
	assert_int_equal(trip->choice.saves_minor, 800);
}

TEST(a_price_that_is_not_known_does_not_win_by_that)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	(void)add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	const struct station_price price = {
	    "lifejacket-auto", true, TASK_SERVICE, 3000, 0};
	/* "Silent" counts as 30.00 too, and its trip is dearer by 1.00 */
	const struct station stations[] = {
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Silent",
		.base = "",
		.turn_round_days = 14,
		.trip_minor = 1100},
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Telling",
		.base = "",
		.turn_round_days = 14,
		.trip_minor = 1000,
		.prices = &price,
		.price_count = 1},
	};
	plan_on(&port, stations, 2, "2026-11-25");
	assert_string_equal(port.lists[0].hand_in.items[0].name, "Telling");
}

TEST(a_raft_of_an_unknown_make_is_not_sent_where_makes_are_listed)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	struct item *raft = add_item(&port, 0, "liferaft-canister", "2026-03-01");
	const struct station_make make = {"liferaft-canister", "Orrin"};
	const struct station loft = {.weekdays = WEEKDAYS_ALL,
	    .name = "Loft",
	    .base = "",
	    .turn_round_days = 14,
	    .makes = &make,
	    .make_count = 1};
	plan_on(&port, &loft, 1, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_true(trip->assumed);
	assert_string_equal(trip->lines.items[0].note,
	    "Loft: approved for some makes only, and its make is not known; enter the make, or ask");

	raft->make = "Tarn";
	plan_on(&port, &loft, 1, "2026-11-25");
	trip = &port.lists[0].hand_in.items[0];
	assert_true(trip->assumed);
	assert_string_equal(trip->lines.items[0].note,
	    "Loft: not approved for its make; ask which station is");

	raft->make = "ORRIN";
	plan_on(&port, &loft, 1, "2026-11-25");
	trip = &port.lists[0].hand_in.items[0];
	assert_string_equal(trip->name, "Loft");
	assert_string_equal(trip->lines.items[0].note, "");
}

TEST(a_weekly_limit_holds_over_both_boats_and_names_what_is_left)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	(void)add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	(void)add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	(void)add_item(&port, 1, "lifejacket-auto", "2026-03-01");
	/* 120 days: from 25 November 2026, a Wednesday, to 25 March; from the Monday after,
	 * 30 November, to 30 March; from 7 December to 6 April, too late. So two weeks of one
	 * piece each. */
	const struct station slow = {.weekdays = WEEKDAYS_ALL,
	    .name = "Slow",
	    .base = "",
	    .turn_round_days = 120,
	    .weekly_pieces = 1};
	plan_on(&port, &slow, 1, "2026-11-25");
	size_t handed_in = 0;
	const struct shore_line *left = NULL;
	for (size_t i = 0; i < 2; i++) {
		const struct shore_list *list = &port.lists[i];
		for (size_t j = 0; j < list->hand_in.count; j++) {
			handed_in += list->hand_in.items[j].lines.count;
		}
		left = list->cannot.count > 0 ? &list->cannot.items[0] : left;
	}
	assert_int_equal(handed_in, 2);
	assert_non_null(left);
	assert(left != NULL);
	assert_string_equal(left->why,
	    "the station takes so many pieces a week, and the weeks that would do are full");
	assert_string_equal(left->cure, "a stand-in until it is back");
}

TEST(what_comes_too_late_is_told_what_would_help)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	port.vessels[0].margin_days = 30; /* back by 1 March */
	(void)add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	/* 28 days: the last hand-in for 1 March was 1 February. On 10 February it is back on 10
	 * March: within the margin. The other one needs a week, but serves another base. */
	const struct station stations[] = {
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Depot",
		.base = "Port Marrin",
		.turn_round_days = 28},
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Inflatables",
		.base = "Cape Lorne",
		.turn_round_days = 7},
	};
	plan_on(&port, stations, 2, "2027-02-10");
	assert_int_equal(port.lists[0].cannot.count, 1);
	const struct shore_line *line = &port.lists[0].cannot.items[0];
	assert_int_equal(line->first_possible, day_of("2027-03-10"));
	assert_string_equal(line->cure,
	    "Inflatables at Cape Lorne could have it back in time; the last day to hand it "
	    "in was 1 Feb 2027; it is back by fitting-out, but within her margin; a "
	    "stand-in until it is back");
}

TEST(a_station_left_out_is_not_used)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	struct item *jacket = add_item(&port, 0, "lifejacket-auto", "2026-03-01");
	port.scene.records[jacket - port.scene.items][0].station = "Depot";
	struct station stations[] = {
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Depot",
		.base = "",
		.turn_round_days = 14},
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Other",
		.base = "",
		.turn_round_days = 14},
	};
	plan_on(&port, stations, 2, "2026-11-25");
	assert_string_equal(port.lists[0].hand_in.items[0].name, "Depot");
	stations[0].left_out = true;
	plan_on(&port, stations, 2, "2026-11-25");
	assert_string_equal(port.lists[0].hand_in.items[0].name, "Other");
	stations[1].left_out = true;
	plan_on(&port, stations, 2, "2026-11-25");
	assert_true(port.lists[0].hand_in.items[0].assumed);
	assert_string_equal(port.lists[0].hand_in.items[0].name, "");
}

/* ---- prices by age ---- */

/* 400.00 for a raft, 620.00 from ten years, 900.00 from eleven. */
static const struct station_price RAFT_PRICES[] = {
    {"liferaft-canister", true, TASK_SERVICE, 40000, 0},
    {"liferaft-canister", true, TASK_SERVICE, 62000, 10},
    {"liferaft-canister", true, TASK_SERVICE, 90000, 11},
};

TEST(a_price_by_age_is_that_of_the_hand_in_day)
{
	/* new on 29 February 2016, so ten on 28 February 2026 and eleven on 28 February 2027 */
	static const struct {
		const char *shut_until;
		const char *hand_in;
		int64_t minor;
		int from_years;
	} ROWS[] = {
	    {"2026-11-24", "2026-11-25", 62000, 10},
	    {"2027-02-26", "2027-02-27", 62000, 10},
	    {"2027-02-27", "2027-02-28", 90000, 11},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct port port;
		port_open(&port);
		struct item *raft = add_item(&port, 0, "liferaft-canister", "2026-03-01");
		raft->made = stamp_of("2016-02-29");
		const struct span shut = {
		    day_of("2026-11-01"), day_of(ROWS[i].shut_until)};
		const struct station loft = {.weekdays = WEEKDAYS_ALL,
		    .name = "Loft",
		    .base = "",
		    .turn_round_days = 14,
		    .shut = &shut,
		    .shut_count = 1,
		    .prices = RAFT_PRICES,
		    .price_count = 3};
		plan_on(&port, &loft, 1, "2026-11-25");
		const struct trip *trip = &port.lists[0].hand_in.items[0];
		const struct shore_line *line = &trip->lines.items[0];
		assert_int_equal(trip->hand_in, day_of(ROWS[i].hand_in));
		assert_int_equal(line->price_minor, ROWS[i].minor);
		assert_int_equal(line->price_from_years, ROWS[i].from_years);
		assert_false(line->price_age_missed);
		assert_int_equal(port.lists[0].cost_minor, ROWS[i].minor);
		/* the last day is that of the station, whatever the price */
		assert_int_equal(line->not_after, day_of("2027-03-17"));
		assert_false(trip->choice.any);
		/* and what it is later is told */
		assert_int_equal(line->later_years, ROWS[i].from_years == 10 ? 11 : 0);
		if (line->later_years > 0) {
			assert_int_equal(line->later_from, day_of("2027-02-28"));
			assert_int_equal(line->later_minor, 90000);
		}
	}
}

TEST(a_birthday_in_the_winter_weighs_against_a_trip)
{
	/* The second boat is not to go before 9 December, as above. The first raft is ten on
	 * 1 December: before it 400.00, after it 620.00. The second, made in 2020, 400.00 on
	 * any day. Apart: 400 + 400 and two trips. Together: 620 + 400 and one. */
	static const struct {
		int64_t trip_minor;
		size_t trips;
		int64_t minor;
		const char *hand_in;
	} ROWS[] = {
	    {10000, 2, 100000, "2026-11-25"}, /* 1000 against 1120 */
	    {30000, 1, 132000, "2026-12-09"}, /* 1400 against 1320 */
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct port port;
		port_open(&port);
		const struct odd_winter odd = {
		    2027, {day_of("2027-12-10"), day_of("2028-03-31")}};
		port.vessels[1].odd_winters = &odd;
		port.vessels[1].odd_winter_count = 1;
		add_item(&port, 0, "liferaft-canister", "2026-03-01")->made =
		    stamp_of("2016-12-01");
		add_item(&port, 1, "liferaft-canister", "2026-03-01")->made =
		    stamp_of("2020-05-01");
		const struct station loft = {.weekdays = WEEKDAYS_ALL,
		    .name = "Loft",
		    .base = "",
		    .turn_round_days = 14,
		    .trip_minor = ROWS[i].trip_minor,
		    .prices = RAFT_PRICES,
		    .price_count = 3};
		plan_on(&port, &loft, 1, "2026-11-25");
		const struct shore_list *list = &port.lists[0];
		assert_true(list->proof.proven);
		assert_int_equal(list->proof.trips, ROWS[i].trips);
		assert_int_equal(list->proof.minor, ROWS[i].minor);
		assert_int_equal(list->hand_in.items[0].hand_in, day_of(ROWS[i].hand_in));
		assert_int_equal(
		    port.lists[1].hand_in.items[0].hand_in, day_of("2026-12-09"));
	}
}

TEST(an_old_raft_goes_where_age_costs_nothing)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	/* "Even" asks 500.00 at any age; "Steep" 400.00, and 620.00 from ten years. No trip
	 * costs anything. Of the third the age is not known: it counts as 900.00 at "Steep". */
	add_item(&port, 0, "liferaft-canister", "2026-03-01")->made = stamp_of("2012");
	add_item(&port, 0, "liferaft-canister", "2026-03-01")->made = stamp_of("2020");
	(void)add_item(&port, 1, "liferaft-canister", "2026-03-01");
	const struct station_price even = {
	    "liferaft-canister", true, TASK_SERVICE, 50000, 0};
	const struct station stations[] = {
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Even",
		.base = "",
		.turn_round_days = 14,
		.prices = &even,
		.price_count = 1},
	    {.weekdays = WEEKDAYS_ALL,
		.name = "Steep",
		.base = "",
		.turn_round_days = 14,
		.prices = RAFT_PRICES,
		.price_count = 3},
	};
	plan_on(&port, stations, 2, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 2);
	assert_string_equal(port.lists[0].hand_in.items[0].name, "Even");
	assert_int_equal(port.lists[0].hand_in.items[0].lines.items[0].item, 0);
	assert_string_equal(port.lists[0].hand_in.items[1].name, "Steep");
	assert_int_equal(
	    port.lists[0].hand_in.items[1].lines.items[0].price_minor, 40000);
	assert_string_equal(port.lists[1].hand_in.items[0].name, "Even");
	assert_int_equal(port.lists[0].proof.minor, 50000 + 40000 + 50000);

	plan_on(&port, &stations[1], 1, "2026-11-25");
	const struct shore_line *line = &port.lists[1].hand_in.items[0].lines.items[0];
	assert_int_equal(line->price_minor, 90000);
	assert_true(line->price_age_missed);
}

/* --- prices by age beside every day and station --- */

enum { RAFTS = 2, SHOPS = 2, STEPS = 3, DAYS = 113 };

/* Two rafts of two boats, and two stations with prices by age. */
struct drawn {
	struct station_price prices[SHOPS][STEPS];
	struct station stations[SHOPS];
	int64_t cost[RAFTS][SHOPS][DAYS]; /* by days from 25 November to 17 March */
};

static void
draw_shops(unsigned *seed, struct drawn *drawn)
{
	static const char *const NAMES[SHOPS] = {"First", "Second"};
	for (size_t i = 0; i < SHOPS; i++) {
		int age = 0;
		for (size_t k = 0; k < STEPS; k++) {
			drawn->prices[i][k] =
			    (struct station_price){"liferaft-canister", true,
				TASK_SERVICE, 1000 * (30 + (int64_t)draw(seed, 20)), age};
			age = (age == 0 ? 4 : age) + 1 + (int)draw(seed, 3);
		}
		drawn->stations[i] = (struct station){.weekdays = WEEKDAYS_ALL,
		    .name = NAMES[i],
		    .base = "",
		    .turn_round_days = 14,
		    .trip_minor = 1000 * (int64_t)draw(seed, 12),
		    .prices = drawn->prices[i],
		    .price_count = 1 + draw(seed, STEPS)};
	}
}

/* What each raft costs on each day at each station, its birthdays counted one by one. */
static void
fill_costs(struct drawn *drawn, const struct item *rafts)
{
	for (size_t cell = 0; cell < (size_t)RAFTS * SHOPS * DAYS; cell++) {
		size_t raft = cell / (SHOPS * DAYS);
		size_t shop = cell / DAYS % SHOPS;
		size_t day = cell % DAYS;
		day_t born = stamp_first(rafts[raft].made);
		int age = 0;
		while (day_add_months(born, 12 * (age + 1)) <=
		       day_of("2026-11-25") + (day_t)day) {
			age++;
		}
		for (size_t k = 0; k < drawn->stations[shop].price_count; k++) {
			if (drawn->prices[shop][k].from_years <= age) {
				drawn->cost[raft][shop][day] =
				    drawn->prices[shop][k].minor;
			}
		}
	}
}

/* The least that any two hand-ins cost, one trip where both are the same. */
static int64_t
least_cost(const struct drawn *drawn)
{
	int64_t least = INT64_MAX;
	for (size_t a = 0; a < (size_t)SHOPS * DAYS; a++) {
		for (size_t b = 0; b < (size_t)SHOPS * DAYS; b++) {
			int64_t minor = drawn->cost[0][a / DAYS][a % DAYS] +
					drawn->cost[1][b / DAYS][b % DAYS] +
					drawn->stations[a / DAYS].trip_minor;
			minor += a == b ? 0 : drawn->stations[b / DAYS].trip_minor;
			least = minor < least ? minor : least;
		}
	}
	return least;
}

TEST(no_days_and_stations_cost_less_than_the_plan)
{
	unsigned seed = 20261125;
	size_t stepped = 0;
	size_t later = 0;
	for (int round = 0; round < 300; round++) {
		CLOSES_SCENE struct port port;
		struct drawn drawn = {0};
		port_open(&port);
		draw_shops(&seed, &drawn);
		for (size_t i = 0; i < RAFTS; i++) {
			/* three of four with their birthday in those days */
			day_t winter = day_from_civil(2017 + (int)draw(&seed, 5), 11, 25);
			add_item(&port, i, "liferaft-canister", "2026-03-01")->made =
			    stamp_of_day(winter + (day_t)draw(&seed, 150));
		}
		fill_costs(&drawn, port.scene.items);
		plan_on(&port, drawn.stations, SHOPS, "2026-11-25");
		assert_true(port.lists[0].proof.proven);
		assert_int_equal(port.lists[0].proof.minor, least_cost(&drawn));
		int64_t told = port.lists[0].cost_minor + port.lists[1].cost_minor;
		assert_int_equal(told, port.lists[0].proof.minor);
		for (size_t i = 0; i < RAFTS; i++) {
			const struct trip *trip = &port.lists[i].hand_in.items[0];
			const struct shore_line *line = &trip->lines.items[0];
			stepped += line->price_from_years > 0;
			later += line->later_years > 0;
			assert_int_equal(line->price_minor,
			    drawn.cost[i][trip->station]
				      [trip->hand_in - day_of("2026-11-25")]);
		}
	}
	assert_true(stepped > 20 && later > 20);
}

RUN_TESTS(NULL, NULL)
