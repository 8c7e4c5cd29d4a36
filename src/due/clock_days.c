/* One clock by itself: whether it holds, what it may count from, and where that leads. */
#include "due/inside.h"

bool
rule_counts(const struct rule *rule, const struct record *done)
{
	if (done->refit) {
		return rule->task == TASK_RENEW && rule->lapse != STATE_LIFE_EXPIRED;
	}
	return rule->task == done->task || (rule->counts & 1U << done->task) != 0;
}

const struct record *
last_refit(const struct item *item)
{
	size_t i = item->record_count;
	while (i > 0 && !item->records[i - 1].refit) {
		i--;
	}
	return i == 0 ? NULL : &item->records[i - 1];
}

day_t
clock_due(const struct clock_rule *clock, day_t from)
{
	day_t due =
	    clock->days > 0 ? from + clock->days : day_add_months(from, clock->months);
	switch (clock->through) {
	case THROUGH_DAY:
		break;
	case THROUGH_MONTH_END:
		due = day_month_end(due);
		break;
	case THROUGH_YEAR_END:
		due = day_year_end(due);
		break;
	}
	return clock->before ? due - 1 : due;
}

bool
clock_holds(const struct clock_rule *clock, int times)
{
	return times >= clock->done_from && times <= clock->done_until;
}

day_t
clock_start(const struct clock_rule *clock, struct stamp stamp)
{
	return clock->stamp_end ? stamp_last(stamp) : stamp_first(stamp);
}

struct stamp
item_stamp(const struct item *item, enum anchor anchor)
{
	switch (anchor) {
	case ANCHOR_MADE:
		return item->made;
	case ANCHOR_PACKED:
		return item->packed;
	case ANCHOR_BOUGHT:
		return item->bought;
	case ANCHOR_FITTED:
		return item->fitted;
	case ANCHOR_MARKED:
		return item->expires;
	case ANCHOR_LAST:
	case ANCHOR_EVENT:
	case ANCHOR_CERTIFICATE:
	case ANCHOR_CONTENTS:
	case ANCHOR_HIRE:
		break;
	}
	return (struct stamp){0};
}

bool
clock_of_piece(const struct item *item, const struct rule *rule,
    const struct clock_rule *clock, int times, struct clock_rule *out)
{
	*out = *clock;
	if (!clock->by_maker) {
		return true;
	}
	const struct interval *interval = item_interval(item, rule->task);
	if (interval == NULL) {
		return false;
	}
	bool first = times == 0 && interval->first_months > 0;
	out->months = first ? interval->first_months : interval->months;
	bool from_last = false;
	for (size_t i = 0; i < clock->anchor_count; i++) {
		from_last = from_last || clock->anchors[i] == ANCHOR_LAST;
	}
	if (interval->from_said && !(times > 0 && from_last)) {
		out->anchors[0] = interval->from;
		out->anchor_count = 1;
	}
	return true;
}
