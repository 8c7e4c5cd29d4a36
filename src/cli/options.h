/* Reads the words of a command line with a table of options. The same table gives the
 * parser, the usage line, the help, the completions and the manual page. */
#ifndef BECKET_CLI_OPTIONS_H
#define BECKET_CLI_OPTIONS_H

#include "base/memory.h"
#include "base/text.h"
#include "base/words.h"
#include "dates/day.h"

#include <stddef.h>

/* The type of an option's value, which decides how options_into reads it. */
enum option_type {
	OPTION_OWN, /* one that every command takes, or for completions: read by its name */
	OPTION_WORDS, /* as it is: const char *; a repeatable one: struct word_list */
	OPTION_TAG,   /* the same, of a piece of the book; and so the next two: */
	OPTION_VESSEL,
	OPTION_STATION,
	OPTION_FLAG,  /* a switch: bool */
	OPTION_DAY,   /* an exact day: day_t */
	OPTION_COUNT, /* a whole number from `least` to `most`: int */
	OPTION_CHOICE, /* its place among the fixed words, the first of which is `least`: int; a
			* repeatable one: a bit 1 << place, from 0, for each: unsigned */
	OPTION_STAMP, /* a date as coarse as it is known: struct stamp */
	OPTION_PRICE, /* typed in the currency's main unit: int64_t, in minor units */
	OPTION_KIND,  /* a kind's id, or words for it: const char *, its id */
	OPTION_FIELD, /* the value of a field, `field`, in the struct it belongs to */
};

struct field; /* gear/fields.h */

/* One option: `--name value` or `--name=value`, or a switch without a value. */
struct option_spec {
	const char *name; /* "vessel"; a typed underscore counts as a hyphen */
	/* another name of it, older or from elsewhere: accepted, but not shown; or NULL */
	const char *also;
	const char *argument; /* "NAME", or "private|commercial" for a choice of fixed
			       * words; NULL for a switch */
	const char *help;     /* one line: lower case, no full stop */
	bool repeatable;
	bool required;
	const char
	    *needs; /* other options, with blanks between: one of them must be there */
	const char *not_with; /* none of these may be given with it */
	/* the acts (first words) it goes with: "push pull"; FILE means a first word that
	 * is none of the acts. NULL for any */
	const char *acts;
	enum option_type type;
	size_t at; /* offset of its value in the struct that options_into fills */
	const struct field *field;
	/* a bit, and the offset of the unsigned in which that bit is set when the option
	 * is given; 0 for none */
	unsigned mark;
	size_t marks;
	int least;
	int most;
	/* for the build and the tests; not in help, man page or completions */
	bool hidden;
};

/* An entry of an option table for options_into: its name, its argument, its type, the
 * struct and the member where the value goes, and its help; other members may follow. A
 * switch has no argument. */
/* NOLINTBEGIN(bugprone-macro-parentheses): offsetof takes no parentheses */
#define OPTION(name_, argument_, type_, structure, member, ...)                          \
	{                                                                                \
		.name = (name_), .argument = (argument_), .type = OPTION_##type_,        \
		.at = offsetof(structure, member), .help = __VA_ARGS__                   \
	}
#define FLAG_OPTION(name_, structure, member, ...)                                       \
	{                                                                                \
		.name = (name_), .type = OPTION_FLAG, .at = offsetof(structure, member), \
		.help = __VA_ARGS__                                                      \
	}

/* NOLINTEND(bugprone-macro-parentheses) */

/* One word by position: "TAG", or a choice of fixed words as above. */
struct word_spec {
	const char *name;
	/* "a|b|c" where the name is not itself the choice, or NULL */
	const char *choices;
	const char *help;
	bool required;
	bool repeatable; /* only the last one may be */
};

/* A table of options and of words. */
struct option_table {
	const struct option_spec *options;
	size_t option_count;
	const struct word_spec *words;
	size_t word_count;
};

/* One option as given. */
struct given_option {
	const struct option_spec *spec;
	const char *value; /* borrowed from the command line; "" for a switch */
};

/* What is needed to read values that depend on the book, its kinds or a table of
 * fields. */
struct option_reader {
	bool (*read)(void *of, const struct option_spec *spec, const char *value,
	    void *at, struct fault *fault);
	void *of;
	struct arena *arena; /* for lists */
};

/* What was given. Starts as `{ 0 }`; free with options_clear. Words and values are
 * borrowed from the command line. */
struct given_options {
	struct given_option *items;
	size_t count;
	size_t capacity;
	struct word_list words;
	const struct option_table *tables; /* the tables that were searched, borrowed */
	size_t table_count;
	struct arena arena; /* for fixed words that were spelled differently */
	day_t today;        /* what "today" means in a value */
	struct option_reader reader;
};

void options_clear(struct given_options *given);

/* Words of a command line that are still to be read; borrowed. */
struct command_line {
	const char *const *items;
	size_t count;
};

/* Reads a command line against the tables in `given`, adds to it what it finds, and moves
 * `line` past what was read. With `leading` it stops before the first word that is no
 * option.
 *
 * FAULT_USAGE says what was found, what was expected, and where to get help (`who`:
 * "becket due"): unknown options (with the nearest known one), an option given twice, a
 * missing value, a value where none belongs, a word that is not among the choices. A
 * fixed word is stored as the table spells it, however it was typed. Whether all that is
 * required was given is checked by options_complete. */
MUST_CHECK bool options_parse(const char *who, struct command_line *line, bool leading,
    struct given_options *given, struct fault *fault);

/* Checks what was read against the tables: missing or surplus words, choices, required
 * options, and options that belong to another act, need another option or exclude one.
 * FAULT_USAGE as above. */
MUST_CHECK bool options_complete(
    const char *who, struct given_options *given, struct fault *fault);

/* The value of an option, or NULL when it was not given; "" for a switch. The name must
 * be in the tables. */
const char *options_value(const struct given_options *given, const char *name);

/* Reads the options that have a type into the struct `target`; the member of an option
 * that was not given is left as it is. Uses the last table. FAULT_INPUT names the option,
 * what was found and what was expected. */
MUST_CHECK bool options_into(
    const struct given_options *given, void *target, struct fault *fault);

/* Reads a whole number; false when the text is not a number or is out of range. */
bool number_read(const char *text, long least, long most, long *out);

/* The same, with a fault that says which numbers are allowed. */
MUST_CHECK bool count_typed(
    const char *text, int least, int most, int *out, struct fault *fault);

/* True when the option was given. The name must be in the tables. */
bool options_has(const struct given_options *given, const char *name);

/* The word at a position, or NULL. */
const char *options_word(const struct given_options *given, size_t index);

/* The fixed words from which a word is chosen, as "a|b|c", or NULL when any word may
 * stand there. */
const char *word_choices(const struct word_spec *word);

/* True when an argument or word name is a choice of fixed words: it has a "|" and no
 * capital letter. */
bool options_is_choice(const char *name);

/* Replaces a typed word by its spelling in the choice "a|b|c", whatever its case and
 * without accents; false when it is none of them. The word is copied to the arena. */
bool options_choose(struct arena *arena, const char *choice, const char **word);

/* The usage of a command without its name: "TASK TAG... --on DATE [--by STATION]". */
void options_usage(const struct option_table *table, struct text *out);

/* A usage fault with the pointer to help: "...; try \"becket due --help\"". Returns
 * false. */
bool usage_fault(struct fault *fault, const char *who, const char *format, ...)
    FORMAT_LIKE(3, 4);

#define SCOPED_OPTIONS __attribute__((cleanup(options_clear))) struct given_options

#endif
