/* Acts on vessels and stations; their habits are those of desk/acts.h. */
#ifndef BECKET_DESK_ACTS_FLEET_H
#define BECKET_DESK_ACTS_FLEET_H

#include "desk/desk.h"
#include "gear/fleet_change.h"

/* What to do where a request says of a vessel something else than the book does, and
 * gives no day: it may be a change or a correction. */
enum told_otherwise {
	OTHERWISE_ASK, /* it is the desk's question, with the two choices "wrong" and "today" */
	OTHERWISE_WRONG, /* what it replaces was wrong: it holds from the day that did */
	OTHERWISE_TODAY, /* it holds from today */
	OTHERWISE_SAY,   /* likewise, and a remark says so */
};

struct vessel_request {
	struct vessel_change
	    change; /* what is not set is not said; `from` counts with from_given alone */
	bool from_given;
	enum told_otherwise otherwise;
};

/* Enters a vessel, or changes what is known of her. What is told for the first time holds
 * from the beginning; what the book already has is left out. FAULT_INPUT for a blank
 * name, and for a sheet that is not known or is named twice: with an unknown sheet a
 * vessel would have no dates. Remarks on a new name that is nearly a known one, and on an
 * area that none of her sheets mentions. Afterwards she is loaded as she is now. */
MUST_CHECK bool desk_vessel(
    struct desk *desk, const struct vessel_request *request, struct fault *fault);

/* Enters a station, or changes what is known of it. FAULT_INPUT for a blank name; a
 * remark on a new one that is nearly a known one. Afterwards everything is loaded as it
 * is now. */
MUST_CHECK bool desk_station(
    struct desk *desk, const struct station_change *change, struct fault *fault);

#endif
