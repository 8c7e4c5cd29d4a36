/* The muster while gear with parts is away: what stands in for each part. All days are
 * worked by hand. */
#include "muster/leave.h"

#include "rota_scene.h"

#include <string.h>

/* A lifejacket is serviced by a station every twelve months. One must be there, and so many
 * heads. */
#define HEADS(count)                                                                     \
	"  - id: jacket\n    kinds: [lifejacket-auto]\n    task: service\n"              \
	"    doer: station\n    grade: law\n    clocks:\n      - from: [last]\n"         \
	"        months: 12\n    source: invented\n    standing: memory\n"               \
	"carriage:\n"                                                                    \
	"  - id: j\n    title: Jackets\n    need: {points: 1}\n    serves:\n"            \
	"      - {kinds: [lifejacket-auto], points: 1}\n"                                \
	"    source: invented\n    standing: memory\n"                                   \
	"  - id: h\n    title: Heads\n    need: {points: " count "}\n    serves:\n"      \
	"      - {kinds: [firing-head], points: 1}\n"                                    \
	"    source: invented\n    standing: memory\n"

/* From 1 to 15 March 2027. */
static struct muster_leave
leave_of(size_t item, enum leave_cover cover, size_t spare)
{
	return (struct muster_leave){
	    item, day_of("2027-03-01"), day_of("2027-03-15"), cover, spare};
}

/* Her muster with that leave, on all days of the year from 25 November 2026. */
static struct muster
away(struct base *base, struct muster_leave leave)
{
	struct muster muster = {0};
	struct scene *scene = &base->scene;
	struct item serviced[SCENE_MOST];
	struct inventory inventory = scene->inventory;
	due_index_parts(&scene->inventory, &scene->arena, &scene->engine.first_part,
	    &scene->engine.next_part);
	struct due_engine done = scene->engine;
	memcpy(serviced, inventory.items, inventory.item_count * sizeof *serviced);
	due_item_after(&inventory.items[leave.item], TASK_SERVICE, leave.hand_in, false,
	    &scene->arena, &serviced[leave.item]);
	inventory.items = serviced;
	done.inventory = &inventory;
	const struct muster_leaves leaves = {BOAT, base->ask.days, &leave, 1, &done};
	muster_on_leave(&scene->engine, &leaves, &scene->arena, &muster);
	return muster;
}

/* Inside `parent`; returns its place. */
static size_t
add_inside(struct base *base, size_t vessel, const char *kind, size_t parent)
{
	base_add(base, vessel, kind, "2026-06-01")->parent = parent;
	return base->scene.item_count - 1;
}

/* A lifebuoy, aboard and in the store, stands before the jacket there, so that neither is
 * the first. */
static void
add_two_jackets(struct base *base, size_t inside, size_t *own, size_t *spare)
{
	(void)base_add(base, BOAT, "lifebuoy", "2026-06-01");
	*own = base->scene.item_count;
	base_add_jackets(base, BOAT, 1, "2026-06-01");
	size_t within = *own;
	for (size_t i = 0; i < inside; i++) {
		within = add_inside(base, BOAT, "gas-cylinder", within);
	}
	(void)add_inside(base, BOAT, "firing-head", within);
	(void)add_inside(base, BOAT, "firing-head", *own);
	(void)base_add(base, STORE, "lifebuoy", "2026-06-01");
	*spare = base->scene.item_count;
	base_add_jackets(base, STORE, 1, "2026-10-01");
}

/* The jacket is her second piece, and of her two heads the line wants one: with nothing
 * in its place both lines are short of one from 1 March on; hired, neither is. */
TEST(with_a_piece_its_parts_are_away)
{
	CLOSES_SCENE struct base base;
	size_t own = 0;
	size_t spare = 0;
	base_open_of(&base, HEADS("1"));
	add_two_jackets(&base, 0, &own, &spare);
	struct muster bare = away(&base, leave_of(own, LEAVE_BARE, 0));
	assert_day(bare.first_short, "2027-03-01");
	assert_int_equal(bare.shortage_count, 2);
	assert_int_equal(bare.shortages[0].most, 1);
	assert_int_equal(bare.shortages[1].most, 1);
	assert_true(away(&base, leave_of(own, LEAVE_HIRED, 0)).ok);
}

/* The spare jacket has one head, and she has two: one is replaced, though it be deep
 * inside another part, and the second goes without. A line that wants one is met, one
 * that wants two is short. Where the spare's head is gone, or in reserve, or there is
 * none, heads are short of what is wanted. */
TEST(a_part_of_the_spare_replaces_one_of_its_kind_however_deep)
{
	static const struct {
		const char *sheet;
		bool has_head;
		enum place_state state;
		int missing;
	} ROWS[] = {
	    {HEADS("1"), true, PLACE_ABOARD, 0},
	    {HEADS("2"), true, PLACE_ABOARD, 1},
	    {HEADS("1"), true, PLACE_RESERVE, 1},
	    {HEADS("1"), false, PLACE_ABOARD, 1},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		for (size_t deep = 0; deep < 3; deep++) {
			CLOSES_SCENE struct base base;
			size_t own = 0;
			size_t spare = 0;
			base_open_of(&base, ROWS[i].sheet);
			add_two_jackets(&base, deep, &own, &spare);
			(void)add_inside(&base, STORE, "lifejacket-light", spare);
			if (ROWS[i].has_head) {
				size_t head =
				    add_inside(&base, STORE, "firing-head", spare);
				base.scene.items[head].state = ROWS[i].state;
			}
			struct muster muster =
			    away(&base, leave_of(own, LEAVE_SPARE, spare));
			assert_int_equal(muster.ok, ROWS[i].missing == 0);
			assert_int_equal(
			    muster.shortage_count, ROWS[i].missing == 0 ? 0 : 1);
			if (ROWS[i].missing > 0) {
				assert_day(muster.first_short, "2027-03-01");
				assert_string_equal(muster.shortages[0].line->id, "h");
				assert_int_equal(
				    muster.shortages[0].most, ROWS[i].missing);
			}
		}
	}
}

/* Served on 1 June 2026, hers is in date through 1 June 2027; serviced when it was handed
 * in, on 1 March, to the end. The spare was served on 1 October 2026. On the day of the
 * hand-in and the last before the collect the spare is there, which has to count. */
TEST(the_days_away_are_from_the_hand_in_to_the_day_before_the_collect)
{
	static const struct {
		const char *served; /* the spare: good for twelve months, itself too */
		const char *first_short;
	} ROWS[] = {
	    {"2026-02-28", "2027-03-01"},
	    {"2026-03-01", "2027-03-02"},
	    {"2026-03-13", "2027-03-14"},
	    {"2026-03-14", ""},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct base base;
		base_open_of(&base, HEADS("1"));
		(void)base_add(&base, BOAT, "firing-head", "2026-06-01");
		base_add_jackets(&base, BOAT, 1, "2026-06-01");
		base_add_jackets(&base, STORE, 1, ROWS[i].served);
		struct muster muster = away(&base, leave_of(1, LEAVE_SPARE, 2));
		assert_day(muster.first_short, ROWS[i].first_short);
	}
}

/* ---- what she can do without ---- */

#define LINE(need, serves)                                                                     \
	"  - id: a\n    kinds: [extinguisher-foam]\n    task: service\n"                       \
	"    doer: station\n    grade: law\n    clocks:\n      - {from: [last], months: 99}\n" \
	"    source: invented\n    standing: memory\n"                                         \
	"carriage:\n  - id: l\n    title: L\n    need: {points: " need "}\n"                   \
	"    source: invented\n    standing: memory\n    serves:\n" serves

/* Two small pieces, then two of more worth, by their size, number, rating or place. Any
 * one may be away. Were a piece of more worth taken for the twin of a small one that
 * stays, two would seem to be. By hand, of 2, 2, 6 and 6 ten are needed: without 2 and 6
 * there are eight. Of four extinguishers, two of them at the galley, one there is needed:
 * without both there is none. */
TEST(pieces_that_differ_in_anything_are_no_twins)
{
	static const struct {
		const char *sheet;
		int capacity, quantity;
		const char *rating, *place;
	} ROWS[] = {
	    {LINE("10", "      - {kinds: [extinguisher-foam], points: capacity}\n"), 6, 1,
		"5-B", ""},
	    {LINE("5", "      - {kinds: [extinguisher-foam], points: 1}\n"), 2, 3, "5-B",
		""},
	    {LINE("5", "      - {kinds: [extinguisher-foam], points: 1}\n"
		       "      - {kinds: [extinguisher-foam], points: 3, rating: 20-B}\n"),
		2, 1, "20-B", ""},
	    {LINE("1", "      - {kinds: [extinguisher-foam], points: 1}\n"
		       "    places: [galley]\n"),
		2, 1, "5-B", "galley"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct base base;
		size_t pieces[] = {0, 1, 2, 3};
		struct muster_spareable found = {0};
		base_open_of(&base, ROWS[i].sheet);
		for (size_t j = 0; j < 4; j++) {
			struct item *item =
			    base_add(&base, BOAT, "extinguisher-foam", "2026-06-01");
			item->capacity = j < 2 ? 2 : ROWS[i].capacity;
			item->quantity = j < 2 ? 1 : ROWS[i].quantity;
			item->rating = j < 2 ? "5-B" : ROWS[i].rating;
			item->place =
			    j < 2 || ROWS[i].place[0] == '\0' ? "saloon" : ROWS[i].place;
		}
		const struct muster_sparing asked = {
		    BOAT, base.ask.days, {pieces, 4}, {pieces, 4}};
		muster_spareable(&base.scene.engine, &asked, &base.scene.arena, &found);
		for (size_t j = 0; j < 4; j++) {
			assert_false(found.needed[j]);
		}
		if (found.most != 1) {
			fail_msg("row %zu: %d", i, found.most);
		}
	}
}

/* Of rafts for 8, 2, 2 and 2 ten are needed: that for 8 is needed, and of the others two
 * may be away at once, for 8 and 2 are ten; not all three. */
TEST(of_the_pieces_that_are_not_needed_as_many_as_leave_enough_may_be_away)
{
	CLOSES_SCENE struct base base;
	size_t pieces[] = {0, 1, 2, 3};
	struct muster_spareable found = {0};
	base_open_of(&base,
	    LINE("10", "      - {kinds: [extinguisher-foam], points: capacity}\n"));
	for (size_t i = 0; i < 4; i++) {
		base_add(&base, BOAT, "extinguisher-foam", "2026-06-01")->capacity =
		    i == 0 ? 8 : 2;
	}
	const struct muster_sparing asked = {
	    BOAT, base.ask.days, {pieces, 4}, {pieces, 4}};
	muster_spareable(&base.scene.engine, &asked, &base.scene.arena, &found);
	assert_int_equal(found.most, 2);
	for (size_t i = 0; i < 4; i++) {
		assert_int_equal(found.needed[i], i == 0);
	}
}

/* Of two that are just enough both are needed, and none may be away. */
TEST(where_all_are_needed_none_may_be_away)
{
	CLOSES_SCENE struct base base;
	size_t pieces[] = {0, 1};
	struct muster_spareable found = {0};
	base_open_of(&base,
	    LINE("10", "      - {kinds: [extinguisher-foam], points: capacity}\n"));
	for (size_t i = 0; i < 2; i++) {
		base_add(&base, BOAT, "extinguisher-foam", "2026-06-01")->capacity = 5;
	}
	const struct muster_sparing asked = {
	    BOAT, base.ask.days, {pieces, 2}, {pieces, 2}};
	muster_spareable(&base.scene.engine, &asked, &base.scene.arena, &found);
	assert_true(found.needed[0] && found.needed[1]);
	assert_int_equal(found.most, 0);
}

/* Of nothing nothing can be away. */
TEST(of_no_pieces_none_is_spareable)
{
	CLOSES_SCENE struct base base;
	struct muster_spareable found = {0};
	base_open_of(&base, HEADS("1"));
	const struct muster_sparing asked = {.vessel = BOAT, .days = base.ask.days};
	muster_spareable(&base.scene.engine, &asked, &base.scene.arena, &found);
	assert_int_equal(found.most, 0);
	assert_true(muster_kinds_meet(
	    &base.scene.engine, BOAT, "lifejacket-auto", "lifejacket-auto"));
	assert_false(muster_kinds_meet(
	    &base.scene.engine, BOAT, "lifejacket-auto", "firing-head"));
	assert_false(muster_kinds_meet(
	    &base.scene.engine, BOAT, "firing-head", "lifejacket-auto"));
}

/* Serviced on 1 June 2026 a jacket counts through 1 June 2027. A head has no clock, and
 * counts for ever; what has lapsed, is of unknown date or is not there does not count. */
TEST(a_spare_counts_through_its_last_good_day_and_for_ever_without_a_clock)
{
	CLOSES_SCENE struct base base;
	day_t last = 0;
	base_open_of(&base, HEADS("1"));
	base_add_jackets(&base, STORE, 1, "2026-06-01");
	(void)base_add(&base, STORE, "firing-head", "2026-06-01");
	base_add_jackets(&base, STORE, 1, "2025-06-01");
	base_add_jackets(&base, STORE, 1, "2026-06-01");
	base_add_jackets(&base, STORE, 1, "2026-06-01");
	base.scene.items[3].record_count = 0;
	base.scene.items[4].state = PLACE_LANDED;
	due_index_parts(&base.scene.inventory, &base.scene.arena,
	    &base.scene.engine.first_part, &base.scene.engine.next_part);
	static const char *const LAST[] = {"2027-06-01", NULL, "", "", ""};
	for (size_t i = 0; i < 5; i++) {
		muster_counts_through(&base.scene.engine, i, BOAT, day_of("2026-11-25"),
		    &base.scene.arena, &last);
		if (LAST[i] == NULL) {
			assert_int_equal(last, DAY_NEVER);
		} else {
			assert_day(last, LAST[i]);
		}
	}
}

/* Made in March 2023 it is to be looked over by practice every year: counted all the
 * same, and named as such before it goes, while it is away and when it is back. */
TEST(a_remark_stays_with_a_piece_that_goes_ashore)
{
	CLOSES_SCENE struct base base;
	base_open_of(&base,
	    "  - id: look\n    kinds: [lifejacket-auto]\n    task: inspect\n"
	    "    doer: owner\n    grade: practice\n    clocks:\n"
	    "      - {from: [made], months: 12}\n    source: invented\n"
	    "    standing: memory\n" HEADS("1"));
	(void)base_add(&base, BOAT, "firing-head", "2026-06-01");
	base_add_jackets(&base, BOAT, 1, "2026-11-01");
	static const char *const FROM[] = {"2026-11-25", "2027-03-20"};
	for (size_t i = 0; i < 2; i++) {
		base.ask.days.first = day_of(FROM[i]);
		struct muster muster = away(&base, leave_of(1, LEAVE_HIRED, 0));
		assert_true(muster.ok);
		assert_string_equal(muster.lines[0].line->id, "j");
		assert_int_equal(muster.lines[0].remarks.count, 1);
	}
}

/* Without an index of parts the jacket is away alone, and its heads, which nobody knows
 * to be inside, stay. */
TEST(without_an_index_of_parts_a_piece_goes_alone)
{
	CLOSES_SCENE struct base base;
	struct muster muster = {0};
	base_open_of(&base, HEADS("1"));
	base_add_jackets(&base, BOAT, 1, "2026-06-01");
	(void)add_inside(&base, BOAT, "firing-head", 0);
	base_add_jackets(&base, STORE, 1, "2026-10-01");
	base.scene.engine.first_part = NULL;
	base.scene.engine.next_part = NULL;
	const struct muster_leave leave = leave_of(0, LEAVE_SPARE, 2);
	const struct muster_leaves leaves = {
	    BOAT, base.ask.days, &leave, 1, &base.scene.engine};
	muster_on_leave(&base.scene.engine, &leaves, &base.scene.arena, &muster);
	assert_int_equal(muster.line_count, 2);
}

/* Twelve pieces, each of a size of its own, of which any will do: all twos and threes are
 * looked at, 66 and 220 of them, the 495 fours are too many. So three are said to be
 * spareable, and no more. */
TEST(of_too_many_choices_only_what_was_looked_at_is_said_to_be_spareable)
{
	CLOSES_SCENE struct base base;
	size_t pieces[12];
	struct muster_spareable found = {0};
	base_open_of(
	    &base, LINE("1", "      - {kinds: [extinguisher-foam], points: capacity}\n"));
	for (size_t i = 0; i < 12; i++) {
		pieces[i] = i;
		base_add(&base, BOAT, "extinguisher-foam", "2026-06-01")->capacity =
		    (int)i + 1;
	}
	const struct muster_sparing asked = {
	    BOAT, base.ask.days, {pieces, 12}, {pieces, 12}};
	muster_spareable(&base.scene.engine, &asked, &base.scene.arena, &found);
	assert_int_equal(found.most, 3);
}

/* Made in March 2023, to be looked over by practice every year: it counts all the same,
 * and for ever. */
TEST(a_spare_with_a_remark_counts)
{
	CLOSES_SCENE struct base base;
	day_t last = 0;
	base_open_of(&base, "  - id: look\n    kinds: [firing-head]\n    task: inspect\n"
			    "    doer: owner\n    grade: practice\n    clocks:\n"
			    "      - {from: [made], months: 12}\n    source: invented\n"
			    "    standing: memory\n" HEADS("1"));
	base_add(&base, STORE, "firing-head", "2026-06-01")->made = stamp_of("2023-03");
	muster_counts_through(
	    &base.scene.engine, 0, BOAT, day_of("2026-11-25"), &base.scene.arena, &last);
	assert_int_equal(last, DAY_NEVER);
}

RUN_TESTS(NULL, NULL)
