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

/* Remarks on the station for each of some items. */
static void
note_items(struct papers_remarks *remarks, const struct station *station,
    const struct handing *handing, const size_t *places)
{
	struct desk *desk = &remarks->context->desk;
	for (size_t i = 0; i < handing->count; i++) {
		size_t from = desk->notes.length;
		size_t item = handing->items[i];
		note_station(desk, station, item);
		if (places != NULL) {
			papers_remark_kept(remarks, from,
			    (int64_t)places[desk->contents.inventory.items[item].vessel]);
		}
	}
}

bool
papers_named(struct papers_remarks *remarks, const struct named_said *said,
    const size_t *places, struct winter_answer *answer, struct fault *fault)
{
	struct context *context = remarks->context;
	struct desk *desk = &context->desk;
	const struct station *station = NULL;
	struct handing handing = {
	    .station = said->station, .on = said->on, .told = said->tasks};
	size_t *items = NULL;
	size_t from = desk->notes.length;
	if (!check_day(context, said->on, fault) ||
	    (said->station != NULL &&
		!station_by_name(desk, said->station, &station, fault)) ||
	    (!said->due_now &&
		!named_items(context, &said->tags, &items, &handing.count, fault))) {
		return false;
	}
	if (said->due_now) {
		desk_due_now(desk, answer->lists, answer->count, &items, &handing.count);
	}
	if (places != NULL) {
		papers_remark_kept(remarks, from, REMARKED_FIRST);
	}
	handing.items = items;
	note_items(remarks, station, &handing, places);
	from = desk->notes.length;
	if (station != NULL && handing.on != DAY_NONE &&
	    station_said_closed(station, handing.on)) {
		desk_note(desk, "%s is closed on that day", station->name);
	}
	if (places != NULL) {
		papers_remark_kept(remarks, from, REMARKED_LAST);
	}
	return desk_hand_in(desk, &handing, &answer->lists, &answer->count, fault);
}
