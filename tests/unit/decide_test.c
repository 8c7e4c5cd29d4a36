/* Which of several clocks decides, and what is told when none can. The expected days are the
 * clocks' own sums: a length from a day, good through that day. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"
#define LOOK(id, grade, more)                                                            \
	"  - id: " id "\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"      \
	"    grade: " grade "\n" more SOURCE

/* Looked at on 1 January 2025: a look each year, with three months to either side of 1 January
 * 2026, and fourteen months from fitting, to 1 March 2026. The first falls due before the second
 * and lapses after it. */
static struct item *
a_year_with_a_window_beside_fourteen_months(struct scene *scene)
{
	scene_open(scene,
	    LOOK("yearly", "law",
		"    clocks:\n      - { from: [last], months: 12 }\n"
		"    window: { early: 3, late: 3, next: from-due }\n")
		LOOK("fitted", "law",
		    "    lapse: life-expired\n"
		    "    clocks:\n      - { from: [fitted], months: 14 }\n"));
	struct item *tether = scene_item(scene, "tether");
	tether->fitted = stamp_of("2025-01-01");
	scene_record(scene, tether, TASK_INSPECT, "2025-01-01", NULL);
	return tether;
}

TEST(a_day_to_come_is_judged_by_the_clock_that_has_lapsed_by_then)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = a_year_with_a_window_beside_fourteen_months(&scene);
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2025-06-01");
	assert_int_equal(due.due, day_of("2026-01-01"));
	assert_int_equal(due.good_through, day_of("2026-03-01"));
	assert_int_equal(obligation_state_on(&due, day_of("2026-03-01")), STATE_IN_DATE);
	assert_int_equal(
	    obligation_state_on(&due, day_of("2026-03-15")), STATE_LIFE_EXPIRED);
}

TEST(a_clock_still_inside_its_window_did_not_begin_the_lapse)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = a_year_with_a_window_beside_fourteen_months(&scene);
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2026-03-15");
	assert_string_equal(due.binding->rule_id, "fitted");
	for (size_t i = 0; i < due.reading_count; i++) {
		assert_false(due.readings[i].began);
	}
}

/* How binding the unknown date of a tether is that has two rules and no day of making. */
static void
check_unknown_grade(const char *rules)
{
	SCENE(scene, rules);
	struct item *tether = scene_item(&scene, "tether");
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2026-01-01");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_int_equal(due.grade, GRADE_LAW);
	assert_int_equal(due.due, DAY_NONE);
	assert_int_equal(due.good_through, DAY_NONE);
}

#define MADE "    clocks:\n      - { from: [made], months: 24 }\n"

TEST(an_unknown_date_is_as_binding_as_the_most_binding_rule_that_waits_for_it)
{
	check_unknown_grade(LOOK("one", "practice", MADE) LOOK("two", "law", MADE));
	check_unknown_grade(LOOK("one", "law", MADE) LOOK("two", "practice", MADE));
}

/* The law gives 1 May 2026; papers of that day and of the day after. */
TEST(a_paper_of_the_rule_s_own_day_allows_no_longer)
{
	static const struct {
		const char *next;
		bool longer;
	} PAPERS[] = {{"2026-05-01", false}, {"2026-05-02", true}};

	for (size_t i = 0; i < sizeof PAPERS / sizeof *PAPERS; i++) {
		CLOSES_SCENE struct scene scene;
		bool longer = false;
		scene_open(&scene, LOOK("yearly", "law",
				       "    clocks:\n"
				       "      - { from: [last], months: 12 }\n"));
		struct item *tether = scene_item(&scene, "tether");
		scene_record(&scene, tether, TASK_INSPECT, "2025-05-01", PAPERS[i].next);
		struct obligation due =
		    scene_due(&scene, tether, TASK_INSPECT, "2025-06-01");
		assert_string_equal(due.binding->rule_id, "yearly");
		for (size_t j = 0; j < due.reading_count; j++) {
			longer = longer || due.readings[j].paper_allows_longer;
		}
		assert_int_equal(longer, PAPERS[i].longer);
	}
}

/* A paper's next date ends with a test that the second of two rules counts as the service; that
 * rule counts from a day of making which is not known. */
TEST(a_paper_that_a_later_record_ended_tells_no_date_any_more)
{
	SCENE(scene,
	    "  - id: hire\n    kinds: [tether]\n    when: {use: commercial}\n"
	    "    task: service\n    doer: station\n    grade: law\n" MADE SOURCE
	    "  - id: all\n    kinds: [tether]\n    task: service\n    counts: [test]\n"
	    "    doer: station\n    grade: law\n" MADE SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_SERVICE, "2025-05-01", "2028-05-01");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_SERVICE, "2026-06-01"), "in-date");
	scene_record(&scene, tether, TASK_TEST, "2026-05-01", NULL);
	assert_string_equal(
	    scene_state(&scene, tether, TASK_SERVICE, "2026-06-01"), "date-unknown");
}

/* The same where the rule is of commercial use and she is let from 9 September 2026 on. */
TEST(a_paper_tells_no_date_on_the_days_of_a_rule_that_ended_it)
{
	SCENE(scene, "  - id: hire\n    kinds: [tether]\n    when: {use: commercial}\n"
		     "    task: service\n    counts: [test]\n    doer: station\n"
		     "    grade: law\n" MADE SOURCE);
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2026-09-09");
	scene.periods[1].use = USE_COMMERCIAL;
	scene.vessel.period_count = 2;
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_SERVICE, "2025-05-01", "2028-05-01");
	scene_record(&scene, tether, TASK_TEST, "2026-05-01", NULL);
	assert_string_equal(
	    scene_state(&scene, tether, TASK_SERVICE, "2026-06-01"), "in-date");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_SERVICE, "2026-10-01"), "date-unknown");
}

/* The second of three clocks of the second rule reads what it was used for, and names a test. */
TEST(a_use_that_some_clock_of_some_rule_reads_asks_for_no_service)
{
	static const struct event USED = {.kind = EVENT_USED, .on = 20000};
	CLOSES_SCENE struct scene scene;
	struct obligation *obligations = NULL;
	size_t count = 0;
	scene_open(&scene, LOOK("yearly", "law", MADE) LOOK("used", "law",
			       "    clocks:\n      - { from: [last], months: 12 }\n"
			       "      - { from: [event], events: [used] }\n"
			       "      - { from: [fitted], months: 12 }\n"));
	struct item *tether = scene_item(&scene, "tether");
	tether->made = stamp_of("2024-05-01");
	tether->events = &USED;
	tether->event_count = 1;
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2024-10-10");
	assert_string_equal(due.binding->rule_id, "used");
	due_of_item(
	    &scene.engine, 0, day_of("2024-10-10"), &scene.arena, &obligations, &count);
	assert_int_equal(count, 1);
}

/* Nothing to do for ever is not the same as a day that is not known. */
TEST(what_never_falls_due_has_no_day_and_never_lapses)
{
	static const struct obligation NEVER = {
	    .due = DAY_NONE, .good_through = DAY_NEVER};
	static const struct obligation UNKNOWN = {
	    .due = DAY_NONE, .good_through = DAY_NONE};
	static const struct obligation ENDS = {.due = 20000, .good_through = DAY_NEVER};
	static const struct obligation ASKS = {
	    .due = DAY_NONE, .good_through = DAY_NEVER, .asks = true};
	assert_true(obligation_never_falls_due(&NEVER));
	assert_true(obligation_is_idle(&NEVER));
	assert_false(obligation_never_falls_due(&UNKNOWN));
	assert_false(obligation_never_falls_due(&ENDS));
	assert_true(obligation_never_falls_due(&ASKS));
	assert_false(obligation_is_idle(&ASKS));
}

RUN_TESTS(NULL, NULL)
