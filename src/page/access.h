/* Who may ask for pages: whoever holds the secret that `becket page` made when it began. The
 * secret comes in the address, where other programs may see it, so it serves once: it is exchanged
 * for a cookie, and the next address has another. A form carries a token of its own, so that no
 * other site can have one sent. Pure but for the random bytes. */
#ifndef BECKET_PAGE_ACCESS_H
#define BECKET_PAGE_ACCESS_H

#include "page/web.h"

enum { ACCESS_SECRET_SIZE = 44 };

/* Three secrets, none of which tells another. Base64 for addresses, 32 bytes each. */
struct access {
	char key[ACCESS_SECRET_SIZE];    /* in the next address */
	char cookie[ACCESS_SECRET_SIZE]; /* in the cookie */
	char form[ACCESS_SECRET_SIZE];   /* in each form */
	int port; /* at which it is served; names the cookie, which knows no ports */
};

/* What a person may do: each may what the one before may. */
enum right {
	RIGHT_NONE,   /* is let in to the start alone */
	RIGHT_LOOK,   /* sees pages */
	RIGHT_RECORD, /* writes what was done */
	RIGHT_MANAGE, /* all else */
};

/* Draws the secrets. FAULT_FILE when the machine gives no random bytes. */
MUST_CHECK bool access_begin(int port, struct access *out, struct fault *fault);

/* True when the request names this machine as its host: another name may have been bound to its
 * address by somebody else (DNS rebinding). */
bool access_host_is_right(const struct access *access, const struct web_request *request);

/* True when a form was sent from a page of this server: its Origin is the host. */
bool access_origin_is_right(
    const struct access *access, const struct web_request *request);

/* True when this is the secret of the address, which then is another; takes as long whatever is
 * alike. */
bool access_opens(struct access *access, const char *key);

/* True when this is the token of the forms. NULL is none. */
bool access_form_is_right(const struct access *access, const char *token);

/* What the sender of a request may do, by its cookie. */
enum right access_right(const struct access *access, const struct web_request *request);

/* Adds the cookie as it is set: HttpOnly, for requests of its own pages alone. */
void access_set_cookie(const struct access *access, struct text *out);

#endif
