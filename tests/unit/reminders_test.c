/* Reminders made from shore lists that are written out here, not computed. */
#include "calendar/reminders.h"

#include "becket_test.h"

#include <string.h>

static const char CATALOGUE[] = "hazards:\n"
				"  - hazard: gas\n"
				"    carry: Carry gas upright.\n"
				"    dispose: Hand gas back empty.\n"
				"  - hazard: pyrotechnic\n"
				"    carry: Carry flares in a tin.\n"
				"    dispose: Flares go where they are taken.\n"
				"kinds:\n"
				"  - id: flare-red-hand\n"
				"    name: red hand flare\n"
				"    group: Flares\n"
				"    hazard: pyrotechnic\n"
				"  - id: lifejacket-auto\n"
				"    name: automatic lifejacket\n"
				"    group: Lifejackets\n"
				"    hazard: gas\n"
				"  - id: tether\n"
				"    name: tether\n"
				"    group: Harness\n";

enum { JACKET_1, JACKET_2, FLARES, TETHER, ITEMS, LINES = 4 };

/* A winter from 1 November 2026 to 31 March 2027 and one vessel's gear. */
struct scene {
	struct kinds *kinds;
	struct arena arena;
	struct vessel vessel;
	struct item items[ITEMS];
	struct inventory inventory;
	struct shore_line lines[LINES];
	struct trip trips[2];
	struct shore_list list;
	day_t today;
	struct reminders made;
};

static void
scene_clear(struct scene *scene)
{
	kinds_free(scene->kinds);
	arena_clear(&scene->arena);
}

#define SCOPED_SCENE __attribute__((cleanup(scene_clear))) struct scene

static struct item
item(const char *tag, const char *kind)
{
	return (struct item){.tag = tag,
	    .kind = kind,
	    .description = "",
	    .serial = "",
	    .place = "",
	    .notes = "",
	    .make = "",
	    .rating = "",
	    .landed_to = "",
	    .landed_on = DAY_NONE,
	    .hired_until = DAY_NONE,
	    .quantity = 1,
	    .price_minor = -1,
	    .parent = ITEM_NO_PARENT};
}

static struct shore_line
line(size_t of, enum task task, enum state state, day_t due)
{
	return (struct shore_line){.item = of,
	    .task = task,
	    .state = state,
	    .due = due,
	    .not_before = DAY_NONE,
	    .not_after = DAY_NONE,
	    .due_again = DAY_NONE,
	    .carries = true,
	    .price_minor = -1,
	    .grade = GRADE_MAKER,
	    .what = "",
	    .why = "",
	    .first_possible = DAY_NONE};
}

static void
scene_start(struct scene *scene)
{
	struct fault fault = {0};
	*scene = (struct scene){.vessel = {.name = "Example"}};
	scene->today = day_from_civil(2026, 10, 1);
	assert_true(
	    kinds_read("kinds", CATALOGUE, sizeof CATALOGUE - 1, &scene->kinds, &fault));
	scene->items[JACKET_1] = item("LJ-1", "lifejacket-auto");
	scene->items[JACKET_2] = item("LJ-2", "lifejacket-auto");
	scene->items[FLARES] = item("FR-1", "flare-red-hand");
	scene->items[FLARES].quantity = 4;
	scene->items[TETHER] = item("TE-1", "tether");
	scene->inventory = (struct inventory){&scene->vessel, 1, scene->items, ITEMS};
	scene->list.has_winter = true;
	scene->list.winter = (struct winter){2026, day_from_civil(2026, 11, 1),
	    day_from_civil(2027, 3, 31), day_from_civil(2027, 11, 1)};
}

static void
make(struct scene *scene, const struct shore_list *lists, size_t count)
{
	struct fault fault = {0};
	assert_true(reminders_make(scene->kinds, &scene->inventory, lists, count, "EUR",
	    scene->today, &scene->arena, &scene->made, &fault));
}

/* Checks all of a reminder but its description. */
static void
expect(const struct scene *scene, size_t at, const char *key, const char *day,
    const char *summary)
{
	char buffer[DAY_ISO_SIZE];
	assert_true(at < scene->made.count);
	const struct reminder *reminder = &scene->made.items[at];
	assert_string_equal(reminder->key, key);
	assert_string_equal(day_iso(reminder->day, buffer), day);
	assert_string_equal(reminder->summary, summary);
	assert_string_equal(reminder->category, "becket");
}

/* Checks a description: its own part, then the caution that ends every one. */
static void
expect_description(const struct scene *scene, size_t at, const char *own)
{
	const char *description = scene->made.items[at].description;
	assert_int_equal(strncmp(description, own, strlen(own)), 0);
	const char *rest = description + strlen(own);
	assert_null(strchr(rest, '\n'));
	assert_non_null(strstr(rest, "label"));
	assert_non_null(strstr(rest, "maker's manual"));
	assert_non_null(strstr(rest, "approved station"));
	assert_non_null(strstr(rest, "local authority"));
	assert_non_null(strstr(rest, "surveyor"));
}

static void
a_trip_is_a_hand_in_and_a_collect(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	day_t due = day_from_civil(2027, 6, 30);
	scene.lines[0] = line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, due);
	scene.lines[0].not_before = day_from_civil(2026, 11, 2);
	scene.lines[0].not_after = day_from_civil(2027, 2, 1);
	scene.lines[0].price_minor = 4205;
	scene.lines[0].what = "inflate and weigh";
	scene.lines[1] = line(JACKET_2, TASK_SERVICE, STATE_OVERDUE, due - 365);
	scene.trips[0] = (struct trip){.name = "Skerry Raft Loft",
	    .hand_in = day_from_civil(2026, 11, 2),
	    .collect = day_from_civil(2026, 11, 30),
	    .lines = {scene.lines, 2, 2}};
	scene.list.hand_in = (struct trips){scene.trips, 1, 1};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "hand-in|Example|2026|Skerry Raft Loft|1", "2026-11-02",
	    "Hand in 2 items at Skerry Raft Loft (Example)");
	expect_description(&scene, 0,
	    "To be collected on 30 Nov 2026.\n"
	    "- LJ-1 automatic lifejacket: service, due 30 Jun 2027; not before 2 Nov "
	    "2026; not after 1 Feb 2027; inflate and weigh; price 42.05 EUR\n"
	    "- LJ-2 automatic lifejacket: service, OVERDUE, was due 30 Jun 2026\n"
	    "Carry gas upright.\n");
	expect(&scene, 1, "collect|Example|2026|Skerry Raft Loft|1", "2026-11-30",
	    "Collect 2 items from Skerry Raft Loft (Example)");
}

static void
two_trips_to_one_station_are_told_apart_and_names_can_hold_bars(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.vessel.name = "A|B";
	scene.lines[0] = line(JACKET_1, TASK_SERVICE, STATE_DATE_UNKNOWN, DAY_NONE);
	for (size_t i = 0; i < 2; i++) {
		scene.trips[i] = (struct trip){.name = "",
		    .assumed = true,
		    .hand_in = day_from_civil(2026, 11, 2 + (int)i),
		    .collect = DAY_NEVER,
		    .lines = {scene.lines, 1, 1}};
	}
	scene.list.hand_in = (struct trips){scene.trips, 2, 2};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "hand-in|A\\|B|2026||1", "2026-11-02",
	    "Hand in 1 item at an approved station (A|B)");
	expect(&scene, 1, "hand-in|A\\|B|2026||2", "2026-11-03",
	    "Hand in 1 item at an approved station (A|B)");
	expect_description(&scene, 0,
	    "No station in the book takes these: 42 open days are assumed, ask the "
	    "station.\n"
	    "- LJ-1 automatic lifejacket: service, date unknown: not counted as in date\n"
	    "Carry gas upright.\n");
}

/* 31 March less 28 days is 3 March; 20 February less 28 is 23 January. */
static void
what_one_does_oneself_is_28_days_before_the_last_day(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.lines[1] =
	    line(JACKET_1, TASK_WEIGH, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.lines[2] =
	    line(JACKET_1, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.list.self = (struct shore_lines){scene.lines, 3, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "self|Example|2026", "2027-03-03",
	    "Check 2 items yourself (Example)");
	scene.lines[0].not_after = day_from_civil(2027, 2, 20);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-01-23",
	    "Check 2 items yourself (Example)");
	/* Too early would be a trap. */
	scene.lines[1].not_before = day_from_civil(2027, 2, 10);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-02-10",
	    "Check 2 items yourself (Example)");
	/* It can't wait for that, so notice wins. */
	scene.lines[1].not_before = day_from_civil(2027, 2, 21);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-01-23",
	    "Check 2 items yourself (Example)");
	/* Not before lay-up, and not before today. */
	scene.lines[0].not_after = day_from_civil(2026, 11, 5);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2026-11-01",
	    "Check 2 items yourself (Example)");
	scene.today = day_from_civil(2026, 12, 24);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2026-12-24",
	    "Check 2 items yourself (Example)");
}

static void
what_is_bought_and_what_goes_are_one_reminder(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 9, 30));
	scene.list.buy = (struct shore_lines){scene.lines, 1, LINES};
	scene.list.dispose = scene.list.buy;
	scene.list.paperwork = scene.list.buy;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "buy|Example|2026", "2027-03-03",
	    "Buy or renew 4 items (Example)");
	expect_description(&scene, 0,
	    "- FR-1 4 x red hand flare: renew, EXPIRED, was good until 30 Sep 2026\n"
	    "Carry flares in a tin.\n"
	    "To be disposed of:\n"
	    "- FR-1 4 x red hand flare: renew, EXPIRED, was good until 30 Sep 2026\n"
	    "Flares go where they are taken.\n");
	expect(&scene, 1, "paperwork|Example|2026", "2027-03-03",
	    "Registration and papers for 4 items (Example)");
}

static void
what_can_not_wait_has_its_own_day_and_never_one_before_today(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 10, 20));
	scene.lines[1] =
	    line(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 8, 31));
	scene.lines[2] = line(JACKET_1, TASK_SERVICE, STATE_DATE_UNKNOWN, DAY_NONE);
	scene.list.now = (struct shore_lines){scene.lines, 3, LINES};
	struct shore_list lists[] = {scene.list, scene.list};
	lists[1].winter.year = 2027; /* what can't wait is in every winter's list */
	make(&scene, lists, 2);
	assert_int_equal(scene.made.count, 3);
	expect(&scene, 0, "now|FR-1|renew", "2026-10-01",
	    "FR-1: renew now, expired (Example)");
	expect(&scene, 1, "now|LJ-1|service", "2026-10-01",
	    "LJ-1: service date unknown (Example)");
	expect(
	    &scene, 2, "now|TE-1|inspect", "2026-10-20", "TE-1: inspect due (Example)");
}

static void
what_can_not_be_done_in_time_is_told_at_lay_up_with_its_reason(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 5, 1));
	scene.lines[0].why = "the station is shut too long";
	scene.lines[0].first_possible = day_from_civil(2027, 4, 7);
	scene.list.cannot = (struct shore_lines){scene.lines, 1, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "cannot|LJ-1|service", "2026-11-01",
	    "LJ-1: service can't be done in time (Example)");
	expect_description(&scene, 0,
	    "- LJ-1 automatic lifejacket: service, due 1 May 2027; the station is shut "
	    "too long; first day it could be back: 7 Apr 2027\n"
	    "Carry gas upright.\n");
}

static void
nothing_to_do_makes_no_reminder(void **state)
{
	(void)state;
	SCOPED_SCENE scene;
	scene_start(&scene);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 0);
	make(&scene, NULL, 0);
	assert_int_equal(scene.made.count, 0);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
	    cmocka_unit_test(a_trip_is_a_hand_in_and_a_collect),
	    cmocka_unit_test(
		two_trips_to_one_station_are_told_apart_and_names_can_hold_bars),
	    cmocka_unit_test(what_one_does_oneself_is_28_days_before_the_last_day),
	    cmocka_unit_test(what_is_bought_and_what_goes_are_one_reminder),
	    cmocka_unit_test(
		what_can_not_wait_has_its_own_day_and_never_one_before_today),
	    cmocka_unit_test(
		what_can_not_be_done_in_time_is_told_at_lay_up_with_its_reason),
	    cmocka_unit_test(nothing_to_do_makes_no_reminder),
	};
	return cmocka_run_group_tests(tests, NULL, NULL);
}
