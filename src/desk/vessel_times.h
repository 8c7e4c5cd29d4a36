/* From which day something said of a vessel holds, where no day was given: what was never told
 * is told since ever; what is told otherwise than before is a correction or a change, and that
 * is asked. The past stays as it was unless the person says that it was wrong. Only for files of
 * this room. */
#ifndef BECKET_DESK_VESSEL_TIMES_H
#define BECKET_DESK_VESSEL_TIMES_H

#include "desk/acts_fleet.h"

/* The changes to be written one after the other, in the desk's arena; those that have no day come
 * first. `known` is the vessel as the book has her, NULL for a new one. Where a change may be a
 * correction and the request says neither, that is the desk's question. */
MUST_CHECK bool vessel_times(struct desk *desk, const struct vessel *known,
    const struct vessel_request *request, const struct vessel_change **out,
    size_t *count_out, struct fault *fault);

#endif
