#include "base/words.h"
#include "desk/inside.h"
#include "desk/ranges.h"

static bool
look(struct desk *desk, const struct book_part *about, struct known_gear *out,
    struct fault *fault)
{
	*out = (struct known_gear){0};
	if (!desk_kinds(desk, &out->kinds, fault) ||
	    !ask_about(desk, about, LEFT_ALL, fault)) {
		return false;
	}
	out->inventory = &desk->contents.inventory;
	out->stations = desk->contents.stations;
	out->station_count = desk->contents.station_count;
	return true;
}

/* A station that is not in the book may have gear; a name that is nearly one of the
 * book's is taken for a typing mistake. */
static bool
check_station(const struct desk *desk, const char *name, struct fault *fault)
{
	const struct book_contents *contents = &desk->contents;
	const char *nearest = NULL;
	if (name == NULL ||
	    station_named(contents->stations, contents->station_count, name) != NULL) {
		return true;
	}
	for (size_t i = 0; i < contents->station_count && nearest == NULL; i++) {
		nearest = nearest_word(name, &contents->stations[i].name, 1);
	}
	return nearest == NULL ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "station: there is no station \"%s\"; did you mean %s?", name,
		   nearest);
}

bool
desk_gear_ashore(
    struct desk *desk, const char *station, struct where_answer *out, struct fault *fault)
{
	struct word_list landed = {0};
	*out = (struct where_answer){0};
	if (!desk_book(desk, fault) ||
	    !book_names(desk->book, BOOK_LANDED, &desk->arena, &landed, fault) ||
	    !look(desk, landed.count == 0 ? &STATIONS_PART : lots_part(desk, &landed),
		&out->known, fault) ||
	    !check_station(desk, station, fault)) {
		return false;
	}
	whereabouts_ashore(&out->known, station, &desk->arena, &out->list);
	return station == NULL || out->list.count > 0 ||
	       station_named(out->known.stations, out->known.station_count, station) !=
		   NULL ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD "station: there is no station \"%s\", and no gear is with one "
			 "of that name; \"becket station\" lists them",
		   station);
}

bool
desk_came_back(struct desk *desk, const struct back_asked *asked, struct back_answer *out,
    struct fault *fault)
{
	*out = (struct back_answer){0};
	if (!look(desk, NULL, &out->known, fault) ||
	    !check_station(desk, asked->station, fault)) {
		return false;
	}
	came_back_since(&desk->contents.inventory, asked->station, asked->since,
	    &desk->arena, &out->list);
	return true;
}

bool
desk_spent(struct desk *desk, int year, const char *vessel, struct spending *out,
    struct fault *fault)
{
	*out = (struct spending){0};
	if (!ask_load(desk, vessel, LEFT_ALL, true, fault)) {
		return false;
	}
	spending_sum(&desk->contents.inventory, year, &desk->arena, out);
	return true;
}
