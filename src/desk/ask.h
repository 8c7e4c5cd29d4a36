/* What the questions share. Inside the desk room only. */
#ifndef BECKET_DESK_ASK_H
#define BECKET_DESK_ASK_H

#include "desk/questions.h"

/* Loads the book anew for a question, so that it is as it was written last and no earlier question
 * has changed what is seen of it, and makes the engine ready. `vessel` as desk_load has it. */
MUST_CHECK bool ask_begin(
    struct desk *desk, const char *vessel, enum left_gear left, struct fault *fault);

#endif
