#include "web/gzip.h"

#include <limits.h>
#include <stdlib.h>
#define ZLIB_CONST
#include <zlib.h>

/* zlib's largest window, and 16 for a gzip header about it. */
enum { GZIP_WINDOW = 15 + 16, MEMORY_LEVEL = 8 };

bool
gzip_add(const char *bytes, size_t length, struct text *out, struct fault *fault)
{
	z_stream stream = {0};
	if (length > UINT_MAX / 2 ||
	    deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, GZIP_WINDOW,
		MEMORY_LEVEL, Z_DEFAULT_STRATEGY) != Z_OK) {
		return fault_memory(fault);
	}
	size_t room = deflateBound(&stream, length);
	char *packed = malloc(room);
	bool done = packed != NULL;
	if (done) {
		stream.next_in = (const Bytef *)bytes;
		stream.avail_in = (uInt)length;
		stream.next_out = (Bytef *)packed;
		stream.avail_out = (uInt)room;
		done = deflate(&stream, Z_FINISH) == Z_STREAM_END;
	}
	if (done) {
		text_add_bytes(out, packed, stream.total_out);
		done = !out->failed;
	}
	free(packed);
	(void)deflateEnd(&stream);
	return done || fault_memory(fault);
}
