/* Serial numbers asked about before they are written: the same one twice, two that differ
 * in one character, and one that was condemned. */
#ifndef BECKET_DESK_SERIAL_CHECK_H
#define BECKET_DESK_SERIAL_CHECK_H

#include "desk/desk.h"
#include "life/serials.h"

/* What a person said of them beforehand. */
struct serial_said {
	bool right; /* however alike they are */
	bool again; /* what was condemned goes back aboard */
};

/* Looks for entries that should be asked about, among themselves and in the loaded book.
 * What was neither said nor answered is FAULT_INPUT, and the desk's question. */
MUST_CHECK bool serials_check(struct desk *desk, const struct serial_entry *entries,
    size_t count, struct serial_said said, struct fault *fault);

#endif
