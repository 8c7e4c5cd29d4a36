/* What a running command has at hand: its words, the desk that does the work, and where its
 * answer goes. */
#ifndef BECKET_CLI_CONTEXT_H
#define BECKET_CLI_CONTEXT_H

#include "cli/options.h"
#include "desk/questions.h"
#include "desk/serial_check.h"
#include "report/report.h"

struct command;
struct command_table;

struct context {
	const struct command_table *commands; /* all of them; borrowed */
	const struct command *command;        /* borrowed */
	struct command_line words;            /* what stood behind its name; borrowed */
	const struct given_options *given;    /* borrowed */
	struct desk desk;                     /* its arena lives as long as the command */
	bool json;
	struct report_style style; /* but for the currency: context_style */
	struct text out;           /* the answer, for standard output */
	int status;                /* 0, or 1 for "it ran, and not all is right" */
};

/* Sets today and now by the machine's clock, unless --today was given. */
void context_read_clock(struct context *context);

/* A context of its own for the same command, with nothing read yet and the clock read anew: for
 * an answer beside the first one. What it borrows from the first must outlive it. */
void context_again(const struct context *context, struct context *out);

/* The style, with the currency of the book where one is loaded. */
const struct report_style *context_style(struct context *context);

/* Writes the desk's remarks, those behind `from`, to standard error, and forgets them. */
void context_show_notes(struct context *context, size_t from);

/* Forgets remarks that are behind `from`. */
void context_forget_notes(struct context *context, size_t from);

/* After an act of the desk has failed: asks the desk's question, where it has one and there is a
 * terminal. True when the act is to be run again with the answer. A no, and what else it
 * failed for, is the fault; that of a request that is off says where help is to be had. */
MUST_CHECK bool context_asked(struct context *context, struct fault *fault);

/* After an act of the desk has failed: has a person choose among the answers to the desk's question,
 * whose letters these are, where it has such a one and there is a terminal. True with the
 * place of the answer, and the act is to be run again; what is none of them is the fault. */
MUST_CHECK bool context_chosen(
    struct context *context, const char *letters, int *out, struct fault *fault);

/* Adds where help is to be had to a fault of usage that the desk has found. Returns false. */
bool context_usage(const struct context *context, struct fault *fault);

/* Says how to go on when the book has no vessel yet; true when it has none. */
bool context_is_empty(struct context *context);

void context_clear(struct context *context);

/* Answers about one piece after the other: text with a blank line between two, JSON as one piece's
 * own answer, or an array of them where the command line names several. `each` adds one. */
MUST_CHECK bool answer_each(struct context *context, const struct pieces_answer *answer,
    bool (*each)(struct context *context, const struct pieces_answer *answer,
	const struct known_piece *piece, struct fault *fault),
    struct fault *fault);

#endif
