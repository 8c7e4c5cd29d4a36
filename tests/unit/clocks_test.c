/* What a single clock reads, and what it does not: days by hand from the rule as it stands
 * there. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

#define RULE(task, more, clocks)                                                         \
	"  - id: one\n    kinds: [tether]\n    task: " task "\n    doer: owner\n"        \
	"    grade: practice\n" more "    clocks:\n" clocks SOURCE

static struct item *
tether_under(struct scene *scene, const char *rules)
{
	scene_open(scene, rules);
	return scene_item(scene, "tether");
}

/* 400 days from 2 January 2026: a year and 35 days more. */
TEST(an_interval_in_days_is_counted_in_days)
{
	static const char *const RULES[] = {
	    RULE("renew", "", "      - { from: [fitted], days: 400 }\n"),
	    RULE("renew", "", "      - { from: [fitted], days: 1 }\n"),
	};
	static const char *const DUE[] = {"2027-02-06", "2026-01-03"};
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(&scene, RULES[0]);
	tether->fitted = stamp_of("2026-01-02");
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2026-01-02"), DUE[0]);
	struct clock_rule one = {.days = 1};
	assert_int_equal(clock_due(&one, day_of("2026-01-02")), day_of(DUE[1]));
}

/* The look of 2024 is the last one; what was serviced since counts as none. */
TEST(a_record_that_does_not_count_is_not_the_last)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(
	    &scene, RULE("inspect", "", "      - { from: [last], months: 12 }\n"));
	scene_record(&scene, tether, TASK_INSPECT, "2024-03-01", NULL);
	scene_record(&scene, tether, TASK_SERVICE, "2026-02-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_INSPECT, "2026-05-01"), "2025-03-01");
}

/* A test counts as the look. On 1 March 2026 both were done; of two papers of that day
 * the look's own date is the one that a rule of the look reads. */
TEST(of_one_day_the_rule_s_own_task_is_the_last)
{
	static const enum task ORDERS[][2] = {
	    {TASK_INSPECT, TASK_TEST}, {TASK_TEST, TASK_INSPECT}};

	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *tether =
		    tether_under(&scene, RULE("inspect", "    counts: [test]\n",
					     "      - { from: [last], months: 12 }\n"));
		scene_record(&scene, tether, ORDERS[i][0], "2026-03-01", NULL);
		scene_record(&scene, tether, ORDERS[i][1], "2026-03-01", NULL);
		struct obligation due =
		    scene_due(&scene, tether, TASK_INSPECT, "2026-05-01");
		assert_int_equal(due.due, day_of("2027-03-01"));
		assert_int_equal(due.binding->record->task, TASK_INSPECT);
	}
}

/* Used on 1 March 2026; what was done on 1 April ends that from 1 April on. */
TEST(what_is_done_after_a_use_ends_it_when_it_was_done)
{
	static const struct event USED = {.kind = EVENT_USED, .on = 20513};
	CLOSES_SCENE struct scene scene;
	struct item *tether =
	    tether_under(&scene, RULE("service", "", "      - { from: [event] }\n"));
	assert_int_equal(USED.on, day_of("2026-03-01"));
	tether->events = &USED;
	tether->event_count = 1;
	scene_record(&scene, tether, TASK_SERVICE, "2026-04-01", NULL);
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-03-15");
	assert_int_equal(due.state, STATE_OVERDUE);
	assert_int_equal(due.due, day_of("2026-02-28"));
	struct obligation *all = NULL;
	size_t count = 0;
	due_of_item(&scene.engine, 0, day_of("2026-04-01"), &scene.arena, &all, &count);
	assert_int_equal(count, 0);
}

/* The rule reads firing alone: what was used is out by what the thing says of itself. */
TEST(a_rule_reads_the_events_it_names_and_no_others)
{
	static const struct event USED = {.kind = EVENT_USED, .on = 20513};
	static const struct event FIRED = {.kind = EVENT_FIRED, .on = 20513};
	static const struct event *const EVENTS[] = {&FIRED, &USED, &USED};
	static const char *const RULES[] = {
	    RULE("service", "", "      - { from: [event], events: [fired] }\n"),
	    RULE("service", "", "      - { from: [event], events: [fired] }\n"),
	    RULE("service", "", "      - { from: [event] }\n"),
	};
	static const char *const BY[] = {"one", "event", "one"};
	for (size_t i = 0; i < 3; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *tether = tether_under(&scene, RULES[i]);
		tether->events = EVENTS[i];
		tether->event_count = 1;
		struct obligation due =
		    scene_due(&scene, tether, TASK_SERVICE, "2026-03-15");
		assert_string_equal(due.binding->rule_id, BY[i]);
		assert_int_equal(due.binding->anchor, ANCHOR_EVENT);
		assert_ptr_equal(due.binding->event, EVENTS[i]);
		assert_int_equal(due.binding->from, day_of("2026-03-01"));
		assert_int_equal(stamp_first(due.binding->stamp), day_of("2026-03-01"));
		assert_int_equal(due.due, day_of("2026-02-28"));
	}
}

/* The next date on a paper of a test is no date of the look, though the test counts as
 * one; that on a paper of the look is read by a rule that says so, and shaped by it. */
TEST(a_rule_reads_the_next_date_on_papers_of_its_own_task)
{
	static const char PAPER[] = RULE("inspect", "    counts: [test]\n",
	    "      - { from: [certificate], through: year-end }\n");
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(&scene, PAPER);
	scene_record(&scene, tether, TASK_TEST, "2026-01-10", "2027-01-10");
	assert_string_equal(
	    scene_state(&scene, tether, TASK_INSPECT, "2026-05-01"), "date-unknown");
	scene_record(&scene, tether, TASK_INSPECT, "2026-02-10", "2027-02-10");
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2026-05-01");
	/* the paper itself says the 10th, and the earlier binds; the rule's reading is beside it */
	assert_int_equal(due.due, day_of("2027-02-10"));
	assert_int_equal(due.readings[0].due, day_of("2027-12-31"));
	assert_int_equal(due.readings[0].anchor, ANCHOR_CERTIFICATE);
}

#define LEFT_TO_MAKER(from)                                                              \
	RULE("service", "", "      - { from: [" from "], interval: maker }\n")

static const struct interval EVERY_36_FIRST_1 = {
    .task = TASK_SERVICE, .months = 36, .first_months = 1, .paper = "manual"};
static const struct interval EVERY_36_FROM_MADE = {.task = TASK_SERVICE,
    .months = 36,
    .from = ANCHOR_MADE,
    .from_said = true,
    .paper = "manual"};

/* Its first figure holds until it was first done, and never again. A month is the least there
 * is. */
TEST(the_maker_s_first_interval_is_for_the_first_time_alone)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(&scene, LEFT_TO_MAKER("last, packed"));
	tether->packed = stamp_of("2024-03-10");
	tether->intervals = &EVERY_36_FIRST_1;
	tether->interval_count = 1;
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2024-03-15");
	assert_int_equal(due.due, day_of("2024-04-10"));
	/* what the sheet leaves to the maker is of the maker at least */
	assert_int_equal(due.grade, GRADE_MAKER);
	assert_ptr_equal(due.binding->interval, &EVERY_36_FIRST_1);
	assert_int_equal(due.binding->months, 1);
	scene_record(&scene, tether, TASK_SERVICE, "2024-04-01", NULL);
	due = scene_due(&scene, tether, TASK_SERVICE, "2024-05-01");
	assert_int_equal(due.due, day_of("2027-04-01"));
	assert_int_equal(due.binding->months, 36);
	scene_record(&scene, tether, TASK_SERVICE, "2026-04-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_SERVICE, "2026-05-01"), "2029-04-01");
}

/* The paper says "from making". Done once, a clock that knows of the last time keeps what its sheet
 * says, wherever "last" stands in it; one that doesn't counts from making still. */
TEST(what_the_maker_counts_from_is_for_clocks_that_know_no_last_time)
{
	static const char *const RULES[] = {
	    LEFT_TO_MAKER("packed, last"),
	    LEFT_TO_MAKER("packed, bought"),
	};
	static const char *const DUE[] = {"2027-03-10", "2026-12-01"};
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *tether = tether_under(&scene, RULES[i]);
		tether->made = stamp_of("2023-12-01");
		tether->packed = stamp_of("2024-03-10");
		tether->intervals = &EVERY_36_FROM_MADE;
		tether->interval_count = 1;
		/* the earlier of both is told: the paper's own clock counts from making, too, where
		 * no rule asks for it */
		scene_record(&scene, tether, TASK_SERVICE, "2024-04-01", NULL);
		struct obligation due =
		    scene_due(&scene, tether, TASK_SERVICE, "2024-05-01");
		assert_string_equal(due.readings[0].rule_id, "one");
		assert_int_equal(due.readings[0].due, day_of(DUE[i]));
	}
}

/* Without a window that keeps it there is no anniversary: done a month early, it is a
 * month earlier. */
TEST(a_window_that_starts_anew_keeps_no_day)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(&scene,
	    RULE("service", "    window: { early: 1, late: 1, next: from-done }\n",
		"      - { from: [last, fitted], months: 12 }\n"));
	tether->fitted = stamp_of("2024-03-15");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2024-04-01");
	assert_int_equal(due.due, day_of("2025-03-15"));
	assert_false(due.binding->kept);
	scene_record(&scene, tether, TASK_SERVICE, "2025-03-01", NULL);
	due = scene_due(&scene, tether, TASK_SERVICE, "2025-04-01");
	assert_int_equal(due.due, day_of("2026-03-01"));
	assert_false(due.binding->kept);
}

/* The first clock counts from buying, which is not known; that it was made is nothing to it. */
TEST(an_anniversary_counts_from_nothing_its_rule_does_not_name)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(
	    &scene, RULE("service", "    window: { early: 1, late: 1, next: from-due }\n",
			"      - { from: [bought], months: 12, holds: first }\n"
			"      - { from: [last], months: 12, holds: again }\n"));
	tether->made = stamp_of("2025-06-15");
	scene_record(&scene, tether, TASK_SERVICE, "2026-05-29", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_SERVICE, "2026-10-15"), "2027-05-29");
}

/* A slip in a sheet of one's own, of which "sheet check" tells, must not go round for ever. */
TEST(an_interval_of_nothing_ends)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(
	    &scene, RULE("service",
			"    window: { early: 1, late: 1, next: from-due-even-late }\n",
			"      - { from: [last, fitted], months: 0 }\n"));
	tether->fitted = stamp_of("2025-03-15");
	scene_record(&scene, tether, TASK_SERVICE, "2025-05-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_SERVICE, "2025-06-01"), "2025-03-15");
}

/* Of twelve months and twenty-four from the last time the shorter one's day is kept, in
 * whichever order they are written: looked at on 1 March 2024, and again on 1 February
 * 2025, within three months of 1 March 2025. */
TEST(the_anniversary_is_of_the_clock_that_ends_first)
{
	static const char *const CLOCKS[] = {
	    RULE("inspect", "    window: { early: 3, late: 3, next: from-due }\n",
		"      - { from: [last], months: 12 }\n"
		"      - { from: [last], months: 24 }\n"),
	    RULE("inspect", "    window: { early: 3, late: 3, next: from-due }\n",
		"      - { from: [last], months: 24 }\n"
		"      - { from: [last], months: 12 }\n")};
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *tether = tether_under(&scene, CLOCKS[i]);
		scene_record(&scene, tether, TASK_INSPECT, "2024-03-01", NULL);
		scene_record(&scene, tether, TASK_INSPECT, "2025-02-01", NULL);
		assert_string_equal(
		    scene_due_day(&scene, tether, TASK_INSPECT, "2025-06-01"),
		    "2026-03-01");
	}
}

/* The maker's interval is not known: 1 March 2025 is kept by the other clock, and the
 * date is unknown all the same. */
TEST(an_interval_that_is_not_known_gives_no_anniversary)
{
	CLOSES_SCENE struct scene scene;
	struct item *tether = tether_under(
	    &scene, RULE("inspect", "    window: { early: 3, late: 3, next: from-due }\n",
			"      - { from: [last], interval: maker }\n"
			"      - { from: [last], months: 12 }\n"));
	scene_record(&scene, tether, TASK_INSPECT, "2024-03-01", NULL);
	scene_record(&scene, tether, TASK_INSPECT, "2025-02-01", NULL);
	struct obligation due = scene_due(&scene, tether, TASK_INSPECT, "2025-06-01");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_string_equal(due.readings[0].asks, "interval");
	assert_int_equal(due.readings[1].due, day_of("2026-03-01"));
	assert_true(due.readings[1].kept);
}

RUN_TESTS(NULL, NULL)
