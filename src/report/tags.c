#include "report/tags.h"

#include <string.h>

/* The number a tag ends with, of up to 6 digits and not beginning with a zero, and how
 * many bytes stand before it; false when it has none. */
static bool
split_tag(const char *tag, size_t *before_out, long *number_out)
{
	size_t length = strlen(tag);
	size_t at = length;
	while (at > 0 && tag[at - 1] >= '0' && tag[at - 1] <= '9') {
		at--;
	}
	if (at == length || length - at > 6 || tag[at] == '0') {
		return false;
	}
	long number = 0;
	for (size_t i = at; i < length; i++) {
		number = number * 10 + (tag[i] - '0');
	}
	*before_out = at;
	*number_out = number;
	return true;
}

static bool
follows(const char *tag, const char *next)
{
	size_t before = 0;
	size_t next_before = 0;
	long number = 0;
	long next_number = 0;
	return split_tag(tag, &before, &number) &&
	       split_tag(next, &next_before, &next_number) && before == next_before &&
	       strncmp(tag, next, before) == 0 && next_number == number + 1;
}

void
tag_list_end(struct tag_list *list)
{
	if (list->first == NULL) {
		return;
	}
	text_add_format(list->out, "%s%s", list->any ? ", " : "", list->first);
	if (list->run > 1) {
		text_add_format(
		    list->out, "%s%s", list->run == 2 ? ", " : " to ", list->last);
	}
	list->any = true;
	list->first = NULL;
	list->run = 0;
}

void
tag_list_add(struct tag_list *list, const char *tag)
{
	if (list->first == NULL || !follows(list->last, tag)) {
		tag_list_end(list);
		list->first = tag;
	}
	list->last = tag;
	list->run++;
}
