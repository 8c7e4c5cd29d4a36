/* becket export */
#include "cli/command.h"
#include "desk/files.h"
#include "desk/stores.h"
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

static bool
run(struct context *context, struct fault *fault)
{
	const char *path = options_word(context->given, 0);
	struct export_said said = {0};
	SCOPED_TEXT csv = {0};
	if (!options_into(context->given, &said, fault)) {
		return false;
	}
	context->desk.left_gear = said.all ? LEFT_ALL : LEFT_NONE;
	if (!desk_load(&context->desk, said.vessel, said.all, fault) ||
	    (!said.all && !left_check_named(&context->desk, said.vessel, fault))) {
		return false;
	}
	csv_write_inventory(
	    &context->desk.contents.inventory, said.for_spreadsheet, &csv);
	if (strcmp(path, "-") == 0) {
		text_add_bytes(&context->out, text_string(&csv), csv.length);
		return true;
	}
	SCOPED_NEW_FILE file = {0};
	if (!new_file_write(path, text_string(&csv), csv.length, &file, fault) ||
	    !new_file_keep(&file, fault)) {
		return false;
	}
	size_t count = context->desk.contents.inventory.item_count;
	text_add_format(&context->out, "%zu item%s written to %s\n", count,
	    count == 1 ? "" : "s", path);
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
