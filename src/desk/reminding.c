#include "desk/reminding.h"

#include "desk/inside.h"
#include "desk/plans.h"

#include <string.h>

/* The entry of the reminder that was given out longest ago and is still in a calendar. */
static int64_t
oldest_entry(const struct reminders_made *made)
{
	int64_t oldest = made->entry;
	for (size_t i = 0; i < made->stored_count; i++) {
		const struct book_reminder *stored = &made->stored[i];
		bool older = stored->shape[0] != '\0' && stored->entry < oldest;
		oldest = older ? stored->entry : oldest;
	}
	return oldest;
}

/* Notes an entry for its vessel, and for those she shares trips and spares with. */
static void
note_entry(
    const struct inventory *inventory, const struct vessel_entry *entry, int64_t *entries)
{
	const char *base = "";
	for (size_t v = 0; v < inventory->vessel_count; v++) {
		bool hers = strcmp(inventory->vessels[v].name, entry->vessel) == 0;
		base = hers ? inventory->vessels[v].base : base;
	}
	for (size_t v = 0; v < inventory->vessel_count; v++) {
		const struct vessel *vessel = &inventory->vessels[v];
		bool hers = strcmp(vessel->name, entry->vessel) == 0 ||
			    (base[0] != '\0' && strcmp(vessel->base, base) == 0);
		entries[v] =
		    hers && entry->number > entries[v] ? entry->number : entries[v];
	}
}

/* Finds which entries may have changed what is said: those of a vessel's gear only of her and of
 * those she goes together with, where no station's weekly limit ties all vessels to each other. All
 * others any reminder. */
static bool
find_entries(struct desk *desk, const struct reminders_made *made,
    struct reminder_source *source, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const struct vessel_entry *rows = NULL;
	size_t count = 0;
	int64_t *entries =
	    arena_alloc(&desk->arena, (inventory->vessel_count + 1) * sizeof *entries);
	source->entry = made->entry;
	if (plans_are_one(desk)) {
		return true;
	}
	int64_t oldest = oldest_entry(made);
	if (!book_entries_since(desk->book, oldest, &desk->arena, &rows, &count, fault)) {
		return false;
	}
	source->entry = oldest;
	memset(entries, 0, (inventory->vessel_count + 1) * sizeof *entries);
	for (size_t i = 0; i < count; i++) {
		if (rows[i].vessel[0] == '\0') {
			source->entry = rows[i].number;
		} else {
			note_entry(inventory, &rows[i], entries);
		}
	}
	source->entries = entries;
	return true;
}

static bool
make(struct desk *desk, struct reminders_made *made, struct fault *fault)
{
	struct reminder_source source = {.kinds = desk->engine.kinds,
	    .inventory = &desk->contents.inventory,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count,
	    .choices = &made->choices,
	    .engine = &desk->engine,
	    .currency = desk->contents.inventory.currency,
	    .today = desk->today};
	const struct plans_wish everyone = {0};
	struct word_list boats = {0};
	if ((!made->stored_read && !book_load_reminders(desk->book, &desk->arena,
				       &made->stored, &made->stored_count, fault)) ||
	    !book_names(desk->book, BOOK_BOATS, &desk->arena, &boats, fault)) {
		return false;
	}
	source.of_several = boats.count > 1;
	if (!book_last_change(desk->book, &made->entry, fault) ||
	    !find_entries(desk, made, &source, fault)) {
		return false;
	}
	source.stored = made->stored;
	source.stored_count = made->stored_count;
	if (!plans_make(desk, &everyone, &made->lists, &made->list_count, fault) ||
	    !book_load_choices(desk->book, &desk->arena, &made->choices, fault)) {
		return false;
	}
	shortfalls_find(&desk->engine, desk->today, &desk->arena, &source.shortfalls,
	    &source.shortfall_count);
	reminders_make(
	    &source, made->lists, made->list_count, &desk->arena, &made->reminders);
	return true;
}

bool
reminding_store(struct desk *desk, const struct reminders_made *made, enum given_by by,
    struct fault *fault)
{
	const struct reminders *reminders = &made->reminders;
	struct book_reminder *kept =
	    arena_alloc(&desk->arena, (reminders->count + 1) * sizeof *kept);
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		kept[i] = (struct book_reminder){.key = reminder->key,
		    .uid = reminder->uid,
		    .sequence = reminder->sequence,
		    .modified = reminder->modified,
		    .shape = reminder->shape,
		    .day = reminder->day,
		    .aim = reminder->aim,
		    .entry = made->entry,
		    .summary = reminder->summary,
		    .description = reminder->description};
	}
	return book_store_reminders(desk->book, kept, reminders->count, reminders->gone,
		   reminders->gone_count, fault) &&
	       settling_keep(desk, made->lists, made->list_count,
		   &(struct settling_which){.by = by}, fault);
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
	return load(desk, fault) && make(desk, made, fault) &&
	       reminders_settle(&made->reminders, made->stored, made->stored_count,
		   book_identity(desk->book), desk->now, &desk->arena, fault);
}

bool
reminding_seen_both(struct desk *desk, struct reminders *out, struct fault *fault)
{
	struct reminders_made made = {0};
	if (!reminding_make(desk, &made, fault)) {
		return false;
	}
	*out = made.reminders;
	return true;
}

bool
reminding_seen(struct desk *desk, struct reminders *out, struct fault *fault)
{
	if (!reminding_seen_both(desk, out, fault)) {
		return false;
	}
	reminders_keep_form(out, false);
	return true;
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

static bool
has_vessel(const struct desk *desk, const struct scope *scope)
{
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (scope_has_vessel(scope, &inventory->vessels[i])) {
			return true;
		}
	}
	return false;
}

static bool
has_station(const struct desk *desk, const char *name)
{
	return station_named(
		   desk->contents.stations, desk->contents.station_count, name) != NULL;
}

bool
reminding_check_scope(
    const struct desk *desk, const struct scope *scope, struct fault *fault)
{
	switch (scope->kind) {
	case SCOPE_FLEET:
		return true;
	case SCOPE_VESSEL:
		return has_vessel(desk, scope) ||
		       fault_set(
			   fault, FAULT_INPUT, "there is no vessel \"%s\"", scope->name);
	case SCOPE_BASE:
		return has_vessel(desk, scope) ||
		       fault_set(fault, FAULT_INPUT, "no vessel has the base \"%s\"",
			   scope->name);
	case SCOPE_STATION:
		return has_station(desk, scope->name) ||
		       fault_set(
			   fault, FAULT_INPUT, "there is no station \"%s\"", scope->name);
	}
	return false;
}

struct reminders
reminding_wanted(struct desk *desk, const struct reminders_made *made, bool todos,
    const struct scope *scope)
{
	struct reminders wanted = made->reminders;
	wanted.items =
	    arena_alloc(&desk->arena, (wanted.count + 1) * sizeof *wanted.items);
	for (size_t i = 0; i < wanted.count; i++) {
		wanted.items[i] = made->reminders.items[i];
	}
	reminders_keep_form(&wanted, todos);
	reminders_narrow(&wanted, &desk->contents.inventory, scope);
	return wanted;
}

const char *
reminding_calendar_name(const struct scope *scope)
{
	bool fits = scope->name[0] != '\0' && strpbrk(scope->name, ",;\\") == NULL;
	return fits ? scope->name : "becket";
}
