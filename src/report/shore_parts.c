#include "report/shore_parts.h"

#include "report/money.h"
#include "report/words.h"

static const struct table_column PART_COLUMNS[] = {
    {"", ALIGN_LEFT, 0, false},  /* tick box */
    {"", ALIGN_LEFT, 12, false}, /* tag */
    {"", ALIGN_LEFT, 0, true},   /* what it is */
    {"", ALIGN_LEFT, 8, false},  /* task */
    {"", ALIGN_LEFT, 12, false}, /* due, and the state where it has passed */
    {"", ALIGN_LEFT, 25, false}, /* window */
    {"", ALIGN_RIGHT, 16, false},
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

static bool
has_window(const struct shore_line *line)
{
	return line->not_before != DAY_NONE || line->not_after != DAY_NONE;
}

/* True when every line has the same window, and it has one. */
static bool
same_window(const struct shore_lines *lines)
{
	for (size_t i = 1; i < lines->count; i++) {
		if (lines->items[i].not_before != lines->items[0].not_before ||
		    lines->items[i].not_after != lines->items[0].not_after) {
			return false;
		}
	}
	return lines->count > 0 && has_window(&lines->items[0]);
}

/* Adds what is odd about this line. */
static void
add_line_note(const struct shore_line *line, struct text *words)
{
	text_add(words, line->with_parent ? ", renewed at that service" : "");
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
	table_add(table, HUE_NONE, "[ ]");
	table_add(table, HUE_STRONG, page->inventory->items[line->item].tag);
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
	if (shape->window) {
		struct span window = {line->not_before, line->not_after};
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
	if (shape->window && same_window(lines)) {
		struct span window = {
		    lines->items[0].not_before, lines->items[0].not_after};
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

/* Writes the caution of each marked hazard once. */
static void
write_cautions(const struct shore_page *page, const bool seen[HAZARD_COUNT],
    const char *(*caution_of)(const struct kinds *, enum hazard))
{
	SCOPED_TEXT words = {0};
	for (int hazard = 0; hazard < HAZARD_COUNT; hazard++) {
		const char *caution =
		    seen[hazard] ? caution_of(page->kinds, (enum hazard)hazard) : "";
		if (caution[0] != '\0') {
			text_reset(&words);
			text_add_format(&words, "! %s: %s",
			    hazard_name((enum hazard)hazard), caution);
			paragraph(text_string(&words), 0, 2, page->out);
		}
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
	if (trip->collect != DAY_NONE && trip->collect != DAY_NEVER) {
		text_add_format(
		    words, "; collect %.3s ", weekday_name(day_of_week(trip->collect)));
		add_day(trip->collect, "", words);
	}
	if (trip->assumed) {
		text_add_format(
		    words, " (if it takes %d open days: ask)", ASSUMED_TURN_ROUND_DAYS);
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
	write_cautions(page, seen, kinds_carry_caution);
	return text_check(&words, fault);
}

/* ---- what can't be done, what goes ---- */

static const struct table_column CANNOT_COLUMNS[] = {
    {"", ALIGN_LEFT, 12, false}, /* tag */
    {"", ALIGN_LEFT, 24, false}, /* what it is */
    {"", ALIGN_LEFT, 8, false},  /* task */
    {"", ALIGN_LEFT, 0, true},   /* reason */
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

bool
write_dispose(const struct shore_page *page, struct fault *fault)
{
	static const struct part_shape SHAPE = {.due = true};
	bool seen[HAZARD_COUNT] = {false};
	if (!write_part(page, "Dispose of, once out of date or replaced",
		&page->list->dispose, &SHAPE, fault)) {
		return false;
	}
	mark_hazards(page, &page->list->dispose, false, seen);
	write_cautions(page, seen, kinds_disposal_caution);
	return true;
}
