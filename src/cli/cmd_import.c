/* becket import */
#include "cli/ask.h"
#include "cli/command.h"
#include "cli/import_walk.h"
#include "cli/list_options.h"
#include "desk/acts.h"
#include "desk/files.h"

#include <stdlib.h>
#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "FILE",
	.help = "a list as .csv, .xlsx or .ods; - for standard input",
	.required = true},
};

static const struct option_spec OPTIONS[] = {
    {.name = "dry-run", .help = "say what would change, and change nothing"},
    {.name = "dates",
	.argument = "day-first|month-first",
	.help = "how dates such as 04/05/2026 are to be read"},
    {.name = "means",
	.argument = "WORDS=KIND",
	.help = "words of the list that stand for a kind, as \"Pyro=flare-red-hand\", "
		"or for no-gear",
	.repeatable = true},
    {.name = "quantities",
	.argument = "from-words|one",
	.help = "what \"Flares x4\" without a quantity is: four, or one"},
    {.name = "two-digit-years",
	.help = "27 in a date is 2027: 00 to 68 are this century's, 69 to 99 the last's"},
    {.name = "decimals",
	.argument = "comma|point",
	.help = "what parts the decimals of a price: with comma, 1.250 is 1250"},
    {.name = "next-alone",
	.argument = "notes|asked",
	.help = "a next date without the day of the work: as words in the notes"},
    {.name = "map",
	.argument = "HEADER=COLUMN",
	.help = "a header that stands for a column, or for \"ignore\"",
	.repeatable = true},
    {.name = "leave-out",
	.argument = "LINE[..LINE]",
	.help = "rows that are no gear, such as a total",
	.repeatable = true},
    {.name = "complaints",
	.argument = "FILE",
	.help = "write all that is wrong with the list there, a line each"},
    {.name = "ask-again",
	.help = "what was answered about earlier lists does not hold for this one"},
    LIST_OPTIONS,
    {.name = "vessel",
	.argument = "NAME",
	.help = "for rows or files that name no vessel"},
    {.name = "services-are-right",
	.help = "a day without a task is a service, though her sheets ask for none"},
    {.name = "names-are-right",
	.help = "new boats and tags are right, however like known ones they are"},
    {.name = "lots-are-right",
	.help = "a lot that was split has as many again as the file says"},
    SERIAL_OPTIONS,
};

/* Reads each value of an option as THEIRS=OURS. */
static bool
read_pairs(struct context *context, const char *option, const char *expected,
    const struct csv_mapping **out, size_t *count_out, struct fault *fault)
{
	struct arena *arena = &context->desk.arena;
	struct csv_mapping *pairs =
	    arena_alloc(arena, (context->given->count + 1) * sizeof *pairs);
	size_t cursor = 0;
	size_t count = 0;
	for (const char *value = options_next(context->given, option, &cursor);
	     value != NULL; value = options_next(context->given, option, &cursor)) {
		const char *split = strrchr(value, '=');
		char *theirs = arena_alloc(arena, strlen(value) + 1);
		if (split == NULL || split == value || split[1] == '\0') {
			return fault_set(fault, FAULT_USAGE,
			    "--%s: expected %s, found \"%s\"", option, expected, value);
		}
		memcpy(theirs, value, (size_t)(split - value));
		pairs[count++] = (struct csv_mapping){theirs, split + 1, false};
	}
	*out = pairs;
	*count_out = count;
	return true;
}

/* Reads which words of the list stand for which kinds, all of which must be. */
static bool
read_meanings(struct context *context, struct csv_options *options, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	if (!read_pairs(context, "means", "WORDS=KIND, as \"Pyro=flare-red-hand\"",
		&options->meanings, &options->meaning_count, fault) ||
	    !desk_kinds(&context->desk, &kinds, fault)) {
		return false;
	}
	for (size_t i = 0; i < options->meaning_count; i++) {
		const char *ours = options->meanings[i].ours;
		if (kinds_find(kinds, ours) == NULL && strcmp(ours, CSV_NO_GEAR) != 0) {
			return fault_set(fault, FAULT_USAGE,
			    "--means: \"%s\" is no kind in the catalogue; \"becket help "
			    "kinds\" lists them, and " CSV_NO_GEAR
			    " is for what is no gear",
			    ours);
		}
	}
	return true;
}

/* Reads "12" or "12..15". */
static bool
lines_parse(const char *text, struct csv_lines *out)
{
	char *end = NULL;
	bool digit = *text >= '0' && *text <= '9';
	out->first = out->last = strtoul(text, &end, 10);
	if (strncmp(end, "..", 2) == 0 && end[2] >= '0' && end[2] <= '9') {
		out->last = strtoul(end + 2, &end, 10);
	}
	return digit && *end == '\0' && out->first >= 1 && out->last >= out->first;
}

static bool
read_left_out(struct context *context, struct csv_options *options, struct fault *fault)
{
	struct csv_lines *lines = arena_alloc(
	    &context->desk.arena, (context->given->count + 1) * sizeof *lines);
	size_t cursor = 0;
	for (const char *value = options_next(context->given, "leave-out", &cursor);
	     value != NULL; value = options_next(context->given, "leave-out", &cursor)) {
		if (!lines_parse(value, &lines[options->left_out_count++])) {
			return fault_set(fault, FAULT_USAGE,
			    "--leave-out: expected a line or lines of the list, as 12 or "
			    "12..15, found \"%s\"",
			    value);
		}
	}
	options->left_out = lines;
	return true;
}

static bool
read_options(struct context *context, struct csv_options *options, struct fault *fault)
{
	options->order = list_order_given(context->given);
	const char *quantities = options_value(context->given, "quantities");
	options->quantities = quantities == NULL               ? QUANTITIES_ASKED
			      : strcmp(quantities, "one") == 0 ? QUANTITIES_ONE
							       : QUANTITIES_FROM_WORDS;
	const char *decimals = options_value(context->given, "decimals");
	options->decimals = decimals == NULL                 ? DECIMALS_ASKED
			    : strcmp(decimals, "comma") == 0 ? DECIMALS_COMMA
							     : DECIMALS_POINT;
	const char *next_alone = options_value(context->given, "next-alone");
	options->next_alone = next_alone != NULL && strcmp(next_alone, "notes") == 0
				  ? NEXT_ALONE_NOTES
				  : NEXT_ALONE_ASKED;
	options->two_digit_years = options_has(context->given, "two-digit-years");
	options->vessel = options_value(context->given, "vessel");
	options->how = list_how_given(context->given);
	if (options_has(context->given, "dry-run") && desk_has_book(&context->desk) &&
	    !desk_open(&context->desk, BOOK_READ, fault)) {
		return false;
	}
	return desk_currency(&context->desk, &options->currency, fault) &&
	       read_pairs(context, "map", "HEADER=COLUMN, as \"Where=place\"",
		   &options->mappings, &options->mapping_count, fault) &&
	       read_meanings(context, options, fault) &&
	       read_left_out(context, options, fault);
}

/* Writes what is wrong with a list to the file that was named for it. */
static void
keep_complaints(struct context *context, const struct text *complaints)
{
	const char *path = options_value(context->given, "complaints");
	struct fault why = {0};
	SCOPED_NEW_FILE file = {0};
	if (path == NULL || complaints->length == 0) {
		return;
	}
	bool kept =
	    new_file_write(path, complaints->bytes, complaints->length, &file, &why) &&
	    new_file_keep(&file, &why);
	text_add_format(&context->desk.notes, "%s%s\n",
	    kept ? "all that is wrong with the list is written to " : why.text,
	    kept ? path : "");
}

/* How much comes of it. */
static void
add_effect(const struct csv_effect *effect, bool dry, struct text *out)
{
	text_add_format(out,
	    "%s%zu added, %zu changed, %zu as they were, %zu new record%s\n",
	    dry ? "dry run, nothing is written: " : "", effect->added, effect->changed,
	    effect->same, effect->records, effect->records == 1 ? "" : "s");
	if (effect->emptied > 0) {
		text_add_format(out,
		    "%zu of the changes %s what the book has, where the list is blank\n",
		    effect->emptied, dry ? "would empty" : "emptied");
	}
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT complaints = {0};
	struct import_request request = {
	    .name = strcmp(path, "-") == 0 ? "standard input" : path,
	    .bytes = &bytes,
	    .dry = options_has(context->given, "dry-run"),
	    .services_right = options_has(context->given, "services-are-right"),
	    .names_right = options_has(context->given, "names-are-right"),
	    .lots_right = options_has(context->given, "lots-are-right"),
	    .said = serial_answers(context),
	    .ask_again = options_has(context->given, "ask-again"),
	};
	/* a list that comes through standard input leaves nobody to answer */
	bool walks = ask_is_possible() && strcmp(path, "-") != 0;
	struct import_outcome out = {0};
	request.options.complaints = &complaints;
	bool done = read_options(context, &request.options, fault) &&
		    file_read(path, &bytes, fault);
	done = done && (!walks || import_walk(context, &request, fault));
	size_t notes = context->desk.notes.length;
	while (done && !desk_import(&context->desk, &request, &out, fault)) {
		done = context_asked(context, fault);
	}
	if (walks && !request.dry) {
		/* they were shown before it was asked */
		context_forget_notes(context, notes);
	}
	if (done) {
		text_add(
		    &context->out, walks && !request.dry ? "" : text_string(&out.words));
		add_effect(&out.effect, request.dry, &context->out);
	}
	text_clear(&out.words);
	keep_complaints(context, &complaints);
	return done;
}

const struct command COMMAND_IMPORT = {
    .name = "import",
    .summary = "read a list of gear, .csv, .xlsx or .ods: all rows or none",
    .details =
	"A CSV file in any character set, or a worksheet of an .xlsx or .ods file; what stands "
	"above the column names is passed over. Of a worksheet dates are no finer than its "
	"cells show them: 06/2027 is the month, though the file keeps a day for it.\n\n"
	"The columns, in any order: {columns}. Common other spellings are known. A row whose tag is in the book changes that "
	"item; one without a tag is matched by kind and serial, or gets a fresh tag. Prices "
	"are in the currency's main unit. A date whose day and month could be either is "
	"refused unless --dates says which comes first.\n\n"
	"At a terminal what is not clear is asked about, once for the whole list, and what the "
	"rows come to is shown before anything is written. What was answered about headers and "
	"words is kept in the book for the next list; --ask-again puts it aside. Without a "
	"terminal all of it is told, each with the option that cures it.\n\n"
	"A serial number that another of the kind has, in the book or in the file, or that is "
	"one character from it, and one that was condemned are told row by row; "
	"--serials-are-right and --again take them as they are. Numbers that count on from row "
	"to row are a batch, and are taken.\n\n"
	"A day in a column such as \"last service\" is a service where no column says which "
	"task it was. Of gear that her sheets ask no service of it is refused, for it would "
	"count for nothing: say the task, or --services-are-right.\n\n"
	"A new boat or tag that is a known one's but for capitals or one letter is asked about; "
	"--names-are-right answers beforehand. Days that are still to come, or can't be, are "
	"remarked on.",
    .examples = "import my-list.csv --dry-run\n"
		"what a list would change, and what is wrong with it\n"
		"import my-list.csv --dates day-first --vessel Quillfish\n"
		"read it: 04/05/2026 is 4 May, and rows without a boat are hers\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .run = run,
};
