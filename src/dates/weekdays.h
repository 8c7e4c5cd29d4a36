/* Days of the week on which something is open. */
#ifndef BECKET_DATES_WEEKDAYS_H
#define BECKET_DATES_WEEKDAYS_H

#include "dates/day.h"

/* Every day of the week, Monday being bit 0. */
enum { WEEKDAYS_ALL = 0x7f };

/* Reads days and runs of days, "mon-fri,sun", a run across Sunday too ("sat-tue"), or "all". */
MUST_CHECK bool weekdays_parse(
    const char *string, unsigned *weekdays_out, struct fault *fault);

enum { WEEKDAYS_TEXT_SIZE = 32 };

/* Writes what weekdays_parse reads, runs within the week as runs. Returns `buffer`. */
const char *weekdays_text(unsigned weekdays, char buffer[WEEKDAYS_TEXT_SIZE]);

#endif
