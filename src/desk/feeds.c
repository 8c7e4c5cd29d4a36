#include "desk/feeds.h"

#include "calendar/ics.h"
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
	struct giving giving;
	size_t room; /* for the events, before the end */
	bool full;   /* no more fit */
};

/* Adds the soonest, as many as fit. */
static bool
add_event(const struct reminder *reminder, void *of, struct fault *fault)
{
	struct act *act = of;
	struct feed_body *out = act->out;
	size_t before = out->ics.length;
	act->full = act->full || out->count == FEED_MOST_REMINDERS;
	if (act->full || !ics_add(reminder, &out->ics, fault)) {
		return act->full;
	}
	act->full = out->ics.length > act->room;
	if (act->full) {
		text_cut(&out->ics, before);
	} else {
		out->count++;
	}
	return true;
}

static bool
write_soonest(struct act *act, struct fault *fault)
{
	struct feed_body *out = act->out;
	SCOPED_TEXT end = {0};
	ics_end(&end);
	text_reset(&out->ics);
	out->count = 0;
	out->of = act->giving.count;
	act->room = FEED_MOST_BYTES - end.length;
	act->full = false;
	if (!ics_begin(
		reminding_calendar_name(&act->feed->scope), true, &out->ics, fault) ||
	    !giving_show(&act->giving, add_event, act, fault)) {
		return false;
	}
	text_add(&out->ics, text_string(&end));
	return true;
}

/* The address may have been revoked meanwhile. */
static bool
make(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct feed_body *out = act->out;
	if (!find_feed(desk, act->secret, &act->feed, fault)) {
		return false;
	}
	const struct book_feed *feed = act->feed;
	out->found = feed != NULL;
	if (!out->found) {
		return true;
	}
	if (!write_soonest(act, fault)) {
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
	struct act *act = of;
	const struct feed_body *out = act->out;
	return !out->found || (giving_keep(desk, &act->giving, fault) &&
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
	/* nothing is reckoned for an address that was only guessed */
	if (!desk_book(desk, fault) || !find_feed(desk, secret, &act.feed, fault)) {
		return false;
	}
	if (act.feed == NULL) {
		return true;
	}
	act.giving = (struct giving){.by = GIVEN_BY_FEED,
	    .scope = act.feed->scope,
	    .todos = act.feed->todos,
	    .then = make,
	    .write = write,
	    .act = &act};
	bool done = giving_run(desk, &act.giving, fault);
	giving_clear(&act.giving);
	return done;
}
