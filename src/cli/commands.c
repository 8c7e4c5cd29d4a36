#include "cli/commands.h"

#include <string.h>

const struct command *const COMMANDS[] = {
    &COMMAND_AMEND,
    &COMMAND_ASHORE,
    &COMMAND_ATTACH,
    &COMMAND_BOOK,
    &COMMAND_BOOKING,
    &COMMAND_CALENDAR,
    &COMMAND_DUE,
    &COMMAND_ENTER,
    &COMMAND_EXPORT,
    &COMMAND_EXTEND,
    &COMMAND_HELP,
    &COMMAND_HISTORY,
    &COMMAND_IMPORT,
    &COMMAND_INTERVAL,
    &COMMAND_LAND,
    &COMMAND_LIST,
    &COMMAND_MOVE,
    &COMMAND_MUSTER,
    &COMMAND_NOW,
    &COMMAND_PAGE,
    &COMMAND_PAPERS,
    &COMMAND_PEOPLE,
    &COMMAND_RECORD,
    &COMMAND_REMIND,
    &COMMAND_RESERVE,
    &COMMAND_RETURN,
    &COMMAND_ROTA,
    &COMMAND_SERVE,
    &COMMAND_SHEET,
    &COMMAND_SHORE_PAPERS,
    &COMMAND_SHOW,
    &COMMAND_SPENT,
    &COMMAND_STAND_IN,
    &COMMAND_STATION,
    &COMMAND_VESSEL,
    &COMMAND_WHERE,
    &COMMAND_WHY,
    &COMMAND_WINTER,
    &COMMAND_WITHDRAW,
    &COMMAND_YEARS,
};

const size_t COMMAND_COUNT = COUNT_OF(COMMANDS);

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

const struct option_table COMMON_OPTIONS = {
    .options = COMMON,
    .option_count = COUNT_OF(COMMON),
};

const struct command *
command_find(const char *name)
{
	for (size_t i = 0; i < COMMAND_COUNT; i++) {
		if (strcmp(COMMANDS[i]->name, name) == 0) {
			return COMMANDS[i];
		}
	}
	return NULL;
}
