/* Changes to a planned set of errands that save journeys, since who goes to hand in
 * also fetches what is ready; and the reasons why each errand goes where it goes. */
#include "winter/errands_inside.h"

/* The last day on which everything on an errand may be handed in at what it costs
 * there, and the day by which all of it must be back. */
struct join_limits {
	day_t last;
	day_t back_by;
};

static struct join_limits
limits_of(const struct errand_thing *things, size_t thing_count,
    const struct errand_plan *plan, size_t errand)
{
	const struct errand *of = &plan->errands[errand];
	struct join_limits limits = {DAY_NEVER, DAY_NEVER};
	for (size_t i = 0; i < thing_count; i++) {
		if (plan->errand_of[i] != errand) {
			continue;
		}
		const struct errand_way *way =
		    errand_way_on(&things[i], of->stop, of->hand_in, of->ready);
		if (way != NULL) {
			limits.last = day_min(limits.last, way->last);
			limits.back_by = day_min(limits.back_by, way->back_by);
		}
		if (things[i].at_once) {
			limits.last = of->hand_in;
			limits.back_by = of->ready;
		}
	}
	return limits;
}

/* The earliest later hand-in at the same station on which everything on the errand can
 * be fetched; NO_ERRAND when there is none. */
static size_t
fetched_with(const struct errand_plan *plan, size_t errand, day_t back_by)
{
	const struct errand *first = &plan->errands[errand];
	size_t found = NO_ERRAND;
	for (size_t i = 0; i < plan->count; i++) {
		const struct errand *later = &plan->errands[i];
		bool fits = i != errand && later->stop == first->stop &&
			    later->hand_in >= first->ready && later->hand_in <= back_by;
		if (fits && (found == NO_ERRAND ||
				later->hand_in < plan->errands[found].hand_in)) {
			found = i;
		}
	}
	return found;
}

/* True when some other errand is to be fetched on this one's hand-in day. */
static bool
is_waited_for(const struct errand_plan *plan, size_t errand)
{
	for (size_t i = 0; i < plan->count; i++) {
		if (i != errand && plan->errands[i].stop == plan->errands[errand].stop &&
		    plan->errands[i].collect == plan->errands[errand].hand_in) {
			return true;
		}
	}
	return false;
}

/* Puts the first hand-in that may be put off to the day on which `errand` is ready. */
static void
put_off_one(const struct errand_stop *stops, const struct errand_thing *things,
    size_t thing_count, struct errand_plan *plan, size_t errand)
{
	const struct errand *first = &plan->errands[errand];
	const struct station *station = stops[first->stop].station;
	day_t day = first->ready;
	day_t ready = station_collect(station, day);
	for (size_t i = 0; i < plan->count; i++) {
		struct errand *later = &plan->errands[i];
		if (i == errand || later->stop != first->stop ||
		    later->hand_in <= first->hand_in || later->hand_in >= day ||
		    later->held || is_waited_for(plan, i)) {
			continue;
		}
		struct join_limits limits = limits_of(things, thing_count, plan, i);
		if (day <= limits.last && ready <= limits.back_by) {
			later->hand_in = day;
			later->ready = ready;
			later->collect = ready;
			return;
		}
	}
}

void
errands_join(const struct errand_stop *stops, const struct errand_thing *things,
    size_t thing_count, struct errand_plan *plan)
{
	for (size_t i = 0; i < plan->count; i++) {
		struct errand *errand = &plan->errands[i];
		day_t back_by = limits_of(things, thing_count, plan, i).back_by;
		size_t with = fetched_with(plan, i, back_by);
		if (with == NO_ERRAND &&
		    stops[errand->stop].station->weekly_pieces == 0) {
			put_off_one(stops, things, thing_count, plan, i);
			with = fetched_with(plan, i, back_by);
		}
		if (with != NO_ERRAND) {
			errand->collect = plan->errands[with].hand_in;
		}
	}
}

/* ---- why an errand is where it is: the plan beside the best one without it ---- */

bool
errand_goes_elsewhere(const struct errand_thing *thing, size_t stop)
{
	bool elsewhere = false;
	for (size_t k = 0; k < thing->way_count; k++) {
		elsewhere = elsewhere || thing->ways[k].stop != stop;
	}
	return elsewhere;
}

/* The ways of a thing that lead anywhere but to a stop. */
static void
ways_elsewhere(const struct errand_thing *thing, size_t stop, struct arena *arena,
    struct errand_thing *out)
{
	struct errand_way *ways = ARENA_MANY(arena, struct errand_way, thing->way_count);
	*out = *thing;
	out->ways = ways;
	out->way_count = 0;
	for (size_t k = 0; k < thing->way_count; k++) {
		if (thing->ways[k].stop != stop) {
			ways[out->way_count++] = thing->ways[k];
		}
	}
}

/* The things that the plan takes, with those on the errand kept from its stop wherever
 * they can go elsewhere. */
struct without {
	struct errand_thing *things;
	size_t count;
	bool any; /* some can */
};

static struct without
without_errand(const struct errands_asked *asked, const struct errand_plan *plan,
    size_t errand, struct arena *arena)
{
	size_t stop = plan->errands[errand].stop;
	struct without kept = {
	    .things = ARENA_MANY(arena, struct errand_thing, asked->thing_count)};
	for (size_t i = 0; i < asked->thing_count; i++) {
		const struct errand_thing *thing = &asked->things[i];
		if (plan->errand_of[i] == NO_ERRAND) {
			continue;
		}
		kept.things[kept.count] = *thing;
		if (plan->errand_of[i] == errand && errand_goes_elsewhere(thing, stop)) {
			kept.any = true;
			ways_elsewhere(thing, stop, arena, &kept.things[kept.count]);
		}
		kept.count++;
	}
	return kept;
}

void
errands_why(const struct errands_asked *asked, const struct errand_plan *plan,
    size_t errand, struct arena *scratch, struct errand_reason *out)
{
	struct errand_reason reason = {0};
	struct errand_plan other = {0};
	*out = reason;
	const struct without kept = without_errand(asked, plan, errand, scratch);
	if (!kept.any || !plan->proven) {
		return;
	}
	errands_plan(asked->stops, asked->stop_count, kept.things, kept.count,
	    asked->most, scratch, &other);
	for (size_t i = 0; i < kept.count; i++) {
		reason.no_room = reason.no_room || other.errand_of[i] == NO_ERRAND;
	}
	/* a search that was given up may have missed the better plan: then no reason
	 * is given */
	reason.any = other.proven;
	reason.saves_minor = reason.no_room ? 0 : other.minor - plan->minor;
	reason.saves_count = reason.no_room ? 0 : (int)other.count - (int)plan->count;
	*out = reason;
}
