/* One cell of a list, read into its place in the row. */
#include "exchange/csv_inside.h"
#include "exchange/csv_read.h"
#include "gear/money.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

const char *
csv_trimmed(struct arena *arena, const char *text)
{
	static const char BLANKS[] = " \t\r\n";
	size_t whole = strlen(text);
	if (whole == 0 || (text[0] > ' ' && text[whole - 1] > ' ')) {
		return text;
	}
	const char *first = text + strspn(text, BLANKS);
	size_t length = strlen(first);
	while (length > 0 && strchr(BLANKS, first[length - 1]) != NULL) {
		length--;
	}
	if (first[length] == '\0') {
		return first;
	}
	char *copy = arena_alloc(arena, length + 1);
	memcpy(copy, first, length);
	copy[length] = '\0';
	return copy;
}

/* Where a column's value goes. */
static void *
slot(struct csv_row *row, enum csv_column column)
{
	void *of = csv_column_field(column) == NO_FIELD ? (void *)&row->record
							: (void *)&row->change;
	return field_in(csv_column_row(column), of);
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
	long value = csv_count(text);
	if (value < 1 || value > FIELD_NUMBER_MOST) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no %s; expected a whole number from 1 to %d", text,
		    CSV_COLUMNS[column], FIELD_NUMBER_MOST);
	}
	*(int *)slot(row, column) = (int)value;
	return true;
}

static bool
read_flag(const char *word, bool *out, struct fault *fault)
{
	*out = strcmp(word, "yes") == 0;
	return *out || strcmp(word, "no") == 0 ||
	       fault_set(
		   fault, FAULT_INPUT, "found \"%.40s\", expected one of: yes, no", word);
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
	switch (csv_column_row(column)->type) {
	case VALUE_TASK:
		return task_parse(small, slot(row, column), fault);
	case VALUE_BECAUSE:
		return because_parse(small, slot(row, column), fault);
	case VALUE_STATE:
		return place_parse(small, slot(row, column), fault);
	case VALUE_FLAG:
		return read_flag(small, slot(row, column), fault);
	case VALUE_TEXT:
	case VALUE_NAME:
	case VALUE_KIND:
	case VALUE_STAMP:
	case VALUE_DAY:
	case VALUE_COUNT:
	case VALUE_PRICE:
	case VALUE_USE:
	case VALUE_LENGTH:
	case VALUE_EITHER:
		break;
	}
	return false;
}

/* Notes what a date says of the order of its list. */
static void
take_hint(const struct csv_cell_how *how, const char *text)
{
	struct stamp stamp;
	struct fault fault = {0};
	bool day_first = stamp_parse(text, ORDER_DAY_FIRST, &stamp, &fault);
	bool month_first = stamp_parse(text, ORDER_MONTH_FIRST, &stamp, &fault);
	struct date_hints *hints = how->hints;
	if (csv_either_way(text)) {
		hints->either++;
		complain_doubt(how->complaints, DOUBT_ORDER, text, how->line, "");
	}
	if (day_first && !month_first && hints->day_first == NULL) {
		hints->day_first = arena_string(how->complaints->arena, text);
	}
	if (month_first && !day_first && hints->month_first == NULL) {
		hints->month_first = arena_string(how->complaints->arena, text);
	}
}

/* True for a date that ends in two digits after a letter or a separator, with the century
 * put before them as POSIX has it for %y: 69 to 99 are 1969 to 1999, 00 to 68 are 2000 to
 * 2068. */
static bool
with_century(const char *text, struct text *out)
{
	size_t length = strlen(text);
	const char *year = text + length - 2;
	if (length < 4 || !isdigit((unsigned char)year[0]) ||
	    !isdigit((unsigned char)year[1]) || strchr("/.- '", year[-1]) == NULL) {
		return false;
	}
	text_add_bytes(out, text, length - (year[-1] == '\'' ? 3 : 2));
	text_add_format(
	    out, "%s%s", year[0] >= '7' || strcmp(year, "69") == 0 ? "19" : "20", year);
	return true;
}

/* A stamp as the list has it. Where only a century is missing, says which option puts it. */
static bool
read_list_stamp(const struct csv_cell_how *how, const char *text, struct stamp *out,
    struct fault *fault)
{
	SCOPED_TEXT whole = {0};
	if (csv_stamp(text, how->order, out, fault)) {
		return true;
	}
	struct fault why = {0};
	if (!with_century(text, &whole)) {
		return false;
	}
	const char *longer = text_string(&whole);
	bool reads = stamp_parse(longer, how->order, out, &why);
	if (how->two_digit_years) {
		*fault = why;
		return reads;
	}
	if (reads || stamp_parse(longer, ORDER_DAY_FIRST, out, &why) ||
	    stamp_parse(longer, ORDER_MONTH_FIRST, out, &why)) {
		*fault = (struct fault){0};
		complain_doubt(
		    how->complaints, DOUBT_TWO_DIGITS, text, how->line, longer);
		(void)fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" has a year of two digits; --two-digit-years makes it \"%s\"",
		    text, longer);
	}
	return false;
}

static bool
read_stamp(const struct csv_cell_how *how, struct csv_row *row, enum csv_column column,
    const char *text, struct fault *fault)
{
	struct stamp stamp = {0};
	/* what begins with its year reads the same in every order */
	bool year_first = strspn(text, "0123456789") == 4;
	if (how->order == ORDER_ISO && !year_first && strpbrk(text, "/.-") != NULL) {
		take_hint(how, text);
	}
	if (!read_list_stamp(how, text, &stamp, fault)) {
		return false;
	}
	if (stamp.wording == WORDING_PLAIN) {
		stamp.wording = how->wording;
	}
	*(struct stamp *)slot(row, column) = stamp;
	return true;
}

/* A day of its own and no label's: to the day. */
static bool
read_day(const struct csv_cell_how *how, struct csv_row *row, enum csv_column column,
    const char *text, struct fault *fault)
{
	struct stamp stamp = {0};
	if (!csv_stamp(text, how->order, &stamp, fault)) {
		return false;
	}
	if (stamp.precision != STAMP_DAY || stamp.wording != WORDING_PLAIN) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no day; expected one as 2027-06-30", text);
	}
	*(day_t *)slot(row, column) = stamp_first(stamp);
	return true;
}

/* Where a price has one comma or point, with just three digits after it, which could part
 * thousands or decimals; NULL for any other. */
static const char *
mark_of_either(const char *text)
{
	static const char DIGITS[] = "0123456789";
	const char *mark = strpbrk(text, ".,");
	bool either = mark != NULL && strspn(mark + 1, DIGITS) == 3 &&
		      strpbrk(mark + 1, ".,") == NULL;
	return either ? mark : NULL;
}

/* A price as the list has it. One that could be read in two ways is read as was told. */
static bool
read_price(
    const struct csv_cell_how *how, const char *text, int64_t *out, struct fault *fault)
{
	if (money_parse(text, how->currency, out, fault)) {
		return true;
	}
	const char *mark = mark_of_either(text);
	if (mark == NULL) {
		return false;
	}
	int64_t minor = -1;
	char words[MONEY_WORDS_SIZE];
	struct fault why = {0};
	SCOPED_TEXT whole = {0};
	text_add_format(&whole, "%.*s%s", (int)(mark - text), text, mark + 1);
	if (!money_parse(text_string(&whole), how->currency, &minor, &why)) {
		return false;
	}
	enum csv_decimals thousands = *mark == '.' ? DECIMALS_COMMA : DECIMALS_POINT;
	if (how->decimals == thousands) {
		*out = minor;
		return true;
	}
	if (how->decimals == DECIMALS_ASKED) {
		complain_doubt(how->complaints, DOUBT_DECIMALS, text, how->line, "");
		return fault_set(fault, FAULT_INPUT,
		    "\"%.40s\" is no price: its %s could part thousands or decimals; "
		    "--decimals %s makes it %s",
		    text, *mark == '.' ? "point" : "comma",
		    *mark == '.' ? "comma" : "point",
		    money_words(minor, how->currency, words));
	}
	return false;
}

/* Text as it is; a further column of it goes after the first's. */
static void
read_text(const struct csv_cell_how *how, const char *text, const char **out)
{
	if (**out != '\0') {
		text = arena_format(how->arena, "%s; %s", *out, text);
	}
	*out = text;
}

bool
csv_read_cell(const struct csv_cell_how *how, struct csv_row *row, enum csv_column column,
    const char *text, struct fault *fault)
{
	if (csv_column_row(column)->type == VALUE_TEXT) {
		read_text(how, text, slot(row, column));
		return true;
	}
	const char *word = csv_trimmed(how->arena, text);
	switch (csv_column_row(column)->type) {
	case VALUE_NAME:
		return read_name(word, slot(row, column), fault);
	case VALUE_TEXT:
		return true;
	case VALUE_STAMP:
		return read_stamp(how, row, column, word, fault);
	case VALUE_DAY:
		return read_day(how, row, column, word, fault);
	case VALUE_COUNT:
		return read_number(row, column, word, fault);
	case VALUE_PRICE:
		return read_price(how, word, slot(row, column), fault);
	case VALUE_KIND:
		*(const char **)slot(row, column) = word;
		return true;
	case VALUE_TASK:
	case VALUE_STATE:
	case VALUE_BECAUSE:
	case VALUE_FLAG:
		return read_word(row, column, word, fault);
	case VALUE_USE:
	case VALUE_LENGTH:
	case VALUE_EITHER:
		break; /* of no column of gear */
	}
	return false;
}
