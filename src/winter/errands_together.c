/* Trips to all stations looked at together: their weeks must have room for everything.
 *
 * Stop by stop a table is made of the least that trips come to by the charges, by two
 * numbers: the trips so far, and the room that they have at most. Room is counted in
 * parts (a hundred are needed at most, or one more; a stop's are rounded up, so that no
 * plan is lost). The entries of the last table with room for everything, but for what may
 * be left out, bound the branch again, by cost and by the number of trips: the charges
 * alone allow too few trips where their rooms do not add up to what is needed. */
#include "winter/limits_inside.h"

#include <stdlib.h>
#include <string.h>

/* Everything needs so many parts of room at most, and perhaps a last one in part. */
enum { PARTS_MOST = 100 };

/* The numbers of trips that a branch allows to a stop. */
struct limit_stop_range {
	size_t stop;
	size_t fewest;
	size_t most;
};

/* The most room, in parts and up to `most` of them, that so many trips to a stop have. */
static size_t
parts_of(const struct together *together, size_t stop, size_t trips, size_t most)
{
	int64_t room = together->capacity[together->limits->stops[stop].row + trips];
	int64_t parts = (room + together->part - 1) / together->part;
	return parts < (int64_t)most ? (size_t)parts : most;
}

/* Adds one more stop to the table of the least that trips with so much room come to:
 * `reach` is the table of the stops before it, `next` becomes the one that includes
 * it. */
static void
reach_stop(const struct together *together, const int64_t *gains,
    struct limit_stop_range of, size_t parts, size_t most, const int64_t *reach,
    int64_t *next)
{
	size_t cells = (parts + 1) * (most + 1);
	for (size_t i = 0; i < cells; i++) {
		next[i] = WORTH_NEVER;
	}
	for (size_t n = of.fewest; n <= of.most; n++) {
		size_t more = parts_of(together, of.stop, n, parts);
		for (size_t i = 0; gains[n] < WORTH_NEVER && i < cells; i++) {
			if (reach[i] >= WORTH_NEVER) {
				continue;
			}
			size_t room = i / (most + 1) + more;
			size_t trips = i % (most + 1) + n;
			int64_t *cell =
			    &next[LESSER(room, parts) * (most + 1) + LESSER(trips, most)];
			*cell = LESSER(*cell, reach[i] + gains[n]);
		}
	}
}

const int64_t *
together_least(struct together *together, const struct charges *charges,
    const struct limit_branch *branch, int64_t left_out, size_t most)
{
	const struct limits *limits = together->limits;
	int64_t needed = together->needed - left_out;
	size_t parts = (size_t)((needed + together->part - 1) / together->part);
	size_t cells = (parts + 1) * (most + 1);
	int64_t *reach = together->reach;
	int64_t *next = together->reach + cells;
	for (size_t i = 0; i < cells; i++) {
		reach[i] = i == 0 ? 0 : WORTH_NEVER;
	}
	for (size_t s = 0; s < limits->stop_count; s++) {
		size_t last = last_week(limits, s);
		const struct limit_stop_range of = {
		    s, branch->fewest[last], branch->most[last]};
		reach_stop(together, &charges->gains[limits->stops[s].row], of, parts,
		    most, reach, next);
		memcpy(reach, next, cells * sizeof *reach);
	}
	return &reach[parts * (most + 1)];
}

/* The largest rooms first. */
static int
compare_rooms(const void *left, const void *right)
{
	return ORDER(*(const int64_t *)right, *(const int64_t *)left);
}

/* Adds up the largest rooms of each stop. */
static int64_t
fill_capacity(struct together *together, int64_t *rooms)
{
	const struct limits *limits = together->limits;
	int64_t measure = 0;
	for (size_t s = 0; s < limits->stop_count; s++) {
		const struct limit_stop *stop = &limits->stops[s];
		int64_t *capacity = &together->capacity[stop->row];
		for (size_t w = 0; w < stop->count; w++) {
			rooms[w] = limits->weeks[stop->first + w].room;
			measure = common_measure(rooms[w], measure);
		}
		qsort(rooms, stop->count, sizeof *rooms, compare_rooms);
		for (size_t n = 1; n <= stop->columns; n++) {
			capacity[n] =
			    capacity[n - 1] + (n <= stop->count ? rooms[n - 1] : 0);
		}
	}
	return GREATER(measure, 1);
}

void
together_make(const struct limits *limits, struct arena *scratch, struct together *out)
{
	size_t columns = limits->columns;
	size_t cells = (PARTS_MOST + 2) * (columns + 1);
	int64_t *rooms = ARENA_MANY(scratch, int64_t, columns);
	*out = (struct together){
	    .limits = limits,
	    .capacity = ARENA_MANY(scratch, int64_t, columns + limits->stop_count),
	    .reach = ARENA_MANY(scratch, int64_t, 2 * cells),
	};
	for (size_t j = 0; j < limits->classes; j++) {
		out->needed += limits->count[j] * limits->pieces[j];
	}
	out->part = fill_capacity(out, rooms);
	if (out->needed / out->part > PARTS_MOST) {
		out->part = (out->needed + PARTS_MOST - 1) / PARTS_MOST;
	}
}
