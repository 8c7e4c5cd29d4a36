/* Branching on the number of trips to each station, and on days, under the bound of charges. */
#include "winter/limits_inside.h"

#include <string.h>

/* Steps by which charges are moved at the first branch and at later ones; how often a placing is
 * built at the first, and the totals of all stops are looked at together. */
enum { FIRST_STEPS = 800, LATER_STEPS = 40, BUILD_EVERY = 200, TOGETHER_EVERY = 8 };

/* After so many looks the search is given up. */
enum { LOOKS_MOST = 40000000 };

struct branch_search {
	const struct limits *limits;
	struct charges charges;
	struct together together;
	struct placer placer;
	struct placing best;
	int64_t *kept;      /* by class: the charges of the best bound of a branch */
	int64_t left_bound; /* the least bound of a branch given up; INT64_MAX for none */
	size_t left_trips;
	size_t looks; /* at totals; the charges and the placer count theirs */
	struct arena *scratch;
};

/* What is known of a branch. */
struct verdict {
	int64_t minor; /* no plan of it costs less; INT64_MAX when it has none */
	size_t trips;  /* none that costs as little as the best has fewer */
};

/* True when the search is to be given up; the placer has its own share of looks. */
static bool
spent(const struct branch_search *search)
{
	const struct placer *placer = &search->placer;
	size_t placing =
	    placer->looks < placer->most_looks ? placer->looks : placer->most_looks;
	return search->charges.looks + placing + search->looks >= LOOKS_MOST;
}

/* A bound in minor units: the next sum that money can make. */
static int64_t
whole_bound(const struct branch_search *search, int64_t bound)
{
	int64_t unit = CHARGE_SCALE * search->limits->unit;
	return bound <= 0 ? 0 : (bound + unit - 1) / unit * search->limits->unit;
}

static size_t
fewest_trips(const struct branch_search *search, const struct limit_branch *branch)
{
	size_t sum = 0;
	for (size_t s = 0; s < search->limits->stop_count; s++) {
		sum += branch->fewest[last_week(search->limits, s)];
	}
	return sum;
}

/* Whether no plan of so much, with so many trips at least, can be better than the best. */
static bool
is_beaten(const struct branch_search *search, struct verdict verdict)
{
	return verdict.minor > search->best.minor ||
	       (verdict.minor == search->best.minor &&
		   verdict.trips >= search->best.trips);
}

/* The bound with the totals of all stops looked at together. */
static struct verdict
bound_together(
    struct branch_search *search, const struct limit_branch *branch, int64_t bound)
{
	const struct charges *charges = &search->charges;
	size_t most = search->best.trips;
	struct verdict verdict = {INT64_MAX, most};
	const int64_t *least = together_least(
	    &search->together, charges, branch, search->best.left_out, most);
	search->looks += search->limits->week_count * (most + 1) * 4;
	for (size_t s = 0; s < search->limits->stop_count; s++) {
		bound -= charges->gains[search->limits->stops[s].row + charges->trips[s]];
	}
	for (size_t n = most + 1; n > 0; n--) {
		if (least[n - 1] >= WORTH_NEVER) {
			continue;
		}
		int64_t minor = whole_bound(search, bound + least[n - 1]);
		verdict.minor = minor < verdict.minor ? minor : verdict.minor;
		verdict.trips = minor <= search->best.minor ? n - 1 : verdict.trips;
	}
	return verdict;
}

/* Takes numbers of trips off either end of what a branch allows where the present charges tell
 * that they can't be better. */
static void
narrow(struct branch_search *search, struct limit_branch *branch, int64_t bound)
{
	const struct charges *charges = &search->charges;
	for (size_t s = 0; s < search->limits->stop_count; s++) {
		const int64_t *gains = &charges->gains[search->limits->stops[s].row];
		int64_t rest = bound - gains[charges->trips[s]];
		size_t *fewest = &branch->fewest[last_week(search->limits, s)];
		size_t *most = &branch->most[last_week(search->limits, s)];
		size_t others = fewest_trips(search, branch) - *fewest;
		while (*most > charges->trips[s] &&
		       (gains[*most] >= WORTH_NEVER ||
			   is_beaten(search,
			       (struct verdict){whole_bound(search, rest + gains[*most]),
				   others + *most}))) {
			--*most;
		}
		while (*fewest < charges->trips[s] &&
		       (gains[*fewest] >= WORTH_NEVER ||
			   is_beaten(search, (struct verdict){whole_bound(search,
								  rest + gains[*fewest]),
						 others + *fewest}))) {
			++*fewest;
		}
	}
}

/* Builds a placing from the present charges, as long as the placer has looks left; keeps it when
 * it is the best so far. */
static void
build(struct branch_search *search, const struct limit_branch *branch)
{
	if (search->placer.looks >= search->placer.most_looks &&
	    search->best.left_out < INT64_MAX) {
		search->placer.cut = true;
		return;
	}
	placer_build(&search->placer, &search->charges, branch);
	if (placing_better(&search->placer.now, &search->best)) {
		placing_copy(&search->placer.now, &search->best);
		search->charges.left_out = search->best.left_out;
	}
}

/* Notes on which days the charges gain most at present. */
static void
note_days(struct branch_search *search, bool first)
{
	struct charges *charges = &search->charges;
	const double keep = first ? 0.0 : 0.85;
	for (size_t w = 0; w < search->limits->week_count; w++) {
		const struct limit_week *week = &search->limits->weeks[w];
		for (size_t i = week->first; i < week->first + week->count; i++) {
			bool on = charges->runs[w] > 1 ||
				  (charges->runs[w] == 1 && charges->column[w] == i);
			charges->often[i] =
			    keep * charges->often[i] + (on ? 1 - keep : 0);
		}
	}
}

/* ---- moving charges ---- */

/* Charges being moved: how far of the gap, and how long it has been of no use. */
struct stride {
	double far;
	int since;
	int64_t best; /* the best bound; scaled */
	bool builds;  /* placings are built meanwhile */
	int patience; /* so many steps may be of no use */
};

/* Keeps the charges of the best bound; after some steps that were of no use goes back to them,
 * and on in smaller steps. The bound of the present charges. */
static int64_t
keep_charges(struct branch_search *search, struct stride *stride, int64_t bound,
    const struct limit_branch *branch)
{
	struct charges *charges = &search->charges;
	size_t size = search->limits->table->class_count * sizeof *search->kept;
	if (bound > stride->best) {
		stride->since = 0;
		stride->best = bound;
		memcpy(search->kept, charges->charged, size);
	} else if (++stride->since >= stride->patience) {
		stride->since = 0;
		stride->far *= 0.7;
		memcpy(charges->charged, search->kept, size);
		return charges_bound(charges, branch);
	}
	return bound;
}

/* One step: bounds the branch, builds a placing now and then, and narrows the branch. False when
 * there is no use in another. */
static bool
step_on(struct branch_search *search, struct limit_branch *branch, int step,
    struct stride *stride, struct verdict *verdict)
{
	struct charges *charges = &search->charges;
	int64_t bound = charges_bound(charges, branch);
	if (bound >= WORTH_NEVER) {
		*verdict = (struct verdict){INT64_MAX, 0};
		return false;
	}
	note_days(search, step == 0);
	bound = keep_charges(search, stride, bound, branch);
	if (stride->builds && (step + 1) % BUILD_EVERY == 0) {
		build(search, branch);
	}
	narrow(search, branch, bound);
	if (bound == stride->best &&
	    (step % TOGETHER_EVERY == 0 ||
		whole_bound(search, bound) >= search->best.minor)) {
		struct verdict now = bound_together(search, branch, bound);
		*verdict = now.minor > verdict->minor ? now : *verdict;
	}
	if (is_beaten(search, *verdict) || spent(search) || stride->far < 0.005) {
		return false;
	}
	double gap = (double)(search->best.minor * CHARGE_SCALE - bound);
	return charges_move(
	    charges, stride->far * (gap > CHARGE_SCALE ? gap : CHARGE_SCALE));
}

/* The best bound that some steps find. */
static struct verdict
tighten(struct branch_search *search, struct limit_branch *branch, int steps)
{
	bool first = steps == FIRST_STEPS;
	struct stride stride = {first ? 1.0 : 0.2, 0, INT64_MIN, first, first ? 20 : 8};
	struct verdict verdict = {0, 0};
	for (int step = 0; step < steps; step++) {
		if (!step_on(search, branch, step, &stride, &verdict)) {
			break;
		}
	}
	if (stride.best > INT64_MIN) {
		memcpy(search->charges.charged, search->kept,
		    search->limits->table->class_count * sizeof *search->kept);
	}
	int64_t whole = whole_bound(search, stride.best);
	verdict.minor = whole > verdict.minor ? whole : verdict.minor;
	return verdict;
}

/* ---- branching ---- */

static void
copy_branch(struct branch_search *search, const struct limit_branch *from,
    struct limit_branch *to)
{
	size_t weeks = search->limits->week_count;
	size_t columns = search->limits->table->column_count;
	to->fewest = ARENA_MANY(search->scratch, size_t, weeks);
	to->most = ARENA_MANY(search->scratch, size_t, weeks);
	to->marks = arena_alloc(search->scratch, columns + 1);
	if (from != NULL) {
		memcpy(to->fewest, from->fewest, weeks * sizeof *to->fewest);
		memcpy(to->most, from->most, weeks * sizeof *to->most);
		memcpy(to->marks, from->marks, columns);
	}
}

static bool
is_last(const struct limits *limits, size_t week)
{
	return week == last_week(limits, limits->weeks[week].stop);
}

/* The week up to which the number of trips is to be decided on: that with the number of late
 * furthest from a whole one, trips of the whole winter first. NO_ERRAND when all are decided. */
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
		off *= (double)limits->stops[week->stop].trip_minor + 1;
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

/* A day that is to be decided on, of a week with more days than trips; NO_ERRAND for none. */
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

static void look(struct branch_search *search, struct limit_branch *branch, int steps,
    int64_t least, bool whole);

/* Carries a decision on one week to its neighbours: there are no fewer trips up to a week than
 * up to the one before it, and no more on top of them than it has days. */
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
		fewest[w] = fewest[w] > from ? fewest[w] : from;
		most[w] = most[w] < to ? most[w] : to;
	}
	for (size_t w = last; w > first; w--) {
		size_t days = limits->weeks[w].count;
		size_t from = fewest[w] > days ? fewest[w] - days : 0;
		fewest[w - 1] = fewest[w - 1] > from ? fewest[w - 1] : from;
		most[w - 1] = most[w - 1] < most[w] ? most[w - 1] : most[w];
	}
}

static void
split_week(struct branch_search *search, const struct limit_branch *branch, size_t week,
    double late, int64_t bound)
{
	const struct limits *limits = search->limits;
	struct limit_branch low = {0};
	struct limit_branch high = {0};
	copy_branch(search, branch, &low);
	copy_branch(search, branch, &high);
	size_t at = (size_t)late;
	at = at < branch->fewest[week] ? branch->fewest[week] : at;
	at = at >= branch->most[week] ? branch->most[week] - 1 : at;
	low.most[week] = at;
	high.fewest[week] = at + 1;
	spread(limits, &low, limits->weeks[week].stop);
	spread(limits, &high, limits->weeks[week].stop);
	bool low_first = late - (double)at < 0.5;
	bool whole = is_last(limits, week);
	look(search, low_first ? &low : &high, LATER_STEPS, bound, whole);
	look(search, low_first ? &high : &low, LATER_STEPS, bound, whole);
}

static void
split_day(struct branch_search *search, const struct limit_branch *branch, size_t column,
    int64_t bound)
{
	struct limit_branch in = {0};
	struct limit_branch out = {0};
	copy_branch(search, branch, &in);
	copy_branch(search, branch, &out);
	in.marks[column] = LIMIT_IN;
	out.marks[column] = LIMIT_OUT;
	look(search, &in, LATER_STEPS, bound, false);
	look(search, &out, LATER_STEPS, bound, false);
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

/* Builds the one plan that a branch has left. Of lots that take more than one piece of room, and
 * where some are left out, it might be built otherwise. */
static void
build_last(struct branch_search *search, const struct limit_branch *branch,
    struct verdict verdict)
{
	search->placer.cut = false;
	build(search, branch);
	if (!search->limits->units || search->placer.cut || search->best.left_out > 0) {
		give_up(search, verdict);
	}
}

/* Looks for something better in a branch, of which `least` is known already; `whole` when the
 * trips of a whole winter were decided on last. As deep as there are trips and days. */
static void
look(struct branch_search *search, struct limit_branch *branch, int steps, int64_t least,
    bool whole)
{
	struct verdict verdict = tighten(search, branch, steps);
	verdict.minor = verdict.minor < least ? least : verdict.minor;
	if (verdict.minor < INT64_MAX && whole && all_whole(search->limits, branch) &&
	    !is_beaten(search, verdict) && !spent(search)) {
		build(search, branch);
	}
	if (verdict.minor == INT64_MAX || is_beaten(search, verdict)) {
		return;
	}
	if (spent(search)) {
		give_up(search, verdict);
		return;
	}
	double late = 0;
	size_t week = week_to_split(search, branch, &late);
	size_t column = week == NO_ERRAND ? day_to_split(search, branch) : NO_ERRAND;
	if (week != NO_ERRAND) {
		split_week(search, branch, week, late, verdict.minor);
	} else if (column != NO_ERRAND) {
		split_day(search, branch, column, verdict.minor);
	} else {
		build_last(search, branch, verdict);
	}
}

/* ---- all of it ---- */

/* Writes the best placing out, thing by thing. */
static void
write_columns(const struct branch_search *search, size_t *column_of)
{
	const struct limits *limits = search->limits;
	size_t classes = limits->table->class_count;
	size_t at = 0;
	for (size_t j = 0; j < classes; j++) {
		for (size_t i = 0; i < limits->table->column_count; i++) {
			for (int k = 0; k < search->best.on[i * classes + j]; k++) {
				column_of[at++] = i;
			}
		}
		for (int k = 0; k < search->best.nowhere[j]; k++) {
			column_of[at++] = NO_ERRAND;
		}
	}
}

/* Whether the best plan is better than the one that is known: 1, as good: 0, or worse: -1. */
static int
compare_found(const struct placing *best, const struct errand_found *found)
{
	int order = compare_numbers(found->left_out, best->left_out);
	order = order != 0 ? order : compare_numbers(found->worth.minor, best->minor);
	return order != 0 ? order
			  : compare_numbers(
				found->worth.rank / RANK_ERRAND, (int64_t)best->trips);
}

/* Puts what was found in the place of what was known where it is better, and says how good it
 * is. Which pieces are best left out where not all can go is not proven. */
static void
write_found(struct branch_search *search, size_t *column_of, struct errand_found *found)
{
	const struct placing *best = &search->best;
	struct verdict left = {search->left_bound, search->left_trips};
	bool closed = is_beaten(search, left);
	int order = compare_found(best, found);
	if (order > 0) {
		placing_hasten(&search->best);
		write_columns(search, column_of);
		found->left_out = best->left_out;
		found->worth =
		    (struct worth){best->minor, (int64_t)best->trips * RANK_ERRAND};
	}
	if (order >= 0 || (best->left_out == found->left_out && !closed)) {
		found->proven = closed && best->left_out == 0;
		found->bound = closed ? found->worth
				      : (struct worth){left.minor,
					    (int64_t)left.trips * RANK_ERRAND};
	}
}

static void
search_all(struct branch_search *search, size_t *column_of, struct errand_found *found)
{
	const struct limits *limits = search->limits;
	struct limit_branch root = {0};
	copy_branch(search, NULL, &root);
	for (size_t w = 0; w < limits->week_count; w++) {
		root.most[w] = limits->stops[limits->weeks[w].stop].columns;
	}
	for (size_t s = 0; s < limits->stop_count; s++) {
		spread(limits, &root, s);
	}
	(void)charges_bound(&search->charges, &root);
	search->best.left_out = INT64_MAX; /* anything is better */
	build(search, &root);
	look(search, &root, FIRST_STEPS, 0, false);
	write_found(search, column_of, found);
}

void
errands_limits(const struct errand_table *table, struct arena *scratch, size_t *column_of,
    struct errand_found *found)
{
	struct limits limits = {0};
	struct branch_search search = {
	    .limits = &limits, .left_bound = INT64_MAX, .scratch = scratch};
	limits_make(table, scratch, &limits);
	if (limits_too_large(&limits)) {
		return;
	}
	search.kept = ARENA_MANY(scratch, int64_t, table->class_count);
	charges_make(&limits, scratch, &search.charges);
	together_make(&limits, scratch, &search.together);
	placer_make(&limits, scratch, &search.placer);
	placing_make(&limits, scratch, &search.best);
	search.placer.most_looks = LOOKS_MOST / 3;
	search_all(&search, column_of, found);
}

void
errands_weekly(const struct errand_table *table, size_t most_nodes, struct arena *scratch,
    size_t *column_of, struct errand_found *found)
{
	/* The best plan without limits costs no more than any with them. */
	errands_open(table, scratch, found);
	errands_singles(table, most_nodes, scratch, column_of, found);
	if (!found->proven) {
		errands_limits(table, scratch, column_of, found);
	}
}
