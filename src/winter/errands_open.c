/* Which days to open where no station has a weekly limit: branch and bound.
 *
 * Each class of like things offers more and more for being served, up to its next
 * higher cost, as long as no day is offered more than opening it costs (Erlenkotter's
 * dual ascent, in the order of the classes, without his adjustment). The sum of the
 * offers is at most the cost of any plan. The days that are paid for make a plan, from
 * which days are dropped, the latest first, as long as that improves it. Where it is
 * dearer than the bound, a day that is paid for is decided: first in, then out. A
 * branch ends where its bound is no better than the best plan. Cost and rank are
 * reckoned together, so that ties are decided by the same bound. */
#include "winter/errands_inside.h"

#include <string.h>

enum mark {
	MARK_FREE,
	MARK_IN,
	MARK_OUT,
};

struct open_search {
	const struct errand_table *table;
	unsigned char *marks; /* enum mark, one a column */
	struct worth *raised; /* dual prices, one a class */
	struct worth *slack;  /* what a column's price has left, one a column */
	bool *tried;          /* columns of a plan being looked at */
	struct errand_found *found;
	bool any;
	size_t nodes;
	struct errand_effort effort;
	size_t looks;
};

/* What a class costs on the cheapest of the tried columns, column `without` left out. */
static struct worth
cheapest(const struct open_search *search, size_t class, size_t without)
{
	struct worth best = {WORTH_NEVER, 0};
	for (size_t i = 0; i < search->table->column_count; i++) {
		struct worth cost = table_cost(search->table, class, i);
		if (search->tried[i] && i != without && worth_below(cost, best)) {
			best = cost;
		}
	}
	return best;
}

/* What the plan of the tried columns costs, with one of them left out. */
static struct worth
total(const struct open_search *search, size_t without)
{
	struct worth sum = {0, 0};
	for (size_t i = 0; i < search->table->column_count; i++) {
		if (search->tried[i] && i != without) {
			sum = worth_add(sum, search->table->columns[i].open);
		}
	}
	for (size_t j = 0; j < search->table->class_count; j++) {
		struct worth cost = cheapest(search, j, without);
		if (worth_never(cost)) {
			return cost;
		}
		sum = worth_add(sum, cost);
	}
	return sum;
}

/* True when a column is not decided on, and the classes have paid for it. */
static bool
is_paid(const struct open_search *search, size_t column)
{
	return search->marks[column] == MARK_FREE && worth_nothing(search->slack[column]);
}

/* Looks at the plan that opens every column that is in or that the classes have paid
 * for, drops columns, the latest first, as long as that improves it, and keeps it when
 * it is the best so far. */
static void
look_at_plan(struct open_search *search)
{
	const struct errand_table *table = search->table;
	for (size_t i = 0; i < table->column_count; i++) {
		search->tried[i] = is_paid(search, i) || search->marks[i] == MARK_IN;
	}
	struct worth worth = total(search, NO_ERRAND);
	for (size_t i = table->column_count; i > 0; i--) {
		struct worth fewer = search->tried[i - 1] ? total(search, i - 1) : worth;
		if (worth_below(fewer, worth)) {
			search->tried[i - 1] = false;
			worth = fewer;
		}
	}
	if (!search->any || worth_below(worth, search->found->worth)) {
		search->any = true;
		search->found->worth = worth;
		memcpy(search->found->open, search->tried,
		    table->column_count * sizeof *search->tried);
	}
}

/* By how much a class may raise its offer: to the next cost above it, and no further
 * than the columns that it pays for allow. */
static struct worth
may_raise(const struct open_search *search, size_t class)
{
	struct worth most = {WORTH_NEVER, 0};
	struct worth offered = search->raised[class];
	for (size_t i = 0; i < search->table->column_count; i++) {
		struct worth cost = table_cost(search->table, class, i);
		if (search->marks[i] == MARK_OUT || worth_never(cost)) {
			continue;
		}
		struct worth room = worth_below(offered, cost)
					? worth_less_by(cost, offered)
					: search->slack[i];
		most = worth_below(room, most) ? room : most;
	}
	return most;
}

static void
raise_class(struct open_search *search, size_t class, struct worth by)
{
	struct worth offered = search->raised[class];
	for (size_t i = 0; i < search->table->column_count; i++) {
		struct worth cost = table_cost(search->table, class, i);
		if (search->marks[i] != MARK_OUT && !worth_never(cost) &&
		    !worth_below(offered, cost)) {
			search->slack[i] = worth_less_by(search->slack[i], by);
		}
	}
	search->raised[class] = worth_add(offered, by);
}

/* Dual ascent: each class offers more and more until columns are paid for. The sum of
 * the offers in the end, with the price of the columns that are in, is at most the
 * cost of any plan. WORTH_NEVER when a class has no column left. */
static struct worth
ascend(struct open_search *search)
{
	const struct errand_table *table = search->table;
	struct worth sum = {0, 0};
	for (size_t i = 0; i < table->column_count; i++) {
		bool in = search->marks[i] == MARK_IN;
		search->slack[i] = in ? (struct worth){0, 0} : table->columns[i].open;
		sum = in ? worth_add(sum, table->columns[i].open) : sum;
	}
	memset(search->raised, 0, table->class_count * sizeof *search->raised);
	for (bool more = true; more;) {
		more = false;
		search->looks += table->class_count * table->column_count;
		for (size_t j = 0; j < table->class_count; j++) {
			struct worth by = may_raise(search, j);
			if (worth_never(by)) {
				return by;
			}
			if (!worth_nothing(by)) {
				raise_class(search, j, by);
				more = true;
			}
		}
	}
	for (size_t j = 0; j < table->class_count; j++) {
		sum = worth_add(sum, search->raised[j]);
	}
	return sum;
}

/* A column that is paid for but not yet decided on. There is one where the bound is below
 * the best plan: else every class would offer what it costs on a column that is in, and
 * the bound would be what these columns cost. */
static size_t
undecided(const struct open_search *search)
{
	size_t column = 0;
	while (column < search->table->column_count && !is_paid(search, column)) {
		column++;
	}
	return column;
}

/* Looks for a better plan among those that the marks allow. */
static void
look(struct open_search *search)
{
	if (search->nodes >= search->effort.open_nodes ||
	    (search->any && search->looks >= search->effort.open_looks)) {
		search->found->proven = false;
		return;
	}
	search->nodes++;
	struct worth bound = ascend(search);
	if (search->nodes == 1) {
		search->found->bound = bound;
	}
	if (worth_never(bound) ||
	    (search->any && !worth_below(bound, search->found->worth))) {
		return;
	}
	look_at_plan(search);
	if (!worth_below(bound, search->found->worth)) {
		return;
	}
	size_t column = undecided(search);
	search->marks[column] = MARK_IN;
	look(search);
	search->marks[column] = MARK_OUT;
	look(search);
	search->marks[column] = MARK_FREE;
}

void
errands_open(const struct errand_table *table, struct errand_effort effort,
    struct arena *scratch, struct errand_found *found)
{
	size_t columns = table->column_count + 1;
	size_t classes = table->class_count + 1;
	struct open_search search = {
	    .table = table,
	    .marks = arena_alloc(scratch, columns),
	    .raised = ARENA_MANY(scratch, struct worth, classes),
	    .slack = ARENA_MANY(scratch, struct worth, columns),
	    .tried = ARENA_MANY(scratch, bool, columns),
	    .found = found,
	    .effort = effort,
	};
	found->proven = true;
	look(&search);
	if (found->proven) {
		found->bound = found->worth;
	}
}
