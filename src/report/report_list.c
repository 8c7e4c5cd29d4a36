#include "dates/weekdays.h"
#include "gear/money.h"
#include "report/reply.h"
#include "report/words.h"

void
report_list_some(struct list_report *report, const struct kinds *kinds,
    const struct inventory *inventory, const size_t *items, size_t count)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Vessel", .most = 16},
	    {.heading = "Tag", .type = CELL_TAG, .most = 14},
	    {.heading = "What", .flexible = true}, {.heading = "Place", .most = 16},
	    {.heading = "Stands", .type = CELL_STATE}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < count; i++) {
		const struct item *item = &inventory->items[items[i]];
		bool gone = item->state == PLACE_WITHDRAWN;
		add_item_words(kinds, inventory, items[i], &words);
		reply_cell(table, HUE_NONE, inventory->vessels[item->vessel].name);
		reply_cell(table, HUE_STRONG, item->tag);
		reply_take(table, HUE_NONE, &words);
		reply_cell(table, HUE_NONE, item->place);
		reply_cell(table, gone ? HUE_CARE : HUE_NONE, place_word(item->state));
	}
	reply_rows_keep(&report->rows, table, NULL);
}

bool
report_list_end(struct list_report *report, const struct report_style *style,
    struct text *out, struct fault *fault)
{
	paragraph(report->rows.count == 0 ? "No gear to show." : "", 0, 0, out);
	return reply_rows_text(&report->rows, style->colour, out, fault);
}

void
list_report_clear(struct list_report *report)
{
	kept_rows_clear(&report->rows);
}

/* Adds a fact and empties its words, unless there is nothing to say. */
static void
add_fact(struct reply_table *table, const char *name, struct text *words)
{
	if (words->length > 0) {
		reply_cell(table, HUE_STRONG, name);
		reply_take(table, HUE_NONE, words);
	}
}

/* A record, and its number among the item's. */
static void
add_record(const struct report_style *style, const struct item *item, size_t index,
    struct reply_table *table, struct text *words)
{
	const struct record *record = &item->records[index];
	char stamp[STAMP_TEXT_SIZE];
	char money[MONEY_WORDS_SIZE];
	text_add(words, stamp_words(record->on, stamp));
	if (record->station[0] != '\0') {
		text_add_format(words, ", by %s", record->station);
	}
	if (record->certificate[0] != '\0') {
		text_add_format(words, ", certificate %s", record->certificate);
	}
	if (record->next.precision != STAMP_NONE) {
		text_add_format(
		    words, ", its paper says next %s", stamp_words(record->next, stamp));
	}
	if (record->price_minor >= 0) {
		text_add_format(words, ", %s",
		    money_words(record->price_minor, style->currency, money));
	}
	text_add_format(words, " (record %zu)", index + 1);
	add_fact(table, record_noun(record), words);
}

static void
add_history(const struct report_style *style, const struct item *item,
    struct reply_table *table, struct text *words)
{
	for (size_t i = 0; i < item->record_count; i++) {
		add_record(style, item, i, table, words);
	}
	for (size_t i = 0; i < item->event_count; i++) {
		add_day(item->events[i].on, "day not known", words);
		add_fact(table, event_word(item->events[i].kind), words);
	}
	for (size_t i = 0; i < item->extension_count; i++) {
		const struct extension *extension = &item->extensions[i];
		text_add_format(words, "%s until ", task_noun(extension->task));
		add_day(extension->until, "", words);
		text_add_format(words, ", paper %s", extension->paper);
		text_add(words, ", given ");
		add_day(extension->given, "on a day not known", words);
		add_fact(table, "extended", words);
	}
	for (size_t i = 0; i < item->interval_count; i++) {
		add_interval_words(&item->intervals[i], words);
		text_add(words, ", known on ");
		add_day(item->intervals[i].on, "", words);
		add_fact(table, "maker", words);
	}
}

static void
add_parts(const struct kinds *kinds, const struct inventory *inventory, size_t parent,
    struct reply_table *table, struct text *words)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (item->parent == parent && item->state != PLACE_WITHDRAWN) {
			text_add_format(words, "%s ", item->tag);
			add_kind_words(kinds, item, words);
			add_fact(table, "part", words);
		}
	}
}

/* What is known of it, field by field, in the order in which they are to be told. */
static void
add_fields(const struct report_style *style, const struct item_change *values,
    struct reply_table *table, struct text *words)
{
	for (const struct field *field = field_shown_after(0); field != NULL;
	     field = field_shown_after(field->shown)) {
		field_add_words(field, values, style->currency, words);
		add_fact(table, field->label == NULL ? field->name : field->label, words);
	}
}

void
report_show(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const struct paper *papers,
    size_t paper_count, struct text *out)
{
	const struct item *it = &inventory->items[item];
	static const struct reply_column COLUMNS[] = {
	    {.heading = "", .most = 14}, {.heading = "", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	const struct item_change values = item_as_change(inventory, item);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH | LOOK_BARE);
	add_item_words(kinds, inventory, item, &words);
	add_fact(table, it->tag, &words);
	add_fields(style, &values, table, &words);
	add_history(style, it, table, &words);
	for (size_t i = 0; i < it->movement_count; i++) {
		add_movement_words(style, &it->movements[i], &words);
		add_fact(table, move_word(it->movements[i].move), &words);
	}
	add_parts(kinds, inventory, item, table, &words);
	text_add(&words, it->notes);
	add_fact(table, "notes", &words);
	for (size_t i = 0; i < paper_count; i++) {
		add_paper_words(&papers[i], &words);
		add_fact(table, "paper", &words);
	}
	reply_write(&reply, style, out);
}

static void
add_vessel(const struct vessel *vessel, day_t today, struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	const struct period *period = vessel_period_on(vessel, today);
	reply_cell(table, HUE_STRONG, vessel->name);
	reply_cell(table, HUE_NONE, vessel->base);
	reply_cell(table, HUE_NONE, vessel->store ? "spares" : use_word(period->use));
	if (vessel->laid_up) {
		add_yearly(vessel->lay_up, &words);
	} else {
		text_add(&words, "none");
	}
	reply_take(table, HUE_NONE, &words);
	for (size_t i = 0; i < vessel->sheet_count; i++) {
		text_add_format(&words, "%s%s", i == 0 ? "" : ", ", vessel->sheets[i]);
	}
	reply_take(table, HUE_NONE, &words);
}

/* Adds what is said of a boat from a day on. */
static void
add_period(const struct period *period, struct text *words)
{
	const char *between = "; ";
	if ((period->says & SAYS_USE) != 0) {
		text_add_format(words, "%s%s use", between, use_word(period->use));
		between = ", ";
	}
	if ((period->says & SAYS_AREA) != 0) {
		text_add_format(words, "%sarea %s", between, period->area);
		between = ", ";
	}
	if ((period->says & SAYS_PERSONS) != 0) {
		text_add_format(words, "%s%d persons", between, period->persons);
		between = ", ";
	}
	if ((period->says & SAYS_SEASON) != 0) {
		text_add_format(words, "%sanother season", between);
		between = ", ";
	}
	if ((period->says & SAYS_BASE) != 0) {
		text_add_format(words, "%sat %s", between, period->base);
		between = ", ";
	}
	if ((period->says & SAYS_LAY_UP) != 0) {
		text_add_format(
		    words, "%s%s", between, period->laid_up ? "lay-up " : "no lay-up");
		between = ", ";
		if (period->laid_up) {
			add_yearly(period->lay_up, words);
		}
	}
	for (size_t i = 0; i < period->sheet_count && (period->says & SAYS_SHEETS) != 0;
	     i++) {
		text_add_format(
		    words, "%s%s%s", between, i == 0 ? "sheets " : "", period->sheets[i]);
		between = ", ";
	}
}

/* Says what of a boat will change and when, odd winters still to come, and the days on which her
 * gear goes to a station, for each boat with any of these. */
static void
add_changes(
    const struct vessel *vessel, day_t today, struct text *words, struct reply *reply)
{
	char first[DAY_WORDS_SIZE];
	char last[DAY_WORDS_SIZE];
	char goes[WEEKDAYS_TEXT_SIZE];
	text_reset(words);
	if (vessel->leaves) {
		text_add_format(words, "; %s on %s",
		    vessel->left > today ? "leaves" : "left",
		    day_words(vessel->left, first));
	}
	for (size_t i = 0; i < vessel->period_count; i++) {
		const struct period *period = &vessel->periods[i];
		if (period->from > today) {
			add_period(period, words);
			text_add_format(
			    words, " from %s", day_words(period->from, first));
		}
	}
	for (size_t i = 0; i < vessel->odd_winter_count; i++) {
		struct span span = vessel->odd_winters[i].span;
		if (span.last >= today) {
			text_add_format(words, "; winter %d from %s to %s",
			    vessel->odd_winters[i].year, day_words(span.first, first),
			    day_words(span.last, last));
		}
	}
	if (vessel->goes != 0) {
		text_add_format(words, "; her gear goes to a station on %s",
		    weekdays_text(vessel->goes, goes));
	}
	for (size_t i = 0; i < vessel->away_count; i++) {
		struct span span = vessel->away[i];
		if (span.last >= today) {
			text_add_format(words, "; not from %s to %s",
			    day_words(span.first, first), day_words(span.last, last));
		}
	}
	if (vessel->most_trips > 0) {
		text_add_format(words, "; at most %d %s to stations in a winter",
		    vessel->most_trips, vessel->most_trips == 1 ? "trip" : "trips");
	}
	if (words->length == 0) {
		return;
	}
	SCOPED_TEXT line = {0};
	text_add_format(&line, "%s: %s.", vessel->name, text_string(words) + 2);
	reply_say(reply, false, &line);
}

void
report_vessels(
    const struct report_style *style, const struct inventory *inventory, struct text *out)
{
	static const struct reply_column COLUMNS[] = {{.heading = "Vessel", .most = 20},
	    {.heading = "Base", .most = 16}, {.heading = "Use"},
	    {.heading = "Lay-up", .most = 15},
	    {.heading = "Rule sheets", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		add_vessel(&inventory->vessels[i], style->today, table);
	}
	if (inventory->vessel_count == 0) {
		reply_words(&reply, VOICE_PLAIN, false, 0, "No vessels to show.");
	}
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		add_changes(&inventory->vessels[i], style->today, &words, &reply);
	}
	reply_write(&reply, style, out);
}
