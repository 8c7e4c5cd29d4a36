/* What the book is read with, all of it or what is on some vessels. */
#include "book/statements.h"
#include "book/tables.h"

#define FIRST LOAD_STATEMENTS

/* What is loaded: all of a table, or what is on the vessels wanted, by the column that names a
 * vessel. */
#define OF_ALL(column) "TRUE "
#define OF_VESSELS(column) column IN_LIST("$wanted")

/* The order of items, and of what hangs on them: as the indexes give it, since sorting would cost
 * as much as reading. */
#define IN_ALL "item.id"
#define IN_VESSELS "item.vessel_id, item.id"

/* What hangs on items, as far as a condition holds, and the beginning of its order. */
#define ON_ALL(table, condition)                                                         \
	"FROM " table " WHERE " condition "ORDER BY " table ".item_id, "
#define ON_ITEMS(table, condition)                                                       \
	"FROM (SELECT vessel_id AS owner, id AS number FROM item WHERE " OF_VESSELS(     \
	    "vessel_id") ") AS its CROSS JOIN " table " ON " table                       \
			 ".item_id = its.number WHERE " condition                        \
			 "ORDER BY its.owner, its.number, "

/* The same where they are one, `boat.id`, or each that is reached, over which is summed; gear is
 * counted where $6 says so. */
#define OF_ONE(column) column " = boat.id "
#define OF_EACH(column) column " = reached.vessel_id "
#define GEAR_OF_EACH(column) "$6 = 1 AND " OF_EACH(column)
#define AS_IT_IS(count) count
#define SUMMED(count) "COALESCE(SUM(" count "), 0)"

/* A statement that loads, both ways. `sql` gets what narrows it by vessel, and the order of items;
 * what hangs on items gets that alone. */
#define LOADS(name, sql)                                                                 \
	READS(name, sql(OF_ALL, IN_ALL)), READS(name##_OF, sql(OF_VESSELS, IN_VESSELS))
#define LOADS_HUNG(name, sql) READS(name, sql(ON_ALL)), READS(name##_OF, sql(ON_ITEMS))
#define RECORD_LOADED(id, member, type, ...)                                             \
	JOIN(LIST_, SHAPE_##type)("record.", #member, "_day")
#define RECORD_FIELDS_LOADED INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_LOADED)

/* The vessels that lie at some bases at any time. */
#define AT_BASES(which)                                                                  \
	"SELECT id FROM vessel WHERE base " which                                        \
	" UNION SELECT vessel_id FROM vessel_period WHERE base " which " "

/* Vessels of these names, of this base, and those of items with these tags; with $4 the
 * stores of their bases, when it is 2 all vessels there; with $5 whatever hangs together
 * with gear on them: wholes, parts, and what stands in for it. */
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

/* What is loaded, one after the other as rows.h has it. Counts are of rows that may come; of what
 * hangs on gear it is only told whether there is any on any, since to count it costs as much as to
 * find it. */
// clang-format off
#define COUNT_ALL(table) "(SELECT COUNT(*) FROM " table ")"
#define COUNT(table, narrowed) "(SELECT COUNT(*) FROM " table " WHERE " narrowed ")"
#define COUNT_OF_HERS(table, VESSELS, SUM) SUM(COUNT(table, VESSELS(table ".vessel_id")))
#define ANY(table) "(SELECT MAX(id) FROM " table ") IS NOT NULL"
#define COUNTS_SQL(VESSELS, GEAR, SUM) \
	"(SELECT number FROM revision WHERE id = 1), " SUM(COUNT("vessel", VESSELS("id"))) ", " \
	COUNT_OF_HERS("vessel_period", VESSELS, SUM) ", " COUNT_OF_HERS("vessel_winter", VESSELS, SUM) ", " \
	COUNT_OF_HERS("vessel_away", VESSELS, SUM) ", " COUNT_OF_HERS("booking", VESSELS, SUM) ", " \
	COUNT_OF_HERS("vessel_sheet", VESSELS, SUM) " + " COUNT_OF_HERS("vessel_period_sheet", VESSELS, SUM) ", " \
	COUNT_ALL("station") ", " COUNT_ALL("station_closure") ", " COUNT_ALL("station_kind") ", " \
	COUNT_ALL("station_shut") ", " COUNT_ALL("station_pace") ", " COUNT_ALL("station_make") ", " \
	COUNT_ALL("station_price") " + " COUNT_ALL("station_price_step") ", " \
	COUNT_OF_HERS("item", GEAR, SUM) ", " ANY("record") ", " \
	ANY("event") ", " ANY("extension") ", " \
	ANY("movement") ", " ANY("maker_interval")
#define VESSELS_SQL(VESSELS, ORDER) \
	"SELECT id, name, base, laid_up, lay_up_first, lay_up_last, left_day, goes_weekdays" \
	VESSEL_OWN_ROWS(FLEET_COLUMN) " FROM vessel WHERE " VESSELS("id") "ORDER BY id"
#define PERIODS_SQL(VESSELS, ORDER) \
	"SELECT vessel_id, from_day" TIMED_ROWS(FLEET_COLUMN) ", base, laid_up, lay_up_first, lay_up_last " \
	"FROM vessel_period WHERE " VESSELS("vessel_id") "ORDER BY vessel_id, from_day"
#define WINTERS_SQL(VESSELS, ORDER) \
	"SELECT " COLUMNS(VESSEL_WINTER) " FROM vessel_winter WHERE " VESSELS("vessel_id") \
	"ORDER BY vessel_id, year"
#define AWAY_SQL(VESSELS, ORDER) \
	"SELECT vessel_id, first_day, last_day FROM vessel_away WHERE " VESSELS("vessel_id") \
	"ORDER BY vessel_id, position"
#define BOOKINGS_SQL(VESSELS, ORDER) \
	"SELECT " COLUMNS_BUT_ID(BOOKING) " FROM booking WHERE " VESSELS("vessel_id") \
	"ORDER BY vessel_id, first_day, last_day, id"
#define SHEETS_SQL(VESSELS, ORDER) \
	"SELECT vessel_id, 0 AS from_day, position, sheet FROM vessel_sheet WHERE " VESSELS("vessel_id") \
	"UNION ALL SELECT vessel_id, from_day, position, sheet FROM vessel_period_sheet WHERE " \
	VESSELS("vessel_id") "ORDER BY vessel_id, from_day, position"
#define ITEMS_SQL(VESSELS, ORDER) \
	"SELECT id, vessel_id, COALESCE(parent_id, 0), tag" ITEM_COLUMNS ", COALESCE((SELECT lot.tag " \
	"FROM item AS lot WHERE lot.id = item.split_from), '') FROM item " \
	"WHERE (item.state <> 'withdrawn' OR $withdrawn = 1) AND " VESSELS("item.vessel_id") "ORDER BY " ORDER

/* By all that tells two apart, as the index has them; those of one day and task are put
 * in the order of entry when they are loaded. */
#define RECORDS_SQL(ON) \
	"SELECT record.item_id, record.id, record.entered" RECORD_FIELDS_LOADED " " \
	ON("record", "TRUE ") \
	"record.on_day, record.task, record.certificate, record.next_day, record.next_wording"
#define EVENTS_SQL(ON) \
	"SELECT " COLUMNS_BUT_ID(EVENT) " " ON("event", "TRUE ") "event.on_day, event.id"
#define EXTENSIONS_SQL(ON) \
	"SELECT item_id, task, until_day, paper, given_day, entered " \
	ON("extension", "extension.ended = 0 ") "extension.until_day, extension.id"
#define MOVEMENTS_SQL(ON) \
	"SELECT " COLUMNS_BUT_ID(MOVEMENT) " " ON("movement", "TRUE ") "movement.id"
#define INTERVALS_SQL(ON) \
	"SELECT " COLUMNS_BUT_ID(MAKER_INTERVAL) " " ON("maker_interval", "TRUE ") \
	"maker_interval.on_day, maker_interval.id"
// clang-format on

const struct statement_text STATEMENTS_LOAD[STATEMENT_COUNT - FIRST] = {
    READS(LOAD_COUNTS, "SELECT " COUNTS_SQL(OF_ALL, OF_ALL, AS_IT_IS)),
    READS(LOAD_COUNTS_OF,
	REACHED_SQL "SELECT NOT EXISTS (SELECT 1 FROM json_each($1) "
		    "AS named LEFT JOIN vessel ON vessel.name = named.value "
		    "WHERE vessel.id IS NULL) AND NOT EXISTS (SELECT 1 "
		    "FROM json_each($3) AS named "
		    "LEFT JOIN item ON item.tag = named.value "
		    "WHERE item.id IS NULL), json_group_array(vessel_id), " COUNTS_SQL(
			OF_EACH, GEAR_OF_EACH, SUMMED) " FROM reached"),
    READS(LOAD_COUNTS_OF_ONE,
	"SELECT 1 + EXISTS (SELECT 1 FROM item AS whole JOIN item AS part "
	"ON part.parent_id = whole.id WHERE whole.vessel_id = boat.id "
	"AND part.vessel_id <> boat.id), '[' || CAST(boat.id AS TEXT) || ']', " COUNTS_SQL(
	    OF_ONE, OF_ONE, AS_IT_IS) " FROM vessel AS boat WHERE boat.name = $1"),

    LOADS(LOAD_VESSELS, VESSELS_SQL),
    LOADS(LOAD_PERIODS, PERIODS_SQL),
    LOADS(LOAD_WINTERS, WINTERS_SQL),
    LOADS(LOAD_AWAY, AWAY_SQL),
    LOADS(LOAD_BOOKINGS, BOOKINGS_SQL),
    LOADS(LOAD_SHEETS, SHEETS_SQL),
    LOADS(LOAD_ITEMS, ITEMS_SQL),
    LOADS_HUNG(LOAD_RECORDS, RECORDS_SQL),
    LOADS_HUNG(LOAD_EVENTS, EVENTS_SQL),
    LOADS_HUNG(LOAD_EXTENSIONS, EXTENSIONS_SQL),
    LOADS_HUNG(LOAD_MOVEMENTS, MOVEMENTS_SQL),
    LOADS_HUNG(LOAD_INTERVALS, INTERVALS_SQL),

    READS(LOAD_STATIONS,
	"SELECT id, name, "
	"CASE WHEN weekdays_known = 1 THEN weekdays ELSE 0 END" STATION_OWN_ROWS(
	    FLEET_COLUMN) " "
			  "FROM station "
			  "ORDER BY id"),
    READS(LOAD_CLOSURES, "SELECT station_id, first_day, last_day FROM station_closure "
			 "ORDER BY station_id, position"),
    READS(LOAD_STATION_KINDS, "SELECT station_id, kind FROM station_kind "
			      "ORDER BY station_id, position"),
    READS(LOAD_SHUT, "SELECT station_id, first_day, last_day FROM station_shut "
		     "ORDER BY station_id, position"),
    READS(LOAD_PACES, "SELECT station_id, first_month, last_month, turn_round_days "
		      "FROM station_pace ORDER BY station_id, position"),
    READS(LOAD_MAKES, "SELECT " COLUMNS(STATION_MAKE) " FROM station_make "
						      "ORDER BY station_id, kind, make"),
    READS(LOAD_PRICES,
	"SELECT station_id, kind, NULLIF(task, ''), price_minor, from_years FROM ("
	"SELECT station_id, kind, task, price_minor, 0 AS from_years FROM station_price "
	"UNION ALL SELECT station_id, kind, task, price_minor, from_years "
	"FROM station_price_step) AS listed ORDER BY station_id, kind, task, from_years"),
};
