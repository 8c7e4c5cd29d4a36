/* A command: one record a command, in its own file cmd_<name>.c.
 *
 * To add one: write cmd_<name>.c with its option table and its record at the end, name it
 * in COMMAND_LIST below, which is by name, and in meson.build. Help, completions and the
 * manual page follow by themselves. */
#ifndef BECKET_CLI_COMMAND_H
#define BECKET_CLI_COMMAND_H

#include "base/spool.h"
#include "cli/options.h"
#include "desk/questions.h"
#include "desk/serial_check.h"
#include "exchange/answer_keys.h"
#include "report/report.h"

/* What a running command has at hand: its words, the desk that does the work, and where
 * its answer goes. */

struct command;
struct command_table;

struct context {
	const struct command_table *commands; /* all of them; borrowed */
	const struct command *command;        /* borrowed */
	struct command_line words;            /* what stood after its name; borrowed */
	const struct given_options *given;    /* borrowed */
	struct desk desk;                     /* its arena lives as long as the command */
	bool json;
	struct report_style style; /* but for the currency: context_style */
	struct text out;           /* the answer, for standard output */
	struct text_drain drain;   /* of `out`; see context_write_as_made */
	struct spool held;         /* of the answer, what comes before `out` */
	struct fault unwritten;    /* why a piece of it could not be written */
	int status;                /* 0, or 1 for "it ran, and not all is right" */
};

/* Sets today and now by the machine's clock, unless --today was given. */
void context_read_clock(struct context *context);

/* A context of its own for the same command, with nothing read yet and the clock read
 * anew: for an answer beside the first one. What it borrows from the first must outlive
 * it. */
void context_again(const struct context *context, struct context *out);

/* From now on a long answer in JSON is written while it is made, a piece at a time, where
 * it goes to no terminal. For when all is known: what fails after this would fail after
 * part of an answer. */
void context_write_as_made(struct context *context);

/* From now on a long answer goes to a file without a name while it is made, a piece at a
 * time, where it goes to no terminal, and is written once all of it is there: what fails
 * before then leaves nothing of it behind, and it needs little memory. */
void context_hold(struct context *context);

/* Has words stand before the answer, which are then the context's: to a terminal they are
 * a part of it. FAULT_FILE. */
MUST_CHECK bool context_tell(
    struct context *context, struct spool *words, struct fault *fault);

/* The style, with the currency of the book where one is loaded. */
const struct report_style *context_style(struct context *context);

/* Writes the desk's remarks, those after `from`, to standard error, and forgets them. */
void context_show_notes(struct context *context, size_t from);

/* Forgets remarks that come after `from`. */
void context_forget_notes(struct context *context, size_t from);

/* After an act of the desk has failed: asks the desk's question, where it has one and
 * there is a terminal. True when the act is to be run again with the answer. A no, and
 * what else it failed for, is the fault; that of a wrong request says where help is to be
 * had. */
MUST_CHECK bool context_asked(struct context *context, struct fault *fault);

/* After an act of the desk has failed: has a person choose among the answers to the
 * desk's question, whose letters these are, where it has such a one and there is a
 * terminal. True with the place of the answer, and the act is to be run again; what is
 * none of them is the fault. */
MUST_CHECK bool context_chosen(
    struct context *context, const char *letters, int *out, struct fault *fault);

/* Adds where help is to be had to a fault of usage that the desk has found. Returns
 * false. */
bool context_usage(const struct context *context, struct fault *fault);

/* Says how to go on when the book has no vessel yet; true when it has none. */
bool context_is_empty(struct context *context);

void context_clear(struct context *context);

/* Answers about one piece after the other: text with a blank line between two, JSON as
 * one piece's own answer, or an array of them where the command line names several.
 * `each` adds one. */
MUST_CHECK bool answer_each(struct context *context, const struct pieces_answer *answer,
    bool (*each)(struct context *context, const struct pieces_answer *answer,
	const struct known_piece *piece, struct fault *fault),
    struct fault *fault);

/* What a command needs of the book. It is opened when the command first asks for it, so
 * that a command line with a mistake leaves no new file behind. */
enum command_needs {
	NEEDS_NOTHING,
	NEEDS_READ,   /* reads a book that must be there */
	NEEDS_WRITE,  /* changes a book that must be there */
	NEEDS_CREATE, /* changes a book, and begins one where there is none */
};

/* An answer for --json. */
struct told_answer {
	const char *asked; /* by what it is asked for, "--line"; "" for nothing more */
	const struct answer_keys *const *keys;
};

#define ONE_ANSWER(keys) ((const struct told_answer[]){{"", (keys)}, {0}})

struct command {
	const char *name;
	const char *summary; /* one line: lower case, no full stop */
	/* for help and manual, a paragraph a line; "" for none. "{columns}" stands for
	 * the columns of the inventory */
	const char *details;
	/* a line each by turns: what is typed after "becket", what it does (lower case,
	 * no full stop). They run on the demonstration's book. NULL for none */
	const char *examples;
	struct option_table table;
	enum command_needs needs;
	/* its answers for --json, told with the details, a zeroed one last; NULL for
	 * none */
	const struct told_answer *answers;
	/* changes the book, but asks nobody and writes nothing to standard error while it
	 * runs, so that someone who waits can be told so; what only reads does neither */
	bool quiet;
	bool (*run)(struct context *context, struct fault *fault);
};

/* All commands by name, and the options that every one takes. Help is a command too: who
 * tells of them is handed the table. */
struct command_table {
	const struct command *const *items;
	size_t count;
	struct option_table common;
};

/* Options that answer what is asked of serial numbers, into the struct serial_said that
 * is the member `said` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define SERIAL_OPTIONS(structure, said)                                                  \
	FLAG_OPTION("again", structure, said.again,                                      \
	    "it goes back aboard although it was condemned"),                            \
	    FLAG_OPTION("serials-are-right", structure, said.right,                      \
		"the serial numbers are right, however alike they are")
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

/* Every command, by name. */
#define COMMAND_LIST(ROW)                                                                \
	ROW(AMEND)                                                                       \
	ROW(ASHORE)                                                                      \
	ROW(ATTACH)                                                                      \
	ROW(BOOK)                                                                        \
	ROW(BOOKING)                                                                     \
	ROW(CALENDAR)                                                                    \
	ROW(DUE)                                                                         \
	ROW(ENTER)                                                                       \
	ROW(EXPORT)                                                                      \
	ROW(EXTEND)                                                                      \
	ROW(HELP)                                                                        \
	ROW(HISTORY)                                                                     \
	ROW(IMPORT)                                                                      \
	ROW(INTERVAL)                                                                    \
	ROW(LAND)                                                                        \
	ROW(LIST)                                                                        \
	ROW(MOVE)                                                                        \
	ROW(MUSTER)                                                                      \
	ROW(NOW)                                                                         \
	ROW(PAGE)                                                                        \
	ROW(PAPERS)                                                                      \
	ROW(PEOPLE)                                                                      \
	ROW(RECORD)                                                                      \
	ROW(REMIND)                                                                      \
	ROW(RESERVE)                                                                     \
	ROW(RETURN)                                                                      \
	ROW(ROTA)                                                                        \
	ROW(SERVE)                                                                       \
	ROW(SHEET)                                                                       \
	ROW(SHORE_PAPERS)                                                                \
	ROW(SHOW)                                                                        \
	ROW(SPENT)                                                                       \
	ROW(STAND_IN)                                                                    \
	ROW(STATION)                                                                     \
	ROW(VESSEL)                                                                      \
	ROW(WHERE)                                                                       \
	ROW(WHY)                                                                         \
	ROW(WINTER)                                                                      \
	ROW(WITHDRAW)                                                                    \
	ROW(YEARS)

#define COMMAND_RECORD(name) extern const struct command COMMAND_##name;
COMMAND_LIST(COMMAND_RECORD)
#undef COMMAND_RECORD

extern const struct command_table COMMANDS;

/* ---- From a command line to a command and its answer ---- */

/* Runs the command line after the program's own name, writes the answer to standard
 * output and the remarks to standard error. Nothing is written to standard output when it
 * fails. `status_out` is 0, or 1 when it ran and not all is right. */
MUST_CHECK bool dispatch(struct command_line line, int *status_out, struct fault *fault);

#endif
