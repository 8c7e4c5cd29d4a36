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
    OPTION("vessel", "NAME", VESSEL, struct asked, years.vessel, "this vessel only",
	.not_with = "base fleet"),
    OPTION("base", "PLACE", WORDS, struct asked, years.base,
	"the vessels of this base as one: they share trips", .not_with = "fleet"),
    FLAG_OPTION("fleet", struct asked, years.fleet,
	"every base's vessels as one: they share trips"),
    OPTION("grade", "law|maker|practice", CHOICE, struct asked, grade,
	"what is of this grade or more binding may not lapse; practice if left out"),
    OPTION("price", "KIND:TASK[@Ny]=PRICE", WORDS, struct asked, prices,
	"if a task on one piece of a kind cost this, from an age on", .repeatable = true),
    OPTION("without-station", "STATION", WORDS, struct asked, years.without_stations,
	"if this station were not gone to", .repeatable = true),
    OPTION("renew-now", "TAG", WORDS, struct asked, years.renew_now,
	"if this item were renewed in the first winter"),
    OPTION("skip-winter", "YEAR", COUNT, struct asked, years.skip_year,
	"if nobody went to a station in this winter", .least = 1901, .most = 2190),
    OPTION("if", "use=USE", WORDS, struct asked, use,
	"if her use were private or commercial"),
    OPTION("if-from", "DATE", DAY, struct asked, use_from,
	"with --if: from this day on; today if left out", .needs = "if"),
    FLAG_OPTION("compare", struct asked, years.compare,
	"set what these changes lead to beside the plan without them",
	.needs = "price without-station renew-now skip-winter if"),
    FLAG_OPTION("csv", struct asked, csv, "answer as CSV, for a spreadsheet",
	.not_with = "json compare"),
    OPTION("html", "FILE", WORDS, struct asked, html,
	"write it as a page with drawings too, to print"),
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
