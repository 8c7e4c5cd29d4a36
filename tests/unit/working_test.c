/* Working parts: what a firing head or a cylinder that is out means for its jacket. */
#include "becket_test.h"
#include "muster/muster.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"

#define SHEET                                                                               \
	"  - id: cylinder-law\n    kinds: [gas-cylinder]\n    task: renew\n"                \
	"    doer: owner\n    grade: law\n    clocks:\n"                                    \
	"      - { from: [made], months: 60 }\n" SOURCE                                     \
	"  - id: head-practice\n    kinds: [firing-head]\n    task: renew\n"                \
	"    when: { marked: no }\n    doer: owner\n    grade: practice\n    clocks:\n"     \
	"      - { from: [made], months: 36 }\n" SOURCE                                     \
	"  - id: light-law\n    kinds: [lifejacket-light]\n    task: renew\n"               \
	"    doer: owner\n    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE \
	"carriage:\n  - id: jackets\n    title: jackets\n    need: {points: 1}\n"           \
	"    serves:\n      - kinds: [lifejacket-auto]\n        points: 1\n" SOURCE

/* A jacket, and a part of a kind inside it. */
static struct item *
jacket_with(struct scene *scene, const char *kind)
{
	scene_open(scene, SHEET);
	(void)scene_item(scene, "lifejacket-auto");
	struct item *part = scene_item(scene, kind);
	part->parent = 0;
	return part;
}

static struct working
working_on(struct scene *scene, const char *day)
{
	struct working working = {0};
	scene_engine(scene);
	due_working(&scene->engine, 0, 0, day_of(day), &scene->arena, &working);
	return working;
}

/* The last day she is all right, seen from a day; DAY_NONE when she is short then. */
static day_t
good_through(struct scene *scene, const char *day)
{
	struct muster muster = {0};
	(void)working_on(scene, day);
	muster_vessel(&scene->engine, 0, (struct span){day_of(day), day_of(day)},
	    &scene->arena, &muster);
	return muster.good_through;
}

TEST(a_jacket_counts_until_its_firing_head_expires)
{
	CLOSES_SCENE struct scene scene;
	struct item *head = jacket_with(&scene, "firing-head");
	head->expires = stamp_of("2025-06");
	assert_int_equal(good_through(&scene, "2025-01-01"), day_of("2025-06-30"));
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NONE);
	struct working working = working_on(&scene, "2026-01-01");
	assert_int_equal(working.trouble, PART_LAPSED);
	assert_int_equal(working.part, 1);
}

/* The light of a jacket is no working part: the jacket counts, and the light is remarked. */
TEST(a_lapsed_part_of_another_sort_is_a_remark)
{
	CLOSES_SCENE struct scene scene;
	struct item *light = jacket_with(&scene, "lifejacket-light");
	struct muster muster = {0};
	struct span day = {day_of("2026-01-01"), day_of("2026-01-01")};
	light->expires = stamp_of("2025-12");
	(void)working_on(&scene, "2026-01-01");
	muster_vessel(&scene.engine, 0, day, &scene.arena, &muster);
	assert_true(muster.ok);
	assert_int_equal(muster.lines[0].remarks.count, 0);
	assert_int_equal(muster.lines[0].parts.count, 1);
	assert_int_equal(muster.lines[0].parts.items[0], 1);
	/* good through its last day */
	light->expires = stamp_of("2026-01");
	muster_vessel(&scene.engine, 0, day, &scene.arena, &muster);
	assert_int_equal(muster.lines[0].parts.count, 0);
}

TEST(each_lapsed_part_is_remarked_whatever_its_place_among_them)
{
	CLOSES_SCENE struct scene scene;
	struct muster muster = {0};
	struct span day = {day_of("2026-01-01"), day_of("2026-01-01")};
	jacket_with(&scene, "lifejacket-light")->expires = stamp_of("2027-12");
	struct item *second = scene_item(&scene, "lifejacket-light");
	second->parent = 0;
	second->expires = stamp_of("2025-12");
	(void)working_on(&scene, "2026-01-01");
	muster_vessel(&scene.engine, 0, day, &scene.arena, &muster);
	assert_int_equal(muster.lines[0].parts.count, 1);
	assert_int_equal(muster.lines[0].parts.items[0], 2);
}

TEST(a_part_lapsed_by_common_practice_takes_nothing_out)
{
	CLOSES_SCENE struct scene scene;
	struct item *head = jacket_with(&scene, "firing-head");
	head->made = stamp_of("2020-01-01");
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_FINE);
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NEVER);
	/* nor does one of unknown date that practice alone would date */
	head->made = (struct stamp){0};
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NEVER);
}

TEST(a_cylinder_that_the_law_should_date_and_can_not_takes_the_jacket_out)
{
	CLOSES_SCENE struct scene scene;
	struct item *cylinder = jacket_with(&scene, "gas-cylinder");
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NONE);
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_NOT_KNOWN);
	/* 60 months from manufacture */
	cylinder->made = stamp_of("2023-04-10");
	assert_int_equal(good_through(&scene, "2026-01-01"), day_of("2028-04-10"));
}

/* Weighed, and in date by that paper to 2030; its 60 months from manufacture ended in April
 * 2025. */
TEST(each_task_of_a_working_part_is_looked_at)
{
	CLOSES_SCENE struct scene scene;
	struct item *cylinder = jacket_with(&scene, "gas-cylinder");
	cylinder->made = stamp_of("2020-04-10");
	scene_record(&scene, cylinder, TASK_WEIGH, "2025-05-01", "2030-05-01");
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_LAPSED);
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NONE);
}

TEST(a_part_ashore_or_gone_without_another_in_its_place_takes_the_jacket_out)
{
	CLOSES_SCENE struct scene scene;
	struct item *head = jacket_with(&scene, "firing-head");
	head->state = PLACE_LANDED;
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_LANDED);
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NONE);
	head->state = PLACE_WITHDRAWN;
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_GONE);
	assert_true(due_part_is_missed(&scene.engine, 1));
	scene.items[0].state = PLACE_WITHDRAWN; /* no one misses it then */
	assert_false(due_part_is_missed(&scene.engine, 1));
	scene.items[0].state = PLACE_ABOARD;
	struct item *other = scene_item(&scene, "firing-head");
	other->parent = 0;
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_FINE);
	assert_false(due_part_is_missed(&scene.engine, 1));
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NEVER);
}

TEST(a_lapsed_light_leaves_the_jacket_in)
{
	CLOSES_SCENE struct scene scene;
	struct item *light = jacket_with(&scene, "lifejacket-light");
	light->expires = stamp_of("2025-06");
	assert_int_equal(good_through(&scene, "2026-01-01"), DAY_NEVER);
}

/* A cylinder in reserve is none of the jacket's in use, and takes nothing out; one that
 * stands in does, once it has lapsed. */
TEST(a_part_in_reserve_says_nothing_and_one_that_stands_in_does)
{
	CLOSES_SCENE struct scene scene;
	struct item *cylinder = jacket_with(&scene, "gas-cylinder");
	cylinder->made = stamp_of("2019-01-01");
	cylinder->state = PLACE_RESERVE;
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_FINE);
	cylinder->state = PLACE_STAND_IN;
	assert_int_equal(working_on(&scene, "2026-01-01").trouble, PART_LAPSED);
}

/* A cylinder that is gone is missed in a jacket that is there, unless another is in its
 * place: one of its kind, there itself. A light is no part without which a jacket does
 * not work. */
TEST(a_part_that_is_gone_is_missed_while_its_whole_is_there)
{
	static const struct {
		enum place_state whole;
		const char *other; /* another part; NULL for none */
		enum place_state there;
		bool missed;
	} ROWS[] = {
	    {PLACE_ABOARD, NULL, PLACE_ABOARD, true},
	    {PLACE_LANDED, NULL, PLACE_ABOARD, true},
	    {PLACE_WITHDRAWN, NULL, PLACE_ABOARD, false},
	    {PLACE_RESERVE, NULL, PLACE_ABOARD, false},
	    {PLACE_ABOARD, "gas-cylinder", PLACE_ABOARD, false},
	    {PLACE_ABOARD, "gas-cylinder", PLACE_LANDED, false},
	    {PLACE_ABOARD, "gas-cylinder", PLACE_RESERVE, true},
	    {PLACE_ABOARD, "gas-cylinder", PLACE_WITHDRAWN, true},
	    {PLACE_ABOARD, "firing-head", PLACE_ABOARD, true},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		jacket_with(&scene, "gas-cylinder")->state = PLACE_WITHDRAWN;
		scene.items[0].state = ROWS[i].whole;
		if (ROWS[i].other != NULL) {
			struct item *other = scene_item(&scene, ROWS[i].other);
			other->parent = 0;
			other->state = ROWS[i].there;
		}
		struct working working = working_on(&scene, "2026-01-01");
		assert_int_equal(due_part_is_missed(&scene.engine, 1), ROWS[i].missed);
		if (ROWS[i].other == NULL) {
			assert_int_equal(working.trouble, PART_GONE);
		}
		assert_false(due_part_is_missed(&scene.engine, 0));
	}
	CLOSES_SCENE struct scene scene;
	struct item *light = jacket_with(&scene, "lifejacket-light");
	light->state = PLACE_WITHDRAWN;
	(void)working_on(&scene, "2026-01-01");
	assert_false(due_part_is_missed(&scene.engine, 1));
	/* it is part of nothing any more */
	light->kind = "gas-cylinder";
	light->parent = ITEM_NO_PARENT;
	(void)working_on(&scene, "2026-01-01");
	assert_false(due_part_is_missed(&scene.engine, 1));
}

/* A look each month that was forgotten makes a remark of the cylinder, and leaves the jacket in. */
TEST(a_routine_of_a_part_takes_nothing_out)
{
	SCENE(scene, "  - id: monthly\n    kinds: [gas-cylinder]\n    task: inspect\n"
		     "    doer: owner\n    grade: law\n    clocks:\n"
		     "      - { from: [last], months: 1 }\n" SOURCE);
	(void)scene_item(&scene, "lifejacket-auto");
	struct item *cylinder = scene_item(&scene, "gas-cylinder");
	cylinder->parent = 0;
	scene_record(&scene, cylinder, TASK_INSPECT, "2025-01-01", NULL);
	struct working working = working_on(&scene, "2026-01-01");
	assert_int_equal(working.trouble, PART_FINE);
	assert_int_equal(working.lapsed.count, 0);
}

/* Without an index of parts nothing is known to have been inside anything. */
TEST(without_an_index_of_parts_none_is_missed)
{
	CLOSES_SCENE struct scene scene;
	jacket_with(&scene, "gas-cylinder")->state = PLACE_WITHDRAWN;
	(void)working_on(&scene, "2026-01-01");
	assert_true(due_part_is_missed(&scene.engine, 1));
	scene.engine.first_part = NULL;
	assert_false(due_part_is_missed(&scene.engine, 1));
}

/* The cylinder is renewed with what is inside it: a light, to be renewed at 30 months and
 * at most 12 later by a rule that holds up to its third year alone. So it never lapses,
 * nor does the cylinder or the jacket. */
TEST(what_never_lapses_inside_a_working_part_takes_nothing_out)
{
	SCENE(scene,
	    "  - id: cylinder\n    kinds: [gas-cylinder]\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - { from: [made], months: 600 }\n" SOURCE
	    "  - id: light\n    kinds: [lifejacket-light]\n    task: renew\n"
	    "    doer: owner\n    grade: law\n    when: { age-until: 36 }\n"
	    "    window: { late: 12 }\n    clocks:\n"
	    "      - { from: [made], months: 30 }\n" SOURCE);
	(void)scene_item(&scene, "lifejacket-auto");
	static const char *const KINDS[] = {"gas-cylinder", "lifejacket-light"};
	for (size_t i = 0; i < 2; i++) {
		struct item *part = scene_item(&scene, KINDS[i]);
		part->parent = i;
		part->made = stamp_of("2024-01-01");
	}
	struct working working = working_on(&scene, "2026-06-01");
	assert_int_equal(working.trouble, PART_FINE);
	assert_false(spans_have(working.lapsed, day_of("2028-01-01")));
	/* 600 months from 2024-01-01 */
	assert_true(spans_have(working.lapsed, day_of("2074-01-02")));
	struct obligation *tasks = NULL;
	size_t count = 0;
	due_of_item(&scene.engine, 1, day_of("2026-06-01"), &scene.arena, &tasks, &count);
	assert_int_equal(count, 1);
	assert_int_equal(tasks[0].state, STATE_IN_DATE);
	assert_false(spans_have(tasks[0].lapsed, day_of("2028-01-01")));
}

RUN_TESTS(NULL, NULL)
