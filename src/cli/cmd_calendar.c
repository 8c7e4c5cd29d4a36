/* becket calendar */
#include "cli/calendar_acts.h"
#include "cli/command.h"
#include "cli/terminal.h"
#include "desk/giving_out.h"

#include <string.h>

static const char WHO[] = "becket calendar";

enum { USUAL_TIMEOUT = 30 };

static const char WHAT_A_FILE_CAN_DO[] =
    "Import it into a calendar of its own; to refresh, delete that calendar and import "
    "again.\n";
static const char WHAT_TODOS_CAN_DO[] =
    "Import it into a program that keeps tasks: many calendars drop them. What is ticked off "
    "there\ncan be read back: becket calendar read FILE\n";

static const struct word_spec WORDS[] = {
    {.name = "FILE|push|pull|forget|read",
	.help =
	    "the .ics file, written whole; or what to do with a calendar server; or read, "
	    "with the file to read back (write ./push for a file of that name)",
	.required = true},
    {.name = "FROM", .help = "read: the .ics file that a calendar program gave out"},
};

static const struct option_spec OPTIONS[] = {
    SCOPE_OPTIONS(struct calendar_said, scope, "FILE push pull", ""),
    FLAG_OPTION("to-dos", struct calendar_said, todos,
	"to-dos instead of events, one for each task", .acts = "FILE push pull"),
    OPTION("name", "WORDS", WORDS, struct calendar_said, name,
	"FILE: the calendar's name", .acts = "FILE"),
    OPTION("take", "all|N,N", WORDS, struct calendar_said, take,
	"read: do what these proposals say", .acts = "read"),
    OPTION("url", "ADDRESS", WORDS, struct calendar_said, url,
	"push, pull: the CalDAV server, your home on it, or the calendar",
	.acts = "push pull"),
    OPTION("user", "NAME", WORDS, struct calendar_said, user,
	"push, pull: who you are there", .acts = "push pull"),
    OPTION("password-file", "FILE", WORDS, struct calendar_said, password_file,
	"push, pull: a file with the password that only you can read",
	.acts = "push pull"),
    OPTION("calendar", "NAME", WORDS, struct calendar_said, calendar,
	"push, pull: which calendar there; the only one when not told",
	.acts = "push pull"),
    FLAG_OPTION("create", struct calendar_said, make,
	"push: make that calendar when it is not there", .acts = "push",
	.needs = "calendar"),
    OPTION("keep", "WHOSE[=ID,ID]", WORDS, struct calendar_said, keep,
	"what you changed there: ours puts it back, theirs lets it be (pull: theirs "
	"only); with identities, as remind shows them, of these reminders alone",
	.acts = "push pull", .repeatable = true),
    FLAG_OPTION("dry-run", struct calendar_said, dry_run,
	"push, pull: say what would be done, and do nothing", .acts = "push pull"),
    OPTION("timeout", "SECONDS", COUNT, struct calendar_said, timeout_seconds,
	"push, pull: how long to wait for an answer; 30 when not told",
	.acts = "push pull", .least = 1, .most = 3600),
    OPTION("ca-file", "FILE", WORDS, struct calendar_said, ca_file,
	"push, pull: the certificate of a server of your own (PEM)", .acts = "push pull"),
    FLAG_OPTION("allow-plain", struct calendar_said, allow_plain,
	"push, pull: without encryption, where anyone on the way can read the password",
	.acts = "push pull"),
};

static bool
calendar_act_file(
    struct context *context, const struct calendar_said *said, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	bool todos = said->todos;
	struct calendar_request request = {.todos = todos,
	    .name = said->name,
	    .path = strcmp(path, "-") == 0 ? NULL : path};
	struct calendar_outcome done = {0};
	if (request.name != NULL &&
	    (request.name[0] == '\0' || strpbrk(request.name, ",;") != NULL)) {
		return fault_set(fault, FAULT_INPUT,
		    "--name: a calendar's name has no comma and no semicolon and is not "
		    "blank, found \"%s\"",
		    request.name);
	}
	struct waiting_word waiting;
	waiting_begin(&waiting, true);
	bool written = scope_of(context, &said->scope, &request.scope, fault) &&
		       desk_calendar(&context->desk, &request, &done, fault);
	waiting_end(&waiting);
	if (written && request.path == NULL) {
		written = context_tell(context, &done.ics, fault);
	} else if (written) {
		text_add_format(&context->out, "%zu %s%s written to %s\n%s", done.count,
		    todos ? "to-do" : "reminder", done.count == 1 ? "" : "s", path,
		    todos ? WHAT_TODOS_CAN_DO : WHAT_A_FILE_CAN_DO);
	}
	spool_clear(&done.ics);
	return written;
}

static const struct calendar_verb {
	const char *name; /* NULL for a file */
	bool json;
	bool from; /* has a second word */
	bool (*run)(struct context *context, const struct calendar_said *said,
	    struct fault *fault);
} ACTS[] = {
    {"push", true, false, calendar_act_push},
    {"pull", true, false, calendar_act_pull},
    {"forget", false, false, calendar_act_forget},
    {"read", true, true, calendar_act_read},
    {NULL, false, false, calendar_act_file},
};

static bool
run(struct context *context, struct fault *fault)
{
	struct calendar_said said = {.timeout_seconds = USUAL_TIMEOUT};
	const char *word = options_word(context->given, 0);
	const struct calendar_verb *act = ACTS;
	while (act->name != NULL && strcmp(act->name, word) != 0) {
		act++;
	}
	if (options_word(context->given, 1) != NULL && !act->from) {
		return usage_fault(fault, WHO,
		    "found \"%s\" after \"%s\"; expected options",
		    options_word(context->given, 1), word);
	}
	if (context->json && !act->json) {
		return usage_fault(fault, WHO, "--json does not go with %s",
		    act->name == NULL ? "a file" : act->name);
	}
	return options_into(context->given, &said, fault) &&
	       act->run(context, &said, fault);
}

static const struct told_answer ANSWERS[] = {
    {"push or pull", KEYS_OF_PUSH}, {"read", KEYS_OF_READ_BACK}, {0}};

const struct command COMMAND_CALENDAR = {
    .name = "calendar",
    .summary = "put the reminders in a calendar, as a file or on a server",
    .details =
	"Each reminder keeps its identity for good, so that an app that updates by identity "
	"moves it instead of adding another. Many apps don't: import the file into a calendar "
	"of its own and, to refresh, delete that calendar and import again. The same book on "
	"the same day gives the same file.\n"
	"Push keeps a calendar on a CalDAV server up to date: it creates, moves and removes "
	"what changed, and nothing else. The first time it needs --url; the account and the "
	"calendar are remembered, the password never is: it comes from --password-file, from "
	"BECKET_CALDAV_PASSWORD, or is asked for. What you changed there is not overwritten: "
	"a reminder that you moved keeps that day as its planned one, and of the rest it says "
	"what was found and leaves it, unless --keep says which is to hold. One that was moved there "
	"and here is asked about at a terminal, one by one, and else left. The status is 1 "
	"when something was left. A push that broke off is taken up by the next one.\n"
	"Pull reads back what you changed there and writes nothing there. Forget drops the "
	"account from the book and leaves the calendar as it is. With --to-dos push and pull "
	"are about to-dos, which need a calendar of their own; one that was ticked there is told "
	"with the words to enter it.\n"
	"Read looks through a file that a calendar program gave out: a to-do that was ticked off "
	"proposes a record, a reminder that was moved its day. Nothing is taken but what --take "
	"names. A reminder removed in a calendar records nothing: enter what was done with "
	"\"becket record\".",
    .examples = "calendar quillfish.ics\n"
		"write the reminders of all boats for a calendar program\n"
		"calendar quillfish.ics --vessel Quillfish --to-dos\n"
		"one boat's, with what there is to do\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .answers = ANSWERS,
    .run = run,
};
