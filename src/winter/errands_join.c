/* Fewer journeys: who goes to hand in also fetches what is ready. */
#include "winter/errands_inside.h"

/* The last day on which all that is on an errand may be handed in at what it costs there, and
 * the day by which all of it must be back. */
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

/* The earliest later hand-in at the same station on which what is on the errand can be
 * fetched; NO_ERRAND when there is none. */
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

/* Puts a hand-in off to the day on which `errand` is ready, the first that may be. */
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
