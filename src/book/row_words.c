#include "book/journal_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What a book is about; the first that a row refers to is the one it is told under. */
static const struct {
	const char *table;
	const char *name; /* the column with its name */
	enum statement named;
} SUBJECTS[] = {
    {"item", "tag", ITEM_NAMED},
    {"vessel", "name", VESSEL_NAMED},
    {"station", "name", STATION_NAMED},
};

enum { SUBJECT_COUNT = sizeof SUBJECTS / sizeof SUBJECTS[0] };

/* Rows that refer to none of these and are told under another word than their table's. */
static const struct {
	const char *table;
	const char *about;
	const char *name; /* the column with its name; "" where it has none */
} OTHERS[] = {
    {"reminder_choice", "reminder", ""},
    {"reminder_notice", "reminder", ""},
    {"reminder_planned", "reminder", "summary"},
    {"caldav_account", "calendar", "name"},
};

enum { OTHER_COUNT = sizeof OTHERS / sizeof OTHERS[0] };

/* Parts what is told of a row. */
#define COMMA ", "

/* The subject that a table has; their number for none. */
static size_t
subject_index(const char *table)
{
	size_t i = 0;
	while (i < SUBJECT_COUNT && strcmp(SUBJECTS[i].table, table) != 0) {
		i++;
	}
	return i;
}

struct column_words {
	const char *lead; /* what stands before its words: ", made " */
	size_t refers;    /* to which of the subjects; their number for none */
	struct value fallback;
	bool weekday;
};

/* What the rows of a table are worded by. */
struct table_words {
	const struct table_shape *shape;
	size_t subject; /* which of the subjects its rows are; their number for none */
	size_t name, kind, serial; /* the columns with what is told of such a row */
	struct column_words *columns;
};

static struct column_words
column_words_of(struct row_wording *wording, const struct column *column)
{
	SCOPED_TEXT lead = {0};
	text_add(&lead, COMMA);
	add_column_label(column->name, &lead);
	text_add_byte(&lead, ' ');
	return (struct column_words){
	    .lead = arena_string(&wording->kept, text_string(&lead)),
	    .refers =
		column->refers == NULL ? SUBJECT_COUNT : subject_index(column->refers),
	    .fallback = column_fallback(column),
	    .weekday = strcmp(column->name, "weekday") == 0,
	};
}

/* Worked out once for rows of one table that follow one another. */
static const struct table_words *
words_of(struct row_wording *wording, const struct table_shape *shape)
{
	if (wording->words != NULL && wording->words->shape == shape) {
		return wording->words;
	}
	struct table_words *words = arena_alloc(&wording->kept, sizeof *words);
	wording->words = words;
	*words = (struct table_words){
	    .shape = shape,
	    .subject = subject_index(shape->name),
	    .kind = shape_column(shape, "kind"),
	    .serial = shape_column(shape, "serial"),
	    .columns = ARENA_MANY(&wording->kept, struct column_words, shape->count),
	};
	words->name = words->subject < SUBJECT_COUNT
			  ? shape_column(shape, SUBJECTS[words->subject].name)
			  : shape->count;
	for (size_t i = 0; i < shape->count; i++) {
		words->columns[i] = column_words_of(wording, &shape->columns[i]);
	}
	return words;
}

/* The text of a column; "" where there is none. */
static const char *
text_of(struct row_wording *wording, const struct table_shape *shape,
    const struct value *values, size_t column)
{
	const char *text =
	    column < shape->count ? value_text(&values[column], &wording->passing) : NULL;
	return text == NULL ? "" : text;
}

static struct row_subject
own_subject(
    struct row_wording *wording, const struct table_words *words, const struct value *row)
{
	const struct table_shape *shape = words->shape;
	return (struct row_subject){shape->name,
	    text_of(wording, shape, row, words->name),
	    text_of(wording, shape, row, words->kind),
	    text_of(wording, shape, row, words->serial)};
}

static struct row_subject
subject_touched(struct row_wording *wording, size_t index, const struct value *values)
{
	const char *table = SUBJECTS[index].table;
	const struct table_shape *shape = shape_known(table);
	return (struct row_subject){table,
	    text_of(wording, shape, values, shape_column(shape, SUBJECTS[index].name)),
	    text_of(wording, shape, values, shape_column(shape, "kind")),
	    text_of(wording, shape, values, shape_column(shape, "serial"))};
}

/* The item that was read with the row at hand. */
static struct row_subject
subject_read(struct row_wording *wording)
{
	const struct named_item *of = wording->of;
	return (struct row_subject){"item", of->tag, of->kind, of->serial};
}

/* The item, vessel or station with this number. What the transaction itself touched is
 * not asked for, and has its name there when it is gone. */
static bool
ask_subject(struct row_wording *wording, size_t index, int64_t id,
    struct row_subject *out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	const char *table = SUBJECTS[index].table;
	const struct value *touched =
	    collected_row(&wording->book->told, table, id, &wording->passing);
	if (touched != NULL) {
		*out = subject_touched(wording, index, touched);
		return true;
	}
	if (!call_open(wording->book, SUBJECTS[index].named, &call, fault)) {
		return false;
	}
	give_int(&call, id);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*out = (struct row_subject){table, "", "", ""};
	if (row) {
		out->name = take_text(&call, &wording->passing);
		out->kind = take_text(&call, &wording->passing);
		out->serial = take_text(&call, &wording->passing);
	}
	return true;
}

/* The same; many rows one after the other are of one vessel, which is asked for once. */
static bool
find_subject(struct row_wording *wording, size_t index, int64_t id,
    struct row_subject *out, struct fault *fault)
{
	struct text *name = &wording->vessel_name;
	bool of_vessel = SUBJECTS[index].named == VESSEL_NAMED;
	if (of_vessel && id == wording->vessel) {
		*out = (struct row_subject){SUBJECTS[index].table,
		    arena_string(&wording->passing, text_string(name)), "", ""};
		return true;
	}
	if (SUBJECTS[index].named == ITEM_NAMED && wording->of != NULL &&
	    wording->of->id == id) {
		*out = subject_read(wording);
		return true;
	}
	if (!ask_subject(wording, index, id, out, fault)) {
		return false;
	}
	if (of_vessel) {
		wording->vessel = id;
		text_reset(name);
		text_add(name, out->name);
	}
	return true;
}

static struct row_subject
other_subject(
    struct row_wording *wording, const struct table_shape *shape, const struct value *row)
{
	for (size_t i = 0; i < OTHER_COUNT; i++) {
		if (strcmp(OTHERS[i].table, shape->name) == 0) {
			return (struct row_subject){OTHERS[i].about,
			    text_of(
				wording, shape, row, shape_column(shape, OTHERS[i].name)),
			    "", ""};
		}
	}
	return (struct row_subject){shape->name, "", "", ""};
}

/* The number in a value; columns that hold numbers hold no text. */
static int64_t
number_of(const struct value *value)
{
	return value->held == HELD_INTEGER ? value->number : 0;
}

bool
row_subject(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, struct row_subject *out, struct fault *fault)
{
	const struct table_words *words = words_of(wording, shape);
	if (words->subject < SUBJECT_COUNT) {
		*out = own_subject(wording, words, row);
		return true;
	}
	for (size_t index = 0; index < SUBJECT_COUNT; index++) {
		for (size_t i = 0; i < shape->count; i++) {
			if (words->columns[i].refers == index &&
			    row[i].held == HELD_INTEGER) {
				return find_subject(
				    wording, index, row[i].number, out, fault);
			}
		}
	}
	*out = other_subject(wording, shape, row);
	return true;
}

/* "2027-06", "before 2027-06"; "11-01" for a day of every year. What is none of these is told
 * as it stands. */
static const char *
day_in_words(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, size_t column)
{
	size_t worded = shape->columns[column].worded;
	size_t estimated = shape->columns[column].estimated;
	bool is_stamp = worded != 0;
	int64_t day = number_of(&row[column]);
	char words[STAMP_TEXT_SIZE];
	struct stamp stamp = {0};
	if (!is_stamp && day > 0 && day < 1300) {
		(void)snprintf(
		    words, sizeof words, "%02d-%02d", (int)(day / 100), (int)(day % 100));
		return arena_string(&wording->passing, words);
	}
	int64_t how = is_stamp ? number_of(&row[worded]) : 0;
	bool about = is_stamp && number_of(&row[estimated]) == 1;
	return stamp_of_stored(day, how, about, &stamp)
		   ? arena_string(&wording->passing, stamp_text(stamp, words))
		   : text_of(wording, shape, row, column);
}

bool
value_words(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, size_t column, const char **out, struct fault *fault)
{
	const struct column_words *words = &words_of(wording, shape)->columns[column];
	enum column_type type = shape->columns[column].type;
	const struct value *value = &row[column];
	bool number = value->held == HELD_INTEGER;
	if (number && words->refers < SUBJECT_COUNT) {
		struct row_subject named = {0};
		if (!find_subject(wording, words->refers, value->number, &named, fault)) {
			return false;
		}
		*out = named.name;
	} else if (number && type == COLUMN_MONEY && value->number < 0) {
		*out = "";
	} else if (number && words->weekday && value->number >= 0 && value->number <= 6) {
		*out = weekday_name((int)value->number);
	} else if (number && type == COLUMN_FLAG) {
		*out = value->number == 0 ? "no" : "yes";
	} else if (number && type == COLUMN_DAY) {
		*out = day_in_words(wording, shape, row, column);
	} else {
		*out = text_of(wording, shape, row, column);
	}
	return true;
}

/* Says nothing that the schema would have put there, or that the line says already. */
static bool
is_telling(const struct table_words *words, const struct value *row, size_t column,
    const struct row_subject *subject)
{
	const struct column_words *about = &words->columns[column];
	if (row[column].held == HELD_NOTHING || words->shape->columns[column].silent ||
	    value_same(&row[column], &about->fallback)) {
		return false;
	}
	bool is_owner = about->refers < SUBJECT_COUNT &&
			words->subject == SUBJECT_COUNT && subject->name[0] != '\0' &&
			strcmp(SUBJECTS[about->refers].table, subject->about) == 0;
	return column != words->name && !is_owner;
}

/* "task service, on 2024-05-20, station Cape Lorne Rafts" */
bool
row_in_words(struct row_wording *wording, const struct table_shape *shape,
    const struct value *row, const struct row_subject *subject, struct text *out,
    struct fault *fault)
{
	const struct table_words *table = words_of(wording, shape);
	for (size_t i = 0; i < shape->count; i++) {
		const char *words = "";
		if (!is_telling(table, row, i, subject)) {
			continue;
		}
		if (!value_words(wording, shape, row, i, &words, fault)) {
			return false;
		}
		if (words[0] != '\0') {
			const char *lead = table->columns[i].lead;
			text_add(out, out->length > 0 ? lead : lead + sizeof COMMA - 1);
			text_add(out, words);
		}
	}
	return true;
}

/* Adds what of the subject a row is: nothing for the subject itself, else the table's name
 * without the subject's, "period" for a vessel's vessel_period. */
void
add_row_part(
    const struct table_shape *shape, const struct row_subject *subject, struct text *out)
{
	size_t length = strlen(subject->about);
	if (strcmp(shape->name, subject->about) == 0) {
		return;
	}
	bool leads = strncmp(shape->name, subject->about, length) == 0 &&
		     shape->name[length] == '_';
	add_column_label(shape->name + (leads ? length + 1 : 0), out);
}
