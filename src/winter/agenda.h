/* The agenda: every obligation of a fleet in one flat list, with the winter it belongs
 * to. Pure, and flat in memory. */
#ifndef BECKET_WINTER_AGENDA_H
#define BECKET_WINTER_AGENDA_H

#include "due/due.h"

struct agenda_row {
	size_t item; /* index in the inventory */
	enum task task;
	/* no rule gives the item any day, routines apart: the row says no more than that it does
	 * not work. In date as `state` has it, of no task, grade or doer */
	bool no_task;
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
	/* the tag of the working part whose lack keeps the item from working; NULL or
	 * "" when it works. Borrowed from the inventory */
	const char *not_working;
	enum part_trouble trouble; /* what is wrong with that part */
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

/* The word for a row's task; "" where it is of none. */
const char *agenda_task_word(const struct agenda_row *row);

/* True for what is in date and does not work, for want of a part. */
bool agenda_lacks_part(const struct agenda_row *row);

/* All obligations of all items of the inventory as seen from `today`, and a row for each item
 * that has none and does not work. Gear in reserve is included, but for such rows; a caller that
 * asks whether all is in date leaves it out. */
void agenda_make(const struct due_engine *engine, day_t today, struct arena *arena,
    struct agenda *out);

/* The first word: the answer to a person who asks nothing in particular. It is put
 * together from answers that exist already: the agenda, what is ashore, and the
 * calendar's reminders. Of a fleet it comes some boats at a time. */

/* How many days ahead "this week" reaches, and on how many of the later days with
 * something to do that is told. */
enum { FIRST_WORD_WEEK = 7, FIRST_WORD_DAYS = 3 };

struct first_word {
	const char *vessel; /* the only one it is about; NULL for the fleet */
	size_t boats; /* in the fleet today, stores left out; of one vessel any number */
	day_t today;
};

/* Something to be done on a day, as a reminder has it. Borrowed. */
struct coming {
	day_t day;
	const char *key; /* the reminder's */
	const char *summary;
	const char *station;   /* "" for none */
	const size_t *vessels; /* whose it is: indices in the inventory */
	size_t vessel_count;
};

/* What some boats add to it. Borrowed. */
struct first_word_part {
	const size_t
	    *places; /* for each vessel of the inventory hers in the whole book */
	/* what has lapsed or has no known date, and once each thing that does not work
	 * since a part is gone or ashore, in the agenda's order; without routines and gear
	 * in reserve */
	const struct agenda_row *rows;
	size_t row_count;
	/* what is to be done, missed reminders included, by day, then key */
	const struct coming *coming;
	size_t coming_count;
};

/* Sets the rows of an agenda that are not in date or do not work, in the arena; those of
 * `vessel` alone where it is not NULL. */
void first_word_not_in_date(const struct inventory *inventory,
    const struct agenda *agenda, const char *vessel, struct arena *arena,
    struct first_word_part *out);

/* Whether it is to be done up to a week from today. */
bool coming_this_week(const struct first_word *word, const struct coming *coming);

/* A day after the week on which there is something to do. */
struct coming_day {
	day_t day;
	size_t count; /* of what is on it */
	const char
	    *key; /* of the first of that, by its bytes; in the arena, as the next */
	const char *summary;
};

/* The first of these days, of what was noted. Starts as `{ 0 }`. */
struct coming_days {
	struct coming_day items[FIRST_WORD_DAYS]; /* by day */
	size_t count;
};

/* Notes what comes after the week, in any order. False where it is on none of the first
 * days, so that it will not be told. */
bool coming_days_note(
    struct coming_days *days, const struct coming *coming, struct arena *arena);

#endif
