/* All boats, all needs: "have of need" in each cell, and the reason for the cell that is
 * pressed. */
#include "page/planning.h"
#include "page/shell.h"
#include "report/line.h"
#include "report/words.h"

#include <stdlib.h>
#include <string.h>

/* The needs as columns: titles of carriage lines, each once, in the order in which they
 * are found. */
struct needs {
	const char **items; /* in the arena */
	size_t count;
	size_t capacity;
};

static void
gather_needs(const struct saturday *day, struct needs *out)
{
	for (size_t i = 0; i < day->count; i++) {
		const struct muster *muster = &day->boats[i].on;
		for (size_t j = 0; j < muster->line_count; j++) {
			const char *title = muster->lines[j].line->title;
			if (!words_have(out->items, out->count, title)) {
				ARENA_ADD(&day->visit->arena, out, title);
			}
		}
	}
}

static const struct muster_line *
line_of(const struct muster *muster, const char *title)
{
	for (size_t i = 0; i < muster->line_count; i++) {
		if (strcmp(muster->lines[i].line->title, title) == 0) {
			return &muster->lines[i];
		}
	}
	return NULL;
}

static void
add_why_address(
    const struct saturday *day, const char *boat, const char *line, struct text *out)
{
	char iso[DAY_ISO_SIZE];
	text_add_format(out, "/saturday?on=%s&boat=", day_iso(day->on, iso));
	form_escape(boat, out);
	text_add(out, "&line=");
	form_escape(line, out);
	base_choice_add(&day->choice, out);
	text_add(out, "#why");
}

static void
write_cell(const struct saturday *day, const struct saturday_boat *boat,
    const struct muster_line *line)
{
	struct markup *markup = day->visit->markup;
	SCOPED_TEXT address = {0};
	SCOPED_TEXT shown = {0};
	SCOPED_TEXT spoken = {0};
	const char *name = boat->vessel->name;
	bool told = line->asks[0] == '\0';
	bool noted = told && line->missing == 0 && line->remarks.count > 0;
	add_why_address(day, name, line->line->id, &address);
	text_add_format(&spoken, "%s, %s: ", name, line->line->title);
	text_add_format(told ? &shown : &spoken, told ? "%d/%d" : "can't be told",
	    line->have, line->need);
	if (told) {
		text_add_format(&spoken, "%d of %d", line->have, line->need);
	}
	if (line->missing > 0) {
		text_add_format(&spoken, ", short of %d", line->missing);
	} else if (noted) {
		text_add(&spoken, ", counted though past common practice");
	}
	markup_begin_class(markup, "td",
	    line->missing > 0 || !told ? "short"
	    : noted                    ? "noted"
				       : NULL);
	MARKUP_BEGIN(markup, "a", NULL, "href", text_string(&address));
	MARKUP_BEGIN(markup, "span", NULL, "aria-hidden", "true");
	markup_text(markup, told ? text_string(&shown) : "?");
	markup_end(markup);
	if (line->missing > 0 || noted) {
		MARKUP_BEGIN(markup, "small", NULL, "aria-hidden", "true");
		markup_text_format(markup, noted ? "note" : "short %d", line->missing);
		markup_end(markup);
	}
	markup_element(markup, "span", "vh", text_string(&spoken));
	markup_ends(markup, 2);
}

static void
write_boat_head(const struct saturday *day, const struct saturday_boat *boat)
{
	struct markup *markup = day->visit->markup;
	const struct booking *next =
	    booking_next(boat->vessel->bookings, boat->vessel->booking_count, day->on);
	MARKUP_BEGIN(markup, "th", NULL, "scope", "row");
	markup_text(markup, boat->vessel->name);
	markup_begin(markup, "small");
	if (boat->booked.booking != NULL) {
		markup_text(markup, "out today");
	} else if (next == NULL) {
		markup_text(markup, "not let yet");
	} else if (next->days.first < day->on) {
		markup_text(markup, "out until ");
		shell_weekday(day->visit, next->days.last);
	} else {
		markup_text(markup, "in until ");
		shell_weekday(day->visit, next->days.first);
	}
	markup_ends(markup, 2);
}

static void
write_boat_row(const struct saturday *day, const struct saturday_boat *boat,
    const struct needs *needs)
{
	struct markup *markup = day->visit->markup;
	markup_begin(markup, "tr");
	write_boat_head(day, boat);
	for (size_t i = 0; i < needs->count; i++) {
		const struct muster_line *line = line_of(&boat->on, needs->items[i]);
		if (line == NULL) {
			markup_element(markup, "td", "num soft", "");
		} else {
			write_cell(day, boat, line);
		}
	}
	markup_end(markup);
}

static int
compare_rows(const void *left, const void *right)
{
	const struct saturday_boat *const *a = left;
	const struct saturday_boat *const *b = right;
	int order = strcmp((*a)->base, (*b)->base);
	return order != 0 ? order : strcmp((*a)->vessel->name, (*b)->vessel->name);
}

/* The boats of each base as a group of rows, with the base as its head. */
static void
write_bases(const struct saturday *day, const struct needs *needs)
{
	struct markup *markup = day->visit->markup;
	const struct saturday_boat **rows = arena_alloc(
	    &day->visit->arena, (day->count + 1) * sizeof(const struct saturday_boat *));
	for (size_t i = 0; i < day->count; i++) {
		rows[i] = &day->boats[i];
	}
	qsort(rows, day->count, sizeof(const struct saturday_boat *), compare_rows);
	for (size_t i = 0; i < day->count; i++) {
		const char *base = rows[i]->base;
		if (i == 0 || strcmp(rows[i - 1]->base, base) != 0) {
			markup_begin(markup, "tbody");
			markup_begin_class(markup, "tr", "base");
			MARKUP_BEGIN(markup, "th", NULL, "scope", "rowgroup");
			markup_attribute_format(
			    markup, "colspan", "%zu", needs->count + 1);
			markup_element(markup, "span", NULL,
			    base[0] != '\0' ? base : "No base written");
			markup_ends(markup, 2);
		}
		write_boat_row(day, rows[i], needs);
		if (i + 1 == day->count || strcmp(rows[i + 1]->base, base) != 0) {
			markup_end(markup);
		}
	}
}

/* Why a piece counts or does not, without the name of a rule; its card shows that. */
static void
add_reason(const struct piece_why *piece, struct text *out)
{
	SCOPED_TEXT reason = {0};
	SCOPED_TEXT rule = {0};
	add_piece_reason(piece, &reason);
	text_add_format(
	    &rule, " (%s)", piece->reading == NULL ? "" : piece->reading->rule_id);
	const char *const table[][2] = {{text_string(&rule), ""}};
	text_in_place(text_string(&reason), table, 1, out);
}

/* The source, and the link to the line in its sheet. */
static void
write_origin(struct visit *visit, const struct carriage *line, const struct line_why *why)
{
	struct markup *markup = visit->markup;
	SCOPED_TEXT origin = {0};
	SCOPED_TEXT sheet = {0};
	SCOPED_TEXT words = {0};
	add_line_origin(why, &origin);
	text_add_format(&sheet, " Sheet %s.", line->sheet);
	const char *const table[][2] = {{text_string(&sheet), ""}};
	text_in_place(text_string(&origin), table, 1, &words);
	markup_begin_class(markup, "p", "small soft");
	markup_text_format(markup, "%s ", text_string(&words));
	shell_link(visit, NULL, "The line in its sheet", "/sheet/%s#line.%s", line->sheet,
	    line->id);
	markup_end(markup);
}

/* The pieces that a line considers, each with why it counts or does not. */
static void
write_pieces(const struct saturday *day, const struct line_why *why)
{
	const struct inventory *inventory = &day->visit->desk.contents.inventory;
	struct markup *markup = day->visit->markup;
	markup_begin_class(markup, "ul", "small");
	for (size_t i = 0; i < why->count; i++) {
		const struct piece_why *piece = &why->pieces[i];
		const struct item *item = &inventory->items[piece->item];
		SCOPED_TEXT words = {0};
		SCOPED_TEXT tag = {0};
		form_escape(item->tag, &tag);
		text_add_byte(&words, ' ');
		add_item_name(
		    day->visit->desk.engine.kinds, inventory, piece->item, &words);
		text_add(&words, ": ");
		add_reason(piece, &words);
		markup_begin(markup, "li");
		shell_link(
		    day->visit, "tag go", item->tag, "/locker/%s", text_string(&tag));
		markup_text(markup, text_string(&words));
		markup_end(markup);
	}
	markup_end(markup);
}

static void
write_why(const struct saturday *day, const struct saturday_boat *boat,
    const struct line_why *why)
{
	struct visit *visit = day->visit;
	struct markup *markup = visit->markup;
	SCOPED_TEXT words = {0};
	SCOPED_TEXT name = {0};
	char iso[DAY_ISO_SIZE];
	form_escape(boat->vessel->name, &name);
	MARKUP_BEGIN(markup, "section", "entry", "id", "why");
	markup_begin_class(markup, "div", "m");
	markup_element_format(markup, "b", NULL, "%d/%d", why->told.have, why->told.need);
	markup_end(markup);
	markup_begin_class(markup, "div", "t");
	markup_element_format(
	    markup, "h3", NULL, "Why: %s of %s", why->line->title, boat->vessel->name);
	add_line_sum(why, &words);
	markup_element(markup, "p", "say", text_string(&words));
	write_pieces(day, why);
	if (why->count == 0) {
		markup_element(
		    markup, "p", NULL, "Nothing of hers in the book would serve it.");
	}
	write_origin(visit, why->line, why);
	markup_begin_class(markup, "div", "acts");
	shell_link(visit, "button", "Her gear", "/locker?boat=%s", text_string(&name));
	shell_link(visit, "button", "Her survey file", "/survey/%s?on=%s",
	    text_string(&name), day_iso(day->on, iso));
	markup_ends(markup, 3);
}

/* Finds the cell that was pressed, if any. */
static bool
write_pressed(const struct saturday *day, struct fault *fault)
{
	struct desk *desk = &day->visit->desk;
	const char *boat = page_value(day->visit, "boat");
	const char *line = page_value(day->visit, "line");
	struct line_why why = {0};
	for (size_t i = 0; i < day->count; i++) {
		if (strcmp(day->boats[i].vessel->name, boat) != 0 || line[0] == '\0') {
			continue;
		}
		if (!muster_why(&desk->engine, day->boats[i].booked.vessel, line, day->on,
			&desk->arena, &why, fault)) {
			return false;
		}
		write_why(day, &day->boats[i], &why);
	}
	return true;
}

bool
write_needs(const struct saturday *day, struct fault *fault)
{
	struct markup *markup = day->visit->markup;
	struct needs needs = {0};
	SCOPED_TEXT on = {0};
	gather_needs(day, &needs);
	if (needs.count == 0) {
		return true;
	}
	add_day_of(day->on, true, &on);
	shell_section(day->visit, NULL, "have / need", "All boats, all needs");
	markup_begin(markup, "p");
	markup_text_format(markup, "On %s.", text_string(&on));
	markup_element(markup, "span", "noprint", " Press a count for its reason.");
	markup_end(markup);
	MARKUP_BEGIN(markup, "a", "skip", "href", "#past");
	markup_text(markup, "Past the table");
	markup_ends(markup, 2);
	const char **columns =
	    arena_alloc(&day->visit->arena, (needs.count + 1) * sizeof *columns);
	columns[0] = "Boat";
	memcpy(columns + 1, needs.items, needs.count * sizeof *columns);
	SHELL_TABLE(day->visit, .label = "Boats and needs", .class_name = "muster",
	    .columns = columns, .count = needs.count + 1, .full = true);
	write_bases(day, &needs);
	markup_ends(markup, 3);
	MARKUP_BEGIN(markup, "div", NULL, "id", "past");
	markup_end(markup);
	return write_pressed(day, fault);
}
