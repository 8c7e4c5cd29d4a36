/* The acts of `becket book`, each in the file named. */
#ifndef BECKET_CLI_BOOK_ACTS_H
#define BECKET_CLI_BOOK_ACTS_H

#include "cli/context.h"

/* What the options say. */
struct book_said {
	const char *identity; /* so, too: NULL when not told */
	const char *currency;
	bool over;
	day_t since; /* DAY_NONE when not told */
	int number;  /* 0 when not told */
};

/* cmd_book_keep.c */
MUST_CHECK bool book_act_backup(
    struct context *context, const struct book_said *said, struct fault *fault);
MUST_CHECK bool book_act_restore(
    struct context *context, const struct book_said *said, struct fault *fault);

/* cmd_book_check.c */
MUST_CHECK bool book_act_check(
    struct context *context, const struct book_said *said, struct fault *fault);
MUST_CHECK bool book_act_accept(
    struct context *context, const struct book_said *said, struct fault *fault);

/* cmd_book_journal.c */
MUST_CHECK bool book_act_journal(
    struct context *context, const struct book_said *said, struct fault *fault);
MUST_CHECK bool book_act_undo(
    struct context *context, const struct book_said *said, struct fault *fault);

/* cmd_book_upgrade.c */
MUST_CHECK bool book_act_upgrade(
    struct context *context, const struct book_said *said, struct fault *fault);

#endif
