/* Hand-ins that a person gave up for their winter. Only for files of this room. */
#ifndef BECKET_DESK_GIVEN_UP_H
#define BECKET_DESK_GIVEN_UP_H

#include "desk/remind.h"

/* Finds what was given up by its station or by how its identity begins, to take it back;
 * `*found_out` false where none is meant. More than one is FAULT_INPUT. */
MUST_CHECK bool given_up_find(struct desk *desk, const char *name,
    struct planned_day *out, bool *found_out, struct fault *fault);

/* Lists what was given up for a winter that is not over, in the desk's arena. */
MUST_CHECK bool given_up_list(struct desk *desk, const struct reminder_choices *choices,
    struct given_up **out, size_t *count_out, struct fault *fault);

#endif
