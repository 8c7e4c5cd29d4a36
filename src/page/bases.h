/* Inside the page room: a fleet looked at base by base. */
#ifndef BECKET_PAGE_BASES_H
#define BECKET_PAGE_BASES_H

#include "page/page.h"

struct base_choice {
	struct word_list berths; /* all bases at which boats lie; in the desk's arena */
	const char *base;        /* the one that is looked at; NULL for all */
	bool large;              /* more boats than are looked at at once */
	/* of a large fleet all boats that have no base at some time, and those of them that are
	 * looked at together: no spares are shared, so that any of them may be; NULL for none */
	struct word_list baseless;
	const struct word_list *boats;
	const char
	    *sent; /* what stands for this choice in an address; "" where nothing does */
};

/* Reads which boats the request means: those of a base, "all", or of a large fleet so many without a
 * base ("none-201": from the 201st on). Where it names none, and in a large fleet where it asks for
 * all, the first base, or the first boats without one; all of any other fleet. Opens the book and
 * loads nothing of it. */
MUST_CHECK bool base_choice_read(
    struct visit *visit, struct base_choice *out, struct fault *fault);

/* True where there is something to choose. */
bool base_choice_any(const struct base_choice *choice);

/* True when a boat that lies at `base` is looked at. */
bool base_choice_has(
    const struct base_choice *choice, const char *vessel, const char *base);

/* The field in which it is chosen, where there are several. */
void base_choice_write(struct visit *visit, const struct base_choice *choice);

/* Adds the choice to an address that has a query; nothing for all. */
void base_choice_add(const struct base_choice *choice, struct text *out);

#endif
