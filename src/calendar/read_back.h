/* What a person did in a calendar program, read back as proposals: nothing is taken without a
 * yes. Pure. */
#ifndef BECKET_CALENDAR_READ_BACK_H
#define BECKET_CALENDAR_READ_BACK_H

#include "book/reminders.h"
#include "calendar/ics_read.h"
#include "calendar/reminders.h"

enum proposal_kind {
	PROPOSAL_DONE,  /* a to-do was ticked off: record its task on `day` */
	PROPOSAL_MOVED, /* a reminder stands on another day: plan it for `day` */
};

struct proposal {
	enum proposal_kind kind;
	const struct reminder *reminder; /* as it is now; borrowed */
	struct todo todo;                /* for PROPOSAL_DONE */
	day_t day;
	bool day_assumed; /* the program did not say when: today is taken */
	day_t given;      /* for PROPOSAL_MOVED: the day it was given out for */
	/* for PROPOSAL_MOVED: the book has another day than that, too, since then */
	bool both;
};

/* What is compared; all borrowed. */
struct read_back_sides {
	const struct ics_found *found; /* what was in the file */
	size_t found_count;
	const struct reminders *reminders; /* as they are now, events and to-dos both */
	const struct book_reminder *known; /* all the book ever gave out */
	size_t known_count;
	const struct book_given *given; /* by UID and SEQUENCE */
	size_t given_count;
	day_t today;
};

/* What came of it. */
struct read_back {
	struct proposal *proposals; /* by day, then key */
	size_t count;
	size_t same;    /* as it was given out */
	size_t older;   /* as it was given out once, before it changed in the book */
	size_t old;     /* given out once, and no longer wanted: done, or moved on */
	size_t foreign; /* not from this book */
	/* of this book, but with no day that could be taken: repeated, cancelled,
	 * without a date, moved to a day that is past, or the last day that serves moved */
	size_t odd;
};

/* Compares what was found with what was given out under its SEQUENCE (a program that
 * counts on when a person moves something is taken to have begun at the last given out):
 * what stands on that day was not moved, however the plan has changed since. What was
 * moved in the book, too, is marked, unless both came to the same day. Where the book
 * does not know what it gave out, as those of older programs don't, an older SEQUENCE is
 * no one's move. A tick on a day to come counts as today. In the arena. */
void read_back(
    const struct read_back_sides *sides, struct arena *arena, struct read_back *out);

/* What was given out, looked up: how a day found in a calendar, in a file or on a server,
 * is compared with what stood there, and with the book. Pure. */

/* All that was noted as given out, by UID and SEQUENCE; borrowed. */
struct given_list {
	const struct book_given *items;
	size_t count;
};

/* What was given out last under this SEQUENCE or a lower one: a program that counts on when a
 * person moves something is taken to have begun there. NULL when that is not known. */
const struct book_given *given_find(
    const struct given_list *list, const char *uid, int sequence);

/* True when something was given out of the same reminder after it. */
bool given_is_older(const struct given_list *list, const struct book_given *given);

/* True when a day was moved on both sides since they agreed on `given`, and not to the same
 * one: a person has to say which holds, reminder by reminder. */
bool given_both_moved(day_t given, day_t ours, day_t theirs);

#endif
