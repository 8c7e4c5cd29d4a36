/* Names as they are typed. How letters fold is Unicode's: CaseFolding.txt (full folding, no
 * language's own), the decompositions of UnicodeData.txt and the combining classes of UAX 44. */
#include "base/alike.h"

#include "becket_test.h"

TEST(names_are_alike_by_case_in_any_script_and_then_by_accents)
{
	static const struct {
		const char *a;
		const char *b;
		enum likeness how;
	} ROWS[] = {
	    {"LJ-1", "LJ-1", ALIKE_EXACT},
	    {"LJ-1", "lj-1", ALIKE_CASE},
	    {"LJ-1", "LJ-2", ALIKE_NOT},
	    {"LJ-1", "LJ-11", ALIKE_NOT},
	    {"", "", ALIKE_EXACT},
	    {"", "a", ALIKE_NOT},
	    /* Norwegian: capitals, then letters without what has grown in or hangs on them */
	    {"ÆRLIG SJØGANG", "Ærlig Sjøgang", ALIKE_CASE},
	    {"Aerlig Sjogang", "Ærlig Sjøgang", ALIKE_ACCENTS},
	    {"Blåskjell", "blaskjell", ALIKE_ACCENTS},
	    {"Blåskjell", "Bla\u030Askjell",
		ALIKE_CASE}, /* composed or not: one letter */
	    /* Greek: the last sigma of a word is a sigma; the tonos is an accent */
	    {"Ράφτης", "ΡΆΦΤΗΣ", ALIKE_CASE},
	    {"Ράφτης", "ΡΑΦΤΗΣ", ALIKE_ACCENTS},
	    /* Turkish: İ and ı fold to letters of their own where no language is named,
	     * so that they are alike as accents are, and never taken for one without a
	     * word */
	    {"İskele", "İSKELE", ALIKE_CASE},
	    {"İskele", "iskele", ALIKE_ACCENTS},
	    {"Işık", "isik", ALIKE_ACCENTS},
	    {"Çapa", "capa", ALIKE_ACCENTS},
	    /* German: two letters for one */
	    {"Rettungsfloß", "RETTUNGSFLOSS", ALIKE_CASE},
	    /* Japanese: the voicing makes another letter; the width does not */
	    {"がく", "かく", ALIKE_NOT},
	    {"海風", "海風", ALIKE_EXACT},
	    {"海風", "海凪", ALIKE_NOT},
	    {"ＬＪ－１", "lj-1", ALIKE_ACCENTS},
	    {"ｶﾓﾒ", "カモメ", ALIKE_ACCENTS},
	    /* Hindi: a vowel sign and the virama are letters, not accents */
	    {"की", "का", ALIKE_NOT},
	    {"कु", "क", ALIKE_NOT},
	    {"क्", "क", ALIKE_NOT},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_int_equal(names_alike(ROWS[i].a, ROWS[i].b), ROWS[i].how);
		assert_int_equal(names_alike(ROWS[i].b, ROWS[i].a), ROWS[i].how);
	}
}

TEST(the_exact_name_comes_before_case_and_case_before_accents)
{
	static const char *const NAMES[] = {"lj-1", "LJ-1", "Ærlig", "aerlig", "ÆRLIG 2"};

	static const struct {
		const char *typed;
		enum likeness how;
		size_t count;
		size_t first;
	} ROWS[] = {
	    {"LJ-1", ALIKE_EXACT, 1, 1},
	    {"Lj-1", ALIKE_CASE, 2, 0},
	    {"ærlig", ALIKE_CASE, 1, 2},
	    {"AERLIG", ALIKE_CASE, 1, 3},
	    {"Áerlig", ALIKE_ACCENTS, 2, 2},
	    {"aerlig 2", ALIKE_ACCENTS, 1, 4},
	    {"Quillfish", ALIKE_NOT, 0, 0},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_ARENA arena = {0};
		size_t *found = NULL;
		size_t count = 99;
		assert_int_equal(
		    names_meant(&arena, ROWS[i].typed, NAMES, 5, &found, &count),
		    ROWS[i].how);
		assert_int_equal(count, ROWS[i].count);
		if (count > 0) {
			assert_int_equal(found[0], ROWS[i].first);
		}
	}
}

/* Fixed words are ASCII; what is typed folds as a name does. */
TEST(a_fixed_word_is_found_as_names_are)
{
	static const char *const WORDS[] = {"private", "commercial", "in-date"};

	static const struct {
		const char *typed;
		size_t found;
	} ROWS[] = {
	    {"private", 0},
	    {"Private", 0},
	    {"COMMERCIAL", 1},
	    {"in-DATE", 2},
	    {"Privaté", 0},
	    {"ｐrivate", 0}, /* of full width */
	    {"priv", 3},
	    {"", 3},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_int_equal(word_meant(ROWS[i].typed, WORDS, 3), ROWS[i].found);
	}
}

RUN_TESTS(NULL, NULL)
