#include "cli/parts.h"
#include "desk/at_station.h"
#include "desk/handing.h"
#include "desk/ranges.h"

bool
papers_are_named(const struct named_said *said)
{
	return said->tags.count > 0 || said->due_now;
}

/* The items that --tag names, each once. */
static bool
named_items(struct context *context, const struct word_list *tags, size_t **items_out,
    size_t *count_out, struct fault *fault)
{
	struct word_list range = {0};
	for (size_t i = 0; i < tags->count; i++) {
		if (!range_words(
			&context->desk.arena, "--tag", tags->items[i], &range, fault)) {
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
check_day(const struct context *context, day_t on, struct fault *fault)
{
	char words[DAY_WORDS_SIZE];
	return on == DAY_NONE || on >= context->desk.today ||
	       fault_set(fault, FAULT_INPUT,
		   "--on: %s is past; expected today or a day to come",
		   day_words(on, words));
}

bool
papers_named(struct context *context, const struct named_said *said,
    const struct shore_list *winters, size_t winter_count, struct shore_list **out,
    size_t *count_out, struct fault *fault)
{
	const struct station *station = NULL;
	struct handing handing = {
	    .station = said->station, .on = said->on, .told = said->tasks};
	size_t *items = NULL;
	if (!check_day(context, said->on, fault) ||
	    (said->station != NULL &&
		!station_by_name(&context->desk, said->station, &station, fault)) ||
	    (!said->due_now &&
		!named_items(context, &said->tags, &items, &handing.count, fault))) {
		return false;
	}
	if (said->due_now) {
		desk_due_now(
		    &context->desk, winters, winter_count, &items, &handing.count);
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
