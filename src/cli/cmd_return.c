/* becket return */
#include "cli/command.h"
#include "cli/list_options.h"
#include "cli/returning.h"
#include "cli/values.h"
#include "report/tags.h"
#include "report/words.h"
#include "winter/agenda.h"

static const struct word_spec WORDS[] = {
    {.name = "TAG",
	.help = "the items; LJ-1..LJ-6 is six of them; none with --from-csv",
	.repeatable = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "on", .argument = "DATE", .help = "the day they are back; else today"},
    {.name = "result",
	.argument = "passed|passed-shorter|condemned|not-done",
	.help = "what the station found; passed when not told"},
    {.name = "task",
	.argument = "service|inspect|weigh|test",
	.help = "what was done; nothing is recorded as done but what is named",
	.repeatable = true},
    {.name = "as-asked",
	.help = "all that was asked of the station when they were landed was done"},
    {.name = "done", .argument = "DATE", .help = "the day of the work; else --on"},
    {.name = "next",
	.argument = "DATE|TASK=DATE",
	.help = "next date the certificate states, of the service or by task",
	.repeatable = true},
    {.name = "by",
	.argument = "STATION",
	.help = "who did it; where they are ashore when not told"},
    {.name = "certificate", .argument = "NO", .help = "the certificate's number"},
    {.name = "price", .argument = "PRICE", .help = "what it cost, each, as 45.00"},
    {.name = "renewed",
	.argument = "TAG=EXPIRES",
	.help = "a part put in new and its mark: LJ-1-FH=2029-06,made:2026-10,serial:K7",
	.repeatable = true},
    {.name = "keep",
	.argument = "TAG",
	.help = "condemned: a part that outlives it",
	.repeatable = true},
    {.name = "note", .argument = "WORDS", .help = "anything else"},
    {.name = "from-csv",
	.argument = "FILE",
	.help = "a row for each item that came back; - for standard input"},
    {.name = "dates",
	.argument = "day-first|month-first",
	.help = "how dates such as 04/05/2026 in that file are to be read"},
    LIST_OPTIONS,
    {.name = "ask", .help = "ask for each item that is ashore"},
};

static bool
read_tasks(struct context *context, struct homecoming *home, struct fault *fault)
{
	size_t cursor = 0;
	for (const char *word = options_next(context->given, "task", &cursor);
	     word != NULL; word = options_next(context->given, "task", &cursor)) {
		enum task task = TASK_SERVICE;
		if (!task_parse(word, &task, fault)) {
			return false;
		}
		home->tasks |= 1U << task;
	}
	return true;
}

static bool
read_next(struct context *context, struct homecoming *home, struct fault *fault)
{
	size_t cursor = 0;
	for (const char *words = options_next(context->given, "next", &cursor);
	     words != NULL; words = options_next(context->given, "next", &cursor)) {
		if (!homecoming_next_parse(words, ORDER_ISO, home, fault)) {
			return fault_prefix(fault, "--next");
		}
	}
	return true;
}

static bool
read_renewed(struct context *context, struct homecoming *home, struct fault *fault)
{
	struct renewed_part *parts = arena_alloc(
	    &context->desk.arena, (context->given->count + 1) * sizeof *parts);
	size_t cursor = 0;
	for (const char *words = options_next(context->given, "renewed", &cursor);
	     words != NULL; words = options_next(context->given, "renewed", &cursor)) {
		if (!renewed_parse(&context->desk.arena, words, ORDER_ISO,
			&parts[home->renewed_count], fault)) {
			return fault_prefix(fault, "--renewed");
		}
		home->renewed_count++;
	}
	home->renewed = parts;
	return true;
}

static void
read_kept(struct context *context, struct homecoming *home)
{
	const char **kept =
	    arena_alloc(&context->desk.arena, (context->given->count + 1) * sizeof *kept);
	size_t cursor = 0;
	for (const char *tag = options_next(context->given, "keep", &cursor); tag != NULL;
	     tag = options_next(context->given, "keep", &cursor)) {
		kept[home->kept_count++] = tag;
	}
	home->kept = kept;
}

/* What the options say of everything that comes back. */
static bool
read_common(struct context *context, struct homecoming *home, struct fault *fault)
{
	const struct given_options *given = context->given;
	const char *result = options_value(given, "result");
	const char *by = options_value(given, "by");
	const char *certificate = options_value(given, "certificate");
	day_t on = DAY_NONE;
	if (!life_day(context, &on, fault)) {
		return false;
	}
	*home = homecoming_on(on);
	home->by = by == NULL ? "" : by;
	home->certificate = certificate == NULL ? "" : certificate;
	home->note = life_note(context);
	home->as_asked = options_has(given, "as-asked");
	if (!(result == NULL || result_parse(result, &home->result, fault)) ||
	    !value_day(given, "done", &home->done, NULL, fault) ||
	    !read_next(context, home, fault) ||
	    !value_price(context, "price", &home->price_minor, NULL, fault) ||
	    !read_tasks(context, home, fault) || !read_renewed(context, home, fault)) {
		return false;
	}
	read_kept(context, home);
	return true;
}

/* What a file or answers say of each item can't be said for all of them beforehand. */
static bool
check_options(const struct context *context, bool by_row, struct fault *fault)
{
	static const char *const OF_ONE[] = {
	    "result", "task", "done", "next", "certificate", "price", "renewed", "keep"};
	bool file = options_has(context->given, "from-csv");
	bool ask = options_has(context->given, "ask");
	bool tags = context->given->words.count > 0;
	if (file && (ask || tags)) {
		return usage_fault(fault, "becket return",
		    "--from-csv names its items itself: it goes without TAG and --ask");
	}
	if (!file && (options_has(context->given, "dates") ||
			 options_has(context->given, "worksheet") ||
			 options_has(context->given, "encoding"))) {
		return usage_fault(fault, "becket return",
		    "--dates, --worksheet and --encoding go with --from-csv only");
	}
	if (!by_row && !tags) {
		return usage_fault(fault, "becket return",
		    "TAG is missing, or --from-csv FILE, or --ask");
	}
	if (ask && options_has(context->given, "as-asked")) {
		return usage_fault(
		    fault, "becket return", "--as-asked is offered when asked");
	}
	for (size_t i = 0; by_row && i < COUNT_OF(OF_ONE); i++) {
		if (options_has(context->given, OF_ONE[i])) {
			return usage_fault(fault, "becket return",
			    "--%s is said of each item %s", OF_ONE[i],
			    file ? "in the file" : "when asked");
		}
	}
	return true;
}

/* "LJ-1 and LJ-3 to LJ-6 back on 9 Dec 2026: passed", a line a result. */
static void
say(struct context *context, const struct bag *bag)
{
	for (int result = 0; result < RESULT_COUNT; result++) {
		struct tag_list list = {.out = &context->out};
		char on[DAY_WORDS_SIZE];
		bool any = false;
		for (size_t i = 0; i < bag->count; i++) {
			if (bag->items[i].result == (enum result)result) {
				tag_list_add(&list, bag->items[i].tag);
				any = true;
			}
		}
		tag_list_end(&list);
		if (any && result == RESULT_CONDEMNED) {
			text_add(&context->out, " withdrawn: condemned\n");
		} else if (any) {
			text_add_format(&context->out, " back on %s: %s\n",
			    day_words(bag->items[0].on, on),
			    result_word((enum result)result));
		}
	}
}

/* What a step records as done. */
static unsigned
recorded(const struct life_step *step)
{
	unsigned tasks = 0;
	for (size_t i = 0; i < step->record_count; i++) {
		tasks |= 1U << step->records[i].task;
	}
	return tasks;
}

/* What was asked of the station and is not recorded; nothing for what did not come back. */
static unsigned
left_open(const struct context *context, const struct life_step *step)
{
	const struct item *item = &context->desk.contents.inventory.items[step->item];
	bool back = step->moves && step->movement.move == MOVE_RETURNED;
	return back ? homecoming_asked(item) & ~recorded(step) : 0;
}

/* "service: LJ-1 to LJ-3", a line a task. */
static void
say_recorded(struct context *context, const struct life_plan *plan)
{
	for (int task = 0; task < TASK_COUNT; task++) {
		struct tag_list list = {.out = &context->out};
		bool any = false;
		for (size_t i = 0; i < plan->count; i++) {
			const struct life_step *step = &plan->items[i];
			if ((recorded(step) & 1U << task) == 0) {
				continue;
			}
			if (!any) {
				text_add_format(&context->out,
				    "Recorded as done, %s: ", task_noun((enum task)task));
			}
			any = true;
			tag_list_add(&list,
			    context->desk.contents.inventory.items[step->item].tag);
		}
		tag_list_end(&list);
		text_add(&context->out, any ? "\n" : "");
	}
}

/* "LJ-1 to LJ-3: the station was asked for service ...", a remark a task. */
static void
note_open(struct context *context, const struct life_plan *plan)
{
	for (int task = 0; task < TASK_COUNT; task++) {
		SCOPED_TEXT tags = {0};
		struct tag_list list = {.out = &tags};
		for (size_t i = 0; i < plan->count; i++) {
			const struct life_step *step = &plan->items[i];
			if ((left_open(context, step) & 1U << task) != 0) {
				tag_list_add(&list,
				    context->desk.contents.inventory.items[step->item]
					.tag);
			}
		}
		tag_list_end(&list);
		if (tags.length > 0) {
			desk_note(&context->desk,
			    "%s was asked of the station and is not recorded as done, so it "
			    "stays open: %s; if it was done, \"becket record %s\" enters it",
			    task_noun((enum task)task), text_string(&tags),
			    task_word((enum task)task));
		}
	}
}

/* Of what passed, nothing asked and nothing told: easily taken for serviced. */
static void
note_nothing(struct context *context, const struct life_plan *plan)
{
	SCOPED_TEXT tags = {0};
	struct tag_list list = {.out = &tags};
	for (size_t i = 0; i < plan->count; i++) {
		const struct life_step *step = &plan->items[i];
		bool passed = step->movement.result == RESULT_PASSED ||
			      step->movement.result == RESULT_PASSED_SHORTER;
		const struct item *item =
		    &context->desk.contents.inventory.items[step->item];
		if (passed && step->record_count == 0 && homecoming_asked(item) == 0) {
			tag_list_add(&list, item->tag);
		}
	}
	tag_list_end(&list);
	if (tags.length > 0) {
		desk_note(&context->desk,
		    "nothing is recorded as done to %s; if something was, \"becket record\" "
		    "enters it",
		    text_string(&tags));
	}
}

/* What came back and is still not in date must not be taken for done. */
static bool
note_not_in_date(struct context *context, const char *tag, struct fault *fault)
{
	struct obligation *obligations = NULL;
	size_t count = 0;
	size_t item = 0;
	if (!desk_find_tag(&context->desk, tag, &item, fault) ||
	    !due_of_item(&context->desk.engine, item, context->desk.today,
		&context->desk.arena, &obligations, &count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		if (obligations[i].state != STATE_IN_DATE && !obligations[i].routine) {
			desk_note(&context->desk,
			    "%s is not in date: %s %s; \"becket why %s\" "
			    "says why",
			    tag, task_word(obligations[i].task),
			    state_word(obligations[i].state), tag);
		}
	}
	return true;
}

static bool
write_bag(struct context *context, const struct bag *bag, struct fault *fault)
{
	struct life_plan plan = {0};
	for (size_t i = 0; i < bag->count; i++) {
		if (!come_back(context, &bag->items[i], &plan, fault)) {
			return false;
		}
	}
	if (!life_write(context, &plan, fault)) {
		return fault_prefix(fault, "returning");
	}
	say(context, bag);
	say_recorded(context, &plan);
	note_open(context, &plan);
	note_nothing(context, &plan);
	desk_forget(&context->desk);
	if (!desk_engine(&context->desk, NULL, fault)) {
		return false;
	}
	for (size_t i = 0; i < bag->count; i++) {
		if (!note_not_in_date(context, bag->items[i].tag, fault)) {
			return false;
		}
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	bool file = options_has(context->given, "from-csv");
	bool ask = options_has(context->given, "ask");
	struct homecoming common;
	struct bag bag = {0};
	if (!check_options(context, file || ask, fault) ||
	    !read_common(context, &common, fault)) {
		return false;
	}
	if (ask) {
		if (!bag_of_answers(context, &common, &bag, fault)) {
			return false;
		}
		if (bag.count == 0) {
			text_add(&context->out, "Nothing is written.\n");
			return true;
		}
		return life_begin_again(context, fault) &&
		       write_bag(context, &bag, fault);
	}
	return life_begin(context, fault) &&
	       (file ? bag_of_file(context, &common, &bag, fault)
		     : bag_of_tags(context, &common, &bag, fault)) &&
	       write_bag(context, &bag, fault);
}

const struct command COMMAND_RETURN = {
    .name = "return",
    .summary = "record that gear came back from ashore, and what its papers say",
    .details =
	"What was asked of the station is kept when gear is landed. Recorded as done is what "
	"--task names, or with --as-asked all of that; what was asked and stays open is named. "
	"Passed records the work with its certificate. Passed-shorter needs the next date "
	"of the paper, which binds where it is earlier than the rule's. Condemned withdraws "
	"the item with its parts, but for those named with --keep. Not-done brings it back as it "
	"went.\n\n"
	"Of a whole bag with different results, --from-csv reads a row an item, with the "
	"columns tag, result, task, done, next, by, certificate, price, renewed, keep and note "
	"(prices in the main unit; several tasks, parts or tags by semicolon; the task as-asked "
	"is all that was asked), and --ask offers what was asked, item by item. All of it is written, or nothing.",
    .examples = "return LR-1 --as-asked --next 2029-11-25\n"
		"the raft is back and serviced; the date of its certificate\n"
		"return LJ-2 --result condemned\n"
		"a jacket came back as good for nothing\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
