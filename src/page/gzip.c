#include "base/memory.h"
#include "page/routes.h"

#include <limits.h>
#include <stdlib.h>
#define ZLIB_CONST
#include <assert.h>
#include <zlib.h>

/* zlib's largest window, and 16 for a gzip header about it. */
enum { GZIP_WINDOW = 15 + 16, MEMORY_LEVEL = 8 };

void
gzip_add(const char *bytes, size_t length, struct text *out)
{
	z_stream stream = {0};
	if (length > UINT_MAX / 2 ||
	    deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, GZIP_WINDOW,
		MEMORY_LEVEL, Z_DEFAULT_STRATEGY) != Z_OK) {
		memory_ended();
	}
	size_t room = deflateBound(&stream, length);
	char *packed = memory_zeroed(1, room);
	stream.next_in = (const Bytef *)bytes;
	stream.avail_in = (uInt)length;
	stream.next_out = (Bytef *)packed;
	stream.avail_out = (uInt)room;
	bool done = deflate(&stream, Z_FINISH) == Z_STREAM_END;
	assert(done && "the room is what zlib says is enough");
	text_add_bytes(out, packed, stream.total_out);
	free(packed);
	(void)deflateEnd(&stream);
}
