/* What `becket years` is asked: whose years, and with which changes. */
#ifndef BECKET_CLI_YEARS_H
#define BECKET_CLI_YEARS_H

#include "cli/context.h"
#include "desk/questions.h"
#include "exchange/answers.h"
#include "years/outlook.h"

/* The changes a plan may reckon with, as entries of an option table. */
#define YEARS_CHANGES                                                                    \
	{.name = "price",                                                                \
	    .argument = "KIND:TASK[@Ny]=PRICE",                                          \
	    .help = "if a task on one piece of a kind cost this, from an age on",        \
	    .repeatable = true},                                                         \
	    {.name = "without-station",                                                  \
		.argument = "NAME",                                                      \
		.help = "if this station were not gone to",                              \
		.repeatable = true},                                                     \
	    {.name = "renew-now",                                                        \
		.argument = "TAG",                                                       \
		.help = "if this item were renewed in the first winter"},                \
	    {.name = "skip-winter",                                                      \
		.argument = "YEAR",                                                      \
		.help = "if nobody went to a station in this winter"},                   \
	{                                                                                \
		.name = "if", .argument = "use=USE[@DATE]",                              \
		.help = "if her use were private or commercial, from a day on"           \
	}
#define YEARS_CHANGE_NAMES "price without-station renew-now skip-winter if"

/* A run of the command. What it points to is in the context's arena. */
struct years_run {
	struct context *context;
	size_t winters;
	enum grade least;
	const struct outlook_price *prices;
	size_t price_count;
	const bool *shunned;
	int skip_year;
	size_t renew_now;
	struct item *copy;          /* of all items */
	struct due_engine supposed; /* the engine with the supposed use, if any */

	const struct group {
		const char *name;
		bool shared;     /* a base's vessels; false: one by herself */
		size_t *vessels; /* by index */
		size_t count;
	} * groups; /* what is planned together */

	size_t group_count;
};

/* True when some change was given. */
bool years_changes_given(const struct given_options *given);

/* Reads scope, grade and changes; the engine must be ready. FAULT_INPUT for a kind, task,
 * station, tag, base or winter that is not there, naming it. */
MUST_CHECK bool years_read(struct years_run *run, struct fault *fault);

/* Makes the plans, with the changes or without. In the context's arena. */
MUST_CHECK bool years_plan(const struct years_run *run, bool changed,
    struct outlook_view *out, struct fault *fault);

/* Adds to a plan of one vessel by herself what of its first winter hangs on how many winters are
 * looked at, and where her shore list differs. Nothing where others are planned, too, or with
 * changes. */
MUST_CHECK bool years_add_asides(
    const struct years_run *run, struct outlook_view *view, struct fault *fault);

#endif
