/* How a piece of gear came to stand where it stands: landed, returned, carried to another
 * boat, withdrawn. Plain values; whoever fills them owns the memory they point to. */
#ifndef BECKET_GEAR_MOVEMENT_H
#define BECKET_GEAR_MOVEMENT_H

#include "base/fault.h"
#include "dates/day.h"

/* Where an item stands. */
enum place_state {
	PLACE_ABOARD,
	PLACE_RESERVE,   /* aboard, never counted */
	PLACE_LANDED,    /* ashore, coming back */
	PLACE_STAND_IN,  /* hired or lent, fills the place of one ashore */
	PLACE_WITHDRAWN, /* gone for good */
};

enum { PLACE_COUNT = PLACE_WITHDRAWN + 1 };

/* The word for each: "aboard", "reserve", "landed", "stand-in", "withdrawn"; the way back. */
const char *place_word(enum place_state place);
MUST_CHECK bool place_parse(const char *word, enum place_state *out, struct fault *fault);

/* Why an item was withdrawn. */
enum because {
	BECAUSE_NOT_SAID,
	BECAUSE_CONDEMNED,
	BECAUSE_LOST,
	BECAUSE_USED,
	BECAUSE_EXPIRED,
	BECAUSE_SOLD,
	BECAUSE_GIVEN_BACK, /* a hired one, to whom it belongs */
};

enum { BECAUSE_COUNT = BECAUSE_GIVEN_BACK + 1 };

/* The word for each: "", "condemned", "lost", "used", "expired", "sold", "given-back"; the
 * way back, "" too. */
const char *because_word(enum because because);
MUST_CHECK bool because_parse(const char *word, enum because *out, struct fault *fault);

/* What a station found of an item that was with it. */
enum result {
	RESULT_NOT_SAID,
	RESULT_PASSED,
	RESULT_PASSED_SHORTER, /* its paper gives less time than usual: the next date binds */
	RESULT_CONDEMNED,
	RESULT_NOT_DONE, /* it comes back as it went */
};

enum { RESULT_COUNT = RESULT_NOT_DONE + 1 };

/* "", "passed", "passed-shorter", "condemned", "not-done"; the way back, except for
 * "". */
const char *result_word(enum result result);
MUST_CHECK bool result_parse(const char *word, enum result *out, struct fault *fault);

/* What happened to where an item stands. */
enum move {
	MOVE_LANDED,    /* handed in ashore */
	MOVE_RETURNED,  /* back from there */
	MOVE_CARRIED,   /* to another vessel, or to or from the spares of a base */
	MOVE_WITHDRAWN, /* gone for good */
	MOVE_RESERVED,  /* kept as an extra */
	MOVE_ABOARD,    /* counted again: no longer an extra, or brought back after all */
	MOVE_STOOD_IN,  /* put in the place of another */
	MOVE_RENEWED,   /* another thing took its place under the same tag */
};

/* The word for each: "landed", "returned", "moved", "withdrawn", "reserved", "aboard",
 * "stood-in", "renewed". */
const char *move_word(enum move move);

/* One of them, as the book keeps it. */
struct movement {
	enum move move;
	day_t on;
	enum place_state was;   /* how it stood before */
	const char *vessel;     /* whose it is after it */
	const char *was_vessel; /* whose it was before */
	const char
	    *station; /* landed to, returned from; "" for none, as in the next two */
	const char *stands_for; /* stood in: the tag of the one in whose place */
	const char *certificate;
	const char *serial; /* the serial number of the thing that was moved */
	const char *note;
	enum result result;   /* returned, and withdrawn from ashore: what was found */
	enum because because; /* withdrawn: why */
	int64_t price_minor;  /* what it cost beside any record; -1 when not known */
	/* landed: bit 1 << enum task for what was asked of the station; 0 when not known */
	unsigned asked;
};

#endif
