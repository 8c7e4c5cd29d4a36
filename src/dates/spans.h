/* Spans of days and sets of them: when a rule is in force, when an item is lapsed, when a
 * station is shut. */
#ifndef BECKET_DATES_SPANS_H
#define BECKET_DATES_SPANS_H

#include "base/memory.h"
#include "dates/day.h"

/* Every day from first to last, both included. Open ends are DAY_NONE (since ever) and
 * DAY_NEVER (for ever). Empty when last < first. */
struct span {
	day_t first;
	day_t last;
};

static inline bool
span_has(struct span span, day_t day)
{
	return span.first <= day && day <= span.last;
}

/* Days as a list of spans, ascending, none empty, none touching. Starts as `{ 0 }`, the
 * empty set; the memory belongs to the arena it was made with. Immutable once made. */
struct spans {
	const struct span *items; /* borrowed from the arena */
	size_t count;
};

/* All days. */
struct spans spans_always(void);

/* The set with one span; empty when the span is. */
void spans_one(struct arena *arena, struct span span, struct spans *out);

/* All days after one; none after DAY_NEVER. */
void spans_after(struct arena *arena, day_t day, struct spans *out);

/* Days in both; days in either; days in `a` but not in `b`. The result may be `a` or `b`
 * itself, and then lives no longer than these. */
void spans_both(struct arena *arena, struct spans a, struct spans b, struct spans *out);
void spans_either(struct arena *arena, struct spans a, struct spans b, struct spans *out);
void spans_except(struct arena *arena, struct spans a, struct spans b, struct spans *out);

/* The span that holds `day`, or else the first one after it; NULL when there is neither. */
const struct span *spans_from(struct spans spans, day_t day);

/* True when the set holds the day. */
bool spans_have(struct spans spans, day_t day);

#endif
