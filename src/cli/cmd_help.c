/* becket help */
#include "cli/command.h"
#include "cli/help.h"
#include "cli/values.h"
#include "report/table.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "COMMAND",
	.help =
	    "a command, \"kinds\" for what an item can be, or dates, prices, sheets, reminders, "
	    "books"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "completion",
	.argument = "bash|fish|zsh",
	.help = "print completions for a shell",
	.hidden = true},
    {.name = "names",
	.argument = "commands|tags|boats|stations|bases|kinds|groups",
	.help = "list names, for the completions",
	.hidden = true},
    {.name = "man",
	.help = "print the manual page for scdoc, or a command's",
	.hidden = true},
};

/* The kinds by group, as the catalogue has them. */
static bool
list_kinds(struct context *context, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!desk_kinds(&context->desk, &kinds, fault)) {
		return false;
	}
	const char *group = "";
	for (size_t i = 0; i < kinds_count(kinds); i++) {
		const struct kind *kind = kinds_at(kinds, i);
		if (strcmp(group, kind->group) != 0) {
			text_add_format(
			    &context->out, "%s%s\n", i == 0 ? "" : "\n", kind->group);
			group = kind->group;
		}
		SCOPED_TEXT line = {0};
		text_add_format(&line, "%-25s %s", kind->id, kind->name);
		paragraph(text_string(&line), 2, 28, &context->out);
	}
	return true;
}

/* The groups of kinds, as they are typed: "flares" for "Flares and smokes". */
static void
list_groups(const struct kinds *kinds, struct text *out)
{
	const char *before = "";
	for (size_t i = 0; i < kinds_count(kinds); i++) {
		const char *group = kinds_at(kinds, i)->group;
		const char *and = strstr(group, " and ");
		size_t length = and == NULL ? strlen(group) : (size_t)(and-group);
		for (size_t at = 0; strcmp(group, before) != 0 && at < length; at++) {
			text_add_byte(out, (char)text_lower(group[at]));
		}
		text_add(out, strcmp(group, before) == 0 ? "" : "\n");
		before = group;
	}
}

/* Names for completions and manual pages, a line each: of the book, of all commands, or
 * of all kinds and their groups. */
static bool
list_names(struct context *context, const char *what, struct fault *fault)
{
	SCOPED_NAME_BOOK book = {.desk = &context->desk};
	const struct kinds *kinds = NULL;
	struct word_list names = {0};
	enum named named = NAMED_TAG;
	if (strcmp(what, "commands") == 0) {
		for (size_t i = 0; i < context->commands->count; i++) {
			text_add_format(
			    &context->out, "%s\n", context->commands->items[i]->name);
		}
		return true;
	}
	if (naming_of_list(what, &named)) {
		naming_all(&book, named, &names);
	}
	for (size_t i = 0; i < names.count; i++) {
		text_add_format(&context->out, "%s\n", names.items[i]);
	}
	bool groups = strcmp(what, "groups") == 0;
	if (strcmp(what, "kinds") != 0 && !groups) {
		return true;
	}
	if (!desk_kinds(&context->desk, &kinds, fault)) {
		return false;
	}
	if (groups) {
		list_groups(kinds, &context->out);
	}
	for (size_t i = 0; i < kinds_count(kinds); i++) {
		text_add_format(&context->out, "%s\n", kinds_at(kinds, i)->id);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *shell = options_value(context->given, "completion");
	const char *names = options_value(context->given, "names");
	const char *name = options_word(context->given, 0);
	const struct command_table *commands = context->commands;
	const struct command *command =
	    name == NULL ? NULL : command_find(commands, name);
	if (names != NULL) {
		return list_names(context, names, fault);
	}
	if (shell != NULL && strcmp(shell, "bash") == 0) {
		completion_bash(commands, &context->out);
	} else if (shell != NULL && strcmp(shell, "fish") == 0) {
		completion_fish(commands, &context->out);
	} else if (shell != NULL) {
		completion_zsh(commands, &context->out);
	} else if (options_has(context->given, "man") && command != NULL) {
		man_command(command, &commands->common, &context->out);
	} else if (options_has(context->given, "man")) {
		man_page(commands, &context->out);
	} else if (name == NULL) {
		help_overview(commands, &context->out);
	} else if (strcmp(name, "kinds") == 0) {
		return list_kinds(context, fault);
	} else if (topic_find(name) != NULL) {
		help_topic(topic_find(name), &context->out);
	} else if (command != NULL) {
		help_command(command, &commands->common, &context->out);
	} else {
		return usage_fault(fault, "becket",
		    "there is no command and no topic \"%s\" to help with", name);
	}
	return true;
}

const struct command COMMAND_HELP = {
    .name = "help",
    .summary =
	"say how becket or a command is used, what kinds there are, more of a topic",
    .details = "",
    .examples = "help due\n"
		"how one command is used, with examples\n"
		"help dates\n"
		"how days and the dates of labels are written\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_NOTHING,
    .run = run,
};
