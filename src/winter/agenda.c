#include "winter/agenda.h"

#include "winter/winter.h"

#include <stdlib.h>

/* The first name of what is missing among an obligation's clocks; "" when nothing is. */
static const char *
missing_name(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		if (obligation->readings[i].asks[0] != '\0') {
			return obligation->readings[i].asks;
		}
	}
	return "";
}

static struct agenda_row
row_of(const struct vessel *vessel, const struct obligation *obligation, day_t today)
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
	    .winter = winter_of_obligation(vessel, obligation, today),
	    .routine = obligation->routine,
	    .asks = obligation->asks,
	    .missing = missing_name(obligation),
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

static void
add_item(const struct due_engine *engine, size_t item, day_t today, struct arena *scratch,
    struct arena *arena, struct agenda *agenda)
{
	const struct item *gear = &engine->inventory->items[item];
	struct obligation *obligations = NULL;
	size_t count = 0;
	due_of_item(engine, item, today, scratch, &obligations, &count);
	const struct vessel *vessel = &engine->inventory->vessels[gear->vessel];
	struct working working = {0};
	due_working(engine, item, gear->vessel, today, scratch, &working);
	for (size_t i = 0; i < count; i++) {
		if (obligation_is_idle(&obligations[i])) {
			continue; /* settled: done once and for all */
		}
		ARENA_ROOM(arena, agenda);
		struct agenda_row row = row_of(vessel, &obligations[i], today);
		row.not_working = working.trouble == PART_FINE
				      ? ""
				      : engine->inventory->items[working.part].tag;
		agenda->items[agenda->count++] = row;
	}
}

int64_t
agenda_key(const struct agenda_row *row)
{
	return (row->state == STATE_IN_DATE ? (int64_t)1 << 32 : 0) + row->due;
}

/* Lapsed and unknown first, then by due day, then as the inventory has them. */
static int
compare_rows(const void *left, const void *right)
{
	const struct agenda_row *a = left;
	const struct agenda_row *b = right;
	int64_t a_key = agenda_key(a);
	int64_t b_key = agenda_key(b);
	if (a_key != b_key) {
		return a_key < b_key ? -1 : 1;
	}
	if (a->item != b->item) {
		return a->item < b->item ? -1 : 1;
	}
	return (int)a->task - (int)b->task;
}

void
agenda_make(
    const struct due_engine *engine, day_t today, struct arena *arena, struct agenda *out)
{
	struct arena scratch = {0};
	*out = (struct agenda){0};
	for (size_t i = 0; i < engine->inventory->item_count; i++) {
		add_item(engine, i, today, &scratch, arena, out);
		arena_reset(&scratch);
	}
	arena_clear(&scratch);
	if (out->count > 1) {
		qsort(out->items, out->count, sizeof *out->items, compare_rows);
	}
}
