/* Where gear is, and what came back. */
#include "gear/money.h"
#include "life/serials.h"
#include "report/parts_inside.h"
#include "report/report_life.h"
#include "report/words.h"

#include <string.h>

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
add_where(const struct report_style *style, const struct known_gear *known,
    const struct whereabouts *where, struct text *out)
{
	const struct inventory *inventory = known->inventory;
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
report_where_some(struct where_report *report, const struct known_gear *known,
    const struct whereabouts_list *list)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Tag", .type = CELL_TAG, .most = 14},
	    {.heading = "What", .most = 28}, {.heading = "Where", .flexible = true}};
	SCOPED_TEXT words = {0};
	report->reply.arena = &report->arena;
	if (report->table == NULL) {
		report->table = REPLY_TABLE(&report->reply, COLUMNS, LOOK_FLUSH);
	}
	for (size_t i = 0; i < list->count; i++) {
		const struct whereabouts *where = &list->items[i];
		reply_cell(
		    report->table, HUE_STRONG, known->inventory->items[where->item].tag);
		add_item_name(known->kinds, known->inventory, where->item, &words);
		reply_take(report->table, HUE_NONE, &words);
		add_where(report->style, known, where, &words);
		reply_take(report->table, HUE_NONE, &words);
	}
	for (size_t i = 0; i < list->count && report->shared.length == 0; i++) {
		serial_shared_words(
		    known->inventory, list->items[i].item, &report->shared);
	}
}

void
report_where_end(struct where_report *report, struct text *out)
{
	text_add(&report->shared, report->shared.length > 0 ? "." : "");
	reply_say(&report->reply, false, &report->shared);
	reply_write(&report->reply, report->style, out);
}

void
where_report_clear(struct where_report *report)
{
	arena_clear(&report->arena);
	text_clear(&report->shared);
}

static const struct reply_column ASHORE_COLUMNS[] = {
    {.heading = "Tag", .key = "tag", .type = CELL_TAG, .most = 14},
    {.heading = "What", .flexible = true}, {.key = "kind"}, {.key = "description"},
    {.key = "serial"}, {.heading = "Vessel", .key = "vessel", .most = 14},
    {.key = "station"}, {.heading = "Since", .key = "since", .type = CELL_DAY},
    {.heading = "Back", .key = "collect", .type = CELL_DAY}, {.key = "assumed"}};

/* When it is to be back: "about 9 Dec 2026", "9 Dec 2026, past". */
static void
add_back(const struct report_style *style, const struct whereabouts *where,
    struct reply_table *table)
{
	SCOPED_TEXT words = {0};
	char iso[DAY_ISO_SIZE];
	bool late = where->collect != DAY_NONE && where->collect < style->today;
	text_add(&words, where->assumed && where->collect != DAY_NONE ? "about\001" : "");
	add_day(where->collect, "not known", &words);
	text_add(&words, late ? ",\001past" : "");
	reply_coded(table, late ? HUE_CARE : HUE_NONE, text_string(&words),
	    day_iso(where->collect, iso));
}

static void
add_ashore_row(const struct report_style *style, const struct known_gear *known,
    const struct whereabouts *where, struct reply_table *table)
{
	const struct inventory *inventory = known->inventory;
	const struct item *item = &inventory->items[where->item];
	reply_cell(table, HUE_STRONG, item->tag);
	reply_item(table, known->kinds, inventory, where->item, "");
	reply_cell(table, HUE_NONE, item->kind);
	reply_cell(table, HUE_NONE, item->description);
	reply_cell(table, HUE_NONE, item->serial);
	reply_cell(table, HUE_NONE, inventory->vessels[item->vessel].name);
	reply_cell(table, HUE_NONE, where->station);
	reply_day(table, HUE_NONE, where->since, "not known");
	add_back(style, where, table);
	reply_cell(table, HUE_NONE, where->assumed ? "yes" : "no");
}

/* A table a station; one without rows where nothing is ashore. */
static void
compose_ashore(const struct report_style *style, const struct known_gear *known,
    const struct whereabouts_list *list, struct reply *reply)
{
	struct reply_table *table = NULL;
	for (size_t i = 0; i < list->count; i++) {
		const char *station = list->items[i].station;
		if (i == 0 || strcmp(list->items[i - 1].station, station) != 0) {
			SCOPED_TEXT words = {0};
			text_add_format(&words, "Ashore at %s",
			    station[0] == '\0' ? "a station that is not told" : station);
			reply_words(reply, VOICE_PLAIN, i > 0, 2, text_string(&words));
			table = REPLY_TABLE(reply, ASHORE_COLUMNS, LOOK_FLUSH);
		}
		add_ashore_row(style, known, &list->items[i], table);
	}
	if (list->count == 0) {
		reply_words(reply, VOICE_PLAIN, false, 0, "Nothing is ashore.");
		(void)REPLY_TABLE(reply, ASHORE_COLUMNS, LOOK_FLUSH);
	}
}

void
report_ashore(const struct report_style *style, const struct known_gear *known,
    const struct whereabouts_list *list, struct text *out)
{
	SCOPED_REPLY(reply);
	compose_ashore(style, known, list, &reply);
	reply_write(&reply, style, out);
}

static void
add_parts(
    const struct known_gear *known, const struct came_back *back, struct text *words)
{
	for (size_t i = 0; i < back->renewed_count; i++) {
		const struct item *part = &known->inventory->items[back->renewed[i]];
		text_add_format(words, "; %s put in new", part->tag);
		if (part->expires.precision != STAMP_NONE) {
			text_add(words, ", marked ");
			add_stamp(part->expires, words);
		}
	}
}

static void
add_found(const struct report_style *style, const struct known_gear *known,
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
	add_parts(known, back, words);
	if (movement->price_minor >= 0) {
		text_add_format(words, "; %s",
		    money_words(movement->price_minor, style->currency, money));
	}
	if (movement->note[0] != '\0') {
		text_add_format(words, "; %s", movement->note);
	}
}

/* The tags of the parts put in new. */
static void
add_renewed(
    const struct inventory *inventory, const struct came_back *back, struct text *out)
{
	for (size_t i = 0; i < back->renewed_count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "" : ";",
		    inventory->items[back->renewed[i]].tag);
	}
}

static void
add_back_row(const struct report_style *style, const struct known_gear *known,
    const struct came_back *back, struct reply_table *table)
{
	const struct item *item = &known->inventory->items[back->item];
	const struct movement *movement = back->movement;
	const struct record *record = back->record;
	SCOPED_TEXT name = {0};
	SCOPED_TEXT found = {0};
	SCOPED_TEXT renewed = {0};
	add_item_name(known->kinds, known->inventory, back->item, &name);
	add_found(style, known, back, &found);
	add_renewed(known->inventory, back, &renewed);
	reply_cell(table, HUE_STRONG, item->tag);
	reply_coded(table, HUE_NONE, text_string(&name), item->kind);
	reply_cell(table, HUE_NONE, known->inventory->vessels[item->vessel].name);
	reply_day(table, HUE_NONE, movement->on, "");
	reply_cell(table, HUE_NONE, movement->station);
	reply_coded(table, back->different ? HUE_CARE : HUE_NONE, text_string(&found),
	    result_word(movement->result));
	reply_day(table, HUE_NONE,
	    record == NULL ? DAY_NONE : stamp_good_through(record->next), "");
	reply_cell(table, HUE_NONE,
	    record == NULL ? movement->certificate : record->certificate);
	reply_price(table, record == NULL ? movement->price_minor : record->price_minor,
	    style->currency);
	reply_cell(table, HUE_NONE, text_string(&renewed));
	reply_cell(table, HUE_NONE, movement->note);
	reply_cell(table, HUE_NONE, back->different ? "yes" : "no");
}

void
report_came_back(const struct report_style *style, const struct known_gear *known,
    const struct came_back_list *list, bool all, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Tag", .key = "tag", .type = CELL_TAG, .most = 14},
	    {.heading = "What", .key = "kind", .most = 24}, {.key = "vessel"},
	    {.heading = "Back", .key = "on", .type = CELL_DAY}, {.key = "station"},
	    {.heading = "Found", .key = "result", .flexible = true},
	    {.key = "next", .type = CELL_DAY}, {.key = "certificate"},
	    {.key = "price", .type = CELL_PRICE}, {.key = "renewed"}, {.key = "note"},
	    {.key = "different"}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	size_t passed = 0;
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH);
	for (size_t i = 0; i < list->count; i++) {
		if (all || list->items[i].different) {
			add_back_row(style, known, &list->items[i], table);
		} else {
			passed++;
		}
	}
	if (list->count == passed) {
		text_add(&words, list->count == 0 ? "Nothing came back."
						  : "Nothing came back different.");
	}
	reply_words(&reply, VOICE_PLAIN, false, 0, text_string(&words));
	text_reset(&words);
	if (passed > 0) {
		text_add_format(&words, "%zu more passed; --all shows %s.", passed,
		    passed == 1 ? "it" : "them");
	}
	reply_words(&reply, VOICE_PLAIN, false, 0, text_string(&words));
	reply_write(&reply, style, out);
}
