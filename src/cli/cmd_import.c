/* becket import */
#include "cli/command.h"
#include "cli/import_doubts.h"
#include "cli/life_plan.h"
#include "cli/list_options.h"
#include "cli/serial_check.h"
#include "desk/files.h"
#include "exchange/inventory_csv.h"
#include "exchange/tag_index.h"

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
	.help = "words of the list that stand for a kind, as \"Pyro=flare-red-hand\"",
	.repeatable = true},
    {.name = "quantities",
	.argument = "from-words|one",
	.help = "what \"Flares x4\" without a quantity is: four, or one"},
    {.name = "two-digit-years",
	.help = "27 in a date is 2027: 00 to 68 are this century's, 69 to 99 the last's"},
    {.name = "decimals",
	.argument = "comma|point",
	.help = "what parts the decimals of a price: with comma, 1.250 is 1250"},
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
		pairs[count++] = (struct csv_mapping){theirs, split + 1};
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
		if (kinds_find(kinds, options->meanings[i].ours) == NULL) {
			return fault_set(fault, FAULT_USAGE,
			    "--means: \"%s\" is no kind in the catalogue; \"becket help "
			    "kinds\" lists them",
			    options->meanings[i].ours);
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

static int
by_day(const void *a, const void *b)
{
	const struct csv_row *row_a = *(const struct csv_row *const *)a;
	const struct csv_row *row_b = *(const struct csv_row *const *)b;
	day_t day_a = stamp_first(row_a->record.on);
	day_t day_b = stamp_first(row_b->record.on);
	if (day_a != day_b) {
		return day_a < day_b ? -1 : 1;
	}
	return row_a->line < row_b->line ? -1 : 1;
}

static bool
has_renewals(const struct csv_rows *rows)
{
	for (size_t i = 0; i < rows->count; i++) {
		if (rows->items[i].has_record &&
		    rows->items[i].record.task == TASK_RENEW) {
			return true;
		}
	}
	return false;
}

/* Adds the rows' records, the oldest first. */
static bool
write_records(struct context *context, const struct csv_rows *rows, struct fault *fault)
{
	const struct csv_row **dated = arena_alloc(
	    &context->desk.arena, (rows->count + 1) * sizeof(const struct csv_row *));
	size_t count = 0;
	for (size_t i = 0; i < rows->count; i++) {
		if (rows->items[i].has_record) {
			dated[count++] = &rows->items[i];
		}
	}
	qsort(dated, count, sizeof(const struct csv_row *), by_day);
	for (size_t i = 0; i < count; i++) {
		if (!book_add_record(context->desk.book, dated[i]->change.tag,
			&dated[i]->record, fault)) {
			return fault_prefix(fault, "line %zu", dated[i]->line);
		}
	}
	return true;
}

/* A row that says another boat or another state than the book tells of a movement, on the
 * day the book learns of it. */
static bool
write_movement(struct context *context, const struct csv_row *row,
    const struct item *item, struct fault *fault)
{
	const struct item_change *change = &row->change;
	const char *vessel = context->desk.contents.inventory.vessels[item->vessel].name;
	enum move move = MOVE_CARRIED;
	bool carried = (change->set & 1U << FIELD_VESSEL) != 0 &&
		       strcmp(change->vessel, vessel) != 0;
	struct movement movement = life_movement(MOVE_CARRIED, context->desk.today, "");
	movement.vessel = carried ? change->vessel : vessel;
	if (carried &&
	    !book_add_movement(context->desk.book, change->tag, &movement, fault)) {
		return false;
	}
	if (!life_state_move(item, change, &move)) {
		return true;
	}
	movement.move = move;
	movement.because = change->because;
	movement.station = move == MOVE_LANDED ? change->landed_to : item->landed_to;
	return book_add_movement(context->desk.book, change->tag, &movement, fault);
}

static bool
write_movements(struct context *context, const struct csv_rows *rows, struct fault *fault)
{
	struct tag_index index = {0};
	tag_index_make(&context->desk.contents.inventory, &index);
	bool written = true;
	for (size_t i = 0; written && i < rows->count; i++) {
		const struct csv_row *row = &rows->items[i];
		size_t at = tag_index_find(&index, row->change.tag);
		if (at != ITEM_NO_PARENT && !row->further) {
			written = write_movement(context, row,
			    &context->desk.contents.inventory.items[at], fault);
		}
	}
	tag_index_clear(&index);
	return written;
}

/* Writes all items, then their records; then, where a renewal has put a new thing in an old
 * place, that row's dates and serial number again, for a renewal clears them. The number of
 * the new thing is not written before that, lest it is kept as the old one's. */
static bool
write_rows(struct context *context, const struct csv_rows *rows,
    struct item_change *changes, struct fault *fault)
{
	size_t wrong = 0;
	bool renewals = has_renewals(rows);
	for (size_t i = 0; renewals && i < rows->count; i++) {
		changes[i].set &= ~(1U << FIELD_SERIAL);
	}
	if (rows->count > 0 &&
	    !book_put_items(context->desk.book, changes, rows->count, &wrong, fault)) {
		size_t line = wrong < rows->count ? rows->items[wrong].line : 0;
		return fault_prefix(fault, "line %zu", line);
	}
	for (size_t i = 0; renewals && i < rows->count; i++) {
		changes[i].set = rows->items[i].change.set;
	}
	return write_records(context, rows, fault) &&
	       (!renewals ||
		   book_put_items(context->desk.book, changes, rows->count, NULL, fault));
}

static bool
write_all(struct context *context, const struct csv_rows *rows, struct fault *fault)
{
	struct item_change *changes =
	    arena_alloc(&context->desk.arena, (rows->count + 1) * sizeof *changes);
	for (size_t i = 0; i < rows->count; i++) {
		changes[i] = rows->items[i].change;
	}
	return book_begin(context->desk.book, fault) &&
	       write_movements(context, rows, fault) &&
	       write_rows(context, rows, changes, fault) &&
	       book_commit(context->desk.book, fault);
}

/* A "last service" of gear that is not serviced is refused, not kept to no purpose. */
static bool
check_services(struct context *context, const char *name, const struct csv_rows *rows,
    struct fault *fault)
{
	static const char *const FIRST[] = {"practice"};
	const struct vessel vessel = {.name = "", .sheets = FIRST, .sheet_count = 1};
	struct rulebook *fresh = NULL;
	if (options_has(context->given, "services-are-right") ||
	    !csv_implies_services(rows)) {
		return true;
	}
	bool loaded = context->desk.contents.inventory.vessel_count > 0;
	if ((loaded && !desk_engine(&context->desk, NULL, fault)) ||
	    !desk_rulebook(&context->desk, &vessel, &fresh, fault)) {
		return false;
	}
	const struct csv_rulebooks rulebooks = {context->desk.engine.rulebooks, fresh};
	bool done = csv_check_services(name, rows, &context->desk.contents.inventory,
	    &rulebooks, &context->desk.arena, fault);
	rulebook_free(fresh);
	return done;
}

/* Compares the rows with the book (with nothing, where there is no book yet and none is to
 * be made) and says what changes. */
static bool
compare(struct context *context, const char *name, struct csv_rows *rows, bool dry,
    struct fault *fault)
{
	struct csv_effect effect = {0};
	const struct inventory *inventory = &context->desk.contents.inventory;
	const struct serial_answers answers = {
	    .right = options_has(context->given, "serials-are-right"),
	    .again = options_has(context->given, "again"),
	};
	import_remarks(context, rows);
	if (!csv_find_tags(name, rows, inventory, &context->desk.arena, fault) ||
	    !import_names(context, name, rows, fault) ||
	    !csv_check_serials(
		name, rows, inventory, answers, &context->desk.arena, fault) ||
	    !check_services(context, name, rows, fault)) {
		return false;
	}
	csv_compare(rows, inventory, &effect, &context->out);
	text_add_format(&context->out,
	    "%s%zu added, %zu changed, %zu as they were, %zu new record%s\n",
	    dry ? "dry run, nothing is written: " : "", effect.added, effect.changed,
	    effect.same, effect.records, effect.records == 1 ? "" : "s");
	if (effect.emptied > 0) {
		text_add_format(&context->out,
		    "%zu of the changes %s what the book has, where the list is blank\n",
		    effect.emptied, dry ? "would empty" : "emptied");
	}
	return true;
}

static bool
import_rows(
    struct context *context, const char *name, struct csv_rows *rows, struct fault *fault)
{
	bool dry = options_has(context->given, "dry-run");
	text_add(&context->desk.notes, text_string(&rows->notes));
	if (dry) {
		return (!desk_has_book(&context->desk) ||
			   desk_load(&context->desk, NULL, true, fault)) &&
		       compare(context, name, rows, true, fault);
	}
	return desk_load(&context->desk, NULL, true, fault) &&
	       compare(context, name, rows, false, fault) &&
	       (write_all(context, rows, fault) ||
		   fault_prefix(fault, "importing %s", name));
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

static bool
run(struct context *context, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	const char *name = strcmp(path, "-") == 0 ? "standard input" : path;
	const struct kinds *kinds = NULL;
	struct csv_options options = {0};
	struct csv_rows rows = {0};
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT complaints = {0};
	options.complaints = &complaints;
	if (!read_options(context, &options, fault) ||
	    !desk_kinds(&context->desk, &kinds, fault) ||
	    !file_read(path, &bytes, fault)) {
		return false;
	}
	const struct csv_source source = {name, text_string(&bytes), bytes.length};
	bool done = csv_read_inventory(
			&source, kinds, &options, &context->desk.arena, &rows, fault) &&
		    import_rows(context, name, &rows, fault);
	csv_rows_clear(&rows);
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
