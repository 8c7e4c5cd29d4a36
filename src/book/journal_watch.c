/* Watching what a transaction changes. */
#include "book/journal_inside.h"

void
journal_watch(struct book *book)
{
	journal_forget(book);
	book->told.listens = true;
	book->watched = true;
}

void
journal_forget(struct book *book)
{
	collected_clear(&book->told);
	book->watched = false;
	book->spoilt = false;
	book->strange = false;
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
	bool done = true;
	for (size_t i = 0; done && i < TABLE_COUNT; i++) {
		enum table_keeping kept = TABLES[i].kept;
		done = (kept != KEEPING_TOLD && kept != KEEPING_SUMMED) ||
		       rewrite_rows(book, &TABLES[i], fault);
	}
	return done;
}
