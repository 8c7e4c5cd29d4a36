/* The years ahead where a renewal is a refit: the thing goes on with its age, its service and its
 * test, and only its mark is new. By examples reckoned by hand. */
#include "becket_test.h"
#include "outlook_scene.h"

#include <string.h>

#define OF_EPIRB(id, task, clock)                                                        \
	"  - id: " id "\n    kinds: [epirb]\n    task: " task "\n    doer: station\n"    \
	"    grade: law\n    clocks:\n      - { " clock " }\n"
#define BATTERY OF_EPIRB("battery", "renew", "from: [marked]") "    refit: yes\n" SOURCE
#define SHELL OF_EPIRB("shell", "renew", "from: [made], months: 240") SOURCE
#define BEACON                                                                           \
	OF_EPIRB("service", "service", "from: [last, made], months: 60")                 \
	SOURCE OF_EPIRB("test", "test", "from: [last, made], months: 12") SOURCE BATTERY

/* An EPIRB of 2020 with its battery good through May 2027, serviced in 2024 and tested in 2026;
 * the station asks 120.00 for a service and 30.00 for a test. */
static struct item *
beacon_of_2020(struct scene *scene, struct asked *asked)
{
	struct item *beacon = scene_item(scene, "epirb");
	open_station(asked, 0, 5000);
	list_price(asked, "epirb", TASK_SERVICE, 0, 12000);
	list_price(asked, "epirb", TASK_TEST, 0, 3000);
	beacon->made = stamp_of("2020-03-01");
	beacon->expires = stamp_of("2027-05");
	scene_record(scene, beacon, TASK_SERVICE, "2024-02-10", NULL);
	scene_record(scene, beacon, TASK_TEST, "2026-03-10", NULL);
	return beacon;
}

/* The winters in which a task is done, as bits. */
static unsigned
winters_of(const struct outlook *plan, enum task task)
{
	unsigned winters = 0;
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		winters |= line->task == task ? 1U << line->winter : 0;
	}
	return winters;
}

/* Work is done on 21 March of 2027 to 2032, the seasons are of April to October. The test is
 * due every March, in all six winters. The service of 10 February 2024 is good into 2029: done
 * on 21 March 2029, the third winter, it is good into 2034. The battery is renewed in the first,
 * before 31 May 2027; which battery that date is of is not known, so the next is taken to be of
 * the sixty months of a beacon and not of the seven years since 2020: good through 21 March
 * 2032, renewed once more in the sixth. 6 x (50 + 30) + 120 + 2 x 90 = 780. Another beacon for
 * 600 saves one test with its trip and one battery: 600 + 5 x 80 + 90 + 120 at least. */
TEST(a_new_battery_leaves_a_beacons_service_and_test)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, BEACON);
	struct item *beacon = beacon_of_2020(&scene, &asked);
	list_price(&asked, "epirb", TASK_RENEW, 0, 9000);
	beacon->price_minor = 60000;
	ask_plan(&scene, &asked, "2026-11-25", 6);
	assert_int_equal(winters_of(&asked.plan, TASK_TEST), 077);
	assert_int_equal(winters_of(&asked.plan, TASK_SERVICE), 004);
	assert_int_equal(winters_of(&asked.plan, TASK_RENEW), 041);
	assert_int_equal(asked.plan.line_count, 9);
	assert_int_equal(asked.plan.minor, 78000);
	assert_int_equal(asked.plan.bound, 78000);
	assert_true(asked.plan.proven);
	assert_int_equal(asked.plan.gap_count, 0);
	assert_int_equal(asked.plan.assumed, 1);
	assert_int_equal(asked.plan.unknown_count, 0);
	for (size_t i = 0; i < asked.plan.line_count; i++) {
		const struct outlook_line *line = &asked.plan.lines[i];
		assert_int_equal(line->refit, line->task == TASK_RENEW);
		assert_int_equal(line->station, 0);
		assert_true(outlook_is_work(line));
	}
	/* each when it is due is the same here, but for the service, which comes so too */
	assert_int_equal(asked.plan.when_due_minor, 78000);
	struct outlook_sum sum = outlook_sum_of(&asked.plan, 6);
	assert_int_equal(sum.trips, 30000);
	assert_int_equal(sum.work, 48000);
	assert_int_equal(sum.new_gear, 0);
}

/* A battery put in on 2 May 2026 and good through May 2031: so long is the next, 1855 days. It
 * is renewed on 21 March 2031, the fifth winter, alone. */
TEST(a_refit_on_record_tells_how_long_the_next_mark_is)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, BEACON);
	struct item *beacon = beacon_of_2020(&scene, &asked);
	list_price(&asked, "epirb", TASK_RENEW, 0, 9000);
	scene_record(&scene, beacon, TASK_RENEW, "2026-05-02", NULL);
	scene.records[0][beacon->record_count - 1].refit = true;
	beacon->expires = stamp_of("2031-05");
	ask_plan(&scene, &asked, "2026-11-25", 10);
	/* 21 March 2031 and 1855 days are 18 April 2036: a day of the season after the tenth
	 * winter's work, in which it is renewed again */
	assert_int_equal(winters_of(&asked.plan, TASK_RENEW), 01020);
	assert_int_equal(asked.plan.assumed, 0);
}

/* No price of a battery: it counts as nothing, but it is named, with its station, and what a
 * new beacon costs (600.00) is not charged for it. */
TEST(a_price_of_a_refit_that_is_not_known_is_named)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, BEACON);
	beacon_of_2020(&scene, &asked)->price_minor = 60000;
	ask_plan(&scene, &asked, "2026-11-25", 6);
	assert_int_equal(asked.plan.minor, 60000);
	assert_int_equal(asked.plan.unpriced, 2);
	assert_int_equal(asked.plan.unknown_count, 1);
	const struct outlook_unknown *unknown = &asked.plan.unknowns[0];
	assert_int_equal(unknown->task, TASK_RENEW);
	assert_true(unknown->refit);
	assert_int_equal(unknown->station, 0);
	assert_int_equal(unknown->minor, -1);
}

/* Where a new beacon is 40.00 it is bought in the first winter in place of a battery and a test,
 * and its own test begins a year later: 40 + 5 x 80, its battery in the sixth 90. Serviced it is
 * by 21 March 2032, its fifth year: 120. Bought new again in the sixth in place of those:
 * 40 + 4 x 80 + 40 = 400. Every second winter a new one and every other a test: three of each,
 * 3 x 40 + 3 x 80 = 360; and nothing but new ones 6 x 40 = 240. */
TEST(another_beacon_is_bought_where_that_is_cheaper)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, BEACON);
	beacon_of_2020(&scene, &asked)->price_minor = 4000;
	list_price(&asked, "epirb", TASK_RENEW, 0, 9000);
	ask_plan(&scene, &asked, "2026-11-25", 6);
	assert_int_equal(asked.plan.minor, 24000);
	assert_int_equal(asked.plan.line_count, 6);
	assert_int_equal(asked.plan.trip_count, 0);
	assert_false(asked.plan.lines[0].refit);
	assert_int_equal(asked.plan.lines[0].doer, DOER_OWNER);
	assert_int_equal(outlook_sum_of(&asked.plan, 6).new_gear, 24000);
}

/* Where one rule renews the beacon itself a renewal to come is another one, as before: tested a
 * year after it at the earliest, so in all winters but the first. */
TEST(where_a_rule_renews_the_thing_itself_it_is_another)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, BEACON SHELL);
	beacon_of_2020(&scene, &asked);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(winters_of(&asked.plan, TASK_RENEW), 01);
	assert_int_equal(winters_of(&asked.plan, TASK_TEST), 06);
	assert_false(asked.plan.lines[0].refit);
}

/* What is to be bought now is another one, for its price. */
TEST(what_is_asked_to_be_new_now_is_no_refit)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	struct fault fault = {0};
	scene_open(&scene, BEACON);
	beacon_of_2020(&scene, &asked)->price_minor = 60000;
	ask_plan(&scene, &asked, "2026-11-25", 1);
	asked.ask.renew_now = 0;
	assert_true(outlook_make(&asked.ask, &scene.arena, &asked.plan, &fault));
	assert_int_equal(asked.plan.minor, 60000);
	assert_int_equal(asked.plan.line_count, 1);
	assert_false(asked.plan.lines[0].refit);
}

#define LIGHT                                                                            \
	"  - id: cells\n    kinds: [lifebuoy-light]\n    task: renew\n"                  \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [last], months: 12 }\n    refit: yes\n" SOURCE                  \
	"  - id: check\n    kinds: [lifebuoy-light]\n    task: service\n"                \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 36 }\n" SOURCE                                  \
	"  - id: look\n    kinds: [lifebuoy-light]\n    task: test\n"                    \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 36 }\n" SOURCE

/* Cells that the owner renews every March, in all six winters, whether the light goes ashore or
 * not. It goes in the second, before 1 May 2028, and in the fifth, before 21 March 2031 is past:
 * 2 x (40 + 25 + 50) = 230, and with a price of cells of 5.00 another 30. */
TEST(an_owners_cells_wait_for_no_station_and_make_no_trip)
{
	const struct outlook_price cells = {"lifebuoy-light", TASK_RENEW, 500, 0};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	struct fault fault = {0};
	scene_open(&scene, LIGHT);
	open_station(&asked, 0, 5000);
	list_price(&asked, "lifebuoy-light", TASK_SERVICE, 0, 4000);
	list_price(&asked, "lifebuoy-light", TASK_TEST, 0, 2500);
	struct item *light = scene_item(&scene, "lifebuoy-light");
	scene_record(&scene, light, TASK_SERVICE, "2025-05-01", NULL);
	scene_record(&scene, light, TASK_TEST, "2025-05-01", NULL);
	scene_record(&scene, light, TASK_RENEW, "2026-03-10", NULL);
	ask_plan(&scene, &asked, "2026-11-25", 6);
	assert_int_equal(winters_of(&asked.plan, TASK_RENEW), 077);
	assert_int_equal(winters_of(&asked.plan, TASK_SERVICE), 022);
	assert_int_equal(winters_of(&asked.plan, TASK_TEST), 022);
	assert_int_equal(asked.plan.minor, 23000);
	assert_int_equal(asked.plan.when_due_minor, 23000);
	assert_int_equal(asked.plan.unpriced, 6);
	assert_int_equal(asked.plan.gap_count, 0);
	assert_true(asked.plan.proven);
	asked.ask.prices = &cells;
	asked.ask.price_count = 1;
	assert_true(outlook_make(&asked.ask, &scene.arena, &asked.plan, &fault));
	assert_int_equal(asked.plan.minor, 26000);
	assert_int_equal(asked.plan.unpriced, 0);
}

RUN_TESTS(NULL, NULL)
