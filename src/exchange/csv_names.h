/* The header of a list whose columns have fixed names. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_NAMES_H
#define BECKET_EXCHANGE_CSV_NAMES_H

#include "exchange/csv_complaints.h"
#include "exchange/csv_scan.h"

/* The columns a list may have, those that must be there first; at most CSV_NAMES_MOST. */
struct csv_names {
	const char *const *items;
	size_t count;
	size_t needed;
	/* other names of each, as csv_fold_header leaves them, with blanks between; NULL for none */
	const char *const *synonyms;
};

enum { CSV_NAMES_MOST = 16 };

/* The column of each cell of a header, an index in `names`, in the complaints' arena. A cell that
 * names none, a column that is there twice or is missing are complained of; what is returned is
 * then of no use. Letter case, blanks around and, of synonyms, accents
 * do not matter. */
const size_t *csv_names_read(const struct csv_cells *header,
    const struct csv_names *names, struct complaints *complaints);

#endif
