#include "cli/terminal.h"
#include "cli/values.h"

#include <string.h>

/* What a value names, told by how its argument in the option tables starts. */
static const struct {
	const char *argument;
	const char *option; /* of that name only; NULL for any */
	enum named named;
} ARGUMENTS[] = {
    {"TAG", NULL, NAMED_TAG},
    {"STATION", NULL, NAMED_STATION},
    {"BASE", NULL, NAMED_BASE},
    {"PLACE", "base", NAMED_BASE},
    {"NAME", "vessel", NAMED_VESSEL},
};

static bool
starts_with(const char *string, const char *start)
{
	return strncmp(string, start, strlen(start)) == 0;
}

/* True for commands whose tags are new ones, not yet in the book. */
static bool
makes_tags(const struct command *command)
{
	return strcmp(command->name, "enter") == 0 ||
	       strcmp(command->name, "stand-in") == 0;
}

/* Which sort of thing the value of an option names: the table says it by the argument, as
 * TAG or STATION. False when it names nothing in the book. `command` is NULL for an option
 * that every command takes. */
static bool
naming_of_option(
    const struct command *command, const struct option_spec *option, enum named *out)
{
	bool fresh =
	    command != NULL && strcmp(option->name, "tag") == 0 && makes_tags(command);
	for (size_t i = 0; option->argument != NULL && !fresh && i < COUNT_OF(ARGUMENTS);
	     i++) {
		if (starts_with(option->argument, ARGUMENTS[i].argument) &&
		    (ARGUMENTS[i].option == NULL ||
			strcmp(option->name, ARGUMENTS[i].option) == 0)) {
			*out = ARGUMENTS[i].named;
			return true;
		}
	}
	return false;
}

static bool
naming_of_word(
    const struct command *command, const struct word_spec *word, enum named *out)
{
	bool vessel = strcmp(command->name, "vessel") == 0;
	if (starts_with(word->name, "TAG")) {
		*out = NAMED_TAG;
		return true;
	}
	*out = vessel || starts_with(word->name, "VESSEL") ? NAMED_VESSEL : NAMED_STATION;
	return vessel || strcmp(command->name, "station") == 0 ||
	       starts_with(word->name, "VESSEL");
}

/* The word by which completions list the names of each sort. */
static const char *const LISTS[] = {
    [NAMED_TAG] = "tags",
    [NAMED_VESSEL] = "boats",
    [NAMED_STATION] = "stations",
    [NAMED_BASE] = "bases",
};

bool
naming_of_list(const char *list, enum named *out)
{
	for (size_t i = 0; i < COUNT_OF(LISTS); i++) {
		if (strcmp(list, LISTS[i]) == 0) {
			*out = (enum named)i;
			return true;
		}
	}
	return false;
}

static const char *
list_of(bool named, enum named what, const char *argument)
{
	if (named) {
		return LISTS[what];
	}
	return argument != NULL && starts_with(argument, "KIND") ? "kinds" : NULL;
}

const char *
naming_list_of_option(const struct command *command, const struct option_spec *option)
{
	enum named what = NAMED_TAG;
	bool named = naming_of_option(command, option, &what);
	const char *list = list_of(named, what, option->argument);
	/* commands that list gear take a group of kinds, too; only "sheet compare" does
	 * not */
	bool group = list != NULL && strcmp(list, "kinds") == 0 && command != NULL &&
		     strcmp(option->name, "kind") == 0 && command->needs == NEEDS_READ &&
		     strcmp(command->name, "sheet") != 0;
	return group ? "groups" : list;
}

const char *
naming_list_of_word(const struct command *command, const struct word_spec *word)
{
	enum named what = NAMED_TAG;
	/* these commands take a tag, but also other words: so the word is not checked as
	 * a tag */
	bool found =
	    strcmp(command->name, "where") == 0 || strcmp(command->name, "history") == 0;
	bool named = naming_of_word(command, word, &what);
	return found ? LISTS[NAMED_TAG] : list_of(named, what, word->name);
}

/* Names in the book, each sort read when it is first needed. */
struct known {
	struct word_list names[NAMED_BASE + 1];
	bool read[NAMED_BASE + 1];
};

struct name_settling {
	struct context *context;
	struct name_book *book;
	struct known known;
	enum named named;
	bool may_be_new; /* what is being settled */
};

static const struct word_list *
known_names(struct name_settling *settling)
{
	struct known *known = &settling->known;
	if (!known->read[settling->named]) {
		known->read[settling->named] = true;
		naming_all(
		    settling->book, settling->named, &known->names[settling->named]);
	}
	return &known->names[settling->named];
}

/* Leaves a name that may be new as it was typed. Nothing else would report a new base, so
 * a note does. */
static void
leave_new(struct name_settling *settling, const char *name)
{
	struct desk *desk = &settling->context->desk;
	desk->question = (struct question){0};
	if (settling->named == NAMED_BASE) {
		desk_note(desk,
		    "\"%s\" is a base of its own beside one that is the same but for "
		    "accents: if that one was meant, \"becket book undo\" takes this back",
		    name);
	}
}

/* A base that is not in the book is a fault for a command that only reads: a typing
 * mistake must not look like "nothing is due". */
static bool
check_base(struct name_settling *settling, const char *name, struct fault *fault)
{
	bool reads = settling->context->command->needs == NEEDS_READ;
	return !reads || settling->named != NAMED_BASE || settling->book->book == NULL ||
	       fault_set(fault, FAULT_INPUT,
		   "found \"%.60s\", expected the base of a vessel in the book", name);
}

/* Settles one name: `*name` becomes the name as the book spells it. */
static bool
settle_name(struct name_settling *settling, const char **name, struct fault *fault)
{
	struct desk *desk = &settling->context->desk;
	if (naming_stands(settling->book, settling->named, *name)) {
		return true;
	}
	const struct word_list *names = known_names(settling);
	size_t found = names->count;
	while (!naming_among(
	    desk, settling->named, *name, names->items, names->count, &found, fault)) {
		bool yes = false;
		bool asks = desk->question.words != NULL;
		if (asks && ask_is_possible() &&
		    !ask_yes(desk->question.words, &yes, fault)) {
			return false;
		}
		if (yes) {
			*fault = (struct fault){0};
			desk_answer(desk);
			continue;
		}
		if (!asks || !settling->may_be_new) {
			return false;
		}
		leave_new(settling, *name);
		*fault = (struct fault){0};
		return true;
	}
	*name = found < names->count ? names->items[found] : *name;
	return found < names->count || check_base(settling, *name, fault);
}

/* Settles one word of a list. A range is recognised by its two ends, as a tag itself may
 * contain dots. */
static bool
settle_word(struct name_settling *settling, const char *word, struct text *out,
    struct fault *fault)
{
	struct arena *arena = &settling->context->desk.arena;
	const char *dots = strstr(word, "..");
	const char *whole = word;
	if (!settle_name(settling, &whole, fault)) {
		return false;
	}
	if (dots == NULL || whole != word || settling->named != NAMED_TAG) {
		text_add(out, whole);
		return true;
	}
	SCOPED_TEXT first = {0};
	text_add_bytes(&first, word, (size_t)(dots - word));
	const char *from = arena_string(arena, text_string(&first));
	const char *to = dots + 2;
	if (!settle_name(settling, &from, fault) || !settle_name(settling, &to, fault)) {
		return false;
	}
	text_add_format(out, "%s..%s", from, to);
	return true;
}

/* Settles a whole value: a name, a list of tags, or the part before a "=". */
static bool
settle_value(struct name_settling *settling, const char *argument, const char **value,
    struct fault *fault)
{
	struct arena *arena = &settling->context->desk.arena;
	SCOPED_TEXT out = {0};
	size_t length =
	    strchr(argument, '=') != NULL ? strcspn(*value, "=") : strlen(*value);
	bool list = settling->named == NAMED_TAG;
	for (size_t at = 0; at < length;) {
		size_t end = at + (list ? strcspn(*value + at, ",") : length);
		end = end < length ? end : length;
		SCOPED_TEXT word = {0};
		text_add_bytes(&word, *value + at, end - at);
		if (!settle_word(
			settling, arena_string(arena, text_string(&word)), &out, fault)) {
			return false;
		}
		if (end < length) {
			text_add_byte(&out, ',');
		}
		at = end + 1;
	}
	text_add(&out, *value + length);
	*value = arena_string(arena, text_string(&out));
	return true;
}

static bool
settle_words(
    struct name_settling *settling, struct given_options *given, struct fault *fault)
{
	const struct command *command = settling->context->command;
	const struct option_table *table = &command->table;
	for (size_t i = 0; table->word_count > 0 && i < given->words.count; i++) {
		const struct word_spec *word =
		    &table->words[i < table->word_count ? i : table->word_count - 1];
		settling->may_be_new = strcmp(command->name, "vessel") == 0 ||
				       strcmp(command->name, "station") == 0;
		if (naming_of_word(command, word, &settling->named) &&
		    !settle_value(settling, word->name, &given->words.items[i], fault)) {
			return false;
		}
	}
	return true;
}

bool
naming_settle(struct context *context, struct given_options *given, struct fault *fault)
{
	SCOPED_NAME_BOOK book = {.desk = &context->desk};
	struct name_settling settling = {.context = context, .book = &book};
	for (size_t i = 0; i < given->count; i++) {
		struct given_option *option = &given->items[i];
		if (!naming_of_option(context->command, option->spec, &settling.named)) {
			continue;
		}
		settling.may_be_new =
		    settling.named == NAMED_STATION || settling.named == NAMED_BASE;
		if (!settle_value(
			&settling, option->spec->argument, &option->value, fault)) {
			return fault_prefix(fault, "--%s", option->spec->name);
		}
	}
	if (!settle_words(&settling, given, fault)) {
		return false;
	}
	naming_hand_over(&book);
	return true;
}
