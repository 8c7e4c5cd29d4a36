/* Names on the command line, put as the book has them before the command runs. */
#ifndef BECKET_CLI_NAMING_H
#define BECKET_CLI_NAMING_H

#include "cli/command.h"
#include "desk/naming.h"

/* What the value of an option, or a word, is the name of: a table says it by its argument, as TAG
 * or STATION. False where it is no name of something in the book. `command` is NULL for an option
 * that every command takes, here and below. */
bool naming_of_option(
    const struct command *command, const struct option_spec *option, enum named *out);
bool naming_of_word(
    const struct command *command, const struct word_spec *word, enum named *out);

/* The same as the word by which "becket help --names" lists what there is, kinds and their groups
 * too; NULL for what is no name. */
const char *naming_list_of_option(
    const struct command *command, const struct option_spec *option);
const char *naming_list_of_word(
    const struct command *command, const struct word_spec *word);

/* What such a word lists of the book; false for another. */
bool naming_of_list(const char *list, enum named *out);

/* Puts tags (lists and ranges of them, too), boats, stations and bases in what was given as they
 * stand in the book, as desk/naming.h finds them. A name that is none of the book's stays as it
 * was typed: the command says what it makes of it. At a terminal a command that changes the book
 * asks where accents alone differ, and a no leaves a name that may be new as it was typed. */
MUST_CHECK bool naming_settle(
    struct context *context, struct given_options *given, struct fault *fault);

#endif
