#include "life/planning.h"

#include "life/family.h"

#include <stdarg.h>

void
planning_add(struct life_planning *planning, const struct life_row *row)
{
	struct life_plan *plan = planning->plan;
	ARENA_ROOM(planning->arena, plan);
	plan->items[plan->count++] = *row;
}

bool
planning_has(const struct life_planning *planning, size_t item)
{
	const struct life_plan *plan = planning->plan;
	for (size_t i = 0; i < plan->count; i++) {
		if (plan->items[i].item == item) {
			return true;
		}
	}
	return false;
}

void
planning_note(struct life_planning *planning, const char *format, ...)
{
	va_list args;
	va_start(args, format);
	text_add_arguments(planning->notes, format, args);
	va_end(args);
	text_add_byte(planning->notes, '\n');
}

struct movement
life_movement(enum move move, day_t on, const char *note)
{
	return (struct movement){.move = move, .on = on, .note = note, .price_minor = -1};
}

bool
life_state_move(const struct item *item, const struct item_change *change, enum move *out)
{
	static const enum move MOVES[] = {
	    [PLACE_ABOARD] = MOVE_ABOARD,
	    [PLACE_RESERVE] = MOVE_RESERVED,
	    [PLACE_LANDED] = MOVE_LANDED,
	    [PLACE_STAND_IN] = MOVE_STOOD_IN,
	    [PLACE_WITHDRAWN] = MOVE_WITHDRAWN,
	};

	if ((change->set & 1U << FIELD_STATE) == 0 || change->state == item->state) {
		return false;
	}
	bool back = item->state == PLACE_LANDED && change->state != PLACE_WITHDRAWN;
	*out = back ? MOVE_RETURNED : MOVES[change->state];
	return true;
}

void
life_settle_state(struct item_change *change)
{
	if ((change->set & 1U << FIELD_STATE) == 0) {
		return;
	}
	if (change->state != PLACE_LANDED) {
		change->set |= 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON;
		change->landed_to = "";
		change->landed_on = DAY_NONE;
	}
	if (change->state != PLACE_WITHDRAWN) {
		change->set |= 1U << FIELD_BECAUSE;
		change->because = BECAUSE_NOT_SAID;
	}
}

unsigned
life_recorded(const struct life_row *row)
{
	unsigned tasks = 0;
	for (size_t i = 0; i < row->record_count; i++) {
		tasks |= 1U << row->records[i].task;
	}
	return tasks;
}

bool
planning_withdrawn(const struct item *item, struct fault *fault)
{
	return fault_set(fault, FAULT_INPUT, "%s is withdrawn%s%s", item->tag,
	    item->because == BECAUSE_NOT_SAID ? "" : ": ", because_word(item->because));
}

bool
family_has(const struct inventory *inventory, size_t whole, size_t item)
{
	size_t at = inventory->items[item].parent;
	for (size_t steps = 0; at != ITEM_NO_PARENT && steps < inventory->item_count;
	     steps++) {
		if (at == whole) {
			return true;
		}
		at = inventory->items[at].parent;
	}
	return false;
}

void
family_of(const struct inventory *inventory, size_t item, struct arena *arena,
    struct family *out)
{
	size_t count = 1;
	for (size_t i = 0; i < inventory->item_count; i++) {
		count += family_has(inventory, item, i) ? 1 : 0;
	}
	struct family family = {arena_alloc(arena, count * sizeof *family.items), 0};
	family.items[family.count++] = item;
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (i != item && inventory->items[i].state != PLACE_WITHDRAWN &&
		    family_has(inventory, item, i)) {
			family.items[family.count++] = i;
		}
	}
	*out = family;
}
