/* Dates as a book last had them reckoned, and which of them a newer program, or other rule sheets,
 * moved. Plain values; whoever fills them owns the memory. */
#ifndef BECKET_GEAR_RECKONED_H
#define BECKET_GEAR_RECKONED_H

#include "dates/day.h"
#include "gear/words.h"

#include <stddef.h>
#include <stdint.h>

/* One task of one item, as it was reckoned. */
struct reckoned {
	const char *vessel;
	const char *tag;
	enum task task;
	enum state state;
	day_t due;          /* DAY_NONE when not known or nothing will lapse */
	day_t good_through; /* likewise; later than `due` only inside a window */
	const char *rule;   /* the id of the rule that binds; "" for none */
	const char *sheet;  /* the sheet it is in; "" for the item's own papers */
};

/* The day for which the dates of a vessel's gear were reckoned. */
struct reckoned_vessel {
	const char *name;
	day_t seen;
};

/* A vessel whose gear's dates may be others since something was written. */
struct touched_vessel {
	const char *name;
	bool there; /* she is in the book still */
};

/* By what they were reckoned. */
struct reckoned_by {
	const char
	    *figures; /* digest of kinds and sheets; NULL: no dates were ever kept */
	int meanings; /* the number of the meanings, as due/meanings.h has it */
	bool news;    /* the journal has entries since; reminders and feeds make none */
	/* the vessels that those entries speak of, or of whose gear they do: where it is now and
	 * where it was when dates were last kept; by name */
	const struct touched_vessel *touched;
	size_t touched_count;
	const char *const
	    *gone; /* tags that dates are kept of and that no item has since */
	size_t gone_count;
	const char *const
	    *sheets; /* names of all that a vessel follows at some time, each once */
	size_t sheet_count;
};

/* A date that is another by the new figures or meanings, with nothing done and on the same day. */
struct moved_date {
	const char *kind;   /* the item's */
	const char *serial; /* "" for none */
	day_t seen;         /* the day for which it was reckoned, then and now */
	bool was_asked;     /* there was such a task: `was` says of it */
	bool is_asked;      /* there is one now: `is` says of it */
	struct reckoned was;
	struct reckoned is; /* vessel, tag and task are there in any case */
};

/* What an upgrade changed. */
struct upgrade {
	bool kept;    /* dates were kept before, so that it can be told which moved */
	bool figures; /* other kinds or sheets */
	const char *const *meanings; /* what is read otherwise since, a sentence each */
	size_t meaning_count;
	const struct moved_date *moved; /* as the inventory has them */
	size_t moved_count;
	/* vessels of which something was written since their dates were last kept: what
	 * moved there can't be told */
	const char *const *not_told;
	size_t not_told_count;
	int64_t entry; /* the journal's entry that keeps it; 0: not kept there */
};

#endif
