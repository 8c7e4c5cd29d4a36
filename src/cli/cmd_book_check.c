/* becket book check, and accept */
#include "book/check.h"
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/files.h"
#include "desk/keeping.h"
#include "exchange/answers.h"

/* What the program knows and the book does not. */
struct knowledge {
	const struct kinds *kinds;
	const char *const *sheets;
	size_t sheet_count;
};

static bool
knows_kind(void *context, const char *id)
{
	const struct knowledge *knowledge = context;
	return kinds_find(knowledge->kinds, id) != NULL;
}

static bool
knows_sheet(void *context, const char *name)
{
	const struct knowledge *knowledge = context;
	return words_have(knowledge->sheets, knowledge->sheet_count, name);
}

/* A book that others can read may be meant so: it is told and left. */
static void
tell_rights(struct desk *desk)
{
	unsigned rights = file_rights(desk->book_path);
	if ((rights & 077) != 0) {
		desk_note(desk,
		    "others who use this machine can %s %s: its rights are %03o. \"chmod 600\" "
		    "keeps it to you, if that is not meant",
		    (rights & 022) != 0 ? "write in" : "read", desk->book_path, rights);
	}
}

bool
book_act_check(struct context *context, const struct book_said *said, struct fault *fault)
{
	(void)said;
	struct knowledge knowledge = {0};
	struct check_result result = {0};
	if (!desk_kinds(&context->desk, &knowledge.kinds, fault)) {
		return false;
	}
	shelf_names(&context->desk.shelf, &context->desk.arena, &knowledge.sheets,
	    &knowledge.sheet_count);
	if (!desk_open(&context->desk, BOOK_READ, fault)) {
		return false;
	}
	const struct book_known known = {knows_kind, knows_sheet, &knowledge};
	if (!book_check(
		context->desk.book, &known, &context->desk.arena, &result, fault)) {
		return false;
	}
	tell_rights(&context->desk);
	context->status = result.count > 0 ? 1 : 0;
	if (context->json) {
		answer_check(&result, &context->out);
	} else {
		report_check(context_style(context), &result, &context->out);
	}
	book_check_clear(&result);
	return true;
}

bool
book_act_accept(
    struct context *context, const struct book_said *said, struct fault *fault)
{
	(void)said;
	bool differed = false;
	if (!desk_accept(&context->desk, &differed, fault)) {
		return false;
	}
	text_add(&context->out,
	    differed ? "The book is taken as it is; the journal notes that\n"
		     : "The book is as becket wrote it: there is nothing to accept\n");
	return true;
}
