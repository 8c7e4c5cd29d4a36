/* Why a carriage line is met or not: each piece that could serve it, and what keeps it from
 * counting. */
#include "base/text.h"
#include "muster/inside.h"

#include <string.h>

/* One piece being explained. All borrowed. */
struct explaining {
	const struct item *item;
	const struct obligation *tasks;
	size_t task_count;
	day_t day;
};

/* True when the reading makes its item lapsed on the day. */
static bool
has_run_out(const struct reading *reading, day_t day)
{
	return reading_gives_a_day(reading) && reading->good_through < day &&
	       spans_have(reading->in_force, day);
}

/* Finds the clock that ran out first, of those that bind the count or of those that do
 * not. */
static void
find_lapse(const struct explaining *explaining, bool binding, struct piece_why *why)
{
	for (size_t i = 0; i < explaining->task_count; i++) {
		const struct obligation *task = &explaining->tasks[i];
		for (size_t j = 0; j < task->reading_count; j++) {
			const struct reading *reading = &task->readings[j];
			bool fits = obligation_counts(explaining->item, task) &&
				    reading_binds_count(reading) == binding &&
				    has_run_out(reading, explaining->day);
			if (fits &&
			    (why->reading == NULL ||
				reading->good_through < why->reading->good_through)) {
				why->reading = reading;
				why->task = task->task;
			}
		}
	}
}

/* What one task lacks on the day: the name of what would start a clock in force, where none
 * runs, or of the maker's interval that one wants; "" when nothing is lacking. */
static const char *
lacks(const struct obligation *task, day_t day)
{
	const char *missing = "";
	const char *wanted = "";
	bool tells = false;
	bool paper = false;
	for (size_t i = 0; i < task->reading_count; i++) {
		const struct reading *reading = &task->readings[i];
		if (!spans_have(reading->in_force, day)) {
			continue;
		}
		bool told = reading_tells(reading) && spans_have(reading->sure, day);
		tells = tells || told;
		paper = paper || (told && reading->anchor == ANCHOR_CERTIFICATE);
		missing = missing[0] == '\0' ? reading->asks : missing;
		wanted = reading->wants_maker ? reading->asks : wanted;
	}
	if (!tells) {
		return missing;
	}
	return paper ? "" : wanted;
}

/* Finds what is not known. A flare without any date to go by lacks the one printed on it. */
static void
find_missing(const struct explaining *explaining, struct piece_why *why)
{
	why->task = TASK_RENEW;
	why->missing = "expires";
	for (size_t i = 0; i < explaining->task_count; i++) {
		const struct obligation *task = &explaining->tasks[i];
		const char *missing = lacks(task, explaining->day);
		if (obligation_counts(explaining->item, task) && missing[0] != '\0') {
			why->task = task->task;
			why->missing = missing;
			return;
		}
	}
}

/* Why an item that is not there is not: the first of itself and what it is part of. */
static enum piece_reason
reason_of_place(const struct inventory *inventory, size_t index)
{
	for (size_t i = index; i != ITEM_NO_PARENT; i = inventory->items[i].parent) {
		switch (inventory->items[i].state) {
		case PLACE_ABOARD:
		case PLACE_STAND_IN:
			break;
		case PLACE_RESERVE:
			return PIECE_RESERVE;
		case PLACE_LANDED:
			return PIECE_LANDED;
		case PLACE_WITHDRAWN:
			return PIECE_WITHDRAWN;
		}
	}
	return PIECE_COUNTS;
}

static enum piece_reason
reason_of(enum count_state state)
{
	switch (state) {
	case COUNT_YES:
		return PIECE_COUNTS;
	case COUNT_REMARK:
		return PIECE_REMARKED;
	case COUNT_LAPSED:
		return PIECE_LAPSED;
	case COUNT_UNKNOWN:
		return PIECE_NOT_KNOWN;
	}
	return PIECE_NOT_KNOWN;
}

/* Explains a piece that is there. */
static void
explain_piece(const struct due_engine *engine, size_t index, day_t day,
    struct arena *arena, struct piece_why *why)
{
	const struct item *item = &engine->inventory->items[index];
	struct piece piece = {0};
	struct obligation *tasks = NULL;
	size_t count = 0;
	piece_read(engine, index, item->vessel, day, arena, &piece);
	due_of_item(engine, index, day, arena, &tasks, &count);
	const struct explaining explaining = {item, tasks, count, day};
	why->reason = reason_of(piece_on(&piece, day));
	switch (why->reason) {
	case PIECE_REMARKED:
	case PIECE_LAPSED:
		find_lapse(&explaining, why->reason == PIECE_LAPSED, why);
		break;
	case PIECE_NOT_KNOWN:
		find_missing(&explaining, why);
		break;
	case PIECE_COUNTS:
	case PIECE_UNTOLD:
	case PIECE_UNFIT:
	case PIECE_RESERVE:
	case PIECE_LANDED:
	case PIECE_WITHDRAWN:
		break;
	}
	struct working working = {0};
	due_working(engine, index, item->vessel, day, arena, &working);
	bool out = why->reason == PIECE_LAPSED || why->reason == PIECE_NOT_KNOWN;
	if (out && why->reading == NULL && working.trouble != PART_FINE) {
		why->part = engine->inventory->items[working.part].tag;
		why->trouble = working.trouble;
	}
	if (why->reason == PIECE_COUNTS || why->reason == PIECE_REMARKED) {
		day_t lapses = piece_lapses(&piece, day);
		why->last = lapses == DAY_NEVER ? DAY_NEVER : lapses - 1;
	}
}

static void
explain_pieces(const struct due_engine *engine, struct line_why *why, struct arena *arena)
{
	const struct inventory *inventory = engine->inventory;
	size_t count = 0;
	size_t first = inventory_aboard(inventory, why->vessel, &count);
	why->pieces = arena_alloc(arena, (count + 1) * sizeof *why->pieces);
	for (size_t i = first; i < first + count; i++) {
		struct piece_why *piece = &why->pieces[why->count];
		*piece = (struct piece_why){
		    .item = i, .missing = "", .part = "", .last = DAY_NONE};
		const struct item *item = &inventory->items[i];
		bool gone = item->state == PLACE_WITHDRAWN;
		if (gone || !line_takes(why->line, item->kind)) {
			continue;
		}
		piece->worth = line_worth(why->line, item, &piece->missing);
		piece->reason = reason_of_place(inventory, i);
		if (piece->reason == PIECE_COUNTS && piece->worth == 0) {
			piece->reason =
			    piece->missing[0] == '\0' ? PIECE_UNFIT : PIECE_UNTOLD;
		}
		if (piece->reason == PIECE_COUNTS) {
			explain_piece(engine, i, why->on, arena, piece);
		}
		why->count++;
	}
}

/* The line of her sheets with this id; NULL with the ids there are in the fault. */
static const struct carriage *
find_line(
    const struct due_engine *engine, size_t vessel, const char *id, struct fault *fault)
{
	size_t count = 0;
	const struct carriage *const *lines =
	    rulebook_carriage(engine->rulebooks[vessel], &count);
	SCOPED_TEXT ids = {0};
	for (size_t i = 0; i < count; i++) {
		if (strcmp(lines[i]->id, id) == 0) {
			return lines[i];
		}
		text_add_format(&ids, "%s%s", i == 0 ? "" : ", ", lines[i]->id);
	}
	(void)fault_set(fault, FAULT_INPUT,
	    "the sheets of %.80s have no carriage line \"%.60s\"; %s%s",
	    engine->inventory->vessels[vessel].name, id,
	    count == 0 ? "they have none at all" : "they have: ", text_string(&ids));
	return NULL;
}

bool
muster_why(const struct due_engine *engine, size_t vessel, const char *line, day_t day,
    struct arena *arena, struct line_why *out, struct fault *fault)
{
	struct muster muster = {0};
	struct line_why why = {.vessel = vessel, .on = day};
	why.line = find_line(engine, vessel, line, fault);
	if (why.line == NULL) {
		return false;
	}
	muster_vessel(engine, vessel, (struct span){day, day}, arena, &muster);
	for (size_t i = 0; i < muster.line_count; i++) {
		if (muster.lines[i].line == why.line) {
			why.holds = true;
			why.told = muster.lines[i];
		}
	}
	why.persons = vessel_period_on(&engine->inventory->vessels[vessel], day)->persons;
	explain_pieces(engine, &why, arena);
	*out = why;
	return true;
}
