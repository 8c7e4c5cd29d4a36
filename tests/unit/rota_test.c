/* The rota of some boats, and the muster while gear is away. All days are worked by hand. */
#include "muster/leave.h"
#include "rota_scene.h"

#include <string.h>

/* A beacon is checked every year and has its battery renewed by the date printed on it, both by
 * a station. */
static const char BEACONS[] =
    "  - id: battery\n    kinds: [epirb]\n    task: renew\n    doer: station\n"
    "    grade: maker\n    clocks:\n      - from: [marked]\n    source: invented\n"
    "    standing: memory\n"
    "  - id: check\n    kinds: [epirb]\n    task: inspect\n    doer: station\n"
    "    grade: law\n    clocks:\n      - from: [last]\n        months: 12\n"
    "    source: invented\n    standing: memory\n"
    "carriage:\n"
    "  - id: beacon\n    title: Beacon\n    need: {points: 1}\n    serves:\n"
    "      - {kinds: [epirb], points: 1}\n"
    "    source: invented\n    standing: memory\n";

/* Extinguishers of two kinds, serviced every year, three of which must be there. */
static const char EXTINGUISHERS[] =
    "  - id: fire\n    kinds: [extinguisher-foam, extinguisher-powder]\n"
    "    task: service\n    doer: station\n    grade: law\n    clocks:\n"
    "      - from: [last]\n        months: 12\n    source: invented\n"
    "    standing: memory\n"
    "carriage:\n"
    "  - id: fire\n    title: Fire\n    need: {points: 3}\n    serves:\n"
    "      - {kinds: [extinguisher-foam, extinguisher-powder], points: 1}\n"
    "    source: invented\n    standing: memory\n";

/* ---- what she can do without ---- */

static struct muster_spareable
spareable(struct base *base, size_t first, size_t count)
{
	size_t pieces[SCENE_MOST];
	struct muster_spareable out = {0};
	for (size_t i = 0; i < count; i++) {
		pieces[i] = first + i;
	}
	const struct muster_sparing asked = {
	    BOAT, base->ask.days, {pieces, count}, {pieces, count}};
	muster_spareable(&base->scene.engine, &asked, &base->scene.arena, &out);
	return out;
}

TEST(of_six_jackets_for_four_two_can_be_away)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base_add_jackets(&base, BOAT, 6, "2026-06-01");
	struct muster_spareable found = spareable(&base, 0, 6);
	assert_false(found.needed[0]);
	assert_int_equal(found.most, 2);
}

TEST(of_a_raft_for_four_and_one_for_two_the_larger_is_needed)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base_add(&base, BOAT, "liferaft-valise", "2026-06-01")->capacity = 4;
	base_add(&base, BOAT, "liferaft-valise", "2026-06-01")->capacity = 2;
	struct muster_spareable found = spareable(&base, 0, 2);
	assert_true(found.needed[0]);
	assert_false(found.needed[1]);
	assert_int_equal(found.most, 1);
}

TEST(while_her_persons_are_not_known_she_needs_all)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.scene.periods[0].persons = 0;
	base_add_jackets(&base, BOAT, 6, "2026-06-01");
	assert_true(spareable(&base, 0, 6).needed[0]);
}

/* ---- while it is away ---- */

/* Her first day short with her raft, the first item, away from 1 to 15 March 2027. */
static day_t
first_short(struct base *base, enum leave_cover cover, size_t spare)
{
	struct muster muster = {0};
	const struct muster_leave leave = {
	    0, day_of("2027-03-01"), day_of("2027-03-15"), cover, spare};
	struct item serviced[SCENE_MOST];
	struct inventory inventory = base->scene.inventory;
	struct due_engine done = base->scene.engine;
	memcpy(serviced, inventory.items, inventory.item_count * sizeof *serviced);
	due_item_after(&inventory.items[0], TASK_SERVICE, leave.hand_in, false,
	    &base->scene.arena, &serviced[0]);
	inventory.items = serviced;
	done.inventory = &inventory;
	const struct muster_leaves leaves = {BOAT, base->ask.days, &leave, 1, &done};
	muster_on_leave(&base->scene.engine, &leaves, &base->scene.arena, &muster);
	return muster.first_short;
}

TEST(a_boat_is_short_while_her_raft_is_away_unless_one_stands_in)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-05-01");
	base_add_jackets(&base, BOAT, 4, "2026-11-25");
	size_t spare = base.scene.item_count;
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	size_t late = base.scene.item_count;
	(void)base_add(&base, STORE, "liferaft-valise", "2026-03-10");
	assert_day(first_short(&base, LEAVE_BARE, 0), "2027-03-01");
	/* Serviced on 1 March 2027, it is in date to the end, 24 November. */
	assert_day(first_short(&base, LEAVE_SPARE, spare), "");
	assert_day(first_short(&base, LEAVE_HIRED, 0), "");
	/* That spare is in date through 10 March 2027. */
	assert_day(first_short(&base, LEAVE_SPARE, late), "2027-03-11");
}

/* ---- the rota ---- */

/* A raft serviced on 10 March 2026 is due on 10 March 2027. So that it then holds through
 * 31 December 2027, it may go from 31 December 2026 on; it goes as late as does. */
TEST(a_piece_goes_when_it_then_carries_to_the_end)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.ask.days.last = day_of("2027-12-31");
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_day(line->first, "2026-12-31");
	assert_day(line->last, "2027-03-10");
	assert_day(line->hand_in, "2027-03-10");
	assert_day(line->collect, "2027-03-20");
	assert_day(line->again, "2028-03-10");
	assert_int_equal(line->cover, ROTA_SPARE);
	assert_true(rota.groups[0].proven);
	assert_int_equal(rota.groups[0].stood_in, 1);
}

/* The raft itself is good until 1 September 2027, but flares inside it until 30 April, and they
 * bind it; water lasts until 31 October 2027, before the raft is due again on 30 April 2028, so
 * it is renewed too and nothing is due before that. */
TEST(what_is_inside_and_lapses_first_brings_the_raft_ashore)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-09-01");
	struct item *flares = base_add(&base, BOAT, "raft-contents", "2026-09-01");
	flares->parent = 0;
	flares->expires = stamp_of("2027-04");
	struct item *water = base_add(&base, BOAT, "raft-contents", "2026-09-01");
	water->parent = 0;
	water->expires = stamp_of("2027-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 1);
	assert_int_equal(rota.groups[0].line_count, 1);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_day(line->due, "2027-04-30");
	assert_int_equal(line->tasks, 1U << TASK_SERVICE | 1U << TASK_RENEW);
	assert_day(line->again, "2028-04-30");
	assert_day(rota.holds_through, "2027-11-24");
}

/* A station approved for other makes does not do: 42 days are assumed, and no station named. */
TEST(a_raft_of_another_make_goes_to_a_station_yet_to_be_found)
{
	static const struct station_make MAKE = {"liferaft-valise", "Orrin"};
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.station.makes = &MAKE;
	base.station.make_count = 1;
	base_add(&base, BOAT, "liferaft-valise", "2026-03-10")->make = "Tarn";
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_int_equal(line->station, NO_STATION);
	assert_int_equal(line->collect - line->hand_in, 42);
}

/* Two rafts due on 30 November 2026, one spare for both, and one ashore since 20 November that is
 * back on the 30th. With one ashore at once both go on the 30th or after: the first in time, the
 * second late, on 10 December. */
TEST(what_is_ashore_already_counts)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.ask.most_away = 1;
	(void)base_add(&base, BOAT, "liferaft-valise", "2025-11-30");
	struct item *ashore = base_add(&base, BOAT, "liferaft-valise", "2025-11-30");
	ashore->state = PLACE_LANDED;
	ashore->landed_to = "Loft";
	ashore->landed_on = day_of("2026-11-20");
	(void)base_add(&base, OTHER, "liferaft-valise", "2025-11-30");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	const struct rota_group *group = &rota.groups[0];
	assert_false(group->possible);
	assert_true(group->proven);
	assert_int_equal(group->line_count, 2);
	assert_day(group->lines[0].hand_in, "2026-11-30");
	assert_false(group->lines[0].late);
	assert_day(group->lines[1].hand_in, "2026-12-10");
	assert_true(group->lines[1].late);
	assert_day(rota_fails_on(&rota, &group->lines[group->failed]), "2026-12-01");
}

/* Serviced on 10 March 2026, a month either side, the anniversary kept: due on 10 March
 * 2027, good through 10 April. It goes by 10 March, as late as does, and is due again on
 * 10 March 2028; done on the first day, 25 November 2026, it would start anew and carry
 * through 24 November 2027 as well. Past the 10th of March it goes at once, though still
 * in date. */
TEST(a_window_is_no_time_to_plan_with)
{
	static const char WINDOW[] =
	    "  - id: jacket\n    kinds: [lifejacket-auto]\n    task: service\n"
	    "    doer: station\n    grade: law\n"
	    "    window: {early: 1, late: 1, next: from-due}\n    clocks:\n"
	    "      - from: [last, made]\n        months: 12\n    source: invented\n"
	    "    standing: memory\n";
	CLOSES_SCENE struct base base;
	base_open_of(&base, WINDOW);
	struct item *jacket = base_add(&base, BOAT, "lifejacket-auto", "2026-03-10");
	base.ask.stand_ins = 1;
	jacket->made = stamp_of("");
	struct rota rota = base_rota(&base);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_day(line->due, "2027-03-10");
	assert_day(line->good_through, "2027-04-10");
	assert_day(line->first, "2026-11-25");
	assert_day(line->last, "2027-03-10");
	assert_day(line->again, "2028-03-10");
	base.ask.days = (struct span){day_of("2027-03-20"), day_of("2028-03-09")};
	base.ask.today = base.ask.days.first;
	rota = base_rota(&base);
	line = &rota.groups[0].lines[0];
	assert_int_equal(line->state, STATE_IN_DATE);
	assert_day(line->hand_in, "2027-03-20");
	assert_day(rota_fails_on(&rota, line), "2027-04-11");
}

/* The one spare is in date through 5 March 2027: it can stand in from 24 February at the latest,
 * away on the 24th and back on the tenth day after, 6 March. */
TEST(a_spare_stands_in_only_while_it_is_in_date)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-03-05");
	struct rota rota = base_rota(&base);
	const struct rota_group *group = &rota.groups[0];
	assert_day(group->spares[0].counts_through, "2027-03-05");
	assert_day(group->lines[0].hand_in, "2027-02-24");
	assert_day(group->lines[0].collect, "2027-03-06");
}

/* Four jackets for four, all overdue: none counts, so all go at once, today, and none is in
 * time to count before; four stand in for them. */
TEST(what_is_overdue_goes_on_the_first_day)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.ask.stand_ins = 4;
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-11-25");
	base_add_jackets(&base, BOAT, 4, "2025-10-01");
	struct rota rota = base_rota(&base);
	const struct rota_group *group = &rota.groups[0];
	assert_int_equal(group->stood_in, 4);
	for (size_t i = 0; i < group->line_count; i++) {
		assert_int_equal(group->lines[i].state, STATE_OVERDUE);
		assert_day(group->lines[i].hand_in, "2026-11-25");
		assert_false(group->lines[i].late);
	}
	assert_true(rota.holds);
}

/* A raft due on 10 March 2027, ten days at the loft; a spare stands in. She is booked from 1 to 10
 * March and from 20 to 27 February: back on 28 February at the latest would be between them only
 * on that day, so it is collected by 19 February, before the first: handed in on the 9th, ten days
 * on is the 19th. Without the February booking: back by the 28th, so in on the 18th. */
TEST(gear_goes_ashore_only_between_bookings)
{
	static const char *const DAYS[][2] = {
	    {"2027-02-18", "2027-02-28"}, {"2027-02-09", "2027-02-19"}};
	const struct booking march = {
	    {day_of("2027-03-01"), day_of("2027-03-10")}, 4, 0, ""};
	const struct booking both[] = {
	    {{day_of("2027-02-20"), day_of("2027-02-27")}, 4, 0, ""}, march};
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct base base;
		base_open(&base);
		base.vessels[BOAT].bookings = i == 0 ? &march : both;
		base.vessels[BOAT].booking_count = i + 1;
		(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
		base_add_jackets(&base, BOAT, 4, "2026-11-25");
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
		struct rota rota = base_rota(&base);
		const struct rota_line *line =
		    &rota.groups[rota.group_count - 1].lines[0];
		assert_day(line->hand_in, DAYS[i][0]);
		assert_day(line->collect, DAYS[i][1]);
		assert_false(line->late);
	}
}

/* Booked from today to 10 March, the day it is due: there is no day in time, and it goes on the
 * first after. Overdue already and booked to 5 December, it goes on the 6th, and no day before
 * was any. */
TEST(a_boat_that_is_always_booked_is_late_and_what_lapsed_waits_for_a_free_day)
{
	const struct booking all = {
	    {day_of("2026-11-25"), day_of("2027-03-10")}, 4, 0, ""};
	const struct booking some = {
	    {day_of("2026-11-25"), day_of("2026-12-05")}, 4, 0, ""};
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.vessels[BOAT].bookings = &all;
	base.vessels[BOAT].booking_count = 1;
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_true(rota.groups[0].lines[0].late);
	assert_day(rota.groups[0].lines[0].hand_in, "2027-03-11");
	scene_close(&base.scene);
	base_open(&base);
	base.vessels[BOAT].bookings = &some;
	base.vessels[BOAT].booking_count = 1;
	(void)base_add(&base, BOAT, "liferaft-valise", "2025-03-10");
	(void)base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	rota = base_rota(&base);
	assert_false(rota.groups[0].lines[0].late);
	assert_day(rota.groups[0].lines[0].hand_in, "2026-12-06");
}

/* Overdue, and booked through the last day but one that is asked about: it goes on the
 * last. The station takes gear in on Fridays: with every day booked it goes on the first
 * of them, 27 November. */
TEST(what_lapsed_goes_on_the_last_day_where_no_other_is_free)
{
	const struct booking some = {
	    {day_of("2026-11-25"), day_of("2027-11-23")}, 4, 0, ""};
	const struct booking all = {
	    {day_of("2026-11-25"), day_of("2028-11-24")}, 4, 0, ""};
	for (int fridays = 0; fridays < 2; fridays++) {
		CLOSES_SCENE struct base base;
		base_open(&base);
		base.station.weekdays = fridays == 1 ? 1U << 4 : WEEKDAYS_ALL;
		base.vessels[BOAT].bookings = fridays == 1 ? &all : &some;
		base.vessels[BOAT].booking_count = 1;
		(void)base_add(&base, BOAT, "liferaft-valise", "2025-03-10");
		(void)base_add(&base, STORE, "liferaft-valise", "2026-11-25");
		struct rota rota = base_rota(&base);
		assert_day(rota.groups[0].lines[0].last,
		    fridays == 1 ? "2026-11-27" : "2027-11-24");
	}
}

/* Her raft can't be in time, as above; the other boat's jackets are of another group and
 * go with spares in their place. */
TEST(a_rota_does_not_hold_where_one_group_of_two_is_not_possible)
{
	const struct booking all = {
	    {day_of("2026-11-25"), day_of("2027-03-10")}, 4, 0, ""};
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.vessels[BOAT].bookings = &all;
	base.vessels[BOAT].booking_count = 1;
	(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	base_add_jackets(&base, BOAT, 4, "2026-11-25");
	(void)base_add(&base, OTHER, "liferaft-valise", "2026-11-25");
	base_add_jackets(&base, OTHER, 4, "2026-03-10");
	base_add_jackets(&base, STORE, 4, "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 2);
	assert_true(rota.groups[0].possible != rota.groups[1].possible);
	assert_false(rota.holds);
}

/* Nothing carried counts rafts here, and her jackets are in date throughout: she is never
 * short, but her raft can't be in time, booked as she is, and with that alone the rota
 * does not hold. */
TEST(a_rota_does_not_hold_where_no_boat_is_short_but_a_piece_is_late)
{
	static const char ONLY_JACKETS[] =
	    "  - id: raft\n    kinds: [liferaft-valise]\n    task: service\n"
	    "    doer: station\n    grade: law\n    clocks:\n      - from: [last]\n"
	    "        months: 12\n    source: invented\n    standing: memory\n"
	    "carriage:\n"
	    "  - id: jackets\n    title: Jackets\n    need: {per-person: 1}\n    serves:\n"
	    "      - {kinds: [lifejacket-auto], points: 1}\n"
	    "    source: invented\n    standing: memory\n";
	static const size_t BOATS[] = {BOAT};
	const struct booking until[] = {
	    {{day_of("2026-11-25"), day_of("2027-03-10")}, 4, 0, ""},
	    {{day_of("2026-11-25"), day_of("2027-02-10")}, 4, 0, ""}};
	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct base base;
		base_open_of(&base, ONLY_JACKETS);
		base.ask.vessels = BOATS;
		base.ask.vessel_count = 1;
		base.vessels[BOAT].bookings = &until[i];
		base.vessels[BOAT].booking_count = 1;
		(void)base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
		base_add_jackets(&base, BOAT, 4, "2026-11-25");
		struct rota rota = base_rota(&base);
		assert_int_equal(rota.group_count, 1);
		assert_int_equal(rota.short_count, 0);
		assert_int_equal(rota.untold, 0);
		assert_int_equal(rota.groups[0].possible, i == 1);
		assert_int_equal(rota.holds, i == 1);
	}
}

/* The battery is good through January 2027, the check through 20 February: both are done at one
 * visit, and with the new battery the beacon counts when it is back. The new date is not known
 * yet; it is taken to be five years on (printed_life_months). The check is due again a year on. */
TEST(a_beacon_is_back_with_its_battery_renewed)
{
	static const size_t BOATS[] = {BOAT};
	CLOSES_SCENE struct base base;
	base_open_of(&base, BEACONS);
	base.ask.vessels = BOATS;
	base.ask.vessel_count = 1;
	base.ask.stand_ins = 1;
	struct item *beacon = scene_item(&base.scene, "epirb");
	beacon->vessel = BOAT;
	beacon->expires = stamp_of("2027-01");
	scene_record(&base.scene, beacon, TASK_INSPECT, "2026-02-20", NULL);
	struct rota rota = base_rota(&base);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_int_equal(line->tasks, 1U << TASK_INSPECT | 1U << TASK_RENEW);
	assert_day(line->hand_in, "2027-01-31");
	assert_day(line->again, "2028-01-31");
	assert_int_equal(rota.short_count, 0);
	assert_true(rota.holds);
}

/* Two of each kind, three needed: of each kind one may be away, but not one of both. Ten days
 * each, due on 10 March 2027: foam on 10 March and 28 February, powder before, on 18 and 8
 * February. */
TEST(kinds_that_serve_one_line_are_not_away_at_once)
{
	static const size_t BOATS[] = {BOAT};
	CLOSES_SCENE struct base base;
	base_open_of(&base, EXTINGUISHERS);
	base.ask.vessels = BOATS;
	base.ask.vessel_count = 1;
	for (int i = 0; i < 4; i++) {
		(void)base_add(&base, BOAT,
		    i < 2 ? "extinguisher-foam" : "extinguisher-powder", "2026-03-10");
	}
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 2);
	assert_day(rota.groups[0].lines[0].hand_in, "2027-02-28");
	assert_day(rota.groups[0].lines[1].hand_in, "2027-03-10");
	assert_day(rota.groups[1].lines[0].hand_in, "2027-02-08");
	assert_day(rota.groups[1].lines[1].hand_in, "2027-02-18");
	assert_true(rota.holds);
}

/* Four of one kind on each boat, three needed on each, so that one may be away at a time:
 * ten days each, due on 10 March 2027, on 8, 18 and 28 February and on 10 March. That the
 * other boat has hers away says nothing of this one. */
TEST(what_another_boat_has_away_does_not_count_against_her)
{
	static const char *const DAYS[] = {
	    "2027-02-08", "2027-02-18", "2027-02-28", "2027-03-10"};
	CLOSES_SCENE struct base base;
	base_open_of(&base, EXTINGUISHERS);
	for (int i = 0; i < 8; i++) {
		(void)base_add(&base, i < 4 ? BOAT : OTHER,
		    i < 4 ? "extinguisher-powder" : "extinguisher-foam", "2026-03-10");
	}
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 2);
	for (size_t i = 0; i < 2; i++) {
		assert_int_equal(rota.groups[i].line_count, 4);
		for (size_t k = 0; k < 4; k++) {
			assert_day(rota.groups[i].lines[k].hand_in, DAYS[k]);
		}
	}
	assert_true(rota.holds);
}

/* The loft takes in one piece a week. A jacket goes on the day it is due, Wednesday 10
 * March 2027; the raft, of another group and due then, too, on the last day of the week
 * before. */
TEST(groups_share_the_week_of_a_station)
{
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.station.weekly_pieces = 1;
	base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	base_add_jackets(&base, BOAT, 1, "2026-03-10");
	base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	base_add_jackets(&base, STORE, 1, "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_int_equal(rota.group_count, 2);
	assert_string_equal(rota.groups[0].kind, "lifejacket-auto");
	assert_day(rota.groups[0].lines[0].hand_in, "2027-03-10");
	assert_day(rota.groups[1].lines[0].hand_in, "2027-03-07");
}

/* The raft is due on 10 March 2027, and the other boat does not go from the 5th to the 10th. */
TEST(nothing_goes_while_one_of_the_boats_does_not)
{
	const struct span away = {day_of("2027-03-05"), day_of("2027-03-10")};
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.vessels[OTHER].away = &away;
	base.vessels[OTHER].away_count = 1;
	base_add(&base, BOAT, "liferaft-valise", "2026-03-10");
	base_add(&base, STORE, "liferaft-valise", "2026-11-20");
	struct rota rota = base_rota(&base);
	assert_day(rota.groups[0].lines[0].hand_in, "2027-03-04");
}

/* Due on 10 March 2027, given out for the 20th, when the loft is shut: it stays there, late. */
TEST(what_was_given_out_for_a_shut_day_stays_on_it)
{
	static const char *const TAGS[] = {"LR-1"};
	const day_t dues[] = {day_of("2027-03-10")};
	const struct span shut = {day_of("2027-03-20"), day_of("2027-03-20")};
	const struct settled_hand_in settled = {.of_base = true,
	    .owner = "Holm Quay",
	    .winter = 2027,
	    .station = "Loft",
	    .day = shut.first,
	    .planned = DAY_NONE,
	    .tags = TAGS,
	    .dues = dues,
	    .tag_count = 1};
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.scene.periods[0].persons = 0;
	base.station.shut = &shut;
	base.station.shut_count = 1;
	base_add(&base, BOAT, "liferaft-valise", "2026-03-10")->tag = TAGS[0];
	base.ask.settled = &settled;
	base.ask.settled_count = 1;
	struct rota rota = base_rota(&base);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_false(rota.groups[0].possible);
	assert_true(line->planned);
	assert_true(line->late);
	assert_day(line->hand_in, "2027-03-20");
}

/* Given out for 1 March 2027 at the second of the two stations it may go to, which takes
 * a week and not ten days, as the first does: there it stays. */
TEST(what_was_given_out_for_the_second_station_goes_there)
{
	static const char *const TAGS[] = {"LR-1"};
	const day_t dues[] = {day_of("2027-03-10")};
	const struct settled_hand_in settled = {.of_base = true,
	    .owner = "Holm Quay",
	    .winter = 2027,
	    .station = "Yard",
	    .day = day_of("2027-03-01"),
	    .planned = DAY_NONE,
	    .tags = TAGS,
	    .dues = dues,
	    .tag_count = 1};
	struct station stations[2];
	CLOSES_SCENE struct base base;
	base_open(&base);
	base.scene.periods[0].persons = 0;
	base_add(&base, BOAT, "liferaft-valise", "2026-03-10")->tag = TAGS[0];
	stations[0] = base.station;
	stations[1] = base.station;
	stations[1].name = "Yard";
	stations[1].turn_round_days = 7;
	base.ask.stations = stations;
	base.ask.station_count = 2;
	base.ask.settled = &settled;
	base.ask.settled_count = 1;
	struct rota rota = base_rota(&base);
	const struct rota_line *line = &rota.groups[0].lines[0];
	assert_int_equal(rota.group_count, 1);
	assert_true(line->planned);
	assert_int_equal(line->station, 1);
	assert_day(line->hand_in, "2027-03-01");
	assert_day(line->collect, "2027-03-08");
}

RUN_TESTS(NULL, NULL)
