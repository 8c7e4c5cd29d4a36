/* Answers as text for people: plain words, aligned tables that fit 80 columns, months by
 * name. No SQL, no date arithmetic; each function adds to `out`. */
#ifndef BECKET_REPORT_REPORT_H
#define BECKET_REPORT_REPORT_H

#include "base/spool.h"
#include "base/text.h"
#include "due/suppose.h"
#include "gear/choices.h"
#include "gear/journal.h"
#include "gear/paper.h"
#include "gear/reckoned.h"
#include "muster/booked.h"
#include "muster/muster.h"
#include "report/table.h"
#include "rota/rota.h"
#include "rules/compare.h"
#include "rules/kinds.h"
#include "rules/sheet_check.h"
#include "winter/agenda.h"
#include "winter/winter.h"
#include "years/outlook.h"

/* How to write. Colour is only ever an addition to a word that says the same. */
struct report_style {
	bool colour;
	day_t today;
	const char *currency; /* ISO 4217 code */
	bool csv; /* its rows for a spreadsheet (RFC 4180), where the answer has them */
};

/* The caution that goes under every report someone could act on: the label, the maker's
 * manual, the station's certificate, the local authority and the surveyor decide. */
extern const char *const REPORT_CAUTION;

/* What was left out of an agenda. */
struct due_shown {
	size_t later; /* tasks left out, for they are not due by `until` */
	day_t until;
};

enum { DUE_STATES = STATE_DATE_UNKNOWN + 1 };

/* The agenda, of some boats at a time. Starts as `{ .style, .kinds, .routine, .out }`. */
struct due_report {
	const struct report_style *style;
	const struct kinds *kinds;
	bool routine; /* routines are shown too */
	struct text *out;
	/* how many tasks are shown, in each state, of what is in date and does not work, and of
	 * gear in reserve; how many routines are not */
	size_t states[DUE_STATES];
	size_t broken;
	size_t reserve;
	size_t left_out;
	bool begun;
};

/* Adds the agenda of some boats, each whole, as a table for each vessel: tag, what it is, task,
 * due day, state. Gear in reserve is marked as such and summed apart. */
void report_due_some(struct due_report *report, const struct inventory *inventory,
    const struct agenda_row *rows, size_t count);

/* Adds the end, once for all boats: that there is nothing, where that is so, the sums, how
 * much was left out, and the caution. */
void report_due_end(struct due_report *report, const struct due_shown *shown);

/* What a supposition would change: per vessel each task that would stand otherwise or must be
 * done before the switch, with the days to do it; then what can't be done. Rows by item. */
void report_suppose(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct supposed *supposed,
    const struct change_rows *rows, struct text *out);

/* The clocks of one item: which binds, which lose, what is not known, and the sources. Clocks
 * that can't count are left out; a rule that has no other is named in a last line. What the
 * vessel's sheets state nothing of is said with whom to ask. */
void report_why(const struct report_style *style, const struct due_engine *engine,
    size_t item, const struct obligation *obligations, size_t count, struct text *out);

/* Shore lists, each to print on one page: do now, hand in by station and day, do yourself
 * (the paperwork too), buy and renew, what a person put on the list to buy, dispose of
 * with the caution, can wait, habits. With several, a page a base comes first with the
 * trips that her vessels share, all gear that goes on them, and in a vessel's list only
 * where to look. */
void report_winters(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct shore_list *lists, size_t count,
    struct text *out);

/* The same as CSV, a row a line of it. `part` is one of hand-in, self, buy, wanted,
 * paperwork, dispose, waits, cannot, now; `standing` how the day of a hand-in stands. */
void report_winters_csv(const struct inventory *inventory, const struct shore_list *lists,
    size_t count, struct text *out);

/* The muster of some vessels on a day, over a period, or each over her season, of which
 * some come at a time: a row a boat, then what she is short of and which spares would
 * cure it, what can't be told, and what is counted though common practice has lapsed
 * (only how many, without remarks). Of several, those that are not all right come first,
 * a line each; of a single boat the next lapses as well. As CSV a row a line of each
 * vessel, and one without a line for a vessel that has none; tags in one cell are
 * separated by blanks.
 *
 * Starts with its first part filled in; free with muster_report_clear. */
struct muster_report {
	const struct report_style *style;
	bool remarks; /* name what is counted though common practice has lapsed */
	/* the report's own: what is told of each boat, or her rows as CSV */
	struct arena arena;
	struct boat_told *items;
	size_t count;
	size_t capacity;
	struct reply *lapses; /* of the first of them */
	struct runs rows;
};

/* Musters with what they are about. All borrowed until this returns. */
struct muster_view {
	const struct kinds *kinds;
	const struct inventory *inventory;
	/* of each of its vessels her place in that of the whole book, by which the boats
	 * are sorted; NULL for her index */
	const size_t *places;
	const struct muster *musters;
	size_t count;
	bool season; /* each muster is over the boat's season */
};

void report_muster_some(struct muster_report *report, const struct muster_view *view);

/* Writes all that was told, once all of it is there. FAULT_FILE where it can't be read back. */
MUST_CHECK bool report_muster_end(struct muster_report *report,
    const struct muster_question *question, struct text *out, struct fault *fault);
void muster_report_clear(struct muster_report *report);

/* What there is to be reminded of, day by day, with what a person chose, and what was given up.
 * Rows come some at a time, each time as reminder_rows_taker has them. Starts as `{ 0 }`; free with
 * remind_report_clear. */
struct remind_report {
	struct kept_rows rows; /* the report's own, as the next */
	struct runs given_up;
};

void report_remind_some(
    struct remind_report *report, const struct reminder_row *rows, size_t count);

/* Writes all of it, once all rows are there. FAULT_FILE where they can't be read back. */
MUST_CHECK bool report_remind_end(struct remind_report *report,
    const struct report_style *style, const struct reminder_choices *choices,
    struct text *out, struct fault *fault);
void remind_report_clear(struct remind_report *report);

/* Bookings: whose, when, for how many. */
void report_bookings(const struct report_style *style, const struct inventory *inventory,
    const struct booked *bookings, size_t count, struct text *out);

/* The muster over bookings, as they are sorted: a row a booking, then for each that has something
 * to say what she is short of, what lapses before she returns, and which spares cure it. As CSV
 * the rows alone, with more columns. */
void report_booked(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct booked *bookings, size_t count,
    struct text *out);

/* One carriage line of one vessel: what it needs and how that comes about, who says so, and
 * of each piece that could serve it whether it counts, and why not. */
void report_line(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct line_why *why, struct text *out);

/* The gear: whose, tag, what it is, where it is kept, how it stands. It comes some at a time, in
 * the order in which it is shown. Starts as `{ 0 }`; free with list_report_clear. */
struct list_report {
	struct kept_rows rows; /* the report's own */
};

void report_list_some(struct list_report *report, const struct kinds *kinds,
    const struct inventory *inventory, const size_t *items, size_t count);

/* Writes all of it, once it is there. FAULT_FILE where it can't be read back. */
MUST_CHECK bool report_list_end(struct list_report *report,
    const struct report_style *style, struct text *out, struct fault *fault);
void list_report_clear(struct list_report *report);

/* Everything known about one item; the boats; the stations. */
void report_show(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, size_t item, const struct paper *papers,
    size_t paper_count, struct text *out);

/* The papers kept with gear: number, item, name, what it is, size, day, the record it belongs
 * to and the note. */
void report_papers(const struct report_style *style, const struct paper *papers,
    size_t count, struct text *out);
void report_vessels(const struct report_style *style, const struct inventory *inventory,
    struct text *out);
void report_stations(const struct report_style *style, const struct station *stations,
    size_t count, struct text *out);

/* The journal, an entry a paragraph, the newest last, with at most `most` lines of each;
 * its money in the main unit of the book's currency. */
void report_journal(
    const struct journal *journal, size_t most, const char *currency, struct text *out);

/* Which dates a newer program or other sheets moved, from what to what; what is read otherwise; of
 * which vessels it can't be told. */
void report_upgrade(const struct upgrade *upgrade, struct text *out);

/* The same as remarks, a line each, with at most `most` dates: the journal has them all. */
void report_upgrade_remarks(const struct upgrade *upgrade, size_t most, struct text *out);

/* What a check of the book found: a line for all that is held, then each finding and what to
 * do about it. */
void report_check(const struct report_style *style, const struct check_result *result,
    struct text *out);

/* Rule sheets: one line each; one sheet with its rules, figures, sources and standings. */
void report_sheets(const struct report_style *style, const struct sheet *const *sheets,
    size_t count, struct text *out);
void report_sheet(
    const struct report_style *style, const struct sheet *sheet, struct text *out);

/* The years ahead of one or more vessels or bases: what the plan costs and whether that is
 * proven, the money of every winter, what drives it, and what is done in each. As CSV a row a
 * thing done and a row a trip, which has no tag and the task "trip".
 * Starts with its first part filled in; free with years_report_clear, which also begins it anew. */
struct years_report {
	const struct report_style *style;
	size_t columns; /* of the text that is written at the end; 0: not told */
	/* the report's own: what is told of each plan, and of all of them */
	struct runs kept;
	struct outlook_total total;
	struct text currency;
};

/* Tells of plans, which come some at a time, by their places among all (NULL: their
 * indices), which ascend. */
void report_years_some(struct years_report *report, const struct kinds *kinds,
    const struct outlook_view *view, const size_t *places);

/* Writes all that was told, once all of it is there. FAULT_FILE where it can't be read back. */
MUST_CHECK bool report_years_end(
    const struct years_report *report, struct text *out, struct fault *fault);
void years_report_clear(struct years_report *report);

/* The same as a page with drawings, for print and screen. Starts with its first part filled in;
 * free with years_drawn_clear, which also begins it anew. */
struct years_drawn {
	const struct report_style *style;
	/* the page's own */
	struct markup *markup; /* NULL where it is not begun */
	struct runs kept;
	struct outlook_total total;
	struct text currency;
};

/* Draws plans, which come some at a time, as report_years_some has them. */
void page_years_some(struct years_drawn *drawn, const struct kinds *kinds,
    const struct outlook_view *view, const size_t *places);

/* Ends the page. FAULT_FILE where it can't be read back. */
MUST_CHECK bool page_years_end(
    struct years_drawn *drawn, struct spool *out, struct fault *fault);
void years_drawn_clear(struct years_drawn *drawn);

/* Two such plans side by side: without a change and with it, and what moves or lapses by
 * it. Starts with its first part filled in; free with years_compared_clear, which also
 * begins it anew. */
struct years_compared {
	const struct report_style *style;

	/* the report's own: */
	struct years_counted {
		struct outlook_total total;
		size_t trips;
		size_t works; /* at stations */
		size_t renewals;
		size_t gaps;
	} as_is, changed; /* how often something is done */

	struct year_spent {
		int year;
		int64_t as_is, changed;
	} * items; /* owned; one a year */

	size_t count;
	size_t capacity;
	struct kept_rows moves;
	struct text currency;
};

/* Compares plans, which come some at a time, the same ones in both views, as report_years_some has
 * them. */
void report_years_compare_some(struct years_compared *compared,
    const struct outlook_view *as_is, const struct outlook_view *changed,
    const size_t *places);

/* Writes all that was compared. FAULT_FILE where it can't be read back. */
MUST_CHECK bool report_years_compare_end(
    struct years_compared *compared, struct text *out, struct fault *fault);
void years_compared_clear(struct years_compared *compared);

/* A rota: whether it holds, then each sort of gear with its spares and the days of its pieces,
 * what fails and what would help, and which boats are short anyway. */
void report_rota(
    const struct report_style *style, const struct rota_view *view, struct text *out);

/* The same as CSV, a row a piece. Tasks in one cell are separated by blanks;
 * `in_its_place` is "spare", "hired", "none needed" or "none". */
void report_rota_csv(const struct rota_view *view, struct text *out);

/* What was found in each, with file, line and what to do; that it is in order where there is
 * nothing. */
void report_sheet_check(
    const struct checked_sheet *files, size_t count, struct text *out);

/* How the tasks on a boat's gear stand under two sets of sheets: those that differ by day,
 * state or rule, each with both; how many do not. `names` are what the two are called; a row's
 * `now` is under the first, its `then` under the second. */
void report_compare_gear(const struct report_style *style,
    const struct inventory *inventory, const char *const names[2],
    const struct change_rows *rows, struct text *out);

/* Rules under two sets of sheets, side by side, with their sources; for one kind with the
 * lines of carriage it may serve, or, where `kind` is NULL, those that differ. */
void report_compare_rules(const struct report_style *style, const char *const names[2],
    const struct comparison *comparison, const char *kind,
    const struct line_list lines[2], struct text *out);

#endif
