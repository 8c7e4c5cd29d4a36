/* Ranges of tags and serial numbers as they are typed: "LJ-1..LJ-10" is ten of them. */
#ifndef BECKET_DESK_RANGES_H
#define BECKET_DESK_RANGES_H

#include "base/words.h"
#include "desk/desk.h"

/* The most words one range may stand for. */
enum { RANGE_MOST = 1000 };

/* Cuts "A-1..A-3,B-7" into its words and adds them to `out`: lists by comma, ranges by "..", whose two ends differ
 * in their last digits only and go up; leading zeros are kept. `what` leads a fault, as "TAG". A blank word is a fault. */
MUST_CHECK bool range_words(struct arena *arena, const char *what, const char *value,
    struct word_list *out, struct fault *fault);

/* The part of the book that such words are about: the vessels of that gear, one more where it is
 * named, and whatever hangs together with them. For a desk's `about`; in its arena. NULL where the words
 * can't be read so: then all of the book tells why. */
const struct book_part *range_part(
    struct desk *desk, const struct word_list *words, const char *vessel);

/* The part of the book with all gear that such a word may mean as a tag or a serial number, and with
 * `past` where a thing of that number once was; as range_part has it. NULL, for all of the book, where
 * there is none. */
const struct book_part *bearers_part(struct desk *desk, const char *word, bool past);

/* Whether a piece in the book has just this tag; false too where the book can't be opened, which what
 * is done next tells. */
bool desk_has_tag(struct desk *desk, const char *tag);

/* The items whose tags or ranges of tags these are, as indices in the loaded contents. A tag
 * that comes twice is a fault. */
MUST_CHECK bool range_items(struct desk *desk, const struct word_list *words,
    size_t **items_out, size_t *count_out, struct fault *fault);

#endif
