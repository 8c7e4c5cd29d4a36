/* What is ashore already: a reminder to fetch it. */
#include "calendar/making.h"

#include <string.h>

/* True when both went ashore at one station on one day. */
static bool
landed_together(const struct ashore_line *a, const struct ashore_line *b)
{
	return a->since == b->since && strcmp(a->station, b->station) == 0;
}

/* What an ashore line says, as a line of a list. */
static struct shore_line
line_of_ashore(const struct ashore_line *ashore)
{
	enum task task = TASK_SERVICE;
	while (ashore->tasks != 0 && (ashore->tasks & 1U << task) == 0) {
		task = (enum task)((task + 1) % TASK_COUNT);
	}
	return (struct shore_line){.item = ashore->item,
	    .task = task,
	    .state = ashore->state,
	    .due = ashore->due,
	    .not_before = DAY_NONE,
	    .not_after = DAY_NONE,
	    .due_again = DAY_NONE,
	    .carries = true,
	    .price_minor = -1,
	    .grade = GRADE_MAKER,
	    .what = "",
	    .why = "",
	    .first_possible = DAY_NONE};
}

/* The day it is collected; one already past when it is first given out is today, one that was
 * missed goes on as others do. */
static void
making_fetch_day(struct making *making, day_t collect)
{
	bool first = making_stored(making) == NULL;
	making_aim(making, collect, DAY_NEVER);
	if (first && collect != DAY_NONE && collect < making->today) {
		making_on(making, making->today);
		making->aim = collect;
	}
}

/* One reminder to fetch all that went ashore together with the line at `first`. */
static void
add_fetch(struct making *making, size_t first)
{
	const struct ashore_lines *ashore = &making->list->ashore;
	const struct ashore_line *one = &ashore->items[first];
	char day[DAY_ISO_SIZE];
	char since[DAY_WORDS_SIZE];
	struct shore_lines lines = {
	    .items = arena_alloc(making->arena, ashore->count * sizeof *lines.items)};
	for (size_t i = first; i < ashore->count; i++) {
		if (landed_together(one, &ashore->items[i])) {
			lines.items[lines.count++] = line_of_ashore(&ashore->items[i]);
		}
	}
	making_start(making);
	text_add(&making->key, "fetch");
	making_key_name(making, making_vessel(making));
	making_key_name(making, one->station);
	text_add_format(&making->key, "|%s", day_iso(one->since, day));
	making_fetch_day(making, one->collect);
	text_add(&making->summary, "Collect ");
	wording_things(&making->wording, &lines, &making->summary);
	text_add_format(
	    &making->summary, ", %s", one->station[0] != '\0' ? one->station : "ashore");
	wording_boat(&making->wording, making_vessel(making), &making->summary);
	if (one->since != DAY_NONE) {
		text_add_format(&making->description, "Ashore since %s.\n",
		    day_words(one->since, since));
	}
	if (one->collect == DAY_NONE || one->assumed) {
		text_add(&making->description,
		    "When it can be fetched is not certain: ask the station.\n");
	}
	text_add(&making->description,
	    "Check each certificate and the next date on it, and record them.\n");
	wording_pieces(&making->wording, &lines, &making->description);
	wording_carry(&making->wording, &lines, &making->description);
	making_finish(making,
	    &(struct made_as){.station = one->station, .stays = true, .about = ""});
}

void
fetches_add(struct making *making)
{
	const struct ashore_lines *ashore = &making->list->ashore;
	for (size_t i = 0; i < ashore->count; i++) {
		bool told = false;
		for (size_t j = 0; j < i && !told; j++) {
			told = landed_together(&ashore->items[j], &ashore->items[i]);
		}
		if (!told) {
			add_fetch(making, i);
		}
	}
}
