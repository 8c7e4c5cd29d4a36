/* The description of the tables, as it is asked for. */
#include "book/tables.h"

#include "book/journal_inside.h"
#include "book/places.h"
#include "book/rows.h"

#include <stdlib.h>
#include <string.h>

#define NUMBER_ROW() {.name = "id", .key = 1, .silent = true},
#define ROW(...) ROW_OF(__VA_ARGS__, )
#define ROW_OF(name_, type_, ...) {.name = #name_, .type = COLUMN_##type_, __VA_ARGS__},
#define TABLE_OF(id, ...)                                                                \
	static const struct column id##_TABLE[] = {TABLE_##id(NUMBER_ROW, ROW, ROW, ROW)};

BOOK_TABLES(TABLE_OF, TABLE_OF, FIELD_NOTHING, FIELD_NOTHING)

/* Where the columns of tables with fields stand, the migrations know (src/places.py). */
#define PLACE(table, member) offsetof(struct table##_places, member)
#define PLACED(...) PLACED_OF(__VA_ARGS__, )
#define PLACED_OF(table, name_, type_, ...)                                              \
	[PLACE(table, name_)] = {.name = #name_, .type = COLUMN_##type_, __VA_ARGS__},

/* The columns of a field by its type: the table, its member, the same as the column with
 * a day is called, its id, and what to make of the value that it has where nothing is
 * told. */
#define AS_TEXT(table, member, day, id, begins) PLACED(table, member, TEXT, begins(""))
#define AS_NAME AS_TEXT
#define AS_BECAUSE AS_TEXT
#define AS_TASK AS_TEXT
#define AS_USE AS_TEXT
#define AS_KIND(table, member, day, id, begins) PLACED(table, member, TEXT)
#define AS_STATE(table, member, day, id, begins)                                         \
	PLACED(table, member, TEXT, begins("aboard"))
#define AS_DAY(table, member, day, id, begins) PLACED(table, day, DAY, begins("0"))
#define AS_STAMP(table, member, day, id, begins)                                         \
	PLACED(table, day, DAY, .worded = PLACE(table, member##_wording),                \
	    .estimated = PLACE(table, member##_estimated), begins("0"))                  \
	PLACED(table, member##_wording, NUMBER, .silent = true, begins("0"))             \
	PLACED(table, member##_estimated, NUMBER, .silent = true, begins("0"))
#define AS_COUNT(table, member, day, id, begins)                                         \
	PLACED(table, member, NUMBER, begins(BEGINS(id)))
#define AS_LENGTH AS_COUNT
/* What is no is not told, of a record either. */
#define AS_FLAG(table, member, day, id, begins)                                          \
	PLACED(table, member, FLAG, .fallback = "0")
#define AS_EITHER AS_COUNT
#define AS_PRICE(table, member, day, id, begins)                                         \
	PLACED(table, member, MONEY, begins(BEGINS(id)))

/* That value is the schema's; none, for a record is told whole; or nothing, which in a
 * period says nothing. */
#define TOLD_OR(value) .fallback = (value)
#define TOLD(value) .fallback = NULL
#define TOLD_OR_NULL(value) .nullable = true

/* A number that is not told is 0, unless it is named here. */
#define BEGINS_QUANTITY ~, "1"
#define BEGINS_PRICE ~, "-1"
#define BEGINS_TURN_ROUND ~, "14"
#define SECOND(first, second, ...) second
#define SECOND_OF(...) SECOND(__VA_ARGS__)
#define BEGINS(id) SECOND_OF(BEGINS_##id, "0", ~)

#define ITEM_NUMBER() PLACED(item, id, NUMBER, .key = 1, .silent = true)
#define ITEM_OTHER(...) PLACED(item, __VA_ARGS__)
#define ITEM_FIELD(id, member, type, ...) AS_##type(item, member, member, id, TOLD_OR)
#define RECORD_NUMBER() PLACED(record, id, NUMBER, .key = 1, .silent = true)
#define RECORD_OTHER(...) PLACED(record, __VA_ARGS__)
#define RECORD_FIELD(id, member, type, ...)                                              \
	AS_##type(record, member, member##_day, id, TOLD)
#define VESSEL_NUMBER() PLACED(vessel, id, NUMBER, .key = 1, .silent = true)
#define VESSEL_OTHER(...) PLACED(vessel, __VA_ARGS__)
#define VESSEL_FIELD(id, member, type, ...) AS_##type(vessel, member, member, id, TOLD_OR)
#define PERIOD_OTHER(...) PLACED(vessel_period, __VA_ARGS__)
#define PERIOD_FIELD(id, member, type, ...)                                              \
	AS_##type(vessel_period, member, member, id, TOLD_OR_NULL)
#define STATION_NUMBER() PLACED(station, id, NUMBER, .key = 1, .silent = true)
#define STATION_OTHER(...) PLACED(station, __VA_ARGS__)
#define STATION_FIELD(id, member, type, ...)                                             \
	AS_##type(station, member, member##_day, id, TOLD_OR)

static const struct column ITEM_TABLE[] = {TABLE_ITEM(ITEM_NUMBER, ITEM_OTHER, ITEM_OTHER,
    ITEM_OTHER) INVENTORY_FIELDS(FIELD_NOTHING, ITEM_FIELD, FIELD_NOTHING)};
static const struct column RECORD_TABLE[] = {
    TABLE_RECORD(RECORD_NUMBER, RECORD_OTHER, RECORD_OTHER, RECORD_OTHER)
	INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_FIELD)};
static const struct column VESSEL_TABLE[] = {TABLE_VESSEL(VESSEL_NUMBER, VESSEL_OTHER,
    VESSEL_OTHER, VESSEL_OTHER) VESSEL_OWN_ROWS(VESSEL_FIELD)};
static const struct column VESSEL_PERIOD_TABLE[] = {TABLE_VESSEL_PERIOD(
    FIELD_NOTHING, PERIOD_OTHER, PERIOD_OTHER, PERIOD_OTHER) TIMED_ROWS(PERIOD_FIELD)};
static const struct column STATION_TABLE[] = {TABLE_STATION(STATION_NUMBER, STATION_OTHER,
    STATION_OTHER, STATION_OTHER) STATION_OWN_ROWS(STATION_FIELD)};

#define SHAPE_OF(id, name, kept, loads, numbered)                                        \
	{name, id##_TABLE, sizeof id##_TABLE / sizeof id##_TABLE[0], KEEPING_##kept,     \
	    LOADS_##loads, numbered},
#define SHAPE(id, ...) SHAPE_OF(id, __VA_ARGS__, NUMBERED_ENTRY)
#define SHAPE_NUMBERED(id, ...) SHAPE_OF(id, __VA_ARGS__, NUMBERED_##id)

const struct table_shape TABLES[] = {
    BOOK_TABLES(SHAPE_NUMBERED, SHAPE, SHAPE_NUMBERED, SHAPE)};

const size_t TABLE_COUNT = sizeof TABLES / sizeof TABLES[0];

const struct table_shape *
shape_known(const char *table)
{
	size_t i = 0;
	while (i < TABLE_COUNT && strcmp(TABLES[i].name, table) != 0) {
		i++;
	}
	return i < TABLE_COUNT ? &TABLES[i] : NULL;
}

size_t
shape_column(const struct table_shape *shape, const char *name)
{
	size_t i = 0;
	while (i < shape->count && strcmp(shape->columns[i].name, name) != 0) {
		i++;
	}
	return i;
}

struct value
column_fallback(const struct column *column)
{
	const char *text = column->fallback;
	if (text == NULL) {
		return (struct value){0};
	}
	if (column->type == COLUMN_TEXT) {
		return (struct value){
		    .held = HELD_TEXT, .bytes = text, .length = strlen(text)};
	}
	return (struct value){.held = HELD_INTEGER, .number = strtoll(text, NULL, 10)};
}
