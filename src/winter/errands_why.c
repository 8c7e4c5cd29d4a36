/* Why an errand is where it is: the plan beside the best one without it. */
#include "winter/errands.h"

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

/* The things that the plan takes, with what is on the errand kept from its stop wherever it
 * can go elsewhere. */
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
	/* what a search left off has not found may still be there: nothing is said of it */
	reason.any = plan->proven && other.proven;
	reason.saves_minor = reason.no_room ? 0 : other.minor - plan->minor;
	reason.saves_count = reason.no_room ? 0 : (int)other.count - (int)plan->count;
	*out = reason;
}
