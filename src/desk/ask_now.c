/* The first word, of those boats at a time that have to do with each other. */
#include "desk/inside.h"
#include "desk/naming.h"
#include "desk/ranges.h"
#include "desk/reminding.h"

#include <string.h>

/* A question being answered. */
struct asking_now {
	now_taker *take;
	void *context;
	struct first_word *word;
	struct word_list names;   /* of all vessels, sorted by their bytes */
	struct word_list split;   /* tags of what lots were split from */
	struct word_list of_lots; /* of what is ashore and of a lot; in `arena` */
	struct arena arena;
};

/* Finds the boat that the answer is about: the one named, or the only one there is. */
static bool
settle_vessel(
    struct desk *desk, const char *named, struct asking_now *asking, struct fault *fault)
{
	const struct word_list *names = &asking->names;
	size_t found = 0;
	if (!desk_book(desk, fault) ||
	    !book_names(desk->book, BOOK_VESSELS, &desk->arena, &asking->names, fault) ||
	    !book_names(desk->book, BOOK_SPLIT, &desk->arena, &asking->split, fault)) {
		return false;
	}
	if (names->count > 0 && named != NULL &&
	    !naming_vessel(desk, named, names, &found, fault)) {
		return false;
	}
	if (names->count == 1 || (names->count > 0 && named != NULL)) {
		asking->word->vessel = names->items[found];
	}
	return true;
}

static bool
is_of(const struct inventory *inventory, const struct reminder *reminder,
    const char *vessel)
{
	for (size_t i = 0; i < reminder->vessel_count; i++) {
		if (strcmp(inventory->vessels[reminder->vessels[i]].name, vessel) == 0) {
			return true;
		}
	}
	return false;
}

/* What the calendar would say, of that boat or of all. */
static void
find_coming(struct desk *desk, const struct reminders *reminders, const char *vessel,
    struct first_word_part *out)
{
	struct coming *coming = ARENA_MANY(&desk->arena, struct coming, reminders->count);
	for (size_t i = 0; i < reminders->count; i++) {
		const struct reminder *reminder = &reminders->items[i];
		if (vessel == NULL ||
		    is_of(&desk->contents.inventory, reminder, vessel)) {
			coming[out->coming_count++] = (struct coming){reminder->day,
			    reminder->key, reminder->summary, reminder->station,
			    reminder->vessels, reminder->vessel_count};
		}
	}
	out->coming = coming;
}

static struct known_gear
known_loaded(const struct desk *desk)
{
	return (struct known_gear){.inventory = &desk->contents.inventory,
	    .kinds = desk->engine.kinds,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count};
}

/* Finds what is ashore of the boat that is asked about, or of all. What is of a lot, of which
 * not all may be loaded, is told later. */
static void
find_ashore(struct desk *desk, struct asking_now *asking, const struct known_gear *known,
    struct whereabouts_list *out)
{
	const char *vessel = asking->word->vessel;
	size_t kept = 0;
	whereabouts_ashore(known, NULL, &desk->arena, out);
	for (size_t i = 0; i < out->count; i++) {
		const struct item *item = &known->inventory->items[out->items[i].item];
		if (vessel != NULL &&
		    strcmp(known->inventory->vessels[item->vessel].name, vessel) != 0) {
			continue;
		}
		if (item->split_from[0] != '\0' ||
		    words_among(&asking->split, item->tag)) {
			ARENA_ADD(&asking->arena, &asking->of_lots,
			    arena_string(&asking->arena, item->tag));
			continue;
		}
		out->items[kept++] = out->items[i];
	}
	out->count = kept;
}

/* Hands out what the boats that are loaded add. */
static bool
tell_some(struct desk *desk, struct reminders_made *made, const size_t *places, void *of,
    struct fault *fault)
{
	struct asking_now *asking = of;
	struct first_word *word = asking->word;
	const struct inventory *inventory = &desk->contents.inventory;
	const struct known_gear known = known_loaded(desk);
	struct first_word_part part = {.places = places};
	struct whereabouts_list ashore = {0};
	struct agenda agenda = {0};
	(void)fault;
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		word->boats +=
		    !vessel->store && vessel_is_here(vessel, desk->today) ? 1 : 0;
	}
	find_coming(desk, &made->reminders, word->vessel, &part);
	desk_see_winter(desk, 0);
	agenda_make(&desk->engine, desk->today, &desk->arena, &agenda);
	first_word_not_in_date(inventory, &agenda, word->vessel, &desk->arena, &part);
	find_ashore(desk, asking, &known, &ashore);
	asking->take(word, &known, &part, &ashore, asking->context);
	return true;
}

/* Hands out what is ashore and of a lot, with all of these lots: they may have a serial number
 * in common. */
static bool
tell_lots(struct desk *desk, void *of, struct fault *fault)
{
	struct asking_now *asking = of;
	struct word_list *tags = &asking->of_lots;
	struct whereabouts_list ashore = {0};
	size_t kept = 0;
	if (tags->count == 0) {
		return true;
	}
	if (!ask_about(desk, lots_part(desk, tags), LEFT_ALL, fault) ||
	    !desk_engine(desk, NULL, fault)) {
		return false;
	}
	const struct known_gear known = known_loaded(desk);
	const struct inventory *inventory = known.inventory;
	size_t *places = ARENA_MANY(&desk->arena, size_t, inventory->vessel_count);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		places[i] = words_place(&asking->names, inventory->vessels[i].name);
	}
	ARRAY_SORT(tags->items, tags->count, text_order);
	whereabouts_ashore(&known, NULL, &desk->arena, &ashore);
	for (size_t i = 0; i < ashore.count; i++) {
		if (words_among(tags, inventory->items[ashore.items[i].item].tag)) {
			ashore.items[kept++] = ashore.items[i];
		}
	}
	ashore.count = kept;
	asking->take(asking->word, &known, &(struct first_word_part){.places = places},
	    &ashore, asking->context);
	return true;
}

bool
desk_now(struct desk *desk, const char *vessel, now_taker *take, void *context,
    struct first_word *out, struct fault *fault)
{
	struct asking_now asking = {.take = take, .context = context, .word = out};
	struct reminding_basis basis = {0};
	*out = (struct first_word){.today = desk->today};
	bool done = settle_vessel(desk, vessel, &asking, fault) &&
		    reminding_by_bases(desk, LEFT_ALL,
			&(struct reminding_taker){.take = tell_some,
			    .then = tell_lots,
			    .context = &asking,
			    .events = true,
			    .vessel = out->vessel},
			&asking.arena, &basis, fault);
	arena_clear(&asking.arena);
	return done;
}
