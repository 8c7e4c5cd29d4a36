#include "calendar/reminders_inside.h"

#include <string.h>

const struct book_given *
given_find(const struct given_list *list, const char *uid, int sequence)
{
	size_t low = 0;
	size_t high = list->count;
	while (low < high) { /* the first that comes after it */
		size_t middle = low + (high - low) / 2;
		const struct book_given *given = &list->items[middle];
		int order = strcmp(given->uid, uid);
		bool after = order > 0 || (order == 0 && given->sequence > sequence);
		low = after ? low : middle + 1;
		high = after ? middle : high;
	}
	const struct book_given *last = low == 0 ? NULL : &list->items[low - 1];
	return last != NULL && strcmp(last->uid, uid) == 0 ? last : NULL;
}

bool
given_is_older(const struct given_list *list, const struct book_given *given)
{
	const struct book_given *next = given + 1;
	return next < list->items + list->count && strcmp(next->uid, given->uid) == 0;
}

bool
given_both_moved(day_t given, day_t ours, day_t theirs)
{
	return given != ours && given != theirs && ours != theirs;
}
