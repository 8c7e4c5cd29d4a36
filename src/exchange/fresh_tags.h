/* Tags for items that have none: letters for the kind and the next number. Inside the
 * exchange room only. */
#ifndef BECKET_EXCHANGE_FRESH_TAGS_H
#define BECKET_EXCHANGE_FRESH_TAGS_H

#include "base/memory.h"
#include "gear/item.h"

enum { LETTERS_SIZE = 8 };

/* The highest number used with some letters. */
struct series {
	char letters[LETTERS_SIZE];
	long last;
};

/* Starts as `{ 0 }`; free with numbers_clear. */
struct numbers {
	struct series *items; /* owned */
	size_t count;
	size_t capacity;
};

void numbers_clear(struct numbers *numbers);

/* Counts a tag of the shape "LR-12"; any other can't clash with a fresh one. */
MUST_CHECK bool numbers_count(struct numbers *numbers, const char *tag);

/* Counts every tag in the book. */
MUST_CHECK bool numbers_count_book(
    struct numbers *numbers, const struct inventory *inventory);

/* Makes the next tag for a kind, in `arena`, and counts it. */
MUST_CHECK bool numbers_next(
    struct numbers *numbers, const char *kind, struct arena *arena, const char **tag_out);

#define SCOPED_NUMBERS __attribute__((cleanup(numbers_clear))) struct numbers

#endif
