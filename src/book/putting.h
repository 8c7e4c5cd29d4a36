/* What an act writes of boats, stations, gear, its history and its papers. Each of these is a
 * transaction, or a part of the one that is open. */
#ifndef BECKET_BOOK_PUTTING_H
#define BECKET_BOOK_PUTTING_H

#include "book/book.h"
#include "gear/fleet_change.h"
#include "gear/paper.h"

/* Changes a vessel. One whose name is not in the book is made: in private use, following
 * "practice", laid up 11-01..03-31. */
MUST_CHECK bool book_put_vessel(
    struct book *book, const struct vessel_change *change, struct fault *fault);

/* Writes bookings, all or none; each must have passed booking_check. One with `was`
 * replaces the boat's booking that begins on that day. FAULT_INPUT where the boat or that
 * booking is not in the book, or another booking of hers has the same first day. */
MUST_CHECK bool book_put_bookings(struct book *book,
    const struct booking_request *requests, size_t count, struct fault *fault);

/* Removes the booking of a boat that begins on a day; FAULT_INPUT when there is none. */
MUST_CHECK bool book_drop_booking(
    struct book *book, const char *vessel, day_t first, struct fault *fault);

/* Changes a station. One whose name is not in the book is made: turn-round 14 days, every
 * kind and make, every base, weekdays not known, no closure, no prices. */
MUST_CHECK bool book_put_station(
    struct book *book, const struct station_change *change, struct fault *fault);

/* Writes items. An item whose tag is in the book is changed, any other is new; a new one
 * needs vessel and kind. Part_of is resolved after the last one; an unknown parent, a part of
 * itself and a loop (or parts more than 32 deep) are FAULT_INPUT. `index_out` (may be NULL)
 * gets the index of the item at fault, and `count` where none is known to be. */
MUST_CHECK bool book_put_items(struct book *book, const struct item_change *changes,
    size_t count, size_t *index_out, struct fault *fault);

/* Some of the items of an act that puts them in several calls, no tag in two of them. */
struct item_batch {
	const struct item_change *first; /* of changes that stand `size` bytes apart */
	size_t size;
	size_t count;
	bool fresh;      /* the book had none of these tags before the act */
	size_t new_ones; /* so many items at least are new in all batches; 0 not known */
	/* NULL, or set to true where the whole that one is part of is not in the book yet
	 * or the parts make a loop so far: then it is put as no part, and all that are
	 * parts have to be put once more */
	bool *later;
	int64_t *numbers; /* NULL, or of each the number that the book has for it */
};

/* Items of a batch are added so many at a time, what is left of it one by one. */
enum { ITEMS_TOGETHER = 50 };

/* The same for one of several batches; and a number that the book has no more items than,
 * 0 where it has none. */
MUST_CHECK bool book_put_batch(struct book *book, const struct item_batch *batch,
    size_t *index_out, struct fault *fault);
MUST_CHECK bool book_items_most(struct book *book, size_t *out, struct fault *fault);

/* Makes `quantity` pieces of a lot an item of their own, with a new tag: its dates, serial number,
 * records, events, extensions, intervals, movements and papers are the lot's. FAULT_INPUT for an
 * unknown lot, a tag that is taken, or as many pieces as the lot has or more. */
MUST_CHECK bool book_split_item(struct book *book, const char *tag, const char *new_tag,
    int quantity, struct fault *fault);

/* Adds a record to the item with this tag; the same task, day, certificate and next date
 * twice is one record, so that an import can be repeated (a station or price that is known
 * now is filled in). A renewal is a new thing in the old place: it also sets fitted to `on`,
 * clears serial, made, packed, bought and expires, keeps the old serial in a movement, and
 * records, events and extensions from before it no longer count (records of its own day do;
 * events and extensions of its own day where they were entered after it); one that is entered
 * late, as book_is_past_renewal has it, changes nothing of this. A refit that is on record as
 * of the whole, of what is in place, clears serial, made, packed, bought and fitted: there was
 * no new thing. Set new dates with book_put_items after it. What no longer counts stays in the
 * file and is not loaded. */
MUST_CHECK bool book_add_record(
    struct book *book, const char *tag, const struct record *record, struct fault *fault);

/* A record and whose it is, borrowed. */
struct tagged_record {
	const char *tag;
	int64_t item; /* that item's number; 0: it is found by the tag */
	const struct record *record;
};

/* Adds them one after the other as book_add_record does, all or none; `*index_out` gets the
 * index of the one at fault, and `count` where none is known to be. */
MUST_CHECK bool book_add_records(struct book *book, const struct tagged_record *told,
    size_t count, size_t *index_out, struct fault *fault);

/* True in *out for a renewal that is history: the thing now in place was put there later, or
 * was made, packed, bought or fitted later. Its dates are not those of the thing in place. */
MUST_CHECK bool book_is_past_renewal(struct book *book, const char *tag,
    const struct record *record, bool *out, struct fault *fault);
MUST_CHECK bool book_add_event(
    struct book *book, const char *tag, const struct event *event, struct fault *fault);
MUST_CHECK bool book_add_extension(struct book *book, const char *tag,
    const struct extension *extension, struct fault *fault);

/* The maker's interval of a task for one piece. Put again for the same task and day it
 * replaces that one; where there are several days the last counts. A renewal dated after
 * an interval's day ends it. book_drop_interval removes all intervals of the task, and
 * does nothing where there is none. */
MUST_CHECK bool book_put_interval(struct book *book, const char *tag,
    const struct interval *interval, struct fault *fault);
MUST_CHECK bool book_drop_interval(
    struct book *book, const char *tag, enum task task, struct fault *fault);

/* What became of a paper that was put. */
struct paper_put {
	int64_t number;
	bool known; /* the item had these bytes already: nothing new was kept */
};

/* Keeps a paper with the item of its tag: name, media type, note and day are taken from
 * `paper`, size and digest are made here. With a record (as the item has it) it belongs to
 * that. The same bytes twice on one item are one paper, which gains the record and the note
 * when these are new. FAULT_INPUT for an unknown item or record, an empty file, and
 * one above PAPER_LARGEST. */
MUST_CHECK bool book_put_paper(struct book *book, const struct paper *paper,
    const struct record *record, const struct text *bytes, struct paper_put *out,
    struct fault *fault);

/* The papers of one item, or of all when `tag` is NULL, by item and number; in `arena`. Their
 * bytes are not read. An unknown item has none. */
MUST_CHECK bool book_load_papers(struct book *book, const char *tag, struct arena *arena,
    const struct paper **out, size_t *count_out, struct fault *fault);

/* The bytes of a paper, in place of what `out` held. FAULT_BOOK when they are not those that
 * were put in. */
MUST_CHECK bool book_read_paper(
    struct book *book, const struct paper *paper, struct text *out, struct fault *fault);

/* Takes a paper out of the book; the journal can give it back. One that is not the item's
 * is FAULT_INPUT. */
MUST_CHECK bool book_remove_paper(
    struct book *book, const char *tag, int64_t number, struct fault *fault);

/* Adds a movement of an item. Its place and vessel until then are read from the book, so
 * a movement is added before the change that it records; `was` and `was_vessel` are not
 * read. `vessel` "" stands for the vessel that the item is on. The serial number is the
 * item's. */
MUST_CHECK bool book_add_movement(struct book *book, const char *tag,
    const struct movement *movement, struct fault *fault);

/* The tags of what was packed on a day or later, sorted, in `arena`. */
MUST_CHECK bool book_load_packed(struct book *book, day_t since, struct arena *arena,
    const char *const **out, size_t *count_out, struct fault *fault);

/* Notes that the item with this tag was packed on a day; that it is not packed for DAY_NONE. */
MUST_CHECK bool book_put_packed(
    struct book *book, const char *tag, day_t on, struct fault *fault);

#endif
