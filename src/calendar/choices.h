/* What a person chose about reminders, looked up. Private to this room. */
#ifndef BECKET_CALENDAR_CHOICES_H
#define BECKET_CALENDAR_CHOICES_H

#include "book/book.h"

/* The notice chosen for a kind, in days, or `otherwise` where none was chosen. */
int choices_notice(
    const struct reminder_choices *choices, const char *kind, int otherwise);

/* The day chosen for a reminder, when it is not before `today`; else DAY_NONE. */
day_t choices_planned(
    const struct reminder_choices *choices, const char *key, day_t today);

/* The chosen day of the week on or after a day. */
day_t choices_weekday_from(const struct reminder_choices *choices, day_t day);

#endif
