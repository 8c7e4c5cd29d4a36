/* Whether a thing works: what the state of its working parts means for it. */
#include "due/inside.h"

#include <string.h>

/* A thing whose parts are looked at. All borrowed. */
struct whole {
	const struct due_engine *engine;
	size_t vessel;
	day_t today;
	struct arena *arena;
};

static void
note(struct working *working, size_t part, enum part_trouble trouble)
{
	if (working->trouble == PART_FINE) {
		working->trouble = trouble;
		working->part = part;
	}
}

/* True when a clock that can't start is of a rule that binds more than common practice. */
static bool
should_date(const struct reading *reading)
{
	return reading_is_stuck(reading) && reading->rule != NULL &&
	       reading->rule->grade != GRADE_PRACTICE;
}

/* One task of a part: when it has lapsed at grade law or maker, and when that can't be told. */
static void
add_task(
    const struct whole *whole, const struct obligation *task, struct working *working)
{
	struct arena *arena = whole->arena;
	struct spans runs = {0};
	struct spans stuck = {0};
	for (size_t i = 0; i < task->reading_count; i++) {
		const struct reading *reading = &task->readings[i];
		struct spans lapse = {0};
		bool binds =
		    reading->grade != GRADE_PRACTICE && reading_gives_a_day(reading);
		struct spans force = reading->in_force;
		if (binds) {
			spans_after(arena, reading->good_through, &lapse);
			spans_both(arena, lapse, force, &lapse);
			spans_either(arena, working->lapsed, lapse, &working->lapsed);
		}
		if (reading_tells(reading)) {
			spans_either(arena, runs, reading->sure, &runs);
		}
		if (should_date(reading)) {
			spans_either(arena, stuck, force, &stuck);
		}
	}
	spans_except(arena, stuck, runs, &stuck);
	spans_either(arena, working->unknown, stuck, &working->unknown);
}

static void
add_dates(const struct whole *whole, size_t part, struct working *working)
{
	struct working own = {0};
	struct obligation *tasks = NULL;
	size_t count = 0;
	due_of_item_aboard(whole->engine,
	    (struct item_aboard){part, whole->vessel, whole->today}, whole->arena, &tasks,
	    &count);
	for (size_t i = 0; i < count; i++) {
		if (!tasks[i].routine) {
			add_task(whole, &tasks[i], &own);
		}
	}
	if (spans_have(own.lapsed, whole->today)) {
		note(working, part, PART_LAPSED);
	} else if (spans_have(own.unknown, whole->today)) {
		note(working, part, PART_NOT_KNOWN);
	}
	spans_either(whole->arena, working->lapsed, own.lapsed, &working->lapsed);
	spans_either(whole->arena, working->unknown, own.unknown, &working->unknown);
}

/* True when another part of its kind is inside the same thing. */
static bool
has_successor(const struct due_engine *engine, size_t part)
{
	const struct item *items = engine->inventory->items;
	for (size_t i = engine->first_part[items[part].parent]; i != ITEM_NO_PARENT;
	     i = engine->next_part[i]) {
		bool there =
		    items[i].state != PLACE_WITHDRAWN && items[i].state != PLACE_RESERVE;
		if (i != part && there && strcmp(items[i].kind, items[part].kind) == 0) {
			return true;
		}
	}
	return false;
}

static void
add_part(const struct whole *whole, size_t part, struct working *working)
{
	const struct item *item = &whole->engine->inventory->items[part];
	switch (item->state) {
	case PLACE_ABOARD:
	case PLACE_STAND_IN:
		add_dates(whole, part, working);
		return;
	case PLACE_RESERVE:
		return;
	case PLACE_LANDED:
		/* what went ashore with the whole is told of with it */
		if (whole->engine->inventory->items[item->parent].state != PLACE_LANDED) {
			note(working, part, PART_LANDED);
		}
		break;
	case PLACE_WITHDRAWN:
		if (has_successor(whole->engine, part)) {
			return;
		}
		note(working, part, PART_GONE);
		break;
	}
	working->lapsed = spans_always();
}

bool
due_part_is_missed(const struct due_engine *engine, size_t part)
{
	const struct item *items = engine->inventory->items;
	size_t parent = items[part].parent;
	return items[part].state == PLACE_WITHDRAWN && parent != ITEM_NO_PARENT &&
	       engine->first_part != NULL && items[parent].state != PLACE_WITHDRAWN &&
	       items[parent].state != PLACE_RESERVE &&
	       kinds_work_together(engine->kinds, items[parent].kind, items[part].kind) &&
	       !has_successor(engine, part);
}

void
due_working(const struct due_engine *engine, size_t item, size_t vessel, day_t today,
    struct arena *arena, struct working *out)
{
	const struct item *items = engine->inventory->items;
	const struct whole whole = {engine, vessel, today, arena};
	*out = (struct working){.part = ITEM_NO_PARENT};
	size_t part =
	    engine->first_part == NULL ? ITEM_NO_PARENT : engine->first_part[item];
	for (; part != ITEM_NO_PARENT; part = engine->next_part[part]) {
		if (kinds_work_together(
			engine->kinds, items[item].kind, items[part].kind)) {
			add_part(&whole, part, out);
		}
	}
}

const char *
part_trouble_word(enum part_trouble trouble)
{
	static const char *const WORDS[] = {
	    [PART_FINE] = "",
	    [PART_LAPSED] = "lapsed",
	    [PART_NOT_KNOWN] = "date-unknown",
	    [PART_LANDED] = "landed",
	    [PART_GONE] = "gone",
	};
	return WORDS[trouble];
}

const char *
part_trouble_words(enum part_trouble trouble)
{
	static const char *const WORDS[] = {
	    [PART_FINE] = "",
	    [PART_LAPSED] = "has lapsed",
	    [PART_NOT_KNOWN] = "is of unknown date",
	    [PART_LANDED] = "is ashore",
	    [PART_GONE] = "is gone",
	};
	return WORDS[trouble];
}
