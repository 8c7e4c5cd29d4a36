/* One slip at a time in every field of a sheet and of the catalogue: each is refused
 * where it stands, with what was found and what was expected. */
#include "becket_test.h"
#include "data_file.h"

#include <string.h>

/* A key of a mapping, by what the mapping is of; without a value it is left out. */
struct pair {
	const char *in;
	const char *key;
	const char *value;
};

/* A sheet in which all is right. */
static const struct pair GOOD[] = {
    {"sheet", "sheet", "t"},
    {"sheet", "title", "T"},
    {"sheet", "for", "f"},
    {"sheet", "compiled", "2026-11-25"},
    {"rule", "id", "a"},
    {"rule", "kinds", "[tether]"},
    {"rule", "task", "renew"},
    {"rule", "doer", "owner"},
    {"rule", "grade", "practice"},
    {"rule", "source", "s"},
    {"rule", "standing", "memory"},
    {"clock", "from", "[made]"},
    {"clock", "months", "12"},
    {"line", "id", "l"},
    {"line", "title", "L"},
    {"line", "source", "s"},
    {"line", "standing", "read"},
    {"need", "points", "1"},
    {"serves", "kinds", "[tether]"},
    {"serves", "points", "1"},
    {"subject", "id", "n"},
    {"subject", "subject", "rafts"},
    {"subject", "ask", "the maker"},
};

enum { SLIPS = 3 };

struct row {
	struct pair slips[SLIPS];
	const char *says; /* after "t.yaml: line 1, field " */
};

static const struct row ROWS[] = {
    {{{"sheet", "sheet", "' '"}}, "sheet: found \" \", expected some words"},
    {{{"sheet", "title", "' '"}}, "title: found \" \", expected some words"},
    {{{"sheet", "for", "''"}}, "for: found \"\", expected some words"},
    {{{"sheet", "compiled", "2026-11"}}, "compiled: found \"2026-11\", expected a day"},
    {{{"sheet", "extends", "' '"}}, "extends: found \" \", expected some words"},
    {{{"sheet", "extends", "base"}}, "extends: found \"base\", expected a sheet that"},
    {{{"sheet", "strikes", "[a]"}},
	"strikes, entry 1: found \"a\", expected strikes only"},
    {{{"sheet", "strikes", "[a, ' ']"}, {"sheet", "extends", "base"}},
	"strikes, entry 2: found \" \", expected some words"},
    {{{"sheet", "cautions", "[' ']"}}, "cautions, entry 1: found \" \", expected some w"},
    {{{"rule", "id", "''"}}, "id: found \"\", expected small letters"},
    {{{"rule", "id", "A"}}, "id: found \"A\", expected small letters"},
    {{{"rule", "kinds", "[]"}}, "kinds: found nothing, expected at least one kind"},
    {{{"rule", "kinds", "[tether, jackstay, tether]"}},
	"kinds, entry 3: found \"tether\", expected each kind once"},
    {{{"rule", "doer", "nobody"}}, "doer: found \"nobody\", expected one of: owner"},
    {{{"rule", "grade", "strict"}}, "grade: found \"strict\", expected one of: law"},
    {{{"rule", "standing", "seen"}}, "standing: found \"seen\", expected one of: read"},
    {{{"rule", "lapse", "gone"}}, "lapse: found \"gone\", expected one of: overdue"},
    {{{"rule", "counts", "[fly]"}}, "counts, entry 1: found \"fly\", expected one of: s"},
    {{{"rule", "contents-bind", "1"}}, "contents-bind: found \"1\", expected one of: no"},
    {{{"rule", "refit", "1"}}, "refit: found \"1\", expected one of: no, yes"},
    {{{"rule", "extension", "61"}}, "extension: found \"61\", expected a whole number"},
    {{{"rule", "instead-of", "[' ']"}},
	"instead-of, entry 1: found \" \", expected some"},
    {{{"rule", "beside", "[' ']"}}, "beside, entry 1: found \" \", expected some words"},
    {{{"rule", "beside", "[z]"}}, "beside, entry 1: found \"z\", expected the id of ano"},
    {{{"rule", "standing", "not verified"}}, "months: found \"12\", expected no figure"},
    {{{"rule", "standing", "not verified"}, {"clock", "months", "0, days: 7"}},
	"days: found \"7\", expected months or days, not both"},
    {{{"rule", "standing", "not verified"}, {"clock", "months", NULL},
	 {"clock", "days", "1"}},
	"days: found \"1\", expected no figure"},
    {{{"clock", "from", "[]"}}, "from: found nothing, expected one to four anchors"},
    {{{"clock", "from", "[made, packed, bought, fitted, last]"}},
	"from: found \"last\", expected one to four anchors"},
    {{{"clock", "from", "[made, made]"}}, "from, entry 2: found \"made\", expected each"},
    {{{"clock", "months", NULL}}, "months: found nothing, expected an interval in mont"},
    {{{"clock", "months", NULL}, {"clock", "days", "0"}},
	"days: found \"0\", expected a whole number of days, 1 to 3660"},
    {{{"clock", "months", NULL}, {"clock", "days", "7, interval: maker"}},
	"interval: found \"maker\", expected months, days or interval, one of them"},
    {{{"clock", "months", NULL}, {"clock", "from", "[marked], interval: maker"}},
	"interval: found \"maker\", expected no interval"},
    {{{"clock", "months", NULL}, {"clock", "from", "[marked], days: 7"}},
	"days: found \"7\", expected no interval"},
    {{{"clock", "months", NULL}, {"clock", "from", "[certificate], holds: first"}},
	"from: found \"certificate\", expected an anchor that is known before"},
    {{{"clock", "months", NULL}, {"clock", "from", "[event], events: [flown]"}},
	"events, entry 1: found \"flown\", expected one of: "},
    {{{"clock", "holds", "once"}}, "holds: found \"once\", expected one of: always"},
    {{{"clock", "holds", "first, done-from: 1"}},
	"holds: found \"first\", expected holds, or done-from and done-until, not both"},
    {{{"clock", "holds", "first, done-until: 1"}},
	"holds: found \"first\", expected holds, or done-from and done-until, not both"},
    {{{"clock", "done-from", "x"}}, "done-from: found \"x\", expected a whole number of"},
    {{{"clock", "done-until", "x"}}, "done-until: found \"x\", expected a whole number "},
    {{{"clock", "done-from", "3, done-until: 2"}},
	"done-until: found \"2\", expected no fewer times than done-from"},
    {{{"clock", "through", "week"}}, "through: found \"week\", expected one of: day"},
    {{{"clock", "before", "1"}}, "before: found \"1\", expected one of: no, yes"},
    {{{"clock", "stamp", "middle"}}, "stamp: found \"middle\", expected one of: start"},
    {{{"window", "early", "25"}}, "early: found \"25\", expected a whole number of mont"},
    {{{"window", "late", "x"}}, "late: found \"x\", expected a whole number of months"},
    {{{"window", "next", "x"}},
	"next: found \"x\", expected one of: from-done, from-due"},
    {{{"when", "marked", "1"}}, "marked: found \"1\", expected one of: no, yes"},
    {{{"when", "above-freezing", "1"}}, "above-freezing: found \"1\", expected one of: "},
    {{{"when", "dry-storage", "1"}}, "dry-storage: found \"1\", expected one of: no"},
    {{{"when", "age-from", "0"}}, "age-from: found \"0\", expected a whole number of mo"},
    {{{"when", "age-until", "1201"}}, "age-until: found \"1201\", expected a whole num"},
    {{{"when", "persons-from", "0"}}, "persons-from: found \"0\", expected a whole numb"},
    {{{"when", "built-from", "1799"}}, "built-from: found \"1799\", expected a whole nu"},
    {{{"when", "built-until", "2200"}}, "built-until: found \"2200\", expected a whole "},
    {{{"when", "season-months-below", "1"}}, "season-months-below: found \"1\", expecte"},
    {{{"when", "test-valid", "0"}}, "test-valid: found \"0\", expected a whole number o"},
    {{{"when", "length-from", "501"}}, "length-from: found \"501\", expected metres up "},
    {{{"when", "length-below", "x"}}, "length-below: found \"x\", expected metres up to"},
    {{{"when", "made-until", "2021-13-01"}}, "made-until: found \"2021-13-01\", expecte"},
    {{{"when", "areas", "[' ']"}}, "areas, entry 1: found \" \", expected some words"},
    {{{"when", "areas-except", "[' ']"}}, "areas-except, entry 1: found \" \", expected"},
    {{{"when", "ratings", "[' ']"}}, "ratings, entry 1: found \" \", expected some word"},
    {{{"when", "age-from", "24, age-until: 24"}}, "age-until: found \"24\", expected an"},
    {{{"when", "persons-from", "7, persons-until: 6"}},
	"persons-until: found \"6\", expected an end after its beginning"},
    {{{"when", "built-from", "2005, built-until: 2004"}},
	"built-until: found \"2004\", expected an end after its beginning"},
    {{{"when", "length-from", "8, length-below: 8.00"}},
	"length-below: found \"8.00\", expected an end after its beginning"},
    {{{"when", "made-from", "2021-02-03, made-until: 2021-02-02"}},
	"made-until: found \"2021-02-02\", expected an end after its beginning"},
    {{{"line", "id", "L"}}, "id: found \"L\", expected small letters"},
    {{{"line", "title", "' '"}}, "title: found \" \", expected some words"},
    {{{"line", "any-of", "A"}}, "any-of: found \"A\", expected small letters"},
    {{{"line", "any-of", "a, way: W"}}, "way: found \"W\", expected small letters"},
    {{{"line", "places", "[galley, ' ']"}}, "places, entry 2: found \" \", expected som"},
    {{{"line", "source", "' '"}}, "source: found \" \", expected some words"},
    {{{"line", "standing", "seen"}}, "standing: found \"seen\", expected one of: read"},
    {{{"line", "standing", "not verified"}}, "standing: found \"not verified\", expecte"},
    {{{"line", "when", "{areas: [' ']}"}}, "areas, entry 1: found \" \", expected some "},
    {{{"line", "when", "{age-from: 12}"}}, "age-from: found \"12\", expected conditions"},
    {{{"line", "when", "{age-until: 9}"}}, "age-until: found \"9\", expected conditions"},
    {{{"line", "when", "{made-from: 2021-02-03}"}}, "made-from: found \"2021-02-03\", e"},
    {{{"line", "when", "{made-until: 2021-02-03}"}}, "made-until: found \"2021-02-03\","},
    {{{"line", "when", "{test-valid: 9}"}}, "test-valid: found \"9\", expected conditio"},
    {{{"line", "when", "{ratings: [5-B]}"}}, "ratings: found \"5-B\", expected conditio"},
    {{{"need", "points", "x"}}, "points: found \"x\", expected a whole number of points"},
    {{{"need", "points", NULL}, {"need", "per-person", "x"}},
	"per-person: found \"x\", expected a whole number of points, 1 to 999"},
    {{{"need", "points", NULL}, {"need", "percent", "101"}},
	"percent: found \"101\", expected a whole number of per cent, 1 to 100"},
    {{{"need", "plus", "0"}}, "plus: found \"0\", expected a whole number of points"},
    {{{"need", "without-largest", "1"}}, "without-largest: found \"1\", expected one of"},
    {{{"line", "serves", "[]"}}, "serves: found nothing, expected at least one entry"},
    {{{"serves", "kinds", "[]"}}, "kinds: found nothing, expected at least one kind"},
    {{{"serves", "points", "x"}}, "points: found \"x\", expected a whole number of poin"},
    {{{"serves", "capacity-from", "0"}}, "capacity-from: found \"0\", expected a whole "},
    {{{"serves", "at-most", "0"}}, "at-most: found \"0\", expected a whole number of po"},
    {{{"serves", "rating", "''"}}, "rating: found \"\", expected a rating as labels"},
    {{{"subject", "id", "N"}}, "id: found \"N\", expected small letters"},
    {{{"subject", "subject", "' '"}}, "subject: found \" \", expected some words"},
    {{{"subject", "ask", "' '"}}, "ask: found \" \", expected some words"},
    {{{"subject", "when", "{areas: [' ']}"}}, "areas, entry 1: found \" \", expected so"},
    {{{"subject", "kinds", "[teather]"}}, "kinds, entry 1: found \"teather\", expected "},
    {{{"subject", "carriage", "1"}}, "carriage: found \"1\", expected one of: no, yes"},
    {{{"subject", "about", "[x]"}}, "about, entry 1: found \"x\", expected one of: "},
};

/* Adds the pairs of a mapping as they are right, but for the slips. */
static void
add_pairs(struct text *yaml, const struct row *row, const char *in)
{
	for (size_t i = 0; i < sizeof GOOD / sizeof GOOD[0]; i++) {
		const char *value = strcmp(GOOD[i].in, in) == 0 ? GOOD[i].value : NULL;
		for (size_t k = 0; k < SLIPS && value != NULL && row != NULL; k++) {
			const struct pair *slip = &row->slips[k];
			bool here = slip->in != NULL && strcmp(slip->in, in) == 0 &&
				    strcmp(slip->key, GOOD[i].key) == 0;
			value = here ? NULL : value;
		}
		if (value != NULL) {
			text_add_format(yaml, "%s: %s, ", GOOD[i].key, value);
		}
	}
	for (size_t k = 0; k < SLIPS && row != NULL; k++) {
		const struct pair *slip = &row->slips[k];
		if (slip->value != NULL && strcmp(slip->in, in) == 0) {
			text_add_format(yaml, "%s: %s, ", slip->key, slip->value);
		}
	}
}

/* A row gives a list of servings itself. */
static bool
gives_serves(const struct row *row)
{
	return row != NULL && strcmp(row->slips[0].key, "serves") == 0;
}

static bool
read_with(const struct kinds *kinds, const struct row *row, struct fault *fault)
{
	SCOPED_TEXT yaml = {0};
	struct sheet *sheet = NULL;
	text_add(&yaml, "{");
	add_pairs(&yaml, row, "sheet");
	text_add(&yaml, "rules: [{");
	add_pairs(&yaml, row, "rule");
	text_add(&yaml, "when: {");
	add_pairs(&yaml, row, "when");
	text_add(&yaml, "}, window: {");
	add_pairs(&yaml, row, "window");
	text_add(&yaml, "}, clocks: [{");
	add_pairs(&yaml, row, "clock");
	text_add(&yaml, "}]}], carriage: [{");
	add_pairs(&yaml, row, "line");
	text_add(&yaml, "need: {");
	add_pairs(&yaml, row, "need");
	text_add(&yaml, "}");
	if (!gives_serves(row)) {
		text_add(&yaml, ", serves: [{");
		add_pairs(&yaml, row, "serves");
		text_add(&yaml, "}]");
	}
	text_add(&yaml, "}], not-stated: [{");
	add_pairs(&yaml, row, "subject");
	text_add(&yaml, "}]}\n");
	bool read = sheet_read(
	    "t.yaml", text_string(&yaml), yaml.length, kinds, NULL, &sheet, fault);
	sheet_free(sheet);
	return read;
}

TEST(a_slip_in_any_field_of_a_sheet_is_refused_where_it_stands)
{
	struct fault fault = {0};
	if (!read_with(*state, NULL, &fault)) {
		fail_msg("%s", fault.text);
	}
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		char begins[200];
		(void)snprintf(
		    begins, sizeof begins, "t.yaml: line 1, field %s", ROWS[i].says);
		fault = (struct fault){0};
		if (read_with(*state, &ROWS[i], &fault)) {
			fail_msg("%s of the %s is read", ROWS[i].slips[0].key,
			    ROWS[i].slips[0].in);
		}
		if (strncmp(fault.text, begins, strlen(begins)) != 0) {
			fail_msg("\"%s\", expected \"%s\"", fault.text, begins);
		}
	}
}

/* 31 letters are looked at, for each may grow to four bytes; 130 have no room. */
#define LONG "qqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqqq"
#define HEAD "hazards:\n- {hazard: gas, carry: c, dispose: d}\nkinds:\n"
#define KIND(id, more) "- {id: " id ", name: N, group: g" more "}\n"

TEST(a_slip_in_the_catalogue_is_refused_where_it_stands)
{
	static const struct {
		const char *yaml;
		const char *says; /* after "t.yaml: line " */
	} SLIPS_OF_KINDS[] = {
	    {HEAD KIND("' '", ""), "4, field id: found \" \", expected some words"},
	    {HEAD "- {id: a, name: ' ', group: g}\n",
		"4, field name: found \" \", expect"},
	    {HEAD "- {id: a, name: N, group: ' '}\n",
		"4, field group: found \" \", expec"},
	    {HEAD KIND("a", ", subject: x"),
		"4, field subject: found \"x\", expected one"},
	    {HEAD KIND("a", ", hazard: x"),
		"4, field hazard: found \"x\", expected one o"},
	    {HEAD KIND("a", ", inside: x"),
		"4, field inside: found \"x\", expected one o"},
	    {HEAD KIND("a", ", service-ashore: x"),
		"4, field service-ashore: found \"x\""},
	    {HEAD KIND("a", ", working-parts: [' ']"),
		"4, field working-parts, entry 1: "},
	    {HEAD KIND("a", ", synonyms: [' ']"),
		"4, field synonyms, entry 1: found \" \""},
	    {HEAD KIND("a", "") KIND("b", "") KIND("a", ""),
		"6, field id: found \"a\", expected an id that no kind above has"},
	    {HEAD KIND("a", ", hazard: lithium"),
		"4, field hazard: found \"lithium\", expected a hazard listed under hazards"},
	    {HEAD KIND("a", ", working-parts: [z]"),
		"4, field working-parts, entry 1: found \"z\", expected another kind of the"},
	    {HEAD KIND("a", "") KIND("b", "") KIND("c", ", working-parts: [a, b, z]"),
		"6, field working-parts, entry 3: found \"z\", expected another kind of the"},
	    {HEAD KIND("a", "") KIND("b", ", working-parts: [a, b]"),
		"5, field working-parts, entry 2: found \"b\", expected another kind of the"},
	    {HEAD KIND(LONG LONG, ""), "4, field id: found \"qqqq"},
	    {HEAD "- {id: a, name: " LONG LONG ", group: g}\n",
		"4, field id: found \"qqqq"},
	    {HEAD KIND("a", ", synonyms: [b, " LONG LONG ", c]"),
		"4, field id: found \"qqqq"},
	    {"hazards:\n- {hazard: none, carry: c, dispose: d}\nkinds:\n" KIND("a", ""),
		"2, field hazard: found \"none\", expected each hazard once, and none left"},
	    {"hazards:\n- {hazard: gas, carry: c, dispose: d}\n"
	     "- {hazard: gas, carry: c, dispose: d}\nkinds:\n" KIND("a", ""),
		"3, field hazard: found \"gas\", expected each hazard once, and none left"},
	    {"hazards:\n- {hazard: x, carry: c, dispose: d}\nkinds:\n" KIND("a", ""),
		"2, field hazard: found \"x\", expected one of: none, pyrotechnic"},
	    {"hazards:\n- {hazard: gas, carry: ' ', dispose: d}\nkinds:\n" KIND("a", ""),
		"2, field carry: found \" \", expected some words"},
	    {"hazards:\n- {hazard: gas, carry: c, dispose: ' '}\nkinds:\n" KIND("a", ""),
		"2, field dispose: found \" \", expected some words"},
	    {"hazards: []\nkinds: []\n",
		"2, field kinds: found nothing, expected at lea"},
	};

	for (size_t i = 0; i < sizeof SLIPS_OF_KINDS / sizeof SLIPS_OF_KINDS[0]; i++) {
		struct kinds *kinds = NULL;
		struct fault fault = {0};
		char begins[200];
		const char *yaml = SLIPS_OF_KINDS[i].yaml;
		(void)snprintf(
		    begins, sizeof begins, "t.yaml: line %s", SLIPS_OF_KINDS[i].says);
		assert_false(kinds_read("t.yaml", yaml, strlen(yaml), &kinds, &fault));
		if (strncmp(fault.text, begins, strlen(begins)) != 0) {
			fail_msg("\"%s\", expected \"%s\"", fault.text, begins);
		}
	}
}

/* A group goes by its name, or by its first word where that is of one group alone. */
TEST(a_group_is_known_by_its_name_or_by_its_first_word)
{
	static const char YAML[] = "hazards: []\nkinds:\n"
				   "- {id: a, name: N, group: fire fighting}\n"
				   "- {id: b, name: N, group: first aid}\n"
				   "- {id: c, name: N, group: fire fighting}\n"
				   "- {id: d, name: N, group: first things}\n"
				   "- {id: e, name: N, group: lamps}\n"
				   "- {id: f, name: N, group: first hour}\n";
	struct kinds *kinds = NULL;
	struct fault fault = {0};
	assert_true(kinds_read("t.yaml", YAML, strlen(YAML), &kinds, &fault));
	assert_string_equal(kinds_group(kinds, "fire"), "fire fighting");
	assert_string_equal(kinds_group(kinds, "Fire Fighting"), "fire fighting");
	assert_string_equal(kinds_group(kinds, "first aid"), "first aid");
	assert_null(kinds_group(kinds, "first")); /* of two groups */
	assert_null(kinds_group(kinds, "fir"));
	assert_null(kinds_group(kinds, "first a"));
	assert_null(kinds_group(kinds, "lamp"));
	assert_string_equal(kinds_group(kinds, "LAMPS"), "lamps");
	assert_string_equal(kinds_carry_caution(kinds, HAZARD_GAS), "");
	assert_string_equal(kinds_disposal_caution(kinds, HAZARD_GAS), "");
	kinds_free(kinds);
}

/* What stands before the first of "in", "inside" and "for" says what a thing is. */
TEST(what_stands_before_in_inside_or_for_is_the_thing)
{
	static const char YAML[] = "hazards: []\nkinds:\n"
				   "- {id: pill, name: pill box, group: g}\n"
				   "- {id: kit, name: kit bag, group: g}\n"
				   "- {id: box, name: box, group: g,\n"
				   "   working-parts: [pill, kit]}\n";
	static const char *const WORDS[] = {"pill box in kit bag", "pill box for kit bag",
	    "pill box inside kit bag", "pill box for kit bag in kit bag",
	    "pill box in kit bag for kit bag", "pill box inside kit bag in kit bag"};
	struct kinds *kinds = NULL;
	struct fault fault = {0};
	char endless[400];
	const struct kind *nearest[KINDS_NEAR_MOST];
	assert_true(kinds_read("t.yaml", YAML, strlen(YAML), &kinds, &fault));
	for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
		const struct kind *kind = kinds_guess(kinds, WORDS[i]);
		if (kind == NULL || strcmp(kind->id, "pill") != 0) {
			fail_msg("%s", WORDS[i]);
		}
	}
	assert_false(kinds_work_together(kinds, "nothing", "pill"));
	assert_false(kinds_work_together(kinds, "kit", "pill"));
	assert_true(kinds_work_together(kinds, "box", "pill"));
	assert_true(kinds_work_together(kinds, "box", "kit"));
	memset(endless, 'x', sizeof endless - 1);
	endless[sizeof endless - 1] = '\0';
	assert_int_equal(kinds_nearest(kinds, endless, nearest), 0);
	kinds_free(kinds);
}

RUN_TESTS(data_file_open_kinds, data_file_close_kinds)
