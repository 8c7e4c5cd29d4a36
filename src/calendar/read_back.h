/* What a person did in a calendar program, read back as proposals: nothing is taken without a
 * yes. Pure. */
#ifndef BECKET_CALENDAR_READ_BACK_H
#define BECKET_CALENDAR_READ_BACK_H

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
};

/* What else was in the file. */
struct read_back_rest {
	size_t same;    /* as it was given out */
	size_t old;     /* given out once, and no longer wanted: done, or moved on */
	size_t foreign; /* not from this book */
	size_t
	    odd; /* of this book, but with no day that could be taken: repeated, cancelled,
			 * without a date, or moved to a day that is past */
};

/* Compares what was found with the book's reminders as they are now, events and to-dos both,
 * and with all it ever gave out. By day, then key. A tick on a day to come counts as today. In
 * the arena; FAULT_MEMORY only. */
MUST_CHECK bool read_back(const struct ics_found *found, size_t found_count,
    const struct reminders *reminders, const struct book_reminder *known,
    size_t known_count, day_t today, struct arena *arena, struct proposal **out,
    size_t *count_out, struct read_back_rest *rest_out, struct fault *fault);

#endif
