/* What is known of a station, as options of `becket station`. */
#ifndef BECKET_CLI_STATION_OPTIONS_H
#define BECKET_CLI_STATION_OPTIONS_H

#include "cli/field_option.h"

#define STATION_OPTION(id, member, type, column, option, ...) option
#define STATION_PART_OPTION(id, option) option
#define STATION_OPTIONS STATION_ROWS(STATION_OPTION, STATION_PART_OPTION)

/* Reads these options into a change; what it points to is in the context's arena. */
MUST_CHECK bool station_options_read(
    struct context *context, struct station_change *change, struct fault *fault);

#endif
