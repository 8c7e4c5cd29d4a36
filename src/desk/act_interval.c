#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "report/words.h"

/* The day the thing in place was put there; DAY_NONE when that is not on record. */
static day_t
renewed_on(const struct item *item)
{
	day_t on = DAY_NONE;
	for (size_t i = 0; i < item->record_count; i++) {
		if (record_is_new_thing(&item->records[i])) {
			on = day_max(on, stamp_first(item->records[i].on));
		}
	}
	return on;
}

static bool
check(
    const struct item *item, const struct interval_request *request, struct fault *fault)
{
	const struct interval *interval = &request->interval;
	day_t renewed = renewed_on(item);
	char on[DAY_WORDS_SIZE];
	if (request->none) {
		return item_interval(item, interval->task) != NULL ||
		       fault_set(fault, FAULT_INPUT,
			   "%s has no maker's interval of its %s", item->tag,
			   task_noun(interval->task));
	}
	return interval->on >= renewed ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD
		   "on: %s was renewed on %s; an interval of before is about the "
		   "thing that was there then and would move nothing. Expected that "
		   "day or later",
		   item->tag, day_words(renewed, on));
}

struct act {
	const struct interval_request *request;
	struct gear_outcome *out;
};

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	struct life_planning planning = {0};
	if (!gear_find(desk, &act->request->tags, act->out, &planning, fault)) {
		return false;
	}
	for (size_t i = 0; i < act->out->count; i++) {
		const struct item *item =
		    &desk->contents.inventory.items[act->out->items[i]];
		if (!check(item, act->request, fault)) {
			return false;
		}
	}
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	const struct act *act = of;
	const struct interval *interval = &act->request->interval;
	for (size_t i = 0; i < act->out->count; i++) {
		const char *tag = act->out->tags[i];
		bool written =
		    act->request->none
			? book_drop_interval(desk->book, tag, interval->task, fault)
			: book_put_interval(desk->book, tag, interval, fault);
		if (!written) {
			return false;
		}
	}
	return true;
}

bool
desk_interval(struct desk *desk, const struct interval_request *request,
    struct gear_outcome *out, struct fault *fault)
{
	struct act act = {request, out};
	return act_run_about(
	    desk, range_part(desk, &request->tags, NULL), NULL, plan, write, &act, fault);
}
