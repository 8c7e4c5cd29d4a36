/* The clocks of a piece and its parts: which lanes there are, what each draws, and its words. */
#include "page/draw.h"
#include "page/pieces.h"
#include "report/why.h"
#include "report/words.h"

#include <string.h>

/* Clocks that do not bind and are drawn of one task. */
enum { OTHERS_MOST = 3 };

static bool
is_day(day_t day)
{
	return day != DAY_NONE && day != DAY_NEVER;
}

/* Adds a clock's words without the day on which it ends: "24 months from the last service
 * on 18 Nov 2024". */
static void
add_clock_reason(
    const struct reading *reading, enum task task, day_t today, struct text *out)
{
	SCOPED_TEXT words = {0};
	add_clock_words(reading, task, today, &words);
	const char *all = text_string(&words);
	const char *end = strstr(all, " -> ");
	size_t length = end != NULL ? (size_t)(end - all) : strcspn(all, ".");
	text_add_byte(out, (char)text_lower(all[0]));
	text_add_bytes(out, all + (length > 0 ? 1 : 0), length > 0 ? length - 1 : 0);
}

/* Who says so, at the end of a sentence. */
static const char *
says_who(enum grade grade)
{
	switch (grade) {
	case GRADE_LAW:
		return "so says the rule for her";
	case GRADE_MAKER:
		return "so says its label, paper or maker";
	case GRADE_PRACTICE:
		return "which is common practice";
	}
	return "";
}

static bool
is_first(const struct obligation *a, const struct obligation *b)
{
	bool lapsed = a->state != STATE_IN_DATE;
	bool other = b->state != STATE_IN_DATE;
	return lapsed != other ? lapsed : a->due < b->due;
}

/* How a task stands, as the beginning of a sentence. */
static void
add_standing(const struct obligation *obligation, struct text *out)
{
	const char *noun = task_noun(obligation->task);
	switch (obligation->state) {
	case STATE_IN_DATE:
		text_add_format(out, "Its %s is due by ", noun);
		add_day(obligation->due, "", out);
		return;
	case STATE_OVERDUE:
		text_add_format(out, "Its %s has been overdue since ", noun);
		add_day(obligation->good_through + 1, "", out);
		return;
	case STATE_EXPIRED:
		text_add(out, "It expired after ");
		add_day(obligation->good_through, "", out);
		return;
	case STATE_LIFE_EXPIRED:
		text_add(out, "It reached its greatest age on ");
		add_day(obligation->good_through, "", out);
		return;
	case STATE_DATE_UNKNOWN:
		text_add_format(out, "The day of its %s is not known", noun);
		if (obligation_missing(obligation)[0] != '\0') {
			text_add(out, ": ");
			add_missing_words(obligation_missing(obligation), out);
		}
		return;
	}
}

void
add_why_sentence(const struct locker_piece *piece, day_t today, struct text *out)
{
	const struct obligation *first = NULL;
	for (size_t i = 0; i < piece->obligation_count; i++) {
		const struct obligation *one = &piece->obligations[i];
		bool counts = one->state != STATE_IN_DATE || is_day(one->due);
		if (!one->routine && counts && (first == NULL || is_first(one, first))) {
			first = one;
		}
	}
	if (first == NULL) {
		text_add(out, "No rule sets a day for it.");
		return;
	}
	add_standing(first, out);
	if (first->binding != NULL && first->state != STATE_DATE_UNKNOWN) {
		text_add(out, ": ");
		add_clock_reason(first->binding, first->task, today, out);
		text_add_format(out, ", %s", says_who(first->grade));
	}
	text_add_byte(out, '.');
}

static struct clock_line
line_of(const struct reading *reading, day_t due)
{
	bool mark = reading->anchor == ANCHOR_MARKED ||
		    reading->anchor == ANCHOR_CERTIFICATE ||
		    reading->anchor == ANCHOR_CONTENTS || reading->anchor == ANCHOR_HIRE;
	bool done = reading->anchor == ANCHOR_LAST || reading->anchor == ANCHOR_EVENT;
	return (struct clock_line){mark ? DAY_NONE : reading->from, done, due};
}

/* A clock that runs beside the one that binds. */
static bool
is_other(const struct reading *reading)
{
	return clock_role_of(reading) == ROLE_LOSES && is_day(reading->due);
}

/* What a lane draws; the other lines are in `others`, of OTHERS_MOST. */
static struct clock_lane
lane_of(const struct obligation *obligation, struct clock_line *others)
{
	struct clock_lane lane = {.others = others};
	lane.bound = obligation->binding != NULL && is_day(obligation->due);
	if (lane.bound) {
		lane.binds = line_of(obligation->binding, obligation->due);
	}
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (is_other(reading) && lane.other_count < OTHERS_MOST) {
			others[lane.other_count++] = line_of(reading, reading->due);
		}
	}
	return lane;
}

/* A task that gets a lane: no routine, and there is something to draw or to say. */
static bool
has_lane(const struct obligation *obligation)
{
	return !obligation->routine && !obligation_is_idle(obligation) &&
	       (obligation->state != STATE_IN_DATE || is_day(obligation->due));
}

static void
widen(struct axis *days, day_t day)
{
	if (is_day(day)) {
		days->first = day_min(days->first, day);
		days->last = day_max(days->last, day);
	}
}

/* Widens the days that are drawn by those of a task's clocks. */
static void
widen_by(struct axis *days, const struct obligation *obligation)
{
	struct clock_line others[OTHERS_MOST];
	struct clock_lane lane = lane_of(obligation, others);
	if (lane.bound) {
		widen(days, lane.binds.from);
		widen(days, lane.binds.due);
	}
	for (size_t i = 0; i < lane.other_count; i++) {
		widen(days, others[i].from);
		widen(days, others[i].due);
	}
}

/* Adds when its rule is in force, where that is not always: ", in force from 1 Jun 2028". */
static void
add_force(const struct reading *reading, enum task task, day_t today, struct text *out)
{
	SCOPED_TEXT words = {0};
	add_clock_words(reading, task, today, &words);
	const char *force = strstr(text_string(&words), "In force");
	if (force != NULL) {
		text_add(out, ", i");
		text_add_bytes(out, force + 1, strcspn(force + 1, "."));
	}
}

static void
write_reason(struct markup *markup, const char *class_name, const char *before,
    const struct reading *reading, const struct obligation *obligation, day_t today)
{
	SCOPED_TEXT words = {0};
	text_add(&words, before);
	add_clock_reason(reading, obligation->task, today, &words);
	if (reading != obligation->binding) {
		add_force(reading, obligation->task, today, &words);
	}
	markup_begin(markup, "br");
	markup_end(markup);
	markup_element(markup, "span", class_name, text_string(&words));
}

static void
write_lane_words(
    struct visit *visit, const char *tag, const struct obligation *obligation)
{
	struct markup *markup = visit->markup;
	day_t today = visit->desk.today;
	SCOPED_TEXT noun = {0};
	text_add_capital(&noun, task_noun(obligation->task));
	markup_begin(markup, "p");
	if (tag != NULL) {
		markup_element(markup, "span", "tag", tag);
		markup_text(markup, " ");
	}
	markup_element(markup, "b", NULL, text_string(&noun));
	markup_text(
	    markup, obligation->state == STATE_IN_DATE ? ", in date until " : ", ");
	draw_state(visit, obligation->state, obligation->due);
	size_t shown = 0;
	for (size_t i = 0; i < obligation->reading_count; i++) {
		const struct reading *reading = &obligation->readings[i];
		if (reading == obligation->binding) {
			write_reason(
			    markup, "small", "binds: ", reading, obligation, today);
		} else if (is_other(reading) && shown++ < OTHERS_MOST) {
			write_reason(markup, "small soft", "does not bind: ", reading,
			    obligation, today);
		}
	}
	if (obligation->state == STATE_DATE_UNKNOWN &&
	    obligation_missing(obligation)[0] != '\0') {
		SCOPED_TEXT missing = {0};
		add_missing_words(obligation_missing(obligation), &missing);
		markup_begin(markup, "br");
		markup_end(markup);
		markup_element(markup, "span", "small", text_string(&missing));
	}
	markup_end(markup);
}

static void
write_lanes(struct visit *visit, const struct clock_scale *scale, const char *tag,
    const struct obligation *obligations, size_t count)
{
	for (size_t i = 0; i < count; i++) {
		struct clock_line others[OTHERS_MOST];
		if (!has_lane(&obligations[i])) {
			continue;
		}
		const struct clock_lane lane = lane_of(&obligations[i], others);
		markup_begin_class(visit->markup, "li", "clock");
		write_lane_words(visit, tag, &obligations[i]);
		draw_clock_lane(visit->markup, scale, &lane);
		markup_end(visit->markup);
	}
}

/* A part with what is due of it. */
struct part_clocks {
	const char *tag;
	const struct obligation *obligations;
	size_t count;
};

struct parts_clocks {
	struct part_clocks *items; /* in the arena */
	size_t count;
	size_t capacity;
};

static void
gather_parts(
    struct visit *visit, size_t item, struct parts_clocks *out, struct axis *days)
{
	struct desk *desk = &visit->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	for (size_t part = desk->engine.first_part == NULL
			       ? ITEM_NO_PARENT
			       : desk->engine.first_part[item];
	     part != ITEM_NO_PARENT; part = desk->engine.next_part[part]) {
		struct obligation *all = NULL;
		size_t count = 0;
		if (inventory->items[part].state == PLACE_WITHDRAWN) {
			continue;
		}
		due_of_item(&desk->engine, part, desk->today, &desk->arena, &all, &count);
		for (size_t i = 0; i < count; i++) {
			if (has_lane(&all[i])) {
				widen_by(days, &all[i]);
			}
		}
		ARENA_ADD(&desk->arena, out,
		    (struct part_clocks){inventory->items[part].tag, all, count});
	}
}

static void
write_clocks_head(
    struct visit *visit, const struct clock_scale *scale, const struct item *item)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT made = {0};
	char stamp[STAMP_TEXT_SIZE];
	bool known = item->made.precision != STAMP_NONE;
	text_add_format(&made, "made %s", known ? stamp_words(item->made, stamp) : "");
	markup_begin_class(markup, "div", "clock");
	markup_element(markup, "p", "soft small",
	    "Clocks to scale. The day at a heavy stop is the day it is due.");
	draw_clock_head(markup, scale, known ? stamp_first(item->made) : DAY_NONE,
	    text_string(&made));
	markup_end(markup);
}

void
draw_piece_clocks(struct visit *visit, const struct locker_piece *piece)
{
	const struct item *item = &visit->desk.contents.inventory.items[piece->item];
	struct markup *markup = visit->markup;
	struct parts_clocks parts = {0};
	day_t today = visit->desk.today;
	struct axis days = {today, today};
	if (item->made.precision != STAMP_NONE) {
		widen(&days, stamp_first(item->made));
	}
	for (size_t i = 0; i < piece->obligation_count; i++) {
		if (has_lane(&piece->obligations[i])) {
			widen_by(&days, &piece->obligations[i]);
		}
	}
	gather_parts(visit, piece->item, &parts, &days);
	const struct clock_scale scale = {
	    clock_axis(days.first, days.last, today), today};
	markup_element(markup, "h4", NULL, "Its clocks");
	markup_begin(markup, "figure");
	write_clocks_head(visit, &scale, item);
	markup_begin(markup, "ul");
	write_lanes(visit, &scale, NULL, piece->obligations, piece->obligation_count);
	for (size_t i = 0; i < parts.count; i++) {
		write_lanes(visit, &scale, parts.items[i].tag, parts.items[i].obligations,
		    parts.items[i].count);
	}
	markup_end(markup);
	draw_clock_key(markup);
	markup_end(markup);
}
