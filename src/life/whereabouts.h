/* Where gear is now, and how it came back from where it was. Pure. */
#ifndef BECKET_LIFE_WHEREABOUTS_H
#define BECKET_LIFE_WHEREABOUTS_H

#include "base/memory.h"
#include "gear/item.h"
#include "gear/station.h"
#include "rules/kinds.h"

/* Where one item is. */
struct whereabouts {
	size_t item;
	/* what it is inside of and has gone along with, outermost; itself when it is
	 * in nothing, or when it is somewhere else than that */
	size_t whole;
	enum place_state state; /* of that */
	const char *station;    /* landed: where; "" when not told */
	day_t since;   /* landed, withdrawn: since when; DAY_NONE when not known */
	day_t collect; /* landed: the day it can be fetched; DAY_NONE not known */
	bool assumed;  /* that day is by an assumed turn-round */
};

struct whereabouts_list {
	struct whereabouts *items; /* in the arena */
	size_t count;
};

/* The gear there is, with what is known of its kinds and of the stations it goes to. */
struct known_gear {
	const struct inventory *inventory;
	const struct kinds *kinds;
	const struct station *stations;
	size_t station_count;
};

struct whereabouts whereabouts_of(const struct known_gear *known, size_t item);

/* The items that words mean: that with this tag; else those with this serial number; else
 * those in whose tag, kind, description, make, place or serial every word stands, in any case
 * of letters. In the inventory's order. */
void whereabouts_find(const struct known_gear *known, const char *words,
    struct arena *arena, struct whereabouts_list *out);

/* What is ashore at a station, or anywhere when `station` is NULL; parts that are there
 * with their whole left out. By station, then the day it can be fetched, then as the
 * inventory has them. */
void whereabouts_ashore(const struct known_gear *known, const char *station,
    struct arena *arena, struct whereabouts_list *out);

/* One item that came back from a station, or did not because it was condemned there. */
struct came_back {
	size_t item;
	const struct movement *movement;
	const struct record *record; /* of the work, the first; NULL for none */
	size_t *renewed;             /* parts put in new with it; in the arena */
	size_t renewed_count;
	bool different; /* not just passed: another result, a new part, or a note */
};

/* Starts as `{ 0 }`. */
struct came_back_list {
	struct came_back *items; /* in the arena */
	size_t count;
	size_t capacity;
};

/* What came back on `since` or later (DAY_NONE: ever), the latest first. `station` NULL for
 * any. */
void came_back_since(const struct inventory *inventory, const char *station, day_t since,
    struct arena *arena, struct came_back_list *out);

#endif
