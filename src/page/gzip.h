/* Compressing what is sent, through zlib. Inside the page room only. */
#ifndef BECKET_PAGE_GZIP_H
#define BECKET_PAGE_GZIP_H

#include "base/text.h"

/* Adds the bytes as one gzip member (RFC 1952) without time and name, so that the same bytes
 * give the same member. */
void gzip_add(const char *bytes, size_t length, struct text *out);

#endif
