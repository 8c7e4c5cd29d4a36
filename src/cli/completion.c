/* Completions for bash, zsh and fish. */
#include "cli/help.h"
#include "cli/values.h"

#include <string.h>

/* The words of a choice, "a|b|c", between `separator`s. */
static void
add_choice(struct text *out, const char *choice, char separator)
{
	for (; *choice != '\0'; choice++) {
		if (*choice == '|') {
			text_add_byte(out, separator);
		} else {
			text_add_byte(out, *choice);
		}
	}
}

static bool
is_file(const char *argument)
{
	return argument != NULL && strcmp(argument, "FILE") == 0;
}

static void
bash_option_names(struct text *out, const struct option_table *table, bool json)
{
	for (size_t i = 0; i < table->option_count; i++) {
		const struct option_spec *option = &table->options[i];
		if (!option->hidden && (json || strcmp(option->name, "json") != 0)) {
			text_add_format(out, " --%s", option->name);
		}
	}
}

/* What may follow an option of a command, or of every one where that is NULL: a case label and its
 * completion. */
static void
bash_values(
    struct text *out, const struct command *command, const struct option_table *table)
{
	for (size_t i = 0; i < table->option_count; i++) {
		const struct option_spec *option = &table->options[i];
		if (option->hidden || option->argument == NULL) {
			continue;
		}
		const char *names = naming_list_of_option(command, option);
		text_add_format(out, "\t%s--%s) ", command == NULL ? "*" : command->name,
		    option->name);
		if (options_is_choice(option->argument)) {
			text_add(out, "words='");
			add_choice(out, option->argument, ' ');
			text_add(out, "' ;;\n");
		} else if (names != NULL) {
			text_add_format(out, "names=%s ;;\n", names);
		} else {
			text_add(out,
			    is_file(option->argument) ? "files=1 ;;\n" : "return ;;\n");
		}
	}
}

static void
bash_words(struct text *out, const struct command *command)
{
	text_add_format(out, "\t%s) words=\"", command->name);
	const struct option_table *table = &command->table;
	bool files = false;
	const char *names = NULL;
	for (size_t i = 0; i < table->word_count; i++) {
		const char *list = naming_list_of_word(command, &table->words[i]);
		names = names == NULL ? list : names;
		const char *choices = word_choices(&table->words[i]);
		if (choices != NULL) {
			add_choice(out, choices, ' ');
			text_add_byte(out, ' ');
		}
		files = files || strstr(table->words[i].name, "FILE") != NULL;
	}
	if (strcmp(command->name, "help") == 0) {
		text_add(out, "$commands kinds ");
		for (size_t i = 0; i < TOPIC_COUNT; i++) {
			text_add_format(out, "%s ", TOPICS[i].name);
		}
	}
	text_add(out, "$common");
	text_add(out, command->answers != NULL ? " --json" : "");
	bash_option_names(out, table, true);
	text_add_format(out, "\"%s%s%s ;;\n", files ? " files=1" : "",
	    names == NULL ? "" : " names=", names == NULL ? "" : names);
}

/* What stands before the names of options and commands. */
static const char BASH_HEAD[] =
    "# bash completion for becket, made from its table of commands\n"
    "# Names of the book that begin as the current word does, in any case.\n"
    "_becket_names()\n"
    "{\n"
    "\tlocal i line plain=${current//\\\\/}\n"
    "\tplain=${plain#[\\\"\\']}\n"
    "\tfor ((i = 1; i < COMP_CWORD; i++)); do\n"
    "\t\t[[ ${COMP_WORDS[i]} == --book ]] && book=${COMP_WORDS[i + 1]}\n"
    "\tdone\n"
    "\twhile IFS= read -r line; do\n"
    "\t\t[[ ${line,,} == \"${plain,,}\"* ]] || continue\n"
    "\t\tcase $current in\n"
    "\t\t[\\\"\\']*) COMPREPLY+=(\"$line\") ;;\n"
    "\t\t*) COMPREPLY+=(\"$(printf %q \"$line\")\") ;;\n"
    "\t\tesac\n"
    "\tdone < <(\"${COMP_WORDS[0]}\" ${book:+--book \"$book\"} help --names $names "
    "2>/dev/null)\n"
    "}\n"
    "_becket()\n"
    "{\n"
    "\tlocal current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
    "\tlocal command= words= files= names= word book\n"
    "\tlocal common='";

/* And after that what each command takes. */
static const char BASH_TAIL[] = "\t*) words=\"$commands $common\" ;;\n"
				"\tesac ;;\n"
				"\tesac\n"
				"\tCOMPREPLY=($(compgen -W \"$words\" -- \"$current\"))\n"
				"\tif [[ -n $names && $current != -* ]]; then\n"
				"\t\t_becket_names\n"
				"\tfi\n"
				"\tif [[ -n $files && $current != -* ]]; then\n"
				"\t\tcompopt -o filenames 2>/dev/null\n"
				"\t\tCOMPREPLY+=($(compgen -f -- \"$current\"))\n"
				"\tfi\n"
				"}\n"
				"complete -F _becket becket\n";

void
completion_bash(const struct command_table *commands, struct text *out)
{
	SCOPED_TEXT names = {0};
	bash_option_names(&names, &commands->common, false);
	text_add_format(out, "%s%s'\n\tlocal commands='", BASH_HEAD,
	    text_string(&names) + strspn(text_string(&names), " "));
	for (size_t i = 0; i < commands->count; i++) {
		text_add_format(out, "%s%s", i == 0 ? "" : " ", commands->items[i]->name);
	}
	text_add(out,
	    "'\n"
	    "\tCOMPREPLY=()\n"
	    "\tfor word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do\n"
	    "\t\tcase \" $commands \" in *\" $word \"*) command=$word; break ;; esac\n"
	    "\tdone\n"
	    "\tcase $command$before in\n");
	for (size_t i = 0; i < commands->count; i++) {
		bash_values(out, commands->items[i], &commands->items[i]->table);
	}
	bash_values(out, NULL, &commands->common);
	text_add(out, "\t*) case $command in\n");
	for (size_t i = 0; i < commands->count; i++) {
		bash_words(out, commands->items[i]);
	}
	text_add(out, BASH_TAIL);
}

/* Adds words inside single quotes for _arguments: brackets and colons have a meaning. */
static void
zsh_quoted(struct text *out, const char *words)
{
	for (; *words != '\0'; words++) {
		if (*words == '\'') {
			text_add(out, "'\\''");
			continue;
		}
		if (strchr("[]:\\", *words) != NULL) {
			text_add_byte(out, '\\');
		}
		text_add_byte(out, *words);
	}
}

/* What may stand for a word or a value. */
static void
zsh_action(struct text *out, const char *name, const char *names)
{
	if (names != NULL && !options_is_choice(name)) {
		text_add_format(out, ":{_becket_names %s}", names);
		return;
	}
	if (options_is_choice(name)) {
		text_add(out, ":(");
		add_choice(out, name, ' ');
		text_add(out, ")");
	} else {
		text_add(out, strstr(name, "FILE") != NULL ? ":_files" : ": ");
	}
}

static void
zsh_options(struct text *out, const struct command *command,
    const struct option_table *table, bool json)
{
	for (size_t i = 0; i < table->option_count; i++) {
		const struct option_spec *option = &table->options[i];
		if (option->hidden || (!json && strcmp(option->name, "json") == 0)) {
			continue;
		}
		text_add_format(out, " \\\n\t\t\t'%s--%s[", option->repeatable ? "*" : "",
		    option->name);
		zsh_quoted(out, option->help);
		text_add(out, "]");
		if (option->argument != NULL) {
			text_add(out, ":");
			zsh_quoted(out, option->argument);
			zsh_action(out, option->argument,
			    naming_list_of_option(command, option));
		}
		text_add(out, "'");
	}
}

static void
zsh_command(
    struct text *out, const struct command *command, const struct option_table *common)
{
	text_add_format(out, "\t%s)\n\t\t_arguments", command->name);
	zsh_options(out, command, &command->table, true);
	zsh_options(out, command, common, command->answers != NULL);
	for (size_t i = 0; i < command->table.word_count; i++) {
		const struct word_spec *word = &command->table.words[i];
		text_add_format(out, " \\\n\t\t\t'%s:", word->repeatable ? "*" : "");
		if (!word->required && !word->repeatable) {
			text_add(out, ":");
		}
		zsh_quoted(out, word->name);
		const char *choices = word_choices(word);
		zsh_action(out, choices != NULL ? choices : word->name,
		    naming_list_of_word(command, word));
		text_add(out, "'");
	}
	text_add(out, " ;;\n");
}

void
completion_zsh(const struct command_table *commands, struct text *out)
{
	text_add(out,
	    "#compdef becket\n"
	    "# zsh completion for becket, made from its table of commands\n"
	    "_becket_names()\n"
	    "{\n"
	    "\tlocal -a names\n"
	    "\tnames=(${(f)\"$(_call_program names becket "
	    "${opt_args[--book]:+--book=${(q)${(Q)opt_args[--book]}}} "
	    "help --names $1)\"})\n"
	    "\tcompadd -M 'm:{[:lower:][:upper:]}={[:upper:][:lower:]}' -a names\n"
	    "}\n"
	    "_becket_commands()\n"
	    "{\n"
	    "\tlocal -a commands=(\n");
	for (size_t i = 0; i < commands->count; i++) {
		text_add_format(out, "\t\t'%s:", commands->items[i]->name);
		zsh_quoted(out, commands->items[i]->summary);
		text_add(out, "'\n");
	}
	text_add(out, "\t)\n"
		      "\t_describe -t commands command commands\n"
		      "}\n"
		      "_becket()\n"
		      "{\n"
		      "\tlocal curcontext=$curcontext state line\n"
		      "\tlocal -A opt_args\n"
		      "\t_arguments -C");
	zsh_options(out, NULL, &commands->common, true);
	text_add(out,
	    " \\\n\t\t\t'1:command:_becket_commands' \\\n\t\t\t'*::words:->words'\n"
	    "\t[[ $state == words ]] || return\n"
	    "\tcase $words[1] in\n");
	for (size_t i = 0; i < commands->count; i++) {
		zsh_command(out, commands->items[i], &commands->common);
	}
	text_add(out, "\tesac\n}\n_becket \"$@\"\n");
}

/* Adds words inside single quotes for fish. */
static void
fish_quoted(struct text *out, const char *words)
{
	text_add_byte(out, '\'');
	for (; *words != '\0'; words++) {
		if (*words == '\'' || *words == '\\') {
			text_add_byte(out, '\\');
		}
		text_add_byte(out, *words);
	}
	text_add_byte(out, '\'');
}

/* Begins a line: for one command, or for all where `command` is NULL. */
static void
fish_begin(struct text *out, const struct command *command)
{
	text_add(out, "complete -c becket");
	if (command != NULL) {
		text_add_format(out, " -n '__becket_is %s'", command->name);
	}
}

/* What may stand for a value or a word; nothing is added for words that are free. */
static void
fish_values(struct text *out, const char *choices, const char *names)
{
	if (choices != NULL) {
		text_add(out, " -a '");
		add_choice(out, choices, ' ');
		text_add(out, "'");
	} else if (names != NULL) {
		text_add_format(out, " -a '(__becket_names %s)'", names);
	}
}

static void
fish_options(
    struct text *out, const struct command *command, const struct option_table *table)
{
	for (size_t i = 0; i < table->option_count; i++) {
		const struct option_spec *option = &table->options[i];
		const char *argument = option->argument;
		bool json = strcmp(option->name, "json") == 0;
		if (option->hidden || (json && command == NULL)) {
			continue;
		}
		fish_begin(out, command);
		text_add_format(out, " -l %s", option->name);
		if (argument != NULL) {
			text_add(out, is_file(argument) ? " -r -F" : " -x");
			fish_values(out, options_is_choice(argument) ? argument : NULL,
			    naming_list_of_option(command, option));
		}
		text_add(out, " -d ");
		fish_quoted(out, option->help);
		text_add(out, "\n");
	}
}

static void
fish_command(struct text *out, const struct command *command)
{
	fish_options(out, command, &command->table);
	if (command->answers != NULL) {
		fish_begin(out, command);
		text_add(out, " -l json\n");
	}
	for (size_t i = 0; i < command->table.word_count; i++) {
		const struct word_spec *word = &command->table.words[i];
		const char *choices = word_choices(word);
		const char *names = naming_list_of_word(command, word);
		bool files = strstr(word->name, "FILE") != NULL;
		if (choices == NULL && names == NULL && !files) {
			continue;
		}
		fish_begin(out, command);
		text_add(out, files ? " -F" : "");
		fish_values(out, choices, names);
		text_add(out, "\n");
	}
}

void
completion_fish(const struct command_table *commands, struct text *out)
{
	text_add(out,
	    "# fish completion for becket, made from its table of commands\n"
	    "# The command on the line is this one; without one: there is none yet.\n"
	    "function __becket_is\n"
	    "\tset -l words (commandline -opc)\n"
	    "\tset -l commands");
	for (size_t i = 0; i < commands->count; i++) {
		text_add_format(out, " %s", commands->items[i]->name);
	}
	text_add(out, "\n"
		      "\tfor word in $words[2..-1]\n"
		      "\t\tif contains -- $word $commands\n"
		      "\t\t\ttest \"$word\" = \"$argv[1]\"\n"
		      "\t\t\treturn\n"
		      "\t\tend\n"
		      "\tend\n"
		      "\ttest -z \"$argv[1]\"\n"
		      "end\n"
		      "# Names of the book that --book names, or of the usual one.\n"
		      "function __becket_names\n"
		      "\tset -l words (commandline -opc | string unescape)\n"
		      "\tset -l at (contains -i -- --book $words)\n"
		      "\tand set -l book --book $words[(math $at + 1)]\n"
		      "\t$words[1] $book help --names $argv[1] 2>/dev/null\n"
		      "end\n"
		      "complete -c becket -f\n");
	fish_options(out, NULL, &commands->common);
	for (size_t i = 0; i < commands->count; i++) {
		text_add_format(out, "complete -c becket -n __becket_is -a %s -d ",
		    commands->items[i]->name);
		fish_quoted(out, commands->items[i]->summary);
		text_add(out, "\n");
		fish_command(out, commands->items[i]);
	}
	text_add(out, "complete -c becket -n '__becket_is help' -a 'kinds");
	for (size_t i = 0; i < TOPIC_COUNT; i++) {
		text_add_format(out, " %s", TOPICS[i].name);
	}
	for (size_t i = 0; i < commands->count; i++) {
		text_add_format(out, " %s", commands->items[i]->name);
	}
	text_add(out, "'\n");
}
