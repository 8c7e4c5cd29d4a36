#include "book/statements.h"

#include "book/book.h"

/* The values of a list that is given as JSON, in place of a table of one's own. */
#define IN_LIST(parameter) " IN (SELECT value FROM json_each(" parameter ")) "

/* What is loaded: all of a table, or what is on the vessels wanted, by the column that names a
 * vessel or an item. */
#define OF_ALL(column) "TRUE "
#define OF_VESSELS(column) column IN_LIST("$wanted")
#define OF_ITEMS(column)                                                                 \
	column " IN (SELECT item.id FROM item WHERE " OF_VESSELS("item.vessel_id") ") "

/* The same where the vessels are a column of a row, `wanted.vessels`. */
#define OF_WANTED(column) column IN_LIST("wanted.vessels")
#define OF_WANTED_ITEMS(column)                                                          \
	column " IN (SELECT item.id FROM item WHERE " OF_WANTED("item.vessel_id") ") "

/* A statement that loads, both ways. `sql` gets what narrows it by vessel, and by item. */
#define LOADS(name, sql)                                                                 \
	[name] = sql(OF_ALL, OF_ALL), [name##_OF] = sql(OF_VESSELS, OF_ITEMS)

/* Every base a vessel has at some time. */
#define LIES                                                                             \
	"(SELECT id AS vessel_id, base FROM vessel WHERE base <> '' "                    \
	"UNION SELECT vessel_id, base FROM vessel_period WHERE base <> '') "

/* A hand-in by what makes it one. */
#define OF_HAND_IN                                                                        \
	" FROM hand_in WHERE of_base = $of_base AND owner = $owner AND winter = $winter " \
	"AND station = $station AND number = $number"

/* The journal's last entry when dates were last kept. */
#define KEPT_ENTRY "(SELECT entry FROM reckoning WHERE id = 1) "

/* Items with the numbers $1 to $2, and what is directly inside them. */
#define OF_FAMILY "(item.id BETWEEN $1 AND $2 OR item.parent_id BETWEEN $1 AND $2) "

/* What must not be of items; each is told alone, too. */
// clang-format off
#define PARTS_APART_SQL \
	"SELECT item.tag, whole.tag FROM item JOIN item AS whole " \
	"ON whole.id = item.parent_id WHERE " \
	OF_FAMILY \
	"AND whole.vessel_id <> item.vessel_id " \
	"AND item.state <> 'withdrawn' ORDER BY item.tag"

#define PARTS_LEFT_SQL \
	"SELECT item.tag, whole.tag FROM item JOIN item AS whole " \
	"ON whole.id = item.parent_id WHERE " \
	OF_FAMILY \
	"AND whole.state = 'withdrawn' AND item.state <> 'withdrawn' ORDER BY item.tag"

#define LANDED_SQL \
	"SELECT tag, landed_to FROM item WHERE id BETWEEN $1 AND $2 " \
	"AND landed_to <> '' " \
	"AND state <> 'landed' ORDER BY tag"

#define STAND_INS_SQL \
	"SELECT tag, stands_for FROM item WHERE id BETWEEN $1 AND $2 " \
	"AND stands_for <> '' AND NOT EXISTS " \
	"(SELECT 1 FROM item AS own WHERE own.tag = item.stands_for) ORDER BY tag"

#define NEXT_DAYS_SQL \
	"SELECT item.tag, record.task FROM record JOIN item ON item.id = record.item_id " \
	"WHERE record.item_id BETWEEN $1 AND $2 " \
	"AND record.next_day <> 0 AND record.next_day + " \
	"CASE WHEN record.next_day % 10000 = 0 THEN 1231 " \
	"WHEN record.next_day % 100 = 0 THEN 31 ELSE 0 END < record.on_day " \
	"ORDER BY item.tag, record.id"

#define LOOPS_SQL \
	"WITH RECURSIVE chain (start, above, depth) AS (SELECT id, parent_id, 1 FROM item " \
	"WHERE id BETWEEN $1 AND $2 AND parent_id IS NOT NULL " \
	"UNION ALL SELECT chain.start, item.parent_id, " \
	"chain.depth + 1 FROM chain JOIN item ON item.id = chain.above " \
	"WHERE item.parent_id IS NOT NULL AND chain.depth < 32) " \
	"SELECT item.tag, '' FROM chain JOIN item ON item.id = chain.start " \
	"WHERE chain.depth = 32 ORDER BY item.tag"

// clang-format on

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
#define SET_PLAIN(name) SET_OF(name)
#define SET_STAMP(name) SET_OF(name) SET_OF(name "_wording") SET_OF(name "_estimated")

#define ITEM_COLUMN(id, member, type, ...) JOIN(LIST_, SHAPE_##type)("", #member, "")
#define ITEM_SET(id, member, type, ...) JOIN(SET_, SHAPE_##type)(#member)
#define RECORD_COLUMN(id, member, type, ...)                                             \
	JOIN(LIST_, SHAPE_##type)("", #member, "_day")
#define RECORD_PARAMETER(id, member, type, ...)                                          \
	JOIN(LIST_, SHAPE_##type)("$", #member, "_day")
#define RECORD_LOADED(id, member, type, ...)                                             \
	JOIN(LIST_, SHAPE_##type)("record.", #member, "_day")

#define ITEM_PARAMETER(id, member, type, ...) JOIN(LIST_, SHAPE_##type)("$", #member, "")

#define ITEM_COLUMNS INVENTORY_FIELDS(FIELD_NOTHING, ITEM_COLUMN, FIELD_NOTHING)
#define ITEM_PARAMETERS INVENTORY_FIELDS(FIELD_NOTHING, ITEM_PARAMETER, FIELD_NOTHING)
#define ITEM_SETS INVENTORY_FIELDS(FIELD_NOTHING, ITEM_SET, FIELD_NOTHING)
#define RECORD_COLUMNS INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_COLUMN)
#define RECORD_PARAMETERS INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_PARAMETER)
#define RECORD_FIELDS_LOADED INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_LOADED)

/* The beginning of a serial number without what people leave out or change as they please; see
 * life/serials.h, which compares them whole. */
#define PLAIN_SERIAL(serial)                                                             \
	"substr(lower(replace(replace(replace(replace(replace(" serial                   \
	", ' ', ''), '\t', ''), '-', ''), '.', ''), '/', '')), 1, 15)"

/* A line of the journal, as parameters. */
#define INTO_LINES                                                                       \
	"INSERT INTO journal_line "                                                      \
	"(number, position, about, name, kind, serial, act, field, was, became) "
#define LINE(n)                                                                          \
	"($number" n ", $position" n ", $about" n ", $name" n ", $kind" n ", $serial" n  \
	", $act" n ", $field" n ", $was" n ", $became" n ")"
#define FOUR_LINES(n) LINE(n "a") ", " LINE(n "b") ", " LINE(n "c") ", " LINE(n "d")

/* What becomes of dates reckoned that are kept already: what went from one vessel to another may
 * still stand under the first one. */
#define INTO_RECKONED                                                                    \
	"INSERT INTO reckoned "                                                          \
	"(vessel, tag, task, due_day, good_day, state, rule, sheet) "
#define OR_ANEW                                                                          \
	"ON CONFLICT (tag, task) DO UPDATE SET "                                         \
	"vessel = excluded.vessel, due_day = excluded.due_day, "                         \
	"good_day = excluded.good_day, state = excluded.state, "                         \
	"rule = excluded.rule, sheet = excluded.sheet"

/* The same of gear/fleet_fields.h, where no value is more than one column. */
#define FLEET_COLUMN(id, member, type, name, ...) ", " name
#define FLEET_PARAMETER(id, member, type, name, ...) ", $" name
#define FLEET_SET(id, member, type, name, ...) SET_OF(name)
#define FLEET_LATER(id, member, type, name, ...) LATER_OF(name)
#define LATER_OF(name) ", " name " = COALESCE(excluded." name ", vessel_period." name ")"
#define TIMED_ROWS(ROW) VESSEL_ROWS(FIELD_NOTHING, ROW, FIELD_NOTHING, FIELD_NOTHING)
#define VESSEL_OWN_ROWS(ROW) VESSEL_ROWS(ROW, FIELD_NOTHING, FIELD_NOTHING, FIELD_NOTHING)
#define STATION_OWN_ROWS(ROW) STATION_ROWS(ROW, FIELD_NOTHING)

/* The sheets that a table names, each looked up after the one before: there are few, and a row a boat
 * that names them. Ends with NULL. */
#define EACH_SHEET(each, table)                                                          \
	each " (sheet) AS (SELECT MIN(sheet) FROM " table                                \
	     " UNION ALL SELECT (SELECT MIN(sheet) FROM " table " WHERE " table          \
	     ".sheet > " each ".sheet) FROM " each " WHERE " each ".sheet IS NOT NULL)"

/* The vessels that lie at some bases at any time. */
#define AT_BASES(which)                                                                  \
	"SELECT id FROM vessel WHERE base " which                                        \
	" UNION SELECT vessel_id FROM vessel_period WHERE base " which " "

/* Vessels of these names, of this base, and those of items with these tags; with $4 the stores
 * of their bases, when it is 2 all vessels there; with $5 whatever hangs together with gear on them:
 * wholes, parts, and what stands in for it. */
// clang-format off
#define REACHED_SQL \
	"WITH RECURSIVE asked (vessel_id) AS (" \
	"SELECT id FROM vessel WHERE name" IN_LIST("$1") \
	"UNION " AT_BASES("= $2 AND base <> ''") \
	"UNION SELECT vessel_id FROM item WHERE tag" IN_LIST("$3") "), " \
	"theirs (base) AS (" \
	"SELECT base FROM vessel WHERE $4 > 0 AND id IN (SELECT vessel_id FROM asked) " \
	"UNION SELECT base FROM vessel_period WHERE $4 > 0 " \
	"AND vessel_id IN (SELECT vessel_id FROM asked)), " \
	"near (vessel_id) AS (SELECT vessel_id FROM asked " \
	"UNION SELECT vessel.id FROM vessel WHERE (vessel.store = 1 OR $4 = 2) " \
	"AND vessel.id IN (" AT_BASES("IN (SELECT base FROM theirs WHERE base <> '')") ")), " \
	"reached (vessel_id) AS (SELECT vessel_id FROM near " \
	"UNION SELECT other.vessel_id FROM reached " \
	"JOIN item ON item.vessel_id = reached.vessel_id " \
	"JOIN item AS other ON other.id = item.parent_id " \
	"OR other.parent_id = item.id " \
	"OR (other.stands_for = item.tag AND other.stands_for <> '') " \
	"WHERE $5 = 1) "
// clang-format on

/* What is loaded, one after the other as load.h has it. Counts are of rows that may come; what
 * hangs on gear that is left out is read past. */
#define COUNT_OF_ROWS(table, narrowed)                                                   \
	"(SELECT COUNT(*) FROM " table " WHERE " narrowed ")"
#define COUNTS_SQL(VESSELS, ITEMS)                                                                                             \
	"(SELECT number FROM revision WHERE id = 1), " COUNT_OF_ROWS(                                                          \
	    "vessel", VESSELS("id")) ", " COUNT_OF_ROWS("vessel_period",                                                       \
	    VESSELS("vessel_period.vessel_id")) ", " COUNT_OF_ROWS("vessel_winter",                                            \
	    VESSELS("vessel_winter.vessel_id")) ", " COUNT_OF_ROWS("vessel_away",                                              \
	    VESSELS("vessel_away.vessel_id")) ", " COUNT_OF_ROWS("booking",                                                    \
	    VESSELS("booking.vessel_id")) ", " COUNT_OF_ROWS("vessel_sheet",                                                   \
	    VESSELS(                                                                                                           \
		"vessel_sheet.vessel_id")) " + " COUNT_OF_ROWS("vessel_period_sheet",                                          \
	    VESSELS(                                                                                                           \
		"vessel_period_sheet.vessel_id")) ", (SELECT COUNT(*) FROM station), (SELECT COUNT(*) FROM station_closure), " \
						  "(SELECT COUNT(*) FROM station_kind), (SELECT COUNT(*) FROM station_shut), " \
						  "(SELECT COUNT(*) FROM station_pace), (SELECT COUNT(*) FROM station_make), " \
						  "(SELECT COUNT(*) FROM station_price) + "                                    \
						  "(SELECT COUNT(*) FROM station_price_step), " COUNT_OF_ROWS(                 \
						      "item",                                                                  \
						      VESSELS(                                                                 \
							  "item.vessel_id")) ", " COUNT_OF_ROWS("record",                      \
						      ITEMS(                                                                   \
							  "record.item_id")) ", " COUNT_OF_ROWS("event",                       \
						      ITEMS(                                                                   \
							  "event.item_id")) ", " COUNT_OF_ROWS("extension",                    \
						      ITEMS(                                                                   \
							  "extension.item_id")) ", " COUNT_OF_ROWS("movement",                 \
						      ITEMS(                                                                   \
							  "movement.item_id")) ", " COUNT_OF_ROWS("maker_interval",            \
						      ITEMS("maker_interval.item_id"))

#define VESSELS_SQL(VESSELS, ITEMS)                                                      \
	"SELECT id, name, base, laid_up, lay_up_first, lay_up_last, left_day, "          \
	"goes_weekdays" VESSEL_OWN_ROWS(FLEET_COLUMN) " FROM vessel "                    \
						      "WHERE " VESSELS(                  \
							  "id") "ORDER BY id"
#define PERIODS_SQL(VESSELS, ITEMS)                                                      \
	"SELECT vessel_id, from_day" TIMED_ROWS(                                         \
	    FLEET_COLUMN) ", base, laid_up, "                                            \
			  "lay_up_first, lay_up_last FROM vessel_period "                \
			  "WHERE " VESSELS("vessel_id") "ORDER BY vessel_id, from_day"
#define WINTERS_SQL(VESSELS, ITEMS)                                                      \
	"SELECT vessel_id, year, first_day, last_day FROM vessel_winter "                \
	"WHERE " VESSELS("vessel_id") "ORDER BY vessel_id, year"
#define AWAY_SQL(VESSELS, ITEMS)                                                         \
	"SELECT vessel_id, first_day, last_day FROM vessel_away "                        \
	"WHERE " VESSELS("vessel_id") "ORDER BY vessel_id, position"
#define BOOKINGS_SQL(VESSELS, ITEMS)                                                     \
	"SELECT vessel_id, first_day, last_day, persons, children, note FROM booking "   \
	"WHERE " VESSELS("vessel_id") "ORDER BY vessel_id, first_day, last_day, id"
#define SHEETS_SQL(VESSELS, ITEMS)                                                               \
	"SELECT vessel_id, 0 AS from_day, position, sheet FROM vessel_sheet "                    \
	"WHERE " VESSELS(                                                                        \
	    "vessel_id") "UNION ALL "                                                            \
			 "SELECT vessel_id, from_day, position, sheet FROM vessel_period_sheet " \
			 "WHERE " VESSELS(                                                       \
			     "vessel_id") "ORDER BY vessel_id, from_day, position"
#define ITEMS_SQL(VESSELS, ITEMS)                                                        \
	"SELECT id, vessel_id, COALESCE(parent_id, 0), tag" ITEM_COLUMNS                 \
	", COALESCE((SELECT lot.tag FROM item AS lot "                                   \
	"WHERE lot.id = item.split_from), '') FROM item "                                \
	"WHERE (item.state <> 'withdrawn' OR $withdrawn = 1) AND " VESSELS(              \
	    "item.vessel_id") "ORDER BY id"
/* Those of one day in the order of their tasks, however they came in, so that the same
 * records make the same export. */
#define RECORDS_SQL(VESSELS, ITEMS)                                                      \
	"SELECT record.item_id, record.entered" RECORD_FIELDS_LOADED " FROM record "     \
	"WHERE " ITEMS(                                                                  \
	    "record.item_id") "ORDER BY record.item_id, record.on_day, record.task, record.id"
#define EVENTS_SQL(VESSELS, ITEMS)                                                       \
	"SELECT event.item_id, event.kind, event.on_day, event.entered FROM event "      \
	"WHERE " ITEMS("event.item_id") "ORDER BY event.item_id, event.on_day, event.id"
#define EXTENSIONS_SQL(VESSELS, ITEMS)                                                   \
	"SELECT extension.item_id, extension.task, extension.until_day, "                \
	"extension.paper, extension.given_day, extension.entered FROM extension "        \
	"WHERE extension.ended = 0 AND " ITEMS(                                          \
	    "extension.item_id") "ORDER BY extension.item_id, extension.until_day, extension.id"
#define MOVEMENTS_SQL(VESSELS, ITEMS)                                                    \
	"SELECT movement.item_id, movement.what, movement.on_day, movement.was, "        \
	"movement.vessel, movement.was_vessel, movement.station, movement.stands_for, "  \
	"movement.certificate, movement.serial, movement.note, movement.because, "       \
	"movement.result, movement.price_minor, movement.asked FROM movement "           \
	"WHERE " ITEMS("movement.item_id") "ORDER BY movement.item_id, movement.id"
#define INTERVALS_SQL(VESSELS, ITEMS)                                                    \
	"SELECT maker_interval.item_id, maker_interval.task, maker_interval.on_day, "    \
	"maker_interval.months, maker_interval.first_months, "                           \
	"maker_interval.counts_from, maker_interval.paper FROM maker_interval "          \
	"WHERE " ITEMS(                                                                  \
	    "maker_interval.item_id") "ORDER BY maker_interval.item_id, maker_interval.on_day, maker_interval.id"

/* The last number that a row of each table has. */
#define LAST_OF(id, table) "UNION ALL SELECT '" table "', MAX(id) FROM " table " "

const char *const STATEMENTS[STATEMENT_COUNT] = {
    [BEGIN_READING] = "BEGIN",
    /* Takes the write lock at once, so that a change never fails half way for it. */
    [BEGIN_WRITING] = "BEGIN IMMEDIATE",
    [COMMIT] = "COMMIT",
    [ROLLBACK] = "ROLLBACK",

    [OWN_SHEETS_THERE] = "SELECT COUNT(*) FROM sqlite_schema WHERE name = 'own_sheet'",
    [OWN_SHEETS_DROP] = "DELETE FROM own_sheet",
    [OWN_SHEET_ADD] = "INSERT INTO own_sheet (name, yaml) VALUES ($1, $2)",
    [OWN_SHEETS_LOAD] = "SELECT name, yaml FROM own_sheet ORDER BY name",
    [BOOK_FIRST] =
	"INSERT INTO book (id, identity, currency) VALUES (1, $1, '" BOOK_NEW_CURRENCY
	"') "
	"ON CONFLICT (id) DO NOTHING",
    [BOOK_GET] = "SELECT identity, currency FROM book WHERE id = 1",
    [NUMBERS_GET] = "SELECT number, numbers, (SELECT COALESCE(MAX(number), 0) + 1 "
		    "FROM journal) FROM revision WHERE id = 1",
    [NUMBERS_FOUND] =
	"SELECT '' AS named, 0 AS last " NUMBERED_TABLES(LAST_OF) "ORDER BY named",
    [REVISION_RAISE] = "UPDATE revision SET number = number + 1, "
		       "contents_sum = (contents_sum + $1) % 4611686018427387904, "
		       "numbers = COALESCE($2, numbers) WHERE id = 1",
    [CONTENTS_SUM] = "SELECT contents_sum FROM revision WHERE id = 1",
    [SCHEMA_TEXTS] =
	"SELECT name, type || tbl_name || COALESCE(sql, '') FROM sqlite_schema "
	"ORDER BY name",
    [CONTENTS_SUM_SET] = "UPDATE revision SET contents_sum = $1 WHERE id = 1",
    [BOOK_SET_CURRENCY] = "UPDATE book SET currency = $1 WHERE id = 1",
    [PRICE_COUNT] =
	"SELECT (SELECT COUNT(*) FROM item WHERE price_minor >= 0) + "
	"(SELECT COUNT(*) FROM record WHERE price_minor >= 0) + "
	"(SELECT COUNT(*) FROM movement WHERE price_minor >= 0) + "
	"(SELECT COUNT(*) FROM station_price) + (SELECT COUNT(*) FROM station_price_step) + "
	"(SELECT COUNT(*) FROM station WHERE trip_minor > 0) + "
	"(SELECT COUNT(*) FROM station WHERE carriage_minor > 0)",
    [BOOK_SET_IDENTITY] = "UPDATE book SET identity = $1 WHERE id = 1 "
			  "AND NOT EXISTS (SELECT 1 FROM reminder)",

    [VESSEL_FIND] = "SELECT id FROM vessel WHERE name = $1",
    [VESSEL_ADD] = "INSERT INTO vessel (id, name) VALUES ($1, $2)",
    [VESSEL_CHANGE] = "UPDATE vessel SET base = COALESCE($base, base)" SET_OF("laid_up")
	SET_OF("lay_up_first") SET_OF("lay_up_last") SET_OF("left_day")
	    SET_OF("left_because") SET_OF("goes_weekdays")
		VESSEL_OWN_ROWS(FLEET_SET) " WHERE id = $id",
    [PERIOD_PUT] =
	"INSERT INTO vessel_period (vessel_id, from_day" TIMED_ROWS(FLEET_COLUMN) ", base, laid_up, lay_up_first, lay_up_last) VALUES ($vessel, $from" TIMED_ROWS(
	    FLEET_PARAMETER) ", $base, $laid_up, $lay_up_first, $lay_up_last) "
			     "ON CONFLICT (vessel_id, from_day) DO UPDATE SET vessel_id = excluded.vessel_id" TIMED_ROWS(
				 FLEET_LATER) LATER_OF("base") LATER_OF("laid_up")
				 LATER_OF("lay_up_first") LATER_OF("lay_up_last"),
    [WINTER_PUT] = "INSERT INTO vessel_winter (vessel_id, year, first_day, last_day) "
		   "VALUES ($1, $2, $3, $4) ON CONFLICT (vessel_id, year) DO UPDATE "
		   "SET first_day = excluded.first_day, last_day = excluded.last_day",
    [BOOKING_ADD] = "INSERT INTO booking (id, vessel_id, first_day, last_day, persons, "
		    "children, note) VALUES ($1, $2, $3, $4, $5, $6, $7)",
    [BOOKING_CHANGE] =
	"UPDATE booking SET first_day = $1, last_day = $2, persons = $3, children = $4, "
	"note = $5 WHERE vessel_id = $6 AND first_day = $7",
    [BOOKING_DROP] = "DELETE FROM booking WHERE vessel_id = $1 AND first_day = $2",
    [AWAY_DROP] = "DELETE FROM vessel_away WHERE vessel_id = $1",
    [AWAY_ADD] = "INSERT INTO vessel_away "
		 "(vessel_id, position, first_day, last_day) VALUES ($1, $2, $3, $4)",
    [SHEETS_DROP] = "DELETE FROM vessel_sheet WHERE vessel_id = $1",
    [PERIOD_SHEETS_DROP] =
	"DELETE FROM vessel_period_sheet WHERE vessel_id = $1 AND from_day = $2",
    [PERIOD_SHEET_ADD] =
	"INSERT INTO vessel_period_sheet (vessel_id, from_day, position, "
	"sheet) VALUES ($1, $2, $3, $4)",
    [SHEET_ADD] =
	"INSERT INTO vessel_sheet (vessel_id, position, sheet) VALUES ($1, $2, $3)",

    [STATION_FIND] = "SELECT id FROM station WHERE name = $1",
    [STATION_ADD] = "INSERT INTO station (id, name) VALUES ($1, $2)",
    [STATION_CHANGE] = "UPDATE station SET weekdays = COALESCE($weekdays, weekdays), "
		       "weekdays_known = CASE WHEN $weekdays IS NULL THEN weekdays_known "
		       "ELSE 1 END" STATION_OWN_ROWS(FLEET_SET) " WHERE id = $id",
    [CLOSURES_DROP] = "DELETE FROM station_closure WHERE station_id = $1",
    [CLOSURE_ADD] = "INSERT INTO station_closure "
		    "(station_id, position, first_day, last_day) VALUES ($1, $2, $3, $4)",
    [STATION_KINDS_DROP] = "DELETE FROM station_kind WHERE station_id = $1",
    [STATION_KIND_ADD] =
	"INSERT INTO station_kind (station_id, position, kind) VALUES ($1, $2, $3)",
    [SHUT_DROP] = "DELETE FROM station_shut WHERE station_id = $1",
    [SHUT_ADD] = "INSERT INTO station_shut "
		 "(station_id, position, first_day, last_day) VALUES ($1, $2, $3, $4)",
    [PACES_DROP] = "DELETE FROM station_pace WHERE station_id = $1",
    [PACE_ADD] = "INSERT INTO station_pace "
		 "(station_id, position, first_month, last_month, turn_round_days) "
		 "VALUES ($1, $2, $3, $4, $5)",
    [MAKES_DROP] = "DELETE FROM station_make WHERE station_id = $1 AND kind = $2",
    [MAKE_ADD] = "INSERT INTO station_make (station_id, kind, make) "
		 "VALUES ($1, $2, $3) ON CONFLICT (station_id, kind, make) DO NOTHING",
    [PRICES_DROP] = "DELETE FROM station_price WHERE station_id = $1",
    [PRICE_PUT] = "INSERT INTO station_price (station_id, kind, task, price_minor) "
		  "VALUES ($1, $2, $3, $4) ON CONFLICT (station_id, kind, task) "
		  "DO UPDATE SET price_minor = excluded.price_minor",
    [PRICE_DROP] =
	"DELETE FROM station_price WHERE station_id = $1 AND kind = $2 AND task = $3",
    [STEPS_DROP] = "DELETE FROM station_price_step WHERE station_id = $1",
    [STEPS_DROP_OF] = "DELETE FROM station_price_step "
		      "WHERE station_id = $1 AND kind = $2 AND task = $3",
    [STEP_PUT] =
	"INSERT INTO station_price_step "
	"(station_id, kind, task, from_years, price_minor) VALUES ($1, $2, $3, $4, $5) "
	"ON CONFLICT (station_id, kind, task, from_years) "
	"DO UPDATE SET price_minor = excluded.price_minor",
    [STEP_DROP] = "DELETE FROM station_price_step "
		  "WHERE station_id = $1 AND kind = $2 AND task = $3 AND from_years = $4",

    [ITEM_FIND] = "SELECT id FROM item WHERE tag = $1",
    [ITEMS_ANY] = "SELECT EXISTS (SELECT 1 FROM item)",
    [ITEM_ADD] = "INSERT INTO item (id, tag, vessel_id, parent_id" ITEM_COLUMNS
		 ") VALUES ($id, $tag, $vessel, $parent" ITEM_PARAMETERS ")",
    [ITEM_CHANGE] = "UPDATE item SET vessel_id = COALESCE($vessel, vessel_id)" ITEM_SETS
		    " WHERE id = $id",
    /* What is so already is not written: an import says it of every row. */
    [ITEM_SET_PARENT] = "UPDATE item SET parent_id = $1 WHERE id = $2 "
			"AND parent_id IS DISTINCT FROM $1",
    [ITEM_PARENT] = "SELECT parent_id FROM item WHERE id = $1 AND parent_id IS NOT NULL",
    [ITEM_RENEW] =
	"UPDATE item SET fitted = $1, fitted_wording = $2, fitted_estimated = $3, "
	"serial = '', "
	"made = 0, made_wording = 0, made_estimated = 0, "
	"packed = 0, packed_wording = 0, packed_estimated = 0, "
	"bought = 0, bought_wording = 0, bought_estimated = 0, "
	"expires = 0, expires_wording = 0, expires_estimated = 0 WHERE id = $4",
    [ITEM_DATES] = "SELECT made, made_wording, made_estimated FROM item WHERE id = $1 "
		   "UNION ALL SELECT packed, packed_wording, packed_estimated "
		   "FROM item WHERE id = $1 "
		   "UNION ALL SELECT bought, bought_wording, bought_estimated "
		   "FROM item WHERE id = $1 "
		   "UNION ALL SELECT fitted, fitted_wording, fitted_estimated "
		   "FROM item WHERE id = $1 "
		   "ORDER BY made, made_wording, made_estimated",

    [RECORD_FIND] = "SELECT id FROM record WHERE item_id = $1 AND task = $2 "
		    "AND on_day = $3 AND certificate = $4 "
		    "AND next_day = $5 AND next_wording = $6",
    /* Entered again it is one record, perhaps with a station or a price that was not known. */
    [RECORD_ADD] =
	"INSERT INTO record (id, item_id, entered" RECORD_COLUMNS
	") VALUES ($id, $item, $entered" RECORD_PARAMETERS ") "
	"ON CONFLICT (item_id, on_day, task, certificate, next_day, next_wording) "
	"DO UPDATE SET station = COALESCE(NULLIF(excluded.station, ''), station), "
	"price_minor = COALESCE(NULLIF(excluded.price_minor, -1), price_minor) "
	"WHERE excluded.station NOT IN ('', station) "
	"OR excluded.price_minor NOT IN (-1, price_minor)",
    [RENEWALS] = "SELECT on_day, on_wording, on_estimated FROM record "
		 "WHERE item_id = $1 AND task = 'renew' ORDER BY id",
    [EVENT_ADD] = "INSERT INTO event (id, item_id, kind, on_day, entered) "
		  "VALUES ($1, $2, $3, $4, $5) "
		  "ON CONFLICT (item_id, on_day, kind) DO NOTHING",
    [EXTENSION_ADD] =
	"INSERT INTO extension (id, item_id, task, until_day, paper, given_day, entered) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7) "
	"ON CONFLICT (item_id, until_day, task, paper) "
	"DO UPDATE SET given_day = excluded.given_day",
    [INTERVAL_PUT] =
	"INSERT INTO maker_interval (id, item_id, task, on_day, months, first_months, "
	"counts_from, paper) VALUES ($1, $2, $3, $4, $5, $6, $7, $8) "
	"ON CONFLICT (item_id, task, on_day) DO UPDATE SET months = excluded.months, "
	"first_months = excluded.first_months, counts_from = excluded.counts_from, "
	"paper = excluded.paper",
    [INTERVAL_DROP] = "DELETE FROM maker_interval WHERE item_id = $1 AND task = $2",
    /* With how it stands, and on which vessel, before what is told. */
    [MOVEMENT_ADD] =
	"INSERT INTO movement (id, item_id, what, on_day, was, vessel, was_vessel, "
	"station, stands_for, certificate, because, result, price_minor, note, asked, "
	"serial) SELECT $1, $2, $3, $4, item.state, COALESCE(NULLIF($5, ''), "
	"vessel.name), vessel.name, $6, $7, $8, $9, $10, $11, $12, $13, item.serial "
	"FROM item JOIN vessel ON vessel.id = item.vessel_id WHERE item.id = $2",

    [PAPER_FIND] = "SELECT id FROM paper WHERE item_id = $1 AND sha256 = $2",
    /* Bytes that have been damaged in the file are mended. */
    [PAPER_BYTES_PUT] = "INSERT INTO paper_bytes (sha256, bytes) VALUES ($1, $2) "
			"ON CONFLICT (sha256) DO UPDATE SET bytes = excluded.bytes "
			"WHERE paper_bytes.bytes <> excluded.bytes",
    [PAPER_ADD] = "INSERT INTO paper (id, item_id, record_id, name, media_type, note, "
		  "added_day, size, sha256, bytes) "
		  "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
    [PAPER_FILL] = "UPDATE paper SET record_id = COALESCE($1, record_id), "
		   "note = COALESCE($2, note) WHERE id = $3",
    [PAPER_READ] = "SELECT CASE WHEN length(paper.bytes) > 0 THEN paper.bytes "
		   "ELSE paper_bytes.bytes END FROM paper LEFT JOIN paper_bytes "
		   "ON paper_bytes.sha256 = paper.sha256 WHERE paper.id = $1",
    [PAPER_REMOVE] = "DELETE FROM paper WHERE id = $1 AND item_id = $2",
    [LOAD_PAPERS] =
	"SELECT paper.id, item.tag, paper.name, "
	"paper.media_type, paper.note, paper.added_day, paper.size, paper.sha256, "
	"record.task, record.on_day, record.on_wording, record.on_estimated, "
	"record.certificate FROM paper JOIN item ON item.id = paper.item_id "
	"LEFT JOIN record ON record.id = paper.record_id "
	"WHERE $1 = '' OR item.tag = $1 ORDER BY paper.item_id, paper.id",

    /* One that comes back is newer than it was when it went, whatever the caller says. What is
     * as it was is not written again, lest a poll of a feed were a change of the book. */
    [REMINDER_PUT] = "INSERT INTO reminder (key, uid, sequence, modified, shape, "
		     "given_day, aim_day, given_entry, given_summary, given_description) "
		     "VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) "
		     "ON CONFLICT (key) DO UPDATE SET "
		     "sequence = CASE WHEN reminder.shape = '' "
		     "AND excluded.sequence <= reminder.sequence "
		     "THEN reminder.sequence + 1 ELSE excluded.sequence END, "
		     "modified = excluded.modified, shape = excluded.shape, "
		     "given_day = excluded.given_day, aim_day = excluded.aim_day, "
		     "given_entry = excluded.given_entry, "
		     "given_summary = excluded.given_summary, "
		     "given_description = excluded.given_description "
		     "WHERE (reminder.sequence, reminder.modified, reminder.shape, "
		     "reminder.given_day, reminder.aim_day, reminder.given_entry, "
		     "reminder.given_summary, reminder.given_description) "
		     "IS DISTINCT FROM (excluded.sequence, excluded.modified, "
		     "excluded.shape, excluded.given_day, excluded.aim_day, "
		     "excluded.given_entry, excluded.given_summary, "
		     "excluded.given_description)",
    [SETTLED_PUT] =
	"INSERT INTO hand_in (id, of_base, owner, winter, station, number, hand_in_day, "
	"chosen, missed, given_on_day, given_by) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11) "
	"ON CONFLICT (of_base, owner, winter, station, number) DO UPDATE SET "
	"hand_in_day = excluded.hand_in_day, chosen = excluded.chosen, "
	"missed = excluded.missed, given_on_day = excluded.given_on_day, "
	"given_by = excluded.given_by",
    [SETTLED_PIECES_DROP] =
	"DELETE FROM hand_in_piece WHERE hand_in_id = (SELECT id" OF_HAND_IN ")",
    [SETTLED_PIECE_ADD] = "INSERT INTO hand_in_piece (hand_in_id, tag, due_day) "
			  "SELECT id, $tag, $due" OF_HAND_IN,
    [LOAD_SETTLED] = "SELECT id, of_base, owner, winter, station, number, hand_in_day, "
		     "chosen, missed, given_on_day, given_by FROM hand_in ORDER BY id",
    [LOAD_SETTLED_PIECES] =
	"SELECT hand_in_id, tag, due_day FROM hand_in_piece ORDER BY hand_in_id, tag",
    /* By what dates were reckoned, with each vessel touched since: entries of the journal name what
     * they are about. */
    [RECKONED_BY] =
	"SELECT reckoning.entry IS DISTINCT FROM "
	"(SELECT COALESCE(MAX(number), 0) FROM journal), "
	"(WITH RECURSIVE " EACH_SHEET("now", "vessel_sheet") ", " EACH_SHEET("later",
	    "vessel_period_sheet") " SELECT group_concat(sheet, ',') FROM ("
				   "SELECT sheet FROM now WHERE sheet IS NOT NULL "
				   "UNION SELECT sheet FROM later WHERE sheet IS NOT NULL) AS followed), reckoning.figures, "
				   "reckoning.meanings, touched.name, EXISTS (SELECT 1 FROM vessel "
				   "WHERE vessel.name = touched.name) FROM (SELECT 1 AS id) AS one "
				   "LEFT JOIN reckoning ON reckoning.id = one.id LEFT JOIN ("
				   "SELECT name FROM journal_line WHERE number > " KEPT_ENTRY
				   "AND about = 'vessel' "
				   "UNION SELECT vessel.name FROM journal_line "
				   "JOIN item ON item.tag = journal_line.name "
				   "JOIN vessel ON vessel.id = item.vessel_id "
				   "WHERE journal_line.number > " KEPT_ENTRY
				   "AND journal_line.about = 'item' "
				   "UNION SELECT reckoned.vessel FROM journal_line "
				   "JOIN reckoned ON reckoned.tag = journal_line.name "
				   "WHERE journal_line.number > " KEPT_ENTRY
				   "AND journal_line.about = 'item') AS touched ON TRUE ORDER BY touched.name",
    [RECKONED_BY_PUT] =
	"INSERT INTO reckoning (id, figures, meanings, entry) "
	"SELECT 1, $1, $2, COALESCE(MAX(number), 0) FROM journal WHERE 1 = 1 "
	"ON CONFLICT (id) DO UPDATE SET figures = excluded.figures, "
	"meanings = excluded.meanings, entry = excluded.entry",
    [LOAD_IMPORT_ANSWERS] = "SELECT about = 'words', theirs, ours FROM import_answer "
			    "ORDER BY about, theirs",
    [IMPORT_ANSWER_PUT] =
	"INSERT INTO import_answer (about, theirs, ours) VALUES ($1, $2, $3) "
	"ON CONFLICT (about, theirs) DO UPDATE SET ours = excluded.ours",
    [NAMES_OF_ITEMS] = "SELECT tag FROM item ORDER BY tag",
    [NAMES_OF_VESSELS] = "SELECT name FROM vessel ORDER BY name",
    [NAMES_OF_STATIONS] = "SELECT name FROM station ORDER BY name",
    [NAMES_OF_BASES] = "SELECT base FROM vessel WHERE base <> '' "
		       "UNION SELECT base FROM vessel_period WHERE base <> '' "
		       "UNION SELECT base FROM station WHERE base <> '' ORDER BY base",
    [BEARERS] =
	"WITH RECURSIVE meant (id) AS (SELECT id FROM item WHERE tag = $1 "
	"UNION SELECT id FROM item WHERE serial <> '' AND " PLAIN_SERIAL("serial") " = " PLAIN_SERIAL(
	    "$1") " UNION SELECT item_id FROM movement "
		  "WHERE $2 = 1 AND serial <> '' AND " PLAIN_SERIAL("serial") " = " PLAIN_SERIAL(
		      "$1") "), alike (id) AS (SELECT id FROM meant "
			    "UNION SELECT other.id FROM meant JOIN item ON item.id = meant.id "
			    "JOIN item AS other ON other.kind = item.kind WHERE item.serial <> '' "
			    "AND " PLAIN_SERIAL("other.serial") " = " PLAIN_SERIAL(
				"item.serial") "), lots (id) AS (SELECT id FROM alike UNION SELECT item.split_from "
					       "FROM lots JOIN item ON item.id = lots.id WHERE item.split_from IS NOT NULL) "
					       "SELECT tag FROM item WHERE id IN (SELECT id FROM lots) ORDER BY tag",
    [BASE_FIND] = "SELECT 1 FROM vessel WHERE base = $1 "
		  "UNION SELECT 1 FROM vessel_period WHERE base = $1 "
		  "UNION SELECT 1 FROM station WHERE base = $1",
    [NAMES_OF_BERTHS] = "SELECT DISTINCT base FROM " LIES "AS lies ORDER BY base",
    [NAMES_OF_BASELESS] =
	"SELECT name FROM vessel WHERE store = 0 AND (base = '' OR EXISTS (SELECT 1 "
	"FROM vessel_period WHERE vessel_id = vessel.id AND vessel_period.base = '')) "
	"ORDER BY name",
    [BERTH_FIND] = "SELECT 1 FROM " LIES "AS lies WHERE base = $1 LIMIT 1",
    [LOAD_RECKONED_VESSELS] =
	"SELECT vessel, seen_day FROM reckoned_vessel ORDER BY vessel",
    [LOAD_RECKONED] = "SELECT vessel, tag, task, due_day, good_day, state, rule, sheet "
		      "FROM reckoned ORDER BY tag, task",
    [RECKONED_VESSELS_DROP] = "DELETE FROM reckoned_vessel WHERE vessel IN "
			      "(SELECT value ->> 0 FROM json_each($1))",
    [RECKONED_DROP_ALL] = "DELETE FROM reckoned_vessel",
    [RECKONED_VESSELS_PUT] =
	"INSERT INTO reckoned_vessel (vessel, seen_day) "
	"SELECT value ->> 0, value ->> 1 FROM json_each($1) WHERE TRUE "
	"ON CONFLICT (vessel) DO UPDATE SET seen_day = excluded.seen_day "
	"WHERE reckoned_vessel.seen_day <> excluded.seen_day",
    [RECKONED_OF] = "SELECT vessel, tag, task, due_day, good_day, state, rule, sheet "
		    "FROM reckoned WHERE vessel" IN_LIST("$1") "ORDER BY tag, task",
    [RECKONED_ROWS_DROP] = "DELETE FROM reckoned WHERE (tag, task) IN "
			   "(SELECT value ->> 0, value ->> 1 FROM json_each($1))",
    [RECKONED_ROWS_PUT] =
	INTO_RECKONED "SELECT value ->> 0, value ->> 1, value ->> 2, value ->> 3, "
		      "value ->> 4, value ->> 5, value ->> 6, value ->> 7 "
		      "FROM json_each($1) WHERE TRUE " OR_ANEW,
    [RECKONED_ROW_PUT] = INTO_RECKONED "VALUES ($1, $2, $3, $4, $5, $6, $7, $8) " OR_ANEW,
    [REMINDER_FORGET] = "UPDATE reminder SET shape = '' WHERE key = $1",
    [LOAD_REMINDERS] =
	"SELECT key, uid, sequence, modified, shape, given_day, "
	"aim_day, given_entry, given_summary, given_description FROM reminder ORDER BY key",
    [GIVEN_PUT] = "INSERT INTO reminder_given (uid, sequence, on_day) "
		  "SELECT uid, sequence, $1 FROM reminder WHERE key = $2 "
		  "ON CONFLICT (uid, sequence) DO NOTHING",
    [LOAD_GIVEN] = "SELECT uid, sequence, on_day FROM reminder_given "
		   "ORDER BY uid, sequence",
    [CHOICE_GET] = "SELECT weekday, routines, singles, "
		   "EXISTS (SELECT 1 FROM reminder_notice), "
		   "EXISTS (SELECT 1 FROM reminder_planned) "
		   "FROM reminder_choice WHERE id = 1",
    [CHOICE_PUT] = "UPDATE reminder_choice SET weekday = COALESCE($1, weekday), "
		   "routines = COALESCE($2, routines), singles = COALESCE($3, singles) "
		   "WHERE id = 1",
    [NOTICE_PUT] = "INSERT INTO reminder_notice (kind, days) VALUES ($1, $2) "
		   "ON CONFLICT (kind) DO UPDATE SET days = excluded.days",
    [NOTICE_DROP] = "DELETE FROM reminder_notice WHERE kind = $1",
    [LOAD_NOTICES] = "SELECT kind, days "
		     "FROM reminder_notice ORDER BY kind",
    [PLANNED_PUT] = "INSERT INTO reminder_planned "
		    "(key, on_day, summary, confirmed, given_up) "
		    "VALUES ($1, $2, $3, $4, $5) ON CONFLICT (key) DO UPDATE SET "
		    "on_day = excluded.on_day, summary = excluded.summary, "
		    "confirmed = excluded.confirmed, given_up = excluded.given_up "
		    "WHERE reminder_planned.on_day <> excluded.on_day "
		    "OR reminder_planned.confirmed <> excluded.confirmed "
		    "OR reminder_planned.given_up <> excluded.given_up",
    [PLANNED_DROP] = "DELETE FROM reminder_planned WHERE key = $1",
    [LOAD_PLANNED] = "SELECT key, on_day, summary, confirmed, given_up "
		     "FROM reminder_planned ORDER BY key",
    [PACKED_PUT] = "INSERT INTO packed (item_id, on_day) "
		   "VALUES ((SELECT id FROM item WHERE tag = $1), $2) "
		   "ON CONFLICT (item_id) DO UPDATE SET on_day = excluded.on_day",
    [PACKED_DROP] = "DELETE FROM packed "
		    "WHERE item_id = (SELECT id FROM item WHERE tag = $1)",
    [LOAD_PACKED] = "SELECT item.tag FROM packed JOIN item ON item.id = packed.item_id "
		    "WHERE packed.on_day >= $1 ORDER BY item.tag",
    [FEED_ADD] = "INSERT INTO feed (id, secret, scope, name, todos) "
		 "VALUES ($1, $2, $3, $4, $5)",
    [FEED_REVOKE] = "UPDATE feed SET revoked = 1 WHERE id = $1 AND revoked = 0",
    [FEED_NOTE] = "INSERT INTO feed_given (feed_id, etag, modified) VALUES ($1, $2, $3) "
		  "ON CONFLICT (feed_id) DO UPDATE SET etag = excluded.etag, "
		  "modified = excluded.modified",
    [LOAD_FEEDS] =
	"SELECT feed.id, feed.secret, feed.scope, feed.name, "
	"feed.todos, feed.revoked, COALESCE(feed_given.etag, ''), COALESCE(feed_given.modified, 0) "
	"FROM feed LEFT JOIN feed_given ON feed_given.feed_id = feed.id ORDER BY feed.id",
    [SERVING_GET] = "SELECT listen, host, port FROM serving WHERE id = 1",
    [SERVING_PUT] = "INSERT INTO serving (id, listen, host, port) VALUES (1, $1, $2, $3) "
		    "ON CONFLICT (id) DO UPDATE SET listen = excluded.listen, "
		    "host = excluded.host, port = excluded.port",

    /* What the schema says of a table, for the journal. This and the foreign keys below are
     * asked of SQLite itself; another database has other words for them. */
    [TABLE_COLUMNS] =
	"SELECT named.name, about.name, COALESCE(about.dflt_value, ''), about.pk, "
	"COALESCE((SELECT refers.\"table\" "
	"FROM pragma_foreign_key_list(named.name) AS refers "
	"WHERE refers.\"from\" = about.name), '') "
	"FROM sqlite_schema AS named JOIN pragma_table_info(named.name) AS about "
	"WHERE named.type = 'table' AND named.name NOT LIKE 'sqlite%' "
	"ORDER BY named.name, about.cid",
    [ITEM_NAMED] = "SELECT tag, kind, serial FROM item WHERE id = $1",
    [VESSEL_NAMED] = "SELECT name, '', '' FROM vessel WHERE id = $1",
    [STATION_NAMED] = "SELECT name, '', '' FROM station WHERE id = $1",
    [JOURNAL_ADD] =
	"INSERT INTO journal (number, at_seconds, told, who, act, undoes, changes) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7)",
    [JOURNAL_LINES_ADD] =
	INTO_LINES "SELECT value ->> 0, value ->> 1, value ->> 2, value ->> 3, "
		   "value ->> 4, value ->> 5, value ->> 6, value ->> 7, value ->> 8, "
		   "value ->> 9 FROM json_each($1)",
    [JOURNAL_MANY_LINES_ADD] = INTO_LINES "VALUES " FOUR_LINES("1") ", " FOUR_LINES(
	"2") ", " FOUR_LINES("3") ", " FOUR_LINES("4"),
    [JOURNAL_ENTRIES] = "SELECT number, at_seconds, told, who, act, "
			"COALESCE(undoes, 0) FROM journal WHERE at_seconds >= $1 "
			"AND ($2 = 0 OR number = $2) ORDER BY number",
    [JOURNAL_LINES] =
	"SELECT COUNT(*) OVER (), number, about, name, kind, serial, act, field, was, "
	"became FROM journal_line WHERE number >= $1 AND ($2 = 0 OR number = $2) "
	"AND ($3 = '' OR name = $3 OR serial = $3 "
	"OR (field = 'serial' AND (was = $3 OR became = $3)) "
	"OR (serial <> '' AND (kind, serial) IN (SELECT kind, serial FROM journal_line "
	"WHERE name = $3 AND serial <> ''))) ORDER BY number, position",
    [JOURNAL_UNDOS] = "SELECT MAX(number) OVER (), number, undoes FROM journal "
		      "WHERE undoes IS NOT NULL ORDER BY number DESC",
    [JOURNAL_LAST] = "SELECT COALESCE(MAX(number), 0) FROM journal",
    [JOURNAL_LAST_CHANGE] =
	"SELECT number FROM journal WHERE length(changes) > 0 ORDER BY number DESC LIMIT 1",
    [JOURNAL_CONCERNS] =
	"WITH told AS (SELECT number, about, name, field, "
	"about = 'vessel' AND field = 'booking' AND EXISTS "
	"(SELECT 1 FROM vessel WHERE vessel.name = journal_line.name) AS let, "
	"about = 'item' AND field <> 'vessel' AND EXISTS "
	"(SELECT 1 FROM item WHERE item.tag = journal_line.name) AS gear "
	"FROM journal_line WHERE number > $1), "
	"parts AS (SELECT told.number, item.id, item.vessel_id, item.parent_id "
	"FROM told JOIN item ON item.tag = told.name WHERE told.gear) "
	"SELECT '' AS name, MAX(journal.number) AS number FROM journal "
	"WHERE journal.number > $1 AND length(journal.changes) > 0 AND (EXISTS "
	"(SELECT 1 FROM told WHERE told.number = journal.number "
	"AND NOT told.let AND NOT told.gear) OR NOT EXISTS "
	"(SELECT 1 FROM told WHERE told.number = journal.number)) "
	"HAVING MAX(journal.number) > 0 "
	"UNION ALL SELECT name, MAX(number) FROM told WHERE let GROUP BY name "
	"UNION ALL SELECT vessel.name, MAX(parts.number) FROM parts "
	"JOIN vessel ON vessel.id = parts.vessel_id GROUP BY vessel.name "
	"UNION ALL SELECT vessel.name, MAX(parts.number) FROM parts "
	"JOIN item ON item.id = parts.parent_id OR item.parent_id = parts.id "
	"JOIN vessel ON vessel.id = item.vessel_id GROUP BY vessel.name "
	"ORDER BY name, number",
    [JOURNAL_DOINGS] =
	"SELECT number FROM journal WHERE undoes IS NULL AND length(changes) > 0 "
	"ORDER BY number DESC",
    [JOURNAL_CHANGES] = "SELECT changes FROM journal WHERE number = $1",
    [JOURNAL_LATER] =
	"SELECT number, COALESCE(undoes, 0), changes FROM journal WHERE number > $1 "
	"ORDER BY number",
    [FOREIGN_KEYS_OFF] = "PRAGMA foreign_keys = OFF",

    [ACCOUNT_GET] = "SELECT url, login, calendar, name, ca_file, scope, scope_name, "
		    "allow_plain FROM caldav_account WHERE id = $1",
    [ACCOUNT_PUT] =
	"INSERT INTO caldav_account "
	"(id, url, login, calendar, name, ca_file, scope, scope_name, allow_plain) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (id) DO UPDATE SET "
	"url = excluded.url, login = excluded.login, calendar = excluded.calendar, "
	"name = excluded.name, ca_file = excluded.ca_file, scope = excluded.scope, "
	"scope_name = excluded.scope_name, allow_plain = excluded.allow_plain",
    [ACCOUNT_DROP] = "DELETE FROM caldav_account",
    [LOAD_PUSHED] = "SELECT uid, url, "
		    "etag, summary, our_day, our_rest, their_day, their_rest, kept "
		    "FROM caldav_resource WHERE calendar = $1 ORDER BY uid",
    [PUSHED_PUT] =
	"INSERT INTO caldav_resource (calendar, uid, url, etag, summary, our_day, "
	"our_rest, their_day, their_rest, kept) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) "
	"ON CONFLICT (calendar, uid) DO UPDATE SET url = excluded.url, "
	"etag = excluded.etag, summary = excluded.summary, our_day = excluded.our_day, "
	"our_rest = excluded.our_rest, their_day = excluded.their_day, "
	"their_rest = excluded.their_rest, kept = excluded.kept",
    [PUSHED_DROP] = "DELETE FROM caldav_resource WHERE calendar = $1 AND uid = $2",
    [PUSHED_DROP_ALL] = "DELETE FROM caldav_resource",

    [REMINDERS_ANY] = "SELECT 1 FROM reminder LIMIT 1",
    /* Tables with rows about one item; records first, for others refer to them. */
    [TABLES_OF_ITEMS] =
	"SELECT DISTINCT owned.name FROM sqlite_master AS owned "
	"JOIN pragma_foreign_key_list(owned.name) AS refers "
	"WHERE owned.type = 'table' AND refers.\"table\" = 'item' "
	"AND refers.\"from\" = 'item_id' ORDER BY owned.name <> 'record', owned.name",
    [LOT_TAKE] = "UPDATE item SET quantity = quantity - $1 WHERE id = $2 "
		 "AND quantity > $1",
    /* Each row of these is something that must not be: a name, and a detail. Those about
     * items look at the ones with the numbers $1 to $2 and their parts. */
    [CHECK_FILE] = "SELECT 'the file', integrity_check FROM pragma_integrity_check "
		   "WHERE integrity_check <> 'ok'",
    [CHECK_REFERENCES] = "SELECT \"table\", parent FROM pragma_foreign_key_check "
			 "ORDER BY \"table\", rowid, fkid",
    [CHECK_PARTS_APART] = PARTS_APART_SQL,
    [CHECK_PARTS_LEFT] = PARTS_LEFT_SQL,
    [CHECK_LANDED] = LANDED_SQL,
    [CHECK_STAND_INS] = STAND_INS_SQL,
    /* What is coarse is good through its end. */
    [CHECK_NEXT_DAYS] = NEXT_DAYS_SQL,
    /* Whether any of these finds something: most often none does. */
    [CHECK_ITEMS] = "SELECT EXISTS (" LOOPS_SQL ") OR EXISTS (" PARTS_APART_SQL
		    ") OR EXISTS (" PARTS_LEFT_SQL ") OR EXISTS (" LANDED_SQL
		    ") OR EXISTS (" STAND_INS_SQL ") OR EXISTS (" NEXT_DAYS_SQL ")",
    [CHECK_KINDS] = "SELECT tag AS name, kind FROM item UNION ALL SELECT station.name, "
		    "station_kind.kind FROM station_kind JOIN station "
		    "ON station.id = station_kind.station_id ORDER BY name, kind",
    [CHECK_SHEETS] = "SELECT vessel.name, vessel_sheet.sheet FROM vessel_sheet "
		     "JOIN vessel ON vessel.id = vessel_sheet.vessel_id "
		     "UNION SELECT vessel.name, vessel_period_sheet.sheet "
		     "FROM vessel_period_sheet "
		     "JOIN vessel ON vessel.id = vessel_period_sheet.vessel_id "
		     "ORDER BY name, sheet",
    [CHECK_VESSELS] =
	"SELECT name, '' FROM vessel WHERE NOT EXISTS (SELECT 1 FROM vessel_period "
	"WHERE vessel_period.vessel_id = vessel.id AND vessel_period.from_day = 0 "
	"AND vessel_period.use IS NOT NULL AND vessel_period.area IS NOT NULL "
	"AND vessel_period.persons IS NOT NULL) ORDER BY name",
    [CHECK_JOURNAL] =
	"SELECT 'the journal', CAST(newest AS TEXT) FROM (SELECT COUNT(*) AS entries, "
	"COALESCE(MAX(number), 0) AS newest FROM journal) AS counted "
	"WHERE entries <> newest",
    /* Parts that are more than 31 others deep; a loop has no end. */
    [CHECK_LOOPS] = LOOPS_SQL,

    [LOAD_COUNTS] = "SELECT " COUNTS_SQL(OF_ALL, OF_ALL),
    [LOAD_COUNTS_OF] = REACHED_SQL
    "SELECT wanted.there, wanted.vessels, " COUNTS_SQL(OF_WANTED,
	OF_WANTED_ITEMS) " FROM (SELECT NOT EXISTS (SELECT 1 FROM json_each($1) "
			 "AS named LEFT JOIN vessel ON vessel.name = named.value "
			 "WHERE vessel.id IS NULL) AND NOT EXISTS (SELECT 1 "
			 "FROM json_each($3) AS named "
			 "LEFT JOIN item ON item.tag = named.value "
			 "WHERE item.id IS NULL) AS there, "
			 "json_group_array(vessel_id) AS vessels FROM reached) AS wanted",
    LOADS(LOAD_VESSELS, VESSELS_SQL),
    LOADS(LOAD_PERIODS, PERIODS_SQL),
    LOADS(LOAD_WINTERS, WINTERS_SQL),
    LOADS(LOAD_AWAY, AWAY_SQL),
    LOADS(LOAD_BOOKINGS, BOOKINGS_SQL),
    LOADS(LOAD_SHEETS, SHEETS_SQL),
    LOADS(LOAD_ITEMS, ITEMS_SQL),
    LOADS(LOAD_RECORDS, RECORDS_SQL),
    LOADS(LOAD_EVENTS, EVENTS_SQL),
    LOADS(LOAD_EXTENSIONS, EXTENSIONS_SQL),
    LOADS(LOAD_MOVEMENTS, MOVEMENTS_SQL),
    LOADS(LOAD_INTERVALS, INTERVALS_SQL),
    [LOAD_STATIONS] =
	"SELECT id, name, "
	"CASE WHEN weekdays_known = 1 THEN weekdays ELSE 0 END" STATION_OWN_ROWS(
	    FLEET_COLUMN) " "
			  "FROM station "
			  "ORDER BY id",
    [LOAD_CLOSURES] = "SELECT station_id, first_day, last_day FROM station_closure "
		      "ORDER BY station_id, position",
    [LOAD_STATION_KINDS] = "SELECT station_id, kind FROM station_kind "
			   "ORDER BY station_id, position",
    [LOAD_SHUT] = "SELECT station_id, first_day, last_day FROM station_shut "
		  "ORDER BY station_id, position",
    [LOAD_PACES] = "SELECT station_id, first_month, last_month, turn_round_days "
		   "FROM station_pace ORDER BY station_id, position",
    [LOAD_MAKES] = "SELECT station_id, kind, make FROM station_make "
		   "ORDER BY station_id, kind, make",
    [LOAD_PRICES] =
	"SELECT station_id, kind, NULLIF(task, ''), price_minor, from_years FROM ("
	"SELECT station_id, kind, task, price_minor, 0 AS from_years FROM station_price "
	"UNION ALL SELECT station_id, kind, task, price_minor, from_years "
	"FROM station_price_step) AS listed ORDER BY station_id, kind, task, from_years",
};
