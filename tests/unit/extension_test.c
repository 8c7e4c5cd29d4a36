/* More time that an authority has given: what it moves, what it does not, and when it ends. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

/* A raft serviced yearly by a rule that says nothing of extensions; a test counts as well. */
#define RAFT                                                                             \
	"  - id: yearly\n    kinds: [liferaft-canister]\n    task: service\n"            \
	"    counts: [test]\n    doer: station\n    grade: law\n    clocks:\n"           \
	"      - { from: [last, fitted], months: 12 }\n" SOURCE

static struct extension
more_time(const char *given, const char *until)
{
	return (struct extension){.task = TASK_SERVICE,
	    .until = day_of(until),
	    .paper = "MA 1",
	    .given = day_of(given)};
}

/* The raft by `rules`, serviced on 20 May 2025, with more time until 1 October 2026. */
static struct item *
extended_raft(struct scene *scene, const char *rules, struct extension *extension)
{
	scene_open(scene, rules);
	struct item *raft = scene_item(scene, "liferaft-canister");
	scene_record(scene, raft, TASK_SERVICE, "2025-05-20", NULL);
	*extension = more_time("2026-04-01", "2026-10-01");
	raft->extensions = extension;
	raft->extension_count = 1;
	return raft;
}

TEST(it_holds_whatever_the_sheet_and_from_the_day_it_was_given)
{
	CLOSES_SCENE struct scene scene;
	struct extension extension;
	struct item *raft = extended_raft(&scene, RAFT, &extension);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
	assert_int_equal(due.due, day_of("2026-05-20"));
	assert_int_equal(due.good_through, day_of("2026-10-01"));
	assert_int_equal(due.state, STATE_IN_DATE);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-10-02"), "overdue");
	extension.given = day_of("2026-07-01");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-06-30"), "overdue");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-07-01"), "in-date");
}

/* What is done on the day it was given belongs to the period before it. A record that names
 * only a month may have been after that day. */
TEST(it_ends_with_the_next_record_of_its_task_or_of_one_that_counts_as_it)
{
	static const struct {
		enum task task;
		const char *on;
		bool ends;
	} CASES[] = {
	    {TASK_SERVICE, "2026-04-02", true},
	    {TASK_SERVICE, "2026-04-01", false},
	    {TASK_TEST, "2026-04-02", true},
	    {TASK_INSPECT, "2026-04-02", false},
	    {TASK_SERVICE, "2026-04", true},
	    {TASK_SERVICE, "2026-03", false},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct extension extension;
		struct item *raft = extended_raft(&scene, RAFT, &extension);
		/* 12 months from any of these days end in spring 2027 */
		extension.until = day_of("2028-01-01");
		scene_record(&scene, raft, CASES[i].task, CASES[i].on, NULL);
		struct obligation due =
		    scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
		assert_int_equal(due.good_through < day_of("2028-01-01"), CASES[i].ends);
	}
}

TEST(of_a_day_not_known_it_ends_with_any_record)
{
	CLOSES_SCENE struct scene scene;
	struct extension extension;
	struct item *raft = extended_raft(&scene, RAFT, &extension);
	extension.given = DAY_NONE;
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-06-01"), "overdue");
	raft->record_count = 0;
	raft->fitted = stamp_of("2025-05-20");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-06-01"), "in-date");
}

/* One month past 20 May is 20 June. */
TEST(a_rule_may_cap_it)
{
	CLOSES_SCENE struct scene scene;
	struct extension extension;
	struct item *raft = extended_raft(&scene, RAFT "    extension: 1\n", &extension);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
	assert_int_equal(due.good_through, day_of("2026-06-20"));
	assert_ptr_equal(due.binding->extension, &extension);
}

/* The window alone is good through 20 June. */
TEST(with_a_window_the_later_of_the_two_last_days_counts_never_their_sum)
{
	static const struct {
		const char *until;
		const char *good;
	} CASES[] = {{"2026-06-10", "2026-06-20"}, {"2026-07-10", "2026-07-10"}};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct extension extension;
		struct item *raft =
		    extended_raft(&scene, RAFT "    window: { late: 1 }\n", &extension);
		extension.until = day_of(CASES[i].until);
		struct obligation due =
		    scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
		assert_int_equal(due.good_through, day_of(CASES[i].good));
		assert_int_equal(due.due, day_of("2026-05-20"));
	}
}

TEST(a_certificate_s_next_date_is_an_interval_and_moves)
{
	CLOSES_SCENE struct scene scene;
	struct extension extension;
	struct item *raft = extended_raft(&scene, RAFT, &extension);
	raft->record_count = 0;
	scene_record(&scene, raft, TASK_SERVICE, "2025-05-20", "2026-05-20");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
	assert_int_equal(due.good_through, day_of("2026-10-01"));
}

TEST(an_event_is_not_moved)
{
	CLOSES_SCENE struct scene scene;
	struct extension extension;
	struct item *raft = extended_raft(&scene, RAFT, &extension);
	const struct event fired = {.kind = EVENT_FIRED, .on = day_of("2026-03-01")};
	raft->events = &fired;
	raft->event_count = 1;
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
	assert_int_equal(due.due, day_of("2026-02-28"));
	assert_int_equal(due.state, STATE_OVERDUE);
}

/* Months from fitting are an interval; what is life-expired when it lapses is an age limit. */
TEST(a_printed_date_and_an_age_limit_are_not_moved_but_months_from_fitting_are)
{
	SCENE(scene,
	    "  - id: marked\n    kinds: [flare-red-hand]\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE
	    "  - id: aged\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
	    "    grade: law\n    lapse: life-expired\n    clocks:\n"
	    "      - { from: [fitted], months: 24 }\n" SOURCE
	    "  - id: fitted\n    kinds: [hydrostatic-release]\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    clocks:\n"
	    "      - { from: [fitted], months: 24 }\n" SOURCE);
	struct extension extension = more_time("2026-04-01", "2026-10-01");
	extension.task = TASK_RENEW;
	static const char *const KINDS[] = {
	    "flare-red-hand", "lifejacket-light", "tether", "hydrostatic-release"};
	static const char *const GOOD[] = {
	    "2026-05-31", "2026-05-31", "2026-05-20", "2026-10-01"};
	for (size_t i = 0; i < 4; i++) {
		struct item *item = scene_item(&scene, KINDS[i]);
		item->extensions = &extension;
		item->extension_count = 1;
		item->expires = stamp_of(i < 2 ? "2026-05" : "");
		item->fitted = stamp_of("2024-05-20");
		struct obligation due = scene_due(&scene, item, TASK_RENEW, "2026-04-15");
		assert_int_equal(due.good_through, day_of(GOOD[i]));
	}
}

TEST(if_it_were_done_it_is_spent)
{
	CLOSES_SCENE struct scene scene;
	struct obligation after = {0};
	struct extension extension;
	struct item *raft = extended_raft(&scene, RAFT, &extension);
	extension.until = day_of("2029-01-01");
	(void)scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
	due_if_done(
	    &scene.engine, 0, TASK_SERVICE, day_of("2026-06-01"), &scene.arena, &after);
	assert_int_equal(after.good_through, day_of("2027-06-01"));
}

/* Given twice, the second time for longer; and once more for no longer than it is good anyhow. */
TEST(of_several_the_longest_holds_and_one_that_gives_nothing_is_not_named)
{
	CLOSES_SCENE struct scene scene;
	struct extension first;
	struct item *raft = extended_raft(&scene, RAFT, &first);
	const struct extension both[] = {first, more_time("2026-04-02", "2026-11-15")};
	raft->extensions = both;
	raft->extension_count = 2;
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-06-01");
	assert_int_equal(due.good_through, day_of("2026-11-15"));
	const struct extension nothing = more_time("2026-04-01", "2026-05-20");
	raft->extensions = &nothing;
	raft->extension_count = 1;
	due = scene_due(&scene, raft, TASK_SERVICE, "2026-05-01");
	assert_int_equal(due.good_through, day_of("2026-05-20"));
	assert_null(due.binding->extension);
}

RUN_TESTS(NULL, NULL)
