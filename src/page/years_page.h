/* What the files of the page "Coming years" share. Only for them. */
#ifndef BECKET_PAGE_YEARS_PAGE_H
#define BECKET_PAGE_YEARS_PAGE_H

#include "desk/questions.h"
#include "page/shell.h"

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

#endif
