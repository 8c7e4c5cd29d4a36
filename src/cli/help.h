/* Help, completions and the manual page, all made from the table of commands. */
#ifndef BECKET_CLI_HELP_H
#define BECKET_CLI_HELP_H

#include "base/text.h"
#include "cli/command.h"
#include "cli/topics.h"

/* All commands, a line each, and the common options. */
void help_overview(struct text *out);

/* One command: usage, words, options, details. */
void help_command(const struct command *command, struct text *out);

/* One topic, whose name is no command's. */
void help_topic(const struct topic *topic, struct text *out);

/* Adds a command's details with everything that stands for something in them told. */
void add_details(struct text *out, const struct command *command);

/* Adds words with a capital and a full stop. The words are not empty. */
void add_sentence(struct text *out, const char *words);

/* Completions for a shell: a file to be sourced by bash or fish, or a function file for zsh. */
void completion_bash(struct text *out);
void completion_fish(struct text *out);
void completion_zsh(struct text *out);

/* The manual page in the language of scdoc: the table of commands between hand-written
 * parts from src/cli/man/. */
void man_page(struct text *out);

#endif
