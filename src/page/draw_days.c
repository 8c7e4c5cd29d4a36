/* Boats by day: how many are short, and what one boat is booked for. */
#include "page/draw.h"

/* Down the profile: so many px for the whole fleet above its line, the days below it. */
enum {
	WEEK = 7,
	BASE = 78,
	SCALE = 60,
	DAY_WORDS = BASE + 21,
	DAYS_HEIGHT = BASE + 28,
	WIDE = 1500,  /* room for a number on a step */
	NARROW = 600, /* room for it on a wide screen only */
	WEEK_WORDS = 14,
	NEAR = 1700, /* the same where there is a third of the width */
	PHONE = 2600,
	PHONE_EDGE = 2900,
	/* so much more beside a boat, where there is less room than on a phone */
	BESIDE = 500,
	CLOSE = 900,       /* two days' words need so much between */
	HALF_WORDS = 1800, /* of a step, on a phone */
	EDGE = 900,        /* words nearer an edge than this don't stand in the middle */
	WEEKS_HEIGHT = 26,
	STRIP_HEIGHT = 34,
};

static const struct stroke PROFILE = {"noteline", "2", NULL};
static const struct stroke GROUND = {"line", "1.5", NULL};
static const struct stroke NOTCH = {"line", "1", NULL};
static const struct stroke LOOKED_AT = {"line", "3", NULL};
static const struct stroke ON = {"line", "2", NULL};
static const struct stroke RULE = {"thin", "1", NULL};
static const struct stroke BOOKED = {"buffline", "1.5", NULL};

static enum label_side
side_at(int x)
{
	return x < EDGE ? SIDE_AFTER : x > WHOLE - EDGE ? SIDE_BEFORE : SIDE_MIDDLE;
}

static void
draw_day_at(
    struct markup *markup, struct axis axis, const char *class_name, day_t day, int y)
{
	int x = axis_place(axis, day);
	draw_day_label(markup, &(struct label){class_name, x, 0, y, side_at(x)}, "", day);
}

/* How far the words of a week's first day must be from those of the day looked at: on a
 * phone, where every second week is named; `close` on a wide screen, where the others are
 * too. */
static int
least_apart(int on, bool second, int close)
{
	if (!second) {
		return close;
	}
	return (side_at(on) == SIDE_MIDDLE ? PHONE : PHONE_EDGE) +
	       (close == NEAR ? BESIDE : 0);
}

static void
draw_week_day(struct markup *markup, const struct short_days *days, day_t day, int close)
{
	int on = axis_place(days->axis, days->on);
	int apart = axis_place(days->axis, day) - on;
	bool second = (day - days->axis.first) / WEEK % 2 == 0;
	int least = least_apart(on, second, close);
	int y = close == CLOSE ? DAY_WORDS : WEEK_WORDS;
	if ((apart <= -least || apart >= least) && (second || close == CLOSE)) {
		draw_day_at(markup, days->axis, second ? "s" : "s alt", day, y);
	}
}

static struct reach
step_across(const struct short_days *days, size_t step)
{
	bool last = step + 1 == days->count;
	return (struct reach){axis_place(days->axis, days->steps[step].from),
	    last ? WHOLE : axis_place(days->axis, days->steps[step + 1].from)};
}

static int
step_top(const struct short_days *days, size_t step)
{
	size_t boats = days->steps[step].boats;
	return BASE - (days->fleet == 0 ? 0 : (int)(boats * SCALE / days->fleet));
}

static void
draw_step(struct markup *markup, const struct short_days *days, size_t step)
{
	struct reach across = step_across(days, step);
	int top = step_top(days, step);
	if (days->steps[step].boats > 0) {
		draw_area(markup, "#late", NULL, across, (struct reach){top, BASE});
		draw_line(markup, &PROFILE, across, (struct reach){top, top});
	}
}

/* Where the words over a step stand: beside the day looked at, if that would go through them and
 * there is room. */
static struct reach
step_room(const struct short_days *days, size_t step)
{
	struct reach across = step_across(days, step);
	int on = axis_place(days->axis, days->on);
	int aside = (across.from + across.to) / 2 - on;
	if (on <= across.from || on >= across.to || aside <= -HALF_WORDS ||
	    aside >= HALF_WORDS) {
		return across;
	}
	struct reach beside =
	    aside > 0 ? (struct reach){on, across.to} : (struct reach){across.from, on};
	return beside.to - beside.from >= WIDE ? beside : across;
}

static void
draw_step_words(struct markup *markup, const struct short_days *days, size_t step)
{
	struct reach room = step_room(days, step);
	size_t boats = days->steps[step].boats;
	SCOPED_TEXT words = {0};
	if (room.to - room.from < NARROW) {
		return;
	}
	bool wide = room.to - room.from >= WIDE;
	text_add_format(&words, boats > 0 ? "%zu not ready" : "all ready", boats);
	draw_label(markup,
	    &(struct label){
		wide ? (boats > 0 ? "n" : "s") : (boats > 0 ? "n alt" : "s alt"),
		(room.from + room.to) / 2, 0, step_top(days, step) - 6, SIDE_MIDDLE},
	    text_string(&words));
}

void
draw_short_days(struct markup *markup, const struct short_days *days, const char *label)
{
	begin_drawing(markup, DAYS_HEIGHT, label);
	for (size_t i = 0; i < days->count; i++) {
		draw_step(markup, days, i);
	}
	draw_line(markup, &GROUND, (struct reach){0, WHOLE}, (struct reach){BASE, BASE});
	for (day_t day = days->axis.first; day <= days->axis.last; day += WEEK) {
		draw_upright(markup, &NOTCH, axis_place(days->axis, day),
		    (struct reach){BASE, BASE + 6});
		draw_week_day(markup, days, day, CLOSE);
	}
	draw_upright(markup, &LOOKED_AT, axis_place(days->axis, days->on),
	    (struct reach){14, BASE + 6});
	/* over the stroke, for their halo of paper */
	for (size_t i = 0; i < days->count; i++) {
		draw_step_words(markup, days, i);
	}
	draw_day_at(markup, days->axis, "b", days->on, DAY_WORDS);
	markup_end(markup);
}

void
draw_boat_weeks(struct markup *markup, struct axis axis, day_t on)
{
	begin_drawing(markup, WEEKS_HEIGHT, NULL);
	for (day_t day = axis.first; day <= axis.last; day += WEEK) {
		draw_upright(
		    markup, &RULE, axis_place(axis, day), (struct reach){18, BOTTOM});
		draw_week_day(
		    markup, &(struct short_days){.axis = axis, .on = on}, day, NEAR);
	}
	draw_upright(markup, &ON, axis_place(axis, on), (struct reach){18, BOTTOM});
	draw_day_at(markup, axis, "b", on, WEEK_WORDS);
	markup_end(markup);
}

void
draw_boat_strip(struct markup *markup, struct axis axis, day_t on, struct spans bookings,
    struct spans lapses)
{
	begin_drawing(markup, STRIP_HEIGHT, NULL);
	for (day_t day = axis.first; day <= axis.last; day += WEEK) {
		draw_upright(
		    markup, &RULE, axis_place(axis, day), (struct reach){0, BOTTOM});
	}
	draw_upright(markup, &ON, axis_place(axis, on), (struct reach){0, BOTTOM});
	for (size_t i = 0; i < lapses.count; i++) {
		draw_area(markup, "#late", NULL, axis_reach(axis, lapses.items[i]),
		    (struct reach){20, 29});
	}
	for (size_t i = 0; i < bookings.count; i++) {
		struct span days = bookings.items[i];
		draw_area(markup, "buff", &BOOKED,
		    (struct reach){
			axis_place(axis, days.first), axis_place(axis, days.last)},
		    (struct reach){5, 18});
	}
	markup_end(markup);
}
