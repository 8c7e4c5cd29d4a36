#include "cli/at_station.h"

#include "report/words.h"

#include <string.h>

bool
station_by_name(struct context *context, const char *option, const char *name,
    const struct station **out, struct fault *fault)
{
	const struct book_contents *contents = &context->desk.contents;
	const char **names = arena_alloc(
	    &context->desk.arena, (contents->station_count + 1) * sizeof *names);
	for (size_t i = 0; i < contents->station_count; i++) {
		names[i] = contents->stations[i].name;
		if (strcmp(names[i], name) == 0) {
			*out = &contents->stations[i];
			return true;
		}
	}
	const char *nearest = nearest_word(name, names, contents->station_count);
	if (nearest != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    "--%s: there is no station \"%s\"; did you mean %s?", option, name,
		    nearest);
	}
	desk_note(&context->desk,
	    "there is no station \"%s\" in the book, so its turn-round is taken to be %d "
	    "days; \"becket station\" enters it",
	    name, (int)ASSUMED_TURN_ROUND_DAYS);
	return true;
}

void
note_station(struct context *context, const struct station *station, size_t index)
{
	const struct item *item = &context->desk.contents.inventory.items[index];
	if (station == NULL) {
		return;
	}
	switch (station_fit(station, item->kind, item->make)) {
	case FIT_NO:
		desk_note(&context->desk,
		    "%s is not known to service %s, which %s is; \"becket station\" says "
		    "what it takes",
		    station->name, item->kind, item->tag);
		break;
	case FIT_OTHER_MAKE:
		desk_note(&context->desk,
		    "%s is not known to service %s of the make %s, which %s is",
		    station->name, item->kind, item->make, item->tag);
		break;
	case FIT_ASK:
		desk_note(&context->desk,
		    "%s services %s of some makes alone; ask whether it may service %s",
		    station->name, item->kind, item->tag);
		break;
	case FIT_YES:
		break;
	}
}

bool
tasks_told(struct context *context, unsigned *out, struct fault *fault)
{
	size_t cursor = 0;
	unsigned told = 0;
	for (const char *word = options_next(context->given, "for", &cursor);
	     word != NULL; word = options_next(context->given, "for", &cursor)) {
		enum task task = TASK_SERVICE;
		if (!task_parse(word, &task, fault)) {
			return fault_prefix(fault, "--for");
		}
		told |= 1U << task;
	}
	*out = told;
	return true;
}
