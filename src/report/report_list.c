#include "dates/weekdays.h"
#include "gear/money.h"
#include "report/report.h"
#include "report/words.h"

#include <string.h>

static const struct table_column LIST_COLUMNS[] = {
    {"Vessel", 16, ALIGN_LEFT, false},
    {"Tag", 14, ALIGN_LEFT, false},
    {"What", 0, ALIGN_LEFT, true},
    {"Place", 16, ALIGN_LEFT, false},
    {"Stands", 0, ALIGN_LEFT, false},
};

void
report_list(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const size_t *items, size_t count,
    struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, LIST_COLUMNS, sizeof LIST_COLUMNS / sizeof LIST_COLUMNS[0], 0,
	    style->colour);
	for (size_t i = 0; i < count; i++) {
		const struct item *item = &inventory->items[items[i]];
		table_add(&table, HUE_NONE, inventory->vessels[item->vessel].name);
		table_add(&table, HUE_STRONG, item->tag);
		text_reset(&words);
		add_item_words(kinds, inventory, items[i], &words);
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, HUE_NONE, item->place);
		table_add(&table, item->state == PLACE_WITHDRAWN ? HUE_CARE : HUE_NONE,
		    place_word(item->state));
	}
	if (count == 0) {
		text_add(out, "No gear to show.\n");
	}
	table_write(&table, out);
}

static const struct table_column FACT_COLUMNS[] = {
    {"", 14, ALIGN_LEFT, false},
    {"", 0, ALIGN_LEFT, true},
};

/* Adds a fact, unless there is nothing to say. */
static void
add_fact(struct table *table, const char *name, const char *words)
{
	if (words[0] != '\0') {
		table_add(table, HUE_STRONG, name);
		table_add(table, HUE_NONE, words);
	}
}

/* A record, and its number among the item's. */
static void
add_record(const struct report_style *style, const struct item *item, size_t index,
    struct table *table, struct text *words)
{
	const struct record *record = &item->records[index];
	char stamp[STAMP_TEXT_SIZE];
	char money[MONEY_WORDS_SIZE];
	text_reset(words);
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
	add_fact(table, task_noun(record->task), text_string(words));
}

static void
add_history(const struct report_style *style, const struct item *item,
    struct table *table, struct text *words)
{
	for (size_t i = 0; i < item->record_count; i++) {
		add_record(style, item, i, table, words);
	}
	for (size_t i = 0; i < item->event_count; i++) {
		text_reset(words);
		add_day(item->events[i].on, "day not known", words);
		add_fact(table, event_word(item->events[i].kind), text_string(words));
	}
	for (size_t i = 0; i < item->extension_count; i++) {
		const struct extension *extension = &item->extensions[i];
		text_reset(words);
		text_add_format(words, "%s until ", task_noun(extension->task));
		add_day(extension->until, "", words);
		text_add_format(words, ", paper %s", extension->paper);
		text_add(words, ", given ");
		add_day(extension->given, "on a day not known", words);
		add_fact(table, "extended", text_string(words));
	}
	for (size_t i = 0; i < item->interval_count; i++) {
		text_reset(words);
		add_interval_words(&item->intervals[i], words);
		text_add(words, ", known on ");
		add_day(item->intervals[i].on, "", words);
		add_fact(table, "maker", text_string(words));
	}
}

static void
add_parts(const struct kinds *kinds, const struct inventory *inventory, size_t parent,
    struct table *table, struct text *words)
{
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (item->parent == parent && item->state != PLACE_WITHDRAWN) {
			text_reset(words);
			text_add_format(words, "%s ", item->tag);
			if (item->quantity > 1) {
				text_add_format(words, "%d x ", item->quantity);
			}
			text_add(words, kind_name(kinds, item->kind));
			add_fact(table, "part", text_string(words));
		}
	}
}

/* What is known of it, field by field, in the order in which they are to be told. */
static void
add_fields(const struct report_style *style, const struct item_change *values,
    struct table *table, struct text *words)
{
	for (const struct field *field = field_shown_after(0); field != NULL;
	     field = field_shown_after(field->shown)) {
		text_reset(words);
		field_add_words(field, values, style->currency, words);
		add_fact(table, field->label == NULL ? field->name : field->label,
		    text_string(words));
	}
}

void
report_show(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const struct paper *papers,
    size_t paper_count, struct text *out)
{
	const struct item *it = &inventory->items[item];
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	const struct item_change values = item_as_change(inventory, item);
	table_init(&table, FACT_COLUMNS, 2, 0, style->colour);
	add_item_words(kinds, inventory, item, &words);
	add_fact(&table, it->tag, text_string(&words));
	add_fields(style, &values, &table, &words);
	add_history(style, it, &table, &words);
	for (size_t i = 0; i < it->movement_count; i++) {
		text_reset(&words);
		add_movement_words(style, &it->movements[i], &words);
		add_fact(&table, move_word(it->movements[i].move), text_string(&words));
	}
	add_parts(kinds, inventory, item, &table, &words);
	add_fact(&table, "notes", it->notes);
	for (size_t i = 0; i < paper_count; i++) {
		text_reset(&words);
		add_paper_words(&papers[i], &words);
		add_fact(&table, "paper", text_string(&words));
	}
	table_write(&table, out);
}

static const struct table_column VESSEL_COLUMNS[] = {
    {"Vessel", 20, ALIGN_LEFT, false},
    {"Base", 16, ALIGN_LEFT, false},
    {"Use", 0, ALIGN_LEFT, false},
    {"Lay-up", 15, ALIGN_LEFT, false},
    {"Rule sheets", 0, ALIGN_LEFT, true},
};

static void
add_vessel(
    const struct vessel *vessel, day_t today, struct table *table, struct text *words)
{
	table_add(table, HUE_STRONG, vessel->name);
	table_add(table, HUE_NONE, vessel->base);
	const struct period *period = vessel_period_on(vessel, today);
	table_add(table, HUE_NONE, vessel->store ? "spares" : use_word(period->use));
	text_reset(words);
	if (vessel->laid_up) {
		add_yearly(vessel->lay_up, words);
	} else {
		text_add(words, "none");
	}
	table_add(table, HUE_NONE, text_string(words));
	text_reset(words);
	for (size_t i = 0; i < vessel->sheet_count; i++) {
		text_add_format(words, "%s%s", i == 0 ? "" : ", ", vessel->sheets[i]);
	}
	table_add(table, HUE_NONE, text_string(words));
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
    const struct vessel *vessel, day_t today, struct text *words, struct text *out)
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
	paragraph(text_string(&line), 0, 2, out);
}

void
report_vessels(
    const struct report_style *style, const struct inventory *inventory, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, VESSEL_COLUMNS,
	    sizeof VESSEL_COLUMNS / sizeof VESSEL_COLUMNS[0], 0, style->colour);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		add_vessel(&inventory->vessels[i], style->today, &table, &words);
	}
	if (inventory->vessel_count == 0) {
		text_add(out, "No vessels to show.\n");
	}
	table_write(&table, out);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		add_changes(&inventory->vessels[i], style->today, &words, out);
	}
}
