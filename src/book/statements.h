/* Every query and every change of the book, each in one place. A caller names a statement
 * and can't pass text. */
#ifndef BECKET_BOOK_STATEMENTS_H
#define BECKET_BOOK_STATEMENTS_H

/* The tables whose rows the program numbers as it adds them. */
#define NUMBERED_TABLES(ROW)                                                             \
	ROW(VESSEL, "vessel")                                                            \
	ROW(STATION, "station")                                                          \
	ROW(ITEM, "item")                                                                \
	ROW(RECORD, "record")                                                            \
	ROW(EVENT, "event")                                                              \
	ROW(EXTENSION, "extension")                                                      \
	ROW(MOVEMENT, "movement")                                                        \
	ROW(MAKER_INTERVAL, "maker_interval")                                            \
	ROW(PAPER, "paper")                                                              \
	ROW(BOOKING, "booking")                                                          \
	ROW(FEED, "feed")                                                                \
	ROW(HAND_IN, "hand_in")

enum statement {
	BEGIN_READING,
	BEGIN_WRITING,
	COMMIT,
	ROLLBACK,

	OWN_SHEETS_THERE,
	OWN_SHEETS_DROP,
	OWN_SHEET_ADD,
	OWN_SHEETS_LOAD,
	BOOK_FIRST,
	BOOK_GET,
	NUMBERS_GET,
	NUMBERS_FOUND,
	REVISION_RAISE,
	CONTENTS_SUM,
	SCHEMA_TEXTS,
	CONTENTS_SUM_SET,
	BOOK_SET_CURRENCY,
	PRICE_COUNT,
	BOOK_SET_IDENTITY,

	VESSEL_FIND,
	VESSEL_ADD,
	VESSEL_CHANGE,
	PERIOD_PUT,
	WINTER_PUT,
	AWAY_DROP,
	AWAY_ADD,
	BOOKING_ADD,
	BOOKING_CHANGE,
	BOOKING_DROP,
	SHEETS_DROP,
	PERIOD_SHEETS_DROP,
	PERIOD_SHEET_ADD,
	SHEET_ADD,

	STATION_FIND,
	STATION_ADD,
	STATION_CHANGE,
	CLOSURES_DROP,
	CLOSURE_ADD,
	STATION_KINDS_DROP,
	STATION_KIND_ADD,
	SHUT_DROP,
	SHUT_ADD,
	PACES_DROP,
	PACE_ADD,
	MAKES_DROP,
	MAKE_ADD,
	PRICES_DROP,
	PRICE_PUT,
	PRICE_DROP,
	STEPS_DROP,
	STEPS_DROP_OF,
	STEP_PUT,
	STEP_DROP,

	ITEM_FIND,
	ITEMS_ANY,
	ITEM_ADD,
	ITEM_CHANGE,
	ITEM_SET_PARENT,
	ITEM_PARENT,
	ITEM_RENEW,
	ITEM_DATES,

	RECORD_FIND,
	RECORD_ADD,
	RENEWALS,
	EVENT_ADD,
	EXTENSION_ADD,
	INTERVAL_PUT,
	INTERVAL_DROP,
	MOVEMENT_ADD,

	PAPER_FIND,
	PAPER_BYTES_PUT,
	PAPER_ADD,
	PAPER_FILL,
	PAPER_READ,
	PAPER_REMOVE,
	LOAD_PAPERS,

	REMINDER_PUT,
	SETTLED_PUT,
	SETTLED_PIECES_DROP,
	SETTLED_PIECE_ADD,
	LOAD_SETTLED,
	LOAD_SETTLED_PIECES,
	RECKONED_BY,
	RECKONED_BY_PUT,
	LOAD_IMPORT_ANSWERS,
	IMPORT_ANSWER_PUT,
	NAMES_OF_ITEMS,
	NAMES_OF_VESSELS,
	NAMES_OF_STATIONS,
	NAMES_OF_BASES,
	BEARERS,
	NAMES_OF_BERTHS,
	NAMES_OF_BASELESS,
	BASE_FIND,
	BERTH_FIND,
	LOAD_RECKONED_VESSELS,
	LOAD_RECKONED,
	RECKONED_VESSELS_DROP,
	RECKONED_DROP_ALL,
	RECKONED_VESSELS_PUT,
	RECKONED_OF,
	RECKONED_ROWS_DROP,
	RECKONED_ROWS_PUT,
	RECKONED_ROW_PUT,
	REMINDER_FORGET,
	LOAD_REMINDERS,
	GIVEN_PUT,
	LOAD_GIVEN,
	CHOICE_GET,
	CHOICE_PUT,
	NOTICE_PUT,
	NOTICE_DROP,
	LOAD_NOTICES,
	PLANNED_PUT,
	PLANNED_DROP,
	LOAD_PLANNED,
	PACKED_PUT,
	PACKED_DROP,
	LOAD_PACKED,
	FEED_ADD,
	FEED_REVOKE,
	FEED_NOTE,
	LOAD_FEEDS,
	SERVING_GET,
	SERVING_PUT,

	TABLE_COLUMNS,
	ITEM_NAMED,
	VESSEL_NAMED,
	STATION_NAMED,
	JOURNAL_ADD,
	JOURNAL_LINES_ADD,
	JOURNAL_MANY_LINES_ADD,
	JOURNAL_ENTRIES,
	JOURNAL_LINES,
	JOURNAL_UNDOS,
	JOURNAL_LAST,
	JOURNAL_LAST_CHANGE,
	JOURNAL_CONCERNS,
	JOURNAL_DOINGS,
	JOURNAL_CHANGES,
	JOURNAL_LATER,
	FOREIGN_KEYS_OFF,
	REMINDERS_ANY,
	TABLES_OF_ITEMS,
	LOT_TAKE,
	CHECK_FILE,
	CHECK_REFERENCES,
	CHECK_LOOPS,
	CHECK_PARTS_APART,
	CHECK_PARTS_LEFT,
	CHECK_LANDED,
	CHECK_STAND_INS,
	CHECK_NEXT_DAYS,
	CHECK_ITEMS,
	CHECK_KINDS,
	CHECK_SHEETS,
	CHECK_VESSELS,
	CHECK_JOURNAL,

	ACCOUNT_GET,
	ACCOUNT_PUT,
	ACCOUNT_DROP,
	LOAD_PUSHED,
	PUSHED_PUT,
	PUSHED_DROP,
	PUSHED_DROP_ALL,

	/* how many rows there are; of a part of the book, behind whether all that is named is there, and
	 * the numbers of its vessels as a list */
	LOAD_COUNTS,
	LOAD_COUNTS_OF,

	/* each of all vessels, and behind it of those $wanted, such a list */
	LOAD_VESSELS,
	LOAD_VESSELS_OF,
	LOAD_PERIODS,
	LOAD_PERIODS_OF,
	LOAD_WINTERS,
	LOAD_WINTERS_OF,
	LOAD_AWAY,
	LOAD_AWAY_OF,
	LOAD_BOOKINGS,
	LOAD_BOOKINGS_OF,
	LOAD_SHEETS,
	LOAD_SHEETS_OF,
	LOAD_ITEMS,
	LOAD_ITEMS_OF,
	LOAD_RECORDS,
	LOAD_RECORDS_OF,
	LOAD_EVENTS,
	LOAD_EVENTS_OF,
	LOAD_EXTENSIONS,
	LOAD_EXTENSIONS_OF,
	LOAD_MOVEMENTS,
	LOAD_MOVEMENTS_OF,
	LOAD_INTERVALS,
	LOAD_INTERVALS_OF,

	LOAD_STATIONS,
	LOAD_CLOSURES,
	LOAD_STATION_KINDS,
	LOAD_SHUT,
	LOAD_PACES,
	LOAD_MAKES,
	LOAD_PRICES,
};

enum { STATEMENT_COUNT = LOAD_PRICES + 1 };

/* The text of each. Parameters are $1, $2 and so on and first occur in that order, because
 * SQLite numbers them by occurrence; where they stand for fields of gear they are named, "$made",
 * and given in the order in which they occur. The language is the part that SQLite and PostgreSQL
 * share, so that a book on a server is a second driver and no second program. */
extern const char *const STATEMENTS[STATEMENT_COUNT];

/* How many rows a statement changes, adds or removes; another number is a fault (call.c). What
 * goes with them by a reference is not counted. */
enum rows_changed {
	ROWS_READ,        /* it only reads, or is none of a table */
	ROWS_ONE,         /* what it is about is there, or comes */
	ROWS_ONE_AT_MOST, /* it may be so already, or not be there: who runs it knows */
	ROWS_LISTED,      /* as many as the list it is given has (call.listed) */
	ROWS_LISTED_AT_MOST, /* or fewer: some may be so already */
	ROWS_ANY,            /* all there are of something, be it none */
};

extern const enum rows_changed STATEMENT_ROWS[STATEMENT_COUNT];

#endif
