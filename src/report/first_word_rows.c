/* What of the first word has room on a screen, kept while it comes some boats at a time. */
#include "base/numbers.h"
#include "report/parts_inside.h"
#include "report/report_life.h"
#include "report/tags.h"
#include "report/words.h"

enum { TAGS_SHOWN = 4 };

const struct reply_column FIRST_WORD_COLUMNS[FIRST_WORD_CELLS] = {
    {.heading = "", .most = 26}, {.heading = "", .flexible = true},
    {.heading = "", .most = 18}, {.heading = "", .most = 30}};

void
first_word_report_clear(struct first_word_report *report)
{
	arena_clear(&report->arena);
	*report = (struct first_word_report){0};
}

/* Puts the last of some rows where it belongs, and leaves out what there is no room for: of
 * all that were told of, `count` with it. */
#define KEEP_FIRST(rows, count, compare)                                                 \
	ARRAY_SORT((rows), LESSER((count), (size_t)FIRST_WORD_ROWS + 1), compare)

/* Where the next of some rows is put, of which so many were told of. */
static size_t
next_row(size_t count)
{
	return LESSER(count, (size_t)FIRST_WORD_ROWS);
}

/* ---- not in date: of one boat ---- */

/* True for the first row of its item in its state. */
static bool
is_first_row(const struct first_word_part *part, size_t row)
{
	for (size_t i = 0; i < row; i++) {
		if (part->rows[i].item == part->rows[row].item &&
		    part->rows[i].state == part->rows[row].state) {
			return false;
		}
	}
	return true;
}

/* "service, renew": the tasks of that item in that state. */
static void
add_tasks(const struct first_word_part *part, size_t row, struct text *words)
{
	for (size_t i = row; i < part->row_count; i++) {
		if (part->rows[i].item == part->rows[row].item &&
		    part->rows[i].state == part->rows[row].state) {
			text_add_format(words, "%s%s", i == row ? "" : ", ",
			    task_word(part->rows[i].task));
		}
	}
}

static void
add_item_row(struct reply_table *table, const struct first_word *word,
    const struct known_gear *known, const struct first_word_part *part, size_t at)
{
	const struct agenda_row *row = &part->rows[at];
	const struct item *item = &known->inventory->items[row->item];
	struct standing_now standing = {row->state, row->due, row->good_through, ""};
	SCOPED_TEXT words = {0};
	reply_cell(table, HUE_STRONG, item->tag);
	reply_item(table, known->kinds, known->inventory, row->item, "");
	bool broken = row->state == STATE_IN_DATE;
	if (!broken) {
		add_tasks(part, at, &words);
	}
	reply_take(table, HUE_NONE, &words);
	text_add(&words, item->state == PLACE_LANDED ? "ashore; " : "");
	if (broken) {
		text_add_format(&words, "does not work: %s %s", row->not_working,
		    part_trouble_words(row->trouble));
	} else {
		add_state_words(&standing, word->today, &words);
	}
	reply_take(table, broken ? HUE_BAD : state_hue(row->state), &words);
}

static void
keep_items(struct first_word_report *report, const struct first_word *word,
    const struct known_gear *known, const struct first_word_part *part)
{
	if (report->table == NULL) {
		report->items = (struct reply){.arena = &report->arena};
		report->table = reply_table(
		    &report->items, FIRST_WORD_COLUMNS, FIRST_WORD_CELLS, LOOK_BARE);
	}
	for (size_t i = 0; i < part->row_count; i++) {
		if (is_first_row(part, i) && report->item_count++ < FIRST_WORD_ROWS) {
			add_item_row(report->table, word, known, part, i);
		}
	}
}

/* ---- not in date: by boat ---- */

static bool
row_binds(const struct agenda_row *row)
{
	return row->state == STATE_DATE_UNKNOWN || row->state == STATE_IN_DATE ||
	       row->grade != GRADE_PRACTICE;
}

/* The worst first; of equals, as the book has them. */
static int
compare_boats(const void *left, const void *right)
{
	const struct boat_row *a = left;
	const struct boat_row *b = right;
	int order = ORDER(b->binding, a->binding);
	order = ORDER_THEN(order, b->tasks, a->tasks);
	return ORDER_THEN(order, a->place, b->place);
}

/* Each tag once. */
static void
add_boat_tags(const struct inventory *inventory, const struct first_word_part *part,
    size_t vessel, struct text *words)
{
	SCOPED_ARENA arena = {0};
	struct tag_list list = {.out = words};
	size_t aboard = 0;
	size_t first = inventory_aboard(inventory, vessel, &aboard);
	bool *told = ARENA_MANY(&arena, bool, aboard);
	size_t shown = 0;
	size_t more = 0;
	for (size_t i = 0; i < part->row_count; i++) {
		size_t item = part->rows[i].item;
		if (inventory->items[item].vessel != vessel || told[item - first]) {
			continue;
		}
		told[item - first] = true;
		if (shown++ < TAGS_SHOWN) {
			tag_list_add(&list, inventory->items[item].tag);
		} else {
			more++;
		}
	}
	tag_list_end(&list);
	if (more > 0) {
		text_add_format(words, " and%c%zu%cmore", GLUE, more, GLUE);
	}
}

static void
keep_boat(struct first_word_report *report, const struct inventory *inventory,
    const struct first_word_part *part, size_t vessel, struct boat_row boat)
{
	struct boat_row *last = &report->boats[next_row(report->boat_count++)];
	if (report->boat_count > FIRST_WORD_ROWS && compare_boats(&boat, last - 1) > 0) {
		return;
	}
	SCOPED_TEXT tags = {0};
	add_boat_tags(inventory, part, vessel, &tags);
	boat.name = arena_string(&report->arena, inventory->vessels[vessel].name);
	boat.tags = arena_string(&report->arena, text_string(&tags));
	*last = boat;
	KEEP_FIRST(report->boats, report->boat_count, compare_boats);
}

/* Counts by boat. */
static void
keep_boats(struct first_word_report *report, const struct inventory *inventory,
    const struct first_word_part *part)
{
	SCOPED_ARENA arena = {0};
	struct boat_row *boats =
	    ARENA_MANY(&arena, struct boat_row, inventory->vessel_count);
	for (size_t i = 0; i < part->row_count; i++) {
		const struct agenda_row *row = &part->rows[i];
		struct boat_row *boat = &boats[inventory->items[row->item].vessel];
		boat->tasks++;
		boat->binding += row_binds(row) ? 1 : 0;
	}
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		boats[i].place = part->places[i];
		if (boats[i].tasks > 0) {
			keep_boat(report, inventory, part, i, boats[i]);
		}
	}
}

/* ---- what comes, and what is ashore ---- */

static int
compare_coming(const void *left, const void *right)
{
	const struct coming *a = left;
	const struct coming *b = right;
	int order = ORDER(a->day, b->day);
	return order != 0 ? order : strcmp(a->key, b->key);
}

static void
keep_coming(struct first_word_report *report, const struct first_word *word,
    const struct first_word_part *part)
{
	struct arena *arena = &report->arena;
	for (size_t i = 0; i < part->coming_count; i++) {
		const struct coming *coming = &part->coming[i];
		if (!coming_this_week(word, coming)) {
			(void)coming_days_note(&report->next, coming, arena);
			continue;
		}
		struct coming *last = &report->week[next_row(report->week_count++)];
		if (report->week_count > FIRST_WORD_ROWS &&
		    compare_coming(coming, last - 1) > 0) {
			continue;
		}
		*last = (struct coming){.day = coming->day,
		    .key = arena_string(arena, coming->key),
		    .summary = arena_string(arena, coming->summary)};
		KEEP_FIRST(report->week, report->week_count, compare_coming);
	}
}

static int
compare_ashore(const void *left, const void *right)
{
	const struct ashore_row *a = left;
	const struct ashore_row *b = right;
	int order = strcmp(a->station, b->station);
	order = ORDER_THEN(order, a->collect, b->collect);
	order = ORDER_THEN(order, a->place, b->place);
	return ORDER_THEN(order, a->nth, b->nth);
}

static void
keep_ashore(struct first_word_report *report, const struct inventory *inventory,
    const struct first_word_part *part, const struct whereabouts_list *list)
{
	struct arena *arena = &report->arena;
	for (size_t i = 0; i < list->count; i++) {
		const struct whereabouts *where = &list->items[i];
		const struct item *item = &inventory->items[where->item];
		size_t aboard = 0;
		struct ashore_row told = {where->station, where->collect,
		    part->places[item->vessel],
		    where->item - inventory_aboard(inventory, item->vessel, &aboard),
		    item->tag, where->assumed};
		struct ashore_row *last =
		    &report->ashore[next_row(report->ashore_count++)];
		if (report->ashore_count > FIRST_WORD_ROWS &&
		    compare_ashore(&told, last - 1) > 0) {
			continue;
		}
		told.station = arena_string(arena, told.station);
		told.tag = arena_string(arena, told.tag);
		*last = told;
		KEEP_FIRST(report->ashore, report->ashore_count, compare_ashore);
	}
}

void
report_first_word_some(struct first_word_report *report, const struct first_word *word,
    const struct known_gear *known, const struct first_word_part *part,
    const struct whereabouts_list *ashore)
{
	report->tasks += part->row_count;
	if (word->vessel != NULL) {
		keep_items(report, word, known, part);
	} else {
		keep_boats(report, known->inventory, part);
	}
	keep_coming(report, word, part);
	keep_ashore(report, known->inventory, part, ashore);
}
