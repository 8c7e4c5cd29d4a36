/* Inside the page room: what another wrote since a person saw it. */
#ifndef BECKET_PAGE_MEANWHILE_H
#define BECKET_PAGE_MEANWHILE_H

#include "page/page.h"

/* Adds "changed on 25 Nov 2026 at 10:12 UTC by Anna". */
void meanwhile_entry(const struct journal_entry *entry, struct text *out);

/* The same of the last that was written about a piece; "changed" alone where nothing is known of it. */
MUST_CHECK bool meanwhile_last(
    struct desk *desk, const char *tag, struct text *out, struct fault *fault);

#endif
