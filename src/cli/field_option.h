/* The options that rows of gear/fields.h and gear/fleet_fields.h make, and reading them. */
#ifndef BECKET_CLI_FIELD_OPTION_H
#define BECKET_CLI_FIELD_OPTION_H

#include "cli/context.h"

/* What a row says of its option, as an entry of an option table. */
#define FIELD_OPTION(name_, argument_, help_)                                            \
	{.name = (name_), .argument = (argument_), .help = (help_)},
/* The same of a part, without braces: what the command makes of it is added. */
#define FIELD_WORD(name_, argument_, help_)                                              \
	.name = (name_), .argument = (argument_), .help = (help_)
#define FIELD_WORDS(name_, argument_, help_)                                             \
	.name = (name_), .argument = (argument_), .help = (help_), .repeatable = true
#define FIELD_FLAG(name_, help_) .name = (name_), .help = (help_)
#define FIELD_OPTION_ALSO(name_, also_, argument_, help_)                                \
	{.name = (name_), .also = (also_), .argument = (argument_), .help = (help_)},
#define FIELD_NO_OPTION

/* Reads the options of these fields, those that were given, into the struct they are in; a bit of
 * `*set` for each that was, 1 << its index. A part is marked alone. */
MUST_CHECK bool field_options_read(struct context *context, const struct field *fields,
    size_t count, void *of, unsigned *set, struct fault *fault);

/* Reads a field's option, when it was given, into the struct it is in. */
MUST_CHECK bool field_option_read(struct context *context, const struct field *field,
    void *of, bool *given_out, struct fault *fault);

#endif
