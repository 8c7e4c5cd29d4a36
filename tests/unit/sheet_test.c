#include "becket_test.h"
#include "data_file.h"
#include "gear/vessel.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The head takes lines 1 to 5; a rule's first line is line 6. */
#define HEAD "sheet: test\ntitle: Test\nfor: tests\ncompiled: 2026-11-25\nrules:\n"

/* Line 6 `- id`, 7 kinds, 8 task, 9 doer, 10 grade, 11 clocks, 12 from, 13 months,
 * 14 source, 15 standing. */
#define RULE(id, kinds, task, from, months)                                              \
	"- id: " id "\n  kinds: [" kinds "]\n  task: " task                              \
	"\n  doer: owner\n  grade: practice\n  clocks:\n  - from: [" from                \
	"]\n    months: " months "\n  source: invented\n  standing: memory\n"

#define GOOD RULE("a", "tether", "renew", "made", "120")

/* After GOOD: line 16 `carriage`, 17 `- id`, 18 title, 19 need, 20 serves, 21 kinds,
 * 22 points, 23 source, 24 standing. */
#define CARRIAGE(id, need, kinds, points)                                                \
	"- id: " id "\n  title: T\n  need: {" need "}\n  serves:\n  - kinds: [" kinds    \
	"]\n    points: " points "\n  source: s\n  standing: read\n"
#define LINES HEAD GOOD "carriage:\n"

static bool
read_yaml(const struct kinds *kinds, const char *yaml, struct sheet **sheet,
    struct fault *fault)
{
	return sheet_read("t.yaml", yaml, strlen(yaml), kinds, NULL, sheet, fault);
}

TEST(a_fault_names_file_line_field_found_and_expected)
{
	static const struct {
		const char *yaml;
		const char *says;
	} ROWS[] = {
	    {HEAD RULE("a", "tether", "renew", "made", "twelve"), /* wrong type */
		"t.yaml: line 13, field months: found \"twelve\", "
		"expected a whole number of months, 0 to 600"},
	    {HEAD RULE("a", "tether", "renew", "made", "601"), /* out of range */
		"t.yaml: line 13, field months: found \"601\", expected a whole number"},
	    {HEAD RULE("a", "tether", "renew", "made", "-1"),
		"t.yaml: line 13, field months: found \"-1\", expected a whole number"},
	    {HEAD RULE("a", "tether", "renew", "made", "0x10"),
		"t.yaml: line 13, field months: found \"0x10\", expected a whole number"},
	    {HEAD GOOD "  colour: red\n", /* unknown key */
		"t.yaml: line 16, field colour: found an unknown key, expected one of: "
		"id, kinds, when, task"},
	    {HEAD RULE("a", "tether, teather", "renew", "made", "1"), /* unknown kind */
		"t.yaml: line 7, field kinds, entry 2: found \"teather\", "
		"expected a kind of the kinds catalogue"},
	    {HEAD GOOD RULE("a", "jackstay", "renew", "made", "1"), /* id twice */
		"t.yaml: line 16, field id: found \"a\", "
		"expected an id that no rule above has"},
	    {HEAD RULE("a", "tether", "renw", "made", "1"), /* task misspelt */
		"t.yaml: line 8, field task: found \"renw\", expected one of: service, "
		"inspect, weigh, test, renew, register"},
	    {HEAD RULE("a", "tether", "renew", "make", "1"), /* anchor misspelt */
		"t.yaml: line 12, field from, entry 1: found \"make\", expected one of: "
		"made, packed, bought"},
	    {HEAD RULE("a", "tether", "renew", "contents", "1"), /* the engine's own */
		"t.yaml: line 12, field from, entry 1: found \"contents\", expected one"},
	    {HEAD RULE("a", "tether", "renew", "made, marked", "1"),
		"t.yaml: line 12, field from, entry 2: found \"marked\", expected marked"},
	    {HEAD RULE(
		 "a", "tether", "renew", "marked", "1"), /* a mark has no interval */
		"t.yaml: line 13, field months: found \"1\", expected no interval"},
	    {HEAD RULE("a", "tether", "renew", "last", "1\n    holds: first"),
		"t.yaml: line 12, field from: found \"last\", expected an anchor that is "
		"known before the task was first done"},
	    {HEAD RULE("a", "tether", "renew", "made", "1\n    days: 7"),
		"t.yaml: line 14, field days: found \"7\", expected months or days"},
	    {HEAD RULE("a", "tether", "renew", "made", "1\n    interval: maker"),
		"t.yaml: line 14, field interval: found \"maker\", expected months, days"},
	    {HEAD "- id: a\n  kinds: [tether]\n  task: renew\n  doer: owner\n"
		  "  grade: practice\n  clocks:\n  - from: [made]\n    interval: 12\n"
		  "  source: s\n  standing: memory\n",
		"t.yaml: line 13, field interval: found \"12\", expected one of: maker"},
	    {HEAD RULE("a", "tether", "renew", "made", "1\n    events: [fired]"),
		"t.yaml: line 14, field events: found \"fired\", expected events only"},
	    {HEAD RULE("a", "tether", "renew", "made", "1\n    before: true"),
		"t.yaml: line 14, field before: found \"true\", expected one of: no, yes"},
	    {HEAD GOOD "  when: {use: privat}\n",
		"t.yaml: line 16, field use: found \"privat\", expected one of: private"},
	    {HEAD GOOD "  when: {length-from: 7.325}\n",
		"t.yaml: line 16, field length-from: found \"7.325\", expected metres"},
	    {HEAD GOOD "  when: {age-from: 24, age-until: 12}\n",
		"t.yaml: line 16, field age-until: found \"12\", expected an end after"},
	    {HEAD GOOD "  when: {made-from: 2021-02-30}\n",
		"t.yaml: line 16, field made-from: found \"2021-02-30\", expected a day"},
	    {HEAD GOOD "  instead-of: [b]\n",
		"t.yaml: line 16, field instead-of, entry 1: found \"b\", expected the id"},
	    {HEAD GOOD "  instead-of: [a]\n",
		"t.yaml: line 16, field instead-of, entry 1: found \"a\", expected the id "
		"of another"},
	    {HEAD GOOD "  task: renew\n", /* a key twice: the second is to blame */
		"t.yaml: line 16, field task: found it a second time, expected each key"},
	    {HEAD GOOD "  what: [a, b]\n",
		"t.yaml: line 16, field what: found a list, expected a single value"},
	    {HEAD GOOD "  counts: service\n",
		"t.yaml: line 16, field counts: found a single value, expected a list"},
	    {HEAD GOOD "  when: private\n",
		"t.yaml: line 16, field when: found a single value, expected keys with"},
	    {HEAD
		"- {id: a, kinds: [tether], task: renew, doer: owner, grade: practice,\n"
		"   clocks: [], source: s, standing: memory}\n", /* no clock */
		"t.yaml: line 7, field clocks: found nothing, expected at least one clock"},
	    {HEAD "- id: a\n  kinds: [tether]\n  task: renew\n  doer: owner\n"
		  "  grade: practice\n  source: s\n  standing: memory\n",
		"t.yaml: line 6, field clocks: found nothing, expected a list"},
	    {HEAD
		"- id: a\n  kinds: [tether]\n  task: renew\n  doer: owner\n"
		"  grade: practice\n  clocks:\n  - from: [marked]\n  standing: memory\n",
		"t.yaml: line 6, field source: found nothing, expected a single value"},
	    {HEAD "- id: a\n  kinds: [tether]\n  task: renew\n  doer: owner\n"
		  "  grade: practice\n  clocks:\n  - from: [marked]\n  source: ' '\n"
		  "  standing: memory\n",
		"t.yaml: line 13, field source: found \" \", expected some words"},
	    {HEAD "- id: a\n  kinds: [tether]\n  task: renew\n  doer: owner\n"
		  "  grade: practice\n  clocks:\n  - from: [made]\n    months: 12\n"
		  "  source: s\n  standing: not verified\n",
		"t.yaml: line 13, field months: found \"12\", expected no figure"},
	    {LINES CARRIAGE("l", "points: 1", "tether, teather", "1"),
		"t.yaml: line 21, field kinds, entry 2: found \"teather\", expected a kind"},
	    {LINES CARRIAGE("l", "points: 1", "tether", "0"),
		"t.yaml: line 22, field points: found \"0\", expected a whole number of "
		"points (or capacity), 1 to 999"},
	    {LINES CARRIAGE("l", "points: 0", "tether", "1"),
		"t.yaml: line 19, field points: found \"0\", expected a whole number of "
		"points, 1 to 999"},
	    {LINES CARRIAGE("l", "points: 1", "tether", "1")
		    CARRIAGE("l", "points: 1", "tether", "1"),
		"t.yaml: line 25, field id: found \"l\", expected an id that no carriage "
		"line above has"},
	    {LINES CARRIAGE("l", "points: 1, per-person: 1", "tether", "1"),
		"t.yaml: line 19, field per-person: found \"1\", expected either points, or"},
	    {LINES CARRIAGE("l", "points: 1, percent: 10", "tether", "1"),
		"t.yaml: line 19, field percent: found \"10\", expected either points, or"},
	    {LINES CARRIAGE("l", "plus: 1", "tether", "1"),
		"t.yaml: line 19, field need: found nothing, expected points, per-person "
		"or percent"},
	    {LINES CARRIAGE("l", "points: 1", "tether", "1\n    rating: '--'"),
		"t.yaml: line 23, field rating: found \"--\", expected a rating as labels"},
	    {LINES CARRIAGE("l", "points: 1", "tether",
		 "2\n    rating: 5-B\n  - kinds: "
		 "[tether]\n    points: 1\n    "
		 "rating: 5-B"),
		"t.yaml: line 24, field kinds, entry 1: found \"tether\", expected each "
		"kind once in a line, or once for each rating"},
	    {LINES CARRIAGE("l", "points: 1", "tether", "1") "  way: w\n",
		"t.yaml: line 25, field way: found \"w\", expected way only with any-of"},
	    {LINES CARRIAGE("l", "points: 1", "tether",
		 "1\n  - kinds: [jackstay, tether]\n    points: 2"),
		"t.yaml: line 23, field kinds, entry 2: found \"tether\", expected each "
		"kind once in a line"},
	    {LINES CARRIAGE("l", "points: 1", "tether", "1") "  when: {marked: yes}\n",
		"t.yaml: line 25, field marked: found \"yes\", expected conditions about "
		"the vessel only"},
	    {LINES "- id: l\n  title: T\n  need: {points: 1}\n  serves:\n"
		   "  - kinds: [tether]\n    points: 1\n  standing: read\n",
		"t.yaml: line 17, field source: found nothing, expected a single value"},
	    {HEAD "- id: \"a\n", "t.yaml: line 7: found no valid YAML"},
	    {HEAD "- &x {id: a}\n- *x\n", "t.yaml: line 6, field "},
	    {"sheet: t\ntitle: T\nfor: f\ncompiled: 25/11/2026\nrules:\n" GOOD,
		"t.yaml: line 4, field compiled: found \"25/11/2026\", expected a day"},
	    {"sheet: t\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules: []\n",
		"t.yaml: line 5, field rules: found nothing, expected at least one rule"},
	    {"sheet: t\ntitle: {a: b}\n",
		"t.yaml: line 2, field title: found keys with values, expected a single value"},
	    {"sheet: &a t\ntitle: *a\n",
		"t.yaml: line 2, field title: found YAML alias unsupported, expected a single value"},
	    {"- a\n", "t.yaml: line 1: found a list, expected keys with values"},
	    {"]\n", "t.yaml: line 1: found no valid YAML"},
	    {"", "t.yaml: line 1: found nothing, expected keys with values"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct sheet *sheet = NULL;
		struct fault fault = {0};
		if (read_yaml(*state, ROWS[i].yaml, &sheet, &fault)) {
			fail_msg("row %zu is read, not refused: %s", i, ROWS[i].says);
		}
		assert_null(sheet);
		assert_int_equal(fault.kind, FAULT_INPUT);
		if (strstr(fault.text, ROWS[i].says) != fault.text) {
			fail_msg("row %zu says \"%s\", not \"%s\"", i, fault.text,
			    ROWS[i].says);
		}
	}
}

TEST(brackets_without_end_are_refused_before_they_take_time)
{
	enum { OPEN = 100000 };

	char *yaml = malloc(OPEN + 1);
	struct sheet *sheet = NULL;
	struct fault fault = {0};
	assert_non_null(yaml);
	memset(yaml, '[', OPEN);
	yaml[100] = yaml[200] = '\n';
	yaml[OPEN] = '\0';
	assert_false(read_yaml(*state, yaml, &sheet, &fault));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_string_equal(fault.text,
	    "t.yaml: line 3: found brackets more than 500 deep, fewer expected");
	free(yaml);
}

/* Six persons, boats of 2017, things of one day, the month after the first year: a
 * beginning is its end. */
TEST(conditions_may_begin_and_end_at_one_value)
{
	static const char *const WHEN[] = {"persons-from: 6, persons-until: 6",
	    "built-from: 2017, built-until: 2017", "age-from: 12, age-until: 13",
	    "made-from: 2021-02-03, made-until: 2021-02-03",
	    "length-from: 7.5, length-below: 7.51"};
	for (size_t i = 0; i < sizeof WHEN / sizeof WHEN[0]; i++) {
		char yaml[600];
		struct sheet *sheet = NULL;
		struct fault fault = {0};
		(void)snprintf(yaml, sizeof yaml, "%s  when: {%s}\n", HEAD GOOD, WHEN[i]);
		if (!read_yaml(*state, yaml, &sheet, &fault)) {
			fail_msg("%s", fault.text);
		}
		sheet_free(sheet);
	}
}

TEST(every_field_reaches_the_rule)
{
	static const char YAML[] = HEAD
	    "- id: b\n  kinds: [jackstay]\n  task: inspect\n  doer: authority\n"
	    "  grade: law\n  clocks:\n  - from: [event]\n    events: [fired, used]\n"
	    "  source: s\n  standing: read, older edition or sibling section\n"
	    "- id: a\n  kinds: [tether, jackstay]\n"
	    "  when: {use: commercial, age-from: 12, age-until: 24, marked: no,\n"
	    "    length-from: 7.5, length-below: 13.72, persons-from: 2,\n"
	    "    persons-until: 12, built-from: 1990, built-until: 2017,\n"
	    "    made-from: 2001-02-03, made-until: 2011-02-03, areas: [coastal, sea]}\n"
	    "  task: service\n  counts: [inspect, test]\n  doer: station\n  grade: maker\n"
	    "  lapse: life-expired\n  clocks:\n"
	    "  - {from: [packed, made], months: 012, holds: first, through: year-end}\n"
	    "  - {from: [last], days: 7, done-from: 1, done-until: 3, before: yes,\n"
	    "     stamp: end, through: month-end}\n"
	    "  window: {early: 3, late: 1, next: from-due}\n  contents-bind: yes\n"
	    "  extension: 5\n  instead-of: [b]\n  what: do it\n  source: clause 1\n"
	    "  standing: relayed\n";
	struct sheet *sheet = NULL;
	struct fault fault = {0};
	if (!read_yaml(*state, YAML, &sheet, &fault)) {
		fail_msg("%s", fault.text);
	}
	assert_string_equal(sheet->name, "test");
	assert_string_equal(sheet->audience, "tests");
	assert_int_equal(sheet->compiled, day_from_civil(2026, 11, 25));
	assert_int_equal(sheet->rule_count, 2);
	assert_int_equal(sheet->rules[0].standing, STANDING_READ_OLDER);
	assert_int_equal(sheet->rules[0].lapse, STATE_OVERDUE);
	assert_string_equal(sheet->rules[0].what, "");
	assert_int_equal(
	    sheet->rules[0].clocks[0].events, 1U << EVENT_FIRED | 1U << EVENT_USED);
	assert_int_equal(sheet->rules[0].when.uses, 0);
	assert_int_equal(sheet->rules[0].when.made_from, DAY_NONE);
	const struct rule *rule = &sheet->rules[1];
	const struct conditions *when = &rule->when;
	assert_string_equal(rule->sheet, "test");
	assert_string_equal(rule->kinds[1], "jackstay");
	assert_int_equal(when->uses, 1U << USE_COMMERCIAL);
	assert_int_equal(when->age_from_months, 12);
	assert_int_equal(when->age_until_months, 24);
	assert_int_equal(when->marked, -1);
	assert_int_equal(when->length_from_cm, 750);
	assert_int_equal(when->length_below_cm, 1372);
	assert_int_equal(when->persons_from, 2);
	assert_int_equal(when->persons_until, 12);
	assert_int_equal(when->built_from, 1990);
	assert_int_equal(when->built_until, 2017);
	assert_int_equal(when->made_from, day_from_civil(2001, 2, 3));
	assert_int_equal(when->made_until, day_from_civil(2011, 2, 3));
	assert_int_equal(when->area_count, 2);
	assert_string_equal(when->areas[1], "sea");
	assert_int_equal(rule->counts, 1U << TASK_INSPECT | 1U << TASK_TEST);
	assert_int_equal(rule->doer, DOER_STATION);
	assert_int_equal(rule->grade, GRADE_MAKER);
	assert_int_equal(rule->lapse, STATE_LIFE_EXPIRED);
	assert_int_equal(rule->clock_count, 2);
	assert_int_equal(rule->clocks[0].anchors[0], ANCHOR_PACKED);
	assert_int_equal(rule->clocks[0].anchors[1], ANCHOR_MADE);
	assert_int_equal(rule->clocks[0].months, 12); /* not octal */
	assert_int_equal(rule->clocks[0].done_until, 0);
	assert_int_equal(rule->clocks[0].through, THROUGH_YEAR_END);
	assert_int_equal(rule->clocks[1].days, 7);
	assert_int_equal(rule->clocks[1].done_from, 1);
	assert_int_equal(rule->clocks[1].done_until, 3);
	assert_true(rule->clocks[1].before);
	assert_true(rule->clocks[1].stamp_end);
	assert_int_equal(rule->window.early_months, 3);
	assert_int_equal(rule->window.late_months, 1);
	assert_int_equal(rule->window.next, NEXT_FROM_DUE);
	assert_true(rule->contents_bind);
	assert_int_equal(rule->extension_months, 5);
	assert_string_equal(rule->instead_of[0], "b");
	assert_string_equal(rule->source, "clause 1");
	sheet_free(sheet);
}

TEST(routine_is_under_twelve_months_on_every_clock)
{
	struct clock_rule clocks[] = {
	    {.anchors = {ANCHOR_LAST}, .anchor_count = 1, .months = 1},
	    {.anchors = {ANCHOR_MADE}, .anchor_count = 1, .months = 12},
	    {.anchors = {ANCHOR_BOUGHT}, .anchor_count = 1}, /* due at once */
	    {.anchors = {ANCHOR_LAST}, .anchor_count = 1, .days = 7},
	};
	struct rule rule = {.clocks = clocks, .clock_count = 1};
	assert_true(rule_is_routine(&rule));
	rule.clock_count = 2; /* monthly, and yearly as well */
	assert_false(rule_is_routine(&rule));
	rule.clocks = clocks + 2;
	rule.clock_count = 1; /* due at once and never again: a date, no habit */
	assert_false(rule_is_routine(&rule));
	rule.clocks = clocks + 3;
	assert_true(rule_is_routine(&rule));
}

TEST(a_rulebook_gives_a_kinds_rules_in_sheet_order)
{
	struct sheet *practice = data_file_sheet("practice", *state);
	struct sheet *other = data_file_sheet("us-recreational", *state);
	const struct sheet *sheets[] = {other, practice};
	struct rulebook *book = NULL;
	struct fault fault = {0};
	if (!rulebook_new(sheets, 2, &book, &fault)) {
		fail_msg("%s", fault.text);
	}
	size_t count = 0;
	const struct rule *const *rules = rulebook_for(book, "smoke-alarm", &count);
	assert_int_equal(count, 3);
	assert_string_equal(rules[0]->id, "us-smoke-alarm");
	assert_string_equal(rules[1]->id, "smoke-alarm-marked");
	assert_string_equal(rules[2]->id, "smoke-alarm-unmarked");
	assert_null(rulebook_for(book, "lifebuoy", &count));
	assert_int_equal(count, 0);
	rulebook_free(book);
	book = NULL;
	sheets[0] = practice;
	assert_false(rulebook_new(sheets, 2, &book, &fault));
	assert_null(book);
	assert_string_equal(fault.text,
	    "sheet practice is named twice; expected each sheet once: leave it out the second time");
	sheet_free(practice);
	sheet_free(other);
}

TEST(every_field_reaches_the_carriage_line)
{
	static const char YAML[] =
	    "sheet: t\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules: []\ncarriage:\n"
	    "- id: a\n  title: things\n"
	    "  when: {use: commercial, areas: [sea], length-from: 4.88, persons-until: 12}\n"
	    "  need: {per-person: 2, percent: 10, plus: 3}\n  any-of: g\n  serves:\n"
	    "  - {kinds: [tether, jackstay], points: 4}\n  - {kinds: [medicine], points: 1}\n"
	    "  source: clause 1\n  standing: relayed\n"
	    "- {id: b, title: U, need: {points: 5}, serves: [{kinds: [tether], points: 1}],\n"
	    "   source: s, standing: memory}\n";
	struct sheet *sheet = NULL;
	struct fault fault = {0};
	if (!read_yaml(*state, YAML, &sheet, &fault)) {
		fail_msg("%s", fault.text);
	}
	assert_int_equal(sheet->rule_count, 0);
	assert_int_equal(sheet->carriage_count, 2);
	const struct carriage *line = &sheet->carriage[0];
	assert_string_equal(line->id, "a");
	assert_string_equal(line->title, "things");
	assert_string_equal(line->sheet, "t");
	assert_int_equal(line->when.uses, 1U << USE_COMMERCIAL);
	assert_string_equal(line->when.areas[0], "sea");
	assert_int_equal(line->when.length_from_cm, 488);
	assert_int_equal(line->when.persons_until, 12);
	assert_int_equal(line->points, 0);
	assert_int_equal(line->per_person, 2);
	assert_int_equal(line->percent, 10);
	assert_int_equal(line->plus, 3);
	assert_string_equal(line->any_of, "g");
	assert_int_equal(line->serve_count, 2);
	assert_string_equal(line->serves[0].kinds[1], "jackstay");
	assert_int_equal(line->serves[0].points, 4);
	assert_int_equal(line->serves[1].kind_count, 1);
	assert_string_equal(line->source, "clause 1");
	assert_int_equal(line->standing, STANDING_RELAYED);
	assert_int_equal(sheet->carriage[1].points, 5);
	assert_string_equal(sheet->carriage[1].any_of, "");
	sheet_free(sheet);
}

/* Six hundred months are the most; of three lines none has the id of one above. */
TEST(a_figure_may_be_the_most_there_is_and_an_id_stands_once)
{
	static const char MOST[] = HEAD RULE("a", "tether", "renew", "made", "600");
	static const char TWICE[] = LINES CARRIAGE("x", "points: 1", "tether", "1")
	    CARRIAGE("y", "points: 999", "tether", "999")
		CARRIAGE("y", "points: 1", "tether", "1");
	struct sheet *sheet = NULL;
	struct fault fault = {0};
	assert_true(read_yaml(*state, MOST, &sheet, &fault));
	assert_int_equal(sheet->rules[0].clocks[0].months, 600);
	sheet_free(sheet);
	assert_false(read_yaml(*state, TWICE, &sheet, &fault));
	assert_string_equal(fault.text,
	    "t.yaml: line 33, field id: found \"y\", expected an id that no carriage line "
	    "above has");
	static const char SUBJECTS_TWICE[] =
	    HEAD GOOD "not-stated:\n- {id: x, subject: s, ask: a}\n"
		      "- {id: y, subject: s, ask: a}\n- {id: y, subject: t, ask: b}\n";
	fault = (struct fault){0};
	assert_false(read_yaml(*state, SUBJECTS_TWICE, &sheet, &fault));
	assert_non_null(strstr(fault.text, "t.yaml: line 19, field id: found \"y\""));
}

TEST(a_carriage_line_is_in_one_of_a_vessels_sheets_only)
{
	static const char YAML[] =
	    "sheet: s\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules: []\ncarriage:\n"
	    "- {id: us-throwable, title: U, need: {points: 5}, source: s, standing: memory,\n"
	    "   serves: [{kinds: [tether], points: 1}]}\n";
	struct sheet *own = NULL;
	struct fault fault = {0};
	if (!read_yaml(*state, YAML, &own, &fault)) {
		fail_msg("%s", fault.text);
	}
	struct sheet *shipped = data_file_sheet("us-recreational", *state);
	const struct sheet *sheets[] = {shipped, own};
	struct rulebook *book = NULL;
	size_t count = 0;
	assert_false(rulebook_new(sheets, 2, &book, &fault));
	assert_string_equal(fault.text,
	    "carriage line \"us-throwable\" is in sheet us-recreational and in sheet s; expected each line in one of the sheets a vessel follows");
	assert_true(rulebook_new(sheets, 1, &book, &fault));
	assert_string_equal(rulebook_carriage(book, &count)[1]->id, "us-throwable");
	assert_int_equal(count, 8);
	rulebook_free(book);
	sheet_free(own);
	sheet_free(shipped);
}

TEST(a_vessels_period_is_the_latest_that_has_begun)
{
	const day_t change = day_from_civil(2027, 6, 1);
	const struct period periods[] = {
	    {.from = DAY_NONE, .use = USE_PRIVATE, .area = ""},
	    {.from = change, .use = USE_COMMERCIAL, .area = ""},
	};
	const struct vessel vessel = {.periods = periods, .period_count = 2};
	assert_ptr_equal(vessel_period_on(&vessel, change - 1), &periods[0]);
	assert_ptr_equal(vessel_period_on(&vessel, change), &periods[1]);
	assert_ptr_equal(vessel_period_on(&vessel, DAY_MIN), &periods[0]);
}

RUN_TESTS(data_file_open_kinds, data_file_close_kinds)
