#include "cli/context.h"

#include <time.h>

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
	*out = (struct context){.command = context->command,
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
	*context = (struct context){0};
}
