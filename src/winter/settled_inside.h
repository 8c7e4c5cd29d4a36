/* What the files of the settled hand-ins share. Not for others. */
#ifndef BECKET_WINTER_SETTLED_INSIDE_H
#define BECKET_WINTER_SETTLED_INSIDE_H

#include "winter/settled.h"

/* A settled hand-in in the making: its stop, its day now, and its things. */
struct held_hand_in {
	const struct settled_hand_in *of;
	size_t stop; /* NO_ERRAND: none, it was given up */
	day_t day;   /* DAY_NONE: nothing is on it, or it was given up */
	bool chosen;
	bool missed;
	day_t moved_from;          /* the day ahead that serves nothing on it any more */
	enum day_misfit moved_why; /* DAY_SERVES: it was not moved so */
};

enum { NOT_HELD = -1 };

/* The settled hand-ins of those whose trips are being planned. Memory is the
 * gathering's. */
struct settling {
	struct gathering *gathering;
	const struct errand_thing *asked; /* the things, before lead days are applied */
	struct held_hand_in *held;
	size_t held_count;
	int *held_by; /* index of the held one for each thing, or NOT_HELD */
	day_t today;
	int lead_days;
};

/* The planning of the first vessel whose trips are being planned. */
static inline const struct planning *
settling_planning(const struct gathering *gathering)
{
	return gathering->sortings[0].planning;
}

/* The station of a stop, with the days on which those who share trips go. */
static inline const struct station *
settling_station(const struct settling *settling, size_t stop)
{
	return settling->gathering->errand_stops[stop].station;
}

/* True when a vessel's gear may be on a settled hand-in: it is her own or her base's,
 * and of the winter that is planned. A hand-in of boats whose winters start in
 * different years is named by the earliest of these years. So its day counts, too: it
 * must be after the winter before, and not after this one. */
bool settling_is_hers(const struct planning *planning, const struct settled_hand_in *of);

/* True when the settled hand-in is of those whose trips are being planned: of their
 * base, or of one of them alone, from before she shared trips. */
bool settling_is_ours(
    const struct gathering *gathering, const struct settled_hand_in *of);

/* True when an item was given out on a settled hand-in. */
bool settling_lists(const struct settled_hand_in *of, const char *tag);

/* ---- settled_days.c ---- */

/* The way by which a thing may be handed in at a stop on a day; NULL when there is
 * none. */
const struct errand_way *settling_way(
    const struct settling *settling, size_t thing, size_t stop, day_t day);

/* How many things are on a held hand-in. */
size_t settling_things_on(const struct settling *settling, int held);

/* A new day for everything on a held hand-in: the first that is far enough ahead, else
 * the last that serves; DAY_NONE when no day serves all of it. For boats in use all
 * year, when the old day lies ahead and serves no more: the last day before it that
 * serves and is far enough ahead, where there is one, since a rota puts them as late
 * as it can. */
day_t settling_new_day(const struct settling *settling, int held);

/* Why the day of a held hand-in does not serve everything on it. */
enum day_misfit settling_misfit(const struct settling *settling, int held);

/* Takes off a held hand-in, which has one or more, the thing whose last possible day is
 * the earliest. */
void settling_let_one_go(struct settling *settling, int held);

/* ---- settled_rest.c ---- */

/* Plans what is on no held hand-in into `out`, and each thing's index there into
 * `index`. */
void settling_plan_rest(
    struct settling *settling, struct errand_plan *out, size_t *index);

/* ---- settled_together.c ---- */

/* Writes the held hand-ins and the rest to the gathering's plan and marks, by stop and
 * day. */
void settling_put_together(
    struct settling *settling, const struct errand_plan *rest, const size_t *index);

#endif
