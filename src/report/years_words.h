/* Inside the report room: the words that the years ahead have in text and on a page. */
#ifndef BECKET_REPORT_YEARS_WORDS_H
#define BECKET_REPORT_YEARS_WORDS_H

#include "gear/money.h"
#include "report/reply.h"

/* Kinds named as what drives the money. */
enum { DRIVERS_MOST = 6 };

/* What all parts need; all borrowed. */
struct years_page {
	const struct report_style *style;
	const struct kinds *kinds;
	const struct outlook_view *view;
};

/* Things of one kind that stand in one row: in one winter, the same task by the same at one place. */
struct years_row {
	enum task task;
	const char *
	    gear; /* "2 x liferaft in a canister: LR-1, LR-2", pieces counted as in the book;
			    * borrowed for the call */
	const char *where; /* a station's name; "an approved station"; "" for own work */
	int64_t minor;     /* what is known of the price, carriage counted in */
	bool unpriced;     /* some of it has no price */
	bool supposed;     /* some of it is counted at a price of others */
};

/* Adds the years ahead as rows for a spreadsheet: one a thing done, one a trip. */
void add_years_rows(const struct outlook_view *view, struct reply *reply);

/* An amount without its currency, "1234.50". Borrowed from the buffer. */
const char *years_figure(
    const struct years_page *page, int64_t minor, char buffer[MONEY_WORDS_SIZE]);

/* Adds what the plans cost, whether that is proven, and what doing things when due would. */
void add_years_verdict(
    const struct years_page *page, const struct outlook_total *total, struct text *out);

/* Adds what lapses all the same; nothing where nothing does. */
void add_years_gaps(
    const struct years_page *page, const struct outlook *plan, struct text *out);

/* Adds what stations ask for work whose price changes with age, and of what the age is not
 * known; nothing where no price does. */
void add_years_ages(
    const struct years_page *page, const struct outlook *plan, struct text *out);

/* Adds the prices that are not known and could change the plan, with what counts for them; nothing
 * where all are known. */
void add_years_unknowns(
    const struct years_page *page, const struct outlook *plan, struct text *out);

/* Adds what of the first winter hangs on how many winters are looked at; nothing where nothing
 * does. */
void add_years_tips(
    const struct years_page *page, const struct named_outlook *named, struct text *out);

/* Adds what the shore list of the first winter has otherwise; nothing where it agrees. */
void add_years_clashes(
    const struct years_page *page, const struct named_outlook *named, struct text *out);

/* The same for under a shore list: what the plan of the coming winters has otherwise. */
void add_list_clashes(const struct inventory *inventory,
    const struct winter_clashes *clashes, struct text *out);

/* Adds what the plans take for granted. */
void add_years_notes(const struct outlook_total *total, bool all_year, struct text *out);

/* Adds what a row costs: "450.00", "450.00 ?" where some of it is counted at a price of others,
 * "no price", or nothing. */
void add_years_price(
    const struct years_page *page, const struct years_row *row, struct text *out);

/* Calls `each` for every row of a winter: what goes to stations first, then what is bought, then
 * own work; rows of one task at one place stand together. */
void years_rows(const struct years_page *page, const struct outlook *plan, size_t winter,
    void (*each)(void *context, const struct years_row *row), void *context);

#endif
