#include "winter/agenda.h"

#include "base/numbers.h"
#include "winter/winter.h"

#include <string.h>

/* The rows of an inventory's gear being made. What has lapsed belongs to the same winter for all
 * gear of a vessel, so that is found once for each. */
struct agenda_making {
	const struct due_engine *engine;
	day_t today;
	struct arena scratch;
	struct arena *arena;
	struct agenda *agenda;
	const struct vessel *vessel; /* whose `lapsed` is known; NULL at first */
	int lapsed;                  /* the winter, as winter_of_obligation has it */
};

static int
winter_of_row(struct agenda_making *making, const struct vessel *vessel,
    const struct obligation *obligation)
{
	if (obligation->state == STATE_IN_DATE) {
		return winter_of_obligation(vessel, obligation, making->today);
	}
	if (making->vessel != vessel) {
		making->lapsed = winter_of_obligation(vessel, obligation, making->today);
		making->vessel = vessel;
	}
	return making->lapsed;
}

static struct agenda_row
row_of(const struct obligation *obligation, int winter)
{
	struct agenda_row row = {
	    .item = obligation->item,
	    .task = obligation->task,
	    .state = obligation->state,
	    .due = obligation->due,
	    .good_through = obligation->good_through,
	    .grade = obligation->grade,
	    .doer = obligation->doer,
	    .rule = "",
	    .sheet = "",
	    .winter = winter,
	    .routine = obligation->routine,
	    .missing = obligation_asks(obligation),
	};
	if (obligation->binding != NULL) {
		row.rule = obligation->binding->rule_id;
		row.clock = obligation->binding->anchor;
		if (obligation->binding->rule != NULL) {
			row.sheet = obligation->binding->rule->sheet;
		}
	}
	return row;
}

/* Says in a row whether its item works, and adds it. */
static void
add_row(
    struct agenda_making *making, struct agenda_row row, const struct working *working)
{
	row.not_working = working->trouble == PART_FINE
			      ? ""
			      : making->engine->inventory->items[working->part].tag;
	row.trouble = working->trouble;
	ARENA_ADD(making->arena, making->agenda, row);
}

/* The row of what no rule gives a day. */
static struct agenda_row
row_without_task(size_t item)
{
	return (struct agenda_row){.item = item,
	    .no_task = true,
	    .state = STATE_IN_DATE,
	    .due = DAY_NONE,
	    .good_through = DAY_NEVER,
	    .rule = "",
	    .sheet = "",
	    .missing = ""};
}

static void
add_item(struct agenda_making *making, size_t item)
{
	const struct due_engine *engine = making->engine;
	struct arena *scratch = &making->scratch;
	day_t today = making->today;
	const struct item *gear = &engine->inventory->items[item];
	struct obligation *obligations = NULL;
	size_t count = 0;
	bool any = gear->state == PLACE_RESERVE || gear->state == PLACE_WITHDRAWN;
	due_of_item(engine, item, today, scratch, &obligations, &count);
	const struct vessel *vessel = &engine->inventory->vessels[gear->vessel];
	struct working working = {0};
	due_working(engine, item, gear->vessel, today, scratch, &working);
	for (size_t i = 0; i < count; i++) {
		if (obligation_is_idle(&obligations[i])) {
			continue; /* settled: done once and for all */
		}
		int winter = winter_of_row(making, vessel, &obligations[i]);
		add_row(making, row_of(&obligations[i], winter), &working);
		any = any || !obligations[i].routine;
	}
	if (!any && working.trouble != PART_FINE) {
		add_row(making, row_without_task(item), &working);
	}
}

const char *
agenda_task_word(const struct agenda_row *row)
{
	return row->no_task ? "" : task_word(row->task);
}

bool
agenda_lacks_part(const struct agenda_row *row)
{
	return row->state == STATE_IN_DATE && row->trouble != PART_FINE;
}

int64_t
agenda_key(const struct agenda_row *row)
{
	return (row->state == STATE_IN_DATE ? (int64_t)1 << 32 : 0) + row->due;
}

/* A row's key, less the least of them, and its place as it was made: rows are moved once, when
 * their order is known. */
struct agenda_place {
	uint64_t key;
	size_t at;
};

/* Puts places in the order of their keys and, within one, leaves them in theirs: by one byte of the
 * key after the other from the last on, counting. `other` is room for as many; returns where they
 * then stand, of the two. */
static struct agenda_place *
sort_places(
    struct agenda_place *places, struct agenda_place *other, size_t count, uint64_t most)
{
	enum { BITS = 8, VALUES = 1 << BITS };

	for (unsigned shift = 0; shift < 64 && most >> shift != 0; shift += BITS) {
		size_t next[VALUES + 1] = {0};
		for (size_t i = 0; i < count; i++) {
			next[(places[i].key >> shift) % VALUES + 1]++;
		}
		for (size_t value = 0; value < VALUES; value++) {
			next[value + 1] += next[value];
		}
		for (size_t i = 0; i < count; i++) {
			other[next[(places[i].key >> shift) % VALUES]++] = places[i];
		}
		struct agenda_place *sorted = other;
		other = places;
		places = sorted;
	}
	return places;
}

/* Lapsed and unknown first, then by due day, then as they were made: in the inventory's
 * order, and by task. */
static void
put_in_order(const struct agenda *made, struct arena *scratch, struct arena *arena,
    struct agenda *out)
{
	size_t count = made->count;
	struct agenda_place *places = ARENA_MANY(scratch, struct agenda_place, count);
	struct agenda_row *rows = ARENA_MANY(arena, struct agenda_row, count);
	struct agenda_place *room = ARENA_MANY(scratch, struct agenda_place, count);
	int64_t least = count == 0 ? 0 : agenda_key(&made->items[0]);
	int64_t most = least;
	for (size_t i = 1; i < count; i++) {
		int64_t key = agenda_key(&made->items[i]);
		least = LESSER(key, least);
		most = GREATER(key, most);
	}
	for (size_t i = 0; i < count; i++) {
		uint64_t key = (uint64_t)(agenda_key(&made->items[i]) - least);
		places[i] = (struct agenda_place){key, i};
	}
	places = sort_places(places, room, count, (uint64_t)(most - least));
	for (size_t i = 0; i < count; i++) {
		rows[i] = made->items[places[i].at];
	}
	*out = (struct agenda){.items = rows, .count = count, .capacity = count};
}

void
agenda_make(
    const struct due_engine *engine, day_t today, struct arena *arena, struct agenda *out)
{
	enum { ROWS_OF_ITEM = 3 }; /* few pieces have more; the array grows for them */

	SCOPED_ARENA own = {0};
	struct agenda made = {0};
	size_t count = engine->inventory->item_count;
	struct agenda_making making = {
	    .engine = engine, .today = today, .arena = &own, .agenda = &made};
	arena_reserve(
	    &own, &made.items, &made.capacity, sizeof *made.items, ROWS_OF_ITEM * count);
	for (size_t i = 0; i < count; i++) {
		add_item(&making, i);
		arena_reset(&making.scratch);
	}
	put_in_order(&made, &making.scratch, arena, out);
	arena_clear(&making.scratch);
}

/* ---- the first word ---- */

void
first_word_not_in_date(const struct inventory *inventory, const struct agenda *agenda,
    const char *vessel, struct arena *arena, struct first_word_part *out)
{
	struct agenda_row *rows = ARENA_MANY(arena, struct agenda_row, agenda->count);
	bool *broken = ARENA_MANY(arena, bool, inventory->item_count);
	size_t kept = 0;
	for (size_t i = 0; i < agenda->count; i++) {
		const struct agenda_row *row = &agenda->items[i];
		const struct item *item = &inventory->items[row->item];
		bool hers = vessel == NULL ||
			    strcmp(inventory->vessels[item->vessel].name, vessel) == 0;
		/* a part that has lapsed is told of itself */
		bool away = row->trouble == PART_GONE || row->trouble == PART_LANDED;
		bool breaks = row->state == STATE_IN_DATE && away && !broken[row->item];
		if (hers && (row->state != STATE_IN_DATE || breaks) && !row->routine &&
		    item->state != PLACE_RESERVE) {
			rows[kept++] = *row;
			broken[row->item] = broken[row->item] || breaks;
		}
	}
	out->rows = rows;
	out->row_count = kept;
}

bool
coming_this_week(const struct first_word *word, const struct coming *coming)
{
	return coming->day <= word->today + FIRST_WORD_WEEK;
}

bool
coming_days_note(
    struct coming_days *days, const struct coming *coming, struct arena *arena)
{
	size_t at = 0;
	while (at < days->count && days->items[at].day < coming->day) {
		at++;
	}
	if (at == FIRST_WORD_DAYS) {
		return false;
	}
	struct coming_day *day = &days->items[at];
	if (at == days->count || day->day != coming->day) {
		size_t kept = LESSER(days->count, (size_t)FIRST_WORD_DAYS - 1);
		memmove(day + 1, day, (kept - at) * sizeof *day);
		*day = (struct coming_day){.day = coming->day};
		days->count = kept + 1;
	}
	if (day->count++ == 0 || strcmp(coming->key, day->key) < 0) {
		day->key = arena_string(arena, coming->key);
		day->summary = arena_string(arena, coming->summary);
	}
	return true;
}
