/* Lists of tags in as few letters as can be. */
#ifndef BECKET_REPORT_TAGS_H
#define BECKET_REPORT_TAGS_H

#include "base/text.h"

#include <stddef.h>

/* A list being written, tag by tag; starts with only `out` set. All borrowed. */
struct tag_list {
	struct text *out;
	const char *first; /* of the run that is still open; NULL when there is none */
	const char *last;
	size_t run; /* how many tags are in it */
	bool any;   /* something was written */
};

/* Adds the next tag. Three or more whose numbers follow one another become "FE-1 to FE-4";
 * no tag is left out of a list, and none is in it that was not added. */
void tag_list_add(struct tag_list *list, const char *tag);

/* Writes what is still open. */
void tag_list_end(struct tag_list *list);

#endif
