/* Lists of tags, as short as possible. */
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

/* Adds the next tag. Three or more with consecutive numbers become "FE-1 to FE-4"; a
 * range never contains a tag that was not added. */
void tag_list_add(struct tag_list *list, const char *tag);

/* Writes the run that is still open. */
void tag_list_end(struct tag_list *list);

#endif
