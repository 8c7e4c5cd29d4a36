#include "base/numbers.h"
#include "exchange/csv_read.h"
#include "exchange/tag_index.h"

#include <string.h>

/* Adds a value; false, and "blank", where there is none. */
static bool
add_value(const struct item_change *change, enum item_field field, const char *currency,
    struct text *out)
{
	size_t before = out->length;
	field_add(&ITEM_FIELDS[field], change, currency, out);
	if (out->length == before) {
		text_add(out, "blank");
		return false;
	}
	return true;
}

/* Adds "expires 2026-06 -> 2027-06" for each column that differs; false when none does. */
static bool
add_differences(const struct item_change *old, const struct item_change *new,
    const char *currency, size_t *emptied, struct text *out)
{
	bool any = false;
	for (size_t i = 0; i < COLUMN_COUNT; i++) {
		enum csv_column column = (enum csv_column)i;
		int index = csv_column_field(column);
		enum item_field field = (enum item_field)index;
		if (index == NO_FIELD || (new->set & 1U << index) == 0 ||
		    field_same(&ITEM_FIELDS[field], old, new)) {
			continue;
		}
		text_add_format(out, "%s%s ", any ? ", " : "", CSV_COLUMNS[column]);
		any = true;
		if (field == FIELD_NOTES) {
			bool emptied_now = *new->notes == '\0';
			*emptied += emptied_now;
			text_add(out, emptied_now ? "emptied" : "rewritten");
			continue;
		}
		bool before = add_value(old, field, currency, out);
		text_add(out, " -> ");
		*emptied += !add_value(new, field, currency, out) && before;
	}
	return any;
}

static bool
is_new_record(const struct csv_row *row, const struct item *item)
{
	if (!row->has_record) {
		return false;
	}
	for (size_t i = 0; item != NULL && i < item->record_count; i++) {
		const struct record *known = &item->records[i];
		if (record_same(known, &row->record)) {
			return row->record.refit && !known->refit;
		}
	}
	return true;
}

static void
add_record(const struct record *record, struct text *out)
{
	char buffer[STAMP_TEXT_SIZE];
	text_add(out, "record of ");
	text_add(out, task_word(record->task));
	text_add(out, record->refit ? " (refit)" : "");
	text_add(out, " ");
	text_add(out, stamp_words(record->on, buffer));
	if (record->next.precision != STAMP_NONE) {
		text_add(out, ", next ");
		text_add(out, stamp_words(record->next, buffer));
	}
}

/* Adds an item's description, in quotes, where it is short and on one line: a list of fifty
 * kinds would not say which is which. */
static void
add_description(const struct item_change *change, struct text *out)
{
	enum { LONGEST = 60 };

	const char *at = change->description;
	size_t length = strlen(at);
	if (length == 0 || length > LONGEST || strcspn(at, "\r\n\t") != length) {
		return;
	}
	text_add_format(out, " \"%s\"", at);
}

/* The rows being compared. Borrowed, but for the index. */
struct row_comparing {
	const struct inventory *inventory;
	const char *currency;
	struct csv_effect *effect;
	struct spool *out;
	struct tag_index index;
	bool *named;             /* of each item, a row is about it */
	bool *listed;            /* of each vessel, so it is of one of hers */
	struct text words, line; /* owned; of the row at hand */
};

/* Adds the line of a row, with its words. */
static void
add_line(struct row_comparing *comparing, const struct csv_row *row)
{
	char number[INTEGER_TEXT_SIZE];
	struct text *line = &comparing->line;
	text_reset(line);
	text_add(line, "line ");
	text_add(line, integer_text((int64_t)row->line, number));
	text_add(line, ": ");
	text_add(line, row->change.tag);
	text_add_bytes(line, comparing->words.bytes, comparing->words.length);
	text_add_byte(line, '\n');
	spool_add(comparing->out, line->bytes, line->length);
}

/* Adds the row's line, when there is anything to say, and counts it. */
static bool
compare_row(struct csv_row *row, void *context, struct fault *fault)
{
	struct row_comparing *comparing = context;
	const struct inventory *inventory = comparing->inventory;
	const char *currency = comparing->currency;
	struct csv_effect *effect = comparing->effect;
	size_t found = tag_index_find(&comparing->index, row->change.tag);
	(void)fault;
	const struct item_change *change = &row->change;
	bool known = found != ITEM_NO_PARENT;
	struct text *words = &comparing->words;
	text_reset(words);
	if (!row->further && !known) {
		text_add(words, " added: ");
		text_add(words, change->kind);
		add_description(change, words);
		text_add(words, " aboard ");
		text_add(words, change->vessel);
		fields_add_understood(change, change->set, currency, words);
		effect->added++;
	} else if (!row->further) {
		struct item_change old = item_as_change(inventory, found);
		text_add(words, " changed: ");
		bool differs =
		    add_differences(&old, change, currency, &effect->emptied, words);
		effect->changed += differs;
		effect->same += !differs;
		if (!differs) {
			text_reset(words);
		}
	}
	if (is_new_record(row, known ? &inventory->items[found] : NULL)) {
		text_add(words, words->length > 0 ? "; new " : " new ");
		add_record(&row->record, words);
		effect->records++;
	}
	if (words->length > 0) {
		add_line(comparing, row);
	}
	if (known) {
		comparing->named[found] = true;
		comparing->listed[inventory->items[found].vessel] = true;
	}
	return true;
}

/* Adds the tags, the first of them, of gear aboard the file's boats that no row is about. */
static void
add_unnamed(const struct row_comparing *comparing)
{
	enum { TAGS_MOST = 20 };

	const struct inventory *inventory = comparing->inventory;
	struct csv_effect *effect = comparing->effect;
	SCOPED_TEXT out = {0};
	SCOPED_TEXT tags = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (comparing->named[i] || !comparing->listed[item->vessel] ||
		    item->state == PLACE_WITHDRAWN) {
			continue;
		}
		if (effect->unnamed++ < TAGS_MOST) {
			text_add_format(&tags, " %s", item->tag);
		}
	}
	if (effect->unnamed > 0) {
		text_add_format(
		    &out, "not in the list, and left as they are:%s", text_string(&tags));
		if (effect->unnamed > TAGS_MOST) {
			text_add_format(
			    &out, " and %zu more", effect->unnamed - TAGS_MOST);
		}
		text_add(&out, "\n");
		spool_add(comparing->out, out.bytes, out.length);
	}
}

bool
csv_compare(const struct csv_rows *rows, const struct inventory *inventory,
    const char *currency, struct csv_effect *effect_out, struct spool *lines_out,
    struct fault *fault)
{
	SCOPED_ARENA arena = {0};
	struct csv_effect effect = {0};
	struct row_comparing comparing = {.inventory = inventory,
	    .currency = currency,
	    .effect = &effect,
	    .out = lines_out,
	    .named = ARENA_MANY(&arena, bool, inventory->item_count),
	    .listed = ARENA_MANY(&arena, bool, inventory->vessel_count)};
	tag_index_make(inventory, &comparing.index);
	bool done = csv_rows_each(rows, compare_row, &comparing, fault);
	tag_index_clear(&comparing.index);
	text_clear(&comparing.words);
	text_clear(&comparing.line);
	if (done) {
		add_unnamed(&comparing);
		*effect_out = effect;
	}
	return done;
}
