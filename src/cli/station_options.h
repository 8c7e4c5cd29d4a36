/* What is known of a station, as options of `becket station`. */
#ifndef BECKET_CLI_STATION_OPTIONS_H
#define BECKET_CLI_STATION_OPTIONS_H

#include "cli/field_option.h"

/* What the options say; NULL for nothing. */
struct station_said {
	struct station_change change; /* all but the parts that follow */
	struct word_list paces;
	struct word_list closed;
	const char *open;
	const char *kinds;
	struct word_list makes;
	struct word_list prices;
};

#define STATION_SAID(member)                                                             \
	.type = OPTION_WORDS, .at = offsetof(struct station_said, member)
#define STATION_SAID_PACES STATION_SAID(paces)
#define STATION_SAID_CLOSED STATION_SAID(closed)
#define STATION_SAID_OPEN STATION_SAID(open)
#define STATION_SAID_KINDS STATION_SAID(kinds)
#define STATION_SAID_MAKES STATION_SAID(makes)
#define STATION_SAID_PRICES STATION_SAID(prices)

#define STATION_GOES(id)                                                                 \
	FIELD_GOES(STATION_FIELDS[STATION_##id], struct station_said, change,            \
	    change.set, STATION_##id)
#define STATION_OPTION(id, member, type, column, option, ...)                            \
	FIELD_ENTRY(STATION_GOES(id), option)
#define STATION_PART_OPTION(id, option)                                                  \
	{option, STATION_SAID_##id,                                                      \
	    FIELD_MARKS(struct station_said, change.set, STATION_##id)},
#define STATION_OPTIONS STATION_ROWS(STATION_OPTION, STATION_PART_OPTION)

/* Reads these options into a change; what it points to is in the context's arena. */
MUST_CHECK bool station_options_read(
    struct context *context, struct station_change *change, struct fault *fault);

#endif
