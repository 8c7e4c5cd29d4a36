/* What is kept out of memory, beside the same in memory; and the order in which runs are
 * merged, beside the C library's qsort of all pieces. */
#include "base/memory.h"
#include "base/spool.h"
#include "becket_test.h"
#include "draw.h"

#include <string.h>

enum { PIECES = 20000, PIECE_SIZE = 40 };

struct numbered {
	int64_t key;
	size_t at; /* in the order in which they were added */
};

static int
compare(const void *left, const void *right)
{
	const struct numbered *a = left;
	const struct numbered *b = right;
	return a->key != b->key ? (a->key < b->key ? -1 : 1)
				: (a->at > b->at) - (a->at < b->at);
}

static void
add_line(const struct run_piece *piece, void *text)
{
	text_add_format(text, "%lld ", (long long)piece->key);
	text_add_bytes(text, piece->bytes, piece->length);
}

static void
add_bytes(const struct run_piece *piece, void *text)
{
	text_add_bytes(text, piece->bytes, piece->length);
}

/* Adds pieces drawn at random in runs of up to `longest`, and holds their merging to qsort. */
static void
check_merge(size_t longest)
{
	static struct numbered all[PIECES];
	SCOPED_RUNS runs = {0};
	SCOPED_TEXT merged = {0};
	SCOPED_TEXT sorted = {0};
	struct fault fault = {0};
	unsigned seed = (unsigned)longest;
	for (size_t first = 0; first < PIECES;) {
		size_t length = draw(&seed, (unsigned)longest + 1);
		length = length < PIECES - first ? length : PIECES - first;
		for (size_t i = first; i < first + length; i++) {
			all[i] = (struct numbered){(int64_t)draw(&seed, 500) - 250, i};
		}
		qsort(all + first, length, sizeof *all, compare);
		for (size_t i = first; i < first + length; i++) {
			char words[PIECE_SIZE];
			all[i].at = i;
			int written = snprintf(words, sizeof words, "%zu,", i);
			runs_add(&runs, &(struct run_piece){
					    all[i].key, words, (size_t)written, NULL});
		}
		runs_end(&runs);
		first += length;
	}
	assert_true(runs_merge(&runs, add_line, &merged, &fault));
	qsort(all, PIECES, sizeof *all, compare);
	for (size_t i = 0; i < PIECES; i++) {
		text_add_format(&sorted, "%lld %zu,", (long long)all[i].key, all[i].at);
	}
	assert_int_equal(merged.length, sorted.length);
	assert_true(strcmp(text_string(&merged), text_string(&sorted)) == 0);
}

TEST(runs_of_any_length_are_merged_as_a_stable_sort_would_have_them)
{
	check_merge(1);
	check_merge(40);
	check_merge(3000);
	check_merge(PIECES);
}

TEST(a_long_piece_comes_back_whole_behind_those_with_its_key_before_it)
{
	SCOPED_RUNS runs = {0};
	SCOPED_TEXT merged = {0};
	SCOPED_TEXT expected = {0};
	SCOPED_TEXT words = {0};
	struct fault fault = {0};
	for (int i = 0; i < 9000; i++) {
		text_add_format(&words, "%d,", i);
	}
	runs_add_long(
	    &runs, &(struct run_piece){2, text_string(&words), words.length, NULL});
	runs_end(&runs);
	runs_add_long(&runs, &(struct run_piece){1, "first", 5, NULL});
	runs_add_long(&runs, &(struct run_piece){2, "last", 4, NULL});
	runs_add_long(&runs, &(struct run_piece){2, "", 0, NULL});
	runs_end(&runs);
	text_add_format(&expected, "first%slast", text_string(&words));
	assert_true(runs_merge(&runs, add_bytes, &merged, &fault));
	assert_int_equal(strcmp(text_string(&merged), text_string(&expected)), 0);
}

TEST(no_runs_and_runs_without_pieces_give_nothing)
{
	SCOPED_RUNS runs = {0};
	SCOPED_TEXT merged = {0};
	struct fault fault = {0};
	assert_true(runs_merge(&runs, add_line, &merged, &fault));
	runs_end(&runs);
	runs_end(&runs);
	assert_true(runs_merge(&runs, add_line, &merged, &fault));
	assert_int_equal(merged.length, 0);
}

TEST(a_piece_may_be_longer_than_what_is_read_at_once)
{
	SCOPED_RUNS runs = {0};
	SCOPED_TEXT merged = {0};
	SCOPED_TEXT longer = {0};
	struct fault fault = {0};
	for (size_t i = 0; i < 100000; i++) {
		text_add_byte(&longer, (char)('a' + i % 26));
	}
	runs_add(&runs, &(struct run_piece){1, "short,", 6, NULL});
	runs_add(&runs, &(struct run_piece){2, longer.bytes, longer.length, NULL});
	runs_end(&runs);
	runs_add(&runs, &(struct run_piece){0, longer.bytes, longer.length, NULL});
	runs_end(&runs);
	assert_true(runs_merge(&runs, add_line, &merged, &fault));
	SCOPED_TEXT expected = {0};
	text_add_format(&expected, "0 %s1 short,2 %s", longer.bytes, longer.bytes);
	assert_true(strcmp(text_string(&merged), text_string(&expected)) == 0);
}

TEST(pieces_of_one_key_go_by_their_words_and_then_by_their_runs)
{
	static const struct run_piece PIECES_OF[2][3] = {
	    {{1, "first b,", 8, "b"}, {1, "first bc,", 9, "bc"}, {2, "first,", 6, NULL}},
	    {{1, "second,", 7, ""}, {1, "second b,", 9, "b"}, {2, "second a,", 9, "a"}}};
	SCOPED_RUNS runs = {0};
	SCOPED_TEXT merged = {0};
	struct fault fault = {0};
	for (size_t i = 0; i < 2; i++) {
		for (size_t k = 0; k < 3; k++) {
			runs_add(&runs, &PIECES_OF[i][k]);
		}
		runs_end(&runs);
	}
	assert_true(runs_merge(&runs, add_line, &merged, &fault));
	assert_string_equal(text_string(&merged),
	    "1 second,1 first b,1 second b,1 first bc,2 first,2 second a,");
}

/* Adds three megabytes, and reads them back in pieces of all sorts. */
static void
check_spool(void)
{
	enum { ALL = 3000000 };

	__attribute__((cleanup(spool_clear))) struct spool spool = {0};
	SCOPED_TEXT all = {0};
	SCOPED_TEXT read = {0};
	struct fault fault = {0};
	while (all.length < ALL) {
		text_add_format(&all, "%zu ", all.length);
	}
	for (size_t at = 0; at < all.length; at += 777) {
		size_t left = all.length - at;
		spool_add(&spool, all.bytes + at, left < 777 ? left : 777);
	}
	assert_int_equal(spool.length, all.length);
	for (size_t at = 0; at < all.length; at += 50021) {
		size_t left = all.length - at;
		size_t length = left < 50021 ? left : 50021;
		assert_true(
		    spool_read(&spool, at, text_grow(&read, length), length, &fault));
	}
	assert_true(strcmp(text_string(&all), text_string(&read)) == 0);
}

TEST(what_is_spooled_is_read_back)
{
	check_spool();
}

TEST(where_no_file_can_be_made_it_stays_in_memory)
{
	assert_int_equal(setenv("TMPDIR", "/nowhere/at/all", 1), 0);
	check_spool();
	assert_int_equal(unsetenv("TMPDIR"), 0);
}

RUN_TESTS(NULL, NULL)
