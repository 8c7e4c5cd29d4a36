/* Digests of strings. Private to this room. */
#ifndef BECKET_CALENDAR_DIGEST_H
#define BECKET_CALENDAR_DIGEST_H

#include "base/text.h"

/* Fills `digest_out` with `size` bytes (16 to 64) of a digest (BLAKE2b) in which no string
 * can run into the next: each is hashed with its final zero. */
void digest_make(
    const char *const *strings, size_t count, unsigned char *digest_out, size_t size);

/* Adds a digest of 16 bytes as 32 hexadecimal digits. */
void digest_add(const char *const *strings, size_t count, struct text *out);

#endif
