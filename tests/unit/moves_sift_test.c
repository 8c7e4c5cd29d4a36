/* Which moves out of a state are worth following. Moves and futures are written by hand. */
#include "becket_test.h"
#include "years/moves_inside.h"

#include <stdlib.h>

enum { MOST = 4 };

static struct future here = {.lapses = 0};
static struct future there = {.lapses = 1};

static uint32_t
sift(struct course_move *moves, size_t *count)
{
	struct course_moves all = {.items = moves, .count = *count, .capacity = MOST};
	uint32_t fewest = moves_sift(&all);
	*count = all.count;
	return fewest;
}

/* Two lapse now; one now; and one later, which is as many. The first is left out. */
TEST(what_lets_more_lapse_now_and_later_is_left_out)
{
	struct course_move moves[MOST] = {
	    {.lapses = 2, .after = &here, .minor = 0, .station = ARC_NO_TRIP},
	    {.lapses = 1, .after = &here, .minor = 500, .station = ARC_NO_TRIP},
	    {.lapses = 0, .after = &there, .minor = 900, .station = 0}};
	size_t count = 3;
	assert_int_equal(sift(moves, &count), 1);
	assert_int_equal(count, 2);
	assert_int_equal(moves[0].minor, 500);
	assert_int_equal(moves[1].minor, 900);
}

/* All lead to the same: the dearer one at the same station goes, and the one of more work
 * at the same price; one at another station stays, for its trip may be made anyway. */
TEST(what_leads_to_the_same_for_more_is_left_out)
{
	struct course_move moves[MOST] = {
	    {.after = &here, .minor = 900, .work = 1, .station = 0},
	    {.after = &here, .minor = 500, .work = 2, .station = 0},
	    {.after = &here, .minor = 500, .work = 1, .station = 0},
	    {.after = &here, .minor = 700, .work = 1, .station = 1}};
	size_t count = 4;
	assert_int_equal(sift(moves, &count), 0);
	assert_int_equal(count, 2);
	assert_int_equal(moves[0].minor, 500);
	assert_int_equal(moves[0].work, 1);
	assert_int_equal(moves[1].station, 1);
}

/* Of two alike the first stays; one without a trip spares one with, and is not spared by
 * it, the cheaper. */
TEST(what_needs_no_trip_spares_what_needs_one)
{
	struct course_move alike[MOST] = {{.after = &here,
					      .minor = 500,
					      .work = 1,
					      .station = 0,
					      .to = (const uint32_t[]){7}},
	    {.after = &here, .minor = 500, .work = 1, .station = 0}};
	struct course_move moves[MOST] = {
	    {.after = &here, .minor = 500, .work = 1, .station = 0},
	    {.after = &here, .minor = 500, .work = 1, .station = ARC_NO_TRIP},
	    {.after = &here, .minor = 400, .work = 1, .station = 0}};
	size_t count = 2;
	assert_int_equal(sift(alike, &count), 0);
	assert_int_equal(count, 1);
	assert_non_null(alike[0].to);
	count = 3;
	assert_int_equal(sift(moves, &count), 0);
	assert_int_equal(count, 2);
	assert_int_equal(moves[0].station, ARC_NO_TRIP);
	assert_int_equal(moves[1].minor, 400);
}

/* ---- moves out of a state ---- */

enum { WINTERS = 3 };

/* A whole with two tasks of a station, none being open in three winters, and a part that
 * its owner renews for 5.00: it lapses in the first season as it is, and never once
 * renewed in the first winter. */
struct waiting {
	struct life lives[3]; /* the whole's, the part's, the new part's */
	struct outlook_year years[WINTERS];
	size_t first_there[1];
	struct outlook_ask ask;
	struct outlook_make make;
	struct lives heirs;
	struct member members[2];
	struct unit unit;
	struct laying laying;
	struct arena arena;
};

static void
waiting_moves(struct waiting *waiting, size_t members, const uint32_t *from)
{
	uint64_t digest = digest_mix(DIGEST_START, 1); /* new in winter 0, nothing done */
	for (unsigned task = 0; task < TASK_COUNT; task++) {
		digest = digest_mix(digest, 0);
	}
	*waiting =
	    (struct waiting){.lives = {{.born = -1}, {.born = -1, .fails = {RENEW_BIT}},
				 {.born = 0, .digest = digest}},
		.years = {{.there = true}, {.there = true}, {.there = true}}};
	waiting->ask = (struct outlook_ask){.winters = WINTERS, .renew_now = NO_ITEM};
	waiting->make = (struct outlook_make){.ask = &waiting->ask,
	    .years = waiting->years,
	    .first_there = waiting->first_there};
	waiting->heirs = (struct lives){
	    .make = &waiting->make, .items = &waiting->lives[2], .count = 1};
	waiting->members[0] =
	    (struct member){.own = {.items = &waiting->lives[0], .count = 1},
		.tasks = TASK_BIT(TASK_SERVICE) | TASK_BIT(TASK_TEST),
		.new_minor = -1};
	waiting->members[1] =
	    (struct member){.own = {.items = &waiting->lives[1], .count = 1},
		.heirs = &waiting->heirs,
		.new_minor = 500};
	waiting->unit = (struct unit){
	    .make = &waiting->make, .members = waiting->members, .count = members};
	laying_open(&waiting->unit, &waiting->arena, 0, from, &waiting->laying);
	laying_moves(&waiting->laying);
}

static void
waiting_close(struct waiting *waiting)
{
	free(waiting->laying.moves.items);
	arena_clear(&waiting->arena);
}

/* Nothing is done to the whole alone, and the next visit is in the second winter, the
 * third or never. */
TEST(a_move_says_when_the_next_visit_is)
{
	static const uint32_t FROM[] = {0, 0};
	struct waiting waiting;
	waiting_moves(&waiting, 1, FROM);
	assert_int_equal(waiting.laying.moves.count, WINTERS);
	for (uint32_t i = 0; i < WINTERS; i++) {
		assert_int_equal(waiting.laying.moves.items[i].to[0], 0);
		assert_int_equal(waiting.laying.moves.items[i].to[1], i + 1);
	}
	waiting_close(&waiting);
}

/* The next visit is in the third winter, so in the first the whole waits; its part is
 * renewed all the same. */
TEST(while_the_whole_waits_its_owner_renews_a_part)
{
	static const uint32_t FROM[] = {0, 0, 2};
	struct waiting waiting;
	waiting_moves(&waiting, 2, FROM);
	assert_int_equal(waiting.laying.moves.count, 1);
	const struct course_move *move = &waiting.laying.moves.items[0];
	assert_int_equal(move->acts[0], 0);
	assert_int_equal(move->acts[1], ANOTHER_BIT);
	assert_int_equal(move->to[0], 0);
	assert_int_equal(move->to[1], 1); /* the first life of an heir */
	assert_int_equal(move->to[2], 2);
	assert_int_equal(move->minor, 500);
	assert_int_equal(move->lapses, 0);
	waiting_close(&waiting);
}

RUN_TESTS(NULL, NULL)
