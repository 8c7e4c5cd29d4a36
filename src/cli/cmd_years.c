/* becket years */
#include "cli/command.h"
#include "cli/values.h"
#include "desk/files.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {
    {.name = "N", .help = "how many winters, 1 to 20; 8 if left out"},
};

struct asked {
	struct years_asked years;
	struct word_list prices;
	const char *use; /* NULL for none */
	day_t use_from;
	int grade; /* an enum grade */
	bool csv;
	const char *html; /* a file; NULL for none */
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel",
	.argument = "NAME",
	.help = "this vessel only",
	.not_with = "base fleet",
	.type = OPTION_VESSEL,
	.at = offsetof(struct asked, years.vessel)},
    {.name = "base",
	.argument = "PLACE",
	.help = "the vessels of this base as one: they share trips",
	.not_with = "fleet",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, years.base)},
    {.name = "fleet",
	.help = "every base's vessels as one: they share trips",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, years.fleet)},
    {.name = "grade",
	.argument = "law|maker|practice",
	.help =
	    "what is of this grade or more binding may not lapse; practice if left out",
	.type = OPTION_CHOICE,
	.at = offsetof(struct asked, grade)},
    {.name = "price",
	.argument = "KIND:TASK[@Ny]=PRICE",
	.help = "if a task on one piece of a kind cost this, from an age on",
	.repeatable = true,
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, prices)},
    {.name = "without-station",
	.argument = "STATION",
	.help = "if this station were not gone to",
	.repeatable = true,
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, years.without_stations)},
    {.name = "renew-now",
	.argument = "TAG",
	.help = "if this item were renewed in the first winter",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, years.renew_now)},
    {.name = "skip-winter",
	.argument = "YEAR",
	.help = "if nobody went to a station in this winter",
	.type = OPTION_COUNT,
	.at = offsetof(struct asked, years.skip_year),
	.least = 1901,
	.most = 2190},
    {.name = "if",
	.argument = "use=USE",
	.help = "if her use were private or commercial",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, use)},
    {.name = "if-from",
	.argument = "DATE",
	.help = "with --if: from this day on; today if left out",
	.needs = "if",
	.type = OPTION_DAY,
	.at = offsetof(struct asked, use_from)},
    {.name = "compare",
	.help = "set what these changes lead to beside the plan without them",
	.needs = "price without-station renew-now skip-winter if",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, years.compare)},
    {.name = "csv",
	.help = "answer as CSV, for a spreadsheet",
	.not_with = "json compare",
	.type = OPTION_FLAG,
	.at = offsetof(struct asked, csv)},
    {.name = "html",
	.argument = "FILE",
	.help = "write it as a page with drawings too, to print",
	.type = OPTION_WORDS,
	.at = offsetof(struct asked, html)},
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

/* Writes the page where one was asked for; it takes its place when it is kept. */
static bool
write_page(struct context *context, const char *path, const struct outlook_view *view,
    struct new_file *out, struct fault *fault)
{
	SCOPED_TEXT page = {0};
	if (path == NULL) {
		return true;
	}
	page_years(context_style(context), context->desk.engine.kinds, view, &page);
	return new_file_write(path, text_string(&page), page.length, out, fault);
}

static void
write_answer(
    struct context *context, const struct asked *asked, const struct years_answer *answer)
{
	const struct report_style *style = context_style(context);
	const struct outlook_view *view = &answer->view;
	if (asked->years.compare && context->json) {
		answer_years_compared(&answer->as_is, view, &context->out);
	} else if (asked->years.compare) {
		report_years_compared(style, &answer->as_is, view, &context->out);
	} else if (context->json) {
		answer_years(view, &context->out);
	} else {
		report_years(style, context->desk.engine.kinds, view, &context->out);
	}
}

static bool
run_years(struct context *context, struct fault *fault)
{
	struct asked asked = {.grade = GRADE_PRACTICE, .use_from = context->desk.today};
	struct years_answer answer = {0};
	SCOPED_NEW_FILE page = {0};
	if (!options_into(context->given, &asked, fault) ||
	    !read_winters(context, &asked.years.winters, fault) ||
	    !years_read_prices(context, &asked.prices, &asked.years, fault) ||
	    !years_read_use(context, asked.use, asked.use_from, &asked.years, fault)) {
		return false;
	}
	asked.years.least = (enum grade)asked.grade;
	context->style.csv = asked.csv;
	asked.years.asides = !asked.csv && asked.html == NULL;
	if (!desk_years(&context->desk, &asked.years, &answer, fault)) {
		return false;
	}
	if (!context->json && context_is_empty(context)) {
		return true;
	}
	if (!write_page(context, asked.html, &answer.view, &page, fault)) {
		return false;
	}
	write_answer(context, &asked, &answer);
	return page.path == NULL || new_file_keep(&page, fault);
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
    .answers = ONE_ANSWER(KEYS_OF_YEARS),
    .run = run_years,
};
