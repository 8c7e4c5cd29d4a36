/* Windows that keep the anniversary, by hand. The arithmetic is months added to a day, as in
 * src/dates/day.h; that work done in time keeps the day it was due is the harmonised survey
 * system's way (read), one month either side MGN 553's (relayed). */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

#define WINDOWED(next)                                                                   \
	"  - id: yearly\n    kinds: [lifejacket-auto]\n    task: service\n"              \
	"    counts: [test]\n    doer: station\n    grade: law\n    clocks:\n"           \
	"      - { from: [bought, made], months: 12, holds: first }\n"                   \
	"      - { from: [last], months: 12, holds: again }\n"                           \
	"    window: { early: 1, late: 1, next: " next " }\n" SOURCE

/* A jacket on a boat in commercial use that follows the sheet for small commercial vessels,
 * whose service has a window of one month either side. */
static struct item *
jacket_on_a_small_commercial_boat(struct scene *scene)
{
	scene_open(scene, "uk-small-commercial.yaml");
	scene->periods[0].use = USE_COMMERCIAL;
	return scene_item(scene, "lifejacket-auto");
}

TEST(one_service_years_after_the_first_was_due_starts_anew)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	jacket->made = stamp_of("2018-06-15");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-05-29", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-10-15"), "2027-05-29");
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2026-10-15"), "in-date");
}

/* 2025-06-10 starts anew; the next was due on 10 June 2026, and 29 May is inside its month. */
TEST(a_service_inside_the_window_of_one_before_keeps_its_day)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	jacket->made = stamp_of("2018-06-15");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-06-10", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2026-05-29", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-10-15"), "2027-06-10");
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2026-10-15");
	assert_true(due.binding->kept);
	assert_int_equal(due.binding->from, day_of("2026-06-10"));
}

TEST(served_every_year_in_time_it_keeps_the_day_of_its_first_clock)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	jacket->made = stamp_of("2018-06-15");
	static const char *const DAYS[] = {"2019-05-29", "2020-05-29", "2021-05-29",
	    "2022-05-29", "2023-05-29", "2024-05-29", "2025-05-29", "2026-05-29"};
	for (size_t i = 0; i < sizeof DAYS / sizeof DAYS[0]; i++) {
		scene_record(&scene, jacket, TASK_SERVICE, DAYS[i], NULL);
	}
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-10-15"), "2027-06-15");
}

TEST(the_first_clock_counts_as_the_day_before_the_first_record)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	jacket->bought = stamp_of("2025-06-15");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-05-29", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-10-15"), "2027-06-15");
}

TEST(without_a_first_clock_the_first_record_starts_anew)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	scene_record(&scene, jacket, TASK_SERVICE, "2026-05-29", NULL);
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2026-10-15");
	assert_int_equal(due.due, day_of("2027-05-29"));
	assert_false(due.binding->kept);
}

/* Due on 15 March 2026; what a service on `done` makes of it, seen on 1 June 2026. */
static const char *
next_after(struct scene *scene, const char *rules, const char *done)
{
	scene_open(scene, rules);
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	scene_record(scene, jacket, TASK_SERVICE, "2025-03-15", NULL);
	scene_record(scene, jacket, TASK_SERVICE, done, NULL);
	return scene_due_day(scene, jacket, TASK_SERVICE, "2026-06-01");
}

/* The window of 15 March runs from 15 February to 15 April, both included. */
TEST(the_window_s_own_days_keep_the_day_and_those_beside_it_do_not)
{
	static const struct {
		const char *done;
		const char *due;
	} CASES[] = {
	    {"2026-02-14", "2027-02-14"},
	    {"2026-02-15", "2027-03-15"},
	    {"2026-03-15", "2027-03-15"},
	    {"2026-04-15", "2027-03-15"},
	    {"2026-04-16", "2027-04-16"},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		CLOSES_SCENE struct scene scene;
		assert_string_equal(
		    next_after(&scene, WINDOWED("from-due"), CASES[i].done),
		    CASES[i].due);
	}
}

TEST(a_survey_that_keeps_the_day_even_late_keeps_it_after_the_window)
{
	static const struct {
		const char *done;
		const char *due;
	} CASES[] = {
	    {"2026-02-14", "2027-02-14"},
	    {"2026-02-15", "2027-03-15"},
	    {"2026-04-16", "2027-03-15"},
	    {"2026-05-31", "2027-03-15"},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		CLOSES_SCENE struct scene scene;
		assert_string_equal(
		    next_after(&scene, WINDOWED("from-due-even-late"), CASES[i].done),
		    CASES[i].due);
	}
}

/* Due on 15 March 2022 and each 15 March since; done on 20 June 2024, when that of 2024 is the
 * last that had passed. Done on 15 March 2024 itself, that is the day it was done for. */
TEST(kept_even_late_whole_years_missed_keep_the_day_of_the_year_it_was_done_in)
{
	static const char *const DONE[] = {"2024-06-20", "2024-03-15"};
	for (size_t i = 0; i < sizeof DONE / sizeof DONE[0]; i++) {
		SCENE(scene, WINDOWED("from-due-even-late"));
		struct item *jacket = scene_item(&scene, "lifejacket-auto");
		scene_record(&scene, jacket, TASK_SERVICE, "2021-03-15", NULL);
		scene_record(&scene, jacket, TASK_SERVICE, DONE[i], NULL);
		assert_string_equal(
		    scene_due_day(&scene, jacket, TASK_SERVICE, "2024-07-01"),
		    "2025-03-15");
	}
}

TEST(a_yearly_beacon_test_done_late_keeps_its_day)
{
	SCENE(scene, "solas-convention.yaml");
	struct item *beacon = scene_item(&scene, "epirb");
	beacon->fitted = stamp_of("2022-04-15");
	scene_record(&scene, beacon, TASK_INSPECT, "2023-06-01", NULL);
	/* due 15 April 2023, done in June: the next is due in April all the same */
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_INSPECT, "2023-07-01"), "2024-04-15");
}

TEST(a_record_made_while_the_rule_was_not_in_force_starts_anew)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	scene.periods[0].use = USE_PRIVATE;
	scene.periods[1] = (struct period){
	    .from = day_of("2026-06-01"), .use = USE_COMMERCIAL, .area = ""};
	scene.vessel.period_count = 2;
	jacket->bought = stamp_of("2025-06-15");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-05-29", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-10-15"), "2027-05-29");
}

TEST(an_extension_or_a_certificate_never_becomes_the_next_anniversary)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_on_a_small_commercial_boat(&scene);
	struct extension extension = {.task = TASK_SERVICE,
	    .until = day_of("2026-12-31"),
	    .paper = "A 1",
	    .given = day_of("2026-06-01")};
	jacket->extensions = &extension;
	jacket->extension_count = 1;
	scene_record(&scene, jacket, TASK_SERVICE, "2025-06-10", "2026-12-10");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-11-30", NULL);
	/* due on 10 June 2026 by the rule: November is outside its month */
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-12-05"), "2027-11-30");
}

#define STAMP_END                                                                        \
	"  - id: yearly\n    kinds: [lifejacket-auto]\n    task: service\n"              \
	"    doer: station\n    grade: law\n    clocks:\n"                               \
	"      - { from: [made], months: 12, holds: first, stamp: end }\n"               \
	"      - { from: [last], months: 12, holds: again, stamp: end }\n"               \
	"    window: { early: 1, late: 1, next: from-due }\n" SOURCE

/* Made in June 2024, counted from the 30th: due on 30 June 2025. "May 2025" counts from its
 * 31st, inside that window; "April 2025" from its 30th, before it. */
TEST(a_stamp_that_counts_from_its_end_does_so_here_too)
{
	static const struct {
		const char *done;
		const char *due;
	} CASES[] = {{"2025-05", "2026-06-30"}, {"2025-04", "2026-04-30"}};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		SCENE(scene, STAMP_END);
		struct item *jacket = scene_item(&scene, "lifejacket-auto");
		jacket->made = stamp_of("2024-06");
		scene_record(&scene, jacket, TASK_SERVICE, CASES[i].done, NULL);
		assert_string_equal(
		    scene_due_day(&scene, jacket, TASK_SERVICE, "2025-09-01"),
		    CASES[i].due);
	}
}

TEST(two_records_of_one_day_are_one_doing)
{
	SCENE(scene, WINDOWED("from-due"));
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-03-15", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-01", NULL);
	scene_record(&scene, jacket, TASK_TEST, "2026-03-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-06-01"), "2027-03-15");
}

/* A printed date is good through its last day and no longer, window or none; and a thing
 * looked at before it runs out has not thereby earned its day for an anniversary. */
TEST(a_window_never_stretches_a_printed_date)
{
	SCENE(scene,
	    "  - id: marked\n    kinds: [epirb]\n    task: test\n    doer: station\n"
	    "    grade: law\n    clocks:\n      - { from: [marked] }\n"
	    "      - { from: [last], months: 12 }\n"
	    "    window: { early: 3, late: 3, next: from-due }\n" SOURCE);
	struct item *beacon = scene_item(&scene, "epirb");
	beacon->expires = stamp_of("2026-08");
	scene_record(&scene, beacon, TASK_TEST, "2026-07-10", NULL);
	struct obligation due = scene_due(&scene, beacon, TASK_TEST, "2026-07-20");
	assert_int_equal(due.good_through, day_of("2026-08-31"));
	for (size_t i = 0; i < due.reading_count; i++) {
		if (due.readings[i].anchor == ANCHOR_LAST) {
			assert_int_equal(due.readings[i].due, day_of("2027-07-10"));
		}
	}
}

/* Done on D: inside the window the day is kept, outside it starts anew. */
TEST(if_it_were_done_on_a_day_the_window_counts_as_well)
{
	CLOSES_SCENE struct scene scene;
	struct obligation after = {0};
	scene_open(&scene, WINDOWED("from-due"));
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-03-15", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-10", NULL);
	(void)scene_due(&scene, jacket, TASK_SERVICE, "2026-11-28");

	static const struct {
		const char *done;
		const char *due;
	} CASES[] = {
	    {"2027-02-14", "2028-02-14"},
	    {"2027-02-15", "2028-03-15"},
	    {"2027-04-15", "2028-03-15"},
	    {"2027-04-16", "2028-04-16"},
	    /* before the record of 2026, which then counts for nothing: due 15 March 2026 */
	    {"2026-02-20", "2027-03-15"},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		due_if_done(&scene.engine, 0, TASK_SERVICE, day_of(CASES[i].done),
		    &scene.arena, &after);
		assert_int_equal(after.due, day_of(CASES[i].due));
	}
}

TEST(due_is_the_day_itself_and_state_reads_the_window_s_last)
{
	SCENE(scene, WINDOWED("from-due"));
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-15", NULL);
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-03-15"));
	assert_int_equal(due.good_through, day_of("2027-04-15"));
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2027-04-15"), "in-date");
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2027-04-16"), "overdue");
}

/* The law's D is 15 March 2027, its window to 15 April; practice is good to the month's end. */
TEST(due_is_the_earliest_day_though_another_clock_runs_out_inside_the_window)
{
	SCENE(scene,
	    "  - id: to-month-end\n    kinds: [lifejacket-auto]\n"
	    "    task: service\n    doer: station\n"
	    "    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 12, through: month-end }\n" SOURCE WINDOWED(
		"from-done"));
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-15", NULL);
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-03-15"));
	assert_int_equal(due.good_through, day_of("2027-03-31"));
	assert_string_equal(due.binding->rule_id, "yearly");
	due = scene_due(&scene, jacket, TASK_SERVICE, "2027-03-31");
	assert_int_equal(due.due, day_of("2027-03-15"));
	assert_int_equal(due.state, STATE_IN_DATE);
	due = scene_due(&scene, jacket, TASK_SERVICE, "2027-04-01");
	assert_int_equal(due.state, STATE_OVERDUE);
	assert_int_equal(due.good_through, day_of("2027-03-31"));
	assert_string_equal(due.binding->rule_id, "to-month-end");
}

/* Laid up from 1 November: 15 October 2027 is in the season after the winter of 2026, though the
 * window runs into the next one. */
TEST(the_winter_is_that_of_the_day_and_not_of_the_window_s_last)
{
	SCENE(scene, WINDOWED("from-due"));
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-10-15", NULL);
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.good_through, day_of("2027-11-15"));
	assert_int_equal(
	    winter_of_obligation(&scene.vessel, &due, day_of("2026-11-25")), 2026);
}

/* Half-yearly while younger than 36 months: due on 12 March 2024, and the rule ends on 10
 * April, before the window does on 12 May. It never lapses, and still it falls due. */
TEST(a_day_is_told_though_its_rule_ends_before_the_window_does)
{
	SCENE(scene,
	    "  - id: young\n    kinds: [gas-cylinder]\n    when: { age-until: 36 }\n"
	    "    task: weigh\n    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [last], months: 18 }\n"
	    "    window: { early: 2, late: 2, next: from-done }\n" SOURCE);
	struct item *cylinder = scene_item(&scene, "gas-cylinder");
	cylinder->made = stamp_of("2021-04-11");
	scene_record(&scene, cylinder, TASK_WEIGH, "2022-09-12", NULL);
	struct obligation due = scene_due(&scene, cylinder, TASK_WEIGH, "2024-01-13");
	assert_int_equal(due.state, STATE_IN_DATE);
	assert_int_equal(due.due, day_of("2024-03-12"));
	assert_int_equal(due.good_through, DAY_NEVER);
	assert_false(obligation_never_falls_due(&due));
	assert_false(obligation_is_idle(&due));
	/* the rule is over */
	due = scene_due(&scene, cylinder, TASK_WEIGH, "2024-04-10");
	assert_int_equal(due.due, day_of("2024-03-12"));
}

RUN_TESTS(NULL, NULL)
