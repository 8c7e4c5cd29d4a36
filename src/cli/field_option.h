/* Options that rows of gear/fields.h and gear/fleet_fields.h make, and reading what takes more than the
 * command line to be understood. */
#ifndef BECKET_CLI_FIELD_OPTION_H
#define BECKET_CLI_FIELD_OPTION_H

#include "cli/context.h"
#include "gear/fields.h"

/* What a row says of its option, behind a word that says whether it has one. */
#define FIELD_OPTION(name_, argument_, help_)                                            \
	HAS_OPTION, .name = (name_), .argument = (argument_), .help = (help_)
#define FIELD_OPTION_MORE(name_, argument_, help_, ...)                                  \
	HAS_OPTION, .name = (name_), .argument = (argument_), .help = (help_), __VA_ARGS__
#define FIELD_NO_OPTION HAS_NO_OPTION, 0
/* The same of a part: what the command makes of it is added. */
#define FIELD_WORD(name_, argument_, help_)                                              \
	.name = (name_), .argument = (argument_), .help = (help_)
#define FIELD_WORDS(name_, argument_, help_)                                             \
	.name = (name_), .argument = (argument_), .help = (help_), .repeatable = true
#define FIELD_FLAG(name_, help_) .name = (name_), .help = (help_)

/* An entry of an option table: what a row says, and where the value goes. Nothing for a row without
 * an option. */
#define FIELD_ENTRY(goes, has, ...) has(goes, __VA_ARGS__)
#define HAS_OPTION(...) {__VA_ARGS__},
#define HAS_NO_OPTION(...)

/* Where it goes: the struct that the field is in, a member of another, and the bit that says so. */
#define FIELD_GOES(row, structure, member, set, bit)                                     \
	.type = OPTION_FIELD, .field = &(row), .at = offsetof(structure, member),        \
	FIELD_MARKS(structure, set, bit)
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define FIELD_MARKS(structure, set, bit)                                                 \
	.marks = offsetof(structure, set), .mark = 1U << (bit)
/* NOLINTEND(bugprone-macro-parentheses) */

/* What reads options of a field, a price or a kind. */
struct option_reader context_reader(struct context *context);

#endif
