/* becket sheet */
#include "cli/command.h"
#include "cli/files.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "list|show|check",
	.help = "list the rule sheets, show one, or check a file",
	.required = true},
    {.name = "NAME|FILE", .help = "the sheet to show, or the file to check"},
};

static bool
list(struct context *context, struct fault *fault)
{
	const char *const *names = NULL;
	size_t count = 0;
	if (!shelf_names(&context->shelf, &context->arena, &names, &count, fault)) {
		return false;
	}
	const struct sheet **sheets =
	    arena_alloc(&context->arena, (count + 1) * sizeof(const struct sheet *));
	if (sheets == NULL) {
		return fault_memory(fault);
	}
	size_t read = 0;
	for (size_t i = 0; i < count; i++) {
		struct fault broken = {0};
		if (shelf_sheet(&context->shelf, names[i], &context->notes, &sheets[read],
			&broken)) {
			read++;
		} else {
			context_note(context, "left out: %s", broken.text);
		}
	}
	return report_sheets(&context->style, sheets, read, &context->out, fault);
}

static bool
check(struct context *context, const char *path, struct fault *fault)
{
	struct sheet *sheet = NULL;
	SCOPED_TEXT yaml = {0};
	if (!file_read(path, &yaml, fault) ||
	    !shelf_check(&context->shelf, path, &yaml, &context->notes, &sheet, fault)) {
		return false;
	}
	text_add_format(&context->out, "%s is in order: %s, %zu rule%s\n", path,
	    sheet->title, sheet->rule_count, sheet->rule_count == 1 ? "" : "s");
	sheet_free(sheet);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *act = options_word(context->given, 0);
	const char *name = options_word(context->given, 1);
	bool lists = strcmp(act, "list") == 0;
	if (lists && name != NULL) {
		return usage_fault(
		    fault, "becket sheet", "\"%s\" is a word too many after list", name);
	}
	if (lists) {
		return list(context, fault);
	}
	if (name == NULL) {
		return usage_fault(fault, "becket sheet", "%s is missing after %s",
		    strcmp(act, "show") == 0 ? "NAME" : "FILE", act);
	}
	if (strcmp(act, "check") == 0) {
		return check(context, name, fault);
	}
	const struct sheet *sheet = NULL;
	return shelf_sheet(&context->shelf, name, &context->notes, &sheet, fault) &&
	       report_sheet(&context->style, sheet, &context->out, fault);
}

const struct command COMMAND_SHEET = {
    .name = "sheet",
    .summary =
	"list the rule sheets, show one with its sources, or check one of your own",
    .details =
	"A sheet of your own is a file NAME.yaml in the folder \"sheets\" beside the book. "
	"It comes before a built-in one of the same name, and becket says so.",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_NOTHING,
    .run = run,
};
