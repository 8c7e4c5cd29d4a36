/* Hand-ins given out: read for a plan, and kept once a calendar or a paper has them. */
#ifndef BECKET_DESK_SETTLING_H
#define BECKET_DESK_SETTLING_H

#include "desk/desk.h"
#include "winter/winter.h"

/* True when both are the same hand-in: of one owner, winter, station and number. */
bool settling_is_same(const struct settled_hand_in *a, const struct settled_hand_in *b);

/* Loads what was given out, each with the day a person has chosen for it since, or why it was
 * given up; one that was
 * chosen and never given out, too. In the desk's arena. */
MUST_CHECK bool settling_load(struct desk *desk, struct settled_hand_in **out,
    size_t *count_out, struct fault *fault);

/* Has the loaded rows of boats in use all year as their shore lists have them now: on the day that is
 * kept, or to which it has moved, with the pieces that are on it. */
void settling_as_listed(struct desk *desk, const struct shore_list *lists, size_t count,
    struct settled_hand_in *rows, size_t row_count);

/* Which hand-ins are given out, all of them with all NULL, and by what. */
struct settling_which {
	const char *key;    /* only the one with this reminder's key */
	const char *vessel; /* only those with gear of this vessel */
	const char *base;   /* only those with gear of a vessel of this base */
	enum given_by by;   /* by what */
	bool rotas; /* only those of boats in use all year that were given out before */
};

/* Keeps the hand-ins of the whole fleet's shore lists as given out, what has not changed
 * and what is given out from a later day on, excepted. The book must be open for writing. */
MUST_CHECK bool settling_keep(struct desk *desk, const struct shore_list *lists,
    size_t count, const struct settling_which *which, struct fault *fault);

/* Takes back the hand-ins to a station that were given up with any of some gear on them, which is
 * landed there now, and notes it. The book must be open for writing. */
MUST_CHECK bool settling_landed(struct desk *desk, const char *station,
    const size_t *items, size_t count, struct fault *fault);

#endif
