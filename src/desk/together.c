/* A question about all boats, answered by those that have to do with each other. */
#include "base/numbers.h"
#include "desk/inside.h"
#include "desk/plans.h"

#include <stdlib.h>
#include <string.h>

/* A boat of the book: her place by name, and that of the first of those she has to do with. */
struct berth {
	const char *name;
	size_t place;
	size_t leader; /* while they are found, one before her, or she herself */
};

struct berths {
	struct berth *items; /* in the arena */
	size_t count;
};

/* Who lies at a base at some time. */
struct lies {
	const char *base;
	size_t place;
};

static int
compare_lies(const void *left, const void *right)
{
	const struct lies *a = left;
	const struct lies *b = right;
	int order = strcmp(a->base, b->base);
	return ORDER_THEN(order, a->place, b->place);
}

static int
compare_names(const void *name, const void *berth)
{
	return strcmp(name, ((const struct berth *)berth)->name);
}

static int
compare_leaders(const void *left, const void *right)
{
	const struct berth *a = left;
	const struct berth *b = right;
	int order = ORDER(a->leader, b->leader);
	return ORDER_THEN(order, a->place, b->place);
}

static size_t
leader_of(const struct berths *berths, size_t place)
{
	struct berth *items = berths->items;
	while (items[place].leader != place) {
		items[place].leader = items[items[place].leader].leader;
		place = items[place].leader;
	}
	return place;
}

static void
join(const struct berths *berths, size_t one, size_t other)
{
	size_t a = leader_of(berths, one);
	size_t b = leader_of(berths, other);
	berths->items[a > b ? a : b].leader = a > b ? b : a;
}

/* Joins those who lie at one base. */
static void
join_bases(const struct berths *berths, struct lies *lies, size_t count)
{
	ARRAY_SORT(lies, count, compare_lies);
	for (size_t i = 1; i < count; i++) {
		if (strcmp(lies[i - 1].base, lies[i].base) == 0) {
			join(berths, lies[i - 1].place, lies[i].place);
		}
	}
}

/* Sorts all boats of the book by those they have to do with, each with all of hers one after
 * the other. */
static void
find_berths(
    const struct book_tie *ties, size_t count, struct arena *arena, struct berths *berths)
{
	struct lies *lies = ARENA_MANY(arena, struct lies, count);
	size_t lying = 0;
	berths->items = ARENA_MANY(arena, struct berth, count);
	for (size_t i = 0; i < count; i++) {
		if (i == 0 || strcmp(ties[i - 1].vessel, ties[i].vessel) != 0) {
			berths->items[berths->count] =
			    (struct berth){ties[i].vessel, berths->count, berths->count};
			berths->count++;
		}
		if (!ties[i].by_gear && ties[i].to[0] != '\0') {
			lies[lying++] = (struct lies){ties[i].to, berths->count - 1};
		}
	}
	join_bases(berths, lies, lying);
	size_t boat = 0;
	for (size_t i = 0; i < count; i++) {
		boat += strcmp(berths->items[boat].name, ties[i].vessel) != 0 ? 1 : 0;
		const struct berth *other =
		    ties[i].by_gear ? bsearch(ties[i].to, berths->items, berths->count,
					  sizeof *berths->items, compare_names)
				    : NULL;
		if (other != NULL) {
			join(berths, boat, other->place);
		}
	}
	for (size_t i = 0; i < berths->count; i++) {
		berths->items[i].leader = leader_of(berths, i);
	}
	ARRAY_SORT(berths->items, berths->count, compare_leaders);
}

/* How many boats from `first` on, before `last`, are asked about at once: whole groups, as many
 * as are no more than BOATS_AT_A_TIME, but one at least. */
static size_t
part_length(const struct berths *berths, size_t first, size_t last)
{
	size_t length = 0;
	for (size_t end = first; end < last;) {
		size_t leader = berths->items[end].leader;
		while (end < last && berths->items[end].leader == leader) {
			end++;
		}
		if (length > 0 && end - first > BOATS_AT_A_TIME) {
			break;
		}
		length = end - first;
	}
	return length;
}

static int
compare_places(const void *left, const void *right)
{
	const struct berth *a = left;
	const struct berth *b = right;
	return ORDER(a->place, b->place);
}

/* Loads some boats and has them answered about. What that takes in the desk's arena is freed. */
static bool
answer_part(struct desk *desk, enum left_gear left, struct berth *boats, size_t count,
    const struct together_asked *asked, struct fault *fault)
{
	struct arena of_question = desk->arena;
	desk->arena = (struct arena){0};
	const char **names = ARENA_MANY(&desk->arena, const char *, count);
	size_t *places = ARENA_MANY(&desk->arena, size_t, count);
	ARRAY_SORT(boats, count, compare_places);
	for (size_t i = 0; i < count; i++) {
		names[i] = boats[i].name;
		places[i] = boats[i].place;
	}
	const struct book_part part = {.vessels = names, .vessel_count = count};
	bool done = ask_about(desk, &part, left, fault);
	if (done && desk->contents.inventory.vessel_count != count) {
		done = fault_set(fault, FAULT_BOOK,
		    "the name of a vessel is damaged; \"becket book check\" says more");
	}
	done = done && asked->answer(desk, places, asked->question, fault);
	desk_forget(desk);
	arena_clear(&desk->arena);
	desk->arena = of_question;
	return done;
}

static bool
answer_whole(struct desk *desk, enum left_gear left, size_t count,
    const struct together_asked *asked, struct fault *fault)
{
	size_t *places = ARENA_MANY(&desk->arena, size_t, count);
	for (size_t i = 0; i < count; i++) {
		places[i] = i;
	}
	return ask_about(desk, NULL, left, fault) &&
	       asked->answer(desk, places, asked->question, fault);
}

/* True where the plans of all boats hang on each other. Loads the stations. */
static bool
is_bound(struct desk *desk, bool *out, struct fault *fault)
{
	if (!ask_about(desk, &STATIONS_PART, LEFT_ALL, fault)) {
		return false;
	}
	*out = plans_are_one(desk);
	return true;
}

/* The boats that are asked about, from *first_out to before *end_out. */
static void
find_asked(
    const struct berths *berths, const char *vessel, size_t *first_out, size_t *end_out)
{
	const struct berth *items = berths->items;
	size_t hers = 0;
	*first_out = 0;
	*end_out = berths->count;
	while (vessel != NULL && hers < berths->count &&
	       strcmp(items[hers].name, vessel) != 0) {
		hers++;
	}
	if (vessel == NULL || hers == berths->count) {
		return;
	}
	while (items[*first_out].leader != items[hers].leader) {
		++*first_out;
	}
	*end_out = hers + 1;
	while (*end_out < berths->count && items[*end_out].leader == items[hers].leader) {
		++*end_out;
	}
}

static bool
answer_all(struct desk *desk, enum left_gear left, const struct together_asked *asked,
    struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	const struct book_tie *ties = NULL;
	struct berths berths = {0};
	size_t count = 0;
	size_t first = 0;
	size_t end = 0;
	bool bound = false;
	if (!book_ties(desk->book, &arena, &ties, &count, fault)) {
		return false;
	}
	find_berths(ties, count, &arena, &berths);
	find_asked(&berths, asked->vessel, &first, &end);
	bool one = part_length(&berths, first, end) == berths.count;
	if (!one && asked->plans && !is_bound(desk, &bound, fault)) {
		return false;
	}
	if (one || bound) {
		return answer_whole(desk, left, berths.count, asked, fault);
	}
	bool done = true;
	while (done && first < end) {
		size_t length = part_length(&berths, first, end);
		done =
		    answer_part(desk, left, berths.items + first, length, asked, fault);
		first += length;
	}
	return done;
}

bool
ask_together(struct desk *desk, enum left_gear left, const struct together_asked *asked,
    struct fault *fault)
{
	if (!desk_book(desk, fault) || !book_begin_reading(desk->book, fault)) {
		return false;
	}
	bool done = answer_all(desk, left, asked, fault) &&
		    (asked->then == NULL || asked->then(desk, asked->question, fault));
	book_rollback(desk->book);
	return done;
}
