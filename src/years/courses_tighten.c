/* Moves charges to where they raise the bound most, after the volume algorithm
 * (Barahona and Anbil, 2000). Every step starts from the charges of the best bound,
 * and changes them where, in the mean of the last steps, items and trip disagree. In
 * time that mean comes near the best plan in fractions. Only the direction is
 * computed with fractions: charges and bounds are whole numbers. */
#include "years/courses_inside.h"

#include <string.h>

/* The weight of the latest ways in the mean. */
static const double LAST_WEIGHT = 0.1;

/* How far charges are moved: a part of the way that would close the gap if nothing
 * else changed, at the first branch and at the start of every later one; longer after
 * every step that tells more, shorter after some that did not. These four and the
 * numbers of steps were found by trying (tests/bench/years_bench.py); no bound depends
 * on them. */
static const double FIRST_STRIDE = 0.2;
static const double LATER_STRIDE = 0.05;
static const double LONGER = 1.2;
static const double SHORTER = 0.7;

enum { PATIENCE = 4, TRY_EVERY = 8 };

/* Less disagreement than this is none. */
static const double LEAST_PULL = 1e-9;

static bool
is_open(const struct courses_search *search, size_t trip)
{
	return search->decisions[trip] == TRIP_OPEN;
}

/* Takes the ways of the last bound into the mean, at this weight. */
static void
mix_means(struct courses_search *search, double weight)
{
	size_t winters = search->problem->winters;
	for (size_t i = 0; i < search->trip_count; i++) {
		size_t trip = search->trips[i];
		double made = search->charged[trip] > trip_cost(search, trip) ? 1.0 : 0.0;
		search->made_mean[trip] += weight * (made - search->made_mean[trip]);
	}
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = member_class(search, i);
		for (size_t j = 0; j < class->trip_count; j++) {
			class->mean[class->trips[j]] *= 1 - weight;
		}
		for (size_t winter = 0; winter < winters; winter++) {
			class->mean[class->gone[winter]] += weight;
		}
	}
}

/* How much the items disagree with the trip: above 0 the charge is to rise. A charge
 * that can't fall any more does not count. */
static double
pull_of(const struct courses_search *search, const struct class *class, size_t trip)
{
	double pull = class->mean[trip] - search->made_mean[trip];
	return !is_open(search, trip) || (pull < 0 && class->best_fees[trip] == 0) ? 0
										   : pull;
}

static double
disagreement(const struct courses_search *search)
{
	double sum = 0;
	for (size_t i = 0; i < search->member_count; i++) {
		const struct class *class = member_class(search, i);
		for (size_t j = 0; j < class->trip_count; j++) {
			double pull = pull_of(search, class, class->trips[j]);
			sum += pull * pull * (double)class->weight;
		}
	}
	return sum;
}

static void
set_fee(struct courses_search *search, struct class *class, size_t trip, int64_t fee)
{
	int64_t was = class->fees[trip];
	class->fees[trip] = fee;
	class->stale = class->stale || fee != was; /* only an open trip's is moved */
	search->charged[trip] += (fee - was) * class->weight;
}

/* Moves each charge from that of the best bound; no item needs to pay more than its share
 * of a trip that nobody else goes on. */
static void
move_charges(struct courses_search *search, double stride)
{
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = member_class(search, i);
		for (size_t j = 0; j < class->trip_count; j++) {
			size_t trip = class->trips[j];
			double by = stride * pull_of(search, class, trip);
			double to = (double)class->best_fees[trip] + by;
			int64_t most = trip_cost(search, trip) / class->weight;
			int64_t moved =
			    to >= (double)most ? most : (int64_t)GREATER(to, 0);
			set_fee(search, class, trip,
			    by == 0 ? class->best_fees[trip] : moved);
		}
	}
}

static void
restore_charges(struct courses_search *search)
{
	for (size_t i = 0; i < search->member_count; i++) {
		struct class *class = member_class(search, i);
		for (size_t j = 0; j < class->trip_count; j++) {
			size_t trip = class->trips[j];
			set_fee(search, class, trip, class->best_fees[trip]);
		}
	}
}

int64_t
courses_tighten(struct courses_search *search, int steps)
{
	bool first = steps == FIRST_STEPS;
	double stride = first ? FIRST_STRIDE : LATER_STRIDE;
	size_t all = search->problem->stations * search->problem->winters;
	int64_t best = -1;
	int since = 0;
	for (int step = 0; step < steps; step++) {
		int64_t now = courses_bound(search);
		if (now >= FEE_SHUT) { /* under these decisions no better plan exists */
			return FEE_SHUT;
		}
		mix_means(search, first && step == 0 ? 1.0 : LAST_WEIGHT);
		if (now > best) {
			best = now;
			since = 0;
			stride *= LONGER;
			for (size_t i = 0; i < search->member_count; i++) {
				struct class *class = member_class(search, i);
				memcpy(class->best_fees, class->fees,
				    all * sizeof *class->fees);
			}
		} else if (++since >= PATIENCE) {
			since = 0;
			stride *= SHORTER;
		}
		if (first && step % TRY_EVERY == 0) {
			courses_try_ways(search);
		}
		double pulls = disagreement(search);
		if (courses_round_up(search, best) >= search->best_cost ||
		    pulls < LEAST_PULL) {
			break;
		}
		int64_t gap = search->best_cost - best;
		move_charges(search, stride * (double)gap / pulls);
	}
	restore_charges(search);
	return courses_round_up(search, best);
}
