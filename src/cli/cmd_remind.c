/* becket remind */
#include "cli/command.h"
#include "cli/scope_option.h"
#include "dates/weekdays.h"
#include "desk/remind.h"
#include "exchange/json_object.h"
#include "report/table.h"

#include <string.h>
#include <strings.h>

/* So much of an identity names a reminder. */
enum { SHORT_ID = 8 };

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
    {.name = "plan",
	.argument = "ID=DATE|none",
	.help = "put the reminder of this identity on a day of yours, or back",
	.repeatable = true,
	.type = OPTION_WORDS,
	.at = offsetof(struct remind_said, plan)},
    {.name = "confirmed",
	.argument = "STATION=DATE",
	.help =
	    "the station confirmed its next hand-in for this day: as --plan, and said so",
	.repeatable = true,
	.type = OPTION_STATION,
	.at = offsetof(struct remind_said, confirmed)},
    {.name = "give-up",
	.argument = "STATION[=REASON]",
	.help = "give up the hand-in there, or of this identity, for this winter",
	.repeatable = true,
	.type = OPTION_STATION,
	.at = offsetof(struct remind_said, give_up)},
    {.name = "notice",
	.argument = "KIND=DAYS|none",
	.help = "be reminded of this kind so many days before",
	.repeatable = true,
	.type = OPTION_WORDS,
	.at = offsetof(struct remind_said, notice)},
    {.name = "weekday",
	.argument = "DAY",
	.help =
	    "your day for what is overdue and what you do yourself; saturday at first",
	.type = OPTION_WORDS,
	.at = offsetof(struct remind_said, weekday)},
    {.name = "routines",
	.argument = "yes|no",
	.help = "the weekly and monthly looks, too",
	.type = OPTION_CHOICE,
	.at = offsetof(struct remind_said, routines),
	.least = SAID_YES},
    {.name = "singles",
	.argument = "yes|no",
	.help = "one for each item and task besides the gathered ones",
	.type = OPTION_CHOICE,
	.at = offsetof(struct remind_said, singles),
	.least = SAID_YES},
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

static bool
is_planned(const struct reminder_choices *choices, const struct reminder *reminder)
{
	for (size_t i = 0; i < choices->planned_count; i++) {
		if (strcmp(choices->planned[i].key, reminder->key) == 0) {
			return choices->planned[i].day == reminder->day;
		}
	}
	return false;
}

static void
add_choices(const struct reminder_choices *choices, struct text *out)
{
	SCOPED_TEXT words = {0};
	text_add_format(&words,
	    "Your day for what is overdue and what you do yourself: %s. Weekly and monthly "
	    "looks: %s. One for each item: %s.",
	    weekday_name(choices->weekday), choices->routines ? "yes" : "no",
	    choices->singles ? "yes" : "no");
	for (size_t i = 0; i < choices->notice_count; i++) {
		const struct notice *notice = &choices->notices[i];
		text_add_format(&words, " %s: %d day%s before.", notice->kind,
		    notice->days, notice->days == 1 ? "" : "s");
	}
	text_add(out, "\n");
	paragraph(text_string(&words), 0, 0, out);
}

static void
add_given_up(const struct given_up *given_up, struct text *out)
{
	char day[DAY_WORDS_SIZE];
	SCOPED_TEXT words = {0};
	text_add_format(&words,
	    "Given up for its winter: %s, planned for %s: %s. Taken back with "
	    "--plan %.*s=DATE, or =none for a day that is found for it.",
	    given_up->of.summary, day_words(given_up->of.day, day), given_up->of.given_up,
	    SHORT_ID, given_up->uid);
	text_add(out, "\n");
	paragraph(text_string(&words), 0, 0, out);
}

static void
say(struct context *context, const struct reminders_seen *seen)
{
	static const struct table_column COLUMNS[] = {
	    {"Day", 0, ALIGN_LEFT, false},
	    {"", 0, ALIGN_LEFT, false},
	    {"Reminder", 0, ALIGN_LEFT, true},
	    {"Identity", 0, ALIGN_LEFT, false},
	};
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, COUNT_OF(COLUMNS), 0, context->style.colour);
	for (size_t i = 0; i < seen->reminders.count; i++) {
		const struct reminder *reminder = &seen->reminders.items[i];
		bool planned = is_planned(&seen->choices, reminder);
		char day[DAY_WORDS_SIZE];
		char id[SHORT_ID + 1] = "";
		(void)strncat(id, reminder->uid, SHORT_ID);
		table_add(&table, HUE_NONE, day_words(reminder->day, day));
		table_add(&table, HUE_NONE, planned ? "planned" : "");
		table_add(&table, HUE_NONE, reminder->summary);
		table_add(&table, HUE_NONE, id);
	}
	if (seen->reminders.count == 0) {
		text_add(&context->out, "Nothing to be reminded of.\n");
	}
	table_write(&table, &context->out);
	add_choices(&seen->choices, &context->out);
	for (size_t i = 0; i < seen->given_up_count; i++) {
		add_given_up(&seen->given_up[i], &context->out);
	}
}

/* One element; what was given up is on no day. */
static void
put_reminder(struct answer *answer, const struct reminder *reminder, bool planned,
    const struct given_up *given_up)
{
	json_t *object = json_object();
	json_put_string(object, "uid", reminder->uid);
	json_put_day(object, "day", reminder->day);
	json_put_string(object, "summary", reminder->summary);
	json_put_string(object, "description", reminder->description);
	json_put_words(object, "station", reminder->station);
	json_put_bool(object, "planned", planned);
	json_put_words(object, "given_up", given_up == NULL ? "" : given_up->of.given_up);
	json_put_day(
	    object, "given_up_day", given_up == NULL ? DAY_NONE : given_up->of.day);
	answer_element(answer, object);
}

static void
say_json(struct context *context, const struct reminders_seen *seen)
{
	struct answer answer = {.out = &context->out};
	for (size_t i = 0; i < seen->reminders.count; i++) {
		const struct reminder *reminder = &seen->reminders.items[i];
		put_reminder(
		    &answer, reminder, is_planned(&seen->choices, reminder), NULL);
	}
	for (size_t i = 0; i < seen->given_up_count; i++) {
		const struct given_up *given_up = &seen->given_up[i];
		const struct reminder none = {.uid = given_up->uid,
		    .day = DAY_NONE,
		    .summary = given_up->of.summary,
		    .description = "",
		    .station = ""};
		put_reminder(&answer, &none, false, given_up);
	}
	answer_end(&answer);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct desk *desk = &context->desk;
	struct remind_said said = {0};
	struct scope scope = {0};
	struct remind_request request = {0};
	struct reminders_seen seen = {0};
	if (!options_into(context->given, &said, fault) ||
	    !scope_of(context, &said.scope, &scope, fault) ||
	    !read_request(context, &said, &request, fault)) {
		return false;
	}
	bool says = request.set_weekday || request.set_routines || request.set_singles ||
		    request.notice_count + request.day_count > 0;
	if ((says && !desk_remind(desk, &request, fault)) ||
	    !desk_reminders(desk, &seen, fault)) {
		return false;
	}
	reminders_narrow(&seen.reminders, &desk->contents.inventory, &scope);
	if (context->json) {
		say_json(context, &seen);
	} else {
		say(context, &seen);
	}
	return true;
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
	"usual notice is 28 days before the last day for what you do and buy, and none for what "
	"can't wait for a winter.",
    .table = {.options = OPTIONS, .option_count = COUNT_OF(OPTIONS)},
    .needs = NEEDS_WRITE,
    .json = true,
    .quiet = true,
    .run = run,
};
