#include "cli/options.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void
options_clear(struct given_options *given)
{
	free(given->items);
	free(given->words.items);
	arena_clear(&given->arena);
	*given = (struct given_options){0};
}

bool
usage_fault(struct fault *fault, const char *who, const char *format, ...)
{
	char words[1024];
	va_list args;
	va_start(args, format);
	(void)vsnprintf(words, sizeof words, format, args);
	va_end(args);
	return fault_set(fault, FAULT_USAGE, "%s; try \"%s --help\"", words, who);
}

/* Compares an option's name with what was typed; an underscore counts as a hyphen. */
static bool
same_name(const char *name, const char *typed, size_t length)
{
	if (strlen(name) != length) {
		return false;
	}
	for (size_t i = 0; i < length; i++) {
		bool hyphen = name[i] == '-' && typed[i] == '_';
		if (typed[i] != name[i] && !hyphen) {
			return false;
		}
	}
	return true;
}

static const struct option_spec *
find_spec(const struct given_options *given, const char *typed, size_t length)
{
	for (size_t t = 0; t < given->table_count; t++) {
		const struct option_table *table = &given->tables[t];
		for (size_t i = 0; i < table->option_count; i++) {
			const struct option_spec *spec = &table->options[i];
			if (same_name(spec->name, typed, length) ||
			    (spec->also != NULL &&
				same_name(spec->also, typed, length))) {
				return spec;
			}
		}
	}
	return NULL;
}

/* The known option nearest to what was typed, or NULL. */
static const char *
nearest_option(const struct given_options *given, const char *typed)
{
	const char *names[128];
	size_t count = 0;
	for (size_t t = 0; t < given->table_count; t++) {
		const struct option_table *table = &given->tables[t];
		for (size_t i = 0; i < table->option_count; i++) {
			bool room = count < sizeof names / sizeof names[0];
			if (room && !table->options[i].hidden) {
				names[count++] = table->options[i].name;
			}
		}
	}
	return nearest_word(typed, names, count);
}

static bool
unknown_option(const char *who, const char *found, const struct given_options *given,
    struct fault *fault)
{
	char typed[64];
	const char *start = found + strspn(found, "-");
	(void)snprintf(typed, sizeof typed, "%.*s", (int)strcspn(start, "="), start);
	const char *nearest = nearest_option(given, typed);
	if (nearest != NULL) {
		return usage_fault(fault, who,
		    "there is no option %s (did you mean --%s?)", found, nearest);
	}
	return usage_fault(fault, who, "there is no option %s", found);
}

static bool
given_before(const struct given_options *given, const struct option_spec *spec)
{
	for (size_t i = 0; i < given->count; i++) {
		if (given->items[i].spec == spec) {
			return true;
		}
	}
	return false;
}

static bool
add_option(const char *who, const struct option_spec *spec, const char *value,
    struct given_options *given, struct fault *fault)
{
	if (!spec->repeatable && given_before(given, spec)) {
		return usage_fault(
		    fault, who, "--%s is there twice, expected once", spec->name);
	}
	if (spec->argument != NULL && options_is_choice(spec->argument) &&
	    !options_choose(&given->arena, spec->argument, &value)) {
		return usage_fault(fault, who, "--%s expects one of %s, found \"%s\"",
		    spec->name, spec->argument, value);
	}
	ARRAY_ADD(given, (struct given_option){spec, value});
	return true;
}

/* Moves past the first word and returns it; the line is not empty. */
static const char *
take(struct command_line *line)
{
	line->count--;
	return *line->items++;
}

/* The value of an option: what stands after its "=", or the next word. */
static bool
take_value(const char *who, const struct option_spec *spec, const char *joined,
    struct command_line *line, const char **out, struct fault *fault)
{
	if (spec->argument == NULL && joined != NULL) {
		return usage_fault(
		    fault, who, "--%s takes no value, found \"%s\"", spec->name, joined);
	}
	if (spec->argument == NULL || joined != NULL) {
		*out = joined != NULL ? joined : "";
		return true;
	}
	if (line->count == 0) {
		return usage_fault(fault, who, "--%s expects %s, found nothing after it",
		    spec->name, spec->argument);
	}
	const char *value = take(line);
	if (strncmp(value, "--", 2) == 0) {
		return usage_fault(fault, who,
		    "--%s expects %s, found the option %s (a value that starts so is "
		    "written --%s=%s)",
		    spec->name, spec->argument, value, spec->name, value);
	}
	*out = value;
	return true;
}

/* Reads the option at the start of the line and its value. */
static bool
read_option(const char *who, struct command_line *line, struct given_options *given,
    struct fault *fault)
{
	const char *found = take(line);
	bool help = strcmp(found, "-h") == 0;
	const struct option_spec *spec = NULL;
	const char *joined = NULL;
	if (help) {
		spec = find_spec(given, "help", strlen("help"));
	} else if (strncmp(found, "--", 2) == 0) {
		const char *name = found + 2;
		size_t length = strcspn(name, "=");
		joined = name[length] == '=' ? name + length + 1 : NULL;
		spec = find_spec(given, name, length);
	}
	if (spec == NULL) {
		return unknown_option(who, found, given, fault);
	}
	const char *value = NULL;
	return take_value(who, spec, joined, line, &value, fault) &&
	       add_option(who, spec, value, given, fault);
}

bool
options_parse(const char *who, struct command_line *line, bool leading,
    struct given_options *given, struct fault *fault)
{
	bool options_over = false;
	while (line->count > 0) {
		const char *found = line->items[0];
		bool option = !options_over && found[0] == '-' && found[1] != '\0';
		if (option && strcmp(found, "--") == 0) {
			options_over = true;
			(void)take(line);
			continue;
		}
		if (option) {
			if (!read_option(who, line, given, fault)) {
				return false;
			}
			continue;
		}
		if (leading) {
			break;
		}
		ARRAY_ADD(&given->words, take(line));
	}
	return true;
}

static bool
settle_words(const char *who, const struct option_table *table,
    struct given_options *given, struct fault *fault)
{
	size_t found = given->words.count;
	for (size_t i = 0; i < table->word_count; i++) {
		const struct word_spec *word = &table->words[i];
		if (i >= found) {
			if (word->required) {
				return usage_fault(
				    fault, who, "%s is missing", word->name);
			}
			continue;
		}
		const char **is = &given->words.items[i];
		const char *choices = word_choices(word);
		if (choices != NULL && !options_choose(&given->arena, choices, is)) {
			return usage_fault(
			    fault, who, "expected one of %s, found \"%s\"", choices, *is);
		}
	}
	bool open_end =
	    table->word_count > 0 && table->words[table->word_count - 1].repeatable;
	if (found > table->word_count && !open_end) {
		const char *extra = given->words.items[table->word_count];
		return usage_fault(fault, who, "\"%s\" is a word too many", extra);
	}
	return true;
}

/* Goes through a list of names, "price if": adds them, as "--price, --if", and gives the
 * first of them that was given; NULL for none. */
static const struct option_spec *
first_given(const struct given_options *given, const char *list, struct text *out)
{
	const struct option_spec *first = NULL;
	for (const char *at = list; *at != '\0'; at += *at == ' ' ? 1 : 0) {
		size_t length = strcspn(at, " ");
		const struct option_spec *spec = find_spec(given, at, length);
		assert(spec != NULL);
		text_add_format(out, "%s--%s", at == list ? "" : ", ", spec->name);
		first = first == NULL && given_before(given, spec) ? spec : first;
		at += length;
	}
	return first;
}

/* True when a name is in a list of names separated by blanks. */
static bool
is_listed(const char *list, const char *name)
{
	size_t length = strlen(name);
	for (const char *at = list; *at != '\0'; at += *at == ' ' ? 1 : 0) {
		size_t here = strcspn(at, " ");
		if (here == length && strncmp(at, name, length) == 0) {
			return true;
		}
		at += here;
	}
	return false;
}

/* The act that the first word names; "FILE" for a word that is no act, "" when there is
 * no word. */
static const char *
act_of(const struct option_table *table, const struct given_options *given)
{
	const char *first = options_word(given, 0);
	if (first == NULL || table->word_count == 0) {
		return "";
	}
	const struct word_spec *word = &table->words[0];
	const char *acts = word->choices != NULL ? word->choices : word->name;
	for (const char *at = acts; *at != '\0'; at += *at == '|' ? 1 : 0) {
		size_t length = strcspn(at, "|");
		if (strlen(first) == length && strncmp(at, first, length) == 0) {
			return first;
		}
		at += length;
	}
	return "FILE";
}

/* Checks that an option that was given goes with the act. */
static bool
check_act(const char *who, const struct option_table *table,
    const struct given_options *given, const struct option_spec *spec,
    struct fault *fault)
{
	SCOPED_TEXT acts = {0};
	const char *act = spec->acts == NULL ? "" : act_of(table, given);
	if (spec->acts == NULL || is_listed(spec->acts, act)) {
		return true;
	}
	for (const char *at = spec->acts; *at != '\0'; at += *at == ' ' ? 1 : 0) {
		size_t length = strcspn(at, " ");
		text_add(&acts, acts.length == 0 ? "" : " or ");
		text_add_bytes(&acts, at, length);
		at += length;
	}
	return usage_fault(fault, who, "--%s goes with %s, %s%s", spec->name,
	    text_string(&acts), act[0] == '\0' ? "which is not there" : "not with ", act);
}

/* Checks a given option against those it needs and those it excludes. */
static bool
check_others(const char *who, const struct given_options *given,
    const struct option_spec *spec, struct fault *fault)
{
	SCOPED_TEXT others = {0};
	const struct option_spec *against =
	    spec->not_with == NULL ? NULL : first_given(given, spec->not_with, &others);
	if (against != NULL) {
		return usage_fault(fault, who, "--%s and --%s exclude each other",
		    spec->name, against->name);
	}
	text_reset(&others);
	if (spec->needs == NULL || first_given(given, spec->needs, &others) != NULL) {
		return true;
	}
	bool one = strchr(spec->needs, ' ') == NULL;
	return usage_fault(fault, who, "--%s goes with %s%s%s", spec->name,
	    one ? "" : "one of ", text_string(&others),
	    one ? ", which is not there" : "; none of them is there");
}

bool
options_complete(const char *who, struct given_options *given, struct fault *fault)
{
	static const struct option_table NO_WORDS = {0};
	const struct option_table *with_words = &NO_WORDS;
	for (size_t t = 0; t < given->table_count; t++) {
		if (given->tables[t].word_count > 0) {
			with_words = &given->tables[t];
		}
	}
	if (!settle_words(who, with_words, given, fault)) {
		return false;
	}
	for (size_t t = 0; t < given->table_count; t++) {
		const struct option_table *table = &given->tables[t];
		for (size_t i = 0; i < table->option_count; i++) {
			const struct option_spec *spec = &table->options[i];
			if (spec->required && !given_before(given, spec)) {
				return usage_fault(fault, who, "--%s %s is missing",
				    spec->name, spec->argument);
			}
			if (given_before(given, spec) &&
			    !(check_act(who, with_words, given, spec, fault) &&
				check_others(who, given, spec, fault))) {
				return false;
			}
		}
	}
	return true;
}

const char *
options_value(const struct given_options *given, const char *name)
{
	assert(find_spec(given, name, strlen(name)) != NULL);
	for (size_t i = 0; i < given->count; i++) {
		if (strcmp(given->items[i].spec->name, name) == 0) {
			return given->items[i].value;
		}
	}
	return NULL;
}

bool
options_has(const struct given_options *given, const char *name)
{
	return options_value(given, name) != NULL;
}

const char *
options_word(const struct given_options *given, size_t index)
{
	return index < given->words.count ? given->words.items[index] : NULL;
}
