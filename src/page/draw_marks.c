/* Fillings, and the marks of states: shapes that are told apart without colour. */
#include "page/draw.h"

/* A mark's shape in a square of 16: an outline and what is filled of it. */
static const struct shape {
	const char *id;
	const char *outline; /* NULL for none */
	const char *width;
	const char *dash; /* of a dashed ring round it; NULL for none */
	const char *filled;
} SHAPES[] = {
    [MARK_OVERDUE] = {"m-overdue", "M3 1v14", "2", NULL, "M4 2l11 4-11 4z"},
    [MARK_EXPIRED] = {"m-expired", "M2 2h12v12h-12zM2 14L14 2", "2", NULL, NULL},
    [MARK_LIFE_EXPIRED] = {"m-life-expired", "M2 2h12v12h-12zM2 14L14 2M2 2l12 12", "2",
	NULL, NULL},
    [MARK_DATE_UNKNOWN] = {"m-date-unknown",
	"M6 6.4c0-3 4.4-2.6 4 0-.2 1.2-2 1.4-2 3M8 11v1.5", "1.6", "2.5 2", NULL},
    [MARK_SHORT] = {"m-short", "M5 2H2v12h3M11 2h3v12h-3", "2.2", NULL, NULL},
    [MARK_SAIL] = {"m-sail", "M3 1v14M3.5 2.5H14.5L11 6l3.5 3.5H3.5", "1.8", NULL, NULL},
    [MARK_ASHORE] = {"m-ashore", "M5 3h10v10H5L1 9V7z", "1.6", NULL,
	"M3.6 8a1.4 1.4 0 1 0 2.8 0a1.4 1.4 0 1 0-2.8 0z"},
};

static void
write_path(struct markup *markup, const char *path, const char *width)
{
	MARKUP_BEGIN(markup, "path", NULL, "d", path, "fill",
	    width == NULL ? "currentColor" : "none", "stroke",
	    width == NULL ? NULL : "currentColor", "stroke-width", width);
	markup_end(markup);
}

static void
write_shape(struct markup *markup, const struct shape *shape)
{
	MARKUP_BEGIN(markup, "symbol", NULL, "id", shape->id, "viewBox", "0 0 16 16");
	write_path(markup, shape->outline, shape->width);
	if (shape->filled != NULL) {
		write_path(markup, shape->filled, NULL);
	}
	if (shape->dash != NULL) {
		MARKUP_BEGIN(markup, "circle", NULL, "cx", "8", "cy", "8", "r", "6.5",
		    "fill", "none", "stroke", "currentColor", "stroke-width",
		    shape->width, "stroke-dasharray", shape->dash);
		markup_end(markup);
	}
	markup_end(markup);
}

/* Strokes aslant, one every so many px. */
static void
write_filling(struct markup *markup, const char *id, const char *apart,
    const char *aslant, const struct stroke *stroke)
{
	MARKUP_BEGIN(markup, "pattern", NULL, "id", id, "width", apart, "height", apart,
	    "patternUnits", "userSpaceOnUse", "patternTransform", aslant);
	MARKUP_BEGIN(markup, "path", stroke->class_name, "stroke-width", stroke->width);
	markup_attribute_format(markup, "d", "M0 0v%s", apart);
	markup_ends(markup, 2);
}

void
draw_defs(struct markup *markup)
{
	static const struct stroke CLOSED = {"hatch", "1.5", NULL};
	static const struct stroke LATE = {"noteline", "3", NULL};
	MARKUP_BEGIN(
	    markup, "svg", "vh", "aria-hidden", "true", "width", "0", "height", "0");
	markup_begin(markup, "defs");
	for (size_t i = 0; i < MARK_COUNT; i++) {
		write_shape(markup, &SHAPES[i]);
	}
	write_filling(markup, "closed", "7", "rotate(45)", &CLOSED);
	write_filling(markup, "late", "6", "rotate(-45)", &LATE);
	write_filling(markup, "work", "5", "rotate(45)", &CLOSED);
	markup_ends(markup, 2);
}

void
draw_mark(struct markup *markup, enum state_mark mark)
{
	MARKUP_BEGIN(markup, "svg", "mark", "aria-hidden", "true", "focusable", "false");
	markup_begin(markup, "use");
	markup_attribute_format(markup, "href", "#%s", SHAPES[mark].id);
	markup_ends(markup, 2);
}
