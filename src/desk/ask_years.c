#include "desk/inside.h"
#include "desk/ranges.h"
#include "desk/stores.h"
#include "years/tips.h"

#include <string.h>

struct item *
items_copy(struct desk *desk)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t size = inventory->item_count * sizeof *inventory->items;
	struct item *copy = arena_alloc(&desk->arena, size + 1);
	if (size > 0) {
		memcpy(copy, inventory->items, size);
	}
	return copy;
}

struct outlook_ask
ask_outlook(
    const struct desk *desk, struct item *copy, const size_t *vessels, size_t count)
{
	return (struct outlook_ask){
	    .engine = &desk->engine,
	    .copy = copy,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count,
	    .today = desk->today,
	    .winters = YEARS_WINTERS,
	    .vessels = vessels,
	    .vessel_count = count,
	    .least = GRADE_PRACTICE,
	    .renew_now = NO_ITEM,
	    .most_looks = YEARS_LOOKS,
	    .most_states = YEARS_STATES,
	};
}

/* ---- whose ---- */

/* The group of a vessel: her base's, where there is one already, or a new one. A base that is not
 * known is shared with nobody. */
static size_t
group_of(struct planning_years *years, size_t vessel)
{
	const struct years_asked *asked = years->asked;
	const struct vessel *boat = &years->desk->contents.inventory.vessels[vessel];
	bool shared = (asked->fleet || asked->base != NULL) && boat->base[0] != '\0';
	for (size_t i = 0; i < years->group_count && shared; i++) {
		if (years->groups[i].shared &&
		    strcmp(years->groups[i].name, boat->base) == 0) {
			return i;
		}
	}
	years->groups[years->group_count] =
	    (struct group){.name = shared ? boat->base : boat->name, .shared = shared};
	return years->group_count++;
}

/* Puts the vessels in their groups, which are counted: those of one base need not stand side by
 * side. */
static void
fill_groups(struct planning_years *years, const size_t *of_vessel)
{
	size_t most = years->desk->contents.inventory.vessel_count;
	size_t *room = arena_alloc(&years->desk->arena, (most + 1) * sizeof *room);
	for (size_t i = 0; i < years->group_count; i++) {
		years->groups[i].vessels = room;
		room += years->groups[i].count;
		years->groups[i].count = 0;
	}
	for (size_t i = 0; i < most; i++) {
		if (of_vessel[i] != SIZE_MAX) {
			struct group *group = &years->groups[of_vessel[i]];
			group->vessels[group->count++] = i;
		}
	}
}

static bool
find_groups(struct planning_years *years, struct fault *fault)
{
	struct desk *desk = years->desk;
	const struct inventory *inventory = &desk->contents.inventory;
	const char *base = years->asked->base;
	const char *name = years->asked->vessel;
	size_t most = inventory->vessel_count;
	size_t *of_vessel = arena_alloc(&desk->arena, (most + 1) * sizeof *of_vessel);
	years->groups = arena_alloc(&desk->arena, (most + 1) * sizeof *years->groups);
	for (size_t i = 0; i < most; i++) {
		const struct vessel *vessel = &inventory->vessels[i];
		bool there = (base == NULL || strcmp(vessel->base, base) == 0) &&
			     (name == NULL || strcmp(vessel->name, name) == 0) &&
			     vessel_is_here(vessel, desk->today);
		of_vessel[i] = there ? group_of(years, i) : SIZE_MAX;
		if (there) {
			years->groups[of_vessel[i]].count++;
		}
	}
	if (base != NULL && years->group_count == 0) {
		return fault_set(fault, FAULT_INPUT,
		    FIELD "base: there is no vessel with the base \"%.80s\"", base);
	}
	fill_groups(years, of_vessel);
	return true;
}

/* ---- the plans ---- */

static struct outlook_ask
ask_for(const struct planning_years *years, const struct group *group)
{
	struct outlook_ask ask =
	    ask_outlook(years->desk, years->copy, group->vessels, group->count);
	ask.winters = years->asked->winters;
	ask.least = years->asked->least;
	return ask;
}

static bool
plan(const struct planning_years *years, bool changed, struct outlook_view *out,
    struct fault *fault)
{
	struct desk *desk = years->desk;
	struct named_outlook *plans =
	    arena_alloc(&desk->arena, (years->group_count + 1) * sizeof *plans);
	for (size_t i = 0; i < years->group_count; i++) {
		struct outlook_ask ask = ask_for(years, &years->groups[i]);
		if (changed) {
			ask.engine = &years->engine;
			ask.shunned = years->shunned;
			ask.prices = years->prices;
			ask.price_count = years->asked->price_count;
			ask.skip_year = years->asked->skip_year;
			ask.renew_now = years->renew_now;
		}
		plans[i] = (struct named_outlook){.name = years->groups[i].name};
		if (!outlook_make(&ask, &desk->arena, &plans[i].plan, fault)) {
			return fault_prefix(fault, "the years of %s", plans[i].name);
		}
	}
	*out = (struct outlook_view){.inventory = &desk->contents.inventory,
	    .stations = desk->contents.stations,
	    .station_count = desk->contents.station_count,
	    .currency = desk->contents.inventory.currency,
	    .plans = plans,
	    .count = years->group_count};
	return true;
}

/* Adds to a group's clashes those of one boat's list. */
static void
add_clashes(struct desk *desk, const struct shore_list *list, struct named_outlook *named)
{
	struct winter_clashes own = {0};
	const struct winter_clashes before = named->clashes;
	size_t count = 0;
	outlook_clashes_find(
	    &desk->contents.inventory, &named->plan, list, &desk->arena, &own);
	struct winter_clash *items =
	    arena_alloc(&desk->arena, (before.count + own.count + 1) * sizeof *items);
	for (size_t i = 0; i < before.count; i++) {
		items[count++] = before.items[i];
	}
	for (size_t i = 0; i < own.count; i++) {
		items[count++] = own.items[i];
	}
	named->clashes = (struct winter_clashes){items, count, named->plan.winters};
}

/* Sets beside each group's plan the shore lists of its boats. */
static bool
find_clashes(
    const struct planning_years *years, struct named_outlook *named, struct fault *fault)
{
	const struct plans_wish wish = {.vessel = years->asked->vessel};
	struct shore_list *lists = NULL;
	size_t count = 0;
	if (!plans_make(years->desk, &wish, &lists, &count, fault)) {
		return false;
	}
	for (size_t g = 0; g < years->group_count; g++) {
		const struct group *group = &years->groups[g];
		for (size_t i = 0; i < group->count; i++) {
			size_t at = 0;
			while (at < count && lists[at].vessel != group->vessels[i]) {
				at++;
			}
			if (at < count) {
				add_clashes(years->desk, &lists[at], &named[g]);
			}
		}
	}
	return true;
}

/* Adds to each plan where the shore lists of its vessels differ; to the plan of one
 * vessel, where no other is planned, also what depends on how many winters are looked at. */
static bool
add_asides(
    const struct planning_years *years, struct outlook_view *view, struct fault *fault)
{
	struct arena *arena = &years->desk->arena;
	struct named_outlook *named =
	    arena_alloc(arena, (view->count + 1) * sizeof *named);
	for (size_t i = 0; i < view->count; i++) {
		named[i] = view->plans[i];
	}
	if (!years->some && years->group_count == 1 && years->groups[0].count == 1) {
		const struct outlook_ask ask = ask_for(years, &years->groups[0]);
		if (!outlook_tips_find(&ask, arena, &named->tips, fault)) {
			return false;
		}
	}
	if (!find_clashes(years, named, fault)) {
		return false;
	}
	view->plans = named;
	return true;
}

/* True where the shore lists stand beside the plans: nothing is supposed. */
static bool
has_asides(const struct years_asked *asked)
{
	return asked->asides && asked->price_count == 0 &&
	       asked->without_stations.count == 0 && asked->renew_now == NULL &&
	       asked->skip_year == 0 && asked->use == NULL;
}

/* Plans the years of the boats that are loaded. */
static bool
plan_loaded(struct planning_years *years, struct years_answer *out, struct fault *fault)
{
	desk_see_winter(years->desk, 0);
	years->copy = items_copy(years->desk);
	if (!years_suppose(years, fault) || !find_groups(years, fault) ||
	    !plan(years, true, &out->view, fault)) {
		return false;
	}
	bool asides = has_asides(years->asked) && years->group_count > 0;
	return (!asides || add_asides(years, &out->view, fault)) &&
	       (!years->asked->compare || plan(years, false, &out->as_is, fault));
}

/* Loads what the years hang on: with shore lists beside them that is what these do, a boat's with
 * those she shares trips with. */
static bool
load_planned(struct desk *desk, const struct years_asked *asked, struct fault *fault)
{
	if (asked->base == NULL) {
		/* also tells of a vessel that is not there */
		bool loaded = ask_engine(desk, asked->vessel, LEFT_NONE, fault);
		if (!loaded || asked->vessel == NULL || !has_asides(asked)) {
			return loaded;
		}
	}
	const struct book_part *part =
	    boats_part(desk, asked->vessel, asked->base, NULL, REACH_BASES);
	return (has_asides(asked) ? ask_planned(desk, part, LEFT_NONE, fault)
				  : ask_about(desk, part, LEFT_NONE, fault)) &&
	       desk_engine(desk, NULL, fault);
}

bool
desk_years(struct desk *desk, const struct years_asked *asked, struct years_answer *out,
    struct fault *fault)
{
	struct planning_years years = {.desk = desk, .asked = asked};
	*out = (struct years_answer){0};
	return load_planned(desk, asked, fault) &&
	       left_check_named(desk, asked->vessel, fault) &&
	       plan_loaded(&years, out, fault);
}

/* ---- some boats at a time ---- */

struct years_by_bases {
	const struct years_asked *asked;
	years_taker *take;
	void *context;
	size_t plans;
	size_t boats; /* that are planned */
	bool renewed; /* what is renewed now is one of theirs */
};

static bool
years_of_bases(
    struct desk *desk, const size_t *places, void *question, struct fault *fault)
{
	struct years_by_bases *by = question;
	struct planning_years years = {.desk = desk, .asked = by->asked, .some = true};
	struct years_answer some = {0};
	if (!desk_engine(desk, NULL, fault) || !plan_loaded(&years, &some, fault)) {
		return false;
	}
	size_t *at = ARENA_MANY(&desk->arena, size_t, years.group_count);
	for (size_t i = 0; i < years.group_count; i++) {
		at[i] = places[years.groups[i].vessels[0]];
		by->boats += years.groups[i].count;
	}
	by->plans += years.group_count;
	by->renewed = by->renewed || years.renew_now != NO_ITEM;
	by->take(&some, at, by->context);
	return true;
}

/* True where the boats of the book are more than are loaded at a time, and are planned as they
 * come: a tag that is not there just so has to be looked for among all. */
static bool
is_many(
    struct desk *desk, const struct years_asked *asked, bool *out, struct fault *fault)
{
	struct word_list boats = {0};
	*out = asked->vessel == NULL && asked->base == NULL &&
	       (asked->renew_now == NULL || desk_has_tag(desk, asked->renew_now));
	if (*out && (!desk_book(desk, fault) || !book_names(desk->book, BOOK_BOATS,
						    &desk->arena, &boats, fault))) {
		return false;
	}
	*out = *out && boats.count > BOATS_AT_A_TIME;
	return true;
}

bool
desk_years_by_bases(struct desk *desk, const struct years_asked *asked, years_taker *take,
    void *context, struct fault *fault)
{
	struct years_by_bases by = {.asked = asked, .take = take, .context = context};
	struct years_answer whole;
	struct fault first = {0};
	bool many = false;
	if (!is_many(desk, asked, &many, fault)) {
		return false;
	}
	if (many) {
		bool done = ask_together(desk, LEFT_NONE,
		    &(struct together_asked){.answer = years_of_bases,
			.question = &by,
			.plans = has_asides(asked)},
		    &first);
		if (done && (by.plans != 1 || by.boats > 1) &&
		    (asked->renew_now == NULL || by.renewed)) {
			return true;
		}
		/* a fault is that of the first boat of all; what is renewed now may be of a
		 * boat that has left; a boat without others has tips */
		take(NULL, NULL, context);
	}
	if (!desk_years(desk, asked, &whole, fault)) {
		return false;
	}
	if (first.kind != FAULT_NONE) {
		*fault = first;
		return false;
	}
	take(&whole, NULL, context);
	return true;
}
