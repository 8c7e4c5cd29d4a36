/* The book: one SQLite file with the boats, the gear, the records and the reminders. The
 * only room that knows SQL. Every writing function is one transaction: all or nothing. */
#ifndef BECKET_BOOK_BOOK_H
#define BECKET_BOOK_BOOK_H

#include "base/text.h"
#include "base/words.h"
#include "gear/choices.h"
#include "gear/fleet_change.h"
#include "gear/paper.h"
#include "gear/settled.h"
#include "gear/station.h"

struct book; /* an open book; close with book_close */

/* Opens a book. With BOOK_CREATE a missing one is made, of the newest version. An
 * older book is first copied as it is to a file beside it (book_older_kept), then
 * migrated in one transaction. A book of a newer program, a file that is not a book and a
 * file that can't be read are FAULT_BOOK with words. Waits up to 5 s for another program
 * that is writing. */
enum book_mode {
	BOOK_READ,
	BOOK_LOOK, /* opening changes nothing; the same connection may write later */
	BOOK_WRITE,
	BOOK_CREATE,
	BOOK_TRIAL, /* a copy in memory, or a new book there: nothing is saved */
};

MUST_CHECK bool book_open(
    const char *path, enum book_mode mode, struct book **book_out, struct fault *fault);
void book_close(struct book *book);

/* True when a book that was opened with BOOK_LOOK can be written as if it had been opened
 * with BOOK_WRITE. Otherwise it has to be closed and opened again. */
bool book_may_write(const struct book *book);

/* Deletes the file of a book that this opening made and whose journal has no entry. Does
 * nothing for any other book, for NULL, or where another program has it open. After a
 * deletion the book can only be closed. */
void book_drop_fresh(struct book *book);

/* The file to which an older book was copied before this opening migrated it; NULL when
 * it was not older. Lives as long as the open book. */
const char *book_older_kept(const struct book *book);

/* A transaction over several of the calls below. It is rolled back by book_rollback,
 * and by closing the book. Each transaction that changed something raises the book's
 * revision by one, also where that was only reminders or feeds, which the journal does
 * not record. */
MUST_CHECK bool book_begin(struct book *book, struct fault *fault);

/* The same to read only, so that all is of one state of the book and nobody waits for it.
 * book_rollback ends it. */
MUST_CHECK bool book_begin_reading(struct book *book, struct fault *fault);

/* Begins to write what was worked out from the contents of this revision. Where the book
 * has changed since, nothing is begun and `*stale_out` is true: it has to be worked out
 * again. */
MUST_CHECK bool book_begin_as_of(
    struct book *book, int64_t revision, bool *stale_out, struct fault *fault);

/* The book's revision now: above 0. What is read after it may be of a later one. */
MUST_CHECK bool book_revision(struct book *book, int64_t *out, struct fault *fault);

/* Writes the journal's entry for what the open transaction has changed. After it only
 * what the journal does not record may still be written. Where this was not called,
 * book_commit does it. */
MUST_CHECK bool book_enter(struct book *book, struct fault *fault);

/* Commits the transaction. Where a part of it failed it can only be rolled back:
 * committing it is FAULT_BOOK. */
MUST_CHECK bool book_commit(struct book *book, struct fault *fault);
void book_rollback(struct book *book);

/* Everything a reading command needs, loaded in one pass of few statements. */
struct book_contents {
	struct arena arena; /* owns all below */
	struct inventory inventory;
	const struct station *stations; /* sorted by name */
	size_t station_count;
	int64_t revision; /* of the book that this was read from */
	/* vessels and items as they were read, for a later load to reuse: those of the
	 * inventory may since have been set to another day, and narrowed */
	const struct vessel *read_vessels;
	size_t read_vessel_count;
	const struct item *read_items;
	size_t read_item_count;
	bool with_withdrawn, with_stations;
	/* where one vessel was loaded alone: a part of her gear, gone by now, belongs to
	 * another vessel, and so is not among these */
	bool parts_elsewhere;
	int64_t
	    within; /* database_changes when read in an open transaction; -1 outside it */
};

/* True when these contents were read in the open transaction, and it has changed nothing
 * since. */
bool book_is_as_read(const struct book *book, const struct book_contents *contents);

/* Loads the whole book, or one vessel and its gear when `vessel` is not NULL (every station
 * in either case). A vessel's own base, lay-up and sheets are those since ever; vessel_set_day
 * has those of a day. Withdrawn items are left out unless asked for. An unknown vessel is
 * FAULT_INPUT. Clear with book_contents_clear. */
MUST_CHECK bool book_load(struct book *book, const char *vessel, bool with_withdrawn,
    struct book_contents *out, struct fault *fault);
void book_contents_clear(struct book_contents *contents);

/* What a person answered about a list: which of our columns a header stands for, or which
 * kind some words mean. `ours` may also be "notes", "ignore" or "no-gear", as an import
 * has them. */
struct import_answer {
	bool of_words; /* else of a header */
	const char *theirs;
	const char *ours;
};

/* All import answers, in the arena. Putting one replaces an earlier one about the same
 * header or words. */
MUST_CHECK bool book_load_import_answers(struct book *book, struct arena *arena,
    const struct import_answer **out, size_t *count_out, struct fault *fault);
MUST_CHECK bool book_put_import_answer(
    struct book *book, const struct import_answer *answer, struct fault *fault);

/* How far loading goes beyond what is named. A vessel counts for every base that she
 * has at any time. Every station, and all that belongs to no vessel, is loaded with
 * any part. */
enum book_reach {
	REACH_ALONE, /* the vessels themselves, with all their gear */
	REACH_FAMILIES, /* and vessels with wholes or parts of that gear or with what stands in for
			 * it, as far as gear hangs together */
	REACH_STORES, /* and, so, the stores of their bases */
	REACH_BASES,  /* and, so, all vessels of their bases */
};

/* A part of the book: the vessels named, those of a base and those of the items named,
 * with the others that `reach` adds. */
struct book_part {
	const char *const *vessels;
	size_t vessel_count;
	const char *base; /* all that lie there at any time; NULL for none */
	const char *const *tags;
	size_t tag_count;
	enum book_reach reach;
	bool without_stations;
	bool without_gear;
	/* above 0: the part was made up from a book of this revision. For a desk, which takes
	 * all of the book where that was written since */
	int64_t as_of;
	/* what an act refuses with the part it refuses with all of the book, in the same words. For
	 * a desk, which otherwise asks all of the book, too */
	bool sufficient;
	/* contents from whose revision the open transaction was begun: what it has not
	 * written to since is taken from them, and they still own it; NULL for none.
	 * Contents that are of another revision, or lack something that is wanted, are
	 * not used */
	const struct book_contents *before;
};

/* Loads a part of the book, or the whole when `part` is NULL, as book_load does. The cost
 * grows with that part, not with the book. Where one of its vessels or tags is not in the
 * book, nothing is loaded, and `*there_out` is false. */
MUST_CHECK bool book_load_part(struct book *book, const struct book_part *part,
    bool with_withdrawn, struct book_contents *out, bool *there_out, struct fault *fault);

/* The names of everything of one sort, each once, sorted by their bytes; strings in
 * the arena. Berths are the bases at which a vessel lies at any time; bases are these,
 * and those that only a station has. The baseless are the boats whose base is not
 * known at some time. Boats are all vessels but the stores. Landed are the tags of
 * what is ashore, split those of lots of which pieces went.
 * The unwintered are the boats that are in use all year at some time. */
enum book_names {
	BOOK_TAGS,
	BOOK_VESSELS,
	BOOK_STATIONS,
	BOOK_BASES,
	BOOK_BERTHS,
	BOOK_BASELESS,
	BOOK_BOATS,
	BOOK_LANDED,
	BOOK_SPLIT,
	BOOK_UNWINTERED
};

MUST_CHECK bool book_names(struct book *book, enum book_names names, struct arena *arena,
    struct word_list *out, struct fault *fault);

/* Whether something of that sort has exactly this name. Not for the last five sorts. */
MUST_CHECK bool book_has_name(struct book *book, enum book_names names, const char *name,
    bool *out, struct fault *fault);

/* What a vessel has to do with another: they lie at one base at some time, or gear of
 * hers is a part of the other's or stands in for it. */
struct book_tie {
	const char *vessel;
	const char *to; /* a base, "" for one that is not known; or a vessel */
	bool by_gear;   /* it is a vessel */
};

/* All ties in the book, at least one a vessel, sorted by her name's bytes; in `arena`. */
MUST_CHECK bool book_ties(struct book *book, struct arena *arena,
    const struct book_tie **out, size_t *count_out, struct fault *fault);

/* The tags of all lots that the gear with these tags was split from, and of all that was
 * split from those lots, this gear included; sorted, in `arena`. */
MUST_CHECK bool book_lots(struct book *book, const char *const *tags, size_t count,
    struct arena *arena, struct word_list *out, struct fault *fault);

/* What tells one piece of gear from another; all borrowed. */
struct book_mark {
	const char *tag;
	const char *kind;
	const char *serial; /* "" for none */
	bool past; /* the serial is from a movement: of what has or had that tag */
};

typedef void book_mark_taker(void *context, const struct book_mark *mark);

/* Calls `take` for all gear in the book, in the order in which it is loaded; with `past`
 * then also for the serial numbers of all movements. Reads every row, and keeps none in
 * memory. */
MUST_CHECK bool book_marks(struct book *book, bool past, book_mark_taker *take,
    void *context, struct fault *fault);

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
	bool fresh; /* the book had none of these tags before the act */
	/* NULL, or set to true where the whole that one is part of is not in the book yet
	 * or the parts make a loop so far: then it is put as no part, and all that are
	 * parts have to be put once more */
	bool *later;
	int64_t *numbers; /* NULL, or of each the number that the book has for it */
};

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
 * late, as book_is_past_renewal has it, changes nothing of this. Set new dates with
 * book_put_items after it. What no longer counts stays in the file and is not loaded. */
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

/* The currency of every price. Checked: three capital letters. */
MUST_CHECK bool book_set_currency(
    struct book *book, const char *currency, struct fault *fault);

/* How many prices the book holds: of gear, work, movements and stations. */
MUST_CHECK bool book_count_prices(
    struct book *book, int64_t *count_out, struct fault *fault);

/* The book's identity: 32 hexadecimal digits, random at creation, from which reminders'
 * UIDs are drawn. Settable only while there are no reminders, so that a demonstration can
 * be repeated to the byte. Borrowed until the book is closed. */
const char *book_identity(const struct book *book);

/* The currency of a book in which no other was set. */
#define BOOK_NEW_CURRENCY "EUR"

/* The currency of every price in the book, an ISO 4217 code; lives as long as the open book. */
const char *book_currency(const struct book *book);
MUST_CHECK bool book_set_identity(
    struct book *book, const char *identity, struct fault *fault);

/* Loads what a person chose about reminders, in `arena`. A book starts with Saturday and
 * nothing else chosen. */
MUST_CHECK bool book_load_choices(struct book *book, struct arena *arena,
    struct reminder_choices *out, struct fault *fault);

/* Changes to them: what is not set stays. A notice of fewer than 0 days, and DAY_NONE as a
 * planned day, take back what was chosen. */
struct choices_change {
	bool set_weekday, set_routines, set_singles;
	int weekday;
	bool routines;
	bool singles;
	const struct notice *notices;
	size_t notice_count;
	const struct planned_day *planned;
	size_t planned_count;
};

MUST_CHECK bool book_put_choices(
    struct book *book, const struct choices_change *change, struct fault *fault);

/* Whose reminders are wanted. */
enum scope_kind { SCOPE_FLEET, SCOPE_VESSEL, SCOPE_BASE, SCOPE_STATION };

struct scope {
	enum scope_kind kind;
	const char *name; /* of the vessel, base or station; "" for the fleet */
};

/* An address at which calendar programs fetch reminders. */
struct book_feed {
	int64_t number;
	const char *secret; /* the part of the address that can't be guessed */
	struct scope scope;
	bool todos; /* to-dos; else events */
	bool revoked;
	const char *etag; /* digest of what it gave out last; "" when it never did */
	int64_t modified; /* seconds since 1970, UTC, of its last change */
};

/* All feeds by number, the revoked ones too, in `arena`. */
MUST_CHECK bool book_load_feeds(struct book *book, struct arena *arena,
    const struct book_feed **out, size_t *count_out, struct fault *fault);

/* Adds a feed, and notes in the journal that it was made, without the secret. A secret has 32
 * characters or more and is random: making it is the caller's. */
MUST_CHECK bool book_add_feed(struct book *book, const char *secret,
    const struct scope *scope, bool todos, int64_t *number_out, struct fault *fault);

/* Revokes a feed for good, and notes it in the journal. FAULT_INPUT when there is none of
 * that number, or none in use. */
MUST_CHECK bool book_revoke_feed(struct book *book, int64_t number, struct fault *fault);

/* Where the feeds are served. */
struct book_feed_host {
	const char *listen; /* the address listened at; NULL when they never were */
	const char *host;   /* the name by which others reach it; "" for that address */
	int port;
};

/* Where the feeds were last served; all of it in `arena`. */
MUST_CHECK bool book_load_feed_host(struct book *book, struct arena *arena,
    struct book_feed_host *out, struct fault *fault);
MUST_CHECK bool book_store_feed_host(
    struct book *book, const struct book_feed_host *serving, struct fault *fault);

/* A number that changes when another connection or program has changed the file since
 * this book was opened, and only then: what was read before may be out of date. */
MUST_CHECK bool book_data_version(struct book *book, int64_t *out, struct fault *fault);

/* Keeps what a feed gave out last. */
MUST_CHECK bool book_note_feed(struct book *book, int64_t number, const char *etag,
    int64_t modified, struct fault *fault);

/* A reminder as the book remembers it. */
struct book_reminder {
	const char *key; /* what it is about: "hand-in|Vessel|2026|Station|1" */
	const char *uid;
	int sequence;
	int64_t modified;  /* seconds since 1970, UTC, of the last visible change */
	const char *shape; /* digest of what is visible, hexadecimal; "" for one that was
			    * forgotten */
	day_t
	    day; /* on which it was given out last; DAY_NONE not known. For each SEQUENCE:
			* book_load_given */
	day_t
	    aim; /* the day it would have been on by what it is about; DAY_NONE long past */
	int64_t entry;           /* number of the journal's last entry then */
	const char *summary;     /* what it said then; NULL or "" not known */
	const char *description; /* likewise */
};

/* The day a reminder was given out for under a SEQUENCE. */
struct book_given {
	const char *uid;
	int sequence;
	day_t day;
};

/* All of these by UID and SEQUENCE, in `arena`. Books of older programs begin to note them
 * when they next give out. */
MUST_CHECK bool book_load_given(struct book *book, struct arena *arena,
    const struct book_given **out, size_t *count_out, struct fault *fault);

/* The number of the journal's last entry, 0 for none: as long as it stays, nothing about the gear
 * has changed. */
MUST_CHECK bool book_last_entry(
    struct book *book, int64_t *number_out, struct fault *fault);

/* The number of the last entry that changed anything in the book, 0 for none. Making or
 * revoking a feed has an entry, but is not counted: it changes nothing that can be undone
 * or is told. */
MUST_CHECK bool book_last_change(
    struct book *book, int64_t *number_out, struct fault *fault);

/* The last entry that changed something which may concern one vessel alone. */
struct vessel_entry {
	const char *vessel; /* her name; "" for anything in the book */
	int64_t number;
};

/* The entries after number `entry` that may change what is said of gear: for each vessel
 * the last one about her gear, what is inside it or what it is inside of, or her
 * bookings; and, for "", the last one about anything else (stations, vessels, choices;
 * gear that went from one vessel to another, or that is no longer in the book). In
 * `arena`. A vessel may come more than once. */
MUST_CHECK bool book_entries_since(struct book *book, int64_t entry, struct arena *arena,
    struct vessel_entry **out, size_t *count_out, struct fault *fault);

/* The tags of what was packed on a day or later, sorted, in `arena`. */
MUST_CHECK bool book_load_packed(struct book *book, day_t since, struct arena *arena,
    const char *const **out, size_t *count_out, struct fault *fault);

/* Notes that the item with this tag was packed on a day; that it is not packed for DAY_NONE. */
MUST_CHECK bool book_put_packed(
    struct book *book, const char *tag, day_t on, struct fault *fault);

/* The hand-ins that were given out, those of past winters too, in `arena`; none of them has a
 * planned day yet. */
MUST_CHECK bool book_load_settled(struct book *book, struct arena *arena,
    struct settled_hand_in **out, size_t *count_out, struct fault *fault);

/* Whose hand-ins: a base's, or a vessel's own. */
struct hand_in_owner {
	bool of_base;
	const char *name;
};

/* The same of some owners, each named once. */
MUST_CHECK bool book_load_settled_of(struct book *book,
    const struct hand_in_owner *owners, size_t owner_count, struct arena *arena,
    struct settled_hand_in **out, size_t *count_out, struct fault *fault);

/* Keeps these as given out: their day and pieces replace what was kept before. */
MUST_CHECK bool book_put_settled(struct book *book,
    const struct settled_hand_in *hand_ins, size_t count, struct fault *fault);

/* All stored reminders by key, the forgotten ones too, in `arena`. */
MUST_CHECK bool book_load_reminders(struct book *book, struct arena *arena,
    const struct book_reminder **out, size_t *count_out, struct fault *fault);

/* The one of a key, NULL for none. */
MUST_CHECK bool book_find_reminder(struct book *book, const char *key,
    struct arena *arena, const struct book_reminder **out, struct fault *fault);

/* The least entry of those that are not forgotten; INT64_MAX for none. `*any_out`: there are
 * some, forgotten ones too. */
MUST_CHECK bool book_oldest_given(
    struct book *book, int64_t *number_out, bool *any_out, struct fault *fault);

/* The stored keys that no longer apply, found beside those that are wanted, key by key, so
 * that few are in memory. Starts as `{ .book }`; free with book_gone_clear. */
struct gone_reminders {
	struct book *book;
	const char **items; /* those that are gone; in the arena */
	size_t count;
	size_t capacity;
	struct arena arena;
	/* the rest is its own: keys that were read, and are not looked at from `at` on */
	struct arena paging;
	const char *const *page;
	size_t page_count;
	size_t at;
	bool ended;
};

/* Notes what comes before the next wanted key, which is greater than the last one; NULL after
 * the last of them. What was forgotten before is not noted again. */
MUST_CHECK bool book_gone_before(
    struct gone_reminders *gone, const char *wanted, struct fault *fault);
void book_gone_clear(struct gone_reminders *gone);

/* Stores these and forgets the keys in `gone`. A key that comes back later gets its UID back
 * with a higher sequence: forgotten ones are kept, marked as gone. */
MUST_CHECK bool book_store_reminders(struct book *book, const struct book_reminder *kept,
    size_t kept_count, const char *const *gone, size_t gone_count, struct fault *fault);

#endif
