/* Inside the page room: what its drawings are made of. Across, a place is in hundredths of a
 * percent of the width; down, it is in px. */
#ifndef BECKET_PAGE_DRAW_PARTS_H
#define BECKET_PAGE_DRAW_PARTS_H

#include "page/draw.h"

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

/* A line; nothing is drawn of it but what is on the drawing. */
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
