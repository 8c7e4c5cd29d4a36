/* What is ashore, and what stands in for it, in the winter's list and in the muster. */
#include "becket_test.h"
#include "muster/muster.h"
#include "scene.h"
#include "winter/asked.h"

#define SOURCE "    source: test\n    standing: common practice\n"

/* A jacket is serviced yearly by a station, looked over yearly by the owner unless that was
 * done; its head is renewed by its mark. */
#define RULES                                                                            \
	"  - id: yearly\n    kinds: [lifejacket-auto, liferaft-valise]\n"                \
	"    task: service\n    doer: station\n    grade: maker\n    clocks:\n"          \
	"      - { from: [last], months: 12 }\n" SOURCE                                  \
	"  - id: look\n    kinds: [lifejacket-auto]\n    task: inspect\n"                \
	"    counts: [service]\n    doer: owner\n    grade: practice\n    clocks:\n"     \
	"      - { from: [last], months: 12 }\n" SOURCE                                  \
	"  - id: head\n    kinds: [firing-head]\n    task: renew\n    doer: owner\n"     \
	"    grade: maker\n    clocks:\n      - { from: [marked] }\n" SOURCE

static const struct yearly CLOSED = {12, 20, 1, 10};

/* 14 open days, closed from 20 December to 10 January. */
static struct station
depot(void)
{
	return (struct station){.name = "Depot",
	    .base = "",
	    .turn_round_days = 14,
	    .closed = &CLOSED,
	    .closed_count = 1,
	    .weekdays = 0x7f};
}

static struct shore_list
plan(struct scene *scene, const struct station *station, const char *today)
{
	struct shore_list list = {0};
	scene_engine(scene);
	const struct winter_request request = {.engine = &scene->engine,
	    .stations = station,
	    .station_count = station == NULL ? 0 : 1,
	    .today = day_of(today)};
	winter_plan_fleet(&request, &(size_t){0}, 1, &scene->arena, &list);
	return list;
}

static void
land(struct item *item, const char *station, const char *on)
{
	item->state = PLACE_LANDED;
	item->landed_to = station;
	item->landed_on = day_of(on);
}

/* A jacket with a head in it, last serviced on 20 January 2026. */
static struct item *
add_jacket(struct scene *scene, const char *mark)
{
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	scene_record(scene, jacket, TASK_SERVICE, "2026-01-20", NULL);
	struct item *head = scene_item(scene, "firing-head");
	head->parent = (size_t)(jacket - scene->items);
	head->expires = stamp_of(mark);
	return jacket;
}

TEST(what_is_ashore_is_not_handed_in_again_and_its_collect_day_is_named)
{
	CLOSES_SCENE struct scene scene;
	struct station station = depot();
	scene_open(&scene, RULES);
	struct item *jacket = add_jacket(&scene, "2029-06");
	/* due 20 January 2027: this winter's */
	struct shore_list before = plan(&scene, &station, "2026-12-01");
	assert_int_equal(before.hand_in.count, 1);
	assert_int_equal(before.ashore.count, 0);
	land(jacket, "Depot", "2026-12-01");
	land(&jacket[1], "Depot", "2026-12-01");
	struct shore_list list = plan(&scene, &station, "2026-12-05");
	assert_int_equal(list.hand_in.count, 0);
	assert_int_equal(list.ashore.count, 1);
	const struct ashore_line *line = &list.ashore.items[0];
	assert_int_equal(line->item, 0);
	assert_string_equal(line->station, "Depot");
	assert_int_equal(line->since, day_of("2026-12-01"));
	/* 2 to 15 December are 14 open days */
	assert_int_equal(line->collect, day_of("2026-12-15"));
	assert_false(line->assumed);
	assert_int_equal(line->tasks, 1U << TASK_SERVICE);
	assert_int_equal(line->due, day_of("2027-01-20"));
	/* the service counts as the owner's look */
	assert_int_equal(list.self.count, 0);
}

TEST(a_station_nobody_entered_is_taken_to_need_the_longest)
{
	SCENE(scene, RULES);
	struct item *jacket = add_jacket(&scene, "2029-06");
	land(jacket, "Elsewhere", "2026-12-01");
	land(&jacket[1], "Elsewhere", "2026-12-01");
	struct shore_list list = plan(&scene, NULL, "2026-12-05");
	assert_int_equal(list.ashore.count, 1);
	assert_true(list.ashore.items[0].assumed);
	/* 42 days, none of them closed: 30 in December, 12 in January */
	assert_int_equal(list.ashore.items[0].collect, day_of("2027-01-12"));
}

TEST(a_part_that_lapses_before_the_next_service_is_renewed_where_it_is)
{
	static const struct {
		const char *mark;
		bool renewed;
	} ROWS[] = {
	    {"2027-06", true}, /* in the coming season */
	    {"2027-11", true}, /* before 15 December 2027, when the jacket is due again */
	    {"2027-12", false}, /* good through the 31st, after that */
	    {"2029-06", false},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct station station = depot();
		scene_open(&scene, RULES);
		struct item *jacket = add_jacket(&scene, ROWS[i].mark);
		land(jacket, "Depot", "2026-12-01");
		land(&jacket[1], "Depot", "2026-12-01");
		struct shore_list list = plan(&scene, &station, "2026-12-05");
		assert_int_equal(list.ashore.count, 1);
		bool renewed = (list.ashore.items[0].tasks & 1U << TASK_RENEW) != 0;
		assert_int_equal(renewed, ROWS[i].renewed);
		assert_int_equal(list.buy.count, 0);
	}
}

TEST(a_part_that_stayed_aboard_is_the_owners_to_renew)
{
	CLOSES_SCENE struct scene scene;
	struct station station = depot();
	scene_open(&scene, RULES);
	struct item *jacket = add_jacket(&scene, "2027-06");
	land(jacket, "Depot", "2026-12-01");
	struct shore_list list = plan(&scene, &station, "2026-12-05");
	assert_int_equal(list.ashore.items[0].tasks, 1U << TASK_SERVICE);
	assert_int_equal(list.buy.count, 1);
	assert_int_equal(list.buy.items[0].item, 1);
}

TEST(what_is_ashore_is_due_as_before)
{
	SCENE(scene, RULES);
	struct item *jacket = add_jacket(&scene, "2029-06");
	land(jacket, "Depot", "2026-12-01");
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2027-02-01"), "2027-01-20");
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2027-02-01"), "overdue");
}

/* ---- hire ---- */

static struct item *
add_hired(struct scene *scene, const char *kind, const char *until)
{
	struct item *item = scene_item(scene, kind);
	item->state = PLACE_STAND_IN;
	item->hired_until = day_of(until);
	return item;
}

TEST(work_in_hand_costs_what_its_station_asks_at_the_age_it_was_landed)
{
	/* 400.00, from ten years 620.00; ten on 20 November 2026, two days after it was landed,
	 * and before the day asked about. The last service there was 350.00. */
	const struct station_price prices[] = {
	    {"liferaft-valise", true, TASK_SERVICE, 40000, 0},
	    {"liferaft-valise", true, TASK_SERVICE, 62000, 10},
	};
	CLOSES_SCENE struct scene scene;
	struct station station = depot();
	scene_open(&scene, RULES);
	struct item *raft = scene_item(&scene, "liferaft-valise");
	raft->made = stamp_of("2016-11-20");
	scene_record(&scene, raft, TASK_SERVICE, "2025-11-10", NULL);
	scene.records[0][0].price_minor = 35000;
	land(raft, "Depot", "2026-11-18");
	assert_int_equal(plan(&scene, &station, "2026-11-25").cost_minor, 35000);
	station.prices = prices;
	station.price_count = 2;
	assert_int_equal(plan(&scene, &station, "2026-11-25").cost_minor, 40000);
	raft->landed_on = day_of("2026-11-20");
	assert_int_equal(plan(&scene, &station, "2026-11-25").cost_minor, 62000);
	raft->landed_on = DAY_NONE;
	assert_int_equal(plan(&scene, &station, "2026-11-19").cost_minor, 40000);
	assert_int_equal(plan(&scene, &station, "2026-11-25").cost_minor, 62000);
	/* at a station that is not in the book, what it was last */
	raft->landed_to = "Elsewhere";
	assert_int_equal(plan(&scene, &station, "2026-11-25").cost_minor, 35000);
}

TEST(the_last_day_of_a_hire_is_a_day_to_give_it_back_by)
{
	SCENE(scene, RULES);
	struct item *raft = add_hired(&scene, "liferaft-valise", "2027-01-31");
	struct obligation hire = scene_due(&scene, raft, TASK_RENEW, "2026-12-05");
	assert_int_equal(hire.due, day_of("2027-01-31"));
	assert_int_equal(hire.state, STATE_IN_DATE);
	assert_non_null(hire.binding);
	assert_string_equal(hire.binding->rule_id, "hire");
	assert_int_equal(hire.binding->anchor, ANCHOR_HIRE);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_RENEW, "2027-01-31"), "in-date");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_RENEW, "2027-02-01"), "expired");
}

TEST(a_hire_does_not_make_an_unknown_date_known)
{
	SCENE(scene, RULES);
	struct item *head = add_hired(&scene, "firing-head", "2027-01-31");
	assert_string_equal(
	    scene_state(&scene, head, TASK_RENEW, "2026-12-05"), "date-unknown");
}

TEST(hired_gear_is_given_back_and_not_bought_and_later_work_on_it_is_not_planned)
{
	CLOSES_SCENE struct scene scene;
	struct station station = depot();
	scene_open(&scene, RULES);
	struct item *raft = add_hired(&scene, "liferaft-valise", "2027-01-31");
	/* due 1 June 2027, after it was given back */
	scene_record(&scene, raft, TASK_SERVICE, "2026-06-01", NULL);
	struct shore_list list = plan(&scene, &station, "2026-12-05");
	assert_int_equal(list.self.count, 1);
	assert_true(list.self.items[0].give_back);
	assert_int_equal(list.self.items[0].not_after, day_of("2027-01-31"));
	assert_int_equal(list.buy.count, 0);
	assert_int_equal(list.hand_in.count, 0);
	assert_int_equal(list.waits.count, 0);
}

static struct muster
muster_on(struct scene *scene, const char *day)
{
	struct muster muster = {0};
	day_t on = day_of(day);
	scene_engine(scene);
	muster_vessel(&scene->engine, 0, (struct span){on, on}, &scene->arena, &muster);
	return muster;
}

/* What the first line counts: flares by day and night, of which three are needed. */
static int
counted_on(struct scene *scene, const char *day)
{
	struct muster muster = muster_on(scene, day);
	int most = 0;
	for (size_t i = 0; i < muster.line_count; i++) {
		most = muster.lines[i].have > most ? muster.lines[i].have : most;
	}
	return most;
}

static struct item *
add_flares(struct scene *scene, const char *expires)
{
	struct item *flares = scene_item(scene, "flare-red-hand");
	flares->quantity = 3;
	flares->expires = stamp_of(expires);
	return flares;
}

TEST(what_is_ashore_in_reserve_or_gone_counts_in_no_muster)
{
	static const struct {
		enum place_state state;
		int counted;
	} ROWS[] = {
	    {PLACE_ABOARD, 3},
	    {PLACE_STAND_IN, 3},
	    {PLACE_RESERVE, 0},
	    {PLACE_LANDED, 0},
	    {PLACE_WITHDRAWN, 0},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, "us-recreational.yaml");
		scene.vessel.length_cm = 900;
		scene.periods[0].persons = 4;
		add_flares(&scene, "2029-06")->state = ROWS[i].state;
		assert_int_equal(counted_on(&scene, "2027-06-01"), ROWS[i].counted);
	}
}

TEST(a_stand_in_counts_up_to_the_last_day_of_its_hire)
{
	SCENE(scene, "us-recreational.yaml");
	scene.vessel.length_cm = 900;
	scene.periods[0].persons = 4;
	struct item *flares = add_flares(&scene, "2029-06");
	flares->state = PLACE_STAND_IN;
	flares->hired_until = day_of("2027-07-31");
	assert_int_equal(counted_on(&scene, "2027-07-31"), 3);
	assert_int_equal(counted_on(&scene, "2027-08-01"), 0);
	/* without a date of its own it counts on neither day */
	flares->expires = (struct stamp){0};
	assert_int_equal(counted_on(&scene, "2027-07-31"), 0);
}

/* What would be asked of the station of an item landed on a day. */
static unsigned
asked(struct scene *scene, size_t item, bool inside, const char *today)
{
	struct station station = depot();
	struct shore_list list = plan(scene, &station, today);
	unsigned tasks = 0;
	const struct at_counter piece = {&list, item, inside, day_of(today)};
	asked_of_station(&scene->engine, &piece, &scene->arena, &tasks);
	return tasks;
}

/* Served on 20 January 2026: due on 20 January 2027, in the winter of 2026. Its head is good
 * until the end of February 2027 and is opened with it; the look is its owner's. */
TEST(what_the_winter_has_a_station_do_is_asked_of_it)
{
	SCENE(scene, RULES);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	struct item *head = scene_item(&scene, "firing-head");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-01-20", NULL);
	head->parent = 0;
	head->expires = stamp_of("2027-02");
	assert_int_equal(asked(&scene, 0, false, "2026-11-25"), 1U << TASK_SERVICE);
	assert_int_equal(asked(&scene, 1, true, "2026-11-25"), 1U << TASK_RENEW);
	/* a winter later for both: nothing is wanted yet */
	jacket->record_count = 0;
	scene_record(&scene, jacket, TASK_SERVICE, "2026-11-20", NULL);
	head->expires = stamp_of("2031-02");
	assert_int_equal(asked(&scene, 0, false, "2026-11-25"), 0);
	assert_int_equal(asked(&scene, 1, true, "2026-11-25"), 0);
}

TEST(of_a_vessel_in_use_all_year_what_is_due_within_a_year_is_asked)
{
	SCENE(scene, RULES);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene.vessel.laid_up = false;
	scene_record(&scene, jacket, TASK_SERVICE, "2026-11-20", NULL);
	assert_int_equal(asked(&scene, 0, false, "2026-11-25"), 1U << TASK_SERVICE);
	/* its head: a year from the landing is the 25th, and no day more */
	struct item *head = scene_item(&scene, "firing-head");
	head->parent = 0;
	head->expires = stamp_of("2027-11-25");
	assert_int_equal(asked(&scene, 1, true, "2026-11-25"), 1U << TASK_RENEW);
	head->expires = stamp_of("2027-11-26");
	assert_int_equal(asked(&scene, 1, true, "2026-11-25"), 0);
}

RUN_TESTS(NULL, NULL)
