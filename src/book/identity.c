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

bool
book_set_identity(struct book *book, const char *identity, struct fault *fault)
{
	size_t digits = strspn(identity, "0123456789abcdef");
	if (digits != sizeof book->identity - 1 || identity[digits] != '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" is no identity; expected 32 hexadecimal digits", identity);
	}
	SCOPED_STEP step = {0};
	int64_t changed = 0;
	if (!step_begin(book, &step, fault) ||
	    !call_id(book, BOOK_SET_IDENTITY, identity, &changed, fault)) {
		return fault_prefix(fault, "setting the book's identity");
	}
	if (changed == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the book has given out reminders; its identity stays as it is");
	}
	if (!step_keep(&step, fault)) {
		return fault_prefix(fault, "setting the book's identity");
	}
	memcpy(book->identity, identity, sizeof book->identity);
	return true;
}

bool
book_set_currency(struct book *book, const char *currency, struct fault *fault)
{
	if (strlen(currency) != 3 ||
	    strspn(currency, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != 3) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" is no currency; expected three capital letters, as in EUR",
		    currency);
	}
	SCOPED_STEP step = {0};
	SCOPED_CALL call = {0};
	if (!step_begin(book, &step, fault) ||
	    !call_open(book, BOOK_SET_CURRENCY, &call, fault)) {
		return fault_prefix(fault, "setting the currency");
	}
	give_text(&call, currency);
	if (!call_run(&call, fault) || !step_keep(&step, fault)) {
		return fault_prefix(fault, "setting the currency");
	}
	memcpy(book->currency, currency, sizeof book->currency);
	return true;
}
