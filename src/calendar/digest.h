/* Digests of strings. Private to this room. */
#ifndef BECKET_CALENDAR_DIGEST_H
#define BECKET_CALENDAR_DIGEST_H

#include "base/text.h"

/* Fills `digest_out` with `size` bytes (16 to 64) of a digest (BLAKE2b) in which no string
 * can run into the next: each is hashed with its final zero. */
MUST_CHECK bool digest_make(const char *const *strings, size_t count,
    unsigned char *digest_out, size_t size, struct fault *fault);

/* Adds a digest of 16 bytes as 32 hexadecimal digits. */
MUST_CHECK bool digest_add(
    const char *const *strings, size_t count, struct text *out, struct fault *fault);

#endif
