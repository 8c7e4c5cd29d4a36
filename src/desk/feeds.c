#include "desk/feeds.h"

#include "calendar/ics.h"
#include "desk/inside.h"
#include "desk/reminding.h"

#include <assert.h>
#include <sodium.h>
#include <string.h>

enum { SECRET_BYTES = 24, DIGEST_BYTES = 16 };

_Static_assert(2 * DIGEST_BYTES + 1 == FEED_DIGEST_SIZE, "a digest in hexadecimal");

bool
desk_new_feed(struct desk *desk, const struct scope *scope, bool todos,
    struct book_feed *out, struct fault *fault)
{
	unsigned char bytes[SECRET_BYTES];
	char secret[sodium_base64_ENCODED_LEN(
	    SECRET_BYTES, sodium_base64_VARIANT_URLSAFE_NO_PADDING)];
	if (sodium_init() < 0) {
		return fault_set(fault, FAULT_FILE, "the machine gives no random bytes");
	}
	randombytes_buf(bytes, sizeof bytes);
	(void)sodium_bin2base64(secret, sizeof secret, bytes, sizeof bytes,
	    sodium_base64_VARIANT_URLSAFE_NO_PADDING);
	*out = (struct book_feed){.secret = arena_string(&desk->arena, secret),
	    .scope = *scope,
	    .todos = todos};
	return desk_book(desk, fault) &&
	       book_add_feed(desk->book, secret, scope, todos, &out->number, fault);
}

bool
desk_revoke_feed(struct desk *desk, int64_t number, struct fault *fault)
{
	return desk_book(desk, fault) && book_revoke_feed(desk->book, number, fault);
}

bool
desk_keep_feed_host(
    struct desk *desk, const struct book_feed_host *serving, struct fault *fault)
{
	return desk_book(desk, fault) && book_store_feed_host(desk->book, serving, fault);
}

/* Finds the feed of a secret, comparing in constant time; NULL for none. */
static bool
find_feed(struct desk *desk, const char *secret, const struct book_feed **out,
    struct fault *fault)
{
	const struct book_feed *feeds = NULL;
	size_t count = 0;
	size_t length = strlen(secret);
	*out = NULL;
	if (!book_load_feeds(desk->book, &desk->arena, &feeds, &count, fault)) {
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

/* Writes the soonest reminders, as many as fit: where not all do, halving finds how many. */
static bool
write_soonest(const char *name, const struct reminders *reminders, struct feed_body *out,
    struct fault *fault)
{
	size_t most = reminders->count < FEED_MOST_REMINDERS ? reminders->count
							     : FEED_MOST_REMINDERS;
	size_t fits = 0;
	size_t over = most + 1;
	size_t count = most;
	for (;;) {
		text_reset(&out->ics);
		if (!ics_write_feed(name, reminders->items, count, &out->ics, fault)) {
			return false;
		}
		bool small = out->ics.length <= FEED_MOST_BYTES;
		if (count == fits || (small && count + 1 == over)) {
			out->count = count;
			out->of = reminders->count;
			return true;
		}
		fits = small ? count : fits;
		over = small ? over : count;
		count = fits + (over - fits) / 2;
	}
}

static void
take_digest(const struct text *body, char digest[FEED_DIGEST_SIZE])
{
	unsigned char bytes[DIGEST_BYTES];
	int made = crypto_generichash(bytes, sizeof bytes,
	    (const unsigned char *)text_string(body), body->length, NULL, 0);
	assert(made == 0 && "the sizes are ones the library takes");
	(void)sodium_bin2hex(digest, FEED_DIGEST_SIZE, bytes, sizeof bytes);
}

struct act {
	const char *secret;
	struct feed_body *out;
	const struct book_feed *feed;
	struct reminders_made made;
};

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct feed_body *out = act->out;
	act->made = (struct reminders_made){0};
	if (!find_feed(desk, act->secret, &act->feed, fault)) {
		return false;
	}
	out->found = act->feed != NULL;
	if (!out->found) {
		return true;
	}
	if (!reminding_make(desk, &act->made, fault)) {
		return false;
	}
	const struct book_feed *feed = act->feed;
	const struct reminders wanted =
	    reminding_wanted(desk, &act->made, feed->todos, &feed->scope);
	if (!write_soonest(reminding_calendar_name(&feed->scope), &wanted, out, fault)) {
		return false;
	}
	take_digest(&out->ics, out->digest);
	out->number = feed->number;
	/* where it did change, later than the time before */
	out->modified = strcmp(feed->etag, out->digest) == 0 ? feed->modified
			: desk->now > feed->modified         ? desk->now
							     : feed->modified + 1;
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	const struct feed_body *out = act->out;
	return !out->found || (reminding_store(desk, &act->made, GIVEN_BY_FEED, fault) &&
				  (strcmp(act->feed->etag, out->digest) == 0 ||
				      book_note_feed(desk->book, out->number, out->digest,
					  out->modified, fault)));
}

bool
desk_feed(
    struct desk *desk, const char *secret, struct feed_body *out, struct fault *fault)
{
	struct act act = {.secret = secret, .out = out};
	*out = (struct feed_body){0};
	desk->left_gear = LEFT_ASHORE;
	/* nothing is reckoned for an address that was only guessed */
	if (!desk_book(desk, fault) || !find_feed(desk, secret, &act.feed, fault)) {
		return false;
	}
	return act.feed == NULL || act_run(desk, NULL, plan, write, &act, fault);
}
