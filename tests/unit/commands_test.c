#include "becket_test.h"
#include "cli/command.h"
#include "gear/fields.h"

#include <stdio.h>
#include <string.h>

/* The option of that name in a table, or NULL. */
static const struct option_spec *
find(const struct option_table *table, const char *name)
{
	for (size_t i = 0; i < table->option_count; i++) {
		if (strcmp(table->options[i].name, name) == 0) {
			return &table->options[i];
		}
	}
	return NULL;
}

/* Every name of the list is an option of the command or of all. */
static void
assert_known(const struct command *command, const char *list)
{
	char copy[256];
	char *rest = NULL;
	(void)snprintf(copy, sizeof copy, "%s", list == NULL ? "" : list);
	for (char *name = strtok_r(copy, " ", &rest); name != NULL;
	     name = strtok_r(NULL, " ", &rest)) {
		if (find(&command->table, name) == NULL &&
		    find(&COMMANDS.common, name) == NULL) {
			fail_msg("becket %s has no option --%s", command->name, name);
		}
	}
}

TEST(options_need_and_exclude_what_there_is)
{
	for (size_t c = 0; c < COMMANDS.count; c++) {
		for (size_t i = 0; i < COMMANDS.items[c]->table.option_count; i++) {
			assert_known(
			    COMMANDS.items[c], COMMANDS.items[c]->table.options[i].needs);
			assert_known(COMMANDS.items[c],
			    COMMANDS.items[c]->table.options[i].not_with);
		}
	}
}

/* Where an option's value goes in the struct of its command. */
static size_t
place_of(const struct option_spec *spec)
{
	return spec->at + (spec->field == NULL ? 0 : spec->field->offset);
}

/* A switch has no argument, a choice has fixed words, a count has room, a list is of words or
 * choices, and what stands in one place is one option's. */
TEST(types_fit_what_is_typed)
{
	for (size_t c = 0; c < COMMANDS.count; c++) {
		const struct option_table *table = &COMMANDS.items[c]->table;
		for (size_t i = 0; i < table->option_count; i++) {
			const struct option_spec *spec = &table->options[i];
			bool choice =
			    spec->argument != NULL && options_is_choice(spec->argument);
			if (spec->hidden) {
				continue; /* help's, for completions */
			}
			assert_true(spec->type != OPTION_OWN);
			bool list =
			    spec->type == OPTION_CHOICE || spec->type == OPTION_TAG ||
			    spec->type == OPTION_VESSEL || spec->type == OPTION_STATION ||
			    spec->type == OPTION_WORDS;
			assert_true(list || !spec->repeatable);
			assert_int_equal(
			    spec->type == OPTION_FLAG, spec->argument == NULL);
			assert_true(spec->type != OPTION_CHOICE || choice);
			assert_true(
			    spec->type != OPTION_COUNT || spec->most > spec->least);
			assert_int_equal(spec->type == OPTION_FIELD, spec->field != NULL);
			assert_true(spec->mark == 0 || spec->marks != place_of(spec));
			for (size_t j = 0; j < i; j++) {
				assert_true(
				    table->options[j].type == OPTION_OWN ||
				    place_of(&table->options[j]) != place_of(spec));
			}
		}
	}
}

RUN_TESTS(NULL, NULL)
