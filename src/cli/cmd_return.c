/* becket return */
#include "cli/asking.h"
#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/terminal.h"
#include "desk/acts.h"
#include "desk/files.h"
#include "report/tags.h"
#include "report/words.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG",
	.help = "the items; LJ-1..LJ-6 is six of them; none with --from-csv",
	.repeatable = true},
};

/* What the options say. */
struct return_said {
	struct return_request request;
	struct word_list next;
	struct word_list renewed;
	struct word_list keep;
	const char *from_csv; /* the file; NULL for none */
	bool ask;
};

static const struct option_spec OPTIONS[] = {
    OPTION("on", "DATE", DAY, struct return_said, request.common.on,
	"the day they are back; else today"),
    OPTION("result", "passed|passed-shorter|condemned|not-done", CHOICE,
	struct return_said, request.common.result,
	"what the station found; passed when not told", .least = RESULT_PASSED),
    OPTION("task", "service|inspect|weigh|test", CHOICE, struct return_said,
	request.common.tasks,
	"what was done; nothing is recorded as done but what is named",
	.repeatable = true),
    FLAG_OPTION("as-asked", struct return_said, request.common.as_asked,
	"all that was asked of the station when they were landed was done"),
    OPTION("done", "DATE", DAY, struct return_said, request.common.done,
	"the day of the work; else --on"),
    OPTION("next", "DATE|TASK=DATE", WORDS, struct return_said, next,
	"next date the certificate states, of the service or by task",
	.repeatable = true),
    OPTION("by", "STATION", STATION, struct return_said, request.common.by,
	"who did it; where they are ashore when not told"),
    OPTION("certificate", "NO", WORDS, struct return_said, request.common.certificate,
	"the certificate's number"),
    OPTION("price", "PRICE", PRICE, struct return_said, request.common.price_minor,
	"what it cost, each, as 45.00"),
    OPTION("renewed", "TAG=EXPIRES", TAG, struct return_said, renewed,
	"a part put in new and its mark: LJ-1-FH=2029-06,made:2026-10,serial:K7",
	.repeatable = true),
    OPTION("keep", "TAG", TAG, struct return_said, keep,
	"condemned: a part that outlives it", .repeatable = true),
    OPTION(
	"note", "WORDS", WORDS, struct return_said, request.common.note, "anything else"),
    OPTION("from-csv", "FILE", WORDS, struct return_said, from_csv,
	"a row for each item that came back; - for standard input"),
    LIST_OPTIONS(struct return_said, request.how, request.order, "from-csv",
	"how dates such as 04/05/2026 in that file are to be read"),
    FLAG_OPTION("ask", struct return_said, ask, "ask for each item that is ashore"),
};

static bool
read_next(const struct word_list *words, struct homecoming *home, struct fault *fault)
{
	for (size_t i = 0; i < words->count; i++) {
		if (!homecoming_next_parse(words->items[i], ORDER_ISO, home, fault)) {
			return fault_prefix(fault, "--next");
		}
	}
	return true;
}

static bool
read_renewed(struct arena *arena, const struct word_list *words, struct homecoming *home,
    struct fault *fault)
{
	struct renewed_part *parts =
	    arena_alloc(arena, (words->count + 1) * sizeof *parts);
	for (size_t i = 0; i < words->count; i++) {
		if (!renewed_parse(arena, words->items[i], ORDER_ISO, &parts[i], fault)) {
			return fault_prefix(fault, "--renewed");
		}
	}
	home->renewed = parts;
	home->renewed_count = words->count;
	return true;
}

/* What the options say of everything that comes back. */
static bool
read_said(struct context *context, struct return_said *said, struct fault *fault)
{
	struct homecoming *home = &said->request.common;
	*said = (struct return_said){
	    .request = desk_returning(&context->desk, context->given->words)};
	if (!options_into(context->given, said, fault) ||
	    !read_next(&said->next, home, fault) ||
	    !read_renewed(&context->desk.arena, &said->renewed, home, fault)) {
		return false;
	}
	home->kept = said->keep.items;
	home->kept_count = said->keep.count;
	return true;
}

/* What a file or answers say of each item can't be said for all of them beforehand. */
static const char *const OF_ONE[] = {
    "result", "task", "done", "next", "certificate", "price", "renewed", "keep"};

/* The first of these that is given; NULL for none. */
static const char *
said_of_one(const struct given_options *given)
{
	for (size_t i = 0; i < COUNT_OF(OF_ONE); i++) {
		if (options_has(given, OF_ONE[i])) {
			return OF_ONE[i];
		}
	}
	return NULL;
}

/* With --ask; and a person at a terminal who says nothing yet of what came back is asked, too. */
static bool
is_asked(const struct context *context, const struct return_said *said)
{
	bool says = said->request.tags.count > 0 || said->from_csv != NULL ||
		    said->request.common.as_asked || said_of_one(context->given) != NULL;
	return said->ask || (!says && ask_is_possible());
}

static bool
check_said(
    const struct context *context, const struct return_said *said, struct fault *fault)
{
	bool file = said->from_csv != NULL;
	bool tags = said->request.tags.count > 0;
	if (file && (said->ask || tags)) {
		return usage_fault(fault, "becket return",
		    "--from-csv names its items itself: it goes without TAG and --ask");
	}
	if (!file && !said->ask && !tags) {
		return usage_fault(fault, "becket return",
		    "TAG is missing: the gear that came back; or --from-csv FILE with a row "
		    "each; or --ask, to be asked piece by piece");
	}
	if (said->ask && said->request.common.as_asked) {
		return usage_fault(
		    fault, "becket return", "--as-asked is offered when asked");
	}
	const char *one = file || said->ask ? said_of_one(context->given) : NULL;
	return one == NULL ||
	       usage_fault(fault, "becket return", "--%s is said of each item %s", one,
		   file ? "in the file" : "when asked");
}

/* "LJ-1 and LJ-3 to LJ-6 back on 9 Dec 2026: passed", a line a result. */
static void
say(struct context *context, const struct return_outcome *bag)
{
	for (int result = 0; result < RESULT_COUNT; result++) {
		struct tag_list list = {.out = &context->out};
		char on[DAY_WORDS_SIZE];
		bool any = false;
		for (size_t i = 0; i < bag->count; i++) {
			if (bag->homes[i].result == (enum result)result) {
				tag_list_add(&list, bag->homes[i].tag);
				any = true;
			}
		}
		tag_list_end(&list);
		if (any && result == RESULT_CONDEMNED) {
			text_add(&context->out, " withdrawn: condemned\n");
		} else if (any) {
			text_add_format(&context->out, " back on %s: %s\n",
			    day_words(bag->homes[0].on, on),
			    result_word((enum result)result));
		}
	}
}

/* "Recorded as done, service: LJ-1 to LJ-3", a line a task. */
static void
say_recorded(struct context *context, const struct return_outcome *bag)
{
	for (int task = 0; task < TASK_COUNT; task++) {
		const struct word_list *tags = &bag->recorded[task];
		struct tag_list list = {.out = &context->out};
		if (tags->count == 0) {
			continue;
		}
		text_add_format(
		    &context->out, "Recorded as done, %s: ", task_noun((enum task)task));
		for (size_t i = 0; i < tags->count; i++) {
			tag_list_add(&list, tags->items[i]);
		}
		tag_list_end(&list);
		text_add(&context->out, "\n");
	}
}

/* The file that --from-csv names. */
static bool
read_file(const char *path, struct return_request *request, struct csv_source *source,
    struct text *bytes, struct fault *fault)
{
	if (!file_read(path, bytes, fault)) {
		return false;
	}
	*source =
	    (struct csv_source){.name = strcmp(path, "-") == 0 ? "standard input" : path,
		.bytes = text_string(bytes),
		.length = bytes->length};
	request->csv = source;
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	struct return_said said;
	struct return_request *request = &said.request;
	struct return_outcome out = {0};
	struct csv_source source = {0};
	struct waiting_word waiting;
	SCOPED_TEXT bytes = {0};
	if (!read_said(context, &said, fault)) {
		return false;
	}
	said.ask = is_asked(context, &said);
	if (!check_said(context, &said, fault) ||
	    (said.from_csv != NULL &&
		!read_file(said.from_csv, request, &source, &bytes, fault)) ||
	    (said.ask && !ask_homecomings(context, request, fault))) {
		return false;
	}
	if (said.ask && request->bag_count == 0) {
		text_add(&context->out, "Nothing is written.\n");
		return true;
	}
	waiting_begin(&waiting, true);
	bool written = desk_return(&context->desk, request, &out, fault);
	waiting_end(&waiting);
	if (!written) {
		return false;
	}
	say(context, &out);
	say_recorded(context, &out);
	return true;
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
	"went. A renewed part that may be the same one with something new in it, as a beacon, is "
	"recorded as refitted, unless its serial number or date of manufacture is told.\n\n"
	"Of a whole bag with different results, --from-csv reads a row an item, with the "
	"columns tag, result, task, done, next, by, certificate, price, renewed, keep and note "
	"(prices in the main unit; several tasks, parts or tags by semicolon; the task as-asked "
	"is all that was asked), and --ask offers what was asked, item by item; so does \"becket "
	"return\" alone at a terminal, from which station first. All of it is written, or nothing.",
    .examples = "return LR-1 --as-asked --next 2029-11-25\n"
		"the raft is back and serviced; the date of its certificate\n"
		"return LJ-2 --result condemned\n"
		"a jacket came back as good for nothing\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
