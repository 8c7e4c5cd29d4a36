#include "exchange/answer_parts.h"
#include "exchange/answers.h"

void
answer_people(const char *const (*people)[2], size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		json_t *object = json_object();
		json_put_string(object, "name", people[i][0]);
		json_put_string(object, "right", people[i][1]);
		answer_element(&answer, object);
	}
	answer_end(&answer);
}
