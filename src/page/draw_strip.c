/* The lay-up to scale: which days each bag lies ashore, and how long one may still wait. */
#include "page/draw.h"
#include "report/words.h"

/* Down a lane: the days above the tag, the tag, the last day below it. */
enum {
	WEEK = 7,
	HEAD_HEIGHT = 62,
	LANE_HEIGHT = 66,
	OWN_HEIGHT = 44,
	TAG_TOP = 20,
	TAG_HEIGHT = 20,
	TAG_MIDDLE = TAG_TOP + TAG_HEIGHT / 2,
	ABOVE = 15, /* baselines of the labels */
	BELOW = 60,
	EARLY = 1500, /* a label before its mark needs so much room to its left */
	LATE = 8000,  /* and one after it so much to its right */
	HALF = 5000,
	CLOSE = 1300,    /* a label before its mark runs into a line so near to it */
	TOGETHER = 3500, /* two labels on one side of their marks need so much between */
};

static const struct stroke RULE = {"thin", NULL, NULL};
static const struct stroke NOW = {"line", "2", NULL};
static const struct stroke NOTCH = {"line", "1", NULL};
static const struct stroke ROOM = {"line", "1.5", "2 4"};
static const struct stroke STOP = {"noteline", "4", NULL};
static const struct stroke TAG = {"buffline", "2", NULL};
static const struct stroke TAG_SUPPOSED = {"buffline", "2", "5 3"};

static struct axis
axis_of(const struct strip *strip)
{
	return (struct axis){strip->laid_up - WEEK, strip->ready + WEEK};
}

/* The first of the month after the day's, or the day itself where it is one. */
static day_t
month_from(day_t day)
{
	return day_to_civil(day).day == 1 ? day : day_month_end(day) + 1;
}

/* How many months one stands for that is named: each, or every second of a long lay-up. */
static int
months_apart(const struct strip *strip)
{
	return strip->ready - strip->laid_up > 240 ? 2 : 1;
}

/* Today, where it is in the drawing. */
static bool
shows_today(const struct strip *strip)
{
	struct axis axis = axis_of(strip);
	return axis.first <= strip->today && strip->today <= axis.last;
}

/* The bands of use at both ends, a rule on the first of each month, and today. */
static void
draw_ground(struct markup *markup, const struct strip *strip, struct reach down)
{
	struct axis axis = axis_of(strip);
	draw_area(markup, "sea", NULL,
	    (struct reach){0, axis_place(axis, strip->laid_up)}, down);
	draw_area(markup, "sea", NULL,
	    (struct reach){axis_place(axis, strip->ready), WHOLE}, down);
	for (day_t day = month_from(axis.first); day < axis.last;
	     day = day_month_end(day) + 1) {
		draw_upright(markup, &RULE, axis_place(axis, day), down);
	}
	if (shows_today(strip)) {
		draw_upright(markup, &NOW, axis_place(axis, strip->today), down);
	}
}

static void
draw_head_days(struct markup *markup, const struct strip *strip)
{
	struct axis axis = axis_of(strip);
	int months = 0;
	draw_day_label(markup,
	    &(struct label){"s", axis_place(axis, strip->laid_up), 0, 14, SIDE_AFTER},
	    "laid up ", strip->laid_up);
	draw_day_label(markup,
	    &(struct label){"s", axis_place(axis, strip->ready), 0, 14, SIDE_BEFORE},
	    "ready ", strip->ready);
	for (day_t day = month_from(axis.first); day < strip->ready;
	     day = day_month_end(day) + 1) {
		if (months++ % months_apart(strip) == 0) {
			draw_label(markup,
			    &(struct label){
				"b", axis_place(axis, day), 4, 37, SIDE_AFTER},
			    month_short_name(day_to_civil(day).month));
		}
	}
	if (shows_today(strip)) {
		int x = axis_place(axis, strip->today);
		bool late = x > LATE;
		draw_label(markup,
		    &(struct label){
			"b", x, late ? -5 : 5, 53, late ? SIDE_BEFORE : SIDE_AFTER},
		    "today");
	}
}

static void
draw_head(struct markup *markup, const struct strip *strip)
{
	struct axis axis = axis_of(strip);
	markup_begin_class(markup, "div", "lane noline");
	markup_element(markup, "p", "name soft",
	    "Each tag lies ashore from its left end to its right.");
	begin_drawing(markup, HEAD_HEIGHT, NULL);
	draw_ground(markup, strip, (struct reach){20, HEAD_HEIGHT});
	for (day_t day = axis.first + (7 - day_of_week(axis.first)) % 7; day <= axis.last;
	     day += WEEK) {
		draw_upright(markup, &NOTCH, axis_place(axis, day),
		    (struct reach){55, HEAD_HEIGHT});
	}
	draw_head_days(markup, strip);
	markup_ends(markup, 2);
}

static void
draw_closed(
    struct markup *markup, struct axis axis, struct spans closed, struct reach down)
{
	for (size_t i = 0; i < closed.count; i++) {
		draw_area(
		    markup, "#closed", NULL, axis_reach(axis, closed.items[i]), down);
	}
}

/* From the day on which it is back, or could be handed in where the last day comes sooner, to
 * that last day. */
static void
draw_room(struct markup *markup, const struct strip *strip, const struct strip_lane *lane)
{
	struct axis axis = axis_of(strip);
	day_t from = lane->own ? strip->today : lane->hand_in;
	if (!lane->own && lane->collect != DAY_NONE && lane->collect < lane->last_day) {
		from = lane->collect;
	}
	if (from < lane->last_day) {
		int y = lane->own ? 14 : TAG_MIDDLE;
		draw_line(markup, &ROOM,
		    (struct reach){
			axis_place(axis, from), axis_place(axis, lane->last_day)},
		    (struct reach){y, y});
	}
}

/* The tag to scale, its eyelet at the end where it is handed in. */
static void
draw_tag(struct markup *markup, struct axis axis, const struct strip_lane *lane)
{
	const struct stroke *frame = lane->assumed ? &TAG_SUPPOSED : &TAG;
	struct reach down = {TAG_TOP, TAG_TOP + TAG_HEIGHT};
	int from = axis_place(axis, lane->hand_in);
	day_t until = lane->collect != DAY_NONE ? lane->collect : lane->hand_in + 1;
	draw_area(
	    markup, "buff", frame, (struct reach){from, axis_place(axis, until)}, down);
	draw_closed(
	    markup, axis, lane->closed, (struct reach){down.from + 1, down.to - 1});
	markup_begin_class(markup, "circle", "paperfill line buffline");
	markup_attribute_format(markup, "cx", "%d.%02d%%", from / 100, from % 100);
	markup_attribute(markup, "transform", "translate(7)");
	markup_attribute_format(markup, "cy", "%d", TAG_MIDDLE);
	markup_attribute(markup, "r", "3.5");
	markup_attribute(markup, "stroke-width", "1.5");
	markup_end(markup);
}

/* The days of a tag: hand-in before its end, collect after its own. Where that would have them run
 * over each other they stand together: "2 Nov to 9 Nov". */
static void
draw_tag_days(
    struct markup *markup, const struct strip *strip, const struct strip_lane *lane)
{
	struct axis axis = axis_of(strip);
	int from = axis_place(axis, lane->hand_in);
	int now = axis_place(axis, strip->today);
	/* today's line would run through the words: they stand before it */
	int before = shows_today(strip) && from > now && from - now < CLOSE ? now : from;
	int to = lane->collect != DAY_NONE ? axis_place(axis, lane->collect) : from;
	bool early = before < EARLY;
	bool late = to > LATE;
	const char *about = lane->assumed ? "about " : "";
	struct label hand_in = {"b", early ? from : before, early ? 0 : -5, ABOVE,
	    early ? SIDE_AFTER : SIDE_BEFORE};
	struct label collect = {NULL, to, 0, ABOVE, late ? SIDE_BEFORE : SIDE_AFTER};
	if (lane->collect == DAY_NONE) {
		draw_day_label(markup, &hand_in, "", lane->hand_in);
		return;
	}
	if ((early || late) && to - from < TOGETHER) {
		SCOPED_TEXT both = {0};
		add_day_of(lane->hand_in, false, &both);
		text_add_format(&both, " to %s", about);
		hand_in = late ? collect : hand_in;
		hand_in.class_name = "b";
		draw_day_label(markup, &hand_in, text_string(&both), lane->collect);
		return;
	}
	draw_day_label(markup, &hand_in, "", lane->hand_in);
	draw_day_label(markup, &collect, about, lane->collect);
}

/* The stop with its words, on the side of it where there is room for them. */
static void
draw_last_day(
    struct markup *markup, const struct strip *strip, const struct strip_lane *lane)
{
	int x = axis_place(axis_of(strip), lane->last_day);
	bool room = x >= HALF;
	int top = lane->own ? 6 : 22;
	draw_upright(markup, &STOP, x, (struct reach){top, top + (lane->own ? 20 : 24)});
	draw_day_label(markup,
	    &(struct label){"n", x, room ? 2 : -2, lane->own ? 40 : BELOW,
		room ? SIDE_BEFORE : SIDE_AFTER},
	    lane->own ? "done by " : "last day ", lane->last_day);
}

/* No tag: that no day serves, and the first possible one. */
static void
draw_no_day(
    struct markup *markup, const struct strip *strip, const struct strip_lane *lane)
{
	struct label label = {
	    "n", axis_place(axis_of(strip), strip->laid_up), 4, 35, SIDE_AFTER};
	draw_closed(markup, axis_of(strip), lane->closed,
	    (struct reach){TAG_TOP, TAG_TOP + TAG_HEIGHT});
	draw_label(markup, &label, "no day serves");
	if (lane->first_possible != DAY_NONE) {
		label.y = BELOW;
		draw_day_label(markup, &label, "first possible ", lane->first_possible);
	}
}

static void
draw_lane_name(struct markup *markup, const struct strip_lane *lane)
{
	markup_begin_class(markup, "p", "name");
	markup_element(markup, "b", NULL, lane->name);
	if (lane->detail != NULL) {
		markup_begin(markup, "br");
		markup_end(markup);
		markup_text(markup, lane->detail);
	}
	markup_end(markup);
}

/* What page.js needs to move the tag: which bag, the axis's first day, and the days it may go
 * to. */
static void
mark_drag(struct markup *markup, const struct strip *strip, const struct strip_lane *lane)
{
	char iso[DAY_ISO_SIZE];
	if (lane->bag == NULL || lane->hand_in == DAY_NONE) {
		return;
	}
	markup_attribute(markup, "data-bag", lane->bag);
	markup_attribute(markup, "data-first", day_iso(axis_of(strip).first, iso));
	markup_attribute(markup, "data-hand-in", day_iso(lane->hand_in, iso));
	markup_attribute(markup, "data-open", lane->open);
}

static void
draw_lane(struct markup *markup, const struct strip *strip, const struct strip_lane *lane)
{
	int height = lane->own ? OWN_HEIGHT : LANE_HEIGHT;
	markup_begin_class(markup, "div", "lane");
	mark_drag(markup, strip, lane);
	draw_lane_name(markup, lane);
	begin_drawing(markup, height, NULL);
	draw_ground(markup, strip, (struct reach){0, BOTTOM});
	if (lane->hand_in != DAY_NONE) {
		markup_begin_class(markup, "g", "hold");
		draw_tag(markup, axis_of(strip), lane);
		markup_end(markup);
		draw_tag_days(markup, strip, lane);
	} else if (!lane->own) {
		draw_no_day(markup, strip, lane);
	}
	if (lane->last_day != DAY_NONE && (lane->own || lane->hand_in != DAY_NONE)) {
		draw_room(markup, strip, lane);
		draw_last_day(markup, strip, lane);
	}
	markup_ends(markup, 2);
}

static void
draw_key(struct markup *markup)
{
	struct reach sign = {300, 9700};
	markup_begin_class(markup, "figcaption", "key");
	markup_begin(markup, "span");
	markup_element(markup, "b", NULL, "The lay-up to scale, a notch each Monday.");
	markup_end(markup);
	begin_sign(markup);
	draw_area(markup, "buff", &TAG, sign, (struct reach){2, 16});
	end_sign(markup, "ashore: handed in, to collect");
	begin_sign(markup);
	draw_upright(markup, &STOP, HALF, (struct reach){0, 18});
	end_sign(markup, "last day to hand in");
	begin_sign(markup);
	draw_area(
	    markup, "#closed", NULL, (struct reach){0, WHOLE}, (struct reach){2, 16});
	end_sign(markup, "station closed");
	begin_sign(markup);
	draw_area(markup, "sea", NULL, (struct reach){0, WHOLE}, (struct reach){0, 18});
	end_sign(markup, "in use");
	markup_end(markup);
}

void
draw_strip(struct markup *markup, const struct strip *strip)
{
	markup_begin_class(markup, "figure", "full");
	draw_head(markup, strip);
	for (size_t i = 0; i < strip->count; i++) {
		draw_lane(markup, strip, &strip->lanes[i]);
	}
	draw_key(markup);
	markup_end(markup);
}
