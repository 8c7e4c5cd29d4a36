/* The clocks of one piece on a line of years: what was done, what is due, and what does not
 * bind. */
#include "page/draw.h"
#include "report/words.h"

/* Down the head: today, when it was made, the years. Down a lane: the line that binds, its day
 * beside or below it, and a step for each other line with its words below. */
enum {
	HEAD_HEIGHT = 56,
	TODAY_WORDS = 13,
	MADE_LINE = 26,
	MADE_WORDS = 31,
	YEAR_TOP = 38,
	YEAR_WORDS = 52,
	LINE = 20,
	BESIDE = 25,
	BELOW = 46,
	STEP = 44,
	WORDS_BELOW = 21,
	MARGIN = 10,
	NAMES_MOST = 7, /* years that are named, so that they can't meet on a phone */
	FAR =
	    6200, /* past it there is no room, on a phone, for a day right of its stop */
	LAST_NAME = 8700, /* past it there is none for the name of a year */
	LEFT_THIRD = 3500,
	RIGHT_THIRD = 6500,
	HALF = 5000,
};

static const struct stroke RULE = {"thin", NULL, NULL};
static const struct stroke NOW = {"line", "2", NULL};
static const struct stroke BINDS = {"line", "4", NULL};
static const struct stroke STOP = {"line", "5", NULL};
static const struct stroke STOP_PASSED = {"noteline", "5", NULL};
static const struct stroke OTHER = {"line", "1.5", "4 4"};
static const struct stroke OTHER_STOP = {"line", "1.5", NULL};

struct axis
clock_axis(day_t oldest, day_t latest, day_t today)
{
	int first = day_to_civil(day_min(oldest, today)).year;
	int last = day_to_civil(day_max(latest, today)).year;
	return (struct axis){day_from_civil(first, 1, 1), day_from_civil(last + 2, 1, 1)};
}

static int
first_year(const struct clock_scale *scale)
{
	return day_to_civil(scale->axis.first).year;
}

static int
years_of(const struct clock_scale *scale)
{
	return day_to_civil(scale->axis.last).year - first_year(scale);
}

static int
place_of_year(const struct clock_scale *scale, int year)
{
	return axis_place(scale->axis, day_from_civil(year, 1, 1));
}

static void
rule_years(struct markup *markup, const struct clock_scale *scale, struct reach down)
{
	for (int i = 0; i < years_of(scale); i++) {
		draw_upright(
		    markup, &RULE, place_of_year(scale, first_year(scale) + i), down);
	}
}

/* Filled for what was done, hollow for what it was made or fitted. */
static void
draw_dot(struct markup *markup, int x, int y, bool done)
{
	MARKUP_BEGIN(markup, "circle", done ? "inkfill" : "paperfill line",
	    "stroke-width", done ? NULL : "2.5");
	markup_attribute_format(markup, "cx", "%d.%02d%%", x / 100, x % 100);
	markup_attribute_format(markup, "cy", "%d", y);
	markup_attribute(markup, "r", done ? "6" : "5");
	markup_end(markup);
}

static void
name_years(struct markup *markup, const struct clock_scale *scale)
{
	int apart = 2;
	while (years_of(scale) > apart * NAMES_MOST) {
		apart += 2;
	}
	for (int i = 0; i < years_of(scale); i += apart) {
		SCOPED_TEXT year = {0};
		int named = first_year(scale) + i;
		if (place_of_year(scale, named) > LAST_NAME) {
			break;
		}
		text_add_format(&year, "%d", named);
		draw_label(markup,
		    &(struct label){
			"b", place_of_year(scale, named), 3, YEAR_WORDS, SIDE_AFTER},
		    text_string(&year));
	}
}

void
draw_clock_head(struct markup *markup, const struct clock_scale *scale, day_t made,
    const char *made_words)
{
	int today = axis_place(scale->axis, scale->today);
	bool late = today >= HALF;
	begin_drawing(markup, HEAD_HEIGHT, NULL);
	rule_years(markup, scale, (struct reach){YEAR_TOP, BOTTOM});
	name_years(markup, scale);
	draw_upright(markup, &NOW, today, (struct reach){4, BOTTOM});
	draw_label(markup,
	    &(struct label){
		"b", today, late ? -4 : 4, TODAY_WORDS, late ? SIDE_BEFORE : SIDE_AFTER},
	    "today");
	if (made != DAY_NONE) {
		int x = axis_place(scale->axis, made);
		bool right = x >= HALF;
		draw_dot(markup, x, MADE_LINE, false);
		draw_label(markup,
		    &(struct label){"s", x, right ? -9 : 9, MADE_WORDS,
			right ? SIDE_BEFORE : SIDE_AFTER},
		    made_words);
	}
	markup_end(markup);
}

static void
draw_binding(struct markup *markup, const struct clock_scale *scale,
    const struct clock_line *clock)
{
	SCOPED_TEXT day = {0};
	int due = axis_place(scale->axis, clock->due);
	bool passed = clock->due < scale->today;
	bool far = due > FAR;
	if (passed) {
		draw_area(markup, "#late", NULL,
		    (struct reach){due, axis_place(scale->axis, scale->today)},
		    (struct reach){LINE - 7, LINE + 7});
	}
	if (clock->from != DAY_NONE) {
		int from = axis_place(scale->axis, clock->from);
		draw_line(markup, &BINDS, (struct reach){from, due},
		    (struct reach){LINE, LINE});
		draw_dot(markup, from, LINE, clock->done);
	}
	draw_upright(markup, passed ? &STOP_PASSED : &STOP, due,
	    (struct reach){LINE - 10, LINE + 10});
	add_day_of(clock->due, true, &day);
	draw_label(markup,
	    &(struct label){passed ? "n" : "b", due, far ? 0 : 8, far ? BELOW : BESIDE,
		far ? SIDE_BEFORE : SIDE_AFTER},
	    text_string(&day));
}

static void
draw_other(struct markup *markup, const struct clock_scale *scale,
    const struct clock_line *clock, int y)
{
	SCOPED_TEXT words = {0};
	int due = axis_place(scale->axis, clock->due);
	enum label_side side = due < LEFT_THIRD    ? SIDE_AFTER
			       : due > RIGHT_THIRD ? SIDE_BEFORE
						   : SIDE_MIDDLE;
	if (clock->from != DAY_NONE) {
		int from = axis_place(scale->axis, clock->from);
		draw_line(
		    markup, &OTHER, (struct reach){from, due}, (struct reach){y, y});
		draw_dot(markup, from, y, clock->done);
	}
	draw_upright(markup, &OTHER_STOP, due, (struct reach){y - 7, y + 7});
	text_add(&words, "would be ");
	add_day_of(clock->due, true, &words);
	draw_label(markup, &(struct label){"s", due, 0, y + WORDS_BELOW, side},
	    text_string(&words));
}

void
draw_clock_lane(
    struct markup *markup, const struct clock_scale *scale, const struct clock_lane *lane)
{
	bool below = lane->bound && axis_place(scale->axis, lane->binds.due) > FAR;
	int last = !lane->bound ? LINE - STEP : below ? BELOW - WORDS_BELOW : LINE;
	int end = last + (int)lane->other_count * STEP + WORDS_BELOW + MARGIN;
	begin_drawing(markup, end > STEP ? end : STEP, NULL);
	rule_years(markup, scale, (struct reach){0, BOTTOM});
	draw_upright(markup, &NOW, axis_place(scale->axis, scale->today),
	    (struct reach){0, BOTTOM});
	if (lane->bound) {
		draw_binding(markup, scale, &lane->binds);
	}
	for (size_t i = 0; i < lane->other_count; i++) {
		draw_other(markup, scale, &lane->others[i], last + STEP * (int)(i + 1));
	}
	markup_end(markup);
}

void
draw_clock_key(struct markup *markup)
{
	struct reach line = {500, 9000};
	markup_begin_class(markup, "figcaption", "key");
	begin_sign(markup);
	draw_dot(markup, HALF, 9, true);
	end_sign(markup, "last done");
	begin_sign(markup);
	draw_dot(markup, HALF, 9, false);
	end_sign(markup, "made or fitted");
	begin_sign(markup);
	draw_line(markup, &BINDS, line, (struct reach){9, 9});
	draw_upright(markup, &STOP, line.to, (struct reach){1, 17});
	end_sign(markup, "binds, due");
	begin_sign(markup);
	draw_line(markup, &OTHER, line, (struct reach){9, 9});
	draw_upright(markup, &OTHER_STOP, line.to, (struct reach){2, 16});
	end_sign(markup, "does not bind");
	begin_sign(markup);
	draw_area(markup, "#late", NULL, (struct reach){0, WHOLE}, (struct reach){2, 16});
	end_sign(markup, "past its day");
	markup_end(markup);
}
