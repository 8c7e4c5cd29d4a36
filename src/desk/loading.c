/* What is loaded of a book that is open, and the engine that reckons with it. */
#include "desk/desk.h"
#include "winter/winter.h"

#include <stdlib.h>
#include <string.h>

/* Gives each vessel a copy that may be changed; in the contents' arena. */
static struct vessel *
own_vessels(struct desk *desk)
{
	struct inventory *inventory = &desk->contents.inventory;
	size_t size = inventory->vessel_count * sizeof *inventory->vessels;
	desk->whole = false;
	struct vessel *vessels = arena_alloc(&desk->contents.arena, size + 1);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		vessels[i] = inventory->vessels[i];
	}
	inventory->vessels = vessels;
	return vessels;
}

void
desk_see_day(struct desk *desk, day_t day)
{
	struct vessel *vessels = own_vessels(desk);
	for (size_t i = 0; i < desk->contents.inventory.vessel_count; i++) {
		vessel_set_day(&vessels[i], day);
	}
}

void
desk_see_winter(struct desk *desk, int year)
{
	struct vessel *vessels = own_vessels(desk);
	for (size_t i = 0; i < desk->contents.inventory.vessel_count; i++) {
		struct winter winter;
		bool there = year == 0 ? winter_at(&vessels[i], desk->today, &winter)
				       : winter_of_year(&vessels[i], year, &winter);
		bool now = !there || (winter.lay_up <= desk->today &&
					 desk->today <= winter.fitting_out);
		vessels[i].base =
		    vessel_base_on(&vessels[i], now ? desk->today : winter.lay_up);
	}
}

/* True for gear of a vessel that has left which is not to be seen. */
static bool
is_gone(const struct desk *desk, const struct item *item)
{
	const struct vessel *vessel = &desk->contents.inventory.vessels[item->vessel];
	bool ashore = item->state == PLACE_LANDED && desk->left_gear == LEFT_ASHORE;
	return !vessel_is_here(vessel, desk->today) && !ashore;
}

/* True for a part that is gone of gear that is not: that does not work without it. */
static bool
is_missed(const struct desk *desk, const struct item *item)
{
	return item->state == PLACE_WITHDRAWN && item->parent != ITEM_NO_PARENT &&
	       !is_gone(desk, &desk->contents.inventory.items[item->parent]);
}

/* Drops the gear of vessels that have left, as far as it is not to be seen. */
static void
drop_left(struct desk *desk)
{
	struct inventory *inventory = &desk->contents.inventory;
	struct arena *arena = &desk->contents.arena;
	size_t count = inventory->item_count;
	size_t kept = 0;
	bool any = false;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		any = any || !vessel_is_here(&inventory->vessels[i], desk->today);
	}
	if (!any) {
		return;
	}
	struct item *items = arena_alloc(arena, (count + 1) * sizeof *items);
	size_t *places = arena_alloc(arena, (count + 1) * sizeof *places);
	for (size_t i = 0; i < count; i++) {
		bool gone = is_gone(desk, &inventory->items[i]) &&
			    !is_missed(desk, &inventory->items[i]);
		places[i] = gone ? ITEM_NO_PARENT : kept;
		if (!gone) {
			items[kept++] = inventory->items[i];
		}
	}
	for (size_t i = 0; i < kept; i++) {
		if (items[i].parent != ITEM_NO_PARENT) {
			items[i].parent = places[items[i].parent];
		}
	}
	inventory->items = items;
	inventory->item_count = kept;
}

const struct book_part STATIONS_PART = {.reach = REACH_ALONE};

const struct book_part *
vessel_part(struct desk *desk, const char *vessel, enum book_reach reach)
{
	struct book_part *part = arena_alloc(&desk->arena, sizeof *part);
	const char **name = arena_alloc(&desk->arena, sizeof *name);
	*name = vessel;
	*part = (struct book_part){.vessels = name, .vessel_count = 1, .reach = reach};
	return vessel == NULL ? NULL : part;
}

const struct book_part *
boats_part(struct desk *desk, const char *vessel, const char *base,
    const struct word_list *boats, enum book_reach reach)
{
	struct book_part *part = arena_alloc(&desk->arena, sizeof *part);
	if (boats != NULL) {
		*part = (struct book_part){.vessels = boats->items,
		    .vessel_count = boats->count,
		    .reach = reach};
		return part;
	}
	if (vessel != NULL || base == NULL) {
		return vessel_part(desk, vessel, reach);
	}
	*part = (struct book_part){
	    .base = base, .reach = reach == REACH_BASES ? REACH_FAMILIES : reach};
	return part;
}

/* Loads one boat with her gear. Of one that is not there, says which is near by name. */
static bool
load_vessel(
    struct desk *desk, const char *vessel, bool with_withdrawn, struct fault *fault)
{
	const struct book_part part = {
	    .vessels = &vessel, .vessel_count = 1, .before = desk->before};
	bool there = false;
	size_t found = 0;
	if (!book_load_part(
		desk->book, &part, with_withdrawn, &desk->contents, &there, fault)) {
		return false;
	}
	if (there) {
		return true;
	}
	bool known = book_load(desk->book, NULL, false, &desk->contents, fault) &&
		     desk_find_vessel(desk, vessel, &found, fault);
	book_contents_clear(&desk->contents);
	return known && fault_set(fault, FAULT_INPUT,
			    "there is no vessel \"%.80s\" in the book", vessel);
}

/* Loads the desk's `about`; all of the book where something of that is not in it, so that
 * a fault names the same. */
static bool
load_contents(
    struct desk *desk, const char *vessel, bool with_withdrawn, struct fault *fault)
{
	bool there = false;
	if (vessel != NULL) {
		return load_vessel(desk, vessel, with_withdrawn, fault);
	}
	if (desk->about == NULL) {
		return book_load(
		    desk->book, NULL, with_withdrawn, &desk->contents, fault);
	}
	struct book_part part = *desk->about;
	part.before = desk->before == NULL ? part.before : desk->before;
	if (!book_load_part(
		desk->book, &part, with_withdrawn, &desk->contents, &there, fault)) {
		return false;
	}
	bool some = part.base == NULL || desk->contents.inventory.vessel_count > 0;
	if (there && some && (part.as_of == 0 || part.as_of == desk->contents.revision)) {
		return true;
	}
	if (there) {
		book_contents_clear(&desk->contents);
	}
	desk->about = NULL;
	return book_load(desk->book, NULL, with_withdrawn, &desk->contents, fault);
}

bool
load_open_book(
    struct desk *desk, const char *vessel, bool with_withdrawn, struct fault *fault)
{
	if (desk->loaded) {
		return true;
	}
	if (!load_contents(desk, vessel, with_withdrawn, fault)) {
		return false;
	}
	desk->loaded = true;
	desk_see_day(desk, desk->today);
	if (desk->left_gear != LEFT_ALL) {
		drop_left(desk);
	}
	desk->whole = vessel == NULL && with_withdrawn && desk->about == NULL;
	desk->whole_with = desk->left_gear;
	return true;
}

static bool
same_words(const char *const *a, size_t a_count, const char *const *b, size_t b_count)
{
	if (a_count != b_count) {
		return false;
	}
	for (size_t i = 0; i < a_count; i++) {
		if (strcmp(a[i], b[i]) != 0) {
			return false;
		}
	}
	return true;
}

/* True when two vessels follow the same sheets in the same order, now and at all times. */
static bool
same_sheets(const struct vessel *a, const struct vessel *b)
{
	bool change = vessel_changes(a, SAYS_SHEETS) || vessel_changes(b, SAYS_SHEETS);
	return !change &&
	       same_words(a->sheets, a->sheet_count, b->sheets, b->sheet_count);
}

/* Finds the sheets of these names, and checks that they can be followed together. */
static bool
find_sheets(struct desk *desk, const char *const *names, size_t count,
    const struct sheet **out, struct rulebook **rulebook_out, struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		if (!shelf_sheet(&desk->shelf, names[i], &desk->notes, &out[i], fault)) {
			return false;
		}
	}
	return rulebook_new(out, count, rulebook_out, fault);
}

/* Adds the sheets of a period to the list, each once. */
static void
add_sheets(const struct sheet *const *sheets, size_t count, const struct sheet **all,
    size_t *all_count)
{
	for (size_t i = 0; i < count; i++) {
		bool there = false;
		for (size_t j = 0; j < *all_count; j++) {
			there = there || all[j] == sheets[i];
		}
		if (!there) {
			all[(*all_count)++] = sheets[i];
		}
	}
}

/* The rulebook of a vessel whose sheets change: of all she follows at some time. */
static bool
rulebook_over_time(struct desk *desk, const struct vessel *vessel, struct rulebook **out,
    struct fault *fault)
{
	size_t most = 0;
	size_t count = 0;
	for (size_t i = 0; i < vessel->period_count; i++) {
		most += vessel->periods[i].sheet_count;
	}
	const struct sheet **all =
	    arena_alloc(&desk->arena, (2 * most + 1) * sizeof(const struct sheet *));
	for (size_t i = 0; i < vessel->period_count; i++) {
		const struct period *period = &vessel->periods[i];
		struct rulebook *together = NULL;
		if (!find_sheets(desk, period->sheets, period->sheet_count, all + most,
			&together, fault)) {
			return false;
		}
		rulebook_free(together);
		add_sheets(all + most, period->sheet_count, all, &count);
	}
	return rulebook_of_times(all, count, out, fault);
}

bool
desk_rulebook(struct desk *desk, const struct vessel *vessel, struct rulebook **out,
    struct fault *fault)
{
	const struct sheet **sheets = arena_alloc(
	    &desk->arena, (vessel->sheet_count + 1) * sizeof(const struct sheet *));
	bool made = vessel_changes(vessel, SAYS_SHEETS)
			? rulebook_over_time(desk, vessel, out, fault)
			: find_sheets(desk, vessel->sheets, vessel->sheet_count, sheets,
			      out, fault);
	return made || fault_prefix(fault, "vessel %s", vessel->name);
}

/* True when the rulebook at `index` was made for an earlier vessel. */
static struct rulebook *
shared_rulebook(const struct desk *desk, size_t index)
{
	const struct vessel *vessels = desk->contents.inventory.vessels;
	size_t back = 0;
	for (size_t i = index; i > 0 && back < 32; i--, back++) {
		if (same_sheets(&vessels[i - 1], &vessels[index])) {
			return desk->rulebooks[i - 1];
		}
	}
	return NULL;
}

/* Frees each rulebook once: shared ones stand several times in the array. */
static void
free_rulebooks(struct desk *desk)
{
	if (desk->rulebooks == NULL) {
		return;
	}
	for (size_t i = 0; i < desk->contents.inventory.vessel_count; i++) {
		if (shared_rulebook(desk, i) == NULL) {
			rulebook_free(desk->rulebooks[i]);
		}
	}
}

static bool
make_rulebooks(struct desk *desk, struct fault *fault)
{
	size_t count = desk->contents.inventory.vessel_count;
	desk->rulebooks =
	    arena_alloc(&desk->arena, (count + 1) * sizeof(struct rulebook *));
	for (size_t i = 0; i < count; i++) {
		struct rulebook *shared = shared_rulebook(desk, i);
		if (shared != NULL) {
			desk->rulebooks[i] = shared;
		} else if (!desk_rulebook(desk, &desk->contents.inventory.vessels[i],
			       &desk->rulebooks[i], fault)) {
			free_rulebooks(desk);
			desk->rulebooks = NULL;
			return false;
		}
	}
	return true;
}

bool
engine_of_open_book(struct desk *desk, const char *vessel, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (desk->rulebooks != NULL) {
		return true;
	}
	if (!load_open_book(desk, vessel, true, fault) ||
	    !desk_kinds(desk, &kinds, fault) || !make_rulebooks(desk, fault)) {
		return false;
	}
	desk->reckons = true;
	desk->engine = (struct due_engine){
	    .kinds = kinds,
	    .rulebooks = (const struct rulebook *const *)desk->rulebooks,
	    .inventory = &desk->contents.inventory,
	};
	due_index_parts(&desk->contents.inventory, &desk->arena, &desk->engine.first_part,
	    &desk->engine.next_part);
	return true;
}

void
desk_read_again(struct desk *desk)
{
	struct book_contents older = desk->contents;
	free_rulebooks(desk);
	desk->rulebooks = NULL;
	desk->contents = (struct book_contents){0};
	desk_forget(desk);
	desk->older = older;
	desk->before = &desk->older;
}

void
desk_forget(struct desk *desk)
{
	free_rulebooks(desk);
	desk->rulebooks = NULL;
	if (desk->loaded) {
		book_contents_clear(&desk->contents);
	}
	book_contents_clear(&desk->older);
	desk->before = NULL;
	desk->loaded = false;
	desk->whole = false;
	desk->as_written = false;
}

void
desk_clear(struct desk *desk)
{
	desk_forget(desk);
	book_close(desk->book);
	shelf_clear(&desk->shelf);
	text_clear(&desk->notes);
	arena_clear(&desk->arena);
	*desk = (struct desk){0};
}
