/* becket stand-in */
#include "cli/command.h"
#include "cli/gear_options.h"
#include "desk/ranges.h"
#include "report/tags.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "TAG|KIND",
	.help = "items in the book, or what kind of thing was hired",
	.required = true,
	.repeatable = true},
};

/* What the options say. */
struct stand_in_said {
	struct item_said item;
	const struct record *record; /* of what is hired; NULL for none */
	struct stand_in_request request;
	struct batch_said batch;
	struct serial_said serials;
	struct enter_request hired; /* what the request points to for hired gear */
};

static const struct option_spec OPTIONS[] = {
    OPTION("for", "TAG", TAG, struct stand_in_said, request.stands_for,
	"the own item in whose place it stands in"),
    OPTION("until", "DATE", DAY, struct stand_in_said, request.until,
	"the last day of its hire"),
    OPTION("vessel", "NAME", VESSEL, struct stand_in_said, request.vessel,
	"where it stands in; that of --for when not told"),
    OPTION("on", "DATE", DAY, struct stand_in_said, request.on,
	"from when; today when not told"),
    OPTION("note", "WORDS", WORDS, struct stand_in_said, request.note, "anything else"),
    BATCH_OPTIONS(struct stand_in_said, batch),
    ITEM_OPTIONS SERIAL_OPTIONS(struct stand_in_said, serials),
};

static bool
read_said(struct context *context, struct stand_in_said *said, struct fault *fault)
{
	*said = (struct stand_in_said){.request = {.tags = context->given->words,
					   .on = context->desk.today,
					   .until = DAY_NONE,
					   .note = ""}};
	return item_options_into(context, &said->item, &said->record, fault);
}

static bool
enter_hired(struct context *context, const struct kind *kind, struct stand_in_said *said,
    struct fault *fault)
{
	static const unsigned OF_ITSELF = 1U << FIELD_STATE | 1U << FIELD_HIRED_UNTIL;
	struct enter_request *hired = &said->hired;
	struct stand_in_request *request = &said->request;
	struct stand_in_outcome done = {0};
	bool entered = false;
	*hired = (struct enter_request){
	    .like = said->item.change, .record = said->record, .said = said->serials};
	if (!batch_read(context, &said->batch, hired, fault)) {
		return false;
	}
	if ((hired->like.set & OF_ITSELF) != 0) {
		return usage_fault(fault, "becket stand-in",
		    "its state is stand-in, and --until is the last day of its hire");
	}
	hired->like.kind = kind->id;
	request->hired = hired;
	do {
		entered = desk_stand_in_hired(&context->desk, request, &done, fault);
	} while (!entered && context_asked(context, fault));
	if (!entered) {
		return false;
	}
	struct tag_list list = {.out = &context->out};
	for (size_t i = 0; i < done.entered.count; i++) {
		tag_list_add(&list, done.entered.items[i].tag);
	}
	tag_list_end(&list);
	text_add_format(
	    &context->out, " entered: %s, standing in on %s", kind->name, done.vessel);
	return true;
}

static bool
put_in_place(
    struct context *context, const struct stand_in_said *said, struct fault *fault)
{
	struct stand_in_outcome done = {0};
	bool enters = said->item.change.set != 0 || said->record != NULL ||
		      said->batch.tag != NULL || said->batch.serials != NULL ||
		      said->batch.count > 0;
	if (enters) {
		return usage_fault(fault, "becket stand-in",
		    "what is in the book is changed with \"becket amend\"; expected --for, "
		    "--until, --vessel, --on and --note alone");
	}
	if (!desk_stand_in(&context->desk, &said->request, &done, fault)) {
		return context_usage(context, fault);
	}
	add_tags(&context->out, &done.gear);
	text_add_format(&context->out, " standing in on %s", done.vessel);
	return true;
}

static bool
is_tag(struct context *context, const char *word)
{
	return strstr(word, "..") != NULL || desk_has_tag(&context->desk, word);
}

/* Ends the line with what was said of it. */
static void
say_rest(struct context *context, const struct stand_in_request *request)
{
	char until[DAY_WORDS_SIZE];
	if (request->stands_for != NULL) {
		text_add_format(&context->out, " for %s", request->stands_for);
	}
	if (request->until != DAY_NONE) {
		text_add_format(
		    &context->out, ", hired until %s", day_words(request->until, until));
	}
	text_add(&context->out, "\n");
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *word = options_word(context->given, 0);
	const struct kind *kind = NULL;
	struct stand_in_said said;
	if (!read_said(context, &said, fault)) {
		return false;
	}
	if (is_tag(context, word)) {
		if (!put_in_place(context, &said, fault)) {
			return false;
		}
	} else if (context->given->words.count > 1) {
		return usage_fault(fault, "becket stand-in",
		    "\"%s\" is no tag in the book; expected tags, or one kind", word);
	} else if (!desk_kind(&context->desk, word, &kind, fault) ||
		   !enter_hired(context, kind, &said, fault)) {
		return false;
	}
	say_rest(context, &said.request);
	return true;
}

const struct command COMMAND_STAND_IN = {
    .name = "stand-in",
    .summary = "put hired or lent gear in the place of gear that is away",
    .details =
	"It counts in the muster by its own dates, up to the last day of its hire; \"becket "
	"due\" shows that day as one to give it back by. A kind enters what was hired, with "
	"the options of \"becket enter\"; tags take gear that is in the book, as from the "
	"spares at a base. When its own item returns, that is said. \"becket withdraw "
	"--because given-back\" ends it.",
    .examples = "stand-in lifejacket-auto --for LJ-1 --until 2027-04-30\n"
		"a hired jacket in the place of your own\n",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_WRITE,
    .run = run,
};
