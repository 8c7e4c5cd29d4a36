/* What the book keeps of one piece beside its own dates: papers, and what the journal says. */
#ifndef BECKET_DESK_PIECE_H
#define BECKET_DESK_PIECE_H

#include "desk/desk.h"
#include "gear/paper.h"

/* The papers kept with a piece, in the desk's arena. Opens the book. */
MUST_CHECK bool desk_papers_of(struct desk *desk, const char *tag,
    const struct paper **out, size_t *count_out, struct fault *fault);

/* One paper by the book's number, and its bytes in place of what `bytes` held. FAULT_INPUT when
 * there is none. */
MUST_CHECK bool desk_paper(struct desk *desk, int64_t number, const struct paper **out,
    struct text *bytes, struct fault *fault);

/* What the journal says of a tag, a serial number, a vessel or a station; of everything when
 * `about` is NULL. The newest last. Opens the book. */
MUST_CHECK bool desk_journal(
    struct desk *desk, const char *about, struct journal *out, struct fault *fault);

#endif
