/* A piece of gear and what is on record about it. Plain values; whoever fills them owns the
 * memory they point to. */
#ifndef BECKET_GEAR_ITEM_H
#define BECKET_GEAR_ITEM_H

#include "gear/fields.h"
#include "gear/vessel.h"

/* One task done: the rows RECORD in gear/fields.h. Text is "" when not known. */
struct record {
	INVENTORY_FIELDS(FIELD_NOTHING, FIELD_NOTHING, FIELD_MEMBER)
	int64_t entered; /* when it was entered: a later one has a higher number, 0
			  * not known */
};

/* True when both records are one to the book: task, day, next date and certificate. */
bool record_same(const struct record *a, const struct record *b);

/* True for a renewal that put another thing in the place of the one before: no refit. */
bool record_is_new_thing(const struct record *record);

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

/* What is known of one piece: the rows ITEM in gear/fields.h, which say what each is. */
struct item_values {
	INVENTORY_FIELDS(FIELD_NOTHING, FIELD_MEMBER, FIELD_NOTHING)
};

/* The same members in another struct, one by one and together as `values`. */
#define ITEM_VALUES                                                                      \
	union {                                                                          \
		struct item_values values;                                               \
		struct {                                                                 \
			INVENTORY_FIELDS(FIELD_NOTHING, FIELD_MEMBER, FIELD_NOTHING)     \
		};                                                                       \
	}

struct item {
	int64_t id;      /* the book's number for it */
	size_t vessel;   /* index in the inventory's vessels */
	const char *tag; /* unique in the book */
	ITEM_VALUES;
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
	/* What is on record from before the thing in place, which its last renewal that is no
	 * refit put there: it was about another one, and no longer counts. Oldest first. */
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

/* Boats and gear, and what every price in them is in. Items are sorted by vessel, then
 * tag as a person sorts; parts anywhere. */
struct inventory {
	const struct vessel *vessels; /* sorted by name */
	size_t vessel_count;
	const struct item *items;
	size_t item_count;
	const char *currency; /* ISO 4217 code, "EUR"; NULL when not told */
};

/* An item to be written. Fields whose bit in `set` is not there are kept as they are (or take their
 * empty value in a new item). The links (tag, vessel, part_of) are names. */
struct item_change {
	unsigned set; /* bit 1 << enum item_field; the tag says which item, and is none */
	INVENTORY_FIELDS(FIELD_MEMBER, FIELD_NOTHING, FIELD_NOTHING)
	ITEM_VALUES;
};

/* A change that would write nothing, with every value blank, and no tag. */
struct item_change blank_change(void);

/* An item as a change that would write all of it. Borrows from the inventory. */
struct item_change item_as_change(const struct inventory *inventory, size_t item);

/* The index of the item with this tag; ITEM_NO_PARENT where there is none. */
size_t inventory_tagged(const struct inventory *inventory, const char *tag);

/* The items aboard a vessel: `*count_out` of them from the index returned. */
size_t inventory_aboard(
    const struct inventory *inventory, size_t vessel, size_t *count_out);

#endif
