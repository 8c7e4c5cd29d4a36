/* Where things go in the winter's list at the limits of its rules. Every day and sum is
 * derived beside the test. */
#include "becket_test.h"
#include "scene.h"
#include "winter/agenda.h"
#include "winter/asked.h"
#include "winter/shore.h"

#define SOURCE "    source: test\n    standing: common practice\n"

/* Jackets and rafts are serviced yearly; a raft is inspected and tested, too, of which
 * the one counts as the other. A raft in a valise is serviced yearly and tested every two
 * years, a danbuoy the other way round. Releases and flares are renewed by their
 * marks. */
static const char RULES[] =
    "  - id: yearly\n    kinds: [lifejacket-auto, liferaft-canister]\n"
    "    task: service\n    doer: station\n    grade: law\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE
    "  - id: inspected\n    kinds: [liferaft-canister]\n    task: inspect\n"
    "    doer: station\n    grade: law\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE
    "  - id: tested\n    kinds: [liferaft-canister]\n    task: test\n"
    "    counts: [inspect]\n    doer: station\n    grade: law\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE
    "  - id: short\n    kinds: [liferaft-valise]\n    task: service\n"
    "    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE
    "  - id: long\n    kinds: [liferaft-valise]\n    task: test\n"
    "    doer: station\n    grade: law\n    clocks:\n"
    "      - { from: [last], months: 24 }\n" SOURCE
    "  - id: long-first\n    kinds: [danbuoy-inflatable]\n    task: service\n"
    "    doer: station\n    grade: law\n    clocks:\n"
    "      - { from: [last], months: 24 }\n" SOURCE
    "  - id: short-second\n    kinds: [danbuoy-inflatable]\n    task: test\n"
    "    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE
    "  - id: marked\n    kinds: [hydrostatic-release, flare-red-hand]\n    task: renew\n"
    "    doer: owner\n    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE
    "  - id: licence\n    kinds: [epirb]\n    task: inspect\n    doer: authority\n"
    "    grade: law\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE
    "  - id: look\n    kinds: [first-aid-kit]\n    task: inspect\n    doer: owner\n"
    "    grade: practice\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE
    /* what no doing makes good, what is no winter's, and what ends with a boat's use */
    "  - id: ageing\n    kinds: [buoyant-apparatus-inflatable, rescue-boat]\n"
    "    task: service\n"
    "    doer: station\n    grade: law\n    clocks:\n"
    "      - { from: [made], months: 120 }\n" SOURCE
    "  - id: second\n    kinds: [rescue-boat]\n    task: test\n    doer: station\n"
    "    grade: law\n    clocks:\n      - { from: [last], months: 24 }\n" SOURCE
    "  - id: half-yearly\n    kinds: [immersion-suit]\n    task: inspect\n"
    "    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last], months: 6 }\n" SOURCE
    "  - id: registered\n    kinds: [plb]\n    task: register\n    doer: station\n"
    "    grade: law\n    clocks:\n      - { from: [last], months: 24 }\n" SOURCE
    "  - id: private\n    kinds: [torch]\n    when: {use: private}\n    task: inspect\n"
    "    doer: owner\n    grade: practice\n    clocks:\n"
    "      - { from: [last], months: 12 }\n" SOURCE
    "  - id: private-mark\n    kinds: [smoke-orange-hand]\n    when: {use: private}\n"
    "    task: renew\n    doer: owner\n    grade: law\n    clocks:\n"
    "      - { from: [marked] }\n" SOURCE
    "  - id: commercial-age\n    kinds: [smoke-orange-hand]\n"
    "    when: {use: commercial}\n    task: renew\n    doer: owner\n    grade: law\n"
    "    clocks:\n      - { from: [fitted], months: 36 }\n" SOURCE;

/* Two boats without a base, laid up 1 November to 31 March. */
struct yard {
	struct scene scene;
	struct vessel vessels[2];
	const struct rulebook *rulebooks[2];
	struct shore_list lists[2];
	const struct settled_hand_in *settled;
	size_t settled_count;
	int year; /* of the winter; 0 for the one of the day */
};

static void
yard_open(struct yard *yard)
{
	*yard = (struct yard){0};
	scene_open(&yard->scene, RULES);
	for (size_t i = 0; i < 2; i++) {
		yard->vessels[i] = yard->scene.vessel;
		yard->vessels[i].name = i == 0 ? "Amberjay" : "Brindlewing";
		yard->rulebooks[i] = yard->scene.rulebook;
	}
	yard->scene.inventory.vessels = yard->vessels;
	yard->scene.inventory.vessel_count = 2;
}

/* A thing with its last service (and test); those of the first boat come first. */
static struct item *
add(struct yard *yard, size_t vessel, const char *kind, const char *served)
{
	struct item *item = scene_item(&yard->scene, kind);
	item->vessel = vessel;
	if (served != NULL) {
		scene_record(&yard->scene, item, TASK_SERVICE, served, NULL);
		scene_record(&yard->scene, item, TASK_TEST, served, NULL);
		scene_record(&yard->scene, item, TASK_INSPECT, served, NULL);
	}
	return item;
}

static void
plan(struct yard *yard, const struct station *stations, size_t count, const char *today)
{
	const size_t both[] = {0, 1};
	scene_engine(&yard->scene);
	yard->scene.engine.rulebooks = yard->rulebooks;
	const struct winter_request request = {.engine = &yard->scene.engine,
	    .stations = stations,
	    .station_count = count,
	    .year = yard->year,
	    .today = day_of(today),
	    .settled = yard->settled,
	    .settled_count = yard->settled_count};
	winter_plan_fleet(&request, both, 2, &yard->scene.arena, yard->lists);
}

/* Takes gear in on every day. */
static struct station
station_of(const char *name, int turn_round_days)
{
	return (struct station){.weekdays = WEEKDAYS_ALL,
	    .name = name,
	    .base = "",
	    .turn_round_days = turn_round_days};
}

/* ---- stations and stops ---- */

TEST(stations_that_nobody_entered_are_told_apart_by_their_names)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	struct item *elsewhere = add(&yard, 0, "lifejacket-auto", "2026-03-01");
	yard.scene.records[elsewhere - yard.scene.items][0].station = "Old Loft";
	plan(&yard, NULL, 0, "2026-11-25");
	const struct trips *trips = &yard.lists[0].hand_in;
	assert_int_equal(trips->count, 2);
	assert_string_equal(trips->items[0].name, "");
	assert_int_equal(trips->items[0].lines.count, 2);
	assert_string_equal(trips->items[1].name, "Old Loft");
	assert_int_equal(trips->items[1].lines.count, 1);
}

/* One piece a week: Wednesday 25 November is the first boat's, Monday the 30th the second's. */
TEST(a_week_that_another_boat_has_filled_is_full)
{
	CLOSES_SCENE struct yard yard;
	struct station loft = station_of("Loft", 14);
	loft.weekly_pieces = 1;
	yard_open(&yard);
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	(void)add(&yard, 1, "lifejacket-auto", "2026-03-01");
	plan(&yard, &loft, 1, "2026-11-25");
	assert_day(yard.lists[0].hand_in.items[0].hand_in, "2026-11-25");
	assert_day(yard.lists[1].hand_in.items[0].hand_in, "2026-11-30");
	/* another station's week is another's */
	struct station both[] = {loft, loft};
	both[1].name = "Shed";
	plan(&yard, both, 2, "2026-11-25");
	for (size_t i = 0; i < 2; i++) {
		const struct trip *trip = &yard.lists[i].hand_in.items[0];
		assert_string_equal(trip->name, both[i].name);
		assert_day(trip->hand_in, "2026-11-25");
	}
}

/* Laid up again on 10 December 2027, what is done yearly carries her from 9 December 2026
 * on, what is done every two years at once. The slow loft has gear back by 31 March when
 * it goes in by 1 December (120 days), the fast one by 17 March: so each thing as a whole
 * goes to the fast one, on the 9th. */
TEST(what_all_tasks_of_a_thing_share_is_the_station_that_serves_the_latest)
{
	CLOSES_SCENE struct yard yard;
	const struct odd_winter odd = {
	    2027, {day_of("2027-12-10"), day_of("2028-03-31")}};
	struct station stations[] = {station_of("Slow", 120), station_of("Fast", 14)};
	stations[1].trip_minor = 9000;
	yard_open(&yard);
	yard.vessels[0].odd_winters = &odd;
	yard.vessels[0].odd_winter_count = 1;
	struct item *valise = add(&yard, 0, "liferaft-valise", NULL);
	struct item *danbuoy = add(&yard, 0, "danbuoy-inflatable", NULL);
	scene_record(&yard.scene, valise, TASK_TEST, "2025-03-01", NULL);
	scene_record(&yard.scene, valise, TASK_SERVICE, "2026-03-01", NULL);
	scene_record(&yard.scene, danbuoy, TASK_SERVICE, "2025-03-01", NULL);
	scene_record(&yard.scene, danbuoy, TASK_TEST, "2026-03-01", NULL);
	plan(&yard, stations, 2, "2026-11-25");
	const struct trips *trips = &yard.lists[0].hand_in;
	assert_int_equal(trips->count, 1);
	assert_string_equal(trips->items[0].name, "Fast");
	assert_day(trips->items[0].hand_in, "2026-12-09");
	assert_int_equal(trips->items[0].lines.count, 4);
}

/* The first boat's jacket goes by 17 December, for her fitting-out on the 31st; the
 * second's from 1 February on, since she is laid up again on the 2nd a year later. Her
 * boat could go with either: one of its tasks lapses again at once whenever it is done,
 * so that it goes with the later, though the other is good for two years. */
TEST(what_lapses_again_goes_with_the_later_of_two_hand_ins)
{
	CLOSES_SCENE struct yard yard;
	const struct odd_winter short_one = {
	    2026, {day_of("2026-11-01"), day_of("2026-12-31")}};
	const struct odd_winter late = {
	    2027, {day_of("2028-02-02"), day_of("2028-03-31")}};
	const struct station loft = station_of("Loft", 14);
	yard_open(&yard);
	yard.vessels[0].base = yard.vessels[1].base = "Port Marrin";
	yard.vessels[0].odd_winters = &short_one;
	yard.vessels[1].odd_winters = &late;
	yard.vessels[0].odd_winter_count = yard.vessels[1].odd_winter_count = 1;
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	(void)add(&yard, 1, "lifejacket-auto", "2026-03-01");
	add(&yard, 1, "rescue-boat", "2025-03-01")->made = stamp_of("2016-03-01");
	plan(&yard, &loft, 1, "2026-11-25");
	assert_day(yard.lists[0].hand_in.items[0].hand_in, "2026-11-25");
	assert_int_equal(yard.lists[1].hand_in.count, 1);
	assert_day(yard.lists[1].hand_in.items[0].hand_in, "2027-02-01");
	assert_int_equal(yard.lists[1].hand_in.items[0].lines.count, 3);
}

TEST(gear_goes_to_the_station_of_another_base_where_it_went_last)
{
	CLOSES_SCENE struct yard yard;
	struct station loft = station_of("Loft", 14);
	loft.base = "Cape Lorne";
	yard_open(&yard);
	struct item *jacket = add(&yard, 0, "lifejacket-auto", "2026-03-01");
	plan(&yard, &loft, 1, "2026-11-25");
	assert_true(yard.lists[0].hand_in.items[0].assumed);
	for (size_t i = 0; i < 3; i++) {
		yard.scene.records[jacket - yard.scene.items][i].station = "Loft";
	}
	plan(&yard, &loft, 1, "2026-11-25");
	assert_string_equal(yard.lists[0].hand_in.items[0].name, "Loft");
}

/* The least number that one of them names, or none; what is asked for goes before it. */
TEST(those_who_share_trips_make_as_few_as_the_one_who_makes_fewest)
{
	static const int ROWS[][3] = {
	    {0, 0, 0}, {3, 2, 2}, {2, 3, 2}, {0, 2, 2}, {1, 0, 1}};
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		for (size_t k = 0; k < 2; k++) {
			yard.vessels[k].base = "Port Marrin";
			yard.vessels[k].most_trips = ROWS[i][k];
		}
		plan(&yard, NULL, 0, "2026-11-25");
		assert_int_equal(yard.lists[0].most_trips, ROWS[i][2]);
		assert_int_equal(yard.lists[1].most_trips, ROWS[i][2]);
	}
}

/* ---- what can't be done ---- */

TEST(the_stations_that_might_do_for_its_make_are_all_named)
{
	CLOSES_SCENE struct yard yard;
	const struct station_make make = {"liferaft-canister", "Orrin"};
	struct station stations[] = {station_of("Loft", 14), station_of("Shed", 14)};
	for (size_t i = 0; i < 2; i++) {
		stations[i].makes = &make;
		stations[i].make_count = 1;
	}
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-canister", "2026-03-01");
	plan(&yard, stations, 2, "2026-11-25");
	const struct shore_lines *lines = &yard.lists[0].hand_in.items[0].lines;
	assert_int_equal(lines->count, 3);
	for (size_t i = 0; i < 3; i++) {
		/* also where another task is charged for it */
		assert_string_equal(lines->items[i].note,
		    "Loft, Shed: approved for some makes only, and its make is not "
		    "known; enter the make, or ask");
		assert_int_equal(
		    lines->items[i].counted, lines->items[i].task == TASK_TEST);
	}
}

/* 200 days before 31 March 2027 is 12 September 2026; lay-up is on 1 November, and 200
 * days on 20 May. */
TEST(what_would_be_back_if_it_went_before_lay_up_is_told_so)
{
	CLOSES_SCENE struct yard yard;
	const struct station slow = station_of("Slow", 200);
	yard_open(&yard);
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	plan(&yard, &slow, 1, "2026-09-01");
	assert_int_equal(yard.lists[0].cannot.count, 1);
	const struct shore_line *line = &yard.lists[0].cannot.items[0];
	assert_string_equal(line->cure,
	    "hand it in before lay-up, by 12 Sep 2026; a stand-in until it is back");
	assert_day(line->first_possible, "2027-05-20");
}

/* Beside a station that is shut for years, one left out and one that may not be approved:
 * only the last could help. */
TEST(a_station_that_never_opens_is_said_to_and_helps_nobody)
{
	CLOSES_SCENE struct yard yard;
	const struct span years = {day_of("2020-01-01"), day_of("2040-12-31")};
	const struct station_make make = {"liferaft-canister", "Orrin"};
	struct station stations[] = {
	    station_of("Never", 14), station_of("Out", 14), station_of("Loft", 14)};
	stations[0].shut = &years;
	stations[0].shut_count = 1;
	stations[1].left_out = true;
	stations[2].makes = &make;
	stations[2].make_count = 1;
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-canister", "2026-03-01");
	plan(&yard, stations, 3, "2026-11-25");
	assert_int_equal(yard.lists[0].hand_in.count, 0);
	assert_int_equal(yard.lists[0].cannot.count, 3);
	const struct shore_line *line = &yard.lists[0].cannot.items[0];
	assert_string_equal(line->why, "the station never opens");
	assert_int_equal(line->first_possible, DAY_NONE);
	assert_string_equal(line->cure,
	    "Loft could have it back in time if it is approved for its make; a stand-in "
	    "until it is back");
}

/* Given up: with no station in the book the last day is 42 days before 31 March, 17
 * February 2027; to a station that never opens there is none. Another boat's giving up is
 * not hers. */
TEST(what_was_given_up_is_told_the_last_day_where_there_is_one)
{
	CLOSES_SCENE struct yard yard;
	const struct span years = {day_of("2020-01-01"), day_of("2040-12-31")};
	struct station never = station_of("Never", 14);
	never.shut = &years;
	never.shut_count = 1;
	yard_open(&yard);
	const char *const tags[] = {add(&yard, 0, "lifejacket-auto", "2026-03-01")->tag};
	struct settled_hand_in given = {.owner = "Amberjay",
	    .winter = 2026,
	    .station = "",
	    .number = 1,
	    .day = day_of("2026-12-04"),
	    .planned = DAY_NONE,
	    .given_up = "no car",
	    .tags = tags,
	    .tag_count = 1};
	yard.settled = &given;
	yard.settled_count = 1;
	plan(&yard, NULL, 0, "2026-11-25");
	assert_string_equal(yard.lists[0].cannot.items[0].cure,
	    "a day for it after all, at an approved station by 17 Feb 2027; a stand-in "
	    "until it is back");
	plan(&yard, &never, 1, "2026-11-25");
	assert_string_equal(
	    yard.lists[0].cannot.items[0].cure, "a stand-in until it is back");
	given.owner = "Brindlewing";
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].cannot.count, 0);
	assert_int_equal(yard.lists[0].hand_in.count, 1);
}

/* Fitting-out on 31 March less 30 days is 1 March. */
TEST(own_work_is_too_late_once_her_margin_has_begun)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	yard.vessels[0].margin_days = 30;
	(void)add(&yard, 0, "first-aid-kit", "2026-03-20");
	(void)add(&yard, 0, "first-aid-kit", "2026-03-20");
	plan(&yard, NULL, 0, "2027-03-01");
	assert_int_equal(yard.lists[0].self.count, 2);
	plan(&yard, NULL, 0, "2027-03-02");
	assert_int_equal(yard.lists[0].self.count, 0);
	assert_int_equal(yard.lists[0].cannot.count, 2);
	const struct shore_line *line = &yard.lists[0].cannot.items[0];
	assert_int_equal(line->own, PART_SELF);
	assert_day(line->first_possible, "2027-03-02");
	assert_string_equal(line->why, "fitting-out, less her margin, is already past");
}

/* ---- parts of the list ---- */

/* By the last record that says a price, be it nothing; the danbuoy's says none. */
TEST(what_was_done_for_nothing_last_is_reckoned_with_nothing)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	struct item *jacket = add(&yard, 0, "lifejacket-auto", NULL);
	struct item *danbuoy = add(&yard, 0, "danbuoy-inflatable", NULL);
	scene_record(&yard.scene, jacket, TASK_SERVICE, "2025-03-01", NULL);
	scene_record(&yard.scene, jacket, TASK_SERVICE, "2026-03-01", NULL);
	scene_record(&yard.scene, danbuoy, TASK_SERVICE, "2025-03-01", NULL);
	yard.scene.records[0][0].price_minor = 5000;
	yard.scene.records[0][1].price_minor = 0;
	plan(&yard, NULL, 0, "2026-11-25");
	const struct shore_lines *lines = &yard.lists[0].hand_in.items[0].lines;
	assert_int_equal(lines->items[0].price_minor, 0);
	assert_int_equal(lines->items[1].price_minor, -1);
	assert_int_equal(yard.lists[0].cost_minor, 0);
}

TEST(what_an_authority_looks_at_is_paperwork)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "epirb", "2026-03-20");
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].paperwork.count, 1);
	assert_int_equal(yard.lists[0].self.count, 0);
}

/* A release without a date in a raft that is handed in: nobody renews it there unseen. */
TEST(a_part_without_a_date_is_looked_at_and_not_sent_along)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-canister", "2026-03-01");
	add(&yard, 0, "hydrostatic-release", NULL)->parent = 0;
	plan(&yard, NULL, 0, "2026-11-25");
	const struct shore_list *list = &yard.lists[0];
	assert_int_equal(list->hand_in.items[0].lines.count, 3);
	assert_int_equal(list->self.count, 1);
	assert_int_equal(list->self.items[0].item, 1);
	/* nor where both are ashore already */
	for (size_t i = 0; i < 2; i++) {
		yard.scene.items[i].state = PLACE_LANDED;
		yard.scene.items[i].landed_to = "Loft";
		yard.scene.items[i].landed_on = DAY_NONE;
	}
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(list->self.count, 1);
	assert_int_equal(list->ashore.count, 1);
	assert_int_equal(list->ashore.items[0].tasks & 1U << TASK_RENEW, 0);
}

/* Served on 25 November 2026 the raft is next on the same day of 2027: a release that
 * lapses before goes along now, one that lapses on that day waits for the winter that
 * starts on 1 November. */
TEST(a_part_goes_along_where_it_lapses_before_the_next_service)
{
	CLOSES_SCENE struct yard yard;
	const struct shore_list *list = &yard.lists[0];
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-canister", "2026-03-01");
	for (size_t i = 0; i < 2; i++) {
		struct item *release = add(&yard, 0, "hydrostatic-release", NULL);
		release->parent = 0;
		release->expires = stamp_of(i == 0 ? "2027-11-24" : "2027-11-25");
	}
	plan(&yard, NULL, 0, "2026-11-25");
	assert_day(list->hand_in.items[0].hand_in, "2026-11-25");
	assert_int_equal(list->hand_in.items[0].lines.count, 4);
	const struct shore_line *along = &list->hand_in.items[0].lines.items[3];
	assert_int_equal(along->item, 1);
	assert_true(along->with_parent);
	assert_int_equal(along->winter, 0);
	assert_int_equal(list->waits.count, 1);
	assert_int_equal(list->waits.items[0].item, 2);
	assert_int_equal(list->waits.items[0].winter, 2027);
}

/* Landed with the raft, on a day that is not known, the releases of above are renewed
 * where they are by the same rule, as if it were done today; where the raft is there for
 * no service neither is. */
TEST(a_part_ashore_is_renewed_where_it_lapses_before_the_next_service)
{
	CLOSES_SCENE struct yard yard;
	const struct shore_list *list = &yard.lists[0];
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-canister", "2026-03-01");
	for (size_t i = 0; i < 2; i++) {
		struct item *release = add(&yard, 0, "hydrostatic-release", NULL);
		release->parent = 0;
		release->expires = stamp_of(i == 0 ? "2027-11-24" : "2027-11-25");
	}
	for (size_t i = 0; i < 3; i++) {
		yard.scene.items[i].state = PLACE_LANDED;
		yard.scene.items[i].landed_to = "Loft";
		yard.scene.items[i].landed_on = DAY_NONE;
	}
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(list->ashore.count, 1);
	assert_int_equal(list->ashore.items[0].tasks,
	    1U << TASK_SERVICE | 1U << TASK_INSPECT | 1U << TASK_TEST | 1U << TASK_RENEW);
	assert_int_equal(list->waits.count, 1);
	assert_int_equal(list->waits.items[0].item, 2);
	for (size_t i = 0; i < 3; i++) {
		yard.scene.records[0][i].on = stamp_of("2026-11-20");
	}
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(list->ashore.items[0].tasks, 0);
	assert_int_equal(list->waits.count, 5);
}

/* Ten years old, the apparatus lapses again on the day it is served, so that what is
 * inside waits for no service before that: by its own days, whether it is aboard or
 * ashore. */
TEST(a_part_of_what_no_service_makes_good_waits_by_itself)
{
	CLOSES_SCENE struct yard yard;
	const struct shore_list *list = &yard.lists[0];
	yard_open(&yard);
	struct item *raft = add(&yard, 0, "buoyant-apparatus-inflatable", "2026-03-01");
	struct item *release = add(&yard, 0, "hydrostatic-release", NULL);
	struct item *jacket = add(&yard, 0, "lifejacket-auto", "2026-11-20");
	raft->made = stamp_of("2016-03-01");
	release->expires = stamp_of("2027-11-24");
	release->parent = jacket->parent = 0;
	plan(&yard, NULL, 0, "2026-11-25");
	const struct shore_lines *lines = &list->hand_in.items[0].lines;
	assert_int_equal(lines->count, 1);
	assert_false(lines->items[0].carries);
	assert_int_equal(lines->items[0].due_again, DAY_NONE);
	assert_int_equal(list->waits.count, 2);
	for (size_t i = 0; i < 3; i++) {
		yard.scene.items[i].state = PLACE_LANDED;
		yard.scene.items[i].landed_to = "Loft";
		yard.scene.items[i].landed_on = DAY_NONE;
	}
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(list->ashore.count, 1);
	assert_int_equal(list->ashore.items[0].tasks, 1U << TASK_SERVICE);
	assert_int_equal(list->waits.count, 2);
}

/* A line each, in the person's words, whatever the rules ask of the thing. */
TEST(what_a_person_wants_bought_is_listed_beside_the_work)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	add(&yard, 0, "liferaft-canister", "2026-03-01")->to_buy = "a strap";
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].wanted.count, 1);
	assert_int_equal(yard.lists[0].hand_in.count, 1);
	add(&yard, 0, "bell", NULL)->to_buy = "a new bell";
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].wanted.count, 2);
	assert_string_equal(yard.lists[0].wanted.items[0].what, "a strap");
	assert_string_equal(yard.lists[0].wanted.items[1].what, "a new bell");
}

/* Of a kind that no catalogue has, to be renewed by its maker's word alone. */
TEST(what_is_of_an_unknown_kind_is_bought_and_needs_no_care)
{
	CLOSES_SCENE struct yard yard;
	const struct interval yearly = {.task = TASK_RENEW,
	    .months = 12,
	    .from = ANCHOR_LAST,
	    .from_said = true,
	    .paper = "manual"};
	yard_open(&yard);
	struct item *item = add(&yard, 0, "what-nobody-knows", NULL);
	item->intervals = &yearly;
	item->interval_count = 1;
	scene_record(&yard.scene, item, TASK_RENEW, "2026-03-01", NULL);
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].buy.count, 1);
	assert_int_equal(yard.lists[0].dispose.count, 0);
}

/* Used for hire or reward from 1 January 2027 on: what is bought before is good to a mark
 * that nobody knows yet, what is bought from then on for three years. */
TEST(the_first_day_that_carries_is_one_of_which_it_is_known)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	yard.scene.periods[1] = yard.scene.periods[0];
	yard.scene.periods[1].from = day_of("2027-01-01");
	yard.scene.periods[1].use = USE_COMMERCIAL;
	yard.vessels[0].period_count = 2;
	add(&yard, 0, "smoke-orange-hand", NULL)->expires = stamp_of("2026-12-15");
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].buy.count, 1);
	assert_true(yard.lists[0].buy.items[0].carries);
	assert_day(yard.lists[0].buy.items[0].not_before, "2027-01-01");
}

/* Hired to 15 August, on 1 September: to be given back now, and no work of the winter that
 * comes. */
TEST(what_should_have_been_given_back_is_due_now_and_not_in_winter)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	add(&yard, 0, "lifejacket-auto", "2026-08-01")->hired_until =
	    day_of("2026-08-15");
	plan(&yard, NULL, 0, "2026-09-01");
	assert_int_equal(yard.lists[0].now.count, 1);
	assert_true(yard.lists[0].now.items[0].give_back);
	assert_int_equal(yard.lists[0].self.count, 0);
	assert_int_equal(yard.lists[0].buy.count, 0);
}

/* What a station that a thing of the first boat is landed at is asked for, on 25 November 2026. */
static unsigned
asked(struct yard *yard, size_t item, bool inside)
{
	unsigned tasks = 0;
	const struct at_counter piece = {
	    &yard->lists[0], item, inside, day_of("2026-11-25")};
	plan(yard, NULL, 0, "2026-11-25");
	asked_of_station(&yard->scene.engine, &piece, &yard->scene.arena, &tasks);
	return tasks;
}

TEST(a_station_is_asked_for_no_work_of_the_owners_but_parts_that_go_along)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "first-aid-kit", "2020-03-01");
	add(&yard, 0, "hydrostatic-release", NULL)->expires = stamp_of("2026-06");
	(void)add(&yard, 0, "hydrostatic-release", NULL);
	assert_int_equal(asked(&yard, 0, false), 0);
	assert_int_equal(asked(&yard, 0, true), 0);
	assert_int_equal(asked(&yard, 1, false), 0);
	assert_int_equal(asked(&yard, 1, true), 1U << TASK_RENEW);
	assert_int_equal(asked(&yard, 2, true), 0);
}

/* In date until March and handed in this winter, each at a station of its own; a station
 * is asked for no routine, and for no registration whatever a sheet says of its doer. */
TEST(a_station_is_asked_for_what_the_list_hands_in_and_no_routine)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	struct item *elsewhere = add(&yard, 0, "lifejacket-auto", "2026-03-01");
	(void)add(&yard, 0, "immersion-suit", NULL);
	(void)add(&yard, 0, "plb", NULL);
	yard.scene.records[elsewhere - yard.scene.items][0].station = "Old Loft";
	assert_int_equal(asked(&yard, 0, false), 1U << TASK_SERVICE);
	assert_int_equal(asked(&yard, 1, false), 1U << TASK_SERVICE);
	assert_int_equal(asked(&yard, 2, false), 0);
	assert_int_equal(asked(&yard, 3, false), 0);
}

/* Served and tested on 20 November, the raft's service is due within a year and its test
 * is not; of the jacket nothing is on record. */
TEST(of_a_boat_in_use_all_year_a_station_is_asked_for_what_is_due_in_a_year)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-valise", "2026-11-20");
	(void)add(&yard, 0, "lifejacket-auto", NULL);
	assert_int_equal(asked(&yard, 0, false), 0);
	yard.vessels[0].laid_up = false;
	assert_int_equal(asked(&yard, 0, false), 1U << TASK_SERVICE);
	assert_int_equal(asked(&yard, 1, false), 1U << TASK_SERVICE);
}

/* A jacket due on Monday 1 March 2027, of a boat in use all year. The Loft takes 35 days, Monday to
 * Friday, and is closed from 20 December to 31 January: the last hand-in is Friday 11 December
 * (station_collect's example in gear/station.h). Let from 5 to 8 February: 18 November, of whose 35
 * days 32 are before the closure, so that it is fetched on 4 February; once that is past, 11
 * December again, which is still back in date. With no station in the book 42 days are assumed:
 * Monday 18 January. */
TEST(of_a_boat_in_use_all_year_what_waits_knows_its_last_hand_in)
{
	static const struct yearly CLOSED = {12, 20, 1, 31};
	const struct booking let = {.days = {day_of("2027-02-05"), day_of("2027-02-08")}};
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	struct station stations[] = {station_of("Quick", 1), station_of("Loft", 35)};
	stations[1].weekdays = STATION_WEEKDAYS_SUPPOSED;
	stations[1].closed = &CLOSED;
	stations[1].closed_count = 1;
	(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
	yard.scene.records[0][0].station = "Loft"; /* it goes where it went last */
	const struct shore_lines *waits = &yard.lists[0].waits;
	yard.vessels[0].laid_up = false;
	plan(&yard, stations, 2, "2026-11-25");
	assert_int_equal(waits->count, 1);
	assert_string_equal(waits->items[0].station->name, "Loft");
	assert_day(waits->items[0].hand_in_by, "2026-12-11");
	assert_day(
	    waits_hand_in_from(&yard.vessels[0], &waits->items[0], day_of("2026-12-05")),
	    "2026-12-07");
	yard.vessels[0].bookings = &let;
	yard.vessels[0].booking_count = 1;
	plan(&yard, stations, 2, "2026-11-10");
	assert_day(waits->items[0].hand_in_by, "2026-11-18");
	plan(&yard, stations, 2, "2026-11-19");
	assert_day(waits->items[0].hand_in_by, "2026-12-11");
	yard.vessels[0].booking_count = 0;
	plan(&yard, NULL, 0, "2026-11-25");
	assert_day(waits->items[0].hand_in_by, "2027-01-18");
	/* where she is laid up it waits for her winter */
	yard.vessels[0].laid_up = true;
	yard.scene.records[0][0].on = stamp_of("2026-11-20");
	plan(&yard, stations, 2, "2026-11-25");
	assert_int_equal(waits->count, 1);
	assert_null(waits->items[0].station);
}

TEST(of_what_is_in_reserve_only_what_has_expired_is_to_be_got_rid_of)
{
	static const char *const MARKS[] = {"2026-10", "2029-10", "", "2026-11"};
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	for (size_t i = 0; i < 4; i++) {
		struct item *flare = add(&yard, 0, "flare-red-hand", NULL);
		flare->expires = stamp_of(MARKS[i]);
		flare->state = PLACE_RESERVE;
	}
	add(&yard, 0, "lifejacket-auto", "2020-03-01")->state = PLACE_RESERVE;
	plan(&yard, NULL, 0, "2026-12-01");
	assert_int_equal(yard.lists[0].dispose.count, 2);
	assert_int_equal(yard.lists[0].dispose.items[0].item, 0);
	assert_int_equal(yard.lists[0].dispose.items[1].item, 3);
	assert_int_equal(yard.lists[0].hand_in.count, 0);
}

/* The part that went to another station has a line of its own, and one whose parent
 * stayed aboard; of two that went to one, the outer one has it. */
TEST(a_part_that_went_elsewhere_is_ashore_by_itself)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	struct item *raft = add(&yard, 0, "liferaft-canister", "2026-03-01");
	struct item *release = add(&yard, 0, "hydrostatic-release", NULL);
	const struct ashore_lines *ashore = &yard.lists[0].ashore;
	release->parent = 0;
	release->expires = stamp_of("2029-10");
	raft->state = release->state = PLACE_LANDED;
	raft->landed_to = "Loft";
	release->landed_to = "Depot";
	raft->landed_on = release->landed_on = DAY_NONE;
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(ashore->count, 2);
	/* on which day either can be fetched is not known: as the inventory has them */
	assert_int_equal(ashore->items[0].item, 0);
	assert_int_equal(ashore->items[1].item, 1);
	assert_int_not_equal(ashore->items[0].tasks, 0);
	assert_int_equal(ashore->items[1].tasks, 0);
	release->landed_to = "Loft";
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(ashore->count, 1);
	assert_int_equal(ashore->items[0].item, 0);
	raft->state = PLACE_ABOARD;
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(ashore->count, 1);
	assert_int_equal(ashore->items[0].item, 1);
}

/* With 42 days at a station that nobody entered, the second, landed ten days before the
 * first, is fetched first. */
TEST(what_is_ashore_is_listed_by_the_day_it_can_be_fetched)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	for (size_t i = 0; i < 2; i++) {
		struct item *jacket = add(&yard, 0, "lifejacket-auto", "2026-03-01");
		jacket->state = PLACE_LANDED;
		jacket->landed_to = "Loft";
		jacket->landed_on = day_of(i == 0 ? "2026-11-20" : "2026-11-10");
	}
	plan(&yard, NULL, 0, "2026-11-25");
	const struct ashore_lines *ashore = &yard.lists[0].ashore;
	assert_int_equal(ashore->count, 2);
	assert_int_equal(ashore->items[0].item, 1);
	assert_day(ashore->items[0].collect, "2026-12-22");
	assert_int_equal(ashore->items[1].item, 0);
	assert_day(ashore->items[1].collect, "2027-01-01");
}

/* A release that went ashore alone, of a jacket that is handed in this winter: it is bought, and
 * not handed in once more; aboard it goes with the jacket. */
TEST(a_part_that_is_ashore_alone_is_not_handed_in_with_its_whole)
{
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct yard yard;
		yard_open(&yard);
		(void)add(&yard, 0, "lifejacket-auto", "2026-03-01");
		struct item *part = add(&yard, 0, "hydrostatic-release", NULL);
		part->parent = 0;
		part->expires = stamp_of("2027-06");
		part->state = i == 0 ? PLACE_ABOARD : PLACE_LANDED;
		part->landed_to = "Loft";
		part->landed_on = day_of("2026-11-20");
		plan(&yard, NULL, 0, "2026-11-25");
		const struct shore_list *list = &yard.lists[0];
		assert_int_equal(list->hand_in.count, 1);
		assert_int_equal(list->hand_in.items[0].lines.count, 2 - i);
		assert_int_equal(list->ashore.count, i);
		assert_int_equal(list->buy.count, i);
	}
}

/* What a careless book has: a part of a thing of another boat, both ashore at one
 * station. The part's work is on the list of its own boat. */
TEST(a_part_of_another_boats_thing_is_ashore_on_its_own_boats_list)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	struct item *jacket = add(&yard, 0, "lifejacket-auto", "2026-03-01");
	struct item *raft = add(&yard, 1, "liferaft-canister", "2026-03-01");
	jacket->parent = 1;
	jacket->state = raft->state = PLACE_LANDED;
	jacket->landed_to = raft->landed_to = "Loft";
	jacket->landed_on = raft->landed_on = DAY_NONE;
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].ashore.count, 1);
	assert_int_equal(yard.lists[0].ashore.items[0].item, 0);
	assert_int_equal(yard.lists[0].ashore.items[0].tasks, 1U << TASK_SERVICE);
	assert_int_equal(yard.lists[1].ashore.count, 1);
	assert_int_equal(yard.lists[1].ashore.items[0].item, 1);
}

/* A hire to 30 June 2027: the service of 1 March falls due before, that of 1 July does
 * not; what has lapsed is planned, too. */
TEST(of_hired_gear_what_falls_due_before_it_is_given_back_is_planned)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	static const char *const SERVED[] = {"2026-03-01", "2026-07-01", "2025-03-01"};
	for (size_t i = 0; i < 3; i++) {
		add(&yard, 0, "lifejacket-auto", SERVED[i])->hired_until =
		    day_of("2027-06-30");
	}
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].hand_in.count, 1);
	const struct shore_lines *lines = &yard.lists[0].hand_in.items[0].lines;
	assert_int_equal(lines->count, 2);
	assert_int_equal(lines->items[0].item, 0); /* as the inventory has them */
	assert_int_equal(lines->items[1].item, 2);
}

/* On 1 September, due on 15 October before she is laid up: it is due now, and on the list
 * of the winter that comes already. Of a boat in use all year it waits. */
TEST(what_falls_due_before_lay_up_is_due_now_and_on_the_list)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "lifejacket-auto", "2025-10-15");
	(void)add(&yard, 1, "lifejacket-auto", "2025-10-15");
	yard.vessels[1].laid_up = false;
	plan(&yard, NULL, 0, "2026-09-01");
	assert_int_equal(yard.lists[0].now.count, 1);
	assert_int_equal(yard.lists[0].hand_in.count, 1);
	assert_int_equal(yard.lists[0].waits.count, 0);
	assert_int_equal(yard.lists[1].now.count, 0);
	assert_int_equal(yard.lists[1].hand_in.count, 0);
	assert_int_equal(yard.lists[1].waits.count, 1);
	/* on no list of a winter before or behind its own */
	yard.year = 2026;
	plan(&yard, NULL, 0, "2027-05-01");
	assert_int_equal(yard.lists[0].now.count, 1);
	assert_int_equal(yard.lists[0].hand_in.count, 0);
	yard.scene.records[0][0].on = stamp_of("2026-03-01");
	yard.year = 2027;
	plan(&yard, NULL, 0, "2026-11-25");
	assert_int_equal(yard.lists[0].now.count, 0);
	assert_int_equal(yard.lists[0].hand_in.count, 0);
	assert_int_equal(yard.lists[0].waits.count, 0);
	/* what never falls due is of no winter */
	const struct obligation never = {.state = STATE_IN_DATE, .due = DAY_NONE};
	assert_int_equal(
	    winter_of_obligation(&yard.vessels[0], &never, day_of("2026-09-01")), 0);
}

/* Laid up until 31 March 2027 for the last time: a new firing head is bought in that
 * winter, and is due now in the season, or where a list is asked for of a year in which
 * she has no winter. */
TEST(a_working_part_that_is_gone_is_bought_in_winter_or_now)
{
	static const struct {
		const char *today;
		int year;
		size_t buy;
	} ROWS[] = {{"2026-11-25", 0, 1}, {"2026-09-01", 0, 0}, {"2026-11-25", 2027, 0}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct yard yard;
		struct agenda agenda = {0};
		yard_open(&yard);
		struct period *periods = yard.scene.periods;
		periods[0].says = SAYS_LAY_UP;
		periods[0].laid_up = true;
		periods[0].lay_up = yard.vessels[0].lay_up;
		periods[1] = periods[0];
		periods[1].from = day_of("2027-05-01");
		periods[1].laid_up = false;
		yard.vessels[0].period_count = 2;
		yard.year = ROWS[i].year;
		(void)add(&yard, 0, "lifejacket-auto", "2026-08-01");
		for (size_t k = 0; k < 2; k++) {
			struct item *head = add(&yard, 0, "firing-head", NULL);
			head->parent = 0;
			head->state = PLACE_WITHDRAWN;
		}
		plan(&yard, NULL, 0, ROWS[i].today);
		assert_int_equal(yard.lists[0].buy.count, 2 * ROWS[i].buy);
		assert_int_equal(yard.lists[0].now.count, 2 - 2 * ROWS[i].buy);
		agenda_make(&yard.scene.engine, day_of(ROWS[i].today), &yard.scene.arena,
		    &agenda);
		assert_int_equal(agenda.count, 1);
		assert_string_equal(agenda.items[0].not_working, "firing-head");
	}
}

/* Laid up until 31 March 2027 for the last time, and then in use all year: a release of September
 * 2030 waits until then, seen within that winter and before it. One of September 2026 can't. */
TEST(what_falls_due_after_her_last_winter_waits)
{
	static const struct {
		const char *expires, *today;
		size_t now, buy, waits;
	} ROWS[] = {{"2030-09", "2027-02-01", 0, 0, 1},
	    {"2028-09", "2027-02-01", 0, 0, 1}, {"2027-08", "2027-02-01", 0, 1, 0},
	    {"2030-09", "2026-10-01", 0, 0, 1}, {"2026-09", "2026-09-10", 1, 1, 0},
	    {"2026-12", "2026-09-10", 0, 1, 0}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct yard yard;
		yard_open(&yard);
		struct period *periods = yard.scene.periods;
		periods[0].says = SAYS_LAY_UP;
		periods[0].laid_up = true;
		periods[0].lay_up = yard.vessels[0].lay_up;
		periods[1] = periods[0];
		periods[1].from = day_of("2027-01-15");
		periods[1].laid_up = false;
		yard.vessels[0].period_count = 2;
		add(&yard, 0, "hydrostatic-release", NULL)->expires =
		    stamp_of(ROWS[i].expires);
		plan(&yard, NULL, 0, ROWS[i].today);
		const struct shore_list *list = &yard.lists[0];
		assert_true(list->has_winter);
		assert_int_equal(list->now.count, ROWS[i].now);
		assert_int_equal(list->buy.count, ROWS[i].buy);
		assert_int_equal(list->waits.count, ROWS[i].waits);
	}
}

/* ---- the agenda ---- */

/* Used for hire or reward from 1 January 2027 on, before the torch would be looked at
 * again: nothing of it falls due. What is hired is given back by no rule of a sheet. */
TEST(the_agenda_has_what_falls_due_by_a_rule_or_a_hire)
{
	CLOSES_SCENE struct yard yard;
	struct agenda agenda = {0};
	yard_open(&yard);
	yard.scene.periods[1] = yard.scene.periods[0];
	yard.scene.periods[1].from = day_of("2027-01-01");
	yard.scene.periods[1].use = USE_COMMERCIAL;
	yard.vessels[0].period_count = 2;
	(void)add(&yard, 0, "torch", "2026-03-01");
	add(&yard, 0, "bell", NULL)->hired_until = day_of("2027-03-01");
	(void)add(&yard, 1, "torch", "2026-04-01");
	scene_engine(&yard.scene);
	yard.scene.engine.rulebooks = yard.rulebooks;
	agenda_make(&yard.scene.engine, day_of("2026-11-25"), &yard.scene.arena, &agenda);
	assert_int_equal(agenda.count, 2);
	assert_int_equal(agenda.items[0].item, 1);
	assert_day(agenda.items[0].due, "2027-03-01");
	assert_string_equal(agenda.items[0].sheet, "");
	assert_int_equal(agenda.items[1].item, 2);
	assert_day(agenda.items[1].due, "2027-04-01");
	assert_string_equal(agenda.items[1].rule, "private");
	assert_string_equal(agenda.items[1].sheet, "test");
}

/* A manual lifejacket, which no rule of the sheet gives a day: it has a row once its cylinder is
 * gone or ashore alone, and none where it works, is in reserve, or went ashore with that. */
TEST(the_agenda_has_what_does_not_work_where_no_rule_gives_a_day)
{
	static const struct {
		enum place_state whole, part;
		enum part_trouble trouble;
	} ROWS[] = {{PLACE_ABOARD, PLACE_WITHDRAWN, PART_GONE},
	    {PLACE_STAND_IN, PLACE_LANDED, PART_LANDED},
	    {PLACE_ABOARD, PLACE_ABOARD, PART_FINE},
	    {PLACE_RESERVE, PLACE_WITHDRAWN, PART_FINE},
	    {PLACE_LANDED, PLACE_LANDED, PART_FINE},
	    {PLACE_WITHDRAWN, PLACE_WITHDRAWN, PART_FINE}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct yard yard;
		struct agenda agenda = {0};
		bool broken = ROWS[i].trouble != PART_FINE;
		yard_open(&yard);
		add(&yard, 0, "lifejacket-manual", NULL)->state = ROWS[i].whole;
		struct item *cylinder = add(&yard, 0, "gas-cylinder", NULL);
		cylinder->parent = 0;
		cylinder->state = ROWS[i].part;
		plan(&yard, NULL, 0, "2026-11-25");
		agenda_make(
		    &yard.scene.engine, day_of("2026-11-25"), &yard.scene.arena, &agenda);
		assert_int_equal(agenda.count, broken ? 1 : 0);
		if (broken) {
			const struct agenda_row *row = &agenda.items[0];
			assert_true(row->no_task && agenda_lacks_part(row));
			assert_int_equal(row->trouble, ROWS[i].trouble);
			assert_int_equal(row->due, DAY_NONE);
			assert_string_equal(agenda_task_word(row), "");
			assert_string_equal(row->not_working, "gas-cylinder");
		}
	}
}

/* Five rafts with three tasks each, and their renewal by the maker's word. */
TEST(the_agenda_has_every_task_of_every_piece)
{
	CLOSES_SCENE struct yard yard;
	struct agenda agenda = {0};
	const struct interval yearly = {.task = TASK_RENEW,
	    .months = 12,
	    .from = ANCHOR_LAST,
	    .from_said = true,
	    .paper = "manual"};
	yard_open(&yard);
	for (size_t i = 0; i < 5; i++) {
		struct item *raft = add(&yard, 0, "liferaft-canister", "2026-03-01");
		raft->intervals = &yearly;
		raft->interval_count = 1;
		scene_record(&yard.scene, raft, TASK_RENEW, "2026-03-01", NULL);
	}
	plan(&yard, NULL, 0, "2026-11-25");
	agenda_make(&yard.scene.engine, day_of("2026-11-25"), &yard.scene.arena, &agenda);
	assert_int_equal(agenda.count, 20);
	for (size_t i = 0; i < 20; i++) {
		assert_int_equal(agenda.items[i].item, i / 4);
		assert_day(agenda.items[i].due, "2027-03-01");
	}
}

/* ---- what counts as what ---- */

/* Nothing is on record of the raft: its inspection counts as the test all the same. */
TEST(what_counts_as_another_does_so_where_no_date_is_known)
{
	CLOSES_SCENE struct yard yard;
	yard_open(&yard);
	(void)add(&yard, 0, "liferaft-canister", NULL);
	plan(&yard, NULL, 0, "2026-11-25");
	const struct shore_lines *lines = &yard.lists[0].hand_in.items[0].lines;
	assert_int_equal(lines->count, 3);
	for (size_t i = 0; i < 3; i++) {
		assert_int_equal(lines->items[i].state, STATE_DATE_UNKNOWN);
		assert_int_equal(
		    lines->items[i].counted, lines->items[i].task == TASK_TEST);
	}
}

/* Of two tasks that count as each other the first is done; what counts as one that is
 * itself counted is done. */
TEST(of_tasks_that_count_as_each_other_one_is_done)
{
	struct pending each[2] = {{.doer = DOER_STATION, .line.counts = 1U << TASK_TEST},
	    {.doer = DOER_STATION, .line.counts = 1U << TASK_SERVICE}};
	each[0].line.task = TASK_SERVICE;
	each[1].line.task = TASK_TEST;
	mark_counted(each, 2, &each[0]);
	mark_counted(each, 2, &each[1]);
	assert_false(each[0].line.counted);
	assert_true(each[1].line.counted);
	assert_int_equal(each[1].line.counted_by, TASK_SERVICE);
	struct pending chain[3] = {{.doer = DOER_STATION, .line.counts = 1U << TASK_TEST},
	    {.doer = DOER_STATION, .line.counts = 1U << TASK_SERVICE},
	    {.doer = DOER_STATION}};
	chain[0].line.task = TASK_INSPECT;
	chain[1].line.task = TASK_TEST;
	chain[2].line.task = TASK_SERVICE;
	for (size_t i = 0; i < 3; i++) {
		mark_counted(chain, 3, &chain[i]);
	}
	assert_false(chain[0].line.counted);
	assert_true(chain[1].line.counted);
	assert_false(chain[2].line.counted);
	/* nor by what is done to another thing, or by its owner */
	each[1].line.counted = false;
	each[0].line.item = 1;
	mark_counted(each, 2, &each[1]);
	assert_false(each[1].line.counted);
	each[0].line.item = 0;
	each[0].doer = DOER_OWNER;
	mark_counted(each, 2, &each[1]);
	assert_false(each[1].line.counted);
}

RUN_TESTS(NULL, NULL)
