/* Inside the rota: what its files share. Not for other rooms. */
#ifndef BECKET_ROTA_INSIDE_H
#define BECKET_ROTA_INSIDE_H

#include "base/numbers.h"
#include "rota/rota.h"
#include "winter/reach.h"

/* One thing done at the service: the piece's own, or on one of its parts. */
struct rota_work {
	size_t item;
	enum task task;
};

struct rota_works {
	struct rota_work *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* A piece that must go. */
struct rota_piece {
	size_t item;
	size_t vessel;
	struct rota_works works;
	const size_t *places; /* in the making's stations; in the arena */
	size_t place_count;
	bool needed;   /* a spare must stand in */
	bool given;    /* it was given out for its day, and stays on it */
	int bare_most; /* where not needed: of hers in the group, so many may be away */
	struct rota_line line;
};

/* The making of one rota. */
struct rota_making {
	const struct rota_ask *ask;
	/* over the copy, each item judged by itself: what is inside is renewed with
	 * the rest */
	struct due_engine apart;
	struct item *items;        /* a copy, serviced as planned */
	struct inventory serviced; /* with those items */
	struct due_engine done;    /* over them */
	struct station *stations;  /* the ask's, then the assumed one */
	size_t station_count;

	struct rota_pieces {
		/* In the arena: by base, kind, rating and quantity, then as the inventory
		 * has them. */
		struct rota_piece *items;
		size_t count;
		size_t capacity;
	} pieces;

	/* by item of the inventory: its index in `pieces` plus one, or 0 */
	size_t *piece_of_item;
	size_t *stored; /* spares in stores that are no part of another item */
	size_t stored_count;
	struct slot_taken *taken; /* ashore already, or planned before */
	size_t *taken_items;      /* the item of each */
	size_t taken_count;
	struct arena *arena;
	struct arena *scratch; /* emptied after every question to the engine */
};

/* Pieces of one group: a slice of the making's. */
struct rota_slice {
	struct rota_piece *pieces;
	size_t count;
};

/* Finds the pieces that must go, their days and the stations they may go to, in order;
 * and what is ashore already. */
void rota_gather(struct rota_making *making);

/* The slice of pieces from the one at `from` on that are planned together. */
struct rota_slice rota_slice_at(const struct rota_making *making, size_t from);

/* Finds which pieces of the slice a boat can do without: fills `needed` and
 * `bare_most`. */
void rota_find_needed(const struct rota_making *making, struct rota_slice slice);

/* Plans a slice; where not all can be in time, tries what would help. */
void rota_plan_group(
    struct rota_making *making, struct rota_slice slice, struct rota_group *out);

/* A slice as a problem for slots.h. */
struct rota_slots {
	struct slot_problem problem;
	struct slot_job *jobs;     /* the problem's; in the arena, as below */
	struct slot_spare *spares; /* the problem's, with room for `spare_room` */
	size_t spare_room;
};

/* Tries what would help with a group that is not possible as it is. */
void rota_find_fixes(struct rota_making *making, struct rota_slice slice,
    const struct rota_slots *slots, struct rota_group *group);

/* The day a work of a piece, done on `day`, is due again, before any window, its item judged
 * by itself, and renewed on that day where that is one of the piece's works: DAY_NEVER when
 * nothing will lapse; DAY_NONE when it is not in date even then, or that can't be told. A new
 * thing's date that is yet to be printed ends nothing: whoever buys it sees to that. */
day_t rota_again(const struct rota_making *making, const struct rota_piece *piece,
    struct rota_work work, day_t day);

/* Services the copy of the gear as planned, and sets on each line when it is due
 * again. */
void rota_service(struct rota_making *making, struct rota_piece *piece);

/* Musters every boat on every day of the plan. */
void rota_muster(const struct rota_making *making, struct rota *rota);

#endif
