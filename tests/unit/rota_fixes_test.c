/* What would help where not all of a group can be in time. Each case is three rafts or
 * fewer, all of them needed, ten days at the loft each; a day on which one comes back is
 * one on which the next may go. */
#include "rota_scene.h"

/* So many rafts for four on a boat for all of them, due on one day, and so many spares in
 * the store. The other boat is not asked about. */
static void
open_rafts(struct base *base, int count, const char *served, int spares)
{
	static const size_t BOATS[] = {BOAT};
	base_open(base);
	base->scene.periods[0].persons = 4 * count;
	base->ask.vessels = BOATS;
	base->ask.vessel_count = 1;
	for (int i = 0; i < count + spares; i++) {
		base_add(base, i < count ? BOAT : STORE, "liferaft-valise",
		    i < count ? served : "2026-11-20")
		    ->capacity = 4;
	}
}

/* Fails unless the one group can't be done in time, and these alone are told to help. */
static void
assert_fixes(struct base *base, const struct rota_fix *expected, size_t count)
{
	struct rota rota = base_rota(base);
	const struct rota_group *group = &rota.groups[0];
	assert_int_equal(rota.group_count, 1);
	assert_false(group->possible);
	assert_false(rota.holds);
	for (size_t i = 0; i < group->fix_count && i < count; i++) {
		assert_string_equal(
		    rota_fix_word(group->fixes[i].kind), rota_fix_word(expected[i].kind));
		assert_int_equal(group->fixes[i].number, expected[i].number);
		assert_int_equal(group->fixes[i].station, expected[i].station);
		assert_int_equal(group->fixes[i].day, expected[i].day);
	}
	assert_int_equal(group->fix_count, count);
	scene_close(&base->scene);
}

/* One raft due on 10 March 2027 and nothing to stand in for it: one that does. Neither
 * another day nor a shorter time ashore is of help, for a boat that needs it needs it
 * every day. */
TEST(without_a_spare_one_more_helps)
{
	static const struct rota_fix FIXES[] = {{FIX_SPARES, 1, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 1, "2026-03-10", 0);
	assert_fixes(&base, FIXES, 1);
}

/* Three due on 25 November, the rota's first day: all go on it, and one spare is there.
 * Two more, and no fewer. */
TEST(where_three_go_at_once_two_more_spares_help)
{
	static const struct rota_fix FIXES[] = {{FIX_SPARES, 2, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 3, "2025-11-25", 1);
	assert_fixes(&base, FIXES, 1);
}

/* Three due on 5 December, one ashore at a time: on 25 November and on 5 December, that
 * is two. Two at a time do, or five days each: the 25th, the 30th and the 5th. */
TEST(more_ashore_at_once_help_and_so_does_a_shorter_time)
{
	static const struct rota_fix FIXES[] = {{FIX_AWAY, 2, NO_STATION, DAY_NONE},
	    {FIX_TURN_ROUND, 5, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 3);
	base.ask.most_away = 1;
	assert_fixes(&base, FIXES, 2);
}

/* The loft takes in one a week, and there are two weeks, from Monday 23 and from Monday
 * 30 November: one of three is late. Two a week do. */
TEST(a_station_that_takes_more_a_week_helps)
{
	static const struct rota_fix FIXES[] = {{FIX_WEEKLY, 2, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 3);
	base.station.weekly_pieces = 1;
	assert_fixes(&base, FIXES, 1);
}

/* Due on 5 December and planned from the 1st, with one spare for two: begun on 25
 * November the second goes on the 5th, when the first is back; or one more spare; or four
 * days each, the 1st and the 5th. */
TEST(a_rota_that_begins_sooner_helps)
{
	const struct rota_fix fixes[] = {{FIX_SPARES, 1, NO_STATION, DAY_NONE},
	    {FIX_START, 0, NO_STATION, day_of("2026-11-25")},
	    {FIX_TURN_ROUND, 4, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 2, "2025-12-05", 1);
	base.ask.today = day_of("2026-11-20");
	base.ask.days.first = day_of("2026-12-01");
	assert_fixes(&base, fixes, 3);
}

/* The same with a third due on 1 June 2027, planned to 31 December: so as to carry it
 * goes from 31 December 2026 on, which a sooner start does not change. */
TEST(what_does_not_wait_for_the_first_day_is_not_begun_sooner)
{
	const struct rota_fix fixes[] = {{FIX_SPARES, 1, NO_STATION, DAY_NONE},
	    {FIX_START, 0, NO_STATION, day_of("2026-11-25")},
	    {FIX_TURN_ROUND, 4, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 1);
	base.scene.records[2][0].on = stamp_of("2026-06-01");
	base.ask.today = day_of("2026-11-20");
	base.ask.days = (struct span){day_of("2026-12-01"), day_of("2027-12-31")};
	assert_fixes(&base, fixes, 3);
}

/* Due on 5 January 2027. So that they carry through 31 December 2027 they go from 31
 * December 2026 on, one of two with the one spare; going before that, though due again
 * within the rota, helps too, or five days each. */
TEST(going_before_it_carries_to_the_end_helps)
{
	static const struct rota_fix FIXES[] = {{FIX_SPARES, 1, NO_STATION, DAY_NONE},
	    {FIX_EARLIER, 0, NO_STATION, DAY_NONE},
	    {FIX_TURN_ROUND, 5, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 2, "2026-01-05", 1);
	base.ask.days.last = day_of("2027-12-31");
	assert_fixes(&base, FIXES, 3);
}

/* Of four stations that serve another base, one is left out, one is approved for the make
 * of the first raft only and one for that of the others: the first of all helps, and no
 * other. */
TEST(another_station_helps_where_it_takes_them)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Orrin"}, {"liferaft-valise", "Tarn"}};
	static const struct rota_fix FIXES[] = {
	    {FIX_WEEKLY, 2, NO_STATION, DAY_NONE}, {FIX_STATION, 0, 0, DAY_NONE}};
	struct station stations[5];
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 3);
	for (size_t i = 0; i < 5; i++) {
		stations[i] = base.station;
		stations[i].base = i == 1 ? "" : "Far Quay";
		stations[i].makes = &MAKES[i == 4 ? 1 : 0];
		stations[i].make_count = i < 3 ? 0 : 1;
	}
	for (size_t i = 0; i < 3; i++) {
		base.scene.items[i].make = i == 0 ? "Orrin" : "Tarn";
	}
	stations[1].weekly_pieces = 1;
	stations[2].left_out = true;
	base.ask.stations = stations;
	base.ask.station_count = 5;
	assert_fixes(&base, FIXES, 2);
}

/* One spare for three, due on 29 November. Two are for a station that takes a day, but
 * ten from November to December, and one for a station that always takes ten: within two
 * days each they go on the 25th, the 27th and the 29th. As it is all three are away on
 * one day, so that two more spares help. The same where all three are for the first
 * station. */
TEST(a_shorter_time_helps_where_it_is_long_for_some_months_only)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-valise", "Orrin"}};
	static const struct station_pace SLOW = {11, 12, 10};
	static const struct rota_fix FIXES[] = {{FIX_SPARES, 2, NO_STATION, DAY_NONE},
	    {FIX_TURN_ROUND, 2, NO_STATION, DAY_NONE}};
	for (size_t slow = 2; slow <= 3; slow++) {
		struct station stations[2];
		struct base base;
		open_rafts(&base, 3, "2025-11-29", 1);
		for (size_t i = 0; i < 2; i++) {
			stations[i] = base.station;
			stations[i].makes = &MAKES[i];
			stations[i].make_count = 1;
		}
		stations[0].turn_round_days = 1;
		stations[0].paces = &SLOW;
		stations[0].pace_count = 1;
		for (size_t i = 0; i < 3; i++) {
			base.scene.items[i].make = i < slow ? "Tarn" : "Orrin";
		}
		base.ask.stations = stations;
		base.ask.station_count = 2;
		assert_fixes(&base, FIXES, 2);
	}
}

/* All five are due on the first day; two for a station that takes one a week, three for
 * one that takes any number: two a week do, and the other's three are no matter. */
TEST(a_station_without_a_limit_is_given_none)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-valise", "Orrin"}};
	static const struct rota_fix FIXES[] = {{FIX_WEEKLY, 2, NO_STATION, DAY_NONE}};
	struct station stations[2];
	struct base base;
	open_rafts(&base, 5, "2025-11-25", 5);
	for (size_t i = 0; i < 2; i++) {
		stations[i] = base.station;
		stations[i].makes = &MAKES[i];
		stations[i].make_count = 1;
	}
	for (size_t i = 0; i < 5; i++) {
		base.scene.items[i].make = i < 2 ? "Tarn" : "Orrin";
	}
	stations[0].weekly_pieces = 1;
	base.ask.stations = stations;
	base.ask.station_count = 2;
	assert_fixes(&base, FIXES, 1);
}

/* Three due on 5 December, one ashore at a time, all for the second of two stations: five
 * days each do, as above. The first, which takes two days, is none of theirs. */
TEST(a_shorter_time_helps_at_the_second_station)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-valise", "Orrin"}};
	static const struct rota_fix FIXES[] = {{FIX_AWAY, 2, NO_STATION, DAY_NONE},
	    {FIX_TURN_ROUND, 5, NO_STATION, DAY_NONE}};
	struct station stations[2];
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 3);
	base.ask.most_away = 1;
	for (size_t i = 0; i < 2; i++) {
		stations[i] = base.station;
		stations[i].makes = &MAKES[i];
		stations[i].make_count = 1;
		stations[i].turn_round_days = i == 0 ? 2 : 10;
	}
	for (size_t i = 0; i < 3; i++) {
		base.scene.items[i].make = "Orrin";
	}
	base.ask.stations = stations;
	base.ask.station_count = 2;
	assert_fixes(&base, FIXES, 2);
}

/* The same where the first raft is for the first station: with it away to the 27th the
 * others go on the 27th and the 7th, which is late; with eight days, on the 27th and the
 * 5th. */
TEST(the_longest_time_of_any_station_is_made_shorter)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-valise", "Orrin"}};
	static const struct rota_fix FIXES[] = {{FIX_AWAY, 2, NO_STATION, DAY_NONE},
	    {FIX_TURN_ROUND, 8, NO_STATION, DAY_NONE}};
	struct station stations[2];
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 3);
	base.ask.most_away = 1;
	for (size_t i = 0; i < 2; i++) {
		stations[i] = base.station;
		stations[i].makes = &MAKES[i];
		stations[i].make_count = 1;
		stations[i].turn_round_days = i == 0 ? 2 : 10;
	}
	for (size_t i = 0; i < 3; i++) {
		base.scene.items[i].make = i == 0 ? "Tarn" : "Orrin";
	}
	base.ask.stations = stations;
	base.ask.station_count = 2;
	assert_fixes(&base, FIXES, 2);
}

/* Three due on 5 December at a loft that takes one a week; each of twenty stations
 * elsewhere would help, and besides two a week at the loft. Sixteen helps are told. */
TEST(no_more_than_sixteen_helps_are_told)
{
	enum { STATIONS = 21, TOLD = 16 };
	struct station stations[STATIONS];
	struct rota_fix fixes[TOLD] = {{FIX_WEEKLY, 2, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 3, "2025-12-05", 3);
	base.station.weekly_pieces = 1;
	for (size_t i = 0; i < STATIONS; i++) {
		stations[i] = base.station;
		stations[i].base = i == 0 ? "" : "Far Quay";
	}
	for (size_t i = 1; i < TOLD; i++) {
		fixes[i] = (struct rota_fix){FIX_STATION, 0, i, DAY_NONE};
	}
	base.ask.stations = stations;
	base.ask.station_count = STATIONS;
	assert_fixes(&base, fixes, TOLD);
}

/* The same where the loft takes a day: that can't be shorter. */
TEST(a_turn_round_of_one_day_is_not_made_shorter)
{
	static const struct rota_fix FIXES[] = {{FIX_SPARES, 2, NO_STATION, DAY_NONE}};
	struct base base;
	open_rafts(&base, 3, "2025-11-25", 1);
	base.station.turn_round_days = 1;
	assert_fixes(&base, FIXES, 1);
}

/* All five are due on the first day: two for a station that takes one a week, three for
 * one that takes two. Three a week do, for both; whichever of the limits is the first. */
TEST(the_least_limit_is_raised_until_all_find_room)
{
	static const struct station_make MAKES[] = {
	    {"liferaft-valise", "Tarn"}, {"liferaft-valise", "Orrin"}};
	static const struct rota_fix FIXES[] = {{FIX_WEEKLY, 3, NO_STATION, DAY_NONE}};
	for (size_t tarn = 0; tarn < 2; tarn++) {
		struct station stations[2];
		struct base base;
		open_rafts(&base, 5, "2025-11-25", 5);
		for (size_t i = 0; i < 2; i++) {
			stations[i] = base.station;
			stations[i].makes = &MAKES[i == tarn ? 0 : 1];
			stations[i].make_count = 1;
			stations[i].weekly_pieces = i == tarn ? 1 : 2;
		}
		for (size_t i = 0; i < 5; i++) {
			base.scene.items[i].make = i < 2 ? "Tarn" : "Orrin";
		}
		base.ask.stations = stations;
		base.ask.station_count = 2;
		assert_fixes(&base, FIXES, 1);
	}
}

RUN_TESTS(NULL, NULL)
