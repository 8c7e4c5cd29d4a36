/* All pages as one answer to a request: who is let in, what is read, which handler
 * answers. */
#ifndef BECKET_PAGE_SITE_H
#define BECKET_PAGE_SITE_H

#include "page/page.h"

/* Most bytes of a form: it may hold pictures of papers, lists, and copies of a book. */
enum { SITE_BODY_MOST = 32 * 1024 * 1024 };

/* Answers a request to a `struct site`, the context: for struct web_source. It fails only
 * when the book could not be read or written; the reader is told in any case. */
bool site_answer(void *context, const struct web_request *request, struct web_answer *out,
    struct fault *fault);

/* Whether a request may send more than the form to log in: for struct web_source. */
bool site_may_send(void *context, const struct web_request *request);

#endif
