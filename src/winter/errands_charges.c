/* What things are charged, and the bound on the cost of every plan that follows from
 * it.
 *
 * The condition that every thing goes somewhere is dropped. Instead each thing is
 * charged something, and what it is charged above its cost at a stop is gained there.
 * A week with one trip gains at most what fills its room with the things that gain
 * most for each piece, on its best day; a part of a thing may fill the last of it.
 * With more trips it gains no more than all its days would. The trips over the weeks
 * of a stop are put together week by week, by their number. The sum of the charges,
 * less the most that each stop gains by them, is at most the cost of any plan. The
 * charges are moved by how much too often or too seldom things were taken (a step of
 * the subgradient). */
#include "winter/limits_inside.h"

#include <stdlib.h>
#include <string.h>

/* What a class is charged above its cost at a stop, for one thing. */
struct charge_gain {
	int64_t gain; /* scaled */
	int64_t pieces;
	size_t class;
};

/* The largest gain for each piece first. */
static int
compare_gains(const void *left, const void *right)
{
	const struct charge_gain *a = left;
	const struct charge_gain *b = right;
	return ORDER_THEN(
	    ORDER(b->gain * a->pieces, a->gain * b->pieces), a->class, b->class);
}

/* What so many pieces of a class gain, rounded up; a part of a thing gains its share. */
static int64_t
gain_of_pieces(const struct charge_gain *of, int64_t pieces)
{
	return pieces / of->pieces * of->gain +
	       (pieces % of->pieces * of->gain + of->pieces - 1) / of->pieces;
}

/* The classes that gain at a stop, in order. */
static size_t
order_gains(struct charges *charges, size_t stop)
{
	const struct limits *limits = charges->limits;
	size_t count = 0;
	for (size_t j = 0; j < limits->classes; j++) {
		int64_t cost = limits->least[j * limits->stop_count + stop];
		if (cost < WORTH_NEVER && charges->charged[j] > cost * CHARGE_SCALE) {
			int64_t gain = charges->charged[j] - cost * CHARGE_SCALE;
			charges->order[count++] =
			    (struct charge_gain){gain, limits->pieces[j], j};
		}
	}
	qsort(charges->order, count, sizeof *charges->order, compare_gains);
	return count;
}

/* Whether some day of the week serves a class: the one day, or any that is not decided
 * against where `column` is NO_ERRAND. */
static bool
week_serves(const struct limits *limits, const struct limit_branch *branch,
    const struct limit_week *week, size_t column, size_t class)
{
	size_t classes = limits->classes;
	if (column != NO_ERRAND) {
		return limits->serves[column * classes + class] != 0;
	}
	for (size_t i = week->first; i < week->first + week->count; i++) {
		if (branch->marks[i] != LIMIT_OUT &&
		    limits->serves[i * classes + class] != 0) {
			return true;
		}
	}
	return false;
}

/* The most that the room of a week gains from the ordered classes. Notes the pieces in
 * `taken`, where that is not NULL. */
static int64_t
gain_of_week(struct charges *charges, const struct limit_branch *branch, size_t count,
    size_t week, size_t column, int64_t *taken)
{
	const struct limits *limits = charges->limits;
	const struct limit_week *of = &limits->weeks[week];
	int64_t room = of->room;
	int64_t gain = 0;
	size_t i = 0;
	for (; i < count && room > 0; i++) {
		const struct charge_gain *one = &charges->order[i];
		if (!week_serves(limits, branch, of, column, one->class)) {
			continue;
		}
		int64_t all = limits->count[one->class] * one->pieces;
		int64_t pieces = LESSER(all, room);
		gain += gain_of_pieces(one, pieces);
		room -= pieces;
		if (taken != NULL) {
			taken[one->class] += pieces;
		}
	}
	charges->looks += i;
	return gain;
}

/* How many days of a week must be used, and how many may be. */
static void
count_marks(const struct limits *limits, const struct limit_branch *branch, size_t week,
    size_t *in_out, size_t *open_out)
{
	const struct limit_week *of = &limits->weeks[week];
	*in_out = 0;
	*open_out = 0;
	for (size_t i = of->first; i < of->first + of->count; i++) {
		*in_out += branch->marks[i] == LIMIT_IN;
		*open_out += branch->marks[i] != LIMIT_OUT;
	}
}

/* Values the trips that may be run in a week: one trip, on the day that gains most;
 * and more than one, which together gain no more than all its days would. Returns the
 * latter. */
static int64_t
value_week(
    struct charges *charges, const struct limit_branch *branch, size_t count, size_t week)
{
	const struct limits *limits = charges->limits;
	const struct limit_week *of = &limits->weeks[week];
	size_t in = 0;
	size_t open = 0;
	int64_t best = -1;
	count_marks(limits, branch, week, &in, &open);
	for (size_t i = of->first; i < of->first + of->count; i++) {
		bool may =
		    in > 0 ? branch->marks[i] == LIMIT_IN : branch->marks[i] != LIMIT_OUT;
		int64_t gain =
		    may ? gain_of_week(charges, branch, count, week, i, NULL) : -1;
		if (gain > best) {
			best = gain;
			charges->column[week] = i;
		}
	}
	int64_t trip = of->trip_minor * CHARGE_SCALE;
	charges->value[week] = trip - best;
	return open > 1 ? gain_of_week(charges, branch, count, week, NO_ERRAND, NULL)
			: best;
}

/* Adds one more week to the table of the least that numbers of trips to a stop come
 * to: `before` is the row for the weeks before it, the row after that becomes the one
 * that includes it. */
static void
reach_week(struct charges *charges, const struct limit_branch *branch, size_t week,
    size_t most, int64_t all, int64_t *before, size_t *chosen)
{
	int64_t *reach = before + most + 1;
	const struct limits *limits = charges->limits;
	int64_t trip = limits->weeks[week].trip_minor * CHARGE_SCALE;
	size_t in = 0;
	size_t open = 0;
	count_marks(limits, branch, week, &in, &open);
	for (size_t n = 0; n <= most; n++) {
		bool allowed = n >= branch->fewest[week] && n <= branch->most[week];
		reach[n] = WORTH_NEVER;
		chosen[n] = 0;
		for (size_t m = in; allowed && m <= open && m <= n; m++) {
			int64_t value = m == 0   ? 0
					: m == 1 ? charges->value[week]
						 : trip * (int64_t)m - all;
			int64_t sum = before[n - m] >= WORTH_NEVER
					  ? WORTH_NEVER
					  : before[n - m] + value;
			if (sum < reach[n]) {
				reach[n] = sum;
				chosen[n] = m;
			}
		}
	}
}

/* Counts how many trips to a stop gain most, and in which weeks. */
static int64_t
best_trips(
    struct charges *charges, const struct limit_branch *branch, size_t stop, size_t most)
{
	const struct limit_stop *of = &charges->limits->stops[stop];
	const int64_t *gains = &charges->gains[of->row];
	size_t best = branch->fewest[last_week(charges->limits, stop)];
	for (size_t n = best; n <= most; n++) {
		best = gains[n] < gains[best] ? n : best;
	}
	charges->trips[stop] = best;
	if (best > most || gains[best] >= WORTH_NEVER) {
		return WORTH_NEVER;
	}
	size_t left = best;
	for (size_t w = of->count; w > 0; w--) {
		size_t runs = charges->chosen[(w - 1) * (most + 1) + left];
		charges->runs[of->first + w - 1] = runs;
		left -= runs;
	}
	return gains[best];
}

/* Bounds one stop; notes what its best weeks take. */
static int64_t
bound_stop(struct charges *charges, const struct limit_branch *branch, size_t stop)
{
	const struct limits *limits = charges->limits;
	const struct limit_stop *of = &limits->stops[stop];
	size_t count = order_gains(charges, stop);
	size_t most = branch->most[last_week(limits, stop)];
	int64_t *row = charges->reach;
	row[0] = 0;
	for (size_t n = 1; n <= most; n++) {
		row[n] = WORTH_NEVER;
	}
	for (size_t w = 0; w < of->count; w++, row += most + 1) {
		int64_t all = value_week(charges, branch, count, of->first + w);
		reach_week(charges, branch, of->first + w, most, all, row,
		    &charges->chosen[w * (most + 1)]);
	}
	memcpy(&charges->gains[of->row], row, (most + 1) * sizeof *row);
	charges->looks += of->count * (most + 1) / 4;
	int64_t gain = best_trips(charges, branch, stop, most);
	for (size_t w = of->first; gain < WORTH_NEVER && w < of->first + of->count; w++) {
		if (charges->runs[w] > 0) {
			(void)gain_of_week(charges, branch, count, w,
			    charges->runs[w] == 1 ? charges->column[w] : NO_ERRAND,
			    charges->taken);
		}
	}
	return gain;
}

/* What is saved by leaving out as many pieces as are allowed. */
static int64_t
bound_left_out(struct charges *charges)
{
	const struct limits *limits = charges->limits;
	int64_t left = charges->left_out;
	int64_t saved = 0;
	size_t count = limits->classes;
	if (left == 0) {
		return 0;
	}
	for (size_t j = 0; j < count; j++) {
		charges->order[j] =
		    (struct charge_gain){charges->charged[j], limits->pieces[j], j};
	}
	qsort(charges->order, count, sizeof *charges->order, compare_gains);
	for (size_t i = 0; i < count && left > 0; i++) {
		const struct charge_gain *one = &charges->order[i];
		int64_t all = limits->count[one->class] * one->pieces;
		int64_t pieces = LESSER(all, left);
		saved += gain_of_pieces(one, pieces);
		charges->taken[one->class] += pieces;
		left -= pieces;
	}
	return saved;
}

int64_t
charges_bound(struct charges *charges, const struct limit_branch *branch)
{
	const struct limits *limits = charges->limits;
	int64_t bound = 0;
	memset(charges->taken, 0, limits->classes * sizeof *charges->taken);
	for (size_t j = 0; j < limits->classes; j++) {
		bound += charges->charged[j] * limits->count[j];
	}
	for (size_t s = 0; s < limits->stop_count; s++) {
		int64_t gain = bound_stop(charges, branch, s);
		if (gain >= WORTH_NEVER) {
			return WORTH_NEVER;
		}
		bound += gain;
	}
	return bound - bound_left_out(charges);
}

bool
charges_move(struct charges *charges, double gap)
{
	const struct limits *limits = charges->limits;
	double norm = 0;
	for (size_t j = 0; j < limits->classes; j++) {
		double all = (double)(limits->count[j] * limits->pieces[j]);
		double pull = all - (double)charges->taken[j];
		norm += pull * pull / all;
	}
	if (norm < 1e-9) {
		return false;
	}
	for (size_t j = 0; j < limits->classes; j++) {
		double all = (double)(limits->count[j] * limits->pieces[j]);
		double pull =
		    (all - (double)charges->taken[j]) / (double)limits->count[j];
		/* no more than what may be charged at all, so that the sum stays in
		 * range */
		double by = LESSER(gap / norm * pull, (double)WORTH_NEVER);
		by = GREATER(by, -(double)WORTH_NEVER);
		int64_t charged = charges->charged[j] + (int64_t)by;
		charged = LESSER(charged, limits->most_charge);
		charges->charged[j] = GREATER(charged, 0);
	}
	return true;
}

/* At first a thing is charged what it costs where that is least, and its share of a
 * trip in a full week. */
static void
charge_first(struct charges *charges)
{
	const struct limits *limits = charges->limits;
	for (size_t j = 0; j < limits->classes; j++) {
		int64_t least = limits->most_charge;
		for (size_t s = 0; s < limits->stop_count; s++) {
			const struct limit_stop *stop = &limits->stops[s];
			int64_t cost = limits->least[j * limits->stop_count + s];
			int64_t room = 0; /* the most pieces that one trip takes */
			for (size_t w = 0; w < stop->count; w++) {
				room = GREATER(room, limits->weeks[stop->first + w].room);
			}
			if (cost >= WORTH_NEVER || room == 0) {
				continue;
			}
			int64_t trip = stop->trip_minor * limits->pieces[j] / room;
			least = LESSER(least, (cost + trip) * CHARGE_SCALE);
		}
		charges->charged[j] = least;
	}
}

void
charges_make(const struct limits *limits, struct arena *scratch, struct charges *out)
{
	size_t classes = limits->classes + 1;
	size_t columns = limits->columns + 1;
	size_t stops = limits->stop_count + 1;
	size_t weeks = limits->week_count + 1;
	size_t most = 1;
	for (size_t s = 0; s < limits->stop_count; s++) {
		const struct limit_stop *stop = &limits->stops[s];
		most = GREATER(most, (stop->count + 1) * (stop->columns + 1));
	}
	*out = (struct charges){
	    .limits = limits,
	    .charged = ARENA_MANY(scratch, int64_t, classes),
	    .taken = ARENA_MANY(scratch, int64_t, classes),
	    .gains = ARENA_MANY(scratch, int64_t, columns + stops),
	    .trips = ARENA_MANY(scratch, size_t, stops),
	    .runs = ARENA_MANY(scratch, size_t, weeks),
	    .column = ARENA_MANY(scratch, size_t, weeks),
	    .value = ARENA_MANY(scratch, int64_t, weeks),
	    .often = ARENA_MANY(scratch, double, columns),
	    .order = arena_alloc(scratch, classes * sizeof *out->order),
	    .reach = ARENA_MANY(scratch, int64_t, most),
	    .chosen = ARENA_MANY(scratch, size_t, most),
	};
	charge_first(out);
}
