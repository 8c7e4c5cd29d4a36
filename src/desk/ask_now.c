#include "desk/inside.h"
#include "desk/reminding.h"

#include <string.h>

/* Finds the boat that the answer is about: the one named, or the only one there is. */
static bool
settle_vessel(
    struct desk *desk, const char *named, struct first_word *word, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t vessel = 0;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *one = &inventory->vessels[i];
		if (!one->store && vessel_is_here(one, desk->today)) {
			word->boats++;
		}
	}
	if (named != NULL && !desk_find_vessel(desk, named, &vessel, fault)) {
		return false;
	}
	if (named != NULL || inventory->vessel_count == 1) {
		word->vessel = inventory->vessels[vessel].name;
	}
	return true;
}

/* What the calendar would say, of that boat or of all. */
static bool
find_coming(struct desk *desk, struct first_word *word, struct fault *fault)
{
	struct reminders reminders = {0};
	if (!reminding_seen(desk, &reminders, fault)) {
		return false;
	}
	if (word->vessel != NULL) {
		const struct scope scope = {SCOPE_VESSEL, word->vessel};
		reminders_narrow(&reminders, &desk->contents.inventory, &scope);
	}
	struct coming *coming =
	    arena_alloc(&desk->arena, (reminders.count + 1) * sizeof *coming);
	for (size_t i = 0; i < reminders.count; i++) {
		const struct reminder *reminder = &reminders.items[i];
		coming[i] = (struct coming){reminder->day, reminder->summary,
		    reminder->station, reminder->vessels, reminder->vessel_count};
	}
	first_word_divide(coming, reminders.count, word);
	return true;
}

static void
find_ashore(struct desk *desk, struct now_answer *out)
{
	const struct inventory *inventory = &desk->contents.inventory;
	const char *of = out->word.vessel;
	size_t kept = 0;
	whereabouts_ashore(&out->known, NULL, &desk->arena, &out->ashore);
	for (size_t i = 0; i < out->ashore.count; i++) {
		size_t vessel = inventory->items[out->ashore.items[i].item].vessel;
		if (of == NULL || strcmp(inventory->vessels[vessel].name, of) == 0) {
			out->ashore.items[kept++] = out->ashore.items[i];
		}
	}
	out->ashore.count = kept;
}

bool
desk_now(
    struct desk *desk, const char *vessel, struct now_answer *out, struct fault *fault)
{
	struct agenda agenda = {0};
	const struct inventory *inventory = &desk->contents.inventory;
	*out = (struct now_answer){.word.today = desk->today};
	if (!ask_engine(desk, NULL, LEFT_ALL, fault)) {
		return false;
	}
	out->known = (struct known_gear){.inventory = inventory,
	    .kinds = desk->engine.kinds,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count};
	if (inventory->vessel_count == 0) {
		return true;
	}
	if (!settle_vessel(desk, vessel, &out->word, fault) ||
	    !find_coming(desk, &out->word, fault)) {
		return false;
	}
	agenda_make(&desk->engine, desk->today, &desk->arena, &agenda);
	first_word_not_in_date(inventory, &agenda, &desk->arena, &out->word);
	find_ashore(desk, out);
	return true;
}
