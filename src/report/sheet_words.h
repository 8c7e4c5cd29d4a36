/* Rules and carriage lines in words, for whoever lists them or lays them side by side. Each
 * only adds to a text. */
#ifndef BECKET_REPORT_SHEET_WORDS_H
#define BECKET_REPORT_SHEET_WORDS_H

#include "base/text.h"
#include "rules/sheet.h"

/* "first: 36 months from packed, else made, to the end of the month". */
void sheet_add_clock(const struct clock_rule *clock, struct text *out);

/* The conditions, each after "; "; nothing where there are none. */
void sheet_add_conditions(const struct conditions *when, struct text *out);

/* Window, extension, contents and what the rule stands instead of, each after "; ". */
void sheet_add_extras(const struct rule *rule, struct text *out);

/* What a line needs: "1 for each person and 10 per cent on top, rounded up, and 2 more". */
void sheet_add_need(const struct carriage *line, struct text *out);

/* "flare-red-hand, flare-red-parachute: 1 each, at most 6 together". */
void sheet_add_serving(const struct serving *serving, struct text *out);

/* What each piece counts for: "1 each, at most 6 together", what it must be rated or hold before that. */
void sheet_add_worth(const struct serving *serving, struct text *out);

/* Words with commas between them. */
void sheet_add_list(const char *const *words, size_t count, struct text *out);

#endif
