/* Changes to where gear stands, gathered first and then written at once or not at all. */
#ifndef BECKET_CLI_LIFE_PLAN_H
#define BECKET_CLI_LIFE_PLAN_H

#include "cli/context.h"

/* What happens to one item, in this order; what is not there is not done. */
struct life_step {
	size_t item; /* index in the loaded contents */
	bool moves;
	struct movement movement;
	struct item_change change; /* `set` is 0 for none; its tag is filled in */
	const struct record *records;
	size_t record_count;
	struct item_change renewed; /* the new thing's dates, after a renewal */
};

/* Starts as `{ 0 }`; lives in the context's arena. */
struct life_plan {
	struct life_step *items;
	size_t count;
	size_t capacity;
};

void life_add(
    struct context *context, struct life_plan *plan, const struct life_step *step);

/* True when a step of the plan is about the item. */
bool life_has(const struct life_plan *plan, size_t item);

/* Opens the book, begins its transaction and loads it whole, so that what a plan is made from
 * is what it changes. */
MUST_CHECK bool life_begin(struct context *context, struct fault *fault);

/* The same for a command that has read the book before to ask questions about it: it may have
 * changed since. Tags and indices of what was loaded are no longer good. */
MUST_CHECK bool life_begin_again(struct context *context, struct fault *fault);

/* Writes all steps and ends the transaction. */
MUST_CHECK bool life_write(
    struct context *context, const struct life_plan *plan, struct fault *fault);

/* An empty movement of a day, with a note ("" for none). */
struct movement life_movement(enum move move, day_t on, const char *note);

/* The movement that a change of an item's state amounts to; false when it changes none. */
MUST_CHECK bool life_state_move(
    const struct item *item, const struct item_change *change, enum move *out);

/* Completes a change of state: what was landed and is no longer is nowhere ashore, what was
 * withdrawn and is no longer has no reason for it. */
void life_settle_state(struct item_change *change);

/* The --on day, today when it was not given, with a remark when it is after today. */
MUST_CHECK bool life_day(struct context *context, day_t *out, struct fault *fault);

/* The --note, "" when it was not given. */
const char *life_note(const struct context *context);

/* Reads repeatable --NAME TAG into marks, one an item of the inventory; a tag that is not
 * inside one of the named items is FAULT_INPUT. */
MUST_CHECK bool life_parts(struct context *context, const char *name, const size_t *items,
    size_t count, bool **marks_out, struct fault *fault);

/* Adds "LJ-1 to LJ-3 and 4 parts": the items in the order given, then how many of the plan's
 * steps are about others. */
void life_add_tags(const struct context *context, const size_t *items, size_t count,
    const struct life_plan *plan, struct text *out);

#endif
