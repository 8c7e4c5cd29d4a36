/* Answers about the life of gear, as text for people or as CSV: where it is, what is
 * ashore, what came back, what was spent, what happened to a serial number. Each function
 * adds to `out`. */
#ifndef BECKET_REPORT_REPORT_LIFE_H
#define BECKET_REPORT_REPORT_LIFE_H

#include "life/history.h"
#include "life/spending.h"
#include "life/whereabouts.h"
#include "report/reply.h"
#include "report/report.h"
#include "winter/agenda.h"

/* Where things are, which come some at a time: tag, what, where. Starts with its first part filled
 * in; free with where_report_clear. */
struct where_report {
	const struct report_style *style;
	/* the report's own */
	struct arena arena;
	struct reply reply;
	struct reply_table *table;
	struct text
	    shared; /* of the first serial number that tells no piece from another */
};

void report_where_some(struct where_report *report, const struct known_gear *known,
    const struct whereabouts_list *list);

/* Writes all that was told. */
void report_where_end(struct where_report *report, struct text *out);
void where_report_clear(struct where_report *report);

/* What is ashore, under a heading a station; since when, and when it can be fetched. This and the
 * next two have their rows as CSV where the style asks for that. */
void report_ashore(const struct report_style *style, const struct known_gear *known,
    const struct whereabouts_list *list, struct text *out);

/* What came back, the latest first; only what did not just pass unless `all`. */
void report_came_back(const struct report_style *style, const struct known_gear *known,
    const struct came_back_list *list, bool all, struct text *out);

/* The most rows of a part of the first word. */
enum { FIRST_WORD_ROWS = 6 };

/* The first word, on a screen of 24 lines: what is not in date (of one boat each task, else by
 * boat, those with most that is lapsed by law, label or maker or of unknown date first), what to
 * do this week, what comes then, and what is ashore. What has no room is counted, with the
 * command that shows it. It comes some boats at a time, and only what has room is kept. Starts as
 * `{ 0 }`; free with first_word_report_clear. */
struct first_word_report {
	/* the report's own; strings in the arena. The last of the rows is there while they are
	 * sorted */
	struct arena arena;
	size_t tasks; /* not in date */
	struct reply items;
	struct reply_table *table; /* of one boat: its pieces that are not in date */
	size_t item_count;

	/* a boat with something that is not in date */
	struct boat_row {
		size_t
		    binding; /* tasks of a grade above common practice, or of unknown date */
		size_t tasks;
		size_t place; /* in the whole book */
		const char *name;
		const char *tags;     /* of what that is */
	} boats[FIRST_WORD_ROWS + 1]; /* the worst first */

	size_t boat_count; /* of all of them, as the others */
	struct coming week[FIRST_WORD_ROWS + 1];
	size_t week_count;
	struct coming_days next;

	struct ashore_row {
		const char *station;
		day_t collect;
		size_t place; /* of its boat in the whole book */
		size_t nth;   /* of her pieces it is */
		const char *tag;
		bool assumed;          /* as struct whereabouts has it */
	} ashore[FIRST_WORD_ROWS + 1]; /* in its order */

	size_t ashore_count;
};

void report_first_word_some(struct first_word_report *report,
    const struct first_word *word, const struct known_gear *known,
    const struct first_word_part *part, const struct whereabouts_list *ashore);

/* Writes all that was told. */
void report_first_word_end(const struct report_style *style,
    const struct first_word_report *report, const struct first_word *word,
    struct text *out);
void first_word_report_clear(struct first_word_report *report);

/* What gear has cost, by kind, station and year. */
void report_spent(const struct report_style *style, const struct kinds *kinds,
    const struct spending *spending, struct text *out);

void report_history(const struct report_style *style, const struct kinds *kinds,
    const struct inventory *inventory, const struct history *history, struct text *out);

#endif
