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

/* An answer that is made of some plans at a time. */
struct years_making {
	struct context *context;
	struct years_report report; /* in words or as CSV */
	struct years_kept kept;     /* as JSON */
	bool any;                   /* there are boats */
};

static void
making_clear(struct years_making *making)
{
	years_report_clear(&making->report);
	years_kept_clear(&making->kept);
}

static void
take_some(const struct outlook_view *some, const size_t *places, void *of)
{
	struct years_making *making = of;
	struct context *context = making->context;
	if (some == NULL) {
		making_clear(making);
		return;
	}
	making->any = making->any || some->inventory->vessel_count > 0;
	(void)context_style(context);
	if (context->json) {
		answer_years_keep(some, places, &making->kept);
	} else {
		report_years_some(
		    &making->report, context->desk.engine.kinds, some, places);
	}
}

/* Writes all that was taken. */
static bool
write_taken(struct years_making *making, struct fault *fault)
{
	struct context *context = making->context;
	if (context->json) {
		return answer_years_kept(&making->kept, &context->out, fault);
	}
	return report_years_end(&making->report, &context->out, fault);
}

static bool
say(struct years_making *making, const struct asked *asked, struct fault *fault)
{
	struct context *context = making->context;
	if (!desk_years_by_bases(
		&context->desk, &asked->years, take_some, making, fault)) {
		return false;
	}
	if (!context->json && !making->any && context_is_empty(context)) {
		return true;
	}
	if (context->json) {
		context_write_as_made(context);
	} else {
		context_hold(context);
	}
	return write_taken(making, fault);
}

/* Writes what is supposed beside what is. */
static bool
write_compared(
    struct context *context, const struct years_answer *answer, struct fault *fault)
{
	struct years_kept as_is = {0};
	struct years_kept changed = {0};
	if (!context->json) {
		report_years_compared(
		    context_style(context), &answer->as_is, &answer->view, &context->out);
		return true;
	}
	answer_years_keep(&answer->as_is, NULL, &as_is);
	answer_years_keep(&answer->view, NULL, &changed);
	bool done = answer_years_compared(&as_is, &changed, &context->out, fault);
	years_kept_clear(&as_is);
	years_kept_clear(&changed);
	return done;
}

/* All plans at once: beside those of the book as it is, or for a page too. */
static bool
say_at_once(struct years_making *making, const struct asked *asked, struct fault *fault)
{
	struct context *context = making->context;
	struct years_answer answer = {0};
	SCOPED_NEW_FILE page = {0};
	if (!desk_years(&context->desk, &asked->years, &answer, fault)) {
		return false;
	}
	if (!context->json && context_is_empty(context)) {
		return true;
	}
	if (!write_page(context, asked->html, &answer.view, &page, fault)) {
		return false;
	}
	bool done = false;
	if (asked->years.compare) {
		done = write_compared(context, &answer, fault);
	} else {
		take_some(&answer.view, NULL, making);
		done = write_taken(making, fault);
	}
	return done && (page.path == NULL || new_file_keep(&page, fault));
}

static bool
run_years(struct context *context, struct fault *fault)
{
	struct asked asked = {.grade = GRADE_PRACTICE, .use_from = context->desk.today};
	if (!options_into(context->given, &asked, fault) ||
	    !read_winters(context, &asked.years.winters, fault) ||
	    !years_read_prices(context, &asked.prices, &asked.years, fault) ||
	    !years_read_use(context, asked.use, asked.use_from, &asked.years, fault)) {
		return false;
	}
	asked.years.least = (enum grade)asked.grade;
	context->style.csv = asked.csv;
	asked.years.asides = !asked.csv && asked.html == NULL;
	struct years_making making = {.context = context,
	    .report = {.style = &context->style, .columns = context->out.columns}};
	bool done = asked.years.compare || asked.html != NULL
			? say_at_once(&making, &asked, fault)
			: say(&making, &asked, fault);
	making_clear(&making);
	return done;
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
