/* What puts gear out, and what puts it in again. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

/* A raft serviced every three years, and again once it was fired; a test counts as well. */
#define RAFT                                                                             \
	"  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"              \
	"    counts: [test]\n    doer: station\n    grade: practice\n    clocks:\n"      \
	"      - { from: [last], months: 36 }\n" SOURCE                                  \
	"  - id: fired\n    kinds: [liferaft-canister]\n    task: service\n"             \
	"    counts: [test]\n    doer: station\n    grade: practice\n    clocks:\n"      \
	"      - { from: [event], events: [fired] }\n" SOURCE

/* The same without a rule about events. */
#define QUIET_RAFT                                                                       \
	"  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"              \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 36 }\n" SOURCE

/* The same with a rule about events that holds in commercial use alone. */
#define HIRED_RAFT                                                                       \
	QUIET_RAFT                                                                       \
	"  - id: fired\n    kinds: [liferaft-canister]\n    when: {use: commercial}\n"   \
	"    task: renew\n    doer: station\n    grade: practice\n    clocks:\n"         \
	"      - { from: [event], events: [fired] }\n" SOURCE

static const char *const SHEETS[] = {RAFT, QUIET_RAFT};

enum { SHEET_COUNT = sizeof SHEETS / sizeof SHEETS[0] };

/* The raft of both, serviced on 10 February 2026. */
static struct item *
serviced_raft(struct scene *scene, const char *rules)
{
	scene_open(scene, rules);
	struct item *raft = scene_item(scene, "liferaft-canister");
	scene_record(scene, raft, TASK_SERVICE, "2026-02-10", NULL);
	return raft;
}

TEST(fired_twice_it_is_out_from_the_first)
{
	for (int i = 0; i < SHEET_COUNT; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = serviced_raft(&scene, SHEETS[i]);
		const struct event events[] = {
		    {.kind = EVENT_FIRED, .on = day_of("2026-03-01")},
		    {.kind = EVENT_FIRED, .on = day_of("2026-08-01")},
		};
		raft->events = events;
		raft->event_count = 2;
		assert_string_equal(
		    scene_state(&scene, raft, TASK_SERVICE, "2026-02-28"), "in-date");
		assert_string_equal(
		    scene_state(&scene, raft, TASK_SERVICE, "2026-05-01"), "overdue");
		assert_string_equal(
		    scene_due_day(&scene, raft, TASK_SERVICE, "2026-05-01"),
		    "2026-02-28");
		/* asked later about the same day */
		struct obligation due =
		    scene_due(&scene, raft, TASK_SERVICE, "2026-11-28");
		assert_int_equal(due.due, day_of("2026-02-28"));
		assert_int_equal(
		    obligation_state_on(&due, day_of("2026-05-01")), STATE_OVERDUE);
		assert_int_equal(
		    obligation_state_on(&due, day_of("2026-02-28")), STATE_IN_DATE);
	}
}

TEST(an_event_to_come_hides_none_before_it_and_does_not_count_yet)
{
	for (int i = 0; i < SHEET_COUNT; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = serviced_raft(&scene, SHEETS[i]);
		const struct event events[] = {
		    {.kind = EVENT_FIRED, .on = day_of("2026-03-01")},
		    {.kind = EVENT_FIRED, .on = day_of("2027-08-01")},
		};
		raft->events = events;
		raft->event_count = 2;
		assert_string_equal(
		    scene_due_day(&scene, raft, TASK_SERVICE, "2026-05-01"),
		    "2026-02-28");
		raft->events = &events[1];
		raft->event_count = 1;
		/* 36 months from 10 February 2026 */
		assert_string_equal(
		    scene_due_day(&scene, raft, TASK_SERVICE, "2026-05-01"),
		    "2029-02-10");
		assert_string_equal(
		    scene_state(&scene, raft, TASK_SERVICE, "2027-08-01"), "overdue");
	}
}

TEST(one_that_was_dealt_with_leaves_the_next_to_count)
{
	for (int i = 0; i < SHEET_COUNT; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = serviced_raft(&scene, SHEETS[i]);
		const struct event events[] = {
		    {.kind = EVENT_FIRED, .on = day_of("2026-03-01")},
		    {.kind = EVENT_FIRED, .on = day_of("2026-08-01")},
		};
		scene_record(&scene, raft, TASK_SERVICE, "2026-04-01", NULL);
		raft->events = events;
		raft->event_count = 2;
		assert_string_equal(
		    scene_due_day(&scene, raft, TASK_SERVICE, "2026-05-01"),
		    "2029-04-01");
		assert_string_equal(
		    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-28"),
		    "2026-07-31");
	}
}

/* What counts as the task of the rule that names the event deals with it; another does not. */
TEST(it_comes_back_only_by_the_task_its_rule_names)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = serviced_raft(&scene, RAFT);
	const struct event fired = {.kind = EVENT_FIRED, .on = day_of("2026-03-01")};
	raft->events = &fired;
	raft->event_count = 1;
	scene_record(&scene, raft, TASK_INSPECT, "2026-04-01", NULL);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-05-01"), "overdue");
	scene_record(&scene, raft, TASK_TEST, "2026-04-02", NULL);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-05-01"), "in-date");
}

/* On the event's own day; `record` and `event` are the entries they were written in, 0 where
 * that is not known. */
static const char *
state_of_one_day(const char *rules, int64_t record, int64_t event)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = serviced_raft(&scene, rules);
	const struct event fired = {
	    .kind = EVENT_FIRED, .on = day_of("2026-08-01"), .entered = event};
	raft->events = &fired;
	raft->event_count = 1;
	scene_record(&scene, raft, TASK_SERVICE, "2026-08-01", NULL);
	scene.records[0][1].entered = record;
	return scene_state(&scene, raft, TASK_SERVICE, "2026-08-02");
}

TEST(of_one_day_the_order_of_entry_decides_or_else_the_event_came_last)
{
	for (int i = 0; i < SHEET_COUNT; i++) {
		assert_string_equal(state_of_one_day(SHEETS[i], 8, 7), "in-date");
		assert_string_equal(state_of_one_day(SHEETS[i], 7, 8), "overdue");
		assert_string_equal(state_of_one_day(SHEETS[i], 7, 7), "overdue");
		assert_string_equal(state_of_one_day(SHEETS[i], 0, 0), "overdue");
		assert_string_equal(state_of_one_day(SHEETS[i], 7, 0), "overdue");
		assert_string_equal(state_of_one_day(SHEETS[i], 0, 7), "overdue");
	}
}

/* "August 2026" may have been before the 15th, when it was fired, or on its first day. */
TEST(a_coarse_record_of_the_event_s_own_month_is_in_doubt)
{
	static const char *const FIRED[] = {"2026-08-15", "2026-08-01"};
	for (int i = 0; i < 2; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = serviced_raft(&scene, RAFT);
		const struct event fired = {
		    .kind = EVENT_FIRED, .on = day_of(FIRED[i]), .entered = 1};
		raft->events = &fired;
		raft->event_count = 1;
		scene_record(&scene, raft, TASK_SERVICE, "2026-08", NULL);
		scene.records[0][1].entered = 2;
		assert_string_equal(
		    scene_state(&scene, raft, TASK_SERVICE, "2026-09-10"), "overdue");
	}
}

/* Done on the day it was fired, what is asked about comes after all that is on record. */
TEST(if_it_were_done_on_the_event_s_day_it_is_in_again)
{
	for (int i = 0; i < SHEET_COUNT; i++) {
		CLOSES_SCENE struct scene scene;
		struct obligation after = {0};
		struct item *raft = serviced_raft(&scene, SHEETS[i]);
		const struct event fired = {
		    .kind = EVENT_FIRED, .on = day_of("2026-08-01"), .entered = 9};
		raft->events = &fired;
		raft->event_count = 1;
		(void)scene_due(&scene, raft, TASK_SERVICE, "2026-08-01");
		due_if_done(&scene.engine, 0, TASK_SERVICE, day_of("2026-08-01"),
		    &scene.arena, &after);
		assert_int_equal(after.due, day_of("2029-08-01"));
		/* the day before, the event is still to come */
		due_if_done_seen(&scene.engine, 0,
		    (struct task_done){
			TASK_SERVICE, day_of("2026-07-31"), day_of("2026-08-01")},
		    &scene.arena, &after);
		assert_int_equal(after.due, day_of("2026-07-31"));
		assert_int_equal(after.state, STATE_OVERDUE);
	}
}

/* The description of events: the item is out. A rule that names the task in another use than
 * hers takes nothing from that. */
TEST(what_a_rule_of_another_use_deals_with_is_out_all_the_same)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = serviced_raft(&scene, HIRED_RAFT);
	const struct event fired = {.kind = EVENT_FIRED, .on = day_of("2026-03-01")};
	raft->events = &fired;
	raft->event_count = 1;
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-02-28"), "in-date");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-05-01"), "overdue");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-05-01"), "2026-02-28");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-02", NULL);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-05-02"), "in-date");
}

RUN_TESTS(NULL, NULL)
