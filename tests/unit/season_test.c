/* Conditions about a boat's season, a cylinder's test and a rating: C.R.C. c. 1436 s. 119. */
#include "becket_test.h"
#include "scene.h"

#include <string.h>

/* A raft packed 2020-06-01 and served 2026-05-20 on a boat of which everything the 24 months
 * of s. 119(2) need is known: six months in use, no frost, dry storage, 14 years old at most
 * for both days below, and a cylinder test good to 2028-05-20, the day of the next service. */
static struct item *
open_canada(struct scene *scene)
{
	scene_open(scene, "canada-private.yaml");
	scene->periods[0].season_months = 6;
	scene->periods[0].above_freezing = 1;
	scene->periods[0].dry_storage = 1;
	struct item *raft = scene_item(scene, "liferaft-canister");
	raft->made = stamp_of("2020-06-01");
	raft->packed = stamp_of("2020-06-01");
	scene_record(scene, raft, TASK_TEST, "2024-01-10", "2028-05-20");
	scene_record(scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	return raft;
}

static const char *
due_of(struct scene *scene, const struct item *raft)
{
	return scene_due_day(scene, raft, TASK_SERVICE, "2026-11-25");
}

TEST(all_conditions_of_the_relaxation_give_twenty_four_months)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = open_canada(&scene);
	assert_string_equal(due_of(&scene, raft), "2028-05-20");
	assert_false(scene_due(&scene, raft, TASK_SERVICE, "2026-11-25").asks);
}

/* s. 119(1), and no question, where one of them is known not to hold. */
TEST(one_condition_that_does_not_hold_gives_twelve)
{
	for (int row = 0; row < 6; row++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = open_canada(&scene);
		struct period *period = &scene.periods[0];
		struct record *test = &scene.records[0][0];
		period->season_months = row == 0 ? 7 : 6;
		period->above_freezing = row == 1 ? -1 : 1;
		period->dry_storage = row == 2 ? -1 : 1;
		raft->made = stamp_of(row == 3 ? "2011-11-25" : "2020-06-01");
		test->next = stamp_of(row == 4   ? "2028-05-19"
				      : row == 5 ? "2028-05" /* from its first day */
						 : "2028-05-20");
		assert_string_equal(due_of(&scene, raft), "2027-05-20");
		assert_false(scene_due(&scene, raft, TASK_SERVICE, "2026-11-25").asks);
	}
}

/* s. 119(1) holds until what is not known was answered, and it is asked for by name. */
TEST(one_condition_that_is_not_known_is_asked_for_and_gives_twelve)
{
	static const char *const ASKS[] = {
	    "season-months", "above-freezing", "dry-storage", "made", "test", "test"};

	for (size_t row = 0; row < sizeof ASKS / sizeof ASKS[0]; row++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = open_canada(&scene);
		struct period *period = &scene.periods[0];
		period->season_months = row == 0 ? 0 : 6;
		period->above_freezing = row == 1 ? 0 : 1;
		period->dry_storage = row == 2 ? 0 : 1;
		if (row == 3) {
			raft->made = (struct stamp){0};
			raft->packed = (struct stamp){0};
		}
		scene.records[0][0].next = stamp_of(row == 4 ? "" : "2028-05-20");
		scene.records[0][0].task = row == 5 ? TASK_WEIGH : TASK_TEST;
		struct obligation service =
		    scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
		bool asked = false;
		for (size_t i = 0; i < service.reading_count; i++) {
			asked = asked || strcmp(service.readings[i].asks, ASKS[row]) == 0;
		}
		assert_true(asked && service.asks);
		assert_string_equal(due_of(&scene, raft), "2027-05-20");
	}
}

/* A raft that turns fifteen on 2028-01-10 loses the relaxation that day: 12 months from the
 * last service have passed by then. */
TEST(the_relaxation_ends_with_the_fifteenth_year)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = open_canada(&scene);
	raft->made = stamp_of("2013-01-10");
	assert_string_equal(due_of(&scene, raft), "2028-01-09");
}

/* Her season gets longer from 2027-08-01 on: 12 months from the last service have passed. */
TEST(what_is_said_of_the_season_may_change_on_a_day)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = open_canada(&scene);
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2027-08-01");
	scene.periods[1].season_months = 9;
	scene.vessel.period_count = 2;
	assert_string_equal(due_of(&scene, raft), "2027-07-31");
}

/* The tests of cylinders inside the raft count where the raft has none of its own, and the
 * earliest of them decides. */
TEST(the_test_may_be_on_record_with_the_cylinders_inside)
{
	static const struct {
		const char *second;
		const char *due;
	} ROWS[] = {{"2029-01-01", "2028-05-20"}, {"2028-05-19", "2027-05-20"},
	    {"", "2027-05-20"}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = open_canada(&scene);
		scene.records[0][0] = scene.records[0][1];
		raft->record_count = 1;
		for (size_t j = 0; j < 2; j++) {
			struct item *cylinder = scene_item(&scene, "gas-cylinder");
			cylinder->parent = 0;
			scene_record(&scene, cylinder, TASK_TEST, "2024-01-10",
			    j == 0 ? "2028-06-30" : ROWS[i].second);
		}
		assert_string_equal(due_of(&scene, raft), ROWS[i].due);
	}
}

#define RATED                                                                               \
	"  - id: any\n    kinds: [liferaft-canister]\n    task: service\n    doer: owner\n" \
	"    grade: law\n    clocks:\n      - {from: [last], months: 36}\n"                 \
	"    source: invented\n    standing: memory\n"                                      \
	"  - id: rated\n    kinds: [liferaft-canister]\n"                                   \
	"    when: {ratings: [SOLAS A, SOLAS B]}\n    task: service\n    doer: owner\n"     \
	"    grade: law\n    clocks:\n      - {from: [last], months: 12}\n"                 \
	"    source: invented\n    standing: memory\n"

TEST(a_rating_is_compared_but_for_capitals_blanks_and_hyphens)
{
	static const struct {
		const char *rating;
		const char *due;
		bool asks;
	} ROWS[] = {{"SOLAS A", "2027-05-20", false}, {"solas-b", "2027-05-20", false},
	    {"SolasA ", "2027-05-20", false}, {"SOLAS", "2029-05-20", false},
	    {"SOLAS AB", "2029-05-20", false},
	    {"", "2027-05-20", true}}; /* the stricter one until it is known */

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCENE(scene, RATED);
		struct item *raft = scene_item(&scene, "liferaft-canister");
		raft->rating = ROWS[i].rating;
		scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
		assert_string_equal(due_of(&scene, raft), ROWS[i].due);
		assert_int_equal(scene_due(&scene, raft, TASK_SERVICE, "2026-11-25").asks,
		    ROWS[i].asks);
	}
}

RUN_TESTS(NULL, NULL)
