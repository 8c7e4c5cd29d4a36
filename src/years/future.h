/* What may come of states, as the files of the outlook share it. Not for other rooms. */
#ifndef BECKET_YEARS_FUTURE_H
#define BECKET_YEARS_FUTURE_H

#include "years/moves.h"

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

/* Adds a figure to a digest (64-bit FNV-1a, a figure at a time). */
#define DIGEST_START 14695981039346656037U

static inline uint64_t
digest_mix(uint64_t digest, uint64_t figure)
{
	return (digest ^ figure) * 1099511628211U;
}

/* Keeps the moves that let fewest tasks lapse in all, less those that are spared. Returns the
 * fewest lapses. What comes after each is known. */
uint32_t moves_sift(struct course_moves *moves);

/* The future that these moves are: one that is known, or a new one. */
void futures_find(struct outlook_make *make, const struct course_moves *moves,
    size_t members, uint32_t lapses, struct future **out);

/* Writes the course that begins with a future; NULL, with the fault set, when it can't. */
const struct course *course_write(
    struct unit *unit, struct future *start, struct arena *scratch);

#endif
