#include "desk/inside.h"
#include "desk/stores.h"

#include <string.h>

/* The days a vessel is asked about. What is past of a season is not: what was recorded since
 * would not count. */
static bool
days_of(const struct desk *desk, const struct muster_asked *asked,
    const struct vessel *vessel, struct span all, struct span *out, struct fault *fault)
{
	struct span days = all;
	if (asked->season) {
		bool found = asked->year != 0 ? season_of_year(vessel, asked->year, &days)
					      : season_at(vessel, desk->today, &days);
		if (!found) {
			return fault_set(fault, FAULT_INPUT,
			    "%s has no season%s: one winter follows the other",
			    vessel->name,
			    asked->year != 0 ? " that starts in that year" : "");
		}
		if (span_has(days, desk->today)) {
			days.first = desk->today;
		}
	}
	if (!vessel_is_here(vessel, days.last)) {
		days.last = day_max(days.first, vessel->left - 1);
	}
	*out = days;
	return true;
}

static bool
is_asked(const struct muster_asked *asked, const struct vessel *vessel, day_t day)
{
	return !vessel->store && vessel_is_here(vessel, day) &&
	       (asked->vessel == NULL || strcmp(vessel->name, asked->vessel) == 0) &&
	       (asked->base == NULL ||
		   strcmp(vessel_base_on(vessel, day), asked->base) == 0);
}

/* A typing mistake in a name must not read as "all is right". */
static bool
none_found(
    struct desk *desk, const struct muster_asked *asked, day_t first, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	size_t at = 0;
	if (asked->vessel != NULL) {
		if (!desk_find_vessel(desk, asked->vessel, &at, fault)) {
			return false;
		}
		if (inventory->vessels[at].store) {
			return fault_set(fault, FAULT_INPUT,
			    FIELD "vessel: \"%.60s\" is a store; only boats are mustered",
			    asked->vessel);
		}
		if (!vessel_is_here(&inventory->vessels[at], first)) {
			return left_check_on(&inventory->vessels[at], first, fault);
		}
	}
	return asked->base == NULL || inventory->vessel_count == 0 ||
	       fault_set(fault, FAULT_INPUT,
		   FIELD
		   "base: found \"%.60s\", expected the base of a vessel in the book",
		   asked->base);
}

/* Widens the days that all musters are over, before these are counted. */
static void
widen(struct muster_answer *out, struct span days)
{
	struct span *over = &out->question.days;
	bool first = out->count == 0;
	over->first = first ? days.first : day_min(over->first, days.first);
	over->last = first ? days.last : day_max(over->last, days.last);
}

/* Musters a vessel, and widens the days that all are over. */
static bool
add_vessel(struct desk *desk, const struct muster_asked *asked, size_t vessel,
    struct span all, struct muster_answer *out, struct fault *fault)
{
	struct span days = {0};
	struct muster *muster = &out->musters[out->count];
	if (!days_of(desk, asked, &desk->contents.inventory.vessels[vessel], all, &days,
		fault)) {
		return false;
	}
	muster_vessel(&desk->engine, vessel, days, &desk->arena, muster);
	widen(out, days);
	out->ok = out->ok && muster->ok;
	out->count++;
	return true;
}

static struct span
days_asked(const struct muster_asked *asked)
{
	return asked->from != DAY_NONE ? (struct span){asked->from, asked->to}
				       : (struct span){asked->on, asked->on};
}

/* Musters those of the loaded boats that are asked about. */
static bool
muster_loaded(struct desk *desk, const struct muster_asked *asked,
    struct muster_answer *out, struct fault *fault)
{
	const struct inventory *inventory = &desk->contents.inventory;
	struct span all = days_asked(asked);
	*out = (struct muster_answer){.question = {all, asked->season}, .ok = true};
	if (!desk_engine(desk, NULL, fault)) {
		return false;
	}
	out->musters = arena_alloc(
	    &desk->arena, (inventory->vessel_count + 1) * sizeof *out->musters);
	for (size_t i = 0; i < inventory->vessel_count; i++) {
		if (is_asked(asked, &inventory->vessels[i], all.first) &&
		    !add_vessel(desk, asked, i, all, out, fault)) {
			return false;
		}
	}
	muster_cure(&desk->engine, out->musters, out->count, &desk->arena);
	return true;
}

bool
desk_muster(struct desk *desk, const struct muster_asked *asked,
    struct muster_answer *out, struct fault *fault)
{
	struct span all = days_asked(asked);
	*out = (struct muster_answer){.question = {all, asked->season}, .ok = true};
	/* A boat's spares are in another's name, and she may be asked about on a day before she
	 * left. */
	return ask_in_order(all, fault) &&
	       ask_about(desk,
		   boats_part(desk, asked->vessel, asked->base, NULL, REACH_STORES),
		   LEFT_ALL, fault) &&
	       muster_loaded(desk, asked, out, fault) &&
	       (out->count > 0 || none_found(desk, asked, all.first, fault));
}

/* A question about all boats that is answered some of them at a time. */
struct muster_by_bases {
	const struct muster_asked *asked;
	muster_taker *take;
	void *context;
	struct muster_answer *out;
};

static bool
muster_of_bases(
    struct desk *desk, const size_t *places, void *question, struct fault *fault)
{
	struct muster_by_bases *by = question;
	struct muster_answer some;
	if (!muster_loaded(desk, by->asked, &some, fault)) {
		return false;
	}
	by->take(&some, places, by->context);
	struct muster_answer *out = by->out;
	if (some.count > 0) {
		widen(out, some.question.days);
	}
	out->ok = out->ok && some.ok;
	out->count += some.count;
	return true;
}

bool
desk_muster_by_bases(struct desk *desk, const struct muster_asked *asked,
    muster_taker *take, void *context, struct muster_answer *out, struct fault *fault)
{
	struct muster_by_bases by = {asked, take, context, out};
	struct fault first = {0};
	*out = (struct muster_answer){
	    .question = {days_asked(asked), asked->season}, .ok = true};
	if (asked->vessel != NULL || asked->base != NULL) {
		if (!desk_muster(desk, asked, out, fault)) {
			return false;
		}
		take(out, NULL, context);
		return true;
	}
	if (!ask_in_order(out->question.days, fault)) {
		return false;
	}
	if (ask_together(desk, LEFT_ALL,
		&(struct together_asked){.answer = muster_of_bases, .question = &by},
		&first)) {
		return true;
	}
	/* a fault is that of the first boat of all */
	struct muster_answer whole;
	if (desk_muster(desk, asked, &whole, fault)) {
		*fault = first;
	}
	return false;
}

bool
desk_line(struct desk *desk, const struct line_asked *asked, struct line_why *out,
    struct fault *fault)
{
	size_t vessel = 0;
	return ask_about(desk, vessel_part(desk, asked->vessel, REACH_STORES), LEFT_ALL,
		   fault) &&
	       desk_engine(desk, NULL, fault) &&
	       desk_find_vessel(desk, asked->vessel, &vessel, fault) &&
	       muster_why(&desk->engine, vessel, asked->line, asked->on, &desk->arena,
		   out, fault);
}

/* Her gear with its tasks as on the first day asked about. */
static void
survey_gear(struct desk *desk, const struct muster *muster, struct arena *arena,
    struct survey *out)
{
	size_t count = 0;
	size_t first =
	    inventory_aboard(&desk->contents.inventory, muster->vessel, &count);
	struct survey_gear *gear = arena_alloc(arena, (count + 1) * sizeof *gear);
	for (size_t i = 0; i < count; i++) {
		struct obligation *tasks = NULL;
		due_of_item(&desk->engine, first + i, muster->days.first, arena, &tasks,
		    &gear[i].task_count);
		gear[i].item = first + i;
		gear[i].tasks = tasks;
	}
	out->gear = gear;
	out->gear_count = count;
}

bool
desk_survey(struct desk *desk, const struct muster *muster, struct arena *arena,
    struct survey *out, struct fault *fault)
{
	const struct vessel *vessel = &desk->contents.inventory.vessels[muster->vessel];
	const struct sheet **sheets =
	    arena_alloc(arena, (vessel->sheet_count + 1) * sizeof(const struct sheet *));
	*out = (struct survey){
	    .muster = muster, .sheets = sheets, .sheet_count = vessel->sheet_count};
	for (size_t i = 0; i < vessel->sheet_count; i++) {
		if (!shelf_sheet(&desk->shelf, vessel->sheets[i], &desk->notes,
			&sheets[i], fault)) {
			return false;
		}
	}
	survey_gear(desk, muster, arena, out);
	return true;
}
