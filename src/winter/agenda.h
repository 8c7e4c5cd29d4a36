/* The agenda: every obligation of a fleet in one flat list, with the winter it belongs
 * to. Pure, and flat in memory. */
#ifndef BECKET_WINTER_AGENDA_H
#define BECKET_WINTER_AGENDA_H

#include "due/due.h"

struct agenda_row {
	size_t item; /* index in the inventory */
	enum task task;
	enum state state;
	day_t due;          /* DAY_NONE when unknown or when nothing will lapse */
	day_t good_through; /* as in struct obligation */
	enum grade grade;
	enum doer doer;
	const char *rule;  /* the binding rule's id; "" when the date is unknown. Borrowed
			      * from the rulebook, or static */
	const char *sheet; /* the sheet it is in; "" for the item's own papers */
	enum anchor clock; /* what the binding clock counts from */
	int winter;        /* 0 for now or no winter, as winter_of_obligation */
	bool routine;
	bool asks;
	/* the tag of the working part whose lack keeps the item from working; NULL or
	 * "" when it works. Borrowed from the inventory */
	const char *not_working;
	const char *missing; /* the name of what is not known: "made"; "" when nothing */
};

struct agenda {
	/* in the arena; lapsed and unknown first, then by due day, then as the
	 * inventory has them */
	struct agenda_row *items;
	size_t count;
	size_t capacity;
};

/* The main sort key of a row; rows with equal keys are in the inventory's order. With
 * it the agendas of several parts of a book can be merged. */
int64_t agenda_key(const struct agenda_row *row);

/* All obligations of all items of the inventory as seen from `today`. Gear in reserve
 * is included; a caller that asks whether all is in date leaves it out. */
void agenda_make(const struct due_engine *engine, day_t today, struct arena *arena,
    struct agenda *out);

/* The first word: the answer to a person who asks nothing in particular. It is put
 * together from answers that exist already: the agenda, what is ashore, and the
 * calendar's reminders. */

/* Something to be done on a day, as a reminder has it. Borrowed. */
struct coming {
	day_t day;
	const char *summary;
	const char *station;   /* "" for none */
	const size_t *vessels; /* whose it is: indices in the inventory */
	size_t vessel_count;
};

/* How many days ahead "this week" reaches, and on how many of the later days with
 * something to do that is shown. */
enum { FIRST_WORD_WEEK = 7, FIRST_WORD_DAYS = 3 };

struct first_word {
	const char *vessel; /* the only one it is about; NULL for the fleet */
	size_t boats;       /* in the fleet today, stores left out */
	day_t today;
	/* what has lapsed or has no known date, in the agenda's order; without
	 * routines and gear in reserve. In the arena */
	const struct agenda_row *rows;
	size_t row_count;
	/* by day: what is to be done up to a week from today, missed reminders
	 * included */
	const struct coming *week;
	size_t week_count;
	/* what falls on the next FIRST_WORD_DAYS days on which there is something */
	const struct coming *next;
	size_t next_count;
};

/* Keeps the rows of an agenda that are not in date, in the arena; those of `vessel`
 * alone where it is not NULL. */
void first_word_not_in_date(const struct inventory *inventory,
    const struct agenda *agenda, struct arena *arena, struct first_word *out);

/* Divides reminders, sorted by day, into this week and the days after it. */
void first_word_divide(const struct coming *coming, size_t count, struct first_word *out);

#endif
