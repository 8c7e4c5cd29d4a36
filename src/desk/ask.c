#include "base/numbers.h"
#include "base/text.h"
#include "desk/inside.h"
#include "desk/plans.h"

#include <string.h>

bool
ask_load(struct desk *desk, const char *vessel, enum left_gear left, bool with_withdrawn,
    struct fault *fault)
{
	desk_forget(desk);
	desk->left_gear = left;
	desk->about = NULL;
	return desk_load(desk, vessel, with_withdrawn, fault);
}

bool
part_load(struct desk *desk, const struct book_part *about, bool with_withdrawn,
    struct fault *fault)
{
	/* an act's is left as it was, which may be planned anew */
	const struct book_part *before = desk->about;
	desk->about = about;
	bool loaded = desk_load(desk, NULL, with_withdrawn, fault);
	desk->about = before;
	return loaded;
}

bool
ask_part(struct desk *desk, const struct book_part *about, enum left_gear left,
    bool with_withdrawn, struct fault *fault)
{
	desk_forget(desk);
	desk->left_gear = left;
	return part_load(desk, about, with_withdrawn, fault);
}

/* A question about all boats, some at a time. Boats are known by their places; in the desk's
 * arena. */
struct by_boats {
	enum left_gear left;
	bool with_withdrawn;
	ask_boats *answer;
	void *question;
	struct word_list boats; /* by name, as the inventory has them */
	/* whose gear hangs together with that of a boat: from others[first[boat]] to before
	 * others[first[boat + 1]]; few fleets have any */
	size_t *first;
	size_t *others;
	size_t *seen; /* one a boat: in which part she was looked for last */
	size_t part;
};

/* Goes through what hangs together, both ways: counts how much that is of each boat, or puts it
 * where her others are. */
static void
walk_ties(struct by_boats *asked, const struct book_tie *ties, size_t count, bool put)
{
	for (size_t i = 0; i < count; i++) {
		size_t one = ties[i].by_gear ? words_place(&asked->boats, ties[i].vessel)
					     : asked->boats.count;
		size_t other =
		    ties[i].by_gear ? words_place(&asked->boats, ties[i].to) : one;
		if (one == asked->boats.count || other == asked->boats.count) {
			continue;
		}
		if (put) {
			asked->others[--asked->first[one]] = other;
			asked->others[--asked->first[other]] = one;
		} else {
			asked->first[one]++;
			asked->first[other]++;
		}
	}
}

static void
find_tied(const struct book_tie *ties, size_t count, struct arena *arena,
    struct by_boats *asked)
{
	const char **boats = ARENA_MANY(arena, const char *, count);
	for (size_t i = 0; i < count; i++) {
		if (i == 0 || strcmp(ties[i - 1].vessel, ties[i].vessel) != 0) {
			boats[asked->boats.count++] = ties[i].vessel;
		}
	}
	asked->boats.items = boats;
	asked->first = ARENA_MANY(arena, size_t, asked->boats.count + 1);
	asked->others = ARENA_MANY(arena, size_t, 2 * count);
	asked->seen = ARENA_MANY(arena, size_t, asked->boats.count);
	walk_ties(asked, ties, count, false);
	for (size_t i = 1; i <= asked->boats.count; i++) {
		asked->first[i] += asked->first[i - 1];
	}
	walk_ties(asked, ties, count, true);
}

/* Boats of a part, by their places. */
struct part_boats {
	size_t *items; /* in an arena */
	size_t count;
	size_t capacity;
};

static void
add_boat(
    struct by_boats *asked, size_t boat, struct arena *arena, struct part_boats *boats)
{
	if (asked->seen[boat] != asked->part) {
		asked->seen[boat] = asked->part;
		ARENA_ADD(arena, boats, boat);
	}
}

/* Some boats, and those whose gear hangs together with gear of these, as far as it does. */
static void
find_part(
    struct by_boats *asked, size_t first, struct arena *arena, struct part_boats *boats)
{
	size_t end = LESSER(first + BOATS_AT_A_TIME, asked->boats.count);
	asked->part++;
	for (size_t i = first; i < end; i++) {
		add_boat(asked, i, arena, boats);
	}
	for (size_t i = 0; i < boats->count; i++) {
		size_t boat = boats->items[i];
		for (size_t k = asked->first[boat]; k < asked->first[boat + 1]; k++) {
			add_boat(asked, asked->others[k], arena, boats);
		}
	}
}

/* True where the parts would load the book several times over, for much of it hangs together. */
static bool
hangs_together(struct by_boats *asked)
{
	enum { TIMES_LOADED = 4 };

	size_t loaded = 0;
	for (size_t i = 0; i < asked->boats.count; i += BOATS_AT_A_TIME) {
		SCOPED_ARENA arena = {0};
		struct part_boats boats = {0};
		find_part(asked, i, &arena, &boats);
		loaded += boats.count;
		if (loaded > TIMES_LOADED * asked->boats.count) {
			return true;
		}
	}
	return false;
}

/* Has some boats answered about, in a transaction that is open. */
static bool
boats_answered(
    struct desk *desk, struct by_boats *asked, size_t first, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct part_boats boats = {0};
	const struct word_list some = {.items = asked->boats.items + first,
	    .count = LESSER(asked->boats.count - first, (size_t)BOATS_AT_A_TIME)};
	find_part(asked, first, &arena, &boats);
	const char **names = ARENA_MANY(&arena, const char *, boats.count);
	for (size_t i = 0; i < boats.count; i++) {
		names[i] = asked->boats.items[boats.items[i]];
	}
	const struct book_part part = {
	    .vessels = names, .vessel_count = boats.count, .without_stations = true};
	return ask_part(desk, &part, asked->left, asked->with_withdrawn, fault) &&
	       asked->answer(desk, &some, asked->question, fault);
}

static bool
answer_by_boats(struct desk *desk, struct by_boats *asked, struct fault *fault)
{
	const struct book_tie *ties = NULL;
	size_t count = 0;
	bool done = book_ties(desk->book, &desk->arena, &ties, &count, fault);
	if (!done) {
		return false;
	}
	find_tied(ties, count, &desk->arena, asked);
	if (asked->boats.count <= BOATS_AT_A_TIME || hangs_together(asked)) {
		return ask_load(desk, NULL, asked->left, asked->with_withdrawn, fault) &&
		       asked->answer(desk, NULL, asked->question, fault);
	}
	for (size_t first = 0; done && first < asked->boats.count;
	     first += BOATS_AT_A_TIME) {
		done = boats_answered(desk, asked, first, fault);
	}
	return done;
}

bool
ask_by_boats(struct desk *desk, enum left_gear left, bool with_withdrawn,
    ask_boats *answer, void *question, struct fault *fault)
{
	struct by_boats asked = {.left = left,
	    .with_withdrawn = with_withdrawn,
	    .answer = answer,
	    .question = question};
	if (!desk_book(desk, fault) || !book_begin_reading(desk->book, fault)) {
		return false;
	}
	bool done = answer_by_boats(desk, &asked, fault);
	book_rollback(desk->book);
	return done;
}

bool
ask_about(struct desk *desk, const struct book_part *about, enum left_gear left,
    struct fault *fault)
{
	return ask_part(desk, about, left, true, fault);
}

bool
ask_gear(struct desk *desk, const struct gear_wish *wish, enum left_gear left,
    bool with_withdrawn, struct fault *fault)
{
	const char *vessel = wish->vessel;
	if (vessel != NULL && !ask_load(desk, vessel, left, with_withdrawn, fault)) {
		return false;
	}
	return (vessel != NULL && !desk->contents.parts_elsewhere) ||
	       ask_part(desk, boats_part(desk, vessel, wish->base, NULL, REACH_FAMILIES),
		   left, with_withdrawn, fault);
}

bool
ask_planned(struct desk *desk, const struct book_part *about, enum left_gear left,
    struct fault *fault)
{
	return ask_about(desk, about, left, fault) &&
	       (about == NULL || !plans_are_one(desk) ||
		   ask_about(desk, NULL, left, fault));
}

bool
ask_engine(
    struct desk *desk, const char *vessel, enum left_gear left, struct fault *fault)
{
	return ask_load(desk, vessel, left, true, fault) &&
	       desk_engine(desk, vessel, fault);
}

bool
ask_in_order(struct span days, struct fault *fault)
{
	return days.first <= days.last || fault_set(fault, FAULT_USAGE,
					      "found a " FIELD "to before its " FIELD
					      "from; expected it on that day or later");
}

bool
gear_sieve(struct desk *desk, const struct gear_wish *wish, struct gear_sieve *out,
    struct fault *fault)
{
	*out = (struct gear_sieve){.vessel = wish->vessel, .base = wish->base};
	return wish->kind == NULL ||
	       desk_kinds_meant(desk, wish->kind, &out->kinds, fault) ||
	       fault_prefix(fault, FIELD "kind");
}

static bool
is_of_kinds(const struct word_list *kinds, const struct item *item)
{
	size_t at = 0;
	while (at < kinds->count && strcmp(kinds->items[at], item->kind) != 0) {
		at++;
	}
	return kinds->count == 0 || at < kinds->count;
}

bool
gear_passes(const struct gear_sieve *sieve, const struct inventory *inventory,
    const struct item *item)
{
	const struct vessel *vessel = &inventory->vessels[item->vessel];
	return (sieve->vessel == NULL || strcmp(vessel->name, sieve->vessel) == 0) &&
	       (sieve->base == NULL || strcmp(vessel->base, sieve->base) == 0) &&
	       is_of_kinds(&sieve->kinds, item);
}
