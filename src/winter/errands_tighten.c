/* Charges moved to where they give the best bound of a branch, and the placings built
 * on the way.
 *
 * Each step bounds the branch by the present charges and moves them by how much too
 * often or too seldom things are taken, a part of the way that would close the gap
 * (charges_move). After some steps without a better bound the search goes back to the
 * charges of the best one and makes that part smaller. With every bound, numbers of
 * trips that can't be better are taken off the branch. Where it is the best so far, the
 * totals of all stops are looked at together (errands_together.c), every few steps and
 * whenever it reaches the cost of the best placing. Only how far charges move is computed
 * in fractions: charges and bounds are whole numbers. */
#include "winter/limits_inside.h"

#include <string.h>

/* Steps by which charges are moved at the first branch and at later ones; after how
 * many steps a placing is built at the first branch, and the totals of all stops are
 * looked at together. */
enum { FIRST_STEPS = 800, LATER_STEPS = 40, BUILD_EVERY = 200, TOGETHER_EVERY = 8 };

bool
branch_spent(const struct branch_search *search)
{
	size_t placing = LESSER(search->placer.looks, search->placer.most_looks);
	return search->charges.looks + placing + search->looks >= search->most_looks;
}

/* A bound in minor units, rounded up to the next sum that a plan can cost. */
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

bool
branch_is_beaten(const struct branch_search *search, struct verdict verdict)
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
		verdict.minor = LESSER(minor, verdict.minor);
		verdict.trips = minor <= search->best.minor ? n - 1 : verdict.trips;
	}
	return verdict;
}

/* Whether so many trips to a stop can't be better. `gains` has what they come to;
 * `rest` bounds the other stops, with their least number of trips. */
static bool
is_no_use(const struct branch_search *search, const int64_t *gains, size_t trips,
    struct verdict rest)
{
	struct verdict all = {
	    whole_bound(search, rest.minor + gains[trips]), rest.trips + trips};
	return gains[trips] >= WORTH_NEVER || branch_is_beaten(search, all);
}

/* Takes numbers of trips off either end of what a branch allows where the present
 * charges show that they can't be better. */
static void
narrow(struct branch_search *search, struct limit_branch *branch, int64_t bound)
{
	const struct charges *charges = &search->charges;
	for (size_t s = 0; s < search->limits->stop_count; s++) {
		const int64_t *gains = &charges->gains[search->limits->stops[s].row];
		size_t *fewest = &branch->fewest[last_week(search->limits, s)];
		size_t *most = &branch->most[last_week(search->limits, s)];
		struct verdict rest = {bound - gains[charges->trips[s]],
		    fewest_trips(search, branch) - *fewest};
		while (
		    *most > charges->trips[s] && is_no_use(search, gains, *most, rest)) {
			--*most;
		}
		while (*fewest < charges->trips[s] &&
		       is_no_use(search, gains, *fewest, rest)) {
			++*fewest;
		}
	}
}

void
branch_build(struct branch_search *search, const struct limit_branch *branch)
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

/* Notes on which days the present charges gain most. */
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

/* Charges being moved: which part of the gap a step makes up, and how many steps
 * brought nothing. */
struct stride {
	double far;
	int since;
	int64_t best; /* the best bound; scaled */
	bool builds;  /* placings are built meanwhile */
	int patience; /* so many steps may be of no use */
};

/* Keeps the charges of the best bound; after some steps without a better one goes back
 * to them and continues in smaller steps. Returns the bound of the present charges. */
static int64_t
keep_charges(struct branch_search *search, struct stride *stride, int64_t bound,
    const struct limit_branch *branch)
{
	struct charges *charges = &search->charges;
	size_t size = search->limits->classes * sizeof *search->kept;
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

/* One step: bounds the branch, builds a placing now and then, and narrows the branch.
 * False when another step would be of no use. */
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
		branch_build(search, branch);
	}
	narrow(search, branch, bound);
	if (bound == stride->best &&
	    (step % TOGETHER_EVERY == 0 ||
		whole_bound(search, bound) >= search->best.minor)) {
		struct verdict now = bound_together(search, branch, bound);
		*verdict = now.minor > verdict->minor ? now : *verdict;
	}
	if (branch_is_beaten(search, *verdict) || branch_spent(search) ||
	    stride->far < 0.005) {
		return false;
	}
	int64_t gap = search->best.minor * CHARGE_SCALE - bound;
	return charges_move(
	    charges, stride->far * (double)GREATER(gap, (int64_t)CHARGE_SCALE));
}

struct verdict
branch_tighten(struct branch_search *search, struct limit_branch *branch, bool first)
{
	int steps = first ? FIRST_STEPS : LATER_STEPS;
	struct stride stride = {first ? 1.0 : 0.2, 0, INT64_MIN, first, first ? 20 : 8};
	struct verdict verdict = {0, 0};
	for (int step = 0; step < steps; step++) {
		if (!step_on(search, branch, step, &stride, &verdict)) {
			break;
		}
	}
	if (stride.best > INT64_MIN) {
		memcpy(search->charges.charged, search->kept,
		    search->limits->classes * sizeof *search->kept);
	}
	int64_t whole = whole_bound(search, stride.best);
	verdict.minor = GREATER(whole, verdict.minor);
	return verdict;
}
