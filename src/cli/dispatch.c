#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/help.h"
#include "cli/parts.h"
#include "cli/terminal.h"
#include "cli/values.h"
#include "desk/reckoning.h"
#include "desk/upgrading.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#ifndef BECKET_VERSION
#error "the build defines BECKET_VERSION"
#endif

static const char *
environment(const char *name)
{
	const char *value = getenv(name); // NOLINT(concurrency-mt-unsafe)
	return value == NULL ? "" : value;
}

/* The path of the book and of the folder of sheets beside it. */
static bool
place_book(struct context *context, struct fault *fault)
{
	SCOPED_TEXT path = {0};
	const char *named = options_value(context->given, "book");
	/* "--book $FORGOTTEN" must not write to another book than was meant */
	if (named != NULL && named[0] == '\0') {
		return usage_fault(
		    fault, "becket", "--book: expected a file, found nothing");
	}
	if (named == NULL) {
		named = environment("BECKET_BOOK");
	}
	context->desk.book_named = named[0] != '\0';
	if (context->desk.book_named) {
		text_add(&path, named);
	} else if (environment("XDG_DATA_HOME")[0] == '/') {
		text_add_format(&path, "%s/becket/book.db", environment("XDG_DATA_HOME"));
	} else if (environment("HOME")[0] != '\0') {
		text_add_format(
		    &path, "%s/.local/share/becket/book.db", environment("HOME"));
	} else {
		text_add(&path, "book.db");
	}
	context->desk.book_path = arena_string(&context->desk.arena, text_string(&path));

	const char *slash = strrchr(text_string(&path), '/');
	SCOPED_TEXT folder = {0};
	if (slash != NULL) {
		text_add_bytes(&folder, text_string(&path),
		    (size_t)(slash - text_string(&path)) + 1);
	}
	text_add(&folder, "sheets");
	context->desk.shelf.folder =
	    arena_string(&context->desk.arena, text_string(&folder));
	return true;
}

static bool
set_today(struct context *context, struct fault *fault)
{
	const char *given = options_value(context->given, "today");
	context->desk.today_given = given != NULL;
	if (given == NULL) {
		context_read_clock(context);
		return true;
	}
	if (!day_parse(given, &context->desk.today, fault)) {
		return fault_prefix(fault, "--today");
	}
	context->desk.now = (int64_t)context->desk.today * 86400;
	return true;
}

static bool
wants_colour(const struct context *context)
{
	return !context->json && environment("NO_COLOR")[0] == '\0' &&
	       strcmp(environment("TERM"), "dumb") != 0 && isatty(STDOUT_FILENO) != 0;
}

/* Fills the context from the options every command takes. */
static bool
set_out(struct context *context, struct fault *fault)
{
	context->json = options_has(context->given, "json");
	if (context->json && context->command->answers == NULL) {
		char who[64];
		(void)snprintf(who, sizeof who, "becket %s", context->command->name);
		return usage_fault(fault, who, "--json does not go with this command");
	}
	if (!place_book(context, fault) || !set_today(context, fault)) {
		return false;
	}
	context->style = (struct report_style){.colour = wants_colour(context),
	    .today = context->desk.today,
	    .currency = BOOK_NEW_CURRENCY};
	return context_signature(context, &context->desk.signature, fault);
}

/* True when the command made one entry in the journal, which undo would take back, and a person
 * sits at the terminal. */
static bool
is_undone_easily(const struct context *context, size_t entries)
{
	return entries == 1 && !context->json &&
	       strcmp(context->command->name, "book") != 0 &&
	       isatty(STDOUT_FILENO) != 0 && isatty(STDERR_FILENO) != 0;
}

/* Writes what was held of an answer. */
static bool
write_held(const struct spool *held, struct fault *fault)
{
	char piece[64 * 1024];
	for (size_t at = 0; at < held->length;) {
		size_t left = held->length - at;
		size_t length = left < sizeof piece ? left : sizeof piece;
		if (!spool_read(held, at, piece, length, fault) ||
		    !output_write(piece, length, fault)) {
			return false;
		}
		at += length;
	}
	return true;
}

/* Writes out what the command has to say. What changes the book says so in sentences,
 * which are folded to a terminal's width here; what reads it lays its page out itself. */
static bool
write_out(struct context *context, struct fault *fault)
{
	enum command_needs needs = context->command->needs;
	SCOPED_TEXT folded = {.columns = context->out.columns};
	if (context->unwritten.kind != FAULT_NONE) {
		*fault = context->unwritten;
		return false;
	}
	if (!write_held(&context->held, fault)) {
		return false;
	}
	if (context->json) {
		return output_write(
		    text_string(&context->out), context->out.length, fault);
	}
	/* a calendar that is written to standard output is a file, to the byte */
	bool file = strncmp(text_string(&context->out), "BEGIN:", 6) == 0;
	if (folded.columns == 0 || needs == NEEDS_READ || needs == NEEDS_NOTHING ||
	    file) {
		return terminal_write(&context->out, fault);
	}
	terminal_fold(&context->out, &folded);
	return terminal_write(&folded, fault);
}

/* Runs the command and writes what it has to say; remarks first, for they are about how
 * the answer came to be. */
static bool
answer(struct context *context, struct fault *fault)
{
	struct waiting_word waiting;
	waiting_begin(
	    &waiting, context->command->needs == NEEDS_READ || context->command->quiet);
	bool done = context->command->run(context, fault);
	waiting_end(&waiting);
	const struct desk *desk = &context->desk;
	size_t entries =
	    desk->writing ? book_entries_made(desk->book) - desk->opened_with : 0;
	bool undone_easily = done && is_undone_easily(context, entries);
	if (done && context->desk.writing) {
		reckoning_keep(&context->desk);
	} else if (done && context->desk.reckons) {
		upgrading_remark(&context->desk);
	}
	context_show_notes(context, 0);
	if (!done) {
		desk_drop_fresh(&context->desk);
		return entries == 0 ? false
				    : fault_prefix(fault,
					  "the book was changed (\"becket book journal\" "
					  "tells how), but then this failed");
	}
	if (!write_out(context, fault)) {
		return entries == 0
			   ? false
			   : fault_prefix(fault,
				 "the book was changed; only the answer could not "
				 "be written");
	}
	if (undone_easily) {
		(void)fputs("(\"becket book undo\" takes that back)\n", stderr);
	}
	return true;
}

static bool
run_command(const struct command *command, struct command_line words,
    struct given_options *given, int *status_out, struct fault *fault)
{
	static const enum book_mode MODES[] = {
	    [NEEDS_NOTHING] = BOOK_READ,
	    [NEEDS_READ] = BOOK_READ,
	    [NEEDS_WRITE] = BOOK_WRITE,
	    [NEEDS_CREATE] = BOOK_CREATE,
	};

	struct context context = {.commands = &COMMANDS,
	    .command = command,
	    .words = words,
	    .given = given,
	    .desk = {.mode = MODES[command->needs]},
	    .out = {.columns = terminal_columns()}};
	bool done = set_out(&context, fault);
	given->today = context.desk.today;
	given->reader = context_reader(&context);
	done = done && naming_settle(&context, given, fault) && answer(&context, fault);
	if (done) {
		*status_out = context.status;
	}
	context_clear(&context);
	return done;
}

static bool
print(const struct text *text, struct fault *fault)
{
	return terminal_write(text, fault);
}

static bool
print_version(struct fault *fault)
{
	SCOPED_TEXT out = {0};
	text_add(&out, "becket " BECKET_VERSION "\n");
	return print(&out, fault);
}

static bool
print_help(const struct command *command, struct fault *fault)
{
	SCOPED_TEXT out = {.columns = terminal_columns()};
	if (command == NULL) {
		help_overview(&COMMANDS, &out);
	} else {
		help_command(command, &COMMANDS.common, &out);
	}
	return print(&out, fault);
}

/* True for one of the acts that a command's first word chooses from: "undo" of book's. */
static bool
is_act_of(const struct command *command, const char *word)
{
	SCOPED_ARENA arena = {0};
	const char *choices =
	    command->table.word_count == 0 ? NULL : command->table.words[0].choices;
	return choices != NULL && options_choose(&arena, choices, &word);
}

/* The command that a word is an act or a topic of; NULL for none. */
static const char *
command_with(const char *word)
{
	if (topic_find(word) != NULL || strcmp(word, "kinds") == 0) {
		return "help";
	}
	for (size_t i = 0; i < COMMANDS.count; i++) {
		if (is_act_of(COMMANDS.items[i], word)) {
			return COMMANDS.items[i]->name;
		}
	}
	return NULL;
}

static bool
unknown_command(const char *found, struct fault *fault)
{
	const char *whole = command_with(found);
	if (whole != NULL) {
		return usage_fault(fault, "becket",
		    "there is no command \"%s\" (did you mean \"%s %s\"?)", found, whole,
		    found);
	}
	const char *names[64];
	size_t count = 0;
	for (; count < COMMANDS.count && count < COUNT_OF(names); count++) {
		names[count] = COMMANDS.items[count]->name;
	}
	const char *nearest = nearest_word(found, names, count);
	if (nearest != NULL) {
		return usage_fault(fault, "becket",
		    "there is no command \"%s\" (did you mean \"%s\"?)", found, nearest);
	}
	return usage_fault(fault, "becket", "there is no command \"%s\"", found);
}

/* The command's own words, read after the options that stood before its name. */
static bool
run_words(const struct command *command, struct command_line line,
    struct given_options *given, int *status_out, struct fault *fault)
{
	struct option_table tables[2] = {COMMANDS.common, command->table};
	const struct command_line words = line;
	given->tables = tables;
	given->table_count = 2;
	char who[64];
	(void)snprintf(who, sizeof who, "becket %s", command->name);
	if (!options_parse(who, &line, false, given, fault)) {
		return false;
	}
	if (options_has(given, "help")) {
		return print_help(command, fault);
	}
	if (options_has(given, "version")) {
		return print_version(fault);
	}
	return options_complete(who, given, fault) &&
	       run_command(command, words, given, status_out, fault);
}

bool
dispatch(struct command_line line, int *status_out, struct fault *fault)
{
	SCOPED_OPTIONS given = {.tables = &COMMANDS.common, .table_count = 1};
	*status_out = 0;
	if (!options_parse("becket", &line, true, &given, fault)) {
		return false;
	}
	if (options_has(&given, "version")) {
		return print_version(fault);
	}
	if (line.count == 0) {
		return options_has(&given, "help")
			   ? print_help(NULL, fault)
			   : run_words(&COMMAND_NOW, line, &given, status_out, fault);
	}
	const struct command *command = command_find(&COMMANDS, line.items[0]);
	if (command == NULL) {
		return unknown_command(line.items[0], fault);
	}
	const struct command_line rest = {line.items + 1, line.count - 1};
	return run_words(command, rest, &given, status_out, fault);
}

#define COMMAND_POINTER(name) &COMMAND_##name,

static const struct command *const ALL[] = {COMMAND_LIST(COMMAND_POINTER)};

static const struct option_spec COMMON[] = {
    {.name = "book",
	.argument = "FILE",
	.help = "the book; else BECKET_BOOK, else your own"},
    {.name = "today", .argument = "DATE", .help = "the day it is taken to be"},
    {.name = "signed",
	.argument = "NAME",
	.help = "who signs a change in the journal; else your login"},
    {.name = "json", .help = "answer as JSON, for programs (commands that read)"},
    {.name = "help", .help = "say how a command is used; so does -h"},
    {.name = "version", .help = "say which becket this is"},
};

const struct command_table COMMANDS = {
    .items = ALL,
    .count = COUNT_OF(ALL),
    .common = {.options = COMMON, .option_count = COUNT_OF(COMMON)},
};
