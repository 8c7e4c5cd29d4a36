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

/* An answer that is made of some plans at a time. */
struct years_making {
	struct context *context;
	const struct asked *asked;
	struct years_report report;     /* in words or as CSV */
	struct years_kept kept;         /* as JSON */
	struct years_kept as_is;        /* beside it */
	struct years_compared compared; /* in words */
	struct years_drawn drawn;       /* as a page */
	bool any;                       /* there are boats */
};

static void
making_clear(struct years_making *making)
{
	years_report_clear(&making->report);
	years_kept_clear(&making->kept);
	years_kept_clear(&making->as_is);
	years_compared_clear(&making->compared);
	years_drawn_clear(&making->drawn);
}

/* Takes plans that are told beside those of the book as it is. */
static void
take_compared(
    const struct years_answer *some, const size_t *places, struct years_making *making)
{
	if (making->context->json) {
		answer_years_keep(&some->as_is, places, &making->as_is);
		answer_years_keep(&some->view, places, &making->kept);
	} else {
		report_years_compare_some(
		    &making->compared, &some->as_is, &some->view, places);
	}
}

static void
take_some(const struct years_answer *some, const size_t *places, void *of)
{
	struct years_making *making = of;
	struct context *context = making->context;
	const struct kinds *kinds = context->desk.engine.kinds;
	if (some == NULL) {
		making_clear(making);
		return;
	}
	making->any = making->any || some->view.inventory->vessel_count > 0;
	(void)context_style(context);
	if (making->asked->html != NULL) {
		page_years_some(&making->drawn, kinds, &some->view, places);
	}
	if (making->asked->years.compare) {
		take_compared(some, places, making);
	} else if (context->json) {
		answer_years_keep(&some->view, places, &making->kept);
	} else {
		report_years_some(&making->report, kinds, &some->view, places);
	}
}

/* Writes all that was taken. */
static bool
write_taken(struct years_making *making, struct fault *fault)
{
	struct context *context = making->context;
	bool compared = making->asked->years.compare;
	if (context->json) {
		return compared ? answer_years_compared(
				      &making->as_is, &making->kept, &context->out, fault)
				: answer_years_kept(&making->kept, &context->out, fault);
	}
	return compared
		   ? report_years_compare_end(&making->compared, &context->out, fault)
		   : report_years_end(&making->report, &context->out, fault);
}

/* Writes the page where one was asked for; it takes its place when it is kept. */
static bool
write_page(struct years_making *making, struct new_file *out, struct fault *fault)
{
	SCOPED_SPOOL page = {0};
	const char *path = making->asked->html;
	return path == NULL || (page_years_end(&making->drawn, &page, fault) &&
				   new_file_write_kept(path, &page, out, fault));
}

static bool
say(struct years_making *making, struct fault *fault)
{
	struct context *context = making->context;
	const struct asked *asked = making->asked;
	SCOPED_NEW_FILE page = {0};
	if (!desk_years_by_bases(
		&context->desk, &asked->years, take_some, making, fault)) {
		return false;
	}
	if (!context->json && !making->any && context_is_empty(context)) {
		return true;
	}
	/* nothing is told before the page is in its place */
	if (context->json && asked->html == NULL) {
		context_write_as_made(context);
	} else {
		context_hold(context);
	}
	return write_page(making, &page, fault) && write_taken(making, fault) &&
	       (asked->html == NULL || new_file_keep(&page, fault));
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
	    .asked = &asked,
	    .report = {.style = &context->style, .columns = context->out.columns},
	    .compared.style = &context->style,
	    .drawn.style = &context->style};
	bool done = say(&making, fault);
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
