/* The journal, and what the check finds. */
#include "book/statements.h"
#include "book/tables.h"

#define FIRST JOURNAL_STATEMENTS

/* Items with the numbers $1 to $2, and what is directly inside them. */
#define OF_ITEMS "item.id BETWEEN $1 AND $2 "
#define OF_WHOLES "item.parent_id BETWEEN $1 AND $2 "
#define OF_FAMILY "(" OF_ITEMS "OR " OF_WHOLES ") "

/* Faults of items; each is also asked about alone. */
// clang-format off
#define PARTS_OF(which) \
	"FROM item JOIN item AS whole ON whole.id = item.parent_id WHERE " which "AND "
#define PARTS_SQL PARTS_OF(OF_FAMILY "AND item.state <> 'withdrawn' ")
#define ITEMS_SQL "FROM item WHERE id BETWEEN $1 AND $2 AND "
#define IS_APART "whole.vessel_id <> item.vessel_id "
#define IS_LEFT "whole.state = 'withdrawn' "
#define IS_WRONG "(item.state <> 'withdrawn' AND (" IS_APART "OR " IS_LEFT ")) "
#define PARTS_IN PARTS_OF(OF_ITEMS "AND item.parent_id IS NOT NULL ")
#define PARTS_OUT PARTS_OF(OF_WHOLES "AND item.id NOT BETWEEN $1 AND $2 ")
#define IS_LANDED "landed_to <> '' AND state <> 'landed' "
#define IS_FOR_NOTHING \
	"stands_for <> '' AND NOT EXISTS " \
	"(SELECT 1 FROM item AS own WHERE own.tag = item.stands_for) "
#define PARTS_APART_SQL "SELECT item.tag, whole.tag " PARTS_SQL IS_APART "ORDER BY item.tag"
#define PARTS_LEFT_SQL "SELECT item.tag, whole.tag " PARTS_SQL IS_LEFT "ORDER BY item.tag"
#define LANDED_SQL "SELECT tag, landed_to " ITEMS_SQL IS_LANDED "ORDER BY tag"
#define STAND_INS_SQL "SELECT tag, stands_for " ITEMS_SQL IS_FOR_NOTHING "ORDER BY tag"

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

#define BYTES_OF_ENTRIES                                                                 \
	"COALESCE(piece.bytes, changes) FROM journal "                                   \
	"LEFT JOIN journal_piece AS piece ON piece.number = journal.number "

const struct statement_text STATEMENTS_JOURNAL[LOAD_STATEMENTS - FIRST] = {
    READS(ITEM_NAMED, "SELECT tag, kind, serial FROM item WHERE id = $1"),
    READS(VESSEL_NAMED, "SELECT name, '', '' FROM vessel WHERE id = $1"),
    READS(STATION_NAMED, "SELECT name, '', '' FROM station WHERE id = $1"),

    CHANGES(ROWS_ONE, JOURNAL_ADD, INTO(journal, JOURNAL)),
    CHANGES(ROWS_LISTED, JOURNAL_LINES_ADD,
	"INSERT INTO journal_line (" COLUMNS(
	    JOURNAL_LINE) ") SELECT value ->> 0, value ->> 1, value ->> 2, value ->> 3, "
			  "value ->> 4, value ->> 5, value ->> 6, value ->> 7, "
			  "value ->> 8, value ->> 9 FROM json_each($1)"),
    CHANGES(ROWS_ONE, JOURNAL_LINE_ADD, INTO(journal_line, JOURNAL_LINE)),
    CHANGES(ROWS_ONE, JOURNAL_PIECE_ADD, INTO(journal_piece, JOURNAL_PIECE)),
    CHANGES(ROWS_ONE, JOURNAL_PAGE_ADD, INTO(journal_page, JOURNAL_PAGE)),
    READS(JOURNAL_ENTRIES, "SELECT number, at_seconds, told, who, act, "
			   "COALESCE(undoes, 0) FROM journal WHERE at_seconds >= $1 "
			   "AND ($2 = 0 OR number = $2) ORDER BY number"),
    /* A line, or a page of them. */
    READS(JOURNAL_LINES,
	"SELECT number, NULL AS lines, about, name, kind, serial, act, field, was, "
	"became, position FROM journal_line WHERE number >= $1 AND ($2 = 0 OR number = $2) "
	"AND ($3 = '' OR name = $3 OR serial = $3 "
	"OR (field = 'serial' AND (was = $3 OR became = $3)) "
	"OR (serial <> '' AND (kind, serial) IN "
	"(SELECT value ->> 0, value ->> 1 FROM json_each($4)))) "
	"UNION ALL SELECT number, lines, '', '', '', '', '', '', '', '', position "
	"FROM journal_page WHERE number >= $1 AND ($2 = 0 OR number = $2) "
	"ORDER BY number, position"),
    READS(JOURNAL_SERIALS,
	"SELECT NULL AS lines, kind, serial, number, position FROM journal_line "
	"WHERE name = $1 AND serial <> '' "
	"UNION ALL SELECT lines, '', '', number, position FROM journal_page "
	"ORDER BY number, position"),
    READS(JOURNAL_UNDOS, "SELECT MAX(number) OVER (), number, undoes FROM journal "
			 "WHERE undoes IS NOT NULL ORDER BY number DESC"),
    READS(JOURNAL_LAST, "SELECT COALESCE(MAX(number), 0) FROM journal"),
    READS(JOURNAL_LAST_CHANGE,
	"SELECT number FROM journal WHERE length(changes) > 0 ORDER BY number DESC LIMIT 1"),
    READS(JOURNAL_CONCERNS,
	"WITH " JOURNAL_TOLD(
	    "$1") ", concerns AS (SELECT number, name, "
		  "about = 'vessel' AND field = 'booking' AND EXISTS "
		  "(SELECT 1 FROM vessel WHERE vessel.name = told.name) AS let, "
		  "about = 'item' AND field <> 'vessel' AND EXISTS "
		  "(SELECT 1 FROM item WHERE item.tag = told.name) AS gear FROM told), "
		  "parts AS (SELECT concerns.number, item.id, item.vessel_id, item.parent_id "
		  "FROM concerns JOIN item ON item.tag = concerns.name WHERE concerns.gear) "
		  "SELECT '' AS name, MAX(journal.number) AS number FROM journal "
		  "WHERE journal.number > $1 AND length(journal.changes) > 0 AND (EXISTS "
		  "(SELECT 1 FROM concerns WHERE concerns.number = journal.number "
		  "AND NOT concerns.let AND NOT concerns.gear) OR NOT EXISTS "
		  "(SELECT 1 FROM concerns WHERE concerns.number = journal.number)) "
		  "HAVING MAX(journal.number) > 0 "
		  "UNION ALL SELECT name, MAX(number) FROM concerns WHERE let GROUP BY name "
		  "UNION ALL SELECT vessel.name, MAX(parts.number) FROM parts "
		  "JOIN vessel ON vessel.id = parts.vessel_id GROUP BY vessel.name "
		  "UNION ALL SELECT vessel.name, MAX(parts.number) FROM parts "
		  "JOIN item ON item.id = parts.parent_id OR item.parent_id = parts.id "
		  "JOIN vessel ON vessel.id = item.vessel_id GROUP BY vessel.name "
		  "ORDER BY name, number"),
    READS(JOURNAL_DOINGS,
	"SELECT number FROM journal WHERE undoes IS NULL AND length(changes) > 0 "
	"ORDER BY number DESC"),
    /* An entry in pieces is a row for each of them. */
    READS(JOURNAL_CHANGES, "SELECT " BYTES_OF_ENTRIES "WHERE journal.number = $1 "
			   "ORDER BY piece.position"),
    READS(JOURNAL_LATER,
	"SELECT journal.number, COALESCE(undoes, 0), " BYTES_OF_ENTRIES
	"WHERE journal.number > $1 ORDER BY journal.number, piece.position"),

    /* Each row of these is something that must not be: a name, and a detail. Those about
     * items look at the ones with the numbers $1 to $2 and their parts. */
    READS(CHECK_FILE, "SELECT 'the file', integrity_check FROM pragma_integrity_check "
		      "WHERE integrity_check <> 'ok'"),
    READS(CHECK_REFERENCES, "SELECT \"table\", parent FROM pragma_foreign_key_check "
			    "ORDER BY \"table\", rowid, fkid"),
    /* Parts that are more than 31 others deep; a loop has no end. */
    READS(CHECK_LOOPS, LOOPS_SQL),
    READS(CHECK_PARTS_APART, PARTS_APART_SQL),
    READS(CHECK_PARTS_LEFT, PARTS_LEFT_SQL),
    READS(CHECK_LANDED, LANDED_SQL),
    READS(CHECK_STAND_INS, STAND_INS_SQL),
    /* What is coarse is good through its end. */
    READS(CHECK_NEXT_DAYS, NEXT_DAYS_SQL),
    /* Whether any of these finds something: most often none does. Without $3 the items are
     * not asked for where they stand, without $4 not for next days. A loop is looked for
     * where a part has parts. What is not always asked stands behind a WHERE: of an AND that is a
     * value SQLite works out both sides. Parts are looked for from both sides one after the
     * other: for an OR SQLite would hold the number of each item. */
    READS(CHECK_ITEMS,
	"SELECT EXISTS (SELECT 1 WHERE EXISTS "
	"(SELECT 1 " PARTS_IN "(" IS_WRONG "OR whole.parent_id IS NOT NULL)) "
	"AND (EXISTS (SELECT 1 " PARTS_IN IS_WRONG ") OR EXISTS (" LOOPS_SQL "))) "
	"OR EXISTS (SELECT 1 " PARTS_OUT IS_WRONG ") "
	"OR EXISTS (SELECT 1 " ITEMS_SQL "$3 AND ((" IS_LANDED ") OR (" IS_FOR_NOTHING
	"))) "
	"OR EXISTS (SELECT 1 WHERE $4 AND EXISTS (" NEXT_DAYS_SQL "))"),
    READS(CHECK_KINDS,
	"SELECT tag AS name, kind FROM item UNION ALL SELECT station.name, "
	"station_kind.kind FROM station_kind JOIN station "
	"ON station.id = station_kind.station_id ORDER BY name, kind"),
    READS(CHECK_SHEETS, "SELECT vessel.name, vessel_sheet.sheet FROM vessel_sheet "
			"JOIN vessel ON vessel.id = vessel_sheet.vessel_id "
			"UNION SELECT vessel.name, vessel_period_sheet.sheet "
			"FROM vessel_period_sheet "
			"JOIN vessel ON vessel.id = vessel_period_sheet.vessel_id "
			"ORDER BY name, sheet"),
    READS(CHECK_VESSELS,
	"SELECT name, '' FROM vessel WHERE NOT EXISTS (SELECT 1 FROM vessel_period "
	"WHERE vessel_period.vessel_id = vessel.id AND vessel_period.from_day = 0 "
	"AND vessel_period.use IS NOT NULL AND vessel_period.area IS NOT NULL "
	"AND vessel_period.persons IS NOT NULL) ORDER BY name"),
    READS(CHECK_JOURNAL,
	"SELECT 'the journal', CAST(newest AS TEXT) FROM (SELECT COUNT(*) AS entries, "
	"COALESCE(MAX(number), 0) AS newest FROM journal) AS counted "
	"WHERE entries <> newest"),
};
