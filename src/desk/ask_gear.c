#include "desk/inside.h"
#include "desk/stores.h"

/* How far ahead is shown when nothing else is asked. */
enum { MONTHS_SHOWN = 12 };

bool
desk_list(struct desk *desk, const struct list_asked *asked, struct list_answer *out,
    struct fault *fault)
{
	const char *vessel = asked->gear.vessel;
	enum left_gear left = asked->all ? LEFT_ALL : LEFT_NONE;
	struct gear_sieve sieve;
	*out = (struct list_answer){0};
	if (!desk_kinds(desk, &out->kinds, fault) ||
	    !gear_sieve(desk, &asked->gear, &sieve, fault) ||
	    !ask_load(desk, vessel, left, asked->all || asked->state >= 0, fault) ||
	    (!asked->all && !left_check_named(desk, vessel, fault))) {
		return false;
	}
	const struct inventory *inventory = &desk->contents.inventory;
	size_t *items =
	    arena_alloc(&desk->arena, (inventory->item_count + 1) * sizeof *items);
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if ((asked->state < 0 || (int)item->state == asked->state) &&
		    gear_passes(&sieve, inventory, item)) {
			items[out->count++] = i;
		}
	}
	out->items = items;
	return true;
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
	if (asked->within_days >= 0 && row->state == STATE_IN_DATE &&
	    (row->due == DAY_NONE || row->due - desk->today > asked->within_days)) {
		return false;
	}
	return gear_passes(sieve, inventory, &inventory->items[row->item]);
}

/* True for what a year does not see the end of: in date, all known, and not due in it. */
static bool
is_later(const struct due_asked *asked, const struct agenda_row *row, day_t until)
{
	return !asked->all && asked->within_days < 0 && asked->state < 0 &&
	       row->state == STATE_IN_DATE && row->missing[0] == '\0' &&
	       (row->due == DAY_NONE || row->due > until);
}

/* Drops the rows that are not asked about. Gear in reserve counts for nothing, so it can't be
 * missing; a date that is not known is not in date. */
static void
keep_asked(const struct desk *desk, const struct due_asked *asked,
    const struct gear_sieve *sieve, struct due_answer *out)
{
	struct agenda *agenda = &out->agenda;
	size_t kept = 0;
	for (size_t i = 0; i < agenda->count; i++) {
		const struct agenda_row row = agenda->items[i];
		if (!is_asked(desk, asked, sieve, &row)) {
			continue;
		}
		if (is_later(asked, &row, out->until)) {
			out->later++;
			continue;
		}
		const struct item *item = &desk->contents.inventory.items[row.item];
		out->wrong = out->wrong ||
			     (row.state != STATE_IN_DATE && item->state != PLACE_RESERVE);
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
	    !ask_engine(desk, asked->gear.vessel, LEFT_NONE, fault) ||
	    !left_check_named(desk, asked->gear.vessel, fault)) {
		return false;
	}
	agenda_make(&desk->engine, desk->today, &desk->arena, &out->agenda);
	keep_asked(desk, asked, &sieve, out);
	return true;
}
