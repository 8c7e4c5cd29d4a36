/* The muster while gear is ashore for its service and comes back: what is away does not count,
 * what stands in for it does, and what is back counts as serviced. Pure. */
#ifndef BECKET_MUSTER_LEAVE_H
#define BECKET_MUSTER_LEAVE_H

#include "muster/muster.h"

/* What is aboard in the place of a piece that is away. */
enum leave_cover {
	LEAVE_BARE,  /* nothing */
	LEAVE_SPARE, /* a spare of the book, in date or not */
	LEAVE_HIRED, /* something not in the book, as good as the piece and in date */
};

/* One piece of hers that goes ashore with all its parts. */
struct muster_leave {
	size_t item;
	day_t hand_in; /* away from this day */
	/* aboard again on this one; the day of the hand-in for a piece that is
	 * serviced where it is */
	day_t collect;
	enum leave_cover cover;
	size_t spare; /* the item, with LEAVE_SPARE. A part of the piece is replaced by a
			* part of the spare's of the same kind, one at most of each */
};

/* What of a vessel's goes ashore in some days. All borrowed. */
struct muster_leaves {
	size_t vessel;
	struct span days; /* that begin on or before all the hand-ins */
	const struct muster_leave *items;
	size_t count;
	/* the engine over the same inventory, in which what is on leave was serviced on its
	 * hand-in day; from its collect on a piece counts as that engine has it */
	const struct due_engine *done;
};

/* Musters the vessel as muster_vessel does, on every one of those days. */
void muster_on_leave(const struct due_engine *engine, const struct muster_leaves *leaves,
    struct arena *arena, struct muster *out);

/* What of hers a vessel can do without for a time. */
struct muster_spareable {
	/* in the arena, one a piece asked about: she is short without it alone */
	bool *needed;
	int most; /* so many of the others can be away at once, whichever they are */
};

/* What is asked about: pieces of one kind. All borrowed. */
struct muster_sparing {
	size_t vessel;
	struct span days;
	struct muster_items pieces; /* hers, perhaps to be away */
	/* taken to be aboard and in date on all those days but when they are the ones away */
	struct muster_items kept;
};

/* Finds it: on none of the days may a line that takes the kind be short, or not be told, while they
 * are away. Without carriage lines all are needed, for nobody can tell. Where there are too many
 * to try, fewer are said to be spareable than are. */
void muster_spareable(const struct due_engine *engine, const struct muster_sparing *asked,
    struct arena *arena, struct muster_spareable *out);

/* True when one of a vessel's carriage lines takes gear of both kinds: then what she can do
 * without of one hangs on what is there of the other. */
bool muster_kinds_meet(
    const struct due_engine *engine, size_t vessel, const char *a, const char *b);

/* The last day up to which an item counts from a day on, as if it were aboard a vessel: a spare
 * that may be lent to her. DAY_NONE when it does not count on that day, DAY_NEVER when
 * nothing ends it. */
void muster_counts_through(const struct due_engine *engine, size_t item, size_t vessel,
    day_t day, struct arena *arena, day_t *last_out);

#endif
