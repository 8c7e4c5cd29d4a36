/* Things placed on open days so that no exchange along a chain of them saves money.
 *
 * A thing that is placed goes to the week where it is cheapest. Where that week is
 * full, a thing of one piece may push another to a second week, that one a third, and
 * so on to a week with room: weeks are the nodes of a graph whose arcs cost what
 * moving the cheapest thing costs, and the cheapest chain through it is found by the
 * method of Bellman and Ford. The same chains tell what one more piece of room in each
 * week would save, and by that days are opened (errands_days.c). */
#include "winter/limits_inside.h"

#include <string.h>

/* ---- placings ---- */

void
placing_make(const struct limits *limits, struct arena *scratch, struct placing *out)
{
	size_t classes = limits->classes;
	size_t columns = limits->columns;
	size_t cells = columns * classes;
	*out = (struct placing){
	    .limits = limits,
	    .open = arena_alloc(scratch, columns + 1),
	    .on = ARENA_MANY(scratch, int, cells),
	    .nowhere = ARENA_MANY(scratch, int, classes),
	    .room = ARENA_MANY(scratch, int64_t, limits->week_count),
	};
}

void
placing_copy(const struct placing *from, struct placing *to)
{
	const struct limits *limits = from->limits;
	size_t classes = limits->classes;
	size_t columns = limits->columns;
	memcpy(to->open, from->open, columns);
	memcpy(to->on, from->on, columns * classes * sizeof *to->on);
	memcpy(to->nowhere, from->nowhere, classes * sizeof *to->nowhere);
	memcpy(to->room, from->room, limits->week_count * sizeof *to->room);
	to->minor = from->minor;
	to->trips = from->trips;
	to->left_out = from->left_out;
}

bool
placing_better(const struct placing *a, const struct placing *b)
{
	int order = ORDER_THEN(ORDER(a->left_out, b->left_out), a->minor, b->minor);
	return ORDER_THEN(order, a->trips, b->trips) < 0;
}

void
placing_put(struct placing *placing, size_t class, size_t column, int count)
{
	const struct limits *limits = placing->limits;
	placing->on[column * limits->classes + class] += count;
	placing->room[limits->week_of[column]] -= limits->pieces[class] * count;
	placing->minor += limits->one[class * limits->columns + column] * count;
}

static void
place_nowhere(struct placing *placing, size_t class, int count)
{
	placing->nowhere[class] += count;
	placing->left_out += placing->limits->pieces[class] * count;
}

int
placing_things(const struct placing *placing, size_t class, size_t column)
{
	return placing->on[column * placing->limits->classes + class];
}

/* The open day of a week that costs a class least; NO_ERRAND when none serves it. */
static size_t
day_of_week_for(const struct placing *placing, size_t class, size_t week)
{
	const struct limits *limits = placing->limits;
	const struct limit_week *of = &limits->weeks[week];
	const int64_t *one = &limits->one[class * limits->columns];
	size_t best = NO_ERRAND;
	for (size_t i = of->first; i < of->first + of->count; i++) {
		if (placing->open[i] != 0 && one[i] < WORTH_NEVER &&
		    (best == NO_ERRAND || one[i] < one[best])) {
			best = i;
		}
	}
	return best;
}

/* ---- chains ---- */

int64_t
placer_cost(const struct placer *placer, size_t class, size_t week)
{
	return placer->cost[class * placer->now.limits->week_count + week];
}

/* Finds what the classes cost in a week, by the days that are open now. */
static void
fill_costs(struct placer *placer, size_t week)
{
	const struct limits *limits = placer->now.limits;
	for (size_t j = 0; j < limits->classes; j++) {
		size_t column = day_of_week_for(&placer->now, j, week);
		placer->cost[j * limits->week_count + week] =
		    column == NO_ERRAND ? WORTH_NEVER
					: limits->one[j * limits->columns + column];
	}
}

void
placer_refresh(struct placer *placer, size_t week)
{
	const struct limits *limits = placer->now.limits;
	placer->live_count = 0;
	for (size_t w = 0; w < limits->week_count; w++) {
		const struct limit_week *of = &limits->weeks[w];
		if (week == NO_ERRAND || week == w) {
			fill_costs(placer, w);
		}
		placer->stale[w] = true; /* all arcs are to be found anew */
		if (memchr(&placer->now.open[of->first], 1, of->count) != NULL) {
			placer->live[placer->live_count++] = w;
		}
	}
}

/* Lowers the cost of the arcs from a week where moving one thing of a class, which
 * costs `here` now, is cheaper. */
static void
better_arcs(struct placer *placer, size_t week, size_t class, int64_t here)
{
	size_t weeks = placer->now.limits->week_count;
	int64_t *arcs = &placer->arcs[week * weeks];
	size_t *movers = &placer->movers[week * weeks];
	placer->looks += placer->live_count;
	for (size_t k = 0; k < placer->live_count; k++) {
		size_t there = placer->live[k];
		int64_t cost = placer_cost(placer, class, there);
		if (there != week && cost < WORTH_NEVER && cost - here < arcs[there]) {
			arcs[there] = cost - here;
			movers[there] = class;
		}
	}
}

/* Finds the cost of moving, from a week to every other, the thing of one piece that is
 * cheapest to move. */
static void
find_arcs(struct placer *placer, size_t week)
{
	const struct limits *limits = placer->now.limits;
	const struct limit_week *of = &limits->weeks[week];
	size_t classes = limits->classes;
	placer->stale[week] = false;
	for (size_t k = 0; k < placer->live_count; k++) {
		placer->arcs[week * limits->week_count + placer->live[k]] = WORTH_NEVER;
	}
	for (size_t i = of->first; i < of->first + of->count; i++) {
		for (size_t j = 0; placer->now.open[i] != 0 && j < classes; j++) {
			if (limits->pieces[j] == 1 &&
			    placing_things(&placer->now, j, i) > 0) {
				better_arcs(placer, week, j,
				    limits->one[j * limits->columns + i]);
			}
		}
		placer->looks += classes / 4;
	}
}

/* Puts a week into the queue unless it is there already. */
static void
enqueue(struct placer *placer, size_t week)
{
	size_t weeks = placer->now.limits->week_count;
	if (!placer->queued[week]) {
		size_t tail = placer->head + placer->waiting++;
		placer->queue[tail >= weeks ? tail - weeks : tail] = week;
		placer->queued[week] = true;
	}
}

static size_t
dequeue(struct placer *placer)
{
	size_t week = placer->queue[placer->head];
	placer->head =
	    placer->head + 1 == placer->now.limits->week_count ? 0 : placer->head + 1;
	placer->waiting--;
	placer->queued[week] = false;
	return week;
}

/* Follows the arcs from a week. Reaching a week for more than `most` is of no use,
 * because nothing gets cheaper further on; returns the least cost at which a week with
 * room is now reached. */
static int64_t
follow_arcs(struct placer *placer, size_t from, bool to_room, int64_t most)
{
	const int64_t *arcs = &placer->arcs[from * placer->now.limits->week_count];
	placer->looks += placer->live_count / 2;
	for (size_t k = 0; k < placer->live_count; k++) {
		size_t to = placer->live[k];
		int64_t far = placer->far[from] + arcs[to];
		if (arcs[to] >= WORTH_NEVER || far >= placer->far[to] || far >= most) {
			continue;
		}
		placer->far[to] = far;
		placer->via[to] = from;
		if (to_room && placer->now.room[to] > 0) {
			most = far;
		} else {
			enqueue(placer, to);
		}
	}
	return most;
}

/* Follows chains as long as they make some week cheaper to reach (Bellman and Ford),
 * taking the weeks in the order in which they became cheaper; with `to_room` only as
 * far as helps to reach a week with room. False when that does not end, because a
 * circle of moves saves money: then no chain may be followed. This happens only where
 * a second day of a week was opened or the looks were used up. */
static bool
find_chains(struct placer *placer, bool to_room)
{
	int64_t most = WORTH_NEVER;
	placer->head = 0;
	placer->waiting = 0;
	for (size_t k = 0; k < placer->live_count; k++) {
		size_t week = placer->live[k];
		int64_t far = placer->far[week];
		placer->queued[week] = false;
		if (far < WORTH_NEVER) {
			enqueue(placer, week);
		}
		most = to_room && placer->now.room[week] > 0 && far < most ? far : most;
	}
	for (size_t left = placer->live_count * placer->live_count; placer->waiting > 0;
	     left--) {
		if (left == 0) {
			return false;
		}
		size_t from = dequeue(placer);
		if (placer->far[from] < most && placer->stale[from]) {
			find_arcs(placer, from);
		}
		if (placer->far[from] < most) {
			most = follow_arcs(placer, from, to_room, most);
		}
	}
	return true;
}

/* Moves the thing that an arc stands for. */
static void
move_along(struct placer *placer, size_t from, size_t to)
{
	struct placing *now = &placer->now;
	const struct limits *limits = now->limits;
	size_t class = placer->movers[from * limits->week_count + to];
	const struct limit_week *of = &limits->weeks[from];
	size_t dearest = NO_ERRAND;
	const int64_t *one = &limits->one[class * limits->columns];
	for (size_t i = of->first; i < of->first + of->count; i++) {
		if (now->open[i] != 0 && placing_things(now, class, i) > 0 &&
		    (dearest == NO_ERRAND || one[i] > one[dearest])) {
			dearest = i;
		}
	}
	placing_put(now, class, dearest, -1);
	placing_put(now, class, day_of_week_for(now, class, to), 1);
	placer->stale[from] = true;
	placer->stale[to] = true;
}

/* Whether the chain to a week has a beginning, and is no circle. */
static bool
chain_begins(const struct placer *placer, size_t week)
{
	size_t left = placer->live_count;
	while (placer->via[week] != NO_ERRAND && left > 0) {
		week = placer->via[week];
		left--;
	}
	return placer->via[week] == NO_ERRAND;
}

/* Moves one thing along every arc of the chain that ends in a week; returns the week
 * it begins in. */
static size_t
follow_chain(struct placer *placer, size_t week)
{
	for (; placer->via[week] != NO_ERRAND; week = placer->via[week]) {
		move_along(placer, placer->via[week], week);
	}
	return week;
}

/* The week with room for so many pieces that is cheapest to reach; NO_ERRAND for none. */
static size_t
nearest_with_room(const struct placer *placer, int64_t pieces)
{
	size_t best = NO_ERRAND;
	for (size_t k = 0; k < placer->live_count; k++) {
		size_t week = placer->live[k];
		if (placer->far[week] < WORTH_NEVER && placer->now.room[week] >= pieces &&
		    (best == NO_ERRAND || placer->far[week] < placer->far[best])) {
			best = week;
		}
	}
	return best;
}

/* The cheapest week with room, without chains. */
static size_t
direct_week(struct placer *placer, size_t class)
{
	for (size_t k = 0; k < placer->live_count; k++) {
		size_t week = placer->live[k];
		placer->far[week] = placer_cost(placer, class, week);
		placer->via[week] = NO_ERRAND;
	}
	return nearest_with_room(placer, placer->now.limits->pieces[class]);
}

void
placer_insert(struct placer *placer, size_t class)
{
	struct placing *now = &placer->now;
	int64_t pieces = now->limits->pieces[class];
	int64_t least = WORTH_NEVER;
	size_t week = direct_week(placer, class);
	for (size_t k = 0; k < placer->live_count; k++) {
		least = LESSER(least, placer->far[placer->live[k]]);
	}
	placer->looks += placer->live_count;
	bool settled = week != NO_ERRAND && placer->far[week] == least;
	if (!settled && pieces == 1 && least < WORTH_NEVER) {
		bool found = find_chains(placer, true);
		week = nearest_with_room(placer, 1);
		if (!found || (week != NO_ERRAND && !chain_begins(placer, week))) {
			placer->cut = true;
			week = direct_week(placer, class);
		}
	}
	if (week == NO_ERRAND) {
		place_nowhere(now, class, 1);
		return;
	}
	size_t first = follow_chain(placer, week);
	placing_put(now, class, day_of_week_for(now, class, first), 1);
	placer->stale[first] = true;
}

bool
placer_price_rooms(struct placer *placer)
{
	for (size_t k = 0; k < placer->live_count; k++) {
		placer->far[placer->live[k]] = 0;
		placer->via[placer->live[k]] = NO_ERRAND;
	}
	return find_chains(placer, false);
}

void
placer_draw_in(struct placer *placer, size_t week)
{
	while (placer->now.room[week] > 0) {
		bool found = placer_price_rooms(placer);
		if (found && placer->far[week] >= 0) {
			return;
		}
		/* a chain that was found begins: only a circle that saves money has none, and
		 * where there is one the search does not end */
		if (!found || placer->looks >= placer->most_looks) {
			placer->cut = true;
			return;
		}
		(void)follow_chain(placer, week);
	}
}

void
placer_insert_left_out(struct placer *placer)
{
	struct placing *now = &placer->now;
	for (size_t j = 0; now->left_out > 0 && j < now->limits->classes; j++) {
		int count = now->nowhere[j];
		place_nowhere(now, j, -count);
		for (int k = 0; k < count; k++) {
			placer_insert(placer, j);
		}
	}
}

void
placer_make(const struct limits *limits, struct arena *scratch, struct placer *out)
{
	size_t weeks = limits->week_count + 1;
	size_t columns = limits->columns + 1;
	*out = (struct placer){
	    .live = ARENA_MANY(scratch, size_t, weeks),
	    .arcs = ARENA_MANY(scratch, int64_t, weeks * weeks),
	    .movers = ARENA_MANY(scratch, size_t, weeks * weeks),
	    .stale = ARENA_MANY(scratch, bool, weeks),
	    .far = ARENA_MANY(scratch, int64_t, weeks),
	    .via = ARENA_MANY(scratch, size_t, weeks),
	    .queue = ARENA_MANY(scratch, size_t, weeks),
	    .queued = ARENA_MANY(scratch, bool, weeks),
	    .cost = ARENA_MANY(scratch, int64_t, (limits->classes + 1) * weeks),
	    .order = arena_alloc(scratch, columns * sizeof *out->order),
	};
	placing_make(limits, scratch, &out->now);
	placing_make(limits, scratch, &out->before);
}
