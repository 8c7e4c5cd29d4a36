/* The winter, by the examples of the design. */
#include "becket_test.h"
#include "draw.h"
#include "scene.h"
#include "winter/agenda.h"

#define SOURCE "    source: test\n    standing: common practice\n"

#define YEARLY                                                                           \
	"  - id: yearly\n    kinds: [lifejacket-auto, danbuoy-inflatable]\n"             \
	"    task: service\n    doer: station\n    grade: practice\n    clocks:\n"       \
	"      - { from: [last], months: 12 }\n" SOURCE                                  \
	"  - id: look\n    kinds: [first-aid-kit]\n    task: inspect\n    doer: owner\n" \
	"    grade: practice\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE

static const struct yearly CLOSED_MIDWINTER = {12, 20, 1, 31};

/* A station of 35 days that is shut from 20 December to 31 January. */
static struct station
slow_station(void)
{
	return (struct station){
	    .name = "Loft",
	    .base = "",
	    .turn_round_days = 35,
	    .closed = &CLOSED_MIDWINTER,
	    .closed_count = 1,
	};
}

TEST(closed_weeks_do_not_count_in_the_turn_round)
{
	struct station station = slow_station();
	/* 11 to 19 December are 9 days, 1 to 26 February the other 26; the 27th is a Saturday */
	assert_int_equal(
	    station_collect(&station, day_of("2026-12-11")), day_of("2027-03-01"));
	/* 14 to 19 December are 6, February 28 and 1 March the last */
	assert_int_equal(
	    station_collect(&station, day_of("2026-12-14")), day_of("2027-03-02"));
	/* 1 February and 35 days: Monday 8 March */
	assert_int_equal(
	    station_collect(&station, day_of("2027-02-01")), day_of("2027-03-08"));
}

TEST(the_last_hand_in_for_1_march_is_11_december)
{
	struct station station = slow_station();
	assert_int_equal(
	    station_last_hand_in(&station, day_of("2027-03-01")), day_of("2026-12-11"));
}

TEST(a_station_that_is_open_on_saturdays_works_all_week)
{
	const struct station station = {.turn_round_days = 14, .weekdays = 0x20};
	/* Saturday 9 January 2027 and 14 days: Saturday the 23rd, not 14 Saturdays on */
	assert_int_equal(
	    station_collect(&station, day_of("2027-01-09")), day_of("2027-01-23"));
}

TEST(her_own_days_count_where_the_stations_are_only_supposed)
{
	const struct span away = {day_of("2027-01-16"), day_of("2027-01-16")};
	struct station station = {.turn_round_days = 7};
	assert_true(station_open(&station, day_of("2027-01-15")));  /* a Friday */
	assert_false(station_open(&station, day_of("2027-01-09"))); /* a Saturday */
	station.goes = 0x20;
	assert_true(station_open(&station, day_of("2027-01-09")));
	assert_false(station_open(&station, day_of("2027-01-15")));
	station.away = &away;
	station.away_count = 1;
	/* the 16th she can't: a week later */
	assert_int_equal(
	    station_collect(&station, day_of("2027-01-09")), day_of("2027-01-23"));
	/* both known, and no day in common: the station's */
	station.weekdays = 0x1f;
	assert_true(station_open(&station, day_of("2027-01-15")));
}

TEST(the_last_hand_in_is_last_for_every_turn_round_and_day)
{
	struct station station = slow_station();
	for (int turn_round = 0; turn_round < 60; turn_round += 7) {
		station.turn_round_days = turn_round;
		for (day_t by = day_of("2027-01-10"); by < day_of("2027-04-20"); by++) {
			/* the slow way: the latest open day whose collect is in time */
			day_t slow = by;
			while (!station_open(&station, slow) ||
			       station_collect(&station, slow) > by) {
				slow--;
			}
			assert_int_equal(station_last_hand_in(&station, by), slow);
		}
	}
}

static struct winter
winter_on(const struct vessel *vessel, const char *day)
{
	struct winter winter = {0};
	assert_true(winter_at(vessel, day_of(day), &winter));
	return winter;
}

TEST(in_the_season_becket_speaks_of_the_next_winter)
{
	SCENE(scene, YEARLY);
	assert_int_equal(winter_on(&scene.vessel, "2026-11-25").year, 2026);
	assert_int_equal(winter_on(&scene.vessel, "2027-03-31").year, 2026);
	assert_int_equal(winter_on(&scene.vessel, "2027-04-01").year, 2027);
}

TEST(a_southern_winter_is_named_by_the_year_it_starts_and_ends_in)
{
	SCENE(scene, YEARLY);
	scene.vessel.lay_up = (struct yearly){6, 1, 8, 31};
	struct winter winter = winter_on(&scene.vessel, "2026-11-25");
	assert_int_equal(winter.year, 2027);
	assert_int_equal(winter.lay_up, day_of("2027-06-01"));
	assert_int_equal(winter.fitting_out, day_of("2027-08-31"));
}

static int
winter_of_jacket_serviced(struct scene *scene, const char *on, const char *today)
{
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	scene_record(scene, jacket, TASK_SERVICE, on, NULL);
	struct obligation due = scene_due(scene, jacket, TASK_SERVICE, today);
	return winter_of_obligation(&scene->vessel, &due, day_of(today));
}

TEST(what_lapses_on_the_last_day_of_the_season_is_done_this_winter)
{
	SCENE(scene, YEARLY);
	/* good through 30 October 2027: lapses on the 31st, the last day of the season */
	assert_int_equal(
	    winter_of_jacket_serviced(&scene, "2026-10-30", "2026-11-25"), 2026);
}

TEST(what_is_good_through_the_last_day_of_the_season_waits_for_the_next)
{
	SCENE(scene, YEARLY);
	assert_int_equal(
	    winter_of_jacket_serviced(&scene, "2026-10-31", "2026-11-25"), 2027);
}

TEST(what_has_lapsed_is_this_winters_while_she_is_laid_up_and_now_when_not)
{
	SCENE(scene, YEARLY);
	assert_int_equal(
	    winter_of_jacket_serviced(&scene, "2024-05-01", "2026-11-25"), 2026);
	assert_int_equal(
	    winter_of_jacket_serviced(&scene, "2024-05-01", "2026-07-25"), 0);
}

TEST(what_lapses_before_the_next_lay_up_is_to_be_done_now)
{
	SCENE(scene, YEARLY);
	assert_int_equal(
	    winter_of_jacket_serviced(&scene, "2025-09-15", "2026-08-01"), 0);
}

static struct shore_list
plan_for(
    struct scene *scene, const struct station *stations, size_t count, const char *today)
{
	struct shore_list list = {0};
	(void)scene_due(scene, &scene->items[0], scene->items[0].records[0].task, today);
	const struct winter_request request = {.engine = &scene->engine,
	    .stations = stations,
	    .station_count = count,
	    .today = day_of(today)};
	winter_plan_fleet(&request, &(size_t){0}, 1, &scene->arena, &list);
	return list;
}

TEST(a_yearly_service_before_31_october_is_a_trap_for_the_next_lay_up_on_1_november)
{
	SCENE(scene, YEARLY);
	struct odd_winter odd = {2026, {day_of("2026-10-10"), day_of("2027-03-31")}};
	scene.vessel.odd_winters = &odd;
	scene.vessel.odd_winter_count = 1;
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-12-01", NULL);
	struct station station = {
	    .weekdays = WEEKDAYS_ALL, .name = "Agent", .base = "", .turn_round_days = 14};
	struct shore_list list = plan_for(&scene, &station, 1, "2026-10-12");
	assert_int_equal(list.hand_in.count, 1);
	const struct trip *trip = &list.hand_in.items[0];
	assert_int_equal(trip->lines.items[0].not_before, day_of("2026-10-31"));
	assert_int_equal(trip->hand_in, day_of("2026-10-31"));
}

/* The raft's contents bind and are good through May 2027, in the season: they are renewed with
 * the service, so what it has to carry is the raft alone, and the first day that does is 31 October
 * as above. Serviced on the 12th it would lapse on 12 October 2027, 19 days before lay-up. Where
 * the next service is two years on, the second part, good through 15 February 2028, lapses after
 * the season but before it: it is renewed at this one too. */
TEST(what_is_renewed_with_a_service_does_not_hide_the_trap_nor_the_next_service)
{
	static const char *const MONTHS[] = {"12", "24"};
	for (size_t i = 0; i < 2; i++) {
		char rules[1024];
		(void)snprintf(rules, sizeof rules,
		    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
		    "    doer: station\n    grade: law\n    contents-bind: yes\n"
		    "    clocks:\n      - { from: [last], months: %s }\n" SOURCE
		    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
		    "    doer: station\n    grade: law\n    clocks:\n"
		    "      - { from: [marked] }\n" SOURCE,
		    MONTHS[i]);
		SCENE(scene, rules);
		struct odd_winter odd = {
		    2026, {day_of("2026-10-10"), day_of("2027-03-31")}};
		scene.vessel.odd_winters = &odd;
		scene.vessel.odd_winter_count = 1;
		struct item *raft = scene_item(&scene, "liferaft-canister");
		struct item *water = scene_item(&scene, "raft-contents");
		struct item *flares = scene_item(&scene, "raft-contents");
		scene_record(&scene, raft, TASK_SERVICE, "2025-12-01", NULL);
		water->parent = 0;
		water->expires = stamp_of("2027-05");
		flares->parent = 0;
		flares->expires = stamp_of("2028-02-15");
		struct station station = {.weekdays = WEEKDAYS_ALL,
		    .name = "Agent",
		    .base = "",
		    .turn_round_days = 14};
		struct shore_list list = plan_for(&scene, &station, 1, "2026-10-12");
		assert_int_equal(list.hand_in.count, 1);
		const struct trip *trip = &list.hand_in.items[0];
		assert_true(trip->lines.items[0].carries);
		assert_int_equal(
		    trip->hand_in, day_of(i == 0 ? "2026-10-31" : "2026-10-12"));
		assert_int_equal(trip->lines.count, i == 0 ? 2 : 3);
	}
}

TEST(what_a_person_put_on_the_list_to_buy_has_no_day_and_no_price)
{
	SCENE(scene, YEARLY);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-10-01", NULL);
	jacket->to_buy = "two cylinders";
	jacket->price_minor = 16400;
	struct shore_list list = plan_for(&scene, NULL, 0, "2026-11-25");
	assert_int_equal(list.wanted.count, 1);
	const struct shore_line *line = &list.wanted.items[0];
	assert_true(line->wanted);
	assert_string_equal(line->what, "two cylinders");
	assert_true(line->due == DAY_NONE && line->not_after == DAY_NONE);
	assert_int_equal(line->price_minor, -1);
	assert_int_equal(list.buy.count, 0);
	assert_int_equal(list.cost_minor, 0);
}

TEST(gear_must_be_back_a_margin_before_fitting_out)
{
	SCENE(scene, YEARLY);
	scene.vessel.margin_days = 30; /* 31 March less 30 days is 1 March */
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-12-01", NULL);
	struct station station = slow_station();
	struct shore_list list = plan_for(&scene, &station, 1, "2026-11-25");
	assert_int_equal(list.hand_in.count, 1);
	assert_int_equal(
	    list.hand_in.items[0].lines.items[0].not_after, day_of("2026-12-11"));
}

TEST(too_late_for_the_station_is_said_with_the_first_day_possible)
{
	SCENE(scene, YEARLY);
	scene.vessel.margin_days = 30;
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-12-01", NULL);
	struct station station = slow_station();
	struct shore_list list = plan_for(&scene, &station, 1, "2027-02-01");
	assert_int_equal(list.hand_in.count, 0);
	assert_int_equal(list.cannot.count, 1);
	assert_int_equal(list.cannot.items[0].first_possible, day_of("2027-03-08"));
}

TEST(what_the_owner_does_is_no_trip)
{
	SCENE(scene, YEARLY);
	struct item *kit = scene_item(&scene, "first-aid-kit");
	scene_record(&scene, kit, TASK_INSPECT, "2026-04-01", NULL);
	struct shore_list list = plan_for(&scene, NULL, 0, "2026-11-25");
	assert_int_equal(list.hand_in.count, 0);
	assert_int_equal(list.self.count, 1);
	assert_int_equal(list.self.items[0].not_after, day_of("2027-03-31"));
}

TEST(with_no_station_in_the_book_a_long_turn_round_is_assumed_and_said)
{
	SCENE(scene, YEARLY);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-12-01", NULL);
	struct shore_list list = plan_for(&scene, NULL, 0, "2026-11-25");
	assert_int_equal(list.hand_in.count, 1);
	assert_true(list.hand_in.items[0].assumed);
	/* 42 days before 31 March 2027 */
	assert_int_equal(
	    list.hand_in.items[0].lines.items[0].not_after, day_of("2027-02-17"));
}

TEST(what_is_bought_new_takes_its_own_and_its_parts_other_work_with_it)
{
	SCENE(scene,
	    "  - id: life\n    kinds: [lifejacket-auto]\n    task: renew\n    doer: owner\n"
	    "    grade: practice\n    lapse: life-expired\n    clocks:\n"
	    "      - { from: [made], months: 120 }\n" SOURCE
	    "  - id: service\n    kinds: [lifejacket-auto]\n    task: service\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: light\n    kinds: [lifejacket-light]\n    task: renew\n    doer: owner\n"
	    "    grade: practice\n    clocks:\n      - { from: [marked] }\n" SOURCE);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	struct item *lit_soon = scene_item(&scene, "lifejacket-light");
	struct item *lit_long = scene_item(&scene, "lifejacket-light");
	jacket->made = stamp_of("2016-08");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-10", NULL);
	lit_soon->parent = 0;
	lit_soon->expires = stamp_of("2027-04");
	lit_long->parent = 0;
	lit_long->expires = stamp_of("2029-04");
	struct shore_list list = plan_for(&scene, NULL, 0, "2026-11-25");
	assert_int_equal(list.buy.count, 1);
	assert_int_equal(list.buy.items[0].item, 0);
	assert_int_equal(list.hand_in.count, 0);
	assert_int_equal(list.waits.count, 0);
}

static void
expect_season(const struct vessel *vessel, int year, const char *first, const char *last)
{
	struct span season = {0};
	assert_true(season_of_year(vessel, year, &season));
	assert_int_equal(season.first, day_of(first));
	assert_int_equal(season.last, day_of(last));
}

/* Laid up 1 Nov to 31 Mar; in the south 1 Jun to 31 Aug; never. */
TEST(a_season_lies_between_two_winters_and_is_named_by_its_first_year)
{
	struct vessel vessel = {.laid_up = true, .lay_up = {11, 1, 3, 31}};
	expect_season(&vessel, 2027, "2027-04-01", "2027-10-31");
	struct odd_winter odd = {2027, {day_of("2027-12-05"), day_of("2028-03-20")}};
	vessel.odd_winters = &odd;
	vessel.odd_winter_count = 1;
	expect_season(&vessel, 2027, "2027-04-01", "2027-12-04");
	expect_season(&vessel, 2028, "2028-03-21", "2028-10-31");
	struct vessel south = {.laid_up = true, .lay_up = {6, 1, 8, 31}};
	expect_season(&south, 2026, "2026-09-01", "2027-05-31");
	struct vessel always = {0};
	expect_season(&always, 2027, "2027-01-01", "2027-12-31");
	/* A winter as long as the year leaves no season. */
	struct vessel never = {.laid_up = true, .lay_up = {1, 1, 12, 31}};
	struct span season = {0};
	assert_false(season_of_year(&never, 2027, &season));
	assert_false(season_at(&never, day_of("2027-05-01"), &season));
}

TEST(the_season_seen_from_a_day_is_what_is_left_of_it_or_the_next)
{
	static const struct {
		const char *day;
		const char *first;
		const char *last;
	} ROWS[] = {
	    {"2026-10-31", "2026-10-31", "2026-10-31"},
	    {"2026-11-01", "2027-04-01", "2027-10-31"},
	    {"2027-03-31", "2027-04-01", "2027-10-31"},
	    {"2027-04-01", "2027-04-01", "2027-10-31"},
	    {"2027-07-15", "2027-07-15", "2027-10-31"},
	};

	struct span season = {0};
	struct vessel vessel = {.laid_up = true, .lay_up = {11, 1, 3, 31}};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_true(season_at(&vessel, day_of(ROWS[i].day), &season));
		assert_int_equal(season.first, day_of(ROWS[i].first));
		assert_int_equal(season.last, day_of(ROWS[i].last));
	}
	struct vessel always = {0};
	assert_true(season_at(&always, day_of("2026-11-25"), &season));
	assert_int_equal(season.first, day_of("2026-11-25"));
	assert_int_equal(season.last, day_of("2026-12-31"));
}

/* By its header: what is not in date first, then by due day, then in the order of the gear. */
TEST(an_agenda_is_in_order_whatever_the_days_are)
{
	unsigned seed = 20261130;
	for (int round = 0; round < 30; round++) {
		CLOSES_SCENE struct scene scene;
		struct agenda agenda = {0};
		scene_open(&scene, YEARLY);
		for (int i = 0; i < 60; i++) {
			struct item *item = scene_item(&scene, "lifejacket-auto");
			scene_record(&scene, item, TASK_SERVICE, "2020-01-01", NULL);
			scene.records[i][0].on =
			    draw_stamp(&seed, round % 2 == 0 ? 1900 : 2025, 3);
			item->expires = draw_stamp(&seed, 1950, 150);
		}
		scene_engine(&scene);
		agenda_make(&scene.engine, day_of("2026-11-25"), &scene.arena, &agenda);
		assert_true(agenda.count >= 60);
		for (size_t i = 1; i < agenda.count; i++) {
			const struct agenda_row *a = &agenda.items[i - 1];
			const struct agenda_row *b = &agenda.items[i];
			bool late = b->state == STATE_IN_DATE;
			assert_true(late || a->state != STATE_IN_DATE);
			if (late == (a->state == STATE_IN_DATE)) {
				assert_true(a->due <= b->due);
				assert_true(a->due < b->due || a->item < b->item ||
					    (a->item == b->item && a->task < b->task));
			}
		}
	}
}

RUN_TESTS(NULL, NULL)
