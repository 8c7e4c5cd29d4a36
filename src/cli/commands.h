/* Every command's record, and the table of them. */
#ifndef BECKET_CLI_COMMANDS_H
#define BECKET_CLI_COMMANDS_H

#include "cli/command.h"

extern const struct command COMMAND_AMEND;
extern const struct command COMMAND_ASHORE;
extern const struct command COMMAND_ATTACH;
extern const struct command COMMAND_BOOK;
extern const struct command COMMAND_BOOKING;
extern const struct command COMMAND_CALENDAR;
extern const struct command COMMAND_DUE;
extern const struct command COMMAND_ENTER;
extern const struct command COMMAND_EXPORT;
extern const struct command COMMAND_EXTEND;
extern const struct command COMMAND_HELP;
extern const struct command COMMAND_HISTORY;
extern const struct command COMMAND_IMPORT;
extern const struct command COMMAND_INTERVAL;
extern const struct command COMMAND_LAND;
extern const struct command COMMAND_LIST;
extern const struct command COMMAND_MOVE;
extern const struct command COMMAND_MUSTER;
extern const struct command COMMAND_NOW;
extern const struct command COMMAND_PAGE;
extern const struct command COMMAND_PAPERS;
extern const struct command COMMAND_PEOPLE;
extern const struct command COMMAND_RECORD;
extern const struct command COMMAND_REMIND;
extern const struct command COMMAND_RESERVE;
extern const struct command COMMAND_RETURN;
extern const struct command COMMAND_ROTA;
extern const struct command COMMAND_SERVE;
extern const struct command COMMAND_SHEET;
extern const struct command COMMAND_SHORE_PAPERS;
extern const struct command COMMAND_SHOW;
extern const struct command COMMAND_SPENT;
extern const struct command COMMAND_STAND_IN;
extern const struct command COMMAND_STATION;
extern const struct command COMMAND_VESSEL;
extern const struct command COMMAND_WHERE;
extern const struct command COMMAND_WHY;
extern const struct command COMMAND_WINTER;
extern const struct command COMMAND_WITHDRAW;
extern const struct command COMMAND_YEARS;

extern const struct command_table COMMANDS;

#endif
