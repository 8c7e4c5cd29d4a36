#include "muster/booked.h"

#include "base/numbers.h"
#include "due/suppose.h"
#include "muster/inside.h"

#include <string.h>

size_t
booked_of_vessel(const struct inventory *inventory, size_t vessel, struct span picked,
    day_t today, struct booked *out)
{
	const struct vessel *boat = &inventory->vessels[vessel];
	size_t count = 0;
	for (size_t i = 0; i < boat->booking_count; i++) {
		struct span days = boat->bookings[i].days;
		bool asked = days.first <= picked.last && picked.first <= days.last;
		if (span_has(days, today)) {
			days.first = today;
		}
		if (asked) {
			out[count++] = (struct booked){.vessel = vessel,
			    .booking = &boat->bookings[i],
			    .days = days};
		}
	}
	return count;
}

size_t
booked_while_here(
    const struct inventory *inventory, struct booked *bookings, size_t count)
{
	size_t kept = 0;
	for (size_t i = 0; i < count; i++) {
		const struct vessel *vessel = &inventory->vessels[bookings[i].vessel];
		struct span *days = &bookings[i].days;
		if (!vessel_is_here(vessel, days->first)) {
			continue;
		}
		if (!vessel_is_here(vessel, days->last)) {
			days->last = vessel->left - 1;
		}
		bookings[kept++] = bookings[i];
	}
	return kept;
}

/* An engine over the same gear, in which one vessel has the persons of a booking aboard. */
struct manned {
	struct due_engine engine;
	struct inventory inventory;
	struct vessel *vessels; /* a copy of all, in the arena */
};

static void
manned_make(const struct due_engine *engine, struct arena *arena, struct manned *out)
{
	size_t count = engine->inventory->vessel_count;
	out->engine = *engine;
	out->inventory = *engine->inventory;
	out->vessels = arena_alloc(arena, (count + 1) * sizeof *out->vessels);
	if (count > 0) {
		memcpy(out->vessels, engine->inventory->vessels,
		    count * sizeof *out->vessels);
	}
	out->inventory.vessels = out->vessels;
	out->engine.inventory = &out->inventory;
}

/* Puts the persons of a booking aboard, from its first day on; what is on record of later days
 * tells nothing of this party. */
static void
man(const struct due_engine *engine, struct manned *manned, const struct booked *booked,
    struct arena *arena)
{
	const struct vessel *vessel = &engine->inventory->vessels[booked->vessel];
	struct vessel *out = &manned->vessels[booked->vessel];
	*out = *vessel;
	if (booked->booking->persons == 0) {
		return;
	}
	struct period *periods =
	    arena_alloc(arena, vessel->period_count * sizeof *periods);
	memcpy(periods, vessel->periods, vessel->period_count * sizeof *periods);
	for (size_t i = 0; i < vessel->period_count; i++) {
		if (periods[i].from > booked->days.first) {
			periods[i].says &= ~(unsigned)SAYS_PERSONS;
		}
	}
	struct vessel copy = *vessel;
	copy.periods = periods;
	const struct supposition party = {.from = booked->days.first,
	    .says = SAYS_PERSONS,
	    .persons = booked->booking->persons};
	vessel_suppose(&copy, &party, arena, out);
}

/* What was moved to boats for their bookings so far. */
struct moved {
	size_t vessel;
	struct muster_move move;
};

struct moves {
	struct moved *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* Lists what was moved to a vessel. */
static void
list_moved(
    const struct moves *moves, size_t vessel, struct arena *arena, struct cure_given *out)
{
	out->count = 0;
	out->moves = arena_alloc(arena, (moves->count + 1) * sizeof *out->moves);
	for (size_t i = 0; i < moves->count; i++) {
		if (moves->items[i].vessel == vessel) {
			out->moves[out->count++] = moves->items[i].move;
		}
	}
}

static void
note_moved(struct moves *moves, const struct muster *muster, struct arena *arena)
{
	for (size_t i = 0; i < muster->cure.count; i++) {
		ARENA_ROOM(arena, moves);
		moves->items[moves->count++] =
		    (struct moved){muster->vessel, muster->cure.moves[i]};
	}
}

/* Cures one booking from what is not taken, counting what was moved to her already. */
static void
cure_booking(const struct due_engine *engine, struct booked *booked, bool wholly,
    struct moves *moves, int *taken, struct arena *arena)
{
	struct muster *muster = &booked->muster;
	struct cure_given given = {0};
	struct muster with = {0};
	list_moved(moves, booked->vessel, arena, &given);
	muster_with(engine, booked->vessel, booked->days, given, arena, &with);
	if (with.shortage_count == 0) {
		muster->cure.cures = true;
		muster->cure.fewest = true;
		booked->cured_by_others = true;
		return;
	}
	cure_one(engine, &with, given, wholly, taken, arena);
	muster->cure = with.cure;
	note_moved(moves, muster, arena);
}

/* A booking in need. */
struct booked_need {
	size_t at;
	day_t first;
};

static int
compare_needs(const void *left, const void *right)
{
	const struct booked_need *a = left;
	const struct booked_need *b = right;
	int order = ORDER(a->first, b->first);
	return ORDER_THEN(order, a->at, b->at);
}

static void
muster_each(const struct due_engine *engine, struct manned *manned,
    struct booked *bookings, size_t count, struct arena *arena)
{
	for (size_t i = 0; i < count; i++) {
		struct booked *booked = &bookings[i];
		man(engine, manned, booked, arena);
		muster_vessel(&manned->engine, booked->vessel, booked->days, arena,
		    &booked->muster);
	}
}

void
muster_bookings(const struct due_engine *engine, struct booked *bookings, size_t count,
    struct arena *arena)
{
	struct manned manned = {0};
	struct moves moves = {0};
	size_t need_count = 0;
	int *taken =
	    arena_alloc(arena, (engine->inventory->item_count + 1) * sizeof *taken);
	struct booked_need *needs = arena_alloc(arena, (count + 1) * sizeof *needs);
	manned_make(engine, arena, &manned);
	muster_each(engine, &manned, bookings, count, arena);
	for (size_t i = 0; i < count; i++) {
		if (bookings[i].muster.shortage_count > 0) {
			needs[need_count++] =
			    (struct booked_need){i, bookings[i].booking->days.first};
		}
	}
	ARRAY_SORT(needs, need_count, compare_needs);
	for (int wholly = 1; wholly >= 0; wholly--) {
		for (size_t i = 0; i < need_count; i++) {
			struct booked *booked = &bookings[needs[i].at];
			if (booked->muster.cure.cures) {
				continue;
			}
			man(engine, &manned, booked, arena);
			cure_booking(
			    &manned.engine, booked, wholly == 1, &moves, taken, arena);
		}
	}
}

enum booked_rank
booked_rank(const struct booked *booked)
{
	const struct muster *muster = &booked->muster;
	bool untold = !muster->has_lines || muster->line_count == 0;
	for (size_t i = 0; i < muster->line_count; i++) {
		untold = untold || muster->lines[i].asks[0] != '\0';
	}
	if (muster->shortage_count > 0 && !muster->cure.cures) {
		return BOOKED_SHORT;
	}
	if (!muster->ok && (untold || muster->shortage_count == 0)) {
		return BOOKED_NOT_TOLD;
	}
	return muster->ok ? BOOKED_FINE : BOOKED_CURED;
}

static int
compare_booked(const void *left, const void *right)
{
	const struct booked *a = left;
	const struct booked *b = right;
	int order = (int)booked_rank(a) - (int)booked_rank(b);
	order = ORDER_THEN(order, a->booking->days.first, b->booking->days.first);
	return ORDER_THEN(order, a->vessel, b->vessel);
}

void
booked_sort(struct booked *bookings, size_t count)
{
	ARRAY_SORT(bookings, count, compare_booked);
}

const char *
booked_word(enum booked_rank rank)
{
	static const char *const WORDS[] = {
	    [BOOKED_SHORT] = "short",
	    [BOOKED_NOT_TOLD] = "not-told",
	    [BOOKED_CURED] = "cured",
	    [BOOKED_FINE] = "fine",
	};
	return WORDS[rank];
}

size_t
booked_lapses(const struct booked *booked)
{
	size_t count = 0;
	while (count < booked->muster.lapse_count &&
	       booked->muster.lapses[count].last < booked->days.last) {
		count++;
	}
	return count;
}
