/* The book's tables, each with its columns: what a column is called, what it holds,
 * whether it is of the key, what it has where nothing is told, what it refers to. From
 * this come the texts of statements that only name a table's columns (below) and all that
 * the journal, the sum and undo know of tables (journal_inside.h). The fields of gear
 * stand in gear/fields.h and gear/fleet_fields.h alone. The migrations make the tables,
 * and say what each column means; a test holds all of this against what they make
 * (tests/unit/tables_test.c). Only for files of this room. */
#ifndef BECKET_BOOK_TABLES_H
#define BECKET_BOOK_TABLES_H

#include "gear/fleet_fields.h"

/* Each has its name, what becomes of a change of its rows (enum table_keeping), and what
 * is loaded of it (rows.h). NUMBERED is a table whose rows the program numbers as it adds
 * them (`id`); FIELDS is one of those that has fields, and TIMED another with fields. */
// clang-format off
#define BOOK_TABLES(NUMBERED, OTHER, FIELDS, TIMED) \
	OTHER(BOOK, "book", TOLD, NOTHING) \
	NUMBERED(BOOKING, "booking", TOLD, VESSELS) \
	OTHER(CALDAV_ACCOUNT, "caldav_account", TOLD, NOTHING) \
	OTHER(CALDAV_RESOURCE, "caldav_resource", SUMMED, NOTHING) \
	NUMBERED(EVENT, "event", TOLD, EVENTS) \
	NUMBERED(EXTENSION, "extension", TOLD, EXTENSIONS) \
	NUMBERED(FEED, "feed", SUMMED, NOTHING) \
	OTHER(FEED_GIVEN, "feed_given", SUMMED, NOTHING) \
	NUMBERED(HAND_IN, "hand_in", SUMMED, NOTHING) \
	OTHER(HAND_IN_PIECE, "hand_in_piece", SUMMED, NOTHING) \
	OTHER(IMPORT_ANSWER, "import_answer", SUMMED, NOTHING) \
	FIELDS(ITEM, "item", TOLD, ITEMS) \
	OTHER(JOURNAL, "journal", JOURNAL, NOTHING) \
	OTHER(JOURNAL_LINE, "journal_line", JOURNAL, NOTHING) \
	OTHER(JOURNAL_PAGE, "journal_page", JOURNAL, NOTHING) \
	OTHER(JOURNAL_PIECE, "journal_piece", JOURNAL, NOTHING) \
	NUMBERED(MAKER_INTERVAL, "maker_interval", TOLD, INTERVALS) \
	NUMBERED(MOVEMENT, "movement", TOLD, MOVEMENTS) \
	OTHER(OWN_SHEET, "own_sheet", SUMMED, NOTHING) \
	OTHER(PACKED, "packed", TOLD, NOTHING) \
	NUMBERED(PAPER, "paper", TOLD, NOTHING) \
	OTHER(PAPER_BYTES, "paper_bytes", APART, NOTHING) \
	OTHER(RECKONED, "reckoned", APART, NOTHING) \
	OTHER(RECKONED_VESSEL, "reckoned_vessel", APART, NOTHING) \
	OTHER(RECKONING, "reckoning", APART, NOTHING) \
	FIELDS(RECORD, "record", TOLD, RECORDS) \
	OTHER(REMINDER, "reminder", SUMMED, NOTHING) \
	OTHER(REMINDER_CHOICE, "reminder_choice", TOLD, NOTHING) \
	OTHER(REMINDER_GIVEN, "reminder_given", SUMMED, NOTHING) \
	OTHER(REMINDER_NOTICE, "reminder_notice", TOLD, NOTHING) \
	OTHER(REMINDER_PLANNED, "reminder_planned", TOLD, NOTHING) \
	OTHER(REVISION, "revision", APART, NOTHING) \
	OTHER(SERVING, "serving", TOLD, NOTHING) \
	FIELDS(STATION, "station", TOLD, STATIONS) \
	OTHER(STATION_CLOSURE, "station_closure", TOLD, STATIONS) \
	OTHER(STATION_KIND, "station_kind", TOLD, STATIONS) \
	OTHER(STATION_MAKE, "station_make", TOLD, STATIONS) \
	OTHER(STATION_PACE, "station_pace", TOLD, STATIONS) \
	OTHER(STATION_PRICE, "station_price", TOLD, STATIONS) \
	OTHER(STATION_PRICE_STEP, "station_price_step", TOLD, STATIONS) \
	OTHER(STATION_SHUT, "station_shut", TOLD, STATIONS) \
	FIELDS(VESSEL, "vessel", TOLD, VESSELS) \
	OTHER(VESSEL_AWAY, "vessel_away", TOLD, VESSELS) \
	TIMED(VESSEL_PERIOD, "vessel_period", TOLD, VESSELS) \
	OTHER(VESSEL_PERIOD_SHEET, "vessel_period_sheet", TOLD, VESSELS) \
	OTHER(VESSEL_SHEET, "vessel_sheet", TOLD, VESSELS) \
	OTHER(VESSEL_WINTER, "vessel_winter", TOLD, VESSELS)

/* The columns of each, as they stand in the file: ID is a row's number and the key, FIRST
 * the first of the others, KEY one more that is of the key, NEXT any other. Each has
 *
 *     name, type, the rest of its struct column (journal_inside.h)
 *
 * but the number, which has nothing. Of those with fields these are the columns that no field
 * has. */
#define OF_TABLE(table) .refers = table
#define KEY_OF(table) .key = 1, .refers = table

#define TABLE_BOOK(ID, FIRST, KEY, NEXT) \
	ID() FIRST(identity, TEXT) NEXT(currency, TEXT)
#define TABLE_BOOKING(ID, FIRST, KEY, NEXT) \
	ID() FIRST(vessel_id, NUMBER, OF_TABLE("vessel")) NEXT(first_day, DAY) NEXT(last_day, DAY) \
	NEXT(persons, NUMBER) NEXT(children, NUMBER) NEXT(note, TEXT)
#define TABLE_CALDAV_ACCOUNT(ID, FIRST, KEY, NEXT) \
	ID() FIRST(url, TEXT) NEXT(login, TEXT) NEXT(calendar, TEXT) NEXT(name, TEXT) NEXT(ca_file, TEXT) \
	NEXT(scope, TEXT) NEXT(scope_name, TEXT) NEXT(allow_plain, NUMBER)
#define TABLE_CALDAV_RESOURCE(ID, FIRST, KEY, NEXT) \
	FIRST(calendar, TEXT, .key = 1) KEY(uid, TEXT, .key = 2) NEXT(url, TEXT) NEXT(etag, TEXT) \
	NEXT(summary, TEXT, .silent = true) NEXT(our_day, DAY) NEXT(our_rest, TEXT) NEXT(their_day, DAY) \
	NEXT(their_rest, TEXT) NEXT(kept, NUMBER)
#define TABLE_EVENT(ID, FIRST, KEY, NEXT) \
	ID() FIRST(item_id, NUMBER, OF_TABLE("item")) NEXT(kind, TEXT) NEXT(on_day, DAY) \
	NEXT(entered, NUMBER, .fallback = "0", .silent = true)
#define TABLE_EXTENSION(ID, FIRST, KEY, NEXT) \
	ID() FIRST(item_id, NUMBER, OF_TABLE("item")) NEXT(task, TEXT) NEXT(until_day, DAY) NEXT(paper, TEXT) \
	NEXT(ended, NUMBER, .fallback = "0") NEXT(entered, NUMBER, .fallback = "0", .silent = true) \
	NEXT(given_day, DAY, .fallback = "0")
#define TABLE_FEED(ID, FIRST, KEY, NEXT) \
	ID() FIRST(secret, TEXT) NEXT(scope, TEXT) NEXT(name, TEXT) NEXT(todos, NUMBER) \
	NEXT(revoked, NUMBER, .fallback = "0")
#define TABLE_FEED_GIVEN(ID, FIRST, KEY, NEXT) \
	FIRST(feed_id, NUMBER, KEY_OF("feed")) NEXT(etag, TEXT) NEXT(modified, NUMBER)
#define TABLE_HAND_IN(ID, FIRST, KEY, NEXT) \
	ID() FIRST(of_base, NUMBER) NEXT(owner, TEXT) NEXT(winter, NUMBER) NEXT(station, TEXT) \
	NEXT(number, NUMBER) NEXT(hand_in_day, DAY) NEXT(chosen, NUMBER) NEXT(missed, NUMBER) \
	NEXT(given_on_day, DAY, .fallback = "0") NEXT(given_by, TEXT, .fallback = "")
#define TABLE_HAND_IN_PIECE(ID, FIRST, KEY, NEXT) \
	FIRST(hand_in_id, NUMBER, KEY_OF("hand_in")) KEY(tag, TEXT, .key = 2) NEXT(due_day, DAY, .fallback = "0")
#define TABLE_IMPORT_ANSWER(ID, FIRST, KEY, NEXT) \
	FIRST(about, TEXT, .key = 1) KEY(theirs, TEXT, .key = 2) NEXT(ours, TEXT)
#define TABLE_ITEM(ID, FIRST, KEY, NEXT) \
	ID() FIRST(tag, TEXT) NEXT(vessel_id, NUMBER, OF_TABLE("vessel")) \
	NEXT(parent_id, NUMBER, OF_TABLE("item"), .nullable = true) \
	NEXT(split_from, NUMBER, OF_TABLE("item"), .nullable = true)
#define TABLE_JOURNAL(ID, FIRST, KEY, NEXT) \
	FIRST(number, NUMBER, .key = 1) NEXT(at_seconds, NUMBER) NEXT(told, NUMBER) NEXT(who, TEXT) NEXT(act, TEXT) \
	NEXT(undoes, NUMBER, OF_TABLE("journal"), .nullable = true) NEXT(changes, BYTES)
#define TABLE_JOURNAL_LINE(ID, FIRST, KEY, NEXT) \
	FIRST(number, NUMBER, KEY_OF("journal")) KEY(position, NUMBER, .key = 2, .silent = true) NEXT(about, TEXT) \
	NEXT(name, TEXT) NEXT(kind, TEXT) NEXT(serial, TEXT) NEXT(act, TEXT) NEXT(field, TEXT) NEXT(was, TEXT) \
	NEXT(became, TEXT)
#define TABLE_JOURNAL_PAGE(ID, FIRST, KEY, NEXT) \
	FIRST(number, NUMBER, KEY_OF("journal")) KEY(position, NUMBER, .key = 2, .silent = true) NEXT(items, TEXT) \
	NEXT(others, TEXT) NEXT(lines, BYTES)
#define TABLE_JOURNAL_PIECE(ID, FIRST, KEY, NEXT) \
	FIRST(number, NUMBER, KEY_OF("journal")) KEY(position, NUMBER, .key = 2, .silent = true) NEXT(bytes, BYTES)
#define TABLE_MAKER_INTERVAL(ID, FIRST, KEY, NEXT) \
	ID() FIRST(item_id, NUMBER, OF_TABLE("item")) NEXT(task, TEXT) NEXT(on_day, DAY) NEXT(months, NUMBER) \
	NEXT(first_months, NUMBER) NEXT(counts_from, TEXT) NEXT(paper, TEXT)
#define TABLE_MOVEMENT(ID, FIRST, KEY, NEXT) \
	ID() FIRST(item_id, NUMBER, OF_TABLE("item")) NEXT(what, TEXT) NEXT(on_day, DAY) NEXT(was, TEXT) \
	NEXT(vessel, TEXT) NEXT(was_vessel, TEXT) NEXT(station, TEXT) NEXT(stands_for, TEXT) NEXT(certificate, TEXT) \
	NEXT(serial, TEXT) NEXT(because, TEXT) NEXT(result, TEXT) NEXT(price_minor, MONEY) NEXT(note, TEXT) \
	NEXT(asked, TEXT, .fallback = "")
#define TABLE_OWN_SHEET(ID, FIRST, KEY, NEXT) \
	FIRST(name, TEXT, .key = 1) NEXT(yaml, BYTES)
#define TABLE_PACKED(ID, FIRST, KEY, NEXT) \
	FIRST(item_id, NUMBER, KEY_OF("item")) NEXT(on_day, DAY)
#define TABLE_PAPER(ID, FIRST, KEY, NEXT) \
	ID() FIRST(item_id, NUMBER, OF_TABLE("item")) \
	NEXT(record_id, NUMBER, OF_TABLE("record"), .nullable = true) NEXT(name, TEXT) NEXT(media_type, TEXT) \
	NEXT(note, TEXT) NEXT(added_day, DAY) NEXT(size, NUMBER) NEXT(sha256, TEXT, .silent = true) NEXT(bytes, BYTES)
#define TABLE_PAPER_BYTES(ID, FIRST, KEY, NEXT) \
	FIRST(sha256, TEXT, .key = 1, .silent = true) NEXT(bytes, BYTES)
#define TABLE_RECKONED(ID, FIRST, KEY, NEXT) \
	FIRST(tag, TEXT, .key = 1) NEXT(vessel, TEXT) NEXT(dates, TEXT)
#define TABLE_RECKONED_VESSEL(ID, FIRST, KEY, NEXT) \
	FIRST(vessel, TEXT, .key = 1) NEXT(seen_day, DAY)
#define TABLE_RECKONING(ID, FIRST, KEY, NEXT) \
	ID() FIRST(figures, TEXT) NEXT(meanings, NUMBER) NEXT(entry, NUMBER)
#define TABLE_RECORD(ID, FIRST, KEY, NEXT) \
	ID() FIRST(item_id, NUMBER, OF_TABLE("item")) NEXT(entered, NUMBER, .fallback = "0", .silent = true)
#define TABLE_REMINDER(ID, FIRST, KEY, NEXT) \
	FIRST(key, TEXT, .key = 1, .silent = true) NEXT(uid, TEXT) NEXT(sequence, NUMBER) NEXT(modified, NUMBER) \
	NEXT(shape, TEXT) NEXT(given_day, DAY, .fallback = "0") NEXT(aim_day, DAY, .fallback = "0") \
	NEXT(given_entry, NUMBER, .fallback = "0") NEXT(given_summary, TEXT, .fallback = "") \
	NEXT(given_description, TEXT, .fallback = "")
#define TABLE_REMINDER_CHOICE(ID, FIRST, KEY, NEXT) \
	ID() FIRST(weekday, NUMBER) NEXT(routines, NUMBER) NEXT(singles, NUMBER)
#define TABLE_REMINDER_GIVEN(ID, FIRST, KEY, NEXT) \
	FIRST(uid, TEXT, .key = 1) KEY(sequence, NUMBER, .key = 2) NEXT(on_day, DAY)
#define TABLE_REMINDER_NOTICE(ID, FIRST, KEY, NEXT) \
	FIRST(kind, TEXT, .key = 1) NEXT(days, NUMBER)
#define TABLE_REMINDER_PLANNED(ID, FIRST, KEY, NEXT) \
	FIRST(key, TEXT, .key = 1, .silent = true) NEXT(on_day, DAY) \
	NEXT(summary, TEXT, .fallback = "", .silent = true) NEXT(confirmed, NUMBER, .fallback = "0") \
	NEXT(given_up, TEXT, .fallback = "")
#define TABLE_REVISION(ID, FIRST, KEY, NEXT) \
	ID() FIRST(number, NUMBER) NEXT(contents_sum, NUMBER, .fallback = "0") NEXT(numbers, TEXT, .fallback = "")
#define TABLE_SERVING(ID, FIRST, KEY, NEXT) \
	ID() FIRST(listen, TEXT) NEXT(host, TEXT) NEXT(port, NUMBER)
#define TABLE_STATION(ID, FIRST, KEY, NEXT) \
	ID() FIRST(name, TEXT) NEXT(weekdays, NUMBER, .fallback = "127") \
	NEXT(weekdays_known, NUMBER, .fallback = "0")
#define TABLE_STATION_CLOSURE(ID, FIRST, KEY, NEXT) \
	FIRST(station_id, NUMBER, KEY_OF("station")) KEY(position, NUMBER, .key = 2, .silent = true) \
	NEXT(first_day, DAY) NEXT(last_day, DAY)
#define TABLE_STATION_KIND(ID, FIRST, KEY, NEXT) \
	FIRST(station_id, NUMBER, KEY_OF("station")) KEY(position, NUMBER, .key = 2, .silent = true) NEXT(kind, TEXT)
#define TABLE_STATION_MAKE(ID, FIRST, KEY, NEXT) \
	FIRST(station_id, NUMBER, KEY_OF("station")) KEY(kind, TEXT, .key = 2) KEY(make, TEXT, .key = 3)
#define TABLE_STATION_PACE(ID, FIRST, KEY, NEXT) \
	FIRST(station_id, NUMBER, KEY_OF("station")) KEY(position, NUMBER, .key = 2, .silent = true) \
	NEXT(first_month, NUMBER) NEXT(last_month, NUMBER) NEXT(turn_round_days, NUMBER)
#define TABLE_STATION_PRICE(ID, FIRST, KEY, NEXT) \
	FIRST(station_id, NUMBER, KEY_OF("station")) KEY(kind, TEXT, .key = 2) KEY(task, TEXT, .key = 3) \
	NEXT(price_minor, MONEY)
#define TABLE_STATION_PRICE_STEP(ID, FIRST, KEY, NEXT) \
	FIRST(station_id, NUMBER, KEY_OF("station")) KEY(kind, TEXT, .key = 2) KEY(task, TEXT, .key = 3) \
	KEY(from_years, NUMBER, .key = 4) NEXT(price_minor, MONEY)
#define TABLE_STATION_SHUT TABLE_STATION_CLOSURE
#define TABLE_VESSEL(ID, FIRST, KEY, NEXT) \
	ID() FIRST(name, TEXT) NEXT(base, TEXT, .fallback = "") NEXT(laid_up, NUMBER, .fallback = "1") \
	NEXT(lay_up_first, DAY, .fallback = "1101") NEXT(lay_up_last, DAY, .fallback = "331") \
	NEXT(left_day, DAY, .fallback = "0") NEXT(left_because, TEXT, .fallback = "") \
	NEXT(goes_weekdays, NUMBER, .fallback = "0")
#define TABLE_VESSEL_AWAY(ID, FIRST, KEY, NEXT) \
	FIRST(vessel_id, NUMBER, KEY_OF("vessel")) KEY(position, NUMBER, .key = 2, .silent = true) \
	NEXT(first_day, DAY) NEXT(last_day, DAY)
#define TABLE_VESSEL_PERIOD(ID, FIRST, KEY, NEXT) \
	FIRST(vessel_id, NUMBER, KEY_OF("vessel")) KEY(from_day, DAY, .key = 2) NEXT(base, TEXT, .nullable = true) \
	NEXT(laid_up, NUMBER, .nullable = true) NEXT(lay_up_first, DAY, .nullable = true) \
	NEXT(lay_up_last, DAY, .nullable = true)
#define TABLE_VESSEL_PERIOD_SHEET(ID, FIRST, KEY, NEXT) \
	FIRST(vessel_id, NUMBER, KEY_OF("vessel")) KEY(from_day, DAY, .key = 2) \
	KEY(position, NUMBER, .key = 3, .silent = true) NEXT(sheet, TEXT)
#define TABLE_VESSEL_SHEET(ID, FIRST, KEY, NEXT) \
	FIRST(vessel_id, NUMBER, KEY_OF("vessel")) KEY(position, NUMBER, .key = 2, .silent = true) NEXT(sheet, TEXT)
#define TABLE_VESSEL_WINTER(ID, FIRST, KEY, NEXT) \
	FIRST(vessel_id, NUMBER, KEY_OF("vessel")) KEY(year, NUMBER, .key = 2) NEXT(first_day, DAY) NEXT(last_day, DAY)
// clang-format on

/* ---- the texts of statements; only for their files ---- */

/* One statement of the file's array, which begins with the file's FIRST. */
#define CHANGES(rows, name, sql) [(name)-FIRST] = {sql, rows}
#define READS(name, sql) CHANGES(ROWS_READ, name, sql)

/* The values of a list that is given as JSON, in place of a table of one's own. */
#define IN_LIST(parameter) " IN (SELECT value FROM json_each(" parameter ")) "

/* What entries after one tell of, by name: the lines that are rows, and the lists of
 * pages. An item is there at least once. */
#define JOURNAL_TOLD(since)                                                              \
	"told (number, about, name, field) AS ("                                         \
	"SELECT number, about, name, field FROM journal_line WHERE number > " since      \
	" UNION ALL SELECT number, 'item', named.value, '' FROM journal_page, "          \
	"json_each(items) AS named WHERE number > " since                                \
	" UNION ALL SELECT number, rest.value ->> 0, rest.value ->> 1, "                 \
	"rest.value ->> 2 FROM journal_page, json_each(others) AS rest "                 \
	"WHERE number > " since ") "

/* What stands for the rows of gear/fields.h, each after a comma: a stamp is three
 * columns, any other value one. Parameters are named as the columns are. */
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

/* A table's columns by name: all, and all but its number. The table is named as BOOK_TABLES
 * does. */
#define NAME_ID(...) "id, "
#define NAME_FIRST(name, ...) #name
#define NAME_NEXT(name, ...) ", " #name
#define COLUMNS(id) TABLE_##id(NAME_ID, NAME_FIRST, NAME_NEXT, NAME_NEXT)
#define COLUMNS_BUT_ID(id) TABLE_##id(FIELD_NOTHING, NAME_FIRST, NAME_NEXT, NAME_NEXT)

/* "INSERT INTO event (id, ...) VALUES ($id, ...)", each column a parameter of its name. */
#define GIVEN_ID(...) "$id, "
#define GIVEN_FIRST(name, ...) "$" #name
#define GIVEN_NEXT(name, ...) ", $" #name
#define INTO(table, id)                                                                  \
	"INSERT INTO " #table " (" COLUMNS(id) ") VALUES (" TABLE_##id(                  \
	    GIVEN_ID, GIVEN_FIRST, GIVEN_NEXT, GIVEN_NEXT) ")"

/* What becomes of a row that is there already: all that is of no key is set, or of one
 * with a number all but that. */
#define ANEW_FIRST(name, ...) #name " = excluded." #name
#define ANEW_NEXT(name, ...) ", " #name " = excluded." #name
#define KEY_COLUMNS(id) TABLE_##id(FIELD_NOTHING, NAME_FIRST, NAME_NEXT, FIELD_NOTHING)
#define OR_ANEW(id)                                                                      \
	" ON CONFLICT (" KEY_COLUMNS(id) ") DO UPDATE SET " TABLE_##id(                  \
	    FIELD_NOTHING, ANEW_FIRST, FIELD_NOTHING, ANEW_NEXT)
#define OR_ANEW_BY_ID(id)                                                                \
	" ON CONFLICT (id) DO UPDATE SET " TABLE_##id(                                   \
	    FIELD_NOTHING, ANEW_FIRST, ANEW_NEXT, ANEW_NEXT)

#endif
