/* What was reckoned and given out: dates as last reckoned, reminders, feeds, a server's calendar. */
#include "book/statements_inside.h"

#define FIRST GIVEN_STATEMENTS

/* The journal's last entry when dates were last kept. */
#define KEPT_ENTRY "(SELECT entry FROM reckoning WHERE id = 1) "

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

/* The sheets that a table names, each looked up after the one before: there are few, and a row a boat
 * that names them. Ends with NULL. */
#define EACH_SHEET(each, table)                                                          \
	each " (sheet) AS (SELECT MIN(sheet) FROM " table                                \
	     " UNION ALL SELECT (SELECT MIN(sheet) FROM " table " WHERE " table          \
	     ".sheet > " each ".sheet) FROM " each " WHERE " each ".sheet IS NOT NULL)"

const struct statement_text STATEMENTS_GIVEN[JOURNAL_STATEMENTS - FIRST] = {
    /* By what dates were reckoned, with each vessel touched since: entries of the journal name what
     * they are about. */
    READS(RECKONED_BY,
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
				   "AND journal_line.about = 'item') AS touched ON TRUE ORDER BY touched.name"),
    CHANGES(ROWS_ONE, RECKONED_BY_PUT,
	"INSERT INTO reckoning (id, figures, meanings, entry) "
	"SELECT 1, $1, $2, COALESCE(MAX(number), 0) FROM journal WHERE 1 = 1 "
	"ON CONFLICT (id) DO UPDATE SET figures = excluded.figures, "
	"meanings = excluded.meanings, entry = excluded.entry"),
    READS(LOAD_RECKONED_VESSELS,
	"SELECT vessel, seen_day FROM reckoned_vessel ORDER BY vessel"),
    READS(LOAD_RECKONED,
	"SELECT vessel, tag, task, due_day, good_day, state, rule, sheet "
	"FROM reckoned ORDER BY tag, task"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_VESSELS_DROP,
	"DELETE FROM reckoned_vessel WHERE vessel IN "
	"(SELECT value ->> 0 FROM json_each($1))"),
    CHANGES(ROWS_ANY, RECKONED_DROP_ALL, "DELETE FROM reckoned_vessel"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_VESSELS_PUT,
	"INSERT INTO reckoned_vessel (vessel, seen_day) "
	"SELECT value ->> 0, value ->> 1 FROM json_each($1) WHERE TRUE "
	"ON CONFLICT (vessel) DO UPDATE SET seen_day = excluded.seen_day "
	"WHERE reckoned_vessel.seen_day <> excluded.seen_day"),
    READS(RECKONED_OF, "SELECT vessel, tag, task, due_day, good_day, state, rule, sheet "
		       "FROM reckoned WHERE vessel" IN_LIST("$1") "ORDER BY tag, task"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_ROWS_DROP,
	"DELETE FROM reckoned WHERE (tag, task) IN "
	"(SELECT value ->> 0, value ->> 1 FROM json_each($1))"),
    CHANGES(ROWS_LISTED_AT_MOST, RECKONED_ROWS_PUT,
	INTO_RECKONED "SELECT value ->> 0, value ->> 1, value ->> 2, value ->> 3, "
		      "value ->> 4, value ->> 5, value ->> 6, value ->> 7 "
		      "FROM json_each($1) WHERE TRUE " OR_ANEW),
    CHANGES(ROWS_ONE, RECKONED_ROW_PUT,
	INTO_RECKONED "VALUES ($1, $2, $3, $4, $5, $6, $7, $8) " OR_ANEW),

    READS(REMINDERS_ANY, "SELECT 1 FROM reminder LIMIT 1"),
    /* One that comes back is newer than it was when it went, whatever the caller says. What is
     * as it was is not written again, lest a poll of a feed were a change of the book. */
    CHANGES(ROWS_ONE_AT_MOST, REMINDER_PUT,
	"INSERT INTO reminder (key, uid, sequence, modified, shape, "
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
	"excluded.given_description)"),
    CHANGES(ROWS_ONE_AT_MOST, REMINDER_FORGET,
	"UPDATE reminder SET shape = '' WHERE key = $1"),
    READS(LOAD_REMINDERS,
	"SELECT key, uid, sequence, modified, shape, given_day, "
	"aim_day, given_entry, given_summary, given_description FROM reminder ORDER BY key"),
    CHANGES(ROWS_ONE_AT_MOST, GIVEN_PUT,
	"INSERT INTO reminder_given (uid, sequence, on_day) "
	"SELECT uid, sequence, $1 FROM reminder WHERE key = $2 "
	"ON CONFLICT (uid, sequence) DO NOTHING"),
    READS(LOAD_GIVEN, "SELECT uid, sequence, on_day FROM reminder_given "
		      "ORDER BY uid, sequence"),
    READS(CHOICE_GET, "SELECT weekday, routines, singles, "
		      "EXISTS (SELECT 1 FROM reminder_notice), "
		      "EXISTS (SELECT 1 FROM reminder_planned) "
		      "FROM reminder_choice WHERE id = 1"),
    CHANGES(ROWS_ONE, CHOICE_PUT,
	"UPDATE reminder_choice SET weekday = COALESCE($1, weekday), "
	"routines = COALESCE($2, routines), singles = COALESCE($3, singles) "
	"WHERE id = 1"),
    CHANGES(ROWS_ONE, NOTICE_PUT,
	"INSERT INTO reminder_notice (kind, days) VALUES ($1, $2) "
	"ON CONFLICT (kind) DO UPDATE SET days = excluded.days"),
    CHANGES(ROWS_ONE_AT_MOST, NOTICE_DROP, "DELETE FROM reminder_notice WHERE kind = $1"),
    READS(LOAD_NOTICES, "SELECT kind, days "
			"FROM reminder_notice ORDER BY kind"),
    CHANGES(ROWS_ONE_AT_MOST, PLANNED_PUT,
	"INSERT INTO reminder_planned "
	"(key, on_day, summary, confirmed, given_up) "
	"VALUES ($1, $2, $3, $4, $5) ON CONFLICT (key) DO UPDATE SET "
	"on_day = excluded.on_day, summary = excluded.summary, "
	"confirmed = excluded.confirmed, given_up = excluded.given_up "
	"WHERE reminder_planned.on_day <> excluded.on_day "
	"OR reminder_planned.confirmed <> excluded.confirmed "
	"OR reminder_planned.given_up <> excluded.given_up"),
    CHANGES(
	ROWS_ONE_AT_MOST, PLANNED_DROP, "DELETE FROM reminder_planned WHERE key = $1"),
    READS(LOAD_PLANNED, "SELECT key, on_day, summary, confirmed, given_up "
			"FROM reminder_planned ORDER BY key"),

    CHANGES(ROWS_ONE, FEED_ADD,
	"INSERT INTO feed (id, secret, scope, name, todos) "
	"VALUES ($1, $2, $3, $4, $5)"),
    CHANGES(ROWS_ONE_AT_MOST, FEED_REVOKE,
	"UPDATE feed SET revoked = 1 WHERE id = $1 AND revoked = 0"),
    CHANGES(ROWS_ONE, FEED_NOTE,
	"INSERT INTO feed_given (feed_id, etag, modified) VALUES ($1, $2, $3) "
	"ON CONFLICT (feed_id) DO UPDATE SET etag = excluded.etag, "
	"modified = excluded.modified"),
    READS(LOAD_FEEDS,
	"SELECT feed.id, feed.secret, feed.scope, feed.name, "
	"feed.todos, feed.revoked, COALESCE(feed_given.etag, ''), COALESCE(feed_given.modified, 0) "
	"FROM feed LEFT JOIN feed_given ON feed_given.feed_id = feed.id ORDER BY feed.id"),

    READS(ACCOUNT_GET, "SELECT url, login, calendar, name, ca_file, scope, scope_name, "
		       "allow_plain FROM caldav_account WHERE id = $1"),
    CHANGES(ROWS_ONE, ACCOUNT_PUT,
	"INSERT INTO caldav_account "
	"(id, url, login, calendar, name, ca_file, scope, scope_name, allow_plain) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9) ON CONFLICT (id) DO UPDATE SET "
	"url = excluded.url, login = excluded.login, calendar = excluded.calendar, "
	"name = excluded.name, ca_file = excluded.ca_file, scope = excluded.scope, "
	"scope_name = excluded.scope_name, allow_plain = excluded.allow_plain"),
    CHANGES(ROWS_ANY, ACCOUNT_DROP, "DELETE FROM caldav_account"),
    READS(LOAD_PUSHED, "SELECT uid, url, "
		       "etag, summary, our_day, our_rest, their_day, their_rest, kept "
		       "FROM caldav_resource WHERE calendar = $1 ORDER BY uid"),
    CHANGES(ROWS_ONE, PUSHED_PUT,
	"INSERT INTO caldav_resource (calendar, uid, url, etag, summary, our_day, "
	"our_rest, their_day, their_rest, kept) "
	"VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10) "
	"ON CONFLICT (calendar, uid) DO UPDATE SET url = excluded.url, "
	"etag = excluded.etag, summary = excluded.summary, our_day = excluded.our_day, "
	"our_rest = excluded.our_rest, their_day = excluded.their_day, "
	"their_rest = excluded.their_rest, kept = excluded.kept"),
    CHANGES(ROWS_ONE_AT_MOST, PUSHED_DROP,
	"DELETE FROM caldav_resource WHERE calendar = $1 AND uid = $2"),
    CHANGES(ROWS_ANY, PUSHED_DROP_ALL, "DELETE FROM caldav_resource"),
};
