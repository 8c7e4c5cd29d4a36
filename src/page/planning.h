/* Inside the page room: plans. A fleet seen base by base, the pages "This winter" and
 * "Coming years", and one day of the fleet. */
#ifndef BECKET_PAGE_PLANNING_H
#define BECKET_PAGE_PLANNING_H

#include "desk/plans.h"
#include "desk/questions.h"
#include "muster/booked.h"
#include "page/draw.h"
#include "page/page.h"
#include "page/shell.h"

/* ---- a fleet seen base by base ---- */

struct base_choice {
	struct word_list berths; /* all bases at which boats lie; in the desk's arena */
	const char *base;        /* the base that is shown; NULL for all */
	bool large;              /* more boats than are shown at once */
	/* of a large fleet all boats that have no base at some time, and those of them
	 * that are looked at together: no spares are shared, so that any of them may be;
	 * NULL for none */
	struct word_list baseless;
	const struct word_list *boats;
	const char
	    *sent; /* what stands for this choice in an address; "" where nothing does */
};

/* Reads which boats the request means: those of a base, "all", or in a large fleet a
 * number of boats without a base ("none-201": from the 201st on). When it names none, or
 * asks for all in a large fleet: the first base, or the first boats without one; in any
 * other fleet, all boats. Opens the book and loads nothing of it. */
MUST_CHECK bool base_choice_read(
    struct visit *visit, struct base_choice *out, struct fault *fault);

/* True when a boat that lies at `base` is shown. */
bool base_choice_has(
    const struct base_choice *choice, const char *vessel, const char *base);

/* The choice as a question's wish; all boats when none is chosen. */
struct plans_wish base_choice_wish(const struct base_choice *choice);

/* The field for the choice, when there are several. */
void base_choice_write(struct visit *visit, const struct base_choice *choice);

/* An entry with a form of that field; its button with these words asks for the page at
 * `path`. Nothing when there is no choice. */
void base_choice_form(struct visit *visit, const struct base_choice *choice,
    const char *path, const char *words);

/* Adds the choice to an address; nothing for all. */
void base_choice_add(const struct base_choice *choice, struct text *out);

/* Sends the choice with a form that has no field for it. */
void base_choice_hide(struct visit *visit, const struct base_choice *choice);

/* Reads the choice for a page about one thing: without a choice the thing is looked for
 * among all boats. */
MUST_CHECK bool base_choice_told(
    struct visit *visit, struct base_choice *out, struct fault *fault);

/* ---- the page "This winter" ---- */

/* What a person tries with one bag, shown below it. */
struct bag_trial {
	const char *station; /* NULL: nothing is tried */
	day_t hand_in;       /* on which the bag is planned */
	const char *typed;   /* the day, as it was typed */
	const char *wrong;   /* what is wrong with it; NULL when it can be done */
	const char
	    *changes; /* what it changes, a line each; NULL where it can't be done */
};

/* The page of one vessel. */
struct winter_page {
	struct visit *visit;
	struct winter_answer answer;
	const struct shore_list *list; /* the vessel's */
	const struct vessel *vessel;
	const char *const *packed; /* tags of what is ticked */
	size_t packed_count;
	const char *const *in_book; /* of what is, in the book */
	size_t in_book_count;
	bool several; /* the book has other boats, too: addresses name this one */
	bool empty;   /* the book has no gear yet */
	struct bag_trial trial;
	const char *wrong; /* what was not done, and why; NULL for nothing */
	bool along;        /* the list to take along, to tick off in the shop */
};

/* The item of a line. */
const struct item *line_item(
    const struct winter_page *page, const struct shore_line *line);

/* Adds "2 x red hand flare" to the open element, with its description in a weaker
 * style. */
void write_what(const struct winter_page *page, size_t item);

/* What to do with the item of a line, and what it is. */
void write_task_name(const struct winter_page *page, const struct shore_line *line);

/* A line's state with its mark, or its due day. */
void write_line_state(const struct winter_page *page, const struct shore_line *line);

/* The margin of a row: a tick box, sent as "NAME.TAG" and labelled "TAG WORD: what it is"
 * for screen readers, or the tag alone. */
void winter_tick(const struct winter_page *page, const struct shore_line *line,
    const char *name, const char *value, const char *word);
void winter_key(const struct winter_page *page, const struct shore_line *line);

/* The cell of a line's state. */
void winter_state(const struct winter_page *page, const struct shore_line *line);

/* Begins a section whose margin shows the earliest day by which a line of either list
 * must be done. */
void winter_section_by(const struct winter_page *page, const struct shore_lines *a,
    const struct shore_lines *b, const char *heading);

/* Begins a form of this page, and writes its main button below its rows. */
void winter_form(const struct winter_page *page, const char *id);
void winter_foot(const struct winter_page *page, const char *act, const char *words);

/* The last day on which all of a trip can be handed in; DAY_NONE for none. */
day_t trip_last_day(const struct trip *trip);

/* The name of a trip's or docket's station, or words for no station. */
const char *station_words(const char *name);

/* The day on which gear is handed in or can be fetched: "Wed 9 Dec", "about Wed 9 Dec" where a
 * turn-round was assumed, "ask" where it is not known. */
void winter_day(struct visit *visit, day_t day, bool assumed);

/* Adds "?vessel=NAME" where the book has several boats. */
void add_whose(const struct winter_page *page, struct text *out);

/* Who owns a trip: the boat, or her base when its boats share their trips. */
const char *trip_owner(const struct winter_page *page, const struct trip *trip);

/* The docket of a trip: same station, same day; NULL when it is not given out yet. */
const struct docket *docket_of(const struct winter_page *page, const struct trip *trip);

/* "8 pieces", "1 piece". */
void add_count(size_t count, const char *one, const char *many, struct text *out);

/* The parts of the page, each with its heading; nothing when there is nothing to say. */
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

/* Loads the page's answer for the vessel that the request names, or the only one.
 * `*found_out` is false when a vessel must still be chosen, or there is none. */
MUST_CHECK bool winter_load(
    struct visit *visit, struct winter_page *out, bool *found_out, struct fault *fault);

/* Shows a fault of the request as words on the page, which is written; false for any
 * other fault, which stays. */
MUST_CHECK bool winter_is_told(struct winter_page *page, struct fault *fault);

/* Sends the reader back to the page, to the bag whose form was sent. Returns true. */
bool winter_go_back(const struct winter_page *page);

/* Records the ticked tasks as done, and takes what was bought off the list to buy: all or
 * nothing. */
MUST_CHECK bool winter_record_done(struct winter_page *page, struct fault *fault);
MUST_CHECK bool winter_take_off_list(struct winter_page *page, struct fault *fault);

/* Puts the bag of a trip on another day, on this desk. */
MUST_CHECK bool winter_plan_day(struct desk *desk, const struct trip *trip,
    const char *owner, day_t day, struct fault *fault);

/* Adds what putting the bag on that day would change, found by trying it on a copy of the
 * book. */
MUST_CHECK bool winter_try_day(struct winter_page *page, const struct trip *trip,
    day_t day, struct text *out, struct fault *fault);

/* Writes the whole page, or only the list of what is to be bought, to print or to take
 * along. */
void winter_write(struct winter_page *page);
void winter_take_along(struct winter_page *page);

/* The winter of all boats, or of those of a base: what is handed in where and when, and
 * then boat by boat. */
MUST_CHECK bool winter_of_fleet(
    struct visit *visit, const struct base_choice *choice, struct fault *fault);

/* The form sent from there: prints the tags and dockets of one hand-in, by which they are
 * given out like any others. */
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

/* Adds a sum in the book's currency, without the currency's name: years_money in full,
 * years_whole_money in whole units, rounded to the nearest. */
void years_money(const struct years_leaf *leaf, int64_t minor, struct text *out);
void years_whole_money(const struct years_leaf *leaf, int64_t minor, struct text *out);

/* True when the plan comes to nothing because no price is known: there is no money to tell of. */
bool years_priceless(const struct years_leaf *leaf);

/* A row of a table of money: its heading, then a cell for each sum; with `signed_last` the
 * last one with its sign. */
void years_sums(const struct years_leaf *leaf, const char *head, const int64_t *sums,
    size_t count, bool signed_last);

/* The row of the sums over all winters, and the end of the table. */
void years_end_sums(
    const struct years_leaf *leaf, const int64_t *sums, size_t count, bool signed_last);

/* Parts of the page: money by winter as bars and as a table, what each winter asks, and
 * what can be tried, with its result. */
void years_bars(const struct years_leaf *leaf);
void years_table(const struct years_leaf *leaf);
void years_winters(const struct years_leaf *leaf);
void years_what_if(const struct years_leaf *leaf);

/* Copies what is to be tried into the question. */
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
	size_t going; /* how many go out: those come first */
};

/* Loads what the day needs and works it out. */
MUST_CHECK bool saturday_reckon(struct saturday *day, struct fault *fault);

/* Adds what she is short of: "red hand flares (2), EPIRB (1)"; or what must be entered
 * when that can't be decided. */
void add_shortages(const struct muster *muster, struct text *out);

/* The parts of the page. */
void write_going(const struct saturday *day);
void write_cures(const struct saturday *day);
MUST_CHECK bool write_needs(const struct saturday *day, struct fault *fault);
void write_back_and_next(const struct saturday *day);
MUST_CHECK bool write_hand_ins(const struct saturday *day, struct fault *fault);

#endif
