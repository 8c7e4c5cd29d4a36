/* At most so many errands: which days serve most, by trying them.
 *
 * Days are taken in their order, each either in or out. A branch ends where the days
 * that remain can't serve as many pieces as the best choice does, or where they can,
 * but not at less cost. */
#include "winter/errands_inside.h"

#include <string.h>

/* How good a choice of days is: what it leaves out, then what it costs. */
struct few_score {
	int64_t binding; /* pieces left out that law or maker bind */
	int64_t other;   /* other pieces left out */
	struct worth worth;
};

/* A search for few days. Memory is the scratch's. */
struct few {
	const struct errand_table *table;
	size_t most;
	bool *open;         /* the days taken now, one a column */
	bool *best_open;    /* those of the best choice; the caller's */
	size_t *on;         /* the best day taken of each class, NO_ERRAND for none; a row
			     * for each number of days taken */
	struct worth *rest; /* the least that a class costs from a column on, at
			     * column * class_count + class */
	struct few_score best;
	size_t nodes;      /* left before it is given up */
	int64_t *gains[2]; /* room for the pieces that columns add */
};

static int64_t
class_pieces(const struct errand_class *class)
{
	return (int64_t) class->count * class->thing->pieces;
}

static bool
score_below(const struct few_score *a, const struct few_score *b)
{
	int order = ORDER_THEN(ORDER(a->binding, b->binding), a->other, b->other);
	return order != 0 ? order < 0 : worth_below(a->worth, b->worth);
}

/* What the days taken leave out and cost; `open` is what running them costs. */
static struct few_score
score_of(const struct few *few, size_t taken, struct worth open)
{
	const struct errand_table *table = few->table;
	const size_t *on = &few->on[taken * table->class_count];
	struct few_score score = {.worth = open};
	for (size_t j = 0; j < table->class_count; j++) {
		const struct errand_class *class = &table->classes[j];
		if (on[j] != NO_ERRAND) {
			score.worth = worth_add(score.worth, table_cost(table, j, on[j]));
		} else {
			*(class->thing->binding ? &score.binding : &score.other) +=
			    class_pieces(class);
		}
	}
	return score;
}

/* The sum of the `most` greatest of the numbers; their order is changed. */
static int64_t
sum_of_greatest(int64_t *numbers, size_t count, size_t most)
{
	int64_t sum = 0;
	for (size_t k = 0; k < most && k < count; k++) {
		size_t greatest = k;
		for (size_t i = k + 1; i < count; i++) {
			greatest = numbers[i] > numbers[greatest] ? i : greatest;
		}
		int64_t moved = numbers[k];
		numbers[k] = numbers[greatest];
		numbers[greatest] = moved;
		sum += numbers[k];
	}
	return sum;
}

/* A lower bound on what is left out and on the cost, for all choices that add one or
 * more of the days from `from` on to those taken. */
static struct few_score
bound_of(struct few *few, size_t taken, size_t from, const struct few_score *now,
    struct worth open)
{
	const struct errand_table *table = few->table;
	const size_t *on = &few->on[taken * table->class_count];
	size_t count = table->column_count - from;
	struct few_score bound = {
	    now->binding, now->other, {open.minor, open.rank + RANK_ERRAND}};
	memset(few->gains[0], 0, count * sizeof(int64_t));
	memset(few->gains[1], 0, count * sizeof(int64_t));
	for (size_t j = 0; j < table->class_count; j++) {
		const struct errand_class *class = &table->classes[j];
		if (on[j] != NO_ERRAND) {
			struct worth cost = table_cost(table, j, on[j]);
			struct worth rest = few->rest[from * table->class_count + j];
			bound.worth.minor += LESSER(rest.minor, cost.minor);
			continue;
		}
		int64_t *gains = few->gains[class->thing->binding ? 0 : 1];
		for (size_t i = 0; i < count; i++) {
			gains[i] += worth_never(table_cost(table, j, from + i))
					? 0
					: class_pieces(class);
		}
	}
	size_t more = few->most - taken;
	int64_t binding = sum_of_greatest(few->gains[0], count, more);
	int64_t other = sum_of_greatest(few->gains[1], count, more);
	bound.binding -= LESSER(binding, bound.binding);
	bound.other -= LESSER(other, bound.other);
	return bound;
}

/* Takes one more column: each class goes to it where it is better there. */
static void
take(struct few *few, size_t taken, size_t column)
{
	const struct errand_table *table = few->table;
	const size_t *before = &few->on[taken * table->class_count];
	size_t *after = &few->on[(taken + 1) * table->class_count];
	for (size_t j = 0; j < table->class_count; j++) {
		struct worth cost = table_cost(table, j, column);
		after[j] = !worth_never(cost) &&
				   (before[j] == NO_ERRAND ||
				       worth_below(cost, table_cost(table, j, before[j])))
			       ? column
			       : before[j];
	}
}

/* Tries every choice that adds days from `from` on to those taken. */
// NOLINTNEXTLINE(misc-no-recursion)
static void
search(struct few *few, size_t taken, size_t from, struct worth open)
{
	const struct errand_table *table = few->table;
	struct few_score now = score_of(few, taken, open);
	if (score_below(&now, &few->best)) {
		few->best = now;
		memcpy(few->best_open, few->open, table->column_count);
	}
	for (size_t i = from; i < table->column_count && taken < few->most; i++) {
		struct few_score bound = bound_of(few, taken, i, &now, open);
		if (few->nodes == 0 || !score_below(&bound, &few->best)) {
			return;
		}
		few->nodes--;
		take(few, taken, i);
		few->open[i] = true;
		search(few, taken + 1, i + 1, worth_add(open, table->columns[i].open));
		few->open[i] = false;
	}
}

static void
fill_rest(struct few *few)
{
	const struct errand_table *table = few->table;
	size_t classes = table->class_count;
	for (size_t j = 0; j < classes; j++) {
		few->rest[table->column_count * classes + j] =
		    (struct worth){WORTH_NEVER, 0};
	}
	for (size_t i = table->column_count; i > 0; i--) {
		for (size_t j = 0; j < classes; j++) {
			struct worth after = few->rest[i * classes + j];
			struct worth cost = table_cost(table, j, i - 1);
			few->rest[(i - 1) * classes + j] =
			    cost.minor < after.minor ? cost : after;
		}
	}
}

/* Uses up room for pieces in a column's week. */
static void
take_room(const struct errand_table *table, size_t column, int64_t pieces, int64_t *rooms)
{
	const struct errand_column *of = &table->columns[column];
	for (size_t i = 0; i < table->column_count; i++) {
		const struct errand_column *other = &table->columns[i];
		bool same = other->stop == of->stop && other->week == of->week;
		rooms[i] -= same ? pieces : 0;
	}
}

/* The cheapest open column on which things of a class have room; NO_ERRAND for none. */
static size_t
cheapest_with_room(const struct errand_table *table, size_t class, const bool *open,
    const int64_t *rooms)
{
	size_t best = NO_ERRAND;
	struct worth least = {WORTH_NEVER, 0};
	for (size_t i = 0; i < table->column_count; i++) {
		struct worth cost = table_cost(table, class, i);
		bool does = open[i] && !worth_never(cost) &&
			    rooms[i] >= table->classes[class].thing->pieces;
		if (does && worth_below(cost, least)) {
			best = i;
			least = cost;
		}
	}
	return best;
}

/* Puts each thing of a class on its cheapest open day while the weeks have room. */
static void
fill_class(const struct errand_table *table, size_t class, const bool *open,
    int64_t *rooms, size_t *column_of)
{
	for (size_t k = 0; k < table->classes[class].count; k++) {
		column_of[k] = cheapest_with_room(table, class, open, rooms);
		if (column_of[k] != NO_ERRAND) {
			take_room(table, column_of[k],
			    table->classes[class].thing->pieces, rooms);
		}
	}
}

/* Puts each thing on the cheapest of the open days whose week has room: those that law
 * or maker bind first. */
static void
fill_weeks(
    const struct errand_table *table, const bool *open, int64_t *rooms, size_t *column_of)
{
	for (int binding = 1; binding >= 0; binding--) {
		size_t placed = 0;
		for (size_t j = 0; j < table->class_count; j++) {
			if ((int)table->classes[j].thing->binding == binding) {
				fill_class(table, j, open, rooms, column_of + placed);
			}
			placed += table->classes[j].count;
		}
	}
}

void
errands_few_weekly(const struct errand_table *table, const bool *open,
    struct arena *scratch, size_t *column_of)
{
	int64_t *rooms = ARENA_MANY(scratch, int64_t, table->column_count);
	for (size_t i = 0; i < table->column_count; i++) {
		rooms[i] = table_room(table, i);
	}
	fill_weeks(table, open, rooms, column_of);
}

void
errands_few(const struct errand_table *table, size_t most, struct arena *scratch,
    struct errand_found *found)
{
	size_t columns = table->column_count + 1;
	size_t classes = table->class_count + 1;
	size_t rows = LESSER(most, columns);
	struct few few = {
	    .table = table,
	    .most = rows,
	    .open = arena_alloc(scratch, columns),
	    .best_open = found->open,
	    .on = arena_alloc(scratch, (rows + 1) * classes * sizeof(size_t)),
	    .rest = arena_alloc(scratch, columns * classes * sizeof(struct worth)),
	    .best = {INT64_MAX, 0, {0, 0}},
	    .nodes = FEW_LOOKS / (columns * classes),
	    .gains = {arena_alloc(scratch, columns * sizeof(int64_t)),
		arena_alloc(scratch, columns * sizeof(int64_t))},
	};
	for (size_t j = 0; j < table->class_count; j++) {
		few.on[j] = NO_ERRAND;
	}
	fill_rest(&few);
	search(&few, 0, 0, (struct worth){0, 0});
	found->worth = few.best.worth;
	found->proven = few.nodes > 0;
	found->bound = found->proven ? found->worth : (struct worth){0, 0};
	found->left_out = few.best.binding + few.best.other;
}
