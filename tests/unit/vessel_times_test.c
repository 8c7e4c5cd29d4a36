/* What holds of a boat from a day on: lay-up, base, sheets; and that she leaves. */
#include "becket_test.h"
#include "gear/vessel.h"
#include "in_words.h"
#include "winter/winter.h"

/* Laid up 1 November to 31 March since ever, 1 October to 30 April from the second day, not at
 * all from the third; days by hand. */
static struct vessel
boat(struct period periods[3], const char *second, const char *third)
{
	periods[0] = (struct period){.from = DAY_NONE,
	    .base = "North quay",
	    .laid_up = true,
	    .lay_up = {11, 1, 3, 31}};
	periods[1] = periods[0];
	periods[1].from = day_of(second);
	periods[1].says = SAYS_LAY_UP | SAYS_BASE;
	periods[1].lay_up = (struct yearly){10, 1, 4, 30};
	periods[1].base = "South quay";
	periods[2] = periods[1];
	periods[2].from = third == NULL ? DAY_NONE : day_of(third);
	periods[2].says = SAYS_LAY_UP;
	periods[2].laid_up = false;
	return (struct vessel){.base = "North quay",
	    .periods = periods,
	    .period_count = third == NULL ? 2 : 3,
	    .laid_up = true,
	    .lay_up = {11, 1, 3, 31}};
}

TEST(a_winter_keeps_the_lay_up_in_force_on_the_day_it_starts)
{
	struct period periods[3];
	struct vessel vessel = boat(periods, "2026-11-25", NULL);
	struct winter winter;
	assert_true(winter_at(&vessel, day_of("2026-12-01"), &winter));
	assert_day(winter.lay_up, "2026-11-01");
	assert_day(winter.fitting_out, "2027-03-31");
	assert_day(winter.next_lay_up, "2027-10-01");
	assert_true(winter_of_year(&vessel, 2027, &winter));
	assert_day(winter.fitting_out, "2028-04-30");
	assert_true(winter_of_year(&vessel, 2025, &winter));
	assert_day(winter.lay_up, "2025-11-01");
}

/* The new lay-up would have begun on 1 October, the old one on 1 November: neither starts while
 * it is in force, and she is laid up from the day of the change. */
TEST(a_lay_up_that_had_begun_already_begins_on_its_day)
{
	struct period periods[3];
	struct vessel vessel = boat(periods, "2026-10-10", NULL);
	struct winter winter;
	assert_true(winter_of_year(&vessel, 2026, &winter));
	assert_day(winter.lay_up, "2026-10-10");
	assert_day(winter.fitting_out, "2027-04-30");
}

/* After the last winter she is in use all year: what must carry her through the season must do
 * so to the day on which she would have been laid up. */
TEST(a_boat_that_gives_up_winters_has_a_last_one)
{
	struct period periods[3];
	struct vessel vessel = boat(periods, "2026-05-01", "2027-05-01");
	struct winter winter;
	struct span season;
	assert_true(winter_at(&vessel, day_of("2027-01-01"), &winter));
	assert_day(winter.fitting_out, "2027-04-30");
	assert_day(winter.next_lay_up, "2027-10-01");
	assert_false(winter_at(&vessel, day_of("2027-05-01"), &winter));
	assert_true(season_of_year(&vessel, 2028, &season));
	assert_day(season.first, "2028-01-01");
	assert_day(season.last, "2028-12-31");
}

/* In use all year until she is laid up for the first time, on 1 October 2027. */
TEST(before_her_first_winter_a_boat_is_in_a_season_too)
{
	static const char *const ROWS[][3] = {
	    {"2026-05-01", "2026-05-01", "2026-12-31"},
	    {"2027-05-01", "2027-05-01", "2027-09-30"},
	    {"2027-09-30", "2027-09-30", "2027-09-30"},
	    {"2027-10-01", "2028-05-01", "2028-09-30"},
	    {"2028-06-01", "2028-06-01", "2028-09-30"},
	};
	struct period periods[3];
	struct vessel vessel = boat(periods, "2027-10-01", NULL);
	struct span season;
	periods[0].laid_up = false;
	vessel.laid_up = false;
	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		assert_true(season_at(&vessel, day_of(ROWS[i][0]), &season));
		assert_day(season.first, ROWS[i][1]);
		assert_day(season.last, ROWS[i][2]);
	}
	/* a calendar year while she is in use all of it; none starts in the one in which
	 * she is laid up */
	assert_true(season_of_year(&vessel, 2026, &season));
	assert_day(season.first, "2026-01-01");
	assert_day(season.last, "2026-12-31");
	assert_false(season_of_year(&vessel, 2027, &season));
	assert_true(season_of_year(&vessel, 2028, &season));
	assert_day(season.first, "2028-05-01");
}

/* In use all year in two winters between: the season is as long. */
TEST(a_season_may_last_until_the_third_winter_from_the_last)
{
	struct period periods[4];
	struct vessel vessel = boat(periods, "2026-05-01", "2027-05-01");
	struct winter winter;
	periods[3] = periods[1];
	periods[3].from = day_of("2029-05-01");
	vessel.period_count = 4;
	assert_true(winter_of_year(&vessel, 2026, &winter));
	assert_day(winter.fitting_out, "2027-04-30");
	assert_day(winter.next_lay_up, "2029-10-01");
}

/* Laid up by a lay-up that ends before its first winter starts: no winter comes, and she
 * is in use all of the year. */
TEST(a_lay_up_in_which_no_winter_starts_ends_no_season)
{
	struct period periods[3];
	struct vessel vessel = boat(periods, "2026-06-01", "2026-07-01");
	struct span season;
	periods[0].laid_up = false;
	assert_true(season_at(&vessel, day_of("2026-06-10"), &season));
	assert_day(season.first, "2026-06-10");
	assert_day(season.last, "2026-12-31");
}

/* An odd winter of the year in which she gave up winters, and one of the year before. */
TEST(an_odd_winter_needs_a_boat_that_is_laid_up_when_it_starts)
{
	const struct odd_winter odd[] = {
	    {2026, {day_of("2026-12-01"), day_of("2027-02-28")}},
	    {2027, {day_of("2027-12-01"), day_of("2028-02-28")}}};
	struct period periods[3];
	struct vessel vessel = boat(periods, "2026-05-01", "2027-05-01");
	struct winter winter;
	vessel.odd_winters = odd;
	vessel.odd_winter_count = 2;
	assert_true(winter_of_year(&vessel, 2026, &winter));
	assert_day(winter.lay_up, "2026-12-01");
	assert_false(winter_of_year(&vessel, 2027, &winter));
}

TEST(base_and_lay_up_are_those_of_the_day)
{
	struct period periods[3];
	struct vessel vessel = boat(periods, "2026-11-25", "2027-05-01");
	assert_string_equal(vessel_base_on(&vessel, day_of("2026-11-24")), "North quay");
	assert_string_equal(vessel_base_on(&vessel, day_of("2026-11-25")), "South quay");
	vessel_set_day(&vessel, day_of("2026-11-25"));
	assert_string_equal(vessel.base, "South quay");
	assert_int_equal(vessel.lay_up.first_month, 10);
	vessel_set_day(&vessel, day_of("2027-05-01"));
	assert_false(vessel.laid_up);
}

TEST(the_day_she_leaves_is_the_first_without_her)
{
	struct vessel vessel = {.leaves = true, .left = day_of("2026-11-25")};
	assert_true(vessel_is_here(&vessel, day_of("2026-11-24")));
	assert_false(vessel_is_here(&vessel, day_of("2026-11-25")));
	vessel.leaves = false;
	assert_true(vessel_is_here(&vessel, day_of("2026-11-25")));
}

/* Two sheets from the second day on; a period that says nothing of sheets leaves them. */
TEST(the_sheets_she_follows_are_those_of_the_day)
{
	static const char *const ONE[] = {"practice"};
	static const char *const TWO[] = {"practice", "club"};
	struct period periods[2] = {{.from = DAY_NONE},
	    {.from = day_of("2027-05-01"), .sheets = TWO, .sheet_count = 2}};
	struct vessel vessel = {.base = "",
	    .periods = periods,
	    .period_count = 2,
	    .sheets = ONE,
	    .sheet_count = 1};
	vessel_set_day(&vessel, day_of("2027-04-30"));
	assert_int_equal(vessel.sheet_count, 1);
	assert_ptr_equal(vessel.sheets, ONE);
	vessel_set_day(&vessel, day_of("2027-05-01"));
	assert_int_equal(vessel.sheet_count, 2);
	assert_ptr_equal(vessel.sheets, TWO);
}

RUN_TESTS(NULL, NULL)
