/* The words that reports share: the names of things, and their states. */
#ifndef BECKET_REPORT_WORDS_H
#define BECKET_REPORT_WORDS_H

#include "base/text.h"
#include "due/due.h"
#include "gear/paper.h"
#include "report/report.h"
#include "report/table.h"
#include "rules/kinds.h"

/* Adds the quantity and the kind: "4 x red hand flare"; the quantity only above 1. */
void add_kind_words(const struct kinds *kinds, const struct item *item, struct text *out);

/* The same, and the parent if there is one: "... (part of LR-1)". */
void add_item_name(const struct kinds *kinds, const struct inventory *inventory,
    size_t item, struct text *out);

/* The same, and the description if there is one: "..., offshore pack". */
void add_item_words(const struct kinds *kinds, const struct inventory *inventory,
    size_t item, struct text *out);

/* The same for narrow columns beside the tag: the parent, "(of LR-1)", only when the tag
 * does not begin with the parent's. */
void add_item_short_words(const struct kinds *kinds, const struct inventory *inventory,
    size_t item, struct text *out);

/* The kind's name, or its id where the catalogue does not have it. Borrowed. */
const char *kind_name(const struct kinds *kinds, const char *id);

/* The part of an item's description that its kind's name does not say: "" for "Smoke
 * orange" of a buoyant orange smoke. Borrowed from the item. */
const char *description_of(const struct kinds *kinds, const struct item *item);

/* Adds an item's name for a cell in two parts: "hydrostatic release (of LR-1)" (the
 * parent only when the tag does not begin with the parent's) with `note`, and the
 * description. */
void add_item_parts(const struct kinds *kinds, const struct inventory *inventory,
    size_t item, const char *note, struct text *name, struct text *extra);

/* Adds what to do about a missing fact, for a column or option name as in a reading's
 * `asks`: "enter the made date", "enter the vessel's area". */
void add_missing_words(const char *missing, struct text *out);

/* The state of a task on a day, in dates. */
struct standing_now {
	enum state state;
	day_t due;           /* DAY_NONE when it is not known or nothing will lapse */
	day_t good_through;  /* as in struct obligation */
	const char *missing; /* name of what is not known; "" when nothing */
};

/* Adds the state: "in date", "overdue since 1 Nov 2026", "expired", "life-expired", "date
 * unknown: enter the made date"; "in date; made not known"; "in date until 1 Feb 2027"
 * inside a window that is past its due day. */
void add_state_words(const struct standing_now *standing, day_t today, struct text *out);

/* The colour of a state. */
enum hue state_hue(enum state state);

/* Adds "from 10 years old", with GLUE between the words. */
void add_from_age(int years, struct text *out);

/* The noun for a task: "service", "inspection"; for what was done "refit" too. */
const char *task_noun(enum task task);
const char *record_noun(const struct record *record);

/* Adds "service, test": the nouns of a set of tasks, bit 1 << enum task for each. */
void add_task_nouns(unsigned tasks, struct text *out);

/* Adds "between 1 Nov 2026 and 13 Dec 2026", "from 1 Nov 2026", "by 13 Dec 2026", or
 * nothing when both are DAY_NONE. Without the years when `years` is false. */
void add_window_words(struct span window, bool years, struct text *out);

/* Adds the day in words, or `otherwise` for DAY_NONE. Its blanks are GLUE: for words that
 * go into a table or a paragraph. */
void add_day(day_t day, const char *otherwise, struct text *out);

/* The day in such words, in the buffer; "" for DAY_NONE and DAY_NEVER. */
const char *day_glued(day_t day, char buffer[DAY_WORDS_SIZE]);

/* Adds a day that is not DAY_NONE: "25 Nov 2026", or "25 Nov" when `year` is false. GLUE
 * as above. */
void add_day_of(day_t day, bool year, struct text *out);

/* Adds ", word thing" where there is a thing: neither NULL nor "". */
void add_where_any(const char *word, const char *thing, struct text *out);

/* Adds "1 Nov to 31 Mar". */
void add_yearly(struct yearly yearly, struct text *out);

/* Adds a movement's day and the details that its word does not say: "25 Nov 2026, at Holm
 * Quay Safety Service", "5 Dec 2026, condemned, certificate C 9, EUR 10.00". GLUE as
 * above. */
void add_movement_words(
    const struct report_style *style, const struct movement *movement, struct text *out);

/* The same without the day: ", at Holm Quay Safety Service". */
void add_movement_particulars(
    const struct report_style *style, const struct movement *movement, struct text *out);

/* Adds a source and, in brackets, its standing, which is left out where it is common
 * practice and the source begins by saying so. */
void add_source(const char *source, enum standing standing, struct text *out);

/* Adds the stamp in words, with GLUE as above. */
void add_stamp(struct stamp stamp, struct text *out);

/* Adds a paper: "3: label.jpg, JPEG picture, 1.2 MiB, put here on 25 Nov 2026, of the
 * service on 20 May 2025 (certificate C 12), back of the valise". */
void add_paper_words(const struct paper *paper, struct text *out);

/* Adds REPORT_CAUTION after an empty line. */
void add_caution(struct text *out);

/* Adds a maker's interval: "service every 36 months, first 48 months from packing, says
 * owner's manual". */
void add_interval_words(const struct interval *interval, struct text *out);

#endif
