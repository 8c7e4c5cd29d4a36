/* The first day on which a task carries: done earlier, it lapses again before the next
 * lay-up. */
#include "winter/shore.h"

/* Whether the task, done on `day`, is in date through the last day of the season, by its
 * nominal day and not by the end of a window. A new thing whose printed date decides
 * counts as carrying, and `*printed_out` says so: whoever buys it sees to that. */
static bool
carries(const struct planning *planning, size_t item, enum task task, day_t day,
    bool *printed_out)
{
	struct obligation again;
	due_if_done(planning->engine, item, task, day, planning->scratch, &again);
	*printed_out = task == TASK_RENEW && again.state == STATE_DATE_UNKNOWN;
	return *printed_out ||
	       (again.state == STATE_IN_DATE &&
		   (again.due == DAY_NONE ||
		       again.due >= planning->list->winter.next_lay_up - 1));
}

void
find_not_before(const struct planning *planning, size_t item, enum task task, day_t last,
    day_t *not_before_out, bool *carries_out)
{
	day_t low = planning->list->winter.lay_up;
	day_t high = day_max(last, low);
	bool printed = false;
	*not_before_out = DAY_NONE;
	*carries_out = carries(planning, item, task, high, &printed);
	if (printed || !*carries_out) {
		return;
	}
	/* Doing it later never makes it lapse sooner, so the days that carry are the
	 * last ones of the winter: halve the range until the first of them is found. */
	while (low < high) {
		day_t middle = low + (high - low) / 2;
		bool holds = carries(planning, item, task, middle, &printed) && !printed;
		high = holds ? middle : high;
		low = holds ? low : middle + 1;
	}
	*not_before_out = low;
}
