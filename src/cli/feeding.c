#include "cli/feeding.h"

#include "calendar/ics.h"
#include "cli/reminding.h"

#include <sodium.h>
#include <stdio.h>
#include <string.h>

enum { MOST_REMINDERS = 1000, DIGEST_BYTES = 16 };

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
	if (!book_load_feeds(context->book, &context->arena, &feeds, &count, fault)) {
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

static bool
take_etag(const struct text *body, char etag[FEED_ETAG_SIZE], struct fault *fault)
{
	unsigned char digest[DIGEST_BYTES];
	if (crypto_generichash(digest, sizeof digest,
		(const unsigned char *)text_string(body), body->length, NULL, 0) != 0) {
		return fault_set(fault, FAULT_MEMORY, "a digest can't be made");
	}
	(void)sodium_bin2hex(etag, FEED_ETAG_SIZE, digest, sizeof digest);
	return true;
}

/* The calendar of a feed, cut to what programs take. */
static bool
write_body(struct context *context, const struct book_feed *feed, struct text *body,
    struct fault *fault)
{
	struct reminders reminders = {0};
	if (!reminding_settled(context, feed->todos, &reminders, fault)) {
		return false;
	}
	reminders_narrow(&reminders, &context->contents.inventory, &feed->scope);
	size_t count = reminders.count;
	if (count > MOST_REMINDERS) {
		(void)fprintf(stderr,
		    "becket: feed %lld would have %zu reminders; the soonest %d are given. "
		    "Make an address for each base instead.\n",
		    (long long)feed->number, count, MOST_REMINDERS);
		count = MOST_REMINDERS;
	}
	return ics_write_feed(reminding_calendar_name(&feed->scope), reminders.items,
		   count, body, fault) &&
	       text_check(body, fault);
}

/* When what it gives out last changed: now, and later than the time before, where it did. */
static int64_t
modified_at(const struct context *context, const struct book_feed *feed, const char *etag)
{
	if (strcmp(feed->etag, etag) == 0) {
		return feed->modified;
	}
	return context->now > feed->modified ? context->now : feed->modified + 1;
}

static bool
make_found(struct context *context, const struct book_feed *feed, struct feed *out,
    struct fault *fault)
{
	if (!write_body(context, feed, &out->body, fault) ||
	    !take_etag(&out->body, out->etag, fault)) {
		return false;
	}
	out->modified = modified_at(context, feed, out->etag);
	return strcmp(feed->etag, out->etag) == 0 ||
	       book_note_feed(
		   context->book, feed->number, out->etag, out->modified, fault);
}

static bool
make(struct context *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault)
{
	const struct book_feed *feed = NULL;
	if (!context_open(context, BOOK_WRITE, fault) ||
	    !find_feed(context, secret, &feed, fault)) {
		return false;
	}
	if (feed == NULL) {
		*found_out = false;
		return true;
	}
	*found_out = true;
	return book_begin(context->book, fault) &&
	       make_found(context, feed, out, fault) && book_commit(context->book, fault);
}

bool
feeding_make(void *context, const char *secret, struct feed *out, bool *found_out,
    struct fault *fault)
{
	struct context own;
	context_again(context, &own);
	bool made = make(&own, secret, out, found_out, fault);
	context_clear(&own);
	return made;
}
