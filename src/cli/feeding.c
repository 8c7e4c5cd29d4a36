#include "base/memory.h"
#include "cli/serving.h"
#include "desk/feeds.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

_Static_assert((int)FEED_DIGEST_SIZE <= (int)FEED_ETAG_SIZE, "a digest is an ETag");

static bool
make(struct context *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault)
{
	struct feed_body body = {0};
	if (!desk_feed(&context->desk, secret, &body, fault)) {
		text_clear(&body.ics);
		return false;
	}
	*found_out = body.found;
	*out = (struct feed){.body = body.ics, .modified = body.modified};
	memcpy(out->etag, body.digest, sizeof body.digest);
	if (body.count < body.of) {
		(void)fprintf(stderr,
		    "becket: feed %lld would have %zu reminders, more than %d or than "
		    "%d bytes; the soonest %zu are given. Make an address for each base "
		    "instead.\n",
		    (long long)body.number, body.of, FEED_MOST_REMINDERS, FEED_MOST_BYTES,
		    body.count);
	}
	return true;
}

static void
drop_kept(struct feeding *feeding)
{
	for (size_t i = 0; i < feeding->count; i++) {
		free(feeding->items[i].secret);
		text_clear(&feeding->items[i].feed.body);
	}
	feeding->count = 0;
}

static void
close_watch(struct feeding *feeding)
{
	book_close(feeding->watch);
	feeding->watch = NULL;
	drop_kept(feeding);
}

void
feeding_clear(struct feeding *feeding)
{
	close_watch(feeding);
	free(feeding->items);
	feeding->items = NULL;
}

/* Has the watch open on the file that is at the book's path now; false when that can't be. */
static bool
watch_file(struct feeding *feeding)
{
	struct stat status;
	struct fault ignored = {0};
	const char *path = feeding->context->desk.book_path;
	if (stat(path, &status) != 0) {
		close_watch(feeding);
		return false;
	}
	bool same = feeding->file[0] == (uint64_t)status.st_dev &&
		    feeding->file[1] == (uint64_t)status.st_ino;
	if (feeding->watch != NULL && same) {
		return true;
	}
	close_watch(feeding);
	feeding->file[0] = (uint64_t)status.st_dev;
	feeding->file[1] = (uint64_t)status.st_ino;
	/* what is wrong with it is told by whoever makes the feed */
	return book_open(path, BOOK_READ, &feeding->watch, &ignored);
}

/* Forgets what is out of date. False when that can't be known: then nothing is kept. */
static bool
keep_fresh(struct feeding *feeding, day_t today)
{
	struct fault ignored = {0};
	int64_t version = 0;
	if (!watch_file(feeding) ||
	    !book_data_version(feeding->watch, &version, &ignored)) {
		close_watch(feeding);
		return false;
	}
	if (version != feeding->version || today != feeding->today) {
		drop_kept(feeding);
	}
	feeding->version = version;
	feeding->today = today;
	return true;
}

/* The feed that is kept, copied; false when there is none. */
static bool
take_kept(const struct feeding *feeding, const char *secret, struct feed *out)
{
	size_t length = strlen(secret);
	const struct kept_feed *found = NULL;
	for (size_t i = 0; i < feeding->count; i++) {
		const struct kept_feed *kept = &feeding->items[i];
		if (strlen(kept->secret) == length &&
		    sodium_memcmp(kept->secret, secret, length) == 0) {
			found = kept;
		}
	}
	if (found == NULL) {
		return false;
	}
	*out = found->feed;
	out->body = (struct text){0};
	text_add_bytes(
	    &out->body, text_string(&found->feed.body), found->feed.body.length);
	return true;
}

/* Keeps a copy of what was made. */
static void
keep(struct feeding *feeding, const char *secret, const struct feed *made)
{
	ARRAY_ROOM(feeding);
	struct kept_feed kept = {.secret = memory_string(secret), .feed = *made};
	kept.feed.body = (struct text){0};
	text_add_bytes(&kept.feed.body, text_string(&made->body), made->body.length);
	feeding->items[feeding->count++] = kept;
}

bool
feeding_make(void *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault)
{
	struct feeding *feeding = context;
	struct context own;
	context_again(feeding->context, &own);
	/* its version is read before the feed is made: what is written meanwhile is seen */
	bool fresh = keep_fresh(feeding, own.desk.today);
	bool made = fresh && take_kept(feeding, secret, out);
	if (made) {
		*found_out = true;
	} else {
		made = make(&own, secret, out, found_out, fault);
		if (made && fresh && *found_out) {
			keep(feeding, secret, out);
		}
	}
	context_clear(&own);
	return made;
}
