/* What a running command has at hand: its words, the day, the book, the kinds and sheets,
 * and where its answer goes. Everything is read when first asked for. */
#ifndef BECKET_CLI_CONTEXT_H
#define BECKET_CLI_CONTEXT_H

#include "book/book.h"
#include "cli/options.h"
#include "cli/shelf.h"
#include "due/due.h"
#include "report/report.h"

struct command;

struct context {
	const struct command *command;     /* borrowed */
	struct command_line words;         /* what stood behind its name; borrowed */
	const struct given_options *given; /* borrowed */
	struct arena arena;                /* for what lives as long as the command */
	const char *book_path;             /* in the arena */
	bool book_named;                   /* by --book or BECKET_BOOK */
	day_t today;
	bool today_given; /* by --today, so that the answer is to be repeatable */
	int64_t now;      /* seconds since 1970, UTC; with --today that day's start */
	bool json;
	struct report_style style;
	struct text out;   /* the answer, for standard output */
	struct text notes; /* remarks, a line each, for standard error */
	int status;        /* 0, or 1 for "it ran, and not all is right" */

	struct shelf shelf; /* kinds and sheets */
	struct book *book;  /* NULL until context_book */
	bool with_left;     /* vessels that have left are loaded with all their gear */
	bool loaded;
	struct book_contents contents;
	struct rulebook **rulebooks; /* one a vessel; shared between vessels */
	struct due_engine engine;
};

/* Sets today and now by the machine's clock, unless --today was given. */
void context_read_clock(struct context *context);

/* A context of its own for the same command, with nothing read yet and the clock read anew: for
 * a program that runs on while the book and the day change. Borrows from the first. Clear
 * with context_clear. */
void context_again(const struct context *context, struct context *out);

/* Opens the book as the command needs it, or in a mode of the caller's. Does nothing when
 * it is open. A book that is not there where it must be is FAULT_BOOK with words on how to
 * begin one; for creation the default folder is made, none other. */
MUST_CHECK bool context_book(struct context *context, struct fault *fault);
MUST_CHECK bool context_open(
    struct context *context, enum book_mode mode, struct fault *fault);

/* The currency of the book's prices, an ISO 4217 code; that of a new book where there is none
 * yet. Opens the book as the command needs it. */
MUST_CHECK bool context_currency(
    struct context *context, const char **out, struct fault *fault);

/* True when there is a file at the book's path. */
bool context_has_book(const struct context *context);

/* The kinds catalogue, read when first asked for. */
MUST_CHECK bool context_kinds(
    struct context *context, const struct kinds **out, struct fault *fault);

/* Opens the book and loads its contents, one vessel's when `vessel` is not NULL. Sets
 * style.currency. Base, lay-up and sheets are today's. Of a vessel that has left, only what is
 * at a station is loaded, unless withdrawn gear is, or with_left is set. */
MUST_CHECK bool context_load(struct context *context, const char *vessel,
    bool with_withdrawn, struct fault *fault);

/* context_load with what was withdrawn, which may be the part that a thing lacks, and makes
 * the due engine ready: every vessel's rule sheets are found and gathered. A sheet that is not known is FAULT_INPUT with the list of those that are. Does
 * nothing when it is ready, until context_forget. */
MUST_CHECK bool context_engine(
    struct context *context, const char *vessel, struct fault *fault);

/* A rulebook of the sheets a vessel follows; a sheet that is not known is FAULT_INPUT. Free
 * with rulebook_free. */
MUST_CHECK bool context_rulebook(struct context *context, const struct vessel *vessel,
    struct rulebook **out, struct fault *fault);

/* A remark when a date that was given lies after today: a slip of the pen more often than
 * not. `option` is the option's name. */
void context_note_future(struct context *context, const char *option, struct stamp stamp);

/* Forgets what was loaded, so that the next load sees what was written since. */
void context_forget(struct context *context);

/* The index of the item with this tag in the loaded contents. FAULT_INPUT with the nearest
 * tag when there is none. */
MUST_CHECK bool context_find_tag(
    struct context *context, const char *tag, size_t *item_out, struct fault *fault);

/* The index of the vessel with this name in the loaded contents. FAULT_INPUT with the nearest
 * name when there is none. */
MUST_CHECK bool context_find_vessel(
    struct context *context, const char *name, size_t *vessel_out, struct fault *fault);

/* Says how to go on when the book has no vessel yet; true when it has none. */
bool context_is_empty(struct context *context);

/* Adds a remark for standard error. */
void context_note(struct context *context, const char *format, ...) FORMAT_LIKE(2, 3);

void context_clear(struct context *context);

#endif
