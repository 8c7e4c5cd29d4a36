#include "base/numbers.h"
#include "base/text.h"
#include "desk/inside.h"
#include "desk/plans.h"

#include <stdlib.h>
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
	desk->about = about;
	bool loaded = desk_load(desk, NULL, with_withdrawn, fault);
	desk->about = NULL;
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

/* Two vessels whose gear hangs together; borrowed. */
struct tied {
	const char *one, *other;
};

/* A question about all boats, some at a time. Of all that hang together `tied` has both ways, by
 * the first one's name; few fleets have any. */
struct by_boats {
	enum left_gear left;
	bool with_withdrawn;
	ask_boats *answer;
	void *question;
	struct word_list boats;
	const struct tied *tied;
	size_t tied_count;
};

static int
compare_tied(const void *left, const void *right)
{
	return strcmp(
	    ((const struct tied *)left)->one, ((const struct tied *)right)->one);
}

static void
find_tied(const struct book_tie *ties, size_t count, struct arena *arena,
    struct by_boats *asked)
{
	struct tied *tied = ARENA_MANY(arena, struct tied, 2 * count);
	size_t found = 0;
	const char **boats = ARENA_MANY(arena, const char *, count);
	for (size_t i = 0; i < count; i++) {
		if (i == 0 || strcmp(ties[i - 1].vessel, ties[i].vessel) != 0) {
			boats[asked->boats.count++] = ties[i].vessel;
		}
		if (ties[i].by_gear) {
			tied[found++] = (struct tied){ties[i].vessel, ties[i].to};
			tied[found++] = (struct tied){ties[i].to, ties[i].vessel};
		}
	}
	ARRAY_SORT(tied, found, compare_tied);
	asked->boats.items = boats;
	asked->tied = tied;
	asked->tied_count = found;
}

/* Names in an array that grows. */
struct names {
	const char **items; /* in an arena */
	size_t count;
	size_t capacity;
};

/* Adds those whose gear hangs together with gear of these, as far as it does. */
static void
add_tied(const struct by_boats *asked, struct arena *arena, struct names *names)
{
	for (size_t i = 0; asked->tied_count > 0 && i < names->count; i++) {
		const struct tied *end = asked->tied + asked->tied_count;
		const struct tied *tied = bsearch(&(struct tied){.one = names->items[i]},
		    asked->tied, asked->tied_count, sizeof *tied, compare_tied);
		while (tied != NULL && tied > asked->tied &&
		       strcmp(tied[-1].one, names->items[i]) == 0) {
			tied--;
		}
		for (; tied != NULL && tied < end &&
		       strcmp(tied->one, names->items[i]) == 0;
		     tied++) {
			if (!words_have(names->items, names->count, tied->other)) {
				ARENA_ADD(arena, names, tied->other);
			}
		}
	}
}

/* Has some boats answered about, in a transaction that is open. */
static bool
boats_answered(struct desk *desk, const struct by_boats *asked,
    const struct word_list *some, struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct names names = {0};
	for (size_t i = 0; i < some->count; i++) {
		ARENA_ADD(&arena, &names, some->items[i]);
	}
	add_tied(asked, &arena, &names);
	const struct book_part part = {.vessels = names.items,
	    .vessel_count = names.count,
	    .without_stations = true};
	return ask_part(desk, &part, asked->left, asked->with_withdrawn, fault) &&
	       asked->answer(desk, some, asked->question, fault);
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
	const struct word_list *boats = &asked->boats;
	if (boats->count <= BOATS_AT_A_TIME) {
		return ask_load(desk, NULL, asked->left, asked->with_withdrawn, fault) &&
		       asked->answer(desk, NULL, asked->question, fault);
	}
	for (size_t first = 0; done && first < boats->count; first += BOATS_AT_A_TIME) {
		const struct word_list some = {.items = boats->items + first,
		    .count = LESSER(boats->count - first, (size_t)BOATS_AT_A_TIME)};
		done = boats_answered(desk, asked, &some, fault);
	}
	return done;
}

bool
ask_by_boats(struct desk *desk, enum left_gear left, bool with_withdrawn,
    ask_boats *answer, void *question, struct fault *fault)
{
	struct by_boats asked = {left, with_withdrawn, answer, question, {0}, NULL, 0};
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
