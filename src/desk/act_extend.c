#include "book/putting.h"
#include "desk/inside.h"
#include "desk/ranges.h"
#include "report/words.h"

#include <string.h>

/* How the task stands: the obligations of it, a routine one too. */
struct stand {
	const struct obligation **items; /* in the desk's arena */
	size_t count;
};

static struct stand
read_standing(struct desk *desk, size_t item, enum task task)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	struct stand stand = {.count = 0};
	due_of_item(&desk->engine, item, desk->today, &desk->arena, &obligations, &count);
	stand.items = ARENA_MANY(&desk->arena, const struct obligation *, count);
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].task == task) {
			stand.items[stand.count++] = &obligations[i];
		}
	}
	return stand;
}

/* The reading that this extension moved; NULL when there is none. */
static const struct reading *
moved_reading(const struct stand *standing, const struct extension *extension)
{
	for (size_t i = 0; i < standing->count; i++) {
		const struct obligation *obligation = standing->items[i];
		for (size_t j = 0; j < obligation->reading_count; j++) {
			const struct extension *found = obligation->readings[j].extension;
			if (found != NULL && found->until == extension->until &&
			    found->task == extension->task &&
			    strcmp(found->paper, extension->paper) == 0) {
				return &obligation->readings[j];
			}
		}
	}
	return NULL;
}

/* True when every day is as it was: what was moved is a reading that does not bind. */
static bool
same_days(const struct stand *before, const struct stand *after)
{
	bool same = before->count == after->count;
	for (size_t i = 0; same && i < after->count; i++) {
		same = before->items[i]->good_through == after->items[i]->good_through;
	}
	return same;
}

/* An extension that moves nothing is refused: someone who has a paper in hand would think the
 * gear in date. */
static bool
refuse(const struct stand *before, const struct extension *extension, const char *tag,
    struct fault *fault)
{
	const char *task = task_word(extension->task);
	char day[DAY_WORDS_SIZE];
	if (before->count == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "nothing asks for a %s of %s, so there is nothing that may wait",
		    task_noun(extension->task), tag);
	}
	const struct obligation *now = before->items[0];
	if (now->state == STATE_DATE_UNKNOWN) {
		return fault_set(fault, FAULT_INPUT,
		    "the day by which %s needs its %s is not known, so there is nothing to "
		    "extend; \"becket why %s\" says what is missing",
		    tag, task_noun(extension->task), tag);
	}
	if (now->good_through >= extension->until) {
		return fault_set(fault, FAULT_INPUT,
		    "%s of %s is good through %s without it", task, tag,
		    now->good_through == DAY_NEVER ? "every day"
						   : day_words(now->good_through, day));
	}
	return fault_set(fault, FAULT_INPUT,
	    "it would change nothing: an extension moves no printed date, no age limit and "
	    "no use, and one given on %s ends with a %s after that day; \"becket why %s\" "
	    "says what binds",
	    day_words(extension->given, day), task_noun(extension->task), tag);
}

/* Why the task may wait no longer than it may, where the paper allows more. */
static void
note_less(struct desk *desk, const struct extension *extension,
    const struct reading *moved, const struct obligation *now)
{
	if (moved->good_through < extension->until) {
		desk_note(desk, "rule %s lets an extension add no more than %d %s",
		    moved->rule_id, moved->rule->extension_months,
		    moved->rule->extension_months == 1 ? "month" : "months");
	}
	if (now->good_through < moved->good_through && now->binding != NULL) {
		desk_note(
		    desk, "%s binds, and no extension moves that", now->binding->rule_id);
	}
}

struct act {
	const struct extend_request *request;
	struct extend_outcome *out;
	struct stand *before; /* of each item */
	size_t at;            /* the item it is about just now */
};

/* The book is read again after writing: whether a paper moves a date depends on all that
 * is on record. */
static bool
check_after(struct desk *desk, struct act *act, const char *tag, day_t *through_out,
    struct fault *fault)
{
	const struct extension *extension = &act->request->extension;
	size_t item = 0;
	if (!desk_find_tag(desk, tag, &item, fault)) {
		return false;
	}
	const struct stand after = read_standing(desk, item, extension->task);
	const struct stand *before = &act->before[act->at];
	const struct reading *moved = moved_reading(&after, extension);
	bool needless = same_days(before, &after) && after.count > 0 &&
			after.items[0]->good_through >= extension->until;
	if (moved == NULL || needless) {
		return refuse(before, extension, tag, fault);
	}
	*through_out = after.items[0]->good_through;
	if (*through_out < extension->until) {
		note_less(desk, extension, moved, after.items[0]);
	}
	return true;
}

static bool
plan(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct extend_outcome *out = act->out;
	size_t *items = NULL;
	if (!range_items(desk, &act->request->tags, &items, &out->count, fault) ||
	    !desk_engine(desk, NULL, fault)) {
		return false;
	}
	act->before = arena_alloc(&desk->arena, (out->count + 1) * sizeof *act->before);
	out->tags = arena_alloc(&desk->arena, (out->count + 1) * sizeof *out->tags);
	out->through = arena_alloc(&desk->arena, (out->count + 1) * sizeof *out->through);
	for (size_t i = 0; i < out->count; i++) {
		out->tags[i] = arena_string(
		    &desk->arena, desk->contents.inventory.items[items[i]].tag);
		act->before[i] =
		    read_standing(desk, items[i], act->request->extension.task);
	}
	return true;
}

static bool
write(struct desk *desk, void *of, struct fault *fault)
{
	struct act *act = of;
	struct extend_outcome *out = act->out;
	for (size_t i = 0; i < out->count; i++) {
		if (!book_add_extension(
			desk->book, out->tags[i], &act->request->extension, fault)) {
			return false;
		}
	}
	desk_read_again(desk);
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	for (act->at = 0; act->at < out->count; act->at++) {
		const char *tag = out->tags[act->at];
		if (!check_after(desk, act, tag, &out->through[act->at], fault)) {
			return fault_prefix(fault, "extending %s", tag);
		}
	}
	return true;
}

bool
desk_extend(struct desk *desk, const struct extend_request *request,
    struct extend_outcome *out, struct fault *fault)
{
	const struct extension *extension = &request->extension;
	struct act act = {.request = request, .out = out};
	char day[DAY_WORDS_SIZE];
	if (extension->paper[0] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "paper: expected the number of the authority's paper, found "
			  "nothing");
	}
	if (extension->given > desk->today) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "on: %s is after today; expected the day it was given",
		    day_words(extension->given, day));
	}
	return act_run_about(
	    desk, range_part(desk, &request->tags, NULL), NULL, plan, write, &act, fault);
}
