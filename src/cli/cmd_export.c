/* becket export */
#include "cli/command.h"
#include "desk/files.h"
#include "exchange/inventory_csv.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "FILE", .help = "where to; - for standard output", .required = true},
};

struct export_said {
	const char *vessel; /* NULL for all */
	bool all;
	bool for_spreadsheet;
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct export_said, vessel, "this vessel only"),
    FLAG_OPTION("all", struct export_said, all,
	"withdrawn items too, and those of vessels that left"),
    FLAG_OPTION("for-spreadsheet", struct export_said, for_spreadsheet,
	"a quote mark before cells that a spreadsheet would run (= + - @)"),
};

/* Rows that are written of some boats at a time. */
struct writing_rows {
	const struct desk *desk;
	bool for_spreadsheet;
	struct text *out;
	size_t count;
};

static void
take_some(const struct list_answer *some, void *of)
{
	struct writing_rows *rows = of;
	csv_write_items(&rows->desk->contents.inventory, some->items, some->count,
	    rows->for_spreadsheet, rows->out);
	text_hand_on(rows->out);
	rows->count += some->count;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	struct export_said said = {0};
	SCOPED_TEXT csv = {0};
	if (!options_into(context->given, &said, fault)) {
		return false;
	}
	bool shown = strcmp(path, "-") == 0;
	struct writing_rows rows = {
	    &context->desk, said.for_spreadsheet, shown ? &context->out : &csv, 0};
	const struct list_asked asked = {
	    .gear.vessel = said.vessel, .state = -1, .all = said.all};
	context_hold(context);
	csv_write_names(said.for_spreadsheet, rows.out);
	if (!desk_list_by_boats(&context->desk, &asked, take_some, &rows, fault)) {
		return false;
	}
	if (shown) {
		return true;
	}
	SCOPED_NEW_FILE file = {0};
	if (!new_file_write(path, text_string(&csv), csv.length, &file, fault) ||
	    !new_file_keep(&file, fault)) {
		return false;
	}
	text_add_format(&context->out, "%zu item%s written to %s\n", rows.count,
	    rows.count == 1 ? "" : "s", path);
	return true;
}

const struct command COMMAND_EXPORT = {
    .name = "export",
    .summary = "write the inventory as CSV",
    .details =
	"\"becket import\" reads it back, from --for-spreadsheet too: what was put before a cell "
	"is taken away again. Without that option every cell is exactly what the book has.",
    .examples = "export inventory.csv\n"
		"all that is in the book, to be read back by \"becket import\"\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .run = run,
};
