/* A piece of gear and what is on record about it. Plain values; whoever fills them owns the
 * memory they point to. */
#ifndef BECKET_GEAR_ITEM_H
#define BECKET_GEAR_ITEM_H

#include "dates/stamp.h"
#include "gear/movement.h"
#include "gear/vessel.h"
#include "gear/words.h"

/* One task done. */
struct record {
	enum task task;
	struct stamp on;         /* the day it was done; may be coarse */
	struct stamp next;       /* the next date its paper states; STAMP_NONE if none */
	const char *station;     /* "" when not known */
	const char *certificate; /* the paper's number; "" when none */
	int64_t price_minor;     /* -1 when not known */
	int64_t entered; /* when it was entered: a later one has a higher number, 0
				  * not known */
};

/* Something that happened to it. */
struct event {
	enum event_kind kind;
	day_t on;
	int64_t entered; /* as of a record, in one order with them */
};

/* True when the record was made after the event. On one and the same day the order of entry
 * decides; where that is not known, or the record names no day, the event came last. */
bool record_follows(const struct record *record, const struct event *event);

/* More time, given by an authority. */
struct extension {
	enum task task;
	day_t until;       /* its last day */
	const char *paper; /* the paper's number */
	day_t given;       /* the day it was given; DAY_NONE not known */
	int64_t entered;   /* as of a record */
};

/* The maker's interval of a task for one piece, as a paper states it. */
struct interval {
	enum task task;
	int months;       /* from the last time it was done, 1 or more */
	int first_months; /* until it was first done; 0 the same */
	/* what it counts from until then: ANCHOR_MADE, _PACKED, _BOUGHT, _FITTED, or
	 * ANCHOR_LAST where the paper speaks of the last time alone. For a renewal it goes
	 * on counting from that date of the thing in place, `months` once it was renewed */
	enum anchor from;
	/* false: nothing was said; then from manufacture, or the earliest that is known of
	 * packed, bought and fitted; a renewal from that and from the last one: the earlier */
	bool from_said;
	const char *paper; /* the paper it stands in: "owner's manual, 2nd edition" */
	day_t on;          /* the day it was known of the thing in place */
};

/* The parent of an item that is no part. */
#define ITEM_NO_PARENT ((size_t)-1)

struct item {
	int64_t id;              /* the book's number for it */
	size_t vessel;           /* index in the inventory's vessels */
	const char *tag;         /* unique in the book */
	const char *kind;        /* id in the kinds catalogue */
	const char *description; /* "" when none; so for all words below */
	const char *serial;
	const char *place;
	const char *notes;
	const char *make;    /* who makes it, as its station's approval names them */
	const char *rating;  /* as on its label: "5-B" */
	int quantity;        /* 1 or more */
	int capacity;        /* persons it is for; 0 when not known */
	int64_t price_minor; /* what a new one costs; -1 when not known */
	struct stamp made;
	struct stamp packed;
	struct stamp bought;
	struct stamp fitted;
	struct stamp expires; /* as marked */
	enum place_state state;
	const char *landed_to;  /* the station it is ashore at */
	day_t landed_on;        /* since when; DAY_NONE when it is not ashore */
	day_t hired_until;      /* a hired item's last day; DAY_NONE for an own one */
	enum because because;   /* why it was withdrawn */
	const char *stands_for; /* the tag of the own item in whose place it stands in */
	const char *split_from; /* the tag of the lot it was a piece of; "" for none */
	size_t parent;          /* index in the inventory's items, or ITEM_NO_PARENT */
	const struct record *records; /* oldest first by first day of `on` */
	size_t record_count;
	const struct event *events; /* oldest first */
	size_t event_count;
	const struct extension *extensions;
	size_t extension_count;
	const struct interval *intervals; /* of the thing in place; by day, then entry */
	size_t interval_count;
	const struct movement *movements; /* as they were written */
	size_t movement_count;
	/* What is on record from before its last renewal: it was about another thing, and
	 * no longer counts. Oldest first. */
	const struct record *past_records;
	size_t past_record_count;
	const struct event *past_events;
	size_t past_event_count;
};

/* The maker's interval of a task: the one known last. NULL when there is none. */
const struct interval *item_interval(const struct item *item, enum task task);

/* The day its age counts from: the first that its stamp may mean of when it was made, or of
 * when it was packed where that is all that is known. DAY_NONE when neither is. */
day_t item_born(const struct item *item);

/* An age that is not known. */
enum { AGE_NOT_KNOWN = -1 };

/* Its age on a day in whole years, as day_years_between counts them; AGE_NOT_KNOWN when the
 * day it counts from is not. */
int item_age(const struct item *item, day_t on);

/* Boats and gear, and what every price in them is in. Items are sorted by vessel, then tag as a person sorts; parts anywhere. */
struct inventory {
	const struct vessel *vessels; /* sorted by name */
	size_t vessel_count;
	const struct item *items;
	size_t item_count;
	const char *currency; /* ISO 4217 code, "EUR"; NULL when not told */
};

/* The items aboard a vessel: `*count_out` of them from the index returned. */
size_t inventory_aboard(
    const struct inventory *inventory, size_t vessel, size_t *count_out);

#endif
