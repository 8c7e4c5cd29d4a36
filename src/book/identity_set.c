/* Setting what is true of the book as a whole: its identity and its currency. */
#include "book/call.h"

#include <string.h>

static bool
change_identity(
    struct book *book, const char *identity, int64_t *changed_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	if (!call_open(book, BOOK_SET_IDENTITY, &call, fault)) {
		return false;
	}
	give_text(&call, identity);
	return call_run_changed(&call, changed_out, fault);
}

bool
book_set_identity(struct book *book, const char *identity, struct fault *fault)
{
	size_t digits = strspn(identity, "0123456789abcdef");
	if (digits != sizeof book->identity - 1 || identity[digits] != '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "\"%.60s\" is no identity; expected 32 hexadecimal digits", identity);
	}
	SCOPED_WRITING writing = {0};
	int64_t changed = 0;
	if (!writing_begin(book, &writing, fault) ||
	    !change_identity(book, identity, &changed, fault)) {
		return fault_prefix(fault, "setting the book's identity");
	}
	if (changed == 0) {
		return fault_set(fault, FAULT_INPUT,
		    "the book has given out reminders; its identity stays as it is");
	}
	if (!writing_keep(&writing, fault)) {
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
	SCOPED_WRITING writing = {0};
	SCOPED_CALL call = {0};
	if (!writing_begin(book, &writing, fault) ||
	    !call_open(book, BOOK_SET_CURRENCY, &call, fault)) {
		return fault_prefix(fault, "setting the currency");
	}
	give_text(&call, currency);
	if (!call_run(&call, fault) || !writing_keep(&writing, fault)) {
		return fault_prefix(fault, "setting the currency");
	}
	memcpy(book->currency, currency, sizeof book->currency);
	return true;
}

bool
book_count_prices(struct book *book, int64_t *count_out, struct fault *fault)
{
	SCOPED_CALL call = {0};
	bool row = false;
	if (!call_open(book, PRICE_COUNT, &call, fault) ||
	    !call_row(&call, &row, fault)) {
		return fault_prefix(fault, "counting the prices");
	}
	*count_out = row ? take_int(&call) : 0;
	return true;
}
