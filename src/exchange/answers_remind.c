#include "exchange/answers.h"
#include "exchange/json_object.h"

static const struct answer_key ROW_KEYS[] = {
    {"uid", "its identity, of which eight signs name it"},
    {"day", "null of what was given up"}, {"summary", NULL}, {"description", NULL},
    {"station", "where to; null when nowhere"},
    {"planned", "on the day you chose for it"},
    {"given_up", "why a hand-in was; null where it was not"},
    {"given_up_day", "the day that it had"}};

const struct answer_keys KEYS_OF_REMIND[] = {KEYS("a reminder", ROW_KEYS), {0}};

void
answer_remind(const struct reminder_row *rows, size_t count, struct text *out)
{
	struct answer answer = {.out = out};
	for (size_t i = 0; i < count; i++) {
		const struct reminder_row *row = &rows[i];
		json_t *object = json_object();
		json_put_string(object, "uid", row->uid);
		json_put_day(object, "day", row->day);
		json_put_string(object, "summary", row->summary);
		json_put_string(object, "description", row->description);
		json_put_words(object, "station", row->station);
		json_put_bool(object, "planned", row->planned);
		json_put_words(object, "given_up", row->given_up);
		json_put_day(object, "given_up_day", row->given_up_day);
		answer_element(&answer, json_keyed(object, KEYS_OF_REMIND));
	}
	answer_end(&answer);
}
