/* What is known of a station, as options of `becket station`. */
#ifndef BECKET_CLI_STATION_OPTIONS_H
#define BECKET_CLI_STATION_OPTIONS_H

#include "cli/context.h"

#define STATION_OPTIONS                                                                    \
	{.name = "base",                                                                   \
	    .argument = "PLACE",                                                           \
	    .help = "the base it serves; every base when not told"},                       \
	    {.name = "turn-round",                                                         \
		.argument = "DAYS",                                                        \
		.help = "days from hand-in on, closed periods left out"},                  \
	    {.name = "turn-round-in",                                                      \
		.argument = "MM..MM=DAYS|none",                                            \
		.help = "the same for gear handed in in these months, as 02..04=28; "      \
			"those given replace the ones before",                             \
		.repeatable = true},                                                       \
	    {.name = "closed",                                                             \
		.argument = "MM-DD..MM-DD|DATE..DATE|none",                                \
		.help = "closed every year, or once; those given replace the ones "        \
			"before",                                                          \
		.repeatable = true},                                                       \
	    {.name = "open",                                                               \
		.argument = "DAYS",                                                        \
		.help =                                                                    \
		    "days of the week on which it takes gear in, as mon-fri,sun; or all"}, \
	    {.name = "not-before",                                                         \
		.argument = "DAY|none",                                                    \
		.help = "it said that it takes nothing in before this day, this once"},    \
	    {.name = "weekly",                                                             \
		.argument = "N",                                                           \
		.help = "most pieces it takes in from Monday to Sunday; 0 no limit"},      \
	    {.name = "kinds",                                                              \
		.argument = "KIND,KIND|all",                                               \
		.help = "what it services; every kind when not told"},                     \
	    {.name = "makes",                                                              \
		.argument = "KIND=MAKE,MAKE|KIND=all",                                     \
		.help = "the makes of a kind it is approved for; every make when not "     \
			"told",                                                            \
		.repeatable = true},                                                       \
	    {.name = "price",                                                              \
		.argument = "KIND[:TASK][@Ny]=PRICE|none",                                 \
		.help = "what it asks for one piece: for one task, or for all that "       \
			"have no price of their own; from an age on, as @10y; none "       \
			"forgets it, or all",                                              \
		.repeatable = true},                                                       \
	    {.name = "carriage",                                                           \
		.argument = "PRICE",                                                       \
		.help = "what carrying or sending one piece costs beside the trip, "       \
			"both ways"},                                                      \
	{                                                                                  \
		.name = "trip", .argument = "PRICE",                                       \
		.help = "what a trip there costs, handing in and collecting"               \
	}

/* Reads these options into a change; what it points to is in the context's arena. */
MUST_CHECK bool station_options_read(
    struct context *context, struct station_change *change, struct fault *fault);

/* True when any of these options was given. */
bool station_options_given(const struct given_options *given);

#endif
