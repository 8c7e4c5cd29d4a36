/* Ranges of tags and serial numbers as they are typed: "LJ-1..LJ-10" is ten of them. */
#ifndef BECKET_DESK_RANGES_H
#define BECKET_DESK_RANGES_H

#include "base/words.h"
#include "desk/desk.h"

/* The most words one range may stand for. */
enum { RANGE_MOST = 1000 };

/* Cuts "A-1..A-3,B-7" into its words and adds them to `out`: lists by comma, ranges by
 * "..", whose two ends differ in their last digits only and go up; leading zeros are
 * kept. `what` leads a fault, as "TAG". A blank word is a fault. */
MUST_CHECK bool range_words(struct arena *arena, const char *what, const char *value,
    struct word_list *out, struct fault *fault);

/* The part of the book that such words are about: the vessels of that gear, `vessel`
 * where it is not NULL, and all that hangs together with them. For a desk's `about`; in
 * its arena. NULL where the words can't be read as ranges: a load of all of the book then
 * tells why. */
const struct book_part *range_part(
    struct desk *desk, const struct word_list *words, const char *vessel);

/* The part of the book with the gear of some tags and the lots it was split from or into,
 * which may share its serial number; NULL, for all of the book, where there is none. The
 * book is open. */
const struct book_part *lots_part(struct desk *desk, const struct word_list *tags);

/* The same for the gear that a word means as a tag, or else as a serial number; with
 * `past` as both, and for what once had that number. */
const struct book_part *bearers_part(struct desk *desk, const char *word, bool past);

/* ---- what gear that is to be entered, or gets another number, has to do with ---- */

/* The gear that is to be; all borrowed, and starts as `{ 0 }`. */
struct newcomers {
	const char *kind;      /* NULL: that of `lot` */
	const char *lot;       /* the tag of what they are split from; NULL for nothing */
	struct word_list tags; /* they are to have these */
	size_t fresh;          /* so many more get tags that are fresh for the kind */
	struct word_list serials; /* their serial numbers; "" for none */
	struct word_list with; /* tags, or ranges of them, of other gear that is named */
	const char *vessel;    /* NULL for none */
	const char *base;      /* where spares are; NULL for none */
};

/* For a desk's `about`, in its arena: the vessels and the gear that are named; the gear
 * whose tag or serial number, now or in the past, is the newcomers' or may be mistaken
 * for theirs; and the gear with the tag that the fresh tags follow. Checks of a new tag
 * or number find the same in this part as in all of the book. NULL, for all of the book,
 * where too much is near them. Reads every tag and number of the book. */
const struct book_part *newcomers_part(
    struct desk *desk, const struct newcomers *newcomers);

/* ---- tags in the book ---- */

/* Whether a piece in the book has just this tag; false too where the book can't be
 * opened, which what is done next tells. */
bool desk_has_tag(struct desk *desk, const char *tag);

/* The items whose tags or ranges of tags these are, as indices in the loaded contents. A
 * tag that comes twice is a fault. */
MUST_CHECK bool range_items(struct desk *desk, const struct word_list *words,
    size_t **items_out, size_t *count_out, struct fault *fault);

#endif
