/* The columns of the inventory as options, for `enter` and `amend`. */
#ifndef BECKET_CLI_ITEM_OPTIONS_H
#define BECKET_CLI_ITEM_OPTIONS_H

#include "cli/context.h"

/* The options both commands have, as entries of an option table. */
#define ITEM_OPTIONS                                                                     \
	{.name = "description", .argument = "WORDS", .help = "make, size, what it is"},  \
	    {.name = "make", .argument = "MAKER", .help = "who makes it"},               \
	    {.name = "serial", .argument = "NO", .help = "serial number"},               \
	    {.name = "capacity", .argument = "PERSONS", .help = "how many it is for"},   \
	    {.name = "rating", .argument = "WORDS", .help = "as labelled: 5-B"},         \
	    {.name = "quantity",                                                         \
		.argument = "N",                                                         \
		.help = "identical ones under one tag"},                                 \
	    {.name = "place", .argument = "WORDS", .help = "where aboard it is kept"},   \
	    {.name = "made", .argument = "DATE", .help = "made"},                        \
	    {.name = "packed", .argument = "DATE", .help = "packed or filled"},          \
	    {.name = "bought", .argument = "DATE", .help = "bought"},                    \
	    {.name = "fitted",                                                           \
		.argument = "DATE",                                                      \
		.help = "fitted or put into service"},                                   \
	    {.name = "expires",                                                          \
		.argument = "DATE",                                                      \
		.help = "expiry as marked, with its wording: \"before 2027-06\""},       \
	    {.name = "served", .argument = "DATE", .help = "day of the last task"},      \
	    {.name = "task",                                                             \
		.argument = "service|inspect|weigh|test|renew|register",                 \
		.help = "which task that was; service when not told"},                   \
	    {.name = "next",                                                             \
		.argument = "DATE",                                                      \
		.help = "next date its certificate states"},                             \
	    {.name = "station", .argument = "STATION", .help = "who did it"},            \
	    {.name = "certificate", .argument = "NO", .help = "its certificate"},        \
	    {.name = "paid", .argument = "PRICE", .help = "what that task cost"},        \
	    {.name = "state",                                                            \
		.argument = "aboard|reserve|landed|stand-in|withdrawn",                  \
		.help = "where it stands"},                                              \
	    {.name = "hired-until",                                                      \
		.argument = "DATE",                                                      \
		.help = "last day of a hired one"},                                      \
	    {.name = "part-of",                                                          \
		.argument = "TAG",                                                       \
		.help = "the item it is inside or fixed to"},                            \
	    {.name = "price", .argument = "PRICE", .help = "of a new one, as 249.00"},   \
	{                                                                                \
		.name = "notes", .argument = "WORDS", .help = "anything else"            \
	}

/* Reads these options into a change and, where --served is there, a record. */
MUST_CHECK bool item_options_read(struct context *context, struct item_change *change,
    struct record *record, bool *has_record_out, struct fault *fault);

/* FAULT_INPUT when a certificate's next date lies before the day of its own record. */
MUST_CHECK bool record_check(const struct record *record, struct fault *fault);

/* Remarks on dates after today; the record is NULL when none was written. */
void item_remarks(struct context *context, const struct item_change *change,
    const struct record *record);

/* The kind a person means; a note when it was not its id. FAULT_INPUT with the nearest. */
MUST_CHECK bool kind_from_words(struct context *context, const char *words,
    const struct kind **out, struct fault *fault);

#endif
