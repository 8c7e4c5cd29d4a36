#include "report/shore_parts.h"

#include "report/money.h"
#include "report/words.h"

static const struct table_column PART_COLUMNS[] = {
    {"", 16, ALIGN_LEFT, false}, /* tick box and tag */
    {"", 0, ALIGN_LEFT, true},   /* what it is */
    {"", 8, ALIGN_LEFT, false},  /* task */
    {"", 12, ALIGN_LEFT, false}, /* due, and the state where it has passed */
    {"", 25, ALIGN_LEFT, false}, /* window */
    {"", 16, ALIGN_RIGHT, false},
};

/* True when both ends of a window are inside the winter, so that their years go without
 * saying. */
static bool
in_winter(const struct shore_page *page, struct span window)
{
	const struct winter *winter = &page->list->winter;
	struct span span = {winter->lay_up, winter->fitting_out};
	return page->list->has_winter && span.last - span.first < 365 &&
	       (window.first == DAY_NONE || span_has(span, window.first)) &&
	       (window.last == DAY_NONE || span_has(span, window.last));
}

/* The days on which a line can be done, as far as they are still to come. */
static struct span
window_of(const struct shore_page *page, const struct shore_line *line)
{
	struct span window = {line->not_before, line->not_after};
	if (window.first <= page->style->today) {
		window.first = DAY_NONE;
	}
	return window;
}

/* True when every line has the same window, and it has one. A part that goes with its parent
 * has its parent's. */
static bool
same_window(
    const struct shore_page *page, const struct shore_lines *lines, struct span *out)
{
	bool found = false;
	for (size_t i = 0; i < lines->count; i++) {
		struct span window = window_of(page, &lines->items[i]);
		if (lines->items[i].with_parent) {
			continue;
		}
		if (found && (window.first != out->first || window.last != out->last)) {
			return false;
		}
		*out = window;
		found = true;
	}
	return found && (out->first != DAY_NONE || out->last != DAY_NONE);
}

/* Adds "[ ] LR-1", with no place to break. */
static void
add_tick(const struct shore_page *page, const struct shore_line *line, struct text *words)
{
	text_add_format(
	    words, "[%c]%c%s", GLUE, GLUE, page->inventory->items[line->item].tag);
}

/* Adds what is odd about this line. */
static void
add_line_note(const struct shore_line *line, struct text *words)
{
	if (!line->carries && line->due_again != DAY_NONE) {
		text_add(words, "; lapses in the season, due again ");
		add_day(line->due_again, "", words);
	}
}

/* Adds "20 May 2027", "30 Jun 2026, expired" or "date unknown". */
static void
add_line_due(const struct shore_line *line, struct text *words)
{
	struct standing_now plain = {line->state, DAY_NONE, DAY_NONE, ""};
	bool dated = line->due != DAY_NONE && line->due != DAY_NEVER;
	add_day(line->due, "", words);
	if (line->state != STATE_IN_DATE) {
		text_add(words, dated ? ", " : "");
		add_state_words(&plain, 0, words);
	}
}

static void
add_line(const struct shore_page *page, const struct shore_line *line,
    const struct part_shape *shape, struct table *table, struct text *words)
{
	char money[MONEY_WORDS_SIZE];
	text_reset(words);
	add_tick(page, line, words);
	table_add(table, HUE_STRONG, text_string(words));
	text_reset(words);
	add_line_note(line, words);
	add_item_cell(
	    page->kinds, page->inventory, line->item, text_string(words), table);
	table_add(table, HUE_NONE, shape->task ? task_word(line->task) : "");
	text_reset(words);
	if (shape->due) {
		add_line_due(line, words);
	}
	enum hue hue = line->state == STATE_IN_DATE ? HUE_NONE : state_hue(line->state);
	table_add(table, hue, text_string(words));
	text_reset(words);
	if (shape->window && !line->with_parent) {
		struct span window = window_of(page, line);
		add_window_words(window, !in_winter(page, window), words);
	}
	table_add(table, HUE_NONE, text_string(words));
	money_words(line->price_minor, page->style->currency, money);
	const char *price = money[0] == '\0' ? "no price" : money;
	table_add(table, HUE_NONE, shape->price ? price : "");
}

static bool
write_lines(const struct shore_page *page, const struct shore_lines *lines,
    const struct part_shape *shape, struct fault *fault)
{
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	table_init(&table, PART_COLUMNS, sizeof PART_COLUMNS / sizeof PART_COLUMNS[0], 0,
	    page->style->colour);
	for (size_t i = 0; i < lines->count; i++) {
		add_line(page, &lines->items[i], shape, &table, &words);
	}
	return text_check(&words, fault) && table_write(&table, page->out, fault);
}

bool
write_part(const struct shore_page *page, const char *heading,
    const struct shore_lines *lines, const struct part_shape *shape, struct fault *fault)
{
	if (lines->count == 0) {
		return true;
	}
	SCOPED_TEXT words = {0};
	struct part_shape settled = *shape;
	text_add(&words, heading);
	struct span window = {DAY_NONE, DAY_NONE};
	if (shape->window && same_window(page, lines, &window)) {
		text_add(&words, shape->window_lead == NULL ? ", " : shape->window_lead);
		add_window_words(window, true, &words);
		text_add(&words, shape->window_tail == NULL ? "" : shape->window_tail);
		settled.window = false;
	}
	text_add_byte(page->out, '\n');
	paragraph(text_string(&words), 0, 2, page->out);
	return text_check(&words, fault) && write_lines(page, lines, &settled, fault);
}

/* ---- cautions ---- */

/* Marks the hazards of some lines' kinds. */
static void
mark_hazards(const struct shore_page *page, const struct shore_lines *lines,
    bool only_service, bool seen[HAZARD_COUNT])
{
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		const struct item *item = &page->inventory->items[line->item];
		const struct kind *kind = kinds_find(page->kinds, item->kind);
		if (kind == NULL || (only_service && !(kind->service_ashore &&
							 line->task == TASK_SERVICE))) {
			continue;
		}
		seen[kind->hazard] = true;
	}
}

/* What a caution is about. */
static const char *
hazard_name(enum hazard hazard)
{
	switch (hazard) {
	case HAZARD_NONE:
		return "";
	case HAZARD_PYROTECHNIC:
		return "Flares and smokes";
	case HAZARD_GAS:
		return "Gas and inflatables";
	case HAZARD_LITHIUM:
		return "Lithium batteries";
	case HAZARD_MEDICINE:
		return "Medicines";
	}
	return "";
}

static void
write_caution(const struct shore_page *page, enum hazard hazard, const char *caution)
{
	SCOPED_TEXT words = {0};
	if (caution[0] != '\0') {
		text_add_format(&words, "! %s: %s", hazard_name(hazard), caution);
		paragraph(text_string(&words), 0, 2, page->out);
	}
	page->out->failed = page->out->failed || words.failed;
}

/* ---- hand in ---- */

/* "Hand in Mon 2 Nov 2026 at Kaap Service; collect Mon 14 Dec 2026" */
static void
add_trip_heading(const struct trip *trip, struct text *words)
{
	text_add_format(words, "Hand in %.3s ", weekday_name(day_of_week(trip->hand_in)));
	add_day(trip->hand_in, "", words);
	text_add_format(
	    words, " at %s", trip->name[0] == '\0' ? "an approved station" : trip->name);
	if (trip->assumed) {
		text_add_format(
		    words, " (%d open days assumed: ask)", ASSUMED_TURN_ROUND_DAYS);
	}
	if (trip->collect != DAY_NONE && trip->collect != DAY_NEVER) {
		text_add_format(
		    words, "; collect %.3s ", weekday_name(day_of_week(trip->collect)));
		add_day(trip->collect, "", words);
	}
}

bool
write_hand_in(const struct shore_page *page, struct fault *fault)
{
	static const struct part_shape SHAPE = {.task = true,
	    .due = true,
	    .window = true,
	    .window_lead = " (hand-in possible ",
	    .window_tail = ")"};
	const struct trips *trips = &page->list->hand_in;
	bool seen[HAZARD_COUNT] = {false};
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < trips->count; i++) {
		const struct trip *trip = &trips->items[i];
		text_reset(&words);
		add_trip_heading(trip, &words);
		if (!write_part(page, text_string(&words), &trip->lines, &SHAPE, fault)) {
			return false;
		}
		mark_hazards(page, &trip->lines, false, seen);
	}
	mark_hazards(page, &page->list->now, true, seen);
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		if (seen[hazard]) {
			write_caution(page, (enum hazard)hazard,
			    kinds_carry_caution(page->kinds, (enum hazard)hazard));
		}
	}
	return text_check(&words, fault);
}

/* ---- what can't be done, what goes ---- */

static const struct table_column CANNOT_COLUMNS[] = {
    {"", 12, ALIGN_LEFT, false}, /* tag */
    {"", 24, ALIGN_LEFT, false}, /* what it is */
    {"", 8, ALIGN_LEFT, false},  /* task */
    {"", 0, ALIGN_LEFT, true},   /* reason */
};

bool
write_cannot(const struct shore_page *page, struct fault *fault)
{
	const struct shore_lines *lines = &page->list->cannot;
	if (lines->count == 0) {
		return true;
	}
	SCOPED_TABLE table;
	SCOPED_TEXT words = {0};
	table_init(&table, CANNOT_COLUMNS,
	    sizeof CANNOT_COLUMNS / sizeof CANNOT_COLUMNS[0], 0, page->style->colour);
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		table_add(&table, HUE_STRONG, page->inventory->items[line->item].tag);
		text_reset(&words);
		add_item_words(page->kinds, page->inventory, line->item, &words);
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, HUE_NONE, task_word(line->task));
		text_reset(&words);
		text_add(&words, line->why[0] == '\0' ? "no reason known" : line->why);
		text_add(&words, "; first possible ");
		add_day(line->first_possible, "day not known", &words);
		table_add(&table, HUE_BAD, text_string(&words));
	}
	text_add(page->out, "\nCan't be done in time\n");
	return text_check(&words, fault) && table_write(&table, page->out, fault);
}

static enum hazard
hazard_of(const struct shore_page *page, const struct shore_line *line)
{
	const struct item *item = &page->inventory->items[line->item];
	const struct kind *kind = kinds_find(page->kinds, item->kind);
	return kind == NULL ? HAZARD_NONE : kind->hazard;
}

/* Writes the things of one hazard, a tick box each, and how to be rid of them. */
static bool
write_dispose_of(const struct shore_page *page, enum hazard hazard, struct fault *fault)
{
	const struct shore_lines *lines = &page->list->dispose;
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < lines->count; i++) {
		const struct shore_line *line = &lines->items[i];
		if (hazard_of(page, line) == hazard) {
			text_add(&words, words.length == 0 ? "" : "; ");
			add_tick(page, line, &words);
			text_add_byte(&words, ' ');
			add_item_name(page->kinds, page->inventory, line->item, &words);
		}
	}
	if (words.length > 0) {
		paragraph(text_string(&words), 0, 4, page->out);
		write_caution(page, hazard, kinds_disposal_caution(page->kinds, hazard));
	}
	return text_check(&words, fault);
}

bool
write_dispose(const struct shore_page *page, struct fault *fault)
{
	if (page->list->dispose.count == 0) {
		return true;
	}
	text_add(page->out, "\nDispose of, once out of date or replaced\n");
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		if (!write_dispose_of(page, (enum hazard)hazard, fault)) {
			return false;
		}
	}
	return true;
}
