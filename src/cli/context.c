#include "cli/command.h"
#include "cli/terminal.h"

#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

/* The machine's day, where the person is. */
static day_t
day_of_machine(void)
{
	time_t now = time(NULL);
	struct tm here = {0};
	if (localtime_r(&now, &here) == NULL) {
		return (day_t)(now / 86400);
	}
	return day_from_civil(here.tm_year + 1900, here.tm_mon + 1, here.tm_mday);
}

static void
write_piece(const struct text *piece, void *of)
{
	struct fault *unwritten = of;
	if (unwritten->kind == FAULT_NONE &&
	    !output_write(text_string(piece), piece->length, unwritten)) {
		return; /* what comes after it is made, and dropped */
	}
}

void
context_write_as_made(struct context *context)
{
	context->drain = (struct text_drain){write_piece, &context->unwritten};
	context->out.drain =
	    context->json && isatty(STDOUT_FILENO) == 0 ? &context->drain : NULL;
}

static void
hold_piece(const struct text *piece, void *held)
{
	spool_add(held, piece->bytes, piece->length);
}

void
context_hold(struct context *context)
{
	context->drain = (struct text_drain){hold_piece, &context->held};
	context->out.drain = isatty(STDOUT_FILENO) == 0 ? &context->drain : NULL;
}

bool
context_tell(struct context *context, struct spool *words, struct fault *fault)
{
	if (isatty(STDOUT_FILENO) != 0) {
		return spool_read_all(words, &context->out, fault);
	}
	context->held = *words;
	*words = (struct spool){0};
	return true;
}

void
context_read_clock(struct context *context)
{
	if (!context->desk.today_given) {
		context->desk.today = day_of_machine();
		context->desk.now = (int64_t)time(NULL);
		context->style.today = context->desk.today;
	}
}

void
context_again(const struct context *context, struct context *out)
{
	const struct desk *desk = &context->desk;
	*out = (struct context){.commands = context->commands,
	    .command = context->command,
	    .words = context->words,
	    .given = context->given,
	    .desk = {.book_path = desk->book_path,
		.book_named = desk->book_named,
		.mode = desk->mode,
		.signature = desk->signature,
		.today = desk->today,
		.today_given = desk->today_given,
		.now = desk->now,
		.left_gear = desk->left_gear,
		.shelf = {.folder = desk->shelf.folder}},
	    .style = context->style};
	context_read_clock(out);
	out->desk.signature.at = out->desk.now;
}

const struct report_style *
context_style(struct context *context)
{
	const struct desk *desk = &context->desk;
	context->style.currency =
	    desk->loaded ? desk->contents.inventory.currency : BOOK_NEW_CURRENCY;
	return &context->style;
}

void
context_forget_notes(struct context *context, size_t from)
{
	struct text *notes = &context->desk.notes;
	if (notes->length > from) {
		notes->length = from;
		notes->bytes[from] = '\0';
	}
}

void
context_show_notes(struct context *context, size_t from)
{
	const char *note = text_string(&context->desk.notes) + from;
	while (*note != '\0') {
		size_t length = strcspn(note, "\n");
		remark_write("note: ", note, length);
		note += length + (note[length] == '\n' ? 1 : 0);
	}
	context_forget_notes(context, from);
}

bool
context_usage(const struct context *context, struct fault *fault)
{
	const struct fault found = *fault;
	char who[64];
	(void)snprintf(who, sizeof who, "becket %s", context->command->name);
	return found.kind == FAULT_USAGE && strstr(found.text, " --help\"") == NULL
		   ? usage_fault(fault, who, "%s", found.text)
		   : false;
}

bool
context_asked(struct context *context, struct fault *fault)
{
	struct desk *desk = &context->desk;
	bool yes = false;
	if (desk->question.words == NULL || !ask_is_possible()) {
		return context_usage(context, fault);
	}
	if (!ask_yes(desk->question.words, &yes, fault)) {
		return false;
	}
	if (!yes) {
		return fault_set(fault, FAULT_INPUT, "%s", desk->question.no);
	}
	*fault = (struct fault){0};
	desk_answer(desk);
	return true;
}

bool
context_chosen(
    struct context *context, const char *letters, int *out, struct fault *fault)
{
	const struct question *question = &context->desk.question;
	SCOPED_TEXT choices = {0};
	SCOPED_TEXT answer = {0};
	bool there = false;
	if (question->choices == NULL || !ask_is_possible()) {
		return false;
	}
	for (size_t i = 0; i < question->choice_count; i++) {
		text_add_format(
		    &choices, "%s%s", i == 0 ? "" : "|", question->choices[i]);
	}
	if (!ask_line(question->words, &answer, &there, fault)) {
		return false;
	}
	*out =
	    there ? ask_choice(text_string(&answer), text_string(&choices), letters) : -1;
	if (*out < 0) {
		return fault_set(fault, FAULT_INPUT, "%s, found \"%.40s\"", question->no,
		    text_string(&answer));
	}
	*fault = (struct fault){0};
	return true;
}

bool
context_is_empty(struct context *context)
{
	if (context->desk.contents.inventory.vessel_count > 0) {
		return false;
	}
	if (!context->json) {
		text_add(&context->out,
		    "There is no vessel in the book yet.\n"
		    "Begin with:  becket vessel NAME --lay-up 11-01..03-31\n"
		    "then:        becket enter KIND --vessel NAME --made DATE ...\n"
		    "or read a list you have:  becket import FILE.csv\n");
	}
	return true;
}

void
context_clear(struct context *context)
{
	desk_clear(&context->desk);
	text_clear(&context->out);
	spool_clear(&context->held);
	*context = (struct context){0};
}

bool
answer_each(struct context *context, const struct pieces_answer *answer,
    bool (*each)(struct context *context, const struct pieces_answer *answer,
	const struct known_piece *piece, struct fault *fault),
    struct fault *fault)
{
	bool array = context->json && answer->count > 1;
	for (size_t i = 0; i < answer->count; i++) {
		text_add(&context->out, array ? i == 0 ? "[" : "," : i == 0 ? "" : "\n");
		if (!each(context, answer, &answer->items[i], fault)) {
			return false;
		}
	}
	text_add(&context->out, array ? "]\n" : "");
	return true;
}
