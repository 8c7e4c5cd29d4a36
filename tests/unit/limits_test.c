/* Each condition of a rule on its very limit, a step to either side, and not told. What
 * each says is data/README.md's: "from" and "until" have their day, number or year in
 * them, "below" has not. */
#include "becket_test.h"
#include "scene.h"

#include <string.h>

#define RULE(id, when, more)                                                             \
	"  - id: " id "\n    kinds: [tether]\n    when: {" when "}\n" more               \
	"    task: service\n    doer: owner\n    grade: law\n    clocks:\n"              \
	"      - { from: [fitted], months: 120 }\n    source: test\n"                    \
	"    standing: common practice\n"

/* What is known, as far as it is; one row, one question. */
struct known {
	const char *when;
	const char *holds; /* "yes", "no", or the name of what is asked for */
	int length_cm;
	int built;
	int persons;
	int season_months;
	int dry_storage;
	const char *area;
	const char *made;
	const char *packed;
	const char *expires;
	const char *rating;
};

static const char *
text_or(const char *text)
{
	return text == NULL ? "" : text;
}

/* Whether the rule holds on 1 June 2026. */
static const char *
holds(const struct known *known)
{
	CLOSES_SCENE struct scene scene;
	struct obligation *all = NULL;
	size_t count = 0;
	char rules[512];
	(void)snprintf(rules, sizeof rules, RULE("one", "%s", ""), known->when);
	scene_open(&scene, rules);
	scene.vessel.length_cm = known->length_cm;
	scene.vessel.built = known->built;
	scene.periods[0].persons = known->persons;
	scene.periods[0].season_months = known->season_months;
	scene.periods[0].dry_storage = known->dry_storage;
	scene.periods[0].area = text_or(known->area);
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2026-05-01");
	tether->made = stamp_of(text_or(known->made));
	tether->packed = stamp_of(text_or(known->packed));
	tether->expires = stamp_of(text_or(known->expires));
	tether->rating = text_or(known->rating);
	struct due_engine engine = {.kinds = scene.kinds,
	    .rulebooks = scene.rulebooks,
	    .inventory = &scene.inventory};
	due_of_item(&engine, 0, day_of("2026-06-01"), &scene.arena, &all, &count);
	const char *found = "no";
	for (size_t i = 0; i < count; i++) {
		const struct reading *reading = &all[i].readings[0];
		bool on = spans_have(reading->in_force, day_of("2026-06-01"));
		if (all[i].task == TASK_SERVICE && reading->asks[0] != '\0') {
			found = reading->asks; /* a static name */
		} else if (all[i].task == TASK_SERVICE && on) {
			found = "yes";
		}
	}
	return found;
}

static const struct known CASES[] = {
    {.when = "length-from: 10", .length_cm = 999, .holds = "no"},
    {.when = "length-from: 10", .length_cm = 1000, .holds = "yes"},
    {.when = "length-from: 10", .holds = "length"},
    {.when = "length-below: 10", .length_cm = 999, .holds = "yes"},
    {.when = "length-below: 10", .length_cm = 1000, .holds = "no"},
    {.when = "length-below: 10", .holds = "length"},
    {.when = "length-from: 9, length-below: 10", .length_cm = 950, .holds = "yes"},
    {.when = "built-from: 2005", .built = 2004, .holds = "no"},
    {.when = "built-from: 2005", .built = 2005, .holds = "yes"},
    {.when = "built-from: 2005", .holds = "built"},
    {.when = "built-until: 2005", .built = 2005, .holds = "yes"},
    {.when = "built-until: 2005", .built = 2006, .holds = "no"},
    {.when = "built-until: 2005", .holds = "built"},
    {.when = "built-from: 2003, built-until: 2005", .built = 2004, .holds = "yes"},
    {.when = "persons-from: 6", .persons = 5, .holds = "no"},
    {.when = "persons-from: 6", .persons = 6, .holds = "yes"},
    {.when = "persons-until: 6", .persons = 6, .holds = "yes"},
    {.when = "persons-until: 6", .persons = 7, .holds = "no"},
    {.when = "persons-until: 6", .holds = "persons"},
    {.when = "season-months-below: 7", .season_months = 6, .holds = "yes"},
    {.when = "season-months-below: 7", .season_months = 7, .holds = "no"},
    {.when = "season-months-below: 7", .holds = "season-months"},
    {.when = "dry-storage: yes", .dry_storage = 1, .holds = "yes"},
    {.when = "dry-storage: yes", .dry_storage = -1, .holds = "no"},
    {.when = "dry-storage: yes", .holds = "dry-storage"},
    {.when = "areas: [a]", .area = "a", .holds = "yes"},
    {.when = "areas: [a]", .area = "b", .holds = "no"},
    {.when = "areas: [a]", .holds = "area"},
    {.when = "areas-except: [a]", .area = "a", .holds = "no"},
    {.when = "areas-except: [a]", .area = "b", .holds = "yes"},
    {.when = "areas-except: [a]", .holds = "area"},
    {.when = "age-from: 12", .made = "2025-06-01", .holds = "yes"},
    {.when = "age-from: 12", .packed = "2025-06-01", .holds = "yes"},
    {.when = "age-from: 12", .holds = "made"},
    {.when = "age-until: 12", .made = "2025-06-01", .holds = "no"},
    {.when = "age-until: 12", .made = "2025-06-02", .holds = "yes"},
    {.when = "age-until: 12", .holds = "made"},
    {.when = "age-until: 1", .made = "2026-05-01", .holds = "no"},
    {.when = "age-from: 1", .made = "2026-05-01", .holds = "yes"},
    {.when = "age-from: 1", .made = "2026-05-02", .holds = "no"},
    {.when = "age-from: 1", .holds = "made"},
    {.when = "age-from: 6, age-until: 24", .made = "2025-06-02", .holds = "yes"},
    {.when = "made-from: 2020-06-15", .made = "2020-06-14", .holds = "no"},
    {.when = "made-from: 2020-06-15", .made = "2020-06-15", .holds = "yes"},
    {.when = "made-from: 2020-06-15", .made = "2020-06", .holds = "made-day"},
    {.when = "made-from: 2020-06-15", .holds = "made"},
    {.when = "made-until: 2020-06-15", .made = "2020-06-15", .holds = "yes"},
    {.when = "made-until: 2020-06-15", .made = "2020-06-16", .holds = "no"},
    {.when = "made-until: 2020-06-15", .made = "2020-06", .holds = "made-day"},
    {.when = "made-until: 2020-06-30", .made = "2020-06", .holds = "yes"},
    {.when = "made-from: 2020-06-01", .made = "2020-06", .holds = "yes"},
    {.when = "made-from: 2020-07-01", .made = "2020-06", .holds = "no"},
    {.when = "made-until: 2020-05-31", .made = "2020-06", .holds = "no"},
    {.when = "marked: yes", .expires = "2030-01", .holds = "yes"},
    {.when = "marked: yes", .holds = "no"},
    {.when = "marked: no", .expires = "2030-01", .holds = "no"},
    {.when = "marked: no", .holds = "yes"},
    {.when = "ratings: [SOLAS A]", .rating = "solas-a", .holds = "yes"},
    {.when = "ratings: [SOLAS A]", .rating = "ORC", .holds = "no"},
    {.when = "ratings: [SOLAS A]", .holds = "rating"},
    /* two of which one fails for certain: nothing is asked */
    {.when = "length-from: 10, built-from: 2005", .built = 2004, .holds = "no"},
    {.when = "length-from: 10, built-from: 2005", .built = 2005, .holds = "length"},
};

TEST(each_condition_holds_up_to_its_very_limit)
{
	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		const char *found = holds(&CASES[i]);
		if (strcmp(found, CASES[i].holds) != 0) {
			fail_msg("row %zu, %s: %s instead of %s", i, CASES[i].when, found,
			    CASES[i].holds);
		}
	}
}

/* The paper of the test is to be good for 24 months from the service of 10 January 2026,
 * or from packing where there was none: on its very day it is. */
struct inside {
	const char *kind;
	const char *next;
	bool withdrawn;
};

static const char *
holds_with(bool served, const char *tested, const char *next, const struct inside *parts,
    size_t part_count)
{
	CLOSES_SCENE struct scene scene;
	struct obligation *all = NULL;
	size_t count = 0;
	scene_open(&scene, RULE("one", "test-valid: 24", ""));
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2026-05-01");
	tether->packed = stamp_of(served ? "2024-01-01" : "2026-01-10");
	if (tested != NULL) {
		scene_record(&scene, tether, TASK_TEST, tested, next);
	}
	if (served) {
		scene_record(&scene, tether, TASK_SERVICE, "2026-01-10", NULL);
		scene_record(&scene, tether, TASK_INSPECT, "2026-03-10", NULL);
	}
	for (size_t i = 0; i < part_count; i++) {
		struct item *inside = scene_item(&scene, parts[i].kind);
		inside->parent = 0;
		inside->state = parts[i].withdrawn ? PLACE_WITHDRAWN : PLACE_ABOARD;
		scene_record(&scene, inside, TASK_TEST, "2025-06-01", parts[i].next);
	}
	struct due_engine engine = {.kinds = scene.kinds,
	    .rulebooks = scene.rulebooks,
	    .inventory = &scene.inventory};
	due_index_parts(
	    &scene.inventory, &scene.arena, &engine.first_part, &engine.next_part);
	due_of_item(&engine, 0, day_of("2026-06-01"), &scene.arena, &all, &count);
	const char *found = "no";
	for (size_t i = 0; i < count; i++) {
		if (all[i].task == TASK_SERVICE) {
			const char *asks = all[i].readings[0].asks;
			found = asks[0] == '\0' ? "yes" : asks;
		}
	}
	return found;
}

static const char *
holds_by_test(bool served, const char *tested, const char *next, const char *cylinder)
{
	const struct inside inside = {.kind = "gas-cylinder", .next = cylinder};
	return holds_with(served, tested, next, &inside, cylinder == NULL ? 0 : 1);
}

/* Where the thing has no test of its own, every cylinder in use must have one, and the
 * earliest paper decides; what else is inside says nothing of it. */
TEST(of_several_cylinders_the_earliest_paper_decides)
{
	static const struct {
		struct inside parts[2];
		const char *holds;
	} ROWS[] = {
	    {{{"gas-cylinder", "2028-01-09", false},
		 {"gas-cylinder", "2029-01-10", false}},
		"no"},
	    {{{"gas-cylinder", "2029-01-10", false},
		 {"gas-cylinder", "2028-01-09", false}},
		"no"},
	    {{{"gas-cylinder", "2028-01-10", false},
		 {"gas-cylinder", "2029-01-10", false}},
		"yes"},
	    {{{"gas-cylinder", "2028-01-10", false}, {"gas-cylinder", NULL, false}},
		"test"},
	    {{{"gas-cylinder", NULL, false}, {"gas-cylinder", "2028-01-10", false}},
		"test"},
	    {{{"gas-cylinder", "2028-01-10", false}, {"gas-cylinder", NULL, true}},
		"yes"},
	    {{{"gas-cylinder", NULL, true}, {"gas-cylinder", "2028-01-10", false}},
		"yes"},
	    {{{"firing-head", "2028-01-10", false}, {"firing-head", "2028-01-10", false}},
		"test"},
	    {{{"firing-head", "2027-01-10", false},
		 {"gas-cylinder", "2028-01-10", false}},
		"yes"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const char *found = holds_with(true, NULL, NULL, ROWS[i].parts, 2);
		if (strcmp(found, ROWS[i].holds) != 0) {
			fail_msg("row %zu: %s instead of %s", i, found, ROWS[i].holds);
		}
	}
}

TEST(a_test_is_valid_to_the_very_day)
{
	const char *on = "2025-06-01";
	assert_string_equal(holds_by_test(true, on, "2028-01-10", NULL), "yes");
	assert_string_equal(holds_by_test(true, on, "2028-01-09", NULL), "no");
	assert_string_equal(holds_by_test(false, on, "2028-01-10", NULL), "yes");
	assert_string_equal(holds_by_test(false, on, "2028-01-09", NULL), "no");
	assert_string_equal(holds_by_test(true, NULL, NULL, NULL), "test");
	/* the cylinder's paper speaks where the thing has none of its own, and then alone */
	assert_string_equal(holds_by_test(true, NULL, NULL, "2028-01-10"), "yes");
	assert_string_equal(holds_by_test(true, NULL, NULL, "2028-01-09"), "no");
	assert_string_equal(holds_by_test(true, on, "2028-01-10", "2026-07-01"), "yes");
	assert_string_equal(holds_by_test(true, on, "2027-01-10", "2029-01-01"), "no");
}

/* The 120 months from May 2016 end on 1 May 2026; she follows the sheet until 31 August. */
TEST(a_sheet_s_rules_hold_while_she_follows_it)
{
	static const char *const TEST[] = {"test"};
	static const char *const OTHER[] = {"other"};
	SCENE(scene, RULE("one", "marked: no", ""));
	scene.periods[0].sheets = TEST;
	scene.periods[0].sheet_count = 1;
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2026-09-01");
	scene.periods[1].sheets = OTHER;
	scene.vessel.period_count = 2;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2016-05-01");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-06-01");
	assert_int_equal(due.due, day_of("2026-05-01"));
	assert_int_equal(due.lapsed.count, 1);
	assert_int_equal(due.lapsed.items[0].last, day_of("2026-08-31"));
}

static void
spans_are(struct spans spans, const struct span *expected, size_t count)
{
	assert_int_equal(spans.count, count);
	for (size_t i = 0; i < count; i++) {
		assert_int_equal(spans.items[i].first, expected[i].first);
		assert_int_equal(spans.items[i].last, expected[i].last);
	}
}

/* Followed for two periods one after the other, left for one, and followed again; a
 * second rule of the task is of another use on every day. */
TEST(a_rule_holds_on_the_days_its_sheet_is_followed_and_no_others)
{
	static const char *const TEST[] = {"test"};
	static const char *const OTHER[] = {"other"};
	static const char *const FROM[] = {
	    NULL, "2024-01-01", "2025-01-01", "2026-01-01"};
	CLOSES_SCENE struct scene scene;
	scene_open(
	    &scene, RULE("one", "marked: no", "") RULE("hired", "use: commercial", ""));
	for (size_t i = 0; i < 4; i++) {
		scene.periods[i] = scene.periods[0];
		scene.periods[i].from = FROM[i] == NULL ? DAY_NONE : day_of(FROM[i]);
		scene.periods[i].sheets = i == 2 ? OTHER : TEST;
		scene.periods[i].sheet_count = 1;
	}
	scene.vessel.period_count = 4;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2016-05-01");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-06-01");
	const struct span days[] = {
	    {DAY_NONE, day_of("2024-12-31")}, {day_of("2026-01-01"), DAY_NEVER}};
	assert_int_equal(due.reading_count, 2);
	spans_are(due.readings[0].in_force, days, 2);
	spans_are(due.readings[0].sure, days, 2);
	spans_are(due.readings[1].in_force, NULL, 0);
	spans_are(due.readings[1].sure, NULL, 0);
}

/* Private for two periods one after the other, in hire for one, and private again. */
TEST(a_rule_of_a_use_holds_in_all_periods_of_that_use_and_between_none)
{
	static const char *const FROM[] = {
	    NULL, "2024-01-01", "2025-01-01", "2026-01-01"};
	SCENE(scene, RULE("one", "use: private", ""));
	for (size_t i = 0; i < 4; i++) {
		scene.periods[i] = scene.periods[0];
		scene.periods[i].from = FROM[i] == NULL ? DAY_NONE : day_of(FROM[i]);
		scene.periods[i].use = i == 2 ? USE_COMMERCIAL : USE_PRIVATE;
	}
	scene.vessel.period_count = 4;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2016-05-01");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-06-01");
	const struct span days[] = {
	    {DAY_NONE, day_of("2024-12-31")}, {day_of("2026-01-01"), DAY_NEVER}};
	spans_are(due.readings[0].in_force, days, 2);
	spans_are(due.readings[0].sure, days, 2);
}

/* The length is not known and asked for, until the day from which another sheet is followed. */
TEST(what_a_sheet_that_is_left_asked_for_is_asked_no_more)
{
	static const char *const TEST[] = {"test"};
	static const char *const OTHER[] = {"other"};
	SCENE(scene, RULE("one", "length-from: 10", "")
			 RULE("two", "marked: yes", "    instead-of: []\n"));
	scene.periods[0].sheets = TEST;
	scene.periods[0].sheet_count = 1;
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2026-09-01");
	scene.periods[1].sheets = OTHER;
	scene.vessel.period_count = 2;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2024-05-01");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, "2026-08-31");
	assert_string_equal(due.readings[0].asks, "length");
	/* its own paper keeps the task in the book */
	scene_record(&scene, tether, TASK_SERVICE, "2026-08-31", "2027-08-31");
	due = scene_due(&scene, tether, TASK_SERVICE, "2026-09-01");
	assert_string_equal(due.readings[0].rule_id, "one");
	assert_string_equal(due.readings[0].asks, "");
	assert_false(due.asks);
}

/* Six persons or fewer. How many there are is not known until 1 June 2026, that day
 * included; there are so many afterwards. */
static const char *
asked_of_persons(int afterwards, const char *today)
{
	SCENE(scene, RULE("few", "persons-until: 6", ""));
	scene.periods[1] = scene.periods[0];
	scene.periods[1].from = day_of("2026-06-02");
	scene.periods[1].persons = afterwards;
	scene.vessel.period_count = 2;
	struct item *tether = scene_item(&scene, "tether");
	tether->fitted = stamp_of("2024-05-01");
	scene_record(&scene, tether, TASK_SERVICE, "2026-05-31", "2027-08-31");
	struct obligation due = scene_due(&scene, tether, TASK_SERVICE, today);
	const char *asks = due.readings[0].asks; /* a static name */
	return asks;
}

TEST(what_is_not_known_is_asked_up_to_the_last_day_it_matters)
{
	assert_string_equal(asked_of_persons(12, "2026-06-01"), "persons");
	assert_string_equal(asked_of_persons(12, "2026-06-02"), "");
	assert_string_equal(asked_of_persons(6, "2026-06-01"), "persons");
	assert_string_equal(asked_of_persons(6, "2026-06-02"), "");
}

/* Both orders in the sheet: the one that stands instead takes the other's place in either. */
TEST(a_rule_stands_instead_of_one_before_and_of_one_behind_it)
{
	static const char *const SHEETS[] = {
	    RULE("first", "marked: no", "    instead-of: [second]\n")
		RULE("second", "marked: no", ""),
	    RULE("second", "marked: no", "")
		RULE("first", "marked: no", "    instead-of: [second]\n"),
	};
	for (size_t i = 0; i < 2; i++) {
		SCENE(scene, SHEETS[i]);
		struct item *tether = scene_item(&scene, "tether");
		tether->fitted = stamp_of("2026-05-01");
		struct obligation due =
		    scene_due(&scene, tether, TASK_SERVICE, "2026-06-01");
		assert_int_equal(due.reading_count, 2);
		for (size_t j = 0; j < 2; j++) {
			bool first = strcmp(due.readings[j].rule_id, "first") == 0;
			assert_int_equal(due.readings[j].state,
			    first ? READING_RUNS : READING_NOT_IN_FORCE);
		}
	}
}

RUN_TESTS(NULL, NULL)
