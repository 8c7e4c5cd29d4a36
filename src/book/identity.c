/* What is true of the book as a whole: its identity and its currency. */
#include "book/call.h"

#include <stdio.h>
#include <string.h>

bool
identity_read(struct book *book, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, BOOK_GET, &call, fault) || !call_row(&call, &row, fault)) {
		return false;
	}
	const unsigned char *text = row ? sqlite3_column_text(call.stmt, 0) : NULL;
	int length = row ? sqlite3_column_bytes(call.stmt, 0) : 0;
	if (text == NULL || length != (int)sizeof book->identity - 1) {
		return fault_set(fault, FAULT_BOOK, "the book has no identity");
	}
	memcpy(book->identity, text, sizeof book->identity);
	text = sqlite3_column_text(call.stmt, 1);
	(void)snprintf(book->currency, sizeof book->currency, "%s",
	    text == NULL ? "" : (const char *)text);
	return true;
}

const char *
book_currency(const struct book *book)
{
	return book->currency;
}

const char *
book_identity(const struct book *book)
{
	return book->identity;
}
