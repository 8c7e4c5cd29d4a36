#include "exchange/answers.h"
#include "exchange/json_object.h"

static ANSWER_KEYS(ROW_KEYS, "a reminder",
    "uid: its identity, of which eight signs name it", "day: null of what was given up",
    "summary", "description", "station: where to; null when nowhere",
    "planned: on the day you chose for it",
    "given_up: why a hand-in was; null where it was not",
    "given_up_day: the day that it had");

const struct answer_keys *const KEYS_OF_REMIND[] = {&ROW_KEYS, NULL};

void
answer_remind(const struct reminder_row *rows, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		const struct reminder_row *row = &rows[i];
		answer_element(
		    &answer, JSON_OF(&ROW_KEYS, json_text(row->uid), json_day(row->day),
				 json_text(row->summary), json_text(row->description),
				 json_words(row->station), json_flag(row->planned),
				 json_words(row->given_up), json_day(row->given_up_day)));
	}
	answer_end(&answer);
}
