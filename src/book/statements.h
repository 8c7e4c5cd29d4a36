/* Every query and every change of the book, each in one place. A caller names a statement
 * and can't pass text. */
#ifndef BECKET_BOOK_STATEMENTS_H
#define BECKET_BOOK_STATEMENTS_H

enum statement {
	BEGIN_READING,
	BEGIN_WRITING,
	COMMIT,
	ROLLBACK,
	STEP_BEGIN,
	STEP_KEEP,
	STEP_UNDO,

	BOOK_FIRST,
	BOOK_GET,
	BOOK_SET_CURRENCY,
	BOOK_SET_IDENTITY,

	VESSEL_FIND,
	VESSEL_ADD,
	VESSEL_CHANGE,
	PERIOD_PUT,
	WINTER_PUT,
	SHEETS_DROP,
	SHEET_ADD,

	STATION_FIND,
	STATION_ADD,
	STATION_CHANGE,
	CLOSURES_DROP,
	CLOSURE_ADD,
	STATION_KINDS_DROP,
	STATION_KIND_ADD,

	ITEM_FIND,
	ITEM_ADD,
	ITEM_CHANGE,
	ITEM_SET_PARENT,
	ITEM_PARENT,
	ITEM_RENEW,
	EXTENSIONS_END,

	RECORD_FIND,
	RECORD_ADD,
	RECORD_FILL,
	RENEWALS,
	EVENT_ADD,
	EXTENSION_ADD,

	REMINDER_PUT,
	REMINDER_FORGET,
	LOAD_REMINDERS,

	LOAD_COUNTS,
	LOAD_VESSELS,
	LOAD_PERIODS,
	LOAD_WINTERS,
	LOAD_SHEETS,
	LOAD_STATIONS,
	LOAD_CLOSURES,
	LOAD_STATION_KINDS,
	LOAD_ITEMS,
	LOAD_RECORDS,
	LOAD_EVENTS,
	LOAD_EXTENSIONS,
};

enum { STATEMENT_COUNT = LOAD_EXTENSIONS + 1 };

/* The text of each. Parameters are $1, $2 and so on and first occur in that order, because
 * SQLite numbers them by occurrence. The language is the part that SQLite and PostgreSQL
 * share, so that a book on a server is a second driver and no second program. */
extern const char *const STATEMENTS[STATEMENT_COUNT];

#endif
