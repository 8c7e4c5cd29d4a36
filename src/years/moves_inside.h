/* Inside the years: what may be done to an item, and what comes of it. Not for other rooms. */
#ifndef BECKET_YEARS_MOVES_INSIDE_H
#define BECKET_YEARS_MOVES_INSIDE_H

#include "years/outlook_inside.h"

/* ---- The choices there are in one state of a unit ---- */

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
void laying_moves(struct laying *laying);

/* The life a member leads after tasks were done; renewed, the first of an heir. */
uint32_t member_after(struct member *member, uint32_t ref, size_t winter, unsigned tasks);

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

/* ---- What may come of states, as the files of the outlook share it ---- */

/* What may come of a state: the ways on that let fewest tasks lapse, none of which another makes
 * useless. Two that look the same are the same. */
struct future {
	struct future *next; /* of those with a like digest */
	uint64_t digest;
	size_t members;

	struct future_arc {
		struct future *to;
		const uint8_t *acts;
		int station;
		uint32_t work;
		int64_t minor;
	} * arcs;

	size_t count;
	uint32_t lapses; /* of the ways on, all seasons together */

	const struct course *course; /* of what begins with it, when asked for */
	const uint8_t *course_acts;
	size_t numbered; /* its number, one up, while a course is written; 0 otherwise */
};

enum { FUTURE_SLOTS = 1 << 13 };

struct futures {
	struct future *slots[FUTURE_SLOTS];
	struct future end; /* nothing more to come */
};

/* Keeps the moves that let fewest tasks lapse in all, less those that are spared. Returns the
 * fewest lapses. What comes after each is known. */
uint32_t moves_sift(struct course_moves *moves);

/* The future that these moves are: one that is known, or a new one. */
struct future *futures_find(struct outlook_make *make, const struct course_moves *moves,
    size_t members, uint32_t lapses);

/* Writes the course that begins with a future into it. */
void course_write(struct unit *unit, struct future *start, struct arena *scratch);

#endif
