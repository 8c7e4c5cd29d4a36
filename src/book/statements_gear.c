/* What changes gear, its records and papers, and what was settled of hand-ins. */
#include "book/statements.h"
#include "book/tables.h"

#define FIRST GEAR_STATEMENTS

/* A hand-in by what makes it one. */
#define OF_HAND_IN                                                                        \
	" FROM hand_in WHERE of_base = $of_base AND owner = $owner AND winter = $winter " \
	"AND station = $station AND number = $number"

/* The values of fields, to set and to add. */
#define SET_PLAIN(name) SET_OF(name)
#define SET_STAMP(name) SET_OF(name) SET_OF(name "_wording") SET_OF(name "_estimated")
#define ITEM_SET(id, member, type, ...) JOIN(SET_, SHAPE_##type)(#member)
#define RECORD_COLUMN(id, member, type, ...)                                             \
	JOIN(LIST_, SHAPE_##type)("", #member, "_day")
#define RECORD_PARAMETER(id, member, type, ...)                                          \
	JOIN(LIST_, SHAPE_##type)("$", #member, "_day")
#define ITEM_PARAMETER(id, member, type, ...) JOIN(LIST_, SHAPE_##type)("$", #member, "")
#define ITEM_PARAMETERS INVENTORY_FIELDS(FIELD_NOTHING, ITEM_PARAMETER, FIELD_NOTHING)
#define ITEM_SETS INVENTORY_FIELDS(FIELD_NOTHING, ITEM_SET, FIELD_NOTHING)
#define RECORD_COLUMNS INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_COLUMN)
#define RECORD_PARAMETERS INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, RECORD_PARAMETER)

const struct statement_text STATEMENTS_GEAR[GIVEN_STATEMENTS - FIRST] = {
    READS(ITEM_FIND, "SELECT id FROM item WHERE tag = $1"),
    READS(ITEM_LAST, "SELECT COALESCE(MAX(id), 0) FROM item"),
    CHANGES(ROWS_ONE, ITEM_ADD,
	"INSERT INTO item (id, tag, vessel_id, parent_id" ITEM_COLUMNS
	") VALUES ($id, $tag, $vessel, $parent" ITEM_PARAMETERS ")"),
    CHANGES(ROWS_ONE, ITEM_CHANGE,
	"UPDATE item SET vessel_id = COALESCE($vessel, vessel_id)" ITEM_SETS
	" WHERE id = $id"),
    /* What is so already is not written: an import says it of every row. */
    CHANGES(ROWS_ONE_AT_MOST, ITEM_SET_PARENT,
	"UPDATE item SET parent_id = $1 WHERE id = $2 "
	"AND parent_id IS DISTINCT FROM $1"),
    READS(ITEM_PARENT,
	"SELECT parent_id FROM item WHERE id = $1 AND parent_id IS NOT NULL"),
    CHANGES(ROWS_ONE, ITEM_RENEW,
	"UPDATE item SET fitted = $1, fitted_wording = $2, fitted_estimated = $3, "
	"serial = '', "
	"made = 0, made_wording = 0, made_estimated = 0, "
	"packed = 0, packed_wording = 0, packed_estimated = 0, "
	"bought = 0, bought_wording = 0, bought_estimated = 0, "
	"expires = expires * $4, expires_wording = expires_wording * $4, "
	"expires_estimated = expires_estimated * $4 WHERE id = $5"),
    READS(ITEM_DATES, "SELECT made, made_wording, made_estimated FROM item WHERE id = $1 "
		      "UNION ALL SELECT packed, packed_wording, packed_estimated "
		      "FROM item WHERE id = $1 "
		      "UNION ALL SELECT bought, bought_wording, bought_estimated "
		      "FROM item WHERE id = $1 "
		      "UNION ALL SELECT fitted, fitted_wording, fitted_estimated "
		      "FROM item WHERE id = $1 "
		      "ORDER BY made, made_wording, made_estimated"),
    CHANGES(ROWS_ONE_AT_MOST, LOT_TAKE,
	"UPDATE item SET quantity = quantity - $1 WHERE id = $2 "
	"AND quantity > $1"),

    READS(RECORD_FIND, "SELECT id FROM record WHERE item_id = $1 AND task = $2 "
		       "AND on_day = $3 AND certificate = $4 "
		       "AND next_day = $5 AND next_wording = $6"),
    /* Entered again it is one record, perhaps with a station or a price that was not known. That a
     * renewal was a refit is learned so, never unlearned: its other dates would be later. */
    CHANGES(ROWS_ONE_AT_MOST, RECORD_ADD,
	"INSERT INTO record (id, item_id, entered" RECORD_COLUMNS
	") VALUES ($id, $item, $entered" RECORD_PARAMETERS ") "
	"ON CONFLICT (item_id, on_day, task, certificate, next_day, next_wording) "
	"DO UPDATE SET station = COALESCE(NULLIF(excluded.station, ''), station), "
	"price_minor = COALESCE(NULLIF(excluded.price_minor, -1), price_minor), "
	"refit = COALESCE(NULLIF(excluded.refit, 0), refit) "
	"WHERE excluded.station NOT IN ('', station) "
	"OR excluded.price_minor NOT IN (-1, price_minor) "
	"OR excluded.refit > refit"),
    READS(RENEWALS, "SELECT on_day, on_wording, on_estimated FROM record "
		    "WHERE item_id = $1 AND task = 'renew' AND refit = 0 ORDER BY id"),
    READS(REFITS, "SELECT on_day, on_wording, on_estimated FROM record "
		  "WHERE item_id = $1 AND refit = 1 ORDER BY id"),
    CHANGES(ROWS_ONE_AT_MOST, EVENT_ADD,
	INTO(event, EVENT) " ON CONFLICT (item_id, on_day, kind) DO NOTHING"),
    CHANGES(ROWS_ONE, EXTENSION_ADD,
	INTO(extension, EXTENSION) " ON CONFLICT (item_id, until_day, task, paper) "
				   "DO UPDATE SET given_day = excluded.given_day"),
    CHANGES(ROWS_ONE, INTERVAL_PUT,
	INTO(maker_interval,
	    MAKER_INTERVAL) " ON CONFLICT (item_id, task, on_day) DO UPDATE SET months = excluded.months, "
			    "first_months = excluded.first_months, counts_from = excluded.counts_from, "
			    "paper = excluded.paper"),
    CHANGES(ROWS_ANY, INTERVAL_DROP,
	"DELETE FROM maker_interval WHERE item_id = $1 AND task = $2"),
    /* With how it stands, and on which vessel, before what is told. */
    CHANGES(ROWS_ONE, MOVEMENT_ADD,
	"INSERT INTO movement (" COLUMNS(
	    MOVEMENT) ") SELECT $1, $2, $3, $4, item.state, "
		      "COALESCE(NULLIF($5, ''), vessel.name), vessel.name, $6, $7, $8, item.serial, "
		      "$9, $10, $11, $12, $13 "
		      "FROM item JOIN vessel ON vessel.id = item.vessel_id WHERE item.id = $2"),

    READS(PAPER_FIND, "SELECT id FROM paper WHERE item_id = $1 AND sha256 = $2"),
    /* Bytes that have been damaged in the file are mended. */
    CHANGES(ROWS_ONE_AT_MOST, PAPER_BYTES_PUT,
	INTO(paper_bytes, PAPER_BYTES)
	    OR_ANEW(PAPER_BYTES) " WHERE paper_bytes.bytes <> excluded.bytes"),
    CHANGES(ROWS_ONE, PAPER_ADD, INTO(paper, PAPER)),
    CHANGES(ROWS_ONE, PAPER_FILL,
	"UPDATE paper SET record_id = COALESCE($1, record_id), "
	"note = COALESCE($2, note) WHERE id = $3"),
    READS(PAPER_READ, "SELECT CASE WHEN length(paper.bytes) > 0 THEN paper.bytes "
		      "ELSE paper_bytes.bytes END FROM paper LEFT JOIN paper_bytes "
		      "ON paper_bytes.sha256 = paper.sha256 WHERE paper.id = $1"),
    CHANGES(ROWS_ONE_AT_MOST, PAPER_REMOVE,
	"DELETE FROM paper WHERE id = $1 AND item_id = $2"),
    READS(LOAD_PAPERS,
	"SELECT paper.id, item.tag, paper.name, "
	"paper.media_type, paper.note, paper.added_day, paper.size, paper.sha256, "
	"record.task, record.on_day, record.on_wording, record.on_estimated, "
	"record.certificate FROM paper JOIN item ON item.id = paper.item_id "
	"LEFT JOIN record ON record.id = paper.record_id "
	"WHERE $1 = '' OR item.tag = $1 ORDER BY paper.item_id, paper.id"),

    CHANGES(ROWS_ONE, PACKED_PUT,
	"INSERT INTO packed (item_id, on_day) "
	"VALUES ((SELECT id FROM item WHERE tag = $1), $2) "
	"ON CONFLICT (item_id) DO UPDATE SET on_day = excluded.on_day"),
    CHANGES(ROWS_ONE_AT_MOST, PACKED_DROP,
	"DELETE FROM packed "
	"WHERE item_id = (SELECT id FROM item WHERE tag = $1)"),
    READS(LOAD_PACKED,
	"SELECT item.tag FROM packed JOIN item ON item.id = packed.item_id "
	"WHERE packed.on_day >= $1 ORDER BY item.tag"),

    CHANGES(ROWS_ONE, SETTLED_PUT,
	INTO(hand_in,
	    HAND_IN) " ON CONFLICT (of_base, owner, winter, station, number) DO UPDATE SET "
		     "hand_in_day = excluded.hand_in_day, chosen = excluded.chosen, "
		     "missed = excluded.missed, given_on_day = excluded.given_on_day, "
		     "given_by = excluded.given_by"),
    CHANGES(ROWS_ANY, SETTLED_PIECES_DROP,
	"DELETE FROM hand_in_piece WHERE hand_in_id = (SELECT id" OF_HAND_IN ")"),
    CHANGES(ROWS_ONE, SETTLED_PIECE_ADD,
	"INSERT INTO hand_in_piece (hand_in_id, tag, due_day) "
	"SELECT id, $tag, $due" OF_HAND_IN),
    READS(LOAD_SETTLED, "SELECT " COLUMNS(HAND_IN) " FROM hand_in ORDER BY id"),
    READS(LOAD_SETTLED_PIECES,
	"SELECT " COLUMNS(HAND_IN_PIECE) " FROM hand_in_piece ORDER BY hand_in_id, tag"),
    READS(LOAD_SETTLED_OF,
	"SELECT " COLUMNS(HAND_IN) " FROM hand_in "
				   "WHERE of_base = $1 AND owner = $2 ORDER BY id"),
    READS(LOAD_SETTLED_PIECES_OF,
	"SELECT " COLUMNS(HAND_IN_PIECE) " FROM hand_in_piece WHERE hand_in_id = $1 "
					 "ORDER BY tag"),
};
