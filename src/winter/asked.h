/* What work a station is asked to do when gear is landed there. Pure. */
#ifndef BECKET_WINTER_ASKED_H
#define BECKET_WINTER_ASKED_H

#include "winter/winter.h"

/* A piece at the counter of a station. */
struct at_counter {
	const struct shore_list *list; /* the vessel's, of the day; borrowed */
	size_t item;
	bool inside; /* it is a part that goes along with the item it is in */
	day_t today;
};

/* The tasks asked of the station that an item is landed at: bit 1 << enum task for
 * each. These are the tasks that the vessel's shore list of the day has a station do
 * with it; station's work on it that is not in date; and for a vessel in use all year,
 * what falls due within twelve months (her rota brings it ashore before its day). When
 * a part goes along with the item it is in, its renewal is the station's work; a part
 * without a date is not, because no station can know it. 0 when nothing is on record.
 * `scratch` may be reset afterwards. */
void asked_of_station(const struct due_engine *engine, const struct at_counter *piece,
    struct arena *scratch, unsigned *out);

#endif
