/* What the book keeps of one piece beside its own dates, without reading the book anew. */
#ifndef BECKET_DESK_PIECE_H
#define BECKET_DESK_PIECE_H

#include "desk/desk.h"
#include "gear/paper.h"

/* The papers kept with a piece, in the desk's arena. Opens the book. */
MUST_CHECK bool desk_papers_of(struct desk *desk, const char *tag,
    const struct paper **out, size_t *count_out, struct fault *fault);

#endif
