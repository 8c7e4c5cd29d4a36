/* Slots of a rota beside every plan there could be. */
#include "becket_test.h"
#include "draw.h"
#include "rota/slots_inside.h"

#include <string.h>

enum {
	MOST_JOBS = 4,
	MOST_SPARES = 3,
	MOST_PLACES = 2,
	MOST_BOATS = 3,
	MANY_LOOKS = 2000000
};

/* A problem and everything it is made of. */
struct made_up {
	struct yearly closed[MOST_PLACES];
	struct station stations[MOST_PLACES];
	size_t places[MOST_JOBS][MOST_PLACES];
	struct slot_job jobs[MOST_JOBS];
	struct slot_spare spares[MOST_SPARES];
	struct slot_taken taken;
	struct slot_bare bares[MOST_BOATS]; /* of each boat's, if any */
	struct span booked[MOST_BOATS];     /* each boat is out then, if it has days */
	struct slot_problem problem;
};

/* 2027-03-01, a Monday. */
enum { BASE = 20878, UNTIL = 40 };

static void
draw_station(unsigned *seed, struct made_up *out, size_t place)
{
	struct station *station = &out->stations[place];
	*station = (struct station){.weekdays = WEEKDAYS_ALL, .name = "a", .base = ""};
	station->turn_round_days = 1 + (int)draw(seed, 5);
	station->weekly_pieces = (int)draw(seed, 3);
	if (draw(seed, 3) == 0) {
		station->weekdays = 0x1f;
	}
	if (draw(seed, 4) == 0) {
		out->closed[place] =
		    (struct yearly){3, 3, 3, (int8_t)(4 + draw(seed, 3))};
		station->closed = &out->closed[place];
		station->closed_count = 1;
	}
}

static void
draw_job(unsigned *seed, struct made_up *out, size_t index, size_t stations)
{
	struct slot_job *job = &out->jobs[index];
	bool both = stations == 2 && draw(seed, 2) == 0;
	out->places[index][0] = both ? 0 : draw(seed, (unsigned)stations);
	out->places[index][1] = 1;
	job->boat = index * MOST_BOATS / MOST_JOBS;
	job->bares = &out->bares[job->boat];
	job->bare_count = out->bares[job->boat].most > 0;
	job->first = BASE + (day_t)draw(seed, 6);
	job->last = job->first + (day_t)draw(seed, 7);
	job->places = out->places[index];
	job->place_count = both ? 2 : 1;
	job->pieces = 1 + (int)draw(seed, 2);
	job->bare_most = draw(seed, 3) > 0 ? 0 : 1 + (int)(job->boat % 2);
	job->capacity = (int)draw(seed, 2) * 4;
	job->busy = &out->booked[job->boat];
	job->busy_count = job->busy->last >= job->busy->first;
}

static void
draw_problem(unsigned *seed, struct made_up *out)
{
	memset(out, 0, sizeof *out);
	for (size_t i = 0; i < MOST_BOATS; i++) {
		day_t hand_in = BASE - 2 + (day_t)draw(seed, 6);
		out->bares[i] = (struct slot_bare){
		    hand_in, hand_in + 1 + (day_t)draw(seed, 6), (int)draw(seed, 4)};
		day_t out_on = BASE + (day_t)draw(seed, 12);
		out->booked[i] = draw(seed, 3) == 0 ? (struct span){out_on,
							  out_on + (day_t)draw(seed, 5)}
						    : (struct span){BASE, BASE - 1};
	}
	size_t stations = 1 + draw(seed, MOST_PLACES);
	size_t jobs = 1 + draw(seed, MOST_JOBS);
	size_t spares = draw(seed, MOST_SPARES + 1);
	for (size_t i = 0; i < stations; i++) {
		draw_station(seed, out, i);
	}
	for (size_t i = 0; i < jobs; i++) {
		draw_job(seed, out, i, stations);
	}
	for (size_t i = 0; i < spares; i++) {
		bool always = draw(seed, 2) == 0;
		day_t first = BASE + (day_t)draw(seed, 4);
		out->spares[i] = (struct slot_spare){
		    always ? (struct span){DAY_NONE, DAY_NEVER}
			   : (struct span){first, first + 5 + (day_t)draw(seed, 12)},
		    (int)draw(seed, 2) * 6};
	}
	bool far = draw(seed, 16) == 0;
	day_t landed = far ? BASE + 2 * UNTIL : BASE - 12 + (day_t)draw(seed, 16);
	out->taken = (struct slot_taken){.place = draw(seed, 8) == 0 ? SLOT_NONE : 0,
	    .hand_in = landed,
	    .collect = day_max(landed, BASE) + 3 + (day_t)draw(seed, 5),
	    .pieces = 1,
	    .counts = draw(seed, 2) == 0};
	out->problem = (struct slot_problem){out->stations, stations, out->jobs, jobs,
	    out->spares, spares, &out->taken, draw(seed, 2), (int)draw(seed, 4),
	    (int)draw(seed, 4), BASE + UNTIL, false, MANY_LOOKS};
}

/* As it is where a job may as well go on the first day with room (slots_make.c): all from
 * one day on to one place, with spares for any of them. */
static void
make_early(struct made_up *out)
{
	out->problem.most_away = 0;
	out->stations[0].weekly_pieces = 0;
	for (size_t i = 0; i < out->problem.job_count; i++) {
		struct slot_job *job = &out->jobs[i];
		out->booked[job->boat] = (struct span){BASE, BASE - 1};
		job->last += BASE - job->first;
		job->first = BASE;
		out->places[i][0] = 0;
		job->place_count = 1;
		job->capacity = 0;
		job->busy_count = 0;
	}
	for (size_t i = 0; i < out->problem.spare_count; i++) {
		out->spares[i] = (struct slot_spare){{DAY_NONE, DAY_NEVER}, 6};
	}
}

static bool
meet(const struct slot *a, const struct slot *b)
{
	return a->hand_in < b->collect && b->hand_in < a->collect;
}

/* What is away on a day, of what counts. */
static int
away_on(const struct made_up *made, const struct slot *slots, size_t count, day_t day)
{
	int away = made->problem.taken_count > 0 && made->taken.counts &&
		   made->taken.hand_in <= day && day < made->taken.collect;
	for (size_t i = 0; i < count; i++) {
		away += slots[i].place != SLOT_NONE && slots[i].hand_in <= day &&
			day < slots[i].collect;
	}
	return away;
}

/* Whether two days lie in one week from Monday to Sunday; BASE is a Monday. */
static bool
same_week(day_t a, day_t b)
{
	return (a - BASE + 70) / 7 == (b - BASE + 70) / 7;
}

/* Pieces that are handed in at the slot's place in its week, the slot's own among them. */
static int
pieces_that_week(const struct made_up *made, const struct slot *slots, size_t count)
{
	const struct slot *slot = &slots[count - 1];
	int pieces = 0;
	if (made->problem.taken_count > 0 && made->taken.place == slot->place &&
	    same_week(made->taken.hand_in, slot->hand_in)) {
		pieces += made->taken.pieces;
	}
	for (size_t i = 0; i < count; i++) {
		bool same = slots[i].place == slot->place &&
			    same_week(slots[i].hand_in, slot->hand_in);
		pieces += same ? made->jobs[i].pieces : 0;
	}
	return pieces;
}

/* Bare pieces of a boat that are away on a day. */
static int
bare_on(const struct made_up *made, const struct slot *slots, size_t count, size_t boat,
    day_t day)
{
	int bare = 0;
	for (size_t i = 0; i < count; i++) {
		bare += made->jobs[i].boat == boat && slots[i].bare &&
			slots[i].place != SLOT_NONE && slots[i].hand_in <= day &&
			day < slots[i].collect;
	}
	return bare;
}

/* Whether on a day no more of the boat of the last of `count` jobs is away bare than may be, what
 * is away whatever the plan counted in. */
static bool
boat_holds(const struct made_up *made, const struct slot *slots, size_t count, day_t day)
{
	const struct slot_job *job = &made->jobs[count - 1];
	const struct slot_bare *away = &made->bares[job->boat];
	int bare = bare_on(made, slots, count, job->boat, day);
	bool too = away->most > 0 && away->hand_in <= day && day < away->collect;
	return bare + too <= job->bare_most && (!too || bare + 1 <= away->most);
}

/* Whether the last of `count` jobs has a spare where it needs one, in date and its own. */
static bool
spare_is_right(const struct made_up *made, const struct slot *slots, size_t count)
{
	const struct slot *slot = &slots[count - 1];
	const struct slot_job *job = &made->jobs[count - 1];
	if (slot->spare == SLOT_NONE) {
		return slot->bare && job->bare_most > 0;
	}
	const struct slot_spare *spare = &made->spares[slot->spare];
	for (size_t i = 0; i + 1 < count; i++) {
		if (slots[i].place != SLOT_NONE && slots[i].spare == slot->spare &&
		    meet(slot, &slots[i])) {
			return false;
		}
	}
	return !slot->bare && spare->capacity >= job->capacity &&
	       span_has(spare->days, slot->hand_in) &&
	       span_has(spare->days, slot->collect - 1);
}

/* Whether the days of the last of `count` jobs leave no boat and no base with too much away. */
static bool
absence_is_right(const struct made_up *made, const struct slot *slots, size_t count)
{
	const struct slot *slot = &slots[count - 1];
	int most_away = made->problem.most_away;
	for (day_t day = slot->hand_in; day < slot->collect; day++) {
		if (most_away > 0 && away_on(made, slots, count, day) > most_away) {
			return false;
		}
		if (slot->bare && !boat_holds(made, slots, count, day)) {
			return false;
		}
	}
	return true;
}

/* Whether the slot of the last of `count` jobs is right by itself and beside those before. A
 * lot of more pieces than a station takes in a week has a week to itself. */
static bool
last_is_right(const struct made_up *made, const struct slot *slots, size_t count)
{
	const struct slot *slot = &slots[count - 1];
	const struct slot_job *job = &made->jobs[count - 1];
	const struct station *station = &made->stations[slot->place];
	int week = pieces_that_week(made, slots, count);
	bool listed = false;
	for (size_t i = 0; i < job->place_count; i++) {
		listed = listed || job->places[i] == slot->place;
	}
	/* from the hand-in to the collect, both days too, its boat is not out */
	const struct span *booked = &made->booked[job->boat];
	for (day_t day = slot->hand_in; day <= slot->collect; day++) {
		if (day >= booked->first && day <= booked->last) {
			return false;
		}
	}
	return listed && slot->hand_in >= job->first &&
	       station_open(station, slot->hand_in) &&
	       slot->collect == station_collect(station, slot->hand_in) &&
	       (station->weekly_pieces == 0 || week <= station->weekly_pieces ||
		   week == job->pieces) &&
	       spare_is_right(made, slots, count) && absence_is_right(made, slots, count);
}

static int
spares_in(const struct slot *slots, size_t count)
{
	unsigned used = 0;
	for (size_t i = 0; i < count; i++) {
		used |= slots[i].place != SLOT_NONE && slots[i].spare != SLOT_NONE
			    ? 1U << slots[i].spare
			    : 0;
	}
	return __builtin_popcount(used);
}

/* Plans being counted off: the jobs that are wanted (a bit a job), and what is made so far. */
struct counting_off {
	const struct made_up *made;
	unsigned wanted;
	struct slot slots[MOST_JOBS];
	int best; /* fewest spares yet */
};

static void count_off(struct counting_off *off, size_t count);

/* All plans in which the next job goes on one day to one place. */
static void
count_off_day(struct counting_off *off, size_t count, size_t place, day_t day)
{
	const struct made_up *made = off->made;
	for (size_t spare = 0; spare <= made->problem.spare_count; spare++) {
		bool bare = spare == made->problem.spare_count;
		off->slots[count] = (struct slot){place, day,
		    station_collect(&made->stations[place], day), bare,
		    bare ? SLOT_NONE : spare, false};
		if (last_is_right(made, off->slots, count + 1)) {
			count_off(off, count + 1);
		}
	}
}

/* All plans that go on from the first `count` jobs. */
static void
count_off(struct counting_off *off, size_t count)
{
	const struct made_up *made = off->made;
	const struct slot_job *job = &made->jobs[count];
	if (spares_in(off->slots, count) >= off->best) {
		return;
	}
	if (count == made->problem.job_count) {
		off->best = spares_in(off->slots, count);
		return;
	}
	if ((off->wanted & 1U << count) == 0) {
		off->slots[count] = (struct slot){.place = SLOT_NONE};
		count_off(off, count + 1);
		return;
	}
	for (size_t place = 0; place < made->problem.station_count; place++) {
		for (day_t day = job->first; day <= job->last; day++) {
			count_off_day(off, count, place, day);
		}
	}
}

enum { NO_PLAN = 99 };

static int
fewest(const struct made_up *made, unsigned wanted)
{
	struct counting_off off = {.made = made, .wanted = wanted, .best = NO_PLAN};
	count_off(&off, 0);
	return off.best;
}

/* Whether job a comes before b: by last day, then first, then number. */
static bool
comes_before(const struct made_up *made, size_t a, size_t b)
{
	const struct slot_job *left = &made->jobs[a];
	const struct slot_job *right = &made->jobs[b];
	if (left->last != right->last) {
		return left->last < right->last;
	}
	return left->first != right->first ? left->first < right->first : a < b;
}

/* The job at which the jobs by last day can first not all be done. */
static size_t
first_to_fail(const struct made_up *made)
{
	for (size_t rank = 0; rank < made->problem.job_count; rank++) {
		unsigned wanted = 0;
		size_t last = SLOT_NONE;
		for (size_t i = 0; i < made->problem.job_count; i++) {
			size_t before = 0;
			for (size_t j = 0; j < made->problem.job_count; j++) {
				before += comes_before(made, j, i);
			}
			wanted |= before <= rank ? 1U << i : 0;
			last = before == rank ? i : last;
		}
		if (fewest(made, wanted) == NO_PLAN) {
			return last;
		}
	}
	return SLOT_NONE;
}

static void
check_slots(const struct made_up *made, const struct slot_plan *plan)
{
	bool late = false;
	for (size_t i = 0; i < made->problem.job_count; i++) {
		const struct slot *slot = &plan->slots[i];
		if (slot->place == SLOT_NONE) {
			late = true;
			continue;
		}
		assert_true(last_is_right(made, plan->slots, i + 1));
		assert_int_equal(slot->late, slot->hand_in > made->jobs[i].last);
		assert_true(slot->hand_in <= made->problem.until);
		late = late || slot->late;
	}
	assert_int_equal(plan->possible, !late);
	assert_int_equal(plan->spares, spares_in(plan->slots, made->problem.job_count));
}

/* What a search says that is given up soon, or that is asked alone whether there is a
 * plan, where the fewest spares of all plans are so many. Returns whether it was given
 * up. */
static bool
check_hasty(const struct made_up *made, int best, struct arena *arena)
{
	struct slot_problem problem = made->problem;
	struct slot_plan plan = {0};
	problem.only_whether = true;
	slots_solve(&problem, arena, &plan);
	assert_int_equal(plan.possible, best != NO_PLAN);
	problem.most_looks = 0;
	slots_solve(&problem, arena, &plan);
	assert_true(best != NO_PLAN || !plan.possible);
	problem.only_whether = false;
	slots_solve(&problem, arena, &plan);
	check_slots(made, &plan);
	assert_true(best != NO_PLAN || !plan.possible);
	if (plan.possible) {
		assert_true((int)plan.least_spares <= best && best <= (int)plan.spares);
		assert_int_equal(plan.proven, plan.spares == plan.least_spares);
	} else if (plan.proven) {
		assert_int_equal(plan.failed, first_to_fail(made));
	}
	return !plan.proven;
}

TEST(small_rotas_use_as_few_spares_as_the_best_of_all)
{
	unsigned seed = 20261125;
	int possible = 0;
	int given_up = 0;
	for (int round = 0; round < 7000; round++) {
		struct made_up made;
		SCOPED_ARENA arena = {0};
		struct slot_plan plan = {0};
		draw_problem(&seed, &made);
		if (round % 4 == 0) {
			make_early(&made);
		}
		int best = fewest(&made, ~0U);
		slots_solve(&made.problem, &arena, &plan);
		assert_int_equal(plan.possible, best != NO_PLAN);
		check_slots(&made, &plan);
		assert_true(plan.proven);
		possible += plan.possible;
		if (plan.possible) {
			assert_int_equal(plan.spares, best);
			assert_int_equal(plan.failed, SLOT_NONE);
		} else {
			assert_int_equal(plan.failed, first_to_fail(&made));
		}
		given_up += check_hasty(&made, best, &arena);
	}
	/* Both answers are common enough among these to mean something. */
	assert_in_range(possible, 1750, 5250);
	assert_true(given_up > 0);
}

enum { RAFTS = 24 };

/* 24 rafts, each covered, at a station that takes ten days and never shuts; the first may go
 * on day 0, the last on `last`. */
static void
plan_rafts(
    day_t last, int away, size_t spare_count, struct arena *arena, struct slot_plan *out)
{
	static const struct station STATION = {
	    .weekdays = WEEKDAYS_ALL, .name = "a", .base = "", .turn_round_days = 10};
	static const size_t PLACE = 0;
	struct slot_job jobs[RAFTS];
	struct slot_spare spares[RAFTS];
	for (size_t i = 0; i < RAFTS; i++) {
		jobs[i] = (struct slot_job){
		    i, BASE, BASE + last, &PLACE, 1, 1, 0, 0, NULL, 0, NULL, 0};
		spares[i] = (struct slot_spare){{DAY_NONE, DAY_NEVER}, 0};
	}
	struct slot_problem problem = {&STATION, 1, jobs, RAFTS, spares, spare_count,
	    NULL, 0, away, 0, BASE + 365, false, MANY_LOOKS};
	slots_solve(&problem, arena, out);
}

/* Two at a time is 24 / 2 = 12 rounds of 10 days: 120 days from the first hand-in to the last
 * collect. The last round is handed in on day 110. */
TEST(twenty_four_rafts_of_ten_days_two_at_a_time_need_120_days)
{
	SCOPED_ARENA arena = {0};
	struct slot_plan plan = {0};
	plan_rafts(110, 2, RAFTS, &arena, &plan);
	assert_true(plan.possible);
	assert_true(plan.proven);
	assert_int_equal(plan.spares, 2);
	day_t last = 0;
	for (size_t i = 0; i < RAFTS; i++) {
		last = day_max(last, plan.slots[i].collect);
	}
	assert_int_equal(last - BASE, 24 / 2 * 10);
	plan_rafts(109, 2, RAFTS, &arena, &plan);
	assert_false(plan.possible);
	assert_true(plan.proven);
}

/* The same by spares: two do in 120 days, one does not, and three need 24 / 3 * 10 = 80. */
TEST(the_fewest_spares_are_what_the_days_leave_room_for)
{
	SCOPED_ARENA arena = {0};
	struct slot_plan plan = {0};
	plan_rafts(110, 0, RAFTS, &arena, &plan);
	assert_int_equal(plan.spares, 2);
	assert_true(plan.proven);
	plan_rafts(70, 0, RAFTS, &arena, &plan);
	assert_int_equal(plan.spares, 3);
	assert_true(plan.proven);
	plan_rafts(110, 0, 1, &arena, &plan);
	assert_false(plan.possible);
	assert_true(plan.proven);
	/* With one, rounds begin on days 0, 10 ... 110: twelve rafts are in time, the 13th is
	 * the first that is not, and it goes on day 120. */
	size_t done = 0;
	for (size_t i = 0; i < RAFTS; i++) {
		done += !plan.slots[i].late;
	}
	assert_int_equal(done, 12);
	assert_int_equal(plan.failed, 12);
	assert_int_equal(plan.slots[12].hand_in - BASE, 120);
	assert_int_equal(plan.least_spares, 2);
}

/* Two boats at a station that takes ten days, to be handed in by days 40 and 60 and needing no
 * spare. Each goes as late as does, unless the other's trip is near enough to go along. */
TEST(jobs_go_as_late_as_does_or_along_with_others)
{
	static const struct station STATION = {
	    .weekdays = WEEKDAYS_ALL, .name = "a", .base = "", .turn_round_days = 10};
	static const size_t PLACE = 0;
	struct slot_job jobs[] = {
	    {0, BASE, BASE + 40, &PLACE, 1, 1, 1, 0, NULL, 0, NULL, 0},
	    {1, BASE, BASE + 60, &PLACE, 1, 1, 1, 0, NULL, 0, NULL, 0}};
	static const struct slot_spare SPARE = {{DAY_NONE, DAY_NEVER}, 0};
	SCOPED_ARENA arena = {0};
	struct slot_plan plan = {0};
	struct slot_problem problem = {&STATION, 1, jobs, 2, &SPARE, 1, NULL, 0, 0, 19,
	    BASE + 100, false, MANY_LOOKS};
	slots_solve(&problem, &arena, &plan);
	assert_int_equal(plan.slots[0].hand_in - BASE, 40);
	assert_int_equal(plan.slots[1].hand_in - BASE, 60);
	problem.together_days = 20;
	slots_solve(&problem, &arena, &plan);
	assert_int_equal(plan.slots[1].hand_in - BASE, 40);
	/* Not where the one spare would have to be in two boats at once. */
	jobs[0].bare_most = 0;
	jobs[1].bare_most = 0;
	slots_solve(&problem, &arena, &plan);
	assert_int_equal(plan.slots[1].hand_in - BASE, 60);
	assert_int_equal(plan.spares, 1);
}

/* Five days each. A boat has three pieces to hand in and can be without one of them: one
 * on day 0, and two by day 5, of which the second needs a spare from day 5 on, when the
 * other boat's piece, which must go on day 0, has given it back. One spare does for both,
 * and it is not counted as if two were wanted at once. */
TEST(a_spare_that_is_wanted_later_is_counted_once)
{
	static const size_t PLACE = 0;
	const struct station station = {
	    .weekdays = WEEKDAYS_ALL, .name = "a", .base = "", .turn_round_days = 5};
	const struct slot_spare spares[] = {
	    {{DAY_NONE, DAY_NEVER}, 6}, {{DAY_NONE, DAY_NEVER}, 6}};
	struct slot_job jobs[4];
	struct slot_plan plan = {0};
	struct arena arena = {0};
	for (size_t i = 0; i < 4; i++) {
		jobs[i] = (struct slot_job){.boat = i < 3 ? 0 : 1,
		    .first = BASE,
		    .last = i == 1 || i == 2 ? BASE + 5 : BASE,
		    .places = &PLACE,
		    .place_count = 1,
		    .pieces = 1,
		    .bare_most = i < 3 ? 1 : 0};
	}
	const struct slot_problem problem = {.stations = &station,
	    .station_count = 1,
	    .jobs = jobs,
	    .job_count = 4,
	    .spares = spares,
	    .spare_count = 2,
	    .until = BASE + UNTIL,
	    .most_looks = MANY_LOOKS};
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible);
	assert_true(plan.proven);
	assert_int_equal(plan.spares, 1);
	assert_int_equal(plan.least_spares, 1);
	arena_clear(&arena);
}

/* Two alike that must go on day 0, when the first of their two stations is shut: both go
 * to the second. */
TEST(one_that_is_like_another_may_go_to_the_same_station)
{
	/* what stands before the two is none of theirs */
	static const size_t AROUND[] = {1, 1, 0, 1};
	const struct span shut = {BASE, BASE};
	const struct station stations[] = {{.weekdays = WEEKDAYS_ALL,
					       .name = "a",
					       .base = "",
					       .turn_round_days = 5,
					       .shut = &shut,
					       .shut_count = 1},
	    {.weekdays = WEEKDAYS_ALL, .name = "b", .base = "", .turn_round_days = 5}};
	struct slot_job jobs[2];
	struct slot_plan plan = {0};
	struct arena arena = {0};
	for (size_t i = 0; i < 2; i++) {
		jobs[i] = (struct slot_job){.first = BASE,
		    .last = BASE,
		    .places = AROUND + 2,
		    .place_count = 2,
		    .pieces = 1,
		    .bare_most = 2};
	}
	const struct slot_problem problem = {.stations = stations,
	    .station_count = 2,
	    .jobs = jobs,
	    .job_count = 2,
	    .until = BASE + UNTIL,
	    .most_looks = MANY_LOOKS};
	slots_solve(&problem, &arena, &plan);
	assert_true(plan.possible);
	for (size_t i = 0; i < 2; i++) {
		assert_int_equal(plan.slots[i].place, 1);
		assert_int_equal(plan.slots[i].hand_in, BASE);
	}
	/* A plan would be made without the search too; whether there is one is the search's. */
	struct slot_problem whether = problem;
	whether.only_whether = true;
	slots_solve(&whether, &arena, &plan);
	assert_true(plan.possible);
	arena_clear(&arena);
}

/* Ten days each. One may go from the first day to the fiftieth, one must on the twentieth
 * and one on the 21st. From the first day on three tens need one at once by the 60th;
 * from the twentieth on two, for no two tens fit into the eleven days up to the 31st.
 * From the 21st on it is one again. */
TEST(the_bound_looks_from_the_first_day_of_each)
{
	static const size_t PLACES[] = {0};
	static const day_t DAYS[3][2] = {{0, 50}, {20, 20}, {21, 21}};
	const struct station station = {
	    .weekdays = WEEKDAYS_ALL, .name = "a", .base = "", .turn_round_days = 10};
	struct slot_job jobs[3];
	struct slot_search search = {0};
	struct arena arena = {0};
	for (size_t i = 0; i < 3; i++) {
		jobs[i] = (struct slot_job){.boat = i,
		    .first = BASE + DAYS[i][0],
		    .last = BASE + DAYS[i][1],
		    .places = PLACES,
		    .place_count = 1,
		    .pieces = 1};
	}
	const struct slot_problem problem = {.stations = &station,
	    .station_count = 1,
	    .jobs = jobs,
	    .job_count = 3,
	    .until = BASE + 2 * UNTIL};
	slot_search_make(&problem, &arena, &search);
	assert_int_equal(slot_bound(&search, 3, true), 2);
	assert_int_equal(slot_bound(&search, 3, false), 2);
	assert_int_equal(slot_bound(&search, 1, true), 1);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
