/* The page: each request is answered by one function of a table of routes (routes.c), through a
 * desk of its own. No socket and no clock in here; those are in serve.c and in the face that
 * starts it.
 *
 * To add a page: write `page_NAME.c` with its handlers, declare them in shell.h and give each a
 * row in routes.c. What every page has around it is in shell.h, the drawings are in draw.h. */
#ifndef BECKET_PAGE_PAGE_H
#define BECKET_PAGE_PAGE_H

#include "desk/desk.h"
#include "page/access.h"
#include "page/form.h"
#include "report/markup.h"

/* What all requests share. */
struct site {
	struct access access;
	/* Makes a desk: its book, day, time and signature. It reads nothing yet. */
	void (*desk)(void *context, struct desk *out);
	/* Called when somebody came in by the address, which is another from then on. */
	void (*entered)(void *context);
	void *context;
};

struct route;

/* A request being answered. */
struct visit {
	struct site *site;
	const struct web_request *request;
	struct session *session;    /* of whoever asks; NULL for nobody who came in */
	enum right right;           /* what they may do */
	const struct route *route;  /* how it is answered; NULL where there is none */
	const struct route *routes; /* all there are */
	size_t route_count;
	const char *rest;   /* what stands in place of a route's "*", unescaped */
	struct form asked;  /* the fields of the address */
	struct form sent;   /* those of the form; its token has been looked at */
	struct arena arena; /* for what lives as long as the request */
	struct desk desk;   /* for reading; opened by what is asked of it first */
	struct web_answer *answer;
	struct markup *markup; /* of the page being written; see shell.h */
	bool focused;          /* a field of it has the focus to begin with */
};

/* Answers a request: with a page (shell_open), by sending the reader on (page_go), or with a file.
 * On failure, without an answer, the reader sees the fault on a page of its own. */
typedef bool page_handler(struct visit *visit, struct fault *fault);

struct route {
	const char *method; /* GET or POST; a HEAD is answered as a GET */
	const char
	    *path; /* "/winter"; the last segment may be "*": any one that is not empty */
	enum right right; /* what one must be allowed */
	page_handler *run;
	const char
	    *index; /* its name in the thumb index; NULL when it does not stand there */
};

/* The value of a field: of the form that was sent, else of the address; "" for none. */
const char *page_value(const struct visit *visit, const char *name);

/* True when such a button was pressed, or such a box ticked. */
bool page_has(const struct visit *visit, const char *name);

/* True when there is a page at this path. */
bool page_has_route(const struct visit *visit, const char *path);

/* True when whoever asks may go to an address of this site, or, with POST, send a form there. What
 * has no route may be gone to: it leads nowhere. */
bool page_may(const struct visit *visit, const char *method, const char *address);

/* The route of a path, without a query, asked with GET or POST; NULL when there is none. What stands
 * for its "*" is where `rest_out` points. */
const struct route *route_of(const struct route *routes, size_t count, const char *method,
    const char *path, const char **rest_out);

/* Sends the reader on to an address of this site, begun with "/": the answer to a form that was
 * written, so that loading the page again writes nothing twice. */
void page_go(struct visit *visit, const char *format, ...) FORMAT_LIKE(2, 3);

/* How what was done on the page begins in the journal; what was typed at a terminal does not. */
#define PAGE_ACT "page: "

/* A desk of its own for what a form writes; what it does stands in the journal with these words,
 * "page: " before them, under whoever sends it. Clear it with page_done. */
void page_write(struct visit *visit, struct desk *out, const char *format, ...)
    FORMAT_LIKE(3, 4);

/* One more desk for reading, for a question that would have the visit's own load anew what a page is
 * being written from. Clear it with desk_clear. */
void page_look(struct visit *visit, struct desk *out);

/* A desk on which everything can be tried: it works on a copy of the book in memory, and nothing
 * of it is ever kept. Clear it with desk_clear. */
void page_try(struct visit *visit, struct desk *out);

/* A digest of what a form would change, to be sent with it: what differs from it when the form is
 * written has not been shown. Returns `buffer`. */
enum { PAGE_DIGEST_SIZE = 33 };

const char *page_digest(const char *words, char buffer[PAGE_DIGEST_SIZE]);

/* Tells on the page that is shown next what was done. */
void page_say(struct visit *visit, const char *format, ...) FORMAT_LIKE(2, 3);

/* Clears a desk that has written; its remarks are told after what page_say was given. */
void page_done(struct visit *visit, struct desk *desk);

/* Adds a fault's or a remark's words without the marks that stand before names of fields. */
void page_words(const char *words, struct text *out);

#endif
