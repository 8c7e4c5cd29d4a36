#include "calendar/reminders_inside.h"

#include <stdlib.h>
#include <string.h>

static int
compare_notice(const void *kind, const void *notice)
{
	return strcmp(kind, ((const struct notice *)notice)->kind);
}

int
choices_notice(const struct reminder_choices *choices, const char *kind, int otherwise)
{
	const struct notice *found =
	    choices->notice_count == 0
		? NULL
		: bsearch(kind, choices->notices, choices->notice_count,
		      sizeof *choices->notices, compare_notice);
	return found == NULL ? otherwise : found->days;
}

static int
compare_planned(const void *key, const void *planned)
{
	return strcmp(key, ((const struct planned_day *)planned)->key);
}

day_t
choices_planned(const struct reminder_choices *choices, const char *key, day_t today)
{
	const struct planned_day *found =
	    choices->planned_count == 0
		? NULL
		: bsearch(key, choices->planned, choices->planned_count,
		      sizeof *choices->planned, compare_planned);
	return found == NULL || found->day < today || found->given_up != NULL
		   ? DAY_NONE
		   : found->day;
}

day_t
choices_weekday_from(const struct reminder_choices *choices, day_t day)
{
	return day + (choices->weekday - day_of_week(day) + 7) % 7;
}
