/* Growable text, UTF-8 and the order of tags. */
#include "base/text.h"

#include "base/fold.h"
#include "base/memory.h"
#include "base/numbers.h"
#include "becket_test.h"

#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* Bytes of a string literal, zero bytes inside it counted, its terminator not. */
#define BYTES(literal) (literal), sizeof(literal) - 1

struct utf8_row {
	const char *bytes;
	size_t length;
	const char *note;
};

TEST(only_a_small_ascii_letter_becomes_a_capital)
{
	static const char *const ROWS[][2] = {{"service", "Service"}, {"EPIRB", "EPIRB"},
	    {"2 flares", "2 flares"}, {"\xC3\xA5r", "\xC3\xA5r"}, {"z", "Z"}, {"", ""}};
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_TEXT words = {0};
		text_add_capital(&words, ROWS[i][0]);
		assert_string_equal(text_string(&words), ROWS[i][1]);
	}
}

TEST(well_formed_utf8_is_accepted)
{
	static const struct utf8_row ROWS[] = {
	    {BYTES(""), "nothing"},
	    {BYTES("Aft locker"), "ASCII"},
	    {BYTES("\0"), "U+0000 is well-formed"},
	    {BYTES("\x41\xE2\x89\xA2\xCE\x91\x2E"), "RFC 3629 section 7, first"},
	    {BYTES("\xED\x95\x9C\xEA\xB5\xAD\xEC\x96\xB4"), "section 7, second"},
	    {BYTES("\xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E"), "section 7, third"},
	    {BYTES("\xEF\xBB\xBF\xF0\xA3\x8E\xB4"), "section 7, fourth"},
	    {BYTES("\xC2\x80"), "U+0080, least of two bytes"},
	    {BYTES("\xDF\xBF"), "U+07FF, most of two"},
	    {BYTES("\xE0\xA0\x80"), "U+0800, least of three"},
	    {BYTES("\xEF\xBF\xBF"), "U+FFFF, most of three"},
	    {BYTES("\xF0\x90\x80\x80"), "U+10000, least of four"},
	    {BYTES("\xF4\x8F\xBF\xBF"), "U+10FFFF, most of four"},
	    {BYTES("\xED\x9F\xBF"), "U+D7FF, last before the surrogates"},
	    {BYTES("\xEE\x80\x80"), "U+E000, first after the surrogates"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		if (!utf8_valid(ROWS[i].bytes, ROWS[i].length)) {
			fail_msg("refused: %s", ROWS[i].note);
		}
	}
}

TEST(malformed_utf8_is_refused)
{
	static const struct utf8_row ROWS[] = {
	    {BYTES("\xC0\x80"), "overlong U+0000, RFC 3629 section 10"},
	    {BYTES("\x2F\xC0\xAE\x2E\x2F"), "overlong dot, section 10"},
	    {BYTES("\xC1\xBF"), "overlong U+007F"},
	    {BYTES("\xE0\x80\xAF"), "overlong slash in three"},
	    {BYTES("\xE0\x9F\xBF"), "overlong U+07FF"},
	    {BYTES("\xF0\x80\x80\xAF"), "overlong slash in four"},
	    {BYTES("\xF0\x8F\xBF\xBF"), "overlong U+FFFF"},
	    {BYTES("\xED\xA0\x80"), "U+D800, a surrogate"},
	    {BYTES("\xED\xBF\xBF"), "U+DFFF, a surrogate"},
	    {BYTES("\xED\xA1\x8C\xED\xBE\xB4"), "a pair of surrogates, section 10"},
	    {BYTES("\xF4\x90\x80\x80"), "U+110000, above the last"},
	    {BYTES("\xF5\x80\x80\x80"), "a lead byte that never occurs"},
	    {BYTES("\xF8\x88\x80\x80\x80"), "five bytes"},
	    {BYTES("\xFC\x84\x80\x80\x80\x80"), "six bytes"},
	    {BYTES("\xFE"), "a byte that never occurs"},
	    {BYTES("\xFF"), "a byte that never occurs"},
	    {BYTES("\x80"), "a tail without a head"},
	    {BYTES("a\xBF"), "a tail after a letter"},
	    {BYTES("\xC3"), "cut after one of two"},
	    {BYTES("\xE6\x97"), "cut after two of three"},
	    {BYTES("\xF0\xA3\x8E"), "cut after three of four"},
	    {BYTES("\xC3("), "a head and no tail"},
	    {BYTES("\xE2\x28\xA1"), "the second byte is no tail"},
	    {BYTES("caf\xE9"), "Latin-1"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		if (utf8_valid(ROWS[i].bytes, ROWS[i].length)) {
			fail_msg("accepted: %s", ROWS[i].note);
		}
	}
}

/* Every code point there is, encoded by the table in RFC 3629 section 3. */
TEST(every_code_point_but_the_surrogates_is_accepted)
{
	for (uint32_t point = 0; point <= 0x11FFFF; point++) {
		unsigned char bytes[4] = {(unsigned char)point};
		size_t length = 1;
		if (point >= 0x10000) {
			length = 4;
			bytes[0] = (unsigned char)(0xF0 | point >> 18);
			bytes[1] = (unsigned char)(0x80 | (point >> 12 & 0x3F));
			bytes[2] = (unsigned char)(0x80 | (point >> 6 & 0x3F));
			bytes[3] = (unsigned char)(0x80 | (point & 0x3F));
		} else if (point >= 0x800) {
			length = 3;
			bytes[0] = (unsigned char)(0xE0 | point >> 12);
			bytes[1] = (unsigned char)(0x80 | (point >> 6 & 0x3F));
			bytes[2] = (unsigned char)(0x80 | (point & 0x3F));
		} else if (point >= 0x80) {
			length = 2;
			bytes[0] = (unsigned char)(0xC0 | point >> 6);
			bytes[1] = (unsigned char)(0x80 | (point & 0x3F));
		}
		bool good = point <= 0x10FFFF && (point < 0xD800 || point > 0xDFFF);
		if (utf8_valid((const char *)bytes, length) != good) {
			fail_msg("U+%04X", point);
		}
	}
}

TEST(text_grows_by_every_kind_of_addition)
{
	SCOPED_TEXT text = {0};
	assert_string_equal(text_string(&text), "");
	text_add(&text, "LR");
	text_add_byte(&text, '-');
	text_add_format(&text, "%d of %s", 1, "two");
	text_add_bytes(&text, "\0x", 2);
	assert_int_equal(text.length, 13);
	assert_memory_equal(text.bytes, "LR-1 of two\0x", 14);
	text_reset(&text);
	assert_int_equal(text.length, 0);
	assert_string_equal(text_string(&text), "");
}

TEST(a_long_text_keeps_every_byte)
{
	SCOPED_TEXT text = {0};
	for (int i = 0; i < 100000; i++) {
		text_add_byte(&text, (char)('a' + i % 26));
	}
	assert_int_equal(text.length, 100000);
	assert_int_equal(strlen(text.bytes), 100000);
	for (int i = 0; i < 100000; i++) {
		assert_int_equal(text.bytes[i], 'a' + i % 26);
	}
}

/* Runs an act that wants more memory than there is in a process of its own: it ends with
 * status 3 and these words on standard error. */
static void
assert_ends(void (*act)(void), const char *words)
{
	int ends[2];
	assert_int_equal(pipe(ends), 0);
	pid_t child = fork();
	assert_true(child >= 0);
	if (child == 0) {
		(void)dup2(ends[1], STDERR_FILENO);
		act();
		_exit(0);
	}
	(void)close(ends[1]);
	char said[200] = {0};
	size_t length = 0;
	ssize_t size = 0;
	while ((size = read(ends[0], said + length, sizeof said - 1 - length)) > 0) {
		length += (size_t)size;
	}
	(void)close(ends[0]);
	int status = 0;
	assert_int_equal(waitpid(child, &status, 0), child);
	assert_true(WIFEXITED(status));
	assert_int_equal(WEXITSTATUS(status), 3);
	assert_string_equal(said, words);
}

static const char NOTHING_CHANGED[] = "becket: memory ran out, so the program ended. "
				      "Nothing was changed in the book.\n";

static void
add_too_much(void)
{
	SCOPED_TEXT text = {0};
	text_add_bytes(&text, "x", SIZE_MAX / 2); /* refused before a byte is read */
}

static void
ask_for_too_much(void)
{
	SCOPED_ARENA arena = {0};
	(void)arena_alloc(&arena, SIZE_MAX);
}

static void
grow_too_much(void)
{
	int *items = NULL;
	size_t capacity = 0;
	array_reserve(&items, &capacity, sizeof *items, SIZE_MAX / 2);
}

static void
grow_too_much_in_an_arena(void)
{
	SCOPED_ARENA arena = {0};
	int *items = NULL;
	size_t capacity = 0;
	arena_reserve(&arena, &items, &capacity, sizeof *items, SIZE_MAX / 2);
}

static void
hold_nothing(void)
{
	memory_tell("The book had been changed by then.");
	(void)memory_held(NULL);
}

TEST(memory_that_runs_out_ends_the_program_with_words)
{
	assert_ends(add_too_much, NOTHING_CHANGED);
	assert_ends(ask_for_too_much, NOTHING_CHANGED);
	assert_ends(grow_too_much, NOTHING_CHANGED);
	assert_ends(grow_too_much_in_an_arena, NOTHING_CHANGED);
}

TEST(memory_that_runs_out_after_a_change_tells_of_it)
{
	assert_ends(hold_nothing, "becket: memory ran out, so the program ended. "
				  "The book had been changed by then.\n");
}

static int
sign(int number)
{
	return (number > 0) - (number < 0);
}

TEST(tags_sort_as_a_person_sorts_them)
{
	/* Ascending: each is less than all after it. */
	static const char *const TAGS[] = {"", "1", "2", "10", "A", "AB", "LJ-1", "LJ-02",
	    "LJ-3", "LJ-10", "LR", "LR-1", "LR-2", "LR-2a", "LR-2b", "LR-10", "LR-10a",
	    "LR-99999999999999999999", "LR-100000000000000000000", "a", "\xC3\xA9"};
	const size_t count = sizeof TAGS / sizeof TAGS[0];
	for (size_t i = 0; i < count; i++) {
		for (size_t j = 0; j < count; j++) {
			int expected = (i > j) - (i < j);
			int order = sign(text_compare_natural(TAGS[i], TAGS[j]));
			if (order != expected) {
				fail_msg("\"%s\" and \"%s\": %d, expected %d", TAGS[i],
				    TAGS[j], order, expected);
			}
		}
	}
}

TEST(tags_that_differ_only_in_zeros_still_have_one_order)
{
	int there = sign(text_compare_natural("LR-02", "LR-2"));
	assert_int_not_equal(there, 0);
	assert_int_equal(there, -sign(text_compare_natural("LR-2", "LR-02")));
}

TEST(strings_are_sorted_and_found_byte_by_byte)
{
	const char *words[] = {"b", "", "B", "\xC3\xA9", "ba", "a"};
	static const char *const SORTED[] = {"", "B", "a", "b", "ba", "\xC3\xA9"};

	enum { COUNT = sizeof words / sizeof words[0] };

	qsort(words, COUNT, sizeof words[0], text_order);
	for (size_t i = 0; i < COUNT; i++) {
		assert_string_equal(words[i], SORTED[i]);
		const char *wanted = SORTED[i];
		assert_ptr_equal(
		    bsearch(&wanted, words, COUNT, sizeof words[0], text_order),
		    &words[i]);
	}
}

TEST(letters_match_whatever_their_case)
{
	assert_true(text_same_letters("Private", "pRIVATE"));
	assert_true(text_same_letters("", ""));
	assert_false(text_same_letters("private", "privat"));
	assert_false(text_same_letters("privat", "private"));
	assert_false(text_same_letters("a", "b"));
}

TEST(columns_are_what_a_terminal_shows)
{
	assert_int_equal(utf8_columns(""), 0);
	assert_int_equal(utf8_columns("Locker"), 6);
	assert_int_equal(
	    utf8_columns("K\xC3\xB6rper"), 6);          /* one letter with an umlaut */
	assert_int_equal(utf8_columns("e\xCC\x81"), 1); /* e and a combining acute */
	assert_int_equal(utf8_columns("\xE6\x97\xA5\xE6\x9C\xAC"), 4); /* two wide ones */
}

TEST(an_array_grows_and_keeps_what_it_held)
{
	struct {
		int *items;
		size_t count;
		size_t capacity;
	} numbers = {0};

	for (int i = 0; i < 1000; i++) {
		ARRAY_ROOM(&numbers);
		numbers.items[numbers.count++] = i;
	}
	for (int i = 0; i < 1000; i++) {
		assert_int_equal(numbers.items[i], i);
	}
	free(numbers.items);
}

TEST(an_array_in_an_arena_grows_and_its_old_place_stays)
{
	SCOPED_ARENA arena = {0};

	struct {
		int *items;
		size_t count;
		size_t capacity;
	} numbers = {0};

	const int *first = NULL;
	for (int i = 0; i < 100000; i++) {
		ARENA_ROOM(&arena, &numbers);
		numbers.items[numbers.count++] = i;
		first = i == 0 ? numbers.items : first;
	}
	for (int i = 0; i < 100000; i++) {
		assert_int_equal(numbers.items[i], i);
	}
	assert_ptr_not_equal(first, numbers.items);
	assert_int_equal(*first, 0);
}

TEST(an_arena_hands_out_zeroed_memory_of_any_size)
{
	static const size_t SIZES[] = {1, 7, 16, 1000, 70000, 3, 200000};
	struct arena arena = {0};
	for (int round = 0; round < 3; round++) {
		for (size_t i = 0; i < sizeof SIZES / sizeof SIZES[0]; i++) {
			unsigned char *bytes = arena_alloc(&arena, SIZES[i]);
			assert_non_null(bytes);
			assert_int_equal((uintptr_t)bytes % _Alignof(max_align_t), 0);
			for (size_t at = 0; at < SIZES[i]; at++) {
				assert_int_equal(bytes[at], 0);
			}
			memset(bytes, 0xFF, SIZES[i]);
		}
		arena_reset(&arena);
	}
	assert_string_equal(arena_string(&arena, "copy"), "copy");
	assert_null(arena_string(&arena, NULL));
	assert_string_equal(arena_bytes(&arena, "copy of it", 4), "copy");
	arena_clear(&arena);
	assert_non_null(arena_alloc(&arena, 0));
	arena_clear(&arena);
}

/* A tag of 5,000 letters of two bytes: the prefix is cut between two of them. */
TEST(a_fault_keeps_its_cause_behind_a_long_prefix)
{
	SCOPED_TEXT tag = {0};
	struct fault fault = {0};
	for (int i = 0; i < 5000; i++) {
		text_add(&tag, "é");
	}
	assert_false(fault_set(&fault, FAULT_INPUT, "the tag is too long"));
	assert_false(fault_prefix(&fault, "entering %s", text_string(&tag)));
	size_t length = strlen(fault.text);
	assert_true(length < sizeof fault.text && length > sizeof fault.text - 4);
	assert_string_equal(strstr(fault.text, "é: "), "é: the tag is too long");
	assert_true(utf8_valid(fault.text, length));
}

/* A cause of 3,000 letters of two bytes fills the message: it is cut between two of them, and
 * what it is about stays in front. */
TEST(a_fault_keeps_its_prefix_before_a_long_cause)
{
	static const char *const PREFIXES[] = {"line 7", "line 77"};
	for (size_t i = 0; i < sizeof PREFIXES / sizeof PREFIXES[0]; i++) {
		SCOPED_TEXT cause = {0};
		SCOPED_TEXT begins = {0};
		struct fault fault = {0};
		for (int j = 0; j < 3000; j++) {
			text_add(&cause, "é");
		}
		text_add_format(&begins, "%s: é", PREFIXES[i]);
		assert_false(fault_set(&fault, FAULT_INPUT, "%s", text_string(&cause)));
		assert_false(fault_prefix(&fault, "%s", PREFIXES[i]));
		size_t length = strlen(fault.text);
		assert_true(length < sizeof fault.text && length > sizeof fault.text - 4);
		assert_memory_equal(fault.text, text_string(&begins), begins.length);
		assert_true(utf8_valid(fault.text, length));
	}
}

TEST(a_fault_reads_from_act_to_cause)
{
	struct fault fault = {0};
	assert_false(fault_set(&fault, FAULT_INPUT, "\"%s\" is no date", "31/02/2021"));
	assert_false(fault_prefix(&fault, "line %d, column %s", 7, "made"));
	assert_false(fault_prefix(&fault, "importing %s", "boats.csv"));
	assert_int_equal(fault.kind, FAULT_INPUT);
	assert_string_equal(fault.text,
	    "importing boats.csv: line 7, column made: \"31/02/2021\" is no date");
	assert_int_equal(fault_exit_status(FAULT_NONE), 0);
	assert_int_equal(fault_exit_status(FAULT_USAGE), 2);
	assert_int_equal(fault_exit_status(FAULT_INPUT), 2);
	assert_int_equal(fault_exit_status(FAULT_BOOK), 3);
	assert_int_equal(fault_exit_status(FAULT_FILE), 3);
}

/* From Unicode's CaseFolding.txt and the canonical decompositions of UnicodeData.txt, from
 * memory: sharp s folds to ss, the dotted capital I to i with a mark. */
TEST(words_are_folded_in_any_script)
{
	static const char *const SAME[][2] = {{"STRASSE", "stra\u00dfe"},
	    {"\u039f\u0394\u039f\u03a3", "\u03bf\u03b4\u03bf\u03c2"},
	    {"SJ\u00d8GANG", "sj\u00f8gang"}, {"caf\u00e9", "CAFE\u0301"}};
	for (size_t i = 0; i < sizeof SAME / sizeof SAME[0]; i++) {
		SCOPED_TEXT one = {0};
		SCOPED_TEXT other = {0};
		fold_case(SAME[i][0], &one);
		fold_case(SAME[i][1], &other);
		assert_string_equal(text_string(&one), text_string(&other));
	}
}

TEST(accents_are_left_out)
{
	static const char *const PLAIN[][2] = {
	    {"\u00c6rlig Sj\u00f8gang", "aerlig sjogang"}, {"\u0130stanbul", "istanbul"},
	    {"I\u015f\u0131k", "isik"},
	    {"\u0386\u03bd\u03b5\u03bc\u03bf\u03c2",
		"\u03b1\u03bd\u03b5\u03bc\u03bf\u03c3"},
	    {"\u6551\u547d\u6d6e\u74b0", "\u6551\u547d\u6d6e\u74b0"}};
	for (size_t i = 0; i < sizeof PLAIN / sizeof PLAIN[0]; i++) {
		SCOPED_TEXT folded = {0};
		fold_accents(PLAIN[i][0], &folded);
		assert_string_equal(text_string(&folded), PLAIN[i][1]);
	}
}

/* Unicode's bidirectional controls (UAX 9) and its characters without a glyph; the joiner
 * is not among them. */
TEST(what_nobody_sees_in_a_name_is_found)
{
	static const char *const HIDDEN[] = {"A\u202EB", "A\u200BB", "A\u2066B",
	    "A\u061CB", "A\uFEFFB", "A\u00ADB",
	    ("A\xC2\x85"
	     "B"),
	    "A\u2028"};
	static const char *const PLAIN[] = {
	    "", "LJ-1", "\u0645\u06CC\u200C\u062E", "\u00C5land", "\U0001F6F6 7"};
	for (size_t i = 0; i < sizeof HIDDEN / sizeof HIDDEN[0]; i++) {
		assert_ptr_equal(utf8_hidden(HIDDEN[i]), HIDDEN[i] + 1);
	}
	for (size_t i = 0; i < sizeof PLAIN / sizeof PLAIN[0]; i++) {
		assert_null(utf8_hidden(PLAIN[i]));
	}
	assert_int_equal(utf8_count(""), 0);
	assert_int_equal(utf8_count("\u00C5land \U0001F6F6"), 7);
}

/* The least and the greatest first byte of each length, RFC 3629 section 4. */
TEST(the_first_byte_tells_how_long_a_character_is)
{
	assert_int_equal(utf8_size('\x00'), 1);
	assert_int_equal(utf8_size('\x7F'), 1);
	assert_int_equal(utf8_size('\xC2'), 2);
	assert_int_equal(utf8_size('\xDF'), 2);
	assert_int_equal(utf8_size('\xE0'), 3);
	assert_int_equal(utf8_size('\xEF'), 3);
	assert_int_equal(utf8_size('\xF0'), 4);
	assert_int_equal(utf8_size('\xF4'), 4);
}

/* The words with a letter beyond ASCII go through Unicode's tables, those without do not. */
TEST(what_is_ascii_folds_as_beside_other_letters)
{
	for (int byte = 1; byte < 128; byte++) {
		char beside[] = {
		    '\xc3', '\xb1', 'x', (char)byte, 'x', '\0'}; /* n tilde */
		const char *alone = beside + 2;
		SCOPED_TEXT other = {0};
		SCOPED_TEXT one = {0};
		fold_case(beside, &other);
		fold_case(alone, &one);
		assert_int_equal(one.length, 3);
		assert_string_equal(
		    text_string(&one), text_string(&other) + other.length - 3);
		text_reset(&one);
		text_reset(&other);
		fold_accents(beside, &other);
		fold_accents(alone, &one);
		assert_int_equal(one.length, 3);
		assert_string_equal(
		    text_string(&one), text_string(&other) + other.length - 3);
	}
}

static void
gather(const struct text *piece, void *context)
{
	struct text *all = context;
	text_add_bytes(all, text_string(piece), piece->length);
}

TEST(a_long_text_is_handed_on_in_pieces_and_whole)
{
	SCOPED_TEXT all = {0};
	const struct text_drain drain = {gather, &all};
	SCOPED_TEXT text = {.drain = &drain};
	for (int i = 0; i < 10000; i++) {
		text_add(&text, "0123456789abcdef");
		text_hand_on(&text);
	}
	/* 160,000 bytes: two pieces of 64 KiB have gone, and the rest is shorter */
	assert_int_equal(all.length, 2 * 64 * 1024);
	assert_int_equal(text.length, 160000 - 2 * 64 * 1024);
	text_add(&all, text_string(&text));
	for (size_t i = 0; i < all.length; i++) {
		assert_int_equal(all.bytes[i], "0123456789abcdef"[i % 16]);
	}
}

TEST(a_text_without_a_drain_is_held_whole)
{
	SCOPED_TEXT text = {0};
	for (int i = 0; i < 10000; i++) {
		text_add(&text, "0123456789abcdef");
		text_hand_on(&text);
	}
	assert_int_equal(text.length, 160000);
}

TEST(a_byte_that_begins_no_character_is_found_wherever_it_stands)
{
	for (size_t length = 1; length <= 20; length++) {
		for (size_t at = 0; at < length; at++) {
			char bytes[20];
			memset(bytes, 'a', sizeof bytes);
			assert_true(utf8_valid(bytes, length));
			bytes[at] = (char)0xFF;
			assert_false(utf8_valid(bytes, length));
			/* RFC 3629: C3 A9 is U+00E9, and C3 alone is cut short */
			bytes[at] = (char)0xC3;
			assert_false(utf8_valid(bytes, length));
			if (at + 1 < length) {
				bytes[at + 1] = (char)0xA9;
				assert_true(utf8_valid(bytes, length));
			}
		}
	}
}

TEST(what_is_no_utf8_is_mended_from_where_it_begins)
{
	SCOPED_TEXT text = {0};
	text_mend_utf8(&text, 0);
	assert_string_equal(text_string(&text), "");
	text_add(&text, "caf\xE9 ");
	text_add(&text, "\xC3\xA9t\xC3\xA9");
	text_mend_utf8(&text, strlen("caf\xE9 "));
	assert_string_equal(text_string(&text), "caf\xE9 \xC3\xA9t\xC3\xA9");
	text_mend_utf8(&text, 0);
	assert_string_equal(text_string(&text), "caf? ??t??");
	text_mend_utf8(&text, text.length);
	assert_string_equal(text_string(&text), "caf? ??t??");
}

/* The bounds of a 64-bit number: -2^63 and 2^63 - 1. */
TEST(a_number_is_written_in_its_digits)
{
	char buffer[INTEGER_TEXT_SIZE];
	char day[] = "....-..";
	assert_string_equal(integer_text(0, buffer), "0");
	assert_string_equal(integer_text(-7, buffer), "-7");
	assert_string_equal(integer_text(INT64_MIN, buffer), "-9223372036854775808");
	assert_string_equal(integer_text(INT64_MAX, buffer), "9223372036854775807");
	assert_ptr_equal(digits_put(day, 2026, 4), day + 4);
	(void)digits_put(day + 5, 3, 2);
	assert_string_equal(day, "2026-03");
}

RUN_TESTS(NULL, NULL)
