/* becket show */
#include "cli/command.h"
#include "desk/questions.h"
#include "exchange/answers.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static bool
show(struct context *context, const struct pieces_answer *answer,
    const struct known_piece *piece, struct fault *fault)
{
	const struct inventory *inventory = &context->desk.contents.inventory;
	(void)fault;
	if (context->json) {
		answer_show(inventory, piece->item, piece->papers, piece->paper_count,
		    &context->out);
		return true;
	}
	report_show(context_style(context), answer->kinds, inventory, piece->item,
	    piece->papers, piece->paper_count, &context->out);
	return true;
}

static bool
run(struct context *context, struct fault *fault)
{
	const struct pieces_asked asked = {
	    .tags = &context->given->words, .wants = PIECE_PAPERS};
	struct pieces_answer answer = {0};
	return desk_pieces(&context->desk, &asked, &answer, fault) &&
	       answer_each(context, &answer, show, fault);
}

const struct command COMMAND_SHOW = {
    .name = "show",
    .summary = "show everything known about a piece of gear",
    .details = "Of several, --json gives an array.",
    .examples = "show LR-1\n"
		"all that is known of the raft, its parts and its papers\n"
		"show LJ-1..LJ-3\n"
		"three jackets, one after the other\n",
    .table = {.words = WORDS, .word_count = COUNT_OF(WORDS)},
    .needs = NEEDS_READ,
    .answers = ONE_ANSWER(KEYS_OF_SHOW),
    .run = run,
};
