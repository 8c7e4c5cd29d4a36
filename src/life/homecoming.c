#include "life/homecoming.h"

#include "life/family.h"

#include <string.h>

struct homecoming
homecoming_on(day_t on)
{
	return (struct homecoming){.result = RESULT_PASSED,
	    .on = on,
	    .done = DAY_NONE,
	    .by = "",
	    .certificate = "",
	    .note = "",
	    .price_minor = -1};
}

day_t
homecoming_done(const struct homecoming *home)
{
	return home->done == DAY_NONE ? home->on : home->done;
}

const char *
homecoming_by(const struct homecoming *home, const struct item *item)
{
	return home->by[0] == '\0' ? item->landed_to : home->by;
}

unsigned
homecoming_asked(const struct item *item)
{
	for (size_t i = item->movement_count; i > 0; i--) {
		if (item->movements[i - 1].move == MOVE_LANDED) {
			return item->movements[i - 1].asked;
		}
	}
	return 0;
}

bool
homecoming_knows(const struct inventory *inventory, size_t item)
{
	bool known = homecoming_asked(&inventory->items[item]) != 0;
	for (size_t i = 0; i < inventory->item_count && !known; i++) {
		known = inventory->items[i].state == PLACE_LANDED &&
			family_has(inventory, item, i) &&
			homecoming_asked(&inventory->items[i]) != 0;
	}
	return known;
}

unsigned
homecoming_tasks(const struct homecoming *home, const struct item *item, bool inside)
{
	bool worked =
	    home->result == RESULT_PASSED || home->result == RESULT_PASSED_SHORTER;
	unsigned asked =
	    home->as_asked ? homecoming_asked(item) & ~(1U << TASK_RENEW) : 0;
	return worked ? asked | (inside ? 0 : home->tasks) : 0;
}

enum place_state
homecoming_state(const struct item *item)
{
	for (size_t i = item->movement_count; i > 0; i--) {
		const struct movement *movement = &item->movements[i - 1];
		bool kept =
		    movement->was == PLACE_RESERVE || movement->was == PLACE_STAND_IN;
		if (movement->move == MOVE_LANDED) {
			return kept ? movement->was : PLACE_ABOARD;
		}
	}
	return PLACE_ABOARD;
}

/* A piece of the words, up to a mark; moves past it. */
static char *
cut(struct arena *arena, const char **at, char mark)
{
	const char marks[] = {mark, '\0'};
	size_t length = strcspn(*at, marks);
	char *piece = arena_alloc(arena, length + 1);
	memcpy(piece, *at, length);
	*at += length + ((*at)[length] == mark ? 1 : 0);
	return piece;
}

static bool
read_piece(const char *piece, enum date_order order, struct renewed_part *part,
    struct fault *fault)
{
	if (strncmp(piece, "serial:", 7) == 0) {
		part->serial = piece + 7;
		return true;
	}
	if (strncmp(piece, "made:", 5) == 0) {
		return stamp_parse(piece + 5, order, &part->made, fault);
	}
	return stamp_parse(piece, order, &part->expires, fault);
}

bool
renewed_parse(struct arena *arena, const char *words, enum date_order order,
    struct renewed_part *out, struct fault *fault)
{
	struct renewed_part part = {.serial = ""};
	const char *at = words;
	if (strchr(words, '=') == NULL || words[0] == '=') {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" names no renewed part; expected TAG=EXPIRES, as "
		    "LJ-1-FH=2029-06",
		    words);
	}
	part.tag = cut(arena, &at, '=');
	while (*at != '\0') {
		const char *piece = cut(arena, &at, ',');
		if (!read_piece(piece, order, &part, fault)) {
			return fault_prefix(fault, "%s", part.tag);
		}
	}
	*out = part;
	return true;
}

static bool
check_ashore(const struct item *item, struct fault *fault)
{
	switch (item->state) {
	case PLACE_LANDED:
		return true;
	case PLACE_WITHDRAWN:
		return planning_withdrawn(item, fault);
	case PLACE_ABOARD:
	case PLACE_RESERVE:
	case PLACE_STAND_IN:
		break;
	}
	return fault_set(fault, FAULT_INPUT,
	    "%s is not ashore; \"becket land\" says that it went, \"becket record\" that "
	    "work was done aboard",
	    item->tag);
}

static bool
check_days(const struct item *item, const struct homecoming *home, struct fault *fault)
{
	char landed[DAY_WORDS_SIZE];
	char found[DAY_WORDS_SIZE];
	day_t done = homecoming_done(home);
	if (item->landed_on != DAY_NONE && home->on < item->landed_on) {
		return fault_set(fault, FAULT_INPUT,
		    "%s was landed on %s; it can't be back on %s", item->tag,
		    day_words(item->landed_on, landed), day_words(home->on, found));
	}
	if (item->landed_on != DAY_NONE && done < item->landed_on) {
		return fault_set(fault, FAULT_INPUT,
		    "%s was landed on %s; the work can't have been done on %s", item->tag,
		    day_words(item->landed_on, landed), day_words(done, found));
	}
	if (done > home->on) {
		return fault_set(fault, FAULT_INPUT,
		    "%s is back on %s; the work can't be done on %s", item->tag,
		    day_words(home->on, landed), day_words(done, found));
	}
	for (int task = -1; task < TASK_COUNT; task++) {
		struct stamp next = task < 0 ? home->next : home->next_of[task];
		if (next.precision != STAMP_NONE && stamp_good_through(next) < done) {
			return fault_set(fault, FAULT_INPUT,
			    "the next date of %s, %s, is before the work was done, %s",
			    item->tag, day_words(stamp_good_through(next), landed),
			    day_words(done, found));
		}
	}
	return true;
}

struct stamp
homecoming_next(const struct homecoming *home, unsigned tasks, enum task task)
{
	bool main = task == TASK_SERVICE || tasks == 1U << task;
	return home->next_of[task].precision != STAMP_NONE || !main ? home->next_of[task]
								    : home->next;
}

/* Reads one of them. */
static bool
parse_next(
    char *words, enum date_order order, struct homecoming *home, struct fault *fault)
{
	char *sign = strchr(words, '=');
	enum task task = TASK_SERVICE;
	if (sign != NULL) {
		*sign = '\0';
		if (!task_parse(words, &task, fault)) {
			return false;
		}
	}
	struct stamp *next = sign == NULL ? &home->next : &home->next_of[task];
	if (next->precision != STAMP_NONE) {
		return fault_set(fault, FAULT_INPUT,
		    "two next dates are stated%s%s; expected one for each task, as "
		    "service=2027-10",
		    sign == NULL ? "" : " for the ", sign == NULL ? "" : task_word(task));
	}
	return stamp_parse(sign == NULL ? words : sign + 1, order, next, fault);
}

bool
homecoming_next_parse(const char *words, enum date_order order, struct homecoming *home,
    struct fault *fault)
{
	char copy[256];
	if (strlen(words) >= sizeof copy) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s...\" is too long for next dates; expected TASK=DATE with "
		    "semicolons between",
		    words);
	}
	memcpy(copy, words, strlen(words) + 1);
	for (char *one = copy; one != NULL;) {
		char *end = strchr(one, ';');
		if (end != NULL) {
			*end = '\0';
		}
		one += strspn(one, " ");
		if (one[0] != '\0' && !parse_next(one, order, home, fault)) {
			return false;
		}
		one = end == NULL ? NULL : end + 1;
	}
	return true;
}

/* True when a next date is stated, for a task by name or for none. */
static bool
states_next(const struct homecoming *home)
{
	bool states = home->next.precision != STAMP_NONE;
	for (int task = 0; task < TASK_COUNT; task++) {
		states = states || home->next_of[task].precision != STAMP_NONE;
	}
	return states;
}

/* A next date is of a task that was done; one said for none of several must be of the service. */
static bool
check_next(const struct item *item, const struct homecoming *home, struct fault *fault)
{
	unsigned tasks = homecoming_tasks(home, item, false);
	bool several = (tasks & (tasks - 1)) != 0 && (tasks & 1U << TASK_SERVICE) == 0;
	if (states_next(home) && tasks == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the next date of %s belongs to no task; name what was done, as "
		    "\"service\"",
		    item->tag);
	}
	if (several && home->next.precision != STAMP_NONE) {
		return fault_set(fault, FAULT_INPUT,
		    "several things were done to %s, and the next date may be of any of "
		    "them; say which, as test=2027-12-09",
		    item->tag);
	}
	for (int task = 0; task < TASK_COUNT; task++) {
		if (home->next_of[task].precision != STAMP_NONE &&
		    (tasks & 1U << task) == 0) {
			return fault_set(fault, FAULT_INPUT,
			    "a next date is stated for the %s of %s, which was not done",
			    task_word((enum task)task), item->tag);
		}
	}
	return true;
}

static bool
check_result(const struct item *item, const struct homecoming *home, struct fault *fault)
{
	bool next = states_next(home);
	switch (home->result) {
	case RESULT_NOT_SAID:
	case RESULT_PASSED:
		break;
	case RESULT_PASSED_SHORTER:
		if (!next) {
			return fault_set(fault, FAULT_INPUT,
			    "%s passed for a shorter time, so the next date its paper "
			    "states is missing",
			    item->tag);
		}
		break;
	case RESULT_CONDEMNED:
		if (next || home->renewed_count > 0 || home->tasks != 0) {
			return fault_set(fault, FAULT_INPUT,
			    "%s was condemned, so it has no next date, no task done and "
			    "no renewed part",
			    item->tag);
		}
		return true;
	case RESULT_NOT_DONE:
		if (next || home->tasks != 0 || home->certificate[0] != '\0') {
			return fault_set(fault, FAULT_INPUT,
			    "nothing was done to %s, so it has no next date, no task done "
			    "and no certificate",
			    item->tag);
		}
		break;
	}
	if (home->kept_count > 0) {
		return fault_set(fault, FAULT_INPUT,
		    "%s was not condemned, so no part outlives it", item->tag);
	}
	return check_next(item, home, fault);
}

/* As asked says something only where the landing says what was asked. */
static bool
check_asked(const struct inventory *inventory, size_t index,
    const struct homecoming *home, struct fault *fault)
{
	const struct item *item = &inventory->items[index];
	bool worked =
	    home->result == RESULT_PASSED || home->result == RESULT_PASSED_SHORTER;
	bool known = homecoming_knows(inventory, index);
	return !worked || !home->as_asked || known ||
	       fault_set(fault, FAULT_INPUT,
		   "the book does not say what was asked of the station when %s "
		   "was landed; name what was done, as \"service\"",
		   item->tag);
}

static bool
check_part(
    const struct inventory *inventory, size_t whole, const char *tag, struct fault *fault)
{
	size_t part = inventory_tagged(inventory, tag);
	if (part == ITEM_NO_PARENT || !family_has(inventory, whole, part) ||
	    inventory->items[part].state == PLACE_WITHDRAWN) {
		return fault_set(fault, FAULT_INPUT, "%.60s is no part of %s", tag,
		    inventory->items[whole].tag);
	}
	return true;
}

bool
homecoming_check(const struct inventory *inventory, size_t index,
    const struct homecoming *home, struct fault *fault)
{
	const struct item *item = &inventory->items[index];
	if (!check_ashore(item, fault) || !check_days(item, home, fault) ||
	    !check_asked(inventory, index, home, fault) ||
	    !check_result(item, home, fault)) {
		return false;
	}
	for (size_t i = 0; i < home->renewed_count; i++) {
		if (!check_part(inventory, index, home->renewed[i].tag, fault)) {
			return false;
		}
		for (size_t j = 0; j < i; j++) {
			if (strcmp(home->renewed[i].tag, home->renewed[j].tag) == 0) {
				return fault_set(fault, FAULT_INPUT,
				    "%s is renewed twice", home->renewed[i].tag);
			}
		}
	}
	for (size_t i = 0; i < home->kept_count; i++) {
		if (!check_part(inventory, index, home->kept[i], fault)) {
			return false;
		}
	}
	return true;
}
