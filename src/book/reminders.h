/* What a book keeps of reminders: what a person chose about them, the feeds that give them out,
 * what was given out, and the hand-ins that it told of. */
#ifndef BECKET_BOOK_REMINDERS_H
#define BECKET_BOOK_REMINDERS_H

#include "book/book.h"
#include "gear/choices.h"
#include "gear/settled.h"

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

/* True where a stored one, forgotten or not, has this identity. */
MUST_CHECK bool book_has_uid(
    struct book *book, const char *uid, bool *out, struct fault *fault);

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
