/* becket book backup, becket book restore */
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/keeping.h"

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

/* Names the sheets that an act was also about. */
static void
add_sheets(const struct keeping *keeping, const char *words, struct text *out)
{
	if (keeping->sheet_count == 0) {
		return;
	}
	text_add_format(out, "%s: ", words);
	for (size_t i = 0; i < keeping->sheet_count; i++) {
		const struct kept_sheet *sheet = &keeping->sheets[i];
		text_add_format(out, "%s%s", i == 0 ? "" : ", ", sheet->name);
	}
	text_add(out, "\n");
}

bool
book_act_backup(
    struct context *context, const struct book_said *said, struct fault *fault)
{
	const char *path = options_word(context->given, 1);
	const struct progress progress = progress_here();
	struct keeping keeping = {0};
	if (!desk_backup(&context->desk, path, said->over, &progress, &keeping, fault)) {
		return false;
	}
	text_add_format(
	    &context->out, "The book is copied to %s, and the copy was checked.\n", path);
	add_sheets(&keeping, "Your own rule sheets are in it, too", &context->out);
	text_add_format(&context->out,
	    "Keep it on another disk; \"becket book restore %s\" puts it back.\n", path);
	return true;
}

bool
book_act_restore(
    struct context *context, const struct book_said *said, struct fault *fault)
{
	(void)said;
	const char *from = options_word(context->given, 1);
	const struct progress progress = progress_here();
	struct keeping keeping = {0};
	if (!context_signature(context, &context->desk.signature, fault) ||
	    !desk_restore(&context->desk, from, &progress, &keeping, fault)) {
		return false;
	}
	text_add_format(
	    &context->out, "%s is again as %s has it.\n", context->desk.book_path, from);
	if (keeping.kept[0] != '\0') {
		text_add_format(
		    &context->out, "What was there is kept in %s\n", keeping.kept);
	}
	add_sheets(&keeping, "So are your own rule sheets", &context->out);
	for (size_t i = 0; i < keeping.sheet_count; i++) {
		const struct kept_sheet *sheet = &keeping.sheets[i];
		if (sheet->kept[0] != '\0') {
			text_add_format(&context->out,
			    "The sheet %s was another one; it is kept in %s\n",
			    sheet->name, sheet->kept);
		}
	}
	return true;
}
