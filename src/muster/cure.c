/* Spares at the base that would cure a shortage: those there are, and the fewest that do. */
#include "base/numbers.h"
#include "muster/inside.h"

#include <string.h>

/* True when the piece counts on every day of a span. */
static bool
counts_throughout(const struct piece *piece, struct span days)
{
	enum count_state first = piece_on(piece, days.first);
	return (first == COUNT_YES || first == COUNT_REMARK) &&
	       piece_lapses(piece, days.first) > days.last;
}

/* True when the vessel is a store at the base where the one that was mustered lies on the day
 * from which she is short. */
static bool
is_store_of(const struct inventory *inventory, size_t store, const struct muster *muster)
{
	const struct vessel *shelf = &inventory->vessels[store];
	if (!shelf
		 ->store) { /* most are boats, of which each is asked for each that is short */
		return false;
	}
	const char *base =
	    vessel_base_on(&inventory->vessels[muster->vessel], muster->first_short);
	return base[0] != '\0' &&
	       strcmp(vessel_base_on(shelf, muster->first_short), base) == 0;
}

/* How many pieces of an item in a store are there, whole, and nobody's yet. */
static int
free_of(const struct inventory *inventory, size_t index, const int *taken)
{
	const struct item *item = &inventory->items[index];
	bool is_free = item->parent == ITEM_NO_PARENT && item_is_there(inventory, index);
	return is_free ? item->quantity - taken[index] : 0;
}

static bool
has_parts(const struct due_engine *engine, size_t item)
{
	size_t part =
	    engine->first_part == NULL ? ITEM_NO_PARENT : engine->first_part[item];
	while (part != ITEM_NO_PARENT &&
	       engine->inventory->items[part].state == PLACE_WITHDRAWN) {
		part = engine->next_part[part];
	}
	return part != ITEM_NO_PARENT;
}

/* What each unit of a spare is worth, and no more units than can be wanted: one beyond what
 * meets a shortage, for the largest piece may be left out. Worth nothing, it has no units. */
static void
weigh(const struct cure_search *search, struct spare *spare)
{
	const struct item *item = &search->engine->inventory->items[spare->item];
	int wanted = 0;
	for (size_t i = 0; i < search->shortage_count; i++) {
		const char *asks = "";
		int most = search->shortages[i].most;
		int worth = spare->unit == 1
				? line_worth_each(search->shortages[i].line, item, &asks)
				: line_worth(search->shortages[i].line, item, &asks);
		spare->worth[i] = worth < most ? worth : most;
		int units = worth > 0 ? (most - 1) / spare->worth[i] + 2 : 0;
		wanted = units > wanted ? units : wanted;
	}
	spare->units = wanted < spare->units ? wanted : spare->units;
}

/* Adds so many pieces of an item to the spares when they would count and help. */
static void
add_spare(const struct due_engine *engine, const struct muster *muster, size_t index,
    int count, struct arena *scratch, struct cure_search *search)
{
	int unit = has_parts(engine, index) ? count : 1;
	struct spare spare = {.item = index, .unit = unit, .units = count / unit};
	struct piece piece = {0};
	spare.worth = arena_alloc(scratch, search->shortage_count * sizeof *spare.worth);
	weigh(search, &spare);
	if (spare.units == 0) {
		return;
	}
	piece_read(engine, index, muster->vessel, muster->days.first, scratch, &piece);
	struct span days = {search->shortages[0].from, muster->days.last};
	if (counts_throughout(&piece, days)) {
		search->spares[search->spare_count++] = spare;
	}
}

/* Adds the spares of one store. */
static void
add_store(const struct due_engine *engine, const struct muster *muster, size_t store,
    const int *taken, struct arena *scratch, struct cure_search *search)
{
	size_t count = 0;
	size_t first = inventory_aboard(engine->inventory, store, &count);
	for (size_t i = first; i < first + count; i++) {
		int free_count = free_of(engine->inventory, i, taken);
		if (free_count > 0) {
			add_spare(engine, muster, i, free_count, scratch, search);
		}
	}
}

static void
open_search(const struct due_engine *engine, const struct muster *muster,
    struct cure_given given, const int *taken, struct arena *scratch,
    struct cure_search *search)
{
	const struct inventory *inventory = engine->inventory;
	size_t shortages = muster->shortage_count;
	size_t most = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		size_t count = 0;
		if (is_store_of(inventory, i, muster)) {
			(void)inventory_aboard(inventory, i, &count);
			most += count;
		}
	}
	search->engine = engine;
	search->muster = muster;
	search->given = given;
	search->tried =
	    arena_alloc(scratch, (given.count + most + 1) * sizeof *search->tried);
	search->limited = arena_alloc(scratch, shortages * sizeof *search->limited);
	search->shortages = muster->shortages;
	search->shortage_count = shortages;
	search->spares = arena_alloc(scratch, (most + 1) * sizeof *search->spares);
	search->gained = arena_alloc(scratch, shortages * sizeof *search->gained);
	search->hopeless = arena_alloc(scratch, shortages * sizeof *search->hopeless);
	search->missing = arena_alloc(scratch, shortages * sizeof *search->missing);
	for (size_t i = 0; i < shortages; i++) {
		search->limited[i] = line_is_limited(muster->shortages[i].line);
	}
	for (size_t i = 0; i < inventory->vessel_count && most > 0; i++) {
		if (is_store_of(inventory, i, muster)) {
			add_store(engine, muster, i, taken, scratch, search);
		}
	}
}

static bool
none_is_hopeless(const struct cure_search *search)
{
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (search->hopeless[i]) {
			return false;
		}
	}
	return true;
}

static bool
any_is_limited(const struct cure_search *search)
{
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (search->limited[i]) {
			return true;
		}
	}
	return false;
}

void
cure_one(const struct due_engine *engine, struct muster *muster, struct cure_given given,
    bool wholly, int *taken, struct arena *arena)
{
	SCOPED_ARENA scratch = {0};
	struct cure_search search = {0};
	struct muster_cure cure = {.fewest = true};
	open_search(engine, muster, given, taken, &scratch, &search);
	bool hope = cure_has_hope(&search);
	cure.cures = none_is_hopeless(&search);
	if (wholly && !cure.cures) {
		return;
	}
	cure.moves = arena_alloc(arena, (search.spare_count + 1) * sizeof *cure.moves);
	bool parts = !cure.cures && cure_take_parts(&search);
	if (hope) {
		cure.fewest = cure_find_fewest(&search);
	}
	cure.fewest = cure.fewest && !(parts && any_is_limited(&search));
	cure.count = cure_moves(&search, cure.moves);
	for (size_t i = 0; i < cure.count; i++) {
		taken[cure.moves[i].item] += cure.moves[i].quantity;
	}
	muster->cure = cure;
}

void
muster_move_words(const struct inventory *inventory, const struct muster_move *move,
    size_t vessel, struct text *out)
{
	const struct item *item = &inventory->items[move->item];
	text_add(out, "becket move ");
	text_add_shell_word(out, item->tag);
	if (move->quantity < item->quantity) {
		text_add_format(out, " --quantity %d", move->quantity);
	}
	text_add(out, " --vessel ");
	text_add_shell_word(out, inventory->vessels[vessel].name);
}

/* A vessel in need. */
struct cure_need {
	size_t at;    /* which of the musters */
	day_t booked; /* first day of her soonest booking; DAY_NEVER where she has none */
	day_t from;
};

/* The first day of her booking that is running on a day, or else of the next. */
static day_t
booked_from(const struct vessel *vessel, day_t day)
{
	const struct booking *next =
	    booking_next(vessel->bookings, vessel->booking_count, day);
	return next == NULL ? DAY_NEVER : next->days.first;
}

static int
compare_needs(const void *left, const void *right)
{
	const struct cure_need *a = left;
	const struct cure_need *b = right;
	int order = ORDER(a->booked, b->booked);
	order = ORDER_THEN(order, a->from, b->from);
	return ORDER_THEN(order, a->at, b->at);
}

void
muster_cure(const struct due_engine *engine, struct muster *musters, size_t count,
    struct arena *arena)
{
	SCOPED_ARENA scratch = {0};
	const struct vessel *vessels = engine->inventory->vessels;
	const struct cure_given none = {0};
	size_t items = engine->inventory->item_count;
	int *taken = arena_alloc(&scratch, (items + 1) * sizeof *taken);
	struct cure_need *needs = arena_alloc(&scratch, (count + 1) * sizeof *needs);
	size_t need_count = 0;
	for (size_t i = 0; i < count; i++) {
		if (musters[i].shortage_count > 0) {
			needs[need_count++] = (struct cure_need){i,
			    booked_from(
				&vessels[musters[i].vessel], musters[i].days.first),
			    musters[i].shortages[0].from};
		}
	}
	ARRAY_SORT(needs, need_count, compare_needs);
	for (int wholly = 1; wholly >= 0; wholly--) {
		for (size_t i = 0; i < need_count; i++) {
			struct muster *muster = &musters[needs[i].at];
			if (!muster->cure.cures) {
				cure_one(engine, muster, none, wholly == 1, taken, arena);
			}
		}
	}
}
