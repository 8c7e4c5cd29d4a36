#include "cli/feeding.h"

#include "base/memory.h"
#include "calendar/ics.h"
#include "desk/reminding.h"

#include <assert.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { MOST_REMINDERS = 1000, MOST_BYTES = 1000000, DIGEST_BYTES = 16 };

_Static_assert(2 * DIGEST_BYTES + 1 <= FEED_ETAG_SIZE, "a digest is an ETag");

/* Finds the feed of a secret, comparing in the same time whatever is alike. */
static bool
find_feed(struct context *context, const char *secret, const struct book_feed **out,
    struct fault *fault)
{
	const struct book_feed *feeds = NULL;
	size_t count = 0;
	size_t length = strlen(secret);
	*out = NULL;
	if (!book_load_feeds(
		context->desk.book, &context->desk.arena, &feeds, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (!feeds[i].revoked && strlen(feeds[i].secret) == length &&
		    sodium_memcmp(feeds[i].secret, secret, length) == 0) {
			*out = &feeds[i];
		}
	}
	return true;
}

static void
take_etag(const struct text *body, char etag[FEED_ETAG_SIZE])
{
	unsigned char digest[DIGEST_BYTES];
	int made = crypto_generichash(digest, sizeof digest,
	    (const unsigned char *)text_string(body), body->length, NULL, 0);
	assert(made == 0 && "the sizes are ones the library takes");
	(void)sodium_bin2hex(etag, FEED_ETAG_SIZE, digest, sizeof digest);
}

/* Writes the soonest reminders, as many as fit: where not all do, halving finds how many. */
static bool
write_soonest(const char *name, const struct reminders *reminders, size_t *count_out,
    struct text *body, struct fault *fault)
{
	size_t most =
	    reminders->count < MOST_REMINDERS ? reminders->count : MOST_REMINDERS;
	size_t fits = 0;
	size_t over = most + 1;
	size_t count = most;
	for (;;) {
		text_reset(body);
		if (!ics_write_feed(name, reminders->items, count, body, fault)) {
			return false;
		}
		if (count == fits || (body->length <= MOST_BYTES && count + 1 == over)) {
			*count_out = count;
			return true;
		}
		fits = body->length <= MOST_BYTES ? count : fits;
		over = body->length <= MOST_BYTES ? over : count;
		count = fits + (over - fits) / 2;
	}
}

/* The calendar of a feed, cut to what programs take. */
static bool
write_body(struct context *context, const struct book_feed *feed, struct text *body,
    struct fault *fault)
{
	struct reminders reminders = {0};
	size_t count = 0;
	if (!reminding_settled(&context->desk, feed->todos, &reminders, fault)) {
		return false;
	}
	reminders_narrow(&reminders, &context->desk.contents.inventory, &feed->scope);
	if (!write_soonest(
		reminding_calendar_name(&feed->scope), &reminders, &count, body, fault)) {
		return false;
	}
	if (count < reminders.count) {
		(void)fprintf(stderr,
		    "becket: feed %lld would have %zu reminders, more than %d or than "
		    "%d bytes; the soonest %zu are given. Make an address for each base "
		    "instead.\n",
		    (long long)feed->number, reminders.count, MOST_REMINDERS, MOST_BYTES,
		    count);
	}
	return true;
}

/* When what it gives out last changed: now, and later than the time before, where it did. */
static int64_t
modified_at(const struct context *context, const struct book_feed *feed, const char *etag)
{
	if (strcmp(feed->etag, etag) == 0) {
		return feed->modified;
	}
	return context->desk.now > feed->modified ? context->desk.now
						  : feed->modified + 1;
}

static bool
make_found(struct context *context, const struct book_feed *feed, struct feed *out,
    struct fault *fault)
{
	if (!write_body(context, feed, &out->body, fault)) {
		return false;
	}
	take_etag(&out->body, out->etag);
	out->modified = modified_at(context, feed, out->etag);
	return strcmp(feed->etag, out->etag) == 0 ||
	       book_note_feed(
		   context->desk.book, feed->number, out->etag, out->modified, fault);
}

static bool
make(struct context *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault)
{
	const struct book_feed *feed = NULL;
	if (!desk_open(&context->desk, BOOK_WRITE, fault) ||
	    !find_feed(context, secret, &feed, fault)) {
		return false;
	}
	if (feed == NULL) {
		*found_out = false;
		return true;
	}
	*found_out = true;
	return book_begin(context->desk.book, fault) &&
	       make_found(context, feed, out, fault) &&
	       book_commit(context->desk.book, fault);
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

/* Forgets what is no longer so. False when that can't be told: then nothing is kept. */
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
