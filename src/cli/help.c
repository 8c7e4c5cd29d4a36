#include "cli/help.h"

#include "exchange/inventory_csv.h"

#include <string.h>

enum { HELP_COLUMNS = 80 };

const struct command *
command_find(const struct command_table *commands, const char *name)
{
	for (size_t i = 0; i < commands->count; i++) {
		if (strcmp(commands->items[i]->name, name) == 0) {
			return commands->items[i];
		}
	}
	return NULL;
}

static void
take_line(const char **at, struct text *out)
{
	size_t length = strcspn(*at, "\n");
	text_reset(out);
	text_add_bytes(out, *at, length);
	*at += length + ((*at)[length] == '\n' ? 1 : 0);
}

bool
command_example(const char **at, struct text *typed_out, struct text *does_out)
{
	if (*at == NULL || **at == '\0') {
		return false;
	}
	take_line(at, typed_out);
	take_line(at, does_out);
	return true;
}

/* How long the next piece is that must stay on one line: a word, or all between brackets. */
static size_t
piece_length(const char *words)
{
	size_t length = 0;
	int open = 0;
	for (; words[length] != '\0' && words[length] != '\n'; length++) {
		if (words[length] == ' ' && open == 0) {
			break;
		}
		open += words[length] == '[' ? 1 : 0;
		open -= words[length] == ']' ? 1 : 0;
	}
	return length;
}

/* Adds words, broken into lines of at most HELP_COLUMNS, or of a narrower page, and
 * indented; the first line goes on from `column`. */
static void
add_wrapped(struct text *out, const char *words, size_t indent, size_t column)
{
	size_t most =
	    out->columns > 0 && out->columns < HELP_COLUMNS ? out->columns : HELP_COLUMNS;
	bool first = true;
	while (*words != '\0') {
		size_t length = piece_length(words);
		if (!first && column + 1 + length > most) {
			text_add_format(out, "\n%*s", (int)indent, "");
			column = indent;
		} else if (!first) {
			text_add_byte(out, ' ');
			column++;
		}
		text_add_bytes(out, words, length);
		column += length;
		first = false;
		words += length;
		words += *words == '\0' ? 0 : 1;
	}
	text_add_byte(out, '\n');
}

/* A label and its explanation in two columns. */
static void
add_entry(struct text *out, const char *label, const char *words, size_t indent)
{
	size_t width = strlen(label) + 2;
	text_add_format(out, "  %s", label);
	if (width + 2 > indent) {
		text_add_byte(out, '\n');
		width = 0;
	}
	text_add_format(out, "%*s", (int)(indent - width), "");
	add_wrapped(out, words, indent, indent);
}

static void
add_options(struct text *out, const struct option_table *table, bool json)
{
	for (size_t i = 0; i < table->option_count; i++) {
		const struct option_spec *option = &table->options[i];
		if (option->hidden || (!json && strcmp(option->name, "json") == 0)) {
			continue;
		}
		SCOPED_TEXT label = {0};
		SCOPED_TEXT words = {0};
		text_add_format(&label, "--%s%s%s", option->name,
		    option->argument == NULL ? "" : " ",
		    option->argument == NULL ? "" : option->argument);
		text_add_format(&words, "%s%s%s", option->help,
		    option->required ? " (required)" : "",
		    option->repeatable ? " (may be repeated)" : "");
		add_entry(out, text_string(&label), text_string(&words), 26);
	}
}

void
add_sentence(struct text *out, const char *words)
{
	SCOPED_TEXT sentence = {0};
	text_add_capital(&sentence, words);
	text_add_byte(&sentence, '.');
	add_wrapped(out, text_string(&sentence), 0, 0);
}

/* One more key of a sentence of them. */
static void
add_key(struct text *out, const char *key, bool *begun)
{
	size_t name = strcspn(key, ":");
	text_add(out, *begun ? ", " : " ");
	text_add_bytes(out, key, name);
	if (key[name] == ':') {
		text_add_format(out, " (%s)", key + name + strlen(": "));
	}
	*begun = true;
}

/* True when a table has a key of this name. */
static bool
has_key(const struct answer_keys *keys, const char *name)
{
	for (size_t i = 0; i < keys->count; i++) {
		size_t length = strcspn(keys->items[i], ":");
		if (strlen(name) == length && memcmp(keys->items[i], name, length) == 0) {
			return true;
		}
	}
	return false;
}

/* " vessel, tag, due (its last good day)." */
static void
add_keys(struct text *out, const struct answer_keys *keys)
{
	bool begun = false;
	for (size_t i = 0; i < keys->count; i++) {
		const struct field *field = NULL;
		char names[2][FIELD_KEY_SIZE];
		if (keys->items[i][0] != '\0') {
			add_key(out, keys->items[i], &begun);
			continue;
		}
		for (size_t nth = 0; (field = keys->field(nth)) != NULL; nth++) {
			size_t count = field_keys(field, names);
			count = has_key(keys, names[0]) ? 0 : count;
			for (size_t n = 0; n < count; n++) {
				add_key(out, names[n], &begun);
			}
		}
	}
	text_add(out, ".");
}

/* "With --json a task has vessel, tag, due (its last good day), ...", a line a sort of object. */
static void
add_answers(struct text *out, const struct told_answer *answer)
{
	for (; answer != NULL && answer->keys != NULL; answer++) {
		const struct answer_keys *const *keys = answer->keys;
		text_add_format(out, "\nWith %s%s--json ", answer->asked,
		    answer->asked[0] == '\0' ? "" : " ");
		for (; *keys != NULL; keys++) {
			text_add_format(out, "%s%s has",
			    keys == answer->keys ? "" : "\nIn it ", (*keys)->of);
			add_keys(out, *keys);
		}
	}
}

void
add_details(struct text *out, const struct command *command)
{
	static const char MARK[] = "{columns}";
	const char *at = command->details;
	const char *mark = strstr(at, MARK);
	if (mark != NULL) {
		text_add_bytes(out, at, (size_t)(mark - at));
		for (size_t i = 0; i < CSV_COLUMN_COUNT; i++) {
			text_add_format(out, "%s%s", i == 0 ? "" : " ", CSV_COLUMNS[i]);
		}
		at = mark + strlen(MARK);
	}
	text_add(out, at);
	add_answers(out, command->answers);
}

/* Paragraphs, one a line; blank lines between them are passed over. */
static void
add_paragraphs(struct text *out, const char *words)
{
	SCOPED_TEXT paragraph = {0};
	for (const char *at = words + strspn(words, "\n"); *at != '\0';) {
		size_t length = strcspn(at, "\n");
		text_reset(&paragraph);
		text_add_bytes(&paragraph, at, length);
		text_add_byte(out, '\n');
		add_wrapped(out, text_string(&paragraph), 0, 0);
		at += length;
		at += strspn(at, "\n");
	}
}

static void
add_examples(struct text *out, const struct command *command)
{
	SCOPED_TEXT typed = {0};
	SCOPED_TEXT does = {0};
	const char *at = command->examples;
	text_add(out, at == NULL ? "" : "\nexamples:\n");
	while (command_example(&at, &typed, &does)) {
		text_add_format(out, "  becket %s\n%*s", text_string(&typed), 6, "");
		add_wrapped(out, text_string(&does), 6, 6);
	}
}

void
help_command(
    const struct command *command, const struct option_table *common, struct text *out)
{
	SCOPED_TEXT usage = {0};
	options_usage(&command->table, &usage);
	text_add_format(out, "usage: becket %s ", command->name);
	add_wrapped(out, text_string(&usage), 8, 15 + strlen(command->name));
	text_add(out, "\n");
	add_sentence(out, command->summary);
	if (command->table.word_count > 0) {
		text_add(out, "\nwords:\n");
	}
	for (size_t i = 0; i < command->table.word_count; i++) {
		const struct word_spec *word = &command->table.words[i];
		add_entry(out, word->name, word->help, 26);
	}
	if (command->table.option_count > 0) {
		text_add(out, "\noptions:\n");
	}
	add_options(out, &command->table, true);
	text_add(out, "\noptions of every command:\n");
	add_options(out, common, command->answers != NULL);
	SCOPED_TEXT details = {0};
	add_details(&details, command);
	add_paragraphs(out, text_string(&details));
	add_examples(out, command);
}

void
help_topic(const struct topic *topic, struct text *out)
{
	add_sentence(out, topic->summary);
	add_paragraphs(out, topic->words);
}

void
help_overview(const struct command_table *commands, struct text *out)
{
	text_add(out, "becket keeps a boat's safety gear and works out what is due.\n"
		      "\n"
		      "usage: becket COMMAND [words] [options]\n"
		      "\n"
		      "commands:\n");
	for (size_t i = 0; i < commands->count; i++) {
		const struct command *command = commands->items[i];
		add_entry(out, command->name, command->summary, 14);
	}
	text_add(out, "\ntopics of \"becket help TOPIC\":\n");
	add_entry(out, "kinds", "what an item can be", 14);
	for (size_t i = 0; i < TOPIC_COUNT; i++) {
		add_entry(out, TOPICS[i].name, TOPICS[i].summary, 14);
	}
	text_add(out, "\noptions of every command:\n");
	add_options(out, &commands->common, true);
	text_add(out, "\n");
	add_wrapped(out,
	    "\"becket COMMAND --help\" says more of one. becket advises: the label, the "
	    "maker's manual, the station's certificate, the local authority and the "
	    "surveyor decide.",
	    0, 0);
}
