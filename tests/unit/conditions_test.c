/* Conditions that can't be told, and who does what a paper asks for. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

#define RULE(id, when)                                                                   \
	"  - id: " id "\n    kinds: [tether]\n    when: {" when "}\n    task: renew\n"   \
	"    doer: owner\n    grade: law\n    clocks:\n"                                 \
	"      - { from: [fitted], months: 24 }\n" SOURCE

/* The state of a tether fitted on 1 May 2025 by a rule that holds under a condition. */
static const char *
state_under(const char *rules, int length_cm, const char *made, const char **asks)
{
	struct scene scene;
	scene_open(&scene, rules);
	scene.vessel.length_cm = length_cm;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2025-05-01");
	tether->made = stamp_of(made);
	struct obligation due = scene_due(&scene, tether, TASK_RENEW, "2026-11-25");
	*asks = due.readings[0].asks; /* a static name */
	const char *state = state_word(due.state);
	scene_close(&scene);
	return state;
}

static void
a_length_that_is_not_known_is_asked_for_and_not_supposed(void **state)
{
	(void)state;
	static const char RULES[] = RULE("long", "length-from: 10");
	const char *asks = NULL;
	assert_string_equal(state_under(RULES, 0, "", &asks), "date-unknown");
	assert_string_equal(asks, "length");
	assert_string_equal(state_under(RULES, 1000, "", &asks), "in-date");
	assert_string_equal(asks, "");
}

/* "2020" may be before or after 1 June 2020; its May and its June are not in doubt. */
static void
a_coarse_stamp_across_a_limit_can_not_be_told(void **state)
{
	(void)state;
	static const char RULES[] = RULE("new", "made-from: 2020-06-01");
	const char *asks = NULL;
	assert_string_equal(state_under(RULES, 0, "2020", &asks), "date-unknown");
	assert_string_equal(asks, "made-day");
	assert_string_equal(state_under(RULES, 0, "2020-06", &asks), "in-date");
	assert_string_equal(state_under(RULES, 0, "2021", &asks), "in-date");
	assert_string_equal(state_under(RULES, 0, "", &asks), "date-unknown");
	assert_string_equal(asks, "made");
}

/* The owner inspects it, by a rule that comes first; the station serves it. */
static void
a_paper_s_next_date_is_for_the_doer_of_its_own_task(void **state)
{
	(void)state;
	struct scene scene;
	scene_open(&scene,
	    "  - id: look\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"
	    "    grade: law\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: serve\n    kinds: [tether]\n    task: service\n    doer: authority\n"
	    "    grade: law\n    clocks:\n      - { from: [last], months: 36 }\n" SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_SERVICE, "2026-01-10", "2027-01-10");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-01-10"));
	assert_int_equal(due.doer, DOER_AUTHORITY);
	scene_close(&scene);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
	    cmocka_unit_test(a_length_that_is_not_known_is_asked_for_and_not_supposed),
	    cmocka_unit_test(a_coarse_stamp_across_a_limit_can_not_be_told),
	    cmocka_unit_test(a_paper_s_next_date_is_for_the_doer_of_its_own_task),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
