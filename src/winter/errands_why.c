/* Why an errand is where it is: the plan beside the best one without it. */
#include "winter/errands.h"

/* True when a thing has a way to another place. */
static bool
goes_elsewhere(const struct errand_thing *thing, size_t place)
{
	bool elsewhere = false;
	for (size_t k = 0; k < thing->way_count; k++) {
		elsewhere = elsewhere || thing->ways[k].place != place;
	}
	return elsewhere;
}

/* The ways of a thing that lead anywhere but to a place. */
static void
ways_elsewhere(const struct errand_thing *thing, size_t place, struct arena *arena,
    struct errand_thing *out)
{
	struct errand_way *ways = arena_alloc(arena, thing->way_count * sizeof *ways);
	*out = *thing;
	out->ways = ways;
	out->way_count = 0;
	for (size_t k = 0; k < thing->way_count; k++) {
		if (thing->ways[k].place != place) {
			ways[out->way_count++] = thing->ways[k];
		}
	}
}

/* The things that the plan takes, with what is on the errand kept from its place wherever it
 * can go elsewhere. None in `*any_out` that can. */
static void
without_errand(const struct errand_thing *things, size_t count,
    const struct errand_plan *plan, size_t errand, struct arena *arena,
    struct errand_thing **out, size_t *count_out, bool *any_out)
{
	size_t place = plan->errands[errand].place;
	struct errand_thing *kept = arena_alloc(arena, (count + 1) * sizeof *kept);
	size_t used = 0;
	*any_out = false;
	for (size_t i = 0; i < count; i++) {
		if (plan->errand_of[i] == NO_ERRAND) {
			continue;
		}
		kept[used] = things[i];
		if (plan->errand_of[i] == errand && goes_elsewhere(&things[i], place)) {
			*any_out = true;
			ways_elsewhere(&things[i], place, arena, &kept[used]);
		}
		used++;
	}
	*out = kept;
	*count_out = used;
}

void
errands_why(const struct errand_place *places, size_t place_count,
    const struct errand_thing *things, size_t thing_count, const struct errand_plan *plan,
    size_t errand, size_t most, struct arena *scratch, struct errand_reason *out)
{
	struct errand_reason reason = {0};
	struct errand_plan other = {0};
	struct errand_thing *kept = NULL;
	size_t count = 0;
	bool any = false;
	*out = reason;
	without_errand(things, thing_count, plan, errand, scratch, &kept, &count, &any);
	if (!any || !plan->proven) {
		return;
	}
	errands_plan(places, place_count, kept, count, most, scratch, &other);
	for (size_t i = 0; i < count; i++) {
		reason.no_room = reason.no_room || other.errand_of[i] == NO_ERRAND;
	}
	/* what a search left off has not found may still be there: nothing is said of it */
	reason.any = plan->proven && other.proven;
	reason.saves_minor = reason.no_room ? 0 : other.minor - plan->minor;
	reason.saves_count = reason.no_room ? 0 : (int)other.count - (int)plan->count;
	*out = reason;
}
