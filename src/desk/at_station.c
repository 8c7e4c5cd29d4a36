#include "desk/at_station.h"

#include "base/words.h"
#include "desk/naming.h"

bool
station_by_name(
    struct desk *desk, const char *name, const struct station **out, struct fault *fault)
{
	const struct book_contents *contents = &desk->contents;
	const char **names =
	    arena_alloc(&desk->arena, (contents->station_count + 1) * sizeof *names);
	for (size_t i = 0; i < contents->station_count; i++) {
		names[i] = contents->stations[i].name;
	}
	size_t found = 0;
	if (!naming_among(desk, NAMED_STATION, name, names, contents->station_count,
		&found, fault)) {
		return fault_prefix(fault, FIELD "station");
	}
	if (found < contents->station_count) {
		*out = &contents->stations[found];
		return true;
	}
	const char *nearest = nearest_word(name, names, contents->station_count);
	if (nearest != NULL) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "station: there is no station \"%s\"; did you mean %s?", name,
		    nearest);
	}
	desk_note(desk,
	    "there is no station \"%s\" in the book, so its turn-round is taken to be %d "
	    "days; \"becket station\" enters it",
	    name, (int)ASSUMED_TURN_ROUND_DAYS);
	return true;
}

void
note_station(struct desk *desk, const struct station *station, size_t index)
{
	const struct item *item = &desk->contents.inventory.items[index];
	if (station == NULL) {
		return;
	}
	switch (station_fit(station, item->kind, item->make)) {
	case FIT_NO:
		desk_note(desk,
		    "%s is not known to service %s, which %s is; \"becket station\" says "
		    "what it takes",
		    station->name, item->kind, item->tag);
		break;
	case FIT_OTHER_MAKE:
		desk_note(desk,
		    "%s is not known to service %s of the make %s, which %s is",
		    station->name, item->kind, item->make, item->tag);
		break;
	case FIT_ASK:
		desk_note(desk,
		    "%s services %s of some makes alone; ask whether it may service %s",
		    station->name, item->kind, item->tag);
		break;
	case FIT_YES:
		break;
	}
}
