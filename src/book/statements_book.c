/* The book itself: transactions, sheets of its own, numbers, choices, names, the schema. */
#include "book/book.h"
#include "book/statements.h"
#include "book/tables.h"

#define FIRST BOOK_STATEMENTS

/* Every base a vessel has at some time. */
#define LIES                                                                             \
	"(SELECT id AS vessel_id, base FROM vessel WHERE base <> '' "                    \
	"UNION SELECT vessel_id, base FROM vessel_period WHERE base <> '') "

/* The last number that a row of each table has. */
#define LAST_OF(id, table, ...) "UNION ALL SELECT '" table "', MAX(id) FROM " table " "

const struct statement_text STATEMENTS_BOOK[FLEET_STATEMENTS - FIRST] = {
    READS(BEGIN_READING, "BEGIN"),
    /* Takes the write lock at once, so that a change never fails half way for it. */
    READS(BEGIN_WRITING, "BEGIN IMMEDIATE"),
    READS(COMMIT, "COMMIT"),
    READS(ROLLBACK, "ROLLBACK"),

    READS(
	OWN_SHEETS_THERE, "SELECT COUNT(*) FROM sqlite_schema WHERE name = 'own_sheet'"),
    CHANGES(ROWS_ANY, OWN_SHEETS_DROP, "DELETE FROM own_sheet"),
    CHANGES(ROWS_ONE, OWN_SHEET_ADD, INTO(own_sheet, OWN_SHEET)),
    READS(OWN_SHEETS_LOAD, "SELECT " COLUMNS(OWN_SHEET) " FROM own_sheet ORDER BY name"),

    CHANGES(ROWS_ONE_AT_MOST, BOOK_FIRST,
	"INSERT INTO book (id, identity, currency) VALUES (1, $1, '" BOOK_NEW_CURRENCY
	"') "
	"ON CONFLICT (id) DO NOTHING"),
    READS(BOOK_GET, "SELECT " COLUMNS_BUT_ID(BOOK) " FROM book WHERE id = 1"),
    CHANGES(ROWS_ONE, BOOK_SET_CURRENCY, "UPDATE book SET currency = $1 WHERE id = 1"),
    READS(PRICE_COUNT,
	"SELECT (SELECT COUNT(*) FROM item WHERE price_minor >= 0) + "
	"(SELECT COUNT(*) FROM record WHERE price_minor >= 0) + "
	"(SELECT COUNT(*) FROM movement WHERE price_minor >= 0) + "
	"(SELECT COUNT(*) FROM station_price) + (SELECT COUNT(*) FROM station_price_step) + "
	"(SELECT COUNT(*) FROM station WHERE trip_minor > 0) + "
	"(SELECT COUNT(*) FROM station WHERE carriage_minor > 0)"),
    CHANGES(ROWS_ONE_AT_MOST, BOOK_SET_IDENTITY,
	"UPDATE book SET identity = $1 WHERE id = 1 "
	"AND NOT EXISTS (SELECT 1 FROM reminder)"),
    READS(SERVING_GET, "SELECT " COLUMNS_BUT_ID(SERVING) " FROM serving WHERE id = 1"),
    CHANGES(ROWS_ONE, SERVING_PUT, INTO(serving, SERVING) OR_ANEW_BY_ID(SERVING)),

    READS(NUMBERS_GET, "SELECT number, numbers, (SELECT COALESCE(MAX(number), 0) + 1 "
		       "FROM journal) FROM revision WHERE id = 1"),
    READS(NUMBERS_FOUND, "SELECT '' AS named, 0 AS last " BOOK_TABLES(LAST_OF,
			     FIELD_NOTHING, LAST_OF, FIELD_NOTHING) "ORDER BY named"),
    CHANGES(ROWS_ONE, REVISION_RAISE,
	"UPDATE revision SET number = number + 1, "
	"contents_sum = (contents_sum + $1) % 4611686018427387904, "
	"numbers = COALESCE($2, numbers) WHERE id = 1"),
    READS(REVISION_GET, "SELECT number FROM revision WHERE id = 1"),
    READS(CONTENTS_SUM, "SELECT contents_sum FROM revision WHERE id = 1"),
    READS(SCHEMA_TEXTS,
	"SELECT name, type || tbl_name || COALESCE(sql, '') FROM sqlite_schema "
	"ORDER BY name"),
    CHANGES(
	ROWS_ONE, CONTENTS_SUM_SET, "UPDATE revision SET contents_sum = $1 WHERE id = 1"),

    /* The tables that the file has, with how many columns and, a bit each, which are of
     * the key (64 at most): asked of SQLite itself; another database has other words for
     * it. */
    READS(TABLES_THERE,
	"SELECT named.name, COUNT(*), SUM((about.pk > 0) << about.cid) "
	"FROM sqlite_schema AS named JOIN pragma_table_info(named.name) AS about "
	"WHERE named.type = 'table' AND named.name NOT LIKE 'sqlite%' "
	"GROUP BY named.name ORDER BY named.name"),
    READS(FOREIGN_KEYS_OFF, "PRAGMA foreign_keys = OFF"),

    READS(NAMES_OF_ITEMS, "SELECT tag FROM item ORDER BY tag"),
    READS(NAMES_OF_VESSELS, "SELECT name FROM vessel ORDER BY name"),
    READS(NAMES_OF_STATIONS, "SELECT name FROM station ORDER BY name"),
    READS(NAMES_OF_BASES,
	"SELECT base FROM vessel WHERE base <> '' "
	"UNION SELECT base FROM vessel_period WHERE base <> '' "
	"UNION SELECT base FROM station WHERE base <> '' ORDER BY base"),
    READS(NAMES_OF_BERTHS, "SELECT DISTINCT base FROM " LIES "AS lies ORDER BY base"),
    READS(NAMES_OF_BASELESS,
	"SELECT name FROM vessel WHERE store = 0 AND (base = '' OR EXISTS (SELECT 1 "
	"FROM vessel_period WHERE vessel_id = vessel.id AND vessel_period.base = '')) "
	"ORDER BY name"),
    READS(NAMES_OF_BOATS, "SELECT name FROM vessel WHERE store = 0 ORDER BY name"),
    READS(BASE_FIND, "SELECT 1 FROM vessel WHERE base = $1 "
		     "UNION SELECT 1 FROM vessel_period WHERE base = $1 "
		     "UNION SELECT 1 FROM station WHERE base = $1"),
    READS(BERTH_FIND, "SELECT 1 FROM " LIES "AS lies WHERE base = $1 LIMIT 1"),
    READS(NAMES_OF_LANDED, "SELECT tag FROM item WHERE state = 'landed' ORDER BY tag"),
    READS(NAMES_OF_SPLIT,
	"SELECT DISTINCT lot.tag FROM item "
	"JOIN item AS lot ON lot.id = item.split_from ORDER BY lot.tag"),
    READS(NAMES_OF_UNWINTERED,
	"SELECT name FROM vessel WHERE store = 0 AND (laid_up = 0 OR EXISTS (SELECT 1 "
	"FROM vessel_period WHERE vessel_id = vessel.id AND vessel_period.laid_up = 0)) "
	"ORDER BY name"),
    READS(NAMES_OF_LOTS,
	"WITH RECURSIVE lot (id) AS (SELECT id FROM item WHERE tag" IN_LIST(
	    "$1") "UNION SELECT other.id FROM lot JOIN item ON item.id = lot.id JOIN item AS other "
		  "ON other.id = item.split_from OR other.split_from = item.id) "
		  "SELECT tag FROM item WHERE id IN (SELECT id FROM lot) ORDER BY tag"),
    /* whoever has nothing to do with another has a row without a tie */
    READS(TIES, "SELECT name, base, 0 AS by_gear FROM vessel "
		"UNION SELECT vessel.name, vessel_period.base, 0 FROM vessel_period "
		"JOIN vessel ON vessel.id = vessel_period.vessel_id "
		"UNION SELECT boat.name, other.name, 1 FROM item AS part "
		"JOIN item AS whole ON whole.id = part.parent_id "
		"JOIN vessel AS boat ON boat.id = part.vessel_id "
		"JOIN vessel AS other ON other.id = whole.vessel_id "
		"WHERE part.vessel_id <> whole.vessel_id "
		"UNION SELECT boat.name, other.name, 1 FROM item AS stand_in "
		"JOIN item AS own ON own.tag = stand_in.stands_for "
		"JOIN vessel AS boat ON boat.id = stand_in.vessel_id "
		"JOIN vessel AS other ON other.id = own.vessel_id "
		"WHERE stand_in.stands_for <> '' AND stand_in.vessel_id <> own.vessel_id "
		"ORDER BY name, by_gear, base"),
    READS(MARKS, "SELECT tag, kind, serial FROM item ORDER BY id"),
    READS(PAST_MARKS, "SELECT item.tag, item.kind, movement.serial FROM movement "
		      "JOIN item ON item.id = movement.item_id "
		      "WHERE movement.serial <> '' ORDER BY movement.id"),

    READS(LOAD_IMPORT_ANSWERS, "SELECT about = 'words', theirs, ours FROM import_answer "
			       "ORDER BY about, theirs"),
    CHANGES(ROWS_ONE, IMPORT_ANSWER_PUT,
	INTO(import_answer, IMPORT_ANSWER) OR_ANEW(IMPORT_ANSWER)),
};
