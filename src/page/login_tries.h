/* Counts wrong passwords, by name or by client, and says how long the next try has to
 * wait. Takes a fixed amount of memory: each name is counted in one of TRIES_PLACES
 * places, chosen with a secret of this run, whether or not such a person exists; names in
 * one place share their waits. Nobody is locked out for good, and no owner has to unlock
 * anybody. Pure except for the secret. */
#ifndef BECKET_PAGE_LOGIN_TRIES_H
#define BECKET_PAGE_LOGIN_TRIES_H

#include <stdint.h>

enum {
	TRIES_PLACES = 1024,
	TRIES_SECRET = 16,
	TRIES_FIRST_WAIT = 10, /* seconds to wait after the free tries */
	TRIES_LONGEST_WAIT =
	    900 /* each wait is twice as long as the one before, up to this */
};

struct login_tries {
	unsigned char secret[TRIES_SECRET];
	int free; /* tries before the first wait */

	struct login_try_place {
		int wrong;     /* in a row; forgotten a day after the last */
		int64_t last;  /* time of the last one, by a monotonic clock */
		int64_t until; /* no try is checked before then */
	} places[TRIES_PLACES];
};

/* Draws the secret. */
void login_tries_begin(int free, struct login_tries *out);

/* Seconds to wait from `now`; 0 for none. */
int64_t login_tries_wait(const struct login_tries *tries, const char *name, int64_t now);

/* Counts a wrong try; and forgets the wrong tries of a name. */
void login_tries_note(struct login_tries *tries, const char *name, int64_t now);
void login_tries_forget(struct login_tries *tries, const char *name);

#endif
