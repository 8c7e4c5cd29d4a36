/* becket sheet */
#include "base/memory.h"
#include "cli/command.h"
#include "cli/parts.h"
#include "desk/files.h"
#include "desk/naming.h"
#include "exchange/answers.h"

#include <stdlib.h>
#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "list|show|check|compare",
	.help = "list the rule sheets, show one, check files, or compare two",
	.required = true},
    {.name = "NAME|FILE",
	.help = "the sheet to show, the files to check, or the two sheets to compare",
	.repeatable = true},
};

static const struct option_spec OPTIONS[] = {
    OPTION("vessel", "NAME", VESSEL, struct compare_asked, vessel,
	"with compare: what differs for her gear", .acts = "compare", .not_with = "kind"),
    OPTION("kind", "KIND", WORDS, struct compare_asked, kind,
	"with compare: the rules for this kind side by side", .acts = "compare"),
};

static void
list(struct context *context)
{
	struct sheet_list all;
	desk_sheets(&context->desk, &all);
	if (context->json) {
		answer_sheets(all.sheets, all.count, &context->out);
		return;
	}
	report_sheets(context_style(context), all.sheets, all.count, &context->out);
}

static bool
show(struct context *context, const char *name, struct fault *fault)
{
	const struct sheet *sheet = NULL;
	if (!naming_sheet(&context->desk, name, &name, fault) ||
	    !shelf_sheet(
		&context->desk.shelf, name, &context->desk.notes, &sheet, fault)) {
		return false;
	}
	if (context->json) {
		answer_sheet(sheet, &context->out);
	} else {
		report_sheet(context_style(context), sheet, &context->out);
	}
	return true;
}

/* Makes a finding of why a sheet can't be read: "FILE: line 7, field kinds: ...". */
static void
add_broken(struct context *context, const char *path, const struct fault *broken,
    struct sheet_findings *out)
{
	static const char LINE[] = ": line ";
	const char *text = broken->text;
	size_t length = strlen(path);
	struct sheet_finding finding = {
	    .about = "", .todo = "nothing else was looked at"};
	if (strncmp(text, path, length) == 0 &&
	    strncmp(text + length, LINE, sizeof LINE - 1) == 0) {
		char *end = NULL;
		finding.line = strtoul(text + length + sizeof LINE - 1, &end, 10);
		text = end + strspn(end, ",: ");
	}
	size_t size = strlen(text) + 1;
	char *what = arena_alloc(&context->desk.arena, size);
	memcpy(what, text, size);
	finding.what = what;
	ARRAY_ADD(out, finding);
}

/* Looks a file over. A sheet that can't be read is a finding; a file that can't is a fault. */
static bool
check_file(struct context *context, struct checked_sheet *file, struct sheet **sheet_out,
    struct fault *fault)
{
	SCOPED_TEXT yaml = {0};
	struct fault broken = {0};
	if (!file_read(file->path, &yaml, fault)) {
		return false;
	}
	bool read = shelf_check(&context->desk.shelf, file->path, &yaml,
	    &context->desk.notes, sheet_out, &broken);
	if (!read && broken.kind != FAULT_INPUT) {
		*fault = broken;
		return false;
	}
	if (!read) {
		add_broken(context, file->path, &broken, &file->findings);
		return true;
	}
	file->sheet = *sheet_out;
	const struct sheet *sheet = *sheet_out;
	bool built_in =
	    shelf_built_in(sheet->name) && strcmp(sheet->extends, sheet->name) != 0;
	sheet_check(sheet, &yaml, built_in, &context->desk.arena, &file->findings);
	return true;
}

static bool
check_files(struct context *context, struct checked_sheet *files, struct sheet **sheets,
    size_t count, struct fault *fault)
{
	for (size_t i = 0; i < count; i++) {
		files[i].path = options_word(context->given, i + 1);
		if (!check_file(context, &files[i], &sheets[i], fault)) {
			return false;
		}
		context->status =
		    sheet_findings_wrong(&files[i].findings) > 0 ? 1 : context->status;
	}
	if (context->json) {
		answer_sheet_check(files, count, &context->out);
		return true;
	}
	report_sheet_check(files, count, &context->out);
	return true;
}

static bool
check(struct context *context, size_t count, struct fault *fault)
{
	struct checked_sheet *files = memory_zeroed(count + 1, sizeof *files);
	struct sheet **sheets = memory_zeroed(count + 1, sizeof(struct sheet *));
	bool done = check_files(context, files, sheets, count, fault);
	for (size_t i = 0; i < count; i++) {
		sheet_findings_clear(&files[i].findings);
		sheet_free(sheets[i]);
	}
	free(files);
	free(sheets);
	return done;
}

/* What may follow an act: how many words, and what they are called where one is missing. */
struct sheet_verb {
	const char *word;
	size_t least;
	size_t most;
	const char *wanted;
};

static const struct sheet_verb ACTS[] = {
    {"list", 0, 0, ""},
    {"show", 1, 1, "NAME"},
    {"check", 1, SIZE_MAX, "FILE"},
    {"compare", 2, 2, "a sheet"},
};

static const struct sheet_verb *
find_act(const char *word)
{
	size_t i = 0;
	while (i + 1 < COUNT_OF(ACTS) && strcmp(ACTS[i].word, word) != 0) {
		i++;
	}
	return &ACTS[i];
}

static bool
check_words(const struct context *context, const struct sheet_verb *act, size_t count,
    struct fault *fault)
{
	if (count > act->most) {
		return usage_fault(fault, "becket sheet",
		    "\"%s\" is a word too many after %s",
		    options_word(context->given, act->most + 1), act->word);
	}
	if (count < act->least) {
		return usage_fault(fault, "becket sheet", "%s is missing after %s",
		    act->wanted, act->word);
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct sheet_verb *act = find_act(options_word(context->given, 0));
	const char *name = options_word(context->given, 1);
	size_t count = 0;
	while (options_word(context->given, count + 1) != NULL) {
		count++;
	}
	if (!check_words(context, act, count, fault)) {
		return false;
	}
	switch (act->word[1]) {
	case 'i':
		list(context);
		return true;
	case 'h':
		return act->word[0] == 's' ? show(context, name, fault)
					   : check(context, count, fault);
	default:
		return sheet_compare(
		    context, name, options_word(context->given, 2), fault);
	}
}

static const struct told_answer ANSWERS[] = {{"list", KEYS_OF_SHEETS},
    {"show", KEYS_OF_SHEET}, {"check", KEYS_OF_SHEET_CHECK},
    {"compare", KEYS_OF_COMPARED_RULES}, {"compare --vessel", KEYS_OF_COMPARED_GEAR},
    {0}};

const struct command COMMAND_SHEET = {
    .name = "sheet",
    .summary = "list, show, check and compare rule sheets",
    .details =
	"A sheet of your own is a file NAME.yaml in the folder \"sheets\" beside the book. "
	"It comes before a built-in one of the same name, and becket says so; it may extend "
	"one, and then follows it across upgrades but for what it replaces or strikes out. "
	"With check a file is read and looked over for rules that contradict one another, "
	"that never hold, or that another always displaces, and for carriage lines nothing "
	"can meet; the exit status is 1 when something was found that is not a remark. With compare two sheets, "
	"or several with commas between them, are laid side by side: for the gear of a vessel "
	"the due day and the rule under each, for a kind all rules with their sources, else "
	"what differs for any kind.",
    .examples = "sheet list\n"
		"the rule sheets there are\n"
		"sheet show practice\n"
		"the rules of one, with their sources\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_NOTHING,
    .answers = ANSWERS,
    .run = run,
};
