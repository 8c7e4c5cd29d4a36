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

/* The value of a named column; "" where there is none. */
static const char *
value_of(const struct table_shape *shape, const struct row *row, const char *name)
{
	size_t column = shape_column(shape, name);
	const char *value = column < shape->count ? row->values[column] : NULL;
	return value == NULL ? "" : value;
}

static size_t
subject_index(const char *table)
{
	size_t i = 0;
	while (i < SUBJECT_COUNT && strcmp(SUBJECTS[i].table, table) != 0) {
		i++;
	}
	return i;
}

/* True when the row is itself an item, a vessel or a station. */
static bool
is_subject(const struct table_shape *shape)
{
	return subject_index(shape->name) < SUBJECT_COUNT;
}

static struct row_subject
own_subject(const struct table_shape *shape, const struct row *row)
{
	const char *name = SUBJECTS[subject_index(shape->name)].name;
	return (struct row_subject){shape->name, value_of(shape, row, name),
	    value_of(shape, row, "kind"), value_of(shape, row, "serial")};
}

/* The text of a named column; "" where there is none. */
static const char *
text_of(struct row_wording *wording, const struct table_shape *shape,
    const struct value *values, const char *name)
{
	size_t column = shape_column(shape, name);
	const char *text =
	    column < shape->count ? value_text(&values[column], &wording->passing) : NULL;
	return text == NULL ? "" : text;
}

static struct row_subject
subject_touched(struct row_wording *wording, size_t index, const struct value *values)
{
	const char *table = SUBJECTS[index].table;
	const struct table_shape *shape = shape_known(table);
	return (struct row_subject){table,
	    text_of(wording, shape, values, SUBJECTS[index].name),
	    text_of(wording, shape, values, "kind"),
	    text_of(wording, shape, values, "serial")};
}

/* The item that was read with the row at hand. */
static struct row_subject
subject_read(struct row_wording *wording)
{
	struct arena *passing = &wording->passing;
	const struct named_item *of = wording->of;
	return (struct row_subject){"item", value_text(&of->tag, passing),
	    value_text(&of->kind, passing), value_text(&of->serial, passing)};
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
other_subject(const struct table_shape *shape, const struct row *row)
{
	for (size_t i = 0; i < OTHER_COUNT; i++) {
		if (strcmp(OTHERS[i].table, shape->name) == 0) {
			return (struct row_subject){OTHERS[i].about,
			    value_of(shape, row, OTHERS[i].name), "", ""};
		}
	}
	return (struct row_subject){shape->name, "", "", ""};
}

static bool
refers_to(const struct column *column, const char *table)
{
	return column->refers != NULL && strcmp(column->refers, table) == 0;
}

bool
row_subject(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, struct row_subject *out, struct fault *fault)
{
	if (is_subject(shape)) {
		*out = own_subject(shape, row);
		return true;
	}
	for (size_t index = 0; index < SUBJECT_COUNT; index++) {
		for (size_t i = 0; i < shape->count; i++) {
			if (shape->columns[i].refers != NULL && row->values[i] != NULL &&
			    refers_to(&shape->columns[i], SUBJECTS[index].table)) {
				int64_t id = strtoll(row->values[i], NULL, 10);
				return find_subject(wording, index, id, out, fault);
			}
		}
	}
	*out = other_subject(shape, row);
	return true;
}

/* "2027-06", "before 2027-06"; "11-01" for a day of every year. What is none of these is told
 * as it stands. */
static const char *
day_in_words(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, size_t column)
{
	size_t worded = shape->columns[column].worded;
	size_t estimated = shape->columns[column].estimated;
	bool is_stamp = worded != 0;
	int64_t day = strtoll(row->values[column], NULL, 10);
	char words[STAMP_TEXT_SIZE];
	struct stamp stamp = {0};
	if (!is_stamp && day > 0 && day < 1300) {
		(void)snprintf(
		    words, sizeof words, "%02d-%02d", (int)(day / 100), (int)(day % 100));
		return arena_string(&wording->passing, words);
	}
	const char *how = is_stamp ? row->values[worded] : "0";
	const char *about = is_stamp ? row->values[estimated] : "0";
	bool sound =
	    how != NULL && about != NULL &&
	    stamp_of_stored(day, strtoll(how, NULL, 10), strcmp(about, "1") == 0, &stamp);
	return sound ? arena_string(&wording->passing, stamp_text(stamp, words))
		     : row->values[column];
}

bool
value_words(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, size_t column, const char **out, struct fault *fault)
{
	const struct column *about = &shape->columns[column];
	const char *value = row->values[column];
	size_t subject =
	    about->refers == NULL ? SUBJECT_COUNT : subject_index(about->refers);
	*out = value == NULL ? "" : value;
	if (value == NULL) {
		return true;
	}
	if (subject < SUBJECT_COUNT) {
		struct row_subject named = {0};
		int64_t id = strtoll(value, NULL, 10);
		if (!find_subject(wording, subject, id, &named, fault)) {
			return false;
		}
		*out = named.name;
	} else if (about->type == COLUMN_MONEY) {
		*out = value[0] == '-' ? "" : value;
	} else if (strcmp(about->name, "weekday") == 0 && strspn(value, "0123456") == 1 &&
		   value[1] == '\0') {
		*out = weekday_name(value[0] - '0');
	} else if (about->type == COLUMN_DAY) {
		*out = day_in_words(wording, shape, row, column);
	}
	return true;
}

/* Says nothing that the schema would have put there, or that the line says already. */
static bool
is_telling(const struct table_shape *shape, const struct row *row, size_t column,
    const struct row_subject *subject)
{
	const struct column *about = &shape->columns[column];
	const char *value = row->values[column];
	if (value == NULL || about->silent ||
	    (about->fallback != NULL && strcmp(value, about->fallback) == 0)) {
		return false;
	}
	bool is_name = is_subject(shape) &&
		       column == shape_column(shape,
				     SUBJECTS[subject_index(shape->name)].name);
	bool is_owner = refers_to(about, subject->about) && !is_subject(shape) &&
			subject->name[0] != '\0';
	return !is_name && !is_owner;
}

/* "task service, on 2024-05-20, station Cape Lorne Rafts" */
bool
row_in_words(struct row_wording *wording, const struct table_shape *shape,
    const struct row *row, const struct row_subject *subject, struct text *out,
    struct fault *fault)
{
	for (size_t i = 0; i < shape->count; i++) {
		const char *words = "";
		if (!is_telling(shape, row, i, subject)) {
			continue;
		}
		if (!value_words(wording, shape, row, i, &words, fault)) {
			return false;
		}
		if (words[0] != '\0') {
			text_add(out, out->length > 0 ? ", " : "");
			add_column_label(shape->columns[i].name, out);
			text_add_byte(out, ' ');
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
