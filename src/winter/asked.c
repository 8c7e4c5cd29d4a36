#include "winter/asked.h"

enum { AHEAD_MONTHS = 12 };

static unsigned
tasks_among(const struct shore_lines *lines, size_t item)
{
	unsigned tasks = 0;
	for (size_t i = 0; i < lines->count; i++) {
		if (lines->items[i].item == item) {
			tasks |= 1U << lines->items[i].task;
		}
	}
	return tasks;
}

/* Whether a station that has the item in hand is to do this now. */
static bool
is_wanted(const struct shore_list *list, const struct obligation *obligation, bool inside,
    day_t today)
{
	bool renewal = obligation->task == TASK_RENEW;
	bool theirs = obligation->doer == DOER_STATION || (inside && renewal);
	bool ahead = !list->has_winter && obligation->due != DAY_NONE &&
		     obligation->due <= day_add_months(today, AHEAD_MONTHS);
	bool unknown = renewal && obligation->state == STATE_DATE_UNKNOWN;
	return theirs && !unknown && !obligation->routine &&
	       obligation->task != TASK_REGISTER &&
	       (ahead || obligation->state != STATE_IN_DATE);
}

void
asked_of_station(const struct due_engine *engine, const struct at_counter *piece,
    struct arena *scratch, unsigned *out)
{
	const struct shore_list *list = piece->list;
	size_t item = piece->item;
	struct obligation *obligations = NULL;
	size_t count = 0;
	unsigned tasks = 0;
	due_of_item(engine, item, piece->today, scratch, &obligations, &count);
	for (size_t i = 0; i < list->hand_in.count; i++) {
		tasks |= tasks_among(&list->hand_in.items[i].lines, item);
	}
	for (size_t i = 0; i < count; i++) {
		if (is_wanted(list, &obligations[i], piece->inside, piece->today)) {
			tasks |= 1U << obligations[i].task;
		}
	}
	/* What can't be done in time is asked for all the same, where it is a
	 * station's work. */
	unsigned late = tasks_among(&list->cannot, item);
	for (size_t i = 0; i < count; i++) {
		bool theirs = obligations[i].doer == DOER_STATION;
		tasks |= theirs ? late & 1U << obligations[i].task : 0;
	}
	*out = tasks;
}
