/* Few things placed one by one within weekly limits, with a bound.
 *
 * Depth first: things that must be back first come first. Each thing tries its days in
 * order: those that are open already or in the plan without limits before others, and
 * of them the one that adds least first. In the end it is left out, which counts for
 * more than all else. A branch ends where what is placed, with the least that the rest
 * costs, is no better than the best plan; the search ends where that plan meets a
 * bound: the plan without limits, or the errands that the pieces bound to one stop
 * need at so many a week. Of things alike each goes on no earlier day than the one
 * before it. After a fixed number of nodes the search is given up, but not before
 * there is a plan. */
#include "winter/errands_inside.h"

#include <stdlib.h>
#include <string.h>

/* One thing of a class. */
struct single {
	size_t class;
	size_t index; /* in the order of the classes */
	day_t back_by;
};

/* What is left of a station's weekly limit. */
struct room {
	size_t stop;
	int week;
	int64_t pieces;
};

/* A place in an order of columns: first those that are open or in the plan without
 * limits, and of them the one that adds least. */
struct turn {
	bool strange;
	struct worth added;
	size_t column; /* NO_ERRAND before the first */
};

/* What is decided at one thing. */
struct level {
	struct worth sum; /* of all before it */
	int64_t left_out; /* pieces of those before it for which there is no room */
	struct turn turn; /* the column it is on */
	bool nowhere;     /* all columns were tried */
};

struct singles_search {
	const struct errand_table *table;
	const bool *guide;     /* the columns of the best plan without limits */
	struct single *things; /* in the order in which they are placed */
	size_t thing_count;
	struct worth *rest;   /* the least that the things from here on cost */
	struct level *levels; /* one a thing, and one for the end */
	struct room *rooms;
	size_t *room_of; /* index in the rooms, one a column; NO_ERRAND: no limit */
	size_t *users;   /* how many things are on a column */
	size_t *best;    /* the best plan so far, by the things' own order */
	struct worth worth;
	int64_t left_out; /* pieces, in that plan; INT64_MAX before there is one */
	bool any;
	struct worth bound; /* of plans that leave nothing out */
	size_t most_nodes;
};

/* The bounds are on cost and number of errands alone, so days and strangeness are left
 * out. */
static struct worth
coarse(struct worth worth)
{
	return (struct worth){worth.minor, worth.rank / RANK_ERRAND};
}

static struct worth
cost_of_one(const struct errand_table *table, size_t class, size_t column)
{
	struct worth cost = table_cost(table, class, column);
	int64_t count = (int64_t)table->classes[class].count;
	return worth_never(cost) ? cost
				 : (struct worth){cost.minor / count, cost.rank / count};
}

/* Whether a thing may go on a column, given what is placed so far. Once there is a
 * plan, each of several things alike goes on no earlier column than the one before it:
 * other orders give the same plan. */
static bool
fits(const struct singles_search *search, size_t at, size_t column)
{
	const struct single *single = &search->things[at];
	const struct errand_class *class = &search->table->classes[single->class];
	if (worth_never(table_cost(search->table, single->class, column))) {
		return false;
	}
	if (search->any && at > 0 && search->things[at - 1].class == single->class) {
		size_t before = search->levels[at - 1].turn.column;
		if (before == NO_ERRAND || before > column) {
			return false;
		}
	}
	size_t room = search->room_of[column];
	return room == NO_ERRAND || search->rooms[room].pieces >= class->thing->pieces;
}

/* Puts a thing on the column of its turn, or takes it away again. */
static void
put(struct singles_search *search, size_t at, bool there)
{
	size_t column = search->levels[at].turn.column;
	if (column == NO_ERRAND) {
		return;
	}
	size_t room = search->room_of[column];
	int pieces = search->table->classes[search->things[at].class].thing->pieces;
	if (room != NO_ERRAND) {
		search->rooms[room].pieces += there ? -pieces : pieces;
	}
	search->users[column] += there ? 1 : (size_t)-1;
}

static struct turn
turn_of(const struct singles_search *search, size_t at, size_t column)
{
	struct worth cost = cost_of_one(search->table, search->things[at].class, column);
	bool used = search->users[column] > 0;
	return (struct turn){
	    .strange = !used && !search->guide[column],
	    .added = used ? cost : worth_add(cost, search->table->columns[column].open),
	    .column = column,
	};
}

static bool
turn_before(struct turn a, struct turn b)
{
	int order = ORDER_THEN(ORDER(a.strange, b.strange), a.added.minor, b.added.minor);
	order = ORDER_THEN(order, a.added.rank, b.added.rank);
	return ORDER_THEN(order, a.column, b.column) < 0;
}

/* Finds the next column that the thing is to try. False when there is none. */
static bool
next_turn(const struct singles_search *search, size_t at, struct turn *turn)
{
	struct turn next = {.column = NO_ERRAND};
	for (size_t i = 0; i < search->table->column_count; i++) {
		if (!fits(search, at, i)) {
			continue;
		}
		struct turn tried = turn_of(search, at, i);
		bool after = turn->column == NO_ERRAND || turn_before(*turn, tried);
		if (after && (next.column == NO_ERRAND || turn_before(tried, next))) {
			next = tried;
		}
	}
	*turn = next.column == NO_ERRAND ? *turn : next;
	return next.column != NO_ERRAND;
}

/* True when no better plan can come of what is placed before the thing. */
static bool
hopeless(const struct singles_search *search, size_t at)
{
	const struct level *level = &search->levels[at];
	struct worth least = worth_add(level->sum, search->rest[at]);
	if (level->left_out == 0 && worth_below(coarse(least), coarse(search->bound))) {
		least = search->bound;
	}
	return level->left_out > search->left_out ||
	       (level->left_out == search->left_out &&
		   !worth_below(coarse(least), coarse(search->worth)));
}

/* Puts the thing on its next column, or leaves it out after the last one. False when
 * that has been tried too. */
static bool
advance(struct singles_search *search, size_t at)
{
	struct level *level = &search->levels[at];
	int pieces = search->table->classes[search->things[at].class].thing->pieces;
	if (level->nowhere) {
		return false;
	}
	put(search, at, false);
	level[1].left_out = level->left_out;
	if (next_turn(search, at, &level->turn)) {
		put(search, at, true);
		level[1].sum = worth_add(level->sum, level->turn.added);
		return true;
	}
	level->turn = (struct turn){.column = NO_ERRAND};
	level->nowhere = true;
	level[1].sum = level->sum;
	level[1].left_out += pieces;
	return true;
}

/* Depth first, without recursion, because there may be thousands of things. True when
 * the search came to its end. */
static bool
look(struct singles_search *search)
{
	size_t nodes = 0;
	size_t at = 0;
	for (bool down = true;;) {
		struct level *level = &search->levels[at];
		if (down) {
			level->turn = (struct turn){.column = NO_ERRAND};
			level->nowhere = false;
		}
		bool stop = down && hopeless(search, at);
		if (!stop && at == search->thing_count) {
			search->any = stop = true;
			search->worth = level->sum;
			search->left_out = level->left_out;
			for (size_t i = 0; i < at; i++) {
				search->best[search->things[i].index] =
				    search->levels[i].turn.column;
			}
		}
		if (search->any && nodes++ >= search->most_nodes) {
			return false;
		}
		down = !stop && advance(search, at);
		if (!down && at == 0) {
			return true;
		}
		at += down ? 1 : (size_t)-1;
	}
}

/* ---- getting ready ---- */

/* Things that must be back first come first; those alike stay together. */
static int
compare_singles(const void *left, const void *right)
{
	const struct single *a = left;
	const struct single *b = right;
	return ORDER_THEN(ORDER(a->back_by, b->back_by), a->index, b->index);
}

static void
fill_things(struct singles_search *search)
{
	size_t index = 0;
	for (size_t j = 0; j < search->table->class_count; j++) {
		const struct errand_class *class = &search->table->classes[j];
		day_t back_by = DAY_NONE;
		for (size_t k = 0; k < class->thing->way_count; k++) {
			back_by = day_max(back_by, class->thing->ways[k].back_by);
		}
		for (size_t k = 0; k < class->count; k++, index++) {
			search->things[index] = (struct single){j, index, back_by};
		}
	}
	qsort(
	    search->things, search->thing_count, sizeof *search->things, compare_singles);
	search->rest[search->thing_count] = (struct worth){0, 0};
	for (size_t i = search->thing_count; i > 0; i--) {
		struct worth least = {WORTH_NEVER, 0};
		for (size_t f = 0; f < search->table->column_count; f++) {
			struct worth cost =
			    cost_of_one(search->table, search->things[i - 1].class, f);
			least = worth_below(cost, least) ? cost : least;
		}
		search->rest[i - 1] = worth_add(search->rest[i], least);
	}
}

static void
fill_rooms(struct singles_search *search)
{
	size_t count = 0;
	for (size_t i = 0; i < search->table->column_count; i++) {
		const struct errand_column *column = &search->table->columns[i];
		int64_t pieces = table_room(search->table, i);
		search->room_of[i] = NO_ERRAND;
		if (pieces == ERRAND_ROOM_ANY) {
			continue;
		}
		size_t room = 0;
		while (room < count && (search->rooms[room].stop != column->stop ||
					   search->rooms[room].week != column->week)) {
			room++;
		}
		if (room == count) {
			search->rooms[count++] =
			    (struct room){column->stop, column->week, pieces};
		}
		search->room_of[i] = room;
	}
}

/* The only stop to which a class may go; NO_ERRAND when there are several. */
static size_t
bound_stop(const struct errand_table *table, size_t class)
{
	size_t stop = NO_ERRAND;
	for (size_t i = 0; i < table->column_count; i++) {
		if (worth_never(table_cost(table, class, i))) {
			continue;
		}
		if (stop != NO_ERRAND && stop != table->columns[i].stop) {
			return NO_ERRAND;
		}
		stop = table->columns[i].stop;
	}
	return stop;
}

/* The least that all things cost, and the least number of errands that it takes to
 * bring the pieces that are bound to a stop there, at so many a week. */
static struct worth
least_of_all(const struct singles_search *search)
{
	const struct errand_table *table = search->table;
	struct worth sum = search->rest[0];
	sum.rank = 0;
	for (size_t i = 0; i < table->column_count; i++) {
		const struct errand_column *column = &table->columns[i];
		bool first = i == 0 || column[-1].stop != column->stop;
		int weekly = table->stops[column->stop].station->weekly_pieces;
		int pieces = 0;
		for (size_t j = 0; first && j < table->class_count; j++) {
			if (bound_stop(table, j) == column->stop) {
				pieces += table->classes[j].thing->pieces *
					  (int)table->classes[j].count;
			}
		}
		int errands = weekly == 0 ? pieces > 0 : (pieces + weekly - 1) / weekly;
		sum.minor += errands * column->open.minor;
		sum.rank += errands * RANK_ERRAND;
	}
	return sum;
}

void
errands_singles(const struct errand_table *table, size_t most_nodes,
    struct arena *scratch, size_t *column_of, struct errand_found *found)
{
	struct singles_search search = {.table = table,
	    .guide = found->open,
	    .bound = found->bound,
	    .left_out = INT64_MAX,
	    .most_nodes = most_nodes};
	for (size_t j = 0; j < table->class_count; j++) {
		search.thing_count += table->classes[j].count;
	}
	size_t columns = table->column_count;
	search.things = ARENA_MANY(scratch, struct single, search.thing_count);
	search.rest = ARENA_MANY(scratch, struct worth, search.thing_count);
	search.levels = ARENA_MANY(scratch, struct level, search.thing_count);
	search.rooms = ARENA_MANY(scratch, struct room, columns);
	search.room_of = ARENA_MANY(scratch, size_t, columns);
	search.users = ARENA_MANY(scratch, size_t, columns);
	search.best = ARENA_MANY(scratch, size_t, search.thing_count);
	fill_things(&search);
	fill_rooms(&search);
	struct worth least = least_of_all(&search);
	search.bound =
	    worth_below(coarse(search.bound), coarse(least)) ? least : search.bound;
	bool ended = look(&search);
	memcpy(column_of, search.best, search.thing_count * sizeof *column_of);
	found->left_out = search.left_out;
	found->worth = search.worth;
	found->proven = ended;
	/* the other bound holds only for plans that leave nothing out */
	found->bound = ended                 ? found->worth
		       : found->left_out > 0 ? (struct worth){0, 0}
					     : search.bound;
}
