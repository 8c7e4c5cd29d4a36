/* What an act or a question works with: the day, the book, the kinds and sheets.
 * Everything is read when first asked for. A face (the command line, a page) fills in
 * what it knows, calls an act or a question, and shows what came of it.
 *
 * Nothing in this room prints, asks a person, or knows how a request was worded. A fault
 * or a remark that is about a field of the request names it behind the mark FIELD of
 * base/fault.h. */
#ifndef BECKET_DESK_DESK_H
#define BECKET_DESK_DESK_H

#include "base/words.h"
#include "book/book.h"
#include "book/contents.h"
#include "book/journal.h"
#include "desk/shelf.h"
#include "due/due.h"

/* What a person has to answer before an act is done; it is then run again with the
 * answer. */
struct question {
	const char *words;          /* NULL for no question; in the desk's arena */
	const char *no;             /* what a no comes to */
	const char *const *choices; /* one of these is to be said; NULL for yes or no */
	size_t choice_count;
};

struct csv_rows;
struct upgrade;

/* What gear is loaded of a vessel that has left. She herself is always loaded: her
 * history is kept. */
enum left_gear {
	LEFT_ALL,    /* for what speaks of one thing, of the past or of another day */
	LEFT_ASHORE, /* what is at a station, which stays to be collected */
	LEFT_NONE,   /* for a list or a plan, which no longer has her */
};

struct desk {
	struct arena arena;         /* for what lives as long as the request */
	const char *book_path;      /* borrowed, or in the arena */
	bool book_named;            /* by a person: else it is the default's place */
	enum book_mode mode;        /* how it is opened when first asked for */
	struct signature signature; /* under which changes are written down */
	day_t today;
	bool today_given; /* by the person, so that the answer can be repeated */
	int64_t now;      /* seconds since 1970, UTC; with today_given that day's start */
	struct text notes; /* remarks, a line each */
	const char
	    *doing; /* "entering EP-1": leads a fault in writing; NULL for nothing */
	struct word_list answered; /* questions that were answered with yes */
	struct question question;  /* that of the act that has just failed */

	struct shelf shelf; /* kinds and sheets */
	struct book *book;  /* NULL until it is opened */
	bool lent;          /* it was opened to look names up (naming.h), not to write */
	bool writing;       /* it was opened for writing */
	size_t opened_with; /* entries of the journal that opening it has made */
	size_t kept_with; /* those made when dates were last kept with them; 0 not kept */
	bool reckons;     /* an engine was made, so dates were reckoned */
	/* see desk/reckoning.h. `behind`: the dates kept are of another program or of
	 * other sheets, and this could not be told yet. `upgrade`: what was told.
	 * `upgrade_quiet`: that is to be no remark */
	bool behind;
	const struct upgrade *upgrade; /* NULL for nothing; in the arena */
	bool upgrade_quiet;
	enum left_gear left_gear; /* set before anything is loaded */
	/* where not NULL, a load of the whole book loads only this part: for a question
	 * or an act whose answer is the same with it. Set before anything is loaded;
	 * borrowed */
	const struct book_part *about;
	bool loaded;
	/* all of the book is loaded as an act reads it, and seen as of today, with gear
	 * of vessels that have left as `whole_with` says. The book's revision tells
	 * whether it was written since */
	bool whole;
	enum left_gear whole_with;
	struct book_contents contents;
	/* the next load takes from these contents what was not written since (struct
	 * book_part); NULL for nothing. They are the desk's own `older`, or another
	 * desk's */
	const struct book_contents *before;
	struct book_contents older;
	bool as_written; /* by an act, all that it writes */
	/* while an act is written: the rows of a list of which all gear of the book consists,
	 * each as it was added; borrowed, NULL for none */
	const struct csv_rows *written;
	struct rulebook **rulebooks; /* one a vessel; shared between vessels */
	struct due_engine engine;
};

/* Opens the book in the desk's mode, or in a mode of the caller's; a desk for trying
 * (BOOK_TRIAL) keeps that mode in any case. Does nothing when the book is open. A missing
 * book that has to be there is FAULT_BOOK with words on how to begin one; for creation
 * the default folder is made, no other. Once the book is open for writing, it is told
 * which dates an upgrade moved (desk/upgrading.h). */
MUST_CHECK bool desk_book(struct desk *desk, struct fault *fault);
MUST_CHECK bool desk_open(struct desk *desk, enum book_mode mode, struct fault *fault);

/* The currency of the book's prices, an ISO 4217 code; that of a new book where there is
 * none yet. Opens the book in its mode. */
MUST_CHECK bool desk_currency(struct desk *desk, const char **out, struct fault *fault);

/* True when there is a file at the book's path. */
bool desk_has_book(const struct desk *desk);

/* The kinds catalogue, read when first asked for. */
MUST_CHECK bool desk_kinds(
    struct desk *desk, const struct kinds **out, struct fault *fault);

/* Adds the ids of all kinds that words may mean, in the desk's arena: those of a group
 * ("flares"), else those that fit ("extinguishers"), with a remark. For questions about
 * many pieces. FAULT_INPUT with the nearest kind where there is none. */
MUST_CHECK bool desk_kinds_meant(
    struct desk *desk, const char *words, struct word_list *out, struct fault *fault);

/* The kind that a person's words mean; a remark when they were not its id. FAULT_INPUT
 * with the nearest kind where there is none. */
MUST_CHECK bool desk_kind(
    struct desk *desk, const char *words, const struct kind **out, struct fault *fault);

/* Opens the book and loads its contents: one vessel's when `vessel` is not NULL, else the
 * desk's `about` where that is in the book, else all. Base, lay-up and sheets are
 * today's. Gear of vessels that have left is loaded as left_gear says. */
MUST_CHECK bool desk_load(
    struct desk *desk, const char *vessel, bool with_withdrawn, struct fault *fault);

/* The part of the book for a question about one vessel, NULL for a question about all;
 * for the desk's `about`, in its arena. */
const struct book_part *vessel_part(
    struct desk *desk, const char *vessel, enum book_reach reach);

/* The same for a question about some boats alone, who has to do with them too; else about
 * one; else about all that lie at a base at any time, and who has to do with those,
 * except for vessels of other bases where they lie too; each NULL where it is not about
 * that. Borrows the list. */
const struct book_part *boats_part(struct desk *desk, const char *vessel,
    const char *base, const struct word_list *boats, enum book_reach reach);

/* The part with the stations and no boat. */
extern const struct book_part STATIONS_PART;

/* Gives each vessel that is loaded the base, lay-up and sheets she has on a day, for a
 * question about that day. */
void desk_see_day(struct desk *desk, day_t day);

/* Gives each vessel the base for which a winter is planned: the one she has on the day
 * she is laid up, or today where she is laid up already. `year` names the winter; 0 is
 * the one she is in or else the next. */
void desk_see_winter(struct desk *desk, int year);

/* desk_load with withdrawn gear, which may be the part that a thing lacks; then makes the
 * due engine ready: every vessel's rule sheets are found and read. A sheet that is not
 * known is FAULT_INPUT with the list of those that are. Does nothing when the engine is
 * ready, until desk_forget. */
MUST_CHECK bool desk_engine(struct desk *desk, const char *vessel, struct fault *fault);

/* desk_load and desk_engine for a book that is open already. */
MUST_CHECK bool load_open_book(
    struct desk *desk, const char *vessel, bool with_withdrawn, struct fault *fault);
MUST_CHECK bool engine_of_open_book(
    struct desk *desk, const char *vessel, struct fault *fault);

/* A rulebook of the sheets a vessel follows; a sheet that is not known is FAULT_INPUT.
 * Free with rulebook_free. */
MUST_CHECK bool desk_rulebook(struct desk *desk, const struct vessel *vessel,
    struct rulebook **out, struct fault *fault);

/* A remark when a date that was given lies after today: most often a typing mistake.
 * `field` is the name of the request's field. */
void desk_note_future(struct desk *desk, const char *field, struct stamp stamp);

/* FAULT_INPUT, about this field, for a record of a day after today: what is not done yet moves no
 * date, for it may never be. */
MUST_CHECK bool desk_check_done(
    const struct desk *desk, const char *field, struct stamp on, struct fault *fault);

/* A remark that a new name may be a known one's, mistyped; none where `near` is NULL. */
void desk_note_near(
    struct desk *desk, const char *what, const char *name, const char *near);

/* Remarks on a change's dates after today, and on dates before the thing was made;
 * `known` is the item as it was before, NULL for a new one; the record is NULL when none
 * was written. */
void desk_note_item(struct desk *desk, const struct item_change *change,
    const struct item *known, const struct record *record);

/* Makes the next load, within the act's transaction, see what the act wrote: what was
 * loaded is kept, so that the load can take from it what has not changed. */
void desk_read_again(struct desk *desk);

/* Forgets what was loaded, so that the next load sees what was written since. */
void desk_forget(struct desk *desk);

/* The index of the item with this tag in the loaded contents, typed in any case
 * (desk/naming.h). FAULT_INPUT with the nearest tag when there is none. */
MUST_CHECK bool desk_find_tag(
    struct desk *desk, const char *tag, size_t *item_out, struct fault *fault);

/* The index of the vessel with this name in the loaded contents, typed in any case.
 * FAULT_INPUT with the nearest name when there is none. */
MUST_CHECK bool desk_find_vessel(
    struct desk *desk, const char *name, size_t *vessel_out, struct fault *fault);

/* Passes when these words were answered with yes. Else they are the desk's question, and
 * FAULT_INPUT with `unasked` for a face that can't ask; `no` is what a no comes to. */
MUST_CHECK bool desk_ask(struct desk *desk, const char *words, const char *unasked,
    const char *no, struct fault *fault);

/* The person's yes to the desk's question, which is no longer one. */
void desk_answer(struct desk *desk);

/* Adds a remark. */
void desk_note(struct desk *desk, const char *format, ...) FORMAT_LIKE(2, 3);

/* A refused request must leave no new book behind: removes one that was made for it
 * (book_drop_fresh). Afterwards the desk can only be cleared. */
void desk_drop_fresh(struct desk *desk);

void desk_clear(struct desk *desk);
#define SCOPED_DESK __attribute__((cleanup(desk_clear))) struct desk

#endif
