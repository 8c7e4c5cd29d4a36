/* Reminders being made, and what was given out of them: for this room alone. */
#ifndef BECKET_CALENDAR_REMINDERS_INSIDE_H
#define BECKET_CALENDAR_REMINDERS_INSIDE_H

#include "base/text.h"
#include "book/book.h"
#include "calendar/reminders.h"
#include "muster/muster.h"
#include "rules/kinds.h"
#include "winter/winter.h"

/* Text made fit for a calendar file, before any of it is escaped. */

/* Whether a text may have line breaks. */
enum tidy_shape {
	TIDY_ONE_LINE, /* a line break becomes a blank */
	TIDY_LINES,    /* a line break of any spelling becomes "\n" */
};

/* Adds `string` to `out` without what calendar programs fail on: control characters of
 * both sets are dropped, a tab is a blank, a run of blanks is one blank, no line begins
 * or ends with a blank and the whole ends with no line break. Line breaks are CR, LF,
 * both, and the three that only Unicode knows (U+0085, U+2028, U+2029), at which some
 * parsers split a file. Text that is not well-formed UTF-8 is FAULT_INPUT and leaves
 * `out` alone. */
MUST_CHECK bool tidy_text(
    const char *string, enum tidy_shape shape, struct text *out, struct fault *fault);

/* ---- Digests of strings ---- */

/* Adds a digest (BLAKE2b) of 16 bytes as 32 hexadecimal digits. No string can run into the
 * next: each is hashed with its final zero. */
void digest_add(const char *const *strings, size_t count, struct text *out);

/* ---- What a person chose about reminders, looked up ---- */

/* The notice chosen for a kind, in days, or `otherwise` where none was chosen. */
int choices_notice(
    const struct reminder_choices *choices, const char *kind, int otherwise);

/* The day chosen for a reminder, when it is not before `today`; else DAY_NONE. */
day_t choices_planned(
    const struct reminder_choices *choices, const char *key, day_t today);

/* The chosen day of the week on or after a day. */
day_t choices_weekday_from(const struct reminder_choices *choices, day_t day);

/* The words of reminders' summaries and descriptions. Every function
 * adds to `out`, whose sticky flag the caller tests once. */

/* What the words are made from, all borrowed. */
struct wording {
	const struct kinds *kinds;
	const struct inventory *inventory;
	const char *currency; /* ISO 4217 code */
	day_t
	    day; /* of the reminder: how things stand is said as of this day; DAY_NONE as
		    * the lines have it */
	bool of_several; /* as the source has it */
};

/* What a summary calls the things of some lines: "EPIRB EP-1", "3 x automatic lifejacket",
 * "liferaft in a canister and 9 more". */
void wording_things(
    const struct wording *wording, const struct shore_lines *lines, struct text *out);

/* Adds whose they are, " (Harrowgull)", where the book has more than one boat. */
void wording_boat(const struct wording *wording, const char *vessel, struct text *out);

/* One text line an item, by name alone. */
void wording_pieces(
    const struct wording *wording, const struct shore_lines *lines, struct text *out);

/* One text line a shore line: "- LR-1 valise liferaft: service, due 30 Jun 2027; ...", with
 * everything known that someone who holds the item in hand needs. */
void wording_list(
    const struct wording *wording, const struct shore_lines *lines, struct text *out);

/* The caution for carrying, or for getting rid of, each hazard among the lines: one text
 * line each, in the order of enum hazard. */
void wording_carry(
    const struct wording *wording, const struct shore_lines *lines, struct text *out);
void wording_dispose(
    const struct wording *wording, const struct shore_lines *lines, struct text *out);

/* Adds the needs a vessel is short of: to the summary their names, "day signals, extinguishers";
 * to the description one text line each, "- day signals: 2 of 3". A line that can't be told
 * says what it asks for. */
void wording_short(const struct muster_line *lines, size_t count, struct text *summary,
    struct text *description);

/* Says that no station of the book takes things, and what is assumed of one. */
void wording_assumed(struct text *out);

/* Says that a day a person chose is later than the last that works. */
void wording_too_late(day_t last, struct text *out);

/* The most characters of a description, with the caution at its end: a limit of one large service
 * (from memory). And of the words a person entered of one thing; the rest is in the book. */
enum { WORDING_MOST = 8000, WORDING_WORDS_MOST = 400 };

/* Adds words that a person entered, cut at WORDING_WORDS_MOST. */
void wording_words(const char *words, struct text *out);

/* Shortens a description to so many characters. Of its list ("- ..." lines) the reasons
 * and prices go first, and where that is not enough, the last lines; it says which, and
 * how many. What stands after the list stays. */
void wording_fit(struct text *description, size_t most);

/* Who decides: the last text line of every description, which is shortened to fit before it. */
void wording_caution(struct text *out);

/* Reminders in the making: what the files that make them share. */

/* What all reminders of one call are made with. Free with making_clear. */
struct making {
	const struct reminder_source *source;
	struct wording wording;
	day_t today;
	struct arena *arena;
	struct reminders made;
	const struct shore_list *lists; /* all of them; borrowed */
	size_t list_count;
	const struct shore_list **by_base; /* in the arena */
	const struct shore_list *list;     /* the one at hand */
	day_t day;                         /* of the reminder at hand, once it is known */
	day_t aim;
	const char *last_key; /* of the reminder made last; NULL for none */
	struct text key;      /* working room, as the two below */
	struct text summary;
	struct text description;
};

void making_clear(struct making *making);

/* The name of the vessel at hand; the base of a list's, "" when not known. */
const char *making_vessel(const struct making *making);
const char *making_base(const struct making *making, const struct shore_list *list);

void making_sort_lists(struct making *making); /* fills by_base */
/* Those that may have a part of a trip of the list at hand: all of her base for the
 * base's, else hers. */
const struct shore_list *const *making_peers(
    const struct making *making, bool of_base, size_t *count_out);

/* Empties the working room for the next reminder. */
void making_start(struct making *making);

/* Adds a name to the key, so that no name can be read as two. */
void making_key_name(struct making *making, const char *name);

/* Starts the key with what kind of reminder it is, the vessel and the winter at hand. */
void making_key_start(struct making *making, const char *word);

/* The part of a list that one reminder of a winter is about. */
struct share {
	int year;  /* the winter's; 0 for in use all year */
	bool over; /* that winter is over: a person chose a later day for its reminder */
	struct shore_lines lines;
};

enum { SHARES = 2 };

/* Divides lines of the list at hand between the winter before, where a person's day for its
 * reminder of this kind (the key's first word) lies ahead, and the winter at hand. What was not
 * done in the one before is what has lapsed or will before this one. Where a person's day for
 * the one at hand lies ahead, what would have been in this part and can't be done in time any more
 * is with it. In the arena. */
void making_shares(struct making *making, const char *word, enum own_part part,
    const struct shore_lines *lines, struct share out[SHARES]);

/* Starts the key with what kind of reminder it is, the vessel and a share's winter. */
void making_key_share(struct making *making, const char *word, const struct share *share);

/* Said of a chosen day that lies after the winter it was chosen in. */
#define WINTER_OVER                                                                      \
	"TOO LATE: this day was chosen, but the winter it was for is over by then.\n"

/* What a reminder has beside its words. */
struct made_as {
	const char *station; /* where to; "" for nowhere */
	bool last_chance;
	bool hand_in;  /* its words are those of the list */
	bool as_given; /* a hand-in's: its day and pieces are those given out last */
	bool todo;
	bool stays;        /* also once she has left: what is ashore is to be fetched */
	const char *about; /* a to-do's reminder: its key; "" for none */
	/* whose it is, in the arena; NULL for the vessel at hand */
	const size_t *vessels;
	size_t vessel_count;
};

/* Finds the day of the reminder whose key is in the working room, and has the words speak of
 * that day. `aim` is the day it would be on by what it is about, DAY_NONE for long ago; `last`
 * the last day on which it would serve, DAY_NEVER when there is none.
 *   - A day that a person chose, while it lies ahead.
 *   - The day it was given out for, while that lies ahead and its aim is the same.
 *   - Its aim, when that is today or ahead.
 *   - The first of the chosen days of the week that is at least LEAD_DAYS ahead, or `last` where
 *     that is sooner and not past. */
void making_aim(struct making *making, day_t aim, day_t last);

/* The same, but where the aim is past it is on `otherwise`. */
void making_aim_else(struct making *making, day_t aim, day_t otherwise);

/* The same for one whose day is given. */
void making_on(struct making *making, day_t day);

/* What was given out under the key in the working room, still in a calendar; NULL for nothing. */
const struct book_reminder *making_stored(const struct making *making);

/* Says so where a person chose a day that is later than the last that serves. */
void making_note_too_late(struct making *making, day_t last);

/* The same of a share of the lines at hand. */
void making_note_share(struct making *making, const struct share *share, day_t last);

/* True when the vessel of a list is in the fleet on a day. */
bool making_is_here(
    const struct making *making, const struct shore_list *list, day_t day);

/* Takes the reminder out of the working room, with the caution at its end; there is none
 * where all whose it is will have left by its day, unless it stays. One that was given
 * out for the same day, which is not past, says what it said then as long as the journal
 * has no new entry that may concern its vessels: days that pass change no words. So does
 * a hand-in whose pieces and other days are the same, too; only the reasons in its list
 * may be of the day it was given out. */
void making_finish(struct making *making, const struct made_as *as);

/* The same for an event of the vessel at hand that goes to no station. */
void making_finish_here(struct making *making);

/* Days of notice before the last day on which something can be done, where none was chosen. */
enum { NOTICE_DAYS = 28 };

/* How many days before its day a line is to be told: what a person chose for its kind, or
 * `otherwise`. */
int making_notice(
    const struct making *making, const struct shore_line *line, int otherwise);

/* The key of the reminder made last; "" before the first, and where none was made of it. */
const char *making_last_key(const struct making *making);

/* The earliest of the lines' last days; DAY_NEVER when none has one. */
day_t making_last_day(const struct shore_lines *lines);

/* Adds a to-do for each line, to be done by `day`, or by the line's own last or due day where
 * that is DAY_NONE; they belong to the reminder with the key `about`. */
void todos_add(
    struct making *making, const struct shore_lines *lines, const char *about, day_t day);

/* Adds a reminder for each trip of the list at hand, with its to-dos, and one for the
 * last day on which what still waits can be handed in at its station, of an owner's trips
 * there in a winter. A trip that vessels of a base share is told once, under the first
 * list that has it. */
void trips_add(struct making *making);

/* Adds a reminder to fetch what went ashore, one for each station and day on which it
 * went; of vessels of one base one for all of them, under the first list that has it,
 * except for what was given out before as one vessel's. */
void collects_add(struct making *making);

/* Adds one reminder of all that is not in date aboard the vessel at hand on the reminder's own
 * day: the first of the chosen days of the week at least LEAD_DAYS ahead when first given out. */
void not_in_date_add(struct making *making);

/* Adds the day a vessel falls short, or is known to be. */
void shortfall_add(struct making *making, const struct shortfall *shortfall);

/* Empties the working room and fills in the key of a line's own reminder, beginning with `word`. */
void single_start(struct making *making, const struct shore_line *line, const char *word);

/* True when a person's day for it, under the key that begins with "now", lies ahead. */
bool single_is_planned(struct making *making, const struct shore_line *line);

/* Adds one reminder of some lines that fall due, under the key of the first, aimed at a day. */
void due_add(
    struct making *making, const struct shore_lines *lines, const char *word, day_t day);

/* Adds what can't wait for a winter and is still in date, or is on a day of a person's
 * that lies ahead, each on its due day less its notice; a to-do for each of these and of
 * what is not in date any more. */
void now_add(struct making *making);

/* Adds what lapses on a boat in use all year and is to be told of within twelve months, gathered
 * as reminders.h has it, and to-dos for it. */
void waiting_add(struct making *making);

/* Adds what can't be done this winter, on lay-up day: it needs another plan by then. */
void cannot_add(struct making *making);

/* Adds one for each line of the parts that are otherwise gathered, where a person chose so. */
void singles_add(struct making *making);

/* Adds the looks that come round within the year, on the day the first of them is due, where
 * a person chose so. */
void routines_add(struct making *making);

#endif
