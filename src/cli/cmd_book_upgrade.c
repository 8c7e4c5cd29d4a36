/* becket book upgrade */
#include "cli/command.h"
#include "cli/parts.h"
#include "cli/terminal.h"
#include "desk/upgrading.h"
#include "exchange/answers.h"
#include "report/table.h"

#include <unistd.h>

/* Opens the book as upgrading_open wants it; one that can't be written is read, and nothing is kept
 * of what is found. */
static bool
find(struct desk *desk, const struct upgrade **out, struct fault *fault)
{
	bool there = desk_has_book(desk);
	bool sealed = there && access(desk->book_path, W_OK) != 0;
	desk->upgrade_quiet = true;
	if (!desk_open(desk, sealed ? BOOK_READ : BOOK_WRITE, fault)) {
		return false;
	}
	if (sealed || desk->behind) {
		return upgrading_find(desk, out, fault);
	}
	*out = desk->upgrade;
	return true;
}

bool
book_act_upgrade(
    struct context *context, const struct book_said *said, struct fault *fault)
{
	(void)said;
	static const struct upgrade NOTHING = {.kept = true};
	const struct upgrade *upgrade = NULL;
	struct waiting_word waiting;
	waiting_begin(&waiting, true);
	bool found = find(&context->desk, &upgrade, fault);
	waiting_end(&waiting);
	if (!found) {
		return false;
	}
	if (upgrade != NULL && upgrade->entry == 0 && !context->desk.writing) {
		desk_note(&context->desk,
		    "the book can't be written, so this is not kept in it");
	}
	if (context->json) {
		answer_upgrade(upgrade != NULL ? upgrade : &NOTHING, &context->out);
		return true;
	}
	if (upgrade == NULL) {
		paragraph(
		    "This becket reckons as the one that last wrote in this book: no "
		    "date has moved.",
		    0, 0, &context->out);
		return true;
	}
	report_upgrade(upgrade, &context->out);
	return true;
}
