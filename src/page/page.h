/* The page: each request is answered by one function of a table of routes (routes.c),
 * through a desk of its own. There is no socket and no clock in here; those are in
 * serve*.c and in the program that starts it.
 *
 * To add a page: write `page_NAME.c` with its handlers, declare them in shell.h and give
 * each a row in routes.c. What every page has around it is in shell.h, the drawings are
 * in draw.h. */
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
	/* Called when somebody came in by the address; the address is replaced after
	 * that. */
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
	struct form sent;   /* those of the form; its token has been checked */
	struct arena arena; /* for what lives as long as the request */
	struct desk desk;   /* for reading; opened by what is asked of it first */
	struct web_answer *answer;
	struct markup *markup; /* of the page being written; see shell.h */
	bool focused;          /* a field of it has the focus when it opens */
};

/* Answers a request: with a page (shell_open), by sending the reader on (page_go), or
 * with a file. On failure, without an answer, the reader sees the fault on a page of its
 * own. */
typedef bool page_handler(struct visit *visit, struct fault *fault);

struct route {
	const char *method; /* GET or POST; a HEAD is answered as a GET */
	const char
	    *path; /* "/winter"; the last segment may be "*": any one that is not empty */
	enum right right; /* the right that is needed */
	page_handler *run;
	const char
	    *index; /* its name in the thumb index; NULL when it does not stand there */
};

/* The value of a field: from the form that was sent, else from the address; "" for
 * none. */
const char *page_value(const struct visit *visit, const char *name);

/* True when this button was pressed, or this box ticked. */
bool page_has(const struct visit *visit, const char *name);

/* True when there is a page at this path. */
bool page_has_route(const struct visit *visit, const char *path);

/* True when the sender may open an address of this site, or, with POST, send a form
 * there. An address without a route is allowed: it leads nowhere. */
bool page_may(const struct visit *visit, const char *method, const char *address);

/* The route of a path, without a query, asked with GET or POST; NULL when there is none.
 * `rest_out` then points to the part that stands for its "*". */
const struct route *route_of(const struct route *routes, size_t count, const char *method,
    const char *path, const char **rest_out);

/* Sends the reader on to an address of this site, which begins with "/". This is the
 * answer to a form that was written, so that loading the page again does not write it
 * twice. */
void page_go(struct visit *visit, const char *format, ...) FORMAT_LIKE(2, 3);

/* The beginning of the journal's words for what was done on the page; what was typed at a
 * terminal does not begin so. */
#define PAGE_ACT "page: "

/* A separate desk for what a form writes. The journal keeps its changes with these words,
 * after "page: ", signed by the sender. Clear it with page_done. */
void page_write(struct visit *visit, struct desk *out, const char *format, ...)
    FORMAT_LIKE(3, 4);

/* One more desk for reading: for a question that would make the visit's desk load again
 * while a page is written from what it has loaded. Clear it with desk_clear. */
void page_look(struct visit *visit, struct desk *out);

/* A desk for trying: it works on a copy of the book in memory, and nothing of it is ever
 * kept. Clear it with desk_clear. */
void page_try(struct visit *visit, struct desk *out);

/* A digest of what a form would change, which is sent with the form. If the digest
 * differs when the form is to be written, the change has not been shown to the sender.
 * Returns `buffer`. */
enum { PAGE_DIGEST_SIZE = 33 };

const char *page_digest(const char *words, char buffer[PAGE_DIGEST_SIZE]);

/* Says on the next page that is shown what was done. */
void page_say(struct visit *visit, const char *format, ...) FORMAT_LIKE(2, 3);

/* Clears a desk that has written; its remarks are shown after the words of page_say. */
void page_done(struct visit *visit, struct desk *desk);

/* Adds a fault's or a remark's words without the marks that stand before names of
 * fields. */
void page_words(const char *words, struct text *out);

/* What is read of the journal (desk_journal) for a page that decides by it, as whether another
 * wrote meanwhile: FAULT_BOOK where some of it may be missing. */
MUST_CHECK bool page_journal(struct desk *desk, const struct journal_query *query,
    struct journal *out, struct fault *fault);

/* Says where a page only shows what was read of the journal that some of it may be missing. */
void page_journal_caution(struct visit *visit, const struct journal *journal);

#endif
