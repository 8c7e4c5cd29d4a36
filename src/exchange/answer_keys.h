/* The keys of answers in JSON, in their order, a table for each sort of object. What is
 * written takes its keys from there (json_object.h), and help tells them. Programs rely
 * on them: keys may be added, none goes or is called otherwise. */
#ifndef BECKET_EXCHANGE_ANSWER_KEYS_H
#define BECKET_EXCHANGE_ANSWER_KEYS_H

#include "gear/fields.h"

#include <stddef.h>

/* In a table of keys: the fields of a thing, which have their keys in a table of their own. */
#define KEYS_OF_FIELDS ""

/* The keys of one sort of object. */
struct answer_keys {
	const char *of; /* "a line" */
	/* each "due", or "due: its last good day" with what stands under it where the
	 * name does not say all: lower case, no full stop */
	const char *const *items;
	size_t count;
	/* the fields meant by KEYS_OF_FIELDS, except for those with a key before it: the
	 * nth from 0 on, NULL after the last */
	const struct field *(*field)(size_t nth);
};

/* The keys that a field has: one, and for a stamp a second with what the label says. They
 * are written to `written`; returns how many. */
enum { FIELD_KEY_SIZE = 64 };

size_t field_keys(const struct field *field, char written[2][FIELD_KEY_SIZE]);

/* Those of an answer: the outermost object first, NULL last. */
extern const struct answer_keys *const KEYS_OF_BOOK_CHECK[];
extern const struct answer_keys *const KEYS_OF_BOOKED[];
extern const struct answer_keys *const KEYS_OF_BOOKINGS[];
extern const struct answer_keys *const KEYS_OF_CAME_BACK[];
extern const struct answer_keys *const KEYS_OF_COMPARED_GEAR[];
extern const struct answer_keys *const KEYS_OF_COMPARED_RULES[];
extern const struct answer_keys *const KEYS_OF_DOCKETS[];
extern const struct answer_keys *const KEYS_OF_DUE[];
extern const struct answer_keys *const KEYS_OF_FIRST_WORD[];
extern const struct answer_keys *const KEYS_OF_HISTORY[];
extern const struct answer_keys *const KEYS_OF_JOURNAL[];
extern const struct answer_keys *const KEYS_OF_LINE[];
extern const struct answer_keys *const KEYS_OF_LIST[];
extern const struct answer_keys *const KEYS_OF_MUSTER[];
extern const struct answer_keys *const KEYS_OF_PAPERS[];
extern const struct answer_keys *const KEYS_OF_PEOPLE[];
extern const struct answer_keys *const KEYS_OF_PUSH[];
extern const struct answer_keys *const KEYS_OF_REMIND[];
extern const struct answer_keys *const KEYS_OF_ROTA[];
extern const struct answer_keys *const KEYS_OF_SHEET[];
extern const struct answer_keys *const KEYS_OF_SHEET_CHECK[];
extern const struct answer_keys *const KEYS_OF_SHEETS[];
extern const struct answer_keys *const KEYS_OF_SHOW[];
extern const struct answer_keys *const KEYS_OF_SPENT[];
extern const struct answer_keys *const KEYS_OF_STATIONS[];
extern const struct answer_keys *const KEYS_OF_SUPPOSE[];
extern const struct answer_keys *const KEYS_OF_UPGRADE[];
extern const struct answer_keys *const KEYS_OF_VESSELS[];
extern const struct answer_keys *const KEYS_OF_WHERE[];
extern const struct answer_keys *const KEYS_OF_WHY[];
extern const struct answer_keys *const KEYS_OF_WINTER[];
extern const struct answer_keys *const KEYS_OF_YEARS[];

#endif
