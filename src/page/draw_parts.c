#include "page/draw.h"
#include "report/words.h"

int
axis_place(struct axis axis, day_t day)
{
	int64_t whole = (int64_t)axis.last - axis.first;
	int64_t at = (int64_t)day_min(day_max(day, axis.first), axis.last) - axis.first;
	return whole <= 0 ? 0 : (int)((at * WHOLE + whole / 2) / whole);
}

struct reach
axis_reach(struct axis axis, struct span days)
{
	day_t end = days.last >= axis.last ? axis.last : days.last + 1;
	return (struct reach){axis_place(axis, days.first), axis_place(axis, end)};
}

/* "4.27%". */
static void
write_across(struct markup *markup, const char *name, int place)
{
	markup_attribute_format(markup, name, "%d.%02d%%", place / 100, place % 100);
}

static void
write_down(struct markup *markup, const char *name, int px)
{
	if (px == BOTTOM) {
		markup_attribute(markup, name, "100%");
		return;
	}
	markup_attribute_format(markup, name, "%d", px);
}

static void
write_stroke(struct markup *markup, const struct stroke *stroke)
{
	markup_attribute(markup, "stroke-width", stroke->width);
	markup_attribute(markup, "stroke-dasharray", stroke->dash);
}

void
begin_drawing(struct markup *markup, int height, const char *label)
{
	markup_begin_class(markup, "svg", "draw");
	write_down(markup, "height", height);
	if (label == NULL) {
		markup_attribute(markup, "aria-hidden", "true");
		return;
	}
	markup_attribute(markup, "role", "img");
	markup_attribute(markup, "aria-label", label);
}

void
draw_line(struct markup *markup, const struct stroke *stroke, struct reach across,
    struct reach down)
{
	markup_begin_class(markup, "line", stroke->class_name);
	write_stroke(markup, stroke);
	write_across(markup, "x1", across.from);
	write_across(markup, "x2", across.to);
	write_down(markup, "y1", down.from);
	write_down(markup, "y2", down.to);
	markup_end(markup);
}

void
draw_upright(struct markup *markup, const struct stroke *stroke, int x, struct reach down)
{
	draw_line(markup, stroke, (struct reach){x, x}, down);
}

void
draw_area(struct markup *markup, const char *filling, const struct stroke *frame,
    struct reach across, struct reach down)
{
	if (across.to <= across.from) {
		return;
	}
	markup_begin(markup, "rect");
	if (filling[0] == '#') {
		markup_attribute_format(markup, "fill", "url(%s)", filling);
	} else if (frame != NULL && frame->class_name != NULL) {
		markup_attribute_format(
		    markup, "class", "%s line %s", filling, frame->class_name);
	} else {
		markup_attribute(markup, "class", filling);
	}
	if (frame != NULL) {
		write_stroke(markup, frame);
	}
	write_across(markup, "x", across.from);
	write_across(markup, "width", across.to - across.from);
	write_down(markup, "y", down.from);
	write_down(markup, "height", down.to == BOTTOM ? BOTTOM : down.to - down.from);
	markup_end(markup);
}

void
draw_label(struct markup *markup, const struct label *label, const char *words)
{
	static const char *const ANCHORS[] = {
	    [SIDE_AFTER] = NULL, [SIDE_BEFORE] = "end", [SIDE_MIDDLE] = "middle"};
	markup_begin_class(markup, "text", label->class_name);
	write_across(markup, "x", label->x);
	if (label->dx != 0) {
		markup_attribute_format(markup, "dx", "%d", label->dx);
	}
	write_down(markup, "y", label->y);
	markup_attribute(markup, "text-anchor", ANCHORS[label->side]);
	markup_text(markup, words);
	markup_end(markup);
}

void
draw_day_label(
    struct markup *markup, const struct label *label, const char *before, day_t day)
{
	SCOPED_TEXT words = {0};
	text_add(&words, before);
	add_day_of(day, false, &words);
	draw_label(markup, label, text_string(&words));
}

void
begin_sign(struct markup *markup)
{
	markup_begin(markup, "span");
	MARKUP_BEGIN(markup, "svg", NULL, "aria-hidden", "true");
}

void
end_sign(struct markup *markup, const char *words)
{
	markup_end(markup);
	markup_text(markup, words);
	markup_end(markup);
}
