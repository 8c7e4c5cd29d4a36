/* Inside the page room: a fleet looked at base by base. */
#ifndef BECKET_PAGE_BASES_H
#define BECKET_PAGE_BASES_H

#include "page/page.h"

struct base_choice {
	struct word_list berths; /* all bases at which boats lie; in the desk's arena */
	const char *base;        /* the one that is looked at; NULL for all */
	bool large;              /* more boats than are looked at at once */
};

/* Reads which base the request names: "all" for all. Where it names none, the first of a fleet that is
 * too large to be looked at at once, and all of any other. Opens the book and loads nothing of it. */
MUST_CHECK bool base_choice_read(
    struct visit *visit, struct base_choice *out, struct fault *fault);

/* The field in which a base is chosen, where there are several. */
void base_choice_write(struct visit *visit, const struct base_choice *choice);

/* Adds the base that is looked at to an address that has a query; nothing for all. */
void base_choice_add(const struct base_choice *choice, struct text *out);

#endif
