/* becket sheet compare */
#include "cli/parts.h"
#include "desk/naming.h"
#include "exchange/answers.h"

static bool
say_gear(struct context *context, const struct compare_asked *asked, struct fault *fault)
{
	struct change_rows rows = {0};
	const struct inventory *inventory = &context->desk.contents.inventory;
	if (!desk_compare_gear(&context->desk, asked, &rows, fault)) {
		return false;
	}
	if (context->json) {
		answer_compare_gear(inventory, asked->sides, &rows, &context->out);
	} else {
		report_compare_gear(context_style(context), inventory, asked->sides,
		    &rows, &context->out);
	}
	return true;
}

bool
sheet_compare(struct context *context, const char *a, const char *b, struct fault *fault)
{
	struct compare_asked asked = {.sides = {a, b}};
	struct compare_answer answer = {0};
	if (!options_into(context->given, &asked, fault) ||
	    !naming_sheet(&context->desk, a, &asked.sides[0], fault) ||
	    !naming_sheet(&context->desk, b, &asked.sides[1], fault)) {
		return false;
	}
	if (asked.vessel != NULL) {
		return say_gear(context, &asked, fault);
	}
	if (!desk_compare_rules(&context->desk, &asked, &answer, fault)) {
		return false;
	}
	if (context->json) {
		answer_compare_rules(
		    asked.sides, &answer.comparison, answer.lines, &context->out);
	} else {
		report_compare_rules(context_style(context), asked.sides,
		    &answer.comparison, answer.kind, answer.lines, &context->out);
	}
	return true;
}
