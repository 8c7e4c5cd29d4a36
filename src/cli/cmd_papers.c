/* becket papers */
#include "book/putting.h"
#include "cli/command.h"
#include "cli/parts.h"
#include "cli/values.h"
#include "desk/acts.h"
#include "exchange/answers.h"
#include "exchange/paper_file.h"

#include <limits.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG",
	.help = "the items; LJ-1..LJ-8 is eight of them; all gear when none is named",
	.repeatable = true},
};

struct papers_said {
	const char *out; /* a folder; NULL for none */
	struct word_list remove;
};

static const struct option_spec OPTIONS[] = {
    OPTION("out", "DIR", WORDS, struct papers_said, out,
	"bring them out into this folder", .not_with = "remove json"),
    OPTION("remove", "NUMBER", WORDS, struct papers_said, remove,
	"take this one out; the journal keeps it, so that it can be undone",
	.repeatable = true, .not_with = "json"),
};

/* Writes the papers into a folder, one in memory at a time. */
static bool
bring_out(struct context *context, const char *path, const struct paper *papers,
    size_t count, struct fault *fault)
{
	SCOPED_FOLDER folder = {0};
	SCOPED_TEXT bytes = {0};
	SCOPED_TEXT name = {0};
	if (!folder_begin(path, false, &folder, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		text_reset(&name);
		paper_out_name(&papers[i], &name);
		if (!book_read_paper(context->desk.book, &papers[i], &bytes, fault) ||
		    !folder_add(&folder, text_string(&name), &bytes, fault)) {
			return false;
		}
		text_add_format(&context->out, "%s/%s\n", path, text_string(&name));
	}
	return folder_keep(&folder, fault);
}

static bool
remove_papers(struct context *context, const char *tag, const struct word_list *words,
    struct fault *fault)
{
	int64_t *numbers =
	    arena_alloc(&context->desk.arena, (words->count + 1) * sizeof *numbers);
	size_t count = 0;
	for (size_t i = 0; i < words->count; i++) {
		const char *value = words->items[i];
		long number = 0;
		if (!number_read(value, 1, LONG_MAX, &number)) {
			return fault_set(fault, FAULT_INPUT,
			    "--remove: \"%s\" is no paper's number; \"becket papers %s\" "
			    "shows them",
			    value, tag);
		}
		numbers[count++] = number;
	}
	if (!desk_detach(&context->desk, tag, numbers, count, fault)) {
		return false;
	}
	for (size_t i = 0; i < count; i++) {
		text_add_format(&context->out, "Paper %lld of %s is out of the book.\n",
		    (long long)numbers[i], tag);
	}
	return true;
}

static bool
check_said(
    const struct context *context, const struct papers_said *said, struct fault *fault)
{
	bool removes = said->remove.count > 0;
	if ((said->out != NULL || removes) && options_word(context->given, 0) == NULL) {
		return usage_fault(
		    fault, "becket papers", "--out and --remove need the item's TAG");
	}
	if (removes && context->given->words.count > 1) {
		return usage_fault(
		    fault, "becket papers", "--remove takes papers of one TAG");
	}
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *tag = options_word(context->given, 0);
	struct papers_said said = {0};
	struct papers_answer answer = {0};
	size_t item = 0;
	if (!options_into(context->given, &said, fault) ||
	    !check_said(context, &said, fault)) {
		return false;
	}
	bool removes = said.remove.count > 0;
	if (!desk_open(&context->desk, removes ? BOOK_WRITE : BOOK_READ, fault)) {
		return false;
	}
	if (removes) {
		return desk_load(&context->desk, NULL, true, fault) &&
		       desk_find_tag(&context->desk, tag, &item, fault) &&
		       remove_papers(context, tag, &said.remove, fault);
	}
	if (!desk_papers(&context->desk, &context->given->words, &answer, fault)) {
		return false;
	}
	if (context->json) {
		answer_papers(answer.papers, answer.count, &context->out);
		return true;
	}
	if (answer.count > 0 && said.out != NULL) {
		return bring_out(context, said.out, answer.papers, answer.count, fault);
	}
	report_papers(context_style(context), answer.papers, answer.count, &context->out);
	return true;
}

const struct command COMMAND_PAPERS = {
    .name = "papers",
    .summary = "list the papers kept with gear, bring them out, or remove one",
    .details =
	"With --out each is written as it came in, bit for bit, as NUMBER-NAME. A file that "
	"is there already is never written over; then nothing is written at all.",
    .examples = "papers LR-1\n"
		"the papers kept with the raft\n"
		"papers LR-1 --out brought-out\n"
		"and those as files in that folder\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_PAPERS),
    .run = run,
};
