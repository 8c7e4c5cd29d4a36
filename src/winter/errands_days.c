/* Days opened and closed in a placing. */
#include "winter/limits_inside.h"

#include <string.h>

static void
open_day(struct placer *placer, size_t column, bool open)
{
	struct placing *now = &placer->now;
	size_t week = now->limits->week_of[column];
	int64_t trip = now->limits->weeks[week].trip_minor;
	now->open[column] = open;
	now->minor += open ? trip : -trip;
	now->trips += open ? 1 : (size_t)-1;
	placer_refresh(placer, week);
}

/* Keeps the placing where it is better than the one before, else goes back to that
 * one. */
static bool
keep_if_better(struct placer *placer, size_t column)
{
	if (placing_better(&placer->now, &placer->before)) {
		return true;
	}
	placing_copy(&placer->before, &placer->now);
	placer_refresh(placer, placer->now.limits->week_of[column]);
	return false;
}

static bool
try_closing(struct placer *placer, size_t column)
{
	struct placing *now = &placer->now;
	size_t classes = now->limits->classes;
	placing_copy(now, &placer->before);
	int *taken = &now->on[column * classes];
	const int *were = &placer->before.on[column * classes];
	for (size_t j = 0; j < classes; j++) {
		if (taken[j] > 0) {
			placing_put(now, j, column, -taken[j]);
		}
	}
	open_day(placer, column, false);
	for (size_t j = 0; j < classes; j++) {
		for (int k = 0; k < were[j]; k++) {
			placer_insert(placer, j);
			if (now->left_out > placer->before.left_out ||
			    now->minor > placer->before.minor) {
				return keep_if_better(placer, column);
			}
		}
	}
	return keep_if_better(placer, column);
}

/* Opens a day, has what is cheaper there move to it, and then places what is nowhere. */
static void
open_and_fill(struct placer *placer, size_t column)
{
	open_day(placer, column, true);
	placer_draw_in(placer, placer->now.limits->week_of[column]);
	placer_insert_left_out(placer);
}

static int64_t
pieces_on(const struct placing *placing, size_t column)
{
	int64_t pieces = 0;
	for (size_t j = 0; j < placing->limits->classes; j++) {
		pieces += placing_things(placing, j, column) * placing->limits->pieces[j];
	}
	return pieces;
}

/* Closes days, those with the least on them first, as long as that helps. */
static bool
close_days(struct placer *placer, const struct limit_branch *branch)
{
	struct placing *now = &placer->now;
	bool any = false;
	size_t count = 0;
	for (size_t i = now->limits->columns; i > 0; i--) {
		if (now->open[i - 1] != 0 && branch->marks[i - 1] != LIMIT_IN) {
			size_t at = count++;
			int64_t load = pieces_on(now, i - 1);
			for (; at > 0 && pieces_on(now, placer->order[at - 1]) > load;
			     at--) {
				placer->order[at] = placer->order[at - 1];
			}
			placer->order[at] = i - 1;
		}
	}
	for (size_t k = 0; k < count && placer->looks < placer->most_looks; k++) {
		any = try_closing(placer, placer->order[k]) || any;
	}
	return any;
}

/* The least that a class asks for on the days that are open, less what its room is worth
 * there; WORTH_NEVER where none serves it. */
static int64_t
least_asked(const struct placer *placer, size_t class)
{
	int64_t best = WORTH_NEVER;
	for (size_t k = 0; k < placer->live_count; k++) {
		size_t w = placer->live[k];
		int64_t cost = placer_cost(placer, class, w);
		int64_t asked = cost - placer->far[w] * placer->now.limits->pieces[class];
		best = cost < WORTH_NEVER ? LESSER(asked, best) : best;
	}
	return best;
}

/* The most that a day that is not open could gain, by what room is worth on the open
 * days: below 0 when opening it may help. */
static int64_t
promise(const struct placer *placer, size_t column)
{
	const struct placing *now = &placer->now;
	const struct limits *limits = now->limits;
	size_t week = limits->week_of[column];
	int64_t room = now->room[week];
	int64_t gain = 0;
	int64_t most_each = 0;
	for (size_t j = 0; j < limits->classes; j++) {
		int64_t here = limits->one[j * limits->columns + column];
		int64_t best = here < WORTH_NEVER ? least_asked(placer, j) : 0;
		if (best >= WORTH_NEVER) {
			return -1; /* nothing else serves it */
		}
		if (best > here) {
			int64_t each = (best - here) / limits->pieces[j];
			gain += (best - here) * limits->count[j];
			most_each = GREATER(each, most_each);
		}
	}
	if (most_each > 0 && gain / most_each >= room) {
		gain = room * most_each;
	}
	return limits->weeks[week].trip_minor - gain;
}

/* Opens days that may gain something, as long as that helps. */
static bool
open_days(struct placer *placer, const struct limit_branch *branch)
{
	struct placing *now = &placer->now;
	bool any = false;
	for (size_t i = 0; i < now->limits->columns && placer->looks < placer->most_looks;
	     i++) {
		if (now->open[i] != 0 || branch->marks[i] == LIMIT_OUT ||
		    now->room[now->limits->week_of[i]] == 0) {
			continue;
		}
		if (!placer_price_rooms(placer)) {
			return any;
		}
		placer->looks += placer->live_count * now->limits->classes;
		if (promise(placer, i) < 0) {
			placing_copy(now, &placer->before);
			open_and_fill(placer, i);
			any = keep_if_better(placer, i) || any;
		}
	}
	return any;
}

/* Opens the day that serves most of what is nowhere. False when none does. */
static bool
open_for_left_out(struct placer *placer, const struct limit_branch *branch)
{
	struct placing *now = &placer->now;
	const struct limits *limits = now->limits;
	size_t best = NO_ERRAND;
	int64_t most = 0;
	for (size_t i = 0; i < limits->columns; i++) {
		int64_t pieces = 0;
		if (now->open[i] != 0 || branch->marks[i] == LIMIT_OUT) {
			continue;
		}
		for (size_t j = 0; j < limits->classes; j++) {
			bool serves = limits->serves[i * limits->classes + j] != 0;
			pieces += serves ? now->nowhere[j] * limits->pieces[j] : 0;
		}
		pieces = LESSER(pieces, now->room[limits->week_of[i]]);
		if (pieces > most) {
			most = pieces;
			best = i;
		}
	}
	if (best == NO_ERRAND) {
		return false;
	}
	open_and_fill(placer, best);
	return true;
}

/* Opens the days that the charges gain most by, where nothing is on them yet. Those that the
 * branch says must be used are among them: it says so only once the trips of every week are
 * decided, and builds only where as many days are left. */
static void
open_chosen(struct placer *placer, const struct charges *charges,
    const struct limit_branch *branch)
{
	struct placing *now = &placer->now;
	const struct limits *limits = now->limits;
	memset(now->open, 0, limits->columns);
	memset(now->on, 0, limits->columns * limits->classes * sizeof *now->on);
	memset(now->nowhere, 0, limits->classes * sizeof *now->nowhere);
	placer_refresh(placer, NO_ERRAND);
	now->minor = 0;
	now->trips = 0;
	now->left_out = 0;
	for (size_t w = 0; w < limits->week_count; w++) {
		const struct limit_week *week = &limits->weeks[w];
		now->room[w] = week->room;
		if (charges->runs[w] == 1) {
			open_day(placer, charges->column[w], true);
		}
		size_t left = charges->runs[w] > 1 ? charges->runs[w] : 0;
		for (size_t i = week->first; left > 0 && i < week->first + week->count;
		     i++) {
			if (branch->marks[i] != LIMIT_OUT) {
				open_day(placer, i, true);
				left--;
			}
		}
	}
}

/* Inserts all things, the largest first, because only things of one piece make room
 * for others. */
static void
insert_all(struct placer *placer)
{
	const struct limits *limits = placer->now.limits;
	size_t classes = limits->classes;
	int64_t size = 0;
	for (size_t j = 0; j < classes; j++) {
		size = GREATER(size, limits->pieces[j]);
	}
	while (size > 0) {
		int64_t next = 0;
		for (size_t j = 0; j < classes; j++) {
			int64_t pieces = limits->pieces[j];
			for (int64_t k = 0; pieces == size && k < limits->count[j]; k++) {
				placer_insert(placer, j);
			}
			next = pieces < size && pieces > next ? pieces : next;
		}
		size = next;
	}
}

void
placer_build(struct placer *placer, const struct charges *charges,
    const struct limit_branch *branch)
{
	const struct limits *limits = placer->now.limits;
	open_chosen(placer, charges, branch);
	insert_all(placer);
	while (placer->now.left_out > 0 && open_for_left_out(placer, branch)) {
	}
	/* every day with room that is left is opened, so that chains through them may
	 * help */
	bool all = placer->now.left_out > 0;
	for (size_t i = 0; all && i < limits->columns; i++) {
		if (placer->now.open[i] == 0 && branch->marks[i] != LIMIT_OUT) {
			open_and_fill(placer, i);
		}
	}
	for (bool more = true; more && placer->looks < placer->most_looks;) {
		more = close_days(placer, branch);
		more = open_days(placer, branch) || more;
	}
}

/* True when everything on a day could as well go on an earlier one that is not open. */
static bool
may_hasten(const struct placing *placing, size_t column, size_t earlier)
{
	const struct limits *limits = placing->limits;
	size_t week = limits->week_of[earlier];
	bool may = placing->open[earlier] == 0 &&
		   (week == limits->week_of[column] ||
		       placing->room[week] >= pieces_on(placing, column));
	for (size_t j = 0; may && j < limits->classes; j++) {
		const int64_t *one = &limits->one[j * limits->columns];
		may = placing_things(placing, j, column) == 0 ||
		      one[earlier] <= one[column];
	}
	return may;
}

/* Moves a trip to the earliest day that serves all of it. */
static bool
hasten(struct placing *placing, size_t column)
{
	const struct limits *limits = placing->limits;
	size_t stop = limits->weeks[limits->week_of[column]].stop;
	size_t earlier = limits->weeks[limits->stops[stop].first].first;
	while (earlier < column && !may_hasten(placing, column, earlier)) {
		earlier++;
	}
	if (placing->open[column] == 0 || earlier == column) {
		return false;
	}
	for (size_t j = 0; j < limits->classes; j++) {
		int count = placing_things(placing, j, column);
		placing_put(placing, j, column, -count);
		if (count > 0) {
			placing_put(placing, j, earlier, count);
		}
	}
	placing->open[earlier] = 1;
	placing->open[column] = 0;
	return true;
}

void
placing_hasten(struct placing *placing)
{
	for (bool more = true; more;) {
		more = false;
		for (size_t i = 0; i < placing->limits->columns; i++) {
			more = hasten(placing, i) || more;
		}
	}
}
