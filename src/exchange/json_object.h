/* JSON built through jansson and written element by element, so that a long answer needs
 * little memory. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_JSON_OBJECT_H
#define BECKET_EXCHANGE_JSON_OBJECT_H

#include "base/text.h"
#include "dates/stamp.h"
#include "exchange/answer_keys.h"

#include <jansson.h>

/* An array being written. Starts as `{ .out = out }`. */
struct answer {
	struct text *out; /* borrowed */
	bool begun;       /* an element was written */
};

/* Adds a value under a key and takes it over; NULL, as the library gives where memory ran out,
 * ends the program. */
void json_put(json_t *object, const char *key, json_t *value);

/* A string; null when it is empty or NULL. */
void json_put_words(json_t *object, const char *key, const char *words);

/* A string, "" when it is NULL. */
void json_put_string(json_t *object, const char *key, const char *string);

void json_put_bool(json_t *object, const char *key, bool value);

/* A number; null when it is `none`. */
void json_put_number(json_t *object, const char *key, int64_t value, int64_t none);

/* A day as "2027-06-30"; null for DAY_NONE and DAY_NEVER. */
void json_put_day(json_t *object, const char *key, day_t day);

/* A stamp as written: "2027-06", "before 2027-06"; null when there is none. */
void json_put_stamp(json_t *object, const char *key, struct stamp stamp);

/* Adds a value to an array and takes it over; NULL as above. */
void json_push(json_t *array, json_t *value);

/* A row of struct answer_keys. */
#define KEYS(of, rows)                                                                   \
	{                                                                                \
		(of), (rows), sizeof(rows) / sizeof(rows)[0]                             \
	}

/* The object, which has just these keys in their order, or the program stops. */
json_t *json_keyed(json_t *object, const struct answer_keys *keys);

/* Writes one value and a newline, and frees it. */
void answer_value(struct text *out, json_t *value);

/* Writes an array, element by element, and frees each; end it with answer_end. */
void answer_element(struct answer *answer, json_t *value);
void answer_end(struct answer *answer);

#endif
