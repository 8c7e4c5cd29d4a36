/* From tables of days to errands. */
#include "winter/errands.h"

#include "winter/errands_inside.h"

#include <assert.h>
#include <stdlib.h>

/* The best of the open columns for a thing of a class. */
static size_t
column_for(const struct errand_table *table, const bool *open, size_t class, bool late)
{
	size_t best = NO_ERRAND;
	struct worth least = {WORTH_NEVER, 0};
	for (size_t i = 0; i < table->column_count; i++) {
		struct worth cost = table_cost(table, class, i);
		if (!open[i] || worth_never(cost)) {
			continue;
		}
		const struct errand_column *column = &table->columns[i];
		const struct errand_column *other =
		    &table->columns[best == NO_ERRAND ? i : best];
		bool equal = !worth_below(cost, least) && !worth_below(least, cost);
		bool preferred = late && other->stop == column->stop
				     ? column->day > other->day
				     : column->day < other->day;
		if (worth_below(cost, least) || (equal && preferred)) {
			best = i;
			least = cost;
		}
	}
	return best;
}

/* The errand of a column; it is added where it is not there yet. */
static size_t
errand_of_column(struct errand_working *working, const struct errand_column *column)
{
	struct errand_plan *plan = working->plan;
	for (size_t i = 0; i < plan->count; i++) {
		if (plan->errands[i].stop == column->stop &&
		    plan->errands[i].hand_in == column->day) {
			return i;
		}
	}
	plan->errands[plan->count] = (struct errand){
	    column->stop, column->day, column->ready, column->ready, false};
	plan->minor += column->open.minor;
	return plan->count++;
}

/* Puts the things of a group on the errands of their columns. `column_of` is NULL
 * where each takes the best of the open ones. */
static void
put_on_errands(struct errand_working *working, const struct errand_making *making,
    const bool *open, const size_t *column_of)
{
	const struct errand_table *table = &making->table;
	size_t placed = 0;
	assert(working->first_member != NULL && working->members != NULL);
	for (size_t j = 0; j < table->class_count; j++) {
		size_t first = working->first_member[making->numbers[j]];
		for (size_t k = 0; k < table->classes[j].count; k++, placed++) {
			const struct errand_member *member = &working->members[first + k];
			size_t column = column_of != NULL ? column_of[placed]
							  : column_for(table, open, j,
								member->thing->late);
			if (column == NO_ERRAND) {
				continue;
			}
			working->plan->errand_of[member->index] =
			    errand_of_column(working, &table->columns[column]);
			working->plan->minor += table_cost(table, j, column).minor /
						(int64_t)table->classes[j].count;
		}
	}
}

static void
plan_group(struct errand_working *working, size_t group)
{
	struct errand_making making = {0};
	struct errand_found found = {0};
	errands_table(working, group, &making);
	if (making.table.class_count == 0) {
		return;
	}
	found.open = arena_alloc(working->scratch, making.table.column_count + 1);
	size_t *column_of = ARENA_MANY(working->scratch, size_t, working->thing_count);
	if (working->few) {
		errands_few(&making.table, working->most, working->scratch, &found);
		if (making.weekly) {
			errands_few_weekly(
			    &making.table, found.open, working->scratch, column_of);
		}
		found.proven = found.proven && !making.weekly;
	} else if (making.weekly) {
		errands_weekly(
		    &making.table, working->effort, working->scratch, column_of, &found);
	} else {
		errands_open(&making.table, working->effort, working->scratch, &found);
	}
	put_on_errands(working, &making, found.open, making.weekly ? column_of : NULL);
	working->plan->proven = working->plan->proven && found.proven;
	working->plan->bound_minor += found.bound.minor;
	working->plan->bound_count += (size_t)(found.bound.rank / RANK_ERRAND);
}

/* An errand with its place before sorting. */
struct sorted {
	struct errand errand;
	size_t before;
};

static int
compare_errands(const void *left, const void *right)
{
	const struct errand *a = &((const struct sorted *)left)->errand;
	const struct errand *b = &((const struct sorted *)right)->errand;
	return ORDER_THEN(ORDER(a->stop, b->stop), a->hand_in, b->hand_in);
}

/* Puts the errands in order, by stop and day. */
static void
sort_errands(struct errand_working *working)
{
	struct errand_plan *plan = working->plan;
	struct sorted *sorted = ARENA_MANY(working->scratch, struct sorted, plan->count);
	size_t *after = ARENA_MANY(working->scratch, size_t, plan->count);
	for (size_t i = 0; i < plan->count; i++) {
		sorted[i] = (struct sorted){plan->errands[i], i};
	}
	qsort(sorted, plan->count, sizeof *sorted, compare_errands);
	for (size_t i = 0; i < plan->count; i++) {
		plan->errands[i] = sorted[i].errand;
		after[sorted[i].before] = i;
	}
	for (size_t i = 0; i < working->thing_count; i++) {
		if (plan->errand_of[i] != NO_ERRAND) {
			plan->errand_of[i] = after[plan->errand_of[i]];
		}
	}
}

void
errands_plan_working(struct errand_working *working, struct errand_plan *out)
{
	SCOPED_ARENA scratch = {0};
	struct errand_plan plan = {.proven = true};
	size_t things = working->thing_count;
	working->scratch = &scratch;
	working->plan = &plan;
	plan.errands = ARENA_MANY(working->arena, struct errand, things);
	plan.errand_of = ARENA_MANY(working->arena, size_t, things);
	for (size_t i = 0; i < things; i++) {
		plan.errand_of[i] = NO_ERRAND;
	}
	errands_gather(working);
	/* with a limit on errands the choices at all stops depend on each other */
	for (size_t i = 0; i < working->stop_count && working->few; i++) {
		working->group[i] = 0;
	}
	for (size_t i = 0; i < working->stop_count; i++) {
		if (errands_group(working, i) == i) {
			plan_group(working, i);
		}
	}
	sort_errands(working);
	working->scratch = NULL;
	working->plan = NULL;
	*out = plan;
}

void
errands_plan(const struct errand_stop *stops, size_t stop_count,
    const struct errand_thing *things, size_t thing_count, size_t most,
    struct arena *arena, struct errand_plan *out)
{
	struct errand_working working = {
	    .stops = stops,
	    .stop_count = stop_count,
	    .things = things,
	    .thing_count = thing_count,
	    .arena = arena,
	    .effort = {OPEN_NODES, SINGLES_NODES, BRANCH_LOOKS, OPEN_LOOKS},
	    .most = most,
	};
	errands_plan_working(&working, out);
	working.few = out->count > most;
	if (working.few) {
		errands_plan_working(&working, out);
	}
}
