/* An item seen as it is not: with a task done, aboard another boat, withdrawn. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"
#define RENEW                                                                            \
	"  - id: life\n    kinds: [tether]\n    task: renew\n    doer: owner\n"          \
	"    grade: law\n    clocks:\n      - { from: [fitted], months: 24 }\n"          \
	"      - { from: [event], events: [used] }\n" SOURCE

/* A tether fitted on 1 May 2024, seen as renewed on 1 June 2026. */
static struct obligation
renewed(struct scene *scene, const struct extension *extension, const struct event *event)
{
	struct obligation due = {0};
	scene_open(scene, RENEW);
	struct item *tether = scene_item(scene, "tether");
	tether->fitted = stamp_of("2024-05-01");
	tether->extensions = extension;
	tether->extension_count = extension == NULL ? 0 : 1;
	tether->events = event;
	tether->event_count = event == NULL ? 0 : 1;
	scene_engine(scene);
	due_if_done(
	    &scene->engine, 0, TASK_RENEW, day_of("2026-06-01"), &scene->arena, &due);
	return due;
}

TEST(what_is_new_has_no_part_in_the_old_one_s_extension)
{
	CLOSES_SCENE struct scene scene;
	const struct extension more = {.task = TASK_RENEW,
	    .until = day_of("2031-01-01"),
	    .paper = "MA 1",
	    .given = day_of("2026-04-01")};
	struct obligation due = renewed(&scene, &more, NULL);
	assert_int_equal(due.good_through, day_of("2028-06-01"));
}

/* First after five years, then every year: renewed, it is a year's, as the book has it once
 * the renewal is on record. */
TEST(a_renewal_is_itself_the_last_one)
{
	static const char *const CLOCKS[] = {"{ from: [last], months: 12 }",
	    "{ from: [fitted], months: 60, holds: first }\n"
	    "      - { from: [last], months: 12, holds: again }"};
	for (size_t i = 0; i < 2; i++) {
		char rules[512];
		struct scene scene;
		struct obligation due = {0};
		(void)snprintf(rules, sizeof rules,
		    "  - id: cells\n    kinds: [epirb]\n    task: renew\n"
		    "    doer: station\n    grade: law\n    clocks:\n      - %s\n" SOURCE,
		    CLOCKS[i]);
		scene_open(&scene, rules);
		scene_item(&scene, "epirb")->fitted = stamp_of("2022-05-01");
		scene_engine(&scene);
		due_if_done(&scene.engine, 0, TASK_RENEW, day_of("2026-06-01"),
		    &scene.arena, &due);
		assert_int_equal(due.state, STATE_IN_DATE);
		assert_int_equal(due.due, day_of("2027-06-01"));
		scene_close(&scene);
	}
}

TEST(what_is_new_has_not_been_used)
{
	CLOSES_SCENE struct scene scene;
	const struct event used = {.kind = EVENT_USED, .on = day_of("2026-05-01")};
	struct obligation due = renewed(&scene, NULL, &used);
	assert_int_equal(due.state, STATE_IN_DATE);
	assert_int_equal(due.due, day_of("2028-06-01"));
}

TEST(what_is_withdrawn_has_no_tasks)
{
	CLOSES_SCENE struct scene scene;
	struct obligation *obligations = &(struct obligation){0};
	size_t count = 7;
	scene_open(&scene, RENEW);
	scene_item(&scene, "tether")->state = PLACE_WITHDRAWN;
	scene_engine(&scene);
	due_of_item(
	    &scene.engine, 0, day_of("2026-06-01"), &scene.arena, &obligations, &count);
	assert_null(obligations);
	assert_int_equal(count, 0);
}

/* Two years from fitting on commercial boats alone: the first is private, the second is not. */
TEST(a_spare_is_judged_by_the_boat_it_would_be_aboard)
{
	CLOSES_SCENE struct scene scene;
	struct obligation *obligations = NULL;
	size_t count = 0;
	scene_open(&scene,
	    "  - id: hire\n    kinds: [tether]\n    when: {use: commercial}\n"
	    "    task: renew\n    doer: owner\n    grade: law\n"
	    "    clocks:\n      - { from: [fitted], months: 24 }\n" SOURCE);
	scene_item(&scene, "tether")->fitted = stamp_of("2024-05-01");
	struct period let = scene.periods[0];
	let.use = USE_COMMERCIAL;
	struct vessel vessels[2] = {scene.vessel, scene.vessel};
	vessels[1].name = "Let";
	vessels[1].periods = &let;
	scene.inventory.vessels = vessels;
	scene.inventory.vessel_count = 2;
	const struct rulebook *rulebooks[2] = {scene.rulebook, scene.rulebook};
	scene_engine(&scene);
	scene.engine.rulebooks = rulebooks;
	due_of_item_aboard(&scene.engine,
	    (struct item_aboard){0, 1, day_of("2026-06-01")}, &scene.arena, &obligations,
	    &count);
	assert_int_equal(count, 1);
	assert_int_equal(obligations[0].due, day_of("2026-05-01"));
	due_of_item(
	    &scene.engine, 0, day_of("2026-06-01"), &scene.arena, &obligations, &count);
	assert_int_equal(count, 0);
}

/* A look each month and a look each year: of one task, the yearly one is told first. */
TEST(the_routine_of_a_task_comes_behind_it)
{
	CLOSES_SCENE struct scene scene;
	struct obligation *obligations = NULL;
	size_t count = 0;
	scene_open(&scene,
	    "  - id: monthly\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"
	    "    grade: maker\n    clocks:\n      - { from: [last], months: 1 }\n" SOURCE
	    "  - id: yearly\n    kinds: [tether]\n    task: inspect\n    doer: owner\n"
	    "    grade: maker\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	scene_record(&scene, tether, TASK_INSPECT, "2026-05-01", NULL);
	scene_engine(&scene);
	due_of_item(
	    &scene.engine, 0, day_of("2026-05-02"), &scene.arena, &obligations, &count);
	assert_int_equal(count, 2);
	assert_false(obligations[0].routine);
	assert_true(obligations[1].routine);
}

/* The contents bind, by a rule of commercial boats; the flare inside is good through June
 * 2026. Lent to a boat that is let, the raft goes there with what is inside of it. */
TEST(what_is_inside_of_a_spare_goes_where_it_goes)
{
	CLOSES_SCENE struct scene scene;
	struct obligation *obligations = NULL;
	size_t count = 0;
	scene_open(&scene,
	    "  - id: hire\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n"
	    "    clocks:\n      - { from: [packed], months: 60 }\n" SOURCE
	    "  - id: flare\n    kinds: [flare-red-hand]\n    when: {use: commercial}\n"
	    "    task: renew\n    doer: owner\n    grade: law\n"
	    "    clocks:\n      - { from: [made], months: 24 }\n" SOURCE);
	scene_item(&scene, "liferaft-canister")->packed = stamp_of("2025-01-01");
	struct item *flare = scene_item(&scene, "flare-red-hand");
	flare->parent = 0;
	flare->made = stamp_of("2024-06-30");
	struct period let = scene.periods[0];
	let.use = USE_COMMERCIAL;
	struct vessel vessels[2] = {scene.vessel, scene.vessel};
	vessels[1].periods = &let;
	scene.inventory.vessels = vessels;
	scene.inventory.vessel_count = 2;
	const struct rulebook *rulebooks[2] = {scene.rulebook, scene.rulebook};
	scene_engine(&scene);
	scene.engine.rulebooks = rulebooks;
	static const char *const DUE[] = {"2030-01-01", "2026-06-30"};
	for (size_t i = 0; i < 2; i++) {
		due_of_item_aboard(&scene.engine,
		    (struct item_aboard){0, i, day_of("2026-01-01")}, &scene.arena,
		    &obligations, &count);
		assert_int_equal(count, 1);
		assert_int_equal(obligations[0].due, day_of(DUE[i]));
	}
}

/* Serviced every two years, and no later than its contents: the water is good through June 2027,
 * the flares through June 2029. What lapses before the next service, which is that of 10 December
 * 2028, is renewed at this one (MSC.1/Circ.1328 6.1.5: read), so the water does not make the raft
 * due again sooner. A look at the raft renews nothing: it is as good as the water. */
TEST(what_is_inside_is_renewed_with_a_service_and_with_nothing_else)
{
	CLOSES_SCENE struct scene scene;
	struct obligation due = {0};
	scene_open(&scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE
	    "  - id: look\n    kinds: [liferaft-canister]\n    task: inspect\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE);
	(void)scene_item(&scene, "liferaft-canister");
	static const char *const MARKS[] = {"2027-06", "2029-06"};
	for (size_t i = 0; i < 2; i++) {
		struct item *part = scene_item(&scene, "raft-contents");
		part->parent = 0;
		part->expires = stamp_of(MARKS[i]);
	}
	scene_engine(&scene);
	due_if_done(
	    &scene.engine, 0, TASK_SERVICE, day_of("2026-12-10"), &scene.arena, &due);
	assert_int_equal(due.due, day_of("2028-12-10"));
	due_if_done(
	    &scene.engine, 0, TASK_INSPECT, day_of("2026-12-10"), &scene.arena, &due);
	assert_int_equal(due.due, day_of("2027-06-30"));
}

/* A part that is good for a year from the day it is fitted is new with the service of 10 December
 * 2026, and the raft no longer good than it: to 10 December 2027, not to that of 2028. */
TEST(what_is_renewed_with_a_service_binds_by_its_own_new_date)
{
	CLOSES_SCENE struct scene scene;
	struct obligation due = {0};
	scene_open(&scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [fitted], months: 12 }\n" SOURCE);
	(void)scene_item(&scene, "liferaft-canister");
	struct item *part = scene_item(&scene, "raft-contents");
	part->parent = 0;
	part->fitted = stamp_of("2025-11-20");
	scene_engine(&scene);
	due_if_done(
	    &scene.engine, 0, TASK_SERVICE, day_of("2026-12-10"), &scene.arena, &due);
	assert_int_equal(due.due, day_of("2027-12-10"));
}

RUN_TESTS(NULL, NULL)
