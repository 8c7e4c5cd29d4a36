#include "base/numbers.h"
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

/* A reminder that is kept when the boats that it is about are no longer loaded. */
struct kept_coming {
	struct coming coming;
	const char *key;
};

/* A question being answered. */
struct asking_now {
	const char *vessel; /* NULL for all */
	struct now_answer *out;
	struct arena kept_in;
	struct kept_coming *items; /* in that arena */
	size_t count;
	size_t capacity;
};

static int
compare_kept(const void *left, const void *right)
{
	const struct kept_coming *a = left;
	const struct kept_coming *b = right;
	int order = ORDER(a->coming.day, b->coming.day);
	return order != 0 ? order : strcmp(a->key, b->key);
}

/* A copy; with `places` its boats are as the whole book has them. */
static struct coming
copy_coming(const struct coming *coming, const size_t *places, struct arena *arena)
{
	size_t *vessels = ARENA_MANY(arena, size_t, coming->vessel_count);
	for (size_t i = 0; i < coming->vessel_count; i++) {
		vessels[i] =
		    places == NULL ? coming->vessels[i] : places[coming->vessels[i]];
	}
	return (struct coming){coming->day, arena_string(arena, coming->summary),
	    arena_string(arena, coming->station), vessels, coming->vessel_count};
}

/* Keeps what the calendar would say of some boats. */
static bool
keep_coming(struct desk *desk, struct reminders_made *made, const size_t *places,
    void *of, struct fault *fault)
{
	struct asking_now *asking = of;
	struct arena *arena = &asking->kept_in;
	(void)desk;
	(void)fault;
	for (size_t i = 0; i < made->reminders.count; i++) {
		const struct reminder *reminder = &made->reminders.items[i];
		const struct coming coming = {reminder->day, reminder->summary,
		    reminder->station, reminder->vessels, reminder->vessel_count};
		ARENA_ADD(arena, asking,
		    (struct kept_coming){copy_coming(&coming, places, arena),
			arena_string(arena, reminder->key)});
	}
	return true;
}

static bool
is_of(const struct inventory *inventory, const struct coming *coming, const char *vessel)
{
	for (size_t i = 0; i < coming->vessel_count; i++) {
		if (strcmp(inventory->vessels[coming->vessels[i]].name, vessel) == 0) {
			return true;
		}
	}
	return false;
}

/* What the calendar would say, of that boat or of all. */
static void
find_coming(struct desk *desk, struct asking_now *asking)
{
	struct first_word *word = &asking->out->word;
	struct coming *coming = ARENA_MANY(&desk->arena, struct coming, asking->count);
	size_t count = 0;
	ARRAY_SORT(asking->items, asking->count, compare_kept);
	for (size_t i = 0; i < asking->count; i++) {
		if (word->vessel == NULL || is_of(&desk->contents.inventory,
						&asking->items[i].coming, word->vessel)) {
			coming[count++] = asking->items[i].coming;
		}
	}
	first_word_divide(coming, count, word);
	/* what is told outlives what was kept */
	for (size_t i = 0; i < word->week_count + word->next_count; i++) {
		coming[i] = copy_coming(&coming[i], NULL, &desk->arena);
	}
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

/* The rest, with all of the book. */
static bool
answer_now(struct desk *desk, void *of, struct fault *fault)
{
	struct asking_now *asking = of;
	struct now_answer *out = asking->out;
	struct agenda agenda = {0};
	const struct inventory *inventory = &desk->contents.inventory;
	if (!desk->loaded) { /* it was, where all boats hang together */
		if (!ask_engine(desk, NULL, LEFT_ALL, fault)) {
			return false;
		}
		desk_see_winter(desk, 0);
	}
	out->known = (struct known_gear){.inventory = inventory,
	    .kinds = desk->engine.kinds,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count};
	if (inventory->vessel_count == 0) {
		return true;
	}
	if (!settle_vessel(desk, asking->vessel, &out->word, fault)) {
		return false;
	}
	find_coming(desk, asking);
	agenda_make(&desk->engine, desk->today, &desk->arena, &agenda);
	first_word_not_in_date(inventory, &agenda, &desk->arena, &out->word);
	find_ashore(desk, out);
	return true;
}

bool
desk_now(
    struct desk *desk, const char *vessel, struct now_answer *out, struct fault *fault)
{
	struct asking_now asking = {.vessel = vessel, .out = out};
	*out = (struct now_answer){.word.today = desk->today};
	struct reminding_basis basis = {0};
	bool done = reminding_by_bases(desk, LEFT_ALL,
	    &(struct reminding_taker){keep_coming, answer_now, &asking, true},
	    &asking.kept_in, &basis, fault);
	arena_clear(&asking.kept_in);
	return done;
}
