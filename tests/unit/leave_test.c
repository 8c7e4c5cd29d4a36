/* The muster while gear with parts is away: what stands in for each part. All days are worked by hand. */
#include "muster/leave.h"

#include "rota_scene.h"

#include <string.h>

/* A lifejacket is serviced by a station every twelve months. One must be there, and so many heads. */
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
	due_item_after(&inventory.items[leave.item], TASK_SERVICE, leave.hand_in,
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

/* A lifebuoy, aboard and in the store, stands before the jacket there, so that neither is the first. */
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

/* The jacket is her second piece, and of her two heads the line wants one: with nothing in its place both
 * lines are short of one from 1 March on; hired, neither is. */
TEST(with_a_piece_its_parts_are_away)
{
	struct base base;
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
	scene_close(&base.scene);
}

/* The spare jacket has one head, and she has two: one is replaced, though it be deep inside another
 * part, and the second goes without. A line that wants one is met, one that wants two is short. Where
 * the spare's head is gone, or in reserve, or there is none, heads are short of what is wanted. */
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
			struct base base;
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
			scene_close(&base.scene);
		}
	}
}

/* Served on 1 June 2026, hers is in date through 1 June 2027; serviced when it was handed in, on 1 March,
 * to the end. The spare was served on 1 October 2026. On the day of the hand-in and the last before the
 * collect the spare is there, which has to count. */
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
		struct base base;
		base_open_of(&base, HEADS("1"));
		(void)base_add(&base, BOAT, "firing-head", "2026-06-01");
		base_add_jackets(&base, BOAT, 1, "2026-06-01");
		base_add_jackets(&base, STORE, 1, ROWS[i].served);
		struct muster muster = away(&base, leave_of(1, LEAVE_SPARE, 2));
		assert_day(muster.first_short, ROWS[i].first_short);
		scene_close(&base.scene);
	}
}

RUN_TESTS(NULL, NULL)
