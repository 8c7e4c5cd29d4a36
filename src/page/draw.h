/* The page's drawings, as SVG within the page: plain days and words in, markup out. Across, all
 * is in percent of the width and down in px, so that text keeps its size at any width; what
 * things look like is page.css's. Shapes, fillings and words tell things apart, never colour
 * alone. What a drawing shows stands as text on the page too.
 *
 * Pure: days are given, none is today's. Strings are borrowed for the call. A day outside a
 * drawing's axis is drawn at its edge. */
#ifndef BECKET_PAGE_DRAW_H
#define BECKET_PAGE_DRAW_H

#include "dates/spans.h"
#include "report/markup.h"

/* The days at a drawing's left and right edge; the first is the earlier. */
struct axis {
	day_t first;
	day_t last;
};

/* The fillings and marks that the drawings of a page refer to. Once a page, before them. */
void draw_defs(struct markup *markup);

/* The states of a row, and what else has a shape of its own. */
enum state_mark {
	MARK_OVERDUE,
	MARK_EXPIRED,
	MARK_LIFE_EXPIRED,
	MARK_DATE_UNKNOWN,
	MARK_SHORT,
	MARK_SAIL,
	MARK_ASHORE,
	MARK_COUNT
};

/* A mark before its word; the word itself is the caller's. */
void draw_mark(struct markup *markup, enum state_mark mark);

/* One lane of the lay-up: a bag for one station, or one's own work. */
struct strip_lane {
	const char *name;     /* the station's */
	const char *detail;   /* second words below it; NULL for none */
	day_t hand_in;        /* DAY_NONE where no day serves, and for one's own work */
	day_t collect;        /* DAY_NONE not known */
	day_t last_day;       /* to hand in, or to be done by; DAY_NONE for none */
	day_t first_possible; /* where no day serves; DAY_NONE not known */
	bool assumed;         /* how long it stays there is only supposed */
	bool own;             /* one's own work and what is to be bought */
	struct spans closed;  /* days on which the station is closed */
	/* where its day may be moved by dragging the tag: the id of its bag, and a letter
	 * for each day of the axis, "1" for one on which gear is taken in; else NULL */
	const char *bag;
	const char *open;
};

struct strip {
	day_t laid_up; /* and ready: both days a lay-up has */
	day_t ready;
	day_t today;
	const struct strip_lane *lanes;
	size_t count;
};

/* The lay-up to scale, from a week before it to a week after: a head with the months and a notch
 * each Monday, a lane for each bag from hand-in to collect day with its last day, and a key. A
 * lane's name and detail are text, its drawing is hidden from a screen reader. */
void draw_strip(struct markup *markup, const struct strip *strip);

/* One clock of a piece. */
struct clock_line {
	day_t from; /* DAY_NONE for a mark on the label: it has only its stop */
	bool
	    done; /* counts from something done; else from made, packed, bought, fitted */
	day_t due;
};

/* One task of a piece: the clock that binds and those that do not. */
struct clock_lane {
	bool bound; /* a clock binds */
	struct clock_line binds;
	const struct clock_line *others; /* with a due day each */
	size_t other_count;
};

/* What all lanes of a piece share. */
struct clock_scale {
	struct axis axis; /* clock_axis */
	day_t today;
};

/* The axis of a piece's clocks: from the start of the year of the oldest day shown to a year past
 * the last; `today` is always on it. */
struct axis clock_axis(day_t oldest, day_t latest, day_t today);

/* The head of a piece's clocks: the years, every second named, today, and when it was made:
 * DAY_NONE, or the day with its words. */
void draw_clock_head(struct markup *markup, const struct clock_scale *scale, day_t made,
    const char *made_words);

/* A lane's drawing: a heavy line to a stop for the clock that binds, hatched from there to today
 * where it has passed, and below it a thin line for each other, with the day it would be. */
void draw_clock_lane(struct markup *markup, const struct clock_scale *scale,
    const struct clock_lane *lane);

/* What the signs of the clocks mean. */
void draw_clock_key(struct markup *markup);

/* From a day on so many boats are short, until the next step. */
struct short_from {
	day_t from;
	size_t boats;
};

struct short_days {
	struct axis axis;
	day_t on;                       /* the day looked at */
	const struct short_from *steps; /* ascending; the first on the axis's first day */
	size_t count;
	size_t fleet; /* how many boats there are; the drawing's height */
};

/* How many boats are short, day by day, with a notch each week. `label` says it in words and
 * names the table that says the same. */
void draw_short_days(
    struct markup *markup, const struct short_days *days, const char *label);

/* The weeks over boats' strips, and one boat's strip: what she is booked for, and beneath it the
 * days on which she is short. Spans of bookings go from the day she leaves to that of her
 * return. */
void draw_boat_weeks(struct markup *markup, struct axis axis, day_t on);
void draw_boat_strip(struct markup *markup, struct axis axis, day_t on,
    struct spans bookings, struct spans lapses);

/* What one winter costs, in minor units, and the whole in words to stand above it. */
struct money_bar {
	int winter; /* the year in which it starts */
	int64_t new_gear;
	int64_t work;
	int64_t trips;
	const char *sum;
};

/* Money by winter, and a key. `label` names the table that says the same. */
void draw_money(
    struct markup *markup, const struct money_bar *bars, size_t count, const char *label);

/* Inside the page room: what its drawings are made of. Across, a place is in hundredths of a
 * percent of the width; down, it is in px. */

enum {
	WHOLE = 10000, /* across */
	BOTTOM = -1,   /* down: as far as the drawing goes, however high it is made */
};

/* From one place to another. */
struct reach {
	int from;
	int to;
};

/* A line or frame: class, width in px, and the pattern of dashes (NULL for none). */
struct stroke {
	const char *class_name;
	const char *width;
	const char *dash;
};

/* On which side of its place a label stands. */
enum label_side { SIDE_AFTER, SIDE_BEFORE, SIDE_MIDDLE };

struct label {
	const char *class_name; /* NULL for none */
	int x;
	int dx; /* px away from its place */
	int y;
	enum label_side side;
};

/* Where a day is on an axis. */
int axis_place(struct axis axis, day_t day);

/* From the start of the span's first day to the end of its last. */
struct reach axis_reach(struct axis axis, struct span days);

/* Begins an SVG as wide as there is room, hidden from screen readers or with a label. */
void begin_drawing(struct markup *markup, int height, const char *label);

/* A line; the part of it outside the drawing is left out. */
void draw_line(struct markup *markup, const struct stroke *stroke, struct reach across,
    struct reach down);

/* A line straight down at a place. */
void draw_upright(
    struct markup *markup, const struct stroke *stroke, int x, struct reach down);

/* An area; `filling` is a class, or the id of a pattern after a '#'. `frame` NULL: none; its class
 * NULL: none beside the filling's. */
void draw_area(struct markup *markup, const char *filling, const struct stroke *frame,
    struct reach across, struct reach down);

void draw_label(struct markup *markup, const struct label *label, const char *words);
void draw_day_label(
    struct markup *markup, const struct label *label, const char *before, day_t day);

/* A sign of a key and what it means, as a `span`; between them, in the sign's `svg`, the caller
 * draws. */
void begin_sign(struct markup *markup);
void end_sign(struct markup *markup, const char *words);

#endif
