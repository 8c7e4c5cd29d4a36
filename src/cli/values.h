/* Values, names and choices that several commands read. */
#ifndef BECKET_CLI_VALUES_H
#define BECKET_CLI_VALUES_H

#include "book/reminders.h"
#include "cli/command.h"
#include "desk/naming.h"
#include "desk/questions.h"

/* A length in metres, with or without decimals, to whole centimetres. The fault does not
 * name the option. */
MUST_CHECK bool length_read(const char *value, int *out_cm, struct fault *fault);

/* Cuts "a,b,c" into a list in the arena; blanks around the words are dropped. A blank
 * word is a fault. */
MUST_CHECK bool value_list(struct arena *arena, const char *name, const char *value,
    const char *const **out, size_t *count_out, struct fault *fault);

/* Reads an age in whole years, 1 to STATION_AGE_MOST, written "10y". The fault does not name the
 * option. */
MUST_CHECK bool age_read(const char *text, int *out, struct fault *fault);

/* Reads money in the main unit of the book's currency, to minor units: see money_parse.
 * The fault does not name the option. A whole number brings a remark with both readings,
 * as until version 0.1 it was in minor units here. */
MUST_CHECK bool price_read(
    struct context *context, const char *text, int64_t *out, struct fault *fault);

/* Names on the command line, changed to the book's spelling before the command runs. */

/* The word with which "becket help --names" lists the names that an option's value, or a
 * word, is one of, kinds and their groups included; NULL when it names nothing. `command` is
 * NULL for an option that every command takes. */
const char *naming_list_of_option(
    const struct command *command, const struct option_spec *option);
const char *naming_list_of_word(
    const struct command *command, const struct word_spec *word);

/* The sort of names that such a word lists; false for any other word. */
bool naming_of_list(const char *list, enum named *out);

/* Changes tags (also in lists and ranges), boats, stations and bases in what was given to
 * the book's spelling, as desk/naming.h finds them. A name that is not in the book stays
 * as it was typed: the command decides what to make of it. At a terminal, a command that
 * changes the book asks when only accents differ; after a no, a name that may be new
 * stays as typed. */
MUST_CHECK bool naming_settle(
    struct context *context, struct given_options *given, struct fault *fault);

/* Whose reminders are wanted: options that `calendar`, `remind` and `serve` share. */

/* What these options say: one of them, or none. */
struct scope_said {
	const char *vessel;
	const char *base;
	const char *station;
};

/* The options, as entries of an option table, into the member `said` of a struct; `acts_`
 * are an option's `acts`, and `whose` is put before their help ("new: "). */
/* NOLINTBEGIN(bugprone-macro-parentheses): offsetof takes no parentheses */
#define SCOPE_OPTIONS(structure, said, acts_, whose)                                     \
	OPTION("vessel", "NAME", VESSEL, structure, said.vessel,                         \
	    whose "this vessel's reminders only", .acts = (acts_),                       \
	    .not_with = "base station"),                                                 \
	    OPTION("base", "PLACE", WORDS, structure, said.base,                         \
		whose "those of the vessels of this base", .acts = (acts_),              \
		.not_with = "vessel station"),                                           \
	    OPTION("station", "STATION", STATION, structure, said.station,               \
		whose "the hand-ins and collects of this station", .acts = (acts_),      \
		.not_with = "vessel base")
/* NOLINTEND(bugprone-macro-parentheses) */

/* The scope that the options say, or the fleet if they say none. FAULT_INPUT for a name
 * that is not in the book. */
MUST_CHECK bool scope_of(struct context *context, const struct scope_said *said,
    struct scope *out, struct fault *fault);

/* Which gear a listing is about: the options --vessel, --base and --kind that reading
 * commands share. */

/* The shared options, as entries of an option table, into the member `wish`, a struct
 * gear_wish, of a struct. */
/* NOLINTBEGIN(bugprone-macro-parentheses): offsetof takes no parentheses */
#define SELECT_OPTIONS(structure, wish)                                                  \
	OPTION("vessel", "NAME", WORDS, structure, wish.vessel, "this vessel only"),     \
	    OPTION("base", "PLACE", WORDS, structure, wish.base,                         \
		"vessels of this base only"),                                            \
	    OPTION("kind", "KIND", WORDS, structure, wish.kind,                          \
		"this kind only, or a group such as flares")
/* NOLINTEND(bugprone-macro-parentheses) */

/* ---- Values of `becket years` that have a syntax of their own ---- */

/* Reads prices, as "liferaft-valise:service@10y=349.00". */
MUST_CHECK bool years_read_prices(struct context *context, const struct word_list *words,
    struct years_asked *asked, struct fault *fault);

/* Reads a use, as "use=commercial", and from which day it holds; NULL for none. */
MUST_CHECK bool years_read_use(struct context *context, const char *words, day_t from,
    struct years_asked *asked, struct fault *fault);

#endif
