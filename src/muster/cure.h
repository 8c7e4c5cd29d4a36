/* Inside the muster room: the cure of one vessel. Not for other rooms. */
#ifndef BECKET_MUSTER_CURE_H
#define BECKET_MUSTER_CURE_H

#include "muster/count.h"

/* Fills one vessel's cure from what is not taken, and takes it; with `wholly` only when that
 * leaves no shortage. `muster` is hers with what is given; `taken` counts pieces by item of the
 * inventory. */
MUST_CHECK bool cure_one(const struct due_engine *engine, struct muster *muster,
    struct cure_given given, bool wholly, int *taken, struct arena *arena,
    struct fault *fault);

#endif
