/* Text made fit for a calendar file, before any of it is escaped. Private to this room. */
#ifndef BECKET_CALENDAR_PLAIN_TEXT_H
#define BECKET_CALENDAR_PLAIN_TEXT_H

#include "base/text.h"

/* Whether a text may have line breaks. */
enum tidy_shape {
	TIDY_ONE_LINE, /* a line break becomes a blank */
	TIDY_LINES,    /* a line break of any spelling becomes "\n" */
};

/* Adds `string` to `out` without what a calendar app trips over: control characters of both
 * sets are dropped, a tab is a blank, a run of blanks is one blank, no line begins or ends
 * with a blank and the whole ends with no line break. Line breaks are CR, LF, both, and the
 * three that only Unicode knows (U+0085, U+2028, U+2029), at which some parsers split a
 * file. Text that is not well-formed UTF-8 is FAULT_INPUT and leaves `out` alone. */
MUST_CHECK bool tidy_text(
    const char *string, enum tidy_shape shape, struct text *out, struct fault *fault);

#endif
