/* Serial numbers asked about before they are written: the same one twice, two that differ in
 * one character, and one that was condemned. */
#ifndef BECKET_CLI_SERIAL_CHECK_H
#define BECKET_CLI_SERIAL_CHECK_H

#include "cli/context.h"
#include "life/serials.h"

#define AGAIN_OPTION                                                                     \
	{                                                                                \
		.name = "again", .help = "it goes back aboard although it was condemned" \
	}

#define SERIAL_OPTIONS                                                                   \
	AGAIN_OPTION,                                                                    \
	{                                                                                \
		.name = "serials-are-right",                                             \
		.help = "the serial numbers are right, however alike they are"           \
	}

/* Looks for entries that should be asked about, among themselves and in the loaded book.
 * --again and --serials-are-right answer beforehand; on a terminal the person is asked;
 * otherwise what is left is FAULT_INPUT with the option that answers it. */
MUST_CHECK bool serials_check(struct context *context, const struct serial_entry *entries,
    size_t count, struct fault *fault);

#endif
