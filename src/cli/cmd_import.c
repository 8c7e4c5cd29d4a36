/* becket import */
#include "cli/asking.h"
#include "cli/command.h"
#include "cli/gear_options.h"
#include "cli/terminal.h"
#include "desk/acts.h"
#include "desk/files.h"

#include <stdlib.h>
#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "FILE",
	.help = "a list as .csv, .xlsx or .ods; - for standard input",
	.required = true},
};

/* What the options say. */
struct import_said {
	struct import_request request;
	struct word_list map;
	struct word_list means;
	struct word_list leave_out;
	const char *complaints; /* the file for them; NULL for none */
};

/* Choices are read into these, in their order. */
_Static_assert(QUANTITIES_ONE == QUANTITIES_FROM_WORDS + 1, "in the order of the choice");
_Static_assert(DECIMALS_POINT == DECIMALS_COMMA + 1, "in the order of the choice");

static const struct option_spec OPTIONS[] = {
    FLAG_OPTION("dry-run", struct import_said, request.dry,
	"say what would change, and change nothing"),
    OPTION("means", "WORDS=KIND", WORDS, struct import_said, means,
	"words of the list that stand for a kind, as \"Pyro=flare-red-hand\", "
	"or for no-gear",
	.repeatable = true),
    OPTION("quantities", "from-words|one", CHOICE, struct import_said,
	request.options.quantities,
	"what \"Flares x4\" without a quantity is: four, or one",
	.least = QUANTITIES_FROM_WORDS),
    FLAG_OPTION("two-digit-years", struct import_said, request.options.two_digit_years,
	"27 in a date is 2027: 00 to 68 are this century's, 69 to 99 the last's"),
    OPTION("decimals", "comma|point", CHOICE, struct import_said,
	request.options.decimals,
	"what parts the decimals of a price: with comma, 1.250 is 1250",
	.least = DECIMALS_COMMA),
    OPTION("next-alone", "notes|asked", CHOICE, struct import_said,
	request.options.next_alone,
	"a next date without the day of the work: as words in the notes",
	.least = NEXT_ALONE_NOTES),
    OPTION("map", "HEADER=COLUMN", WORDS, struct import_said, map,
	"a header that stands for a column, or for \"ignore\"", .repeatable = true),
    OPTION("leave-out", "LINE[..LINE]", WORDS, struct import_said, leave_out,
	"rows that are no gear, such as a total", .repeatable = true),
    OPTION("complaints", "FILE", WORDS, struct import_said, complaints,
	"write all that is wrong with the list there, a line each"),
    FLAG_OPTION("ask-again", struct import_said, request.ask_again,
	"what was answered about earlier lists does not hold for this one"),
    LIST_OPTIONS(struct import_said, request.options.how, request.options.order, NULL,
	"how dates such as 04/05/2026 are to be read"),
    OPTION("vessel", "NAME", VESSEL, struct import_said, request.options.vessel,
	"for rows or files that name no vessel"),
    FLAG_OPTION("services-are-right", struct import_said, request.services_right,
	"a day without a task is a service, though her sheets ask for none"),
    FLAG_OPTION("names-are-right", struct import_said, request.names_right,
	"new boats and tags are right, however like known ones they are"),
    FLAG_OPTION("lots-are-right", struct import_said, request.lots_right,
	"a lot that was split has as many again as the file says"),
    SERIAL_OPTIONS(struct import_said, request.said),
};

/* Reads each value of an option as THEIRS=OURS. */
static bool
read_pairs(struct context *context, const char *option, const struct word_list *values,
    const char *expected, const struct csv_mapping **out, struct fault *fault)
{
	struct arena *arena = &context->desk.arena;
	struct csv_mapping *pairs =
	    arena_alloc(arena, (values->count + 1) * sizeof *pairs);
	for (size_t i = 0; i < values->count; i++) {
		const char *value = values->items[i];
		const char *split = strrchr(value, '=');
		char *theirs = arena_alloc(arena, strlen(value) + 1);
		if (split == NULL || split == value || split[1] == '\0') {
			return fault_set(fault, FAULT_USAGE,
			    "--%s: expected %s, found \"%s\"", option, expected, value);
		}
		memcpy(theirs, value, (size_t)(split - value));
		pairs[i] = (struct csv_mapping){theirs, split + 1, false};
	}
	*out = pairs;
	return true;
}

/* Reads which words of the list stand for which kinds, all of which must be. */
static bool
read_meanings(struct context *context, const struct word_list *means,
    struct csv_options *options, struct fault *fault)
{
	const struct kinds *kinds = NULL;
	options->meaning_count = means->count;
	if (!read_pairs(context, "means", means, "WORDS=KIND, as \"Pyro=flare-red-hand\"",
		&options->meanings, fault) ||
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
read_left_out(struct context *context, const struct word_list *words,
    struct csv_options *options, struct fault *fault)
{
	struct csv_lines *lines =
	    arena_alloc(&context->desk.arena, (words->count + 1) * sizeof *lines);
	for (size_t i = 0; i < words->count; i++) {
		if (!lines_parse(words->items[i], &lines[i])) {
			return fault_set(fault, FAULT_USAGE,
			    "--leave-out: expected a line or lines of the list, as 12 or "
			    "12..15, found \"%s\"",
			    words->items[i]);
		}
	}
	options->left_out = lines;
	options->left_out_count = words->count;
	return true;
}

static bool
read_said(struct context *context, struct import_said *said, struct fault *fault)
{
	struct csv_options *options = &said->request.options;
	if (!options_into(context->given, said, fault)) {
		return false;
	}
	if (options->next_alone > NEXT_ALONE_NOTES) {
		options->next_alone = NEXT_ALONE_ASKED;
	}
	options->mapping_count = said->map.count;
	if (said->request.dry && desk_has_book(&context->desk) &&
	    !desk_open(&context->desk, BOOK_READ, fault)) {
		return false;
	}
	return desk_currency(&context->desk, &options->currency, fault) &&
	       read_pairs(context, "map", &said->map, "HEADER=COLUMN, as \"Where=place\"",
		   &options->mappings, fault) &&
	       read_meanings(context, &said->means, options, fault) &&
	       read_left_out(context, &said->leave_out, options, fault);
}

/* Writes what is wrong with a list to the file that was named for it. */
static void
keep_complaints(struct context *context, const char *path, const struct text *complaints)
{
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
import_once(struct context *context, const struct import_request *request,
    struct import_outcome *out, struct fault *fault)
{
	struct waiting_word waiting;
	waiting_begin(&waiting, true);
	bool done = desk_import(&context->desk, request, out, fault);
	waiting_end(&waiting);
	return done;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	SCOPED_SPOOL list = {0};
	SCOPED_TEXT complaints = {0};
	struct import_said said = {
	    .request = {
		.name = strcmp(path, "-") == 0 ? "standard input" : path,
		.spool = &list,
		.options.complaints = &complaints,
	    }};
	struct import_request *request = &said.request;
	/* a list that comes through standard input leaves nobody to answer */
	bool walks = ask_is_possible() && strcmp(path, "-") != 0;
	struct import_outcome out = {0};
	bool done =
	    read_said(context, &said, fault) && file_read_list(path, &list, fault);
	done = done && (!walks || import_walk(context, request, fault));
	size_t notes = context->desk.notes.length;
	while (done && !import_once(context, request, &out, fault)) {
		done = context_asked(context, fault);
	}
	if (walks && !request->dry) {
		/* they were shown before it was asked */
		context_forget_notes(context, notes);
	}
	if (done) {
		done =
		    (walks && !request->dry) || context_tell(context, &out.words, fault);
		add_effect(&out.effect, request->dry, &context->out);
	}
	spool_clear(&out.words);
	keep_complaints(context, said.complaints, &complaints);
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
