/* becket years */
#include "cli/command.h"
#include "cli/values.h"
#include "cli/years.h"
#include "desk/files.h"
#include "desk/stores.h"
#include "exchange/answers.h"
#include "exchange/years_csv.h"

static const struct word_spec WORDS[] = {
    {.name = "N", .help = "how many winters, 1 to 20; 8 if left out"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel",
	.argument = "NAME",
	.help = "this vessel only",
	.not_with = "base fleet"},
    {.name = "base",
	.argument = "PLACE",
	.help = "the vessels of this base as one: they share trips",
	.not_with = "fleet"},
    {.name = "fleet", .help = "every base's vessels as one: they share trips"},
    {.name = "grade",
	.argument = "law|maker|practice",
	.help =
	    "what is of this grade or more binding may not lapse; practice if left out"},
    YEARS_CHANGES,
    {.name = "compare",
	.help = "set what these changes lead to beside the plan without them",
	.needs = YEARS_CHANGE_NAMES},
    {.name = "csv",
	.help = "answer as CSV, for a spreadsheet",
	.not_with = "json compare"},
    {.name = "html",
	.argument = "FILE",
	.help = "write it as a page with drawings too, to print"},
};

static bool
read_winters(const struct context *context, size_t *out, struct fault *fault)
{
	const char *word = options_word(context->given, 0);
	long winters = YEARS_WINTERS;
	if (word != NULL && !number_read(word, 1, OUTLOOK_WINTERS_MOST, &winters)) {
		return fault_set(fault, FAULT_INPUT,
		    "expected how many winters, a whole number from 1 to %d, found \"%.40s\"",
		    OUTLOOK_WINTERS_MOST, word);
	}
	*out = (size_t)winters;
	return true;
}

/* With --compare: both plans side by side. */
static bool
answer_compared(struct context *context, const struct years_run *run,
    const struct outlook_view *changed, struct fault *fault)
{
	struct outlook_view as_is = {0};
	if (!years_plan(run, false, &as_is, fault)) {
		return false;
	}
	if (context->json) {
		answer_years_compared(&as_is, changed, &context->out);
	} else {
		report_years_compared(
		    context_style(context), &as_is, changed, &context->out);
	}
	return true;
}

/* Writes the page where one was asked for; it takes its place when it is kept. */
static bool
write_page(struct context *context, const struct outlook_view *view, struct new_file *out,
    struct fault *fault)
{
	const char *path = options_value(context->given, "html");
	SCOPED_TEXT page = {0};
	if (path == NULL) {
		return true;
	}
	page_years(context_style(context), context->desk.engine.kinds, view, &page);
	return new_file_write(path, text_string(&page), page.length, out, fault);
}

static bool
write_answer(struct context *context, const struct years_run *run,
    const struct outlook_view *view, struct fault *fault)
{
	if (options_has(context->given, "compare")) {
		return answer_compared(context, run, view, fault);
	}
	if (context->json) {
		answer_years(view, &context->out);
		return true;
	}
	if (options_has(context->given, "csv")) {
		csv_write_years(view, &context->out);
		return true;
	}
	report_years(
	    context_style(context), context->desk.engine.kinds, view, &context->out);
	return true;
}

static bool
answer(struct context *context, const struct years_run *run, struct fault *fault)
{
	struct outlook_view view = {0};
	SCOPED_NEW_FILE page = {0};
	bool plain = !options_has(context->given, "csv") &&
		     !options_has(context->given, "html") &&
		     !years_changes_given(context->given);
	return years_plan(run, true, &view, fault) &&
	       (!plain || years_add_asides(run, &view, fault)) &&
	       write_page(context, &view, &page, fault) &&
	       write_answer(context, run, &view, fault) &&
	       (page.path == NULL || new_file_keep(&page, fault));
}

static bool
run_years(struct context *context, struct fault *fault)
{
	struct years_run run = {.context = context, .least = GRADE_PRACTICE};
	context->desk.left_gear = LEFT_NONE;
	const char *vessel = options_value(context->given, "vessel");
	if (!read_winters(context, &run.winters, fault) ||
	    !desk_engine(&context->desk, vessel, fault) ||
	    !left_check_named(&context->desk, vessel, fault)) {
		return false;
	}
	desk_see_winter(&context->desk, 0);
	return years_read(&run, fault) &&
	       ((!context->json && context_is_empty(context)) ||
		   answer(context, &run, fault));
}

const struct command COMMAND_YEARS = {
    .name = "years",
    .summary = "plan the next winters: when to service, when to renew, at least cost",
    .details =
	"For every item in which of the next N winters it is serviced and when it is renewed "
	"instead, so that nothing lapses in a season and prices and trips cost least "
	"together; with the proof, or the bound reached. Each vessel for herself; with --base "
	"or --fleet vessels of one base share trips. A vessel in use all year has years "
	"instead of winters. A station's price is that for the age a thing has by then. With changes (--price and so on) the plan reckons with them; "
	"with --compare it is set beside the plan without them.",
    .examples = "years 3\n"
		"the next three winters at least cost\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .json = true,
    .run = run_years,
};
