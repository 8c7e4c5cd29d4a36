/* What was reckoned and given out: dates as last reckoned, reminders, feeds, a server's
 * calendar. */
#include "book/statements.h"
#include "book/tables.h"

#define FIRST GIVEN_STATEMENTS

/* The journal's last entry when dates were last kept. */
#define KEPT_ENTRY "(SELECT entry FROM reckoning WHERE id = 1) "

/* The sheets that a table names, each looked up after the one before: there are few, and
 * a row a boat that names them. Ends with NULL. */
#define EACH_SHEET(each, table)                                                          \
	each " (sheet) AS (SELECT MIN(sheet) FROM " table                                \
	     " UNION ALL SELECT (SELECT MIN(sheet) FROM " table " WHERE " table          \
	     ".sheet > " each ".sheet) FROM " each " WHERE " each ".sheet IS NOT NULL)"

const struct statement_text STATEMENTS_GIVEN[JOURNAL_STATEMENTS - FIRST] = {
    /* By what dates were reckoned, with each vessel touched since, and the tags of gear
     * kept under her that is gone: entries of the journal name what they are about. */
    READS(RECKONED_BY,
	"WITH RECURSIVE " EACH_SHEET("now", "vessel_sheet") ", " EACH_SHEET("later", "vessel_period_sheet") ", " JOURNAL_TOLD(
	    KEPT_ENTRY) "SELECT reckoning.entry IS DISTINCT FROM "
			"(SELECT COALESCE(MAX(number), 0) FROM journal), "
			"(SELECT group_concat(sheet, ',') FROM ("
			"SELECT sheet FROM now WHERE sheet IS NOT NULL "
			"UNION SELECT sheet FROM later WHERE sheet IS NOT NULL) AS followed), "
			"reckoning.figures, reckoning.meanings, touched.name, EXISTS (SELECT 1 FROM vessel "
			"WHERE vessel.name = touched.name), touched.tag FROM (SELECT 1 AS id) AS one "
			"LEFT JOIN reckoning ON reckoning.id = one.id LEFT JOIN ("
			"SELECT name, '' AS tag FROM told WHERE about = 'vessel' "
			"UNION SELECT vessel.name, '' FROM told JOIN item ON item.tag = told.name "
			"JOIN vessel ON vessel.id = item.vessel_id WHERE told.about = 'item' "
			"UNION SELECT reckoned.vessel, CASE WHEN EXISTS (SELECT 1 FROM item "
			"WHERE item.tag = reckoned.tag) THEN '' ELSE reckoned.tag END "
			"FROM told JOIN reckoned ON reckoned.tag = told.name "
			"WHERE told.about = 'item') AS touched ON TRUE "
			"ORDER BY touched.name, touched.tag"),
    CHANGES(ROWS_ONE, RECKONED_BY_PUT,
	"INSERT INTO reckoning (id, figures, meanings, entry) "
	"SELECT 1, $1, $2, COALESCE(MAX(number), 0) FROM journal WHERE 1 = 1 "
	"ON CONFLICT (id) DO UPDATE SET figures = excluded.figures, "
	"meanings = excluded.meanings, entry = excluded.entry"),
    READS(LOAD_RECKONED_VESSELS,
	"SELECT " COLUMNS(RECKONED_VESSEL) " FROM reckoned_vessel ORDER BY vessel"),
    READS(LOAD_RECKONED, "SELECT " COLUMNS(RECKONED) " FROM reckoned ORDER BY tag"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_VESSELS_DROP,
	"DELETE FROM reckoned_vessel WHERE vessel IN "
	"(SELECT value ->> 0 FROM json_each($1))"),
    CHANGES(ROWS_ANY, RECKONED_DROP_ALL, "DELETE FROM reckoned"),
    CHANGES(ROWS_ANY, RECKONED_VESSELS_DROP_ALL, "DELETE FROM reckoned_vessel"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_VESSELS_PUT,
	"INSERT INTO reckoned_vessel (vessel, seen_day) "
	"SELECT value ->> 0, value ->> 1 FROM json_each($1) WHERE TRUE "
	"ON CONFLICT (vessel) DO UPDATE SET seen_day = excluded.seen_day "
	"WHERE reckoned_vessel.seen_day <> excluded.seen_day"),
    READS(RECKONED_OF, "SELECT reckoned.tag, reckoned.vessel, dates FROM vessel "
		       "JOIN item ON item.vessel_id = vessel.id "
		       "JOIN reckoned ON reckoned.tag = item.tag "
		       "WHERE vessel.name" IN_LIST("$1") "ORDER BY reckoned.tag"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_ROWS_DROP,
	"DELETE FROM reckoned WHERE tag IN (SELECT value ->> 0 FROM json_each($1))"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_ROWS_PUT,
	"INSERT INTO reckoned (" COLUMNS(
	    RECKONED) ") SELECT value ->> 0, value ->> 1, value ->> 2 "
		      "FROM json_each($1) WHERE TRUE" OR_ANEW(RECKONED)),
    CHANGES(ROWS_ONE, RECKONED_ROW_PUT, INTO(reckoned, RECKONED) OR_ANEW(RECKONED)),

    READS(REMINDERS_ANY, "SELECT 1 FROM reminder LIMIT 1"),
    /* One that comes back gets a higher SEQUENCE than it had when it went, whatever the
     * caller says. What is as it was is not written again, so that a poll of a feed is no
     * change of the book. */
    CHANGES(ROWS_ONE_AT_MOST, REMINDER_PUT,
	INTO(reminder,
	    REMINDER) " ON CONFLICT (key) DO UPDATE SET "
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
		      "excluded.given_description)"),
    CHANGES(ROWS_ONE_AT_MOST, REMINDER_FORGET,
	"UPDATE reminder SET shape = '' WHERE key = $1"),
    READS(LOAD_REMINDERS, "SELECT " COLUMNS(REMINDER) " FROM reminder ORDER BY key"),
    READS(REMINDER_GET, "SELECT " COLUMNS(REMINDER) " FROM reminder WHERE key = $1"),
    READS(REMINDER_HAS_UID, "SELECT 1 FROM reminder WHERE uid = $1"),
    READS(REMINDER_OLDEST, "SELECT COALESCE(MIN(given_entry) FILTER (WHERE shape <> ''), "
			   "9223372036854775807), COUNT(*) > 0 FROM reminder"),
    READS(REMINDER_KEYS,
	"SELECT key FROM (SELECT key FROM reminder WHERE shape <> '' AND key > $1 "
	"ORDER BY key LIMIT $2) AS page ORDER BY key"),
    CHANGES(ROWS_ONE_AT_MOST, GIVEN_PUT,
	"INSERT INTO reminder_given (uid, sequence, on_day) "
	"SELECT uid, sequence, $1 FROM reminder WHERE key = $2 "
	"ON CONFLICT (uid, sequence) DO NOTHING"),
    READS(LOAD_GIVEN,
	"SELECT " COLUMNS(REMINDER_GIVEN) " FROM reminder_given ORDER BY uid, sequence"),
    READS(CHOICE_GET, "SELECT " COLUMNS_BUT_ID(
			  REMINDER_CHOICE) ", "
					   "EXISTS (SELECT 1 FROM reminder_notice), "
					   "EXISTS (SELECT 1 FROM reminder_planned) "
					   "FROM reminder_choice WHERE id = 1"),
    CHANGES(ROWS_ONE, CHOICE_PUT,
	"UPDATE reminder_choice SET weekday = COALESCE($1, weekday), "
	"routines = COALESCE($2, routines), singles = COALESCE($3, singles) "
	"WHERE id = 1"),
    CHANGES(ROWS_ONE, NOTICE_PUT,
	INTO(reminder_notice, REMINDER_NOTICE) OR_ANEW(REMINDER_NOTICE)),
    CHANGES(ROWS_ONE_AT_MOST, NOTICE_DROP, "DELETE FROM reminder_notice WHERE kind = $1"),
    READS(LOAD_NOTICES,
	"SELECT " COLUMNS(REMINDER_NOTICE) " FROM reminder_notice ORDER BY kind"),
    CHANGES(ROWS_ONE_AT_MOST, PLANNED_PUT,
	INTO(reminder_planned, REMINDER_PLANNED) OR_ANEW(
	    REMINDER_PLANNED) " WHERE reminder_planned.on_day <> excluded.on_day "
			      "OR reminder_planned.confirmed <> excluded.confirmed "
			      "OR reminder_planned.given_up <> excluded.given_up"),
    CHANGES(
	ROWS_ONE_AT_MOST, PLANNED_DROP, "DELETE FROM reminder_planned WHERE key = $1"),
    READS(LOAD_PLANNED,
	"SELECT " COLUMNS(REMINDER_PLANNED) " FROM reminder_planned ORDER BY key"),

    CHANGES(ROWS_ONE, FEED_ADD, INTO(feed, FEED)),
    CHANGES(ROWS_ONE_AT_MOST, FEED_REVOKE,
	"UPDATE feed SET revoked = 1 WHERE id = $1 AND revoked = 0"),
    CHANGES(ROWS_ONE, FEED_NOTE, INTO(feed_given, FEED_GIVEN) OR_ANEW(FEED_GIVEN)),
    READS(LOAD_FEEDS,
	"SELECT feed.id, feed.secret, feed.scope, feed.name, "
	"feed.todos, feed.revoked, COALESCE(feed_given.etag, ''), COALESCE(feed_given.modified, 0) "
	"FROM feed LEFT JOIN feed_given ON feed_given.feed_id = feed.id ORDER BY feed.id"),

    READS(ACCOUNT_GET,
	"SELECT " COLUMNS_BUT_ID(CALDAV_ACCOUNT) " FROM caldav_account WHERE id = $1"),
    CHANGES(ROWS_ONE, ACCOUNT_PUT,
	INTO(caldav_account, CALDAV_ACCOUNT) OR_ANEW_BY_ID(CALDAV_ACCOUNT)),
    CHANGES(ROWS_ANY, ACCOUNT_DROP, "DELETE FROM caldav_account"),
    READS(LOAD_PUSHED, "SELECT uid, url, "
		       "etag, summary, our_day, our_rest, their_day, their_rest, kept "
		       "FROM caldav_resource WHERE calendar = $1 ORDER BY uid"),
    CHANGES(ROWS_ONE, PUSHED_PUT,
	INTO(caldav_resource, CALDAV_RESOURCE) OR_ANEW(CALDAV_RESOURCE)),
    CHANGES(ROWS_ONE_AT_MOST, PUSHED_DROP,
	"DELETE FROM caldav_resource WHERE calendar = $1 AND uid = $2"),
    CHANGES(ROWS_ANY, PUSHED_DROP_ALL, "DELETE FROM caldav_resource"),
};
