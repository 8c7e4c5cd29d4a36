/* What a person chose about reminders, and a reminder as it is told. Plain values; whoever fills
 * them owns the memory they point to. */
#ifndef BECKET_GEAR_CHOICES_H
#define BECKET_GEAR_CHOICES_H

#include "dates/day.h"

#include <stdbool.h>
#include <stddef.h>

/* How long before its day a person is to be reminded of gear of a kind. */
struct notice {
	const char *kind;
	int days; /* 0 or more */
};

/* A day that a person chose for a reminder, here or by moving it in a calendar program;
 * or the hand-in that a person gave up for its winter. One to a key: choosing a day takes
 * a giving up back. */
struct planned_day {
	const char *key;      /* of the reminder */
	day_t day;            /* of what was given up: the day it had */
	const char *summary;  /* what the reminder says, for the journal */
	bool confirmed;       /* of a hand-in: the station said that day */
	const char *given_up; /* of a hand-in: why it was given up; NULL: it was not */
};

/* What a person chose about reminders. */
struct reminder_choices {
	int weekday;   /* 0 Monday to 6 Sunday: for what one does oneself, and for what is
			* overdue and so has no day of its own any more */
	bool routines; /* the monthly and weekly looks, too */
	bool singles;  /* one for each item and task besides the gathered ones */
	const struct notice *notices; /* by kind */
	size_t notice_count;
	const struct planned_day *planned; /* by key */
	size_t planned_count;
};

/* A reminder as it is listed: one to come, or a hand-in that was given up, which is on no day. */
struct reminder_row {
	const char *uid; /* its identity */
	const char *key; /* what it is about; sorts those of one day */
	day_t day;       /* DAY_NONE of what was given up */
	const char *summary;
	const char *description; /* "" for none */
	const char *station;     /* where to; "" when nowhere */
	bool planned;            /* on the day that a person chose for it */
	const char *given_up;    /* why; NULL where it was not */
	day_t given_up_day;      /* the day that it had */
};

#endif
