/* What is wanted of a station when gear is landed there. Pure. */
#ifndef BECKET_WINTER_ASKED_H
#define BECKET_WINTER_ASKED_H

#include "winter/winter.h"

/* What is asked of the station that an item is landed at: bit 1 << enum task for each. It is
 * what the vessel's shore list of the day has a station do with it, what of its station's work
 * is not in date, and for a vessel in use all year what falls due within twelve months (her
 * rota brings it ashore before its day). `inside`: it is a part that goes along with what it
 * is in, so its renewal is the station's; what has no date is not, for no station can know it.
 * 0 when nothing is on record. `scratch` may be reset afterwards. */
MUST_CHECK bool asked_of_station(const struct due_engine *engine,
    const struct shore_list *list, size_t item, bool inside, day_t today,
    struct arena *scratch, unsigned *out, struct fault *fault);

#endif
