/* Conditions that can't be told, and who does what a paper asks for. */
#include "becket_test.h"
#include "scene.h"

#include <string.h>

#define SOURCE "    source: test\n    standing: common practice\n"

#define RULE(id, when)                                                                   \
	"  - id: " id "\n    kinds: [tether]\n    when: {" when "}\n    task: renew\n"   \
	"    doer: owner\n    grade: law\n    clocks:\n"                                 \
	"      - { from: [fitted], months: 24 }\n" SOURCE

/* The state of a tether fitted on 1 May 2025 by a rule that holds under a condition. */
static const char *
state_under(const char *rules, int length_cm, const char *made, const char **asks)
{
	SCENE(scene, rules);
	scene.vessel.length_cm = length_cm;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2025-05-01");
	tether->made = stamp_of(made);
	struct obligation due = scene_due(&scene, tether, TASK_RENEW, "2026-11-25");
	*asks = due.readings[0].asks; /* a static name */
	return state_word(due.state);
}

TEST(a_length_that_is_not_known_is_asked_for_and_not_supposed)
{
	static const char RULES[] = RULE("long", "length-from: 10");
	const char *asks = NULL;
	assert_string_equal(state_under(RULES, 0, "", &asks), "date-unknown");
	assert_string_equal(asks, "length");
	assert_string_equal(state_under(RULES, 1000, "", &asks), "in-date");
	assert_string_equal(asks, "");
}

/* "2020" may be before or after 1 June 2020; its May and its June are not in doubt. */
TEST(a_coarse_stamp_across_a_limit_can_not_be_told)
{
	static const char RULES[] = RULE("new", "made-from: 2020-06-01");
	const char *asks = NULL;
	assert_string_equal(state_under(RULES, 0, "2020", &asks), "date-unknown");
	assert_string_equal(asks, "made-day");
	assert_string_equal(state_under(RULES, 0, "2020-06", &asks), "in-date");
	assert_string_equal(state_under(RULES, 0, "2021", &asks), "in-date");
	assert_string_equal(state_under(RULES, 0, "", &asks), "date-unknown");
	assert_string_equal(asks, "made");
}

/* The least that each condition can ask. Fitted on 1 January 2024 a tether has expired
 * since 2 January 2026 where its rule holds, and has no task where it never does; on 1
 * May 2025 it is in date, or of unknown date where nobody can tell. One of 20 November is
 * a month old on 20 December, from which day on its rule holds and it is lapsed. */
TEST(a_condition_asks_something_from_its_least_value_on)
{
	static const struct {
		const char *when, *made, *rating, *fitted;
		int length_cm;
		const char *state, *due;
	} ROWS[] = {
	    {"age-from: 1", "2026-11-20", "", "2024-01-01", 0, "in-date", "2026-12-19"},
	    {"age-from: 1", "2026-10-20", "", "2024-01-01", 0, "expired", "2026-11-19"},
	    {"age-until: 1", "2020-01-01", "", "2024-01-01", 0, "", ""},
	    {"length-from: 0.01", "", "", "2025-05-01", 0, "date-unknown", ""},
	    {"length-below: 0.01", "", "", "2024-01-01", 1000, "", ""},
	    {"test-valid: 1", "", "", "2025-05-01", 0, "date-unknown", ""},
	    {"ratings: [5-B]", "", "", "2025-05-01", 0, "date-unknown", ""},
	    {"ratings: [5-B]", "", "5 b", "2024-01-01", 0, "expired", "2026-01-01"},
	    {"ratings: [5-B]", "", "34B", "2024-01-01", 0, "", ""},
	    {"marked: no", "", "", "2024-01-01", 0, "expired", "2026-01-01"},
	    {"marked: yes", "", "", "2024-01-01", 0, "", ""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT rules = {0};
		CLOSES_SCENE struct scene scene;
		text_add_format(&rules, RULE("r", "%s"), ROWS[i].when);
		scene_open(&scene, text_string(&rules));
		scene.vessel.length_cm = ROWS[i].length_cm;
		struct item *tether = scene_item(&scene, "tether");
		tether->made = stamp_of(ROWS[i].made);
		tether->rating = ROWS[i].rating;
		tether->fitted = stamp_of(ROWS[i].fitted);
		scene_engine(&scene);
		struct obligation *tasks = NULL;
		size_t count = 0;
		char due[DAY_ISO_SIZE] = "";
		due_of_item(
		    &scene.engine, 0, day_of("2026-11-25"), &scene.arena, &tasks, &count);
		const char *is = count == 0 ? "" : state_word(tasks[0].state);
		if (strcmp(is, ROWS[i].state) != 0 ||
		    strcmp(count == 0 ? "" : day_iso(tasks[0].due, due), ROWS[i].due) !=
			0) {
			fail_msg("%s: %s, \"%s\"", ROWS[i].when, is, due);
		}
	}
}

/* A boat that is private until 9 September 2026, commercial from then on. */
static void
becomes_commercial(struct scene *scene)
{
	scene->periods[1] = scene->periods[0];
	scene->periods[1].from = day_of("2026-09-09");
	scene->periods[1].use = USE_COMMERCIAL;
	scene->vessel.period_count = 2;
}

/* Two years from fitting end on 1 May 2022, by a rule of private boats of a length that is not
 * known; what is printed on it ends in June 2025, so the lapse goes on. */
TEST(a_rule_that_can_not_be_told_to_have_held_begins_the_lapse)
{
	SCENE(scene, RULE("long", "use: private, length-from: 10"));
	becomes_commercial(&scene);
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2020-05-01");
	tether->expires = stamp_of("2025-06");
	struct obligation due = scene_due(&scene, tether, TASK_RENEW, "2027-01-01");
	assert_int_equal(due.state, STATE_EXPIRED);
	assert_int_equal(due.due, day_of("2022-05-01"));
	assert_string_equal(due.binding->rule_id, "label");
}

/* Six persons or fewer, and for the time being it is not known how many there are. */
TEST(a_rule_that_surely_holds_later_may_hold_already)
{
	SCENE(scene, RULE("few", "persons-until: 6"));
	becomes_commercial(&scene);
	scene.periods[1].persons = 6;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2023-05-01");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_RENEW, "2024-05-01"), "date-unknown");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_RENEW, "2025-05-02"), "expired");
}

#define ON_USE(when)                                                                     \
	"  - id: used\n    kinds: [tether]\n    when: {" when "}\n    task: test\n"      \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [event], events: [used] }\n" SOURCE

/* The rule names a test; from the day it no longer holds, nothing but a service ends it. */
TEST(a_use_that_no_rule_reads_any_more_asks_for_a_service_from_then_on)
{
	static const struct event USED = {.kind = EVENT_USED, .on = 18000};
	SCENE(scene, ON_USE("use: private"));
	becomes_commercial(&scene);
	struct item *tether = scene_item(&scene, "tether");
	tether->events = &USED;
	tether->event_count = 1;
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-01-01");
	assert_int_equal(due.state, STATE_IN_DATE);
	assert_int_equal(due.due, day_of("2026-09-08"));
	assert_string_equal(
	    scene_state(&scene, tether, TASK_SERVICE, "2026-09-09"), "overdue");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_TEST, "2026-01-01"), "overdue");
}

/* Till then that service is of unknown date where a rule asks for it and can't start. */
TEST(a_clock_of_days_to_come_does_not_tell_today_s_date)
{
	static const struct event USED = {.kind = EVENT_USED, .on = 18000};
	SCENE(scene,
	    ON_USE("use: private") "  - id: serve\n    kinds: [tether]\n"
				   "    task: service\n    doer: station\n"
				   "    grade: law\n    clocks:\n"
				   "      - { from: [last], months: 12 }\n" SOURCE);
	becomes_commercial(&scene);
	struct item *tether = scene_item(&scene, "tether");
	tether->events = &USED;
	tether->event_count = 1;
	assert_string_equal(
	    scene_state(&scene, tether, TASK_SERVICE, "2026-01-01"), "date-unknown");
}

#define EVERY_YEAR(id, grade, lapse)                                                     \
	"  - id: " id "\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"      \
	"    grade: " grade "\n    lapse: " lapse "\n    clocks:\n"                      \
	"      - { from: [fitted], months: 12 }\n" SOURCE

/* Of two that end on one day the more binding is named, and of two alike the graver. */
TEST(of_clocks_that_end_on_one_day_the_most_binding_is_named)
{
	SCENE(scene, EVERY_YEAR("a", "practice", "life-expired") EVERY_YEAR(
			 "b", "law", "overdue") EVERY_YEAR("c", "law", "life-expired"));
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2025-05-01");
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2026-01-01");
	assert_int_equal(due.grade, GRADE_LAW);
	assert_string_equal(due.binding->rule_id, "c");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_INSPECT, "2026-05-02"), "life-expired");
}

/* The owner inspects it, by a rule that comes first; the station serves it. */
TEST(a_paper_s_next_date_is_for_the_doer_of_its_own_task)
{
	SCENE(scene,
	    "  - id: look\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: serve\n    kinds: [tether]\n    task: service\n    doer: authority\n"
	    "    grade: law\n    clocks:\n      - { from: [last], months: 36 }\n" SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_SERVICE, "2026-01-10", "2027-01-10");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-01-10"));
	assert_int_equal(due.doer, DOER_AUTHORITY);
}

RUN_TESTS(NULL, NULL)
