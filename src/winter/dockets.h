/* Dockets: what is handed in at one station on one day, or has been there since that
 * day, of all vessels together. Pure; made from shore lists and borrowing from them. */
#ifndef BECKET_WINTER_DOCKETS_H
#define BECKET_WINTER_DOCKETS_H

#include "winter/winter.h"

/* One thing handed over: an item, with its tasks and the parts renewed while it is
 * there. */
struct docket_piece {
	size_t item;                           /* index in the inventory */
	const struct shore_line *const *lines; /* its own tasks first, then its parts' */
	size_t line_count; /* 0 for what is ashore already, else 1 or more */
	size_t own_count;  /* lines of the item itself */
};

struct docket {
	const char *station; /* its name; "" for one that is still to be found */
	bool landed;         /* its pieces are ashore already */
	bool assumed;        /* its turn-round is assumed */
	day_t hand_in;       /* or the day they went ashore, DAY_NONE when not known */
	day_t collect;       /* the latest of the trips in it; DAY_NONE or DAY_NEVER when
			      * not known */
	const struct docket_piece *pieces; /* by vessel, then as the inventory has them */
	size_t piece_count;
	size_t count;        /* how many pieces it is about, as shore_pieces counts */
	size_t inside;       /* how many of them are parts renewed inside others */
	size_t vessel_count; /* how many vessels they belong to */
	unsigned hazards;    /* 1 << enum hazard of what is in it; 0 where nobody told */
};

struct dockets {
	const struct docket *items; /* by day, then station */
	size_t count;
};

/* Gathers the trips of some shore lists into dockets, in `arena`. A part that goes
 * with its parent is in the parent's piece; a part whose parent is not handed in with
 * it is a piece of its own. There is no docket where nothing is to be handed in, nor
 * for a trip that is given out only from a later day on. */
void dockets_make(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct arena *arena, struct dockets *out);

/* The same for what is ashore already, by station and the day it went there. Parts
 * that are there with their parent are pieces, too. */
void dockets_landed(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct arena *arena, struct dockets *out);

#endif
