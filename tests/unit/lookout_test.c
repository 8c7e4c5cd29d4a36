/* Tags and serial numbers that are looked out for. */
#include "life/lookout.h"

#include "becket_test.h"
#include "draw.h"
#include "life/names.h"
#include "life/serials.h"

#include <string.h>

TEST(a_tag_is_met_in_any_case_and_a_letter_apart_by_its_kind)
{
	SCOPED_LOOKOUT lookout = {0};
	lookout_tag(&lookout, "tether", "TE-1a");
	lookout_tag(&lookout, "", "Raft");
	lookout_begin(&lookout);
	assert_true(lookout_meets_tag(&lookout, "epirb", "te-1A"));
	assert_true(lookout_meets_tag(&lookout, "tether", "TE-1b"));
	assert_true(lookout_meets_tag(&lookout, "tether", "TEX-1a"));
	assert_true(lookout_meets_tag(&lookout, "tether", "TE-1"));
	assert_false(lookout_meets_tag(&lookout, "epirb", "TE-1b"));
	assert_false(lookout_meets_tag(&lookout, "tether", "TE-2a"));
	/* hyphens tell tags apart, though not serial numbers */
	assert_false(lookout_meets_tag(&lookout, "tether", "TE1a"));
	/* of a kind that is not known only the same letters */
	assert_true(lookout_meets_tag(&lookout, "epirb", "RAFT"));
	assert_false(lookout_meets_tag(&lookout, "epirb", "Rafts"));
	/* a tag is no serial number */
	assert_false(lookout_meets_serial(&lookout, "tether", "TE-1a"));
}

TEST(a_serial_number_is_met_by_any_kind_and_a_near_one_by_its_own)
{
	SCOPED_LOOKOUT lookout = {0};
	lookout_serial(&lookout, "epirb", "E9-000", true);
	lookout_serial(&lookout, "plb", "P1100", false);
	lookout_serial(&lookout, "plb", "12", true);
	lookout_begin(&lookout);
	assert_true(lookout_meets_serial(&lookout, "plb", "e9000"));
	assert_true(lookout_meets_serial(&lookout, "epirb", "E9001"));
	assert_true(lookout_meets_serial(&lookout, "epirb", "E0900"));
	assert_true(lookout_meets_serial(&lookout, "epirb", "E900"));
	assert_false(lookout_meets_serial(&lookout, "plb", "E9001"));
	assert_true(lookout_meets_serial(&lookout, "epirb", "P1100"));
	assert_false(lookout_meets_serial(&lookout, "plb", "P1101"));
	assert_true(lookout_meets_serial(&lookout, "plb", "1-2"));
	assert_false(lookout_meets_serial(&lookout, "plb", "13"));
	assert_false(lookout_meets_serial(&lookout, "plb", ""));
	assert_false(lookout_meets_tag(&lookout, "epirb", "E9-000"));
}

TEST(where_nothing_is_looked_out_for_nothing_is_met)
{
	SCOPED_LOOKOUT lookout = {0};
	lookout_begin(&lookout);
	assert_false(lookout_meets_tag(&lookout, "epirb", "E9"));
	assert_false(lookout_meets_serial(&lookout, "epirb", "E9000"));
}

enum { WORD = 80, WORDS = 40 };

/* A word of few letters, so that many are alike; now and then longer than is compared. */
static const char *
draw_word(unsigned *seed, char word[WORD])
{
	static const char LETTERS[] = "aAbB-12\xc3\xa9";
	unsigned length = 1 + draw(seed, 6) + (draw(seed, 10) == 0 ? 58 : 0);
	for (unsigned i = 0; i < length; i++) {
		word[i] = i < 58 && length > 58 ? 'x' : LETTERS[draw(seed, 9)];
	}
	word[length] = '\0';
	return word;
}

/* One of those that are looked out for. */
struct wanted {
	char word[WORD];
	const char *kind;
	bool tag;
	bool near;
};

/* The rule as it stands in the header, each held against each. */
static bool
is_met(const struct wanted *wanted, bool tag, const char *kind, const char *word)
{
	bool of_kind = wanted->near && strcmp(wanted->kind, kind) == 0;
	bool same =
	    tag ? text_same_letters(wanted->word, word) : serial_same(wanted->word, word);
	bool near = tag ? name_one_letter_apart(wanted->word, word)
			: serial_near(wanted->word, word);
	return wanted->tag == tag && (same || (of_kind && near));
}

TEST(many_words_are_met_as_by_holding_each_against_each)
{
	static const char *const KINDS[] = {"", "tether", "epirb"};
	unsigned seed = 7;
	size_t met = 0;
	for (int round = 0; round < 100; round++) {
		SCOPED_LOOKOUT lookout = {0};
		struct wanted wanted[WORDS];
		for (size_t i = 0; i < WORDS; i++) {
			struct wanted *one = &wanted[i];
			*one = (struct wanted){
			    .kind = KINDS[draw(&seed, 3)], .tag = draw(&seed, 2) == 0};
			one->near = one->tag || draw(&seed, 2) == 0;
			(void)draw_word(&seed, one->word);
			if (one->tag) {
				lookout_tag(&lookout, one->kind, one->word);
			} else {
				lookout_serial(&lookout, one->kind, one->word, one->near);
			}
		}
		lookout_begin(&lookout);
		for (int i = 0; i < 100; i++) {
			char word[WORD];
			bool tag = draw(&seed, 2) == 0;
			const char *kind = KINDS[draw(&seed, 3)];
			bool expected = false;
			(void)draw_word(&seed, word);
			for (size_t j = 0; j < WORDS; j++) {
				expected =
				    expected || is_met(&wanted[j], tag, kind, word);
			}
			met += expected;
			assert_int_equal(tag ? lookout_meets_tag(&lookout, kind, word)
					     : lookout_meets_serial(&lookout, kind, word),
			    expected);
		}
	}
	assert_true(met > 1000 && met < 9000);
}

/* A lot's number stands in many rows: it is held against a book's once. */
TEST(a_number_that_is_given_row_after_row_is_looked_out_for_once)
{
	SCOPED_LOOKOUT lookout = {0};
	for (int row = 0; row < 3; row++) {
		lookout_serial(&lookout, "epirb", "BATCH7", true);
	}
	assert_int_equal(lookout.count, 1);
	lookout_serial(&lookout, "plb", "BATCH7", true);
	lookout_serial(&lookout, "plb", "BATCH7", false);
	lookout_tag(&lookout, "plb", "BATCH7");
	assert_int_equal(lookout.count, 4);
}

RUN_TESTS(NULL, NULL)
