/* Reminders of one line alone, and of the routine looks. */
#include "calendar/reminders_inside.h"

#include <string.h>

/* The last day on which it is of use to be told of lines alone: their last day, and while
 * they are in date no day after that, or it would be gone before it rings. */
static day_t
last_of_use(const struct shore_lines *lines)
{
	day_t last = making_last_day(lines);
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		bool in_date = line->state == STATE_IN_DATE && line->due != DAY_NONE;
		last = day_min(last, in_date ? line->due : DAY_NEVER);
	}
	return last;
}

void
single_start(struct making *making, const struct shore_line *line, const char *word)
{
	making_start(making);
	text_add(&making->key, word);
	making_key_name(making, making->wording.inventory->items[line->item].tag);
	text_add_format(&making->key, "|%s", task_word(line->task));
}

bool
single_is_planned(struct making *making, const struct shore_line *line)
{
	single_start(making, line, "now");
	return choices_planned(making->source->choices, text_string(&making->key),
		   making->today) != DAY_NONE;
}

/* True when all lines ask the same to be done. */
static bool
ask_the_same(const struct shore_lines *lines)
{
	bool same = true;
	for (size_t i = 1; i < lines->count; i++) {
		same = same && strcmp(shore_line_word(&lines->items[i]),
				   shore_line_word(&lines->items[0])) == 0;
	}
	return same;
}

void
due_add(
    struct making *making, const struct shore_lines *lines, const char *word, day_t day)
{
	single_start(making, &lines->items[0], word);
	making_aim(making, day, last_of_use(lines));
	text_add(&making->summary, "Due: ");
	wording_things(&making->wording, lines, &making->summary);
	if (ask_the_same(lines)) {
		text_add_format(
		    &making->summary, ": %s", shore_line_word(&lines->items[0]));
	}
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, lines, &making->description);
	wording_carry(&making->wording, lines, &making->description);
	making_note_too_late(making, making_last_day(lines));
	making_finish_here(making);
}

/* A reminder for one line, on a day: the first word of its key. */
static void
add_single(
    struct making *making, const struct shore_line *line, const char *word, day_t day)
{
	struct shore_line copy = *line;
	due_add(making, &(struct shore_lines){.items = &copy, .count = 1, .capacity = 1},
	    word, day);
}

/* The due day less the notice; a day long past where it is overdue or not known. */
static day_t
told_day(const struct making *making, const struct shore_line *line)
{
	bool has_day = line->due != DAY_NEVER && line->due != DAY_NONE;
	return has_day ? line->due - making_notice(making, line, 0) : DAY_NONE;
}

/* What lapses so shortly before lay-up can wait for it: her winter's list has it, and once it has
 * lapsed it is named with all that is not in date. Any other thing is told ahead. */
enum { CAN_WAIT_DAYS = 92 };

static bool
can_wait(const struct making *making, const struct shore_line *line)
{
	const struct shore_list *list = making->list;
	return list->has_winter && !line->give_back &&
	       line->due >= list->winter.lay_up - CAN_WAIT_DAYS;
}

static bool
has_line(const struct shore_lines *lines, const struct shore_line *of)
{
	bool has = false;
	for (size_t i = 0; i < lines->count && !has; i++) {
		has =
		    lines->items[i].item == of->item && lines->items[i].task == of->task;
	}
	return has;
}

/* True when a person chose one for each item, and this is in a part that has them. */
static bool
has_its_own(const struct making *making, const struct shore_line *line)
{
	const struct shore_list *list = making->list;
	const struct shore_lines *const parts[] = {
	    &list->self, &list->buy, &list->paperwork, &list->cannot};
	bool has = false;
	if (!making->source->choices->singles) {
		return false;
	}
	for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
		has = has || has_line(parts[i], line);
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		has = has || has_line(&list->hand_in.items[i].lines, line);
	}
	return has;
}

/* True when one for the item was given out for a day ahead, and no part has it any more: a new
 * winter buys new what the last had serviced. It stays until that day. */
static bool
goes_on(struct making *making, const struct shore_line *line)
{
	single_start(making, line, "item");
	const struct book_reminder *stored = making_stored(making);
	return making->source->choices->singles && stored != NULL &&
	       stored->day >= making->today && !has_its_own(making, line);
}

static void
add_now(struct making *making, struct shore_line *line)
{
	const struct shore_lines alone = {line, 1, 1};
	bool told = (line->state == STATE_IN_DATE && !can_wait(making, line) &&
			!has_its_own(making, line)) ||
		    single_is_planned(making, line);
	if (told) {
		add_single(making, line, "now", told_day(making, line));
	} else if (goes_on(making, line)) {
		add_single(making, line, "item", told_day(making, line));
	}
	todos_add(making, &alone, told ? making_last_key(making) : "", DAY_NONE);
}

void
now_add(struct making *making)
{
	const struct shore_list *list = making->list;
	for (size_t i = 0; i < list->now.count; i++) {
		add_now(making, &list->now.items[i]);
	}
}

/* What can't be done in time any more as seen on a day: what the list says, and what will have
 * missed its last hand-in by then; on DAY_NEVER all that was to be handed in. */
static void
lines_too_late(struct making *making, day_t day, struct shore_lines *out)
{
	const struct shore_list *list = making->list;
	size_t room = list->cannot.count + 1;
	for (size_t i = 0; i < list->hand_in.count; i++) {
		room += list->hand_in.items[i].lines.count;
	}
	struct shore_line *lines = arena_alloc(making->arena, room * sizeof *lines);
	*out = (struct shore_lines){lines, 0, room};
	for (size_t i = 0; i < list->cannot.count; i++) {
		lines[out->count++] = list->cannot.items[i];
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		const struct shore_lines *of = &list->hand_in.items[i].lines;
		for (size_t k = 0; k < of->count; k++) {
			if (of->items[k].not_after != DAY_NONE &&
			    of->items[k].not_after < day) {
				lines[out->count++] = of->items[k];
			}
		}
	}
}

/* Adds why hand-ins were given up, each reason once. */
static void
add_given_up(const struct shore_lines *lines, struct text *out)
{
	for (size_t i = 0; i < lines->count; i++) {
		const char *why = lines->items[i].given_up;
		bool said = why == NULL;
		for (size_t k = 0; k < i && !said; k++) {
			said = lines->items[k].given_up != NULL &&
			       strcmp(lines->items[k].given_up, why) == 0;
		}
		if (!said) {
			text_add_format(out, "Given up for this winter: %s.\n", why);
		}
	}
}

static void
add_cannot(struct making *making, const struct shore_lines *lines)
{
	text_add(&making->summary, "Not in time: ");
	wording_things(&making->wording, lines, &making->summary);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, lines, &making->description);
	add_given_up(lines, &making->description);
	text_add(&making->description,
	    "What would help: \"becket winter\" names it for each, a stand-in among it.\n");
	making_finish_here(making);
}

/* One that a person put after the end of its winter: what was missed in that still
 * waits. */
static void
add_cannot_before(struct making *making)
{
	struct shore_lines lines = {0};
	struct share shares[SHARES];
	lines_too_late(making, DAY_NEVER, &lines);
	making_shares(making, "cannot", PART_NONE, &lines, shares);
	if (shares[0].lines.count > 0) {
		making_start(making);
		making_key_share(making, "cannot", &shares[0]);
		making_aim(making, DAY_NONE, DAY_NEVER);
		add_cannot(making, &shares[0].lines);
	}
}

void
cannot_add(struct making *making)
{
	const struct shore_list *list = making->list;
	struct shore_lines lines = {0};
	add_cannot_before(making);
	if (list->cannot.count == 0) {
		return;
	}
	day_t last = list->has_winter ? list->winter.fitting_out : DAY_NEVER;
	making_start(making);
	making_key_start(making, "cannot");
	making_aim(making, list->has_winter ? list->winter.lay_up : DAY_NONE, last);
	lines_too_late(making, making->day, &lines);
	add_cannot(making, &lines);
}

/* One for each line of the parts that are otherwise gathered. */
static void
add_items(struct making *making, const struct shore_lines *lines)
{
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		add_single(making, line, "item", told_day(making, line));
	}
}

void
singles_add(struct making *making)
{
	const struct shore_list *list = making->list;
	if (!making->source->choices->singles) {
		return;
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		add_items(making, &list->hand_in.items[i].lines);
	}
	add_items(making, &list->self);
	add_items(making, &list->buy);
	add_items(making, &list->paperwork);
	add_items(making, &list->cannot);
}

void
routines_add(struct making *making)
{
	const struct shore_lines *lines = &making->list->routines;
	if (lines->count == 0 || !making->source->choices->routines) {
		return;
	}
	day_t day = DAY_NEVER;
	for (size_t i = 0; i < lines->count; i++) {
		day = day_min(day, told_day(making, &lines->items[i]));
	}
	making_start(making);
	text_add(&making->key, "routine");
	making_key_name(making, making_vessel(making));
	making_aim(making, day, DAY_NEVER);
	text_add(&making->summary, "Look at ");
	wording_things(&making->wording, lines, &making->summary);
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	wording_list(&making->wording, lines, &making->description);
	making_finish_here(making);
}
