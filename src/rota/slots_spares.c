/* Which spare stands in for which job.
 *
 * By hand-in, each job takes the first spare in use that is back, large enough and in
 * date, else the first fresh one: where spares are alike no other way needs fewer. Where
 * they are not and that finds none, every spare is tried, of those alike one, going back;
 * so often at the most. */
#include "rota/slots_inside.h"

/* ---- held by a job ---- */

static void
mark_days(struct slot_search *search, const struct slot *slot, bool held)
{
	for (day_t day = slot->hand_in; day < slot->collect; day++) {
		search->held[slot_at(search, slot->spare, day)] = held;
	}
}

void
slot_hold(struct slot_search *search, size_t job, size_t spare)
{
	search->slots[job].spare = spare;
	mark_days(search, &search->slots[job], true);
	search->in_use += search->holders[spare]++ == 0;
}

void
slot_let_go(struct slot_search *search, size_t job)
{
	struct slot *slot = &search->slots[job];
	if (slot->spare != SLOT_NONE) {
		mark_days(search, slot, false);
		search->in_use -= --search->holders[slot->spare] == 0;
		slot->spare = SLOT_NONE;
	}
}

/* Whether a spare is large enough, and in date while the job is away. */
static bool
spare_suits(const struct slot_search *search, size_t spare, size_t job)
{
	const struct slot_spare *with = &search->problem->spares[spare];
	const struct slot *slot = &search->slots[job];
	return with->capacity >= slot_job_of(search, job)->capacity &&
	       with->days.first <= slot->hand_in && slot->collect - 1 <= with->days.last;
}

static bool
is_free(const struct slot_search *search, size_t spare, const struct slot *slot)
{
	for (day_t day = slot->hand_in; day < slot->collect; day++) {
		if (search->held[slot_at(search, spare, day)]) {
			return false;
		}
	}
	return true;
}

bool
slot_find_spare(struct slot_search *search, size_t job)
{
	size_t fresh = SLOT_NONE;
	for (size_t i = 0; i < search->problem->spare_count; i++) {
		bool unused = search->holders[i] == 0;
		if ((unused && fresh != SLOT_NONE) || !spare_suits(search, i, job)) {
			continue;
		}
		if (unused) {
			fresh = i;
		} else if (is_free(search, i, &search->slots[job])) {
			slot_hold(search, job, i);
			return true;
		}
	}
	if (fresh == SLOT_NONE || search->in_use >= search->most_spares) {
		return false;
	}
	slot_hold(search, job, fresh);
	return true;
}

/* ---- given to all anew ---- */

static bool
spare_does(const struct slot_search *search, size_t spare, size_t job)
{
	return spare_suits(search, spare, job) &&
	       search->busy[spare] <= search->slots[job].hand_in;
}

/* Whether it makes no difference which of two spares is taken. */
static bool
spares_alike(const struct slot_search *search, size_t a, size_t b)
{
	const struct slot_spare *spares = search->problem->spares;
	return search->used[a] == search->used[b] &&
	       spares[a].capacity == spares[b].capacity &&
	       spares[a].days.first == spares[b].days.first &&
	       spares[a].days.last == spares[b].days.last;
}

static bool
was_tried(const struct slot_search *search, size_t spare, size_t job)
{
	for (size_t i = 0; i < spare; i++) {
		if (spares_alike(search, i, spare) && spare_does(search, i, job)) {
			return true;
		}
	}
	return false;
}

static bool give_from(struct slot_search *search, size_t next, size_t used);

/* Tries one spare for a job, and searches on from there. */
static bool
try_spare(struct slot_search *search, size_t next, size_t used, size_t spare)
{
	size_t job = search->turns[next].job;
	day_t busy = search->busy[spare];
	bool fresh = !search->used[spare];
	if (used + fresh > search->most_spares || !spare_does(search, spare, job) ||
	    was_tried(search, spare, job)) {
		return false;
	}
	if (search->hand_outs == 0) {
		search->gave_up = true;
		return false;
	}
	search->hand_outs--;
	search->busy[spare] = search->slots[job].collect;
	search->used[spare] = true;
	search->given[job] = spare;
	if (give_from(search, next + 1, used + fresh)) {
		return true;
	}
	search->busy[spare] = busy;
	search->used[spare] = !fresh;
	return false;
}

/* Gives out spares from the `next` job on, those in use before new ones. */
static bool
give_from(struct slot_search *search, size_t next, size_t used)
{
	if (next == search->turn_count) {
		return true;
	}
	for (int fresh = 0; fresh < 2; fresh++) {
		for (size_t i = 0; i < search->problem->spare_count; i++) {
			if (search->used[i] == (fresh == 0) &&
			    try_spare(search, next, used, i)) {
				return true;
			}
		}
	}
	return false;
}

static int
compare_turns(const void *a, const void *b)
{
	const struct slot_turn *left = a;
	const struct slot_turn *right = b;
	return ORDER_THEN(ORDER(left->hand_in, right->hand_in), left->job, right->job);
}

/* Going back is limited to few jobs and spares, because for each job all spares are
 * looked at. */
enum { GIVING_MOST = 8000, SPARES_MOST = 64 };

/* Gives each job the first suitable spare, of those in use already and then of the
 * others. That is fast, and enough where spares are alike. */
static bool
give_first(struct slot_search *search)
{
	size_t known = 0; /* spares in use, and those before them */
	size_t used = 0;
	for (size_t i = 0; i < search->turn_count; i++) {
		size_t job = search->turns[i].job;
		size_t spare = 0;
		while (spare < known &&
		       !(search->used[spare] && spare_does(search, spare, job))) {
			spare++;
		}
		if (spare == known) {
			spare = 0;
			while (spare < search->problem->spare_count &&
			       (search->used[spare] || !spare_does(search, spare, job))) {
				spare++;
			}
			if (spare == search->problem->spare_count ||
			    ++used > search->most_spares) {
				return false;
			}
			known = GREATER(known, spare + 1);
		}
		search->used[spare] = true;
		search->busy[spare] = search->slots[job].collect;
		search->given[job] = spare;
	}
	return true;
}

static void
free_spares(struct slot_search *search)
{
	for (size_t i = 0; i < search->problem->spare_count; i++) {
		search->busy[i] = DAY_NONE;
		search->used[i] = false;
	}
}

/* Notes for each job that is to have a spare when it goes, and lets go of the one it
 * has. */
static void
line_up(struct slot_search *search)
{
	search->turn_count = 0;
	for (size_t i = 0; i < search->problem->job_count; i++) {
		const struct slot *slot = &search->slots[i];
		search->had[i] = slot->spare;
		slot_let_go(search, i);
		if (!slot->bare && slot->place != SLOT_NONE) {
			search->turns[search->turn_count++] =
			    (struct slot_turn){slot->hand_in, i};
		}
	}
	ARRAY_SORT(search->turns, search->turn_count, compare_turns);
}

/* Finds a spare for each job in line; `given` says which. */
static bool
give(struct slot_search *search)
{
	free_spares(search);
	if (give_first(search)) {
		return true;
	}
	if (search->turn_count > GIVING_MOST ||
	    search->problem->spare_count > SPARES_MOST) {
		search->gave_up = true;
		return false;
	}
	free_spares(search);
	return give_from(search, 0, 0);
}

bool
slot_give_spares(struct slot_search *search)
{
	line_up(search);
	bool given = give(search);
	for (size_t i = 0; i < search->problem->job_count; i++) {
		size_t spare = given ? search->given[i] : search->had[i];
		if (!search->slots[i].bare && search->slots[i].place != SLOT_NONE &&
		    spare != SLOT_NONE) {
			slot_hold(search, i, spare);
		}
	}
	return given;
}
