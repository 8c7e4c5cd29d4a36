/* What a newer program, or other rule sheets, changed: told once. desk/reckoning.h has
 * the whole of it. */
#ifndef BECKET_DESK_UPGRADING_H
#define BECKET_DESK_UPGRADING_H

#include "desk/desk.h"
#include "gear/reckoned.h"

/* Called when a book was opened for writing. When its dates were reckoned by other
 * figures or meanings, finds which moved, keeps that in the journal and the new dates in
 * the book, leaves it in desk->upgrade and adds it to the remarks. Where that can't be
 * done, desk->behind is set and it stays to be done. */
void upgrading_open(struct desk *desk);

/* Adds a remark when a command that only reads gave dates that an upgrade may have
 * moved. */
void upgrading_remark(struct desk *desk);

/* Finds what upgrading_open would tell, and writes nothing; *out is NULL when there is
 * nothing to be told. In desk->arena. */
MUST_CHECK bool upgrading_find(
    struct desk *desk, const struct upgrade **out, struct fault *fault);

#endif
