/* What is written of a value, beside what jansson's own writer makes of it. */
#include "becket_test.h"
#include "exchange/json_object.h"

#include <limits.h>
#include <stdlib.h>

/* Both writers' bytes of a value, which is freed. */
static void
check_as_jansson(json_t *value)
{
	SCOPED_TEXT out = {0};
	assert_non_null(value);
	char *theirs = json_dumps(value, 0);
	assert_non_null(theirs);
	json_write(value, &out);
	assert_string_equal(text_string(&out), theirs);
	free(theirs);
	json_decref(value);
}

TEST(every_letter_of_a_byte_is_escaped_as_jansson_escapes_it)
{
	for (char letter = 0; letter < CHAR_MAX; letter++) {
		char words[] = {'a', letter, 'b', letter, '\0'};
		json_t *value = json_array();
		json_push(value, json_stringn(words, 4));
		check_as_jansson(value);
	}
}

TEST(letters_of_other_scripts_stand_as_they_are)
{
	check_as_jansson(
	    json_pack("{s:s}", "Grüße", "救命浮環, e\xCC\x81, \xF0\x9F\x9B\x9F"));
}

TEST(objects_and_arrays_keep_their_order_and_may_be_empty)
{
	check_as_jansson(json_pack("{s:[{s:[],s:{}},s],s:b,s:b,s:n}", "list", "z", "a",
	    "", "yes", 1, "no", 0, "none"));
}

TEST(whole_numbers_are_written_to_their_ends)
{
	static const json_int_t NUMBERS[] = {0, -1, 42, LLONG_MAX, LLONG_MIN};
	json_t *value = json_array();
	for (size_t i = 0; i < sizeof NUMBERS / sizeof NUMBERS[0]; i++) {
		json_push(value, json_integer(NUMBERS[i]));
	}
	check_as_jansson(value);
}

RUN_TESTS(NULL, NULL)
