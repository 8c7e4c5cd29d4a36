/* When two conditions are the same, which intervals contradict one another, and packed
 * YAML that is whole. */
#include "becket_test.h"
#include "data_file.h"
#include "rules/compare.h"
#include "rules/meets.h"
#include "rules/sheet_check.h"
#include "rules/sheet_inside.h"
#include "rules/yaml_inside.h"

#include <string.h>

static const char *const BAY[] = {"bay", "sea"};
static const char *const SEA[] = {"sea", "bay"};
static const char *const LAKE[] = {"bay", "lake"};

/* With all there is, in this order of areas and ratings. */
static struct conditions
all_of(const char *const *areas)
{
	return (struct conditions){.uses = 1,
	    .age_from_months = 2,
	    .age_until_months = 3,
	    .marked = 1,
	    .length_from_cm = 4,
	    .length_below_cm = 5,
	    .persons_from = 6,
	    .persons_until = 7,
	    .built_from = 8,
	    .built_until = 9,
	    .made_from = 10,
	    .made_until = 11,
	    .areas = areas,
	    .area_count = 2,
	    .areas_except = areas,
	    .area_except_count = 2,
	    .season_months_below = 12,
	    .above_freezing = 1,
	    .dry_storage = 1,
	    .test_valid_months = 13,
	    .ratings = areas,
	    .rating_count = 2};
}

TEST(conditions_are_the_same_when_all_of_them_are_in_whatever_order)
{
	const struct conditions one = all_of(BAY);
	const struct conditions turned = all_of(SEA);
	const struct conditions none = {.made_from = DAY_NONE, .made_until = DAY_NONE};
	struct conditions others[19];
	for (size_t i = 0; i < 19; i++) {
		others[i] = one;
	}
	others[0].uses = 2;
	others[1].age_from_months++;
	others[2].age_until_months++;
	others[3].marked = -1;
	others[4].length_from_cm++;
	others[5].length_below_cm++;
	others[6].persons_from++;
	others[7].persons_until++;
	others[8].built_from++;
	others[9].built_until++;
	others[10].made_from++;
	others[11].made_until++;
	others[12].season_months_below--;
	others[13].above_freezing = -1;
	others[14].dry_storage = -1;
	others[15].test_valid_months++;
	others[16].areas = LAKE;
	others[17].areas_except = LAKE;
	others[18].ratings = LAKE;
	assert_true(conditions_same(&one, &turned));
	assert_true(conditions_none(&none));
	assert_false(conditions_none(&one));
	for (size_t i = 0; i < 19; i++) {
		if (conditions_same(&one, &others[i]) ||
		    conditions_same(&others[i], &one)) {
			fail_msg("the %zuth is the same", i);
		}
	}
	/* fewer of a list are not the same, seen from either side */
	struct conditions fewer[] = {one, one, one};
	fewer[0].area_count = 1;
	fewer[1].area_except_count = 1;
	fewer[2].rating_count = 1;
	for (size_t i = 0; i < 3; i++) {
		assert_false(conditions_same(&one, &fewer[i]));
		assert_false(conditions_same(&fewer[i], &one));
	}
}

/* Five lines of a head; a rule has four, a line of what is carried three. */
#define HEAD "sheet: m\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules:\n"
#define RULE(id, clock, more)                                                            \
	"- {id: " id ", kinds: [tether], task: renew, doer: owner, grade: law,\n"        \
	"   clocks: [{" clock "}], source: s,\n   standing: memory" more "}\n"
#define LINE(serves)                                                                     \
	"carriage:\n- {id: l, title: L, need: {points: 4}, source: s, standing: read,\n" \
	"   serves: [" serves "]}\n"

TEST(figures_contradict_one_another_when_either_is_an_interval_of_its_own)
{
	static const struct {
		const char *yaml;
		const char *says; /* "" where nothing is found */
	} ROWS[] = {
	    {HEAD RULE("a", "from: [made], days: 7", "")
		    RULE("b", "from: [made], days: 8", ""),
		"contradict those of a"},
	    {HEAD RULE("a", "from: [made], days: 7", "")
		    RULE("b", "from: [made], days: 7", ""),
		""},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    RULE("b", "from: [made], months: 7, through: year-end", ""),
		"contradict those of a"},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    RULE("b", "from: [made], months: 7, before: yes", ""),
		"contradict those of a"},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    RULE("b", "from: [made], interval: maker", ""),
		""},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    RULE("b", "from: [certificate]", ""),
		""},
	    {HEAD RULE("a", "from: [event], events: [fired]", "")
		    RULE("b", "from: [event], events: [used]", ""),
		""},
	    /* done at most twice, and from the second time on: both hold for the second */
	    {HEAD RULE("a", "from: [made], months: 7, done-until: 2", "")
		    RULE("b", "from: [made], months: 8, done-from: 2", ""),
		"contradict those of a"},
	    {HEAD RULE("a", "from: [made], months: 7, done-until: 1", "")
		    RULE("b", "from: [made], months: 8, done-from: 2", ""),
		""},
	    /* where both hold one always stands instead of the other */
	    {HEAD RULE("a", "from: [made], months: 7", ", when: {use: private}") RULE("b",
		 "from: [made], months: 8", ", when: {use: private}, instead-of: [a]"),
		"it never holds: b always stands"},
	    {HEAD RULE("a", "from: [made], months: 7", ", when: {use: private}") RULE("b",
		 "from: [made], months: 8", ", when: {use: commercial}, instead-of: [a]"),
		""},
	    /* what each entry counts at most is just enough; one has no limit */
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    LINE("{kinds: [tether], points: 1, at-most: 2},\n"
			 "     {kinds: [jackstay], points: 1, at-most: 2}"),
		""},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    LINE("{kinds: [tether], points: 1, at-most: 2},\n"
			 "     {kinds: [jackstay], points: 1, at-most: 1}"),
		"it needs 4, and its kinds count 3 at most"},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    LINE("{kinds: [tether], points: 1, at-most: 2},\n"
			 "     {kinds: [jackstay], points: 1}"),
		""},
	    {HEAD "- {id: a, kinds: [tether], task: renew, doer: owner, grade: law,\n"
		  "   clocks: [{from: [made], months: 7}], source: common practice,\n"
		  "   standing: read}\n",
		"its source is common practice, but its standing is read"},
	    {HEAD "- {id: a, kinds: [tether], task: renew, doer: owner, grade: law,\n"
		  "   clocks: [{from: [made], months: 7}], source: common practice,\n"
		  "   standing: common practice}\n",
		""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct sheet *sheet = NULL;
		struct fault fault = {0};
		struct arena arena = {0};
		struct sheet_findings findings = {0};
		SCOPED_TEXT yaml = {0};
		text_add(&yaml, ROWS[i].yaml);
		if (!sheet_read("m.yaml", text_string(&yaml), yaml.length, *state, NULL,
			&sheet, &fault)) {
			fail_msg("%s", fault.text);
		}
		sheet_check(sheet, &yaml, false, &arena, &findings);
		size_t wrong = sheet_findings_wrong(&findings);
		const char *what = wrong == 0 ? "" : findings.items[0].what;
		if (wrong != (ROWS[i].says[0] != '\0') ||
		    strstr(what, ROWS[i].says) == NULL) {
			fail_msg("row %zu: %zu, \"%s\"", i, wrong, what);
		}
		sheet_findings_clear(&findings);
		sheet_free(sheet);
		arena_clear(&arena);
	}
}

/* Whether one rule of tethers with these clocks has its like in another with those. */
static bool
same_clocks(const struct kinds *kinds, const char *one, const char *other)
{
	const char *const clocks[] = {one, other};
	struct sheet *sheets[2] = {NULL, NULL};
	struct rulebook *books[2] = {NULL, NULL};
	struct arena arena = {0};
	struct comparison compared = {0};
	struct line_list lines = {0};
	struct fault fault = {0};
	for (size_t i = 0; i < 2; i++) {
		SCOPED_TEXT yaml = {0};
		text_add_format(&yaml,
		    HEAD RULE("a", "%s", "")
			LINE("{kinds: [jackstay, tether], points: 1}"),
		    clocks[i]);
		if (!sheet_read("m.yaml", text_string(&yaml), yaml.length, kinds, NULL,
			&sheets[i], &fault) ||
		    !rulebook_new(
			(const struct sheet *const *)&sheets[i], 1, &books[i], &fault)) {
			fail_msg("%s", fault.text);
		}
	}
	const struct rulebook *const sides[] = {books[0], books[1]};
	compare_rules(sides, kinds, "tether", &arena, &compared);
	assert_int_equal(compared.count, 1);
	bool same = compared.items[0].same;
	lines_for_kind(books[0], "tether", &arena, &lines);
	assert_int_equal(lines.count, 1);
	lines_for_kind(books[0], "harness", &arena, &lines);
	assert_int_equal(lines.count, 0);
	for (size_t i = 0; i < 2; i++) {
		rulebook_free(books[i]);
		sheet_free(sheets[i]);
	}
	arena_clear(&arena);
	return same;
}

TEST(clocks_are_the_same_when_all_of_each_is)
{
	static const char *const ALL[] = {
	    "from: [packed, made], months: 12, done-from: 1, done-until: 3",
	    "from: [packed, bought], months: 12, done-from: 1, done-until: 3",
	    "from: [packed, made], months: 12, done-from: 2, done-until: 3",
	    "from: [packed, made], months: 12, done-from: 1, done-until: 4",
	    "from: [packed, made], interval: maker, done-from: 1, done-until: 3",
	    "from: [packed, made], months: 0, done-from: 1, done-until: 3",
	    "from: [packed, made], days: 12, done-from: 1, done-until: 3",
	    "from: [packed, made], days: 13, done-from: 1, done-until: 3",
	    "from: [made], months: 12}, {from: [last], months: 6",
	    "from: [made], months: 12}, {from: [last], months: 7",
	    "from: [event], events: [fired]",
	    "from: [event], events: [used]",
	    "from: [event], events: [fired, used]",
	};

	for (size_t i = 0; i < sizeof ALL / sizeof ALL[0]; i++) {
		for (size_t k = 0; k < sizeof ALL / sizeof ALL[0]; k++) {
			if (same_clocks(*state, ALL[i], ALL[k]) != (i == k)) {
				fail_msg("%s\n%s", ALL[i], ALL[k]);
			}
		}
	}
}

/* A rule with more keys, and one more of the same task. */
#define TWO_RULES(clock, more, doer, other)                                              \
	clock "}], source: s,\n   standing: memory" more                                 \
	      "}\n- {id: b, kinds: [tether], task: renew,\n   doer: " doer               \
	      ", grade: law,\n   clocks: [{" other
#define MADE "from: [made], months: 12"
#define FITTED "from: [fitted], months: 6"

TEST(rules_are_the_same_when_each_has_its_like)
{
	static const char one[] = TWO_RULES(MADE, "", "owner", FITTED);
	static const char *const others[] = {
	    TWO_RULES(MADE, "", "owner", "from: [fitted], months: 7"),
	    TWO_RULES(MADE, "", "station", FITTED),
	    TWO_RULES(MADE, ", refit: yes", "owner", FITTED),
	    TWO_RULES(MADE, ", contents-bind: yes", "owner", FITTED),
	    TWO_RULES(MADE, ", extension: 6", "owner", FITTED),
	    TWO_RULES(MADE, ", lapse: life-expired", "owner", FITTED),
	    TWO_RULES(MADE, ", when: {use: private}", "owner", FITTED),
	    TWO_RULES(MADE, ", window: {early: 1}", "owner", FITTED),
	    TWO_RULES(MADE, ", window: {late: 1}", "owner", FITTED),
	    TWO_RULES(MADE, ", window: {next: from-due}", "owner", FITTED),
	};
	assert_true(same_clocks(*state, one, TWO_RULES(FITTED, "", "owner", MADE)));
	for (size_t i = 0; i < sizeof others / sizeof others[0]; i++) {
		if (same_clocks(*state, one, others[i]) ||
		    same_clocks(*state, others[i], one)) {
			fail_msg("the %zuth is the same", i);
		}
	}
}

/* A subject is about kinds, is of a sheet that she follows then, and holds of her or may. */
TEST(a_subject_concerns_gear_of_its_kinds_under_its_sheet)
{
	static const char *const TETHERS[] = {"tether"};
	static const char *const FOLLOWED[] = {"m"};
	struct period period = {.from = DAY_NONE, .area = "", .use = USE_PRIVATE};
	const struct vessel vessel = {
	    .periods = &period, .period_count = 1, .length_cm = 900};
	struct not_stated subject = {.sheet = "m",
	    .kinds = TETHERS,
	    .kind_count = 1,
	    .when = {.made_from = DAY_NONE, .made_until = DAY_NONE}};
	assert_true(subject_concerns(&subject, "tether", &vessel, 0));
	assert_false(subject_concerns(&subject, "jackstay", &vessel, 0));
	period.sheets = FOLLOWED;
	period.sheet_count = 1;
	assert_true(subject_concerns(&subject, "tether", &vessel, 0));
	subject.sheet = "n";
	assert_false(subject_concerns(&subject, "tether", &vessel, 0));
	subject.sheet = "m";
	subject.when.length_from_cm = 1000;
	assert_false(subject_concerns(&subject, "tether", &vessel, 0));
	subject.when.length_from_cm = 0;
	subject.when.built_from = 2005;
	assert_true(subject_concerns(&subject, "tether", &vessel, 0));
}

/* Two sheets of one vessel with rules, or lines, of one id. */
TEST(an_id_is_in_one_sheet_of_a_vessel)
{
	static const char *const TEXTS[][2] = {
	    {HEAD RULE("a", "from: [made], months: 7", ""),
		"sheet: n\ntitle: T\nfor: f\ncompiled: 2026-11-25\nrules:\n" RULE(
		    "a", "from: [made], months: 8", "")},
	    {HEAD RULE("a", "from: [made], months: 7", "")
		    LINE("{kinds: [tether], points: 1}"),
		"sheet: n\ntitle: T\nfor: f\ncompiled: 2026-11-25\n" LINE(
		    "{kinds: [tether], points: 1}")}};
	static const char *const SAYS[] = {
	    "rule \"a\" is in sheet m and in sheet n; expected each rule in one of the sheets "
	    "a vessel follows",
	    "carriage line \"l\" is in sheet m and in sheet n; expected each line in one of the "
	    "sheets a vessel follows"};
	for (size_t i = 0; i < 2; i++) {
		struct sheet *sheets[2] = {NULL, NULL};
		struct rulebook *book = NULL;
		struct fault fault = {0};
		for (size_t k = 0; k < 2; k++) {
			if (!sheet_read("t.yaml", TEXTS[i][k], strlen(TEXTS[i][k]),
				*state, NULL, &sheets[k], &fault)) {
				fail_msg("%s", fault.text);
			}
		}
		assert_false(
		    rulebook_new((const struct sheet *const *)sheets, 2, &book, &fault));
		assert_string_equal(fault.text, SAYS[i]);
		/* on different days she may follow both */
		assert_true(rulebook_of_times(
		    (const struct sheet *const *)sheets, 2, &book, &fault));
		rulebook_free(book);
		sheet_free(sheets[0]);
		sheet_free(sheets[1]);
	}
}

#define WHOLE(keys, more)                                                                \
	"m" keys "\0ssheet\0st\0stitle\0sT\0sfor\0sf\0scompiled\0s2026-11-25\0" more

/* The form is told in rules/kinds.h: a byte for the sort, then the text or the count,
 * then a nought. */
TEST(packed_is_read_when_it_is_whole_and_nothing_stands_behind_it)
{
#define PACKED(literal, reads)                                                           \
	{                                                                                \
		literal, sizeof literal - 1, reads                                       \
	}

	static const struct {
		const char *packed;
		size_t length;
		bool reads;
	} ROWS[] = {
	    PACKED(WHOLE("4", ""), true), PACKED(WHOLE("5", "scautions\0l0\0"), true),
	    PACKED(WHOLE("5", "scautions\0l2\0sa\0sb\0"), true),
	    PACKED(WHOLE("4", "sx\0"), false),        /* something behind it */
	    PACKED(WHOLE("3", ""), false),            /* a key less than there are */
	    PACKED(WHOLE("5", ""), false),            /* a key more */
	    PACKED(WHOLE("5", "l0\0"), false),        /* a list for a key */
	    PACKED(WHOLE("5", "sextends\0"), false),  /* no value */
	    PACKED(WHOLE("5", "scautions\0"), false), /* no list */
	    PACKED(WHOLE("5", "scautions\0sx\0"), false),
	    PACKED(WHOLE("5", "scautions\0l2\0sa\0"), false),
	    PACKED(WHOLE("5", "scautions\0l2\0sa\0l0\0"), false),
	    PACKED(WHOLE("5", "scautions\0l2\0l0\0sa\0"), false),
	    PACKED(WHOLE("5", "srules\0l1\0sx\0"), false),  /* a word for a rule */
	    PACKED(WHOLE("5", "scautions\0l1\0sa"), false), /* it does not end */
	};

#undef PACKED
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		const struct yaml_source source = {
		    "t.yaml", "", 0, ROWS[i].packed, ROWS[i].length};
		struct yaml_loaded loaded = {0};
		if (yaml_packed_load(&source, &SHEET_SCHEMA, &loaded) != ROWS[i].reads) {
			fail_msg("row %zu", i);
		}
		yaml_loaded_free(&SHEET_SCHEMA, &loaded);
	}
	const struct yaml_source plain = {"t.yaml", "", 0, NULL, 0};
	struct yaml_loaded none = {0};
	assert_false(yaml_packed_load(&plain, &SHEET_SCHEMA, &none));
	assert_null(none.values);
}

RUN_TESTS(data_file_open_kinds, data_file_close_kinds)
