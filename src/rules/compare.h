/* What two sets of sheets say of the same kinds, side by side. */
#ifndef BECKET_RULES_COMPARE_H
#define BECKET_RULES_COMPARE_H

#include "base/memory.h"
#include "rules/sheet.h"

/* Rules of one task, or carriage lines; in the arena, the elements borrowed. */
struct rule_list {
	const struct rule **items;
	size_t count;
};

struct line_list {
	const struct carriage **items;
	size_t count;
};

/* One task on one kind under both. */
struct task_compared {
	const char *kind;
	enum task task;
	struct rule_list sides[2];
	/* each rule of one side has its like on the other: conditions, figures,
	 * window, doer and what it is called when passed */
	bool same;
};

struct comparison {
	/* in the arena; by kind as the catalogue has them, then task */
	struct task_compared *items;
	size_t count;
};

/* Lays the rules for a kind side by side, or for all kinds when `kind` is NULL: every task
 * that either has a rule for. */
void compare_rules(const struct rulebook *const sides[2], const struct kinds *kinds,
    const char *kind, struct arena *arena, struct comparison *out);

/* The carriage lines that pieces of a kind may serve. */
void lines_for_kind(const struct rulebook *rulebook, const char *kind,
    struct arena *arena, struct line_list *out);

#endif
