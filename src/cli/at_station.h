/* Gear at the counter of a station: which one, and what is wanted there. */
#ifndef BECKET_CLI_AT_STATION_H
#define BECKET_CLI_AT_STATION_H

#include "cli/context.h"

/* The station of that name; NULL, with a remark, when the book has none like it. A name that
 * is nearly one of the book's is FAULT_INPUT, which names the option: it is a slip more often than a
 * new station. */
MUST_CHECK bool station_by_name(struct context *context, const char *option,
    const char *name, const struct station **out, struct fault *fault);

/* Remarks on what a careful person would ask at the counter of a station, NULL for one not in the
 * book, for an item of the inventory: approval is never assumed. */
void note_station(struct context *context, const struct station *station, size_t index);

/* What --for names, 1 << enum task each; 0 when it is not given. */
MUST_CHECK bool tasks_told(struct context *context, unsigned *out, struct fault *fault);

#endif
