/* Reads every row of boats, gear and records, each value of it, and does nothing with
 * them: about the least that an answer about all boats can cost. Prints how many values
 * there were.
 *
 *   rows_loop BOOK */
#include <sqlite3.h>
#include <stdio.h>

int
main(int argc, char *argv[])
{
	static const char *const READ[] = {"SELECT * FROM vessel ORDER BY id",
	    "SELECT * FROM item ORDER BY id", "SELECT * FROM record ORDER BY item_id"};
	sqlite3 *book = NULL;
	long values = 0;
	if (argc != 2 ||
	    sqlite3_open_v2(argv[1], &book, SQLITE_OPEN_READONLY, NULL) != SQLITE_OK) {
		return 1;
	}
	for (size_t i = 0; i < sizeof READ / sizeof READ[0]; i++) {
		sqlite3_stmt *rows = NULL;
		if (sqlite3_prepare_v2(book, READ[i], -1, &rows, NULL) != SQLITE_OK) {
			return 1;
		}
		while (sqlite3_step(rows) == SQLITE_ROW) {
			for (int at = 0; at < sqlite3_column_count(rows); at++) {
				values += sqlite3_column_text(rows, at) != NULL;
			}
		}
		(void)sqlite3_finalize(rows);
	}
	(void)sqlite3_close(book);
	(void)printf("%ld values\n", values);
	return 0;
}
