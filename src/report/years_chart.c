#include "report/words_inside.h"

#include <string.h>

/* Sizes in the drawing's own units; it is scaled to the page's width. */
enum {
	WIDTH = 900,
	LEFT = 220,        /* width for the names at the left */
	RIGHT = 12,        /* left free */
	LEGEND = 26,       /* height of the line that says what is what */
	MONEY = 140,       /* height of the highest column of money */
	YEARS = 20,        /* height of the line of years */
	ROW = 16,          /* height of a row of marks */
	ROWS_MOST = 40,    /* in one drawing, so that it fits a sheet */
	NAME_COLUMNS = 22, /* letters of a name that there is room for */
	MARK = 4,          /* half a mark's size */
};

struct chart {
	struct markup *markup;
	const struct years_page *page;
	const struct outlook *plan;
	size_t number;
	int column; /* width of one winter */
};

/* What is done to one item, as bits by winter. */
struct marks {
	uint32_t station;
	uint32_t renewed;
};

static void
rectangle(
    const struct chart *chart, struct span across, struct span down, const char *fill)
{
	markup_begin(chart->markup, "rect");
	markup_attribute_format(chart->markup, "x", "%d", across.first);
	markup_attribute_format(chart->markup, "y", "%d", down.first);
	markup_attribute_format(chart->markup, "width", "%d", across.last - across.first);
	markup_attribute_format(chart->markup, "height", "%d", down.last - down.first);
	markup_attribute(chart->markup, "fill", fill);
	markup_attribute(chart->markup, "stroke", "#111");
	markup_attribute(chart->markup, "stroke-width", "0.8");
	markup_end(chart->markup);
}

static void
line(const struct chart *chart, struct span across, struct span down, const char *stroke)
{
	markup_begin(chart->markup, "line");
	markup_attribute_format(chart->markup, "x1", "%d", across.first);
	markup_attribute_format(chart->markup, "x2", "%d", across.last);
	markup_attribute_format(chart->markup, "y1", "%d", down.first);
	markup_attribute_format(chart->markup, "y2", "%d", down.last);
	markup_attribute(chart->markup, "stroke", stroke);
	markup_attribute(chart->markup, "stroke-width", "0.6");
	markup_end(chart->markup);
}

static void
words_at(const struct chart *chart, int x, int y, const char *anchor, const char *words)
{
	markup_begin(chart->markup, "text");
	markup_attribute_format(chart->markup, "x", "%d", x);
	markup_attribute_format(chart->markup, "y", "%d", y);
	markup_attribute(chart->markup, "text-anchor", anchor);
	markup_text(chart->markup, words);
	markup_end(chart->markup);
}

/* A name at the left of the drawing, cut when there is no room. */
static void
name_at(const struct chart *chart, int y, const char *name)
{
	SCOPED_TEXT words = {0};
	if (utf8_columns(name) <= NAME_COLUMNS) {
		words_at(chart, LEFT - 8, y, "end", name);
		return;
	}
	for (const char *at = name; *at != '\0'; at++) {
		bool begins = ((unsigned char)*at & 0xC0U) != 0x80U;
		if (begins && utf8_columns(text_string(&words)) >= NAME_COLUMNS - 1) {
			break;
		}
		text_add_byte(&words, *at);
	}
	text_add(&words, "\u2026");
	words_at(chart, LEFT - 8, y, "end", text_string(&words));
}

/* The middle of a winter's column. */
static int
middle_of(const struct chart *chart, size_t winter)
{
	return LEFT + (int)winter * chart->column + chart->column / 2;
}

static int
right_of(const struct chart *chart)
{
	return LEFT + (int)chart->plan->winters * chart->column;
}

static void
circle_at(const struct chart *chart, int x, int y)
{
	markup_begin(chart->markup, "circle");
	markup_attribute_format(chart->markup, "cx", "%d", x);
	markup_attribute_format(chart->markup, "cy", "%d", y);
	markup_attribute_format(chart->markup, "r", "%d", MARK);
	markup_attribute(chart->markup, "fill", "#fff");
	markup_attribute(chart->markup, "stroke", "#111");
	markup_attribute(chart->markup, "stroke-width", "1.2");
	markup_end(chart->markup);
}

static void
square_at(const struct chart *chart, int x, int y)
{
	rectangle(chart, (struct span){x - MARK, x + MARK},
	    (struct span){y - MARK, y + MARK}, "#333");
}

static void
triangle_at(const struct chart *chart, int x, int y)
{
	markup_begin(chart->markup, "polygon");
	markup_attribute_format(chart->markup, "points", "%d,%d %d,%d %d,%d", x,
	    y - MARK - 1, x - MARK - 1, y + MARK, x + MARK + 1, y + MARK);
	markup_attribute(chart->markup, "fill", "#111");
	markup_end(chart->markup);
}

static void
begin_drawing(const struct chart *chart, int height, const char *title)
{
	markup_begin(chart->markup, "svg");
	markup_attribute_format(chart->markup, "viewBox", "0 0 %d %d", WIDTH, height);
	markup_attribute(chart->markup, "width", "100%");
	markup_attribute(chart->markup, "class", "whole");
	markup_attribute(chart->markup, "role", "img");
	markup_element(chart->markup, "title", NULL, title);
}

/* The filling for trips: diagonal lines. */
static void
define_strokes(const struct chart *chart)
{
	markup_begin(chart->markup, "pattern");
	markup_attribute_format(chart->markup, "id", "strokes-%zu", chart->number);
	markup_attribute(chart->markup, "width", "5");
	markup_attribute(chart->markup, "height", "5");
	markup_attribute(chart->markup, "patternUnits", "userSpaceOnUse");
	rectangle(chart, (struct span){-9, -8}, (struct span){-9, -8}, "#fff");
	MARKUP_BEGIN(chart->markup, "path", NULL, "d",
	    "M-1,6 L6,-1 M-1,1 L1,-1 M4,6 L6,4", "stroke", "#111", "stroke-width", "1");
	markup_ends(chart->markup, 2);
}

static void
write_legend(const struct chart *chart, const char *strokes)
{
	static const char *const NAMES[] = {"trips", "work at stations", "new gear"};
	const char *const fills[] = {strokes, "#d8d8d8", "#555"};
	int x = LEFT;
	for (size_t i = 0; i < 3; i++) {
		rectangle(
		    chart, (struct span){x, x + 12}, (struct span){4, 16}, fills[i]);
		words_at(chart, x + 17, 14, "start", NAMES[i]);
		x += 40 + 8 * (int)strlen(NAMES[i]);
	}
}

static void
write_years(const struct chart *chart, int y)
{
	for (size_t winter = 0; winter < chart->plan->winters; winter++) {
		SCOPED_TEXT year = {0};
		text_add_format(&year, "%d", chart->plan->first_year + (int)winter);
		words_at(
		    chart, middle_of(chart, winter), y, "middle", text_string(&year));
	}
}

/* One winter's column of money, with the amount above it. */
static void
draw_money(const struct chart *chart, size_t winter, int64_t most, const char *strokes)
{
	struct outlook_sum sum = outlook_sum_of(chart->plan, winter);
	const int64_t parts[] = {sum.trips, sum.work, sum.new_gear};
	const char *const fills[] = {strokes, "#d8d8d8", "#555"};
	int half = chart->column * 3 / 10;
	int x = middle_of(chart, winter);
	int base = LEGEND + 14 + MONEY;
	int64_t so_far = 0;
	int top = base;
	for (size_t i = 0; i < 3; i++) {
		so_far += parts[i];
		int next = base - (int)(so_far * MONEY / (most > 0 ? most : 1));
		if (next < top) {
			rectangle(chart, (struct span){x - half, x + half},
			    (struct span){next, top}, fills[i]);
		}
		top = next;
	}
	char buffer[MONEY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add(&words, years_figure(chart->page, so_far, buffer));
	if (chart->column < 60) { /* no room for decimals */
		text_reset(&words);
		text_add_bytes(&words, years_figure(chart->page, so_far, buffer),
		    strcspn(years_figure(chart->page, so_far, buffer), "."));
	}
	words_at(chart, x, top - 4, "middle", text_string(&words));
}

/* The lines on which rows of marks are drawn. */
static void
rule_rows(const struct chart *chart, int top, size_t rows)
{
	int bottom = top + (int)rows * ROW;
	for (size_t row = 0; row <= rows; row++) {
		int y = top + (int)row * ROW;
		line(chart, (struct span){LEFT, right_of(chart)}, (struct span){y, y},
		    "#bbb");
	}
	for (size_t winter = 0; winter <= chart->plan->winters; winter++) {
		int x = LEFT + (int)winter * chart->column;
		line(chart, (struct span){x, x}, (struct span){top, bottom}, "#bbb");
	}
}

/* The stations that the plan uses. */
static size_t
stations_gone_to(const struct chart *chart, struct arena *arena, size_t **out)
{
	const struct outlook *plan = chart->plan;
	size_t count = 0;
	*out = arena_alloc(arena, (plan->trip_count + 1) * sizeof **out);
	for (size_t i = 0; i < plan->trip_count; i++) {
		bool known = false;
		for (size_t j = 0; j < count; j++) {
			known = known || (*out)[j] == plan->trips[i].station;
		}
		if (!known) {
			(*out)[count++] = plan->trips[i].station;
		}
	}
	return count;
}

/* The columns of money, the years, and below them the trips. */
static void
draw_top(const struct chart *chart)
{
	SCOPED_ARENA arena = {0};
	SCOPED_TEXT strokes = {0};
	const struct outlook *plan = chart->plan;
	size_t *stations = NULL;
	int64_t most = 0;
	size_t count = stations_gone_to(chart, &arena, &stations);
	int base = LEGEND + 14 + MONEY;
	for (size_t winter = 0; winter < plan->winters; winter++) {
		struct outlook_sum sum = outlook_sum_of(plan, winter);
		int64_t all = sum.trips + sum.work + sum.new_gear;
		most = all > most ? all : most;
	}
	text_add_format(&strokes, "url(#strokes-%zu)", chart->number);
	begin_drawing(chart, base + YEARS + (int)count * ROW + 4,
	    "What each winter costs, and the trips to stations");
	define_strokes(chart);
	write_legend(chart, text_string(&strokes));
	name_at(chart, LEGEND + 14, chart->page->style->currency);
	for (size_t winter = 0; winter < plan->winters; winter++) {
		draw_money(chart, winter, most, text_string(&strokes));
	}
	line(chart, (struct span){LEFT, right_of(chart)}, (struct span){base, base},
	    "#111");
	write_years(chart, base + 14);
	rule_rows(chart, base + YEARS, count);
	for (size_t i = 0; i < count; i++) {
		int y = base + YEARS + (int)i * ROW + ROW / 2;
		name_at(chart, y + 4, chart->page->view->stations[stations[i]].name);
		for (size_t j = 0; j < plan->trip_count; j++) {
			if (plan->trips[j].station == stations[i]) {
				triangle_at(
				    chart, middle_of(chart, plan->trips[j].winter), y);
			}
		}
	}
	markup_end(chart->markup);
}

/* What the marks of items mean. */
static void
write_marks_legend(const struct chart *chart)
{
	circle_at(chart, LEFT + 6, 10);
	words_at(chart, LEFT + 16, 14, "start", "work at a station");
	square_at(chart, LEFT + 176, 10);
	words_at(chart, LEFT + 186, 14, "start", "renewed");
}

static void
draw_item(const struct chart *chart, size_t item, const struct marks *marks, int y)
{
	name_at(chart, y + 4, chart->page->view->inventory->items[item].tag);
	for (size_t winter = 0; winter < chart->plan->winters; winter++) {
		bool station = (marks->station >> winter & 1U) != 0;
		bool renewed = (marks->renewed >> winter & 1U) != 0;
		int x = middle_of(chart, winter);
		int apart = station && renewed ? MARK + 2 : 0;
		if (station) {
			circle_at(chart, x - apart, y);
		}
		if (renewed) {
			square_at(chart, x + apart, y);
		}
	}
}

/* The items from `*next` on, as many as fit in one drawing. */
static void
draw_items(const struct chart *chart, const struct marks *marks, const size_t *items,
    size_t count)
{
	int top = LEGEND + YEARS;
	begin_drawing(chart, top + (int)count * ROW + 4,
	    "Which items go to a station or are renewed in which winter");
	write_marks_legend(chart);
	write_years(chart, LEGEND + 14);
	rule_rows(chart, top, count);
	for (size_t i = 0; i < count; i++) {
		draw_item(
		    chart, items[i], &marks[items[i]], top + (int)i * ROW + ROW / 2);
	}
	markup_end(chart->markup);
}

/* Collects what is done to every item, and the items to which something is done. */
static size_t
gather_marks(const struct chart *chart, struct marks *marks, size_t *items)
{
	const struct outlook *plan = chart->plan;
	size_t count = 0;
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *done = &plan->lines[i];
		uint32_t bit = 1U << done->winter;
		if (outlook_is_work(done)) {
			marks[done->item].station |= bit;
		} else if (done->task == TASK_RENEW) {
			marks[done->item].renewed |= bit;
		}
	}
	for (size_t i = 0; i < chart->page->view->inventory->item_count; i++) {
		if ((marks[i].station | marks[i].renewed) != 0) {
			items[count++] = i;
		}
	}
	return count;
}

void
draw_years(struct markup *markup, const struct years_page *page,
    const struct outlook *plan, size_t number)
{
	SCOPED_ARENA arena = {0};
	size_t most = page->view->inventory->item_count + 1;
	struct chart chart = {
	    markup, page, plan, number, (WIDTH - LEFT - RIGHT) / (int)plan->winters};
	chart.column = chart.column > 120 ? 120 : chart.column;
	struct marks *marks = arena_alloc(&arena, most * sizeof *marks);
	size_t *items = arena_alloc(&arena, most * sizeof *items);
	draw_top(&chart);
	size_t count = gather_marks(&chart, marks, items);
	for (size_t first = 0; first < count; first += ROWS_MOST) {
		size_t rest = count - first;
		draw_items(
		    &chart, marks, &items[first], rest < ROWS_MOST ? rest : ROWS_MOST);
	}
}
