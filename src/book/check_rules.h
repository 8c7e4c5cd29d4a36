/* What must hold in a book, one rule a row: the whole book is checked by them, and so is what a
 * transaction has touched before it is kept (guard). Only for files of this room. */
#ifndef BECKET_BOOK_CHECK_RULES_H
#define BECKET_BOOK_CHECK_RULES_H

#include "base/text.h"
#include "book/call.h"
#include "book/changes.h"
#include "book/row_words.h"

/* Whether a row is a finding must be asked of someone who knows. */
enum check_asked { ASKED_NO_ONE, ASKED_KIND, ASKED_SHEET };

/* Each row of its statement is a finding, worded "name, middle, detail, end". */
struct check_rule {
	const char *rule;
	const char *holds;
	enum statement
	    statement;          /* gives a name and a detail; where it has two parameters,
				   * only of the items with these numbers and their parts */
	enum check_asked asked; /* about the detail */
	const char *middle;
	const char *end;
	const char *to_do;
};

/* The file itself comes first. */
extern const struct check_rule CHECK_RULES[];
extern const size_t CHECK_RULE_COUNT;

/* Starts a rule's statement for the items with the numbers from `first` to `last`; those of
 * other rules ask about the whole book. */
MUST_CHECK bool check_open(struct book *book, const struct check_rule *rule,
    int64_t first, int64_t last, struct call *call_out, struct fault *fault);

/* Adds a row's finding in words. */
void check_words(const struct check_rule *rule, const char *name, const char *detail,
    struct text *out);

/* The items that a transaction touched, by their numbers. Starts as `{ 0 }`. */
struct guarding {
	int64_t *items; /* owned */
	size_t count;
	size_t capacity;
	bool removed; /* an item is gone: anything may have referred to it */
};

/* Notes what a change touches. */
void guard_note(struct guarding *guarding, const struct table_shape *shape,
    const struct row_change *change);

/* FAULT_INPUT when what a transaction changed would be found wrong by `book check`, and was not
 * wrong before. Called inside the transaction, once all its changes are noted, before it is kept. */
MUST_CHECK bool guard(struct book *book, struct guarding *guarding, struct fault *fault);

void guard_clear(struct guarding *guarding);

#endif
