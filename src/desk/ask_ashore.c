#include "base/words.h"
#include "desk/inside.h"
#include "desk/ranges.h"

#include <string.h>

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

/* The gear whose tags the words are, ranges among them. Words that are no tags are no fault, unless
 * one can only be a range. */
static bool
find_tags(struct desk *desk, const struct word_list *words, struct where_answer *out,
    struct fault *fault)
{
	struct fault no_tags = {0};
	size_t *items = NULL;
	size_t count = 0;
	bool range = false;
	for (size_t i = 0; i < words->count; i++) {
		range = range || strstr(words->items[i], "..") != NULL;
	}
	if (!range_items(desk, words, &items, &count, range ? fault : &no_tags)) {
		return !range;
	}
	struct whereabouts *found =
	    arena_alloc(&desk->arena, (count + 1) * sizeof *found);
	for (size_t i = 0; i < count; i++) {
		found[i] = whereabouts_of(&out->known, items[i]);
	}
	out->list = (struct whereabouts_list){found, count};
	return true;
}

bool
desk_where(struct desk *desk, const struct word_list *words, struct where_answer *out,
    struct fault *fault)
{
	SCOPED_TEXT together = {0};
	*out = (struct where_answer){0};
	/* several words, and a range, may mean anything */
	bool one = words->count == 1 && strpbrk(words->items[0], ". ,") == NULL;
	if (!look(desk, one ? bearers_part(desk, words->items[0], false) : NULL,
		&out->known, fault)) {
		return false;
	}
	for (size_t i = 0; i < words->count; i++) {
		text_add_format(&together, "%s%s", i == 0 ? "" : " ", words->items[i]);
	}
	out->words = arena_string(&desk->arena, text_string(&together));
	whereabouts_find(&out->known, out->words, &desk->arena, &out->list);
	if (out->list.count == 0 && !find_tags(desk, words, out, fault)) {
		return false;
	}
	const struct inventory *inventory = out->known.inventory;
	for (size_t i = 0; out->list.count == 0 && i < inventory->item_count; i++) {
		const char *tag = inventory->items[i].tag;
		out->near =
		    out->near != NULL ? out->near : nearest_word(out->words, &tag, 1);
	}
	return true;
}

bool
desk_gear_ashore(
    struct desk *desk, const char *station, struct where_answer *out, struct fault *fault)
{
	struct word_list landed = {0};
	*out = (struct where_answer){0};
	if (!desk_book(desk, fault) ||
	    !book_names(desk->book, BOOK_LANDED, &desk->arena, &landed, fault) ||
	    !look(desk, lots_part(desk, &landed), &out->known, fault) ||
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
