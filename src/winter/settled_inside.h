/* Inside the settled hand-ins: what their files share. Not for others. */
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

/* The settled hand-ins of those whose trips are being planned. Memory is the gathering's. */
struct settling {
	struct gathering *gathering;
	const struct errand_thing *asked; /* the things, not put ahead */
	struct held_hand_in *held;
	size_t held_count;
	int *held_by; /* index of the held one for each thing, or NOT_HELD */
	day_t today;
	int lead_days;
};

/* The planning of the first of those whose trips are being planned. */
static inline const struct planning *
settling_planning(const struct gathering *gathering)
{
	return gathering->sortings[0].planning;
}

/* The station of a stop, with the days on which they go. */
static inline const struct station *
settling_station(const struct settling *settling, size_t stop)
{
	return settling->gathering->errand_stops[stop].station;
}

/* True when a vessel's gear may be on a settled hand-in: it is her own or her base's, and of the
 * winter that is planned. One whose boats' winters start in different years is named by the earliest,
 * so its day counts, too: behind the winter before, and not behind this one. */
bool settling_is_hers(const struct planning *planning, const struct settled_hand_in *of);

/* True when the settled hand-in is of those whose trips are being planned: of their base, or of
 * one of them alone, from before she shared trips. */
bool settling_is_ours(
    const struct gathering *gathering, const struct settled_hand_in *of);

/* True when an item was given out on it. */
bool settling_lists(const struct settled_hand_in *of, const char *tag);

/* ---- settled_days.c ---- */

/* The cheapest way by which a thing may be handed in at a stop on a day; NULL when
 * none. */
const struct errand_way *settling_way(
    const struct settling *settling, size_t thing, size_t stop, day_t day);

/* How many things are on a held one. */
size_t settling_things_on(const struct settling *settling, int held);

/* A new day for all that is on a held one: the first that is far enough ahead, else the last
 * that serves; DAY_NONE when no day serves all of it. Of boats in use all year, where its day lies ahead
 * and serves no more, the last far enough ahead that does before that day, where there is one: a
 * rota has them as late as can be. */
day_t settling_new_day(const struct settling *settling, int held);

/* Why the day of a held one does not serve all that is on it. */
enum day_misfit settling_misfit(const struct settling *settling, int held);

/* Lets go of the thing that must go first. */
void settling_let_one_go(struct settling *settling, int held);

/* ---- settled_rest.c ---- */

/* Plans what is on no held one into `out`, each thing's index there in `index`. */
void settling_plan_rest(
    struct settling *settling, struct errand_plan *out, size_t *index);

/* ---- settled_together.c ---- */

/* Writes what is held and the rest to the gathering's plan and marks, by stop and day. */
void settling_put_together(
    struct settling *settling, const struct errand_plan *rest, const size_t *index);

#endif
