/* What a rota gives out: hand-ins made of its lines, beside those given out before. The
 * rotas are written by hand; nothing is reckoned. */
#include "rota_scene.h"

#include <string.h>

enum { LINES = 5 };

/* Five rafts of a boat, LR-0 to LR-4, and a rota that has them on 1 March 2027 at the
 * loft, in two groups: of two, and of three. */
struct given {
	struct base base;
	char tags[LINES][8];
	struct rota_line lines[LINES];
	struct rota_group groups[2];
	struct rota rota;
	struct settled_hand_in *rows;
	size_t count;
};

static void
open_given(struct given *given)
{
	memset(given, 0, sizeof *given);
	base_open(&given->base);
	for (int i = 0; i < LINES; i++) {
		struct item *item =
		    base_add(&given->base, BOAT, "liferaft-valise", "2026-03-10");
		(void)snprintf(given->tags[i], sizeof given->tags[i], "LR-%d", i);
		item->tag = given->tags[i];
		given->lines[i] = (struct rota_line){.item = (size_t)i,
		    .due = day_of("2027-03-10"),
		    .due_last = day_of("2027-03-20"),
		    .planned = true,
		    .hand_in = day_of("2027-03-01")};
	}
	given->groups[0] = (struct rota_group){.lines = given->lines, .line_count = 2};
	given->groups[1] =
	    (struct rota_group){.lines = given->lines + 2, .line_count = 3};
	given->rota = (struct rota){.groups = given->groups, .group_count = 2};
}

static void
give(struct given *given)
{
	rota_hand_ins(&given->base.ask, &given->rota, &given->base.scene.arena,
	    &given->rows, &given->count);
}

static void
assert_tags(const struct settled_hand_in *row, const char *expected)
{
	char found[64] = "";
	for (size_t i = 0; i < row->tag_count; i++) {
		(void)snprintf(found + strlen(found), sizeof found - strlen(found),
		    "%s%s", i > 0 ? " " : "", row->tags[i]);
	}
	assert_string_equal(found, expected);
}

TEST(what_goes_on_one_day_to_one_station_is_one_hand_in_of_the_base)
{
	CLOSES_SCENE struct given given;
	open_given(&given);
	give(&given);
	assert_int_equal(given.count, 1);
	const struct settled_hand_in *row = &given.rows[0];
	assert_true(row->of_base);
	assert_string_equal(row->owner, "Holm Quay");
	assert_string_equal(row->station, "Loft");
	assert_int_equal(row->winter, 2027);
	assert_int_equal(row->number, 1);
	assert_int_equal(row->given_by, GIVEN_BY_ROTA);
	assert_day(row->day, "2027-03-01");
	assert_day(row->given_on, "2026-11-25");
	assert_tags(row, "LR-0 LR-1 LR-2 LR-3 LR-4");
	for (size_t i = 0; i < row->tag_count; i++) {
		assert_day(row->dues[i], "2027-03-20");
	}
}

/* Another day of that year is the second of its year, another year's the first of its;
 * what has no day is on none. */
TEST(hand_ins_are_numbered_in_their_year)
{
	CLOSES_SCENE struct given given;
	open_given(&given);
	given.lines[1].hand_in = day_of("2027-03-02");
	given.lines[2].hand_in = day_of("2026-12-31");
	given.lines[3].planned = false;
	give(&given);
	assert_int_equal(given.count, 3);
	assert_tags(&given.rows[0], "LR-0 LR-4");
	assert_tags(&given.rows[1], "LR-1");
	assert_int_equal(given.rows[1].number, 2);
	assert_tags(&given.rows[2], "LR-2");
	assert_int_equal(given.rows[2].winter, 2026);
	assert_int_equal(given.rows[2].number, 1);
}

/* Of a boat without a base it is her own; for a station that is still to be found it has no
 * name. */
TEST(a_boat_without_a_base_has_hand_ins_of_her_own)
{
	CLOSES_SCENE struct given given;
	open_given(&given);
	given.base.vessels[BOAT].base = "";
	given.lines[4].station = NO_STATION;
	give(&given);
	assert_int_equal(given.count, 2);
	assert_false(given.rows[0].of_base);
	assert_string_equal(given.rows[0].owner, "Boat");
	assert_string_equal(given.rows[1].station, "");
	assert_int_equal(given.rows[1].number, 1);
}

/* Given out before: the third of the base's to the loft, for 1 March, with LR-9 on it;
 * and the first to elsewhere, for June, with LR-3. The third is gone on with, and LR-3
 * stays where it is, for it was given out for this work. */
TEST(what_was_given_out_is_gone_on_with)
{
	static const char *const NINE[] = {"LR-9"};
	static const char *const THREE[] = {"LR-3"};
	const day_t due = day_of("2027-03-10");
	const struct settled_hand_in settled[] = {{.of_base = true,
						      .owner = "Holm Quay",
						      .winter = 2027,
						      .station = "Loft",
						      .number = 3,
						      .day = day_of("2027-03-01"),
						      .given_by = GIVEN_BY_FEED,
						      .tags = NINE,
						      .dues = &due,
						      .tag_count = 1},
	    {.of_base = true,
		.owner = "Holm Quay",
		.winter = 2027,
		.station = "Elsewhere",
		.number = 1,
		.day = day_of("2027-06-01"),
		.tags = THREE,
		.dues = &due,
		.tag_count = 1}};
	CLOSES_SCENE struct given given;
	open_given(&given);
	given.base.ask.settled = settled;
	given.base.ask.settled_count = 2;
	given.lines[4].hand_in = day_of("2027-04-01");
	give(&given);
	assert_int_equal(given.count, 2);
	assert_tags(&given.rows[0], "LR-9 LR-0 LR-1 LR-2");
	assert_int_equal(given.rows[0].number, 3);
	assert_int_equal(given.rows[0].given_by, GIVEN_BY_FEED);
	assert_day(given.rows[0].dues[0], "2027-03-10");
	assert_day(given.rows[0].dues[1], "2027-03-20");
	assert_tags(&given.rows[1], "LR-4");
	assert_int_equal(given.rows[1].number, 4);
}

/* It was given out for work due a year before, or another's: that is no hand-in of this.
 * LR-1 is on the known hand-in for older work, and is on it but once. */
TEST(what_was_given_out_for_other_work_or_by_another_says_nothing)
{
	static const char *const TAGS[] = {"LR-1", "LR-0"};
	const day_t before[] = {day_of("2026-03-10"), day_of("2026-03-10")};
	const day_t due[] = {day_of("2027-03-10"), day_of("2027-03-10")};
	const struct settled_hand_in settled[] = {{.of_base = true,
						      .owner = "Holm Quay",
						      .winter = 2026,
						      .station = "Loft",
						      .number = 1,
						      .day = day_of("2027-03-01"),
						      .tags = TAGS,
						      .dues = before,
						      .tag_count = 1},
	    {.of_base = false,
		.owner = "Holm Quay",
		.winter = 2027,
		.station = "Loft",
		.number = 7,
		.day = day_of("2027-03-01"),
		.tags = TAGS,
		.dues = due,
		.tag_count = 2},
	    {.of_base = true,
		.owner = "Another Quay",
		.winter = 2027,
		.station = "Loft",
		.number = 8,
		.day = day_of("2027-03-01"),
		.tags = TAGS,
		.dues = due,
		.tag_count = 2}};
	CLOSES_SCENE struct given given;
	open_given(&given);
	given.base.ask.settled = settled;
	given.base.ask.settled_count = 3;
	give(&given);
	assert_int_equal(given.count, 1);
	assert_tags(&given.rows[0], "LR-1 LR-0 LR-2 LR-3 LR-4");
	assert_int_equal(given.rows[0].number, 1);
	assert_day(given.rows[0].dues[0], "2027-03-20");
}

/* Two boats of two bases go on one day to one station: each base has a hand-in of its own. */
TEST(each_base_has_its_own_hand_in)
{
	CLOSES_SCENE struct given given;
	open_given(&given);
	given.base.scene.items[4].vessel = OTHER;
	given.base.vessels[OTHER].base = "Far Quay";
	give(&given);
	assert_int_equal(given.count, 2);
	assert_int_equal(given.rows[0].tag_count + given.rows[1].tag_count, LINES);
}

RUN_TESTS(NULL, NULL)
