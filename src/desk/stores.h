/* On which vessel gear may be put: one that is there and has not left, or the spares at a
 * base, which are a vessel of their own. */
#ifndef BECKET_DESK_STORES_H
#define BECKET_DESK_STORES_H

#include "desk/desk.h"

/* FAULT_INPUT for a vessel that has left by today: nothing is put on her any more. */
MUST_CHECK bool left_check(
    const struct desk *desk, const struct vessel *vessel, struct fault *fault);

/* The same of the vessel with this name, which is NULL where none is asked for. */
MUST_CHECK bool left_check_named(
    const struct desk *desk, const char *vessel, struct fault *fault);

/* The same as left_check on a day. */
MUST_CHECK bool left_check_on(
    const struct vessel *vessel, day_t day, struct fault *fault);

/* FAULT_INPUT with the nearest name when the loaded book has no vessel of that name, and
 * when she has left. */
MUST_CHECK bool vessel_check(
    const struct desk *desk, const char *name, struct fault *fault);

/* The spares at a base. Starts as `{ 0 }`, which is none. */
struct store {
	const char *name; /* of the vessel that they are */
	const char *base;
	bool fresh; /* the book has none yet */
};

/* Finds them in the loaded book. FAULT_INPUT when nothing is known to lie at that
 * base. */
MUST_CHECK bool store_find(
    struct desk *desk, const char *base, struct store *out, struct fault *fault);

/* Writes those that are fresh, and nothing for others. */
MUST_CHECK bool store_make(
    struct desk *desk, const struct store *store, struct fault *fault);

/* FAULT_INPUT when an item, or a new one, would be on another vessel than `whole`, which
 * it is to be part of: a part comes ashore and is looked for with its whole. */
MUST_CHECK bool whole_check(const struct desk *desk, const char *tag, const char *vessel,
    const struct item *whole, struct fault *fault);

#endif
