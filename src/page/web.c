#include "page/web.h"

#include "base/memory.h"

#include <assert.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#define ZLIB_CONST
#include <zlib.h>

void
web_answer_clear(struct web_answer *answer)
{
	text_clear(&answer->body);
	text_clear(&answer->location);
	text_clear(&answer->set_cookie);
	if (answer->file > 0) {
		(void)close(answer->file);
		answer->file = 0;
	}
}

void
web_say(struct web_answer *answer, int status, const char *words)
{
	answer->status = status;
	answer->content_type = "text/plain; charset=utf-8";
	text_reset(&answer->body);
	text_add(&answer->body, words);
}

void
web_file(struct web_answer *answer, const char *type, const char *name)
{
	answer->status = 200;
	answer->is_page = true;
	answer->content_type = type;
	answer->file_name = name;
}

/* Takes the next entry of a comma-separated list of ETags, without W/ and quotes: a weak
 * match is enough, as no calendar needs its copy to be the same byte for byte. */
static const char *
next_tag(const char *at, const char **tag_out, size_t *length_out)
{
	at += strspn(at, " \t,");
	if (at[0] == 'W' && at[1] == '/') {
		at += 2;
	}
	bool quoted = *at == '"';
	at += quoted ? 1 : 0;
	*tag_out = at;
	*length_out = strcspn(at, quoted ? "\"" : ", \t");
	at += *length_out;
	return *at == '"' ? at + 1 : at;
}

bool
web_has_etag(const char *list, const char *etag)
{
	size_t length = strlen(etag);
	while (*list != '\0') {
		const char *tag = NULL;
		size_t found = 0;
		const char *rest = next_tag(list, &tag, &found);
		if ((found == 1 && *tag == '*') ||
		    (found >= length && memcmp(tag, etag, length) == 0 &&
			(found == length || (found == length + 3 &&
						memcmp(tag + length, "-gz", 3) == 0)))) {
			return true;
		}
		if (rest == list) {
			return false;
		}
		list = rest;
	}
	return false;
}

/* zlib's largest window; 16 more asks for a gzip header. */
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
