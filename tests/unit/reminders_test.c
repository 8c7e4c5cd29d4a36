/* Reminders made from shore lists that are written out here, not computed. */
#include "calendar/reminders.h"

#include "becket_test.h"
#include "blank_item.h"
#include "in_words.h"

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
	struct reminder_choices choices;
	const struct shortfall *shortfalls;
	const struct book_reminder *stored;
	size_t stored_count;
	int64_t entry;
	size_t shortfall_count;
	bool todos; /* looked at instead of the events */
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
	*scene = (struct scene){.vessel = {.name = "Example", .base = "Holm Quay"},
	    .choices = {.weekday = 5}};
	scene->today = day_from_civil(2026, 10, 1);
	assert_true(
	    kinds_read("kinds", CATALOGUE, sizeof CATALOGUE - 1, &scene->kinds, &fault));
	scene->items[JACKET_1] = blank_item("LJ-1", "lifejacket-auto");
	scene->items[JACKET_2] = blank_item("LJ-2", "lifejacket-auto");
	scene->items[FLARES] = blank_item("FR-1", "flare-red-hand");
	scene->items[FLARES].quantity = 4;
	scene->items[TETHER] = blank_item("TE-1", "tether");
	scene->inventory =
	    (struct inventory){&scene->vessel, 1, scene->items, ITEMS, "EUR"};
	scene->list.has_winter = true;
	scene->list.winter = (struct winter){2026, day_from_civil(2026, 11, 1),
	    day_from_civil(2027, 3, 31), day_from_civil(2027, 11, 1)};
}

static void
make(struct scene *scene, const struct shore_list *lists, size_t count)
{
	struct given_sorted given = {scene->stored, scene->stored_count};
	const struct reminder_source source = {.kinds = scene->kinds,
	    .inventory = &scene->inventory,
	    .choices = &scene->choices,
	    .given = {given_find_in, &given},
	    .entry = scene->entry,
	    .shortfalls = scene->shortfalls,
	    .shortfall_count = scene->shortfall_count,
	    .currency = "EUR",
	    .today = scene->today};
	reminders_make(&source, lists, count, &scene->arena, &scene->made);
	reminders_keep_form(&scene->made, scene->todos);
}

/* Checks all of a reminder but its description. */
static void
expect(const struct scene *scene, size_t at, const char *key, const char *day,
    const char *summary)
{
	assert_true(at < scene->made.count);
	const struct reminder *reminder = &scene->made.items[at];
	assert_string_equal(reminder->key, key);
	assert_day(reminder->day, day);
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

TEST(a_trip_is_a_hand_in_and_its_last_day)
{
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
	    .year = 2026,
	    .number = 1,
	    .ready = day_from_civil(2026, 11, 30),
	    .collect = day_from_civil(2026, 11, 30),
	    .lines = {scene.lines, 2, 2}};
	scene.list.hand_in = (struct trips){scene.trips, 1, 1};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "hand-in|Example|2026|Skerry Raft Loft|1", "2026-11-02",
	    "Hand in 2 x automatic lifejacket, Skerry Raft Loft");
	expect_description(&scene, 0,
	    "To be collected on 30 Nov 2026.\n"
	    "- LJ-1 automatic lifejacket: service, due 30 Jun 2027; not before 2 Nov "
	    "2026; not after 1 Feb 2027; inflate and weigh; price 42.05 EUR\n"
	    "- LJ-2 automatic lifejacket: service, OVERDUE, was due 30 Jun 2026\n"
	    "Carry gas upright.\n");
	assert_false(scene.made.items[0].last_chance);
	/* LJ-1 must go by 1 February; the other may go on any day */
	expect(&scene, 1, "last|Example|2026|Skerry Raft Loft", "2027-02-01",
	    "Last day to hand in 2 x automatic lifejacket, Skerry Raft Loft");
	assert_true(scene.made.items[1].last_chance);
	/* put to a new day since the one given out has passed */
	scene.trips[0].missed = true;
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "hand-in|Example|2026|Skerry Raft Loft|1", "2026-11-02",
	    "Still to hand in 2 x automatic lifejacket, Skerry Raft Loft");
}

TEST(a_trip_that_two_boats_share_is_told_once_as_their_bases)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct vessel vessels[] = {{.name = "Example", .base = "Port Marrin"},
	    {.name = "Other", .base = "Port Marrin"}};
	scene.inventory.vessels = vessels;
	scene.inventory.vessel_count = 2;
	day_t due = day_from_civil(2027, 6, 30);
	scene.lines[0] = line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, due);
	scene.lines[1] = line(JACKET_2, TASK_SERVICE, STATE_IN_DATE, due);
	struct shore_list lists[2] = {scene.list, scene.list};
	for (size_t i = 0; i < 2; i++) {
		scene.trips[i] = (struct trip){.name = "Skerry Raft Loft",
		    .hand_in = day_from_civil(2026, 11, 2),
		    .ready = day_from_civil(2026, 11, 30),
		    .collect = day_from_civil(2026, 11, 30),
		    .of_base = true,
		    .vessels = 2,
		    .year = 2026,
		    .number = 1,
		    .lines = {&scene.lines[i], 1, 1}};
		lists[i].vessel = i;
		lists[i].hand_in = (struct trips){&scene.trips[i], 1, 1};
	}
	make(&scene, lists, 2);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "base-hand-in|Port Marrin|2026|Skerry Raft Loft|1",
	    "2026-11-02",
	    "Hand in 2 x automatic lifejacket, Skerry Raft Loft (2 boats, Port Marrin)");
	expect_description(&scene, 0,
	    "To be collected on 30 Nov 2026.\n"
	    "Example:\n"
	    "- LJ-1 automatic lifejacket: service, due 30 Jun 2027\n"
	    "Other:\n"
	    "- LJ-2 automatic lifejacket: service, due 30 Jun 2027\n"
	    "Carry gas upright.\n");
	assert_int_equal(scene.made.items[0].vessel_count, 2);
	/* When one of them has nothing on it any more it stays the same event. */
	make(&scene, &lists[1], 1);
	expect(&scene, 0, "base-hand-in|Port Marrin|2026|Skerry Raft Loft|1",
	    "2026-11-02", "Hand in automatic lifejacket LJ-2, Skerry Raft Loft (Other)");
}

/* She leaves on 10 January: the hand-in of 2 November is told; the last day to hand in, what one
 * does oneself by the end of March and her fall of 1 May are not; what is ashore is fetched. */
TEST(after_the_day_she_leaves_only_what_is_ashore_is_told_of)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.vessel.leaves = true;
	scene.vessel.left = day_from_civil(2027, 1, 10);
	scene.lines[0] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 6, 30));
	scene.lines[0].not_after = day_from_civil(2027, 2, 1);
	scene.lines[1] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.trips[0] = (struct trip){.name = "Skerry Raft Loft",
	    .hand_in = day_from_civil(2026, 11, 2),
	    .year = 2026,
	    .number = 1,
	    .collect = day_from_civil(2026, 11, 30),
	    .lines = {scene.lines, 1, 1}};
	scene.list.hand_in = (struct trips){scene.trips, 1, 1};
	scene.list.self = (struct shore_lines){&scene.lines[1], 1, 1};
	struct ashore_line ashore = {.item = JACKET_2,
	    .station = "Skerry Raft Loft",
	    .since = day_from_civil(2026, 9, 1),
	    .collect = day_from_civil(2027, 1, 20),
	    .due = DAY_NONE};
	scene.list.ashore = (struct ashore_lines){&ashore, 1};
	const struct shortfall fall = {0, day_from_civil(2027, 5, 1), NULL, 0};
	scene.shortfalls = &fall;
	scene.shortfall_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "hand-in|Example|2026|Skerry Raft Loft|1", "2026-11-02",
	    "Hand in automatic lifejacket LJ-1, Skerry Raft Loft");
	expect(&scene, 1, "fetch|Example|Skerry Raft Loft|2026-09-01", "2027-01-20",
	    "Collect automatic lifejacket LJ-2, Skerry Raft Loft");
	/* of the hand-in's to-do and the tether's, by 30 November and 1 August */
	scene.todos = true;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	assert_string_equal(scene.made.items[0].key, "do|LJ-1|service|2026");
	/* on the day she leaves she is not in the fleet any more */
	scene.todos = false;
	scene.vessel.left = day_from_civil(2026, 11, 2);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
}

TEST(a_boat_that_will_have_left_is_not_on_the_trip_of_her_base)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct vessel vessels[] = {{.name = "Example",
					     .base = "Port Marrin",
					     .leaves = true,
					     .left = day_from_civil(2026, 10, 20)},
	    {.name = "Other", .base = "Port Marrin"}};
	scene.inventory.vessels = vessels;
	scene.inventory.vessel_count = 2;
	struct shore_list lists[2] = {scene.list, scene.list};
	for (size_t i = 0; i < 2; i++) {
		scene.lines[i] = line(JACKET_1 + i, TASK_SERVICE, STATE_IN_DATE,
		    day_from_civil(2027, 6, 30));
		scene.lines[i].not_after = day_from_civil(2027, 2, 1 + (int)i);
		scene.trips[i] = (struct trip){.name = "Skerry Raft Loft",
		    .hand_in = day_from_civil(2026, 11, 2),
		    .collect = day_from_civil(2026, 11, 30),
		    .of_base = true,
		    .vessels = 2,
		    .year = 2026,
		    .number = 1,
		    .lines = {&scene.lines[i], 1, 1}};
		lists[i].vessel = i;
		lists[i].hand_in = (struct trips){&scene.trips[i], 1, 1};
	}
	make(&scene, lists, 2);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "base-hand-in|Port Marrin|2026|Skerry Raft Loft|1",
	    "2026-11-02", "Hand in automatic lifejacket LJ-2, Skerry Raft Loft (Other)");
	/* hers would have had to go a day sooner */
	expect(&scene, 1, "base-last|Port Marrin|2026|Skerry Raft Loft", "2027-02-02",
	    "Last day to hand in automatic lifejacket LJ-2, Skerry Raft Loft (Other)");
}

TEST(two_trips_to_one_station_are_told_apart_and_names_can_hold_bars)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.vessel.name = "A|B";
	scene.lines[0] = line(JACKET_1, TASK_SERVICE, STATE_DATE_UNKNOWN, DAY_NONE);
	for (size_t i = 0; i < 2; i++) {
		scene.trips[i] = (struct trip){.name = "",
		    .assumed = true,
		    .hand_in = day_from_civil(2026, 11, 2 + (int)i),
		    .year = 2026,
		    .number = i + 1,
		    .collect = DAY_NEVER,
		    .lines = {scene.lines, 1, 1}};
	}
	scene.list.hand_in = (struct trips){scene.trips, 2, 2};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "hand-in|A\\|B|2026||1", "2026-11-02",
	    "Hand in automatic lifejacket LJ-1, an approved station");
	expect(&scene, 1, "hand-in|A\\|B|2026||2", "2026-11-03",
	    "Hand in automatic lifejacket LJ-1, an approved station");
	expect_description(&scene, 0,
	    "No station in the book takes these: 42 days are assumed, ask the "
	    "station.\n"
	    "- LJ-1 automatic lifejacket: service, date unknown: not counted as in date\n"
	    "Carry gas upright.\n");
}

/* 31 March 2027 less 28 days is Wednesday 3 March, so Saturday 6 March; 20 February less 28 is
 * Saturday 23 January. */
TEST(what_one_does_oneself_is_on_the_saturday_28_days_before_the_last_day)
{
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
	expect(&scene, 0, "self|Example|2026", "2027-03-06", "Check tether and 1 more");
	scene.lines[0].not_after = day_from_civil(2027, 2, 20);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-01-23", "Check tether and 1 more");
	/* Too early would be a trap; 10 February is a Wednesday. */
	scene.lines[1].not_before = day_from_civil(2027, 2, 10);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-02-13", "Check tether and 1 more");
	/* It can't wait for that, so notice wins. */
	scene.lines[1].not_before = day_from_civil(2027, 2, 21);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-01-23", "Check tether and 1 more");
	/* Not before lay-up, and Saturday 7 November is too late; when all is too late, the
	 * first Saturday a week after Thursday 24 December. */
	scene.lines[0].not_after = day_from_civil(2026, 11, 5);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2026-11-01", "Check tether and 1 more");
	scene.today = day_from_civil(2026, 12, 24);
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-01-02", "Check tether and 1 more");
}

TEST(what_is_bought_and_what_goes_are_one_reminder)
{
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
	    "Buy or renew 4 x red hand flare FR-1");
	expect_description(&scene, 0,
	    "- FR-1 4 x red hand flare: renew, EXPIRED, was good until 30 Sep 2026\n"
	    "Carry flares in a tin.\n"
	    "To be disposed of:\n"
	    "- FR-1 4 x red hand flare\n"
	    "Flares go where they are taken.\n");
	expect(&scene, 1, "paperwork|Example|2026", "2027-03-03",
	    "Papers for 4 x red hand flare FR-1");
}

/* Due on 20 July, more than 92 days before lay-up on 1 November: told by itself. What lapses on
 * 20 October can wait for her winter, and what has lapsed is gathered elsewhere. */
TEST(what_can_not_wait_has_its_own_day)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.today = day_from_civil(2026, 7, 1);
	scene.lines[0] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 7, 20));
	scene.lines[1] =
	    line(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 6, 30));
	scene.lines[2] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2026, 10, 20));
	scene.list.now = (struct shore_lines){scene.lines, 3, LINES};
	struct shore_list lists[] = {scene.list, scene.list};
	lists[1].winter.year = 2027; /* what can't wait is in every winter's list */
	make(&scene, lists, 2);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "now|TE-1|inspect", "2026-07-20", "Due: tether TE-1: inspect");
}

/* A boat in use all year has no winter to wait for, and what lapses is told ahead: seen on 1 July
 * 2026 the tether's look of 20 July and the flares of 1 July 2027, twelve months on, but not the
 * jacket of the day after. Whatever waits for a winter is in that one's list. */
TEST(of_a_boat_in_use_all_year_what_lapses_within_a_year_is_told_ahead)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.today = day_from_civil(2026, 7, 1);
	scene.lines[0] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 7, 20));
	scene.lines[1] =
	    line(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 7, 1));
	scene.lines[2] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 7, 2));
	scene.list.waits = (struct shore_lines){scene.lines, 3, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 0);
	scene.list.has_winter = false;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "now|TE-1|inspect", "2026-07-20", "Due: tether TE-1: inspect");
	expect(&scene, 1, "now|FR-1|renew", "2027-07-01",
	    "Due: 4 x red hand flare FR-1: renew");
}

/* The Loft takes 35 days, Monday to Friday, and is closed from 20 December to 31 January. */
static const struct yearly LOFT_CLOSED = {12, 20, 1, 31};
static const struct station LOFT = {.name = "Varne Loft",
    .base = "",
    .turn_round_days = 35,
    .weekdays = STATION_WEEKDAYS_SUPPOSED,
    .closed = &LOFT_CLOSED,
    .closed_count = 1};

/* Two jackets due for the Loft on Monday 1 March 2027, and two things for oneself on that day. The
 * last hand-in of the jackets is Friday 11 December (the example of station_collect in
 * gear/station.h). */
static void
scene_all_year(struct scene *scene)
{
	day_t due = day_from_civil(2027, 3, 1);
	scene_start(scene);
	scene->list.has_winter = false;
	scene->lines[0] = line(JACKET_2, TASK_SERVICE, STATE_IN_DATE, due);
	scene->lines[1] = line(TETHER, TASK_INSPECT, STATE_IN_DATE, due);
	scene->lines[2] = line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, due);
	scene->lines[3] = line(FLARES, TASK_RENEW, STATE_IN_DATE, due);
	for (size_t i = 0; i < 4; i += 2) {
		scene->lines[i].station = &LOFT;
		scene->lines[i].hand_in_by = day_from_civil(2026, 12, 11);
	}
	scene->list.waits = (struct shore_lines){scene->lines, 4, LINES};
}

/* 28 days before the last hand-in is Friday 13 November; of 35 days from then on the last is 17
 * December. */
TEST(of_a_boat_in_use_all_year_a_stations_work_is_told_in_time_and_together)
{
	SCOPED_SCENE scene;
	scene_all_year(&scene);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "now|LJ-1|service", "2026-11-13",
	    "Hand in 2 x automatic lifejacket, Varne Loft");
	expect_description(&scene, 0,
	    "To be collected on 18 Dec 2026.\n"
	    "All: not after 11 Dec 2026.\n"
	    "- LJ-1 automatic lifejacket: service, due 1 Mar 2027\n"
	    "- LJ-2 automatic lifejacket: service, due 1 Mar 2027\n"
	    "Carry gas upright.\n");
	assert_string_equal(scene.made.items[0].station, "Varne Loft");
	expect(
	    &scene, 1, "now|FR-1|renew", "2027-03-01", "Due: red hand flare and 1 more");
	scene.todos = true;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 4);
	assert_day(scene.made.items[0].day, "2026-12-11");
	assert_string_equal(scene.made.items[1].about, "now|LJ-1|service");
	/* a notice of 20 days leads to a Saturday: the Friday before it */
	const struct notice notice = {.kind = "lifejacket-auto", .days = 20};
	scene.choices.notices = &notice;
	scene.choices.notice_count = 1;
	scene.todos = false;
	make(&scene, &scene.list, 1);
	assert_day(scene.made.items[0].day, "2026-11-20");
	/* each by itself, where a person wished for that */
	scene.choices.singles = true;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 4);
}

/* Seen on Tuesday 1 December: a week ahead is the 8th; on the 9th a week ahead is after the 11th;
 * on the 12th nothing serves any more. */
TEST(what_was_to_be_handed_in_goes_on_to_the_last_day_that_serves)
{
	static const struct {
		int today, day;
		bool late;
	} ROWS[] = {{1, 8, false}, {9, 11, false}, {12, 19, true}};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		SCOPED_SCENE scene;
		scene_all_year(&scene);
		scene.today = day_from_civil(2026, 12, ROWS[i].today);
		make(&scene, &scene.list, 1);
		assert_int_equal(scene.made.count, 2);
		assert_int_equal(
		    scene.made.items[0].day, day_from_civil(2026, 12, ROWS[i].day));
		assert_int_equal(strstr(scene.made.items[0].description,
				     "Too late to be back in date: the last hand-in for "
				     "that was on 11 Dec 2026.\n") != NULL,
		    ROWS[i].late);
	}
}

/* Of two that go together the last chance of the second does not go by since the first's did: on 12
 * December LJ-2 is too late, and LJ-1 may go until the 15th. */
TEST(the_last_chance_of_one_is_told_though_another_is_too_late)
{
	SCOPED_SCENE scene;
	scene_all_year(&scene);
	scene.today = day_from_civil(2026, 12, 12);
	scene.lines[0].hand_in_by = day_from_civil(2026, 12, 10);
	scene.lines[2].hand_in_by = day_from_civil(2026, 12, 15);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "now|LJ-1|service", "2026-12-15",
	    "Hand in 2 x automatic lifejacket, Varne Loft");
	assert_null(strstr(scene.made.items[0].description, "Too late"));
}

/* Days already past are one reminder, whatever they were; one that was given out goes on by
 * itself, and with a person's day it stands on that. */
TEST(what_goes_on_goes_together_but_for_what_stands_already)
{
	SCOPED_SCENE scene;
	scene_all_year(&scene);
	struct book_reminder stored = {.key = "now|LJ-2|service",
	    .shape = "x",
	    .day = day_from_civil(2026, 11, 30),
	    .aim = day_from_civil(2026, 11, 12)};
	struct planned_day planned = {
	    .key = "now|LJ-1|service", .day = day_from_civil(2026, 12, 10)};
	scene.today = day_from_civil(2026, 12, 1);
	scene.lines[0].hand_in_by = day_from_civil(2026, 12, 10);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "now|LJ-1|service", "2026-12-08",
	    "Hand in 2 x automatic lifejacket, Varne Loft");
	scene.choices.planned = &planned;
	scene.choices.planned_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	assert_day(scene.made.items[0].day, "2026-12-10");
	scene.stored = &stored;
	scene.stored_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 3);
	expect(&scene, 0, "now|LJ-2|service", "2026-12-08",
	    "Hand in automatic lifejacket LJ-2, Varne Loft");
}

/* The second jacket taken for a part of the first, to be renewed on 5 March: it is renewed at the
 * service; lapsing before that it is not. */
TEST(a_part_goes_with_its_whole_to_the_station)
{
	SCOPED_SCENE scene;
	scene_all_year(&scene);
	scene.items[JACKET_2].parent = JACKET_1;
	scene.lines[0] =
	    line(JACKET_2, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 3, 5));
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "now|LJ-1|service", "2026-11-13",
	    "Hand in 2 x automatic lifejacket, Varne Loft");
	scene.lines[0].due = day_from_civil(2027, 2, 28);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 3);
}

/* A jacket at a station that was asked for its service, seen on 20 December 2026: its service of
 * 6 January is not told, nor its look, for the service counts as that; its test, which was not
 * asked for, and the end of its hire are. */
TEST(of_a_boat_in_use_all_year_what_a_station_was_asked_for_is_not_told)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct movement landed = {
	    .move = MOVE_LANDED, .asked = 1U << TASK_SERVICE | 1U << TASK_RENEW};
	day_t due = day_from_civil(2027, 1, 6);
	scene.today = day_from_civil(2026, 12, 20);
	scene.list.has_winter = false;
	scene.lines[0] = line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, due);
	scene.lines[1] = line(JACKET_1, TASK_INSPECT, STATE_IN_DATE, due);
	scene.lines[1].counts = 1U << TASK_SERVICE;
	scene.lines[2] = line(JACKET_1, TASK_TEST, STATE_IN_DATE, due + 1);
	scene.lines[3] = line(JACKET_1, TASK_RENEW, STATE_IN_DATE, due + 2);
	scene.lines[3].give_back = true;
	scene.list.waits = (struct shore_lines){scene.lines, 4, LINES};
	scene.items[JACKET_1].movements = &landed;
	scene.items[JACKET_1].movement_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 3); /* it is aboard again */
	scene.items[JACKET_1].state = PLACE_LANDED;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "now|LJ-1|test", "2027-01-07",
	    "Due: automatic lifejacket LJ-1: test");
	expect(&scene, 1, "now|LJ-1|renew", "2027-01-08",
	    "Due: automatic lifejacket LJ-1: give back");
}

/* A look that a service counts as is not told beside a service due no later, of the same thing;
 * nor beside a hand-in for it by then; but it is where it is due first, or on a person's day. */
TEST(of_a_boat_in_use_all_year_what_another_task_counts_as_is_not_told)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	day_t due = day_from_civil(2027, 1, 6);
	struct planned_day planned = {.key = "now|LJ-1|inspect", .day = due};
	scene.today = day_from_civil(2026, 12, 1);
	scene.list.has_winter = false;
	scene.lines[0] = line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, due);
	scene.lines[1] = line(JACKET_1, TASK_INSPECT, STATE_IN_DATE, due);
	scene.lines[2] = line(JACKET_2, TASK_INSPECT, STATE_IN_DATE, due + 1);
	scene.lines[3] = line(JACKET_2, TASK_SERVICE, STATE_IN_DATE, due + 2);
	scene.lines[1].counts = scene.lines[2].counts = 1U << TASK_SERVICE;
	scene.list.waits = (struct shore_lines){scene.lines, 4, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 3);
	expect(&scene, 0, "now|LJ-1|service", "2027-01-06",
	    "Due: automatic lifejacket LJ-1: service");
	expect(&scene, 1, "now|LJ-2|inspect", "2027-01-07",
	    "Due: automatic lifejacket LJ-2: inspect");
	scene.choices.planned = &planned;
	scene.choices.planned_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 4);
	/* of two that count as each other one is told */
	scene.choices.planned_count = 0;
	scene.lines[0].counts = 1U << TASK_INSPECT;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 3);
	/* the service handed in a day after the look is due, and on that day */
	scene.lines[0].counts = 0;
	scene.trips[0] = (struct trip){.name = "Loft",
	    .hand_in = due + 1,
	    .collect = due + 20,
	    .lines = {scene.lines, 1, 1},
	    .year = 2026,
	    .number = 1};
	scene.list.hand_in = (struct trips){scene.trips, 1, 2};
	scene.list.waits = (struct shore_lines){&scene.lines[1], 1, 1};
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "now|LJ-1|inspect", "2027-01-06",
	    "Due: automatic lifejacket LJ-1: inspect");
	scene.trips[0].hand_in = due;
	make(&scene, &scene.list, 1);
	for (size_t i = 0; i < scene.made.count; i++) {
		assert_string_not_equal(scene.made.items[i].key, "now|LJ-1|inspect");
	}
}

TEST(what_can_not_be_done_in_time_is_one_reminder_at_lay_up)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 5, 1));
	scene.lines[1] =
	    line(JACKET_2, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 6, 1));
	scene.list.cannot = (struct shore_lines){scene.lines, 2, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "cannot|Example|2026", "2026-11-01",
	    "Not in time: 2 x automatic lifejacket");
	expect_description(&scene, 0,
	    "- LJ-1 automatic lifejacket: service, due 1 May 2027\n"
	    "- LJ-2 automatic lifejacket: service, due 1 Jun 2027\n"
	    "What would help: \"becket winter\" names it for each, a stand-in among it.\n");
}

/* Due on 31 August, told first on Thursday 1 October: the first Monday a week ahead is the 12th.
 * It stays there until that is past; then the first Monday a week after Tuesday the 13th is the
 * 26th. */
TEST(what_is_past_stays_on_the_day_it_was_given_out_for)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	day_t due = day_from_civil(2026, 8, 31);
	scene.lines[0] = line(JACKET_1, TASK_INSPECT, STATE_OVERDUE, due);
	scene.list.routines = (struct shore_lines){scene.lines, 1, LINES};
	scene.choices.routines = true;
	scene.choices.weekday = 0;
	const struct book_reminder stored = {.key = "routine|Example",
	    .shape = "aa",
	    .day = day_from_civil(2026, 10, 12),
	    .aim = due};
	for (int day = 1; day <= 13; day++) {
		scene.today = day_from_civil(2026, 10, day);
		make(&scene, &scene.list, 1);
		scene.stored = &stored;
		scene.stored_count = 1;
		expect(&scene, 0, "routine|Example",
		    day == 13 ? "2026-10-26" : "2026-10-12",
		    "Look at automatic lifejacket LJ-1");
	}
}

/* Days that pass change no words; an entry in the journal may. */
TEST(what_was_given_out_says_the_same_until_the_journal_has_a_new_entry)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 9, 30));
	scene.list.buy = (struct shore_lines){scene.lines, 1, LINES};
	const struct book_reminder stored = {.key = "buy|Example|2026",
	    .shape = "aa",
	    .day = day_from_civil(2027, 3, 3),
	    .aim = day_from_civil(2027, 3, 3),
	    .entry = 7,
	    .summary = "Buy what it said then",
	    .description = "as it was"};
	scene.stored = &stored;
	scene.stored_count = 1;
	scene.entry = 7;
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "buy|Example|2026", "2027-03-03", "Buy what it said then");
	assert_string_equal(scene.made.items[0].description, "as it was");
	scene.entry = 8;
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "buy|Example|2026", "2027-03-03",
	    "Buy or renew 4 x red hand flare FR-1");
}

TEST(a_chosen_day_is_kept_when_the_winter_it_was_for_ends)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	/* the day after fitting-out the list is of the winter to come */
	scene.today = day_from_civil(2027, 4, 1);
	scene.vessel.laid_up = true;
	scene.vessel.lay_up = (struct yearly){11, 1, 3, 31};
	scene.list.winter = (struct winter){2027, day_from_civil(2027, 11, 1),
	    day_from_civil(2028, 3, 31), day_from_civil(2028, 11, 1)};
	scene.lines[0] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.lines[0].not_after = day_from_civil(2028, 3, 31);
	scene.lines[1] =
	    line(JACKET_1, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2028, 6, 1));
	scene.lines[1].not_after = day_from_civil(2028, 3, 31);
	scene.list.self = (struct shore_lines){scene.lines, 2, LINES};
	const struct planned_day planned[] = {
	    {.key = "self|Example|2026", .day = day_from_civil(2027, 5, 8)}};
	scene.choices.planned = planned;
	scene.choices.planned_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "self|Example|2026", "2027-05-08", "Check tether TE-1");
	assert_non_null(strstr(scene.made.items[0].description,
	    "TOO LATE: this day was chosen, but the winter it was for is over by then."));
	/* 28 days before 31 March 2028, Friday 3 March, and the Saturday after */
	expect(&scene, 1, "self|Example|2027", "2028-03-04",
	    "Check automatic lifejacket LJ-1");
	/* once that day is past, all of it is the next winter's */
	scene.today = day_from_civil(2027, 5, 9);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	assert_string_equal(scene.made.items[0].key, "self|Example|2027");
}

TEST(what_is_told_by_itself_is_not_told_as_due_too)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.choices.singles = true;
	scene.lines[0] =
	    line(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 4, 9));
	scene.list.now = (struct shore_lines){scene.lines, 1, LINES};
	scene.list.cannot = (struct shore_lines){scene.lines, 1, LINES};
	scene.today = day_from_civil(2027, 4, 1);
	make(&scene, &scene.list, 1);
	size_t singles = 0;
	for (size_t i = 0; i < scene.made.count; i++) {
		singles += strncmp(scene.made.items[i].summary, "Due: ", 5) == 0;
	}
	assert_int_equal(singles, 1);
}

TEST(a_single_on_a_chosen_day_is_kept_once_it_has_lapsed)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(FLARES, TASK_RENEW, STATE_EXPIRED, day_from_civil(2026, 9, 30));
	scene.list.now = (struct shore_lines){scene.lines, 1, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 0);
	const struct planned_day planned[] = {
	    {.key = "now|FR-1|renew", .day = day_from_civil(2026, 10, 12)}};
	scene.choices.planned = planned;
	scene.choices.planned_count = 1;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "now|FR-1|renew", "2026-10-12",
	    "Due: 4 x red hand flare FR-1: renew");
}

TEST(a_chosen_day_that_is_too_late_says_so)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.lines[0].not_after = day_from_civil(2027, 2, 20);
	scene.list.self = (struct shore_lines){scene.lines, 1, LINES};
	const struct planned_day planned[] = {
	    {.key = "self|Example|2026", .day = day_from_civil(2027, 2, 21)}};
	scene.choices.planned = planned;
	scene.choices.planned_count = 1;
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "self|Example|2026", "2027-02-21", "Check tether TE-1");
	expect_description(&scene, 0,
	    "- TE-1 tether: inspect, due 1 Aug 2027; not after 20 Feb 2027\n"
	    "TOO LATE: this day was chosen, but the last day that works is 20 Feb "
	    "2027.\n");
}

/* 31 March 2027 less 56 days is 3 February; 20 July 2026 less 14 is 6 July. */
TEST(a_kinds_notice_moves_what_is_bought_and_what_can_not_wait)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct notice notices[] = {{"flare-red-hand", 56}, {"tether", 14}};
	scene.choices.notices = notices;
	scene.choices.notice_count = 2;
	scene.lines[0] =
	    line(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 5, 31));
	scene.lines[1] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 7, 20));
	scene.today = day_from_civil(2026, 7, 1);
	scene.list.buy = (struct shore_lines){scene.lines, 1, LINES};
	scene.list.now = (struct shore_lines){scene.lines + 1, 1, LINES};
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "now|TE-1|inspect", "2026-07-06", "Due: tether TE-1: inspect");
	expect(&scene, 1, "buy|Example|2026", "2027-02-03",
	    "Buy or renew 4 x red hand flare FR-1");
}

TEST(single_items_and_routine_looks_come_only_when_asked_for)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(FLARES, TASK_RENEW, STATE_IN_DATE, day_from_civil(2027, 5, 31));
	scene.lines[1] =
	    line(JACKET_1, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2026, 10, 20));
	scene.list.buy = (struct shore_lines){scene.lines, 1, LINES};
	scene.list.routines = (struct shore_lines){scene.lines + 1, 1, LINES};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 1);
	scene.choices.singles = true;
	scene.choices.routines = true;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 3);
	expect(&scene, 0, "routine|Example", "2026-10-20",
	    "Look at automatic lifejacket LJ-1");
	expect(&scene, 2, "item|FR-1|renew", "2027-05-31",
	    "Due: 4 x red hand flare FR-1: renew");
}

/* Two needs, one of them short and one that can't be told. */
static const struct carriage SIGNALS = {.title = "day distress signals"};
static const struct carriage JACKETS = {.title = "lifejackets"};
static const struct carriage RAFT = {.title = "liferaft"};
static const struct muster_line SHORT_LINES[] = {
    {.line = &SIGNALS, .asks = "", .need = 3, .have = 2, .missing = 1},
    {.line = &RAFT, .asks = "", .need = 1, .have = 1},
    {.line = &JACKETS, .asks = "persons"},
};

TEST(a_vessel_that_falls_short_is_told_on_the_day)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct shortfall fall = {0, day_from_civil(2027, 7, 1), SHORT_LINES, 3};
	scene.shortfalls = &fall;
	scene.shortfall_count = 1;
	make(&scene, NULL, 0);
	assert_int_equal(scene.made.count, 1);
	expect(&scene, 0, "short|Example", "2027-07-01",
	    "Short of day distress signals, lifejackets");
	expect_description(&scene, 0,
	    "- day distress signals: 2 of 3\n"
	    "- lifejackets: can't be told, persons is not known; not counted as enough\n");
}

TEST(a_fall_while_laid_up_is_told_at_fitting_out)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.vessel.laid_up = true;
	scene.vessel.lay_up = (struct yearly){11, 1, 3, 31};
	const struct shortfall fall = {0, day_from_civil(2027, 1, 15), SHORT_LINES, 3};
	scene.shortfalls = &fall;
	scene.shortfall_count = 1;
	make(&scene, NULL, 0);
	expect(&scene, 0, "short|Example", "2027-03-31",
	    "Short of day distress signals, lifejackets");
}

TEST(a_scope_keeps_its_own_reminders)
{
	static const struct {
		struct scope scope;
		size_t kept;
	} CASES[] = {
	    {{SCOPE_FLEET, ""}, 2},
	    {{SCOPE_VESSEL, "Example"}, 2},
	    {{SCOPE_VESSEL, "Other"}, 0},
	    {{SCOPE_BASE, "Holm Quay"}, 2},
	    {{SCOPE_BASE, ""}, 0},
	    {{SCOPE_STATION, "Skerry Raft Loft"}, 1},
	    {{SCOPE_STATION, "Skerry"}, 0},
	};

	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 6, 30));
	scene.trips[0] = (struct trip){.name = "Skerry Raft Loft",
	    .hand_in = day_from_civil(2026, 11, 2),
	    .year = 2026,
	    .number = 1,
	    .ready = day_from_civil(2026, 11, 30),
	    .collect = day_from_civil(2026, 11, 30),
	    .lines = {scene.lines, 1, 1}};
	scene.list.hand_in = (struct trips){scene.trips, 1, 1};
	scene.list.buy = (struct shore_lines){scene.lines, 1, LINES};
	for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
		make(&scene, &scene.list, 1);
		reminders_narrow(&scene.made, &scene.inventory, &CASES[i].scope);
		assert_int_equal(scene.made.count, CASES[i].kept);
	}
}

TEST(a_to_do_is_one_task_and_belongs_to_its_reminder)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.lines[0] =
	    line(JACKET_1, TASK_SERVICE, STATE_IN_DATE, day_from_civil(2027, 6, 30));
	scene.trips[0] = (struct trip){.name = "Skerry Raft Loft",
	    .hand_in = day_from_civil(2026, 11, 2),
	    .year = 2026,
	    .number = 1,
	    .collect = day_from_civil(2026, 11, 30),
	    .lines = {scene.lines, 1, 1}};
	scene.list.hand_in = (struct trips){scene.trips, 1, 1};
	scene.items[TETHER].tag = "T|1";
	scene.lines[1] =
	    line(TETHER, TASK_INSPECT, STATE_IN_DATE, day_from_civil(2027, 8, 1));
	scene.lines[1].not_after = day_from_civil(2027, 2, 20);
	scene.list.self = (struct shore_lines){scene.lines + 1, 1, LINES};
	scene.todos = true;
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(
	    &scene, 0, "do|LJ-1|service|2026", "2026-11-30", "LJ-1: service (Example)");
	assert_string_equal(
	    scene.made.items[0].about, "hand-in|Example|2026|Skerry Raft Loft|1");
	expect(
	    &scene, 1, "do|T\\|1|inspect|2026", "2027-02-20", "T|1: inspect (Example)");
	assert_string_equal(scene.made.items[1].about, "self|Example|2026");
}

TEST(what_is_hired_is_to_be_given_back_and_a_tick_records_nothing)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	struct todo todo = {0};
	bool is_todo = true;
	scene.lines[0] =
	    line(JACKET_1, TASK_RENEW, STATE_IN_DATE, day_from_civil(2026, 10, 20));
	scene.lines[0].give_back = true;
	scene.list.now = (struct shore_lines){scene.lines, 1, LINES};
	make(&scene, &scene.list, 1);
	expect(&scene, 0, "now|LJ-1|renew", "2026-10-20",
	    "Due: automatic lifejacket LJ-1: give back");
	scene.todos = true;
	make(&scene, &scene.list, 1);
	expect(
	    &scene, 0, "do|LJ-1|give-back|0", "2026-10-20", "LJ-1: give back (Example)");
	todo_of_key(scene.made.items[0].key, &scene.arena, &todo, &is_todo);
	assert_false(is_todo);
}

TEST(a_to_dos_key_tells_item_and_task)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	struct todo todo = {0};
	bool is_todo = false;
	todo_of_key("do|T\\|1|inspect|2026", &scene.arena, &todo, &is_todo);
	assert_true(is_todo);
	assert_string_equal(todo.tag, "T|1");
	assert_int_equal(todo.task, TASK_INSPECT);
	static const char *const OTHERS[] = {
	    "self|Example|2026", "do", "do|", "do|T-1", "do|T-1|polish|2026", ""};
	for (size_t i = 0; i < sizeof OTHERS / sizeof OTHERS[0]; i++) {
		todo_of_key(OTHERS[i], &scene.arena, &todo, &is_todo);
		assert_false(is_todo);
	}
}

/* Two that went ashore together, and one a week later at another station. */
TEST(what_is_ashore_is_told_on_the_day_it_can_be_fetched)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.today = day_from_civil(2026, 11, 10);
	day_t due = day_from_civil(2027, 6, 30);
	struct ashore_line ashore[] = {
	    {.item = JACKET_1,
		.station = "Skerry Raft Loft",
		.since = day_from_civil(2026, 11, 2),
		.collect = day_from_civil(2026, 11, 30),
		.tasks = 1U << TASK_SERVICE,
		.due = due},
	    {.item = JACKET_2,
		.station = "Skerry Raft Loft",
		.since = day_from_civil(2026, 11, 2),
		.collect = day_from_civil(2026, 11, 30),
		.tasks = 1U << TASK_SERVICE,
		.due = due},
	    {.item = TETHER,
		.station = "",
		.since = DAY_NONE,
		.collect = DAY_NONE,
		.assumed = true,
		.tasks = 1U << TASK_TEST,
		.due = due},
	};
	scene.list.ashore = (struct ashore_lines){ashore, 3};
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "fetch|Example||", "2026-11-21", "Collect tether TE-1, ashore");
	expect(&scene, 1, "fetch|Example|Skerry Raft Loft|2026-11-02", "2026-11-30",
	    "Collect 2 x automatic lifejacket, Skerry Raft Loft");
	expect_description(&scene, 1,
	    "Ashore since 2 Nov 2026.\n"
	    "Check each certificate and the next date on it, and record them.\n"
	    "- LJ-1 automatic lifejacket\n"
	    "- LJ-2 automatic lifejacket\n"
	    "Carry gas upright.\n");
}

/* Two boats of a base that landed at one station on one day; the second is ready two days later. */
TEST(what_boats_of_a_base_landed_together_is_fetched_together)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct vessel vessels[] = {{.name = "Example", .base = "Port Marrin"},
	    {.name = "Other", .base = "Port Marrin"}, {.name = "Third", .base = "Lorne"}};
	scene.inventory.vessels = vessels;
	scene.inventory.vessel_count = 3;
	scene.today = day_from_civil(2026, 11, 10);
	struct ashore_line ashore[3];
	struct shore_list lists[3] = {scene.list, scene.list, scene.list};
	for (size_t i = 0; i < 3; i++) {
		ashore[i] = (struct ashore_line){.item = JACKET_1 + i,
		    .station = "Skerry Raft Loft",
		    .since = day_from_civil(2026, 11, 2),
		    .collect = day_from_civil(2026, 11, 28 + 2 * (int)(i % 2)),
		    .tasks = 1U << TASK_SERVICE,
		    .due = day_from_civil(2027, 6, 30)};
		lists[i].vessel = i;
		lists[i].ashore = (struct ashore_lines){&ashore[i], 1};
	}
	make(&scene, lists, 3);
	assert_int_equal(scene.made.count, 2);
	expect(&scene, 0, "fetch|Third|Skerry Raft Loft|2026-11-02", "2026-11-28",
	    "Collect 4 x red hand flare FR-1, Skerry Raft Loft (Third)");
	expect(&scene, 1, "base-fetch|Port Marrin|Skerry Raft Loft|2026-11-02",
	    "2026-11-30",
	    "Collect 2 x automatic lifejacket, Skerry Raft Loft (2 boats, Port Marrin)");
	assert_int_equal(scene.made.items[1].vessel_count, 2);
	expect_description(&scene, 1,
	    "Ashore since 2 Nov 2026.\n"
	    "Check each certificate and the next date on it, and record them.\n"
	    "Example:\n"
	    "- LJ-1 automatic lifejacket\n"
	    "Other:\n"
	    "- LJ-2 automatic lifejacket\n"
	    "Carry gas upright.\n");
	/* what was given out as one boat's stays hers, and the other's is the base's */
	const struct book_reminder stored = {
	    .key = "fetch|Example|Skerry Raft Loft|2026-11-02",
	    .shape = "aa",
	    .day = day_from_civil(2026, 11, 28),
	    .aim = day_from_civil(2026, 11, 28)};
	scene.stored = &stored;
	scene.stored_count = 1;
	make(&scene, lists, 3);
	assert_int_equal(scene.made.count, 3);
	expect(&scene, 0, "fetch|Example|Skerry Raft Loft|2026-11-02", "2026-11-28",
	    "Collect automatic lifejacket LJ-1, Skerry Raft Loft (Example)");
	expect(&scene, 2, "base-fetch|Port Marrin|Skerry Raft Loft|2026-11-02",
	    "2026-11-30", "Collect automatic lifejacket LJ-2, Skerry Raft Loft (Other)");
}

TEST(nothing_to_do_makes_no_reminder)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	make(&scene, &scene.list, 1);
	assert_int_equal(scene.made.count, 0);
	make(&scene, NULL, 0);
	assert_int_equal(scene.made.count, 0);
}

RUN_TESTS(NULL, NULL)
