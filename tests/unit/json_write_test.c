/* What is written of a value, beside what jansson's own writer makes of the same: it
 * reads our bytes, and writes what it has read. */
#include "becket_test.h"
#include "draw.h"
#include "exchange/json_object.h"

#include <jansson.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>

/* Ours, and jansson's of what it has read of it; the value is freed. */
static void
check_as_jansson(struct json value)
{
	SCOPED_TEXT out = {0};
	json_write(value, &out);
	json_t *read = json_loads(text_string(&out), JSON_REJECT_DUPLICATES, NULL);
	assert_non_null(read);
	char *theirs = json_dumps(read, 0);
	assert_non_null(theirs);
	assert_string_equal(text_string(&out), theirs);
	free(theirs);
	json_decref(read);
}

/* The same for words that jansson is given too. */
static void
check_words(const char *words)
{
	SCOPED_TEXT out = {0};
	json_t *list = json_pack("[s]", words);
	char *theirs = json_dumps(list, 0);
	struct json ours = json_list();
	json_push(ours, json_text(words));
	json_write(ours, &out);
	assert_string_equal(text_string(&out), theirs);
	free(theirs);
	json_decref(list);
}

TEST(every_letter_of_a_byte_is_escaped_as_jansson_escapes_it)
{
	for (char letter = 1; letter < CHAR_MAX; letter++) {
		check_words((const char[]){'a', letter, 'b', letter, letter, '\0'});
	}
}

TEST(a_letter_is_escaped_at_every_place_of_words_of_any_length)
{
	enum { MOST = 20 };

	for (int byte = 1; byte < 0x80; byte++) {
		char letter = (char)byte;
		for (size_t length = 1; length <= MOST; length++) {
			char words[MOST + 1] = "";
			memset(words, 'a', length);
			words[(size_t)letter % length] = letter;
			check_words(words);
			words[length - 1] = letter;
			check_words(words);
		}
	}
}

TEST(letters_of_other_scripts_stand_as_they_are)
{
	check_words("Grüße, 救命浮環, e\xCC\x81, \xF0\x9F\x9B\x9F");
}

/* A code point as UTF-8 (RFC 3629, section 3). */
static char *
add_point(char *at, unsigned point)
{
	if (point < 0x80) {
		*at++ = (char)point;
	} else if (point < 0x800) {
		*at++ = (char)(0xC0 | point >> 6);
	} else if (point < 0x10000) {
		*at++ = (char)(0xE0 | point >> 12);
		*at++ = (char)(0x80 | (point >> 6 & 0x3F));
	} else {
		*at++ = (char)(0xF0 | point >> 18);
		*at++ = (char)(0x80 | (point >> 12 & 0x3F));
		*at++ = (char)(0x80 | (point >> 6 & 0x3F));
	}
	if (point >= 0x80) {
		*at++ = (char)(0x80 | (point & 0x3F));
	}
	return at;
}

TEST(words_drawn_at_random_are_written_as_jansson_writes_them)
{
	static const unsigned BELOW[] = {0x20, 0x80, 0x800, 0xD800, 0x110000};
	unsigned seed = 20261129;
	for (int i = 0; i < 20000; i++) {
		char words[4 * 24 + 1];
		char *at = words;
		for (int letter = i % 24; letter > 0; letter--) {
			unsigned point = draw(&seed, BELOW[draw(&seed, 5)]);
			bool surrogate = point >= 0xD800 && point <= 0xDFFF;
			at = add_point(at, point == 0 || surrogate ? '"' : point);
		}
		*at = '\0';
		check_words(words);
	}
}

TEST(words_that_are_no_utf8_are_written_as_json_all_the_same)
{
	SCOPED_TEXT out = {0};
	json_write(json_text("a\"\xC3(\xFF"), &out);
	assert_string_equal(text_string(&out), "\"a\\\"?(?\"");
}

static ANSWER_KEYS(KEYS, "an object", "list: of what", "yes", "no", "none", "words");

TEST(objects_and_arrays_keep_their_order_and_may_be_empty)
{
	SCOPED_TEXT out = {0};
	struct json list = json_list();
	json_push(list, json_list());
	json_push(list, json_begun());
	json_push(list, json_strings((const char *const[]){"z", "a"}, 2));
	json_write(JSON_OF(&KEYS, list, json_flag(true), json_flag(false), json_none(),
		       json_text("")),
	    &out);
	assert_string_equal(text_string(&out),
	    "{\"list\": [[], {}, [\"z\", \"a\"]], \"yes\": true, \"no\": false, "
	    "\"none\": null, \"words\": \"\"}");
	check_as_jansson(
	    JSON_PUT(JSON_PUT(json_begun(), &KEYS, JSON_NEXT, json_list(), json_none()),
		&KEYS, JSON_LAST, json_none(), json_begun(), json_text("x")));
}

TEST(whole_numbers_are_written_to_their_ends)
{
	static const int64_t NUMBERS[] = {0, -1, 42, LLONG_MAX, LLONG_MIN};
	SCOPED_TEXT out = {0};
	struct json list = json_list();
	for (size_t i = 0; i < sizeof NUMBERS / sizeof NUMBERS[0]; i++) {
		json_push(list, json_whole(NUMBERS[i]));
	}
	json_write(list, &out);
	assert_string_equal(
	    text_string(&out), "[0, -1, 42, 9223372036854775807, -9223372036854775808]");
}

RUN_TESTS(NULL, NULL)
