/* Inside the page room: one day of the fleet. */
#ifndef BECKET_PAGE_SATURDAY_H
#define BECKET_PAGE_SATURDAY_H

#include "muster/booked.h"
#include "page/bases.h"
#include "page/draw.h"
#include "page/page.h"

/* One boat on the day. */
struct saturday_boat {
	const struct vessel *vessel;
	const char *base; /* where she lies on the day; "" not known */
	struct booked
	    booked; /* of the booking that begins on the day; else its booking is NULL, and
			       * she is mustered on the day alone, for the persons she is entered
			       * for */
	struct muster on; /* on the day alone, for the persons she is entered for */
	struct spans
	    lapses; /* days of the axis on which she is short, if nothing is done */
	struct spans bookings; /* of hers, on the axis */
};

struct saturday {
	struct visit *visit;
	day_t on;
	struct base_choice choice; /* the boats of which base are looked at */
	struct axis axis;
	struct saturday_boat *boats; /* by base, then name; in the desk's arena */
	size_t count;
	size_t going; /* how many go out: those stand first */
};

/* Loads what the day is about and reckons it. */
MUST_CHECK bool saturday_reckon(struct saturday *day, struct fault *fault);

/* Adds what she is short of: "red hand flares (2), EPIRB (1)"; what must be known where that can't
 * be told. */
void add_shortages(const struct muster *muster, struct text *out);

/* The parts of the page. */
void write_going(const struct saturday *day);
void write_cures(const struct saturday *day);
MUST_CHECK bool write_needs(const struct saturday *day, struct fault *fault);
void write_back_and_next(const struct saturday *day);
MUST_CHECK bool write_hand_ins(const struct saturday *day, struct fault *fault);

#endif
