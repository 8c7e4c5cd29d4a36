/* A list to be read: its file, and what is known of the book it is compared with. */
#ifndef BECKET_EXCHANGE_LIST_SOURCE_H
#define BECKET_EXCHANGE_LIST_SOURCE_H

#include "exchange/inventory_csv.h"

/* All borrowed. */
struct list_source {
	const struct csv_source *file; /* CSV in any character set, .xlsx or .ods */
	struct list_how how;
	enum date_order order;
	const struct inventory *inventory;
	struct arena *arena; /* where what is read lives */
	struct text *notes;  /* remarks on the file are added here */
};

#endif
