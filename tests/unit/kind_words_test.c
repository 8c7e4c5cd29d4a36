/* Words against the spellings of kinds: which fit, and which are near. All worked by hand. */
#include "becket_test.h"
#include "rules/sheet_inside.h"

#include <string.h>

/* Kinds are told by their places in one array. */
static const struct kind KINDS[12];

/* The places of the nearest, as digits. */
static void
expect_near(
    const struct spelling *spellings, size_t count, const char *words, const char *places)
{
	const struct kind *nearest[KINDS_NEAR_MOST];
	char found[KINDS_NEAR_MOST + 1] = "";
	size_t near = kind_words_near(spellings, count, words, nearest);
	for (size_t i = 0; i < near; i++) {
		found[i] = (char)('0' + (nearest[i] - KINDS));
	}
	assert_string_equal(found, places);
}

/* "lamp" has three pairs of letters, and each of these holds it, with 6, 5 and 4 pairs:
 * alike by 2 x 3 of 9, of 8 and of 7, which is 66, 75 and 85 hundredths. The best comes
 * first, of two alike the earlier, three at most; less than three quarters of the best is
 * left out: 600 / 10 is 60, under 63.75. */
TEST(the_nearest_come_first_and_of_two_alike_the_earlier)
{
	const struct spelling spellings[] = {
	    {"lampqqq", &KINDS[0]}, /* 66 */
	    {"lampqq", &KINDS[1]},  /* 75 */
	    {"lampq", &KINDS[2]},   /* 85 */
	    {"lampx", &KINDS[3]},   /* 85 */
	    {"lampxxx", &KINDS[4]}, /* 66 */
	};
	const struct spelling last[] = {
	    {"lampqqqq", &KINDS[5]}, /* 60 */
	    {"lampq", &KINDS[2]},
	    {"lampqqq", &KINDS[2]}, /* of one kind only its best counts */
	};

	expect_near(spellings, 1, "lamp", "0");
	const struct spelling twice[] = {
	    {"lampq", &KINDS[0]}, {"lampqq", &KINDS[1]}, {"lampqqq", &KINDS[1]}};
	expect_near(twice, 3, "lamp", "01");
	expect_near(spellings, 2, "lamp", "10");
	expect_near(spellings, 3, "lamp", "210");
	expect_near(spellings, 4, "lamp", "231");
	expect_near(spellings, 5, "lamp", "231");
	expect_near(last, 3, "lamp", "2");
	expect_near(last, 1, "lamp", "5");
}

/* "lamp" and a spelling of 14 letters, 13 pairs: 600 / 16 is 37, under 40; of 13 letters
 * 600 / 15, 40. Three letters are too few to be looked for inside a word: "lam" in
 * "lampqq" is 4 / 7, 57, and counts for nothing. A single letter has no pairs. */
TEST(what_is_less_alike_than_two_fifths_is_not_near)
{
	const struct spelling long_ones[] = {
	    {"lampqqqqqqqqqq", &KINDS[0]}, {"lampqqqqqqqqq", &KINDS[1]}};
	const struct spelling shorter = {"lampqq", &KINDS[0]};
	const struct spelling single = {"x", &KINDS[0]};

	expect_near(long_ones, 2, "lamp", "1");
	expect_near(&shorter, 1, "lam", "");
	expect_near(&single, 1, "x", "");
	expect_near(&single, 1, "", "");
}

/* The kinds that fit, as digits. */
static void
expect_fit(
    const struct spelling *spellings, size_t count, const char *words, const char *places)
{
	const struct kind *fits[KINDS_FIT_MOST];
	char found[KINDS_FIT_MOST + 1] = "";
	size_t fit = kind_words_fit(spellings, count, words, fits);
	for (size_t i = 0; i < fit; i++) {
		found[i] = (char)('0' + (fits[i] - KINDS));
	}
	if (strcmp(found, places) != 0) {
		fail_msg("\"%s\": \"%s\", expected \"%s\"", words, found, places);
	}
}

TEST(a_text_fits_the_kinds_whose_words_stand_in_it)
{
	const struct spelling spellings[] = {
	    {"red flare", &KINDS[1]}, {"flare", &KINDS[2]}, {"liferaft", &KINDS[0]},
	    {"smoke", &KINDS[3]}, /* a word that names its kind only alone */
	    {"bell", &KINDS[4]},
	    {"bell", &KINDS[5]}, /* two kinds that are called alike */
	};

	static const struct {
		const char *words;
		const char *places;
	} ROWS[] = {
	    {"flare", "2"},
	    {"hand flare", "2"},
	    {"flare red old", "1"}, /* takes in more of it than "flare" alone */
	    {"red", ""},
	    {"redflare", ""},
	    {"life raft", "0"}, /* one word written as two */
	    {"raft life", ""},
	    {"life", ""},
	    {"liferafts", ""},
	    {"smoke", "3"},
	    {"orange smoke", ""},
	    {"bell", "45"},
	    {"ship bell", "45"},
	    {"flare liferaft", "02"}, /* two things, in the catalogue's order */
	    {"flare and liferaft", "02"},
	    {"flare and pump", ""}, /* a thing, and another that is unknown */
	    {"flare holder", ""},
	    {"", ""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		expect_fit(spellings, 6, ROWS[i].words, ROWS[i].places);
	}
}

/* Eight kinds at most, and no more than 32 words. */
TEST(more_than_anybody_says_is_left_out)
{
	struct spelling spellings[10];
	char words[2 * 33 + 1] = "";
	for (size_t i = 0; i < 10; i++) {
		spellings[i] = (struct spelling){"bell", &KINDS[9 - i]};
	}
	expect_fit(spellings, 8, "bell", "23456789");
	expect_fit(spellings, 10, "bell", "23456789");
	for (size_t i = 0; i < 31; i++) {
		(void)snprintf(words + 2 * i, sizeof words - 2 * i, "x ");
	}
	(void)snprintf(words + 62, sizeof words - 62, "q");
	const struct spelling last = {"q", &KINDS[3]};
	expect_fit(&last, 1, words, "3"); /* the 32nd */
	(void)snprintf(words + 62, sizeof words - 62, "x q");
	expect_fit(&last, 1, words, "");
}

/* Ninety-six spellings in one text, and no more. */
TEST(a_text_that_holds_too_many_names_is_none)
{
	static struct spelling spellings[97];
	for (size_t i = 0; i < 97; i++) {
		spellings[i] = (struct spelling){"bell", &KINDS[i % 2]};
	}
	expect_fit(spellings, 96, "ship bell", "01");
	expect_fit(spellings, 97, "ship bell", "");
}

TEST(words_are_folded_alike)
{
	static const struct {
		const char *words;
		const char *folded;
	} ROWS[] = {
	    {"Life-Raft", "life raft"},
	    {" (flares) ", "flare"},
	    {"gas", "gas"},
	    {"bus", "bus"},
	    {"cans", "can"},
	    {"compass", "compass"},
	    {"2kg", "2 kg"},
	    {"PLB1", "plb 1"},
	    {"x4", "x 4"},
	    {"y4", "y4"},
	    {"CO2", "co2"},
	    {"foam+powder", "foam and powder"},
	    {"A & B", "a and b"},
	    {"a/b", "a and b"},
	    {"", ""},
	    {"--", ""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		char folded[SPELLING_SIZE];
		assert_true(kind_words_fold(ROWS[i].words, folded));
		assert_string_equal(folded, ROWS[i].folded);
	}
}

/* With the blank before a word and what ends the text there is room for 126 letters. */
TEST(what_has_no_room_is_not_folded)
{
	char words[SPELLING_SIZE + 2];
	char folded[SPELLING_SIZE];
	memset(words, 'q', sizeof words);
	words[SPELLING_SIZE - 2] = '\0';
	assert_true(kind_words_fold(words, folded));
	assert_int_equal(strlen(folded), SPELLING_SIZE - 2);
	words[SPELLING_SIZE - 2] = 'q';
	words[SPELLING_SIZE - 1] = '\0';
	assert_false(kind_words_fold(words, folded));
	words[1] = ' ';
	words[SPELLING_SIZE - 2] = '\0';
	assert_true(kind_words_fold(words, folded));
}

RUN_TESTS(NULL, NULL)
