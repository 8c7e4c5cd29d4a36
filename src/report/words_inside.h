/* Inside the report room: words, and a drawing, that texts and pages share. Not for other
 * rooms. */
#ifndef BECKET_REPORT_WORDS_INSIDE_H
#define BECKET_REPORT_WORDS_INSIDE_H

#include "base/text.h"
#include "gear/money.h"
#include "report/markup.h"
#include "report/reply.h"
#include "report/shore_papers.h"

/* The words that the texts and the pages of the shore papers share. All add to `out`;
 * dates are written with GLUE. */

/* The station's name, or words for no station. Borrowed. */
const char *docket_station(const struct docket *docket);

/* "hand in Wed 25 Nov 2026; collect Thu 11 Feb 2027", "ashore since ..."; "collect about
 * 6 Jan 2027 (ask)" where the turn-round is assumed; "ask when to collect" where nothing
 * is known. */
void add_docket_days(const struct docket *docket, struct text *out);

/* "10 pieces of 1 vessel, 2 inside others: hand in ...", as above. */
void add_docket_line(const struct docket *docket, struct text *out);

/* "liferaft in a canister, offshore pack, make Quorl": what it is. */
void add_piece_words(const struct shore_papers *papers, const struct docket_piece *piece,
    struct text *out);

/* Adds the day of its last service, or "none on record". */
void add_last_service(const struct item *item, struct text *out);

/* "Mar 2020"; "not known". */
void add_made(const struct item *item, struct text *out);

/* "service, test": the piece's own tasks. */
void add_wanted(const struct docket_piece *piece, struct text *out);

/* The same, and the tags of the parts: "service; renew with it LR-1-BW, LR-1-FL". */
void add_work(const struct shore_papers *papers, const struct docket_piece *piece,
    struct text *out);

/* "LR-1-BW liferaft contents (31 Aug 2027)": a part that is renewed, and the day it is
 * due. */
void add_part(
    const struct shore_papers *papers, const struct shore_line *line, struct text *out);

/* True when a task done on the hand-in day is due again before the next winter. */
bool lapses_in_season(const struct shore_line *line);

/* The hazards of the docket's contents, 1 << enum hazard each. */
unsigned docket_hazards(const struct shore_papers *papers, const struct docket *docket);

/* The cautions for them, each once. `cautions` has an entry for each hazard: "" or words
 * borrowed from the catalogue. */
void docket_cautions(const struct kinds *kinds, const struct docket *docket,
    const char *cautions[HAZARD_COUNT]);

/* True when the piece at `index` is the first of its vessel in the docket. */
bool starts_vessel(
    const struct shore_papers *papers, const struct docket *docket, size_t index);

/* The vessel of a piece; its item. */
const struct vessel *piece_vessel(
    const struct shore_papers *papers, const struct docket_piece *piece);
const struct item *piece_item(
    const struct shore_papers *papers, const struct docket_piece *piece);

/* The labels of the lines to sign on a docket. */
extern const char *const SIGN_LINES[];

enum { SIGN_LINE_COUNT = 4 };

/* ---- the shore papers as text and as pages ---- */

/* Rows tell of one vessel's pieces in a docket, whatever else is in it; around them stands
 * what is known once all of it is there. */

/* One vessel's pieces of a docket: from one to before another. */
struct span_of_pieces {
	size_t first;
	size_t end;
};

/* Rows of tags are tags one after the other, each cut where the station's days go, and at
 * its end. */
enum { TAG_CUT = '\0' };

struct tag_halves {
	const char *above;
	const char *below;
};

/* Add rows. `markup` is a page that is written for these alone. */
void docket_text_rows(const struct shore_papers *papers, enum shore_paper paper,
    const struct docket *docket, struct span_of_pieces hers, struct text *out);
void docket_page_rows(const struct shore_papers *papers, enum shore_paper paper,
    const struct docket *docket, struct span_of_pieces hers, struct markup *markup,
    struct text *out);

/* A paper of text: what stands before and after the rows of a docket, a tag with the days of its
 * docket, and what stands at the end. */
void docket_text_begin(
    enum shore_paper paper, const struct docket *docket, bool first, struct text *out);
void docket_text_end(const struct kinds *kinds, enum shore_paper paper,
    const struct docket *docket, struct text *out);
void docket_text_tag(
    const struct docket *docket, const struct tag_halves *tag, struct text *out);
void docket_text_close(enum shore_paper paper, struct text *out);

/* The same of a page; of tags there are sheets, and only the days are written. */
void docket_page_open(enum shore_paper paper, struct markup **markup_out);
void docket_page_begin(const struct kinds *kinds, enum shore_paper paper,
    const struct docket *docket, struct markup *markup);
void docket_page_end(
    enum shore_paper paper, const struct docket *docket, struct markup *markup);
void docket_page_sheet(struct markup *markup);
void docket_page_sheet_end(struct markup *markup);
void docket_page_tag(const struct docket *docket, struct markup *markup);

/* Lines of the journal as people read them. The book keeps money in minor units and says
 * so in its words, "price (minor units)" with "4550" or "task service, price (minor
 * units) 4550"; here it is EUR 45.50. */

/* Adds the name of a field. */
void journal_field_words(const char *field, struct text *out);

/* Adds a value of that field, or the whole line if it has no field; `currency` is the
 * book's. */
void journal_value_words(
    const char *field, const char *value, const char *currency, struct text *out);

/* The words for the coming years, in text and on a page. */

/* How many kinds are named as those that cost the most. */
enum { DRIVERS_MOST = 6 };

/* What all parts need; all borrowed. */
struct years_page {
	const struct report_style *style;
	const struct kinds *kinds;
	const struct outlook_view *view;
};

/* Things of one kind that share a row: same winter, task, doer and place. */
struct years_row {
	enum task task;
	const char *
	    gear; /* "2 x liferaft in a canister: LR-1, LR-2", pieces counted as in the book;
			    * borrowed for the call */
	const char *where; /* a station; "an approved station"; "" for own work */
	int64_t minor;     /* the part of the price that is known, carriage included */
	bool unpriced;     /* some of it has no price */
	bool supposed;     /* some of it is counted at the price of another thing */
};

/* A table of the coming years for a spreadsheet. */
struct reply_table *years_rows_table(struct reply *reply);

/* Adds the rows of a plan of the view: one for each thing done and each trip. */
void add_years_rows(const struct outlook_view *view, const struct named_outlook *named,
    struct reply_table *table);

/* An amount without its currency, "1234.50". Borrowed from the buffer. */
const char *years_figure(
    const struct years_page *page, int64_t minor, char buffer[MONEY_WORDS_SIZE]);

/* Adds what the plans cost, whether that is proven to be the least, and what it would
 * cost to do each thing only when it is due. */
void add_years_verdict(
    const struct years_page *page, const struct outlook_total *total, struct text *out);

/* Adds what lapses in spite of the plans; nothing when nothing does. */
void add_years_gaps(
    const struct years_page *page, const struct outlook *plan, struct text *out);

/* Adds the stations' prices that change with age, and the things whose age is not known;
 * nothing when no price does. */
void add_years_ages(
    const struct years_page *page, const struct outlook *plan, struct text *out);

/* Adds the prices that are not known and could change the plan, with the price that is
 * used instead; nothing when all are known. */
void add_years_unknowns(
    const struct years_page *page, const struct outlook *plan, struct text *out);

/* Adds what in the first winter depends on how many winters the plan covers; nothing when
 * nothing does. */
void add_years_tips(
    const struct years_page *page, const struct named_outlook *named, struct text *out);

/* Adds where the shore list of the first winter differs from the plan; nothing when it
 * agrees. */
void add_years_clashes(
    const struct years_page *page, const struct named_outlook *named, struct text *out);

/* The same for below a shore list: where the plan of the coming winters differs from
 * it. */
void add_list_clashes(const struct inventory *inventory,
    const struct winter_clashes *clashes, struct text *out);

/* Adds what the plans assume. */
void add_years_notes(const struct outlook_total *total, bool all_year, struct text *out);

/* Adds what a row costs: "450.00", "450.00 ?" when some of it is counted at the price of
 * another thing, "no price", or nothing. */
void add_years_price(
    const struct years_page *page, const struct years_row *row, struct text *out);

/* Calls `each` for every row of a winter: first what goes to stations, then what is
 * bought, then the owner's own work; rows of one task at one place are next to each
 * other. */
void years_rows(const struct years_page *page, const struct outlook *plan, size_t winter,
    void (*each)(void *context, const struct years_row *row), void *context);

/* ---- the coming years composed, for text and for a page ---- */

struct years_composing {
	struct years_page page;
	struct reply *reply;
	bool drawn; /* for a page: what lapses all the same comes first, then a drawing */
};

/* Adds a plan, and what is told below all of them; `number` tells its drawings from others of the
 * page. */
void compose_years(const struct years_composing *composing,
    const struct named_outlook *named, size_t number);
void compose_years_end(
    const struct years_composing *composing, const struct outlook_total *total);

/* ---- the coming years as a drawing ---- */

/* Draws a plan: winters from left to right; the money of each as a column of trips,
 * stations and new gear; the trips; and for every item what a station does to it and when
 * it is renewed. Shapes and fillings show the difference, never colour alone. `number`
 * gives the drawings of one page different ids. */
void draw_years(struct markup *markup, const struct years_page *page,
    const struct outlook *plan, size_t number);

#endif
