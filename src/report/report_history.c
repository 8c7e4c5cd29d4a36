/* What was spent, and what happened to a serial number. */
#include "gear/money.h"
#include "life/serials.h"
#include "report/report_life.h"
#include "report/words.h"

static const struct table_column SPENT_COLUMNS[] = {
    {"", 0, ALIGN_LEFT, true},
    {"Work", 16, ALIGN_RIGHT, false},
    {"Bought", 16, ALIGN_RIGHT, false},
    {"Together", 16, ALIGN_RIGHT, false},
};

/* How a row is called: a kind by its name, a station, a year. */
enum heading { BY_KIND, BY_STATION, BY_YEAR, TOTAL };

static void
add_heading(const struct kinds *kinds, enum heading by, const struct spent *spent,
    struct table *table)
{
	SCOPED_TEXT words = {0};
	switch (by) {
	case BY_KIND:
		text_add(&words, kind_name(kinds, spent->name));
		break;
	case BY_STATION:
		text_add(&words, spent->name[0] == '\0' ? "nobody told" : spent->name);
		break;
	case BY_YEAR:
		text_add_format(&words, "%d", spent->year);
		break;
	case TOTAL:
		text_add(&words, "all");
		break;
	}
	table_add(table, by == TOTAL ? HUE_STRONG : HUE_NONE, text_string(&words));
}

static void
write_sums(const struct report_style *style, const struct kinds *kinds, const char *title,
    enum heading by, const struct spent_list *list, struct text *out)
{
	SCOPED_TABLE table = {0};
	char money[MONEY_WORDS_SIZE];
	if (list->count == 0) {
		return;
	}
	struct table_column columns[sizeof SPENT_COLUMNS / sizeof SPENT_COLUMNS[0]];
	for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
		columns[i] = SPENT_COLUMNS[i];
	}
	columns[0].heading = title;
	table_init(&table, columns, sizeof columns / sizeof columns[0], 0, style->colour);
	for (size_t i = 0; i < list->count; i++) {
		const struct spent *spent = &list->items[i];
		const int64_t sums[] = {spent->work_minor, spent->bought_minor,
		    spent->work_minor + spent->bought_minor};
		add_heading(kinds, by, spent, &table);
		for (size_t j = 0; j < sizeof sums / sizeof sums[0]; j++) {
			table_add(&table, HUE_NONE,
			    sums[j] == 0 ? "-"
					 : money_words(sums[j], style->currency, money));
		}
	}
	text_add_byte(out, '\n');
	table_write(&table, out);
}

void
report_spent(const struct report_style *style, const struct kinds *kinds,
    const struct spending *spending, struct text *out)
{
	struct spent total = spending->total;
	const struct spent_list all = {&total, 1};
	if (spending->year != 0) {
		text_add_format(out, "What gear cost in %d.\n", spending->year);
	} else {
		text_add(out, "What gear has cost.\n");
	}
	if (total.priced == 0) {
		text_add(out, "Nothing with a price is on record.\n");
	}
	write_sums(style, kinds, "By kind", BY_KIND, &spending->kinds, out);
	write_sums(style, kinds, "By station", BY_STATION, &spending->stations, out);
	if (spending->year == 0) {
		write_sums(style, kinds, "By year", BY_YEAR, &spending->years, out);
	}
	if (total.priced > 0) {
		write_sums(style, kinds, "Total", TOTAL, &all, out);
	}
	if (spending->unpriced > 0) {
		text_add_format(out, "\n%zu %s of work without a price.\n",
		    spending->unpriced, spending->unpriced == 1 ? "record" : "records");
	}
}

static const struct table_column HISTORY_COLUMNS[] = {
    {"Day", 0, ALIGN_LEFT, false},
    {"Tag", 14, ALIGN_LEFT, false},
    {"What happened", 0, ALIGN_LEFT, true},
};

static void
add_if(const char *word, const char *thing, struct text *out)
{
	if (thing != NULL && thing[0] != '\0') {
		text_add_format(out, ", %s%s", word, thing);
	}
}

static void
add_record(
    const struct report_style *style, const struct record *record, struct text *words)
{
	char money[MONEY_WORDS_SIZE];
	text_add(words, task_noun(record->task));
	add_if("by ", record->station, words);
	add_if("certificate ", record->certificate, words);
	if (record->next.precision != STAMP_NONE) {
		text_add(words, ", its paper says next ");
		add_stamp(record->next, words);
	}
	add_if("", money_words(record->price_minor, style->currency, money), words);
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

void
report_history(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct history *history, struct text *out)
{
	SCOPED_TABLE table = {0};
	SCOPED_TEXT words = {0};
	for (size_t i = 0; i < history->bearer_count; i++) {
		const struct item *item = &inventory->items[history->bearers[i]];
		text_reset(&words);
		text_add_format(&words, "%s: %s on %s, %s", item->tag,
		    kind_name(kinds, item->kind), inventory->vessels[item->vessel].name,
		    place_word(item->state));
		add_if("", because_word(item->because), &words);
		add_if("serial ", item->serial, &words);
		text_add(&words, ".");
		paragraph(text_string(&words), 0, 2, out);
		text_reset(&words);
		serial_shared_words(inventory, history->bearers[i], &words);
		if (words.length > 0) {
			text_add(&words, ".");
			paragraph(text_string(&words), 2, 2, out);
		}
	}
	table_init(&table, HISTORY_COLUMNS,
	    sizeof HISTORY_COLUMNS / sizeof HISTORY_COLUMNS[0], 0, style->colour);
	for (size_t i = 0; i < history->count; i++) {
		const struct happening *happening = &history->items[i];
		text_reset(&words);
		if (happening->record != NULL) {
			add_stamp(happening->record->on, &words);
		} else {
			add_day(happening->on, "", &words);
		}
		table_add(&table, HUE_NONE, text_string(&words));
		table_add(&table, HUE_STRONG, inventory->items[happening->item].tag);
		text_reset(&words);
		add_happening(style, happening, &words);
		table_add(&table, HUE_NONE, text_string(&words));
	}
	text_add_byte(out, '\n');
	if (history->count == 0) {
		text_add(out, "Nothing is on record about it.\n");
	}
	table_write(&table, out);
}
