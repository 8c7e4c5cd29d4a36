/* Ranges of tags and serial numbers on the command line: "LJ-1..LJ-10" is ten of them. */
#ifndef BECKET_CLI_RANGES_H
#define BECKET_CLI_RANGES_H

#include "cli/context.h"

struct word_range {
	const char **items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* The word of a command that is about any number of items. */
#define ITEMS_WORD(range)                                                                \
	{                                                                                \
		.name = "TAG", .help = "the items; " range " is eight of them",          \
		.required = true, .repeatable = true                                     \
	}

/* The most words one range may stand for. */
enum { RANGE_MOST = 1000 };

/* Cuts "A-1..A-3,B-7" into its words: lists by comma, ranges by "..", whose two ends differ
 * in their last digits only and go up; leading zeros are kept. `what` names the option in a
 * fault, as "--tag". A blank word is a fault. */
MUST_CHECK bool range_words(struct arena *arena, const char *what, const char *value,
    struct word_range *out, struct fault *fault);

/* The items whose tags or ranges of tags are the words of the command line from `first` on,
 * as indices in the loaded contents. A tag that comes twice is a fault. */
MUST_CHECK bool range_items(struct context *context, size_t first, size_t **items_out,
    size_t *count_out, struct fault *fault);

/* Answers about one item after the other: text with a blank line between two, JSON as one item's
 * own answer, or an array of them where the command line names several. `each` adds one. */
MUST_CHECK bool range_answer(struct context *context, const size_t *items, size_t count,
    bool (*each)(
	struct context *context, size_t item, const void *asked, struct fault *fault),
    const void *asked, struct fault *fault);

#endif
