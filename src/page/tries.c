#include "page/tries.h"

#include <sodium.h>
#include <string.h>

enum { DAY_SECONDS = 86400 };

_Static_assert(TRIES_SECRET == crypto_shorthash_KEYBYTES, "the secret is the digest's");

void
tries_begin(int free, struct tries *out)
{
	*out = (struct tries){.free = free};
	randombytes_buf(out->secret, sizeof out->secret);
}

static size_t
place_of(const struct tries *tries, const char *name)
{
	unsigned char hash[crypto_shorthash_BYTES];
	(void)crypto_shorthash(
	    hash, (const unsigned char *)name, strlen(name), tries->secret);
	return (hash[0] + 256U * hash[1]) % TRIES_PLACES;
}

int64_t
tries_wait(const struct tries *tries, const char *name, int64_t now)
{
	const struct try_place *place = &tries->places[place_of(tries, name)];
	return place->until > now ? place->until - now : 0;
}

void
tries_note(struct tries *tries, const char *name, int64_t now)
{
	struct try_place *place = &tries->places[place_of(tries, name)];
	int64_t wait = TRIES_FIRST_WAIT;
	if (now - place->last > DAY_SECONDS) {
		place->wrong = 0;
	}
	place->wrong++;
	place->last = now;
	for (int i = tries->free; i < place->wrong && wait < TRIES_LONGEST_WAIT; i++) {
		wait *= 2;
	}
	wait = wait < TRIES_LONGEST_WAIT ? wait : TRIES_LONGEST_WAIT;
	place->until = place->wrong < tries->free ? 0 : now + wait;
}

void
tries_forget(struct tries *tries, const char *name)
{
	tries->places[place_of(tries, name)] = (struct try_place){0};
}
