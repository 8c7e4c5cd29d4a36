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
	struct value text = row ? take_value(&call) : (struct value){0};
	if (text.length != sizeof book->identity - 1) {
		return fault_set(fault, FAULT_BOOK, "the book has no identity");
	}
	memcpy(book->identity, text.bytes, sizeof book->identity);
	text = take_value(&call);
	(void)snprintf(book->currency, sizeof book->currency, "%s",
	    text.bytes == NULL ? "" : text.bytes);
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
