#include "rules/compare.h"

#include "base/text.h"
#include "rules/meets.h"

#include <string.h>

static bool
same_clock(const struct clock_rule *a, const struct clock_rule *b)
{
	for (size_t i = 0; i < a->anchor_count; i++) {
		if (i >= b->anchor_count || a->anchors[i] != b->anchors[i]) {
			return false;
		}
	}
	return a->anchor_count == b->anchor_count && a->months == b->months &&
	       a->days == b->days && a->done_from == b->done_from &&
	       a->done_until == b->done_until && a->through == b->through &&
	       a->before == b->before && a->stamp_end == b->stamp_end &&
	       a->by_maker == b->by_maker && a->events == b->events;
}

static bool
same_rule(const struct rule *a, const struct rule *b)
{
	if (a->clock_count != b->clock_count || !conditions_same(&a->when, &b->when)) {
		return false;
	}
	for (size_t i = 0; i < a->clock_count; i++) {
		if (!same_clock(&a->clocks[i], &b->clocks[i])) {
			return false;
		}
	}
	return a->doer == b->doer && a->lapse == b->lapse &&
	       a->window.early_months == b->window.early_months &&
	       a->window.late_months == b->window.late_months &&
	       a->window.next == b->window.next && a->contents_bind == b->contents_bind &&
	       a->refit == b->refit && a->extension_months == b->extension_months;
}

/* True when each rule of a list has its like in the other. */
static bool
all_in(const struct rule_list *list, const struct rule_list *other)
{
	for (size_t i = 0; i < list->count; i++) {
		size_t j = 0;
		while (j < other->count && !same_rule(list->items[i], other->items[j])) {
			j++;
		}
		if (j == other->count) {
			return false;
		}
	}
	return true;
}

/* The rules of one task for a kind. */
static void
rules_of_task(const struct rulebook *rulebook, const char *kind, enum task task,
    struct arena *arena, struct rule_list *out)
{
	size_t count = 0;
	const struct rule *const *rules = rulebook_for(rulebook, kind, &count);
	struct rule_list list = {
	    arena_alloc(arena, (count + 1) * sizeof(const struct rule *)), 0};
	for (size_t i = 0; i < count; i++) {
		if (rules[i]->task == task) {
			list.items[list.count++] = rules[i];
		}
	}
	*out = list;
}

static void
compare_kind(const struct rulebook *const sides[2], const char *kind, struct arena *arena,
    struct comparison *out)
{
	for (int task = 0; task < TASK_COUNT; task++) {
		struct task_compared compared = {.kind = kind, .task = (enum task)task};
		for (size_t side = 0; side < 2; side++) {
			rules_of_task(sides[side], kind, compared.task, arena,
			    &compared.sides[side]);
		}
		if (compared.sides[0].count + compared.sides[1].count == 0) {
			continue;
		}
		compared.same = all_in(&compared.sides[0], &compared.sides[1]) &&
				all_in(&compared.sides[1], &compared.sides[0]);
		out->items[out->count++] = compared;
	}
}

void
compare_rules(const struct rulebook *const sides[2], const struct kinds *kinds,
    const char *kind, struct arena *arena, struct comparison *out)
{
	size_t kind_count = kinds_count(kinds);
	struct comparison comparison = {
	    arena_alloc(arena, (kind_count * TASK_COUNT + 1) * sizeof *comparison.items),
	    0};
	for (size_t i = 0; i < kind_count; i++) {
		const char *id = kinds_at(kinds, i)->id;
		if (kind == NULL || strcmp(kind, id) == 0) {
			compare_kind(sides, id, arena, &comparison);
		}
	}
	*out = comparison;
}

static bool
takes(const struct carriage *line, const char *kind)
{
	for (size_t i = 0; i < line->serve_count; i++) {
		if (words_have(line->serves[i].kinds, line->serves[i].kind_count, kind)) {
			return true;
		}
	}
	return false;
}

void
lines_for_kind(const struct rulebook *rulebook, const char *kind, struct arena *arena,
    struct line_list *out)
{
	size_t count = 0;
	const struct carriage *const *lines = rulebook_carriage(rulebook, &count);
	struct line_list list = {
	    arena_alloc(arena, (count + 1) * sizeof(const struct carriage *)), 0};
	for (size_t i = 0; i < count; i++) {
		if (takes(lines[i], kind)) {
			list.items[list.count++] = lines[i];
		}
	}
	*out = list;
}
