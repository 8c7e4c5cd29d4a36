/* Any bytes as the words of an answer: what is written as JSON is JSON (RFC 8259, as
 * jansson reads it), and holds the words. The program reads no JSON; what it writes of is
 * UTF-8, as all text is in a book. */
#include "exchange/json_object.h"

#include <jansson.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

static ANSWER_KEYS(PAIR_KEYS, "a pair", "string", "words");

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	SCOPED_TEXT words = {0};
	SCOPED_TEXT out = {0};
	struct answer answer = {.out = &out};
	text_add_bytes(&words, (const char *)data, strnlen((const char *)data, size));
	if (!utf8_valid(text_string(&words), words.length)) {
		return 0;
	}
	answer_element(&answer, JSON_OF(&PAIR_KEYS, json_text(text_string(&words)),
				    json_words(text_string(&words))));
	answer_end(&answer);
	json_t *read = json_loadb(text_string(&out), out.length, 0, NULL);
	json_t *element = json_array_get(read, 0);
	const char *string = json_string_value(json_object_get(element, "string"));
	bool blank = json_is_null(json_object_get(element, "words"));
	if (string == NULL || strcmp(string, text_string(&words)) != 0 ||
	    blank != (words.length == 0)) {
		abort();
	}
	json_decref(read);
	return 0;
}
