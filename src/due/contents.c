/* Parts, and what their dates mean for what they are inside of. */
#include "due/assess.h"

/* A part's renewal read as one more clock of its parent, no less binding than the part's. */
static struct reading
part_reading(const struct rule *rule, const struct force *force,
    const struct obligation *renewal, const char *tag)
{
	bool unknown = renewal->state == STATE_DATE_UNKNOWN;
	bool graver = !unknown && renewal->grade < rule->grade;
	return (struct reading){
	    .rule = rule,
	    .rule_id = rule->id,
	    .state = unknown ? READING_NOT_KNOWN : READING_RUNS,
	    .anchor = ANCHOR_CONTENTS,
	    .part = tag,
	    .from = renewal->due,
	    .due = renewal->due,
	    .good_through = renewal->good_through,
	    .in_force = force->perhaps,
	    .sure = force->spans,
	    .grade = graver ? renewal->grade : rule->grade,
	    .lapse = rule->lapse,
	    .doer = rule->doer,
	    .source = rule->source,
	    .asks = unknown ? "expires" : "",
	};
}

static bool
read_part(const struct assess *assess, const struct rule *rule, const struct force *force,
    size_t part, struct readings *out, struct fault *fault)
{
	/* Parts go where the whole goes. */
	const struct item *items = assess->engine->inventory->items;
	bool lent = assess->aboard != items[assess->index].vessel;
	size_t aboard = lent ? assess->aboard : items[part].vessel;
	struct obligation *obligations = NULL;
	size_t count = 0;
	if (!due_of_item_aboard(assess->engine, part, aboard, assess->today,
		assess->arena, &obligations, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		const struct obligation *inner = &obligations[i];
		bool dated = inner->state == STATE_DATE_UNKNOWN || inner->due != DAY_NONE;
		if (inner->task != TASK_RENEW || !dated) {
			continue;
		}
		struct reading reading =
		    part_reading(rule, force, inner, items[part].tag);
		if (!readings_add(assess->arena, out, &reading, fault)) {
			return false;
		}
	}
	return true;
}

bool
clocks_of_contents(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out, struct fault *fault)
{
	const struct due_engine *engine = assess->engine;
	if (!rule->contents_bind || engine->first_part == NULL) {
		return true;
	}
	for (size_t part = engine->first_part[assess->index]; part != ITEM_NO_PARENT;
	     part = engine->next_part[part]) {
		if (!read_part(assess, rule, force, part, out, fault)) {
			return false;
		}
	}
	return true;
}

bool
due_index_parts(const struct inventory *inventory, struct arena *arena,
    const size_t **first_part_out, const size_t **next_part_out, struct fault *fault)
{
	size_t count = inventory->item_count;
	size_t *first = arena_alloc(arena, (count + 1) * sizeof *first);
	size_t *next = arena_alloc(arena, (count + 1) * sizeof *next);
	if (first == NULL || next == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		first[i] = ITEM_NO_PARENT;
		next[i] = ITEM_NO_PARENT;
	}
	for (size_t i = count; i > 0; i--) {
		size_t parent = inventory->items[i - 1].parent;
		if (parent != ITEM_NO_PARENT) {
			next[i - 1] = first[parent];
			first[parent] = i - 1;
		}
	}
	*first_part_out = first;
	*next_part_out = next;
	return true;
}
