/* The first word: what a person is told who asks nothing in particular. Put together from
 * answers that there are already: the agenda, what is ashore, and the calendar's reminders. */
#ifndef BECKET_WINTER_FIRST_WORD_H
#define BECKET_WINTER_FIRST_WORD_H

#include "winter/agenda.h"

/* Something to be done on a day, as a reminder has it. Borrowed. */
struct coming {
	day_t day;
	const char *summary;
	const char *station;   /* "" for none */
	const size_t *vessels; /* whose it is: indices in the inventory */
	size_t vessel_count;
};

/* How many days "this week" has, from today on, and how many of the days after it are told. */
enum { FIRST_WORD_WEEK = 7, FIRST_WORD_DAYS = 3 };

struct first_word {
	const char *vessel; /* of which alone it speaks; NULL for the fleet */
	size_t boats;       /* in the fleet today, stores left out */
	day_t today;
	/* what is lapsed or of unknown date: routines and gear in reserve left out, as the
	 * agenda has them. In the arena */
	const struct agenda_row *rows;
	size_t row_count;
	/* by day: what is to be done up to a week from today, what is missed too */
	const struct coming *week;
	size_t week_count;
	/* what falls on the next FIRST_WORD_DAYS days on which there is something */
	const struct coming *next;
	size_t next_count;
};

/* Keeps of an agenda what is not in date, in the arena; of `vessel` alone where it is not NULL. */
void first_word_not_in_date(const struct inventory *inventory,
    const struct agenda *agenda, struct arena *arena, struct first_word *out);

/* Divides what comes, sorted by day, into this week and the days after. */
void first_word_divide(const struct coming *coming, size_t count, struct first_word *out);

#endif
