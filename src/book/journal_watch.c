/* Watching what a transaction changes. */
#include "base/memory.h"
#include "book/check_inside.h"
#include "book/journal_inside.h"

#include <string.h>

/* Bookkeeping: the journal does not tell of itself; which reminders were given out, and to whom
 * at which secret address, and the dates as last reckoned are no one's word about the gear but the
 * program's memory; so are the sheets that a copy carries, and what was
 * answered about lists. The bytes of papers are never taken out, so their digest tells all. A calendar
 * server's account is a person's choice, and is told of. */
static const char *const UNWATCHED[] = {"journal", "journal_line", "revision", "reminder",
    "reminder_given", "hand_in", "hand_in_piece", "feed", "feed_given", "caldav_resource",
    "paper_bytes", "reckoning", "reckoned_vessel", "reckoned", "own_sheet",
    "import_answer"};

bool
journal_tells_of(const char *table)
{
	for (size_t i = 0; i < sizeof UNWATCHED / sizeof UNWATCHED[0]; i++) {
		if (strcmp(table, UNWATCHED[i]) == 0) {
			return false;
		}
	}
	return true;
}

/* Of the bookkeeping, what goes into the sum of the book as it is seen (check_inside.h): the journal's own
 * rows go there when they are written, and the rest not at all. */
static bool
is_kept(const char *table)
{
	return !journal_tells_of(table) && strcmp(table, "journal") != 0 &&
	       strcmp(table, "journal_line") != 0 && sums_include(table);
}

void
journal_watch(struct book *book)
{
	journal_forget(book);
	book->heard = (struct heard_table){0};
	book->told.wants = journal_tells_of;
	book->kept.wants = is_kept;
}

void
journal_forget(struct book *book)
{
	collected_clear(&book->told);
	collected_clear(&book->kept);
	book->spoilt = false;
}

/* Writes each row of a table again as it is, which stores all its columns. */
static bool
rewrite_rows(struct book *book, const struct table_shape *shape, struct fault *fault)
{
	const char *column = shape->columns[shape->count - 1].name;
	SCOPED_TEXT sql = {0};
	text_add(&sql, "UPDATE ");
	add_quoted(&sql, shape->name);
	text_add(&sql, " SET ");
	add_quoted(&sql, column);
	text_add(&sql, " = ");
	add_quoted(&sql, column);
	return database_execute(book->database, text_string(&sql), fault);
}

bool
journal_prepare(struct book *book, struct fault *fault)
{
	bool done = shapes_read(book, fault);
	for (const struct table_shape *shape = book->shapes; done && shape != NULL;
	     shape = shape->next) {
		done = (!journal_tells_of(shape->name) && !is_kept(shape->name)) ||
		       rewrite_rows(book, shape, fault);
	}
	return done;
}
