/* Values of options into the struct that a command has for them. */
#include "cli/options.h"
#include "dates/stamp.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

/* The place of a word among "a|b|c". */
static int
choice_index(const char *choice, const char *word)
{
	int index = 0;
	for (const char *at = choice; *at != '\0'; index++) {
		size_t length = strcspn(at, "|");
		if (strlen(word) == length && strncmp(at, word, length) == 0) {
			break;
		}
		at += length + (at[length] == '|' ? 1 : 0);
	}
	return index;
}

bool
number_read(const char *text, long least, long most, long *out)
{
	if (text[0] == '\0' || text[strspn(text, "0123456789")] != '\0') {
		return false;
	}
	errno = 0;
	long number = strtol(text, NULL, 10);
	if (errno != 0 || number < least || number > most) {
		return false;
	}
	*out = number;
	return true;
}

static bool
read_into(const struct given_options *given, const struct given_option *option, void *at,
    struct fault *fault)
{
	const struct option_spec *spec = option->spec;
	long number = 0;
	switch (spec->type) {
	case OPTION_OWN:
		break;
	case OPTION_WORDS:
		*(const char **)at = option->value;
		break;
	case OPTION_FLAG:
		*(bool *)at = true;
		break;
	case OPTION_DAY:
		return day_typed(option->value, given->today, at, fault) ||
		       fault_prefix(fault, "--%s", spec->name);
	case OPTION_COUNT:
		if (!number_read(option->value, spec->least, spec->most, &number)) {
			return fault_set(fault, FAULT_INPUT,
			    "--%s: \"%s\" is no whole number from %d to %d", spec->name,
			    option->value, spec->least, spec->most);
		}
		*(int *)at = (int)number;
		break;
	case OPTION_CHOICE:
		*(int *)at = choice_index(spec->argument, option->value);
		break;
	}
	return true;
}

bool
options_into(const struct given_options *given, void *target, struct fault *fault)
{
	const struct option_table *own = &given->tables[given->table_count - 1];
	for (size_t i = 0; i < given->count; i++) {
		const struct given_option *option = &given->items[i];
		bool of_it = option->spec >= own->options &&
			     option->spec < own->options + own->option_count;
		if (of_it &&
		    !read_into(given, option, (char *)target + option->spec->at, fault)) {
			return false;
		}
	}
	return true;
}
