/* Gear that comes back from ashore, and what its papers say. Pure. */
#ifndef BECKET_LIFE_HOMECOMING_H
#define BECKET_LIFE_HOMECOMING_H

#include "base/memory.h"
#include "gear/item.h"
#include "life/planning.h"

/* A part that the station renewed. */
struct renewed_part {
	const char *tag;
	bool refit; /* it is the same one, with something new in it; else another one */
	struct stamp expires; /* as marked; STAMP_NONE when not told */
	struct stamp made;
	const char *serial; /* "" when not told */
};

/* One item that comes back. */
struct homecoming {
	const char *tag;
	enum result result;
	unsigned tasks; /* bit 1 << enum task for each that was done */
	bool as_asked;  /* besides, all that was asked of the station was done */
	day_t on;       /* the day it is back */
	day_t done;     /* the day of the work; DAY_NONE is the day it is back */
	/* the next date its paper states: of its service, where that is one of several tasks */
	struct stamp next;
	/* the next date its paper states for each task by name; STAMP_NONE for none */
	struct stamp next_of[TASK_COUNT];
	const char *by;          /* "" is the station it is ashore at */
	const char *certificate; /* "" for none */
	const char *note;
	int64_t price_minor; /* -1 not known */
	const struct renewed_part *renewed;
	size_t renewed_count;
	const char *const *kept; /* tags of parts that outlive a condemned item */
	size_t kept_count;
};

/* An empty one, passed, back on a day. */
struct homecoming homecoming_on(day_t on);

/* Reads "LJ-1-FH=2029-06" or, with what else its label says,
 * "LJ-1-CY=2031-04,made:2026-10, serial:K-7"; nothing after the sign is a part whose
 * dates are not told. Strings live in the arena. `order` is how dates that could be
 * either are read. */
MUST_CHECK bool renewed_parse(struct arena *arena, const char *words,
    enum date_order order, struct renewed_part *out, struct fault *fault);

/* The day the work was done, and who did it. */
day_t homecoming_done(const struct homecoming *home);
const char *homecoming_by(const struct homecoming *home, const struct item *item);

/* What was asked of the station when the item was last landed, as a set of tasks; 0 when that
 * is not known. */
unsigned homecoming_asked(const struct item *item);

/* Whether something was asked when the item, or a part inside it that is ashore, was landed. */
bool homecoming_knows(const struct inventory *inventory, size_t item);

/* The tasks that are recorded of an item that came back, home->tag itself or (`inside`) a part
 * that was ashore with it: those named and, with `as_asked`, those asked. Of a part only what
 * was asked. A renewal that is not named is never among them: the mark of the new thing has to
 * be read first. */
unsigned homecoming_tasks(
    const struct homecoming *home, const struct item *item, bool inside);

/* The next date recorded with one of these tasks: the one stated for it by name, or the one
 * stated for none where this is the service, or all that was done. */
struct stamp homecoming_next(
    const struct homecoming *home, unsigned tasks, enum task task);

/* Reads what a paper states as next into `home`: "2027-10" or, by task, "service=2027-10";
 * several with semicolons between, each task once, also in several calls; nothing is none. `order`
 * is as for renewed_parse. */
MUST_CHECK bool homecoming_next_parse(const char *words, enum date_order order,
    struct homecoming *home, struct fault *fault);

/* How an item stands once it is back: as it stood before it was landed. */
enum place_state homecoming_state(const struct item *item);

/* What contradicts itself or the book: an item that is not ashore, work done before it was
 * landed or after it came back, a shorter time without its date, a next date of no task, a
 * part that is none of its, work as asked of which nothing is known. FAULT_INPUT; `item`
 * is the index of home->tag. */
MUST_CHECK bool homecoming_check(const struct inventory *inventory, size_t item,
    const struct homecoming *home, struct fault *fault);

/* Plans the return of one item with those of its parts that are ashore with it: the
 * movements, the records of its work and of its renewed parts, or its withdrawal. Checks it
 * first, as homecoming_check does. */
MUST_CHECK bool come_back(struct life_planning *planning, const struct homecoming *home,
    size_t item, struct fault *fault);

#endif
