#include "calendar/reminders.h"

#include "calendar/choices.h"
#include "calendar/making.h"

#include <stdlib.h>
#include <string.h>

static bool
finish(struct making *making, day_t day, day_t last, struct fault *fault)
{
	return making_finish(making,
	    &(struct made_as){.station = "", .day = day, .last = last, .about = ""},
	    fault);
}

static bool
finish_at(struct making *making, const char *station, day_t day, day_t last,
    struct fault *fault)
{
	return making_finish(making,
	    &(struct made_as){.station = station, .day = day, .last = last, .about = ""},
	    fault);
}

/* True when both went ashore at one station on one day. */
static bool
landed_together(const struct ashore_line *a, const struct ashore_line *b)
{
	return a->since == b->since && strcmp(a->station, b->station) == 0;
}

/* What an ashore line says, as a line of a list. */
static struct shore_line
line_of_ashore(const struct ashore_line *ashore)
{
	enum task task = TASK_SERVICE;
	while (ashore->tasks != 0 && (ashore->tasks & 1U << task) == 0) {
		task = (enum task)((task + 1) % TASK_COUNT);
	}
	return (struct shore_line){.item = ashore->item,
	    .task = task,
	    .state = ashore->state,
	    .due = ashore->due,
	    .not_before = DAY_NONE,
	    .not_after = DAY_NONE,
	    .due_again = DAY_NONE,
	    .carries = true,
	    .price_minor = -1,
	    .grade = GRADE_MAKER,
	    .what = "",
	    .why = "",
	    .first_possible = DAY_NONE};
}

/* One reminder to fetch all that went ashore together with the line at `first`. */
static bool
add_fetch(struct making *making, size_t first, struct fault *fault)
{
	const struct ashore_lines *ashore = &making->list->ashore;
	const struct ashore_line *one = &ashore->items[first];
	char day[DAY_ISO_SIZE];
	char since[DAY_WORDS_SIZE];
	struct shore_lines lines = {
	    .items = arena_alloc(making->arena, ashore->count * sizeof *lines.items)};
	if (lines.items == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = first; i < ashore->count; i++) {
		if (landed_together(one, &ashore->items[i])) {
			lines.items[lines.count++] = line_of_ashore(&ashore->items[i]);
		}
	}
	making_start(making);
	text_add(&making->key, "fetch");
	making_key_name(making, making_vessel(making));
	making_key_name(making, one->station);
	text_add_format(&making->key, "|%s", day_iso(one->since, day));
	text_add(&making->summary, "Collect ");
	wording_items(wording_count(&making->wording, &lines), &making->summary);
	text_add_format(&making->summary, " from %s (%s)",
	    one->station[0] != '\0' ? one->station : "ashore", making_vessel(making));
	if (one->since != DAY_NONE) {
		text_add_format(&making->description, "Ashore since %s.\n",
		    day_words(one->since, since));
	}
	if (one->collect == DAY_NONE || one->assumed) {
		text_add(&making->description,
		    "When it can be fetched is not certain: ask the station.\n");
	}
	text_add(&making->description,
	    "Check each certificate and the next date on it, and record them.\n");
	wording_list(&making->wording, &lines, &making->description);
	wording_carry(&making->wording, &lines, &making->description);
	return finish_at(making, one->station, one->collect, DAY_NEVER, fault);
}

static bool
add_ashore(struct making *making, struct fault *fault)
{
	const struct ashore_lines *ashore = &making->list->ashore;
	for (size_t i = 0; i < ashore->count; i++) {
		bool told = false;
		for (size_t j = 0; j < i && !told; j++) {
			told = landed_together(&ashore->items[j], &ashore->items[i]);
		}
		if (!told && !add_fetch(making, i, fault)) {
			return false;
		}
	}
	return true;
}

/* Days of notice before the first line's last day, where a person chose none. */
enum { NOTICE_DAYS = 28 };

/* How long before its day a line is to be told. */
static int
notice_of(const struct making *making, const struct shore_line *line, int otherwise)
{
	const struct item *item = &making->wording.inventory->items[line->item];
	return choices_notice(making->source->choices, item->kind, otherwise);
}

/* The day for the reminder of some lines, as reminders.h has it. */
static day_t
day_for_lines(const struct making *making, const struct shore_lines *lines)
{
	const struct shore_list *list = making->list;
	day_t fitting_out = list->has_winter ? list->winter.fitting_out : DAY_NEVER;
	day_t last = day_min(fitting_out, making_last_day(lines));
	day_t earliest = list->has_winter ? list->winter.lay_up : making->today;
	day_t ripe = DAY_NONE;
	day_t told = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		day_t own = line->not_after != DAY_NONE ? line->not_after : fitting_out;
		if (own != DAY_NEVER) {
			told = day_min(told, own - notice_of(making, line, NOTICE_DAYS));
		}
		if (line->not_before != DAY_NEVER) {
			ripe = day_max(ripe, line->not_before);
		}
	}
	if (told == DAY_NEVER) {
		return making->today;
	}
	day_t day = day_max(told, earliest);
	return ripe != DAY_NONE && ripe <= last ? day_max(day, ripe) : day;
}

/* The chosen day of the week on or after a day, where that is not too late. */
static day_t
day_for_oneself(const struct making *making, day_t day, day_t last)
{
	day_t weekend =
	    choices_weekday_from(making->source->choices, day_max(day, making->today));
	return weekend <= last ? weekend : day;
}

static bool
add_self(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->self;
	if (lines->count == 0) {
		return true;
	}
	making_start(making);
	making_key_start(making, "self");
	text_add(&making->summary, "Check ");
	wording_items(wording_count(&making->wording, lines), &making->summary);
	text_add_format(&making->summary, " yourself (%s)", making_vessel(making));
	wording_list(&making->wording, lines, &making->description);
	day_t last = making_last_day(lines);
	day_t ready = making->list->has_winter ? making->list->winter.fitting_out : last;
	day_t day = day_for_lines(making, lines);
	return finish(making, day_for_oneself(making, day, day_min(last, ready)), last,
		   fault) &&
	       todos_add(making, lines, making_last_key(making), DAY_NONE, fault);
}

/* What is bought takes the place of what is got rid of, so both are one reminder. */
static bool
add_buy(struct making *making, struct fault *fault)
{
	const struct shore_lines *buy = &making->list->buy;
	const struct shore_lines *dispose = &making->list->dispose;
	struct text *description = &making->description;
	if (buy->count == 0 && dispose->count == 0) {
		return true;
	}
	making_start(making);
	making_key_start(making, "buy");
	text_add(&making->summary, buy->count > 0 ? "Buy or renew " : "Dispose of ");
	wording_items(wording_count(&making->wording, buy->count > 0 ? buy : dispose),
	    &making->summary);
	text_add_format(&making->summary, " (%s)", making_vessel(making));
	wording_list(&making->wording, buy, description);
	wording_carry(&making->wording, buy, description);
	if (dispose->count > 0) {
		text_add(description, "To be disposed of:\n");
		wording_list(&making->wording, dispose, description);
		wording_dispose(&making->wording, dispose, description);
	}
	const struct shore_lines *lines = buy->count > 0 ? buy : dispose;
	return finish(
		   making, day_for_lines(making, lines), making_last_day(lines), fault) &&
	       todos_add(making, buy, making_last_key(making), DAY_NONE, fault);
}

static bool
add_paperwork(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->paperwork;
	if (lines->count == 0) {
		return true;
	}
	making_start(making);
	making_key_start(making, "paperwork");
	text_add(&making->summary, "Registration and papers for ");
	wording_items(wording_count(&making->wording, lines), &making->summary);
	text_add_format(&making->summary, " (%s)", making_vessel(making));
	wording_list(&making->wording, lines, &making->description);
	return finish(
		   making, day_for_lines(making, lines), making_last_day(lines), fault) &&
	       todos_add(making, lines, making_last_key(making), DAY_NONE, fault);
}

/* What follows the tag and the task in a summary. */
static const char *
words_for_state(enum state state)
{
	switch (state) {
	case STATE_IN_DATE:
		return "due";
	case STATE_OVERDUE:
		return "overdue";
	case STATE_EXPIRED:
		return "now, expired";
	case STATE_LIFE_EXPIRED:
		return "now, past its maximum age";
	case STATE_DATE_UNKNOWN:
		return "date unknown";
	}
	return "";
}

/* A reminder for one line: the first word of its key, what its summary says of the task. */
static bool
add_single(struct making *making, const struct shore_line *line, const char *word,
    const char *words, day_t day, struct fault *fault)
{
	const struct item *item = &making->wording.inventory->items[line->item];
	struct shore_line copy = *line;
	const struct shore_lines alone = {.items = &copy, .count = 1, .capacity = 1};
	making_start(making);
	text_add(&making->key, word);
	making_key_name(making, item->tag);
	text_add_format(&making->key, "|%s", task_word(line->task));
	text_add_format(&making->summary, "%s: %s %s (%s)", item->tag, wording_task(line),
	    words, making_vessel(making));
	wording_list(&making->wording, &alone, &making->description);
	wording_carry(&making->wording, &alone, &making->description);
	return finish(making, day, making_last_day(&alone), fault);
}

/* The due day less the notice; a day long past where it is overdue or not known. */
static day_t
told_day(const struct making *making, const struct shore_line *line)
{
	bool has_day = line->due != DAY_NEVER && line->due != DAY_NONE;
	return has_day ? line->due - notice_of(making, line, 0) : DAY_NONE;
}

/* What can't wait for a winter, each on its due day less its notice. */
static bool
add_now(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->now;
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		const struct shore_lines alone = {&lines->items[i], 1, 1};
		if (!add_single(making, line, "now", words_for_state(line->state),
			told_day(making, line), fault) ||
		    !todos_add(
			making, &alone, making_last_key(making), DAY_NONE, fault)) {
			return false;
		}
	}
	return true;
}

/* What can't be done this winter needs another plan by lay-up. */
static bool
add_cannot(struct making *making, struct fault *fault)
{
	const struct shore_list *list = making->list;
	day_t day = list->has_winter ? list->winter.lay_up : making->today;
	for (size_t i = 0; i < list->cannot.count; i++) {
		if (!add_single(making, &list->cannot.items[i], "cannot",
			"can't be done in time", day, fault)) {
			return false;
		}
	}
	return true;
}

/* One for each line of the parts that are otherwise gathered. */
static bool
add_items(struct making *making, const struct shore_lines *lines, struct fault *fault)
{
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (!add_single(making, line, "item", words_for_state(line->state),
			told_day(making, line), fault)) {
			return false;
		}
	}
	return true;
}

static bool
add_singles(struct making *making, struct fault *fault)
{
	const struct shore_list *list = making->list;
	if (!making->source->choices->singles) {
		return true;
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		if (!add_items(making, &list->hand_in.items[i].lines, fault)) {
			return false;
		}
	}
	return add_items(making, &list->self, fault) &&
	       add_items(making, &list->buy, fault) &&
	       add_items(making, &list->paperwork, fault);
}

/* The looks that come round within the year, on the day the first of them is due. */
static bool
add_routines(struct making *making, struct fault *fault)
{
	const struct shore_lines *lines = &making->list->routines;
	if (lines->count == 0 || !making->source->choices->routines) {
		return true;
	}
	day_t day = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		day = day_min(day, told_day(making, &lines->items[i]));
	}
	making_start(making);
	text_add(&making->key, "routine");
	making_key_name(making, making_vessel(making));
	text_add(&making->summary, "Routine look at ");
	wording_items(wording_count(&making->wording, lines), &making->summary);
	text_add_format(&making->summary, " (%s)", making_vessel(making));
	wording_list(&making->wording, lines, &making->description);
	return finish(making, day, DAY_NEVER, fault);
}

static bool
add_list(struct making *making, const struct shore_list *list, struct fault *fault)
{
	making->list = list;
	if (trips_add(making, fault) && add_ashore(making, fault) &&
	    add_self(making, fault) && add_buy(making, fault) &&
	    add_paperwork(making, fault) && add_cannot(making, fault) &&
	    add_now(making, fault) && add_singles(making, fault) &&
	    add_routines(making, fault)) {
		return true;
	}
	return fault_prefix(
	    fault, "making the reminders of %.200s", making_vessel(making));
}

/* The day for a vessel that falls short: when she is laid up then, the day she must be ready. */
static day_t
day_of_fall(const struct making *making, const struct fall *fall)
{
	const struct vessel *vessel = &making->wording.inventory->vessels[fall->vessel];
	struct winter winter;
	day_t day = fall->day == DAY_NONE ? making->today : fall->day;
	if (winter_before(vessel, day, &winter) && day <= winter.fitting_out) {
		return winter.fitting_out;
	}
	return fall->day;
}

static bool
add_fall(struct making *making, const struct fall *fall, struct fault *fault)
{
	const struct shore_list list = {.vessel = fall->vessel};
	char day[DAY_WORDS_SIZE];
	making->list = &list;
	making_start(making);
	text_add(&making->key, "short");
	making_key_name(making, making_vessel(making));
	text_add_format(&making->summary, "%s %s%s: ", making_vessel(making),
	    fall->day == DAY_NONE ? "is short today" : "falls short on ",
	    day_words(fall->day, day));
	wording_short(
	    fall->lines, fall->line_count, &making->summary, &making->description);
	return finish(making, day_of_fall(making, fall), DAY_NEVER, fault);
}

static int
compare_by_key(const void *a, const void *b)
{
	const struct reminder *left = a;
	const struct reminder *right = b;
	int order = strcmp(left->key, right->key);
	return order != 0 ? order : (left->day > right->day) - (left->day < right->day);
}

static int
compare_by_day(const void *a, const void *b)
{
	const struct reminder *left = a;
	const struct reminder *right = b;
	int order = (left->day > right->day) - (left->day < right->day);
	return order != 0 ? order : strcmp(left->key, right->key);
}

/* Keeps the earliest of each key: what can't wait is in every winter's list. */
static void
sort_and_drop_repeats(struct reminders *made)
{
	if (made->count == 0) {
		return;
	}
	qsort(made->items, made->count, sizeof *made->items, compare_by_key);
	size_t kept = 1;
	for (size_t i = 1; i < made->count; i++) {
		if (strcmp(made->items[i].key, made->items[kept - 1].key) != 0) {
			made->items[kept++] = made->items[i];
		}
	}
	made->count = kept;
	qsort(made->items, made->count, sizeof *made->items, compare_by_day);
}

bool
reminders_make(const struct reminder_source *source, const struct shore_list *lists,
    size_t count, struct arena *arena, struct reminders *out, struct fault *fault)
{
	__attribute__((cleanup(making_clear))) struct making making = {.source = source,
	    .wording = {source->kinds, source->inventory, source->currency},
	    .lists = lists,
	    .list_count = count,
	    .today = source->today,
	    .arena = arena};
	for (size_t i = 0; i < count; i++) {
		if (!add_list(&making, &lists[i], fault)) {
			return false;
		}
	}
	for (size_t i = 0; i < source->fall_count; i++) {
		if (!add_fall(&making, &source->falls[i], fault)) {
			return false;
		}
	}
	sort_and_drop_repeats(&making.made);
	*out = making.made;
	return true;
}
