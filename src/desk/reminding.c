#include "desk/reminding.h"

#include "base/numbers.h"
#include "desk/inside.h"
#include "desk/plans.h"

#include <string.h>

static int
compare_entries(const void *left, const void *right)
{
	const struct vessel_entry *a = left;
	const struct vessel_entry *b = right;
	int order = strcmp(a->vessel, b->vessel);
	return ORDER_THEN(order, a->number, b->number);
}

bool
reminding_read(struct desk *desk, struct arena *arena, struct reminding_basis *out,
    struct fault *fault)
{
	struct word_list boats = {0};
	struct reminding_basis basis = {0};
	if (!book_names(desk->book, BOOK_BOATS, arena, &boats, fault) ||
	    !book_last_change(desk->book, &basis.entry, fault) ||
	    !book_oldest_given(desk->book, &basis.oldest, &basis.any_given, fault) ||
	    !book_load_choices(desk->book, arena, &basis.choices, fault)) {
		return false;
	}
	basis.of_several = boats.count > 1;
	basis.oldest = LESSER(basis.oldest, basis.entry);
	if (!plans_are_one(desk)) {
		struct vessel_entry *entries = NULL;
		if (!book_entries_since(desk->book, basis.oldest, arena, &entries,
			&basis.entry_count, fault)) {
			return false;
		}
		ARRAY_SORT(entries, basis.entry_count, compare_entries);
		basis.entries = entries;
	}
	*out = basis;
	return true;
}

/* The number of the last entry about a vessel; 0 for none. */
static int64_t
last_entry_of(const struct reminding_basis *basis, const char *vessel)
{
	size_t low = 0;
	size_t high = basis->entry_count;
	while (low < high) { /* to behind the last of hers */
		size_t middle = low + (high - low) / 2;
		if (strcmp(basis->entries[middle].vessel, vessel) <= 0) {
			low = middle + 1;
		} else {
			high = middle;
		}
	}
	return low > 0 && strcmp(basis->entries[low - 1].vessel, vessel) == 0
		   ? basis->entries[low - 1].number
		   : 0;
}

/* Finds which entries may have changed what is said: those of a vessel's gear only of her and of
 * those she shares trips and spares with, where no station's weekly limit ties all vessels to each
 * other. All others any reminder. */
static void
find_entries(struct desk *desk, const struct reminding_basis *basis,
    struct reminder_source *source)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct vessel *vessels = inventory->vessels;
	size_t count = inventory->vessel_count;
	source->entry = basis->entry;
	if (plans_are_one(desk)) {
		return;
	}
	int64_t *entries = ARENA_MANY(&desk->arena, int64_t, count);
	int64_t of_any = last_entry_of(basis, "");
	source->entry = of_any == 0 ? basis->oldest : of_any;
	for (size_t i = 0; i < count; i++) {
		int64_t own = last_entry_of(basis, vessels[i].name);
		for (size_t v = 0; v < count && own > 0; v++) {
			bool goes =
			    v == i || (vessels[i].base[0] != '\0' &&
					  strcmp(vessels[i].base, vessels[v].base) == 0);
			entries[v] = goes ? GREATER(own, entries[v]) : entries[v];
		}
	}
	source->entries = entries;
}

/* What was given out before, looked up in the book; what was found stays. */
struct given_look_up {
	struct desk *desk;
	bool any;        /* was given out: without, nothing is looked up */
	const char *key; /* looked up last */
	const struct book_reminder *last;
	struct book_reminder *items; /* in the desk's arena */
	size_t count;
	size_t capacity;
	bool failed;
	struct fault fault; /* where it did */
};

static const struct book_reminder *
look_up(const char *key, void *of)
{
	struct given_look_up *given = of;
	struct arena *arena = &given->desk->arena;
	if (!given->any || (given->key != NULL && strcmp(given->key, key) == 0)) {
		return given->last;
	}
	given->last = NULL;
	given->failed = given->failed || !book_find_reminder(given->desk->book, key,
					     arena, &given->last, &given->fault);
	given->key = arena_string(arena, key);
	if (given->last != NULL) {
		ARENA_ADD(arena, given, *given->last);
	}
	return given->last;
}

/* Gives the reminders their identity, by what was looked up while they were made. */
static bool
settle(struct desk *desk, struct given_look_up *given, struct reminders *reminders,
    struct fault *fault)
{
	struct given_sorted sorted = {given->items, given->count};
	if (given->failed) {
		*fault = given->fault;
		return false;
	}
	given_sort(given->items, given->count);
	return reminders_settle(reminders, &(struct given_before){given_find_in, &sorted},
	    book_identity(desk->book), desk->now, &desk->arena, fault);
}

static bool
make(struct desk *desk, struct reminders_made *made, struct fault *fault)
{
	const struct reminding_basis *basis = made->basis;
	struct given_look_up given = {.desk = desk, .any = basis->any_given};
	struct reminder_source source = {.kinds = desk->engine.kinds,
	    .inventory = &desk->contents.inventory,
	    .of_several = basis->of_several,
	    .choices = &basis->choices,
	    .engine = &desk->engine,
	    .given = {look_up, &given},
	    .events = made->events,
	    .currency = desk->contents.inventory.currency,
	    .today = desk->today};
	const struct plans_wish everyone = {.choices = &basis->choices};
	find_entries(desk, basis, &source);
	if (!plans_make(desk, &everyone, &made->lists, &made->list_count, fault)) {
		return false;
	}
	shortfalls_find(&desk->engine, desk->today, &desk->arena, &source.shortfalls,
	    &source.shortfall_count);
	reminders_make(
	    &source, made->lists, made->list_count, &desk->arena, &made->reminders);
	return settle(desk, &given, &made->reminders, fault);
}

/* What of a vessel that has left is at a station stays to be collected. */
static bool
load(struct desk *desk, struct fault *fault)
{
	desk->left_gear = LEFT_ASHORE;
	return desk_engine(desk, NULL, fault);
}

/* A boat that lies elsewhere in summer has the spares of that base too. */
bool
reminding_part(struct desk *desk, const struct plans_wish *whose,
    const struct book_part **part_out, struct fault *fault)
{
	*part_out = NULL;
	if (whose == NULL) {
		return true;
	}
	const struct book_part *part = boats_part(desk, whose->vessel, whose->base,
	    whose->boats,
	    whose->vessel != NULL || whose->boats != NULL ? REACH_BASES : REACH_STORES);
	if (part == NULL) {
		return true;
	}
	if (!ask_about(desk, part, LEFT_ASHORE, fault)) {
		return false;
	}
	if (plans_are_one(desk)) {
		desk_forget(desk);
		return true;
	}
	*part_out = part;
	return true;
}

bool
reminding_make(struct desk *desk, struct reminders_made *made, struct fault *fault)
{
	if (!load(desk, fault)) {
		return false;
	}
	if (made->basis == NULL) {
		struct reminding_basis *basis =
		    ARENA_MANY(&desk->arena, struct reminding_basis, 1);
		if (!reminding_read(desk, &desk->arena, basis, fault)) {
			return false;
		}
		made->basis = basis;
	}
	return make(desk, made, fault);
}

static bool
see(struct desk *desk, bool events, struct reminders *out, struct fault *fault)
{
	struct reminders_made made = {.events = events};
	if (!reminding_make(desk, &made, fault)) {
		return false;
	}
	*out = made.reminders;
	return true;
}

bool
reminding_seen_both(struct desk *desk, struct reminders *out, struct fault *fault)
{
	return see(desk, false, out, fault);
}

bool
reminding_seen(struct desk *desk, struct reminders *out, struct fault *fault)
{
	return see(desk, true, out, fault);
}

bool
reminding_plans(struct desk *desk, struct shore_list **lists_out, size_t *count_out,
    struct fault *fault)
{
	const struct plans_wish everyone = {0};
	return load(desk, fault) &&
	       plans_make(desk, &everyone, lists_out, count_out, fault);
}

bool
reminding_keep_hand_in(struct desk *desk, const char *key, struct fault *fault)
{
	struct shore_list *lists = NULL;
	size_t count = 0;
	return reminding_plans(desk, &lists, &count, fault) &&
	       settling_keep(desk, lists, count,
		   &(struct settling_which){.key = key, .by = GIVEN_BY_PERSON}, fault);
}

/* Whether a vessel or base of a scope is among the gear that would be listed, of which only hers
 * or its is loaded, and forgotten again. */
static bool
has_vessel(struct desk *desk, const struct scope *scope, bool *out, struct fault *fault)
{
	const char *const names[] = {scope->name};
	const struct book_part about = {.vessels = names,
	    .vessel_count = scope->kind == SCOPE_VESSEL,
	    .base = scope->kind == SCOPE_BASE ? scope->name : NULL,
	    .reach = REACH_ALONE};
	if (!ask_part(desk, &about, LEFT_ASHORE, true, fault)) {
		return false;
	}
	const struct inventory *inventory = &desk->contents.inventory;
	*out = false;
	for (size_t i = 0; i < inventory->vessel_count && !*out; i++) {
		*out = scope_has_vessel(scope, &inventory->vessels[i]);
	}
	desk_forget(desk);
	return true;
}

bool
reminding_check_scope(struct desk *desk, const struct scope *scope, struct fault *fault)
{
	static const char *const MISSING[] = {[SCOPE_VESSEL] = "there is no vessel",
	    [SCOPE_BASE] = "no vessel has the base",
	    [SCOPE_STATION] = "there is no station"};
	bool there = scope->kind == SCOPE_FLEET;
	if (!desk_book(desk, fault) ||
	    (scope->kind == SCOPE_STATION &&
		!book_has_name(desk->book, BOOK_STATIONS, scope->name, &there, fault)) ||
	    ((scope->kind == SCOPE_VESSEL || scope->kind == SCOPE_BASE) &&
		!has_vessel(desk, scope, &there, fault))) {
		return false;
	}
	return there || fault_set(fault, FAULT_INPUT, "%s \"%s\"", MISSING[scope->kind],
			    scope->name);
}

const char *
reminding_calendar_name(const struct scope *scope)
{
	bool fits = scope->name[0] != '\0' && strpbrk(scope->name, ",;\\") == NULL;
	return fits ? scope->name : "becket";
}
