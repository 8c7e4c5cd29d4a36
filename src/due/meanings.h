/* What dates mean, by number: so that a book can tell that it was last reckoned by a program that
 * read its records otherwise.
 *
 * Figures are in the kinds and sheets, of which a digest tells when they change. What this room
 * makes of them is told by this list alone. **When a change of this room moves a date of anyone's,
 * add a sentence at the end of DUE_MEANINGS**; never take one out or change what one means. The
 * number a program reckons by is how many there are. */
#ifndef BECKET_DUE_MEANINGS_H
#define BECKET_DUE_MEANINGS_H

#include <stddef.h>

/* Each a sentence without capital and full stop, for people: what is read otherwise since. */
extern const char *const DUE_MEANINGS[];
extern const size_t DUE_MEANING_COUNT;

#endif
