/* Where a path leads in a YAML text, and single values out of one. Lines counted by hand. */
#include "becket_test.h"
#include "rules/yaml_inside.h"

#include <string.h>

static struct yaml_source
source_of(const char *yaml)
{
	return (struct yaml_source){"t.yaml", yaml, strlen(yaml), NULL, 0};
}

/* A place that is not there leads to the line of the nearest one around it. */
TEST(a_path_leads_to_its_line_or_to_the_nearest_around_it)
{
	static const char YAML[] = "# a remark\n"       /* 1 */
				   "sheet: s\n"         /* 2 */
				   "rules:\n"           /* 3 */
				   "- id: a\n"          /* 4 */
				   "  months: 1\n"      /* 5 */
				   "- id: b\n"          /* 6 */
				   "  kinds:\n"         /* 7 */
				   "  - x\n"            /* 8 */
				   "  - y\n"            /* 9 */
				   "  [k]: of a list\n" /* 10: a key that is no word */
				   "  id: c\n";         /* 11 */

	static const struct {
		const char *path;
		int occurrence;
		unsigned long line;
	} ROWS[] = {
	    {"", 1, 1},
	    {"sheet", 1, 2},
	    {"rules", 1, 3},
	    {"rules/1", 1, 4},
	    {"rules/1/months", 1, 5},
	    {"rules/1/days", 1, 4},
	    {"rules/2/id", 1, 6},
	    {"rules/2/id", 2, 11},
	    {"rules/2/id", 3, 11}, /* the last there is */
	    {"rules/2/kinds", 1, 7},
	    {"rules/2/kinds/1", 1, 8},
	    {"rules/2/kinds/2", 1, 9},
	    {"rules/2/kinds/0", 1, 7},
	    {"rules/2/kinds/3", 1, 7},
	    {"rules/2/kinds/x", 1, 7},
	    {"rules/2/kinds/1/deeper", 1, 8},
	    {"rules/3/id", 1, 3},
	    {"rule", 1, 1},
	    {"rulesx", 1, 1},
	    {"sheet/1", 1, 2},
	};

	const struct yaml_source source = source_of(YAML);
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct yaml_where where =
		    yaml_where_find(&source, ROWS[i].path, ROWS[i].occurrence);
		if (where.found != YAML_WHERE_FOUND || where.line != ROWS[i].line) {
			fail_msg("%s, %d: line %lu", ROWS[i].path, ROWS[i].occurrence,
			    where.line);
		}
	}
}

TEST(of_no_yaml_the_line_of_the_trouble_is_told_and_of_nothing_the_first)
{
	const struct yaml_source broken = source_of("sheet: s\nrules: [a\nb: c\n");
	struct yaml_where where = yaml_where_find(&broken, "rules", 1);
	assert_int_equal(where.found, YAML_WHERE_BROKEN);
	assert_int_equal(where.line, 3);
	assert_string_not_equal(where.problem, "");
	const struct yaml_source nothing = source_of("");
	where = yaml_where_find(&nothing, "rules", 1);
	assert_int_equal(where.found, YAML_WHERE_FOUND);
	assert_int_equal(where.line, 1);
}

/* A whole number of at most six digits, and metres up to 500 with at most two places. */
TEST(numbers_are_whole_digits_or_metres)
{
	static const struct {
		const char *value;
		int number; /* -1 where it is none */
		int cm;
	} ROWS[] = {
	    {"0", 0, 0}, {"007", 7, 700}, {"500", 500, 50000}, {"501", 501, -1},
	    {"7.3", -1, 730}, {"7.03", -1, 703}, {"7.325", -1, -1}, {"500.99", -1, 50099},
	    {"7.", -1, -1}, {".5", -1, -1}, {"", -1, -1}, {"7a", -1, -1},
	    {"7/", -1, -1}, /* the bytes on either side of the digits */
	    {"7:", -1, -1}, {"7.x", -1, -1}, {"999999", 999999, -1}, {"1000000", -1, -1},
	    {"4294967297", -1, -1}, /* one, where it overran */
	};

	const struct yaml_source source = source_of("k: v\n");
	const struct yaml_spot spot = {.source = &source};
	const struct yaml_range range = {0, 999999, "pieces"};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int number = -1;
		int cm = -1;
		bool whole =
		    yaml_read_int(&spot, "k", ROWS[i].value, range, &number, &fault);
		bool metres = yaml_read_metres(&spot, "k", ROWS[i].value, &cm, &fault);
		if (number != ROWS[i].number || cm != ROWS[i].cm ||
		    whole != (number >= 0) || metres != (cm >= 0)) {
			fail_msg("\"%s\": %d, %d cm", ROWS[i].value, number, cm);
		}
	}
}

TEST(a_number_is_from_the_least_to_the_most_and_one_that_is_absent_changes_nothing)
{
	static const struct {
		const char *value;
		bool fits;
		int number;
	} ROWS[] = {{NULL, true, 42}, {"4", false, 42}, {"5", true, 5}, {"7", true, 7},
	    {"8", false, 42}};

	const struct yaml_source source = source_of("a: 1\nk: v\n");
	const struct yaml_spot spot = {.source = &source};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		int number = 42;
		bool fits = yaml_read_int(&spot, "k", ROWS[i].value,
		    (struct yaml_range){5, 7, "pieces"}, &number, &fault);
		assert_int_equal(fits, ROWS[i].fits);
		assert_int_equal(number, ROWS[i].number);
		if (!fits) {
			assert_told(fault.text,
			    "t.yaml: line 2, field k: found \"%s\", expected a whole "
			    "number of pieces, 5 to 7",
			    ROWS[i].value);
		}
	}
}

/* Words of a list as bits and as places: each once, no more than there are, all of them known. */
TEST(words_of_a_list_are_known_and_there_once)
{
	static const char *const KNOWN[] = {"red", "green", "blue"};
	static const struct yaml_words WORDS = {KNOWN, 3};

	static const struct {
		const char *words[4];
		unsigned count;
		unsigned bits;
		const char *says;
	} ROWS[] = {
	    {{NULL}, 0, 0, ""},
	    {{"blue", "red"}, 2, 5, ""},
	    {{"green", "red", "blue"}, 3, 7, ""},
	    {{"red", "grey"}, 2, 0,
		"t.yaml: line 1, field k, entry 2: found \"grey\", expected one of: red, "
		"green, blue"},
	    {{"red", "blue", "red"}, 3, 0,
		"t.yaml: line 1, field k, entry 3: found \"red\", expected each word once"},
	    {{"red", "green", "blue", "grey"}, 4, 0,
		"t.yaml: line 1, field k: found \"grey\", expected no more words than there "
		"are"},
	};

	const struct yaml_source source = source_of("k: v\n");
	const struct yaml_spot spot = {.source = &source};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		char *items[4];
		memcpy(items, ROWS[i].words, sizeof items);
		const struct yaml_list list = {items, ROWS[i].count};
		unsigned bits = 0;
		bool fits = yaml_read_bits(&spot, "k", &list, WORDS, &bits, &fault);
		assert_int_equal(fits, ROWS[i].says[0] == '\0');
		assert_string_equal(fault.text, ROWS[i].says);
		assert_int_equal(bits, ROWS[i].bits);
	}
}

/* Blanks are no words. */
TEST(words_may_not_be_blank)
{
	const struct yaml_source source = source_of("k: v\n");
	const struct yaml_spot spot = {.source = &source};
	struct arena arena = {0};
	const char *word = "as it was";
	const char *const *words = &word;
	char first[] = "a";
	char blank[] = " \t";
	char *items[] = {first, blank};
	struct fault fault = {0};
	assert_false(yaml_read_text(&spot, "k", NULL, &arena, &word, &fault));
	assert_string_equal(
	    fault.text, "t.yaml: line 1, field k: found nothing, expected some words");
	assert_false(yaml_read_text(&spot, "k", blank, &arena, &word, &fault));
	assert_string_equal(word, "as it was");
	assert_true(yaml_read_text(&spot, "k", " a", &arena, &word, &fault));
	assert_string_equal(word, " a");
	const struct yaml_list both = {items, 2};
	assert_false(yaml_read_texts(&spot, "k", &both, &arena, &words, &fault));
	assert_ptr_equal(words, &word);
	const struct yaml_list one = {items, 1};
	assert_true(yaml_read_texts(&spot, "k", &one, &arena, &words, &fault));
	assert_string_equal(words[0], "a");
	const struct yaml_list none = {NULL, 0};
	assert_true(yaml_read_texts(&spot, "k", &none, &arena, &words, &fault));
	assert_null(words);
	yaml_read_optional_text(NULL, &arena, &word);
	assert_string_equal(word, "");
	arena_clear(&arena);
}

TEST(a_yes_is_a_yes_and_what_is_absent_stays)
{
	static const struct {
		const char *value;
		bool fits;
		bool from[2]; /* what no and yes become */
	} ROWS[] = {{"yes", true, {true, true}}, {"no", true, {false, false}},
	    {NULL, true, {false, true}}, {"true", false, {false, true}}};

	const struct yaml_source source = source_of("k: v\n");
	const struct yaml_spot spot = {.source = &source};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		for (int was = 0; was < 2; was++) {
			struct fault fault = {0};
			bool is = was == 1;
			assert_int_equal(
			    yaml_read_bool(&spot, "k", ROWS[i].value, &is, &fault),
			    ROWS[i].fits);
			assert_int_equal(is, ROWS[i].from[was]);
		}
	}
}

RUN_TESTS(NULL, NULL)
