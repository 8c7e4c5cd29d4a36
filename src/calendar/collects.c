/* What is ashore already: a reminder to fetch it. */
#include "calendar/reminders_inside.h"

#include <string.h>

/* What went ashore at one station on one day, of a vessel or of all of her base. In the arena. */
struct fetch {
	const struct ashore_line *one; /* its first line: where and since when */
	bool of_base;
	size_t *vessels;            /* whose */
	struct shore_lines *pieces; /* what each has there */
	size_t count;
	struct shore_lines all;
	day_t collect; /* all of it can be fetched; DAY_NONE when that is not known */
	bool to_ask;   /* that is not certain */
};

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
	struct shore_line line = shore_line_plain(ashore->item, task);
	line.state = ashore->state;
	line.due = ashore->due;
	line.grade = GRADE_MAKER;
	return line;
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

/* Starts the key: a base's where her name is that of a base. */
static void
start_key(struct making *making, const char *word, const char *owner,
    const struct ashore_line *one)
{
	char day[DAY_ISO_SIZE];
	making_start(making);
	text_add(&making->key, word);
	making_key_name(making, owner);
	making_key_name(making, one->station);
	text_add_format(&making->key, "|%s", day_iso(one->since, day));
}

/* True when a fetch was given out as one vessel's alone. It stays so: an identity does not
 * change because other vessels join. */
static bool
is_hers(
    struct making *making, const struct shore_list *list, const struct ashore_line *one)
{
	const struct vessel *vessels = making->wording.inventory->vessels;
	start_key(making, "fetch", vessels[list->vessel].name, one);
	return making_stored(making) != NULL;
}

/* True when the gear of the list at hand is fetched with that of others of her base. */
static bool
goes_with_base(struct making *making, const struct ashore_line *one)
{
	const char *base = making_base(making, making->list);
	size_t together = 0;
	(void)making_peers(making, true, &together);
	bool hers = is_hers(making, making->list, one);
	return base[0] != '\0' && together > 1 && !hers;
}

/* True when the list of a vessel of the same base has gear on a fetch. */
static bool
takes_part(
    struct making *making, const struct shore_list *list, const struct fetch *fetch)
{
	bool there = false;
	if (list == making->list) {
		return true;
	}
	for (size_t i = 0; i < list->ashore.count && !there; i++) {
		there = landed_together(&list->ashore.items[i], fetch->one);
	}
	return there && !is_hers(making, list, fetch->one);
}

/* Adds what a list has on a fetch. */
static void
add_part(struct making *making, const struct shore_list *list, struct fetch *fetch)
{
	const struct ashore_lines *ashore = &list->ashore;
	struct shore_lines *own = &fetch->pieces[fetch->count];
	*own = (struct shore_lines){.items = arena_alloc(making->arena,
					(ashore->count + 1) * sizeof *own->items)};
	for (size_t i = 0; i < ashore->count; i++) {
		const struct ashore_line *line = &ashore->items[i];
		if (!landed_together(fetch->one, line)) {
			continue;
		}
		own->items[own->count++] = line_of_ashore(line);
		ARENA_ADD(making->arena, &fetch->all, line_of_ashore(line));
		fetch->collect = fetch->collect == DAY_NONE
				     ? line->collect
				     : day_max(fetch->collect, line->collect);
		fetch->to_ask =
		    fetch->to_ask || line->assumed || line->collect == DAY_NONE;
	}
	fetch->vessels[fetch->count++] = list->vessel;
}

/* Gathers what went ashore together with the line at `first`. False when a list before the one at
 * hand has it: it is told there. */
static bool
gather(struct making *making, size_t first, struct fetch *out)
{
	const struct ashore_line *one = &making->list->ashore.items[first];
	struct fetch fetch = {.one = one, .collect = DAY_NONE};
	size_t count = 0;
	fetch.of_base = goes_with_base(making, one);
	const struct shore_list *const *peers =
	    making_peers(making, fetch.of_base, &count);
	fetch.vessels = arena_alloc(making->arena, count * sizeof *fetch.vessels);
	fetch.pieces = arena_alloc(making->arena, count * sizeof *fetch.pieces);
	for (size_t i = 0; i < count; i++) {
		const struct shore_list *list = peers[i];
		if (!takes_part(making, list, &fetch)) {
			continue;
		}
		if (list < making->list) {
			return false;
		}
		add_part(making, list, &fetch);
	}
	*out = fetch;
	return true;
}

static void
add_title(struct making *making, const struct fetch *fetch)
{
	const char *station = fetch->one->station;
	struct text *summary = &making->summary;
	text_add(summary, "Collect ");
	wording_things(&making->wording, &fetch->all, summary);
	text_add_format(summary, ", %s", station[0] != '\0' ? station : "ashore");
	if (fetch->count > 1) {
		text_add_format(summary, " (%zu boats, %s)", fetch->count,
		    making_base(making, making->list));
	} else {
		wording_boat(&making->wording, making_vessel(making), summary);
	}
}

static void
add_text(struct making *making, const struct fetch *fetch)
{
	const struct vessel *vessels = making->wording.inventory->vessels;
	struct text *description = &making->description;
	char since[DAY_WORDS_SIZE];
	if (fetch->one->since != DAY_NONE) {
		text_add_format(description, "Ashore since %s.\n",
		    day_words(fetch->one->since, since));
	}
	if (fetch->to_ask) {
		text_add(description,
		    "When it can be fetched is not certain: ask the station.\n");
	}
	text_add(description,
	    "Check each certificate and the next date on it, and record them.\n");
	for (size_t i = 0; i < fetch->count; i++) {
		if (fetch->count > 1) {
			text_add_format(
			    description, "%s:\n", vessels[fetch->vessels[i]].name);
		}
		wording_pieces(&making->wording, &fetch->pieces[i], description);
	}
	wording_carry(&making->wording, &fetch->all, description);
}

/* One reminder to fetch all that went ashore together with the line at `first`. */
static void
add_fetch(struct making *making, size_t first)
{
	struct fetch fetch;
	if (!gather(making, first, &fetch)) {
		return;
	}
	start_key(making, fetch.of_base ? "base-fetch" : "fetch",
	    fetch.of_base ? making_base(making, making->list) : making_vessel(making),
	    fetch.one);
	making_fetch_day(making, fetch.collect);
	add_title(making, &fetch);
	add_text(making, &fetch);
	making_finish(making, &(struct made_as){.station = fetch.one->station,
				  .stays = true,
				  .about = "",
				  .vessels = fetch.vessels,
				  .vessel_count = fetch.count});
}

void
collects_add(struct making *making)
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
