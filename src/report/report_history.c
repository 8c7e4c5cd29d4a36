/* What was spent, and what happened to a serial number. */
#include "gear/money.h"
#include "life/serials.h"
#include "report/reply.h"
#include "report/report_life.h"
#include "report/words.h"

#include <string.h>

/* What sums are by: a kind, a station, a year, or nothing. */
enum sums_by { BY_KIND, BY_STATION, BY_YEAR, TOTAL };

static const struct reply_column SUMS_COLUMNS[] = {{.key = "by"},
    {.heading = "", .key = "name", .flexible = true}, /* told by what they are by */
    {.heading = "Work", .key = "work", .type = CELL_PRICE, .most = 16},
    {.heading = "Bought", .key = "bought", .type = CELL_PRICE, .most = 16},
    {.heading = "Together", .key = "together", .type = CELL_PRICE, .most = 16}};

static const struct {
	const char *heading;
	const char *code;
} SUMS_BY[] = {[BY_KIND] = {"By kind", "kind"},
    [BY_STATION] = {"By station", "station"},
    [BY_YEAR] = {"By year", "year"},
    [TOTAL] = {"Total", "total"}};

static void
add_name(const struct kinds *kinds, enum sums_by by, const struct spent *spent,
    struct reply_table *table)
{
	SCOPED_TEXT year = {0};
	switch (by) {
	case BY_KIND:
		reply_coded(table, HUE_NONE, kind_name(kinds, spent->name), spent->name);
		break;
	case BY_STATION:
		reply_coded(table, HUE_NONE,
		    spent->name[0] == '\0' ? "nobody told" : spent->name, spent->name);
		break;
	case BY_YEAR:
		text_add_format(&year, "%d", spent->year);
		reply_cell(table, HUE_NONE, text_string(&year));
		break;
	case TOTAL:
		reply_coded(table, HUE_STRONG, "all", "");
		break;
	}
}

/* A sum with its currency for people, who are told nothing by "0.00". */
static void
add_sum(const char *currency, int64_t minor, struct reply_table *table)
{
	char money[MONEY_WORDS_SIZE];
	SCOPED_TEXT bare = {0};
	money_add(minor, currency, &bare);
	reply_coded(table, HUE_NONE,
	    minor == 0 ? "-" : money_words(minor, currency, money), text_string(&bare));
}

static void
add_sums(const struct report_style *style, const struct kinds *kinds, enum sums_by by,
    const struct spent_list *list, struct reply *reply)
{
	struct reply_column *columns = arena_alloc(reply->arena, sizeof SUMS_COLUMNS);
	memcpy(columns, SUMS_COLUMNS, sizeof SUMS_COLUMNS);
	columns[1].heading = SUMS_BY[by].heading;
	struct reply_table *table = reply_table(reply, columns,
	    sizeof SUMS_COLUMNS / sizeof SUMS_COLUMNS[0], LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < list->count; i++) {
		const struct spent *spent = &list->items[i];
		reply_cell(table, HUE_NONE, SUMS_BY[by].code);
		add_name(kinds, by, spent, table);
		add_sum(style->currency, spent->work_minor, table);
		add_sum(style->currency, spent->bought_minor, table);
		add_sum(style->currency, spent->work_minor + spent->bought_minor, table);
	}
}

/* How many records have no price; nothing where all have. */
static void
add_unpriced(const struct spending *spending, struct reply *reply)
{
	SCOPED_TEXT words = {0};
	if (spending->unpriced > 0) {
		text_add_format(&words, "%zu %s of work without a price.",
		    spending->unpriced, spending->unpriced == 1 ? "record" : "records");
	}
	reply_words(reply, VOICE_PLAIN, true, 0, text_string(&words));
}

void
report_spent(const struct report_style *style, const struct kinds *kinds,
    const struct spending *spending, struct text *out)
{
	struct spent total = spending->total;
	const struct spent_list all = {&total, 1};
	bool priced = total.priced > 0;
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	if (spending->year != 0) {
		text_add_format(&words, "What gear cost in %d", spending->year);
	} else {
		text_add(&words, "What gear has cost");
	}
	reply_heading(&reply, 2, text_string(&words));
	reply_words(&reply, VOICE_PLAIN, false, 0,
	    priced ? "" : "Nothing with a price is on record.");
	add_sums(style, kinds, BY_KIND, &spending->kinds, &reply);
	add_sums(style, kinds, BY_STATION, &spending->stations, &reply);
	if (spending->year == 0 || style->csv) {
		add_sums(style, kinds, BY_YEAR, &spending->years, &reply);
	}
	if (priced || style->csv) {
		add_sums(style, kinds, TOTAL, &all, &reply);
	}
	add_unpriced(spending, &reply);
	reply_write(&reply, style, out);
}

static void
add_record(
    const struct report_style *style, const struct record *record, struct text *words)
{
	char money[MONEY_WORDS_SIZE];
	text_add(words, record_noun(record));
	add_where_any("by ", record->station, words);
	add_where_any("certificate ", record->certificate, words);
	if (record->next.precision != STAMP_NONE) {
		text_add(words, ", its paper says next ");
		add_stamp(record->next, words);
	}
	add_where_any(
	    "", money_words(record->price_minor, style->currency, money), words);
}

static void
add_happening(const struct report_style *style, const struct happening *happening,
    struct text *words)
{
	if (happening->record != NULL) {
		add_record(style, happening->record, words);
	} else if (happening->event != NULL) {
		text_add(words, event_word(happening->event->kind));
	} else {
		text_add(words, move_word(happening->movement->move));
		add_movement_particulars(style, happening->movement, words);
	}
}

/* What had the number: each with what else has it. */
static void
add_bearer(const struct kinds *kinds, const struct inventory *inventory, size_t index,
    struct reply *reply)
{
	SCOPED_TEXT words = {0};
	const struct item *item = &inventory->items[index];
	text_add_format(&words, "%s: %s on %s, %s", item->tag,
	    kind_name(kinds, item->kind), inventory->vessels[item->vessel].name,
	    place_word(item->state));
	add_where_any("", because_word(item->because), &words);
	add_where_any("serial ", item->serial, &words);
	text_add(&words, ".");
	reply_say(reply, false, &words);
	serial_shared_words(inventory, index, &words);
	text_add(&words, words.length > 0 ? "." : "");
	reply_block(reply, 2, text_string(&words));
}

void
report_history(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct history *history, struct text *out)
{
	static const struct reply_column COLUMNS[] = {
	    {.heading = "Day", .type = CELL_DAY},
	    {.heading = "Tag", .type = CELL_TAG, .most = 14},
	    {.heading = "What happened", .flexible = true}};
	SCOPED_TEXT words = {0};
	SCOPED_REPLY(reply);
	for (size_t i = 0; i < history->bearer_count; i++) {
		add_bearer(kinds, inventory, history->bearers[i], &reply);
	}
	struct reply_table *table = REPLY_TABLE(&reply, COLUMNS, LOOK_FLUSH | LOOK_APART);
	for (size_t i = 0; i < history->count; i++) {
		const struct happening *happening = &history->items[i];
		if (happening->record != NULL) {
			add_stamp(happening->record->on, &words);
		} else {
			add_day(happening->on, "", &words);
		}
		reply_take(table, HUE_NONE, &words);
		reply_cell(table, HUE_STRONG, inventory->items[happening->item].tag);
		add_happening(style, happening, &words);
		reply_take(table, HUE_NONE, &words);
	}
	reply_words(&reply, VOICE_PLAIN, true, 0,
	    history->count == 0 ? "Nothing is on record about it." : "");
	reply_write(&reply, style, out);
}
