/* The options that say how a file with a list is read, for every command that reads one. */
#ifndef BECKET_CLI_LIST_OPTIONS_H
#define BECKET_CLI_LIST_OPTIONS_H

#include "cli/options.h"
#include "exchange/inventory_csv.h"

/* As entries of an option table, into the struct list_how and the enum date_order that are these
 * members of a struct; `needs_` is the option that names the file, or NULL where a word does. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define LIST_OPTIONS(structure, how, order, needs_, dates_help)                          \
	{.name = "dates",                                                                \
	    .argument = "day-first|month-first",                                         \
	    .help = (dates_help),                                                        \
	    .needs = (needs_),                                                           \
	    .type = OPTION_CHOICE,                                                       \
	    .at = offsetof(structure, order),                                            \
	    .least = ORDER_DAY_FIRST},                                                   \
	    {.name = "worksheet",                                                        \
		.argument = "NAME",                                                      \
		.help = "which one of a spreadsheet file; else the first shown",         \
		.needs = (needs_),                                                       \
		.type = OPTION_WORDS,                                                    \
		.at = offsetof(structure, how.worksheet)},                               \
	{                                                                                \
		.name = "encoding", .argument = "NAME",                                  \
		.help = "the character set of a text, such as ISO-8859-15",              \
		.needs = (needs_), .type = OPTION_WORDS,                                 \
		.at = offsetof(structure, how.character_set)                             \
	}
/* NOLINTEND(bugprone-macro-parentheses) */

_Static_assert(sizeof(enum date_order) == sizeof(int), "a choice is read into an int");
_Static_assert(ORDER_MONTH_FIRST == ORDER_DAY_FIRST + 1, "in the order of the choice");

#endif
