/* A renewal that is a refit: what is in a thing is new, and the thing is the same. The days are
 * reckoned by hand from the figures that stand beside each rule. */
#include "becket_test.h"
#include "scene.h"

#define SOURCE "    source: test\n    standing: common practice\n"
#define EPIRB "    kinds: [epirb]\n"

/* SOLAS IV/15.9 with MSC/Circ.1040: tested yearly; IV/15.9.2: maintained ashore within five years
 * (both relayed). Australia: registered anew after two years (AMSA). The battery goes by its
 * printed date, and a beacon that was used has a new one before it goes back (GMDSS course). */
#define BEACON                                                                           \
	"  - id: maintenance\n" EPIRB "    task: service\n    doer: station\n"           \
	"    grade: law\n    clocks:\n"                                                  \
	"      - { from: [fitted, bought, made], months: 60, holds: first }\n"           \
	"      - { from: [last], months: 60, holds: again }\n" SOURCE                    \
	"  - id: yearly\n" EPIRB "    task: inspect\n    doer: authority\n"              \
	"    grade: law\n    clocks:\n"                                                  \
	"      - { from: [fitted, bought, made], months: 12, holds: first }\n"           \
	"      - { from: [last], months: 12, holds: again }\n"                           \
	"    window: { early: 3, next: from-due-even-late }\n" SOURCE                    \
	"  - id: registration\n" EPIRB "    task: register\n    doer: authority\n"       \
	"    grade: law\n    clocks:\n      - { from: [last], months: 24 }\n" SOURCE     \
	"  - id: battery\n" EPIRB "    task: renew\n    doer: station\n"                 \
	"    grade: practice\n    clocks:\n      - { from: [marked] }\n" SOURCE          \
	"  - id: used\n" EPIRB "    task: renew\n    doer: station\n"                    \
	"    grade: practice\n    clocks:\n      - { from: [event] }\n" SOURCE

/* A beacon of 2020 with a battery of six years, maintained, tested each year and registered. */
static struct item *
beacon_of_2020(struct scene *scene)
{
	struct item *beacon = scene_item(scene, "epirb");
	beacon->made = stamp_of("2020-01");
	beacon->fitted = stamp_of("2020-03-10");
	beacon->expires = stamp_of("2026-06");
	scene_record(scene, beacon, TASK_INSPECT, "2021-03-01", NULL);
	scene_record(scene, beacon, TASK_INSPECT, "2022-03-01", NULL);
	scene_record(scene, beacon, TASK_INSPECT, "2023-03-01", NULL);
	scene_record(scene, beacon, TASK_INSPECT, "2024-03-01", NULL);
	scene_record(scene, beacon, TASK_SERVICE, "2024-03-10", NULL);
	scene_record(scene, beacon, TASK_INSPECT, "2025-03-01", NULL);
	scene_record(scene, beacon, TASK_REGISTER, "2025-06-15", NULL);
	scene_record(scene, beacon, TASK_INSPECT, "2026-02-20", NULL);
	return beacon;
}

/* A refit, and the mark of what was put in; "" for none. */
static void
refit(struct scene *scene, struct item *item, const char *on, const char *expires)
{
	scene_record(scene, item, TASK_RENEW, on, NULL);
	scene->records[item - scene->items][item->record_count - 1].refit = true;
	item->expires = stamp_of(expires);
}

TEST(a_new_battery_leaves_a_beacon_its_service_its_test_and_its_registration)
{
	SCENE(scene, BEACON);
	struct item *beacon = beacon_of_2020(&scene);
	const char *today = "2026-05-02";
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, today), "2026-06-30");
	refit(&scene, beacon, today, "2031-05");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, today), "2031-05-31");
	/* five years from 10 March 2024 */
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_SERVICE, today), "2029-03-10");
	/* fitted on 10 March 2020, and tested within the three months before each 10 March since */
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_INSPECT, today), "2027-03-10");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_REGISTER, today), "2027-06-15");
}

TEST(a_beacon_that_was_used_is_out_until_its_battery_is_new)
{
	SCENE(scene, BEACON);
	struct item *beacon = beacon_of_2020(&scene);
	const struct event used = {.kind = EVENT_ACTIVATED, .on = day_of("2026-04-20")};
	beacon->events = &used;
	beacon->event_count = 1;
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-01"), "2026-04-19");
	assert_string_equal(
	    scene_state(&scene, beacon, TASK_RENEW, "2026-05-01"), "expired");
	refit(&scene, beacon, "2026-05-02", "2031-05");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-02"), "2031-05-31");
}

/* Common practice: cells yearly. An age limit is of the thing itself. */
TEST(cells_count_from_the_refit_and_the_greatest_age_from_the_thing)
{
	SCENE(scene,
	    "  - id: cells\n    kinds: [lifebuoy-light]\n    task: renew\n"
	    "    doer: owner\n    grade: practice\n    clocks:\n"
	    "      - { from: [last, fitted], months: 12 }\n" SOURCE
	    "  - id: age\n    kinds: [lifebuoy]\n    task: renew\n    lapse: life-expired\n"
	    "    doer: owner\n    grade: practice\n    clocks:\n"
	    "      - { from: [last, fitted], months: 120 }\n" SOURCE);
	struct item *light = scene_item(&scene, "lifebuoy-light");
	struct item *ring = scene_item(&scene, "lifebuoy");
	light->fitted = stamp_of("2024-04-01");
	ring->fitted = stamp_of("2018-04-01");
	refit(&scene, light, "2026-03-15", "");
	refit(&scene, ring, "2026-03-15", "");
	assert_string_equal(
	    scene_due_day(&scene, light, TASK_RENEW, "2026-05-01"), "2027-03-15");
	assert_string_equal(
	    scene_due_day(&scene, ring, TASK_RENEW, "2026-05-01"), "2028-04-01");
}

/* A new one counts as serviced where the rule says so; new gas in the old one does not. */
TEST(a_refit_is_no_other_task_than_a_renewal)
{
	SCENE(scene,
	    "  - id: look\n    kinds: [foghorn-gas]\n    task: service\n    counts: [renew]\n"
	    "    doer: owner\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n      - { from: [event] }\n" SOURCE);
	const struct event used = {.kind = EVENT_USED, .on = day_of("2026-04-20")};
	struct item *horn = scene_item(&scene, "foghorn-gas");
	scene_record(&scene, horn, TASK_SERVICE, "2025-09-01", NULL);
	refit(&scene, horn, "2026-05-02", "");
	assert_string_equal(
	    scene_due_day(&scene, horn, TASK_SERVICE, "2026-05-03"), "2026-09-01");
	horn->events = &used;
	horn->event_count = 1;
	assert_string_equal(
	    scene_due_day(&scene, horn, TASK_SERVICE, "2026-05-03"), "2026-04-19");
	scene.records[horn - scene.items][1].refit = false;
	assert_string_equal(
	    scene_due_day(&scene, horn, TASK_SERVICE, "2026-05-03"), "2027-05-02");
}

/* A maker's "every five years from the last one" starts anew; one by age does not. */
TEST(a_makers_interval_outlives_a_refit)
{
	SCENE(scene, BEACON);
	struct item *beacon = beacon_of_2020(&scene);
	struct interval interval = {.task = TASK_RENEW,
	    .months = 60,
	    .from = ANCHOR_LAST,
	    .from_said = true,
	    .paper = "manual",
	    .on = day_of("2020-03-10")};
	beacon->intervals = &interval;
	beacon->interval_count = 1;
	refit(&scene, beacon, "2026-05-02", "");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-03"), "2031-05-02");
	interval.from = ANCHOR_MADE;
	interval.months = 120;
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-03"), "2030-01-01");
}

/* A paper of the whole says when the whole is due; new cells do not end it, and have their own. */
TEST(a_refit_leaves_the_next_date_of_the_things_own_paper)
{
	SCENE(scene, BEACON);
	struct item *beacon = beacon_of_2020(&scene);
	beacon->expires = stamp_of("");
	scene_record(&scene, beacon, TASK_RENEW, "2026-03-01", "2027-01");
	refit(&scene, beacon, "2026-05-02", "");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-03"), "2027-01-31");
	struct record *last =
	    &scene.records[beacon - scene.items][beacon->record_count - 1];
	last->next = stamp_of("2026-10");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-03"), "2026-10-31");
	last->next = stamp_of("2031-05");
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-03"), "2027-01-31");
	last->refit = false;
	assert_string_equal(
	    scene_due_day(&scene, beacon, TASK_RENEW, "2026-05-03"), "2031-05-31");
}

#define CELLS                                                                            \
	"  - id: cells\n    kinds: [lifebuoy-light]\n    task: renew\n"                  \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [last, fitted], months: 12 }\n    refit: yes\n" SOURCE
#define LOOK                                                                             \
	"  - id: look\n    kinds: [lifebuoy-light]\n    task: inspect\n"                 \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [fitted], months: 24, holds: first }\n"                         \
	"      - { from: [last], months: 36, holds: again }\n" SOURCE
#define LIFE                                                                             \
	"  - id: life\n    kinds: [lifebuoy-light]\n    task: renew\n"                   \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [made], months: 120 }\n" SOURCE

/* New cells planned for 1 March 2027: the light is looked at by when it was, in 2028, where its
 * sheets renew nothing but cells. Where one renews the light itself it is taken to be another. */
TEST(what_is_planned_to_be_refitted_stays_what_it_is)
{
	static const struct {
		const char *rules;
		bool refits;
		const char *looked;
	} CASES[] = {
	    {CELLS LOOK, true, "2028-05-10"}, {CELLS LOOK LIFE, false, "2029-03-01"}};

	for (size_t i = 0; i < 2; i++) {
		SCENE(scene, CASES[i].rules);
		struct item *light = scene_item(&scene, "lifebuoy-light");
		struct item after = {0};
		day_t done = day_of("2027-03-01");
		light->made = stamp_of("2024-01");
		light->fitted = stamp_of("2024-05-01");
		scene_record(&scene, light, TASK_INSPECT, "2025-05-10", NULL);
		scene_record(&scene, light, TASK_RENEW, "2026-03-15", NULL);
		scene_engine(&scene);
		assert_int_equal(due_refits(&scene.engine, light), CASES[i].refits);
		struct obligation again;
		due_if_done(&scene.engine, 0, TASK_RENEW, done, &scene.arena, &again);
		assert_day(again.due, "2028-03-01");
		due_item_after(
		    light, TASK_RENEW, done, CASES[i].refits, &scene.arena, &after);
		*light = after;
		assert_string_equal(
		    scene_due_day(&scene, light, TASK_INSPECT, "2027-04-01"),
		    CASES[i].looked);
	}
}

/* "Every six years, from when it was made" is said of the whole light, which is planned to be
 * another. */
TEST(what_its_maker_limits_is_planned_to_be_another)
{
	SCENE(scene, CELLS);
	struct item *light = scene_item(&scene, "lifebuoy-light");
	const struct interval interval = {.task = TASK_RENEW,
	    .months = 72,
	    .from = ANCHOR_MADE,
	    .from_said = true,
	    .paper = "manual",
	    .on = day_of("2024-05-01")};
	scene_engine(&scene);
	assert_true(due_refits(&scene.engine, light));
	light->intervals = &interval;
	light->interval_count = 1;
	assert_false(due_refits(&scene.engine, light));
}

RUN_TESTS(NULL, NULL)
