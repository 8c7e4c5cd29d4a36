/* What the files of statements share. Not for others. */
#ifndef BECKET_BOOK_STATEMENTS_INSIDE_H
#define BECKET_BOOK_STATEMENTS_INSIDE_H

#include "book/statements.h"
#include "gear/fields.h"
#include "gear/fleet_fields.h"

/* One statement of the file's array, which begins with the file's FIRST. */
#define CHANGES(rows, name, sql) [(name)-FIRST] = {sql, rows}
#define READS(name, sql) CHANGES(ROWS_READ, name, sql)

extern const struct statement_text STATEMENTS_BOOK[];
extern const struct statement_text STATEMENTS_FLEET[];
extern const struct statement_text STATEMENTS_GEAR[];
extern const struct statement_text STATEMENTS_GIVEN[];
extern const struct statement_text STATEMENTS_JOURNAL[];
extern const struct statement_text STATEMENTS_LOAD[];

/* The values of a list that is given as JSON, in place of a table of one's own. */
#define IN_LIST(parameter) " IN (SELECT value FROM json_each(" parameter ")) "

/* What stands for the rows of gear/fields.h, each behind a comma: a stamp is three columns, any
 * other value one. Parameters are named as the columns are. */
#define SHAPE_TEXT PLAIN
#define SHAPE_NAME PLAIN
#define SHAPE_KIND PLAIN
#define SHAPE_STAMP STAMP
#define SHAPE_DAY PLAIN
#define SHAPE_COUNT PLAIN
#define SHAPE_PRICE PLAIN
#define SHAPE_STATE PLAIN
#define SHAPE_BECAUSE PLAIN
#define SHAPE_TASK PLAIN
#define SHAPE_USE PLAIN
#define SHAPE_LENGTH PLAIN
#define SHAPE_FLAG PLAIN
#define SHAPE_EITHER PLAIN
#define PASTE(a, b) a##b
#define JOIN(a, b) PASTE(a, b)
#define LIST_PLAIN(before, name, day) ", " before name
#define LIST_STAMP(before, name, day)                                                    \
	", " before name day ", " before name "_wording, " before name "_estimated"
#define SET_OF(name) ", " name " = COALESCE($" name ", " name ")"
#define ITEM_COLUMN(id, member, type, ...) JOIN(LIST_, SHAPE_##type)("", #member, "")
#define ITEM_COLUMNS INVENTORY_FIELDS(FIELD_NOTHING, ITEM_COLUMN, FIELD_NOTHING)

/* The same of gear/fleet_fields.h, where no value is more than one column. */
#define FLEET_COLUMN(id, member, type, name, ...) ", " name
#define TIMED_ROWS(ROW) VESSEL_ROWS(FIELD_NOTHING, ROW, FIELD_NOTHING, FIELD_NOTHING)
#define VESSEL_OWN_ROWS(ROW) VESSEL_ROWS(ROW, FIELD_NOTHING, FIELD_NOTHING, FIELD_NOTHING)
#define STATION_OWN_ROWS(ROW) STATION_ROWS(ROW, FIELD_NOTHING)

#endif
