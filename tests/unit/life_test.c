/* Gear that comes back, where it is, what it cost, and what happened to it. */
#include "becket_test.h"
#include "life/family.h"
#include "life/history.h"
#include "life/homecoming.h"
#include "life/planning.h"
#include "life/spending.h"
#include "life/whereabouts.h"
#include "scene.h"

#include <string.h>

static const char NO_RULES[] =
    "  - id: yearly\n    kinds: [lifejacket-auto]\n    task: service\n    doer: station\n"
    "    grade: maker\n    clocks:\n      - { from: [last], months: 12 }\n"
    "    source: test\n    standing: common practice\n";

/* A jacket LJ-1, landed at Depot on 25 November 2026, with a head FH-1 and a cylinder CY-1 in
 * the head. */
static void
open_jacket(struct scene *scene)
{
	scene_open(scene, NO_RULES);
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	struct item *head = scene_item(scene, "firing-head");
	struct item *cylinder = scene_item(scene, "gas-cylinder");
	jacket->tag = "LJ-1";
	head->tag = "FH-1";
	cylinder->tag = "CY-1";
	head->parent = 0;
	cylinder->parent = 1;
	for (size_t i = 0; i < 3; i++) {
		scene->items[i].state = PLACE_LANDED;
		scene->items[i].landed_to = "Depot";
		scene->items[i].landed_on = day_of("2026-11-25");
	}
}

TEST(a_family_is_the_item_and_all_that_is_inside_it_but_what_is_gone)
{
	CLOSES_SCENE struct scene scene;
	struct family family = {0};
	open_jacket(&scene);
	scene_item(&scene, "lifejacket-auto")->tag = "LJ-2";
	family_of(&scene.inventory, 0, &scene.arena, &family);
	assert_int_equal(family.count, 3);
	assert_int_equal(family.items[0], 0);
	assert_true(family_has(&scene.inventory, 0, 2));
	assert_false(family_has(&scene.inventory, 2, 0));
	assert_false(family_has(&scene.inventory, 0, 0));
	scene.items[2].state = PLACE_WITHDRAWN;
	family_of(&scene.inventory, 0, &scene.arena, &family);
	assert_int_equal(family.count, 2);
	/* the item itself is always one of it */
	family_of(&scene.inventory, 2, &scene.arena, &family);
	assert_int_equal(family.count, 1);
}

TEST(a_renewed_part_is_read_with_its_mark_its_day_of_manufacture_and_its_number)
{
	struct arena arena = {0};
	struct fault fault = {0};
	struct renewed_part part = {0};
	char words[STAMP_TEXT_SIZE];
	assert_true(renewed_parse(&arena, "FH-1=before 2029-06,made:2026-10,serial:K-7",
	    ORDER_ISO, &part, &fault));
	assert_string_equal(part.tag, "FH-1");
	assert_string_equal(stamp_text(part.expires, words), "before 2029-06");
	assert_string_equal(stamp_text(part.made, words), "2026-10");
	assert_string_equal(part.serial, "K-7");
	assert_true(renewed_parse(&arena, "FH-1=", ORDER_ISO, &part, &fault));
	assert_int_equal(part.expires.precision, STAMP_NONE);
	static const char *const BAD[] = {
	    "FH-1", "=2029", "", "FH-1=soon", "FH-1=2029,made:soon"};
	for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
		fault = (struct fault){0};
		assert_false(renewed_parse(&arena, BAD[i], ORDER_ISO, &part, &fault));
		assert_int_equal(fault.kind, FAULT_INPUT);
	}
	arena_clear(&arena);
}

/* Checks the homecoming of LJ-1; `words` is what the fault says, NULL when it is good. */
static void
assert_homecoming(
    const struct scene *scene, const struct homecoming *home, const char *words)
{
	struct fault fault = {0};
	bool good = homecoming_check(&scene->inventory, 0, home, &fault);
	if (good != (words == NULL) ||
	    (words != NULL && strstr(fault.text, words) == NULL)) {
		fail_msg("found \"%s\", expected \"%s\"", fault.text,
		    words == NULL ? "nothing" : words);
	}
}

TEST(what_comes_back_must_have_gone_and_its_days_must_follow_one_another)
{
	CLOSES_SCENE struct scene scene;
	open_jacket(&scene);
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	assert_homecoming(&scene, &home, NULL);
	home.done = day_of("2026-12-10");
	assert_homecoming(&scene, &home, "the work can't be done on 10 Dec 2026");
	home.done = day_of("2026-11-24");
	assert_homecoming(&scene, &home, "the work can't have been done on 24 Nov 2026");
	home.tasks = 1U << TASK_SERVICE;
	home.done = day_of("2026-11-25");
	home.next = stamp_of("2026-10");
	assert_homecoming(&scene, &home, "is before the work was done");
	home.next = stamp_of("2026-11");
	assert_homecoming(&scene, &home, NULL);
	home.next_of[TASK_SERVICE] = stamp_of("2026-10");
	assert_homecoming(&scene, &home, "is before the work was done");
	home.next_of[TASK_SERVICE] = (struct stamp){0};
	home.next_of[TASK_COUNT - 1] = stamp_of("2026-10");
	assert_homecoming(&scene, &home, "is before the work was done");
	home = homecoming_on(day_of("2026-11-24"));
	assert_homecoming(&scene, &home, "it can't be back on 24 Nov 2026");
	scene.items[0].state = PLACE_ABOARD;
	assert_homecoming(&scene, &home, "LJ-1 is not ashore");
	scene.items[0].state = PLACE_WITHDRAWN;
	scene.items[0].because = BECAUSE_LOST;
	assert_homecoming(&scene, &home, "LJ-1 is withdrawn: lost");
}

TEST(a_result_brings_what_goes_with_it_and_nothing_else)
{
	CLOSES_SCENE struct scene scene;
	struct renewed_part head = {.tag = "FH-1", .serial = ""};
	struct renewed_part stranger = {.tag = "LJ-1", .serial = ""};
	const char *const kept[] = {"CY-1"};
	open_jacket(&scene);
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.result = RESULT_PASSED_SHORTER;
	assert_homecoming(&scene, &home, "the next date its paper states is missing");
	home.next = stamp_of("2027-06");
	assert_homecoming(&scene, &home, "the next date of LJ-1 belongs to no task");
	home.tasks = 1U << TASK_SERVICE;
	assert_homecoming(&scene, &home, NULL);
	home.result = RESULT_CONDEMNED;
	assert_homecoming(&scene, &home, "was condemned, so it has no next date");
	home.next = (struct stamp){0};
	home.tasks = 0;
	home.kept = kept;
	home.kept_count = 1;
	assert_homecoming(&scene, &home, NULL);
	home.result = RESULT_PASSED;
	assert_homecoming(&scene, &home, "no part outlives it");
	home.kept_count = 0;
	home.renewed = &head;
	home.renewed_count = 1;
	assert_homecoming(&scene, &home, NULL);
	home.renewed = &stranger;
	assert_homecoming(&scene, &home, "LJ-1 is no part of LJ-1");
	home = homecoming_on(day_of("2026-12-09"));
	home.result = RESULT_NOT_DONE;
	assert_homecoming(&scene, &home, NULL);
	home.certificate = "C-1";
	assert_homecoming(&scene, &home, "nothing was done to LJ-1");
}

/* Landed twice: what counts is what was asked the last time. */
static const struct movement JACKET_MOVES[] = {
    {.move = MOVE_LANDED, .asked = 1U << TASK_INSPECT},
    {.move = MOVE_RETURNED},
    {.move = MOVE_LANDED,
	.asked = 1U << TASK_SERVICE | 1U << TASK_TEST | 1U << TASK_RENEW},
};

static const struct movement CYLINDER_MOVES[] = {
    {.move = MOVE_LANDED, .asked = 1U << TASK_WEIGH}};

TEST(nothing_is_recorded_as_done_but_what_is_named_or_as_asked)
{
	CLOSES_SCENE struct scene scene;
	open_jacket(&scene);
	struct item *jacket = &scene.items[0];
	struct item *cylinder = &scene.items[2];
	jacket->movements = JACKET_MOVES;
	jacket->movement_count = 3;
	cylinder->movements = CYLINDER_MOVES;
	cylinder->movement_count = 1;
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	assert_int_equal(homecoming_asked(jacket), JACKET_MOVES[2].asked);
	assert_int_equal(homecoming_tasks(&home, jacket, false), 0);
	home.tasks = 1U << TASK_INSPECT;
	assert_int_equal(homecoming_tasks(&home, jacket, false), 1U << TASK_INSPECT);
	assert_int_equal(homecoming_tasks(&home, cylinder, true), 0);
	/* all that was asked, but for what was to be put in new: its mark is not read yet */
	home.tasks = 0;
	home.as_asked = true;
	assert_int_equal(
	    homecoming_tasks(&home, jacket, false), 1U << TASK_SERVICE | 1U << TASK_TEST);
	assert_int_equal(homecoming_tasks(&home, cylinder, true), 1U << TASK_WEIGH);
	home.result = RESULT_NOT_DONE;
	assert_int_equal(homecoming_tasks(&home, jacket, false), 0);
}

TEST(as_asked_says_nothing_of_what_was_landed_with_nothing_on_record)
{
	CLOSES_SCENE struct scene scene;
	open_jacket(&scene);
	struct homecoming home = homecoming_on(day_of("2026-12-09"));
	home.as_asked = true;
	assert_homecoming(&scene, &home, "does not say what was asked");
	/* of a part alone it is enough, where the part is ashore */
	scene.items[2].movements = CYLINDER_MOVES;
	scene.items[2].movement_count = 1;
	assert_homecoming(&scene, &home, NULL);
	scene.items[2].state = PLACE_ABOARD;
	assert_homecoming(&scene, &home, "does not say what was asked");
}

TEST(what_comes_back_stands_as_it_stood_before_it_was_landed)
{
	struct item item = {.state = PLACE_LANDED};
	struct movement movements[] = {
	    {.move = MOVE_RESERVED, .was = PLACE_ABOARD},
	    {.move = MOVE_LANDED, .was = PLACE_RESERVE},
	    {.move = MOVE_CARRIED, .was = PLACE_LANDED},
	};
	assert_int_equal(homecoming_state(&item), PLACE_ABOARD);
	item.movements = movements;
	item.movement_count = 3;
	assert_int_equal(homecoming_state(&item), PLACE_RESERVE);
	item.movements = movements + 1;
	item.movement_count = 1;
	assert_int_equal(homecoming_state(&item), PLACE_RESERVE);
	movements[1].was = PLACE_STAND_IN;
	assert_int_equal(homecoming_state(&item), PLACE_STAND_IN);
	/* withdrawn before: it must not come back gone */
	movements[1].was = PLACE_WITHDRAWN;
	assert_int_equal(homecoming_state(&item), PLACE_ABOARD);
}

static struct known_gear
known_of(const struct scene *scene)
{
	return (struct known_gear){.inventory = &scene->inventory, .kinds = scene->kinds};
}

TEST(a_part_is_where_its_whole_is_unless_it_went_elsewhere)
{
	CLOSES_SCENE struct scene scene;
	open_jacket(&scene);
	struct known_gear known = known_of(&scene);
	struct whereabouts where = whereabouts_of(&known, 2);
	assert_int_equal(where.whole, 0);
	assert_int_equal(where.state, PLACE_LANDED);
	assert_string_equal(where.station, "Depot");
	/* no station in the book: 42 days from 25 November, 5 + 31 + 6 */
	assert_int_equal(where.collect, day_of("2027-01-06"));
	assert_true(where.assumed);
	scene.items[1].landed_to = "Loft";
	scene.items[2].landed_to = "Loft";
	assert_int_equal(whereabouts_of(&known, 2).whole, 1);
	/* left aboard when the rest went */
	scene.items[2].state = PLACE_ABOARD;
	scene.items[2].landed_to = "";
	where = whereabouts_of(&known, 2);
	assert_int_equal(where.whole, 2);
	assert_int_equal(where.state, PLACE_ABOARD);
}

TEST(things_are_found_by_tag_then_by_number_then_by_words)
{
	static const struct {
		const char *words;
		size_t count;
	} ROWS[] = {
	    {"FH-1", 1},             /* a tag */
	    {"k7", 1},               /* a number, as read */
	    {"automatic", 2},        /* the names of jacket and head */
	    {"AUTOMATIC jacket", 1}, /* all words */
	    {"automatic zebra", 0},
	    {"", 0},
	};

	CLOSES_SCENE struct scene scene;
	open_jacket(&scene);
	scene.items[2].serial = "K-7";
	struct known_gear known = known_of(&scene);
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct whereabouts_list list = {0};
		whereabouts_find(&known, ROWS[i].words, &scene.arena, &list);
		if (list.count != ROWS[i].count) {
			fail_msg("\"%s\": %zu", ROWS[i].words, list.count);
		}
	}
	/* of a kind that the catalogue no longer has only its id is known */
	scene.items[0].kind = "no-such-kind";
	struct whereabouts_list list = {0};
	whereabouts_find(&known, "such kind", &scene.arena, &list);
	assert_int_equal(list.count, 1);
	whereabouts_find(&known, "automatic", &scene.arena, &list);
	assert_int_equal(list.count, 1);
}

static struct movement
at_depot(enum move move, const char *on, enum result result)
{
	return (struct movement){.move = move,
	    .on = day_of(on),
	    .station = "Depot",
	    .result = result,
	    .note = "",
	    .serial = ""};
}

TEST(what_came_back_different_is_told_apart)
{
	CLOSES_SCENE struct scene scene;
	struct came_back_list list = {0};
	open_jacket(&scene);
	struct movement movements[] = {
	    at_depot(MOVE_LANDED, "2026-11-25", RESULT_NOT_SAID),
	    at_depot(MOVE_RETURNED, "2026-12-09", RESULT_PASSED),
	};
	scene.items[0].movements = movements;
	scene.items[0].movement_count = 2;
	scene_record(&scene, &scene.items[0], TASK_SERVICE, "2026-12-07", "2027-12");
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 1);
	assert_false(list.items[0].different);
	assert_non_null(list.items[0].record);
	/* a new head came with it */
	scene_record(&scene, &scene.items[1], TASK_RENEW, "2026-12-07", NULL);
	came_back_since(
	    &scene.inventory, "Depot", day_of("2026-12-09"), &scene.arena, &list);
	assert_true(list.items[0].different);
	assert_int_equal(list.items[0].renewed_count, 1);
	assert_int_equal(list.items[0].renewed[0], 1);
	came_back_since(
	    &scene.inventory, NULL, day_of("2026-12-10"), &scene.arena, &list);
	assert_int_equal(list.count, 0);
	came_back_since(&scene.inventory, "Loft", DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 0);
}

TEST(a_part_put_in_new_on_the_day_it_was_handed_in_came_back_new)
{
	CLOSES_SCENE struct scene scene;
	struct came_back_list list = {0};
	open_jacket(&scene);
	struct movement movements[] = {
	    at_depot(MOVE_LANDED, "2026-11-25", RESULT_NOT_SAID),
	    at_depot(MOVE_RETURNED, "2026-12-09", RESULT_PASSED),
	};
	scene.items[0].movements = movements;
	scene.items[0].movement_count = 2;
	scene_record(&scene, &scene.items[1], TASK_RENEW, "2026-11-25", NULL);
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.items[0].renewed_count, 1);
}

/* Landed on 25 November and carried meanwhile. Work before it went and after it was back
 * is none of this visit, nor is a head renewed then; a note alone is something to tell;
 * what was condemned there is told too, what was lost is not. */
TEST(only_what_was_done_in_its_days_there_came_back_with_it)
{
	CLOSES_SCENE struct scene scene;
	struct came_back_list list = {0};
	open_jacket(&scene);
	struct movement movements[] = {
	    at_depot(MOVE_LANDED, "2026-11-25", RESULT_NOT_SAID),
	    at_depot(MOVE_CARRIED, "2026-11-26", RESULT_NOT_SAID),
	    at_depot(MOVE_RETURNED, "2026-12-09", RESULT_PASSED),
	};
	scene.items[0].movements = movements;
	scene.items[0].movement_count = 3;
	scene_record(&scene, &scene.items[0], TASK_SERVICE, "2026-11-24", NULL);
	scene_record(&scene, &scene.items[0], TASK_SERVICE, "2026-12-10", NULL);
	scene_record(&scene, &scene.items[1], TASK_RENEW, "2026-11-24", NULL);
	scene_record(&scene, &scene.items[1], TASK_RENEW, "2026-12-10", NULL);
	scene_record(&scene, &scene.items[1], TASK_INSPECT, "2026-12-01", NULL);
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 1);
	assert_null(list.items[0].record);
	assert_int_equal(list.items[0].renewed_count, 0);
	assert_false(list.items[0].different);
	movements[2].note = "new strap";
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_true(list.items[0].different);
	movements[2] = at_depot(MOVE_WITHDRAWN, "2026-12-09", RESULT_CONDEMNED);
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 1);
	assert_true(list.items[0].different);
	movements[2] = at_depot(MOVE_WITHDRAWN, "2026-12-09", RESULT_NOT_SAID);
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 0);
	movements[2] = at_depot(MOVE_WITHDRAWN, "2026-12-09", RESULT_PASSED);
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 0);
	/* it is not known when it went */
	scene.items[0].movements = &movements[2];
	scene.items[0].movement_count = 1;
	movements[2] = at_depot(MOVE_RETURNED, "2026-12-09", RESULT_PASSED);
	scene_record(&scene, &scene.items[0], TASK_SERVICE, "2026-12-07", NULL);
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 1);
	assert_null(list.items[0].record);
}

TEST(what_came_back_later_is_told_first)
{
	CLOSES_SCENE struct scene scene;
	struct came_back_list list = {0};
	open_jacket(&scene);
	struct movement movements[] = {
	    at_depot(MOVE_RETURNED, "2026-12-09", RESULT_PASSED),
	    at_depot(MOVE_RETURNED, "2026-12-10", RESULT_PASSED),
	};
	for (size_t i = 0; i < 2; i++) {
		scene.items[i].movements = &movements[i];
		scene.items[i].movement_count = 1;
	}
	came_back_since(&scene.inventory, NULL, DAY_NONE, &scene.arena, &list);
	assert_int_equal(list.count, 2);
	assert_int_equal(list.items[0].item, 1);
	assert_int_equal(list.items[1].item, 0);
}

TEST(a_whole_knows_what_was_asked_of_a_part_that_stands_before_it)
{
	SCENE(scene, NO_RULES);
	struct item *head = scene_item(&scene, "firing-head");
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	struct movement movements[] = {
	    {.move = MOVE_LANDED,
		.on = day_of("2026-11-25"),
		.station = "Depot",
		.asked = 1U << TASK_RENEW,
		.note = "",
		.serial = ""},
	};
	head->parent = 1;
	head->state = PLACE_LANDED;
	jacket->state = PLACE_LANDED;
	assert_false(homecoming_knows(&scene.inventory, 1));
	head->movements = movements;
	head->movement_count = 1;
	assert_true(homecoming_knows(&scene.inventory, 1));
}

TEST(gear_that_is_said_to_be_aboard_is_ashore_no_more)
{
	const unsigned ashore = 1U << FIELD_LANDED_TO | 1U << FIELD_LANDED_ON;
	struct item_change change = {.set = 1U << FIELD_STATE, .state = PLACE_ABOARD};
	life_settle_state(&change);
	assert_int_equal(change.set, 1U << FIELD_STATE | ashore | 1U << FIELD_BECAUSE);
	assert_string_equal(change.landed_to, "");
	assert_int_equal(change.landed_on, DAY_NONE);
	struct item_change landed = {.set = 1U << FIELD_STATE, .state = PLACE_LANDED};
	life_settle_state(&landed);
	assert_int_equal(landed.set & ashore, 0);
	struct item_change gone = {.set = 1U << FIELD_STATE, .state = PLACE_WITHDRAWN};
	life_settle_state(&gone);
	assert_int_equal(gone.set & 1U << FIELD_BECAUSE, 0);
	struct item_change other = {.set = 1U << FIELD_SERIAL};
	life_settle_state(&other);
	assert_int_equal(other.set, 1U << FIELD_SERIAL);
}

TEST(what_was_spent_is_work_and_purchases_each_once)
{
	CLOSES_SCENE struct scene scene;
	struct spending sums = {0};
	scene_open(&scene, NO_RULES);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	struct item *flares = scene_item(&scene, "flare-red-hand");
	struct item *hired = scene_item(&scene, "liferaft-valise");
	scene_record(&scene, jacket, TASK_SERVICE, "2025-12-05", NULL);
	scene_record(&scene, jacket, TASK_SERVICE, "2026-12-07", NULL);
	scene_record(&scene, jacket, TASK_INSPECT, "2026-03-28", NULL);
	scene.records[0][0].price_minor = 4000;
	scene.records[0][0].station = "Depot";
	scene.records[0][1].price_minor = 4500;
	scene.records[0][1].station = "Depot";
	struct movement condemned = {.move = MOVE_WITHDRAWN,
	    .on = day_of("2026-12-08"),
	    .station = "Loft",
	    .price_minor = 1000};
	flares->movements = &condemned;
	flares->movement_count = 1;
	flares->bought = stamp_of("2026-04");
	flares->price_minor = 1640;
	flares->quantity = 4;
	hired->bought = stamp_of("2026-05");
	hired->price_minor = 200000;
	hired->hired_until = day_of("2027-01-31");
	spending_sum(&scene.inventory, 2026, &scene.arena, &sums);
	assert_int_equal(sums.total.work_minor, 4500 + 1000);
	assert_int_equal(sums.total.bought_minor, 4 * 1640);
	assert_int_equal(sums.unpriced, 1);
	assert_int_equal(sums.kinds.count, 2);
	assert_string_equal(sums.kinds.items[0].name, "flare-red-hand");
	assert_int_equal(sums.stations.count, 2);
	assert_string_equal(sums.stations.items[0].name, "Depot");
	spending_sum(&scene.inventory, 0, &scene.arena, &sums);
	assert_int_equal(sums.total.work_minor, 4000 + 4500 + 1000);
	assert_int_equal(sums.years.count, 2);
	assert_int_equal(sums.years.items[0].year, 2025);
	assert_int_equal(sums.years.items[0].work_minor, 4000);
}

TEST(a_number_takes_its_history_along_when_another_thing_takes_its_place)
{
	CLOSES_SCENE struct scene scene;
	struct history history = {0};
	scene_open(&scene, NO_RULES);
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	struct record past[] = {
	    {.task = TASK_SERVICE, .on = stamp_of("2024-03-01"), .station = ""}};
	struct event fired[] = {{.kind = EVENT_INFLATED, .on = day_of("2025-01-02")}};
	struct movement movements[] = {
	    {.move = MOVE_LANDED, .on = day_of("2024-02-01"), .serial = "OLD-1"},
	    {.move = MOVE_RENEWED, .on = day_of("2025-05-01"), .serial = "OLD-1"},
	    {.move = MOVE_RESERVED, .on = day_of("2026-01-01"), .serial = "NEW-2"},
	};
	jacket->tag = "LJ-1";
	jacket->serial = "NEW-2";
	jacket->past_records = past;
	jacket->past_record_count = 1;
	jacket->past_events = fired;
	jacket->past_event_count = 1;
	jacket->movements = movements;
	jacket->movement_count = 3;
	/* of the day of the renewal: the new one's */
	scene_record(&scene, jacket, TASK_RENEW, "2025-05-01", NULL);
	history_find(&scene.inventory, "old 1", &scene.arena, &history);
	assert_int_equal(history.bearer_count, 1);
	assert_int_equal(history.count, 4);
	assert_int_equal(history.items[0].movement->move, MOVE_LANDED);
	assert_ptr_equal(history.items[1].record, &past[0]);
	assert_ptr_equal(history.items[2].event, &fired[0]);
	assert_int_equal(history.items[3].movement->move, MOVE_RENEWED);
	history_find(&scene.inventory, "NEW-2", &scene.arena, &history);
	assert_int_equal(history.count, 2);
	assert_int_equal(history.items[0].record->task, TASK_RENEW);
	assert_int_equal(history.items[1].movement->move, MOVE_RESERVED);
	/* a tag tells all of it */
	history_find(&scene.inventory, "LJ-1", &scene.arena, &history);
	assert_int_equal(history.count, 6);
	scene_item(&scene, "plb")->tag = "PLB-2";
	history_find(&scene.inventory, "PLB-2", &scene.arena, &history);
	assert_int_equal(history.bearer_count, 1);
	assert_int_equal(history.bearers[0], 1);
	history_find(&scene.inventory, "none", &scene.arena, &history);
	assert_int_equal(history.bearer_count, 0);
}

/* Two bore the number one after the other: the first thing under LJ-1, which was renewed,
 * and what is LJ-2 now. What happened to either before is told by day, of one day work
 * first. */
TEST(a_number_is_told_of_all_that_bore_it)
{
	CLOSES_SCENE struct scene scene;
	struct history history = {0};
	const struct movement renewed = {
	    .move = MOVE_RENEWED, .on = day_of("2025-05-01"), .serial = "A-1"};
	const struct movement landed = {
	    .move = MOVE_LANDED, .on = day_of("2026-02-01"), .serial = "A-1"};
	scene_open(&scene, NO_RULES);
	struct item *first = scene_item(&scene, "lifejacket-auto");
	struct item *second = scene_item(&scene, "lifejacket-auto");
	first->tag = "LJ-1";
	first->serial = "B-2";
	first->movements = &renewed;
	first->movement_count = 1;
	scene_record(&scene, first, TASK_SERVICE, "2024-03-01", NULL);
	second->tag = "LJ-2";
	second->serial = "A-1";
	second->movements = &landed;
	second->movement_count = 1;
	scene_record(&scene, second, TASK_INSPECT, "2026-02-01", NULL);
	history_find(&scene.inventory, "A-1", &scene.arena, &history);
	assert_int_equal(history.bearer_count, 2);
	assert_int_equal(history.bearers[0], 0);
	assert_int_equal(history.bearers[1], 1);
	assert_int_equal(history.count, 4);
	assert_int_equal(history.items[0].record->task, TASK_SERVICE);
	assert_ptr_equal(history.items[1].movement, &renewed);
	assert_int_equal(history.items[2].record->task, TASK_INSPECT);
	assert_ptr_equal(history.items[3].movement, &landed);
}

RUN_TESTS(NULL, NULL)
