/* Which moves out of a state are worth following. Moves and futures are written by hand. */
#include "becket_test.h"
#include "years/moves_inside.h"

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

/* All lead to the same: the dearer one at the same station goes, and the one of more work at the same price; one at
 * another station stays, for its trip may be made anyway. */
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

/* Of two alike the first stays; one without a trip spares one with, and is not spared by it, the cheaper. */
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

RUN_TESTS(NULL, NULL)
