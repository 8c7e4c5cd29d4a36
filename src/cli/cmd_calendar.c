/* becket calendar */
#include "calendar/ics.h"
#include "cli/command.h"
#include "cli/files.h"
#include "cli/reminding.h"

#include <string.h>

static const char WHO[] = "becket calendar";

static const struct word_spec WORDS[] = {
    {.name = "FILE", .help = "the .ics file; it is written whole", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "this vessel's reminders only"},
    {.name = "base", .argument = "PLACE", .help = "those of the vessels of this base"},
    {.name = "station",
	.argument = "STATION",
	.help = "the hand-ins and collects of this station"},
    {.name = "name", .argument = "WORDS", .help = "the calendar's name"},
};

/* The file is ready before the book is, and takes its place after: whatever fails, no
 * calendar is out of which the book knows nothing. */
static bool
write_file(
    struct context *context, const struct text *ics, size_t count, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	SCOPED_NEW_FILE file = {0};
	if (strcmp(path, "-") == 0) {
		text_add_bytes(&context->out, text_string(ics), ics->length);
		return book_commit(context->book, fault);
	}
	if (!new_file_write(path, text_string(ics), ics->length, &file, fault) ||
	    !book_commit(context->book, fault) || !new_file_keep(&file, fault)) {
		return false;
	}
	text_add_format(&context->out,
	    "%zu reminder%s written to %s\n"
	    "Import it into a calendar of its own; to refresh, delete that calendar and "
	    "import again.\n",
	    count, count == 1 ? "" : "s", path);
	return true;
}

static bool
write_calendar(struct context *context, const char *name, const struct scope *scope,
    struct fault *fault)
{
	SCOPED_TEXT ics = {0};
	struct reminders reminders = {0};
	if (!book_begin(context->book, fault) ||
	    !reminding_settled(context, &reminders, fault)) {
		return false;
	}
	reminders_narrow(&reminders, &context->contents.inventory, scope);
	return ics_write(name, reminders.items, reminders.count, &ics, fault) &&
	       text_check(&ics, fault) &&
	       write_file(context, &ics, reminders.count, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *name = options_value(context->given, "name");
	struct scope scope = {0};
	if (name != NULL && (name[0] == '\0' || strpbrk(name, ",;") != NULL)) {
		return fault_set(fault, FAULT_INPUT,
		    "--name: a calendar's name has no comma and no semicolon and is not "
		    "blank, found \"%s\"",
		    name);
	}
	return reminding_scope(context, WHO, &scope, fault) &&
	       write_calendar(context,
		   name != NULL ? name : reminding_calendar_name(&scope), &scope, fault);
}

const struct command COMMAND_CALENDAR = {
    .name = "calendar",
    .summary = "write the winter's reminders as an iCalendar file",
    .details =
	"Each reminder keeps its identity for good, so that an app that updates by identity "
	"moves it instead of adding another. Many apps don't: import the file into a calendar "
	"of its own and, to refresh, delete that calendar and import again. The same book on "
	"the same day gives the same file.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
