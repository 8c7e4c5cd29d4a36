#include "cli/asking.h"
#include "cli/terminal.h"
#include "desk/import_answers.h"

#include <stdio.h>

static bool
ask_all(struct asked_doubts *asked, const struct csv_doubts *doubts,
    const struct import_request *request, struct fault *fault)
{
	bool first = asked->before.count == 0;
	(void)fprintf(stderr, "%s%s: %zu %sthing%s not clear.%s\n", first ? "" : "\n",
	    request->name, doubts->count, first ? "" : "more ",
	    doubts->count == 1 ? " is" : "s are",
	    first
		? " Each is asked about once for the whole\nlist; \"stop\" ends this, and "
		  "nothing is written."
		: "");
	for (size_t i = 0; i < doubts->count; i++) {
		if (!doubt_ask(asked, &doubts->items[i], fault)) {
			return false;
		}
	}
	return true;
}

/* Offers to keep the answers: they are of use again once the list is mended. */
static bool
offer_to_keep(struct asked_doubts *asked, struct fault *fault)
{
	struct desk *desk = &asked->context->desk;
	const struct fault wrong = *fault;
	bool yes = false;
	if (asked->answers.count == 0 || !desk_has_book(desk)) {
		return false;
	}
	(void)fprintf(stderr, "%s\n", wrong.text);
	if (ask_yes("The list has to be mended first. Your answers can be kept for then.",
		&yes, fault) &&
	    yes && !import_answers_keep(desk, &asked->answers, fault)) {
		return false;
	}
	return fault_set(fault, FAULT_INPUT, "nothing is taken from the list%s",
	    yes ? "; the answers are kept" : "");
}

/* Reads the list until nothing in it is left to be asked about. */
static bool
clear_up(struct asked_doubts *asked, struct import_request *request,
    struct import_outcome *out, struct fault *fault)
{
	struct context *context = asked->context;
	size_t notes = context->desk.notes.length;
	for (;;) {
		struct csv_doubts doubts = {.arena = &context->desk.arena};
		request->options.doubts = &doubts;
		context_forget_notes(context, notes);
		struct waiting_word waiting;
		waiting_begin(&waiting, true);
		bool done = desk_import(&context->desk, request, out, fault);
		waiting_end(&waiting);
		request->options.doubts = NULL;
		if (done) {
			return true;
		}
		if (doubts.count == 0) {
			if (context->desk.question.words == NULL) {
				return offer_to_keep(asked, fault);
			}
			if (!context_asked(context, fault)) {
				return false;
			}
			continue;
		}
		if (doubts_came_back(asked, &doubts)) {
			return false;
		}
		*fault = (struct fault){0};
		if (!ask_all(asked, &doubts, request, fault)) {
			return false;
		}
	}
}

/* Shows what was understood, and asks whether it is written. */
static bool
ask_to_write(const struct import_outcome *out, const struct import_request *request,
    struct fault *fault)
{
	const struct csv_effect *effect = &out->effect;
	SCOPED_TEXT words = {0};
	bool yes = false;
	text_add(&words, "\n");
	if (!spool_read_all(&out->words, &words, fault)) {
		return false;
	}
	text_add_format(&words, "%s: %zu to be added, %zu to be changed, %zu as they are",
	    request->name, effect->added, effect->changed, effect->same);
	if (effect->emptied > 0) {
		text_add_format(&words,
		    "; %zu of the changes would empty what the book has",
		    effect->emptied);
	}
	text_add(&words, ". Is that to be written?");
	if (effect->added + effect->changed + effect->records == 0) {
		return true;
	}
	if (!ask_yes(text_string(&words), &yes, fault)) {
		return false;
	}
	return yes || fault_set(fault, FAULT_INPUT, "nothing is written");
}

bool
import_walk(struct context *context, struct import_request *request, struct fault *fault)
{
	struct arena *arena = &context->desk.arena;
	struct asked_doubts *asked = arena_alloc(arena, sizeof *asked);
	struct import_outcome out = {0};
	size_t notes = context->desk.notes.length;
	*asked = (struct asked_doubts){.context = context, .options = &request->options};
	bool dry = request->dry;
	request->dry = true;
	bool done = clear_up(asked, request, &out, fault);
	if (done && !dry) {
		context_show_notes(context, notes);
	}
	context_forget_notes(context, notes);
	done = done && (dry || ask_to_write(&out, request, fault));
	spool_clear(&out.words);
	desk_forget(&context->desk);
	request->dry = dry;
	request->answers = &asked->answers;
	return done;
}
