/* The reminders of trips to stations. */
#include "calendar/reminders_inside.h"

#include <string.h>

/* A trip, with every vessel whose gear goes on it. In the arena. */
struct outing {
	struct trip trip;                /* its lines are those of all vessels */
	const struct shore_list **lists; /* whose, one a vessel */
	const struct trip **parts;       /* and what each has on it */
	size_t *vessels;
	size_t count;
	bool of_base;
};

/* True when both are parts of one trip of a base. */
static bool
same_trip(const struct trip *a, const struct trip *b)
{
	return a->of_base && b->of_base && a->hand_in == b->hand_in &&
	       a->year == b->year && a->number == b->number &&
	       strcmp(a->name, b->name) == 0;
}

/* What a list of those who go together has of a trip of the list at hand; NULL for
 * nothing, and for a vessel that will have left by then. */
static const struct trip *
part_of(
    const struct making *making, const struct shore_list *list, const struct trip *trip)
{
	if (!making_is_here(making, list, trip->hand_in)) {
		return NULL;
	}
	if (list == making->list) {
		return trip;
	}
	for (size_t i = 0; i < list->hand_in.count; i++) {
		if (same_trip(&list->hand_in.items[i], trip)) {
			return &list->hand_in.items[i];
		}
	}
	return NULL;
}

/* True when an earlier list has the trip too, so that it is told there. */
static bool
is_told(const struct making *making, const struct trip *trip)
{
	size_t count = 0;
	const struct shore_list *const *peers =
	    making_peers(making, trip->of_base, &count);
	for (size_t i = 0; i < count && peers[i] < making->list; i++) {
		if (part_of(making, peers[i], trip) != NULL) {
			return true;
		}
	}
	return false;
}

static void
outing_room(struct making *making, size_t room, struct outing *outing)
{
	outing->lists =
	    arena_alloc(making->arena, room * sizeof(const struct shore_list *));
	outing->parts = arena_alloc(making->arena, room * sizeof(const struct trip *));
	outing->vessels = arena_alloc(making->arena, room * sizeof *outing->vessels);
}

/* Puts the lines of all vessels into one list. */
static void
join_lines(struct making *making, struct outing *outing)
{
	struct shore_lines *all = &outing->trip.lines;
	size_t total = 0;
	for (size_t i = 0; i < outing->count; i++) {
		total += outing->parts[i]->lines.count;
	}
	*all = (struct shore_lines){
	    .items = arena_alloc(making->arena, (total + 1) * sizeof *all->items)};
	for (size_t i = 0; i < outing->count; i++) {
		const struct shore_lines *lines = &outing->parts[i]->lines;
		for (size_t k = 0; k < lines->count; k++) {
			all->items[all->count++] = lines->items[k];
		}
	}
}

static void
outing_make(struct making *making, const struct trip *trip, struct outing *out)
{
	struct outing outing = {.trip = *trip, .of_base = trip->of_base};
	size_t count = 0;
	const struct shore_list *const *peers =
	    making_peers(making, trip->of_base, &count);
	outing_room(making, count, &outing);
	for (size_t i = 0; i < count; i++) {
		const struct trip *part = part_of(making, peers[i], trip);
		if (part != NULL) {
			outing.lists[outing.count] = peers[i];
			outing.parts[outing.count] = part;
			outing.vessels[outing.count++] = peers[i]->vessel;
		}
	}
	join_lines(making, &outing);
	*out = outing;
}

/* Adds the key: a trip that a base shares is named after the base, whichever vessels have
 * gear on it. */
static void
add_key(struct making *making, const struct outing *outing, const char *word)
{
	making_start(making);
	text_add_format(&making->key, "%s%s", outing->of_base ? "base-" : "", word);
	making_key_name(making,
	    outing->of_base ? making_base(making, making->list) : making_vessel(making));
	text_add_format(&making->key, "|%d", outing->trip.year);
	making_key_name(making, outing->trip.name);
	text_add_format(&making->key, "|%zu", outing->trip.number);
}

/* Adds the things, where to, and whose they are: "2 x EPIRB, Holm Quay (Tern)". */
static void
add_title(struct making *making, const struct outing *outing)
{
	const struct trip *trip = &outing->trip;
	struct text *summary = &making->summary;
	wording_things(&making->wording, &trip->lines, summary);
	text_add_format(
	    summary, ", %s", trip->name[0] != '\0' ? trip->name : "an approved station");
	if (outing->count > 1) {
		text_add_format(summary, " (%zu boats, %s)", outing->count,
		    making_base(making, making->list));
	} else {
		wording_boat(&making->wording, making_vessel(making), summary);
	}
}

/* Adds what goes on the trip, vessel by vessel where there are several. */
static void
add_lists(struct making *making, const struct outing *outing)
{
	const struct inventory *inventory = making->wording.inventory;
	for (size_t i = 0; i < outing->count; i++) {
		if (outing->count > 1) {
			text_add_format(&making->description, "%s:\n",
			    inventory->vessels[outing->vessels[i]].name);
		}
		wording_list(
		    &making->wording, &outing->parts[i]->lines, &making->description);
	}
	wording_carry(&making->wording, &outing->trip.lines, &making->description);
}

static void
finish_trip(struct making *making, const struct outing *outing, bool last_chance)
{
	making_finish(making, &(struct made_as){.station = outing->trip.name,
				  .last_chance = last_chance,
				  .hand_in = !last_chance,
				  .as_given = outing->trip.as_given,
				  .about = "",
				  .vessels = outing->vessels,
				  .vessel_count = outing->count});
}

/* Says that a chosen day is too late; after its winter the lines' last days are of the
 * next. */
static void
add_too_late(struct making *making, const struct trip *trip)
{
	day_t last = making_last_day(&trip->lines);
	if (last < trip->hand_in) {
		making_note_too_late(making, last);
	} else {
		text_add(&making->description, WINTER_OVER);
	}
}

static void
add_hand_in(struct making *making, const struct outing *outing)
{
	const struct trip *trip = &outing->trip;
	struct text *description = &making->description;
	char collect[DAY_WORDS_SIZE];
	add_key(making, outing, "hand-in");
	making_on(making, trip->hand_in);
	text_add(&making->summary, trip->missed ? "Still to hand in " : "Hand in ");
	add_title(making, outing);
	if (day_words(trip->collect, collect)[0] != '\0') {
		text_add_format(description, "To be collected on %s.\n", collect);
	}
	if (trip->assumed) {
		wording_assumed(description);
	}
	if (trip->moved_why != DAY_SERVES) {
		text_add_format(description, "Moved from %s, which serves no more: %s.\n",
		    day_words(trip->moved_from, collect),
		    day_misfit_word(trip->moved_why));
	}
	if (trip->misfit == DAY_TOO_LATE) {
		add_too_late(making, trip);
	} else if (trip->misfit == DAY_CLOSED) {
		text_add(description,
		    "This day was chosen, but nothing is taken in there on it.\n");
	} else if (trip->misfit == DAY_NOT_THEIRS) {
		text_add(description,
		    "This day was chosen, but it is not one of those on which you go.\n");
	} else if (trip->misfit == DAY_BOOKED) {
		text_add(description,
		    "This day was chosen, but a boat is booked before this can be "
		    "collected.\n");
	} else if (trip->misfit == DAY_TOO_EARLY) {
		text_add(description,
		    "This day was chosen, but it is too early for some of these.\n");
	}
	if (trip->days == DAYS_TO_ASK) {
		text_add_format(description,
		    "Ask whether the station takes gear in on a %s: its days are not known.\n",
		    weekday_name(day_of_week(trip->hand_in)));
	}
	add_lists(making, outing);
	finish_trip(making, outing, false);
}

/* True when another trip goes to the same station in the same winter for the same owner:
 * the base of both, or the vessel whose lists they are in. */
static bool
goes_likewise(const struct trip *trip, const struct trip *other)
{
	return other->year == trip->year && other->of_base == trip->of_base &&
	       !other->held_back && strcmp(other->name, trip->name) == 0;
}

/* The last days of what still waits to go to one station are one reminder, under the first of the
 * trips there in that winter. */
static bool
is_first_there(const struct making *making, const struct trip *trip)
{
	size_t count = 0;
	const struct shore_list *const *peers =
	    making_peers(making, trip->of_base, &count);
	for (size_t k = 0; k < count && peers[k] <= making->list; k++) {
		const struct shore_list *list = peers[k];
		for (size_t i = 0; i < list->hand_in.count; i++) {
			const struct trip *other = &list->hand_in.items[i];
			if (other == trip) {
				return true;
			}
			if (goes_likewise(trip, other) &&
			    making_is_here(making, list, other->hand_in)) {
				return false;
			}
		}
	}
	return true;
}

/* Puts the lines of all trips of the owner's to a station in one winter into one list. */
static void
gather_waiting(struct making *making, const struct trip *trip, struct outing *out)
{
	struct outing all = {.trip = *trip, .of_base = trip->of_base};
	struct shore_lines *lines = &all.trip.lines;
	size_t count = 0;
	const struct shore_list *const *peers =
	    making_peers(making, trip->of_base, &count);
	*lines = (struct shore_lines){0};
	outing_room(making, count, &all);
	for (size_t at = 0; at < count; at++) {
		const struct shore_list *list = peers[at];
		size_t before = lines->count;
		for (size_t i = 0; i < list->hand_in.count; i++) {
			const struct trip *other = &list->hand_in.items[i];
			bool same = goes_likewise(trip, other) &&
				    making_is_here(making, list, other->hand_in);
			for (size_t k = 0; k < other->lines.count && same; k++) {
				ARENA_ADD(making->arena, lines, other->lines.items[k]);
			}
		}
		if (lines->count > before) {
			all.vessels[all.count++] = list->vessel;
		}
	}
	*out = all;
}

/* One event on the last day that serves all that still waits to go there. */
static void
add_last_chance(struct making *making, const struct trip *trip)
{
	struct outing waiting;
	if (!is_first_there(making, trip)) {
		return;
	}
	gather_waiting(making, trip, &waiting);
	day_t last = making_last_day(&waiting.trip.lines);
	if (last == DAY_NEVER || last < making->today) {
		return;
	}
	making_start(making);
	text_add(&making->key, trip->of_base ? "base-last" : "last");
	making_key_name(making,
	    trip->of_base ? making_base(making, making->list) : making_vessel(making));
	text_add_format(&making->key, "|%d", trip->year);
	making_key_name(making, trip->name);
	making_on(making, last);
	text_add(&making->summary, "Last day to hand in ");
	add_title(making, &waiting);
	text_add(&making->description,
	    "What is still to be handed in there, with the last day that serves each:\n");
	wording_list(&making->wording, &waiting.trip.lines, &making->description);
	wording_carry(&making->wording, &waiting.trip.lines, &making->description);
	finish_trip(making, &waiting, true);
}

/* The to-dos of all vessels on the trip. */
static void
add_todos(struct making *making, const struct outing *outing)
{
	const struct shore_list *at_hand = making->list;
	const char *about = making_last_key(making);
	day_t collect =
	    outing->trip.collect == DAY_NEVER ? DAY_NONE : outing->trip.collect;
	for (size_t i = 0; i < outing->count; i++) {
		making->list = outing->lists[i];
		todos_add(making, &outing->parts[i]->lines, about, collect);
	}
	making->list = at_hand;
}

void
trips_add(struct making *making)
{
	const struct trips *trips = &making->list->hand_in;
	for (size_t i = 0; i < trips->count; i++) {
		struct outing outing;
		bool given =
		    !trips->items[i].held_back &&
		    making_is_here(making, making->list, trips->items[i].hand_in);
		if (!given ||
		    (trips->items[i].of_base && is_told(making, &trips->items[i]))) {
			continue;
		}
		outing_make(making, &trips->items[i], &outing);
		add_hand_in(making, &outing);
		add_todos(making, &outing);
		add_last_chance(making, &trips->items[i]);
	}
}
