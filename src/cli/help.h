/* Help, completions and the manual page, all made from the table of commands. */
#ifndef BECKET_CLI_HELP_H
#define BECKET_CLI_HELP_H

#include "base/embedded.h"
#include "base/text.h"
#include "cli/command.h"

#include <stddef.h>

/* ---- What `becket help` says of subjects that are no command's own ---- */

struct topic {
	const char *name;    /* as it is asked for, of the letters a to z */
	const char *summary; /* one line: lower case, no full stop */
	const char *words;   /* a paragraph a line */
};

extern const struct topic TOPICS[];
extern const size_t TOPIC_COUNT;

/* The topic of that name, or NULL. */
const struct topic *topic_find(const char *name);

/* The command of that name, or NULL. */
const struct command *command_find(
    const struct command_table *commands, const char *name);

/* Takes the next example of a command: `*at` starts as its examples and moves on. False when there
 * is none left. */
bool command_example(const char **at, struct text *typed_out, struct text *does_out);

/* All commands, a line each, and the common options. */
void help_overview(const struct command_table *commands, struct text *out);

/* One command: usage, words, options, those that all take, details. */
void help_command(
    const struct command *command, const struct option_table *common, struct text *out);

/* One topic, whose name is no command's. */
void help_topic(const struct topic *topic, struct text *out);

/* Adds a command's details with everything that stands for something in them told. */
void add_details(struct text *out, const struct command *command);

/* Adds words with a capital and a full stop. The words are not empty. */
void add_sentence(struct text *out, const char *words);

/* Completions for a shell: a file to be sourced by bash or fish, or a function file for zsh. */
void completion_bash(const struct command_table *commands, struct text *out);
void completion_fish(const struct command_table *commands, struct text *out);
void completion_zsh(const struct command_table *commands, struct text *out);

/* The manual page in the language of scdoc: the table of commands and the topics between
 * hand-written parts from src/cli/man/. */
void man_page(const struct command_table *commands, struct text *out);

/* The page of one command: becket-winter(1). */
void man_command(
    const struct command *command, const struct option_table *common, struct text *out);

/* ---- The hand-written parts of the manual page, built into the program ---- */

extern const struct embedded_file EMBEDDED_MAN[];
extern const size_t EMBEDDED_MAN_COUNT;

#endif
