/* The page's drawings: where things stand, reckoned by hand from days counted on a calendar. */
#include "page/draw.h"

#include "becket_test.h"

#include <string.h>

/* The body of a page, its no-break spaces as blanks. */
struct drawn {
	struct text page;
	struct text plain;
};

static void
end_drawing(struct markup *markup, struct drawn *drawn)
{
	markup_close(markup, &drawn->page);
	const char *at = strstr(text_string(&drawn->page), "<body>");
	assert_non_null(at);
	while (*at != '\0') {
		bool glue = strncmp(at, "\u00a0", 2) == 0;
		text_add_byte(&drawn->plain, glue ? ' ' : *at);
		at += glue ? 2 : 1;
	}
}

static void
drawn_clear(struct drawn *drawn)
{
	text_clear(&drawn->page);
	text_clear(&drawn->plain);
}

#define SCOPED_DRAWN __attribute__((cleanup(drawn_clear))) struct drawn

static void
assert_has(const struct drawn *drawn, const char *words)
{
	if (strstr(text_string(&drawn->plain), words) == NULL) {
		fail_msg("not drawn: %s\nin: %s", words, text_string(&drawn->plain));
	}
}

static void
assert_has_not(const struct drawn *drawn, const char *words)
{
	if (strstr(text_string(&drawn->plain), words) != NULL) {
		fail_msg("drawn: %s\nin: %s", words, text_string(&drawn->plain));
	}
}

/* The winter from 1 Nov 2026 to 31 Mar 2027 has 150 days between its ends; with a week on both
 * sides the drawing has 164, from 25 Oct on. */
static void
draw_winter(const struct strip_lane *lane, day_t today, struct drawn *drawn)
{
	struct strip strip = {
	    day_from_civil(2026, 11, 1), day_from_civil(2027, 3, 31), today, lane, 1};
	struct markup *markup = NULL;
	markup_open("Strip", NULL, &markup);
	draw_strip(markup, &strip);
	end_drawing(markup, drawn);
}

/* Handed in on 25 Nov, 31 days from 25 Oct; back on 9 Dec, 45 days; last day 10 Mar, 136. */
static struct strip_lane
bag(void)
{
	return (struct strip_lane){.name = "Holm Quay",
	    .detail = "8 pieces",
	    .hand_in = day_from_civil(2026, 11, 25),
	    .collect = day_from_civil(2026, 12, 9),
	    .last_day = day_from_civil(2027, 3, 10),
	    .first_possible = DAY_NONE};
}

TEST(the_bands_of_use_end_at_lay_up_and_begin_at_fitting_out)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	/* 7 of 164 days, and 157 of them */
	assert_has(
	    &drawn, "class=\"sea\" x=\"0.00%\" width=\"4.27%\" y=\"0\" height=\"100%\"");
	assert_has(
	    &drawn, "class=\"sea\" x=\"95.73%\" width=\"4.27%\" y=\"0\" height=\"100%\"");
	assert_has(&drawn, ">laid up 1 Nov</text>");
	assert_has(&drawn, ">ready 31 Mar</text>");
}

TEST(a_notch_stands_on_each_monday)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	size_t notches = 0;
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	/* 26 Oct 2026 is a Monday, a day from the left edge; 5 Apr 2027 is the last */
	assert_has(&drawn, "x1=\"0.61%\" x2=\"0.61%\" y1=\"55\" y2=\"62\"");
	assert_has(&drawn, "x1=\"98.78%\" x2=\"98.78%\" y1=\"55\" y2=\"62\"");
	for (const char *at = text_string(&drawn.plain);
	     (at = strstr(at, "y1=\"55\" y2=\"62\"")) != NULL; at++) {
		notches++;
	}
	assert_int_equal(notches, 24); /* 0 to 161 days from 26 Oct, every seventh */
}

TEST(a_tag_lies_from_hand_in_to_collect_and_its_room_to_the_last_day)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	assert_has(&drawn, "<p class=\"name\"><b>Holm Quay</b><br/>8 pieces</p>");
	/* 31 / 164 = 18.90 %, 14 / 164 = 8.54 %, 45 / 164 = 27.44 %, 136 / 164 = 82.93 % */
	assert_has(&drawn,
	    "<rect class=\"buff line buffline\" stroke-width=\"2\" x=\"18.90%\" "
	    "width=\"8.54%\" y=\"20\" height=\"20\">");
	assert_has(&drawn,
	    "stroke-dasharray=\"2 4\" x1=\"27.44%\" x2=\"82.93%\" y1=\"30\" y2=\"30\"");
	assert_has(&drawn, "<text class=\"b\" x=\"18.90%\" dx=\"-5\" y=\"15\" "
			   "text-anchor=\"end\">25 Nov</text>");
	assert_has(&drawn, "<text x=\"27.44%\" y=\"15\">9 Dec</text>");
	assert_has(&drawn, "<line class=\"noteline\" stroke-width=\"4\" x1=\"82.93%\" "
			   "x2=\"82.93%\" y1=\"22\" y2=\"46\">");
	assert_has(&drawn, "<text class=\"n\" x=\"82.93%\" dx=\"2\" y=\"60\" "
			   "text-anchor=\"end\">last day 10 Mar</text>");
}

TEST(closed_days_are_hatched_to_the_end_of_the_last)
{
	SCOPED_DRAWN drawn = {0};
	struct span closed = {day_from_civil(2026, 12, 20), day_from_civil(2027, 1, 31)};
	struct strip_lane lane = bag();
	lane.closed = (struct spans){&closed, 1};
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	/* 20 Dec is 56 days from the edge; to the end of 31 Jan are 43 days */
	assert_has(&drawn, "<rect fill=\"url(#closed)\" x=\"34.15%\" width=\"26.22%\" "
			   "y=\"21\" height=\"18\">");
}

TEST(a_last_day_before_the_day_it_is_back_counts_from_the_hand_in)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	lane.collect = day_from_civil(2027, 2, 11);
	lane.last_day = day_from_civil(2026, 12, 20);
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	assert_has(&drawn,
	    "stroke-dasharray=\"2 4\" x1=\"18.90%\" x2=\"34.15%\" y1=\"30\" y2=\"30\"");
	/* left of the middle, its words stand right of it */
	assert_has(&drawn, "x=\"34.15%\" dx=\"-2\" y=\"60\">last day 20 Dec</text>");
}

TEST(days_that_would_run_over_each_other_stand_together)
{
	SCOPED_DRAWN early = {0};
	SCOPED_DRAWN late = {0};
	struct strip_lane lane = bag();
	lane.hand_in = day_from_civil(2026, 11, 2); /* 8 days: 4.88 % */
	lane.collect = day_from_civil(2026, 11, 9);
	draw_winter(&lane, day_from_civil(2026, 11, 1), &early);
	assert_has(
	    &early, "<text class=\"b\" x=\"4.88%\" y=\"15\">2 Nov to 9 Nov</text>");
	lane.hand_in = day_from_civil(2027, 3, 1);
	lane.collect = day_from_civil(2027, 3, 15); /* 141 days: 85.98 % */
	lane.assumed = true;
	draw_winter(&lane, day_from_civil(2026, 11, 1), &late);
	assert_has(&late, "<text class=\"b\" x=\"85.98%\" y=\"15\" "
			  "text-anchor=\"end\">1 Mar to about 15 Mar</text>");
}

TEST(a_supposed_turn_round_is_dashed_and_says_about)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	lane.assumed = true;
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	assert_has(&drawn, "<rect class=\"buff line buffline\" stroke-width=\"2\" "
			   "stroke-dasharray=\"5 3\" x=\"18.90%\"");
	assert_has(&drawn, ">about 9 Dec</text>");
}

TEST(where_no_day_serves_there_is_no_tag_and_it_is_said)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	lane.hand_in = DAY_NONE;
	lane.first_possible = day_from_civil(2027, 4, 3);
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	assert_has_not(&drawn, "y=\"20\" height=\"20\"");
	assert_has_not(&drawn, "last day 10 Mar");
	assert_has(&drawn, ">no day serves</text>");
	assert_has(&drawn, ">first possible 3 Apr</text>");
}

TEST(ones_own_work_is_dotted_from_today_to_done_by)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = {.name = "Yourself, and to buy",
	    .hand_in = DAY_NONE,
	    .collect = DAY_NONE,
	    .last_day = day_from_civil(2027, 3, 24), /* 150 days: 91.46 % */
	    .own = true};
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	assert_has(&drawn,
	    "stroke-dasharray=\"2 4\" x1=\"18.90%\" x2=\"91.46%\" y1=\"14\" y2=\"14\"");
	assert_has(&drawn, "text-anchor=\"end\">done by 24 Mar</text>");
	assert_has_not(&drawn, "no day serves");
}

TEST(today_is_drawn_only_where_the_drawing_has_it)
{
	SCOPED_DRAWN outside = {0};
	SCOPED_DRAWN inside = {0};
	struct strip_lane lane = bag();
	draw_winter(&lane, day_from_civil(2026, 10, 24), &outside);
	assert_has_not(&outside, ">today</text>");
	draw_winter(&lane, day_from_civil(2027, 4, 5), &inside); /* 162 days */
	assert_has(&inside, "x=\"98.78%\" dx=\"-5\" y=\"53\" text-anchor=\"end\">today");
}

TEST(a_name_is_escaped)
{
	SCOPED_DRAWN drawn = {0};
	struct strip_lane lane = bag();
	lane.name = "<b>Holm</b> & Quay";
	draw_winter(&lane, day_from_civil(2026, 11, 25), &drawn);
	assert_has(&drawn, "<b>&lt;b&gt;Holm&lt;/b&gt; &amp; Quay</b>");
}

TEST(every_mark_is_defined_once_and_used_by_its_name)
{
	SCOPED_DRAWN drawn = {0};
	struct markup *markup = NULL;
	markup_open("Marks", NULL, &markup);
	draw_defs(markup);
	draw_mark(markup, MARK_OVERDUE);
	draw_mark(markup, MARK_ASHORE);
	end_drawing(markup, &drawn);
	assert_has(&drawn, "<symbol id=\"m-overdue\"");
	assert_has(&drawn, "<use href=\"#m-overdue\">");
	assert_has(&drawn, "<symbol id=\"m-ashore\"");
	assert_has(&drawn, "<use href=\"#m-ashore\">");
	assert_has(&drawn, "<pattern id=\"closed\"");
	assert_has(&drawn, "<pattern id=\"late\"");
}

/* A raft made in June 2018, last serviced on 18 Nov 2024, seen on 25 Nov 2026. With a day in 2029
 * the axis goes from 1 Jan 2018 to 1 Jan 2031: 13 years with 3 leap days, 4748 days. */
static struct clock_scale
raft_scale(void)
{
	day_t today = day_from_civil(2026, 11, 25);
	return (struct clock_scale){
	    clock_axis(day_from_civil(2018, 6, 1), day_from_civil(2029, 11, 18), today),
	    today};
}

static void
draw_lane_of(const struct clock_lane *lane, struct drawn *drawn)
{
	struct clock_scale scale = raft_scale();
	struct markup *markup = NULL;
	markup_open("Clocks", NULL, &markup);
	draw_clock_lane(markup, &scale, lane);
	end_drawing(markup, drawn);
}

TEST(the_years_of_clocks_go_from_the_oldest_to_a_year_past_the_last)
{
	struct axis axis = raft_scale().axis;
	struct axis old = clock_axis(day_from_civil(2011, 3, 1),
	    day_from_civil(2015, 1, 1), day_from_civil(2026, 11, 25));
	assert_int_equal(axis.first, day_from_civil(2018, 1, 1));
	assert_int_equal(axis.last, day_from_civil(2031, 1, 1));
	assert_int_equal(old.last, day_from_civil(2028, 1, 1));
}

TEST(the_head_of_clocks_names_every_second_year_today_and_when_it_was_made)
{
	SCOPED_DRAWN drawn = {0};
	struct clock_scale scale = raft_scale();
	struct markup *markup = NULL;
	markup_open("Clocks", NULL, &markup);
	draw_clock_head(markup, &scale, day_from_civil(2018, 6, 1), "made Jun 2018");
	end_drawing(markup, &drawn);
	assert_has(&drawn, "x=\"0.00%\" dx=\"3\" y=\"52\">2018</text>");
	assert_has(&drawn, ">2028</text>");
	/* at 92.31 % a phone has no room for it within the card */
	assert_has_not(&drawn, ">2030</text>");
	assert_has_not(&drawn, ">2019</text>");
	/* 25 Nov 2026: 8 years and 2 leap days, then 328 days: 3250 of 4748 */
	assert_has(
	    &drawn, "x=\"68.45%\" dx=\"-4\" y=\"13\" text-anchor=\"end\">today</text>");
	/* 151 days into 2018 */
	assert_has(&drawn, "cx=\"3.18%\" cy=\"26\" r=\"5\"");
	assert_has(&drawn, ">made Jun 2018</text>");
}

TEST(a_clock_that_binds_is_heavy_and_hatched_from_its_day_to_today)
{
	SCOPED_DRAWN drawn = {0};
	struct clock_line other = {
	    day_from_civil(2024, 11, 18), true, day_from_civil(2025, 11, 18)};
	struct clock_lane lane = {.bound = true,
	    .binds = {day_from_civil(2024, 11, 18), true, day_from_civil(2026, 11, 18)},
	    .others = &other,
	    .other_count = 1};
	draw_lane_of(&lane, &drawn);
	/* 18 Nov 2024 is day 2513 (6 years, 1 leap day, 322 days); 18 Nov 2026 day 3243 */
	assert_has(&drawn, "stroke-width=\"4\" x1=\"52.93%\" x2=\"68.30%\"");
	assert_has(&drawn, "class=\"inkfill\" cx=\"52.93%\" cy=\"20\" r=\"6\"");
	assert_has(&drawn, "fill=\"url(#late)\" x=\"68.30%\" width=\"0.15%\"");
	assert_has(&drawn, "class=\"noteline\" stroke-width=\"5\" x1=\"68.30%\"");
	/* past 62 % of a phone's card there is no room beside it: below, ending at its stop */
	assert_has(&drawn,
	    "class=\"n\" x=\"68.30%\" y=\"46\" text-anchor=\"end\">18 Nov 2026</text>");
	/* 18 Nov 2025 is day 2878 */
	assert_has(&drawn, "stroke-dasharray=\"4 4\" x1=\"52.93%\" x2=\"60.61%\"");
	assert_has(&drawn, "text-anchor=\"middle\">would be 18 Nov 2025</text>");
}

TEST(a_day_far_to_the_right_stands_below_its_stop)
{
	SCOPED_DRAWN drawn = {0};
	struct clock_lane lane = {.bound = true,
	    .binds = {day_from_civil(2024, 11, 18), true, day_from_civil(2029, 11, 18)}};
	draw_lane_of(&lane, &drawn);
	/* 18 Nov 2029 is day 4339 */
	assert_has(
	    &drawn, "class=\"b\" x=\"91.39%\" y=\"46\" text-anchor=\"end\">18 Nov 2029");
	assert_has_not(&drawn, "#late");
}

TEST(a_mark_on_the_label_has_only_its_stop)
{
	SCOPED_DRAWN drawn = {0};
	struct clock_lane lane = {
	    .bound = true, .binds = {DAY_NONE, false, day_from_civil(2027, 8, 31)}};
	draw_lane_of(&lane, &drawn);
	assert_has(&drawn, "class=\"line\" stroke-width=\"5\" x1=\"74.33%\"");
	assert_has_not(&drawn, "<circle");
	assert_has_not(&drawn, "stroke-width=\"4\"");
}

TEST(boats_short_are_steps_as_high_as_their_part_of_the_fleet)
{
	SCOPED_DRAWN drawn = {0};
	struct markup *markup = NULL;
	struct short_from steps[] = {
	    {day_from_civil(2027, 3, 27), 4}, {day_from_civil(2027, 4, 1), 7}};
	struct short_days days = {
	    {day_from_civil(2027, 3, 27), day_from_civil(2027, 5, 15)},
	    day_from_civil(2027, 4, 3), steps, 2, 12};
	markup_open("Days", NULL, &markup);
	draw_short_days(markup, &days, "Boats short on each day; see the table");
	end_drawing(markup, &drawn);
	assert_has(
	    &drawn, "role=\"img\" aria-label=\"Boats short on each day; see the table\"");
	/* 5 of 49 days; 4 of 12 boats are 20 px of 60, 7 are 35 */
	assert_has(&drawn, "x=\"0.00%\" width=\"10.20%\" y=\"58\" height=\"20\"");
	assert_has(&drawn, "x=\"10.20%\" width=\"89.80%\" y=\"43\" height=\"35\"");
	assert_has(&drawn, "class=\"n alt\" x=\"5.10%\" y=\"52\"");
	assert_has(&drawn, ">7 not ready</text>");
	assert_has(&drawn,
	    "class=\"b\" x=\"14.29%\" y=\"99\" text-anchor=\"middle\">3 Apr</text>");
}

TEST(the_day_looked_at_does_not_go_through_words)
{
	SCOPED_DRAWN drawn = {0};
	struct markup *markup = NULL;
	struct short_from steps[] = {{day_from_civil(2027, 3, 27), 2}};
	struct short_days days = {
	    {day_from_civil(2027, 3, 27), day_from_civil(2027, 5, 16)},
	    day_from_civil(2027, 4, 21), steps, 1, 12};
	markup_open("Days", NULL, &markup);
	draw_short_days(markup, &days, "Boats short on each day; see the table");
	end_drawing(markup, &drawn);
	/* the stroke is at 25 of 50 days, so the words stand in the middle of the first 25, and
	 * come after it, so that their halo covers it */
	const char *stroke = strstr(text_string(&drawn.plain), "x1=\"50.00%\"");
	const char *words = strstr(text_string(&drawn.plain), "x=\"25.00%\"");
	assert_true(stroke != NULL && words != NULL && stroke < words);
}

/* Of ten days the fifth: beside the stroke there is no room, and the words stay in the middle. */
TEST(words_without_room_beside_the_day_looked_at_stay_where_they_are)
{
	SCOPED_DRAWN drawn = {0};
	struct markup *markup = NULL;
	struct short_from steps[] = {
	    {day_from_civil(2027, 3, 27), 2}, {day_from_civil(2027, 4, 6), 0}};
	struct short_days days = {
	    {day_from_civil(2027, 3, 27), day_from_civil(2027, 5, 16)},
	    day_from_civil(2027, 4, 1), steps, 2, 12};
	markup_open("Days", NULL, &markup);
	draw_short_days(markup, &days, "Boats short on each day; see the table");
	end_drawing(markup, &drawn);
	assert_has(&drawn, "class=\"n\" x=\"10.00%\"");
}

TEST(a_boats_strip_has_her_bookings_and_beneath_them_her_short_days)
{
	SCOPED_DRAWN drawn = {0};
	struct markup *markup = NULL;
	struct axis axis = {day_from_civil(2027, 3, 27), day_from_civil(2027, 5, 15)};
	struct span booked = {day_from_civil(2027, 4, 3), day_from_civil(2027, 4, 17)};
	struct span lapses = {day_from_civil(2027, 4, 3), DAY_NEVER};
	markup_open("Boat", NULL, &markup);
	draw_boat_strip(markup, axis, day_from_civil(2027, 4, 3),
	    (struct spans){&booked, 1}, (struct spans){&lapses, 1});
	end_drawing(markup, &drawn);
	/* 7 of 49 days, 14 days long; short to the edge */
	assert_has(&drawn, "x=\"14.29%\" width=\"28.57%\" y=\"5\" height=\"13\"");
	assert_has(&drawn,
	    "fill=\"url(#late)\" x=\"14.29%\" width=\"85.71%\" y=\"20\" height=\"9\"");
}

TEST(money_stands_in_parts_and_the_highest_winter_is_the_measure)
{
	SCOPED_DRAWN drawn = {0};
	struct markup *markup = NULL;
	struct money_bar bars[] = {
	    {2026, 60000, 30000, 10000, "1000"}, {2027, 0, 0, 50000, "500"}};
	markup_open("Money", NULL, &markup);
	draw_money(markup, bars, 2, "Money by winter; see the table");
	end_drawing(markup, &drawn);
	/* of 164 px: trips 16, with work 66, all 164 */
	assert_has(&drawn,
	    "class=\"inkfill\" x=\"7.00%\" width=\"36.00%\" y=\"174\" height=\"16\"");
	assert_has(&drawn,
	    "fill=\"url(#work)\" x=\"7.00%\" width=\"36.00%\" y=\"124\" height=\"50\"");
	assert_has(&drawn, "x=\"7.00%\" width=\"36.00%\" y=\"26\" height=\"98\"");
	assert_has(&drawn,
	    "class=\"inkfill\" x=\"57.00%\" width=\"36.00%\" y=\"108\" height=\"82\"");
	assert_has(&drawn, "x=\"25.00%\" y=\"20\" text-anchor=\"middle\">1000</text>");
}

RUN_TESTS(NULL, NULL)
