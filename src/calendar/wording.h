/* The words of reminders' summaries and descriptions. Private to this room. Every function
 * adds to `out`, whose sticky flag the caller tests once. */
#ifndef BECKET_CALENDAR_WORDING_H
#define BECKET_CALENDAR_WORDING_H

#include "base/text.h"
#include "muster/muster.h"
#include "rules/kinds.h"
#include "winter/winter.h"

/* What the words are made from, all borrowed. */
struct wording {
	const struct kinds *kinds;
	const struct inventory *inventory;
	const char *currency; /* ISO 4217 code */
	day_t
	    day; /* of the reminder: how things stand is said as of this day; DAY_NONE as
		    * the lines have it */
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

/* Says that a day a person chose is later than the last that works. */
void wording_too_late(day_t last, struct text *out);

/* What a line asks to be done: the task, or "give back" at the end of a hire. */
const char *wording_task(const struct shore_line *line);

/* The most characters of a description, with the caution at its end: a limit of one large service
 * (from memory). And of the words a person entered of one thing, of which the rest is in the book. */
enum { WORDING_MOST = 8000, WORDING_WORDS_MOST = 400 };

/* Adds words that a person entered, cut at WORDING_WORDS_MOST. */
void wording_words(const char *words, struct text *out);

/* Shortens a description to so many characters. Of its list ("- ..." lines) the reasons and prices go
 * first, and where that is not enough, the last lines; it says which, and how many. What stands
 * behind the list stays. */
void wording_fit(struct text *description, size_t most);

/* Who decides: the last text line of every description, which is shortened to fit before it. */
void wording_caution(struct text *out);

#endif
