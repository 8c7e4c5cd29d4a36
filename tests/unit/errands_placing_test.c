/* Things moved along chains of weeks, from placings made by hand: what a search of few
 * looks may leave behind. Costs and moves are derived beside each test. */
#include "becket_test.h"
#include "winter/limits_inside.h"

#include <string.h>

enum { WEEKS = 3, CLASSES_MOST = 4, COLUMNS_MOST = 4 };

#define NEVER WORTH_NEVER

/* Weeks of days, all of them open, with things of one piece. */
struct bench {
	struct limits limits;
	struct limit_stop stop;
	struct limit_week weeks[WEEKS];
	size_t week_of[COLUMNS_MOST];
	int64_t pieces[CLASSES_MOST];
	int64_t one[CLASSES_MOST * COLUMNS_MOST];
	struct placer placer;
	struct arena arena;
};

/* The first week has `days` days, the others one; `one` is what a thing of a class costs
 * on a day, class by class. The last week has room for one piece, the others have
 * none. */
static void
bench_open(struct bench *bench, size_t days, int64_t one[][COLUMNS_MOST], size_t classes)
{
	*bench = (struct bench){0};
	size_t columns = days + WEEKS - 1;
	bench->limits = (struct limits){.classes = classes,
	    .columns = columns,
	    .stops = &bench->stop,
	    .stop_count = 1,
	    .weeks = bench->weeks,
	    .week_count = WEEKS,
	    .week_of = bench->week_of,
	    .pieces = bench->pieces,
	    .one = bench->one,
	    .units = true};
	bench->stop = (struct limit_stop){.count = WEEKS, .columns = columns};
	for (size_t w = 0; w < WEEKS; w++) {
		size_t first = w == 0 ? 0 : days + w - 1;
		bench->weeks[w] =
		    (struct limit_week){.first = first, .count = w == 0 ? days : 1};
		for (size_t i = first; i < first + bench->weeks[w].count; i++) {
			bench->week_of[i] = w;
		}
	}
	for (size_t j = 0; j < classes; j++) {
		bench->pieces[j] = 1;
		memcpy(&bench->one[j * columns], one[j], columns * sizeof *one[j]);
	}
	placer_make(&bench->limits, &bench->arena, &bench->placer);
	bench->placer.most_looks = SIZE_MAX;
	for (size_t i = 0; i < columns; i++) {
		bench->placer.now.open[i] = 1;
	}
	placer_refresh(&bench->placer, NO_ERRAND);
}

/* Puts a thing on a day, in a week with room for so much as is on it. */
static void
put(struct bench *bench, size_t class, size_t column)
{
	bench->placer.now.room[bench->week_of[column]]++;
	placing_put(&bench->placer.now, class, column, 1);
}

/* Two things alike on two days of a full week, at 100 and 300; elsewhere they cost 500.
 * What can only go on the first day of that week pushes the dearer one away, whichever
 * day it is on. */
TEST(of_two_days_of_a_week_the_dearer_one_is_left)
{
	for (size_t dear = 0; dear < 2; dear++) {
		int64_t one[][COLUMNS_MOST] = {
		    {300, 300, NEVER, 500}, {0, NEVER, NEVER, NEVER}};
		struct bench bench;
		one[0][1 - dear] = 100;
		bench_open(&bench, 2, one, 2);
		const struct placing *now = &bench.placer.now;
		put(&bench, 0, 0);
		put(&bench, 0, 1);
		bench.placer.now.room[2] = 1;
		placer_insert(&bench.placer, 1);
		assert_int_equal(placing_things(now, 0, dear), 0);
		assert_int_equal(placing_things(now, 0, 1 - dear), 1);
		assert_int_equal(placing_things(now, 0, 3), 1);
		assert_int_equal(placing_things(now, 1, 0), 1);
		assert_int_equal(now->minor, 600);
		assert_int_equal(now->room[0], 0);
		assert_int_equal(now->room[2], 0);
		assert_false(bench.placer.cut);
		arena_clear(&bench.arena);
	}
}

/* A thing of each of two full weeks costs three less in the other, so that they could be
 * exchanged. What is added would cost nothing in the first, which a chain through that
 * circle would make room in: for ever, or with a third thing that saves 100 in the last
 * week. No such chain is followed: it goes to the last week for 50, where there is
 * room. */
TEST(no_chain_through_a_circle_is_followed)
{
	for (int turn = 0; turn < 2; turn++) {
		int64_t one[][COLUMNS_MOST] = {{4, 1, NEVER}, {1, 4, NEVER},
		    {NEVER, 200, turn == 0 ? NEVER : 100}, {0, NEVER, 50}};
		struct bench bench;
		bench_open(&bench, 1, one, 4);
		struct placer *placer = &bench.placer;
		put(&bench, 0, 0);
		put(&bench, 1, 1);
		put(&bench, 2, 1);
		placer->now.room[2] = 1;
		placer_insert(placer, 3);
		assert_true(placer->cut);
		assert_int_equal(placing_things(&placer->now, 3, 2), 1);
		assert_int_equal(placer->now.minor, 4 + 4 + 200 + 50);
		assert_int_equal(placer->now.left_out, 0);
		/* nor is anything drawn into a week by one */
		assert_false(placer_price_rooms(placer));
		placer->cut = false;
		placer->now.room[2] = 1;
		placer_draw_in(placer, 2);
		assert_true(placer->cut);
		assert_int_equal(placer->now.minor, 4 + 4 + 200 + 50);
		arena_clear(&bench.arena);
	}
}

/* Beside a full week at 10, room elsewhere is worth what moving there saves; with no
 * looks left nothing is drawn in, and it is said. */
TEST(what_is_cheaper_in_a_week_with_room_is_drawn_in_while_looks_are_left)
{
	int64_t one[][COLUMNS_MOST] = {{10, NEVER, 3}};
	for (size_t looks = 0; looks < 2; looks++) {
		struct bench bench;
		bench_open(&bench, 1, one, 1);
		struct placer *placer = &bench.placer;
		put(&bench, 0, 0);
		placer->now.room[2] = 2;
		placer->most_looks = looks == 0 ? 0 : SIZE_MAX;
		placer_draw_in(placer, 2);
		assert_int_equal(placer->cut, looks == 0);
		assert_int_equal(placer->now.minor, looks == 0 ? 10 : 3);
		assert_int_equal(placer->now.room[2], looks == 0 ? 2 : 1);
		arena_clear(&bench.arena);
	}
}

RUN_TESTS(NULL, NULL)
