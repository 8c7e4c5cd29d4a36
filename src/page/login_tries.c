#include "page/login_tries.h"

#include "base/numbers.h"

#include <sodium.h>
#include <string.h>

enum { DAY_SECONDS = 86400 };

_Static_assert(TRIES_SECRET == crypto_shorthash_KEYBYTES, "the secret is the digest's");

void
login_tries_begin(int free, struct login_tries *out)
{
	*out = (struct login_tries){.free = free};
	randombytes_buf(out->secret, sizeof out->secret);
}

static size_t
place_of(const struct login_tries *tries, const char *name)
{
	unsigned char hash[crypto_shorthash_BYTES];
	(void)crypto_shorthash(
	    hash, (const unsigned char *)name, strlen(name), tries->secret);
	return (hash[0] + 256U * hash[1]) % TRIES_PLACES;
}

int64_t
login_tries_wait(const struct login_tries *tries, const char *name, int64_t now)
{
	const struct login_try_place *place = &tries->places[place_of(tries, name)];
	return place->until > now ? place->until - now : 0;
}

void
login_tries_note(struct login_tries *tries, const char *name, int64_t now)
{
	struct login_try_place *place = &tries->places[place_of(tries, name)];
	int64_t wait = TRIES_FIRST_WAIT;
	if (now - place->last > DAY_SECONDS) {
		place->wrong = 0;
	}
	place->wrong++;
	place->last = now;
	for (int i = tries->free; i < place->wrong && wait < TRIES_LONGEST_WAIT; i++) {
		wait *= 2;
	}
	wait = LESSER(wait, TRIES_LONGEST_WAIT);
	place->until = place->wrong < tries->free ? 0 : now + wait;
}

void
login_tries_forget(struct login_tries *tries, const char *name)
{
	tries->places[place_of(tries, name)] = (struct login_try_place){0};
}
