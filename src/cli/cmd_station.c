/* becket station */
#include "cli/command.h"
#include "cli/item_options.h"
#include "cli/values.h"
#include "exchange/answers.h"

#include <string.h>

static const struct word_spec WORDS[] = {
    {.name = "NAME", .help = "the station; all are listed when none is named"},
};

static const struct option_spec OPTIONS[] = {
    {.name = "base",
	.argument = "PLACE",
	.help = "the base it serves; every base when not told"},
    {.name = "turn-round",
	.argument = "DAYS",
	.help = "open days from hand-in to collect"},
    {.name = "closed",
	.argument = "MM-DD..MM-DD|none",
	.help = "closed every year; those given replace the ones before",
	.repeatable = true},
    {.name = "kinds",
	.argument = "KIND,KIND|all",
	.help = "what it services; every kind when not told"},
    {.name = "trip", .argument = "MINOR", .help = "what a trip there costs"},
};

static bool
read_closed(struct context *context, struct station_change *change, struct fault *fault)
{
	struct yearly *closed =
	    arena_alloc(&context->arena, (context->given->count + 1) * sizeof *closed);
	if (closed == NULL) {
		return fault_memory(fault);
	}
	size_t cursor = 0;
	size_t count = 0;
	for (const char *value = options_next(context->given, "closed", &cursor);
	     value != NULL; value = options_next(context->given, "closed", &cursor)) {
		if (strcmp(value, "none") == 0) {
			change->no_closures = true;
		} else if (yearly_parse(value, &closed[count], fault)) {
			count++;
		} else {
			return fault_prefix(fault, "--closed");
		}
	}
	if (change->no_closures && count > 0) {
		return fault_set(fault, FAULT_USAGE,
		    "--closed none and --closed with days exclude each other");
	}
	change->closed = closed;
	change->closed_count = count;
	return true;
}

static bool
read_kinds(struct context *context, struct station_change *change, struct fault *fault)
{
	const char *value = options_value(context->given, "kinds");
	if (value == NULL) {
		return true;
	}
	if (strcmp(value, "all") == 0) {
		change->every_kind = true;
		return true;
	}
	const char *const *words = NULL;
	size_t count = 0;
	if (!value_list(&context->arena, "kinds", value, &words, &count, fault)) {
		return false;
	}
	const char **kinds = arena_alloc(&context->arena, count * sizeof *kinds);
	if (kinds == NULL) {
		return fault_memory(fault);
	}
	for (size_t i = 0; i < count; i++) {
		const struct kind *kind = NULL;
		if (!kind_from_words(context, words[i], &kind, fault)) {
			return fault_prefix(fault, "--kinds");
		}
		kinds[i] = kind->id;
	}
	change->kinds = kinds;
	change->kind_count = count;
	return true;
}

static bool
read_change(struct context *context, struct station_change *change, struct fault *fault)
{
	change->base = options_value(context->given, "base");
	change->set_base = change->base != NULL;
	return value_number(context->given, "turn-round", (struct range){0, 365},
		   &change->turn_round_days, &change->set_turn_round, fault) &&
	       value_price(context->given, "trip", &change->trip_minor, &change->set_trip,
		   fault) &&
	       read_closed(context, change, fault) && read_kinds(context, change, fault);
}

/* Shows one station, or all when `name` is NULL. */
static bool
show(struct context *context, const char *name, struct fault *fault)
{
	const struct station *stations = context->contents.stations;
	size_t count = context->contents.station_count;
	for (size_t i = 0; name != NULL && i < context->contents.station_count; i++) {
		if (strcmp(context->contents.stations[i].name, name) == 0) {
			stations = &context->contents.stations[i];
			count = 1;
		}
	}
	if (context->json) {
		return answer_stations(stations, count, &context->out, fault);
	}
	return report_stations(&context->style, stations, count, &context->out, fault);
}

static bool
run(struct context *context, struct fault *fault)
{
	const char *name = options_word(context->given, 0);
	struct station_change change = {.name = name};
	if (!read_change(context, &change, fault)) {
		return false;
	}
	bool changes = change.set_base || change.set_turn_round || change.set_trip ||
		       change.no_closures || change.closed_count > 0 ||
		       change.every_kind || change.kind_count > 0;
	if (name == NULL && changes) {
		return usage_fault(fault, "becket station", "NAME is missing");
	}
	if (name == NULL) {
		return context_open(context, BOOK_READ, fault) &&
		       context_load(context, NULL, false, fault) &&
		       show(context, NULL, fault);
	}
	if (name[0] == '\0') {
		return fault_set(fault, FAULT_INPUT, "a station's name can't be blank");
	}
	if (!context_book(context, fault)) {
		return false;
	}
	if (!book_put_station(context->book, &change, fault)) {
		return fault_prefix(fault, "station %s", name);
	}
	return context_load(context, NULL, false, fault) && show(context, name, fault);
}

const struct command COMMAND_STATION = {
    .name = "station",
    .summary = "enter a station or change what is known of it; list the stations",
    .details =
	"A station is where gear is handed in. Its turn-round counts open days only. "
	"A new one needs 14 days, is never closed, and takes every kind from every base "
	"unless told otherwise.",
    .table = TABLE(WORDS, OPTIONS),
    .needs = NEEDS_CREATE,
    .json = true,
    .run = run,
};
