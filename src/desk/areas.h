/* The words sheets have for areas. */
#ifndef BECKET_DESK_AREAS_H
#define BECKET_DESK_AREAS_H

#include "desk/desk.h"

/* A remark when the sheets of a vessel speak of areas, but not of hers: what they ask in an
 * area would not be asked of her. `area` is the one just entered. */
MUST_CHECK bool areas_note(struct desk *desk, const struct vessel *vessel,
    const char *area, struct fault *fault);

/* Puts a typed area as the sheets of a vessel have it, found as naming_among finds names; as it was
 * typed where none of them has it. */
MUST_CHECK bool areas_settle(struct desk *desk, const struct vessel *vessel,
    const char **area, struct fault *fault);

#endif
