/* What a thing says of itself: the expiry printed on it, its papers' next dates. The days are
 * the marks themselves, through their last day, or worked by hand beside the check. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

#define READS(grade, when, shape)                                                        \
	"  - id: flare-mark\n    kinds: [flare-red-hand]\n    when: { " when             \
	" }\n    task: renew\n    doer: owner\n    grade: " grade "\n    clocks:\n"      \
	"      - { from: [marked]" shape " }\n" SOURCE

static struct item *
flare_marked_june_2025(struct scene *scene, const char *rules)
{
	scene_open(scene, rules);
	struct item *flare = scene_item(scene, "flare-red-hand");
	flare->expires = stamp_of("2025-06");
	return flare;
}

TEST(a_mark_is_read_before_the_rule_that_reads_it_comes_into_force)
{
	CLOSES_SCENE struct scene scene;
	struct item *flare =
	    flare_marked_june_2025(&scene, READS("law", "use: private", ""));
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[1] =
	    (struct period){.from = day_of("2027-10-01"), .use = USE_PRIVATE, .area = ""};
	scene.vessel.period_count = 2;
	struct obligation due = scene_due(&scene, flare, TASK_RENEW, "2026-10-15");
	assert_int_equal(due.due, day_of("2025-06-30"));
	assert_int_equal(due.state, STATE_EXPIRED);
	assert_int_equal(due.grade, GRADE_MAKER);
	assert_string_equal(due.binding->rule_id, "label");
	/* and by the law once that holds, since the same day */
	due = scene_due(&scene, flare, TASK_RENEW, "2027-10-01");
	assert_int_equal(due.due, day_of("2025-06-30"));
	assert_int_equal(due.grade, GRADE_LAW);
}

TEST(a_mark_is_read_where_its_rule_holds_no_longer_or_is_of_another_area)
{
	CLOSES_SCENE struct scene scene;
	struct item *flare =
	    flare_marked_june_2025(&scene, READS("law", "areas: [here]", ""));
	/* the area is not known: the rule can't be told, the label can */
	assert_string_equal(
	    scene_state(&scene, flare, TASK_RENEW, "2025-07-01"), "expired");
	scene.periods[0].area = "elsewhere";
	assert_string_equal(
	    scene_state(&scene, flare, TASK_RENEW, "2025-07-01"), "expired");
	assert_string_equal(
	    scene_due_day(&scene, flare, TASK_RENEW, "2025-01-01"), "2025-06-30");
}

TEST(a_law_shapes_the_day_of_a_mark)
{
	CLOSES_SCENE struct scene scene;
	struct item *flare = flare_marked_june_2025(
	    &scene, READS("law", "use: private", ", through: year-end"));
	struct obligation due = scene_due(&scene, flare, TASK_RENEW, "2025-07-15");
	assert_int_equal(due.due, day_of("2025-12-31"));
	assert_int_equal(due.grade, GRADE_LAW);
	scene_close(&scene);
	flare =
	    flare_marked_june_2025(&scene, READS("law", "use: private", ", before: yes"));
	assert_string_equal(
	    scene_due_day(&scene, flare, TASK_RENEW, "2025-01-15"), "2025-05-31");
}

TEST(common_practice_neither_lowers_the_grade_of_a_mark_nor_makes_it_later)
{
	CLOSES_SCENE struct scene scene;
	struct item *flare = flare_marked_june_2025(
	    &scene, READS("practice", "use: private", ", through: year-end"));
	struct obligation due = scene_due(&scene, flare, TASK_RENEW, "2025-01-15");
	assert_int_equal(due.due, day_of("2025-06-30"));
	assert_int_equal(due.grade, GRADE_MAKER);
	assert_true(obligation_fails_in(&due,
	    (struct span){day_of("2025-07-01"), day_of("2025-07-01")}, GRADE_MAKER));
}

TEST(a_flare_whose_mark_is_not_known_is_so_at_grade_maker)
{
	CLOSES_SCENE struct scene scene;
	struct item *flare =
	    flare_marked_june_2025(&scene, READS("practice", "use: private", ""));
	flare->expires = (struct stamp){0};
	struct obligation due = scene_due(&scene, flare, TASK_RENEW, "2025-01-15");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_int_equal(due.grade, GRADE_MAKER);
}

/* The sheets in which the faults were seen, each with a thing whose mark is long past. */
TEST(in_every_sheet_a_mark_long_past_is_expired)
{
	static const char *const SHEETS[] = {"australia.yaml", "canada-private.yaml",
	    "france-private.yaml", "germany-private.yaml", "italy-private.yaml",
	    "offshore-racing.yaml", "practice.yaml", "solas-convention.yaml",
	    "spain-recreational.yaml", "uk-private.yaml", "uk-small-commercial.yaml",
	    "us-recreational.yaml", "us-small-passenger.yaml",
	    "us-uninspected-passenger.yaml"};
	static const char *const KINDS[] = {"flare-red-hand", "epirb",
	    "hydrostatic-release", "lifejacket-light", "beacon-battery", "co-alarm",
	    "extinguisher-powder"};
	for (size_t i = 0; i < sizeof SHEETS / sizeof SHEETS[0]; i++) {
		SCENE(scene, SHEETS[i]);
		scene.periods[1] = (struct period){
		    .from = day_of("2027-10-01"), .use = USE_COMMERCIAL, .area = ""};
		scene.periods[2] = (struct period){.from = day_of("2028-10-01"),
		    .use = USE_PRIVATE,
		    .area = "queensland"};
		scene.vessel.period_count = 3;
		for (size_t j = 0; j < sizeof KINDS / sizeof KINDS[0]; j++) {
			struct item *item = scene_item(&scene, KINDS[j]);
			item->expires = stamp_of("2025-06");
			item->made = stamp_of("2023-01");
			static const char *const DAYS[] = {
			    "2026-10-15", "2027-12-01", "2028-12-01"};
			for (size_t k = 0; k < 3; k++) {
				struct obligation due =
				    scene_due(&scene, item, TASK_RENEW, DAYS[k]);
				if (due.due > day_of("2025-06-30") ||
				    due.state == STATE_IN_DATE ||
				    due.state == STATE_DATE_UNKNOWN ||
				    due.grade == GRADE_PRACTICE) {
					fail_msg("%s in %s on %s: %s", KINDS[j],
					    SHEETS[i], DAYS[k], state_word(due.state));
				}
			}
		}
	}
}

#define EXTINGUISHER                                                                     \
	"  - id: ext-service\n    kinds: [extinguisher-powder]\n    task: service\n"     \
	"    when: { use: private }\n    counts: [test]\n    doer: station\n"            \
	"    grade: law\n    clocks:\n"                                                  \
	"      - { from: [last, made], months: 12 }\n" SOURCE

static struct item *
extinguisher_served_and_tested(struct scene *scene)
{
	scene_open(scene, EXTINGUISHER);
	struct item *item = scene_item(scene, "extinguisher-powder");
	scene_record(scene, item, TASK_SERVICE, "2025-10-01", "2026-10-01");
	scene_record(scene, item, TASK_TEST, "2026-08-01", NULL);
	return item;
}

TEST(a_next_date_ends_with_a_later_task_that_counts_as_its_own)
{
	CLOSES_SCENE struct scene scene;
	struct item *item = extinguisher_served_and_tested(&scene);
	/* 12 months from the test, which counts as a service */
	assert_string_equal(
	    scene_due_day(&scene, item, TASK_SERVICE, "2026-11-01"), "2027-08-01");
	/* on the day before the test the paper still spoke */
	assert_string_equal(
	    scene_due_day(&scene, item, TASK_SERVICE, "2026-07-31"), "2026-10-01");
}

TEST(a_next_date_stays_where_the_rule_that_counts_the_other_task_does_not_hold)
{
	CLOSES_SCENE struct scene scene;
	struct item *item = extinguisher_served_and_tested(&scene);
	scene.periods[0].use = USE_COMMERCIAL;
	assert_string_equal(
	    scene_due_day(&scene, item, TASK_SERVICE, "2026-11-01"), "2026-10-01");
}

TEST(a_next_date_is_of_the_task_it_was_stated_for_alone)
{
	SCENE(scene, EXTINGUISHER);
	struct item *item = scene_item(&scene, "extinguisher-powder");
	/* the test's own paper; it says nothing of the service */
	scene_record(&scene, item, TASK_TEST, "2026-08-01", "2027-01-01");
	assert_string_equal(
	    scene_due_day(&scene, item, TASK_SERVICE, "2026-11-01"), "2027-08-01");
	assert_string_equal(
	    scene_due_day(&scene, item, TASK_TEST, "2026-11-01"), "2027-01-01");
}

/* The station looks at it, by a rule that comes first; whoever renews it is another. */
TEST(a_mark_is_for_the_doer_of_the_renewal)
{
	CLOSES_SCENE struct scene scene;
	struct item *flare = flare_marked_june_2025(&scene,
	    "  - id: look\n    kinds: [flare-red-hand]\n    task: inspect\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: renewal\n    kinds: [flare-red-hand]\n    task: renew\n"
	    "    doer: authority\n    grade: law\n    clocks:\n"
	    "      - { from: [made], months: 48 }\n" SOURCE
	    "  - id: again\n    kinds: [flare-red-hand]\n    task: renew\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [made], months: 60 }\n" SOURCE);
	flare->made = stamp_of("2023-01-10");
	struct obligation due = scene_due(&scene, flare, TASK_RENEW, "2024-01-01");
	assert_string_equal(due.binding->rule_id, "label");
	assert_int_equal(due.doer, DOER_AUTHORITY);
}

/* A rule that reads the mark of the first one alone, which has been renewed: the mark still
 * counts. */
TEST(a_mark_counts_where_its_rule_s_clock_is_done_with)
{
	SCENE(scene,
	    "  - id: first\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - { from: [marked], holds: first }\n" SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	tether->expires = stamp_of("2027-05");
	scene_record(&scene, tether, TASK_RENEW, "2025-05-01", NULL);
	struct obligation due = scene_due(&scene, tether, TASK_RENEW, "2026-01-01");
	assert_int_equal(due.due, day_of("2027-05-31"));
	assert_string_equal(due.binding->rule_id, "label");
}

/* That a monthly look counts the test is nothing to the paper of the yearly one. */
TEST(a_next_date_does_not_end_with_what_a_routine_counts)
{
	SCENE(scene, "  - id: monthly\n    kinds: [tether]\n    task: inspect\n"
		     "    counts: [test]\n    doer: owner\n    grade: law\n    clocks:\n"
		     "      - { from: [last], months: 1 }\n" SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_INSPECT, "2025-10-01", "2026-10-01");
	scene_record(&scene, tether, TASK_TEST, "2026-08-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_INSPECT, "2026-08-15"), "2026-10-01");
}

RUN_TESTS(NULL, NULL)
