/* The options that say how a file with a list is read, for every command that reads one. */
#ifndef BECKET_CLI_LIST_OPTIONS_H
#define BECKET_CLI_LIST_OPTIONS_H

#include "cli/options.h"
#include "exchange/inventory_csv.h"

/* Of the bytes of a file; list_how_given reads them. */
#define LIST_OPTIONS                                                                     \
	{.name = "worksheet",                                                            \
	    .argument = "NAME",                                                          \
	    .help = "which one of a spreadsheet file; else the first shown"},            \
	{                                                                                \
		.name = "encoding", .argument = "NAME",                                  \
		.help = "the character set of a text, such as ISO-8859-15"               \
	}

/* Borrowed from what was given. */
struct list_how list_how_given(const struct given_options *given);

/* What --dates says; ISO where it is not there. */
enum date_order list_order_given(const struct given_options *given);

#endif
