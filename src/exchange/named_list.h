/* A list whose columns have fixed names, in any order: a row of these, and a row a thing. Inside the
 * exchange room only. */
#ifndef BECKET_EXCHANGE_NAMED_LIST_H
#define BECKET_EXCHANGE_NAMED_LIST_H

#include "exchange/csv_names.h"
#include "exchange/list_source.h"

struct named_list {
	const struct list_source *source; /* borrowed, as the next */
	struct csv_names names;
	const char
	    *nothing; /* "no booking is in it": what is said of a list without rows */
	/* takes a row that is no wider than the header, complaining of what is wrong with it */
	void (*take)(void *reader, const struct csv_cells *cells);
	void *reader;
	struct complaints complaints;
	const size_t *columns; /* of each cell, an index in the names; in the arena */
	size_t column_count;
	bool has_header;
	bool usable; /* nothing is wrong with the header; else no row is taken */
	size_t rows;
};

/* Reads it, from a zeroed one with the first five filled in. All that is wrong is told in the one
 * fault; remarks are added to the source's notes. */
MUST_CHECK bool named_list_read(struct named_list *list, struct fault *fault);

/* Reads a cell that must be a day, neither coarser nor worded. */
MUST_CHECK bool named_list_day(
    const struct named_list *list, const char *word, day_t *out, struct fault *fault);

#endif
