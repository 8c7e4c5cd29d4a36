/* The meaning of every due day, as due/due.h has it, by examples worked by hand. */
#include "becket_test.h"
#include "scene.h"

#include <string.h>

#define SOURCE "    source: test\n    standing: common practice\n"

#define RAFT                                                                                 \
	"  - id: raft-private\n    kinds: [liferaft-canister]\n    when: { use: private }\n" \
	"    task: service\n    doer: station\n    grade: practice\n    clocks:\n"           \
	"      - { from: [packed], months: 36, holds: first }\n"                             \
	"      - { from: [last], months: 36, holds: again }\n" SOURCE                        \
	"  - id: raft-commercial\n    kinds: [liferaft-canister]\n"                          \
	"    when: { use: commercial }\n    task: service\n    doer: station\n"              \
	"    grade: law\n    clocks:\n      - { from: [last, packed], months: 12 }\n" SOURCE

/* The boat of the worked example: private, commercial from 1 June 2027, private again from
 * 1 October 2027. */
static struct item *
raft_on_a_boat_that_turns_commercial_and_back(struct scene *scene)
{
	scene_open(scene, RAFT);
	scene->periods[1] = (struct period){
	    .from = day_of("2027-06-01"), .use = USE_COMMERCIAL, .area = ""};
	scene->periods[2] =
	    (struct period){.from = day_of("2027-10-01"), .use = USE_PRIVATE, .area = ""};
	scene->vessel.period_count = 3;
	struct item *raft = scene_item(scene, "liferaft-canister");
	scene_record(scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	return raft;
}

TEST(turning_commercial_moves_the_due_day_to_the_day_before)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_on_a_boat_that_turns_commercial_and_back(&scene);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2027-05-31");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-05-31"), "in-date");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-06-01"), "overdue");
}

/* Packed 2024-01-10. What is on record of one day was one visit: the first 60 months hold, and not
 * the 12 from the second visit on. */
TEST(two_tasks_of_one_day_are_one_doing)
{
	SCENE(scene,
	    "  - id: a\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    counts: [test]\n    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [packed], months: 60, done-until: 1 }\n"
	    "      - { from: [last], months: 12, done-from: 2 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->packed = stamp_of("2024-01-10");
	scene_record(&scene, raft, TASK_SERVICE, "2026-03-10", NULL);
	scene_record(&scene, raft, TASK_TEST, "2026-03-10", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2029-01-10");
	scene_record(&scene, raft, TASK_TEST, "2026-03-11", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2027-03-11");
}

TEST(while_lapsed_the_due_day_is_the_day_before_the_lapse_began)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_on_a_boat_that_turns_commercial_and_back(&scene);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2027-08-15"), "2027-05-31");
}

TEST(back_in_private_use_it_is_in_date_again)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_on_a_boat_that_turns_commercial_and_back(&scene);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-10-01"), "in-date");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2027-10-01"), "2029-05-20");
}

TEST(a_certificate_that_states_less_binds)
{
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", "2027-11");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-11-30"));
	assert_string_equal(due.binding->rule_id, "certificate");
	assert_int_equal(due.grade, GRADE_MAKER);
}

TEST(a_certificate_that_allows_longer_does_not_bind_and_says_so)
{
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", "2031-05");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2029-05-20"));
	bool said = false;
	for (size_t i = 0; i < due.reading_count; i++) {
		said = said || due.readings[i].paper_allows_longer;
	}
	assert_true(said);
}

TEST(a_record_of_a_day_to_come_does_not_count_before_that_day)
{
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->packed = stamp_of("2020-04-10");
	scene_record(&scene, raft, TASK_SERVICE, "2027-03-01", NULL);
	/* 36 months from packing; then 36 from the service, once there has been one */
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2023-04-10");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-02-28"), "overdue");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2027-03-01"), "2030-03-01");
}

TEST(without_any_date_it_is_unknown_and_the_missing_date_is_named)
{
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_int_equal(due.due, DAY_NONE);
	assert_string_equal(due.readings[0].asks, "packed");
}

TEST(the_interval_shortens_on_the_day_an_age_is_reached)
{
	SCENE(scene,
	    "  - id: young\n    kinds: [liferaft-valise]\n    task: service\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE
	    "  - id: old\n    kinds: [liferaft-valise]\n    when: { age-from: 120 }\n"
	    "    task: service\n    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-valise");
	raft->made = stamp_of("2017-04-10");
	scene_record(&scene, raft, TASK_SERVICE, "2026-02-01", NULL);
	/* ten years old on 10 April 2027, when 12 months from February 2026 have long passed */
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2027-04-09");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-04-10"), "overdue");
}

TEST(an_unknown_condition_is_not_assumed_and_is_asked_for_by_name)
{
	SCENE(scene, "  - id: far\n    kinds: [epirb]\n    when: { areas: [offshore] }\n"
		     "    task: inspect\n    doer: station\n    grade: law\n    clocks:\n"
		     "      - { from: [last], months: 12 }\n" SOURCE);
	struct item *beacon = scene_item(&scene, "epirb");
	scene_record(&scene, beacon, TASK_INSPECT, "2026-05-20", NULL);
	struct obligation due = scene_due(&scene, beacon, TASK_INSPECT, "2026-11-25");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_string_equal(due.readings[0].asks, "area");
}

TEST(a_relaxation_stands_in_place_of_the_rule_it_names)
{
	SCENE(scene,
	    "  - id: yearly\n    kinds: [liferaft-valise]\n    task: service\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: two-yearly\n    kinds: [liferaft-valise]\n"
	    "    when: { age-until: 180 }\n    instead-of: [yearly]\n    task: service\n"
	    "    doer: station\n    grade: law\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-valise");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	/* age not known: the relaxation is not assumed */
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2027-05-20");
	raft->made = stamp_of("2020-01");
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-11-25"), "2028-05-20");
}

TEST(a_fired_raft_is_out_from_that_day_until_it_was_serviced)
{
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct event fired = {.kind = EVENT_FIRED, .on = day_of("2026-07-10")};
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	raft->events = &fired;
	raft->event_count = 1;
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-07-10"), "overdue");
	scene_record(&scene, raft, TASK_SERVICE, "2026-08-01", NULL);
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2026-08-01"), "in-date");
}

TEST(where_the_contents_bind_the_raft_is_due_with_its_earliest_part)
{
	SCENE(scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: law\n    clocks:\n      - { from: [marked] }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	struct item *flares = scene_item(&scene, "raft-contents");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	water->parent = 0;
	water->expires = stamp_of("2028-03");
	flares->parent = 0;
	flares->expires = stamp_of("2027-09");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-09-30"));
	assert_string_equal(due.binding->part, flares->tag);
}

/* What is printed on the part is the maker's word, though the raft's rule be common practice; and
 * once that has passed the raft is out, though its own date is not known. */
TEST(contents_bind_no_less_than_the_part_itself)
{
	SCENE(scene, "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
		     "    doer: station\n    grade: practice\n    contents-bind: yes\n"
		     "    clocks:\n      - { from: [last], months: 24 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *flares = scene_item(&scene, "raft-contents");
	flares->parent = 0;
	flares->expires = stamp_of("2027-09");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-09-30"), "date-unknown");
	assert_string_equal(
	    scene_state(&scene, raft, TASK_SERVICE, "2027-10-01"), "overdue");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-09-30"));
	assert_int_equal(due.grade, GRADE_MAKER);
}

/* Water that is out since its mark of March 2024 is out by its age since June 2025, too:
 * the whole has been out since the first, and the second says nothing more of it. Where
 * its mark is not known its age tells. */
TEST(a_part_that_is_out_binds_by_what_put_it_out_first)
{
	SCENE(scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: law\n    contents-bind: yes\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
	    "    doer: station\n    grade: law\n    clocks:\n      - { from: [marked] }\n"
	    "      - { from: [made], months: 60 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	water->parent = 0;
	water->made = stamp_of("2020-06-01");
	static const char *const MARKS[] = {"2024-03", ""};
	static const char *const DUES[] = {"2024-03-31", "2025-06-01"};
	for (size_t i = 0; i < 2; i++) {
		water->expires = stamp_of(MARKS[i]);
		struct obligation due =
		    scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
		size_t inside = 0;
		for (size_t k = 0; k < due.reading_count; k++) {
			inside += due.readings[k].anchor == ANCHOR_CONTENTS;
		}
		assert_int_equal(inside, 1);
		assert_int_equal(due.due, day_of(DUES[i]));
		assert_int_equal(due.state, STATE_OVERDUE);
	}
}

#define CONTENTS_BIND                                                                    \
	"  - id: raft\n    kinds: [liferaft-canister]\n    task: service\n"              \
	"    doer: station\n    grade: practice\n    contents-bind: yes\n"               \
	"    clocks:\n      - { from: [last], months: 12 }\n" SOURCE

/* 24 months from making on 2020-01-01 while she is commercial, until 30 November 2026; by then the
 * raft's own 12 months from 2025-06-01 were over. It has been out since 2 January 2022. */
TEST(what_was_lapsed_inside_began_the_lapse_that_the_whole_s_own_clock_carries_on)
{
	SCENE(scene, CONTENTS_BIND
	    "  - id: contents\n    kinds: [raft-contents]\n    when: { use: commercial }\n"
	    "    task: renew\n    doer: owner\n    grade: law\n    clocks:\n"
	    "      - { from: [made], months: 24 }\n" SOURCE);
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[1] =
	    (struct period){.from = day_of("2026-12-01"), .use = USE_PRIVATE, .area = ""};
	scene.vessel.period_count = 2;
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->made = stamp_of("2020-01-01");
	scene_record(&scene, raft, TASK_SERVICE, "2025-06-01", NULL);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2027-03-01");
	assert_int_equal(due.state, STATE_OVERDUE);
	assert_int_equal(due.due, day_of("2022-01-01"));
	assert_int_equal(due.binding->anchor, ANCHOR_LAST);
	for (size_t i = 0; i < due.reading_count; i++) {
		bool inside = due.readings[i].anchor == ANCHOR_CONTENTS;
		assert_int_equal(
		    due.readings[i].state, inside ? READING_NOT_IN_FORCE : READING_RUNS);
		assert_int_equal(due.readings[i].began, inside);
	}
	/* so it is on the first day on which the raft's own clock is alone */
	due = scene_due(&scene, raft, TASK_SERVICE, "2026-12-01");
	assert_int_equal(due.due, day_of("2022-01-01"));
	/* while she is commercial the water binds by itself, and there is no lapse before it */
	due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-30");
	assert_int_equal(due.due, day_of("2022-01-01"));
	assert_string_equal(due.binding->part, water->tag);
}

/* The raft's rule is of commercial boats, which she is from June 2026; that the water was
 * long lapsed by a rule of private ones is nothing to it. Its own 12 months were over by
 * then. */
TEST(what_was_lapsed_inside_before_the_whole_s_rule_held_began_nothing)
{
	SCENE(scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    when: { use: commercial }\n"
	    "    task: service\n    doer: station\n    grade: practice\n"
	    "    contents-bind: yes\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    when: { use: private }\n"
	    "    task: renew\n    doer: owner\n    grade: law\n    clocks:\n"
	    "      - { from: [made], months: 24 }\n" SOURCE);
	scene.periods[1] = (struct period){
	    .from = day_of("2026-06-01"), .use = USE_COMMERCIAL, .area = ""};
	scene.vessel.period_count = 2;
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->made = stamp_of("2020-01-01");
	scene_record(&scene, raft, TASK_SERVICE, "2025-01-01", NULL);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-07-01");
	assert_int_equal(due.state, STATE_OVERDUE);
	assert_int_equal(due.due, day_of("2026-05-31"));
}

/* Whether the rules for the water hold can't be told without the year it was made; bought
 * on 2025-08-24 it would be good through 2026-08-24 by the second of them. From the day
 * after that it is out, and so the raft is. */
TEST(a_part_of_unknown_date_binds_by_the_day_on_which_it_will_have_lapsed)
{
	SCENE(scene, CONTENTS_BIND
	    "  - id: longer\n    kinds: [raft-contents]\n"
	    "    when: { made-until: 2018-01-01 }\n    task: renew\n    doer: owner\n"
	    "    grade: maker\n    clocks:\n      - { from: [bought], months: 18 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n"
	    "    when: { made-until: 2018-01-01 }\n    task: renew\n    doer: owner\n"
	    "    grade: maker\n    clocks:\n      - { from: [bought], months: 12 }\n" SOURCE);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->bought = stamp_of("2025-08-24");
	scene_record(&scene, raft, TASK_SERVICE, "2026-01-13", NULL);
	struct obligation inside = scene_due(&scene, water, TASK_RENEW, "2026-05-14");
	assert_int_equal(inside.state, STATE_DATE_UNKNOWN);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-05-14");
	assert_int_equal(due.state, STATE_IN_DATE);
	assert_int_equal(due.due, day_of("2026-08-24"));
	assert_int_equal(due.good_through, day_of("2026-08-24"));
	assert_int_equal(due.grade, GRADE_MAKER);
	assert_string_equal(due.binding->part, water->tag);
	assert_true(due.asks);
	assert_int_equal(due.binding->state, READING_RUNS);
	/* the same day, read when it has come */
	due = scene_due(&scene, raft, TASK_SERVICE, "2026-08-25");
	assert_int_equal(due.state, STATE_OVERDUE);
	assert_int_equal(due.due, day_of("2026-08-24"));
}

#define WATER(id, when, grade, months)                                                   \
	"  - id: " id "\n    kinds: [raft-contents]\n    when: { " when " }\n"           \
	"    task: renew\n    doer: owner\n    grade: " grade "\n    clocks:\n"          \
	"      - { from: [made], months: " months " }\n" SOURCE

/* The raft of common practice, served on 2025-01-20, 12 months; in it water made
 * 2016-01-01 and marked 2025-12, and one more rule for water. Whose grade is the
 * contents' clock? */
static enum grade
grade_switching(const char *rules, const char *today, const char *private_from)
{
	SCENE(scene, rules);
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[1] =
	    (struct period){.from = day_of(private_from), .use = USE_PRIVATE, .area = ""};
	scene.vessel.period_count = 2;
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->made = stamp_of("2016-01-01");
	water->expires = stamp_of("2025-12");
	scene_record(&scene, raft, TASK_SERVICE, "2025-01-20", NULL);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, today);
	assert_int_equal(due.due, day_of("2025-12-31"));
	assert_string_equal(due.binding->part, water->tag);
	return due.grade;
}

static enum grade
grade_of_contents(const char *rules, const char *today)
{
	return grade_switching(rules, today, "2026-02-01");
}

/* The law is the first of her rules for water and lapses with the mark, on 1 January
 * 2026; the older date, of practice, is what binds the part. Or it is a law that holds
 * from a day on: on 1 January it counts, on the next day it comes too late. */
TEST(contents_bind_at_the_highest_grade_of_the_day_they_lapse_on)
{
	static const char first[] = CONTENTS_BIND WATER("law", "age-from: 120", "law",
	    "113") WATER("old", "age-from: 120", "practice", "60");
	static const char switches[] =
	    CONTENTS_BIND WATER("law", "use: private", "law", "60");
	assert_int_equal(grade_of_contents(first, "2025-06-15"), GRADE_LAW);
	assert_int_equal(
	    grade_switching(switches, "2025-06-15", "2026-01-01"), GRADE_LAW);
	assert_int_equal(
	    grade_switching(switches, "2025-06-15", "2026-01-02"), GRADE_MAKER);
}

/* From the tenth year on, 2026-01-01, a rule counts 60 months from making: it has the
 * older date, and lapses on the day the mark does. Of those the most binding gives the
 * grade, on the day asked about or on the first lapsed day; one that runs out later, or
 * held for a time only, does not. */
TEST(contents_bind_at_the_grade_of_the_part_s_most_binding_clock)
{
	const char *practice =
	    CONTENTS_BIND WATER("w", "age-from: 120", "practice", "60");
	const char *law = CONTENTS_BIND WATER("w", "age-from: 120", "law", "60");
	const char *later = CONTENTS_BIND WATER("w", "age-from: 12", "law", "240");
	const char *over =
	    CONTENTS_BIND WATER("w", "age-from: 120, use: commercial", "law", "60");
	const char *both = CONTENTS_BIND WATER("w", "age-from: 120", "practice", "60")
	    WATER("v", "age-from: 120", "law", "72");
	assert_int_equal(grade_of_contents(both, "2025-06-01"), GRADE_LAW);
	assert_int_equal(grade_of_contents(practice, "2026-11-25"), GRADE_MAKER);
	assert_int_equal(grade_of_contents(law, "2026-11-25"), GRADE_LAW);
	assert_int_equal(grade_of_contents(law, "2025-06-01"), GRADE_LAW);
	assert_int_equal(grade_of_contents(later, "2026-11-25"), GRADE_MAKER);
	assert_int_equal(grade_of_contents(over, "2026-01-15"), GRADE_LAW);
	assert_int_equal(grade_of_contents(over, "2026-11-25"), GRADE_MAKER);
}

/* A new thing has no dates but that of its fitting, and its renewal on record, as in the book: the
 * paper of the old one is gone. What was entered of the maker's
 * interval on its own day is of it, what was used on that day was the old one. */
TEST(a_renewal_is_a_new_thing_from_its_own_day_on)
{
	const day_t done = day_of("2026-06-01");
	const struct interval intervals[] = {
	    {.task = TASK_SERVICE, .months = 12, .on = done - 1},
	    {.task = TASK_SERVICE, .months = 24, .on = done}};
	const struct event events[] = {{.kind = EVENT_USED, .on = done - 1},
	    {.kind = EVENT_USED, .on = done}, {.kind = EVENT_FIRED, .on = done + 1}};
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->made = raft->packed = raft->bought = raft->expires = stamp_of("2020-01");
	raft->intervals = intervals;
	raft->interval_count = 2;
	raft->events = events;
	raft->event_count = 3;
	scene_record(&scene, raft, TASK_SERVICE, "2026-01-10", "2027-01-10");
	struct item after = {0};
	due_item_after(raft, TASK_RENEW, done, false, &scene.arena, &after);
	assert_int_equal(after.made.precision, STAMP_NONE);
	assert_int_equal(after.packed.precision, STAMP_NONE);
	assert_int_equal(after.bought.precision, STAMP_NONE);
	assert_int_equal(after.expires.precision, STAMP_NONE);
	assert_int_equal(stamp_first(after.fitted), done);
	assert_int_equal(after.record_count, 1);
	assert_int_equal(after.records->task, TASK_RENEW);
	assert_int_equal(stamp_first(after.records->on), done);
	assert_int_equal(after.extension_count, 0);
	assert_int_equal(after.interval_count, 1);
	assert_int_equal(after.intervals->months, 24);
	assert_int_equal(after.event_count, 1);
	assert_int_equal(after.events->kind, EVENT_FIRED);
}

/* What was on record by then stays, in its order, and the new record comes last. */
TEST(if_it_were_done_what_was_done_before_stays_on_record)
{
	CLOSES_SCENE struct scene scene;
	struct item after;
	scene_open(&scene, CONTENTS_BIND);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	scene_record(&scene, raft, TASK_SERVICE, "2024-05-01", "2025-04-01");
	scene_record(&scene, raft, TASK_TEST, "2025-05-01", NULL);
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-01", NULL);
	due_item_after(
	    raft, TASK_SERVICE, day_of("2025-06-01"), false, &scene.arena, &after);
	assert_int_equal(after.record_count, 3);
	assert_int_equal(stamp_first(after.records[0].on), day_of("2024-05-01"));
	assert_int_equal(stamp_first(after.records[0].next), day_of("2025-04-01"));
	assert_int_equal(after.records[1].task, TASK_TEST);
	assert_int_equal(stamp_first(after.records[2].on), day_of("2025-06-01"));
}

/* A renewal leaves the uses of the old thing behind and keeps those to come; of a task
 * that nothing asks for there is no day. */
TEST(a_renewal_leaves_behind_the_uses_before_it)
{
	static const struct event USES[] = {
	    {.kind = EVENT_FIRED, .on = 18000}, {.kind = EVENT_FIRED, .on = 19000}};
	CLOSES_SCENE struct scene scene;
	struct item after;
	struct obligation none;
	scene_open(&scene, CONTENTS_BIND);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	raft->events = USES;
	raft->event_count = 2;
	due_item_after(raft, TASK_RENEW, 18500, false, &scene.arena, &after);
	assert_int_equal(after.event_count, 1);
	assert_int_equal(after.events[0].on, 19000);
	(void)scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	due_if_done(
	    &scene.engine, 0, TASK_WEIGH, day_of("2026-11-25"), &scene.arena, &none);
	assert_int_equal(none.due, DAY_NONE);
	assert_int_equal(none.good_through, DAY_NEVER);
}

/* Lapsed since 2021 by a maker's word while she was commercial, from February 2026 on by
 * a law of private use with a later date: that law is what binds now, inside and for the
 * whole. */
TEST(contents_bind_at_the_grade_of_what_binds_the_part_now)
{
	SCENE(scene, CONTENTS_BIND WATER("a", "use: commercial", "maker", "60")
			 WATER("b", "use: private", "law", "72"));
	scene.periods[0].use = USE_COMMERCIAL;
	scene.periods[1] =
	    (struct period){.from = day_of("2026-02-01"), .use = USE_PRIVATE, .area = ""};
	scene.vessel.period_count = 2;
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->made = stamp_of("2016-01-01");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2021-01-01"));
	assert_int_equal(due.grade, GRADE_LAW);
}

/* The water's law is of private use, the raft's contents bind in commercial use alone: on no day do
 * both hold, so what lapses inside in 2022 never makes the raft due, and its own 12 months do. */
TEST(contents_bind_only_on_days_on_which_the_part_is_lapsed)
{
	SCENE(scene,
	    "  - id: raft\n    kinds: [liferaft-canister]\n    when: { use: commercial }\n"
	    "    task: service\n    doer: station\n    grade: practice\n"
	    "    contents-bind: yes\n    clocks:\n      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: contents\n    kinds: [raft-contents]\n    when: { use: private }\n"
	    "    task: renew\n    doer: owner\n    grade: law\n    clocks:\n"
	    "      - { from: [made], months: 24 }\n" SOURCE);
	scene.periods[1] = (struct period){
	    .from = day_of("2026-06-01"), .use = USE_COMMERCIAL, .area = ""};
	scene.vessel.period_count = 2;
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	water->parent = 0;
	water->made = stamp_of("2020-01-01");
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", NULL);
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-05-25");
	assert_int_equal(due.due, day_of("2027-05-20"));
	assert_int_equal(due.grade, GRADE_PRACTICE);
}

/* The sheet for small commercial vessels, whose yearly raft service its contents bind. */
TEST(contents_do_not_stand_in_for_a_service_date_that_is_not_known)
{
	SCENE(scene, "uk-small-commercial.yaml");
	scene.periods[0].use = USE_COMMERCIAL;
	struct item *raft = scene_item(&scene, "liferaft-valise");
	struct item *flare = scene_item(&scene, "flare-red-hand");
	flare->parent = 0;
	flare->expires = stamp_of("2029-03");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-10-15");
	assert_int_equal(due.state, STATE_DATE_UNKNOWN);
	assert_int_equal(due.due, DAY_NONE);
	assert_int_equal(
	    obligation_state_on(&due, day_of("2027-06-01")), STATE_DATE_UNKNOWN);
	assert_true(obligation_fails_in(&due,
	    (struct span){day_of("2027-05-01"), day_of("2027-09-30")}, GRADE_PRACTICE));
	scene_record(&scene, raft, TASK_SERVICE, "2026-09-01", NULL);
	assert_string_equal(
	    scene_due_day(&scene, raft, TASK_SERVICE, "2026-10-15"), "2027-09-01");
}

TEST(a_coarse_start_counts_from_its_first_day_unless_the_rule_says_its_end)
{
	SCENE(scene,
	    "  - id: first-day\n    kinds: [tether]\n    task: renew\n    doer: owner\n"
	    "    grade: practice\n    clocks:\n      - { from: [made], months: 120 }\n" SOURCE
	    "  - id: last-day\n    kinds: [jackstay]\n    task: renew\n    doer: owner\n"
	    "    grade: practice\n    clocks:\n"
	    "      - { from: [made], months: 120, stamp: end }\n" SOURCE);
	struct item *tether = scene_item(&scene, "tether");
	struct item *jackstay = scene_item(&scene, "jackstay");
	tether->made = stamp_of("2021");
	jackstay->made = stamp_of("2021");
	assert_string_equal(
	    scene_due_day(&scene, tether, TASK_RENEW, "2026-11-25"), "2031-01-01");
	assert_string_equal(
	    scene_due_day(&scene, jackstay, TASK_RENEW, "2026-11-25"), "2031-12-31");
}

TEST(a_mark_no_rule_speaks_of_binds_as_the_makers)
{
	SCENE(scene, RAFT);
	struct item *light = scene_item(&scene, "lifejacket-light");
	light->expires = stamp_of("2027-06");
	struct obligation due = scene_due(&scene, light, TASK_RENEW, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-06-30"));
	assert_int_equal(due.grade, GRADE_MAKER);
	assert_string_equal(due.binding->rule_id, "label");
}

static const struct reading *
reading_of(const struct obligation *obligation, const char *rule)
{
	for (size_t i = 0; i < obligation->reading_count; i++) {
		if (strcmp(obligation->readings[i].rule_id, rule) == 0) {
			return &obligation->readings[i];
		}
	}
	fail_msg("no clock of %s", rule);
	return NULL;
}

/* Lapsed under the commercial rule from 1 June to 30 September 2027, and under the private one
 * from 21 August on: 36 months from 20 August 2024. */
TEST(the_rule_under_which_a_lapse_began_is_named_beside_the_one_that_binds)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_on_a_boat_that_turns_commercial_and_back(&scene);
	scene.records[0][0].on = stamp_of("2024-08-20");
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2027-11-15");
	assert_int_equal(due.due, day_of("2027-05-31"));
	assert_string_equal(due.binding->rule_id, "raft-private");
	assert_true(reading_of(&due, "raft-commercial")->began);
	assert_false(due.binding->began);
}

/* A change of persons does not break the days on which she is private. */
TEST(days_that_touch_are_one_span)
{
	CLOSES_SCENE struct scene scene;
	struct item *raft = raft_on_a_boat_that_turns_commercial_and_back(&scene);
	scene.periods[1].use = USE_PRIVATE;
	scene.periods[1].persons = 6;
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.binding->in_force.count, 1);
}

TEST(what_counted_is_told_and_a_paper_allows_nothing_beside_a_use)
{
	SCENE(scene, RAFT);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	const struct event fired = {.kind = EVENT_FIRED, .on = day_of("2026-07-10")};
	scene_record(&scene, raft, TASK_SERVICE, "2026-05-20", "2031-05");
	raft->events = &fired;
	raft->event_count = 1;
	struct obligation due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_ptr_equal(due.binding->event, &fired);
	assert_false(reading_of(&due, "certificate")->paper_allows_longer);
	raft->event_count = 0;
	due = scene_due(&scene, raft, TASK_SERVICE, "2026-11-25");
	assert_ptr_equal(due.binding->record, &scene.records[0][0]);
	assert_true(reading_of(&due, "certificate")->paper_allows_longer);
}

/* What the mark decides needs no day of manufacture: a clock that does not hold asks for
 * nothing. */
TEST(a_clock_that_does_not_hold_asks_for_nothing)
{
	SCENE(scene,
	    "  - id: marked\n    kinds: [firing-head]\n    when: { marked: yes }\n"
	    "    task: renew\n    doer: owner\n    grade: practice\n"
	    "    clocks:\n      - { from: [marked] }\n" SOURCE
	    "  - id: unmarked\n    kinds: [firing-head]\n    when: { marked: no }\n"
	    "    task: renew\n    doer: owner\n    grade: practice\n"
	    "    clocks:\n      - { from: [made], months: 36 }\n" SOURCE);
	struct item *head = scene_item(&scene, "firing-head");
	head->expires = stamp_of("2025-06");
	struct obligation due = scene_due(&scene, head, TASK_RENEW, "2026-11-25");
	assert_string_equal(reading_of(&due, "unmarked")->asks, "");
	assert_false(due.asks);
}

/* Made in May 2019, before or after the 15th: that it was made then is known, only the day is
 * not. */
TEST(a_coarse_day_that_straddles_a_limit_is_asked_for_as_a_day)
{
	SCENE(scene,
	    "  - id: newer\n    kinds: [epirb]\n    when: { made-from: 2019-05-15 }\n"
	    "    task: test\n    doer: station\n    grade: law\n"
	    "    clocks:\n      - { from: [made], months: 60 }\n" SOURCE);
	struct item *beacon = scene_item(&scene, "epirb");
	beacon->made = stamp_of("2019-05");
	struct obligation due = scene_due(&scene, beacon, TASK_TEST, "2026-11-25");
	assert_string_equal(reading_of(&due, "newer")->asks, "made-day");
	beacon->made = stamp_of("");
	due = scene_due(&scene, beacon, TASK_TEST, "2026-11-25");
	assert_string_equal(reading_of(&due, "newer")->asks, "made");
}

#define EXTINGUISHER                                                                     \
	"  - id: basic\n    kinds: [extinguisher-powder]\n    task: service\n"           \
	"    counts: [test]\n    doer: station\n    grade: practice\n    clocks:\n"      \
	"      - { from: [last], months: 12 }\n" SOURCE

/* One visit of 20 November, service and test: the paper of the service says 30 June, and the test
 * of that same day, which counts as one, does not end it. One of a later day does. */
TEST(a_paper_outlives_what_was_done_on_its_own_day)
{
	SCENE(scene, EXTINGUISHER);
	struct item *bottle = scene_item(&scene, "extinguisher-powder");
	scene_record(&scene, bottle, TASK_SERVICE, "2026-11-20", "2027-06");
	scene_record(&scene, bottle, TASK_TEST, "2026-11-20", NULL);
	struct obligation due = scene_due(&scene, bottle, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-06-30"));
	assert_int_equal(reading_of(&due, "basic")->record->task, TASK_SERVICE);
	scene_record(&scene, bottle, TASK_TEST, "2026-11-21", NULL);
	due = scene_due(&scene, bottle, TASK_SERVICE, "2026-11-25");
	assert_int_equal(due.due, day_of("2027-11-21"));
	assert_int_equal(reading_of(&due, "basic")->record->task, TASK_TEST);
}

RUN_TESTS(NULL, NULL)
