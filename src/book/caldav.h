/* What the book remembers of a calendar server: the account, never its password, and what
 * was last pushed there and seen there. */
#ifndef BECKET_BOOK_CALDAV_H
#define BECKET_BOOK_CALDAV_H

#include "book/reminders.h"

/* Where reminders are pushed to. No string is NULL. */
struct book_account {
	const char *url;      /* as it was given */
	const char *user;     /* "" when none is asked for */
	const char *calendar; /* the calendar's own address */
	const char *name;     /* the calendar's name */
	const char *ca_file;  /* "" for the system's certificates */
	struct scope scope;   /* whose reminders */
	bool allow_plain;     /* http without TLS */
	bool todos;           /* it is where the to-dos go, and not the events */
};

/* Loads the account for to-dos, or for events, into `arena`; `url` is NULL when there is
 * none. */
MUST_CHECK bool book_load_account(struct book *book, bool todos, struct arena *arena,
    struct book_account *out, struct fault *fault);
MUST_CHECK bool book_store_account(
    struct book *book, const struct book_account *account, struct fault *fault);

/* Forgets both accounts, and all that was pushed with them. */
MUST_CHECK bool book_forget_account(struct book *book, struct fault *fault);

/* One reminder as it was pushed, and as the server had it then. Both sides are kept,
 * because a server may word things its own way. No string is NULL. */
struct book_pushed {
	const char *uid;
	const char *url;  /* "" when a person removed it there, and that was accepted */
	const char *etag; /* "" when the server did not say */
	const char *summary;
	const char *our_rest; /* digest of all that is visible but the day; "" when it was
			       * accepted that it stays there though it no longer applies */
	const char *their_rest;
	day_t our_day;
	day_t their_day; /* DAY_NONE for none */
	bool kept;       /* what stands there is a person's doing, and was accepted */
};

/* All that is remembered of one calendar, by UID. */
MUST_CHECK bool book_load_pushed(struct book *book, const char *calendar,
    struct arena *arena, const struct book_pushed **out, size_t *count_out,
    struct fault *fault);

/* Remembers one, in place of what was known of its UID; forgets one. */
MUST_CHECK bool book_put_pushed(struct book *book, const char *calendar,
    const struct book_pushed *pushed, struct fault *fault);
MUST_CHECK bool book_drop_pushed(
    struct book *book, const char *calendar, const char *uid, struct fault *fault);

#endif
