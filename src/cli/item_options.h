/* The columns of the inventory as options, for `enter`, `amend` and `stand-in`. */
#ifndef BECKET_CLI_ITEM_OPTIONS_H
#define BECKET_CLI_ITEM_OPTIONS_H

#include "cli/field_option.h"

/* What they say of a piece of gear, and of what was done to it last. */
struct item_said {
	struct item_change change;
	struct record record;
	unsigned recorded; /* bits 1 << enum record_field of what was given of it */
};

/* These options as entries of an option table: from the rows of gear/fields.h, into the struct
 * item_said with which the struct of the command begins. */
#define ITEM_GOES(id)                                                                    \
	FIELD_GOES(                                                                      \
	    ITEM_FIELDS[FIELD_##id], struct item_said, change, change.set, FIELD_##id)
#define RECORD_GOES(id)                                                                  \
	FIELD_GOES(                                                                      \
	    RECORD_FIELDS[RECORD_##id], struct item_said, record, recorded, RECORD_##id)
#define ITEM_OPTION(id, member, type, place, name, option, ...)                          \
	FIELD_ENTRY(ITEM_GOES(id), option)
#define RECORD_OPTION(id, member, type, place, name, option, ...)                        \
	FIELD_ENTRY(RECORD_GOES(id), option)
#define ITEM_OPTIONS INVENTORY_FIELDS(ITEM_OPTION, ITEM_OPTION, RECORD_OPTION)

/* Reads all options of the command into its struct, and gives the record: NULL where --served is not
 * there. */
MUST_CHECK bool item_options_into(struct context *context, struct item_said *said,
    const struct record **record_out, struct fault *fault);

/* FAULT_INPUT when a certificate's next date lies before the day of its own record. */
MUST_CHECK bool record_check(const struct record *record, struct fault *fault);

/* Adds what was understood of dates, number and prices to what is said of a change, as ", made Apr
 * 2021, a new one costs EUR 45.00"; the record is NULL when none was written. */
void item_say_understood(struct context *context, const struct item_change *change,
    const struct record *record);

#endif
