/* becket land */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/acts.h"
#include "report/tags.h"
#include "report/words.h"

static const struct word_spec WORDS[] = {ITEMS_WORD("LJ-1..LJ-8")};

static const struct option_spec OPTIONS[] = {
    OPTION("station", "STATION", STATION, struct land_request, to,
	"where they are handed in", .also = "to", .required = true),
    OPTION("on", "DATE", DAY, struct land_request, on, "the day; today when not told"),
    OPTION("without", "TAG", TAG, struct land_request, without,
	"a part that stays aboard", .repeatable = true),
    OPTION("task", "service|inspect|weigh|test|renew", CHOICE, struct land_request, asked,
	"what is asked of the station; as the winter's list has it when not told",
	.also = "for", .repeatable = true),
    OPTION("note", "WORDS", WORDS, struct land_request, note, "anything else"),
};

static void
say(struct context *context, const struct land_request *request,
    const struct land_outcome *done)
{
	char on[DAY_WORDS_SIZE];
	add_gear(&context->out, &done->gear);
	text_add_format(&context->out, " landed at %s on %s", request->to,
	    day_words(request->on, on));
	if (done->collect != DAY_NEVER) {
		text_add_format(&context->out, "; to be collected from %s",
		    day_words(done->collect, on));
	}
	text_add(&context->out, "\n");
}

/* "Asked for: service of LJ-1 to LJ-3; renewal of FH-1". */
static void
say_asked(struct context *context, const struct life_plan *plan)
{
	bool any = false;
	for (int task = 0; task < TASK_COUNT; task++) {
		struct tag_list list = {.out = &context->out};
		bool begun = false;
		for (size_t i = 0; i < plan->count; i++) {
			const struct life_row *row = &plan->items[i];
			if ((row->movement.asked & 1U << task) == 0) {
				continue;
			}
			if (!begun) {
				text_add_format(&context->out, "%s%s of ",
				    any ? "; " : "Asked for: ",
				    task_noun((enum task)task));
			}
			begun = any = true;
			tag_list_add(
			    &list, context->desk.contents.inventory.items[row->item].tag);
		}
		tag_list_end(&list);
	}
	text_add(&context->out, any ? "\n" : "");
}

static bool
run(struct context *context, struct fault *fault)
{
	struct land_request request = {
	    .tags = context->given->words, .on = context->desk.today, .note = ""};
	struct land_outcome done = {0};
	if (!options_into(context->given, &request, fault) ||
	    !desk_land(&context->desk, &request, &done, fault)) {
		return false;
	}
	say(context, &request, &done);
	say_asked(context, &done.gear.plan);
	return true;
}

const struct command COMMAND_LAND = {
    .name = "land",
    .summary = "record that gear went ashore to a station",
    .details =
	"Its parts go with it, but for those named with --without. Gear that is ashore "
	"counts in no muster, and the winter's list no longer asks for it to be handed in. "
	"What is asked of the station is kept with the landing: what --task names, else what "
	"the winter's list has a station do, and whatever of its work is not in date. "
	"\"becket ashore\" shows what is away, \"becket return\" brings it back.",
    .examples = "land LR-1 --station \"Varne Sound Raft Loft\"\n"
		"the raft is handed in today\n"
		"land LJ-1..LJ-3 --station \"Holm Quay Safety Service\" --on yesterday\n"
		"three jackets were, yesterday\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .quiet = true,
    .run = run,
};
