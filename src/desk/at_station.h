/* Gear at the counter of a station: which one, and what is remarked there. */
#ifndef BECKET_DESK_AT_STATION_H
#define BECKET_DESK_AT_STATION_H

#include "desk/desk.h"

/* The station of that name; NULL, with a remark, when the book has none like it. A name
 * that is nearly one of the book's is FAULT_INPUT, which names the field "station": it is most
 * often a typing mistake. */
MUST_CHECK bool station_by_name(
    struct desk *desk, const char *name, const struct station **out, struct fault *fault);

/* Remarks on what a careful person would ask at the counter of a station, NULL for one
 * not in the book, for an item of the inventory: approval is never assumed. */
void note_station(struct desk *desk, const struct station *station, size_t index);

#endif
