/* JSON written from values, with no tree between: a value is a word, a number or a day
 * that is borrowed until it is put into an object or an array, which are the bytes that
 * they will be. An object is made of its values, in the order of its table of keys, so
 * that no key is written that is not told. A long answer is written element by element.
 * Inside the exchange room, and for an answer of cli's own. */
#ifndef BECKET_EXCHANGE_JSON_OBJECT_H
#define BECKET_EXCHANGE_JSON_OBJECT_H

#include "base/text.h"
#include "dates/stamp.h"
#include "exchange/answer_keys.h"

#include <stdint.h>

enum json_is {
	JSON_IS_NONE,
	JSON_IS_FLAG, /* in `number` */
	JSON_IS_NUMBER,
	JSON_IS_WORDS,
	JSON_IS_DAY,
	JSON_IS_STAMP,
	JSON_IS_OBJECT, /* in `made`, as the next */
	JSON_IS_ARRAY,
};

/* An object or an array: its bytes but for the last. */
struct json_made {
	struct text text;
	size_t next; /* of an object: how many keys of its table are done with */
};

/* A value. What is `made` is owned by it until it is put, pushed or written, once. */
struct json {
	enum json_is is;

	union {
		int64_t number;
		const char *words; /* UTF-8; borrowed, as all words that are given here */
		day_t day;
		struct stamp stamp;
		struct json_made *made;
	};
};

/* An array being written. Starts as `{ .out = out }`. */
struct answer {
	struct text *out; /* borrowed */
	bool begun;       /* an element was written */
};

/* null, true or false, a whole number. */
struct json json_none(void);
struct json json_flag(bool flag);
struct json json_whole(int64_t number);

/* A string; null when it is empty or NULL. */
struct json json_words(const char *words);

/* A string, "" when it is NULL. */
struct json json_text(const char *text);

/* A number; null when it is `none`. */
struct json json_number(int64_t value, int64_t none);
struct json json_count(size_t count);

/* A day as "2027-06-30"; null for DAY_NONE and DAY_NEVER. */
struct json json_day(day_t day);

/* A stamp as written: "2027-06", "before 2027-06"; null when there is none. */
struct json json_stamp(struct stamp stamp);

struct json json_strings(const char *const *strings, size_t count);

/* The words of the tasks whose bits are set. */
struct json json_tasks(unsigned tasks);

/* An array without elements yet, and one element more. */
struct json json_list(void);
void json_push(struct json array, struct json value);

/* A table of keys, as struct answer_keys has them; for ANSWER_FIELDS they hold
 * KEYS_OF_FIELDS. */
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

/* An object without keys yet. */
struct json json_begun(void);

/* Puts values under keys of a table, or stops the program where their number is not that
 * of the keys. Returns the object. */
struct json json_put(struct json object, const struct answer_keys *keys,
    enum json_which which, const struct json *values, size_t count);
#define JSON_PUT(object, keys, which, ...)                                               \
	json_put((object), (keys), (which), (const struct json[]){__VA_ARGS__},          \
	    sizeof(const struct json[]){__VA_ARGS__} / sizeof(struct json))

/* A new object of values, one for each key of its table. */
#define JSON_OF(keys, ...) JSON_PUT(json_begun(), keys, JSON_LAST, __VA_ARGS__)

/* Puts the fields of `of`, the struct their offsets are in, under their keys. Returns the
 * object. */
struct json json_put_fields(
    struct json object, const struct answer_keys *keys, const void *of);

/* What a field holds; of a stamp its day. */
struct json json_field(const struct field *field, const void *of);

/* Adds a value as RFC 8259 has it, ", " and ": " between, and frees what it is made of.
 * Words stand as they are, but for what may not. */
void json_write(struct json value, struct text *out);

/* Adds a key with what stands before it, of which an object's first one has its bracket, and
 * between it and its value. */
void json_write_key(bool first, const char *name, size_t length, struct text *out);

/* The keys of a table as they are written, one behind the other: made once for all rows of a long
 * answer. Starts as `{ 0 }`. */
enum { JSON_KEYS_MOST = 24 };

struct json_keys {
	struct text bytes;           /* owned */
	size_t ends[JSON_KEYS_MOST]; /* where each ends in these */
	size_t count;
};

void json_keys_make(const struct answer_keys *keys, struct json_keys *out);
void json_keys_clear(struct json_keys *keys);

#define SCOPED_JSON_KEYS __attribute__((cleanup(json_keys_clear))) struct json_keys

/* Writes an object of values, one for each key of its table, or stops the program where
 * their number is not that of the keys. */
void json_write_object(struct text *out, const struct json_keys *keys,
    const struct json *values, size_t count);
#define JSON_WRITE(out, keys, ...)                                                       \
	json_write_object((out), (keys), (const struct json[]){__VA_ARGS__},             \
	    sizeof(const struct json[]){__VA_ARGS__} / sizeof(struct json))

/* Writes one value and a newline. */
void answer_value(struct text *out, struct json value);

/* Writes an array, element by element, or one that json_write has written; end it with
 * answer_end. */
void answer_element(struct answer *answer, struct json value);
void answer_written(struct answer *answer, const char *bytes, size_t length);
void answer_end(struct answer *answer);

/* An object being written whose lists are filled from what was kept. Starts as
 * `{ .left = frame, .out = out }`, the frame being the object with its lists empty. */
struct frame_filling {
	const char *left; /* what of it is not written yet */
	struct text *out;
	bool any; /* the list at hand has elements */
};

/* Writes it up to inside its next empty list, which there is. */
void frame_begin_list(struct frame_filling *filling);

/* The next empty list of an object; not one that stands in words. */
const char *frame_next_list(const char *at);

#endif
