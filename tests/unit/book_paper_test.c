/* Papers kept with the gear: what goes in comes out, bit for bit. */
#include "book/journal.h"
#include "book_file.h"
#include "book_scratch.h"

#include <sys/stat.h>

/* The published SHA-256 of "abc" (FIPS 180-4, the standard's own example). */
static const char ABC_SHA256[] =
    "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

static struct paper_put
put_with(struct scratch *scratch, const char *name, const struct text *bytes,
    const struct record *record, const char *note)
{
	const struct paper paper = {
	    .tag = "LR-1",
	    .name = name,
	    .media_type = "text/plain",
	    .note = note,
	    .added = day_from_civil(2026, 11, 25),
	};
	struct paper_put put = {0};
	assert_done(scratch,
	    book_put_paper(scratch->book, &paper, record, bytes, &put, &scratch->fault));
	return put;
}

static struct paper_put
put(struct scratch *scratch, const char *name, const char *words)
{
	SCOPED_TEXT bytes = {0};
	text_add(&bytes, words);
	return put_with(scratch, name, &bytes, NULL, "");
}

static const struct paper *
load(struct scratch *scratch, const char *tag, struct arena *arena, size_t *count_out)
{
	const struct paper *papers = NULL;
	assert_done(scratch, book_load_papers(scratch->book, tag, arena, &papers,
				 count_out, &scratch->fault));
	return papers;
}

SCRATCH_TEST(everything_about_a_paper_comes_back_and_its_bytes_are_the_same)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT bytes = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	text_add(&bytes, "abc");
	struct paper_put added =
	    put_with(scratch, "label.txt", &bytes, NULL, "Grüße, \"x\"");
	assert_false(added.known);
	scratch_reopen(scratch, BOOK_READ);

	const struct paper *papers = load(scratch, "LR-1", &arena, &count);
	assert_int_equal(count, 1);
	assert_int_equal(papers[0].number, added.number);
	assert_string_equal(papers[0].tag, "LR-1");
	assert_string_equal(papers[0].name, "label.txt");
	assert_string_equal(papers[0].media_type, "text/plain");
	assert_string_equal(papers[0].note, "Grüße, \"x\"");
	assert_string_equal(papers[0].sha256, ABC_SHA256);
	assert_int_equal(papers[0].size, 3);
	assert_int_equal(papers[0].added, day_from_civil(2026, 11, 25));
	assert_false(papers[0].of_record);
	text_reset(&bytes);
	text_add(&bytes, "what was there before");
	assert_done(
	    scratch, book_read_paper(scratch->book, &papers[0], &bytes, &scratch->fault));
	assert_string_equal(text_string(&bytes), "abc");
}

SCRATCH_TEST(zero_bytes_and_a_whole_ten_mebibytes_come_back_and_one_byte_more_is_refused)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT back = {0};
	struct paper_put ignored = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	/* every value of a byte, over and over */
	for (int i = 0; i < PAPER_LARGEST; i++) {
		text_add_byte(&bytes, (char)(i * 7 + i / 251));
	}
	(void)put_with(scratch, "big", &bytes, NULL, "");
	const struct paper *papers = load(scratch, NULL, &arena, &count);
	assert_int_equal(count, 1);
	assert_int_equal(papers[0].size, PAPER_LARGEST);
	assert_done(
	    scratch, book_read_paper(scratch->book, &papers[0], &back, &scratch->fault));
	assert_int_equal(back.length, bytes.length);
	assert_memory_equal(back.bytes, bytes.bytes, bytes.length);

	text_add_byte(&bytes, 'x');
	assert_false(book_put_paper(
	    scratch->book, &papers[0], NULL, &bytes, &ignored, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "10485761 bytes; a paper may have 10485760");
	text_reset(&bytes);
	assert_false(book_put_paper(
	    scratch->book, &papers[0], NULL, &bytes, &ignored, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "empty");
}

SCRATCH_TEST(the_same_bytes_twice_are_one_paper_that_gains_what_is_new)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT bytes = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	const struct record record = {.task = TASK_SERVICE,
	    .on = stamp_of("2025-05"),
	    .station = "Raft Loft",
	    .certificate = "C 12",
	    .price_minor = -1};
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &record, &scratch->fault));
	text_add(&bytes, "abc");
	struct paper_put first = put_with(scratch, "one.txt", &bytes, NULL, "first");
	struct paper_put second = put_with(scratch, "two.txt", &bytes, &record, "");
	assert_true(second.known);
	assert_int_equal(second.number, first.number);

	const struct paper *papers = load(scratch, "LR-1", &arena, &count);
	assert_int_equal(count, 1);
	assert_string_equal(papers[0].name, "one.txt");
	assert_string_equal(papers[0].note, "first");
	assert_true(papers[0].of_record);
	assert_int_equal(papers[0].task, TASK_SERVICE);
	assert_stamp(papers[0].on, "2025-05");
	assert_string_equal(papers[0].certificate, "C 12");
}

SCRATCH_TEST(the_same_bytes_on_another_item_are_another_paper)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT bytes = {0};
	size_t count = 0;
	struct paper_put other = {0};
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	struct paper_put first = put(scratch, "a.txt", "abc");
	const struct paper paper = {.tag = "LR-2",
	    .name = "a.txt",
	    .media_type = "text/plain",
	    .note = "",
	    .added = day_from_civil(2026, 1, 1)};
	text_add(&bytes, "abc");
	assert_done(scratch,
	    book_put_paper(scratch->book, &paper, NULL, &bytes, &other, &scratch->fault));
	assert_false(other.known);
	assert_int_not_equal(other.number, first.number);
	(void)load(scratch, NULL, &arena, &count);
	assert_int_equal(count, 2);
	(void)load(scratch, "LR-2", &arena, &count);
	assert_int_equal(count, 1);
	(void)load(scratch, "LR-9", &arena, &count);
	assert_int_equal(count, 0);
}

SCRATCH_TEST(a_paper_outlives_the_renewal_of_its_item)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT bytes = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	const struct record service = {.task = TASK_SERVICE,
	    .on = stamp_of("2024-05-20"),
	    .station = "",
	    .certificate = "C 12",
	    .price_minor = -1};
	const struct record renewal = {.task = TASK_RENEW,
	    .on = stamp_of("2026-01-10"),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &service, &scratch->fault));
	text_add(&bytes, "abc");
	(void)put_with(scratch, "c.txt", &bytes, &service, "");
	assert_done(
	    scratch, book_add_record(scratch->book, "LR-1", &renewal, &scratch->fault));
	const struct paper *papers = load(scratch, "LR-1", &arena, &count);
	assert_int_equal(count, 1);
	assert_string_equal(papers[0].certificate, "C 12");
}

SCRATCH_TEST(a_removed_paper_is_gone_and_only_its_own_item_can_give_it_up)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT back = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	struct paper_put added = put(scratch, "a.txt", "abc");
	const struct paper *papers = load(scratch, "LR-1", &arena, &count);

	assert_false(
	    book_remove_paper(scratch->book, "LR-2", added.number, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "LR-2 has no paper 1");
	assert_false(book_remove_paper(scratch->book, "LR-9", 1, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "LR-9");
	scratch->fault = (struct fault){0};
	assert_done(scratch,
	    book_remove_paper(scratch->book, "LR-1", added.number, &scratch->fault));
	(void)load(scratch, NULL, &arena, &count);
	assert_int_equal(count, 0);
	assert_false(book_read_paper(scratch->book, &papers[0], &back, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "no longer in the book");
}

SCRATCH_TEST(an_unknown_item_or_record_or_a_bad_name_keeps_nothing)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT bytes = {0};
	struct paper_put ignored = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	text_add(&bytes, "abc");
	struct paper paper = {.tag = "LR-9",
	    .name = "a.txt",
	    .media_type = "text/plain",
	    .note = "",
	    .added = day_from_civil(2026, 1, 1)};
	const struct record record = {
	    .task = TASK_SERVICE, .on = stamp_of("2025"), .certificate = "C 1"};
	assert_false(book_put_paper(
	    scratch->book, &paper, NULL, &bytes, &ignored, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "LR-9");
	paper.tag = "LR-1";
	assert_false(book_put_paper(
	    scratch->book, &paper, &record, &bytes, &ignored, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "no such record");
	paper.name = "a\n.txt";
	assert_false(book_put_paper(
	    scratch->book, &paper, NULL, &bytes, &ignored, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "control character");
	paper.name = "a.txt";
	paper.note = "\xFF";
	assert_false(book_put_paper(
	    scratch->book, &paper, NULL, &bytes, &ignored, &scratch->fault));
	assert_says(scratch, FAULT_INPUT, "UTF-8");
	(void)load(scratch, NULL, &arena, &count);
	assert_int_equal(count, 0);
}

SCRATCH_TEST(bytes_that_are_not_those_put_in_are_not_given_out)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT back = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	(void)put(scratch, "a.txt", "abc");
	struct paper paper = *load(scratch, "LR-1", &arena, &count);
	/* as if a bit of the file had turned: the digest is another's */
	paper.sha256 = "0000000000000000000000000000000000000000000000000000000000000000";
	assert_false(book_read_paper(scratch->book, &paper, &back, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "not those that were put in");
}

static void
assert_size_below(const struct scratch *scratch, off_t most)
{
	struct stat about = {0};
	assert_int_equal(stat(scratch->path, &about), 0);
	assert_in_range(about.st_size, 0, most);
}

static void
undo_last(struct scratch *scratch)
{
	int64_t undone = 0;
	int64_t entry = 0;
	assert_done(
	    scratch, book_undo(scratch->book, 0, &undone, &entry, &scratch->fault));
}

static void
assert_papers_are(struct scratch *scratch, const struct text *bytes, size_t expected)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT back = {0};
	size_t count = 0;
	const struct paper *papers = load(scratch, NULL, &arena, &count);
	assert_int_equal(count, expected);
	for (size_t i = 0; i < count; i++) {
		assert_done(scratch,
		    book_read_paper(scratch->book, &papers[i], &back, &scratch->fault));
		assert_int_equal(back.length, bytes->length);
		assert_memory_equal(back.bytes, bytes->bytes, bytes->length);
	}
}

/* An empty book has some 300 KB; a second copy of the paper would be 5 MB. */
SCRATCH_TEST(a_paper_is_in_the_file_once_whatever_is_done_with_it)
{
	enum { SIZE = 5 * 1000 * 1000, BESIDES = 600 * 1000 };

	SCOPED_TEXT bytes = {0};
	uint32_t random = 20261125;
	scratch_put(scratch, "LR-1");
	scratch_put(scratch, "LR-2");
	for (int i = 0; i < SIZE; i++) {
		random =
		    random * 1664525U + 1013904223U; /* nothing that could be packed */
		text_add_byte(&bytes, (char)(random >> 24));
	}
	struct paper_put added = put_with(scratch, "scan.pdf", &bytes, NULL, "");
	assert_papers_are(scratch, &bytes, 1);
	undo_last(scratch);
	assert_papers_are(scratch, &bytes, 0);
	int64_t undone = 0;
	int64_t entry = 0;
	assert_done(
	    scratch, book_undo(scratch->book, 4, &undone, &entry, &scratch->fault));
	assert_papers_are(scratch, &bytes, 1);
	assert_done(scratch,
	    book_remove_paper(scratch->book, "LR-1", added.number, &scratch->fault));
	assert_papers_are(scratch, &bytes, 0);
	undo_last(scratch);
	assert_papers_are(scratch, &bytes, 1);
	const struct paper copy = {.tag = "LR-2",
	    .name = "copy.pdf",
	    .media_type = "application/pdf",
	    .note = "",
	    .added = day_from_civil(2026, 11, 25)};
	assert_done(scratch,
	    book_put_paper(scratch->book, &copy, NULL, &bytes, &added, &scratch->fault));
	assert_papers_are(scratch, &bytes, 2);
	scratch_reopen(scratch, BOOK_READ);
	assert_size_below(scratch, SIZE + BESIDES);
}

SCRATCH_TEST(damaged_bytes_are_mended_when_the_paper_is_put_in_again)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT back = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	struct paper_put added = put(scratch, "a.txt", "abc");
	assert_int_equal(
	    sqlite3_exec(file_of(scratch->book),
		"UPDATE paper_bytes SET bytes = x'616264'", NULL, NULL, NULL),
	    SQLITE_OK);
	const struct paper *papers = load(scratch, "LR-1", &arena, &count);
	assert_false(book_read_paper(scratch->book, &papers[0], &back, &scratch->fault));
	assert_says(scratch, FAULT_BOOK, "not those that were put in");
	assert_done(scratch,
	    book_remove_paper(scratch->book, "LR-1", added.number, &scratch->fault));
	(void)put(scratch, "a.txt", "abc");
	papers = load(scratch, "LR-1", &arena, &count);
	assert_done(
	    scratch, book_read_paper(scratch->book, &papers[0], &back, &scratch->fault));
	assert_string_equal(text_string(&back), "abc");
}

/* The journal may yet give them back. */
SCRATCH_TEST(no_bytes_are_ever_taken_out)
{
	scratch_put(scratch, "LR-1");
	(void)put(scratch, "a.txt", "abc");
	assert_int_equal(sqlite3_exec(file_of(scratch->book), "DELETE FROM paper_bytes",
			     NULL, NULL, NULL),
	    SQLITE_CONSTRAINT);
}

SCRATCH_TEST(two_hundred_papers_come_in_the_order_of_their_numbers)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT back = {0};
	size_t count = 0;
	scratch_put(scratch, "LR-1");
	assert_done(scratch, book_begin(scratch->book, &scratch->fault));
	for (int i = 0; i < 200; i++) {
		char words[32];
		(void)snprintf(words, sizeof words, "paper %d", i);
		(void)put(scratch, "same name.txt", words);
	}
	assert_done(scratch, book_commit(scratch->book, &scratch->fault));
	const struct paper *papers = load(scratch, "LR-1", &arena, &count);
	assert_int_equal(count, 200);
	for (int i = 0; i < 200; i++) {
		char words[32];
		(void)snprintf(words, sizeof words, "paper %d", i);
		assert_done(scratch,
		    book_read_paper(scratch->book, &papers[i], &back, &scratch->fault));
		assert_string_equal(text_string(&back), words);
	}
}

RUN_TESTS(NULL, NULL)
