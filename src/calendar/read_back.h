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

/* What is compared; all borrowed. */
struct read_back_sides {
	const struct ics_found *found; /* what was in the file */
	size_t found_count;
	const struct reminders *reminders; /* as they are now, events and to-dos both */
	const struct book_reminder *known; /* all the book ever gave out */
	size_t known_count;
	day_t today;
};

/* What came of it. */
struct read_back {
	struct proposal *proposals; /* by day, then key */
	size_t count;
	size_t same;    /* as it was given out */
	size_t old;     /* given out once, and no longer wanted: done, or moved on */
	size_t foreign; /* not from this book */
	/* of this book, but with no day that could be taken: repeated, cancelled,
	 * without a date, or moved to a day that is past */
	size_t odd;
};

/* Compares what was found with the book's reminders. A tick on a day to come counts as today.
 * In the arena; FAULT_MEMORY only. */
MUST_CHECK bool read_back(const struct read_back_sides *sides, struct arena *arena,
    struct read_back *out, struct fault *fault);

#endif
