/* becket remind */
#include "cli/command.h"
#include "cli/giving_up.h"
#include "cli/item_options.h"
#include "cli/reminding.h"
#include "cli/values.h"
#include "dates/weekdays.h"
#include "exchange/json_object.h"
#include "report/table.h"

#include <string.h>
#include <strings.h>

static const char WHO[] = "becket remind";

/* So much of an identity names a reminder. */
enum { SHORT_ID = 8 };

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "this vessel's reminders only"},
    {.name = "base", .argument = "PLACE", .help = "those of the vessels of this base"},
    {.name = "station",
	.argument = "STATION",
	.help = "the hand-ins and collects of this station"},
    {.name = "plan",
	.argument = "ID=DATE|none",
	.help = "put the reminder of this identity on a day of yours, or back",
	.repeatable = true},
    {.name = "confirmed",
	.argument = "STATION=DATE",
	.help =
	    "the station confirmed its next hand-in for this day: as --plan, and said so",
	.repeatable = true},
    {.name = "give-up",
	.argument = "STATION[=REASON]",
	.help = "give up the hand-in there, or of this identity, for this winter",
	.repeatable = true},
    {.name = "notice",
	.argument = "KIND=DAYS|none",
	.help = "be reminded of this kind so many days before",
	.repeatable = true},
    {.name = "weekday",
	.argument = "DAY",
	.help =
	    "your day for what is overdue and what you do yourself; saturday at first"},
    {.name = "routines",
	.argument = "yes|no",
	.help = "the weekly and monthly looks, too"},
    {.name = "singles",
	.argument = "yes|no",
	.help = "one for each item and task besides the gathered ones"},
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

/* Cuts "NAME=VALUE"; the name is copied. */
static bool
cut_pair(struct context *context, const char *option, const char *pair,
    const char **name_out, const char **value_out, struct fault *fault)
{
	const char *sign = strrchr(pair, '=');
	if (sign == NULL || sign == pair || sign[1] == '\0') {
		return fault_set(fault, FAULT_INPUT,
		    "--%s: expected NAME=VALUE, found \"%s\"", option, pair);
	}
	char *name = arena_alloc(&context->desk.arena, (size_t)(sign - pair) + 1);
	memcpy(name, pair, (size_t)(sign - pair));
	name[sign - pair] = '\0';
	*name_out = name;
	*value_out = sign + 1;
	return true;
}

/* Reads "liferaft-canister=56"; "none" takes a notice back. */
static bool
read_notice(
    struct context *context, const char *pair, struct notice *out, struct fault *fault)
{
	const char *name = NULL;
	const char *value = NULL;
	const struct kind *kind = NULL;
	long days = -1;
	if (!cut_pair(context, "notice", pair, &name, &value, fault) ||
	    !kind_from_words(context, name, &kind, fault)) {
		return false;
	}
	if (strcmp(value, "none") != 0 && !number_read(value, 0, 366, &days)) {
		return fault_set(fault, FAULT_INPUT,
		    "--notice %s: expected days from 0 to 366, or none, found \"%s\"",
		    name, value);
	}
	*out = (struct notice){kind->id, (int)days};
	return true;
}

/* The one reminder whose identity starts so. */
static bool
find_reminder(const struct reminders *reminders, const char *id,
    const struct reminder **out, struct fault *fault)
{
	const struct reminder *found = NULL;
	size_t count = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		if (strncasecmp(reminders->items[i].uid, id, strlen(id)) == 0) {
			found = &reminders->items[i];
			count++;
		}
	}
	if (count != 1) {
		return fault_set(fault, FAULT_INPUT,
		    "--plan: %s reminder's identity starts with \"%s\"; \"becket remind\" "
		    "shows them",
		    count == 0 ? "no" : "more than one", id);
	}
	*out = found;
	return true;
}

/* The reminder of an identity; what was given up has none, and is found as what is to be taken back. */
static bool
find_to_plan(struct context *context, const struct reminders *reminders, const char *id,
    struct planned_day *out, struct fault *fault)
{
	const struct reminder *reminder = NULL;
	bool found = false;
	if (!given_up_find(context, id, out, &found, fault)) {
		return false;
	}
	if (found) {
		return true;
	}
	if (!find_reminder(reminders, id, &reminder, fault)) {
		return false;
	}
	if (reminder->last_chance) {
		return fault_set(fault, FAULT_INPUT,
		    "--plan %s: that is the last day that serves, and can't be put off; plan "
		    "the day of the hand-in itself",
		    id);
	}
	*out = (struct planned_day){.key = reminder->key, .summary = reminder->summary};
	return true;
}

static bool
find_confirmed(struct context *context, const struct reminders *reminders,
    const char *name, struct planned_day *out, struct fault *fault)
{
	const struct reminder *reminder = NULL;
	if (!hand_in_to_come(context, reminders, "confirmed", name, &reminder, fault)) {
		return false;
	}
	*out = (struct planned_day){
	    .key = reminder->key, .summary = reminder->summary, .confirmed = true};
	return true;
}

static bool
read_plan(struct context *context, const struct reminders *reminders, const char *option,
    const char *pair, struct planned_day *out, struct fault *fault)
{
	const char *id = NULL;
	const char *value = NULL;
	day_t day = DAY_NONE;
	if (strcmp(option, "give-up") == 0) {
		return giving_up_read(context, reminders, pair, out, fault);
	}
	if (!cut_pair(context, option, pair, &id, &value, fault) ||
	    !(strcmp(option, "confirmed") == 0
		    ? find_confirmed(context, reminders, id, out, fault)
		    : find_to_plan(context, reminders, id, out, fault))) {
		return false;
	}
	if (strcmp(value, "none") != 0 &&
	    !day_typed(value, context->desk.today, &day, fault)) {
		return fault_prefix(fault, "--%s %s", option, id);
	}
	if (day != DAY_NONE && day < context->desk.today) {
		char words[DAY_WORDS_SIZE];
		return fault_set(fault, FAULT_INPUT,
		    "--%s %s: %s is past; expected today or a day to come", option, id,
		    day_words(day, words));
	}
	out->day = day;
	out->given_up = NULL;
	return true;
}

/* Room for as many as were given. */
static void *
room_for_options(struct context *context, size_t size)
{
	return arena_alloc(&context->desk.arena, (context->given->count + 1) * size);
}

static bool
read_notices(struct context *context, struct choices_change *change, struct fault *fault)
{
	struct notice *notices = room_for_options(context, sizeof *notices);
	size_t cursor = 0;
	for (const char *pair = options_next(context->given, "notice", &cursor);
	     pair != NULL; pair = options_next(context->given, "notice", &cursor)) {
		if (!read_notice(
			context, pair, &notices[change->notice_count++], fault)) {
			return false;
		}
	}
	change->notices = notices;
	return true;
}

static bool
read_plans(struct context *context, const struct reminders *reminders,
    struct choices_change *change, struct fault *fault)
{
	struct planned_day *planned = room_for_options(context, sizeof *planned);
	static const char *const OPTION_NAMES[] = {"plan", "confirmed", "give-up"};
	for (size_t i = 0; i < COUNT_OF(OPTION_NAMES); i++) {
		size_t cursor = 0;
		const char *pair = NULL;
		while ((pair = options_next(context->given, OPTION_NAMES[i], &cursor)) !=
		       NULL) {
			if (!read_plan(context, reminders, OPTION_NAMES[i], pair,
				&planned[change->planned_count++], fault)) {
				return false;
			}
		}
	}
	change->planned = planned;
	return true;
}

static bool
read_change(struct context *context, const struct reminders *reminders,
    struct choices_change *change, struct fault *fault)
{
	const char *weekday = options_value(context->given, "weekday");
	const char *routines = options_value(context->given, "routines");
	const char *singles = options_value(context->given, "singles");
	change->set_weekday = weekday != NULL;
	change->set_routines = routines != NULL;
	change->set_singles = singles != NULL;
	change->routines = routines != NULL && strcmp(routines, "yes") == 0;
	change->singles = singles != NULL && strcmp(singles, "yes") == 0;
	return (weekday == NULL || read_weekday(weekday, &change->weekday, fault)) &&
	       read_notices(context, change, fault) &&
	       read_plans(context, reminders, change, fault);
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

static bool
say(struct context *context, const struct reminders *reminders,
    const struct reminder_choices *choices, struct fault *fault)
{
	static const struct table_column COLUMNS[] = {
	    {"Day", 0, ALIGN_LEFT, false},
	    {"", 0, ALIGN_LEFT, false},
	    {"Reminder", 0, ALIGN_LEFT, true},
	    {"Identity", 0, ALIGN_LEFT, false},
	};
	SCOPED_TABLE table = {0};
	table_init(&table, COLUMNS, COUNT_OF(COLUMNS), 0, context->style.colour);
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		char day[DAY_WORDS_SIZE];
		char id[SHORT_ID + 1] = "";
		(void)strncat(id, reminder->uid, SHORT_ID);
		table_add(&table, HUE_NONE, day_words(reminder->day, day));
		table_add(
		    &table, HUE_NONE, is_planned(choices, reminder) ? "planned" : "");
		table_add(&table, HUE_NONE, reminder->summary);
		table_add(&table, HUE_NONE, id);
	}
	if (reminders->count == 0) {
		text_add(&context->out, "Nothing to be reminded of.\n");
	}
	table_write(&table, &context->out);
	add_choices(choices, &context->out);
	return given_up_say(context, choices, &context->out, fault);
}

static void
say_json(struct context *context, const struct reminders *reminders,
    const struct reminder_choices *choices)
{
	struct answer answer = {.out = &context->out};
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		json_t *object = json_object();
		json_put_string(&answer, object, "uid", reminder->uid);
		json_put_day(&answer, object, "day", reminder->day);
		json_put_string(&answer, object, "summary", reminder->summary);
		json_put_string(&answer, object, "description", reminder->description);
		json_put_words(&answer, object, "station", reminder->station);
		json_put_bool(&answer, object, "planned", is_planned(choices, reminder));
		answer_element(&answer, object);
	}
	answer_end(&answer);
}

/* Keeps the hand-ins of what was planned as they are now. */
static bool
keep_planned(
    struct context *context, const struct choices_change *change, struct fault *fault)
{
	for (size_t i = 0; i < change->planned_count; i++) {
		if (!reminding_keep_hand_in(context, change->planned[i].key, fault)) {
			return false;
		}
	}
	return true;
}

/* Makes the reminders once to know what --plan names, and anew by what was chosen. A hand-in that
 * is put on a day is settled by that: what is on it is kept first, so that it stays together, and
 * then its day. */
static bool
change_and_make(struct context *context, struct reminders *reminders, struct fault *fault)
{
	struct choices_change change = {0};
	if (!reminding_seen(context, reminders, fault) ||
	    !read_change(context, reminders, &change, fault) ||
	    !keep_planned(context, &change, fault) ||
	    !book_put_choices(context->desk.book, &change, fault) ||
	    !keep_planned(context, &change, fault)) {
		return false;
	}
	return reminding_seen(context, reminders, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	struct scope scope = {0};
	struct reminders reminders = {0};
	struct reminder_choices choices = {0};
	if (!reminding_scope(context, WHO, &scope, fault) ||
	    !book_begin(context->desk.book, fault) ||
	    !change_and_make(context, &reminders, fault) ||
	    !book_load_choices(
		context->desk.book, &context->desk.arena, &choices, fault) ||
	    !book_commit(context->desk.book, fault)) {
		return false;
	}
	reminders_narrow(&reminders, &context->desk.contents.inventory, &scope);
	if (context->json) {
		say_json(context, &reminders, &choices);
		return true;
	}
	return say(context, &reminders, &choices, fault);
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
    .run = run,
};
