#include "years/tips.h"

/* True when a part of the item's family further out has a tip of its own. */
static bool
has_outer(const struct inventory *inventory, const unsigned *renewed, unsigned looked,
    size_t item)
{
	bool found = false;
	for (size_t at = inventory->items[item].parent; at != ITEM_NO_PARENT && !found;
	     at = inventory->items[at].parent) {
		found = renewed[at] != 0 && renewed[at] != looked;
	}
	return found;
}

/* Marks what a plan of so many winters buys in its first. */
static void
mark_renewed(const struct outlook *plan, size_t winters, unsigned *renewed)
{
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		if (line->winter == 0 && line->task == TASK_RENEW && !line->refit) {
			renewed[line->item] |= WINTERS_BIT(winters);
		}
	}
}

/* Plans every number of winters; `renewed` is of each item, `*looked` those that are
 * proven. */
static bool
plan_each(const struct outlook_ask *ask, unsigned *renewed, unsigned *looked,
    struct fault *fault)
{
	SCOPED_ARENA scratch = {0};
	for (size_t winters = 1; winters <= OUTLOOK_WINTERS_MOST; winters++) {
		struct outlook_ask asked = *ask;
		struct outlook plan = {0};
		asked.winters = winters;
		arena_reset(&scratch);
		if (!outlook_make(&asked, &scratch, &plan, fault)) {
			return false;
		}
		if (plan.proven) {
			*looked |= WINTERS_BIT(winters);
			mark_renewed(&plan, winters, renewed);
		}
	}
	return true;
}

bool
outlook_tips_find(const struct outlook_ask *ask, struct arena *arena,
    struct outlook_tips *out, struct fault *fault)
{
	const struct inventory *inventory = ask->engine->inventory;
	size_t room = inventory->item_count + 1;
	unsigned *renewed = ARENA_MANY(arena, unsigned, room);
	struct outlook_tips tips = {
	    .items = arena_alloc(arena, room * sizeof *tips.items)};
	unsigned looked = 0;
	if (!plan_each(ask, renewed, &looked, fault)) {
		return false;
	}
	for (size_t i = 0; i < inventory->item_count; i++) {
		if (renewed[i] != 0 && renewed[i] != looked &&
		    !has_outer(inventory, renewed, looked, i)) {
			tips.items[tips.count++] =
			    (struct outlook_tip){i, renewed[i], looked & ~renewed[i]};
		}
	}
	*out = tips;
	return true;
}

/* ---- beside the shore list ---- */

enum { RENEWED = 1, WORKED_ON = 2 };

/* What is done to each item aboard a vessel. */
struct aboard_marks {
	size_t first; /* the first of them in the inventory */
	size_t count;
	unsigned char *of;
};

/* Gear of another vessel is passed over. */
static void
mark(struct aboard_marks *marks, size_t item, int what)
{
	if (item >= marks->first && item - marks->first < marks->count) {
		marks->of[item - marks->first] |= (unsigned char)what;
	}
}

static void
mark_lines(const struct shore_lines *lines, int otherwise, struct aboard_marks *marks)
{
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		mark(marks, line->item, line->task == TASK_RENEW ? RENEWED : otherwise);
	}
}

/* What the list does to each item: work at a station, or a new one. */
static void
mark_list(const struct shore_list *list, struct aboard_marks *marks)
{
	mark_lines(&list->buy, 0, marks);
	mark_lines(&list->self, 0, marks);
	for (size_t t = 0; t < list->hand_in.count; t++) {
		mark_lines(&list->hand_in.items[t].lines, WORKED_ON, marks);
	}
}

/* Marks what a plan does in its first winter. A list tells no refit from a new thing, so
 * that one of the plan is no clash with either. */
static void
mark_plan(const struct outlook *plan, struct aboard_marks *marks)
{
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		int done = line->task == TASK_RENEW     ? RENEWED
			   : line->doer == DOER_STATION ? WORKED_ON
							: 0;
		if (line->winter == 0) {
			mark(marks, line->item, line->refit ? RENEWED | WORKED_ON : done);
		}
	}
}

void
outlook_clashes_find(const struct inventory *inventory, const struct outlook *plan,
    const struct shore_list *list, struct arena *arena, struct winter_clashes *out)
{
	size_t aboard = 0;
	size_t first = inventory_aboard(inventory, list->vessel, &aboard);
	struct aboard_marks listed = {first, aboard, arena_alloc(arena, aboard + 1)};
	struct aboard_marks planned = {first, aboard, arena_alloc(arena, aboard + 1)};
	struct winter_clashes clashes = {
	    .items = arena_alloc(arena, (aboard + 1) * sizeof *clashes.items),
	    .winters = plan->winters};
	if (list->has_winter && list->winter.year == plan->first_year) {
		mark_list(list, &listed);
		mark_plan(plan, &planned);
	}
	for (size_t i = 0; i < aboard; i++) {
		bool renewed = planned.of[i] == RENEWED && listed.of[i] == WORKED_ON;
		if (renewed || (planned.of[i] == WORKED_ON && listed.of[i] == RENEWED)) {
			clashes.items[clashes.count++] =
			    (struct winter_clash){first + i, renewed};
		}
	}
	*out = clashes;
}
