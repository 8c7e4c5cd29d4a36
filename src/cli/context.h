/* What a running command has at hand: its words, the desk that does the work, and where its
 * answer goes. */
#ifndef BECKET_CLI_CONTEXT_H
#define BECKET_CLI_CONTEXT_H

#include "cli/options.h"
#include "desk/desk.h"
#include "report/report.h"

struct command;

struct context {
	const struct command *command;     /* borrowed */
	struct command_line words;         /* what stood behind its name; borrowed */
	const struct given_options *given; /* borrowed */
	struct desk desk;                  /* its arena lives as long as the command */
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

/* Says how to go on when the book has no vessel yet; true when it has none. */
bool context_is_empty(struct context *context);

void context_clear(struct context *context);

#endif
