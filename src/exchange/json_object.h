/* JSON built through jansson and written element by element, so that a long answer needs
 * little memory. An object is made of its values, in the order of its table of keys, so that no key
 * is written that is not told. Inside the exchange room, and for an answer of cli's own. */
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

/* Values, beside the library's own json_integer, json_boolean, json_null and, where there are
 * words for certain, json_string. One that is NULL, as the library gives where memory ran out,
 * ends the program when it is put into an object or an array. */

/* A string; null when it is empty or NULL. */
json_t *json_words(const char *words);

/* A string, "" when it is NULL. */
json_t *json_text(const char *text);

/* A number; null when it is `none`. */
json_t *json_number(int64_t value, int64_t none);
json_t *json_count(size_t count);

/* A day as "2027-06-30"; null for DAY_NONE and DAY_NEVER. */
json_t *json_day(day_t day);

/* A stamp as written: "2027-06", "before 2027-06"; null when there is none. */
json_t *json_stamp(struct stamp stamp);

json_t *json_strings(const char *const *strings, size_t count);

/* The words of the tasks whose bits are set. */
json_t *json_tasks(unsigned tasks);

/* Adds a value to an array and takes it over. */
void json_push(json_t *array, json_t *value);

/* A table of keys, as struct answer_keys has them; for ANSWER_FIELDS they hold KEYS_OF_FIELDS. */
#define ANSWER_FIELDS(object, of, field, ...)                                            \
	const struct answer_keys object = {(of), (const char *const[]){__VA_ARGS__},     \
	    sizeof(const char *const[]){__VA_ARGS__} / sizeof(const char *), (field)}
#define ANSWER_KEYS(object, of, ...) ANSWER_FIELDS(object, of, NULL, __VA_ARGS__)

/* How values stand to the keys of a table. */
enum json_which {
	JSON_NEXT, /* of the keys after those that are there */
	JSON_LAST, /* of all the rest */
	JSON_SOME, /* as the last, but a key whose value is null is left out */
};

/* Puts values under keys of a table and takes them over, or stops the program where their number is
 * not that of the keys. Returns the object. */
json_t *json_put(json_t *object, const struct answer_keys *keys, enum json_which which,
    json_t *const *values, size_t count);
#define JSON_PUT(object, keys, which, ...)                                               \
	json_put((object), (keys), (which), (json_t *const[]){__VA_ARGS__},              \
	    sizeof(json_t *const[]){__VA_ARGS__} / sizeof(json_t *))

/* A new object of values, one for each key of its table. */
#define JSON_OF(keys, ...) JSON_PUT(json_object(), keys, JSON_LAST, __VA_ARGS__)

/* Puts the fields of `of`, the struct their offsets are in, under their keys. Returns the object. */
json_t *json_put_fields(json_t *object, const struct answer_keys *keys, const void *of);

/* What a field holds; of a stamp its day. */
json_t *json_field(const struct field *field, const void *of);

/* Adds a value as jansson's json_dumps does without flags; a number that is no whole one as null. */
void json_write(json_t *value, struct text *out);

/* Writes one value and a newline, and frees it. */
void answer_value(struct text *out, json_t *value);

/* Writes an array, element by element, and frees each; end it with answer_end. */
void answer_element(struct answer *answer, json_t *value);
void answer_end(struct answer *answer);

#endif
