/* Rules that keep the anniversary: what their clocks count from after a task was done. */
#include "due/inside.h"

/* A day a rule asks for its task by. */
struct nominal {
	day_t due;                      /* DAY_NEVER when no clock gives one */
	const struct clock_rule *clock; /* the one that gives it; NULL likewise */
};

/* The rule's own day once its task was done `times` times, `base` being what its `last`
 * clocks count from. A printed date is nobody's anniversary. */
static struct nominal
nominal_day(
    const struct item *item, const struct rule *rule, struct stamp base, int times)
{
	struct nominal nominal = {DAY_NEVER, NULL};
	for (size_t i = 0; i < rule->clock_count; i++) {
		struct clock_rule clock;
		if (!clock_holds(&rule->clocks[i], times) ||
		    !clock_of_piece(item, rule, &rule->clocks[i], times, &clock)) {
			continue;
		}
		struct stamp stamp = {0};
		enum anchor anchor = clock.anchors[0];
		for (size_t j = 0;
		     j < clock.anchor_count && stamp.precision == STAMP_NONE; j++) {
			anchor = clock.anchors[j];
			stamp = anchor == ANCHOR_LAST ? base : item_stamp(item, anchor);
		}
		if (stamp.precision == STAMP_NONE || anchor == ANCHOR_MARKED) {
			continue;
		}
		day_t due = clock_due(&clock, clock_start(&clock, stamp));
		if (due < nominal.due) {
			nominal = (struct nominal){due, &rule->clocks[i]};
		}
	}
	return nominal;
}

static bool
keeps(const struct window *window, day_t due, day_t done)
{
	return done >= day_add_months(due, -window->early_months) &&
	       (window->next == NEXT_FROM_DUE_EVEN_LATE ||
		   done <= day_add_months(due, window->late_months));
}

/* So late that whole intervals were missed: the day of the interval it was done in. */
static day_t
skip_missed(
    const struct item *item, const struct rule *rule, day_t due, int times, day_t done)
{
	day_t next = nominal_day(item, rule, stamp_of_day(due), times).due;
	while (next > due && next <= done) {
		due = next;
		next = nominal_day(item, rule, stamp_of_day(due), times).due;
	}
	return due;
}

struct anniversary
rule_anniversary(
    const struct item *item, const struct rule *rule, const struct force *force)
{
	struct anniversary kept = {.day = DAY_NONE};
	struct stamp before = {0};
	int times = 0;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (!rule_counts(rule, record)) {
			continue;
		}
		if (stamp_same(record->on, before)) {
			continue;
		}
		struct nominal nominal = nominal_day(item, rule, kept.base, times);
		times++;
		before = record->on;
		kept = (struct anniversary){record->on, DAY_NONE};
		if (nominal.clock == NULL) {
			continue;
		}
		day_t done = clock_start(nominal.clock, record->on);
		if (spans_have(force->perhaps, done) &&
		    keeps(&rule->window, nominal.due, done)) {
			kept.day = skip_missed(item, rule, nominal.due, times, done);
			kept.base = stamp_of_day(kept.day);
		}
	}
	return kept;
}
