/* The keys of answers in JSON, in their order, with what stands under each where the name does not
 * say it: what is written is held to them, and help tells them. Programs rely on them: keys may be
 * added, none goes or is called otherwise. */
#ifndef BECKET_EXCHANGE_ANSWER_KEYS_H
#define BECKET_EXCHANGE_ANSWER_KEYS_H

#include <stddef.h>

struct answer_key {
	const char *name;
	const char *meaning; /* lower case, no full stop; NULL where the name says all */
};

/* The keys of one sort of object. */
struct answer_keys {
	const char *of; /* "a line" */
	const struct answer_key *items;
	size_t count;
};

/* Those of an answer: the outermost object first, a zeroed one last. */
extern const struct answer_keys KEYS_OF_DUE[];
extern const struct answer_keys KEYS_OF_MUSTER[];
extern const struct answer_keys KEYS_OF_BOOKINGS[];
extern const struct answer_keys KEYS_OF_WINTER[];
extern const struct answer_keys KEYS_OF_ROTA[];
extern const struct answer_keys KEYS_OF_REMIND[];
extern const struct answer_keys KEYS_OF_YEARS[];

#endif
