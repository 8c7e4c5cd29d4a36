#include "book/row_words.h"

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
};

enum { OTHER_COUNT = sizeof OTHERS / sizeof OTHERS[0] };

void
wording_clear(struct wording *wording)
{
	for (struct table_shape *shape = wording->shapes; shape != NULL;
	     shape = shape->next) {
		(void)sqlite3_finalize(shape->by_key);
	}
	free(wording->items);
	arena_clear(&wording->kept);
	arena_clear(&wording->passing);
	*wording = (struct wording){0};
}

static const char *
copied(struct wording *wording, struct arena *arena, const char *string)
{
	const char *copy = arena_string(arena, string);
	wording->failed = wording->failed || copy == NULL;
	return copy == NULL ? "" : copy;
}

/* A default as the schema writes it, without its quotes. */
static const char *
unquoted(struct wording *wording, const char *written)
{
	size_t length = strlen(written);
	char *copy = arena_alloc(&wording->kept, length + 1);
	if (copy == NULL) {
		wording->failed = true;
		return "";
	}
	bool quoted = length >= 2 && written[0] == '\'' && written[length - 1] == '\'';
	memcpy(copy, written + quoted, quoted ? length - 2 : length);
	return copy;
}

static void
take_column(struct call *call, struct arena *arena, void *out)
{
	struct column *column = out;
	column->name = take_text(call, arena);
	column->fallback = take_text(call, arena);
	column->key = take_int(call) != 0;
	column->refers = take_text(call, arena);
}

static bool
read_columns(struct wording *wording, struct table_shape *shape, struct fault *fault)
{
	SCOPED_CALL call = {0};
	struct column *columns = NULL;
	if (!call_open(wording->book, TABLE_COLUMNS, &call, fault)) {
		return false;
	}
	give_text(&call, shape->name);
	if (!call_rows(&call, &wording->kept, take_column, sizeof *columns, &columns,
		&shape->count, fault)) {
		return false;
	}
	for (size_t i = 0; i < shape->count; i++) {
		columns[i].fallback = unquoted(wording, columns[i].fallback);
	}
	shape->columns = columns;
	return true;
}

bool
shape_find(struct wording *wording, const char *table, struct table_shape **out,
    struct fault *fault)
{
	for (struct table_shape *shape = wording->shapes; shape != NULL;
	     shape = shape->next) {
		if (strcmp(shape->name, table) == 0) {
			*out = shape;
			return true;
		}
	}
	struct table_shape *shape = arena_alloc(&wording->kept, sizeof *shape);
	if (shape == NULL) {
		return fault_memory(fault);
	}
	shape->name = copied(wording, &wording->kept, table);
	if (!read_columns(wording, shape, fault)) {
		return false;
	}
	shape->next = wording->shapes;
	wording->shapes = shape;
	*out = shape;
	return true;
}

/* The one statement that is not in the table of statements: it names a table and columns that
 * only the schema knows. Nothing in it comes from outside the schema. */
static bool
prepare_by_key(struct wording *wording, struct table_shape *shape, struct fault *fault)
{
	sqlite3 *db = wording->book->db;
	sqlite3_str *sql = sqlite3_str_new(db);
	const char *between = "SELECT ";
	for (size_t i = 0; i < shape->count; i++) {
		sqlite3_str_appendf(sql, "%s\"%w\"", between, shape->columns[i].name);
		between = ", ";
	}
	sqlite3_str_appendf(sql, " FROM \"%w\"", shape->name);
	between = " WHERE ";
	for (size_t i = 0; i < shape->count; i++) {
		if (shape->columns[i].key) {
			sqlite3_str_appendf(
			    sql, "%s\"%w\" = ?", between, shape->columns[i].name);
			between = " AND ";
		}
	}
	char *text = sqlite3_str_finish(sql);
	if (text == NULL) {
		return fault_memory(fault);
	}
	int result = sqlite3_prepare_v2(db, text, -1, &shape->by_key, NULL);
	sqlite3_free(text);
	return result == SQLITE_OK || call_fault(db, fault);
}

static const char *
column_value(struct wording *wording, sqlite3_stmt *stmt, int column)
{
	const unsigned char *text = sqlite3_column_text(stmt, column);
	return text == NULL ? NULL
			    : copied(wording, &wording->passing, (const char *)text);
}

bool
row_now(struct wording *wording, struct table_shape *shape, const struct row *key,
    struct row *out, struct fault *fault)
{
	if (shape->by_key == NULL && !prepare_by_key(wording, shape, fault)) {
		return false;
	}
	sqlite3_stmt *stmt = shape->by_key;
	const char **values =
	    arena_alloc(&wording->passing, shape->count * sizeof *values);
	int bound = SQLITE_OK;
	int at = 0;
	for (size_t i = 0; i < shape->count && bound == SQLITE_OK; i++) {
		if (shape->columns[i].key) {
			bound = sqlite3_bind_text(
			    stmt, ++at, key->values[i], -1, SQLITE_STATIC);
		}
	}
	bool found =
	    values != NULL && bound == SQLITE_OK && sqlite3_step(stmt) == SQLITE_ROW;
	for (size_t i = 0; found && i < shape->count; i++) {
		bool blob = sqlite3_column_type(stmt, (int)i) == SQLITE_BLOB;
		values[i] = blob ? "" : column_value(wording, stmt, (int)i);
	}
	out->values = values;
	(void)sqlite3_reset(stmt);
	(void)sqlite3_clear_bindings(stmt);
	return found ||
	       (values == NULL ? fault_memory(fault)
			       : fault_set(fault, FAULT_BOOK,
				     "a changed row of %s is not there", shape->name));
}

static size_t
column_of(const struct table_shape *shape, const char *name)
{
	size_t i = 0;
	while (i < shape->count && strcmp(shape->columns[i].name, name) != 0) {
		i++;
	}
	return i;
}

/* The value of a named column; "" where there is none. */
static const char *
value_of(const struct table_shape *shape, const struct row *row, const char *name)
{
	size_t column = column_of(shape, name);
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

bool
shape_is_subject(const struct table_shape *shape)
{
	return subject_index(shape->name) < SUBJECT_COUNT;
}

static struct subject
own_subject(const struct table_shape *shape, const struct row *row)
{
	const char *name = SUBJECTS[subject_index(shape->name)].name;
	return (struct subject){shape->name, value_of(shape, row, name),
	    value_of(shape, row, "kind"), value_of(shape, row, "serial")};
}

bool
gone_add(struct wording *wording, const struct table_shape *shape, const struct row *row,
    struct fault *fault)
{
	if (!shape_is_subject(shape)) {
		return true;
	}
	if (!ARRAY_ROOM(wording, fault)) {
		return false;
	}
	struct subject own = own_subject(shape, row);
	wording->items[wording->count++] = (struct gone){
	    .table = shape->name,
	    .id = strtoll(value_of(shape, row, "id"), NULL, 10),
	    .subject =
		{
		    .about = shape->name,
		    .name = copied(wording, &wording->kept, own.name),
		    .kind = copied(wording, &wording->kept, own.kind),
		    .serial = copied(wording, &wording->kept, own.serial),
		},
	};
	return true;
}

static int
by_table_and_id(const void *a, const void *b)
{
	const struct gone *left = a;
	const struct gone *right = b;
	int order = strcmp(left->table, right->table);
	return order != 0 ? order : (left->id > right->id) - (left->id < right->id);
}

void
gone_sort(struct wording *wording)
{
	if (wording->count > 0) {
		qsort(wording->items, wording->count, sizeof *wording->items,
		    by_table_and_id);
	}
}

/* The item, vessel or station with this number, be it there or gone. */
static bool
find_subject(struct wording *wording, size_t index, int64_t id, struct subject *out,
    struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(wording->book, SUBJECTS[index].named, &call, fault)) {
		return false;
	}
	give_int(&call, id);
	if (!call_row(&call, &row, fault)) {
		return false;
	}
	*out = (struct subject){SUBJECTS[index].table, "", "", ""};
	if (row) {
		out->name = take_text(&call, &wording->passing);
		out->kind = take_text(&call, &wording->passing);
		out->serial = take_text(&call, &wording->passing);
		return true;
	}
	const struct gone wanted = {.table = SUBJECTS[index].table, .id = id};
	const struct gone *found = wording->count == 0
				       ? NULL
				       : bsearch(&wanted, wording->items, wording->count,
					     sizeof wanted, by_table_and_id);
	if (found != NULL) {
		*out = found->subject;
	}
	return true;
}

static struct subject
other_subject(const struct table_shape *shape, const struct row *row)
{
	for (size_t i = 0; i < OTHER_COUNT; i++) {
		if (strcmp(OTHERS[i].table, shape->name) == 0) {
			return (struct subject){OTHERS[i].about,
			    value_of(shape, row, OTHERS[i].name), "", ""};
		}
	}
	return (struct subject){shape->name, "", "", ""};
}

bool
row_subject(struct wording *wording, const struct table_shape *shape,
    const struct row *row, struct subject *out, struct fault *fault)
{
	if (shape_is_subject(shape)) {
		*out = own_subject(shape, row);
		return true;
	}
	for (size_t index = 0; index < SUBJECT_COUNT; index++) {
		for (size_t i = 0; i < shape->count; i++) {
			bool refers =
			    row->values[i] != NULL &&
			    strcmp(shape->columns[i].refers, SUBJECTS[index].table) == 0;
			if (refers) {
				int64_t id = strtoll(row->values[i], NULL, 10);
				return find_subject(wording, index, id, out, fault);
			}
		}
	}
	*out = other_subject(shape, row);
	return true;
}

static bool
ends_in(const char *name, const char *ending)
{
	size_t length = strlen(name);
	size_t tail = strlen(ending);
	return length > tail && strcmp(name + length - tail, ending) == 0;
}

/* The column beside a stamp's day: made_wording for made, on_wording for on_day. The number
 * of columns when there is none. */
static size_t
column_beside(const struct table_shape *shape, const char *day, const char *ending)
{
	char name[64];
	size_t length = strlen(day) - (ends_in(day, "_day") ? strlen("_day") : 0);
	if (length + strlen(ending) >= sizeof name) {
		return shape->count;
	}
	(void)sqlite3_snprintf(sizeof name, name, "%.*s%s", (int)length, day, ending);
	return column_of(shape, name);
}

static bool
holds_day(const char *name)
{
	static const char *const ENDINGS[] = {"_day", "_on", "_until", "_first", "_last"};
	for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++) {
		if (ends_in(name, ENDINGS[i])) {
			return true;
		}
	}
	return false;
}

/* "2027-06", "before 2027-06"; "11-01" for a day of every year. What is none of these is told
 * as it stands. */
static const char *
day_in_words(struct wording *wording, const struct table_shape *shape,
    const struct row *row, size_t column)
{
	const char *name = shape->columns[column].name;
	size_t worded = column_beside(shape, name, "_wording");
	size_t estimated = column_beside(shape, name, "_estimated");
	bool is_stamp = worded < shape->count && estimated < shape->count;
	int64_t day = strtoll(row->values[column], NULL, 10);
	char words[STAMP_TEXT_SIZE];
	struct stamp stamp = {0};
	if (!is_stamp && day > 0 && day < 1300) {
		(void)sqlite3_snprintf(
		    sizeof words, words, "%02d-%02d", (int)(day / 100), (int)(day % 100));
		return copied(wording, &wording->passing, words);
	}
	const char *how = is_stamp ? row->values[worded] : "0";
	const char *about = is_stamp ? row->values[estimated] : "0";
	bool sound =
	    how != NULL && about != NULL &&
	    stamp_of_stored(day, strtoll(how, NULL, 10), strcmp(about, "1") == 0, &stamp);
	return sound ? copied(wording, &wording->passing, stamp_text(stamp, words))
		     : row->values[column];
}

bool
value_words(struct wording *wording, const struct table_shape *shape,
    const struct row *row, size_t column, const char **out, struct fault *fault)
{
	const struct column *about = &shape->columns[column];
	const char *value = row->values[column];
	size_t subject = subject_index(about->refers);
	*out = value == NULL ? "" : value;
	if (value == NULL) {
		return true;
	}
	if (subject < SUBJECT_COUNT) {
		struct subject named = {0};
		int64_t id = strtoll(value, NULL, 10);
		if (!find_subject(wording, subject, id, &named, fault)) {
			return false;
		}
		*out = named.name;
	} else if (ends_in(about->name, "_minor")) {
		*out = value[0] == '-' ? "" : value;
	} else if (strcmp(about->name, "weekday") == 0 && strspn(value, "0123456") == 1 &&
		   value[1] == '\0') {
		*out = weekday_name(value[0] - '0');
	} else if (holds_day(about->name) ||
		   column_beside(shape, about->name, "_wording") < shape->count) {
		*out = day_in_words(wording, shape, row, column);
	}
	return true;
}

bool
column_is_silent(const struct table_shape *shape, size_t column)
{
	static const char *const SILENT[] = {
	    "id", "position", "sha256", "key", "summary"};
	const char *name = shape->columns[column].name;
	for (size_t i = 0; i < sizeof SILENT / sizeof SILENT[0]; i++) {
		if (strcmp(name, SILENT[i]) == 0) {
			return true;
		}
	}
	return ends_in(name, "_wording") || ends_in(name, "_estimated");
}

void
add_column_label(const char *name, struct text *out)
{
	static const char *const DROPPED[] = {"_day", "_id", "_minor"};
	size_t length = strlen(name);
	for (size_t i = 0; i < sizeof DROPPED / sizeof DROPPED[0]; i++) {
		if (ends_in(name, DROPPED[i])) {
			length -= strlen(DROPPED[i]);
			break;
		}
	}
	for (size_t i = 0; i < length; i++) {
		text_add_byte(out, (char)(name[i] == '_' ? ' ' : name[i]));
	}
	if (ends_in(name, "_minor")) {
		text_add(out, " (minor units)");
	}
}
