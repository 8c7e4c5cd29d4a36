/* What the files of the errands share. Not for others. */
#ifndef BECKET_WINTER_ERRANDS_INSIDE_H
#define BECKET_WINTER_ERRANDS_INSIDE_H

#include "base/numbers.h"
#include "winter/errands.h"

/* What is to be least: the cost, then `rank`, which packs the number of errands, the
 * sum of their days and the strangeness of their stations, from the most to the least
 * important. */
struct worth {
	int64_t minor;
	int64_t rank;
};

/* The weights within a rank: 2^22 of strangeness, 2^20 days, the rest for errands. */
#define RANK_DAY ((int64_t)1 << 22)
#define RANK_ERRAND ((int64_t)1 << 42)

/* More than any plan costs: the way is not open. */
#define WORTH_NEVER ((int64_t)1 << 60)

static inline struct worth
worth_add(struct worth a, struct worth b)
{
	return (struct worth){a.minor + b.minor, a.rank + b.rank};
}

static inline struct worth
worth_less_by(struct worth a, struct worth b)
{
	return (struct worth){a.minor - b.minor, a.rank - b.rank};
}

static inline bool
worth_below(struct worth a, struct worth b)
{
	return a.minor < b.minor || (a.minor == b.minor && a.rank < b.rank);
}

static inline bool
worth_never(struct worth worth)
{
	return worth.minor >= WORTH_NEVER;
}

static inline bool
worth_nothing(struct worth worth)
{
	return worth.minor == 0 && worth.rank == 0;
}

/* A day on which an errand to a stop may be run. */
struct errand_column {
	size_t stop;
	day_t day;
	day_t ready;
	int week;
	struct worth open; /* of running it at all */
};

/* Things that are alike in all that matters here. */
struct errand_class {
	const struct errand_thing *thing; /* one of them; borrowed */
	size_t count;
};

/* Days and things whose choices depend on each other. */
struct errand_table {
	const struct errand_stop *stops;
	const struct errand_column *columns;
	size_t column_count;
	const struct errand_class *classes; /* each is served by at least one column */
	size_t class_count;
	const struct worth *costs; /* of all things of a class on a column, at
				    * class * column_count + column; WORTH_NEVER: not open */
};

/* The days of a stop that could matter, and on which day something handed in on each
 * is ready. */
struct errand_timetable {
	day_t first;
	size_t count;
	day_t *ready; /* DAY_NONE where it is shut, or ready after the last day */
};

/* A thing with its place in the caller's list. */
struct errand_member {
	const struct errand_thing *thing;
	size_t index;
};

/* When a search is given up: for a set of days, and for things placed one by one, after so
 * many nodes; by branching within weekly limits, and for a set of days, too, after so many looks
 * at costs. A winter seldom needs ten nodes of the first. */
enum {
	OPEN_NODES = 20000,
	SINGLES_NODES = 50000,
	BRANCH_LOOKS = 40000000,
	OPEN_LOOKS = 200000000
};

/* How long a plan is sought: these, except in tests. */
struct errand_effort {
	size_t open_nodes;
	size_t nodes;
	size_t looks;
	size_t open_looks;
};

/* The working data of a plan. All memory is the scratch's, except the plan's. */
struct errand_working {
	const struct errand_stop *stops;
	size_t stop_count;
	const struct errand_thing *things;
	size_t thing_count;
	struct errand_timetable *timetables; /* one a stop */
	struct errand_member *members;       /* things alike stand together */
	struct errand_class *classes;
	size_t class_count;
	size_t *first_member; /* of each class */
	size_t *group;        /* of each stop: the lowest stop of its group */
	struct arena *scratch;
	struct arena *arena;
	struct errand_plan *plan;
	struct errand_effort effort;
	bool few; /* at most `most` errands */
	size_t most;
};

/* A table in the making; `numbers` has the index of each of its classes among all
 * classes. */
struct errand_making {
	struct errand_table table;
	struct errand_column *columns;
	struct errand_class *classes;
	struct worth *costs;
	size_t *numbers;
	bool weekly; /* a stop of it has a weekly limit */
};

/* Makes the timetables, the classes and the groups of stops. */
void errands_gather(struct errand_working *working);

/* The lowest stop of the group that a stop is in. */
size_t errands_group(const struct errand_working *working, size_t stop);

/* Makes the table of a group of stops. */
void errands_table(
    const struct errand_working *working, size_t group, struct errand_making *making);

/* How many more pieces the stop of a column takes in the column's week. */
static inline int64_t
table_room(const struct errand_table *table, size_t column)
{
	const struct errand_column *of = &table->columns[column];
	return errand_room(&table->stops[of->stop], of->week);
}

/* What a search found. */
struct errand_found {
	bool *open; /* one a column; room is the caller's */
	struct worth worth;
	struct worth bound;
	int64_t left_out; /* pieces that no week has room for; 0 without weekly limits */
	bool proven;
};

static inline struct worth
table_cost(const struct errand_table *table, size_t class, size_t column)
{
	return table->costs[class * table->column_count + column];
}

/* The best set of columns where no stop has a weekly limit. */
void errands_open(const struct errand_table *table, struct errand_effort effort,
    struct arena *scratch, struct errand_found *found);

/* The best placing of single things where stops have weekly limits: `column_of` gets
 * the column of each thing, class by class; NO_ERRAND for a thing that no week has
 * room for. Few things are placed one by one; where that search does not end within its
 * nodes (with 0 it only finds a plan), trips and days are decided under a bound of
 * charges. */
void errands_weekly(const struct errand_table *table, struct errand_effort effort,
    struct arena *scratch, size_t *column_of, struct errand_found *found);

/* The first half of that: `found` has the best set of columns without limits, and its
 * bound. */
void errands_singles(const struct errand_table *table, size_t most_nodes,
    struct arena *scratch, size_t *column_of, struct errand_found *found);

/* A search for few errands is given up after looking at so many cells of its table. */
enum { FEW_LOOKS = 200000000 };

/* The best set of at most `most` columns: the fewest pieces left out that law or maker
 * bind, then the fewest others, then the least worth. Weekly limits are not looked at. */
void errands_few(const struct errand_table *table, size_t most, struct arena *scratch,
    struct errand_found *found);

/* Places single things on open columns within the weekly limits: `column_of` as for
 * errands_weekly. It proves nothing about the result. */
void errands_few_weekly(const struct errand_table *table, const bool *open,
    struct arena *scratch, size_t *column_of);

/* Does the work of errands_plan with the stops, things, arena and effort in `working`. */
void errands_plan_working(struct errand_working *working, struct errand_plan *out);

#endif
