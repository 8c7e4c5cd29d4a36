/* Compressing what is sent, through zlib. Inside the web room only. */
#ifndef BECKET_WEB_GZIP_H
#define BECKET_WEB_GZIP_H

#include "base/text.h"

/* Adds the bytes as one gzip member (RFC 1952) without time and name, so that the same bytes
 * give the same member. FAULT_MEMORY, and `out` as it was, when memory ran out. */
MUST_CHECK bool gzip_add(
    const char *bytes, size_t length, struct text *out, struct fault *fault);

#endif
