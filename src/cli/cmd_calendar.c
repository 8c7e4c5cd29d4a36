/* becket calendar */
#include "calendar/ics.h"
#include "cli/command.h"
#include "cli/files.h"
#include "cli/plans.h"

#include <string.h>
#include <time.h>

static const struct word_spec WORDS[] = {
    {.name = "FILE", .help = "the .ics file; it is written whole", .required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "vessel", .argument = "NAME", .help = "this vessel's reminders only"},
    {.name = "name", .argument = "WORDS", .help = "the calendar's name"},
};

/* The time of a change. With --today it is that day's start, so that the same book and day
 * give the same bytes. */
static int64_t
time_of_change(const struct context *context)
{
	return context->today_given ? (int64_t)context->today * 86400
				    : (int64_t)time(NULL);
}

/* The lists of one vessel when one was named; the reminders of all are settled together, so
 * that naming one drops no other's. */
static bool
make_reminders(struct context *context, const struct shore_list *lists, size_t count,
    struct reminders *out, struct fault *fault)
{
	return reminders_make(context->engine.kinds, &context->contents.inventory, lists,
	    count, context->contents.currency, context->today, &context->arena, out,
	    fault);
}

static bool
settle(struct context *context, struct reminders *reminders, struct fault *fault)
{
	const struct book_reminder *stored = NULL;
	size_t stored_count = 0;
	const char *const *gone = NULL;
	size_t gone_count = 0;
	if (!book_load_reminders(
		context->book, &context->arena, &stored, &stored_count, fault) ||
	    !reminders_settle(reminders, stored, stored_count,
		book_identity(context->book), time_of_change(context), &context->arena,
		&gone, &gone_count, fault)) {
		return false;
	}
	struct book_reminder *kept =
	    arena_alloc(&context->arena, (reminders->count + 1) * sizeof *kept);
	if (kept == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		kept[i] = (struct book_reminder){.key = reminder->key,
		    .uid = reminder->uid,
		    .sequence = reminder->sequence,
		    .modified = reminder->modified,
		    .shape = reminder->shape};
	}
	return book_store_reminders(
	    context->book, kept, reminders->count, gone, gone_count, fault);
}

/* Keeps the reminders whose key one of the wanted ones has. */
static void
keep_wanted(struct reminders *reminders, const struct reminders *wanted)
{
	size_t kept = 0;
	for (size_t i = 0; i < reminders->count; i++) {
		bool is_wanted = false;
		for (size_t j = 0; j < wanted->count && !is_wanted; j++) {
			is_wanted =
			    strcmp(reminders->items[i].key, wanted->items[j].key) == 0;
		}
		if (is_wanted) {
			reminders->items[kept++] = reminders->items[i];
		}
	}
	reminders->count = kept;
}

/* Drops the reminders of all other vessels when one was named. */
static bool
narrow(struct context *context, const struct shore_list *lists, size_t count,
    struct reminders *reminders, struct fault *fault)
{
	const char *name = options_value(context->given, "vessel");
	const struct inventory *inventory = &context->contents.inventory;
	for (size_t i = 0; name != NULL && i < count; i++) {
		if (strcmp(inventory->vessels[i].name, name) != 0) {
			continue;
		}
		struct reminders wanted = {0};
		if (!make_reminders(context, &lists[i], 1, &wanted, fault)) {
			return false;
		}
		keep_wanted(reminders, &wanted);
		return true;
	}
	return name == NULL ||
	       fault_set(fault, FAULT_INPUT, "there is no vessel \"%s\"", name);
}

static const char *
calendar_name(const struct context *context)
{
	const char *name = options_value(context->given, "name");
	const char *vessel = options_value(context->given, "vessel");
	if (name != NULL) {
		return name;
	}
	bool fits = vessel != NULL && strpbrk(vessel, ",;") == NULL;
	return fits ? vessel : "becket";
}

/* The file is ready before the book is, and takes its place after: whatever fails, no
 * calendar is out of which the book knows nothing. */
static bool
write_calendar(struct context *context, struct reminders *reminders,
    const struct shore_list *lists, size_t count, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	SCOPED_TEXT ics = {0};
	SCOPED_NEW_FILE file = {0};
	if (!book_begin(context->book, fault) || !settle(context, reminders, fault) ||
	    !narrow(context, lists, count, reminders, fault) ||
	    !ics_write(calendar_name(context), reminders->items, reminders->count, &ics,
		fault) ||
	    !text_check(&ics, fault)) {
		return false;
	}
	if (strcmp(path, "-") == 0) {
		text_add_bytes(&context->out, text_string(&ics), ics.length);
		return book_commit(context->book, fault);
	}
	if (!new_file_write(path, text_string(&ics), ics.length, &file, fault) ||
	    !book_commit(context->book, fault) || !new_file_keep(&file, fault)) {
		return false;
	}
	text_add_format(&context->out,
	    "%zu reminder%s written to %s\n"
	    "Import it into a calendar of its own; to refresh, delete that calendar and "
	    "import again.\n",
	    reminders->count, reminders->count == 1 ? "" : "s", path);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *name = options_value(context->given, "name");
	struct shore_list *lists = NULL;
	size_t count = 0;
	struct reminders reminders = {0};
	if (name != NULL && (name[0] == '\0' || strpbrk(name, ",;") != NULL)) {
		return fault_set(fault, FAULT_INPUT,
		    "--name: a calendar's name has no comma and no semicolon and is not "
		    "blank, found \"%s\"",
		    name);
	}
	return context_engine(context, NULL, false, fault) &&
	       plans_make(context, 0, &lists, &count, fault) &&
	       make_reminders(context, lists, count, &reminders, fault) &&
	       write_calendar(context, &reminders, lists, count, fault);
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
