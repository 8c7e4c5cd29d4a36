/* The columns of the inventory as options, for `enter` and `amend`. */
#ifndef BECKET_CLI_ITEM_OPTIONS_H
#define BECKET_CLI_ITEM_OPTIONS_H

#include "cli/field_option.h"

/* The options both commands have, as entries of an option table: from the rows of gear/fields.h. */
#define ITEM_OPTION(id, member, type, place, name, option, ...) option
#define ITEM_OPTIONS INVENTORY_FIELDS(ITEM_OPTION, ITEM_OPTION, ITEM_OPTION)

/* Reads these options into a change and, where --served is there, a record. */
MUST_CHECK bool item_options_read(struct context *context, struct item_change *change,
    struct record *record, bool *has_record_out, struct fault *fault);

/* FAULT_INPUT when a certificate's next date lies before the day of its own record. */
MUST_CHECK bool record_check(const struct record *record, struct fault *fault);

/* Adds what was understood of dates, number and prices to what is said of a change, as ", made Apr
 * 2021, a new one costs EUR 45.00"; the record is NULL when none was written. */
void item_say_understood(struct context *context, const struct item_change *change,
    const struct record *record);

#endif
