/* A list's bytes some at a time. */
#include "base/numbers.h"
#include "exchange/list_inside.h"

#include <string.h>

bool
csv_source_hold(struct csv_source *source, struct text *room, struct fault *fault)
{
	if (source->bytes != NULL) {
		return true;
	}
	text_reset(room);
	char *out = text_grow(room, source->length);
	if (!spool_read(source->spool, source->begin, out, source->length, fault)) {
		return false;
	}
	source->bytes = text_string(room);
	return true;
}

void
list_feed_clear(struct list_feed *feed)
{
	text_clear(&feed->held);
}

/* True when all that is left of the list is held. */
static bool
is_all_held(const struct list_feed *feed)
{
	return feed->next == feed->source->length;
}

bool
list_feed_more(struct list_feed *feed, struct fault *fault)
{
	enum { USUAL = 64 * 1024 };

	const struct csv_source *source = feed->source;
	size_t left = source->length - feed->next;
	if (source->bytes != NULL) {
		feed->at = feed->next == 0 ? source->bytes : feed->at;
		feed->left += left;
		feed->next += left;
		return true;
	}
	/* twice as much each time, for a line may be long */
	size_t more = LESSER(left, GREATER((size_t)USUAL, feed->left));
	if (feed->left > 0) {
		memmove(feed->held.bytes, feed->at, feed->left);
	}
	feed->held.length = feed->left;
	char *out = text_grow(&feed->held, more);
	feed->at = feed->held.bytes;
	feed->left += more;
	feed->next += more;
	return spool_read(
	    source->spool, source->begin + feed->next - more, out, more, fault);
}

void
list_feed_take(struct list_feed *feed, size_t length)
{
	feed->at += length;
	feed->left -= length;
}

/* How many bytes the first line has, its end included: LF, CR LF or CR. */
static size_t
line_length(const char *bytes, size_t length)
{
	enum { SEEN_AT_ONCE = 256 };

	for (size_t at = 0; at < length; at += SEEN_AT_ONCE) {
		size_t seen = LESSER(length - at, (size_t)SEEN_AT_ONCE);
		const char *feed = memchr(bytes + at, '\n', seen);
		const char *back = memchr(bytes + at, '\r',
		    feed == NULL ? seen : (size_t)(feed - (bytes + at)));
		if (back != NULL) {
			size_t size = (size_t)(back + 1 - bytes);
			return size < length && bytes[size] == '\n' ? size + 1 : size;
		}
		if (feed != NULL) {
			return (size_t)(feed + 1 - bytes);
		}
	}
	return length;
}

bool
list_feed_line(struct list_feed *feed, size_t *size_out, struct fault *fault)
{
	for (;;) {
		size_t size = line_length(feed->at, feed->left);
		/* a CR at the end of what is held may have its LF behind it */
		if (is_all_held(feed) || size < feed->left ||
		    (size > 0 && feed->at[size - 1] == '\n')) {
			*size_out = size;
			return true;
		}
		if (!list_feed_more(feed, fault)) {
			return false;
		}
	}
}

/* How many of the bytes do not break a character off that goes on behind them. */
static size_t
whole_characters(const char *bytes, size_t length)
{
	size_t back = 0;
	while (back < 3 && back < length && (bytes[length - 1 - back] & 0xC0) == 0x80) {
		back++;
	}
	if (back == length || (unsigned char)bytes[length - 1 - back] < 0xC0) {
		return length;
	}
	return utf8_size(bytes[length - 1 - back]) > back + 1 ? length - 1 - back
							      : length;
}

bool
list_is_utf8(const struct csv_source *source, bool *out, struct fault *fault)
{
	SCOPED_FEED feed = {.source = source};
	bool valid = true;
	while (valid && !(is_all_held(&feed) && feed.left == 0)) {
		if (!list_feed_more(&feed, fault)) {
			return false;
		}
		size_t whole =
		    is_all_held(&feed) ? feed.left : whole_characters(feed.at, feed.left);
		valid = utf8_valid(feed.at, whole);
		list_feed_take(&feed, whole);
	}
	*out = valid;
	return true;
}
