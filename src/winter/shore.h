/* Inside the winter room: what its files share. Not for other rooms. */
#ifndef BECKET_WINTER_SHORE_H
#define BECKET_WINTER_SHORE_H

#include "winter/winter.h"

/* One vessel's winter being planned. All borrowed but `list`, which is filled. */
struct planning {
	const struct due_engine *engine;
	const struct vessel *vessel;
	const struct station *stations;
	size_t station_count;
	day_t today;
	struct arena *arena;   /* where the list lives */
	struct arena *scratch; /* reset whenever an item is done */
	struct shore_list *list;
};

/* An item that must be handed in, with the days on which it may be. */
struct hand_in {
	struct shore_line line;
	size_t station; /* index, or NO_STATION */
	const char *station_name;
	struct station taken; /* the station, or the assumed one */
	day_t first;          /* open days from here */
	day_t last;           /* to here */
};

struct hand_ins {
	struct hand_in *items; /* in the arena */
	size_t count;
	size_t capacity;
};

MUST_CHECK bool lines_add(struct arena *arena, struct shore_lines *lines,
    const struct shore_line *line, struct fault *fault);

/* The first day of the winter on which doing the task carries her through the season, or
 * DAY_NONE with `*carries_out` false when no day up to `last` does, and DAY_NONE with
 * `*carries_out` true when what will be printed on a new thing decides. */
MUST_CHECK bool find_not_before(const struct planning *planning, size_t item,
    enum task task, day_t last, day_t *not_before_out, bool *carries_out,
    struct fault *fault);

/* When a task done on `day` is due again; DAY_NONE when that can't be known. */
MUST_CHECK bool find_due_again(const struct planning *planning, size_t item,
    enum task task, day_t day, day_t *due_out, struct fault *fault);

/* Chooses a station for a line and finds the days it may be handed in, or puts the line among
 * those that can't be done. */
MUST_CHECK bool choose_station(const struct planning *planning, struct shore_line line,
    struct hand_ins *hand_ins, struct fault *fault);

/* True when the item is ashore: the station has it in hand. A part that stayed aboard when
 * the rest was landed is not. */
bool is_ashore(const struct planning *planning, size_t item);

/* Makes room for the lines of what is ashore among the items from `first` up to `end`, one
 * an item that is ashore, with the day it can be fetched. */
MUST_CHECK bool gather_ashore(
    const struct planning *planning, size_t first, size_t end, struct fault *fault);

/* Notes that a station's work on an item that is ashore is due this winter. */
void add_ashore_task(const struct planning *planning, const struct shore_line *line);

/* The line of an item that is ashore in its own right, or NULL. */
const struct ashore_line *find_ashore(const struct planning *planning, size_t item);

/* Gathers hand-ins into the fewest trips to each station, each as early as possible, and
 * writes them to the list. */
MUST_CHECK bool gather_trips(
    const struct planning *planning, struct hand_ins *hand_ins, struct fault *fault);

#endif
