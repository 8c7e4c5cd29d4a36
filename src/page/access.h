/* Who may ask for pages.
 *
 * One person, the usual way: whoever holds the secret that `becket page` made when it began. The
 * secret comes in the address, where other programs may see it, so it serves once: it is exchanged
 * for a cookie, and the next address has another.
 *
 * People, for a page that others on the network reach: each logs in with a name and a password
 * (desk/people.h) and then has a session. Their file is read anew with every request, and a session
 * holds for the password with which it began: with another one, with a log-out, or with the person
 * taken out it is over at once; a right that was changed holds from the next request on.
 *
 * A form carries a token of its session's own, so that no other site can have one sent.
 * Pure except for the random bytes and the reading of that file; the time is the
 * request's. */
#ifndef BECKET_PAGE_ACCESS_H
#define BECKET_PAGE_ACCESS_H

#include "desk/people.h"
#include "page/login_tries.h"
#include "page/web.h"

enum {
	ACCESS_SECRET_SIZE = 44, /* Base64 for addresses, of 32 bytes */
	SESSIONS_MOST = 256,     /* the one that was idle longest makes room */
	SESSION_IDLE_SECONDS = 8 * 3600,
	SESSION_WHOLE_SECONDS = 24 * 3600,
};

/* Somebody who came in. */
struct session {
	char cookie[ACCESS_SECRET_SIZE]; /* in the cookie */
	char form[ACCESS_SECRET_SIZE];   /* in each form; neither tells the other */
	char *who;                       /* owned; NULL for the one person */
	char *digest;                    /* owned: of the password with which it began */
	int64_t begun;                   /* of the request's clock */
	int64_t seen;
	/* what came of the last act, a line each, for the page that is shown next */
	struct text said;
	/* a list that was brought and is not written yet, and the name of its file: NULL for
	 * none */
	char *list_name;
	struct text list;
	/* a copy of a book that was brought to be put back and is not yet; empty for none */
	struct text copy;
};

struct access {
	char key[ACCESS_SECRET_SIZE];  /* in the next address; of the one person */
	char form[ACCESS_SECRET_SIZE]; /* in the form to log in */
	int port; /* at which it is served; names the cookie, which knows no ports */
	/* how it is asked for from elsewhere, "https://becket.example" without a slash at
	 * its end; NULL for by this machine's own names alone. Borrowed, and so is the
	 * next */
	const char *at;
	const char *people; /* the path of their file; NULL for the one person */
	struct session *sessions[SESSIONS_MOST]; /* owned */
	size_t session_count;
	struct login_tries names;   /* tries to log in, by name */
	struct login_tries clients; /* the same by client */
};

/* Draws the secrets; begins the one person's session where there are no `people`. End with
 * access_end. FAULT_FILE when the machine gives no random bytes. */
MUST_CHECK bool access_begin(int port, const char *at, const char *people,
    struct access *out, struct fault *fault);
void access_end(struct access *access);

/* True when the request names the site as it is called, or this machine where it is called nothing
 * else: another name may have been bound to its address by somebody else (DNS rebinding). A site
 * that is asked for by https is so through its proxy alone. */
bool access_host_is_right(const struct access *access, const struct web_request *request);

/* True when a form was sent from a page of this server: its Origin is the site's. */
bool access_origin_is_right(
    const struct access *access, const struct web_request *request);

/* True when this is the secret of the address, which then is another; compares in
 * constant time. */
bool access_opens(struct access *access, const char *key);

/* True when this is the token of the session's forms, or, without a session, of the form to log in.
 * NULL is none. */
bool access_form_is_right(
    const struct access *access, const struct session *session, const char *token);

/* The session of a request by its cookie, and what its person may do; NULL and RIGHT_NONE for none.
 * One that is over is ended. False when the people can't be read. */
MUST_CHECK bool access_session(struct access *access, const struct web_request *request,
    struct session **out, enum right *right_out, struct fault *fault);

/* Whether the request may send a long body: it comes from somebody who came in. */
bool access_may_send(const struct access *access, const struct web_request *request);

/* Whether the password is that of the person of this name. Where `*wait_out` is not 0 it was not
 * checked, and none is for so many seconds: too many were wrong for this name or from this client
 * (page/login_tries.h). False when the people can't be read. */
MUST_CHECK bool access_knows(struct access *access, const struct web_request *request,
    const char *name, const char *password, bool *knows_out, int64_t *wait_out,
    struct fault *fault);

/* Begins a session of the person of this name, whose password was checked; NULL where nobody has
 * that name any more. False as above. */
MUST_CHECK bool access_log_in(struct access *access, const struct web_request *request,
    const char *name, struct session **out, struct fault *fault);

/* Ends a session. */
void access_log_out(struct access *access, struct session *session);

/* Adds the cookie of a session as it is set: HttpOnly, for requests of its own pages alone, and by
 * https alone where the site is; NULL takes it away. */
void access_set_cookie(
    const struct access *access, const struct session *session, struct text *out);

/* Holds a list that was brought, in place of the one before; and lets it go. */
void session_hold_list(
    struct session *session, const char *name, const char *bytes, size_t length);
void session_put_list_away(struct session *session);

#endif
