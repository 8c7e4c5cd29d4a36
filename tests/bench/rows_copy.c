/* Writes the rows of boats, gear, records and reckoned dates of a book into a new file
 * with the same tables, indexes, checks and references, row by row in one transaction and
 * without a journal: what SQLite itself takes to write what an import writes. Without NEW
 * it only reads them, which is to be taken off.
 *
 *   rows_copy BOOK [NEW] */
#include <sqlite3.h>
#include <stdio.h>

static const char *const TABLES[] = {
    "vessel", "vessel_period", "vessel_sheet", "item", "record", "reckoned"};

/* Prepares a statement; it is NULL where that fails. */
static sqlite3_stmt *
prepare(sqlite3 *db, const char *sql)
{
	sqlite3_stmt *stmt = NULL;
	(void)sqlite3_prepare_v2(db, sql, -1, &stmt, NULL);
	return stmt;
}

/* Makes all that has a text in the schema, but triggers, of which none is on these tables. */
static int
make_tables(sqlite3 *book, sqlite3 *made)
{
	int done = 1;
	sqlite3_stmt *texts = prepare(book,
	    "SELECT sql FROM sqlite_schema WHERE type <> 'trigger' AND sql IS NOT NULL "
	    "ORDER BY rowid");
	while (done && sqlite3_step(texts) == SQLITE_ROW) {
		const char *sql = (const char *)sqlite3_column_text(texts, 0);
		done = sqlite3_exec(made, sql, NULL, NULL, NULL) == SQLITE_OK;
	}
	(void)sqlite3_finalize(texts);
	return done;
}

/* "INSERT INTO item VALUES (?, ?, ?)" for the columns of a row. */
static sqlite3_stmt *
insertion(sqlite3 *made, const char *table, int columns)
{
	char sql[400];
	int length = snprintf(sql, sizeof sql, "INSERT INTO %s VALUES (?", table);
	for (int i = 1; i < columns; i++) {
		length += snprintf(sql + length, sizeof sql - (size_t)length, ", ?");
	}
	(void)snprintf(sql + length, sizeof sql - (size_t)length, ")");
	return prepare(made, sql);
}

/* Rows that are read and, where there is a new file, written; less than 0 when one is refused. */
static long
copy_rows(sqlite3 *book, sqlite3 *made, const char *table)
{
	char sql[80];
	(void)snprintf(sql, sizeof sql, "SELECT * FROM %s", table);
	sqlite3_stmt *rows = prepare(book, sql);
	long count = rows == NULL ? -1 : 0; /* no such table */
	int columns = sqlite3_column_count(rows);
	sqlite3_stmt *insert = made == NULL ? NULL : insertion(made, table, columns);
	for (; count >= 0 && sqlite3_step(rows) == SQLITE_ROW; count++) {
		for (int i = 0; i < columns; i++) {
			sqlite3_value *value = sqlite3_column_value(rows, i);
			if (insert != NULL) {
				(void)sqlite3_bind_value(insert, i + 1, value);
			}
		}
		if (insert != NULL && (sqlite3_step(insert) != SQLITE_DONE ||
					  sqlite3_reset(insert) != SQLITE_OK)) {
			count = -2;
		}
	}
	(void)sqlite3_finalize(insert);
	(void)sqlite3_finalize(rows);
	return count;
}

int
main(int argc, char *argv[])
{
	sqlite3 *book = NULL;
	sqlite3 *made = NULL;
	long rows = 0;
	(void)sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
	int done = argc >= 2 &&
		   sqlite3_open_v2(argv[1], &book,
		       SQLITE_OPEN_READONLY | SQLITE_OPEN_NOMUTEX, NULL) == SQLITE_OK;
	if (done && argc == 3) {
		done =
		    sqlite3_open_v2(argv[2], &made,
			SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX,
			NULL) == SQLITE_OK &&
		    sqlite3_exec(made,
			"PRAGMA journal_mode = WAL; PRAGMA foreign_keys = ON; BEGIN",
			NULL, NULL, NULL) == SQLITE_OK &&
		    make_tables(book, made);
	}
	for (size_t i = 0; done && i < sizeof TABLES / sizeof TABLES[0]; i++) {
		long count = copy_rows(book, made, TABLES[i]);
		done = count >= 0;
		rows += count;
	}
	if (done && made != NULL) {
		done = sqlite3_exec(made, "COMMIT", NULL, NULL, NULL) == SQLITE_OK;
	}
	(void)sqlite3_close(made);
	(void)sqlite3_close(book);
	(void)printf("%ld rows\n", rows);
	return done ? 0 : 1;
}
