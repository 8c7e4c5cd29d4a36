/* A command: one record a command, in its own file cmd_<name>.c; commands.c gathers them.
 *
 * To add one: write cmd_<name>.c with its option table and its record at the end, name it
 * in commands.h and in the alphabetical table of commands.c, and in meson.build. Help,
 * completions and the manual page follow by themselves. */
#ifndef BECKET_CLI_COMMAND_H
#define BECKET_CLI_COMMAND_H

#include "cli/context.h"
#include "cli/options.h"
#include "exchange/answer_keys.h"

/* What a command needs of the book. It is opened when the command first asks for it, so
 * that a command line that is no good leaves no new file behind. */
enum command_needs {
	NEEDS_NOTHING,
	NEEDS_READ,   /* reads a book that must be there */
	NEEDS_WRITE,  /* changes a book that must be there */
	NEEDS_CREATE, /* changes a book, and begins one where there is none */
};

struct command {
	const char *name;
	const char *summary; /* one line: lower case, no full stop */
	/* for help and manual, a paragraph a line; "" for none. "{columns}" stands for the
	 * columns of the inventory */
	const char *details;
	/* a line each by turns: what is typed behind "becket", what it does (lower case, no full
	 * stop). They run on the demonstration's book. NULL for none */
	const char *examples;
	struct option_table table;
	enum command_needs needs;
	bool json; /* has an answer for --json */
	const struct answer_keys
	    *keys; /* of that, to be told with the details; or NULL */
	/* changes the book, but asks nobody and writes nothing to standard error while it runs, so
	 * that someone who waits can be told so; what only reads does neither */
	bool quiet;
	bool (*run)(struct context *context, struct fault *fault);
};

/* All commands by name, and the options that every one takes. Help is a command too: who tells of
 * them is handed the table. */
struct command_table {
	const struct command *const *items;
	size_t count;
	struct option_table common;
};

/* Options that answer what is asked of serial numbers, into the struct serial_said that is the
 * member `said` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define SERIAL_OPTIONS(structure, said)                                                  \
	{.name = "again",                                                                \
	    .help = "it goes back aboard although it was condemned",                     \
	    .type = OPTION_FLAG,                                                         \
	    .at = offsetof(structure, said.again)},                                      \
	{                                                                                \
		.name = "serials-are-right",                                             \
		.help = "the serial numbers are right, however alike they are",          \
		.type = OPTION_FLAG, .at = offsetof(structure, said.right)               \
	}
/* NOLINTEND(bugprone-macro-parentheses) */

/* The word of a command that is about any number of items. */
#define ITEMS_WORD(range)                                                                \
	{                                                                                \
		.name = "TAG", .help = "the items; " range " is eight of them",          \
		.required = true, .repeatable = true                                     \
	}

/* Fills an option table from const arrays. */
#define COUNT_OF(array) (sizeof(array) / sizeof((array)[0]))
#define TABLE(words_array, options_array)                                                \
	{                                                                                \
		.options = (options_array), .option_count = COUNT_OF(options_array),     \
		.words = (words_array), .word_count = COUNT_OF(words_array)              \
	}

#endif
