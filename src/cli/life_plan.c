#include "cli/life_plan.h"

#include "cli/values.h"
#include "life/family.h"
#include "report/tags.h"

void
life_add(struct context *context, struct life_plan *plan, const struct life_step *step)
{
	ARENA_ROOM(&context->desk.arena, plan);
	plan->items[plan->count++] = *step;
}

bool
life_has(const struct life_plan *plan, size_t item)
{
	for (size_t i = 0; i < plan->count; i++) {
		if (plan->items[i].item == item) {
			return true;
		}
	}
	return false;
}

static bool
write_change(struct context *context, const struct item_change *change, const char *tag,
    struct fault *fault)
{
	struct item_change tagged = *change;
	tagged.tag = tag;
	return change->set == 0 ||
	       book_put_items(context->desk.book, &tagged, 1, NULL, fault);
}

static bool
write_step(struct context *context, const struct life_step *step, struct fault *fault)
{
	const char *tag = context->desk.contents.inventory.items[step->item].tag;
	if (step->moves &&
	    !book_add_movement(context->desk.book, tag, &step->movement, fault)) {
		return false;
	}
	if (!write_change(context, &step->change, tag, fault)) {
		return false;
	}
	bool past = false;
	for (size_t i = 0; i < step->record_count; i++) {
		const struct record *record = &step->records[i];
		bool of_before = false;
		if (!book_is_past_renewal(
			context->desk.book, tag, record, &of_before, fault) ||
		    !book_add_record(context->desk.book, tag, record, fault)) {
			return false;
		}
		past = past || of_before;
	}
	return past || write_change(context, &step->renewed, tag, fault);
}

bool
life_begin(struct context *context, struct fault *fault)
{
	return desk_book(&context->desk, fault) &&
	       book_begin(context->desk.book, fault) &&
	       desk_load(&context->desk, NULL, true, fault);
}

bool
life_begin_again(struct context *context, struct fault *fault)
{
	desk_forget(&context->desk);
	return life_begin(context, fault);
}

bool
life_write(struct context *context, const struct life_plan *plan, struct fault *fault)
{
	for (size_t i = 0; i < plan->count; i++) {
		if (!write_step(context, &plan->items[i], fault)) {
			return false;
		}
	}
	return book_commit(context->desk.book, fault);
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

bool
life_day(struct context *context, day_t *out, struct fault *fault)
{
	*out = context->desk.today;
	if (!value_day(context->given, "on", out, NULL, fault)) {
		return false;
	}
	desk_note_future(&context->desk, "on", stamp_of_day(*out));
	return true;
}

const char *
life_note(const struct context *context)
{
	const char *note = options_value(context->given, "note");
	return note == NULL ? "" : note;
}

bool
life_parts(struct context *context, const char *name, const size_t *items, size_t count,
    bool **marks_out, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	bool *marks = arena_alloc(
	    &context->desk.arena, (inventory->item_count + 1) * sizeof *marks);
	size_t cursor = 0;
	for (const char *tag = options_next(context->given, name, &cursor); tag != NULL;
	     tag = options_next(context->given, name, &cursor)) {
		size_t part = 0;
		bool inside = false;
		if (!desk_find_tag(&context->desk, tag, &part, fault)) {
			return fault_prefix(fault, "--%s", name);
		}
		for (size_t i = 0; i < count; i++) {
			inside = inside || family_has(inventory, items[i], part);
		}
		if (!inside) {
			return fault_set(fault, FAULT_INPUT,
			    "--%s: %s is no part of what is named", name, tag);
		}
		marks[part] = true;
	}
	*marks_out = marks;
	return true;
}

void
life_add_tags(const struct context *context, const size_t *items, size_t count,
    const struct life_plan *plan, struct text *out)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	struct tag_list list = {.out = out};
	for (size_t i = 0; i < count; i++) {
		tag_list_add(&list, inventory->items[items[i]].tag);
	}
	tag_list_end(&list);
	size_t others = plan->count;
	for (size_t i = 0; i < plan->count; i++) {
		for (size_t j = 0; j < count; j++) {
			others -= plan->items[i].item == items[j] ? 1 : 0;
		}
	}
	if (others > 0) {
		text_add_format(out, " and %zu part%s", others, others == 1 ? "" : "s");
	}
}
