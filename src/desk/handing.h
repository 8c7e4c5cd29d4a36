/* Gear that is handed in beside the winters' plans: what a person names, and what is not
 * in date now. */
#ifndef BECKET_DESK_HANDING_H
#define BECKET_DESK_HANDING_H

#include "desk/desk.h"
#include "winter/winter.h"

/* What is to be handed in. All borrowed. */
struct handing {
	const size_t *items; /* indices in the inventory; their parts go with them */
	size_t count;
	const char *
	    station; /* NULL: each where it went last, else to the first station of her base, or
			      * of any, that may service it; to one still to be found where there is
			      * none */
	day_t
	    on; /* DAY_NONE: the first day a week or more ahead on which they go there */
	unsigned
	    told; /* what is wanted of the station, 1 << enum task; 0: what "asked_of_station" in
			* winter/asked.h says */
};

/* Makes a shore list a vessel, with nothing but these hand-ins, in the desk's arena:
 * papers are made from them as from a winter's. A station that is not in the book counts
 * the assumed turn-round. FAULT_INPUT where a piece is ashore already or withdrawn, or
 * where nothing is wanted of a station. Nothing is kept. */
MUST_CHECK bool desk_hand_in(struct desk *desk, const struct handing *handing,
    struct shore_list **lists_out, size_t *count_out, struct fault *fault);

/* Finds what of some lists' vessels' gear is aboard and not in date by a station's work,
 * and waits for no winter, in the inventory's order. What a rota has given out already is
 * not among it, nor a part of what is. In the desk's arena. */
void desk_due_now(struct desk *desk, const struct shore_list *lists, size_t list_count,
    size_t **items_out, size_t *count_out);

#endif
