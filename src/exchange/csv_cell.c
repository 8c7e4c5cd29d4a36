/* One cell of a list, read into its place in the row. */
#include "exchange/csv_read.h"
#include "exchange/csv_words.h"
#include "exchange/item_fields.h"
#include "gear/money.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

enum { QUANTITY_MOST = 100000 };

const char *
csv_trimmed(struct arena *arena, const char *text)
{
	static const char BLANKS[] = " \t\r\n";
	const char *first = text + strspn(text, BLANKS);
	size_t length = strlen(first);
	while (length > 0 && strchr(BLANKS, first[length - 1]) != NULL) {
		length--;
	}
	char *copy = arena_alloc(arena, length + 1);
	if (copy == NULL) {
		return NULL;
	}
	memcpy(copy, first, length);
	copy[length] = '\0';
	return copy;
}

/* Where a column's text, date or price goes. */
static const char **
string_slot(struct csv_row *row, enum csv_column column)
{
	switch (column) {
	case COLUMN_TAG:
		return &row->change.tag;
	case COLUMN_STATION:
		return &row->record.station;
	case COLUMN_CERTIFICATE:
		return &row->record.certificate;
	default:
		return change_string(
		    &row->change, (enum item_field)csv_column_field(column));
	}
}

static struct stamp *
stamp_slot(struct csv_row *row, enum csv_column column)
{
	switch (column) {
	case COLUMN_SERVED:
		return &row->record.on;
	case COLUMN_NEXT:
		return &row->record.next;
	default:
		return change_stamp(
		    &row->change, (enum item_field)csv_column_field(column));
	}
}

static bool
read_name(const char *text, const char **out, struct fault *fault)
{
	for (const char *at = text; *at != '\0'; at++) {
		if (iscntrl((unsigned char)*at)) {
			return fault_set(fault, FAULT_INPUT,
			    "there is a line break or a control character in it");
		}
	}
	*out = text;
	return true;
}

static bool
read_number(
    struct csv_row *row, enum csv_column column, const char *text, struct fault *fault)
{
	size_t digits = strspn(text, "0123456789");
	long value = digits > 0 && digits <= 6 && text[digits] == '\0'
			 ? strtol(text, NULL, 10)
			 : 0;
	if (value < 1 || value > QUANTITY_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no %s; expected a whole number from 1 to %d", text,
		    CSV_COLUMNS[column], QUANTITY_MOST);
	}
	*change_number(&row->change, (enum item_field)csv_column_field(column)) =
	    (int)value;
	return true;
}

/* Reads a fixed word in any case of letters. */
static bool
read_word(
    struct csv_row *row, enum csv_column column, const char *word, struct fault *fault)
{
	char small[64];
	size_t length = strlen(word);
	if (length >= sizeof small) {
		length = sizeof small - 1;
	}
	for (size_t i = 0; i < length; i++) {
		small[i] = (char)text_lower(word[i]);
	}
	small[length] = '\0';
	if (column == COLUMN_TASK) {
		return task_parse(small, &row->record.task, fault);
	}
	return column == COLUMN_BECAUSE
		   ? because_parse(small, &row->change.because, fault)
		   : place_parse(small, &row->change.state, fault);
}

static bool
read_stamp(const struct csv_cell_how *how, struct csv_row *row, enum csv_column column,
    const char *text, struct fault *fault)
{
	struct stamp *slot = stamp_slot(row, column);
	struct stamp stamp = {0};
	if (!stamp_parse(text, how->order, &stamp, fault)) {
		return false;
	}
	if (column == COLUMN_EXPIRES && stamp.wording == WORDING_PLAIN) {
		stamp.wording = how->expires_wording;
	}
	*slot = stamp;
	return true;
}

/* A day of its own and no label's: to the day. */
static bool
read_day(const struct csv_cell_how *how, struct csv_row *row, enum csv_column column,
    const char *text, struct fault *fault)
{
	struct stamp stamp = {0};
	if (!stamp_parse(text, how->order, &stamp, fault)) {
		return false;
	}
	if (stamp.precision != STAMP_DAY || stamp.wording != WORDING_PLAIN) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no day; expected one as 2027-06-30", text);
	}
	*change_day(&row->change, (enum item_field)csv_column_field(column)) =
	    stamp_first(stamp);
	return true;
}

bool
csv_read_cell(const struct csv_cell_how *how, struct csv_row *row, enum csv_column column,
    const char *text, struct fault *fault)
{
	if (csv_column_shape(column) == SHAPE_TEXT) {
		*string_slot(row, column) = text;
		return true;
	}
	const char *word = csv_trimmed(how->arena, text);
	if (word == NULL) {
		return fault_memory(fault);
	}
	switch (csv_column_shape(column)) {
	case SHAPE_NAME:
		return read_name(word, string_slot(row, column), fault);
	case SHAPE_TEXT:
		return true;
	case SHAPE_STAMP:
		return read_stamp(how, row, column, word, fault);
	case SHAPE_DAY:
		return read_day(how, row, column, word, fault);
	case SHAPE_NUMBER:
		return read_number(row, column, word, fault);
	case SHAPE_PRICE:
		return money_parse(word, how->currency,
		    column == COLUMN_PAID ? &row->record.price_minor
					  : &row->change.price_minor,
		    fault);
	case SHAPE_KIND:
		row->change.kind = word;
		return true;
	case SHAPE_TASK:
	case SHAPE_STATE:
	case SHAPE_BECAUSE:
		return read_word(row, column, word, fault);
	}
	return false;
}
