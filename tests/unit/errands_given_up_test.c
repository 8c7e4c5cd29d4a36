/* Searches that are given up: what is found can be carried out and costs what it says, and
 * nothing is proven that is not so. */
#include "becket_test.h"
#include "draw.h"
#include "in_words.h"
#include "winter/errands_inside.h"

enum { PLACES = 3, FEW = 10, THINGS = 30 };

struct crowd {
	struct station stations[PLACES];
	struct errand_stop stops[PLACES];
	struct errand_way ways[THINGS][2 * PLACES];
	struct errand_thing things[THINGS];
	size_t count;
};

/* Adds the ways of a thing to a stop: one, or two where the price changes on some day. */
static size_t
draw_ways(unsigned *seed, size_t stop, struct errand_way *out)
{
	day_t first = day_of("2026-11-02") + (day_t)draw(seed, 14);
	day_t last = first + (day_t)draw(seed, 10);
	day_t change = first + (day_t)draw(seed, 10);
	int64_t minor = 100 * (int64_t)draw(seed, 6);
	out[0] = (struct errand_way){stop, first, last, DAY_NEVER, minor, 0};
	if (draw(seed, 2) == 0 || change >= last) {
		return 1;
	}
	out[0].last = change;
	out[1] = (struct errand_way){
	    stop, change + 1, last, DAY_NEVER, 100 * (int64_t)draw(seed, 6), 0};
	return 2;
}

/* So many things, half of them like the one before: pieces, and stations that take one to
 * four a week; or lots of twenty, and stations that take some more than so many of them;
 * or any number. */
static void
draw_crowd(unsigned *seed, int lot, size_t things, struct crowd *crowd)
{
	*crowd = (struct crowd){.count = things};
	for (size_t s = 0; s < PLACES; s++) {
		crowd->stations[s] = (struct station){.weekdays = WEEKDAYS_ALL,
		    .weekly_pieces =
			lot * (1 + (int)draw(seed, 4)) + (lot > 1 ? (int)s : 0),
		    .trip_minor = 100 * (int64_t)draw(seed, 8)};
		crowd->stops[s].station = &crowd->stations[s];
	}
	for (size_t i = 0; i < crowd->count; i++) {
		size_t count = 0;
		if (i > 0 && draw(seed, 2) == 0) {
			crowd->things[i] = crowd->things[i - 1];
			continue;
		}
		for (size_t s = 0; s < PLACES; s++) {
			if (draw(seed, 3) > 0 || count + PLACES - s == 1) {
				count += draw_ways(seed, s, &crowd->ways[i][count]);
			}
		}
		crowd->things[i] = (struct errand_thing){.ways = crowd->ways[i],
		    .way_count = count,
		    .pieces = lot > 0 ? lot : 1};
	}
}

/* What a plan costs by what it says, and how many pieces it leaves out; fails where a
 * thing is on a day that does not serve it, or a week has more than it takes. */
static int64_t
cost_of(const struct crowd *crowd, const struct errand_plan *plan, size_t *left_out)
{
	int64_t minor = 0;
	int pieces[THINGS] = {0};
	*left_out = 0;
	for (size_t e = 0; e < plan->count; e++) {
		minor += crowd->stations[plan->errands[e].stop].trip_minor;
	}
	for (size_t i = 0; i < crowd->count; i++) {
		size_t e = plan->errand_of[i];
		if (e == NO_ERRAND) {
			*left_out += (size_t)crowd->things[i].pieces;
			continue;
		}
		const struct errand *errand = &plan->errands[e];
		const struct errand_way *way = errand_way_on(
		    &crowd->things[i], errand->stop, errand->hand_in, errand->hand_in);
		assert_non_null(way);
		minor += way->minor;
		/* counted at the first errand of its stop and week */
		for (size_t f = 0; f <= e; f++) {
			const struct errand *other = &plan->errands[f];
			if (other->stop == errand->stop &&
			    errand_week(other->hand_in) == errand_week(errand->hand_in)) {
				pieces[f] += crowd->things[i].pieces;
				break;
			}
		}
	}
	for (size_t e = 0; e < plan->count; e++) {
		int most = crowd->stations[plan->errands[e].stop].weekly_pieces;
		assert_true(most == 0 || pieces[e] <= most);
	}
	return minor;
}

static struct errand_plan
plan_with(const struct crowd *crowd, struct errand_effort effort, struct arena *arena)
{
	struct errand_plan plan = {0};
	struct errand_working working = {.stops = crowd->stops,
	    .stop_count = PLACES,
	    .things = crowd->things,
	    .thing_count = crowd->count,
	    .effort = effort,
	    .arena = arena};
	errands_plan_working(&working, &plan);
	return plan;
}

/* After however few looks a search is given up, what it found can be carried out, costs
 * what it says, and no less than any other search says that as much must cost. */
TEST(a_search_that_is_given_up_says_so_and_claims_nothing_that_is_not_so)
{
	static const struct errand_effort EFFORTS[] = {{1, 0, 0, OPEN_LOOKS},
	    {2, 0, 300, 1}, {3, 0, 3000, OPEN_LOOKS}, {OPEN_NODES, 0, 10000, OPEN_LOOKS},
	    {OPEN_NODES, 0, 30000, OPEN_LOOKS}, {OPEN_NODES, 0, 100000, OPEN_LOOKS}};

	enum { SEARCHES = sizeof EFFORTS / sizeof EFFORTS[0] };

	/* in these a circle of moves turns up, one last plan that no look is left for,
	 * and a day that is opened in vain after another was not */
	static const unsigned SEEDS[] = {836, 594, 634};
	static const int LOTS[] = {1, 1, 1, 20, 0};
	size_t given_up = 0;
	for (int round = 0; round < scaled(40); round++) {
		unsigned seed = round < 3 ? SEEDS[round] : (unsigned)round;
		struct crowd crowd;
		struct arena arena = {0};
		struct errand_plan plans[SEARCHES];
		size_t left_out[SEARCHES];
		draw_crowd(&seed, LOTS[round % 5], FEW, &crowd);
		for (size_t k = 0; k < SEARCHES; k++) {
			plans[k] = plan_with(&crowd, EFFORTS[k], &arena);
			assert_int_equal(
			    cost_of(&crowd, &plans[k], &left_out[k]), plans[k].minor);
			given_up += !plans[k].proven;
		}
		for (size_t k = 0; k < SEARCHES * SEARCHES; k++) {
			size_t a = k / SEARCHES;
			size_t b = k % SEARCHES;
			assert_true(left_out[a] != left_out[b] ||
				    plans[a].bound_minor <= plans[b].minor);
			assert_true(!plans[a].proven || left_out[a] <= left_out[b]);
		}
		arena_clear(&arena);
	}
	/* some were, and some were not */
	size_t searches = (size_t)scaled(40) * SEARCHES;
	assert_in_range(given_up, searches / 6, searches - 1);
}

/* ---- given up after as much as the program looks at ---- */

enum { RINGS = 7, RING = 4, STOPS = RINGS * RING, PAIRS = RING * (RING - 1) / 2 };

/* Rings of four stations, with a thing for each two stations of a ring, which may go to
 * either, and one that may go anywhere. By hand: of each ring three must be gone to, for of
 * two that are not neither has what they share; and three are enough. The bound of a ring
 * is two, so that each ring more takes a multiple of the search: six are proven, with
 * seven it ends at OPEN_NODES, and of six, too, after one look. */
TEST(a_choice_of_days_ends_at_its_nodes_and_at_its_looks)
{
	static const struct station STATION = {
	    .weekdays = WEEKDAYS_ALL, .trip_minor = 100};
	const day_t day = day_of("2026-11-02");
	struct errand_stop stops[STOPS];
	struct errand_way anywhere[STOPS];
	struct errand_way ways[RINGS * PAIRS][2];
	struct errand_thing things[RINGS * PAIRS + 1];
	size_t count = 1;
	for (size_t i = 0; i < STOPS; i++) {
		stops[i] = (struct errand_stop){.station = &STATION};
		anywhere[i] = (struct errand_way){i, day, day, DAY_NEVER, 0, 0};
		for (size_t j = i - i % RING; j < i; j++) {
			ways[count - 1][0] = anywhere[j];
			ways[count - 1][1] = anywhere[i];
			things[count] = (struct errand_thing){
			    .ways = ways[count - 1], .way_count = 2, .pieces = 1};
			count++;
		}
	}
	for (int round = 0; round < 3; round++) {
		const size_t rings = round == 1 ? RINGS : RINGS - 1;
		struct errand_plan plan = {0};
		struct arena arena = {0};
		const size_t least = rings * (RING - 1);
		count = rings * PAIRS + 1;
		things[0] = (struct errand_thing){
		    .ways = anywhere, .way_count = rings * RING, .pieces = 1};
		struct errand_working working = {.stops = stops,
		    .stop_count = rings * RING,
		    .things = things,
		    .thing_count = count,
		    .effort = {OPEN_NODES, 0, 0, round == 2 ? 1 : OPEN_LOOKS},
		    .arena = &arena};
		errands_plan_working(&working, &plan);
		assert_int_equal(plan.proven, round == 0);
		assert_int_equal(plan.minor, 100 * (int64_t)plan.count);
		assert_in_range(plan.count, least, plan.proven ? least : STOPS);
		assert_in_range(plan.bound_minor, rings * 200, least * 100);
		for (size_t i = 0; i < count; i++) {
			size_t e = plan.errand_of[i];
			assert_in_range(e, 0, plan.count - 1);
			assert_non_null(
			    errand_way_on(&things[i], plan.errands[e].stop, day, day));
		}
		arena_clear(&arena);
	}
}

/* Fifteen things placed one by one, and as much as the program looks at is not enough: the
 * same search with a hundred times as many nodes ends, and proves what branching does. */
TEST(things_placed_one_by_one_end_at_their_nodes)
{
	static const struct errand_effort ENDS = {
	    OPEN_NODES, SINGLES_NODES, 0, OPEN_LOOKS};
	static const struct errand_effort LONGER = {
	    OPEN_NODES, 100 * SINGLES_NODES, 0, OPEN_LOOKS};
	static const struct errand_effort BRANCHING = {
	    OPEN_NODES, 0, BRANCH_LOOKS, OPEN_LOOKS};
	unsigned seed = 4;
	struct crowd crowd;
	struct arena arena = {0};
	size_t left_out = 0;
	draw_crowd(&seed, 1, THINGS / 2, &crowd);
	struct errand_plan plan = plan_with(&crowd, ENDS, &arena);
	struct errand_plan longer = plan_with(&crowd, LONGER, &arena);
	struct errand_plan best = plan_with(&crowd, BRANCHING, &arena);
	assert_false(plan.proven);
	assert_int_equal(cost_of(&crowd, &plan, &left_out), plan.minor);
	assert_int_equal(left_out, 0);
	assert_true(longer.proven && best.proven);
	assert_int_equal(longer.minor, best.minor);
	assert_in_range(plan.minor, best.minor, INT64_MAX);
	assert_in_range(plan.bound_minor, 0, best.minor);
	arena_clear(&arena);
}

/* Thirty things and stations that take four a week: they are given up one by one, and by
 * branching too. All have their place. */
TEST(branching_within_limits_ends_at_its_looks)
{
	unsigned seed = 9;
	struct crowd crowd;
	struct arena arena = {0};
	struct errand_plan plan = {0};
	size_t left_out = 0;
	draw_crowd(&seed, 1, THINGS, &crowd);
	for (size_t s = 0; s < PLACES; s++) {
		crowd.stations[s].weekly_pieces = 4;
	}
	errands_plan(
	    crowd.stops, PLACES, crowd.things, THINGS, ERRANDS_ANY, &arena, &plan);
	assert_false(plan.proven);
	assert_int_equal(cost_of(&crowd, &plan, &left_out), plan.minor);
	assert_int_equal(left_out, 0);
	assert_in_range(plan.bound_minor, 1, plan.minor - 1);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
