/* Inside the due room: what its files share. Not for other rooms. */
#ifndef BECKET_DUE_ASSESS_H
#define BECKET_DUE_ASSESS_H

#include "due/due.h"

/* One item being assessed. All borrowed. */
struct assess {
	const struct due_engine *engine;
	size_t index;            /* the item's index, for its parts */
	const struct item *item; /* the item, or a copy of it changed for a what-if */
	size_t aboard;           /* the vessel's index */
	const struct vessel *vessel;
	day_t today;
	struct arena *arena;
	const struct rule *const *rules; /* the rules for its kind */
	size_t rule_count;
};

/* When a rule's own conditions hold. `asks` names the first condition that can't be told
 * ("made", "area"), whose days are then left out; "" when all can. */
struct force {
	struct spans spans; /* in force for certain */
	/* in force if what can't be told were true; holds `spans` */
	struct spans perhaps;
	const char *asks;
};

MUST_CHECK bool conditions_hold(const struct assess *assess,
    const struct conditions *conditions, struct force *out, struct fault *fault);

/* When each rule is in force: the days its conditions hold, less the days of rules that
 * stand instead of it. In the arena, one a rule; NULL with the fault set on failure. */
struct force *rules_in_force(const struct assess *assess, struct fault *fault);

/* Readings being gathered. `items` is grown in the arena by doubling. */
struct readings {
	struct reading *items;
	size_t count;
	size_t capacity;
};

MUST_CHECK bool readings_add(struct arena *arena, struct readings *readings,
    const struct reading *reading, struct fault *fault);

/* The extension that reaches past a due day, cut to what the rules allow, which the reading
 * is then good through; NULL when there is none. */
const struct extension *reading_extend(
    const struct item *item, enum task task, int most_months, struct reading *reading);

/* Reads every clock of one rule, in force as told. */
MUST_CHECK bool clocks_of_rule(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out, struct fault *fault);

/* Reads what the item's own papers say of one task: the date marked on it, the next date on
 * its last certificate, the end of its hire, an event no rule deals with. */
MUST_CHECK bool clocks_of_papers(const struct assess *assess, enum task task,
    struct readings *out, struct fault *fault);

/* Adds the dated parts as clocks of a rule whose contents bind. */
MUST_CHECK bool clocks_of_contents(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out, struct fault *fault);

/* Decides state and due day of a task from its readings. */
MUST_CHECK bool readings_decide(const struct assess *assess, struct reading *readings,
    size_t count, struct obligation *obligation, struct fault *fault);

/* True when the readings make an obligation at all: something runs, could run, or was done
 * and is thereby settled. */
bool readings_oblige(const struct reading *readings, size_t count, day_t today);

/* True when a record of `done` counts as doing the rule's task. */
bool rule_counts(const struct rule *rule, enum task done);

#endif
