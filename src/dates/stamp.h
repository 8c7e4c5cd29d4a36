/* Stamps: dates as labels carry them, often no finer than a month or a year, sometimes an
 * estimate, sometimes worded so that they end earlier than they look. */
#ifndef BECKET_DATES_STAMP_H
#define BECKET_DATES_STAMP_H

#include "dates/day.h"

enum stamp_precision {
	STAMP_NONE, /* no date known; a zeroed stamp is this */
	STAMP_YEAR,
	STAMP_MONTH,
	STAMP_DAY,
};

/* How a mark is worded on the label. Kept and shown; it decides the last good day. */
enum stamp_wording {
	WORDING_PLAIN,  /* a date, or "EXP": good through its last day */
	WORDING_BEFORE, /* "use before", "before": good until the day before it starts */
	WORDING_USE_BY, /* "use by": a day counts itself; a month or year as "before" */
};

/* A date to the precision that is known. month and day are 0 where coarser. */
struct stamp {
	int16_t year;
	int8_t month;
	int8_t day;
	enum stamp_precision precision : 8;
	enum stamp_wording wording : 8;
	/* somebody's estimate; stays marked as such wherever it is shown */
	bool estimated;
};

/* How numbers with a day and a month are to be read. */
enum date_order {
	ORDER_ISO,         /* only 2021-04-30, 2021-04, 2021, and month/year 04/2021 */
	ORDER_DAY_FIRST,   /* also 30/04/2021, 30.04.2021 and 30-04-2021 */
	ORDER_MONTH_FIRST, /* also 04/30/2021 and so on */
};

/* Reads a stamp: ISO 8601 `2021-04-30`, `2021-04`, `2021`, with slashes or points too;
 * `04/2021`; day and month in the order told, or where only one order gives a date; a
 * month's name or its short form, in English and the languages of month_at (`30 Apr 2021`,
 * `April 30, 2021`, `28 de noviembre de 2026`, `Mai 2021`); any of them after
 * one of the words "EXP", "expires", "use by", "use before" or "before"; a final `~` (the
 * approximate sign of ISO 8601-2), "(estimated)", "(est.)", or "about", "circa" or "ca."
 * before it marks an estimate. "end 2027" and "end of Jun 2027" are the year and the
 * month: good through their last day as a mark, and as a start, to be cautious, from
 * their first. A midnight after a full day (`2021-04-30 00:00:00`), as spreadsheets write
 * it, is passed over. Blank text gives STAMP_NONE. On failure says what was found and
 * what was expected; a date whose day and month could be either, without an order told,
 * is a failure and never a guess. */
MUST_CHECK bool stamp_parse(const char *string, enum date_order order,
    struct stamp *stamp_out, struct fault *fault);

/* What a person types: the same, or "yesterday", "today" or "tomorrow", counted from `today`.
 * Whether a day may lie ahead is for whoever asks for it. */
MUST_CHECK bool stamp_typed(
    const char *string, day_t today, struct stamp *stamp_out, struct fault *fault);

/* The same for one exact day: `28 Nov 2026`, `28/11/2026`, "today". Files and sheets have theirs
 * as day_parse reads them. Where nothing is typed the fault says that no day is given. */
MUST_CHECK bool day_typed(
    const char *string, day_t today, day_t *day_out, struct fault *fault);

/* A stamp for one exact day. */
struct stamp stamp_of_day(day_t day);

/* The first day the stamp could mean: the cautious start of a clock. DAY_NONE for none. */
day_t stamp_first(struct stamp stamp);

/* The last day of the period it names, whatever the wording. DAY_NONE for none. */
day_t stamp_last(struct stamp stamp);

/* Read as a mark: the last good day, wording counted. "EXP 06/2027" gives 2027-06-30,
 * "use before 06/2027" gives 2027-05-31. DAY_NONE for none. */
day_t stamp_good_through(struct stamp stamp);

bool stamp_same(struct stamp a, struct stamp b);

enum { STAMP_TEXT_SIZE = 40 };

/* Writes what stamp_parse reads back to the same stamp: `2027-06`, `before 2027-06`,
 * `use by 2027-06`, with `~` when estimated; "" for none. Returns `buffer`. */
const char *stamp_text(struct stamp stamp, char buffer[STAMP_TEXT_SIZE]);

/* Writes it for people, the month named: `Jun 2027`, `before Jun 2027`, `2014 (estimated)`;
 * "not known" for none. Returns `buffer`. */
const char *stamp_words(struct stamp stamp, char buffer[STAMP_TEXT_SIZE]);

#endif
