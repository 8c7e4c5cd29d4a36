/* Where gear is, and what came back. */
#include "gear/money.h"
#include "life/serials.h"
#include "report/report_life.h"
#include "report/words.h"

#include <string.h>

static const struct table_column WHERE_COLUMNS[] = {
    {"Tag", 14, ALIGN_LEFT, false},
    {"What", 28, ALIGN_LEFT, false},
    {"Where", 0, ALIGN_LEFT, true},
};

/* "ashore at Holm Quay Safety Service since 25 Nov 2026, collect from 9 Dec 2026" */
static void
add_ashore(
    const struct report_style *style, const struct whereabouts *where, struct text *out)
{
	text_add_format(out, "ashore at %s",
	    where->station[0] == '\0' ? "a station that is not told" : where->station);
	if (where->since != DAY_NONE) {
		text_add(out, " since ");
		add_day(where->since, "", out);
	}
	if (where->collect != DAY_NONE) {
		bool over = where->collect < style->today;
		text_add(out, where->assumed ? ", collect about "
			      : over         ? ", to be collected since "
					     : ", collect from ");
		add_day(where->collect, "", out);
	}
}

static void
add_stand_in(const struct item *item, struct text *out)
{
	if (item->stands_for[0] != '\0') {
		text_add_format(out, " for %s", item->stands_for);
	}
	if (item->hired_until != DAY_NONE) {
		text_add(out, ", hired until ");
		add_day(item->hired_until, "", out);
	}
}

/* Where the item is, from outside in: "in LJ-1, which is ashore at ...". */
static void
add_where(const struct report_style *style, const struct lookout *lookout,
    const struct whereabouts *where, struct text *out)
{
	const struct inventory *inventory = lookout->inventory;
	const struct item *item = &inventory->items[where->item];
	const struct item *whole = &inventory->items[where->whole];
	const struct vessel *vessel = &inventory->vessels[whole->vessel];
	if (where->whole != where->item) {
		text_add_format(out, "with %s, ", whole->tag);
	}
	switch (where->state) {
	case PLACE_ABOARD:
		text_add_format(out, vessel->store ? "%s" : "aboard %s", vessel->name);
		break;
	case PLACE_RESERVE:
		text_add_format(out, "in reserve aboard %s", vessel->name);
		break;
	case PLACE_LANDED:
		add_ashore(style, where, out);
		break;
	case PLACE_STAND_IN:
		text_add_format(out, "standing in on %s", vessel->name);
		add_stand_in(whole, out);
		break;
	case PLACE_WITHDRAWN:
		text_add(out, "withdrawn");
		if (item->because != BECAUSE_NOT_SAID) {
			text_add_format(out, ", %s", because_word(item->because));
		}
		if (where->since != DAY_NONE) {
			text_add(out, ", on ");
			add_day(where->since, "", out);
		}
		break;
	}
	bool aboard = where->state != PLACE_LANDED && where->state != PLACE_WITHDRAWN;
	if (aboard && item->place[0] != '\0') {
		text_add_format(out, ": %s", item->place);
	}
	if (where->state == PLACE_LANDED) {
		text_add_format(out, " (of %s)", vessel->name);
	}
}

void
report_where(const struct report_style *style, const struct lookout *lookout,
    const struct whereabouts_list *list, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	table_init(&table, WHERE_COLUMNS, sizeof WHERE_COLUMNS / sizeof WHERE_COLUMNS[0],
	    0, style->colour);
	for (size_t i = 0; i < list->count; i++) {
		const struct whereabouts *where = &list->items[i];
		table_add(&table, HUE_STRONG, lookout->inventory->items[where->item].tag);
		text_reset(&words);
		add_item_name(lookout->kinds, lookout->inventory, where->item, &words);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_where(style, lookout, where, &words);
		table_add(&table, HUE_NONE, text_string(&words));
	}
	table_write(&table, out);
	for (size_t i = 0; i < list->count; i++) {
		text_reset(&words);
		serial_shared_words(lookout->inventory, list->items[i].item, &words);
		if (words.length > 0) {
			text_add(&words, ".");
			paragraph(text_string(&words), 0, 2, out);
			break;
		}
	}
}

static const struct table_column ASHORE_COLUMNS[] = {
    {"Tag", 14, ALIGN_LEFT, false},
    {"What", 0, ALIGN_LEFT, true},
    {"Vessel", 14, ALIGN_LEFT, false},
    {"Since", 0, ALIGN_LEFT, false},
    {"Back", 0, ALIGN_LEFT, false},
};

static void
add_ashore_row(const struct report_style *style, const struct lookout *lookout,
    const struct whereabouts *where, struct table *table, struct text *words)
{
	const struct inventory *inventory = lookout->inventory;
	const struct item *item = &inventory->items[where->item];
	table_add(table, HUE_STRONG, item->tag);
	add_item_cell(lookout->kinds, inventory, where->item, "", table);
	table_add(table, HUE_NONE, inventory->vessels[item->vessel].name);
	text_reset(words);
	add_day(where->since, "not known", words);
	table_add(table, HUE_NONE, text_string(words));
	text_reset(words);
	bool late = where->collect != DAY_NONE && where->collect < style->today;
	text_add(words, where->assumed && where->collect != DAY_NONE ? "about\001" : "");
	add_day(where->collect, "not known", words);
	text_add(words, late ? ",\001past" : "");
	table_add(table, late ? HUE_CARE : HUE_NONE, text_string(words));
}

void
report_ashore(const struct report_style *style, const struct lookout *lookout,
    const struct whereabouts_list *list, struct text *out)
{
	SCOPED_TEXT words = {0};
	for (size_t first = 0, end = 0; first < list->count; first = end) {
		SCOPED_TABLE table = {0};
		const char *station = list->items[first].station;
		table_init(&table, ASHORE_COLUMNS,
		    sizeof ASHORE_COLUMNS / sizeof ASHORE_COLUMNS[0], 0, style->colour);
		for (end = first;
		     end < list->count && strcmp(list->items[end].station, station) == 0;
		     end++) {
			add_ashore_row(style, lookout, &list->items[end], &table, &words);
		}
		text_reset(&words);
		text_add_format(&words, "Ashore at %s",
		    station[0] == '\0' ? "a station that is not told" : station);
		text_add(out, first == 0 ? "" : "\n");
		paragraph(text_string(&words), 0, 2, out);
		table_write(&table, out);
	}
	if (list->count == 0) {
		text_add(out, "Nothing is ashore.\n");
	}
}

static const struct table_column BACK_COLUMNS[] = {
    {"Tag", 14, ALIGN_LEFT, false},
    {"What", 24, ALIGN_LEFT, false},
    {"Back", 0, ALIGN_LEFT, false},
    {"Found", 0, ALIGN_LEFT, true},
};

static void
add_parts(const struct lookout *lookout, const struct came_back *back, struct text *words)
{
	for (size_t i = 0; i < back->renewed_count; i++) {
		const struct item *part = &lookout->inventory->items[back->renewed[i]];
		text_add_format(words, "; %s put in new", part->tag);
		if (part->expires.precision != STAMP_NONE) {
			text_add(words, ", marked ");
			add_stamp(part->expires, words);
		}
	}
}

static void
add_found(const struct report_style *style, const struct lookout *lookout,
    const struct came_back *back, struct text *words)
{
	const struct movement *movement = back->movement;
	char money[MONEY_WORDS_SIZE];
	text_add(words, result_word(movement->result));
	if (movement->station[0] != '\0') {
		text_add_format(words, " by %s", movement->station);
	}
	if (back->record != NULL && back->record->next.precision != STAMP_NONE) {
		text_add(words, "; next ");
		add_stamp(back->record->next, words);
	}
	add_parts(lookout, back, words);
	if (movement->price_minor >= 0) {
		text_add_format(words, "; %s",
		    money_words(movement->price_minor, style->currency, money));
	}
	if (movement->note[0] != '\0') {
		text_add_format(words, "; %s", movement->note);
	}
}

void
report_came_back(const struct report_style *style, const struct lookout *lookout,
    const struct came_back_list *list, bool all, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	size_t passed = 0;
	table_init(&table, BACK_COLUMNS, sizeof BACK_COLUMNS / sizeof BACK_COLUMNS[0], 0,
	    style->colour);
	for (size_t i = 0; i < list->count; i++) {
		const struct came_back *back = &list->items[i];
		if (!all && !back->different) {
			passed++;
			continue;
		}
		table_add(&table, HUE_STRONG, lookout->inventory->items[back->item].tag);
		text_reset(&words);
		add_item_name(lookout->kinds, lookout->inventory, back->item, &words);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_day(back->movement->on, "", &words);
		table_add(&table, HUE_NONE, text_string(&words));
		text_reset(&words);
		add_found(style, lookout, back, &words);
		table_add(
		    &table, back->different ? HUE_CARE : HUE_NONE, text_string(&words));
	}
	if (list->count == passed) {
		text_add(out, list->count == 0 ? "Nothing came back.\n"
					       : "Nothing came back different.\n");
	}
	table_write(&table, out);
	if (passed > 0) {
		text_add_format(out, "%zu more passed; --all shows %s.\n", passed,
		    passed == 1 ? "it" : "them");
	}
}
