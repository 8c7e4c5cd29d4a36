/* Inside the years: what may be done to an item, and what comes of it. Not for other
 * rooms. */
#ifndef BECKET_YEARS_MOVES_INSIDE_H
#define BECKET_YEARS_MOVES_INSIDE_H

#include "years/outlook_inside.h"

/* ---- The choices there are in one state of a unit ---- */

/* A state of a unit is an array: for each member a reference to its life (twice the
 * index of the life, plus one when it is a life of an heir), then the next winter in
 * which, as is decided beforehand, the unit goes ashore or the whole is renewed (0
 * while nothing is decided, the number of winters for never). */

/* What may be done in one winter, out of one state. */
struct course_move {
	const uint32_t *to;  /* the state it leads to */
	const uint8_t *acts; /* by member: tasks done, as bits */
	int station;         /* ARC_NO_TRIP for none */
	uint32_t lapses;     /* how many tasks it lets lapse */
	uint32_t soon;       /* and how many of these in the coming season */
	int64_t minor;
	uint32_t work;        /* how much is done, and how early */
	struct future *after; /* what may come of it; the caller fills it */
};

struct course_moves {
	struct course_move *items; /* owned */
	size_t count;
	size_t capacity;
};

/* The work of finding all moves out of one state. */
struct laying {
	struct unit *unit;
	struct arena *arena; /* for states, moves and acts */
	size_t winter;
	const uint32_t *from; /* the state that the moves start from */
	struct course_moves moves;
	uint8_t *act; /* room for one move's acts */
	uint32_t *to; /* and for the state it leads to */
	bool commits; /* true: the winter of the next visit is decided beforehand */
	uint32_t next_visit; /* that winter, after the move in hand */
};

/* Opens a laying; `from` is borrowed. Free its moves afterwards. */
void laying_open(struct unit *unit, struct arena *arena, size_t winter,
    const uint32_t *from, struct laying *out);

/* Finds all moves out of the state. Where some moves let nothing lapse, those that
 * let something lapse are left out. */
void laying_moves(struct laying *laying);

/* The life of a member after acts of a winter; when another thing takes its place, the
 * first life of its heir. */
uint32_t member_after(struct member *member, uint32_t ref, size_t winter, unsigned acts);

/* The tasks of a member that lapse in the season after a winter, only those that are
 * planned. */
unsigned member_fails(const struct member *member, uint32_t ref, size_t winter);

/* The acts that a member needs so that nothing lapses in the seasons up to but not
 * including that of winter `until`: tasks, or another thing in its place. A refit that its
 * owner makes when it is due is needed for the first of these seasons alone. */
unsigned member_needs(
    const struct member *member, uint32_t ref, size_t winter, size_t until);

/* Sets the acts when `whole` is done to the whole, ashore or not; parts that ride along
 * get what they need to last up to `until`. Refits that its owner makes when they are due
 * are added to both. */
void fill_parts(struct laying *laying, unsigned whole, bool ashore, size_t until);

/* The renewal, as a bit, where the owner refits a member when that is due, whether the
 * whole goes ashore or not; 0 where not. */
unsigned owners_refit(const struct member *member);

/* The acts of a member with the refit that its owner makes when it is due. */
unsigned with_refit(const struct laying *laying, size_t index, unsigned acts);

/* The cost of the acts in hand apart from the station's work, and the price of that
 * work at a station with the carriage to it. */
int64_t own_cost(const struct laying *laying);
int64_t station_cost(const struct laying *laying, size_t station);

/* ---- What may come of states, as the files of the outlook share it ---- */

/* What may come of a state: the ways on that let the fewest tasks lapse, without
 * those that another way makes useless. Futures with the same content are the same
 * object. */
struct future {
	struct future *next; /* the next one in the same slot of the hash table */
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

	const struct course *course; /* that begins with it, when asked for */
	const uint8_t *course_acts;
	size_t numbered; /* its number plus one while a course is written; 0 otherwise */
};

enum { FUTURE_SLOTS = 1 << 13 };

struct futures {
	struct future *slots[FUTURE_SLOTS];
	struct future end; /* nothing more to come */
};

/* Keeps the moves that let the fewest tasks lapse over all seasons, without those
 * that another makes useless. Returns that number of lapses. The `after` of each
 * move must be filled. */
uint32_t moves_sift(struct course_moves *moves);

/* The future made of these moves: the one that exists already, or a new one. */
struct future *futures_find(struct outlook_make *make, const struct course_moves *moves,
    size_t members, uint32_t lapses);

/* Writes the course that begins with a future, and keeps it in that future. */
void course_write(struct unit *unit, struct future *start, struct arena *scratch);

#endif
