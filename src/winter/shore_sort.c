/* Every obligation of one vessel: a line, and the part of the list it goes to. */
#include "winter/settled.h"

static int64_t
price_of(const struct item *item, enum task task)
{
	if (task == TASK_RENEW) {
		return item->price_minor < 0 ? -1 : item->price_minor * item->quantity;
	}
	for (size_t i = item->record_count; i > 0; i--) {
		const struct record *record = &item->records[i - 1];
		if (record->task == task && record->price_minor >= 0) {
			return record->price_minor;
		}
	}
	return -1;
}

static const char *
what_to_do(const struct obligation *obligation)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		bool meant = obligation->binding == NULL || reading->binds;
		if (meant && reading->rule != NULL) {
			return reading->rule->what;
		}
	}
	return "";
}

static unsigned
counting_tasks(const struct obligation *obligation)
{
	const struct reading *binding = obligation->binding;
	if (binding == NULL && obligation->reading_count > 0) {
		binding = &obligation->readings[0];
	}
	return binding == NULL || binding->rule == NULL ? 0 : binding->rule->counts;
}

static const char FIND_THE_DATE[] =
    "find its date on the label and enter it; until then it does not count, and if there is "
    "none to be found, renew it";

static const char GIVE_IT_BACK[] =
    "give it back by the last day of its hire, or agree on a later one and enter it";

/* True when it is the end of a hire, which binds. */
static bool
is_of_hire(const struct obligation *obligation)
{
	return obligation->binding != NULL && obligation->binding->anchor == ANCHOR_HIRE;
}

static struct shore_line
line_of(const struct planning *planning, const struct obligation *obligation)
{
	const struct item *item = planning_item(planning, obligation->item);
	bool no_date =
	    obligation->task == TASK_RENEW && obligation->state == STATE_DATE_UNKNOWN;
	bool refit = obligation->binding != NULL && obligation->binding->rule != NULL &&
		     obligation->binding->rule->refit;
	struct shore_line line = shore_line_plain(obligation->item, obligation->task);
	line.state = obligation->state;
	line.due = obligation->due;
	line.grade = obligation->grade;
	line.counts = counting_tasks(obligation);
	line.give_back = is_of_hire(obligation);
	line.price_minor =
	    line.give_back || refit ? -1 : price_of(item, obligation->task);
	line.what = line.give_back ? GIVE_IT_BACK
		    : no_date      ? FIND_THE_DATE
				   : what_to_do(obligation);
	line.cure = "";
	line.note = "";
	return line;
}

/* Gear in reserve that has expired must still be disposed of with care. */
static void
sort_reserve(const struct planning *planning, const struct obligation *obligation)
{
	if (obligation->task != TASK_RENEW || obligation->state == STATE_IN_DATE ||
	    obligation->state == STATE_DATE_UNKNOWN) {
		return;
	}
	struct shore_line line = line_of(planning, obligation);
	ARENA_ADD(planning->arena, &planning->list->dispose, line);
}

/* The marks of what is handed in for a task. */
static unsigned char
ashore_marks(enum task task)
{
	return task == TASK_SERVICE ? WINTER_ASHORE | WINTER_SERVICE : WINTER_ASHORE;
}

/* Obligations of this winter wait until all of the vessel's are known. */
static void
sort_this_winter(struct sorting *sorting, const struct obligation *obligation)
{
	const struct planning *planning = sorting->planning;
	struct shore_line line = line_of(planning, obligation);
	bool replaced = obligation->task == TASK_RENEW && !line.give_back &&
			obligation->doer == DOER_OWNER &&
			obligation->state != STATE_DATE_UNKNOWN;
	if (replaced) {
		sorting->marks[line.item] |= WINTER_REPLACED;
	} else if (station_does(obligation->doer, obligation->task)) {
		sorting->marks[line.item] |= ashore_marks(line.task);
	}
	sorting->pending[sorting->pending_count++] =
	    (struct pending){line, obligation->doer};
}

/* A station's work on what is ashore, and the renewal of a part inside it, are done
 * where it is. What has no date is not, because the station can't know it. */
static bool
in_hand(const struct planning *planning, const struct obligation *obligation)
{
	const struct item *item = planning_item(planning, obligation->item);
	bool part = item->parent != ITEM_NO_PARENT && obligation->task == TASK_RENEW &&
		    obligation->state != STATE_DATE_UNKNOWN &&
		    is_ashore(planning, item->parent);
	return is_ashore(planning, obligation->item) &&
	       (station_does(obligation->doer, obligation->task) || part);
}

/* What falls due only after a hired item was given back is for its owner to do. */
static bool
outlasts_hire(const struct item *item, const struct obligation *obligation)
{
	return item->hired_until != DAY_NONE && !is_of_hire(obligation) &&
	       obligation->state == STATE_IN_DATE &&
	       obligation->good_through >= item->hired_until;
}

/* True for what falls due after the last winter that she has: it waits, though for no winter. */
static bool
is_after_winters(const struct shore_list *list, const struct shore_line *line)
{
	return list->has_winter && line->winter == 0 && line->state == STATE_IN_DATE &&
	       line->due > list->winter.fitting_out;
}

/* What is not of this winter is to be done now, or waits for a later one. */
static void
sort_other(struct planning *planning, struct shore_line *line, enum doer doer, bool out,
    bool kept)
{
	struct shore_list *list = planning->list;
	bool after = is_after_winters(list, line);
	if (out || (list->has_winter && line->winter == 0 && !after)) {
		ARENA_ADD(planning->arena, &list->now, *line);
	} else if (!kept &&
		   (!list->has_winter || after || line->winter > list->winter.year)) {
		if (!list->has_winter && !line->give_back &&
		    station_does(doer, line->task)) {
			waits_find_station(planning, line);
		}
		ARENA_ADD(planning->arena, &list->waits, *line);
	}
}

static void
sort_obligation(struct sorting *sorting, const struct obligation *obligation)
{
	struct planning *planning = sorting->planning;
	struct shore_list *list = planning->list;
	const struct item *item = planning_item(planning, obligation->item);
	struct shore_line line = line_of(planning, obligation);
	if (item->state == PLACE_RESERVE) {
		sort_reserve(planning, obligation);
		return;
	}
	if (obligation->routine) {
		ARENA_ADD(planning->arena, &list->routines, line);
		return;
	}
	if (obligation_never_falls_due(obligation) || outlasts_hire(item, obligation)) {
		return;
	}
	line.winter = winter_of_obligation(planning->vessel, obligation, planning->today);
	bool out = obligation->state != STATE_IN_DATE;
	bool this_winter = list->has_winter && line.winter == list->winter.year;
	bool carried = list->has_winter && !this_winter && !line.give_back &&
		       (out || line.winter == 0) && !is_after_winters(list, &line) &&
		       planning->today < list->winter.lay_up;
	bool kept = !list->has_winter &&
		    station_does(obligation->doer, obligation->task) &&
		    settled_waits(planning, item->tag, obligation->due);
	if ((this_winter || out || carried || kept) && in_hand(planning, obligation)) {
		sorting->marks[line.item] |= ashore_marks(line.task);
		add_ashore_task(planning, &line);
		sorting->in_hand[sorting->in_hand_count++] =
		    (struct pending){line, obligation->doer};
		return;
	}
	/* The list has it before lay-up already, so that it does not grow as days
	 * pass; that it is due now is also said. */
	if (this_winter || carried || kept) {
		sort_this_winter(sorting, obligation);
	}
	if (!this_winter) {
		sort_other(planning, &line, obligation->doer, out, kept);
	}
}

static const char PUT_ONE_IN[] =
    "put a new one in its place; without it what it was part of does not work";

/* A working part that is gone must be bought: this winter where the vessel is laid up,
 * else now. */
static void
sort_missed(const struct planning *planning, size_t item)
{
	struct shore_list *list = planning->list;
	const struct obligation gone = {.item = item,
	    .task = TASK_RENEW,
	    .state = STATE_EXPIRED,
	    .due = DAY_NONE,
	    .grade = GRADE_MAKER,
	    .doer = DOER_OWNER};
	struct shore_line line = line_of(planning, &gone);
	line.what = PUT_ONE_IN;
	line.gone = true;
	bool now = winter_of_obligation(planning->vessel, &gone, planning->today) == 0;
	struct shore_lines *lines = now || !list->has_winter ? &list->now : &list->buy;
	ARENA_ADD(planning->arena, lines, line);
}

/* What a person put on the list to buy, whatever the rules ask of it. */
static void
sort_wanted(const struct planning *planning, size_t index)
{
	const struct item *item = planning_item(planning, index);
	struct shore_line line = shore_line_plain(index, TASK_RENEW);
	line.state = STATE_IN_DATE;
	line.wanted = true;
	line.carries = false;
	line.what = item->to_buy;
	if (item->to_buy[0] != '\0') {
		ARENA_ADD(planning->arena, &planning->list->wanted, line);
	}
}

/* Adds the prices that the station that has an item in hand asks for the work on it. */
static void
price_in_hand(struct sorting *sorting)
{
	for (size_t i = 0; i < sorting->in_hand_count; i++) {
		struct pending *pending = &sorting->in_hand[i];
		mark_counted(sorting->in_hand, sorting->in_hand_count, pending);
		if (!pending->line.counted) {
			price_ashore(sorting->planning, &pending->line);
			add_price(sorting->planning->list, &pending->line);
		}
	}
	sorting->in_hand_count = 0;
}

/* Every obligation of the vessel, sorted. What a line keeps of one is copied, so that the
 * scratch can be emptied after each item. */
static void
sort_all(struct sorting *sorting, size_t first, size_t end)
{
	const struct planning *planning = sorting->planning;
	for (size_t i = first; i < end; i++) {
		struct obligation *obligations = NULL;
		size_t count = 0;
		sort_wanted(planning, i);
		if (due_part_is_missed(planning->engine, i)) {
			sort_missed(planning, i);
		}
		due_of_item(planning->engine, i, planning->today, planning->scratch,
		    &obligations, &count);
		for (size_t j = 0; j < count; j++) {
			sort_obligation(sorting, &obligations[j]);
		}
		price_in_hand(sorting);
		arena_reset(planning->scratch);
	}
}

void
shore_sort(struct sorting *sorting)
{
	struct planning *planning = sorting->planning;
	size_t count = 0;
	size_t first =
	    inventory_aboard(planning->engine->inventory, planning->list->vessel, &count);
	sorting->pending =
	    ARENA_MANY(planning->passing, struct pending, count * 2 * (size_t)TASK_COUNT);
	ready_stations(planning);
	gather_ashore(planning, first, first + count);
	sort_all(sorting, first, first + count);
	place_pending(sorting);
}
