#include "cli/help.h"
#include "report/report.h"

#include <string.h>

static void
add_part(struct text *out, const char *name)
{
	for (size_t i = 0; i < EMBEDDED_MAN_COUNT; i++) {
		if (strcmp(EMBEDDED_MAN[i].name, name) == 0) {
			text_add_bytes(
			    out, EMBEDDED_MAN[i].bytes, EMBEDDED_MAN[i].length);
		}
	}
}

/* Adds words so that none of their signs is markup. */
static void
add_plain(struct text *out, const char *words)
{
	for (; *words != '\0'; words++) {
		bool last_stop = *words == '.' && (words[1] == '.' || words[1] == '\0');
		if (last_stop || strchr("*_\\#[|]", *words) != NULL) {
			text_add_byte(out, '\\');
		}
		text_add_byte(out, *words);
	}
}

static void
add_term(struct text *out, const char *name, const char *argument, const char *words)
{
	text_add(out, "*");
	add_plain(out, name);
	text_add(out, "*");
	if (argument != NULL) {
		text_add(out, " ");
		add_plain(out, argument);
	}
	text_add(out, "\n\t");
	add_plain(out, words);
	text_add(out, "\n\n");
}

static void
add_options(struct text *out, const struct option_table *table)
{
	for (size_t i = 0; i < table->option_count; i++) {
		const struct option_spec *option = &table->options[i];
		if (option->hidden) {
			continue;
		}
		SCOPED_TEXT name = {0};
		SCOPED_TEXT words = {0};
		text_add_format(&name, "--%s", option->name);
		text_add_format(&words, "%s%s%s", option->help,
		    option->required ? " (required)" : "",
		    option->repeatable ? " (may be repeated)" : "");
		add_term(out, text_string(&name), option->argument, text_string(&words));
	}
}

/* Paragraphs, one a line of the words. */
static void
add_paragraphs(struct text *out, const char *words)
{
	SCOPED_TEXT paragraph = {0};
	for (const char *at = words; *at != '\0';) {
		size_t length = strcspn(at, "\n");
		text_reset(&paragraph);
		text_add_bytes(&paragraph, at, length);
		add_plain(out, text_string(&paragraph));
		text_add(out, "\n\n");
		at += length + (at[length] == '\n' ? 1 : 0);
	}
}

static void
add_usage(struct text *out, const struct command *command)
{
	SCOPED_TEXT usage = {0};
	options_usage(&command->table, &usage);
	text_add_format(out, "*becket %s* ", command->name);
	add_plain(out, text_string(&usage));
	text_add(out, "\n\n");
}

static void
add_summary(struct text *out, const struct command *command)
{
	SCOPED_TEXT summary = {0};
	add_sentence(&summary, command->summary);
	add_plain(out, text_string(&summary));
	text_add(out, "\n\n");
}

static void
add_words(struct text *out, const struct command *command)
{
	for (size_t i = 0; i < command->table.word_count; i++) {
		const struct word_spec *word = &command->table.words[i];
		add_term(out, word->name, NULL, word->help);
	}
	add_options(out, &command->table);
}

static void
add_command_details(struct text *out, const struct command *command)
{
	SCOPED_TEXT details = {0};
	add_details(&details, command);
	add_paragraphs(out, text_string(&details));
}

static void
add_examples(struct text *out, const struct command *command)
{
	SCOPED_TEXT typed = {0};
	SCOPED_TEXT does = {0};
	const char *at = command->examples;
	while (command_example(&at, &typed, &does)) {
		text_add(out, "\t*becket ");
		add_plain(out, text_string(&typed));
		text_add(out, "*++\n\t");
		add_plain(out, text_string(&does));
		text_add(out, "\n\n");
	}
}

static void
add_topics(struct text *out)
{
	SCOPED_TEXT head = {0};
	for (size_t i = 0; i < TOPIC_COUNT; i++) {
		text_reset(&head);
		for (const char *at = TOPICS[i].name; *at != '\0'; at++) {
			text_add_byte(&head, (char)(*at - 'a' + 'A'));
		}
		text_add_format(out, "# %s\n\n", text_string(&head));
		add_paragraphs(out, TOPICS[i].words);
	}
}

void
man_command(
    const struct command *command, const struct option_table *common, struct text *out)
{
	text_add_format(
	    out, "becket-%s(1)\n\n# NAME\n\nbecket-%s - ", command->name, command->name);
	add_plain(out, command->summary);
	text_add(out, "\n\n# SYNOPSIS\n\n");
	add_usage(out, command);
	text_add(out, "# DESCRIPTION\n\n");
	add_summary(out, command);
	add_command_details(out, command);
	text_add(out, "# OPTIONS\n\n");
	add_words(out, command);
	add_options(out, common);
	if (command->examples != NULL) {
		text_add(out, "# EXAMPLES\n\n");
		add_examples(out, command);
	}
	text_add(out, "# SEE ALSO\n\n*becket*(1)\n\n");
	add_plain(out, REPORT_CAUTION);
	text_add(out, "\n");
}

void
man_page(const struct command_table *commands, struct text *out)
{
	add_part(out, "head.scd");
	text_add(out, "\n# COMMON OPTIONS\n\n");
	add_options(out, &commands->common);
	text_add(out, "# COMMANDS\n\n");
	for (size_t i = 0; i < commands->count; i++) {
		const struct command *command = commands->items[i];
		text_add_format(out, "## becket %s\n\n", command->name);
		add_usage(out, command);
		add_summary(out, command);
		add_words(out, command);
		add_command_details(out, command);
		add_examples(out, command);
	}
	add_topics(out);
	add_part(out, "tail.scd");
}
