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
		if (record_same(&item->records[i], &row->record)) {
			return false;
		}
	}
	return true;
}

static void
add_record(const struct record *record, struct text *out)
{
	char buffer[STAMP_TEXT_SIZE];
	text_add_format(out, "record of %s %s", task_word(record->task),
	    stamp_words(record->on, buffer));
	if (record->next.precision != STAMP_NONE) {
		text_add_format(out, ", next %s", stamp_words(record->next, buffer));
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

/* Adds the row's line, when there is anything to say, and counts it. */
static void
compare_row(const struct csv_row *row, const struct inventory *inventory, size_t found,
    const char *currency, struct csv_effect *effect, struct text *out)
{
	const struct item_change *change = &row->change;
	bool known = found != ITEM_NO_PARENT;
	SCOPED_TEXT words = {0};
	if (!row->further && !known) {
		text_add(&words, " added: ");
		text_add(&words, change->kind);
		add_description(change, &words);
		text_add(&words, " aboard ");
		text_add(&words, change->vessel);
		fields_add_understood(change, change->set, currency, &words);
		effect->added++;
	} else if (!row->further) {
		struct item_change old = item_as_change(inventory, found);
		text_add(&words, " changed: ");
		bool differs =
		    add_differences(&old, change, currency, &effect->emptied, &words);
		effect->changed += differs;
		effect->same += !differs;
		if (!differs) {
			text_reset(&words);
		}
	}
	if (is_new_record(row, known ? &inventory->items[found] : NULL)) {
		text_add(&words, words.length > 0 ? "; new " : " new ");
		add_record(&row->record, &words);
		effect->records++;
	}
	if (words.length > 0) {
		text_add_format(out, "line %zu: ", row->line);
		text_add(out, change->tag);
		text_add_bytes(out, words.bytes, words.length);
		text_add_byte(out, '\n');
	}
}

/* Adds the tags, the first of them, of gear aboard the file's boats that no row is about. */
static void
add_unnamed(const struct csv_rows *rows, const struct inventory *inventory,
    const struct tag_index *index, struct csv_effect *effect, struct text *out)
{
	enum { TAGS_MOST = 20 };

	SCOPED_ARENA arena = {0};
	bool *named = arena_alloc(&arena, inventory->item_count + 1);
	bool *listed = arena_alloc(&arena, inventory->vessel_count + 1);
	for (size_t i = 0; i < rows->count; i++) {
		size_t found = tag_index_find(index, rows->items[i].change.tag);
		if (found != ITEM_NO_PARENT) {
			named[found] = true;
			listed[inventory->items[found].vessel] = true;
		}
	}
	SCOPED_TEXT tags = {0};
	for (size_t i = 0; i < inventory->item_count; i++) {
		const struct item *item = &inventory->items[i];
		if (named[i] || !listed[item->vessel] || item->state == PLACE_WITHDRAWN) {
			continue;
		}
		if (effect->unnamed++ < TAGS_MOST) {
			text_add_format(&tags, " %s", item->tag);
		}
	}
	if (effect->unnamed > 0) {
		text_add_format(
		    out, "not in the list, and left as they are:%s", text_string(&tags));
		if (effect->unnamed > TAGS_MOST) {
			text_add_format(
			    out, " and %zu more", effect->unnamed - TAGS_MOST);
		}
		text_add(out, "\n");
	}
}

void
csv_compare(const struct csv_rows *rows, const struct inventory *inventory,
    const char *currency, struct csv_effect *effect_out, struct text *lines_out)
{
	SCOPED_TAG_INDEX index = {0};
	tag_index_make(inventory, &index);
	struct csv_effect effect = {0};
	for (size_t i = 0; i < rows->count; i++) {
		const struct csv_row *row = &rows->items[i];
		compare_row(row, inventory, tag_index_find(&index, row->change.tag),
		    currency, &effect, lines_out);
	}
	add_unnamed(rows, inventory, &index, &effect, lines_out);
	*effect_out = effect;
}
