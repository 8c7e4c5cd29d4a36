/* Branching on the number of trips to each station, and on days, under the bound of
 * charges.
 *
 * A branch says how many trips there may be to each station up to the end of each
 * week, and which days must or must not be used. In each branch the charges are moved
 * for some steps. This gives a bound, and also removes numbers of trips that can't be
 * better (narrow). Where the bound is no better than the best placing, the branch
 * ends. Otherwise it is cut in two where the days that the last charges liked give a
 * number of trips furthest from a whole one: first for whole winters, then up to
 * single weeks, at last for a day, in or out. A branch with nothing left to decide is
 * built as the one placing that it is. Looks at costs are counted, and beyond a fixed
 * number the search is given up: the least bound of the branches that are left then
 * holds for all. */
#include "winter/limits_inside.h"

#include <string.h>

/* A copy of a branch; of NULL, a branch that allows and has decided nothing. */
static struct limit_branch
copy_branch(struct branch_search *search, const struct limit_branch *from)
{
	size_t weeks = search->limits->week_count;
	size_t columns = search->limits->columns;
	struct limit_branch to = {ARENA_MANY(search->scratch, size_t, weeks),
	    ARENA_MANY(search->scratch, size_t, weeks),
	    ARENA_MANY(search->scratch, unsigned char, columns)};
	if (from != NULL) {
		memcpy(to.fewest, from->fewest, weeks * sizeof *to.fewest);
		memcpy(to.most, from->most, weeks * sizeof *to.most);
		memcpy(to.marks, from->marks, columns);
	}
	return to;
}

static bool
is_last(const struct limits *limits, size_t week)
{
	return week == last_week(limits, limits->weeks[week].stop);
}

/* The week up to which the number of trips is to be decided: the one whose number in
 * the last steps is furthest from a whole one, whole winters first. NO_ERRAND when all
 * are decided. */
static size_t
week_to_split(const struct branch_search *search, const struct limit_branch *branch,
    double *late_out)
{
	const struct limits *limits = search->limits;
	const double whole_winter = 3;
	size_t best = NO_ERRAND;
	double most = 0;
	double late = 0;
	for (size_t w = 0; w < limits->week_count; w++) {
		const struct limit_week *week = &limits->weeks[w];
		late = w == limits->stops[week->stop].first ? 0 : late;
		for (size_t i = week->first; i < week->first + week->count; i++) {
			late += search->charges.often[i];
		}
		double off = late - (double)(size_t)late;
		off = (off < 0.5 ? off : 1 - off) + 0.01;
		off *= (double)week->trip_minor + 1;
		off *= is_last(limits, w) ? whole_winter : 1;
		if (branch->fewest[w] < branch->most[w] &&
		    (best == NO_ERRAND || off > most)) {
			best = w;
			most = off;
			*late_out = late;
		}
	}
	return best;
}

/* A day that is to be decided on, in a week with more days than trips; NO_ERRAND for
 * none. */
static size_t
day_to_split(const struct branch_search *search, const struct limit_branch *branch)
{
	const struct limits *limits = search->limits;
	for (size_t w = 0; w < limits->week_count; w++) {
		const struct limit_week *week = &limits->weeks[w];
		bool first = w == limits->stops[week->stop].first;
		size_t trips = branch->fewest[w] - (first ? 0 : branch->fewest[w - 1]);
		size_t open = 0;
		size_t found = NO_ERRAND;
		for (size_t i = week->first; i < week->first + week->count; i++) {
			open += branch->marks[i] != LIMIT_OUT;
			found = branch->marks[i] == LIMIT_FREE ? i : found;
		}
		if (trips > 0 && trips < open && found != NO_ERRAND) {
			return found;
		}
	}
	return NO_ERRAND;
}

/* Carries a decision on one week to its neighbours: up to a week there are at least as
 * many trips as up to the week before it, and at most as many more as it has days. */
static void
spread(const struct limits *limits, struct limit_branch *branch, size_t stop)
{
	size_t first = limits->stops[stop].first;
	size_t last = last_week(limits, stop);
	size_t *fewest = branch->fewest;
	size_t *most = branch->most;
	for (size_t w = first; w <= last; w++) {
		size_t from = w > first ? fewest[w - 1] : 0;
		size_t to = (w > first ? most[w - 1] : 0) + limits->weeks[w].count;
		fewest[w] = GREATER(fewest[w], from);
		most[w] = LESSER(most[w], to);
	}
	for (size_t w = last; w > first; w--) {
		size_t days = limits->weeks[w].count;
		size_t from = fewest[w] > days ? fewest[w] - days : 0;
		fewest[w - 1] = GREATER(fewest[w - 1], from);
		most[w - 1] = LESSER(most[w - 1], most[w]);
	}
}

/* Cuts a branch in two by the number of trips up to a week; the likelier half comes
 * first. */
static void
split_week(const struct branch_search *search, size_t week, double late,
    struct limit_branch *first, struct limit_branch *second)
{
	size_t stop = search->limits->weeks[week].stop;
	size_t at = (size_t)late;
	at = GREATER(at, first->fewest[week]);
	at = LESSER(at, first->most[week] - 1);
	bool low_first = late - (double)at < 0.5;
	(low_first ? first : second)->most[week] = at;
	(low_first ? second : first)->fewest[week] = at + 1;
	spread(search->limits, first, stop);
	spread(search->limits, second, stop);
}

static bool
all_whole(const struct limits *limits, const struct limit_branch *branch)
{
	bool whole = true;
	for (size_t s = 0; s < limits->stop_count; s++) {
		size_t last = last_week(limits, s);
		whole = whole && branch->fewest[last] == branch->most[last];
	}
	return whole;
}

static void
give_up(struct branch_search *search, struct verdict verdict)
{
	if (verdict.minor < search->left_bound ||
	    (verdict.minor == search->left_bound && verdict.trips < search->left_trips)) {
		search->left_bound = verdict.minor;
		search->left_trips = verdict.trips;
	}
}

/* Looks for something better in a branch, of which the bound `least` is known already;
 * `whole` when the last decision was on the trips of a whole winter. It recurses at
 * most as deep as there are trips and days. */
static void
look(struct branch_search *search, struct limit_branch *branch, bool first, int64_t least,
    bool whole)
{
	struct verdict verdict = branch_tighten(search, branch, first);
	verdict.minor = GREATER(verdict.minor, least);
	if (verdict.minor < INT64_MAX && whole && all_whole(search->limits, branch) &&
	    !branch_is_beaten(search, verdict) && !branch_spent(search)) {
		branch_build(search, branch);
	}
	if (verdict.minor == INT64_MAX || branch_is_beaten(search, verdict)) {
		return;
	}
	if (branch_spent(search)) {
		give_up(search, verdict);
		return;
	}
	double late = 0;
	size_t week = week_to_split(search, branch, &late);
	size_t column = week == NO_ERRAND ? day_to_split(search, branch) : NO_ERRAND;
	if (week == NO_ERRAND && column == NO_ERRAND) {
		/* The one plan that is left. Of lots that take more than one piece of
		 * room, and where some are left out, it might be built otherwise. */
		search->placer.cut = false;
		branch_build(search, branch);
		if (!search->limits->units || search->placer.cut ||
		    search->best.left_out > 0) {
			give_up(search, verdict);
		}
		return;
	}
	struct limit_branch one = copy_branch(search, branch);
	struct limit_branch other = copy_branch(search, branch);
	if (week != NO_ERRAND) {
		split_week(search, week, late, &one, &other);
	} else {
		one.marks[column] = LIMIT_IN;
		other.marks[column] = LIMIT_OUT;
	}
	whole = week != NO_ERRAND && is_last(search->limits, week);
	look(search, &one, false, verdict.minor, whole);
	look(search, &other, false, verdict.minor, whole);
}

/* ---- all of it ---- */

/* Writes the best placing out, thing by thing. */
static void
write_columns(const struct branch_search *search, size_t *column_of)
{
	const struct limits *limits = search->limits;
	size_t classes = limits->classes;
	size_t at = 0;
	for (size_t j = 0; j < classes; j++) {
		for (size_t i = 0; i < limits->columns; i++) {
			for (int k = 0; k < search->best.on[i * classes + j]; k++) {
				column_of[at++] = i;
			}
		}
		for (int k = 0; k < search->best.nowhere[j]; k++) {
			column_of[at++] = NO_ERRAND;
		}
	}
}

/* Replaces what was known by what was found where that is better, and says how good it
 * is. Where not all pieces can go, it is not proven which are best left out. */
static void
write_found(struct branch_search *search, size_t *column_of, struct errand_found *found)
{
	const struct placing *best = &search->best;
	struct verdict left = {search->left_bound, search->left_trips};
	bool closed = branch_is_beaten(search, left);
	/* more than 0 where it is better, 0 where it is as good */
	int order = ORDER_THEN(
	    ORDER(found->left_out, best->left_out), found->worth.minor, best->minor);
	order = ORDER_THEN(order, found->worth.rank / RANK_ERRAND, (int64_t)best->trips);
	if (order > 0) {
		placing_hasten(&search->best);
		write_columns(search, column_of);
		found->left_out = best->left_out;
		found->worth =
		    (struct worth){best->minor, (int64_t)best->trips * RANK_ERRAND};
	}
	if (best->left_out == found->left_out) {
		found->proven = closed && best->left_out == 0;
		found->bound = closed ? found->worth
				      : (struct worth){left.minor,
					    (int64_t)left.trips * RANK_ERRAND};
	}
}

/* The second half of errands_weekly, which improves what the first half found. */
static void
errands_limits(const struct errand_table *table, size_t most_looks, struct arena *scratch,
    size_t *column_of, struct errand_found *found)
{
	struct limits limits = {0};
	struct branch_search search = {.limits = &limits,
	    .left_bound = INT64_MAX,
	    .most_looks = most_looks,
	    .scratch = scratch};
	limits_make(table, scratch, &limits);
	if (limits_too_large(&limits)) {
		return;
	}
	search.kept = ARENA_MANY(scratch, int64_t, table->class_count);
	charges_make(&limits, scratch, &search.charges);
	together_make(&limits, scratch, &search.together);
	placer_make(&limits, scratch, &search.placer);
	placing_make(&limits, scratch, &search.best);
	search.placer.most_looks = most_looks / 3;
	search.best.left_out = INT64_MAX; /* anything is better */
	struct limit_branch root = copy_branch(&search, NULL);
	for (size_t w = 0; w < limits.week_count; w++) {
		root.most[w] = limits.stops[limits.weeks[w].stop].columns;
	}
	for (size_t s = 0; s < limits.stop_count; s++) {
		spread(&limits, &root, s);
	}
	(void)charges_bound(&search.charges, &root);
	branch_build(&search, &root);
	look(&search, &root, true, 0, false);
	write_found(&search, column_of, found);
}

void
errands_weekly(const struct errand_table *table, struct errand_effort effort,
    struct arena *scratch, size_t *column_of, struct errand_found *found)
{
	/* The best plan without limits costs no more than any plan with them. */
	errands_open(table, effort, scratch, found);
	errands_singles(table, effort.nodes, scratch, column_of, found);
	if (!found->proven) {
		errands_limits(table, effort.looks, scratch, column_of, found);
	}
}
