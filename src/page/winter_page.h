/* What the files of the page "This winter" share. Only for them. */
#ifndef BECKET_PAGE_WINTER_PAGE_H
#define BECKET_PAGE_WINTER_PAGE_H

#include "desk/questions.h"
#include "page/bases.h"
#include "page/shell.h"

/* What a person tries with one bag, shown below it. */
struct bag_trial {
	const char *station; /* NULL: nothing is tried */
	day_t hand_in;       /* of the bag, as it is planned */
	const char *typed;   /* the day, as it was typed */
	const char *wrong;   /* what is wrong with it; NULL where it can be done */
	const char
	    *changes; /* what it changes, a line each; NULL where it can't be done */
};

/* The page of one vessel. */
struct winter_page {
	struct visit *visit;
	struct winter_answer answer;
	const struct shore_list *list; /* hers */
	const struct vessel *vessel;
	const char *const *packed; /* tags of what is ticked */
	size_t packed_count;
	const char *const *in_book; /* of what is, in the book */
	size_t in_book_count;
	bool several; /* the book has more boats than her: addresses name her */
	bool empty;   /* the book has no gear yet */
	struct bag_trial trial;
	const char *wrong; /* what was not done, and why; NULL for nothing */
	bool along;        /* the list to take along, to tick off in the shop */
};

/* The item of a line. */
const struct item *line_item(
    const struct winter_page *page, const struct shore_line *line);

/* Adds "2 x red hand flare" with its description in second words: in the open element. */
void write_what(const struct winter_page *page, size_t item);

/* A line's state with its mark, or its due day. */
void write_line_state(const struct winter_page *page, const struct shore_line *line);

/* The margin of a row: a tick sent as "NAME.TAG", called "TAG WORD: what it is" for those who hear
 * it, or the tag alone. */
void winter_tick(const struct winter_page *page, const struct shore_line *line,
    const char *name, const char *value, const char *word);
void winter_key(const struct winter_page *page, const struct shore_line *line);

/* The cell of a line's state. */
void winter_state(const struct winter_page *page, const struct shore_line *line);

/* Begins a section whose margin says by which day the first of both lists' lines is to be done. */
void winter_section_by(const struct winter_page *page, const struct shore_lines *a,
    const struct shore_lines *b, const char *heading);

/* Begins a form of this page, and writes its chief button below its rows. */
void winter_form(const struct winter_page *page, const char *id);
void winter_foot(const struct winter_page *page, const char *act, const char *words);

/* The last day on which all of a trip can be handed in; DAY_NONE for none. */
day_t trip_last_day(const struct trip *trip);

/* The name of a trip's or docket's station, or what is said where there is none. */
const char *station_words(const char *name);

/* Adds "?vessel=NAME" where the book has several boats. */
void add_whose(const struct winter_page *page, struct text *out);

/* Who owns a trip: she, or her base where its boats share theirs. */
const char *trip_owner(const struct winter_page *page, const struct trip *trip);

/* The docket of a trip: the same station on the same day; NULL where it is not given out yet. */
const struct docket *docket_of(const struct winter_page *page, const struct trip *trip);

/* "8 pieces", "1 piece". */
void add_count(size_t count, const char *one, const char *many, struct text *out);

/* True when the piece is ticked as packed. */
bool is_packed(const struct winter_page *page, const char *tag);

/* The parts of the page, each with its heading, or nothing where there is nothing to say. */
void winter_bags(struct winter_page *page);
void winter_ashore(struct winter_page *page);
void winter_now(struct winter_page *page);
void winter_cannot(struct winter_page *page);
void winter_own_work(struct winter_page *page);
void winter_buy(struct winter_page *page);
void winter_wanted(struct winter_page *page);
void winter_dispose(struct winter_page *page);
void winter_waits(struct winter_page *page);
void winter_cost(struct winter_page *page);

/* Loads the page's answer for the vessel that the request names, or the only one. `*found_out` is
 * false where she is still to be chosen, or there is none. */
MUST_CHECK bool winter_load(
    struct visit *visit, struct winter_page *out, bool *found_out, struct fault *fault);

/* Writes the whole page, or the list of what is to be bought alone, to print or to take along. */
void winter_write(struct winter_page *page);
void winter_take_along(struct winter_page *page);

/* The winter of all boats, or of those of a base: what is handed in where and when, and boat by boat. */
MUST_CHECK bool winter_of_fleet(
    struct visit *visit, const struct base_choice *choice, struct fault *fault);

/* The form sent from there: the tags and dockets of one hand-in, which are given out with the others. */
MUST_CHECK bool winter_fleet_papers(struct visit *visit, struct fault *fault);

#endif
