/* The maker's interval of one piece, and rules that leave theirs to the maker. The days are
 * worked by hand: months added to the day named, the day itself still in date. */
#include "becket_test.h"
#include "scene.h"

#include <string.h>

#define SOURCE "    source: test\n    standing: common practice\n"

#define PRACTICE                                                                         \
	"  - id: raft-practice\n    kinds: [liferaft-canister]\n    task: service\n"     \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [packed, made], months: 36, holds: first }\n"                   \
	"      - { from: [last], months: 24, holds: again }\n" SOURCE

#define LAW                                                                              \
	"  - id: raft-law\n    kinds: [liferaft-canister]\n    task: service\n"          \
	"    doer: station\n    grade: law\n    clocks:\n"                               \
	"      - { from: [last, packed], months: 30 }\n" SOURCE

/* The law says "as the maker says", within a month either side. */
#define ASKS                                                                             \
	"  - id: jacket-asks\n    kinds: [lifejacket-auto]\n    task: service\n"         \
	"    doer: station\n    grade: law\n    clocks:\n"                               \
	"      - { from: [last, bought, made], interval: maker }\n"                      \
	"    window: { late: 1 }\n" SOURCE                                               \
	"  - id: jacket-practice\n    kinds: [lifejacket-auto]\n    task: service\n"     \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last, bought, made], months: 24 }\n" SOURCE

static const struct interval EVERY_36_FIRST_48 = {
    .task = TASK_SERVICE,
    .months = 36,
    .first_months = 48,
    .from = ANCHOR_PACKED,
    .from_said = true,
    .paper = "manual",
};

static struct item *
raft_packed_in_2022(struct scene *scene, const char *rules)
{
	scene_open(scene, rules);
	struct item *raft = scene_item(scene, "liferaft-canister");
	raft->packed = stamp_of("2022-03-10");
	raft->intervals = &EVERY_36_FIRST_48;
	raft->interval_count = 1;
	return raft;
}

static const struct reading *
reading_of(const struct obligation *due, const char *rule)
{
	for (size_t i = 0; i < due->reading_count; i++) {
		if (strcmp(due->readings[i].rule_id, rule) == 0) {
			return &due->readings[i];
		}
	}
	fail_msg("no clock of %s", rule);
	return NULL;
}

/* 48 months from the purchase; practice alone would ask for the packing. */
TEST(practice_that_the_makers_interval_replaces_asks_for_nothing)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	struct interval bought = EVERY_36_FIRST_48;
	bought.from = ANCHOR_BOUGHT;
	raft->intervals = &bought;
	raft->bought = raft->packed;
	raft->packed = (struct stamp){0};
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2025-06-01");
	assert_int_equal(due.due, day_of("2026-03-10"));
	assert_int_equal(reading_of(&due, "raft-practice")->state, READING_REPLACED);
	assert_string_equal(reading_of(&due, "raft-practice")->asks, "");
	raft->interval_count = 0;
	due = scene_due(&scene, raft, TASK_SERVICE, "2025-06-01");
	assert_string_equal(reading_of(&due, "raft-practice")->asks, "packed");
}

TEST(the_makers_interval_takes_the_place_of_common_practice)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	/* 48 months from packing; practice alone would say 2025-03-10 */
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2025-06-01");
	assert_int_equal(due.due, day_of("2026-03-10"));
	assert_int_equal(due.state, STATE_IN_DATE);
	assert_int_equal(due.grade, GRADE_MAKER);
	assert_string_equal(due.binding->rule_id, "maker");
	assert_string_equal(due.binding->source, "manual");
	/* practice is still shown, with its own day */
	const struct reading *aside = reading_of(&due, "raft-practice");
	assert_int_equal(aside->state, READING_REPLACED);
	assert_int_equal(aside->due, day_of("2025-03-10"));
	/* then 36 from the service, where practice would say 24 */
	scene_record(&scene, raft, TASK_SERVICE, "2026-02-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-03-01"), "2029-02-01");
}

TEST(beside_a_law_the_earlier_wins)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, LAW);
	/* law: 30 months from packing, 2024-09-10; the maker's 48: 2026-03-10 */
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2023-01-01"), "2024-09-10");
	static const struct interval SHORT = {.task = TASK_SERVICE,
	    .months = 24,
	    .from = ANCHOR_PACKED,
	    .from_said = true,
	    .paper = "manual"};
	raft->intervals = &SHORT;
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2023-01-01");
	assert_int_equal(due.due, day_of("2024-03-10"));
	assert_int_equal(due.grade, GRADE_MAKER);
}

#define PRACTICE_COMMERCIAL                                                              \
	"  - id: raft-commercial\n    kinds: [liferaft-canister]\n"                      \
	"    when: { use: commercial }\n    task: service\n    doer: station\n"          \
	"    grade: practice\n    clocks:\n      - { from: [packed], months: 12 }\n" SOURCE

/* Packed 2022-03-10. Common practice of her commercial days would have lapsed on 2023-03-11; the
 * maker's 48 months end on 2026-03-10, and the lapse is from the day after. */
TEST(what_the_makers_interval_replaces_began_no_lapse_on_days_gone_by)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE_COMMERCIAL);
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[1] =
	    (struct period){.from = day_of("2026-06-01"), .use = USE_PRIVATE, .area = ""};
	scene.vessel.period_count = 2;
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-07-01"), "2026-03-10");
}

TEST(the_interval_known_last_is_the_one)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	static const struct interval BOTH[] = {
	    {.task = TASK_SERVICE,
		.months = 60,
		.from = ANCHOR_PACKED,
		.from_said = true,
		.paper = "old manual",
		.on = 1},
	    {.task = TASK_SERVICE,
		.months = 30,
		.from = ANCHOR_PACKED,
		.from_said = true,
		.paper = "new manual",
		.on = 2},
	};
	raft->intervals = BOTH;
	raft->interval_count = 2;
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2023-01-01"), "2024-09-10");
}

TEST(without_the_date_it_counts_from_the_task_is_of_unknown_date)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	raft->packed = (struct stamp){0};
	raft->made = stamp_of("2022-03-10");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2023-01-01");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_string_equal(reading_of(&due, "maker")->asks, "packed");
}

TEST(where_nothing_is_said_it_counts_from_manufacture)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	static const struct interval PLAIN = {
	    .task = TASK_SERVICE, .months = 36, .paper = "manual"};
	raft->made = stamp_of("2021-11-05");
	raft->intervals = &PLAIN;
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2023-01-01"), "2024-11-05");
}

/* A year alone begins on 1 January: 36 months on from 2019-01-01, not from the purchase. */
TEST(where_manufacture_is_not_known_it_counts_from_the_earliest_date)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	static const struct interval PLAIN = {
	    .task = TASK_SERVICE, .months = 36, .paper = "manual"};
	raft->intervals = &PLAIN;
	raft->packed = (struct stamp){0};
	raft->bought = stamp_of("2019-01-08");
	raft->fitted = stamp_of("2019");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2019-06-01"), "2022-01-01");
}

#define COUNTS_TESTS(id, when, counts)                                                   \
	"  - id: " id "\n    kinds: [liferaft-canister]\n" when "    task: service\n"    \
	"    counts: [" counts "]\n    doer: station\n    grade: practice\n"             \
	"    clocks:\n      - { from: [last], months: 60 }\n" SOURCE

/* Packed 2022-03-10: the first 48 months end 2026-03-10. Where the test of 2024-03-10 counts as a
 * service, 36 months from it end 2027-03-10. */
TEST(another_task_counts_where_every_rule_in_force_says_so)
{
	static const struct {
		const char *rules;
		const char *due;
	} CASES[] = {
	    {COUNTS_TESTS("one", "", "test"), "2027-03-10"},
	    {COUNTS_TESTS("one", "", "test") COUNTS_TESTS("two", "", "inspect"),
		"2026-03-10"},
	    {COUNTS_TESTS("one", "", "inspect") COUNTS_TESTS("two", "", "test"),
		"2026-03-10"},
	    {COUNTS_TESTS("one", "    when: { use: commercial }\n", "test"),
		"2026-03-10"},
	    {COUNTS_TESTS("one", "", "test")
		    COUNTS_TESTS("two", "    when: { use: commercial }\n", "inspect"),
		"2027-03-10"},
	};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = raft_packed_in_2022(&scene, CASES[i].rules);
		scene_record(&scene, raft, TASK_TEST, "2024-03-10", NULL);
		assert_string_equal(
		    scene_due_day(&scene, raft, TASK_SERVICE, "2025-01-01"),
		    CASES[i].due);
	}
}

TEST(a_renewal_by_the_maker_counts_from_the_same_date_each_time)
{
	SCENE(scene, PRACTICE);
	struct item *tether = scene_item(&scene, "tether");
	static const struct interval LIFE = {.task = TASK_RENEW,
	    .months = 120,
	    .from = ANCHOR_MADE,
	    .from_said = true,
	    .paper = "label"};
	tether->intervals = &LIFE;
	tether->interval_count = 1;
	tether->made = stamp_of("2024-03");
	/* bought new in 2026, made in 2024: ten years from making, not from the renewal */
	scene_record(&scene, tether, TASK_RENEW, "2026-05-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2026-11-25"), "2034-03-01");
}

/* Every 24 months from manufacture, the first after 48. Made 2022-05-01 the first one is to go on
 * 2026-05-01; put in as the second it is to go 24 months from when it was made, 2024-05-01. */
TEST(a_renewal_by_age_has_the_first_figure_until_it_was_renewed)
{
	SCENE(scene, PRACTICE);
	struct item *tether = scene_item(&scene, "tether");
	static const struct interval LIFE = {.task = TASK_RENEW,
	    .months = 24,
	    .first_months = 48,
	    .from = ANCHOR_MADE,
	    .from_said = true,
	    .paper = "label"};
	tether->intervals = &LIFE;
	tether->interval_count = 1;
	tether->made = stamp_of("2022-05-01");
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2022-06-01"), "2026-05-01");
	scene_record(&scene, tether, TASK_RENEW, "2022-06-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2022-07-01"), "2024-05-01");
}

/* Made 2019-12-12: the first 24 months end on 2021-12-12; but 6 from the renewal, before that. */
TEST(a_renewal_of_which_nothing_is_said_counts_from_the_last_one_too)
{
	SCENE(scene, PRACTICE);
	struct item *tether = scene_item(&scene, "tether");
	static const struct interval LIFE = {
	    .task = TASK_RENEW, .months = 6, .first_months = 24, .paper = "label"};
	tether->intervals = &LIFE;
	tether->interval_count = 1;
	tether->made = stamp_of("2019-12-12");
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2020-01-01"), "2021-12-12");
	scene_record(&scene, tether, TASK_RENEW, "2021-01-15", NULL);
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2021-02-01"), "2021-07-15");
}

TEST(a_renewal_ends_it)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	struct interval known = EVERY_36_FIRST_48;
	known.on = day_of("2025-01-01");
	raft->intervals = &known;
	struct item after;
	due_item_after(
	    raft, TASK_RENEW, day_of("2025-06-01"), false, &scene.arena, &after);
	assert_null(item_interval(&after, TASK_SERVICE));
	due_item_after(
	    raft, TASK_RENEW, day_of("2025-01-01"), false, &scene.arena, &after);
	assert_non_null(item_interval(&after, TASK_SERVICE));
}

static struct item *
jacket_bought_in_2025(struct scene *scene)
{
	scene_open(scene, ASKS);
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	jacket->bought = stamp_of("2025-03-15");
	return jacket;
}

TEST(a_rule_that_asks_for_the_interval_makes_the_date_unknown_until_it_is_entered)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_bought_in_2025(&scene);
	/* practice gives a day, and that is not enough */
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2025-06-01");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_string_equal(reading_of(&due, "jacket-asks")->asks, "interval");
	assert_true(obligation_fails_in(
	    &due, (struct span){day_of("2025-06-01"), day_of("2025-06-02")}, GRADE_LAW));
	static const struct interval YEARLY = {
	    .task = TASK_SERVICE, .months = 12, .paper = "manual"};
	jacket->intervals = &YEARLY;
	jacket->interval_count = 1;
	/* 12 months from purchase, by the law's rule and in its window */
	due = scene_due(&scene, jacket, TASK_SERVICE, "2025-06-01");
	assert_int_equal(due.due, day_of("2026-03-15"));
	assert_int_equal(due.good_through, day_of("2026-04-15"));
	assert_int_equal(due.grade, GRADE_LAW);
	assert_string_equal(due.binding->rule_id, "jacket-asks");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-06-01"), "2027-03-01");
}

/* The law leaves it to the maker, whose 12 months run from a service that was never done; that
 * practice has a day is not enough. */
TEST(a_rule_that_asks_for_the_interval_leaves_the_date_unknown_where_that_can_not_start)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_bought_in_2025(&scene);
	static const struct interval FROM_LAST = {.task = TASK_SERVICE,
	    .months = 12,
	    .from = ANCHOR_LAST,
	    .from_said = true,
	    .paper = "manual"};
	jacket->intervals = &FROM_LAST;
	jacket->interval_count = 1;
	struct obligation due = scene_due(&scene, jacket, TASK_SERVICE, "2025-06-01");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_string_equal(reading_of(&due, "jacket-asks")->asks, "served");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-07-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2025-08-01"), "2026-07-01");
}

/* The law counts from purchase alone, however often it was done; the paper says from packing. */
TEST(what_the_paper_counts_from_takes_the_place_of_the_rule_s_anchors)
{
	SCENE(scene,
	    "  - id: jacket-asks\n    kinds: [lifejacket-auto]\n    task: service\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [bought, made], interval: maker }\n" SOURCE);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	static const struct interval FROM_PACKED = {.task = TASK_SERVICE,
	    .months = 24,
	    .from = ANCHOR_PACKED,
	    .from_said = true,
	    .paper = "manual"};
	jacket->intervals = &FROM_PACKED;
	jacket->interval_count = 1;
	jacket->bought = stamp_of("2026-03-15");
	jacket->packed = stamp_of("2025-12-01");
	scene_record(&scene, jacket, TASK_SERVICE, "2026-06-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-11-25"), "2027-12-01");
}

/* The paper says "first from packing"; once it was done the rule's `last` is what counts. */
TEST(after_the_first_time_a_rule_that_asks_counts_from_the_last)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_bought_in_2025(&scene);
	static const struct interval FROM_PACKED = {.task = TASK_SERVICE,
	    .months = 12,
	    .from = ANCHOR_PACKED,
	    .from_said = true,
	    .paper = "manual"};
	jacket->intervals = &FROM_PACKED;
	jacket->interval_count = 1;
	jacket->packed = stamp_of("2025-01-10");
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2025-06-01"), "2026-01-10");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-07-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2025-08-01"), "2026-07-01");
}

/* A routine has both figures under 12 months: 11 and 11. With either of 12 it is none, and is seen
 * among what decides a winter. */
TEST(an_interval_is_a_routine_only_with_both_figures_under_a_year)
{
	static const struct {
		int months;
		int first;
		bool routine;
	} CASES[] = {{11, 0, true}, {11, 11, true}, {12, 0, false}, {11, 12, false},
	    {12, 6, false}};

	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct obligation *all = NULL;
		size_t count = 0;
		struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
		struct interval interval = EVERY_36_FIRST_48;
		interval.task = TASK_TEST;
		interval.months = CASES[i].months;
		interval.first_months = CASES[i].first;
		raft->intervals = &interval;
		struct due_engine engine = {.kinds = scene.kinds,
		    .rulebooks = scene.rulebooks,
		    .inventory = &scene.inventory};
		due_of_item(&engine, 0, day_of("2022-04-01"), &scene.arena, &all, &count);
		int seen = 0;
		for (size_t j = 0; j < count; j++) {
			if (all[j].task == TASK_TEST) {
				assert_int_equal(all[j].routine, CASES[i].routine);
				seen++;
			}
		}
		assert_int_equal(seen, 1);
	}
}

TEST(the_next_date_of_a_paper_answers_where_the_interval_is_not_known)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_bought_in_2025(&scene);
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-01", "2027-02-01");
	assert_string_equal(
	    scene_due_day(&scene, jacket, TASK_SERVICE, "2026-06-01"), "2027-02-01");
}

TEST(what_has_run_out_is_overdue_though_the_interval_is_not_known)
{
	CLOSES_SCENE struct scene scene;
	struct item *jacket = jacket_bought_in_2025(&scene);
	assert_string_equal(
	    scene_state(&scene, jacket, TASK_SERVICE, "2027-03-16"), "overdue");
}

#define OF(id, task, doer, clock)                                                        \
	"  - id: " id "\n    kinds: [liferaft-canister]\n    task: " task "\n"           \
	"    doer: " doer "\n    grade: practice\n    clocks:\n      - {" clock          \
	"}\n" SOURCE

/* Neither who looks at it nor who does the monthly round of the same task, but who does the
 * work. */
TEST(it_is_for_the_doer_of_its_own_task)
{
	static const struct {
		const char *rules;
		enum doer doer;
	} ROWS[] = {
	    {OF("look", "inspect", "owner", "from: [last], months: 12")
		    OF("round", "service", "owner", "from: [last], months: 1")
			OF("work", "service", "authority", "from: [last], months: 12")
			    OF("more", "service", "owner", "from: [last], months: 24"),
		DOER_AUTHORITY},
	    {OF("look", "inspect", "owner", "from: [last], months: 12"), DOER_STATION},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct item *raft = raft_packed_in_2022(&scene, ROWS[i].rules);
		struct obligation due =
		    scene_due(&scene, raft, TASK_SERVICE, "2023-06-01");
		assert_string_equal(due.binding->rule_id, "maker");
		assert_int_equal(due.binding->doer, ROWS[i].doer);
	}
}

/* Nothing is said of what it counts from: the first time from when it was made, else from the
 * earliest date there is; each later time from the last. A renewal goes by both for ever. */
TEST(an_interval_without_a_from_begins_at_the_first_date_there_is)
{
	static const struct {
		struct interval interval;
		const char *made;
		const char *packed;
		const char *bought;
		const char *done; /* NULL: never */
		const char *due;
	} ROWS[] = {
	    {{.task = TASK_SERVICE, .months = 36}, "2022-01-10", "2022-02-10", "", NULL,
		"2025-01-10"},
	    {{.task = TASK_SERVICE, .months = 36}, "", "2022-02-10", "2022-03-10", NULL,
		"2025-02-10"},
	    {{.task = TASK_SERVICE, .months = 36}, "", "2022-02-10", "2022-01-20", NULL,
		"2025-01-20"},
	    {{.task = TASK_SERVICE, .months = 36}, "2022-01-10", "", "", "2024-06-05",
		"2027-06-05"},
	    {{.task = TASK_SERVICE, .months = 36, .first_months = 1}, "2022-01-10", "",
		"", NULL, "2022-02-10"},
	    {{.task = TASK_RENEW, .months = 24, .first_months = 120}, "2022-01-10", "",
		"", NULL, "2032-01-10"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct interval interval = ROWS[i].interval;
		interval.paper = "manual";
		scene_open(&scene, PRACTICE);
		struct item *raft = scene_item(&scene, "liferaft-canister");
		raft->made = stamp_of(ROWS[i].made);
		raft->packed = stamp_of(ROWS[i].packed);
		raft->bought = stamp_of(ROWS[i].bought);
		raft->intervals = &interval;
		raft->interval_count = 1;
		if (ROWS[i].done != NULL) {
			scene_record(&scene, raft, interval.task, ROWS[i].done, NULL);
		}
		assert_string_equal(
		    scene_due_day(&scene, raft, interval.task, "2024-07-01"),
		    ROWS[i].due);
	}
}

/* 36 months from the last renewal, says the paper: of a thing never renewed nothing is
 * known, and of one renewed on 1 May 2025 it is 1 May 2028. */
TEST(a_renewal_may_be_said_to_count_from_the_last_one)
{
	static const struct interval FROM_LAST = {.task = TASK_RENEW,
	    .months = 36,
	    .from = ANCHOR_LAST,
	    .from_said = true,
	    .paper = "manual"};
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene, PRACTICE);
	raft->intervals = &FROM_LAST;
	assert_string_equal(
	    scene_state(&scene, raft, TASK_RENEW, "2025-06-01"), "date-unknown");
	scene_record(&scene, raft, TASK_RENEW, "2025-05-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_RENEW, "2025-06-01"), "2028-05-01");
}

/* The rule of the service asks for its own interval, in its first clock: a renewal's, 120
 * months from packing, is not that, and runs by itself. */
TEST(a_rule_that_asks_leaves_other_tasks_their_intervals)
{
	static const struct interval RENEWAL = {.task = TASK_RENEW,
	    .months = 120,
	    .from = ANCHOR_PACKED,
	    .from_said = true,
	    .paper = "manual"};
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene,
	    "  - id: asks\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [packed], interval: maker }\n"
	    "      - { from: [packed], months: 24 }\n" SOURCE);
	raft->intervals = &RENEWAL;
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_RENEW, "2025-06-01"), "2032-03-10");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2023-06-01"), "date-unknown");
}

/* Common practice reads the mark, 30 June 2026: the maker's ten years do not stand in its place. */
TEST(the_makers_interval_does_not_replace_what_is_marked)
{
	static const struct interval RENEWAL = {.task = TASK_RENEW,
	    .months = 120,
	    .from = ANCHOR_PACKED,
	    .from_said = true,
	    .paper = "manual"};
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_packed_in_2022(&scene,
	    "  - id: marked\n    kinds: [liferaft-canister]\n    task: renew\n"
	    "    doer: owner\n    grade: practice\n    clocks:\n"
	    "      - { from: [marked] }\n" SOURCE);
	raft->intervals = &RENEWAL;
	raft->expires = stamp_of("2026-06");
	struct obligation due = scene_due(&scene, raft, TASK_RENEW, "2025-06-01");
	assert_int_equal(due.due, day_of("2026-06-30"));
	assert_int_equal(reading_of(&due, "marked")->state, READING_RUNS);
}

RUN_TESTS(NULL, NULL)
