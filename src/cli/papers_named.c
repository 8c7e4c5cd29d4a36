#include "cli/papers_named.h"

#include "cli/values.h"
#include "desk/at_station.h"
#include "desk/handing.h"
#include "desk/ranges.h"

bool
papers_are_named(const struct context *context)
{
	return options_has(context->given, "tag") ||
	       options_has(context->given, "due-now");
}

/* The items of --tag, each once. */
static bool
named_items(
    struct context *context, size_t **items_out, size_t *count_out, struct fault *fault)
{
	struct word_list range = {0};
	size_t cursor = 0;
	const char *words = NULL;
	while ((words = options_next(context->given, "tag", &cursor)) != NULL) {
		if (!range_words(&context->desk.arena, "--tag", words, &range, fault)) {
			return false;
		}
	}
	size_t *items =
	    arena_alloc(&context->desk.arena, (range.count + 1) * sizeof *items);
	for (size_t i = 0; i < range.count; i++) {
		if (!desk_find_tag(&context->desk, range.items[i], &items[i], fault)) {
			return false;
		}
		for (size_t k = 0; k < i; k++) {
			if (items[k] == items[i]) {
				return fault_set(fault, FAULT_INPUT,
				    "--tag: %s is named twice", range.items[i]);
			}
		}
	}
	*items_out = items;
	*count_out = range.count;
	return true;
}

static bool
read_handing(struct context *context, struct handing *out, struct fault *fault)
{
	const char *on = options_value(context->given, "on");
	out->station = options_value(context->given, "station");
	out->on = DAY_NONE;
	if (on != NULL && !day_typed(on, context->desk.today, &out->on, fault)) {
		return fault_prefix(fault, "--on");
	}
	if (out->on != DAY_NONE && out->on < context->desk.today) {
		char words[DAY_WORDS_SIZE];
		return fault_set(fault, FAULT_INPUT,
		    "--on: %s is past; expected today or a day to come",
		    day_words(out->on, words));
	}
	return tasks_told(context, &out->told, fault);
}

bool
papers_named(struct context *context, const struct shore_list *winters,
    size_t winter_count, struct shore_list **out, size_t *count_out, struct fault *fault)
{
	const struct station *station = NULL;
	struct handing handing = {0};
	size_t *items = NULL;
	bool due = options_has(context->given, "due-now");
	if (!read_handing(context, &handing, fault) ||
	    (handing.station != NULL && !station_by_name(&context->desk, "station",
					    handing.station, &station, fault)) ||
	    !(due ? desk_due_now(&context->desk, winters, winter_count, &items,
			&handing.count, fault)
		  : named_items(context, &items, &handing.count, fault))) {
		return false;
	}
	for (size_t i = 0; i < handing.count; i++) {
		note_station(&context->desk, station, items[i]);
	}
	if (station != NULL && handing.on != DAY_NONE &&
	    station_said_closed(station, handing.on)) {
		desk_note(&context->desk, "%s is closed on that day", station->name);
	}
	handing.items = items;
	return desk_hand_in(&context->desk, &handing, out, count_out, fault);
}
