#include "page/pieces.h"

#include <assert.h>
#include <string.h>

static void
add_one(const struct reminder *was, const struct reminder *is, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	char before[DAY_WORDS_SIZE];
	assert(was != NULL || is != NULL);
	if (was == NULL) {
		text_add_format(
		    out, "One more on %s: %s.\n", day_words(is->day, day), is->summary);
	} else if (is == NULL) {
		text_add_format(out, "None any more on %s: %s.\n",
		    day_words(was->day, before), was->summary);
	} else if (is->day != was->day) {
		text_add_format(out, "%s: %s in place of %s.\n", is->summary,
		    day_words(is->day, day), day_words(was->day, before));
	} else if (strcmp(is->summary, was->summary) != 0) {
		text_add_format(out, "On %s: %s in place of %s.\n",
		    day_words(is->day, day), is->summary, was->summary);
	}
}

void
reminders_differ(const struct reminders_seen *before, const struct reminders_seen *after,
    struct text *out)
{
	SCOPED_ARENA arena = {0};
	const struct reminder **was = reminders_by_key(&before->reminders, &arena);
	const struct reminder **is = reminders_by_key(&after->reminders, &arena);
	size_t i = 0;
	size_t j = 0;
	while (i < before->reminders.count || j < after->reminders.count) {
		int order = i == before->reminders.count ? 1
			    : j == after->reminders.count
				? -1
				: strcmp(was[i]->key, is[j]->key);
		add_one(order <= 0 ? was[i] : NULL, order >= 0 ? is[j] : NULL, out);
		i += order <= 0 ? 1 : 0;
		j += order >= 0 ? 1 : 0;
	}
}
