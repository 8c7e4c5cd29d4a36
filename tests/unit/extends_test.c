/* A sheet laid over the one it extends. */
#include "becket_test.h"
#include "data_file.h"

#include <string.h>

#define HEAD(name) "sheet: " name "\ntitle: T\nfor: f\ncompiled: 2026-11-25\n"
#define RULE(id, months)                                                                 \
	"- {id: " id ", kinds: [tether], task: renew, doer: owner, grade: practice,\n"   \
	"   clocks: [{from: [made], months: " months                                     \
	"}], source: s, standing: memory}\n"
#define LINE(id, points)                                                                 \
	"- {id: " id ", title: L, need: {points: " points                                \
	"}, source: s, standing: memory,\n   serves: [{kinds: [tether], points: 1}]}\n"
#define SUBJECT(id, words) "- {id: " id ", subject: " words ", ask: the maker}\n"

static const char BASE[] =
    HEAD("base") "cautions: [of the base]\nrules:\n" RULE("a", "10") RULE("b", "20")
	RULE("c", "30") "carriage:\n" LINE("l", "1")
	    LINE("m", "2") "not-stated:\n" SUBJECT("n", "of the base");

/* Any sheet is found by the name "base"; "gone" is not. */
static bool
find(void *context, const char *name, const struct sheet **out, struct fault *fault)
{
	if (strcmp(name, "base") != 0) {
		return fault_set(fault, FAULT_INPUT, "found \"%s\", expected base", name);
	}
	*out = context;
	return true;
}

static struct sheet *
read_base(const struct kinds *kinds)
{
	struct sheet *base = NULL;
	struct fault fault = {0};
	if (!sheet_read("base", BASE, strlen(BASE), kinds, NULL, &base, &fault)) {
		fail_msg("%s", fault.text);
	}
	return base;
}

/* The sheet of a text over the base, or NULL with the fault set. */
static struct sheet *
read_over(
    struct sheet *base, const struct kinds *kinds, const char *yaml, struct fault *fault)
{
	const struct sheet_library library = {find, base};
	struct sheet *sheet = NULL;
	return sheet_read("t.yaml", yaml, strlen(yaml), kinds, &library, &sheet, fault)
		   ? sheet
		   : NULL;
}

TEST(what_is_inherited_stands_where_it_stood_and_what_is_new_comes_after)
{
	static const char YAML[] =
	    HEAD("mine") "extends: base\nstrikes: [b, l]\n"
			 "cautions: [my own]\nrules:\n" RULE("d", "40")
			     RULE("a", "11") "carriage:\n" LINE(
				 "m", "3") "not-stated:\n" SUBJECT("o", "my own");
	struct fault fault = {0};
	struct sheet *base = read_base(*state);
	struct sheet *mine = read_over(base, *state, YAML, &fault);
	if (mine == NULL) {
		fail_msg("%s", fault.text);
		return;
	}
	assert_string_equal(mine->extends, "base");
	assert_int_equal(mine->rule_count, 3);
	assert_string_equal(mine->rules[0].id, "a");
	assert_int_equal(mine->rules[0].clocks[0].months, 11);
	assert_string_equal(mine->rules[0].replaces, "base");
	assert_string_equal(mine->rules[0].origin, "mine");
	assert_int_equal(mine->rules[0].entry, 2);
	assert_string_equal(mine->rules[1].id, "c");
	assert_int_equal(mine->rules[1].clocks[0].months, 30);
	assert_string_equal(mine->rules[1].replaces, "");
	assert_string_equal(mine->rules[1].origin, "base");
	assert_string_equal(mine->rules[1].sheet, "mine");
	assert_int_equal(mine->rules[1].entry, 0);
	assert_string_equal(mine->rules[2].id, "d");
	assert_int_equal(mine->carriage_count, 1);
	assert_string_equal(mine->carriage[0].id, "m");
	assert_int_equal(mine->carriage[0].points, 3);
	assert_string_equal(mine->carriage[0].replaces, "base");
	assert_int_equal(mine->not_stated_count, 2);
	assert_string_equal(mine->not_stated[0].subject, "of the base");
	assert_string_equal(mine->not_stated[1].subject, "my own");
	assert_int_equal(mine->caution_count, 2);
	assert_string_equal(mine->cautions[0], "of the base");
	/* The base is as it was. */
	assert_int_equal(base->rules[0].clocks[0].months, 10);
	assert_string_equal(base->rules[2].sheet, "base");
	sheet_free(mine);
	sheet_free(base);
}

TEST(a_subject_said_anew_replaces_the_other)
{
	static const char YAML[] =
	    HEAD("mine") "extends: base\nnot-stated:\n" SUBJECT("n", "anew");
	struct fault fault = {0};
	struct sheet *base = read_base(*state);
	struct sheet *mine = read_over(base, *state, YAML, &fault);
	assert_non_null(mine);
	assert_int_equal(mine->not_stated_count, 1);
	assert_string_equal(mine->not_stated[0].subject, "anew");
	assert_string_equal(mine->not_stated[0].replaces, "base");
	sheet_free(mine);
	sheet_free(base);
}

/* Two lines and a subject of the base, and one more of each here. */
TEST(all_that_is_inherited_is_of_the_sheet_that_inherits)
{
	static const char YAML[] = HEAD("mine") "extends: base\ncarriage:\n" LINE(
	    "p", "4") "not-stated:\n" SUBJECT("o", "my own");
	struct fault fault = {0};
	struct sheet *base = read_base(*state);
	struct sheet *mine = read_over(base, *state, YAML, &fault);
	assert_string_equal(fault.text, "");
	assert_non_null(mine);
	assert_int_equal(mine->rule_count, 3);
	assert_int_equal(mine->carriage_count, 3);
	assert_int_equal(mine->not_stated_count, 2);
	for (size_t i = 0; i < 3; i++) {
		assert_string_equal(mine->rules[i].sheet, "mine");
		assert_int_equal(mine->rules[i].entry, 0);
		assert_string_equal(mine->carriage[i].sheet, "mine");
		assert_int_equal(mine->carriage[i].entry, i == 2);
		assert_string_equal(mine->carriage[i].replaces, "");
		assert_string_equal(mine->carriage[i].origin, i == 2 ? "mine" : "base");
	}
	for (size_t i = 0; i < 2; i++) {
		assert_string_equal(mine->not_stated[i].sheet, "mine");
		assert_int_equal(mine->not_stated[i].entry, i == 1);
		assert_string_equal(mine->not_stated[i].replaces, "");
	}
	assert_int_equal(mine->caution_count, 1);
	assert_string_equal(mine->cautions[0], "of the base");
	sheet_free(mine);
	sheet_free(base);
}

/* The base's own rule stands instead of one that is struck out here: it was checked where
 * it was written, and stands. */
TEST(what_is_inherited_may_name_what_is_struck_out)
{
	static const char NAMING[] = HEAD("base") "rules:\n" RULE("a",
	    "10") "- {id: b, kinds: [tether], task: renew, doer: owner, grade: law,\n"
		  "   clocks: [{from: [made], months: 5}], instead-of: [a],\n"
		  "   source: s, standing: memory}\n";
	static const char YAML[] = HEAD("mine") "extends: base\nstrikes: [a]\n";
	struct fault fault = {0};
	struct sheet *base = NULL;
	assert_true(
	    sheet_read("base", NAMING, strlen(NAMING), *state, NULL, &base, &fault));
	struct sheet *mine = read_over(base, *state, YAML, &fault);
	assert_string_equal(fault.text, "");
	assert_non_null(mine);
	assert_int_equal(mine->rule_count, 1);
	assert_string_equal(mine->rules[0].id, "b");
	sheet_free(mine);
	sheet_free(base);
}

TEST(a_rule_may_stand_instead_of_an_inherited_one)
{
	static const char YAML[] =
	    HEAD("mine") "extends: base\nrules:\n"
			 "- {id: d, kinds: [tether], task: renew,\n"
			 "   doer: owner, grade: law,\n"
			 "   clocks: [{from: [made], months: 5}],\n"
			 "   instead-of: [a],\n"
			 "   source: s, standing: memory}\n";
	struct fault fault = {0};
	struct sheet *base = read_base(*state);
	struct sheet *mine = read_over(base, *state, YAML, &fault);
	assert_non_null(mine);
	assert_string_equal(mine->rules[3].instead_of[0], "a");
	sheet_free(mine);
	sheet_free(base);
}

TEST(a_slip_in_what_is_taken_over_names_file_line_and_field)
{
	static const struct {
		const char *yaml;
		const char *says;
	} ROWS[] = {
	    {HEAD("m") "extends: gone\n",
		"t.yaml: line 5, field extends: found \"gone\", expected base"},
	    {HEAD("m") "extends: base\nstrikes: [a, z]\n",
		"t.yaml: line 6, field strikes, entry 2: found \"z\", expected the id of "
		"something in the sheet it extends"},
	    {HEAD("m") "extends: base\nstrikes: [a]\nrules:\n" RULE("a", "5"),
		"t.yaml: line 6, field strikes, entry 1: found \"a\", expected an id that "
		"is not in this sheet"},
	    {HEAD("m") "strikes: [a]\nrules:\n" RULE("a", "5"),
		"t.yaml: line 5, field strikes, entry 1: found \"a\", expected strikes "
		"only where the sheet extends another"},
	    {HEAD("m") "extends: base\nstrikes: [b]\nrules:\n" RULE("d",
		 "5}, {from: "
		 "[last], months: "
		 "5"),
		NULL},
	    {HEAD("m") "extends: base\nstrikes: [a, b, c, l, m, n]\n",
		"t.yaml: line 1, field rules: found nothing, expected at least one rule"},
	    {HEAD("m") "extends: ''\n", "t.yaml: line 5, field extends: found \"\""},
	    {HEAD("m") "extends: [base]\n",
		"t.yaml: line 5, field extends: found a list, expected a single value"},
	};

	struct sheet *base = read_base(*state);
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct fault fault = {0};
		struct sheet *mine = read_over(base, *state, ROWS[i].yaml, &fault);
		if ((mine == NULL) != (ROWS[i].says != NULL) ||
		    (mine == NULL && strstr(fault.text, ROWS[i].says) == NULL)) {
			fail_msg("row %zu: %s", i, fault.text);
		}
		sheet_free(mine);
	}
	sheet_free(base);
}

TEST(a_sheet_is_followed_instead_of_the_one_it_extends)
{
	static const char YAML[] = HEAD("mine") "extends: base\nstrikes: [a]\n";
	static const char LINES[] = HEAD("mine") "extends: base\nstrikes: [a, b, c]\n";
	const char *const texts[] = {YAML, LINES};
	const char *const HELD[] = {"b", "l"};
	struct sheet *base = read_base(*state);
	for (size_t i = 0; i < 2; i++) {
		struct fault fault = {0};
		struct rulebook *book = NULL;
		struct sheet *mine = read_over(base, *state, texts[i], &fault);
		assert_non_null(mine);
		const struct sheet *both[] = {mine, base};
		assert_false(rulebook_new(both, 2, &book, &fault));
		assert_told(fault.text,
		    "sheets mine and base both hold \"%s\" of sheet base; expected a sheet to be followed instead of the one it extends, not beside it",
		    HELD[i]);
		assert_true(rulebook_new(both, 1, &book, &fault));
		rulebook_free(book);
		sheet_free(mine);
	}
	sheet_free(base);
}

/* What a sheet says nothing of is gathered too, with its kinds and conditions. */
TEST(subjects_not_stated_are_read_whole)
{
	static const char YAML[] =
	    HEAD("m") "not-stated:\n- id: raft\n  subject: service of a raft\n"
		      "  ask: a station\n  kinds: [liferaft-valise]\n  carriage: yes\n"
		      "  when: {areas: [cat-5]}\n";
	static const char ITEM[] =
	    HEAD("m") "not-stated:\n- {id: raft, subject: s, ask: a, "
		      "when: {ratings: [SOLAS]}}\n";
	struct fault fault = {0};
	struct sheet *sheet = read_over(NULL, *state, YAML, &fault);
	struct rulebook *book = NULL;
	size_t count = 0;
	assert_non_null(sheet);
	const struct sheet *sheets[] = {sheet};
	assert_true(rulebook_new(sheets, 1, &book, &fault));
	const struct not_stated *entry = rulebook_not_stated(book, &count)[0];
	assert_int_equal(count, 1);
	assert_string_equal(entry->subject, "service of a raft");
	assert_string_equal(entry->ask, "a station");
	assert_string_equal(entry->kinds[0], "liferaft-valise");
	assert_string_equal(entry->when.areas[0], "cat-5");
	assert_true(entry->carriage);
	rulebook_free(book);
	sheet_free(sheet);
	assert_null(read_over(NULL, *state, ITEM, &fault));
	assert_string_equal(fault.text,
	    "t.yaml: line 6, field ratings: found \"SOLAS\", expected conditions about the vessel only");
}

RUN_TESTS(data_file_open_kinds, data_file_close_kinds)
