/* Rows while they are being read. Inside the exchange room only. */
#ifndef BECKET_EXCHANGE_CSV_READ_H
#define BECKET_EXCHANGE_CSV_READ_H

#include "exchange/csv_columns.h"

struct csv_draft {
	struct csv_row row;
	unsigned given; /* bit 1 << enum item_field for each cell that was not blank */
};

/* Settles rows that share a tag: the first is about the item, the others bring further
 * records. One that contradicts the first, or brings nothing new, is complained of. */
MUST_CHECK bool csv_settle_further(struct csv_draft *drafts, size_t count,
    struct complaints *complaints, struct fault *fault);

#endif
