/* Windows that come back every year, such as a lay-up or a station's closed weeks. */
#ifndef BECKET_DATES_YEARLY_H
#define BECKET_DATES_YEARLY_H

#include "dates/spans.h"

/* `11-01..03-31`: from one day of the year to another, across New Year when the first is the
 * later one. 02-29 means the last day of February. */
struct yearly {
	int8_t first_month; /* 1 to 12; 0 in a zeroed one, which means no window */
	int8_t first_day;
	int8_t last_month;
	int8_t last_day;
};

/* Reads `MM-DD..MM-DD`. */
MUST_CHECK bool yearly_parse(
    const char *string, struct yearly *yearly_out, struct fault *fault);

enum { YEARLY_TEXT_SIZE = 32 };

/* Writes what yearly_parse reads. Returns `buffer`. */
const char *yearly_text(struct yearly yearly, char buffer[YEARLY_TEXT_SIZE]);

/* The window that starts in the given year. */
struct span yearly_in(struct yearly yearly, int year);

/* Reads `YYYY-MM-DD..YYYY-MM-DD`, the first not after the last. */
MUST_CHECK bool span_parse(
    const char *string, struct span *span_out, struct fault *fault);

#endif
