/* Writes the values of options into the struct that a command has for them. */
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

static void
add_word(const struct given_options *given, const char *word, struct word_list *list)
{
	ARENA_ADD(given->reader.arena, list, word);
}

bool
count_typed(const char *text, int least, int most, int *out, struct fault *fault)
{
	long number = 0;
	if (!number_read(text, least, most, &number)) {
		return fault_set(fault, FAULT_INPUT,
		    "\"%s\" is no whole number from %d to %d", text, least, most);
	}
	*out = (int)number;
	return true;
}

static void
read_choice(const struct option_spec *spec, const char *value, void *at)
{
	int index = choice_index(spec->argument, value);
	if (spec->repeatable) {
		*(unsigned *)at |= 1U << index;
	} else {
		*(int *)at = spec->least + index;
	}
}

static bool
read_into(const struct given_options *given, const struct given_option *option, void *at,
    struct fault *fault)
{
	const struct option_spec *spec = option->spec;
	const struct option_reader *reader = &given->reader;
	switch (spec->type) {
	case OPTION_OWN:
		break;
	case OPTION_WORDS:
	case OPTION_TAG:
	case OPTION_VESSEL:
	case OPTION_STATION:
		if (spec->repeatable) {
			add_word(given, option->value, at);
		} else {
			*(const char **)at = option->value;
		}
		break;
	case OPTION_FLAG:
		*(bool *)at = true;
		break;
	case OPTION_DAY:
		return day_typed(option->value, given->today, at, fault);
	case OPTION_COUNT:
		return count_typed(option->value, spec->least, spec->most, at, fault);
	case OPTION_CHOICE:
		read_choice(spec, option->value, at);
		break;
	case OPTION_STAMP:
		return stamp_typed(option->value, given->today, at, fault);
	case OPTION_PRICE:
	case OPTION_KIND:
	case OPTION_FIELD:
		return reader->read(reader->of, spec, option->value, at, fault);
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
			return fault_prefix(fault, "--%s", option->spec->name);
		}
		if (of_it && option->spec->mark != 0) {
			*(unsigned *)(void *)((char *)target + option->spec->marks) |=
			    option->spec->mark;
		}
	}
	return true;
}
