/* Inside the muster room: one vessel called over. Not for other rooms. */
#ifndef BECKET_MUSTER_ROLL_CALL_H
#define BECKET_MUSTER_ROLL_CALL_H

#include "muster/count.h"

/* A vessel being mustered. All borrowed. */
struct roll {
	const struct due_engine *engine;
	const struct vessel *vessel;
	const struct carriage *const *lines;
	size_t line_count;
	struct pieces pieces;
	struct muster_line *found; /* room for all lines; this and below in the scratch */
	size_t found_count;
	struct muster_shortage *shortages; /* room for all lines */
	size_t shortage_count;
	struct muster_lapse *lapses; /* room for all pieces */
	size_t lapse_count;
	int *quantities; /* room for all pieces: how many there are of each counted one */
	int *missing[2]; /* of every line, on a day and on the day after it */
};

/* Makes room in the arena for every line, with lists as long as there are pieces. */
void roll_room(struct roll *roll, struct arena *arena);

/* Musters one day into roll->found; true when all is right. */
bool roll_day(struct roll *roll, day_t day);

/* Lists in roll->lapses the pieces that count on `first`, in the order in which they stop.
 * What roll->found holds after it is another day's. */
void roll_lapses(struct roll *roll, day_t first);

/* Fills muster->silences: the subjects of which none of the lines is that hold for her on
 * muster->on, or may hold. */
void roll_silences(const struct roll *roll, struct arena *arena, struct muster *muster);

#endif
