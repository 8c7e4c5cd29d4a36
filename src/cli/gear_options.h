/* Gear, stations and lists as options, and gear in words. */
#ifndef BECKET_CLI_GEAR_OPTIONS_H
#define BECKET_CLI_GEAR_OPTIONS_H

#include "cli/command.h"
#include "cli/options.h"
#include "desk/acts.h"
#include "desk/ranges.h"
#include "exchange/inventory_csv.h"
#include "gear/fleet_change.h"

/* Options that rows of gear/fields.h and gear/fleet_fields.h make, and reading what takes
 * more than the command line to be understood. */

/* What a row says of its option, after a word that says whether it has one. */
#define FIELD_OPTION(name_, argument_, help_)                                            \
	HAS_OPTION, .name = (name_), .argument = (argument_), .help = (help_)
#define FIELD_OPTION_MORE(name_, argument_, help_, ...)                                  \
	HAS_OPTION, .name = (name_), .argument = (argument_), .help = (help_), __VA_ARGS__
#define FIELD_NO_OPTION HAS_NO_OPTION, 0
/* The same of a part: what the command makes of it is added. */
#define FIELD_WORD(name_, argument_, help_)                                              \
	.name = (name_), .argument = (argument_), .help = (help_)
#define FIELD_WORDS(name_, argument_, help_)                                             \
	.name = (name_), .argument = (argument_), .help = (help_), .repeatable = true
#define FIELD_FLAG(name_, help_) .name = (name_), .help = (help_)

/* An entry of an option table: what a row says, and where the value goes. Nothing for a row without
 * an option. */
#define FIELD_ENTRY(goes, has, ...) has(goes, __VA_ARGS__)
#define HAS_OPTION(...) {__VA_ARGS__},
#define HAS_NO_OPTION(...)

/* Where it goes: the struct that the field is in, a member of another, and the bit that says so. */
#define FIELD_GOES(row, structure, member, set, bit)                                     \
	.type = OPTION_FIELD, .field = &(row), .at = offsetof(structure, member),        \
	FIELD_MARKS(structure, set, bit)
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define FIELD_MARKS(structure, set, bit)                                                 \
	.marks = offsetof(structure, set), .mark = 1U << (bit)
/* NOLINTEND(bugprone-macro-parentheses) */

/* What reads options of a field, a price or a kind. */
struct option_reader context_reader(struct context *context);

/* The columns of the inventory as options, for `enter`, `amend` and `stand-in`. */

/* What they say of a piece of gear, and of what was done to it last. */
struct item_said {
	struct item_change change;
	struct record record;
	unsigned recorded; /* bits 1 << enum record_field of what was given of it */
};

/* These options as entries of an option table: from the rows of gear/fields.h, into the struct
 * item_said with which the struct of the command begins. */
#define ITEM_GOES(id)                                                                    \
	FIELD_GOES(                                                                      \
	    ITEM_FIELDS[FIELD_##id], struct item_said, change, change.set, FIELD_##id)
#define RECORD_GOES(id)                                                                  \
	FIELD_GOES(                                                                      \
	    RECORD_FIELDS[RECORD_##id], struct item_said, record, recorded, RECORD_##id)
#define ITEM_OPTION(id, member, type, place, name, option, ...)                          \
	FIELD_ENTRY(ITEM_GOES(id), option)
#define RECORD_OPTION(id, member, type, place, name, option, ...)                        \
	FIELD_ENTRY(RECORD_GOES(id), option)
#define ITEM_OPTIONS INVENTORY_FIELDS(ITEM_OPTION, ITEM_OPTION, RECORD_OPTION)

/* Reads all options of the command into its struct, and gives the record: NULL where
 * --served is not there. */
MUST_CHECK bool item_options_into(struct context *context, struct item_said *said,
    const struct record **record_out, struct fault *fault);

/* FAULT_INPUT when a certificate's next date lies before the day of its own record. */
MUST_CHECK bool record_check(const struct record *record, struct fault *fault);

/* Adds what was understood of dates, number and prices to what is said of a change, as ", made Apr
 * 2021, a new one costs EUR 45.00"; the record is NULL when none was written. */
void item_say_understood(struct context *context, const struct item_change *change,
    const struct record *record);

/* Items entered by one command: one, or several that differ in tag and serial number. */

/* What the options say; NULL or 0 for nothing. */
struct batch_said {
	const char *tag;
	int count;
	const char *serials;
};

/* As entries of an option table that has --serial, into the member `said` of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define BATCH_OPTIONS(structure, said)                                                   \
	OPTION("tag", "TAG", WORDS, structure, said.tag,                                 \
	    "its short mark, or LJ-1..LJ-10; fresh ones when not told"),                 \
	    OPTION("count", "N", COUNT, structure, said.count,                           \
		"so many, a tag each; --quantity is many under one tag", .least = 1,     \
		.most = RANGE_MOST),                                                     \
	    OPTION("serials", "LIST", WORDS, structure, said.serials,                    \
		"one each: A,B,C or C-101..C-110, or @FILE with one a line",             \
		.not_with = "serial")
/* NOLINTEND(bugprone-macro-parentheses) */

/* Makes lists of what is said and of the request's whole, which may be several tags: they say how
 * many things there are to be. */
MUST_CHECK bool batch_read(struct context *context, const struct batch_said *said,
    struct enter_request *request, struct fault *fault);

/* ---- What is known of a station, as options of `becket station` ---- */

/* What the options say; NULL for nothing. */
struct station_said {
	struct station_change change; /* all but the parts that follow */
	struct word_list paces;
	struct word_list closed;
	const char *open;
	const char *kinds;
	struct word_list makes;
	struct word_list prices;
};

#define STATION_SAID(member)                                                             \
	.type = OPTION_WORDS, .at = offsetof(struct station_said, member)
#define STATION_SAID_PACES STATION_SAID(paces)
#define STATION_SAID_CLOSED STATION_SAID(closed)
#define STATION_SAID_OPEN STATION_SAID(open)
#define STATION_SAID_KINDS STATION_SAID(kinds)
#define STATION_SAID_MAKES STATION_SAID(makes)
#define STATION_SAID_PRICES STATION_SAID(prices)

#define STATION_GOES(id)                                                                 \
	FIELD_GOES(STATION_FIELDS[STATION_##id], struct station_said, change,            \
	    change.set, STATION_##id)
#define STATION_OPTION(id, member, type, column, option, ...)                            \
	FIELD_ENTRY(STATION_GOES(id), option)
#define STATION_PART_OPTION(id, option)                                                  \
	{option, STATION_SAID_##id,                                                      \
	    FIELD_MARKS(struct station_said, change.set, STATION_##id)},
#define STATION_OPTIONS STATION_ROWS(STATION_OPTION, STATION_PART_OPTION)

/* Reads these options into a change; what it points to is in the context's arena. */
MUST_CHECK bool station_options_read(
    struct context *context, struct station_change *change, struct fault *fault);

/* The options that say how a file with a list is read, for every command that reads one
 */

/* As entries of an option table, into the struct list_how and the enum date_order that are these
 * members of a struct; `needs_` is the option that names the file, or NULL where a word does. */
/* NOLINTBEGIN(bugprone-macro-parentheses): a member of offsetof stands in none */
#define LIST_OPTIONS(structure, how, order, needs_, dates_help)                          \
	OPTION("dates", "day-first|month-first", CHOICE, structure, order, (dates_help), \
	    .needs = (needs_), .least = ORDER_DAY_FIRST),                                \
	    OPTION("worksheet", "NAME", WORDS, structure, how.worksheet,                 \
		"which one of a spreadsheet file; else the first shown",                 \
		.needs = (needs_)),                                                      \
	    OPTION("encoding", "NAME", WORDS, structure, how.character_set,              \
		"the character set of a text, such as ISO-8859-15", .needs = (needs_))
/* NOLINTEND(bugprone-macro-parentheses) */

_Static_assert(sizeof(enum date_order) == sizeof(int), "a choice is read into an int");
_Static_assert(ORDER_MONTH_FIRST == ORDER_DAY_FIRST + 1, "in the order of the choice");

/* ---- Gear that an act was about, in words ---- */

/* Adds "LJ-1 to LJ-3 and 4 parts": the items in the order named, then how many of the rows
 * written are about others. */
void add_gear(struct text *out, const struct gear_outcome *done);

/* Adds the items alone. */
void add_tags(struct text *out, const struct gear_outcome *done);

#endif
