/* Lines of the journal in the trade's words, for people who do not read columns: the book
 * has "length cm" with "980", here it is a length of 9.80 m; its kinds are named, its
 * days have their month's name. */
#ifndef BECKET_REPORT_JOURNAL_TERMS_H
#define BECKET_REPORT_JOURNAL_TERMS_H

#include "base/text.h"
#include "gear/journal.h"
#include "rules/kinds.h"

/* What the words are told with. */
struct journal_speech {
	const char *currency;      /* the book's */
	const struct kinds *kinds; /* NULL: a kind stays as the book has it */
};

/* Adds what a line is of: "length", "use area", "record". */
void journal_term(const struct journal_line *line, struct text *out);

/* Adds a value of the line, `was` or `became`; what can't be read stays as it is. */
void journal_term_value(const struct journal_speech *speech,
    const struct journal_line *line, const char *value, struct text *out);

/* Adds what a line says, whole: "LJ-1: place became forepeak; it was cabin". */
void journal_line_words(const struct journal_speech *speech,
    const struct journal_line *line, struct text *out);

#endif
