/* Inside the page room: plans. A fleet base by base, the pages "This winter" and "Coming years", and one
 * day of the fleet. */
#ifndef BECKET_PAGE_PLANNING_H
#define BECKET_PAGE_PLANNING_H

#include "desk/plans.h"
#include "desk/questions.h"
#include "muster/booked.h"
#include "page/draw.h"
#include "page/page.h"
#include "page/shell.h"

/* ---- a fleet looked at base by base ---- */

struct base_choice {
	struct word_list berths; /* all bases at which boats lie; in the desk's arena */
	const char *base;        /* the one that is looked at; NULL for all */
	bool large;              /* more boats than are looked at at once */
	/* of a large fleet all boats that have no base at some time, and those of them that are
	 * looked at together: no spares are shared, so that any of them may be; NULL for none */
	struct word_list baseless;
	const struct word_list *boats;
	const char
	    *sent; /* what stands for this choice in an address; "" where nothing does */
};

/* Reads which boats the request means: those of a base, "all", or of a large fleet so many without a
 * base ("none-201": from the 201st on). Where it names none, and in a large fleet where it asks for
 * all, the first base, or the first boats without one; all of any other fleet. Opens the book and
 * loads nothing of it. */
MUST_CHECK bool base_choice_read(
    struct visit *visit, struct base_choice *out, struct fault *fault);

/* True where there is something to choose. */
bool base_choice_any(const struct base_choice *choice);

/* True when a boat that lies at `base` is looked at. */
bool base_choice_has(
    const struct base_choice *choice, const char *vessel, const char *base);

/* The same as a question's wish; of all boats where none is chosen. */
struct plans_wish base_choice_wish(const struct base_choice *choice);

/* The field in which it is chosen, where there are several. */
void base_choice_write(struct visit *visit, const struct base_choice *choice);

/* An entry with a form of that field, which asks for the page at `path` by a button of these words;
 * nothing where there is nothing to choose. */
void base_choice_form(struct visit *visit, const struct base_choice *choice,
    const char *path, const char *words);

/* Adds the choice to an address; nothing for all. */
void base_choice_add(const struct base_choice *choice, struct text *out);

/* Sends the choice with a form that does not ask for it. */
void base_choice_hide(struct visit *visit, const struct base_choice *choice);

/* Reads the choice of a page that is about one thing: without one it is looked for among all boats. */
MUST_CHECK bool base_choice_told(
    struct visit *visit, struct base_choice *out, struct fault *fault);

/* ---- the page "This winter" ---- */

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

/* What to do with the item of a line, and what it is. */
void write_task_name(const struct winter_page *page, const struct shore_line *line);

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

/* Makes a fault of the request words on the page, which is written; false for any other fault, which stays. */
MUST_CHECK bool winter_is_told(struct winter_page *page, struct fault *fault);

/* Sends the reader back to the page, to the bag that the form was of. Returns true. */
bool winter_go_back(const struct winter_page *page);

/* Adds a word to a list, in the visit's arena. */
void winter_add_word(struct visit *visit, struct word_list *list, const char *word);

/* Records the ticked tasks as done, and takes what was bought off the list to buy: all or nothing. */
MUST_CHECK bool winter_record_done(struct winter_page *page, struct fault *fault);
MUST_CHECK bool winter_take_off_list(struct winter_page *page, struct fault *fault);

/* Puts the bag of a trip on a day, on this desk. */
MUST_CHECK bool winter_plan_day(struct desk *desk, const struct trip *trip,
    const char *owner, day_t day, struct fault *fault);

/* Adds what putting the bag on that day would change, worked out on a copy of the book. */
MUST_CHECK bool winter_try_day(struct winter_page *page, const struct trip *trip,
    day_t day, struct text *out, struct fault *fault);

/* Writes the whole page, or the list of what is to be bought alone, to print or to take along. */
void winter_write(struct winter_page *page);
void winter_take_along(struct winter_page *page);

/* The winter of all boats, or of those of a base: what is handed in where and when, and boat by boat. */
MUST_CHECK bool winter_of_fleet(
    struct visit *visit, const struct base_choice *choice, struct fault *fault);

/* The form sent from there: the tags and dockets of one hand-in, which are given out with the others. */
MUST_CHECK bool winter_fleet_papers(struct visit *visit, struct fault *fault);

/* ---- the page "Coming years" ---- */

/* The page of one boat. */
struct years_leaf {
	struct visit *visit;
	const char *boat;
	struct years_asked asked;
	struct supposition use;
	struct years_answer answer;
	const struct outlook *plan; /* as the book has it */
	bool other;                 /* something else is tried beside it */
	const char *wrong;          /* the day that can't be read; NULL for none */
	struct word_list boats;     /* all there are */
};

/* Adds a sum in the book's currency, without its name: whole, and to the nearest whole unit. */
void years_money(const struct years_leaf *leaf, int64_t minor, struct text *out);
void years_whole_money(const struct years_leaf *leaf, int64_t minor, struct text *out);

/* All that a winter of a plan costs, in the smallest unit; `winter` counts from 0. */
int64_t years_sum_of(const struct outlook *plan, size_t winter);

/* A row of a table of money: its head, then a cell for each sum, the last with its sign. */
void years_sums(const struct years_leaf *leaf, const char *head, const int64_t *sums,
    size_t count, bool signed_last);

/* The row of all winters, and the end of the table. */
void years_end_sums(
    const struct years_leaf *leaf, const int64_t *sums, size_t count, bool signed_last);

/* Parts of the page: money by winter as bars and as a table, what each winter asks, and what may be
 * tried, with what came of it. */
void years_bars(const struct years_leaf *leaf);
void years_table(const struct years_leaf *leaf);
void years_winters(const struct years_leaf *leaf);
void years_what_if(const struct years_leaf *leaf);

/* Reads what is to be tried into the question. */
void years_read_other(struct years_leaf *leaf);

/* ---- one day of the fleet ---- */

/* One boat on the day. */
struct saturday_boat {
	const struct vessel *vessel;
	const char *base; /* where she lies on the day; "" not known */
	struct booked
	    booked; /* of the booking that begins on the day; else its booking is NULL, and
			       * she is mustered on the day alone, for the persons she is entered
			       * for */
	struct muster on; /* on the day alone, for the persons she is entered for */
	struct spans
	    lapses; /* days of the axis on which she is short, if nothing is done */
	struct spans bookings; /* of hers, on the axis */
};

struct saturday {
	struct visit *visit;
	day_t on;
	struct base_choice choice; /* the boats of which base are looked at */
	struct axis axis;
	struct saturday_boat *boats; /* by base, then name; in the desk's arena */
	size_t count;
	size_t going; /* how many go out: those stand first */
};

/* Loads what the day is about and reckons it. */
MUST_CHECK bool saturday_reckon(struct saturday *day, struct fault *fault);

/* Adds what she is short of: "red hand flares (2), EPIRB (1)"; what must be known where that can't
 * be told. */
void add_shortages(const struct muster *muster, struct text *out);

/* The parts of the page. */
void write_going(const struct saturday *day);
void write_cures(const struct saturday *day);
MUST_CHECK bool write_needs(const struct saturday *day, struct fault *fault);
void write_back_and_next(const struct saturday *day);
MUST_CHECK bool write_hand_ins(const struct saturday *day, struct fault *fault);

#endif
