/* becket remind */
#include "cli/command.h"
#include "cli/values.h"
#include "desk/remind.h"
#include "exchange/answers.h"

#include <string.h>
#include <strings.h>

struct remind_said {
	struct scope_said scope;
	struct word_list plan;
	struct word_list confirmed;
	struct word_list give_up;
	struct word_list notice;
	const char *weekday;
	int routines; /* SAID_YES, SAID_NO, or 0 for not told */
	int singles;
};

enum { SAID_YES = 1, SAID_NO };

static const struct option_spec OPTIONS[] = {
    SCOPE_OPTIONS(struct remind_said, scope, NULL, ""),
    OPTION("plan", "ID|STATION=DATE|none", WORDS, struct remind_said, plan,
	"put the reminder of this identity, or the next hand-in there, on a day of "
	"yours, or back",
	.repeatable = true),
    OPTION("confirmed", "STATION=DATE", STATION, struct remind_said, confirmed,
	"the station confirmed its next hand-in for this day: as --plan, and said so",
	.repeatable = true),
    OPTION("give-up", "STATION[=REASON]", STATION, struct remind_said, give_up,
	"give up the hand-in there, or of this identity, for this winter",
	.repeatable = true),
    OPTION("notice", "KIND=DAYS|none", WORDS, struct remind_said, notice,
	"be reminded of this kind so many days before", .repeatable = true),
    OPTION("weekday", "DAY", WORDS, struct remind_said, weekday,
	"your day for what is overdue and what you do yourself; saturday at first"),
    OPTION("routines", "yes|no", CHOICE, struct remind_said, routines,
	"the weekly and monthly looks, too", .least = SAID_YES),
    OPTION("singles", "yes|no", CHOICE, struct remind_said, singles,
	"one for each item and task besides the gathered ones", .least = SAID_YES),
};

static bool
read_weekday(const char *words, int *out, struct fault *fault)
{
	for (int day = 0; day < 7; day++) {
		if (strcasecmp(words, weekday_name(day)) == 0) {
			*out = day;
			return true;
		}
	}
	return fault_set(fault, FAULT_INPUT,
	    "--weekday: expected a day of the week, as saturday, found \"%s\"", words);
}

/* Cuts "NAME=VALUE" at a sign; the name is copied. `*value_out` is "" without one. */
static const char *
cut_pair(
    struct context *context, const char *pair, const char *sign, const char **value_out)
{
	size_t length = sign == NULL ? strlen(pair) : (size_t)(sign - pair);
	char *name = arena_alloc(&context->desk.arena, length + 1);
	memcpy(name, pair, length);
	name[length] = '\0';
	*value_out = sign == NULL ? "" : sign + 1;
	return name;
}

/* Reads "liferaft-canister=56"; "none" takes a notice back. */
static bool
read_notice(
    struct context *context, const char *pair, struct notice *out, struct fault *fault)
{
	const char *value = NULL;
	const char *name = cut_pair(context, pair, strrchr(pair, '='), &value);
	const struct kind *kind = NULL;
	long days = -1;
	if (name[0] == '\0' || value[0] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "--notice: expected NAME=VALUE, found \"%s\"", pair);
	}
	if (!desk_kind(&context->desk, name, &kind, fault)) {
		return false;
	}
	if (!text_same_letters(value, "none") && !number_read(value, 0, 366, &days)) {
		return fault_set(fault, FAULT_INPUT,
		    "--notice %s: expected days from 0 to 366, or none, found \"%s\"",
		    name, value);
	}
	*out = (struct notice){kind->id, (int)days};
	return true;
}

/* Reads "ID=DATE" or "STATION=DATE"; or "STATION" and "STATION=REASON", whose reason may have a
 * sign of its own in it. */
static bool
read_day(struct context *context, const char *option, const char *pair,
    struct said_day *out, struct fault *fault)
{
	bool gives_up = out->what == SAID_GIVE_UP;
	const char *value = NULL;
	out->of = cut_pair(
	    context, pair, gives_up ? strchr(pair, '=') : strrchr(pair, '='), &value);
	out->day = DAY_NONE;
	if (out->of[0] == '\0' || (value[0] == '\0' && !gives_up)) {
		return fault_set(fault, FAULT_INPUT, "--%s: expected %s, found \"%s\"",
		    option, gives_up ? "STATION=REASON" : "NAME=VALUE", pair);
	}
	if (gives_up) {
		out->why = value;
		return true;
	}
	return text_same_letters(value, "none") ||
	       day_typed(value, context->desk.today, &out->day, fault) ||
	       fault_prefix(fault, "--%s %s", option, out->of);
}

static bool
read_notices(struct context *context, const struct word_list *pairs,
    struct remind_request *out, struct fault *fault)
{
	struct notice *notices =
	    arena_alloc(&context->desk.arena, (pairs->count + 1) * sizeof *notices);
	for (size_t i = 0; i < pairs->count; i++) {
		if (!read_notice(context, pairs->items[i], &notices[i], fault)) {
			return false;
		}
	}
	out->notices = notices;
	out->notice_count = pairs->count;
	return true;
}

static bool
read_days(struct context *context, const struct remind_said *said,
    struct remind_request *out, struct fault *fault)
{
	const struct {
		const char *option;
		const struct word_list *pairs;
		enum day_said what;
	} days_said[] = {{"plan", &said->plan, SAID_PLAN},
	    {"confirmed", &said->confirmed, SAID_CONFIRMED},
	    {"give-up", &said->give_up, SAID_GIVE_UP}};

	size_t most = said->plan.count + said->confirmed.count + said->give_up.count;
	struct said_day *days =
	    arena_alloc(&context->desk.arena, (most + 1) * sizeof *days);
	for (size_t i = 0; i < COUNT_OF(days_said); i++) {
		for (size_t j = 0; j < days_said[i].pairs->count; j++) {
			struct said_day *day = &days[out->day_count++];
			*day = (struct said_day){.what = days_said[i].what};
			if (!read_day(context, days_said[i].option,
				days_said[i].pairs->items[j], day, fault)) {
				return false;
			}
		}
	}
	out->days = days;
	return true;
}

static bool
read_request(struct context *context, const struct remind_said *said,
    struct remind_request *out, struct fault *fault)
{
	out->set_weekday = said->weekday != NULL;
	out->set_routines = said->routines != 0;
	out->set_singles = said->singles != 0;
	out->routines = said->routines == SAID_YES;
	out->singles = said->singles == SAID_YES;
	return (said->weekday == NULL ||
		   read_weekday(said->weekday, &out->weekday, fault)) &&
	       read_notices(context, &said->notice, out, fault) &&
	       read_days(context, said, out, fault);
}

/* An answer that is made of some boats at a time. */
struct remind_making {
	bool json;
	struct runs kept;
	struct remind_report report;
};

static void
remind_making_clear(struct remind_making *making)
{
	runs_clear(&making->kept);
	remind_report_clear(&making->report);
}

static void
take_rows(const struct reminder_row *rows, size_t count, void *of)
{
	struct remind_making *making = of;
	if (making->json) {
		answer_remind_keep(rows, count, &making->kept);
	} else {
		report_remind_some(&making->report, rows, count);
	}
}

/* Takes the rows to show: of one boat or base, or of all; base by base unless the book is
 * loaded. */
static bool
find_rows(struct desk *desk, const struct remind_said *said, bool loaded,
    const struct scope *scope, struct remind_making *making, struct arena *arena,
    struct reminder_choices *choices, struct fault *fault)
{
	const struct plans_wish whose = {
	    .vessel = said->scope.vessel, .base = said->scope.base};
	struct reminders_seen seen = {0};
	struct reminder_row *rows = NULL;
	if (whose.vessel == NULL && whose.base == NULL && !loaded) {
		return desk_reminders_by_bases(
		    desk, scope, take_rows, making, arena, choices, fault);
	}
	if (!desk_reminders(desk, &whose, &seen, fault)) {
		return false;
	}
	reminders_narrow(&seen.reminders, &desk->contents.inventory, scope);
	size_t count = desk_reminder_rows(desk, &seen, &rows);
	take_rows(rows, count, making);
	*choices = seen.choices;
	return true;
}

/* Lists the reminders. */
static bool
list(struct context *context, const struct remind_said *said, bool loaded,
    const struct scope *scope, struct fault *fault)
{
	__attribute__((cleanup(remind_making_clear))) struct remind_making making = {
	    .json = context->json};
	SCOPED_ARENA arena = {0};
	struct reminder_choices choices = {0};
	if (!find_rows(
		&context->desk, said, loaded, scope, &making, &arena, &choices, fault)) {
		return false;
	}
	context_hold(context);
	return context->json ? answer_kept(&making.kept, &context->out, fault)
			     : report_remind_end(&making.report, context_style(context),
				   &choices, &context->out, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct remind_said said = {0};
	struct scope scope = {0};
	struct remind_request request = {0};
	if (!options_into(context->given, &said, fault) ||
	    !scope_of(context, &said.scope, &scope, fault) ||
	    !read_request(context, &said, &request, fault)) {
		return false;
	}
	bool says = request.set_weekday || request.set_routines || request.set_singles ||
		    request.notice_count + request.day_count > 0;
	return (!says || desk_remind(&context->desk, &request, fault)) &&
	       list(context, &said, says, &scope, fault);
}

const struct command COMMAND_REMIND = {
    .name = "remind",
    .summary = "list what you will be reminded of, and choose how",
    .details =
	"What is chosen here holds for the file, the feed and the server alike; what has been given "
	"out keeps its day until that is past, and listing it here gives nothing out. A planned day "
	"stands until it is past; one beyond the last day that works says so in its text. A hand-in "
	"that is given up rings no more, and the winter's list says why; --plan or a landing there "
	"takes that back. The "
	"usual notice is 28 days before the last day for what you do and buy, and for "
	"what a station does on a boat in use all year, and none for what else can't wait for a "
	"winter.",
    .examples = "remind\n"
		"all reminders to come, day by day\n"
		"remind --weekday friday --routines yes\n"
		"what is overdue on Fridays, and the monthly looks too\n",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_WRITE,
    .answers = ONE_ANSWER(KEYS_OF_REMIND),
    .quiet = true,
    .run = run,
};
