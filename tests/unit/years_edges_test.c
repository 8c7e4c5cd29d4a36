/* The edges of the years ahead: boats in use all year or laid up later, things no price
 * or date is known of, and what is renewed at once. All sums and days are worked by hand:
 * a raft of RAFT_RULES is serviced every three years, every year from its tenth birthday
 * on, on 21 March where it is handed in for a fitting-out on the 31st. */
#include "becket_test.h"
#include "outlook_scene.h"

static const char RAFT[] = "liferaft-canister";
static const char LIGHT[] = "lifebuoy-light";

#define MARKED_LIGHT                                                                     \
	"  - id: light\n    kinds: [lifebuoy-light]\n    task: renew\n    doer: owner\n" \
	"    grade: practice\n    clocks:\n      - { from: [marked] }\n" SOURCE

static struct item *
raft_of(struct scene *scene, const char *made, const char *served, int64_t new_minor)
{
	struct item *raft = scene_item(scene, RAFT);
	raft->made = stamp_of(made);
	raft->price_minor = new_minor;
	scene_record(scene, raft, TASK_SERVICE, served, NULL);
	return raft;
}

static struct item *
light_of(struct scene *scene, const char *made, const char *expires)
{
	struct item *light = scene_item(scene, LIGHT);
	light->made = stamp_of(made);
	light->expires = stamp_of(expires);
	light->price_minor = 1100;
	return light;
}

/* Asks once more what was asked, as it has been changed. */
static void
ask_again(struct scene *scene, struct asked *asked)
{
	struct fault fault = {0};
	if (!outlook_make(&asked->ask, &scene->arena, &asked->plan, &fault)) {
		fail_msg("%s", fault.text);
	}
}

/* ---- whose years they are ---- */

/* Her years begin on 25 November, and all is done that day: good until 21 March 2028 the
 * raft goes in the second, which carries to 25 November 2030, through the fourth. Where
 * the station is shut for years it lapses in three of them. */
TEST(a_boat_in_use_all_year_has_her_work_done_on_the_day_asked_about)
{
	const struct span shut = {day_of("2026-11-01"), day_of("2036-04-30")};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	scene.vessel.laid_up = false;
	open_station(&asked, 40000, 5000);
	raft_of(&scene, "2022-03-01", "2025-03-21", -1);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.first_year, 2026);
	assert_true(asked.plan.all_year);
	assert_int_equal(asked.plan.minor, 45000);
	assert_int_equal(asked.plan.when_due_minor, 45000);
	assert_int_equal(asked.plan.gap_count, 0);
	assert_int_equal(asked.plan.line_count, 1);
	assert_int_equal(asked.plan.lines[0].by, day_of("2027-11-25"));
	asked.station.shut = &shut;
	asked.station.shut_count = 1;
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.minor, 0);
	assert_int_equal(asked.plan.gap_count, 3);
}

/* Nobody goes for years, whether she is laid up or not. */
TEST(while_nobody_goes_nothing_is_handed_in)
{
	const struct span away = {day_of("2026-11-01"), day_of("2036-04-30")};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	scene.vessel.away = &away;
	scene.vessel.away_count = 1;
	raft_of(&scene, "2022-03-01", "2024-03-10", -1);
	for (int laid_up = 0; laid_up < 2; laid_up++) {
		scene.vessel.laid_up = laid_up != 0;
		ask_plan(&scene, &asked, "2026-11-25", 1);
		assert_int_equal(asked.plan.minor, 0);
		assert_int_equal(asked.plan.gap_count, 1);
	}
}

/* Another boat in a scene. */
struct two_boats {
	struct vessel vessels[2];
	const struct rulebook *rulebooks[2];
	size_t both[2];
};

/* Seen on 15 January 2027 one boat is in the winter of 2026; the other, laid up from
 * October to December, has her first in 2027. */
static void
ask_both(
    struct scene *scene, struct asked *asked, struct two_boats *boats, size_t winters)
{
	*boats = (struct two_boats){
	    {scene->vessel, scene->vessel}, {scene->rulebook, scene->rulebook}, {0, 1}};
	boats->vessels[1].name = "Test too";
	boats->vessels[1].lay_up = (struct yearly){10, 1, 12, 31};
	scene->inventory.vessels = boats->vessels;
	scene->inventory.vessel_count = 2;
	ask_plan(scene, asked, "2027-01-15", winters);
	scene->engine.rulebooks = boats->rulebooks;
	asked->ask.vessels = boats->both;
	asked->ask.vessel_count = 2;
}

/* Her raft is good until 1 June 2028: it goes by 21 December 2027, in the second of the
 * winters. The other boat's goes in the first, by 21 March. Renewed at once it is in her
 * own first winter; and of one winter alone, there is none of hers. */
TEST(nothing_is_done_before_a_boats_first_winter)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	struct two_boats boats;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	raft_of(&scene, "2022-03-01", "2024-03-10", -1);
	raft_of(&scene, "2022-03-01", "2025-06-01", -1)->vessel = 1;
	ask_both(&scene, &asked, &boats, 3);
	ask_again(&scene, &asked);
	assert_int_equal(asked.plan.first_year, 2026);
	assert_false(asked.plan.all_year);
	assert_int_equal(asked.plan.minor, 90000);
	assert_int_equal(asked.plan.when_due_minor, 90000);
	assert_int_equal(asked.plan.gap_count, 0);
	assert_int_equal(asked.plan.line_count, 2);
	assert_int_equal(asked.plan.lines[0].item, 0);
	assert_int_equal(asked.plan.lines[0].by, day_of("2027-03-21"));
	assert_int_equal(asked.plan.lines[1].item, 1);
	assert_int_equal(asked.plan.lines[1].winter, 1);
	assert_int_equal(asked.plan.lines[1].by, day_of("2027-12-21"));
	/* no price is known of a new one, and it is told all the same */
	asked.ask.renew_now = 1;
	ask_again(&scene, &asked);
	assert_int_equal(asked.plan.minor, 45000);
	assert_int_equal(asked.plan.unpriced, 1);
	assert_int_equal(asked.plan.lines[1].task, TASK_RENEW);
	assert_int_equal(asked.plan.lines[1].winter, 1);
	asked.ask.renew_now = NO_ITEM;
	asked.ask.winters = 1;
	ask_again(&scene, &asked);
	assert_int_equal(asked.plan.minor, 45000);
	assert_int_equal(asked.plan.line_count, 1);
	assert_int_equal(asked.plan.gap_count, 0);
}

/* Whichever of the two it is. */
TEST(that_a_boat_is_in_use_all_year_is_told_of_either)
{
	for (size_t afloat = 0; afloat < 2; afloat++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		struct two_boats boats;
		scene_open(&scene, RAFT_RULES);
		open_station(&asked, 40000, 5000);
		ask_both(&scene, &asked, &boats, 1);
		boats.vessels[afloat].laid_up = false;
		ask_again(&scene, &asked);
		assert_true(asked.plan.all_year);
	}
}

/* From June 2027 she is in use all year; to begin with until June 2029, from when she is
 * laid up as before. */
static void
stay_afloat(struct scene *scene, size_t periods)
{
	scene->periods[0].says = SAYS_ANYTHING;
	scene->periods[0].base = "";
	scene->periods[0].laid_up = true;
	scene->periods[0].lay_up = scene->vessel.lay_up;
	scene->periods[1] = scene->periods[0];
	scene->periods[1].says = SAYS_LAY_UP;
	scene->periods[1].laid_up = false;
	scene->periods[1].from = day_of("2027-06-01");
	scene->periods[2] = scene->periods[0];
	scene->periods[2].says = SAYS_LAY_UP;
	scene->periods[2].from = day_of("2029-06-01");
	scene->vessel.period_count = periods;
}

/* The raft is good until 1 May 2028. Where a winter still comes, in 2029, the long season
 * before it is the first winter's: it goes in March 2027, and in March 2030. Where none
 * does her years begin on 1 November: it goes on that day in 2027, which carries to 2030,
 * through the last of the four. */
TEST(the_season_after_a_last_winter_is_hers_until_the_next_and_else_by_years)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	raft_of(&scene, "2022-03-01", "2025-05-01", -1);
	stay_afloat(&scene, 3);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.minor, 90000);
	assert_int_equal(asked.plan.gap_count, 0);
	assert_int_equal(asked.plan.lines[0].by, day_of("2027-03-21"));
	assert_int_equal(asked.plan.lines[1].by, day_of("2030-03-21"));
	stay_afloat(&scene, 2);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.minor, 45000);
	assert_int_equal(asked.plan.gap_count, 0);
	assert_int_equal(asked.plan.lines[0].by, day_of("2027-11-01"));
}

/* ---- dates and intervals ---- */

/* No other date, or one behind what is printed: nothing is learnt of the new one's, which
 * is taken to be printed three years on. It is renewed in the first winter, and in the
 * fourth. */
TEST(where_no_life_can_be_learnt_from_a_printed_date_it_is_assumed)
{
	static const struct {
		const char *made;
		size_t assumed;
	} ROWS[] = {{"", 1}, {"2027-06", 1}, {"2023-06-01", 0}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		scene_open(&scene, MARKED_LIGHT);
		open_station(&asked, 40000, 5000);
		light_of(&scene, ROWS[i].made, "2026-12");
		ask_plan(&scene, &asked, "2026-11-25", 4);
		assert_int_equal(asked.plan.assumed, ROWS[i].assumed);
		assert_int_equal(asked.plan.minor, 2200);
		assert_int_equal(asked.plan.lines[1].winter, 3);
	}
}

/* Of thirty months, due on 10 October 2027 and done on 21 March: from the day it was due
 * it is good until 10 April 2030, through the third season, and from the day it was done
 * until 21 September 2029. */
TEST(what_keeps_its_anniversary_is_done_less_often)
{
	static const struct {
		const char *window;
		int64_t minor;
	} ROWS[] = {{"    window: {early: 7, next: from-due}\n", 14000},
	    {"    window: {early: 7}\n", 28000}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		char rules[1024];
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		(void)snprintf(rules, sizeof rules,
		    "  - id: service\n    kinds: [lifejacket-auto]\n    task: service\n"
		    "    doer: station\n    grade: practice\n    clocks:\n"
		    "      - { from: [last], months: 30 }\n%s" SOURCE
		    "  - id: later\n    kinds: [lifejacket-auto]\n    task: service\n"
		    "    doer: station\n    grade: practice\n    clocks:\n"
		    "      - { from: [last], months: 60 }\n" SOURCE,
		    ROWS[i].window);
		scene_open(&scene, rules);
		open_station(&asked, 4000, 10000);
		scene_record(&scene, scene_item(&scene, "lifejacket-auto"), TASK_SERVICE,
		    "2025-04-10", NULL);
		ask_plan(&scene, &asked, "2026-11-25", 3);
		assert_int_equal(asked.plan.minor, ROWS[i].minor);
		assert_int_equal(asked.plan.gap_count, 0);
	}
}

/* ---- wholes and parts ---- */

#define BINDING(grade)                                                                   \
	"  - id: look\n    kinds: [liferaft-canister]\n    task: inspect\n"              \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [last, made], months: 120 }\n" SOURCE                           \
	"  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"           \
	"    doer: station\n    grade: " grade "\n    clocks:\n"                         \
	"      - { from: [last], months: 36 }\n    contents-bind: yes\n" SOURCE          \
	"  - id: light\n    kinds: [lifebuoy-light]\n    task: renew\n    doer: owner\n" \
	"    grade: practice\n    clocks:\n      - { from: [made], months: 36 }\n" SOURCE

/* A light that lapses in June 2027, by a rule that is not asked for: it matters where it
 * is in a raft whose own rule is, and makes the raft due with it. The same light by
 * itself does not. */
TEST(what_is_in_a_whole_that_it_binds_is_kept_in_date_as_the_whole_is)
{
	static const struct {
		const char *rules;
		int64_t minor;
	} ROWS[] = {{BINDING("maker"), 1100}, {BINDING("practice"), 0}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		scene_open(&scene, ROWS[i].rules);
		open_station(&asked, 40000, 5000);
		light_of(&scene, "2024-06-01", "");
		raft_of(&scene, "2022-03-01", "2026-03-10", -1);
		light_of(&scene, "2024-06-01", "")->parent = 1;
		ask_plan(&scene, &asked, "2026-11-25", 1);
		asked.ask.least = GRADE_MAKER;
		ask_again(&scene, &asked);
		assert_int_equal(asked.plan.minor, ROWS[i].minor);
		assert_int_equal(asked.plan.line_count, ROWS[i].minor > 0 ? 1 : 0);
		assert_int_equal(asked.plan.gap_count, 0);
		if (ROWS[i].minor > 0) {
			assert_int_equal(asked.plan.lines[0].item, 2);
		}
	}
}

/* A hired raft goes back, and is not planned; its owner's light in it is, by itself. Of
 * what no catalogue has, nothing is asked. */
TEST(a_part_of_what_is_not_planned_is_planned_by_itself)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES MARKED_LIGHT);
	open_station(&asked, 40000, 5000);
	raft_of(&scene, "2022-03-01", "2024-03-10", -1)->hired_until =
	    day_of("2027-10-31");
	light_of(&scene, "2024-06-01", "2027-06")->parent = 0;
	(void)scene_item(&scene, "no-such-kind");
	ask_plan(&scene, &asked, "2026-11-25", 1);
	assert_int_equal(asked.plan.items, 2);
	assert_int_equal(asked.plan.minor, 1100);
	assert_int_equal(asked.plan.line_count, 1);
	/* an engine that knows of no parts */
	scene.engine.first_part = NULL;
	scene.engine.next_part = NULL;
	ask_again(&scene, &asked);
	assert_int_equal(asked.plan.minor, 1100);
}

/* The light is good for years; asked to be renewed at once it is, in the first winter,
 * and the raft is not. */
TEST(a_part_is_renewed_at_once_where_that_is_asked)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES MARKED_LIGHT);
	open_station(&asked, 40000, 5000);
	raft_of(&scene, "2022-03-01", "2026-03-10", 150000);
	light_of(&scene, "2026-06-01", "2032-06")->parent = 0;
	ask_plan(&scene, &asked, "2026-11-25", 2);
	assert_int_equal(asked.plan.minor, 0);
	asked.ask.renew_now = 1;
	ask_again(&scene, &asked);
	assert_int_equal(asked.plan.minor, 1100);
	assert_int_equal(asked.plan.line_count, 1);
	assert_int_equal(asked.plan.lines[0].item, 1);
	assert_int_equal(asked.plan.lines[0].winter, 0);
}

#define RENEWED_ASHORE                                                                   \
	"  - id: life\n    kinds: [liferaft-canister]\n    task: renew\n"                \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [made], months: 120 }\n" SOURCE                                 \
	"  - id: bottle\n    kinds: [gas-cylinder]\n    task: test\n"                    \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last, made], months: 36 }\n" SOURCE

/* Ten years old on 1 March 2027, a raft is renewed at the station with her cylinder: 600
 * and the trip. Where the station is shut that winter she has lapsed in it, and is
 * renewed in the next. */
TEST(what_a_station_renews_goes_there_with_its_parts)
{
	const struct span shut = {day_of("2026-11-01"), day_of("2027-04-30")};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RENEWED_ASHORE);
	open_station(&asked, 40000, 5000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 0, 2000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 10, 8000);
	raft_of(&scene, "2017-03-01", "2026-03-10", 60000);
	struct item *cylinder = scene_item(&scene, "gas-cylinder");
	cylinder->parent = 0;
	cylinder->made = stamp_of("2018-03-01");
	scene_record(&scene, cylinder, TASK_TEST, "2025-03-10", NULL);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.minor, 65000);
	assert_int_equal(asked.plan.when_due_minor, 65000);
	assert_int_equal(asked.plan.line_count, 1);
	assert_int_equal(asked.plan.lines[0].doer, DOER_STATION);
	assert_int_equal(asked.plan.lines[0].station, 0);
	asked.station.shut = &shut;
	asked.station.shut_count = 1;
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.minor, 65000);
	assert_int_equal(asked.plan.gap_count, 1);
	assert_int_equal(asked.plan.lines[0].winter, 1);
}

/* Looked at every three years and good until 2029, its water until June 2027: when due it
 * is opened for that, by the only work there is on it. 400 + 41 + 50. */
TEST(a_whole_without_a_service_is_opened_by_the_work_there_is)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    "  - id: look\n    kinds: [liferaft-canister]\n    task: inspect\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 36 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [marked] }\n" SOURCE);
	open_station(&asked, 40000, 5000);
	struct item *raft = scene_item(&scene, RAFT);
	struct item *water = scene_item(&scene, "raft-contents");
	scene_record(&scene, raft, TASK_INSPECT, "2026-03-10", NULL);
	water->parent = 0;
	water->made = stamp_of("2023-01-01");
	water->expires = stamp_of("2027-06");
	water->price_minor = 4100;
	ask_plan(&scene, &asked, "2026-11-25", 2);
	assert_int_equal(asked.plan.when_due_minor, 49100);
	assert_int_equal(asked.plan.minor, 49100);
}

/* Of a raft that nothing is asked of, the water is good until June 2027 and renewed by a
 * station: 41 and the trip. */
TEST(what_is_inside_goes_ashore_with_a_whole_that_needs_nothing)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [marked] }\n" SOURCE);
	open_station(&asked, 40000, 5000);
	(void)scene_item(&scene, RAFT);
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->made = stamp_of("2023-01-01");
	water->expires = stamp_of("2027-06");
	water->price_minor = 4100;
	ask_plan(&scene, &asked, "2026-11-25", 1);
	assert_int_equal(asked.plan.minor, 9100);
	assert_int_equal(asked.plan.gap_count, 0);
}

RUN_TESTS(NULL, NULL)
