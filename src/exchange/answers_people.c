#include "exchange/answers.h"
#include "exchange/json_object.h"

static ANSWER_KEYS(PERSON_KEYS, "a person", "name", "right: look, record or manage");

const struct answer_keys *const KEYS_OF_PEOPLE[] = {&PERSON_KEYS, NULL};

void
answer_people(const char *const (*people)[2], size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		answer_element(&answer, JSON_OF(&PERSON_KEYS, json_text(people[i][0]),
					    json_text(people[i][1])));
	}
	answer_end(&answer);
}
