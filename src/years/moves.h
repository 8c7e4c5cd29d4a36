/* Inside the outlook: the choices there are in one state of a unit. */
#ifndef BECKET_YEARS_MOVES_H
#define BECKET_YEARS_MOVES_H

#include "years/outlook_making.h"

/* A state of a unit: the lives of all members, twice the index and one more for an heir's; and
 * behind them the winter it has been decided to go ashore in next, or to renew the whole in
 * (0 while nothing is decided, the number of winters for never). */

/* What may be done in one winter, out of one state. */
struct course_move {
	const uint32_t *to;  /* the state it leads to */
	const uint8_t *acts; /* by member: tasks done, as bits */
	int station;         /* ARC_NO_TRIP for none */
	uint32_t lapses;     /* how many tasks it lets lapse */
	int64_t minor;
	uint32_t work;        /* how much is done, and how early */
	struct future *after; /* what may come of it; filled by who follows it */
};

struct course_moves {
	struct course_move *items; /* owned */
	size_t count;
	size_t capacity;
};

/* A state being left. */
struct laying {
	struct unit *unit;
	struct arena *arena; /* for states, moves and acts */
	size_t winter;
	const uint32_t *from; /* the state gone out from */
	struct course_moves moves;
	uint8_t *act;        /* room for one move's acts */
	uint32_t *to;        /* and for the state it leads to */
	bool commits;        /* it is decided beforehand when the next visit is */
	uint32_t next_visit; /* and that is, after the move in hand */
};

/* Opens a laying; `from` is borrowed. Free its moves. */
void laying_open(struct unit *unit, struct arena *arena, size_t winter,
    const uint32_t *from, struct laying *out);

/* All moves out of the state, those left out that let something lapse where others do not. */
MUST_CHECK bool laying_moves(struct laying *laying, struct fault *fault);

/* The life a member leads after tasks were done; renewed, the first of an heir. */
MUST_CHECK bool member_after(struct member *member, uint32_t ref, size_t winter,
    unsigned tasks, uint32_t *out, struct fault *fault);

/* What fails of a member in a season, of the work that is planned. */
unsigned member_fails(const struct member *member, uint32_t ref, size_t winter);

/* What must be done to a member so that it lasts through the seasons up to but not `until`. */
unsigned member_needs(
    const struct member *member, uint32_t ref, size_t winter, size_t until);

/* Sets what becomes of the parts when the whole has `whole` done to it, ashore or not; those
 * that ride along get what they need to last up to `until`. */
void fill_parts(struct laying *laying, unsigned whole, bool ashore, size_t until);

/* What the acts in hand cost beside the station's work, and what counts for them at a station. */
int64_t own_cost(const struct laying *laying);
int64_t station_cost(const struct laying *laying, size_t station);

#endif
