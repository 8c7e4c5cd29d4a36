/* Dockets of a fleet whose gear comes some boats at a time: what is told of each docket,
 * without its pieces, which are kept elsewhere in the dockets' order. Pure. */
#ifndef BECKET_WINTER_DOCKET_HEADS_H
#define BECKET_WINTER_DOCKET_HEADS_H

#include "winter/dockets.h"

/* Starts as `{ 0 }`; free with docket_heads_clear. */
struct docket_heads {
	struct docket *items; /* owned, as the names of their stations */
	size_t count;
	size_t capacity;
	size_t last; /* the one that was found last */
	struct arena arena;
};

void docket_heads_clear(struct docket_heads *heads);

/* Adds a docket of some boats; its pieces are not kept. */
void docket_heads_add(struct docket_heads *heads, const struct docket *docket);

/* Once all are added: makes one of those of the same station and day, and sorts them: what is
 * ashore already first, then by day and station. */
void docket_heads_join(struct docket_heads *heads);

/* What one vessel's pieces in a docket are kept by, a number and then a word, so that they
 * stand in the dockets' order, and in each by her place in the book. */
int64_t docket_key(const struct docket *docket);
void docket_word(const struct docket *docket, size_t place, struct text *out);

/* The docket, joined, of which such pieces are. */
const struct docket *docket_heads_of(
    struct docket_heads *heads, int64_t key, const char *word);

#endif
