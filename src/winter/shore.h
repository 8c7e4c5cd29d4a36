/* What the files of the winter room share. Not for other rooms. */
#ifndef BECKET_WINTER_SHORE_H
#define BECKET_WINTER_SHORE_H

#include "base/numbers.h"
#include "winter/errands.h"
#include "winter/reach.h"
#include "winter/winter.h"

/* One vessel's winter being planned. All borrowed but `list`, which is filled. */
struct planning {
	const struct due_engine *engine;
	const struct vessel *vessel;
	const struct station *stations;
	size_t station_count;
	const struct station
	    *assumed; /* ASSUMED_STATION, with the days on which they go */
	day_t today;
	int lead_days; /* this and the next two: as in struct winter_request */
	const struct settled_hand_in *settled;
	size_t settled_count;
	size_t most_trips;     /* of those who share them; ERRANDS_ANY for any number */
	struct arena *arena;   /* where the list lives */
	struct arena *passing; /* emptied once those who share trips are planned */
	struct arena *scratch; /* reset whenever an item is done */
	struct shore_list *list;
	day_t first_day; /* on which anything may be handed in */
	day_t back_by;   /* fitting-out, less her margin */
	/* the first day of her winter, from today, on which each station is open;
	 * DAY_NEVER for none */
	day_t *first_open;
	/* of each station, to be back by `back_by`; DAY_NONE for none */
	day_t *last_hand_in;
};

/* A station to which something may go, and when. */
struct way {
	size_t station;   /* index, or NO_STATION */
	const char *name; /* "" for "an approved station" */
	day_t first;      /* not handed in before it */
	day_t last;       /* the last hand-in; some days between may not serve */
	int strangeness;  /* 0 where it went last, 1 the base's own, 2 any other */
};

/* An item that must be handed in, with all ways to do so. */
struct hand_in {
	struct shore_line line;
	const struct way *ways; /* in the arena */
	size_t way_count;       /* 1 or more */
};

struct hand_ins {
	struct hand_in *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* The first day of the winter on which doing the task carries her through the season, or
 * DAY_NONE with `*carries_out` false when no day up to `last` does, and DAY_NONE with
 * `*carries_out` true when what will be printed on a new thing decides. */
void find_not_before(const struct planning *planning, size_t item, enum task task,
    day_t last, day_t *not_before_out, bool *carries_out);

/* Fills first_day, back_by, first_open and last_hand_in. */
void ready_stations(struct planning *planning);

/* Finds the stations to which a line may go and the days on which it may be handed in
 * there. False when no day of any serves, and no person's day ahead keeps it at one:
 * then `out` has all ways, whatever their days. */
bool find_ways(
    const struct planning *planning, struct shore_line line, struct hand_in *out);

/* The ways of an item, whatever the days, in the passing arena; one way to an assumed station
 * where no station of the book serves. */
void list_ways(const struct planning *planning, const struct item *item,
    struct way **ways_out, size_t *count_out);

/* The last day, up to a given one, on which gear of a boat in use all year may go one way: the
 * station takes it in on that day, and she is not let until it can be fetched. DAY_NONE when
 * there is none from today on. */
day_t last_between_bookings(
    const struct planning *planning, const struct way *way, day_t last);

/* Sets where a line that waits may go, of a boat in use all year, and by when, to be back by its
 * due day: where it went last, else one of her base's, else any. Leaves it alone where no day of
 * any serves, and where it is due so late that nobody is told of it within twelve months. */
void waits_find_station(const struct planning *planning, struct shore_line *line);

/* What the station of a way asks for work. */
struct way_price {
	int64_t minor;  /* for all pieces; -1 when not known */
	int from_years; /* the age from which that holds; 0 from new, or not by age */
	/* it depends on an age that is not known: the dearest is taken */
	bool age_missed;
};

/* What the station of a way asks for a line's work when the item is handed in on a
 * day: by its list and the item's age on that day, or what the last record there says. */
struct way_price way_price(const struct planning *planning, const struct shore_line *line,
    const struct way *way, day_t hand_in);

/* The first day after a given one on which that price may differ, because the item has
 * reached an age from which the station lists a price for its kind, whatever the task;
 * DAY_NEVER when there is none, or its age or the station is not known. */
day_t way_price_changes(const struct planning *planning, const struct shore_line *line,
    const struct way *way, day_t after);

/* Notes on a line why no station of the book is approved for its item, where the
 * item's make is the reason. */
void note_make(const struct planning *planning, struct shore_line *line);

/* Puts a line that no day of its ways serves into `cannot`: names the first day its
 * item could be back, why that is too late, and what would help. */
void add_cannot(const struct planning *planning, const struct hand_in *hand_in);

/* Puts a line for which no week of its stations has room into `cannot`; with `trips`,
 * a line for which they would have to make more trips than they will. Where a person
 * gave its hand-in up, the line says that instead. */
void add_no_room(
    const struct planning *planning, const struct hand_in *hand_in, bool trips);

/* True when the item is ashore: the station has it in hand. A part that stayed aboard
 * when the rest was landed is not. */
bool is_ashore(const struct planning *planning, size_t item);

/* Adds the lines for what is ashore among the items from `first` to before `end`: one
 * for each such item, with the day it can be fetched. */
void gather_ashore(const struct planning *planning, size_t first, size_t end);

/* Notes that a station's work on an item that is ashore is due this winter. */
void add_ashore_task(const struct planning *planning, const struct shore_line *line);

/* Sets the price of a line to what the station that has its item in hand asks for the
 * work, at the item's age on the day it was landed (today's age where that is not
 * known). A renewal, or work for which the station has no price, keeps the price it
 * has. */
void price_ashore(const struct planning *planning, struct shore_line *line);

/* The line of an item that is ashore in its own right, or NULL. */
struct ashore_line *find_ashore(const struct planning *planning, size_t item);

/* A part or a self-done task that waits to see what becomes of the rest. */
struct pending {
	struct shore_line line;
	enum doer doer;
};

/* One vessel's obligations on their way to their places. */
struct sorting {
	struct planning *planning;
	/* what this winter does to each item of the inventory; shared by all vessels */
	unsigned char *marks;
	/* in the passing arena, room for every obligation of the vessel */
	struct pending *pending;
	size_t pending_count;
	/* of the item at hand, what the station that has it is to do */
	struct pending in_hand[TASK_COUNT];
	size_t in_hand_count;
	struct hand_ins hand_ins;
};

/* What this winter does to each item, indexed like the inventory. */
enum {
	WINTER_ASHORE = 1, /* handed in for a task of its own, or ashore for it already */
	WINTER_SERVICE = 2,  /* and that task is its service */
	WINTER_REPLACED = 4, /* bought new: its other tasks and its parts fall away */
};

/* An item of the inventory. */
static inline const struct item *
planning_item(const struct planning *planning, size_t index)
{
	return &planning->engine->inventory->items[index];
}

/* The station that a way leads to. */
static inline const struct station *
way_station(const struct planning *planning, const struct way *way)
{
	return way->station == NO_STATION ? planning->assumed
					  : &planning->stations[way->station];
}

/* Adds a line's price to the list's sum, or counts it among those without one. */
void add_price(struct shore_list *list, const struct shore_line *line);

/* Marks the line of a station's task among `all` as counted when a record of another
 * of them, for the same item and not itself counted, counts as this task. */
void mark_counted(const struct pending *all, size_t count, struct pending *of);

/* Puts every obligation of this winter in its part of the list, except parts that go
 * with their parent. */
void place_pending(struct sorting *sorting);

/* Puts every obligation of a vessel in its place, except those that are to be handed
 * in: for these it finds the ways. */
void shore_sort(struct sorting *sorting);

/* When the trips are chosen: sends parts along with the items they are in, and
 * completes the list. */
void shore_finish(struct sorting *sorting);

/* What is to come to a station already in one week. */
struct station_load {
	size_t station; /* index */
	struct errand_load load;
};

/* The loads of all stations. Starts as `{ 0 }`. */
struct station_loads {
	struct station_load *items; /* owned */
	size_t count;
	size_t capacity;
};

/* Chooses the trips of vessels that share them, writes them to their lists, and adds
 * them to the loads. */
void gather_trips(
    const struct sorting *sortings, size_t count, struct station_loads *loads);

#endif
