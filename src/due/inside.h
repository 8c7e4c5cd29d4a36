/* Inside the due room: what its files share. Not for other rooms. */
#ifndef BECKET_DUE_INSIDE_H
#define BECKET_DUE_INSIDE_H

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
	bool
	    over_too; /* obligations of which nothing is in force any more are made too */
	day_t
	    serviced; /* seen as serviced on that day, what is inside as renewed with it;
			 * DAY_NONE for not */
};

/* When a rule's own conditions hold. `asks` names the first condition that can't be told
 * ("made", "made-day", "area"), whose days are then left out; "" when all can. */
struct force {
	struct spans spans; /* in force for certain */
	/* in force if what can't be told were true; holds `spans` */
	struct spans perhaps;
	const char *asks;
};

/* When each rule is in force: the days its conditions hold, less the days of rules that
 * stand instead of it. In the arena, one a rule. */
struct force *rules_in_force(const struct assess *assess);

/* Readings being gathered. `items` is grown in the arena by doubling. */
struct readings {
	struct reading *items;
	size_t count;
	size_t capacity;
};

void readings_add(
    struct arena *arena, struct readings *readings, const struct reading *reading);

/* Makes a reading of an interval good through the last day of an extension of its task that
 * reaches further, no more than `most_months` past its due day (0: any), and names it in the
 * reading. An extension counts from the day it was given until that task, or one whose record
 * counts as it (bits 1 << enum task), is done after that day. Printed dates and events are
 * never moved. */
void reading_extend(const struct assess *assess, enum task task, unsigned counts,
    int most_months, struct reading *reading);

/* The clock as it runs for an item whose task was done so many times: where the interval is
 * the maker's, with that interval and what its paper counts from. False when the maker's is
 * not known; then `out` is the clock as its sheet has it. */
bool clock_of_piece(const struct item *item, const struct rule *rule,
    const struct clock_rule *clock, int times, struct clock_rule *out);

/* True when the maker's interval of a task is known, and is a routine or not as told. */
bool maker_speaks(const struct item *item, enum task task, bool routine);

/* Reads the maker's interval of a task, routine or not, where none of the rules in force asks
 * for it and so has it already. */
void clocks_of_maker(const struct assess *assess, const struct force *forces,
    enum task task, bool routine, struct readings *out);

/* True for what the thing says of itself: its mark, its paper's next date, that it was used. */
bool reading_is_own_word(const struct reading *reading);

/* Puts the clocks of a rule of common practice, from `first` on among the readings, out of
 * force on every day, gone by or to come, where the maker's interval stands in their place;
 * marks, papers and events stay. */
void readings_replace(struct readings *readings, size_t first);

/* The first event of these kinds (bits 1 << enum event_kind), on the day asked from or before,
 * that no record has followed which counts as doing the rule's task, or without a rule a service;
 * NULL when there is none. */
const struct event *first_open_event(
    const struct assess *assess, unsigned kinds, const struct rule *rule);

/* Reads every clock of one rule, in force as told. */
void clocks_of_rule(const struct assess *assess, const struct rule *rule,
    const struct force *force, struct readings *out);

/* Reads what the item's own papers say of one task: the date marked on it, the next date on
 * its last certificate, the end of its hire, an event no rule deals with. */
void clocks_of_papers(const struct assess *assess, const struct force *forces,
    enum task task, struct readings *out);

/* What is known of a part inside: all its obligations, those of which nothing is in force any more
 * too, for what was lapsed inside may have begun a lapse that goes on. */
struct part_dates {
	const char *tag;
	const struct obligation *obligations;
	size_t count;
};

/* Adds a part's dates as clocks of a rule whose contents bind. */
void clocks_of_part(const struct assess *assess, const struct rule *rule,
    const struct force *force, const struct part_dates *part, struct readings *out);

/* Decides state and due day of a task from its readings. */
void readings_decide(const struct assess *assess, struct reading *readings, size_t count,
    struct obligation *obligation);

/* True when the readings make an obligation at all: something runs, could run, or was done
 * and is thereby settled. */
bool readings_oblige(const struct reading *readings, size_t count, day_t today);

/* The last refit on record; NULL for none. The mark is that of what was put in then. */
const struct record *last_refit(const struct item *item);

/* True when a record counts as doing the rule's task. A refit is a renewal of what is in the thing
 * and no other task, and no limit of the thing's own age starts anew by it. */
bool rule_counts(const struct rule *rule, const struct record *done);

/* True when the clock holds once the task was done so many times. */
bool clock_holds(const struct clock_rule *clock, int times);

/* The day a clock counts from, the stamp being what it is anchored to. */
day_t clock_start(const struct clock_rule *clock, struct stamp stamp);

/* The date the item itself carries for an anchor; none for those that are no date of its. */
struct stamp item_stamp(const struct item *item, enum anchor anchor);

/* What the `last` clocks of a rule that keeps the anniversary count from. */
struct anniversary {
	struct stamp base; /* the day kept, or the last record's; none without a record */
	day_t day;         /* the day kept; DAY_NONE where it started anew */
};

/* Goes through the records of the rule's task in the order of their days, since each day it
 * fell due depends on the one before; before the first, on the first clock. Done inside the
 * window of that day D, D is kept; outside it, without such a day, or while the rule was not
 * in force, it starts anew. Extensions, certificates and printed dates have no part in it.
 *
 * Two records of one day are one doing. Kept even late, and so late that whole intervals were
 * missed, it is the day of the interval the work was done in: otherwise the work would have to
 * be done once for each interval missed before it counted for today. */
struct anniversary rule_anniversary(
    const struct item *item, const struct rule *rule, const struct force *force);

#endif
