/* Spares at the base that would cure a shortage: those there are, and the fewest that do. */
#include "muster/cure_search.h"

#include <string.h>

/* True when the piece counts on every day of a span. */
static bool
counts_throughout(const struct piece *piece, struct span days)
{
	enum count_state first = piece_on(piece, days.first);
	return (first == COUNT_YES || first == COUNT_REMARK) &&
	       piece_lapses(piece, days.first) > days.last;
}

/* True when the vessel is a store at the same base as another. */
static bool
is_store_of(const struct inventory *inventory, size_t store, size_t vessel)
{
	const char *base = inventory->vessels[vessel].base;
	return inventory->vessels[store].store && base[0] != '\0' &&
	       strcmp(inventory->vessels[store].base, base) == 0;
}

/* True when the item in a store is there, whole, and is nobody's yet. */
static bool
is_free(const struct inventory *inventory, size_t index, const bool *taken)
{
	return !taken[index] && inventory->items[index].parent == ITEM_NO_PARENT &&
	       item_is_there(inventory, index);
}

/* Adds the item to the spares when it would count and help. */
static bool
add_spare(const struct due_engine *engine, const struct muster *muster, size_t index,
    struct arena *scratch, struct search *search, struct fault *fault)
{
	const struct item *item = &engine->inventory->items[index];
	struct spare *spare = &search->spares[search->spare_count];
	struct piece piece = {0};
	bool serves = false;
	int *worth = arena_alloc(scratch, search->shortage_count * sizeof *worth);
	if (worth == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < search->shortage_count; i++) {
		const char *asks = "";
		worth[i] = line_worth(search->shortages[i].line, item, &asks);
		serves = serves || worth[i] > 0;
	}
	if (!serves) {
		return true;
	}
	if (!piece_read(engine, index, muster->vessel, muster->days.first, scratch,
		&piece, fault)) {
		return false;
	}
	struct span days = {search->shortages[0].from, muster->days.last};
	if (counts_throughout(&piece, days)) {
		*spare = (struct spare){index, worth, false};
		search->spare_count++;
	}
	return true;
}

/* Adds the spares of one store. */
static bool
add_store(const struct due_engine *engine, const struct muster *muster, size_t store,
    const bool *taken, struct arena *scratch, struct search *search, struct fault *fault)
{
	size_t count = 0;
	size_t first = inventory_aboard(engine->inventory, store, &count);
	for (size_t i = first; i < first + count; i++) {
		if (is_free(engine->inventory, i, taken) &&
		    !add_spare(engine, muster, i, scratch, search, fault)) {
			return false;
		}
	}
	return true;
}

static bool
open_search(const struct due_engine *engine, const struct muster *muster,
    const bool *taken, struct arena *scratch, struct search *search, struct fault *fault)
{
	const struct inventory *inventory = engine->inventory;
	size_t shortages = muster->shortage_count;
	size_t most = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		size_t count = 0;
		if (is_store_of(inventory, i, muster->vessel)) {
			(void)inventory_aboard(inventory, i, &count);
			most += count;
		}
	}
	search->engine = engine;
	search->muster = muster;
	search->tried = arena_alloc(scratch, (most + 1) * sizeof *search->tried);
	search->limited = arena_alloc(scratch, shortages * sizeof *search->limited);
	search->fault = fault;
	search->shortages = muster->shortages;
	search->shortage_count = shortages;
	search->spares = arena_alloc(scratch, (most + 1) * sizeof *search->spares);
	search->gained = arena_alloc(scratch, shortages * sizeof *search->gained);
	search->hopeless = arena_alloc(scratch, shortages * sizeof *search->hopeless);
	if (search->spares == NULL || search->gained == NULL ||
	    search->hopeless == NULL || search->tried == NULL ||
	    search->limited == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < shortages; i++) {
		search->limited[i] = line_is_limited(muster->shortages[i].line);
	}
	for (size_t i = 0; i < inventory->vessel_count && most > 0; i++) {
		if (is_store_of(inventory, i, muster->vessel) &&
		    !add_store(engine, muster, i, taken, scratch, search, fault)) {
			return false;
		}
	}
	return true;
}

static bool
none_is_hopeless(const struct search *search)
{
	for (size_t i = 0; i < search->shortage_count; i++) {
		if (search->hopeless[i]) {
			return false;
		}
	}
	return true;
}

static bool
search_stores(const struct due_engine *engine, struct muster *muster, bool *taken,
    struct arena *scratch, struct arena *arena, struct fault *fault)
{
	struct search search = {0};
	if (!open_search(engine, muster, taken, scratch, &search, fault)) {
		return false;
	}
	struct muster_cure cure = {0};
	cure.items = arena_alloc(arena, (search.spare_count + 1) * sizeof *cure.items);
	if (cure.items == NULL) {
		return fault_memory(fault);
	}
	cure.fewest = cure_find_fewest(&search);
	if (search.failed) {
		return false;
	}
	cure.cures = none_is_hopeless(&search);
	for (size_t i = 0; i < search.spare_count; i++) {
		if (search.spares[i].used) {
			cure.items[cure.count++] = search.spares[i].item;
			taken[search.spares[i].item] = true;
		}
	}
	muster->cure = cure;
	return true;
}

bool
muster_cure(const struct due_engine *engine, struct muster *muster, bool *taken,
    struct arena *arena, struct fault *fault)
{
	struct arena scratch = {0};
	if (muster->shortage_count == 0) {
		return true;
	}
	bool done = search_stores(engine, muster, taken, &scratch, arena, fault);
	arena_clear(&scratch);
	return done;
}
