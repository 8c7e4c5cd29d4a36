/* The field tables of gear against the schema, as SQLite's own catalogue tells it: each field has the
 * columns that its type asks for, and each column of those tables is a field's or is named here. */
#include "book_file.h"
#include "book_scratch.h"

/* What holds of a column of the catalogue: its type, and the value it has when none is given. */
struct shape_of_column {
	const char *table;
	const char *name;
	const char *type;
	const char *fallback; /* NULL: none, or any */
	bool any_fallback;
};

/* The columns of a type, as the statements have them (`SHAPE_...` there): a stamp is three, any other one. */
#define AS_TEXT(table, name) {table, name, "TEXT", "''", false},
#define AS_WORD(table, name) {table, name, "TEXT", NULL, true},
#define AS_ZERO(table, name) {table, name, "INTEGER", "0", false},
#define AS_NUMBER(table, name) {table, name, "INTEGER", NULL, true},
#define AS_STAMP(table, name, day)                                                       \
	AS_ZERO(table, name day)                                                         \
	AS_ZERO(table, name "_wording")                                                  \
	AS_ZERO(table, name "_estimated")

#define ITEM_TEXT(name) AS_TEXT("item", name)
#define ITEM_NAME ITEM_TEXT
#define ITEM_KIND(name) {"item", name, "TEXT", NULL, false},
#define ITEM_STAMP(name) AS_STAMP("item", name, "")
#define ITEM_DAY(name) AS_ZERO("item", name)
#define ITEM_COUNT(name) AS_NUMBER("item", name)
#define ITEM_PRICE ITEM_COUNT
#define ITEM_STATE(name) AS_WORD("item", name)
#define ITEM_BECAUSE ITEM_STATE
#define ITEM_ROW(id, member, type, ...) ITEM_##type(#member)

/* A record is told whole: no column has a value of its own but the one that says which entry told it. */
#define RECORD_IS(name, type) {"record", name, type, NULL, false},
#define RECORD_TEXT(name) RECORD_IS(name, "TEXT")
#define RECORD_TASK RECORD_TEXT
#define RECORD_PRICE(name) RECORD_IS(name, "INTEGER")
#define RECORD_STAMP(name)                                                               \
	RECORD_IS(name "_day", "INTEGER")                                                \
	RECORD_IS(name "_wording", "INTEGER")                                            \
	RECORD_IS(name "_estimated", "INTEGER")
#define RECORD_ROW(id, member, type, ...) RECORD_##type(#member)

#define FLEET_TEXT(table, name) AS_TEXT(table, name)
#define FLEET_COUNT(table, name) AS_NUMBER(table, name)
#define FLEET_LENGTH(table, name) AS_ZERO(table, name)
#define FLEET_FLAG FLEET_LENGTH
#define FLEET_DAY FLEET_LENGTH
#define FLEET_PRICE FLEET_LENGTH
#define VESSEL_ROW(id, member, type, name, ...) FLEET_##type("vessel", name)
#define STATION_ROW(id, member, type, name, ...) FLEET_##type("station", name)

/* In a period nothing is said where there is nothing. */
#define PERIOD_IS(name, type) {"vessel_period", name, type, NULL, false},
#define PERIOD_TEXT(name) PERIOD_IS(name, "TEXT")
#define PERIOD_USE PERIOD_TEXT
#define PERIOD_COUNT(name) PERIOD_IS(name, "INTEGER")
#define PERIOD_EITHER PERIOD_COUNT
#define PERIOD_ROW(id, member, type, name, ...) PERIOD_##type(name)

// clang-format off
static const struct shape_of_column SHAPES[] = {
	INVENTORY_FIELDS(FIELD_NOTHING, ITEM_ROW, FIELD_NOTHING)
	INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_ROW)
	VESSEL_ROWS(VESSEL_ROW, FIELD_NOTHING, FIELD_NOTHING, FIELD_NOTHING)
	VESSEL_ROWS(FIELD_NOTHING, PERIOD_ROW, FIELD_NOTHING, FIELD_NOTHING)
	STATION_ROWS(STATION_ROW, FIELD_NOTHING)
	/* what no field is: numbers, names, what it belongs to, and what has code of its own */
	{"item", "id", "INTEGER", NULL, false},
	{"item", "tag", "TEXT", NULL, false},
	{"item", "vessel_id", "INTEGER", NULL, false},
	{"item", "parent_id", "INTEGER", NULL, false},
	{"item", "split_from", "INTEGER", NULL, false},
	{"record", "id", "INTEGER", NULL, false},
	{"record", "item_id", "INTEGER", NULL, false},
	AS_ZERO("record", "entered")
	{"vessel", "id", "INTEGER", NULL, false},
	{"vessel", "name", "TEXT", NULL, false},
	AS_TEXT("vessel", "base")
	AS_NUMBER("vessel", "laid_up")
	AS_NUMBER("vessel", "lay_up_first")
	AS_NUMBER("vessel", "lay_up_last")
	AS_ZERO("vessel", "left_day")
	AS_TEXT("vessel", "left_because")
	AS_ZERO("vessel", "goes_weekdays")
	PERIOD_IS("vessel_id", "INTEGER")
	PERIOD_IS("from_day", "INTEGER")
	PERIOD_IS("base", "TEXT")
	PERIOD_IS("laid_up", "INTEGER")
	PERIOD_IS("lay_up_first", "INTEGER")
	PERIOD_IS("lay_up_last", "INTEGER")
	{"station", "id", "INTEGER", NULL, false},
	{"station", "name", "TEXT", NULL, false},
	AS_NUMBER("station", "weekdays")
	AS_ZERO("station", "weekdays_known")
};

// clang-format on

enum { SHAPE_COUNT = sizeof SHAPES / sizeof SHAPES[0] };

static const char *const TABLES_SHAPED[] = {
    "item", "record", "vessel", "vessel_period", "station"};

static const struct shape_of_column *
shape_of(const char *table, const char *name)
{
	for (size_t i = 0; i < SHAPE_COUNT; i++) {
		if (strcmp(SHAPES[i].table, table) == 0 &&
		    strcmp(SHAPES[i].name, name) == 0) {
			return &SHAPES[i];
		}
	}
	fail_msg("%s.%s is no field, and not named here", table, name);
	return NULL;
}

static void
assert_fits(const struct shape_of_column *shape, const char *type, const char *fallback)
{
	if (strcmp(shape->type, type) != 0) {
		fail_msg("%s.%s is %s, and its field asks for %s", shape->table,
		    shape->name, type, shape->type);
	}
	bool same = shape->fallback == NULL || fallback == NULL
			? shape->fallback == fallback
			: strcmp(shape->fallback, fallback) == 0;
	if (!shape->any_fallback && !same) {
		fail_msg("%s.%s begins as %s, and its field as %s", shape->table,
		    shape->name, fallback == NULL ? "nothing" : fallback,
		    shape->fallback == NULL ? "nothing" : shape->fallback);
	}
}

/* Number of columns of a table, each of which fits. */
static size_t
columns_of(struct scratch *scratch, const char *table)
{
	sqlite3_stmt *stmt = NULL;
	size_t count = 0;
	assert_int_equal(sqlite3_prepare_v2(file_of(scratch->book),
			     "SELECT name, type, dflt_value FROM pragma_table_xinfo($1)",
			     -1, &stmt, NULL),
	    SQLITE_OK);
	assert_int_equal(sqlite3_bind_text(stmt, 1, table, -1, SQLITE_STATIC), SQLITE_OK);
	while (sqlite3_step(stmt) == SQLITE_ROW) {
		const char *name = (const char *)sqlite3_column_text(stmt, 0);
		assert_fits(shape_of(table, name),
		    (const char *)sqlite3_column_text(stmt, 1),
		    (const char *)sqlite3_column_text(stmt, 2));
		count++;
	}
	assert_int_equal(sqlite3_finalize(stmt), SQLITE_OK);
	return count;
}

SCRATCH_TEST(each_field_has_its_columns_and_no_table_has_others)
{
	struct scratch *scratch = *state;
	size_t found = 0;
	for (size_t i = 0; i < sizeof TABLES_SHAPED / sizeof TABLES_SHAPED[0]; i++) {
		found += columns_of(scratch, TABLES_SHAPED[i]);
	}
	/* each column of the catalogue is a shape, so that as many are all of them */
	assert_int_equal(found, SHAPE_COUNT);
}

/* What a new item has where nothing is told is what the schema itself would put there. */
SCRATCH_TEST(a_field_that_is_not_told_is_as_the_schema_has_it)
{
	struct scratch *scratch = *state;
	scratch_put(scratch, "LR-1");
	assert_int_equal(sqlite3_exec(file_of(scratch->book),
			     "INSERT INTO item (id, tag, vessel_id, kind) "
			     "VALUES (2, 'LR-2', 1, 'liferaft-canister')",
			     NULL, NULL, NULL),
	    SQLITE_OK);
	SCOPED_CONTENTS contents = scratch_load(scratch);
	const struct item_change ours = {
	    .values = scratch_item(&contents, "LR-1")->values};
	const struct item_change schema = {
	    .values = scratch_item(&contents, "LR-2")->values};
	for (size_t i = 0; i < FIELD_COUNT; i++) {
		const struct field *field = &ITEM_FIELDS[i];
		if (!field->link && !field_same(field, &ours, &schema)) {
			fail_msg("%s begins as another value in the schema", field->name);
		}
	}
}

RUN_TESTS(NULL, NULL)
