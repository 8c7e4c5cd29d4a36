#include "desk/inside.h"
#include "desk/stores.h"

#include <string.h>

/* How far ahead is shown when nothing else is asked. */
enum { MONTHS_SHOWN = 12 };

bool
ask_is_theirs(
    const struct desk *desk, const struct word_list *boats, const struct item *item)
{
	const char *name = desk->contents.inventory.vessels[item->vessel].name;
	return boats == NULL || (strcmp(boats->items[0], name) <= 0 &&
				    strcmp(name, boats->items[boats->count - 1]) <= 0);
}

/* The gear of some boats that is asked about. */
static void
list_loaded(const struct desk *desk, const struct list_asked *asked,
    const struct gear_sieve *sieve, const struct word_list *boats, struct arena *arena,
    struct list_answer *out)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t *items = arena_alloc(arena, (inventory->item_count + 1) * sizeof *items);
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		/* a part that is missed is loaded also where it is on a vessel that has left */
		bool here =
		    vessel_is_here(&inventory->vessels[item->vessel], desk->today);
		if ((here || asked->all) &&
		    (asked->state < 0 || (int)item->state == asked->state) &&
		    ask_is_theirs(desk, boats, item) &&
		    gear_passes(sieve, inventory, item)) {
			items[out->count++] = i;
		}
	}
	out->items = items;
}

static enum left_gear
left_of(const struct list_asked *asked)
{
	return asked->all ? LEFT_ALL : LEFT_NONE;
}

bool
desk_list(struct desk *desk, const struct list_asked *asked, struct list_answer *out,
    struct fault *fault)
{
	const char *vessel = asked->gear.vessel;
	struct gear_sieve sieve;
	*out = (struct list_answer){0};
	if (!desk_kinds(desk, &out->kinds, fault) ||
	    !gear_sieve(desk, &asked->gear, &sieve, fault) ||
	    !ask_gear(desk, &asked->gear, left_of(asked), asked->all || asked->state >= 0,
		fault) ||
	    (!asked->all && !left_check_named(desk, vessel, fault))) {
		return false;
	}
	list_loaded(desk, asked, &sieve, NULL, &desk->arena, out);
	return true;
}

/* A question about the gear of all boats that is answered some of them at a time. */
struct list_by_boats {
	const struct list_asked *asked;
	struct gear_sieve sieve;
	const struct kinds *kinds;
	void (*take)(const struct list_answer *some, void *context);
	void *context;
};

static bool
list_of_boats(
    struct desk *desk, const struct word_list *boats, void *question, struct fault *fault)
{
	const struct list_by_boats *list = question;
	struct list_answer some = {.kinds = list->kinds};
	SCOPED_ARENA arena = {0};
	(void)fault;
	list_loaded(desk, list->asked, &list->sieve, boats, &arena, &some);
	list->take(&some, list->context);
	return true;
}

bool
desk_list_by_boats(struct desk *desk, const struct list_asked *asked,
    void (*take)(const struct list_answer *some, void *context), void *context,
    struct fault *fault)
{
	struct list_by_boats list = {.asked = asked, .take = take, .context = context};
	if (asked->gear.vessel != NULL || asked->gear.base != NULL) {
		struct list_answer hers;
		if (!desk_list(desk, asked, &hers, fault)) {
			return false;
		}
		take(&hers, context);
		return true;
	}
	return desk_kinds(desk, &list.kinds, fault) &&
	       gear_sieve(desk, &asked->gear, &list.sieve, fault) &&
	       ask_by_boats(desk, left_of(asked), asked->all || asked->state >= 0,
		   list_of_boats, &list, fault);
}

static bool
is_asked(const struct desk *desk, const struct due_asked *asked,
    const struct gear_sieve *sieve, const struct agenda_row *row)
{
	const struct inventory *inventory = &desk->contents.inventory;
	if (row->routine && !asked->routine) {
		return false;
	}
	if (asked->state >= 0 && (int)row->state != asked->state) {
		return false;
	}
	return gear_passes(sieve, inventory, &inventory->items[row->item]);
}

/* True for what is due too late to be shown: in date, and not due within the days asked about
 * or, with all known, within the year's view. */
static bool
is_later(const struct desk *desk, const struct due_asked *asked,
    const struct agenda_row *row, day_t until)
{
	if (row->state != STATE_IN_DATE) {
		return false;
	}
	if (asked->within_days >= 0) {
		return row->due == DAY_NONE ||
		       row->due - desk->today > asked->within_days;
	}
	return !asked->all && asked->state < 0 && row->missing[0] == '\0' &&
	       (row->due == DAY_NONE || row->due > until);
}

/* Drops the rows that are not asked about. Gear in reserve counts for nothing, so it can't be
 * missing; a date that is not known is not in date; of what does not work for want of a part
 * the first row is shown whenever it is due. */
static void
keep_asked(const struct desk *desk, const struct due_asked *asked,
    const struct gear_sieve *sieve, const struct word_list *boats, struct due_answer *out)
{
	struct agenda *agenda = &out->agenda;
	const struct inventory *inventory = &desk->contents.inventory;
	SCOPED_ARENA arena = {0};
	bool *shown = ARENA_MANY(&arena, bool, inventory->item_count);
	size_t kept = 0;
	for (size_t i = 0; i < agenda->count; i++) {
		const struct agenda_row row = agenda->items[i];
		const struct item *item = &inventory->items[row.item];
		if (!ask_is_theirs(desk, boats, item) ||
		    !is_asked(desk, asked, sieve, &row)) {
			continue;
		}
		bool counts = item->state != PLACE_RESERVE;
		bool wrong = counts && row.trouble != PART_FINE;
		if (is_later(desk, asked, &row, out->until) &&
		    (!wrong || shown[row.item])) {
			out->later += asked->within_days < 0 ? 1 : 0;
			continue;
		}
		wrong = wrong || (counts && row.state != STATE_IN_DATE);
		out->wrong = out->wrong || wrong;
		shown[row.item] = true;
		agenda->items[kept++] = row;
	}
	agenda->count = kept;
}

bool
desk_due(struct desk *desk, const struct due_asked *asked, struct due_answer *out,
    struct fault *fault)
{
	struct gear_sieve sieve;
	*out = (struct due_answer){.until = day_add_months(desk->today, MONTHS_SHOWN)};
	if (!gear_sieve(desk, &asked->gear, &sieve, fault) ||
	    !ask_gear(desk, &asked->gear, LEFT_NONE, true, fault) ||
	    !desk_engine(desk, NULL, fault) ||
	    !left_check_named(desk, asked->gear.vessel, fault)) {
		return false;
	}
	agenda_make(&desk->engine, desk->today, &desk->arena, &out->agenda);
	keep_asked(desk, asked, &sieve, NULL, out);
	return true;
}

/* A question about all boats that is answered some of them at a time. */
struct due_by_boats {
	const struct due_asked *asked;
	struct gear_sieve sieve;
	void (*take)(const struct due_answer *some, void *context);
	void *context;
	struct due_answer *out;
};

static bool
due_of_boats(
    struct desk *desk, const struct word_list *boats, void *question, struct fault *fault)
{
	struct due_by_boats *due = question;
	struct due_answer some = {.until = due->out->until};
	SCOPED_ARENA arena = {0};
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	agenda_make(&desk->engine, desk->today, &arena, &some.agenda);
	keep_asked(desk, due->asked, &due->sieve, boats, &some);
	due->out->later += some.later;
	due->out->wrong = due->out->wrong || some.wrong;
	due->take(&some, due->context);
	return true;
}

bool
desk_due_by_boats(struct desk *desk, const struct due_asked *asked,
    void (*take)(const struct due_answer *some, void *context), void *context,
    struct due_answer *out, struct fault *fault)
{
	struct due_by_boats due = {
	    .asked = asked, .take = take, .context = context, .out = out};
	if (asked->gear.vessel != NULL || asked->gear.base != NULL) {
		if (!desk_due(desk, asked, out, fault)) {
			return false;
		}
		take(out, context);
		return true;
	}
	*out = (struct due_answer){.until = day_add_months(desk->today, MONTHS_SHOWN)};
	return gear_sieve(desk, &asked->gear, &due.sieve, fault) &&
	       ask_by_boats(desk, LEFT_NONE, true, due_of_boats, &due, fault);
}
