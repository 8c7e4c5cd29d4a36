/* The queries and changes of the book, each in one place and called by its name. What
 * must name tables or columns that only the schema knows has a text of its own
 * (call_open_text, apply.c), made of the schema's own words. */
#ifndef BECKET_BOOK_STATEMENTS_H
#define BECKET_BOOK_STATEMENTS_H

/* Those of one file stand together, after the name of where they begin. */
enum statement {
	/* statements_book.c */
	BOOK_STATEMENTS,
	BEGIN_READING = BOOK_STATEMENTS,
	BEGIN_WRITING,
	COMMIT,
	ROLLBACK,

	OWN_SHEETS_THERE,
	OWN_SHEETS_DROP,
	OWN_SHEET_ADD,
	OWN_SHEETS_LOAD,

	BOOK_FIRST,
	BOOK_GET,
	BOOK_SET_CURRENCY,
	PRICE_COUNT,
	BOOK_SET_IDENTITY,
	SERVING_GET,
	SERVING_PUT,

	NUMBERS_GET,
	NUMBERS_FOUND,
	REVISION_RAISE,
	REVISION_GET,
	CONTENTS_SUM,
	SCHEMA_TEXTS,
	CONTENTS_SUM_SET,

	TABLES_THERE,
	FOREIGN_KEYS_OFF,

	NAMES_OF_ITEMS,
	NAMES_OF_VESSELS,
	NAMES_OF_STATIONS,
	NAMES_OF_BASES,
	NAMES_OF_BERTHS,
	NAMES_OF_BASELESS,
	NAMES_OF_BOATS,
	BASE_FIND,
	BERTH_FIND,
	NAMES_OF_LANDED,
	NAMES_OF_SPLIT,
	NAMES_OF_UNWINTERED,
	NAMES_OF_LOTS,
	TIES,
	MARKS,
	PAST_MARKS,

	LOAD_IMPORT_ANSWERS,
	IMPORT_ANSWER_PUT,

	/* statements_fleet.c */
	FLEET_STATEMENTS,
	VESSEL_FIND = FLEET_STATEMENTS,
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

	/* statements_gear.c */
	GEAR_STATEMENTS,
	ITEM_FIND = GEAR_STATEMENTS,
	ITEM_LAST,
	ITEM_ADD,
	ITEM_CHANGE,
	ITEM_SET_PARENT,
	ITEM_PARENT,
	ITEM_RENEW,
	ITEM_DATES,
	LOT_TAKE,

	RECORD_FIND,
	RECORD_ADD,
	RENEWALS,
	REFITS,
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

	PACKED_PUT,
	PACKED_DROP,
	LOAD_PACKED,

	SETTLED_PUT,
	SETTLED_PIECES_DROP,
	SETTLED_PIECE_ADD,
	LOAD_SETTLED,
	LOAD_SETTLED_PIECES,
	LOAD_SETTLED_OF,
	LOAD_SETTLED_PIECES_OF,

	/* statements_given.c */
	GIVEN_STATEMENTS,
	RECKONED_BY = GIVEN_STATEMENTS,
	RECKONED_BY_PUT,
	LOAD_RECKONED_VESSELS,
	LOAD_RECKONED,
	RECKONED_VESSELS_DROP,
	RECKONED_DROP_ALL,
	RECKONED_VESSELS_DROP_ALL,
	RECKONED_VESSELS_PUT,
	RECKONED_OF,
	RECKONED_ROWS_DROP,
	RECKONED_ROWS_PUT,
	RECKONED_ROW_PUT,

	REMINDERS_ANY,
	REMINDER_PUT,
	REMINDER_FORGET,
	LOAD_REMINDERS,
	REMINDER_GET,
	REMINDER_HAS_UID,
	REMINDER_OLDEST,
	REMINDER_KEYS,
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

	FEED_ADD,
	FEED_REVOKE,
	FEED_NOTE,
	LOAD_FEEDS,

	ACCOUNT_GET,
	ACCOUNT_PUT,
	ACCOUNT_DROP,
	LOAD_PUSHED,
	PUSHED_PUT,
	PUSHED_DROP,
	PUSHED_DROP_ALL,

	/* statements_journal.c */
	JOURNAL_STATEMENTS,
	ITEM_NAMED = JOURNAL_STATEMENTS,
	VESSEL_NAMED,
	STATION_NAMED,

	JOURNAL_ADD,
	JOURNAL_LINES_ADD,
	JOURNAL_LINE_ADD,
	JOURNAL_PIECE_ADD,
	JOURNAL_PAGE_ADD,
	JOURNAL_ENTRIES,
	JOURNAL_LINES,
	JOURNAL_SERIALS,
	JOURNAL_UNDOS,
	JOURNAL_LAST,
	JOURNAL_LAST_CHANGE,
	JOURNAL_CONCERNS,
	JOURNAL_DOINGS,
	JOURNAL_CHANGES,
	JOURNAL_LATER,

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

	/* statements_load.c */
	LOAD_STATEMENTS,
	/* how many rows there are; of a part of the book, after whether all that is named
	 * is there, and the numbers of its vessels as a list */
	LOAD_COUNTS = LOAD_STATEMENTS,
	LOAD_COUNTS_OF,
	LOAD_COUNTS_OF_ONE, /* the same of one vessel alone, no row where she is not there */

	/* each for all vessels, then for those in $wanted, such a list of numbers */
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

/* How many rows a statement changes, adds or removes; another number is a fault (call.c). What
 * goes with them by a reference is not counted. */
enum rows_changed {
	ROWS_READ,        /* it only reads, or is none of a table */
	ROWS_ONE,         /* what it is about is there, or comes */
	ROWS_ONE_AT_MOST, /* it may be so already, or not be there: who runs it knows */
	ROWS_LISTED,      /* as many as the list it is given has (call.listed) */
	ROWS_LISTED_AT_MOST, /* or fewer: some may be so already */
	ROWS_ANY,            /* all there are of something, which may be none */
};

/* Parameters are $1, $2 and so on and first occur in that order, because SQLite numbers them by
 * occurrence; or they are named as their columns are, "$made", and then given in the order in
 * which they occur. The language is the part that SQLite and PostgreSQL share, so that a book on a
 * server is a second driver and no second program. */
struct statement_text {
	const char *sql;
	enum rows_changed rows;
};

extern const struct statement_text STATEMENTS_BOOK[];
extern const struct statement_text STATEMENTS_FLEET[];
extern const struct statement_text STATEMENTS_GEAR[];
extern const struct statement_text STATEMENTS_GIVEN[];
extern const struct statement_text STATEMENTS_JOURNAL[];
extern const struct statement_text STATEMENTS_LOAD[];

/* The text of a statement, and how many rows it changes; it is there as long as the program. */
const struct statement_text *statement_text(enum statement statement);

#endif
