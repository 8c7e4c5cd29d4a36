/* The survey file's tables of gear and of rules. */
#include "report/parts_inside.h"
#include "report/words.h"

#include <string.h>

void
survey_cell(struct survey_page *page, const char *class_name, const char *text)
{
	markup_element(page->markup, "td", class_name, text);
}

static void
add_date_alone(struct text *words, struct stamp stamp)
{
	char buffer[STAMP_TEXT_SIZE];
	text_add(words, stamp_words(stamp, buffer));
}

static void
add_date(struct text *words, const char *name, struct stamp stamp)
{
	char buffer[STAMP_TEXT_SIZE];
	if (stamp.precision != STAMP_NONE) {
		text_add_format(words, "%s%s%s", words->length == 0 ? "" : ", ", name,
		    stamp_words(stamp, buffer));
	}
}

static void
add_words(struct text *words, const char *name, const char *value)
{
	if (value[0] != '\0') {
		text_add_format(
		    words, "%s%s%s", words->length == 0 ? "" : ", ", name, value);
	}
}

/* What it is and its make; and where it is, when it is not in its usual place. */
static void
describe(struct survey_page *page, size_t index)
{
	const struct item *item = &page->inventory->items[index];
	struct text *words = page->words;
	text_reset(words);
	add_item_short_words(page->kinds, page->inventory, index, words);
	add_words(words, "make ", item->make);
	if (item->state != PLACE_ABOARD) {
		add_words(words, "", place_word(item->state));
	}
	if (item->state == PLACE_LANDED) {
		add_words(words, "at ", item->landed_to);
	}
	if (item->hired_until != DAY_NONE) {
		text_add(words, ", hired until ");
		add_day(item->hired_until, "", words);
	}
}

static void
date(struct survey_page *page, const struct item *item)
{
	struct text *words = page->words;
	text_reset(words);
	add_date(words, "made ", item->made);
	add_date(words, "packed ", item->packed);
	add_date(words, "bought ", item->bought);
	add_date(words, "fitted ", item->fitted);
	add_date(words, "marked ", item->expires);
	if (words->length == 0) {
		text_add(words, "no date");
	}
}

/* The last record of a task up to the day of the survey; NULL when there is none. */
static const struct record *
last_record(const struct item *item, enum task task, day_t day)
{
	const struct record *last = NULL;
	for (size_t i = 0; i < item->record_count; i++) {
		const struct record *record = &item->records[i];
		if (record->task == task && stamp_first(record->on) <= day) {
			last = record;
		}
	}
	return last;
}

/* Adds ", Marrin Safety Depot, certificate MS-26-101": what a record has besides task and
 * day. */
static void
add_record_words(struct text *words, const struct record *record)
{
	add_words(words, "", record->station);
	add_words(words, "certificate ", record->certificate);
	add_date(words, "its paper says next ", record->next);
}

/* True when both records have the same dates, station and certificate, so that one line
 * shows both. */
static bool
one_paper(const struct record *a, const struct record *b)
{
	return stamp_same(a->on, b->on) && stamp_same(a->next, b->next) &&
	       strcmp(a->station, b->station) == 0 &&
	       strcmp(a->certificate, b->certificate) == 0;
}

/* "service, test 7 Feb 2026, Marrin Safety Depot, certificate MS-26-101"; nothing when a
 * record before this one has already shown it. */
static void
add_record(
    struct survey_page *page, const struct record *const records[TASK_COUNT], int at)
{
	struct text *words = page->words;
	text_reset(words);
	for (int task = 0; task < TASK_COUNT; task++) {
		if (records[task] == NULL || !one_paper(records[task], records[at])) {
			continue;
		}
		if (task < at) {
			return;
		}
		add_words(words, "", task_noun((enum task)task));
	}
	text_add_byte(words, ' ');
	add_date_alone(words, records[at]->on);
	add_record_words(words, records[at]);
	markup_element(page->markup, "div", NULL, text_string(words));
}

/* True for a task that is shown: not a routine, and not one that will never fall due
 * again. */
static bool
is_shown(const struct obligation *task)
{
	return !task->routine && !obligation_never_falls_due(task);
}

/* True when two tasks have the same state, so that one line shows both. */
static bool
stand_alike(const struct obligation *a, const struct obligation *b)
{
	return a->due == b->due && a->good_through == b->good_through &&
	       a->state == b->state;
}

/* "service, inspection 7 Feb 2027"; what is not in date says so. */
static void
add_due(struct survey_page *page, const struct survey_gear *gear, size_t at)
{
	const struct obligation *task = &gear->tasks[at];
	struct text *words = page->words;
	bool good = task->state == STATE_IN_DATE;
	bool unknown = task->state == STATE_DATE_UNKNOWN;
	text_reset(words);
	for (size_t i = at; i < gear->task_count; i++) {
		if (is_shown(&gear->tasks[i]) && stand_alike(task, &gear->tasks[i])) {
			text_add_format(words, "%s%s", words->length == 0 ? "" : ", ",
			    task_noun(gear->tasks[i].task));
		}
	}
	text_add_byte(words, ' ');
	if (!unknown) {
		add_day(task->due, "none", words);
	}
	struct standing_now standing = {task->state, good ? task->due : DAY_NONE,
	    good ? task->good_through : DAY_NONE, ""};
	text_add(words, unknown ? "" : good ? "" : ", ");
	if (!good || task->good_through != task->due) {
		text_add(words, good ? ", " : "");
		add_state_words(&standing, page->survey->muster->days.first, words);
	}
	markup_element(page->markup, "div", good ? NULL : "care", text_string(words));
}

static bool
told_before(const struct survey_gear *gear, size_t at)
{
	for (size_t i = 0; i < at; i++) {
		if (is_shown(&gear->tasks[i]) &&
		    stand_alike(&gear->tasks[i], &gear->tasks[at])) {
			return true;
		}
	}
	return false;
}

static void
add_dues(struct survey_page *page, const struct survey_gear *gear)
{
	bool any = false;
	markup_begin(page->markup, "td");
	for (size_t i = 0; i < gear->task_count; i++) {
		bool shown = is_shown(&gear->tasks[i]);
		any = any || shown;
		if (shown && !told_before(gear, i)) {
			add_due(page, gear, i);
		}
	}
	markup_text(page->markup, any ? "" : "no rule asks for anything");
	markup_end(page->markup);
}

static void
add_records(struct survey_page *page, const struct survey_gear *gear)
{
	const struct item *item = &page->inventory->items[gear->item];
	const struct record *records[TASK_COUNT] = {NULL};
	for (int task = 0; task < TASK_COUNT; task++) {
		records[task] =
		    last_record(item, (enum task)task, page->survey->muster->days.first);
	}
	markup_begin(page->markup, "td");
	for (int task = 0; task < TASK_COUNT; task++) {
		if (records[task] != NULL) {
			add_record(page, records, task);
		}
	}
	markup_end(page->markup);
}

/* A box to tick, in a cell of its own. */
void
survey_box(struct survey_page *page)
{
	markup_begin(page->markup, "td");
	markup_element(page->markup, "span", "box", "");
	markup_end(page->markup);
}

/* Where a piece is found: a part is where its whole is. */
static const char *
place_of(const struct survey_page *page, const struct survey_gear *gear)
{
	const struct item *items = page->inventory->items;
	size_t index = gear->item;
	while (items[index].parent != ITEM_NO_PARENT) {
		index = items[index].parent;
	}
	return items[index].place;
}

/* A row with a piece; `first` for the first piece at its place. */
static void
add_gear(struct survey_page *page, const struct survey_gear *gear, bool first)
{
	const struct item *item = &page->inventory->items[gear->item];
	const char *place = place_of(page, gear);
	markup_begin(page->markup, "tr");
	survey_box(page);
	survey_cell(
	    page, first ? "care" : "quiet", place[0] == '\0' ? "not said" : place);
	survey_cell(page, "tag", item->tag);
	describe(page, gear->item);
	survey_cell(page, NULL, text_string(page->words));
	survey_cell(page, NULL, item->serial);
	date(page, item);
	survey_cell(page, NULL, text_string(page->words));
	add_records(page, gear);
	add_dues(page, gear);
	markup_end(page->markup);
}

/* The gear by place, in the order in which the places come; those without one last. */
static void
add_places(struct survey_page *page)
{
	const struct survey *survey = page->survey;
	for (size_t first = 0; first <= survey->gear_count; first++) {
		bool rest = first == survey->gear_count;
		const char *place = rest ? "" : place_of(page, &survey->gear[first]);
		bool begun = false;
		for (size_t i = 0; i < first && !rest && !begun; i++) {
			begun = strcmp(place_of(page, &survey->gear[i]), place) == 0;
		}
		if (begun || (!rest && place[0] == '\0')) {
			continue;
		}
		bool headed = false;
		for (size_t i = rest ? 0 : first; i < survey->gear_count; i++) {
			if (strcmp(place_of(page, &survey->gear[i]), place) != 0) {
				continue;
			}
			add_gear(page, &survey->gear[i], !headed);
			headed = true;
		}
	}
}

static void
add_widths(struct survey_page *page)
{
	static const char *const WIDTHS[] = {
	    "n1", "n7", "n2", NULL, "n3", "n4", "n6", "n5"};

	markup_begin(page->markup, "colgroup");
	for (size_t i = 0; i < sizeof WIDTHS / sizeof WIDTHS[0]; i++) {
		markup_begin_class(page->markup, "col", WIDTHS[i]);
		markup_end(page->markup);
	}
	markup_end(page->markup);
}

void
survey_gear_table(struct survey_page *page)
{
	static const char *const COLUMNS[] = {
	    "Seen", "Place", "Tag", "What", "Serial", "Dates on it", "Last done", "Due"};

	struct text *words = page->words;
	text_reset(words);
	text_add(words, "Gear in the book, as on ");
	add_day(page->survey->muster->days.first, "", words);
	markup_element(page->markup, "h2", NULL, text_string(words));
	if (page->survey->gear_count == 0) {
		markup_element(page->markup, "p", NULL, "None.");
		return;
	}
	markup_begin_class(page->markup, "table", "docket listing");
	add_widths(page);
	markup_table_head(page->markup, COLUMNS, sizeof COLUMNS / sizeof COLUMNS[0], 0);
	markup_begin(page->markup, "tbody");
	add_places(page);
	markup_ends(page->markup, 2);
}

/* The rule behind the day of a task that is shown; NULL when none is. */
static const struct rule *
rule_of(const struct obligation *task)
{
	return !is_shown(task) || task->binding == NULL ? NULL : task->binding->rule;
}

/* True when a task before this one, in the order of the gear, has the same rule. */
static bool
was_named(const struct survey *survey, size_t gear, size_t at, const struct rule *rule)
{
	for (size_t i = 0; i <= gear; i++) {
		size_t count = i == gear ? at : survey->gear[i].task_count;
		for (size_t j = 0; j < count; j++) {
			if (rule_of(&survey->gear[i].tasks[j]) == rule) {
				return true;
			}
		}
	}
	return false;
}

/* True for rules that are shown together: of one sheet, grade and source. */
static bool
same_ground(const struct rule *a, const struct rule *b)
{
	return a->grade == b->grade && a->standing == b->standing &&
	       strcmp(a->sheet, b->sheet) == 0 && strcmp(a->source, b->source) == 0;
}

/* The next rule, from task `*at` of piece `*gear` on, that decides a day and is not shown
 * yet; both then point after it. NULL when there is none left. */
static const struct rule *
next_rule(const struct survey *survey, size_t *gear, size_t *at)
{
	for (; *gear < survey->gear_count; (*gear)++, *at = 0) {
		while (*at < survey->gear[*gear].task_count) {
			size_t here = (*at)++;
			const struct rule *rule =
			    rule_of(&survey->gear[*gear].tasks[here]);
			if (rule != NULL && !was_named(survey, *gear, here, rule)) {
				return rule;
			}
		}
	}
	return NULL;
}

/* "practice, grade practice: common practice, no published source: co-alarm-unmarked,
 * ..."; nothing when an earlier rule has already shown the same sheet, grade and
 * source. */
static void
add_ground(struct survey_page *page, const struct rule *rule)
{
	const struct survey *survey = page->survey;
	struct text *words = page->words;
	const struct rule *other = NULL;
	size_t gear = 0;
	size_t at = 0;
	bool first = true;
	text_reset(words);
	text_add_format(
	    words, "Sheet %s, grade %s; ", rule->sheet, grade_word(rule->grade));
	add_source(rule->source, rule->standing, words);
	while ((other = next_rule(survey, &gear, &at)) != NULL) {
		if (!same_ground(rule, other)) {
			continue;
		}
		if (first && other != rule) {
			return;
		}
		text_add_format(words, "%s%s", first ? ": " : ", ", other->id);
		first = false;
	}
	text_add_byte(words, '.');
	markup_element(page->markup, "li", NULL, text_string(words));
}

void
survey_rules_list(struct survey_page *page)
{
	const struct rule *rule = NULL;
	size_t gear = 0;
	size_t at = 0;
	while ((rule = next_rule(page->survey, &gear, &at)) != NULL) {
		add_ground(page, rule);
	}
	markup_element(page->markup, "li", NULL,
	    "Where a label, a certificate or an event decides, that is the source. The word in "
	    "brackets says how far the source itself was seen.");
}
