/* Rules and carriage lines in words, for lists and comparisons of sheets. Each function
 * only adds to a text. */
#ifndef BECKET_REPORT_SHEET_WORDS_H
#define BECKET_REPORT_SHEET_WORDS_H

#include "base/text.h"
#include "rules/sheet.h"

/* "first: 36 months from packed, else made, to the end of the month". */
void sheet_add_clock(const struct clock_rule *clock, struct text *out);

/* The conditions, each after "; "; nothing where there are none. */
void sheet_add_conditions(const struct conditions *when, struct text *out);

/* The window, the extension, the contents and the rule that this one replaces, each after
 * "; ". */
void sheet_add_extras(const struct rule *rule, struct text *out);

/* What a line needs: "1 for each person and 10 per cent on top, rounded up, and 2
 * more". */
void sheet_add_need(const struct carriage *line, struct text *out);

/* "flare-red-hand, flare-red-parachute: 1 each, at most 6 together". */
void sheet_add_serving(const struct serving *serving, struct text *out);

/* How much each piece counts: "1 each, at most 6 together", and the rating or contents it
 * must have first. */
void sheet_add_worth(const struct serving *serving, struct text *out);

/* Words with commas between them. */
void sheet_add_list(const char *const *words, size_t count, struct text *out);

#endif
