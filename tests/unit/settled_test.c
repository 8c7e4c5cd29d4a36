/* Hand-ins that were given out, in the plans of later days. Days are counted off by hand. */
#include "becket_test.h"
#include "scene.h"

#define YEARLY                                                                           \
	"  - id: yearly\n    kinds: [lifejacket-auto, danbuoy-inflatable]\n"             \
	"    task: service\n    doer: station\n    grade: practice\n    clocks:\n"       \
	"      - { from: [last], months: 12 }\n    source: test\n"                       \
	"    standing: common practice\n"

/* Takes gear in from Monday to Friday, 14 days. Back by 31 March 2027, a Wednesday: the last
 * hand-in is 14 days before, Wednesday 17 March. */
static const struct station LOFT = {
    .name = "Loft", .base = "", .turn_round_days = 14, .weekdays = 0x1f};

/* A boat with a jacket and a danbuoy, both due on 1 December 2026. */
struct case_of {
	struct scene scene;
	struct settled_hand_in given;
	const char *tags[2];
};

static void
case_open(struct case_of *of, const char *day, size_t pieces)
{
	scene_open(&of->scene, YEARLY);
	struct item *jacket = scene_item(&of->scene, "lifejacket-auto");
	struct item *danbuoy = scene_item(&of->scene, "danbuoy-inflatable");
	scene_record(&of->scene, jacket, TASK_SERVICE, "2025-12-01", NULL);
	scene_record(&of->scene, danbuoy, TASK_SERVICE, "2025-12-01", NULL);
	of->tags[0] = jacket->tag;
	of->tags[1] = danbuoy->tag;
	of->given = (struct settled_hand_in){.owner = of->scene.vessel.name,
	    .winter = 2026,
	    .station = "Loft",
	    .number = 3,
	    .day = day_of(day),
	    .planned = DAY_NONE,
	    .tags = of->tags,
	    .tag_count = pieces};
}

static struct shore_list
plan_with(struct case_of *of, const struct station *stations, size_t station_count,
    const char *today, const struct settled_hand_in *settled, size_t settled_count)
{
	struct shore_list list = {0};
	const size_t vessel = 0;
	(void)scene_due(&of->scene, &of->scene.items[0], TASK_SERVICE, today);
	const struct winter_request request = {.engine = &of->scene.engine,
	    .stations = stations,
	    .station_count = station_count,
	    .today = day_of(today),
	    .lead_days = LEAD_DAYS,
	    .settled = settled,
	    .settled_count = settled_count};
	winter_plan_fleet(&request, &vessel, 1, &of->scene.arena, &list);
	return list;
}

static struct shore_list
plan_at(struct case_of *of, const struct station *stations, size_t station_count,
    const char *today)
{
	return plan_with(of, stations, station_count, today, &of->given, 1);
}

static struct shore_list
plan_on(struct case_of *of, const char *today)
{
	return plan_at(of, &LOFT, 1, today);
}

/* The jacket was given out at the loft, which takes no danbuoys; that goes to the yard
 * for 10, or to the barn for 25. */
TEST(beside_a_settled_hand_in_a_new_one_says_why_it_goes_there)
{
	static const char *const JACKETS[] = {"lifejacket-auto"};
	static const char *const DANBUOYS[] = {"danbuoy-inflatable"};
	static const struct station_price PRICES[] = {
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 1000},
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 2500}};
	struct station stations[] = {LOFT, LOFT, LOFT};
	CLOSES_SCENE struct case_of of;
	stations[0].kinds = JACKETS;
	stations[0].kind_count = 1;
	for (size_t i = 1; i < 3; i++) {
		stations[i].name = i == 1 ? "Yard" : "Barn";
		stations[i].kinds = DANBUOYS;
		stations[i].kind_count = 1;
		stations[i].prices = &PRICES[i - 1];
		stations[i].price_count = 1;
	}
	case_open(&of, "2026-12-04", 1);
	struct shore_list list = plan_at(&of, stations, 3, "2026-11-25");
	assert_int_equal(list.hand_in.count, 2);
	assert_string_equal(list.hand_in.items[0].name, "Yard");
	assert_true(list.hand_in.items[0].choice.any);
	assert_int_equal(list.hand_in.items[0].choice.saves_minor, 1500);
	assert_string_equal(list.hand_in.items[1].name, "Loft");
	assert_true(list.hand_in.items[1].settled);
	assert_false(list.hand_in.items[1].choice.any);
}

/* Both pieces are given out at the loft, for 20 each; the trip there is 10, that to the yard 15. */
static const struct station_price LOFT_PRICES[] = {
    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 2000},
    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 2000}};

static void
open_two_stations(struct station out[2], const struct station_price *yard_prices)
{
	out[0] = LOFT;
	out[0].trip_minor = 1000;
	out[0].prices = LOFT_PRICES;
	out[0].price_count = 2;
	out[1] = out[0];
	out[1].name = "Yard";
	out[1].trip_minor = 1500;
	out[1].prices = yard_prices;
}

TEST(a_settled_hand_in_says_what_it_would_cost_elsewhere)
{
	static const struct station_price DEAR[] = {
	    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 2200},
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 2200}};
	struct station stations[2];
	CLOSES_SCENE struct case_of of;
	open_two_stations(stations, DEAR);
	case_open(&of, "2026-12-04", 2);
	of.given.given_by = GIVEN_BY_FILE;
	of.given.given_on = day_of("2026-11-20");
	struct shore_list list = plan_at(&of, stations, 2, "2026-11-25");
	const struct trip *trip = &list.hand_in.items[0];
	assert_string_equal(trip->name, "Loft");
	assert_int_equal(trip->given_by, GIVEN_BY_FILE);
	assert_int_equal(trip->given_on, day_of("2026-11-20"));
	assert_true(trip->choice.any);
	/* 2 x 22 + 15 = 59 beside 2 x 20 + 10 = 50 */
	assert_int_equal(trip->choice.saves_minor, 900);
	assert_int_equal(trip->choice.cheaper_minor, 0);
}

TEST(a_settled_hand_in_that_would_be_cheaper_elsewhere_now_says_by_how_much)
{
	static const struct station_price CHEAP[] = {
	    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 1200},
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 1500}};
	struct station stations[2];
	CLOSES_SCENE struct case_of of;
	open_two_stations(stations, CHEAP);
	case_open(&of, "2026-12-04", 2);
	struct shore_list list = plan_at(&of, stations, 2, "2026-11-25");
	const struct trip *trip = &list.hand_in.items[0];
	assert_string_equal(trip->name, "Loft");
	assert_true(trip->choice.any);
	/* 12 + 15 + 15 = 42 beside 50 */
	assert_int_equal(trip->choice.cheaper_minor, 800);
	assert_int_equal(trip->choice.saves_minor, 0);
	assert_int_equal(trip->given_by, GIVEN_BY_UNKNOWN);
}

/* The danbuoy is settled at the yard for 22, so the jacket could go along there for 22,
 * too, with no trip more: 2 dearer, and 10 for the loft's trip saved. The other way round
 * the danbuoy could go along to the loft for 20: 2 and the yard's trip of 15 saved. */
TEST(beside_another_settled_hand_in_its_trip_is_paid_already)
{
	static const struct station_price YARD[] = {
	    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 2200},
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 2200}};
	struct station stations[2];
	CLOSES_SCENE struct case_of of;
	open_two_stations(stations, YARD);
	case_open(&of, "2026-12-04", 1);
	struct settled_hand_in both[] = {of.given, of.given};
	both[1].station = "Yard";
	both[1].day = day_of("2026-12-07");
	both[1].tags = &of.tags[1];
	struct shore_list list = plan_with(&of, stations, 2, "2026-11-25", both, 2);
	assert_int_equal(list.hand_in.count, 2);
	assert_string_equal(list.hand_in.items[0].name, "Loft");
	assert_int_equal(list.hand_in.items[0].choice.cheaper_minor, 800);
	assert_string_equal(list.hand_in.items[1].name, "Yard");
	assert_int_equal(list.hand_in.items[1].choice.cheaper_minor, 1700);
}

/* The danbuoy stands on a Saturday of a person's, on which the loft is closed: what the
 * jacket would cost elsewhere beside that can't be found, and none is made up. */
TEST(beside_a_day_on_which_nothing_is_taken_in_no_price_is_made_up)
{
	struct station stations[2];
	CLOSES_SCENE struct case_of of;
	open_two_stations(stations, LOFT_PRICES);
	case_open(&of, "2026-12-04", 1);
	struct settled_hand_in both[] = {of.given, of.given};
	both[1].number = 4;
	both[1].planned = day_of("2026-12-05");
	both[1].tags = &of.tags[1];
	struct shore_list list = plan_with(&of, stations, 2, "2026-11-25", both, 2);
	assert_int_equal(list.hand_in.count, 2);
	assert_true(list.hand_in.items[0].choice.not_weighed);
	assert_false(list.hand_in.items[0].choice.any);
	/* of the Saturday itself it can: the yard is 15 - 10 dearer */
	assert_int_equal(list.hand_in.items[1].misfit, DAY_CLOSED);
	assert_int_equal(list.hand_in.items[1].choice.saves_minor, 500);
}

TEST(it_stays_on_its_day_though_an_earlier_one_would_do)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2026-12-04", 2);
	for (day_t today = day_of("2026-11-25"); today <= day_of("2026-12-04"); today++) {
		char words[DAY_ISO_SIZE];
		struct shore_list list = plan_on(&of, day_iso(today, words));
		assert_int_equal(list.hand_in.count, 1);
		const struct trip *trip = &list.hand_in.items[0];
		assert_int_equal(trip->hand_in, day_of("2026-12-04"));
		assert_int_equal(trip->lines.count, 2);
		assert_int_equal(trip->number, 3);
		assert_true(trip->settled);
		assert_false(trip->missed);
	}
	/* 25 November is a Wednesday */
	assert_int_equal(
	    plan_on(&of, "2026-11-25").hand_in.items[0].earliest, day_of("2026-11-25"));
}

TEST(what_is_new_is_a_week_ahead_or_on_the_last_day_that_serves)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2026-12-04", 0);
	/* Saturday 28 November and a week is a Saturday: Monday 7 December */
	assert_int_equal(
	    plan_on(&of, "2026-11-28").hand_in.items[0].hand_in, day_of("2026-12-07"));
	/* Friday 12 March and a week is too late for 17 March */
	assert_int_equal(
	    plan_on(&of, "2027-03-12").hand_in.items[0].hand_in, day_of("2027-03-17"));
	/* Monday the 30th is the first day on which the loft is open */
	assert_int_equal(
	    plan_on(&of, "2026-11-28").hand_in.items[0].earliest, day_of("2026-11-30"));
	/* and its number is none that was given before */
	assert_int_equal(plan_on(&of, "2026-11-28").hand_in.items[0].number, 4);
}

TEST(what_is_new_joins_one_that_lies_ahead)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2027-01-15", 1);
	struct shore_list list = plan_on(&of, "2026-11-25");
	assert_int_equal(list.hand_in.count, 1);
	assert_int_equal(list.hand_in.items[0].hand_in, day_of("2027-01-15"));
	assert_int_equal(list.hand_in.items[0].lines.count, 2);
}

TEST(what_was_missed_keeps_its_number_and_goes_a_week_later)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2026-12-04", 2);
	/* seen on Saturday 5 December: a week later is a Saturday, Monday the 14th */
	const struct trip *trip = &plan_on(&of, "2026-12-05").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2026-12-14"));
	assert_int_equal(trip->number, 3);
	assert_true(trip->missed);
	/* seen on 15 March 2027: on the last day that serves */
	trip = &plan_on(&of, "2027-03-15").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2027-03-17"));
	/* and on the 18th it can't be done any more */
	assert_int_equal(plan_on(&of, "2027-03-18").hand_in.count, 0);
	assert_int_equal(plan_on(&of, "2027-03-18").cannot.count, 2);
}

TEST(a_day_that_serves_no_more_moves_and_says_why)
{
	CLOSES_SCENE struct case_of of;
	struct span away = {day_of("2026-12-04"), day_of("2026-12-04")};
	case_open(&of, "2026-12-04", 2);
	of.scene.vessel.away = &away;
	of.scene.vessel.away_count = 1;
	/* a week after Wednesday 25 November, Wednesday 2 December */
	const struct trip *trip = &plan_on(&of, "2026-11-25").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2026-12-02"));
	assert_int_equal(trip->number, 3);
	assert_false(trip->missed);
	assert_int_equal(trip->moved_from, day_of("2026-12-04"));
	assert_int_equal(trip->moved_why, DAY_NOT_THEIRS);
}

TEST(a_persons_day_is_kept_and_marked_where_it_is_too_late)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2026-12-04", 2);
	of.given.planned = day_of("2027-02-12");
	const struct trip *trip = &plan_on(&of, "2026-11-25").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2027-02-12"));
	assert_true(trip->chosen);
	assert_int_equal(trip->misfit, DAY_SERVES);
	of.given.planned = day_of("2027-03-19");
	trip = &plan_on(&of, "2026-11-25").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2027-03-19"));
	assert_int_equal(trip->misfit, DAY_TOO_LATE);
	/* a Saturday, and Sunday the 21st, which is too late, too */
	of.given.planned = day_of("2027-02-13");
	assert_int_equal(plan_on(&of, "2026-11-25").hand_in.items[0].misfit, DAY_CLOSED);
	of.given.planned = day_of("2027-03-21");
	assert_int_equal(plan_on(&of, "2026-11-25").hand_in.items[0].misfit, DAY_CLOSED);
	/* once past it is missed like any other */
	of.given.planned = day_of("2027-02-12");
	of.given.day = day_of("2027-02-12");
	of.given.chosen = true;
	trip = &plan_on(&of, "2027-02-15").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2027-02-22"));
	assert_false(trip->chosen);
	assert_true(trip->missed);
}

TEST(a_persons_day_that_is_too_late_stays_when_the_winter_ends)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2027-05-10", 2);
	of.given.planned = day_of("2027-05-10");
	of.given.chosen = true;
	/* behind Wednesday 17 March, the last day that serves, and behind her fitting-out */
	static const char *const DAYS[] = {
	    "2027-03-17", "2027-03-18", "2027-03-31", "2027-04-01", "2027-05-10"};
	for (size_t i = 0; i < sizeof DAYS / sizeof DAYS[0]; i++) {
		struct shore_list list = plan_on(&of, DAYS[i]);
		assert_int_equal(list.hand_in.count, 1);
		const struct trip *trip = &list.hand_in.items[0];
		assert_int_equal(trip->hand_in, day_of("2027-05-10"));
		assert_int_equal(trip->lines.count, 2);
		assert_int_equal(trip->misfit, DAY_TOO_LATE);
		assert_int_equal(trip->year, 2026);
		assert_int_equal(trip->number, 3);
		assert_true(trip->as_given);
		assert_int_equal(list.cannot.count, 0);
	}
	/* once past, it is put to a day of the winter to come */
	const struct trip *trip = &plan_on(&of, "2027-05-11").hand_in.items[0];
	assert_true(trip->missed);
	assert_true(trip->hand_in >= day_of("2027-11-01"));
	/* behind the end of that winter, too */
	of.given.planned = day_of("2028-04-03");
	trip = &plan_on(&of, "2027-04-01").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2028-04-03"));
	assert_int_equal(trip->misfit, DAY_TOO_LATE);
}

TEST(what_was_given_up_goes_on_no_day_and_says_why)
{
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2026-12-04", 1);
	of.given.given_up = "no car";
	struct shore_list list = plan_on(&of, "2026-11-25");
	/* the danbuoy, which was not on it, goes a week ahead under a new number */
	assert_int_equal(list.hand_in.count, 1);
	assert_int_equal(list.hand_in.items[0].lines.count, 1);
	assert_int_equal(list.hand_in.items[0].number, 4);
	assert_int_equal(list.cannot.count, 1);
	assert_string_equal(list.cannot.items[0].why, "given up for this winter: no car");
	/* handed in today, Wednesday 25 November, it would be back 14 days later */
	assert_int_equal(list.cannot.items[0].first_possible, day_of("2026-12-09"));
	assert_string_equal(list.cannot.items[0].cure,
	    "a day for it after all, at Loft by 17 Mar 2027; a stand-in until it is back");
	/* its reason stays once it would be too late anyway, and its day passing changes nothing */
	list = plan_on(&of, "2027-03-18");
	assert_int_equal(list.cannot.count, 2);
	assert_string_equal(list.cannot.items[0].why, "given up for this winter: no car");
	assert_null(list.cannot.items[1].given_up);
	assert_int_equal(plan_on(&of, "2026-12-20").cannot.count, 1);
	/* of the next winter it says nothing */
	of.given.winter = 2025;
	of.given.day = day_of("2026-02-02");
	assert_int_equal(plan_on(&of, "2026-11-25").cannot.count, 0);
}

TEST(it_is_on_a_day_on_which_they_go_where_the_station_has_one)
{
	CLOSES_SCENE struct case_of of;
	struct span away = {day_of("2026-12-09"), day_of("2026-12-09")};
	case_open(&of, "2026-12-04", 0);
	/* Wednesdays: a week after Saturday 28 November, Wednesday 9 December */
	of.scene.vessel.goes = 1U << 2;
	const struct trip *trip = &plan_on(&of, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2026-12-09"));
	assert_int_equal(trip->days, DAYS_AGREE);
	of.scene.vessel.away = &away;
	of.scene.vessel.away_count = 1;
	trip = &plan_on(&of, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2026-12-16"));
	/* a Thursday */
	of.given.planned = day_of("2026-12-10");
	of.given.tag_count = 2;
	assert_int_equal(
	    plan_on(&of, "2026-11-28").hand_in.items[0].misfit, DAY_NOT_THEIRS);
	/* Saturdays, none of the loft's: its Monday the 7th */
	of.given.planned = DAY_NONE;
	of.given.tag_count = 0;
	of.scene.vessel.goes = 1U << 5;
	trip = &plan_on(&of, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->hand_in, day_of("2026-12-07"));
	assert_int_equal(trip->days, DAYS_NOT_SHARED);
}

/* A boat in use all year, both pieces due on Tuesday 1 December, as her rota gave them out. */
TEST(what_can_go_only_late_between_her_bookings_stays_on_that_day)
{
	CLOSES_SCENE struct case_of of;
	struct booking let = {.days = {day_of("2026-12-12"), day_of("2026-12-13")}};
	const day_t dues[] = {day_of("2026-12-01"), day_of("2026-12-01")};
	case_open(&of, "2026-12-01", 2);
	of.given.dues = dues;
	of.scene.vessel.laid_up = false;
	of.scene.vessel.bookings = &let;
	of.scene.vessel.booking_count = 1;
	/* from Friday 27 November it is back on the 11th, from Monday 30 on the 14th */
	struct shore_list list = plan_on(&of, "2026-11-25");
	assert_int_equal(list.hand_in.count, 1);
	assert_int_equal(list.hand_in.items[0].hand_in, day_of("2026-11-27"));
	assert_int_equal(list.hand_in.items[0].moved_why, DAY_BOOKED);
	assert_int_equal(
	    list.hand_in.items[0].lines.items[0].not_after, day_of("2026-11-27"));
	/* missed, it goes when the 13th is over: late, and no day is its last */
	of.given.day = day_of("2026-11-27");
	list = plan_on(&of, "2026-11-28");
	assert_int_equal(list.hand_in.count, 1);
	assert_true(list.hand_in.items[0].missed);
	assert_int_equal(list.hand_in.items[0].hand_in, day_of("2026-12-14"));
	assert_int_equal(list.hand_in.items[0].lines.items[0].not_after, DAY_NONE);
	/* given out so it is not planned anew the day after */
	of.given.day = day_of("2026-12-14");
	list = plan_on(&of, "2026-11-29");
	assert_int_equal(list.hand_in.count, 1);
	assert_int_equal(list.hand_in.items[0].number, 3);
	assert_int_equal(list.hand_in.items[0].hand_in, day_of("2026-12-14"));
	assert_false(list.hand_in.items[0].missed);
}

/* Saturday 12 December, from which it is back 14 days later, on the next weekday: Monday the
 * 28th. */
TEST(a_day_that_the_station_confirmed_is_one_of_its_own)
{
	const struct span shut = {day_of("2026-12-10"), day_of("2026-12-13")};
	struct station loft = LOFT;
	CLOSES_SCENE struct case_of of;
	case_open(&of, "2026-12-04", 2);
	of.given.planned = day_of("2026-12-12");
	assert_int_equal(plan_on(&of, "2026-11-28").hand_in.items[0].misfit, DAY_CLOSED);
	of.given.confirmed = true;
	const struct trip *trip = &plan_on(&of, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->misfit, DAY_SERVES);
	assert_int_equal(trip->hand_in, day_of("2026-12-12"));
	assert_int_equal(trip->collect, day_of("2026-12-28"));
	/* in days it is else closed, nothing is worked on until the 14th: ready behind the 27th */
	loft.shut = &shut;
	loft.shut_count = 1;
	trip = &plan_at(&of, &loft, 1, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->misfit, DAY_SERVES);
	assert_int_equal(trip->collect, day_of("2026-12-28"));
	/* weekdays not known and hers Saturdays: there is nothing left to ask */
	loft.weekdays = 0;
	of.scene.vessel.goes = 1U << 5;
	trip = &plan_at(&of, &loft, 1, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->days, DAYS_AGREE);
	/* where it did not say so, there is */
	of.given.confirmed = false;
	of.scene.vessel.goes = 0;
	loft.shut_count = 0;
	trip = &plan_at(&of, &loft, 1, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->misfit, DAY_SERVES);
	assert_int_equal(trip->days, DAYS_TO_ASK);
	loft.shut_count = 1;
	trip = &plan_at(&of, &loft, 1, "2026-11-28").hand_in.items[0];
	assert_int_equal(trip->misfit, DAY_CLOSED);
	of.given.confirmed = true;
	/* what it says is for that hand-in: her own days stay hers, and another boat's it is not */
	of.scene.vessel.goes = 1U << 2;
	assert_int_equal(
	    plan_on(&of, "2026-11-28").hand_in.items[0].misfit, DAY_NOT_THEIRS);
	of.scene.vessel.goes = 0;
	of.given.owner = "Another";
	assert_int_equal(
	    plan_on(&of, "2026-12-05").hand_in.items[0].hand_in, day_of("2026-12-14"));
}

RUN_TESTS(NULL, NULL)
