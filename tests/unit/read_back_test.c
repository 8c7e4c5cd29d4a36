/* Reading back: what a person did in a calendar program becomes a proposal, and nothing else. */
#include "calendar/read_back.h"

#include "becket_test.h"

static const char EVENT_UID[] = "11111111-0000-8000-8000-000000000000";
static const char TODO_UID[] = "22222222-0000-8000-8000-000000000000";
static const char OLD_UID[] = "33333333-0000-8000-8000-000000000000";

/* Today is 10 December 2026. One reminder for 24 February 2027, one to-do for the same day, and
 * one that was given out long ago. */
struct scene {
	struct arena arena;
	struct reminder items[2];
	struct book_reminder known[3];
	struct book_given given[2];
	size_t given_count; /* 0: a book that has not noted what it gave out */
	day_t today;
	struct read_back back;
};

static void
scene_clear(struct scene *scene)
{
	arena_clear(&scene->arena);
}

#define SCOPED_SCENE __attribute__((cleanup(scene_clear))) struct scene

static void
scene_start(struct scene *scene)
{
	day_t day = day_from_civil(2027, 2, 24);
	*scene = (struct scene){.today = day_from_civil(2026, 12, 10),
	    .items = {{.key = "buy|Example|2026", .uid = EVENT_UID, .day = day},
		{.key = "do|LJ-1|service|2026",
		    .uid = TODO_UID,
		    .day = day,
		    .todo = true}},
	    .known = {{.uid = OLD_UID}, {.uid = TODO_UID}, {.uid = EVENT_UID}}};
}

static struct ics_found
found(const char *uid, bool todo)
{
	return (struct ics_found){.uid = uid,
	    .todo = todo,
	    .day = day_from_civil(2027, 2, 24),
	    .completed = DAY_NONE,
	    .days = 1,
	    .time = "",
	    .status = todo ? "NEEDS-ACTION" : "CONFIRMED"};
}

static struct ics_found
ticked(day_t completed)
{
	struct ics_found todo = found(TODO_UID, true);
	todo.status = "COMPLETED";
	todo.completed = completed;
	return todo;
}

static void
look(struct scene *scene, const struct ics_found *items, size_t count)
{
	const struct reminders reminders = {.items = scene->items, .count = 2};
	const struct read_back_sides sides = {.found = items,
	    .found_count = count,
	    .reminders = &reminders,
	    .known = scene->known,
	    .known_count = 3,
	    .given = scene->given,
	    .given_count = scene->given_count,
	    .today = scene->today};
	read_back(&sides, &scene->arena, &scene->back);
}

TEST(what_was_not_touched_proposes_nothing)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct ics_found items[] = {found(EVENT_UID, false), found(TODO_UID, true)};
	look(&scene, items, 2);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.same, 2);
}

TEST(a_tick_proposes_the_task_on_the_day_it_was_ticked)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct ics_found item = ticked(day_from_civil(2026, 12, 8));
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 1);
	assert_int_equal(scene.back.proposals[0].kind, PROPOSAL_DONE);
	assert_string_equal(scene.back.proposals[0].todo.tag, "LJ-1");
	assert_int_equal(scene.back.proposals[0].todo.task, TASK_SERVICE);
	assert_int_equal(scene.back.proposals[0].day, day_from_civil(2026, 12, 8));
	assert_false(scene.back.proposals[0].day_assumed);
}

TEST(a_tick_without_a_day_or_on_a_day_to_come_is_of_today)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const day_t days[] = {DAY_NONE, day_from_civil(2026, 12, 11)};
	for (size_t i = 0; i < 2; i++) {
		const struct ics_found item = ticked(days[i]);
		look(&scene, &item, 1);
		assert_int_equal(scene.back.count, 1);
		assert_int_equal(scene.back.proposals[0].day, scene.today);
		assert_true(scene.back.proposals[0].day_assumed);
	}
}

TEST(a_reminder_on_another_day_proposes_that_day)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	struct ics_found item = found(EVENT_UID, false);
	item.day = day_from_civil(2027, 2, 20);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 1);
	assert_int_equal(scene.back.proposals[0].kind, PROPOSAL_MOVED);
	assert_string_equal(scene.back.proposals[0].reminder->key, "buy|Example|2026");
	assert_int_equal(scene.back.proposals[0].day, day_from_civil(2027, 2, 20));
}

TEST(a_day_that_can_not_be_planned_is_counted_and_not_proposed)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	struct ics_found items[4];
	for (size_t i = 0; i < 4; i++) {
		items[i] = found(EVENT_UID, false);
		items[i].day = day_from_civil(2027, 2, 20);
	}
	items[0].day = day_from_civil(2026, 12, 9); /* past */
	items[1].day = DAY_NONE;
	items[2].repeats = true;
	items[3].status = "CANCELLED";
	look(&scene, items, 4);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.odd, 4);
}

TEST(an_event_that_claims_to_be_completed_is_no_tick)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	struct ics_found items[] = {found(EVENT_UID, false), found(EVENT_UID, true)};
	items[0].status = "COMPLETED";
	items[1].status = "COMPLETED"; /* a to-do with an event's identity */
	look(&scene, items, 2);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.same, 1);
	assert_int_equal(scene.back.odd, 1);
}

TEST(what_is_old_or_foreign_is_passed_over)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct ics_found items[] = {
	    found(OLD_UID, true), found("someone-elses", false), found("", false)};
	look(&scene, items, 3);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.old, 1);
	assert_int_equal(scene.back.foreign, 2);
}

TEST(one_thing_twice_in_a_file_is_one_proposal)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	const struct ics_found items[] = {
	    ticked(day_from_civil(2026, 12, 8)), ticked(day_from_civil(2026, 12, 1))};
	look(&scene, items, 2);
	assert_int_equal(scene.back.count, 1);
	assert_int_equal(scene.back.proposals[0].day, day_from_civil(2026, 12, 1));
}

/* Given out for 10 February 2027, then, changed in the book, for the 24th. */
static void
give_twice(struct scene *scene)
{
	scene_start(scene);
	scene->given[0] = (struct book_given){EVENT_UID, 0, day_from_civil(2027, 2, 10)};
	scene->given[1] = (struct book_given){EVENT_UID, 1, day_from_civil(2027, 2, 24)};
	scene->given_count = 2;
	scene->items[0].sequence = 1;
}

static struct ics_found
event_on(int sequence, int day)
{
	struct ics_found event = found(EVENT_UID, false);
	event.sequence = sequence;
	event.day = day_from_civil(2027, 2, day);
	return event;
}

TEST(an_older_file_that_nobody_touched_is_called_older)
{
	SCOPED_SCENE scene;
	give_twice(&scene);
	const struct ics_found item = event_on(0, 10);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.older, 1);
	/* so, too, where the book has not noted what it gave out */
	scene.given_count = 0;
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.older, 1);
}

TEST(a_plan_made_since_is_no_move_of_a_persons)
{
	SCOPED_SCENE scene;
	give_twice(&scene);
	/* reckoned anew since, and not given out */
	scene.items[0].day = day_from_civil(2027, 3, 1);
	scene.items[0].sequence = 2; /* as it would be */
	const struct ics_found item = event_on(1, 24);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.same, 1);
	/* nor once its day is past */
	scene.today = day_from_civil(2027, 2, 25);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.same, 1);
}

TEST(what_both_sides_moved_is_marked_unless_they_agree)
{
	SCOPED_SCENE scene;
	give_twice(&scene);
	/* from the 10th to the 20th there, to the 24th in the book */
	struct ics_found item = event_on(0, 20);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 1);
	assert_true(scene.back.proposals[0].both);
	assert_int_equal(scene.back.proposals[0].given, day_from_civil(2027, 2, 10));
	item = event_on(0, 24);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 0);
	/* there alone, by a program that counts on */
	item = event_on(2, 20);
	look(&scene, &item, 1);
	assert_int_equal(scene.back.count, 1);
	assert_false(scene.back.proposals[0].both);
}

/* It would be planned for nothing: the last day that serves stays where it is. */
TEST(a_last_day_that_was_moved_is_counted_and_not_proposed)
{
	SCOPED_SCENE scene;
	scene_start(&scene);
	scene.items[0].last_chance = true;
	const struct ics_found items[] = {event_on(0, 20), event_on(0, 24)};
	look(&scene, items, 2);
	assert_int_equal(scene.back.count, 0);
	assert_int_equal(scene.back.odd, 1);
	assert_int_equal(scene.back.same, 1);
}

RUN_TESTS(NULL, NULL)
