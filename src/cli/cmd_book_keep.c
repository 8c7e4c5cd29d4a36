/* becket book backup, becket book restore */
#include "book/backup.h"
#include "cli/book_acts.h"
#include "cli/command.h"
#include "cli/signing.h"
#include "desk/files.h"

#include <stdio.h>
#include <unistd.h>

/* A smaller book is copied before anyone could read how far it is. */
enum { MANY_PAGES = 4096 };

/* Writes how far the work is over what was written before, on a terminal. */
static void
tell(void *context, int64_t done, int64_t whole)
{
	(void)context;
	if (whole >= MANY_PAGES) {
		(void)fprintf(stderr, "\rcopying: %3d %%%s", (int)(done * 100 / whole),
		    done == whole ? "\r              \r" : "");
	}
}

static struct progress
progress_here(void)
{
	return (struct progress){isatty(STDERR_FILENO) != 0 ? tell : NULL, NULL};
}

bool
book_act_backup(struct context *context, struct fault *fault)
{
	const char *path = options_word(context->given, 1);
	const struct progress progress = progress_here();
	bool over = options_has(context->given, "over");
	if (!desk_open(&context->desk, BOOK_READ, fault) ||
	    !book_backup(context->desk.book, path, over, &progress, fault)) {
		return false;
	}
	text_add_format(&context->out,
	    "The book is copied to %s, and the copy was checked.\n"
	    "Keep it on another disk; \"becket book restore %s\" puts it back.\n",
	    path, path);
	return true;
}

bool
book_act_restore(struct context *context, struct fault *fault)
{
	const char *from = options_word(context->given, 1);
	const char *kept = "";
	const struct progress progress = progress_here();
	struct signature signature = {0};
	bool at_home = !desk_has_book(&context->desk) && !context->desk.book_named;
	if (at_home && !folders_make(context->desk.book_path, fault)) {
		return false;
	}
	if (!context_signature(context, &signature, fault) ||
	    !book_restore(context->desk.book_path, from, &signature, &progress,
		&context->desk.arena, &kept, fault)) {
		return false;
	}
	text_add_format(
	    &context->out, "%s is again as %s has it.\n", context->desk.book_path, from);
	if (kept[0] != '\0') {
		text_add_format(&context->out, "What was there is kept in %s\n", kept);
	}
	return true;
}
