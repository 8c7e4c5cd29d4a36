/* Hand-ins that were given out, at the limits of what is said of them. Days and sums are
 * derived beside each test. */
#include "becket_test.h"
#include "scene.h"
#include "winter/settled_inside.h"

/* Jackets are serviced yearly, danbuoys every two years. */
#define RULES                                                                            \
	"  - id: yearly\n    kinds: [lifejacket-auto]\n    task: service\n"              \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 12 }\n    source: test\n"                       \
	"    standing: common practice\n"                                                \
	"  - id: slow\n    kinds: [danbuoy-inflatable]\n    task: service\n"             \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 24 }\n    source: test\n"                       \
	"    standing: common practice\n"

/* Monday to Friday, 14 days; back by 31 March 2027: the last hand-in is on Wednesday 17 March. */
static const struct station LOFT = {
    .name = "Loft", .base = "", .turn_round_days = 14, .weekdays = 0x1f};

enum { GIVEN = 3 };

/* Two boats of Port Marrin, laid up 1 November to 31 March, seen on Wednesday 25 November
 * 2026, a week ahead of Wednesday 2 December. */
struct port {
	struct scene scene;
	struct vessel vessels[2];
	const struct rulebook *rulebooks[2];
	struct shore_list lists[2];
	struct settled_hand_in given[GIVEN];
	size_t given_count;
	const char *tags[GIVEN];
	day_t dues[GIVEN];
	int year;
};

static void
port_open(struct port *port)
{
	*port = (struct port){0};
	scene_open(&port->scene, RULES);
	for (size_t i = 0; i < 2; i++) {
		port->vessels[i] = port->scene.vessel;
		port->vessels[i].name = i == 0 ? "Amberjay" : "Brindlewing";
		port->vessels[i].base = "Port Marrin";
		port->rulebooks[i] = port->scene.rulebook;
	}
	port->scene.inventory.vessels = port->vessels;
	port->scene.inventory.vessel_count = 2;
}

/* A thing with a tag of its own, served on a day; those of the first boat come first. */
static struct item *
add(struct port *port, size_t vessel, const char *kind, const char *tag, const char *on)
{
	struct item *item = scene_item(&port->scene, kind);
	item->vessel = vessel;
	item->tag = tag;
	if (on != NULL) {
		scene_record(&port->scene, item, TASK_SERVICE, on, NULL);
	}
	return item;
}

/* A hand-in of the base at the loft on a day, with one thing on it. */
static struct settled_hand_in *
give(struct port *port, const char *tag, const char *day)
{
	size_t at = port->given_count++;
	port->tags[at] = tag;
	port->given[at] = (struct settled_hand_in){.owner = "Port Marrin",
	    .of_base = true,
	    .winter = 2026,
	    .station = "Loft",
	    .number = at + 1,
	    .day = day_of(day),
	    .planned = DAY_NONE,
	    .tags = &port->tags[at],
	    .dues = &port->dues[at],
	    .tag_count = 1};
	return &port->given[at];
}

static void
plan(struct port *port, const struct station *stations, size_t count, const char *today)
{
	const size_t both[] = {0, 1};
	scene_engine(&port->scene);
	port->scene.engine.rulebooks = port->rulebooks;
	const struct winter_request request = {.engine = &port->scene.engine,
	    .stations = stations,
	    .station_count = count,
	    .year = port->year,
	    .today = day_of(today),
	    .lead_days = LEAD_DAYS,
	    .settled = port->given,
	    .settled_count = port->given_count};
	winter_plan_fleet(&request, both, 2, &port->scene.arena, port->lists);
}

/* The jacket is ten on Tuesday 1 December, and its service then 30 and not 10: on Monday
 * the 30th it would be cheaper, but that is no week ahead. */
TEST(what_is_soon_dearer_is_given_out_a_week_ahead_all_the_same)
{
	static const struct station_price BY_AGE[] = {
	    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 1000},
	    {.kind = "lifejacket-auto",
		.task = TASK_SERVICE,
		.minor = 3000,
		.from_years = 10}};
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.prices = BY_AGE;
	loft.price_count = 2;
	port_open(&port);
	add(&port, 0, "lifejacket-auto", "J", "2025-12-01")->made =
	    stamp_of("2016-12-01");
	plan(&port, &loft, 1, "2026-11-25");
	const struct trips *trips = &port.lists[0].hand_in;
	assert_int_equal(trips->count, 1);
	assert_day(trips->items[0].hand_in, "2026-12-02");
	assert_day(trips->items[0].earliest, "2026-11-25");
	assert_int_equal(trips->items[0].lines.items[0].price_minor, 3000);
	/* a week before that day, both serve: the earlier is the cheaper */
	plan(&port, &loft, 1, "2026-11-23");
	assert_day(trips->items[0].hand_in, "2026-11-30");
	assert_int_equal(trips->items[0].lines.items[0].price_minor, 1000);
}

/* The danbuoy is ten on Tuesday 15 December, and its service then 30 and not 10; the
 * jacket carries her from that day on, since she is laid up again on 16 December 2027. A
 * trip of its own at 10 is cheaper than the danbuoy on that day; the jacket then goes
 * when it is fetched. */
TEST(on_the_day_of_its_birthday_it_costs_what_its_new_age_costs)
{
	static const struct station_price BY_AGE[] = {
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 1000},
	    {.kind = "danbuoy-inflatable",
		.task = TASK_SERVICE,
		.minor = 3000,
		.from_years = 10}};
	const struct odd_winter odd = {
	    2027, {day_of("2027-12-16"), day_of("2028-03-31")}};
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.prices = BY_AGE;
	loft.price_count = 2;
	loft.trip_minor = 1000;
	port_open(&port);
	port.vessels[0].odd_winters = &odd;
	port.vessels[0].odd_winter_count = 1;
	add(&port, 0, "danbuoy-inflatable", "D", "2025-03-01")->made =
	    stamp_of("2016-12-15");
	(void)add(&port, 0, "lifejacket-auto", "J", "2026-03-01");
	plan(&port, &loft, 1, "2026-11-25");
	const struct trips *trips = &port.lists[0].hand_in;
	assert_int_equal(trips->count, 2);
	assert_day(trips->items[0].hand_in, "2026-12-02");
	assert_int_equal(trips->items[0].lines.items[0].price_minor, 1000);
	assert_day(trips->items[1].hand_in, "2026-12-16");
	assert_int_equal(port.lists[0].proof.minor, 1000 + 2 * 1000);
}

/* Laid up again on 10 December 2027, what is done yearly carries her from 9 December 2026
 * on: Friday the 4th serves the danbuoy alone, and the jacket leaves it. It goes when the
 * danbuoy is fetched, on the 18th: that saves a journey. */
TEST(what_a_day_serves_no_more_leaves_it_and_the_rest_stays)
{
	CLOSES_SCENE struct port port;
	const struct odd_winter odd = {
	    2027, {day_of("2027-12-10"), day_of("2028-03-31")}};
	port_open(&port);
	port.vessels[0].odd_winters = &odd;
	port.vessels[0].odd_winter_count = 1;
	(void)add(&port, 0, "lifejacket-auto", "J", "2026-03-01");
	(void)add(&port, 0, "danbuoy-inflatable", "D", "2025-03-01");
	struct settled_hand_in *given = give(&port, "J", "2026-12-04");
	port.tags[1] = "D";
	given->tag_count = 2;
	plan(&port, &LOFT, 1, "2026-11-25");
	const struct trips *trips = &port.lists[0].hand_in;
	assert_int_equal(trips->count, 2);
	assert_day(trips->items[0].hand_in, "2026-12-04");
	assert_int_equal(trips->items[0].lines.count, 1);
	assert_int_equal(trips->items[0].lines.items[0].item, 1);
	assert_false(trips->items[0].as_given);
	assert_day(trips->items[1].hand_in, "2026-12-18");
	assert_int_equal(trips->items[1].number, 2);
}

/* The first boat is to be ready on 31 December: her jacket goes by the 17th. The
 * second's, laid up again on 2 February 2028, carries her from 1 February on. What was
 * missed on 20 November has no day for both: the one that must go sooner leaves it. */
TEST(of_two_that_share_no_day_the_one_that_must_go_sooner_leaves)
{
	CLOSES_SCENE struct port port;
	const struct odd_winter short_one = {
	    2026, {day_of("2026-11-01"), day_of("2026-12-31")}};
	const struct odd_winter late = {
	    2027, {day_of("2028-02-02"), day_of("2028-03-31")}};
	port_open(&port);
	port.vessels[0].odd_winters = &short_one;
	port.vessels[0].odd_winter_count = 1;
	port.vessels[1].odd_winters = &late;
	port.vessels[1].odd_winter_count = 1;
	(void)add(&port, 0, "danbuoy-inflatable", "D", "2025-03-01");
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 1, "lifejacket-auto", "B", "2026-03-01");
	struct settled_hand_in *given = give(&port, "A", "2026-11-20");
	port.tags[1] = "B";
	given->tag_count = 2;
	plan(&port, &LOFT, 1, "2026-11-25");
	const struct trip *first = &port.lists[0].hand_in.items[0];
	const struct trip *second = &port.lists[1].hand_in.items[0];
	assert_day(first->hand_in, "2026-12-02");
	assert_false(first->settled);
	assert_int_equal(first->number, 2);
	assert_int_equal(first->lines.count, 2); /* with a danbuoy that was on none */
	assert_day(second->hand_in, "2027-02-01");
	assert_true(second->settled && second->missed);
	assert_int_equal(second->number, 1);
}

/* Two pieces a week: beside one of the first boat's there is room for one of the second's
 * on Friday 15 January, beside two there is none; what else goes there in another week,
 * or to another station in that one, takes none of it. */
TEST(what_joins_a_hand_in_finds_room_in_its_week)
{
	struct station stations[] = {LOFT, LOFT};
	CLOSES_SCENE struct port port;
	stations[0].weekly_pieces = 2;
	stations[1].name = "Yard";
	stations[1].base = "Cape Lorne";
	port_open(&port);
	struct item *first = add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 0, "lifejacket-auto", "B", "2026-03-01");
	port.scene
	    .records[add(&port, 0, "lifejacket-auto", "C", "2026-03-01") -
		     port.scene.items][0]
	    .station = "Yard";
	(void)add(&port, 1, "lifejacket-auto", "D", "2026-03-01");
	(void)give(&port, "A", "2027-01-15");
	(void)give(&port, "B", "2027-01-22");
	give(&port, "C", "2027-01-15")->station = "Yard";
	plan(&port, stations, 2, "2026-11-25");
	const struct trips *joined = &port.lists[1].hand_in;
	assert_day(joined->items[0].hand_in, "2027-01-15");
	assert_int_equal(joined->items[0].number, 1);
	assert_int_equal(joined->items[0].vessels, 2);
	/* a lot of two fills it: then it is on Friday the 22nd */
	first->quantity = 2;
	plan(&port, stations, 2, "2026-11-25");
	assert_day(joined->items[0].hand_in, "2027-01-22");
	/* and where it is two as well, neither has room: it goes by itself */
	port.scene.items[3].quantity = 2;
	plan(&port, stations, 2, "2026-11-25");
	assert_day(joined->items[0].hand_in, "2026-12-02");
	assert_false(joined->items[0].settled);
}

/* Of two hand-ins ahead it joins the cheaper; where they cost the same, the one to where
 * it went last, and else the one that was given out first. */
TEST(what_joins_goes_where_it_is_cheaper_or_went_last)
{
	static const struct {
		int64_t loft;
		int64_t yard;
		const char *last;
		const char *station;
	} ROWS[] = {
	    {2000, 2200, "", "Loft"},
	    {2200, 2000, "", "Yard"},
	    {2200, 2000, "Loft", "Yard"},
	    {2000, 2000, "", "Loft"},
	    {2000, 2000, "Yard", "Yard"},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct station_price prices[2];
		struct station stations[] = {LOFT, LOFT};
		CLOSES_SCENE struct port port;
		stations[1].name = "Yard";
		for (size_t s = 0; s < 2; s++) {
			prices[s] = (struct station_price){.kind = "lifejacket-auto",
			    .task = TASK_SERVICE,
			    .minor = s == 0 ? ROWS[i].loft : ROWS[i].yard};
			stations[s].prices = &prices[s];
			stations[s].price_count = 1;
		}
		port_open(&port);
		(void)add(&port, 0, "danbuoy-inflatable", "A", "2025-03-01");
		(void)add(&port, 0, "danbuoy-inflatable", "B", "2025-03-01");
		(void)add(&port, 1, "lifejacket-auto", "J", "2026-03-01");
		port.scene.records[2][0].station = ROWS[i].last;
		(void)give(&port, "A", "2027-01-15");
		give(&port, "B", "2027-01-12")->station = "Yard";
		plan(&port, stations, 2, "2026-11-25");
		assert_int_equal(port.lists[1].hand_in.count, 1);
		assert_string_equal(port.lists[1].hand_in.items[0].name, ROWS[i].station);
	}
}

/* One piece a week; on 8 March the jacket stands on Tuesday the 16th, and the last day is
 * Wednesday the 17th of that week: the other finds no room. The jacket itself could go at
 * once. */
TEST(what_finds_no_room_beside_a_settled_hand_in_stays_behind)
{
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.weekly_pieces = 1;
	port_open(&port);
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-20");
	(void)add(&port, 1, "lifejacket-auto", "B", "2026-03-20");
	(void)give(&port, "A", "2027-03-16");
	plan(&port, &loft, 1, "2027-03-08");
	assert_day(port.lists[0].hand_in.items[0].hand_in, "2027-03-16");
	assert_day(port.lists[0].hand_in.items[0].earliest, "2027-03-08");
	assert_int_equal(port.lists[1].hand_in.count, 0);
	assert_int_equal(port.lists[1].cannot.count, 1);
	/* in its own week, too */
	plan(&port, &loft, 1, "2027-03-15");
	assert_day(port.lists[0].hand_in.items[0].earliest, "2027-03-15");
}

/* One trip a winter: two that were given out are kept all the same, and what is on
 * neither stays behind. */
TEST(what_was_given_out_is_kept_above_the_trips_she_makes)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	port.vessels[0].most_trips = 1;
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 0, "lifejacket-auto", "B", "2026-03-01");
	struct item *third = add(&port, 0, "danbuoy-inflatable", "D", "2025-03-01");
	static const char *const JACKETS[] = {"lifejacket-auto"};
	static const char *const DANBUOYS[] = {"danbuoy-inflatable"};
	struct station stations[] = {LOFT, LOFT};
	stations[0].kinds = JACKETS;
	stations[0].kind_count = 1;
	stations[1].name = "Yard";
	stations[1].kinds = DANBUOYS;
	stations[1].kind_count = 1;
	(void)give(&port, "A", "2026-12-04");
	(void)give(&port, "B", "2026-12-11");
	plan(&port, stations, 2, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 2);
	assert_int_equal(port.lists[0].cannot.count, 1);
	assert_int_equal(port.lists[0].cannot.items[0].item, third - port.scene.items);
	assert_string_equal(port.lists[0].cannot.items[0].why,
	    "it would take more trips than you will make");
}

/* Chosen by a person for the very day it was given out for; and given out with a thing
 * that was done since. Neither is as it was given out, and nothing says by what means the
 * first has its day. */
TEST(a_hand_in_that_differs_from_what_was_given_out_is_to_be_given_out_anew)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	struct settled_hand_in *given = give(&port, "A", "2026-12-04");
	const struct trips *trips = &port.lists[0].hand_in;
	given->given_by = GIVEN_BY_FEED;
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_true(trips->items[0].as_given);
	assert_int_equal(trips->items[0].given_by, GIVEN_BY_FEED);
	given->planned = given->day;
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_false(trips->items[0].as_given);
	assert_int_equal(trips->items[0].given_by, GIVEN_BY_UNKNOWN);
	given->planned = DAY_NONE;
	port.tags[1] = "done";
	given->tag_count = 2;
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_false(trips->items[0].as_given);
	/* without any day it is no hand-in */
	given->day = DAY_NONE;
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_false(trips->items[0].settled);
	assert_day(trips->items[0].hand_in, "2026-12-02");
}

/* Missed once, and on a day ahead on which she does not go: it was missed still. */
TEST(what_was_missed_once_stays_so_when_its_day_moves_again)
{
	CLOSES_SCENE struct port port;
	const struct span away = {day_of("2026-12-04"), day_of("2026-12-04")};
	port_open(&port);
	port.vessels[0].away = &away;
	port.vessels[0].away_count = 1;
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	give(&port, "A", "2026-12-04")->missed = true;
	plan(&port, &LOFT, 1, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_day(trip->hand_in, "2026-12-02");
	assert_day(trip->moved_from, "2026-12-04");
	assert_true(trip->missed);
}

/* The first boat's winters start on 1 January, the second's on 1 November: what they hand
 * in together on Friday 1 January 2027 is of the winter that started first. */
TEST(a_hand_in_of_boats_with_other_winters_is_of_the_earliest)
{
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.trip_minor = 2000;
	port_open(&port);
	port.vessels[0].lay_up = (struct yearly){1, 1, 3, 31};
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 1, "lifejacket-auto", "B", "2026-03-01");
	plan(&port, &loft, 1, "2026-11-25");
	for (size_t i = 0; i < 2; i++) {
		assert_int_equal(port.lists[i].hand_in.count, 1);
		assert_day(port.lists[i].hand_in.items[0].hand_in, "2027-01-01");
		assert_int_equal(port.lists[i].hand_in.items[0].year, 2026);
	}
}

/* Given up for the base: what was on it goes on none, and what was not goes. */
TEST(what_a_base_gave_up_goes_on_no_day_and_the_rest_of_it_goes)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 1, "lifejacket-auto", "B", "2026-03-01");
	struct settled_hand_in *given = give(&port, "A", "2026-12-04");
	given->given_up = "no car";
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 0);
	assert_string_equal(
	    port.lists[0].cannot.items[0].why, "given up for this winter: no car");
	assert_int_equal(port.lists[1].hand_in.count, 1);
	assert_int_equal(port.lists[1].cannot.count, 0);
	/* another base's is not theirs */
	given->owner = "Cape Lorne";
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 1);
	assert_int_equal(port.lists[0].cannot.count, 0);
}

/* Due on 10 November 2027, in the winter that starts on the 1st; a hand-in of the winter
 * before, on a day of a person's in February, is none of it. */
TEST(a_hand_in_of_the_winter_before_is_none_of_the_next)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-11-10");
	give(&port, "A", "2027-02-12")->planned = day_of("2027-02-12");
	port.year = 2027;
	plan(&port, &LOFT, 1, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_int_equal(port.lists[0].hand_in.count, 1);
	assert_false(trip->settled);
	assert_int_equal(trip->year, 2027);
	assert_int_equal(trip->number, 1);
}

/* ---- whose it is ---- */

/* A boat, whose winter of a year is planned, seen from a day. */
struct hers {
	struct period periods[2];
	struct vessel vessel;
	struct shore_list list;
	struct planning planning;
};

/* In use all year, laid up, or both, one after the other, from 1 May 2026. */
static void
hers_open(struct hers *hers, bool before, bool after, int year, const char *today)
{
	*hers = (struct hers){0};
	for (size_t i = 0; i < 2; i++) {
		hers->periods[i] =
		    (struct period){.from = i == 0 ? DAY_NONE : day_of("2026-05-01"),
			.says = SAYS_LAY_UP,
			.laid_up = i == 0 ? before : after,
			.lay_up = {11, 1, 3, 31}};
	}
	hers->vessel = (struct vessel){.name = "Amberjay",
	    .base = "Port Marrin",
	    .periods = hers->periods,
	    .period_count = 2,
	    .laid_up = after,
	    .lay_up = {11, 1, 3, 31}};
	hers->planning = (struct planning){
	    .vessel = &hers->vessel, .today = day_of(today), .list = &hers->list};
	hers->list.has_winter = winter_of_year(&hers->vessel, year, &hers->list.winter);
}

/* Of the winter that is planned by its name; of another by its day, after the last
 * fitting-out and up to the next; and on a person's day behind that where the winter of
 * today is planned, and it was of one gone by. */
TEST(a_hand_in_is_of_the_winter_that_its_name_or_its_day_says)
{
	static const struct {
		const char
		    *boat; /* laid up before and after 1 May 2026: "-w" only after */
		int year;
		const char *today;
		int winter;
		const char *day;
		const char *planned;
		bool hers;
	} ROWS[] = {
	    {"ww", 2026, "2026-11-25", 2026, "", "", true},
	    {"ww", 2026, "2026-11-25", 2025, "", "", false},
	    {"ww", 2026, "2026-11-25", 2025, "2026-03-31", "", false},
	    {"ww", 2026, "2026-11-25", 2025, "2026-04-01", "", true},
	    {"ww", 2026, "2026-11-25", 2027, "2027-03-31", "", true},
	    {"ww", 2026, "2026-11-25", 2027, "2027-04-01", "", false},
	    {"ww", 2026, "2026-11-25", 2025, "", "2027-04-01", true},
	    {"ww", 2026, "2026-11-25", 2025, "2026-03-31", "2027-04-01", true},
	    {"ww", 2026, "2026-11-25", 2027, "", "2027-04-01", false},
	    {"ww", 2026, "2027-03-31", 2025, "", "2027-03-30", false},
	    /* the winter that is planned is not that of today */
	    {"ww", 2027, "2026-11-25", 2026, "", "2028-04-01", false},
	    /* before her first winter there was none */
	    {"-w", 2026, "2026-11-25", 2024, "2024-12-04", "", true},
	    /* and there is none any more */
	    {"w-", 2025, "2026-11-25", 2024, "", "2026-12-10", false},
	    {"w-", 2025, "2026-03-01", 2024, "", "2026-12-10", true},
	    {"--", 2026, "2026-11-25", 2020, "2020-12-04", "", true},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		struct hers hers;
		hers_open(&hers, ROWS[i].boat[0] == 'w', ROWS[i].boat[1] == 'w',
		    ROWS[i].year, ROWS[i].today);
		struct settled_hand_in of = {.owner = "Amberjay",
		    .winter = ROWS[i].winter,
		    .day = ROWS[i].day[0] == '\0' ? DAY_NONE : day_of(ROWS[i].day),
		    .planned =
			ROWS[i].planned[0] == '\0' ? DAY_NONE : day_of(ROWS[i].planned)};
		if (settling_is_hers(&hers.planning, &of) != ROWS[i].hers) {
			fail_msg("row %zu", i);
		}
		of.owner = "Brindlewing";
		assert_false(settling_is_hers(&hers.planning, &of));
	}
}

/* Hand-ins of her own, of her base and of another base, each with one thing. */
TEST(what_was_given_out_is_looked_for_on_her_own_hand_ins_and_her_bases)
{
	static const char *const TAGS[] = {"A", "B", "C"};
	const day_t due = day_of("2026-12-31");
	struct settled_hand_in given[3];
	struct hers hers;
	hers_open(&hers, true, true, 2026, "2026-11-25");
	for (size_t i = 0; i < 3; i++) {
		static const char *const OWNERS[] = {
		    "Amberjay", "Port Marrin", "Cape Lorne"};
		given[i] = (struct settled_hand_in){.owner = OWNERS[i],
		    .of_base = i > 0,
		    .winter = 2026,
		    .station = "Loft",
		    .day = DAY_NONE,
		    .planned = day_of("2026-12-04"),
		    .tags = &TAGS[i],
		    .dues = &due,
		    .tag_count = 1};
	}
	hers.planning.settled = given;
	hers.planning.settled_count = 3;
	assert_true(settled_is_kept_at(&hers.planning, "A", "Loft"));
	assert_true(settled_is_kept_at(&hers.planning, "B", "Loft"));
	assert_false(settled_is_kept_at(&hers.planning, "C", "Loft"));
	assert_false(settled_is_kept_at(&hers.planning, "A", "Yard"));
	assert_true(settled_waits(&hers.planning, "A", due));
	assert_true(settled_waits(&hers.planning, "B", due));
	assert_false(settled_waits(&hers.planning, "B", due + 1));
	assert_false(settled_waits(&hers.planning, "C", due));
	assert_null(settled_given_up(&hers.planning, "B"));
	for (size_t i = 0; i < 3; i++) {
		given[i].given_up = "no car";
	}
	assert_false(settled_is_kept_at(&hers.planning, "A", "Loft"));
	assert_string_equal(settled_given_up(&hers.planning, "B"), "no car");
	assert_null(settled_given_up(&hers.planning, "C"));
	given[1].winter = 2024; /* of no day: another winter's */
	given[1].planned = DAY_NONE;
	assert_null(settled_given_up(&hers.planning, "B"));
}

/* The first boat's own hand-in, from before she had the base, is on the day on which the
 * base's new one goes: each keeps to its owner. */
TEST(two_hand_ins_of_one_day_keep_to_their_owners)
{
	CLOSES_SCENE struct port port;
	port_open(&port);
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 1, "lifejacket-auto", "B", "2026-03-01");
	struct settled_hand_in *given = give(&port, "A", "2026-12-02");
	given->owner = "Amberjay";
	given->of_base = false;
	plan(&port, &LOFT, 1, "2026-11-25");
	for (size_t i = 0; i < 2; i++) {
		const struct trips *trips = &port.lists[i].hand_in;
		assert_int_equal(trips->count, 1);
		assert_day(trips->items[0].hand_in, "2026-12-02");
		assert_int_equal(trips->items[0].settled, i == 0);
		assert_int_equal(trips->items[0].lines.count, 1);
	}
}

/* ---- boats in use all year ---- */

/* The first boat, in use all year, with a jacket that is due a year after it was served. */
static struct settled_hand_in *
open_all_year(struct port *port, const char *served, const char *day)
{
	port_open(port);
	port->vessels[0].base = "";
	port->vessels[0].laid_up = false;
	(void)add(port, 0, "lifejacket-auto", "J", served);
	struct settled_hand_in *given = give(port, "J", day);
	given->owner = "Amberjay";
	given->of_base = false;
	port->dues[0] = served == NULL ? DAY_NONE : day_add_months(day_of(served), 12);
	return given;
}

/* Given out for a station that is no more, and let from 10 to 20 December: 14 days from
 * Monday the 21st are the first to come. Let for years she goes all the same. */
TEST(what_is_planned_anew_goes_between_her_bookings)
{
	CLOSES_SCENE struct port port;
	struct booking let = {.days = {day_of("2026-12-10"), day_of("2026-12-20")}};
	struct settled_hand_in *given = open_all_year(&port, "2026-01-31", "2026-12-04");
	const struct trips *trips = &port.lists[0].hand_in;
	given->station = "Old Loft";
	port.vessels[0].bookings = &let;
	port.vessels[0].booking_count = 1;
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_int_equal(trips->count, 1);
	assert_day(trips->items[0].hand_in, "2026-12-21");
	assert_day(trips->items[0].collect, "2027-01-04");
	assert_false(trips->items[0].settled);
	assert_int_equal(trips->items[0].year, 2026);
	let.days = (struct span){day_of("2026-11-25"), day_of("2030-01-01")};
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_day(trips->items[0].hand_in, "2026-12-02");
}

/* Let for years, no day serves either jacket of what was given out: both leave it, and go
 * all the same, on a hand-in that is new. */
TEST(what_is_let_for_years_leaves_its_day_and_goes_all_the_same)
{
	CLOSES_SCENE struct port port;
	const struct booking let = {.days = {day_of("2026-11-25"), day_of("2030-01-01")}};
	struct settled_hand_in *given = open_all_year(&port, "2026-01-31", "2026-12-04");
	const struct trips *trips = &port.lists[0].hand_in;
	(void)add(&port, 0, "lifejacket-auto", "K", "2026-01-31");
	port.tags[1] = "K";
	port.dues[1] = port.dues[0];
	given->tag_count = 2;
	port.vessels[0].bookings = &let;
	port.vessels[0].booking_count = 1;
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_int_equal(trips->count, 1);
	assert_day(trips->items[0].hand_in, "2026-12-02");
	assert_int_equal(trips->items[0].lines.count, 2);
	assert_false(trips->items[0].settled);
}

/* On a person's day all the same: at the loft for 10, elsewhere for 15. */
TEST(a_persons_day_of_a_boat_that_is_let_for_years_is_weighed_as_if_she_were_not)
{
	struct station_price prices[2];
	struct station stations[] = {LOFT, LOFT};
	CLOSES_SCENE struct port port;
	const struct booking let = {.days = {day_of("2026-11-25"), day_of("2030-01-01")}};
	for (size_t s = 0; s < 2; s++) {
		prices[s] = (struct station_price){.kind = "lifejacket-auto",
		    .task = TASK_SERVICE,
		    .minor = s == 0 ? 1000 : 1500};
		stations[s].prices = &prices[s];
		stations[s].price_count = 1;
	}
	stations[1].name = "Yard";
	struct settled_hand_in *given = open_all_year(&port, "2026-01-31", "2026-12-04");
	given->planned = given->day;
	port.vessels[0].bookings = &let;
	port.vessels[0].booking_count = 1;
	plan(&port, stations, 2, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_day(trip->hand_in, "2026-12-04");
	assert_int_equal(trip->misfit, DAY_BOOKED);
	assert_true(trip->choice.any);
	assert_int_equal(trip->choice.saves_minor, 500);
}

/* The first boat of the base, laid up until 31 December, hands in by 17 December; the
 * second, in use all year and let to 5 January, on the 6th. Each is the first of its
 * winter, which of a boat without one is the year. */
TEST(hand_ins_are_numbered_in_each_winter_by_itself)
{
	CLOSES_SCENE struct port port;
	const struct odd_winter short_one = {
	    2026, {day_of("2026-11-01"), day_of("2026-12-31")}};
	const struct booking let = {.days = {day_of("2026-11-25"), day_of("2027-01-05")}};
	port_open(&port);
	port.vessels[0].odd_winters = &short_one;
	port.vessels[0].odd_winter_count = 1;
	port.vessels[1].laid_up = false;
	port.vessels[1].bookings = &let;
	port.vessels[1].booking_count = 1;
	(void)add(&port, 0, "lifejacket-auto", "A", "2026-03-01");
	(void)add(&port, 1, "lifejacket-auto", "B", "2026-01-31");
	give(&port, "B", "2026-12-04")->station = "Old Loft";
	port.dues[0] = day_of("2027-01-31");
	plan(&port, &LOFT, 1, "2026-11-25");
	const struct trip *first = &port.lists[0].hand_in.items[0];
	const struct trip *second = &port.lists[1].hand_in.items[0];
	assert_day(first->hand_in, "2026-12-02");
	assert_int_equal(first->year, 2026);
	assert_int_equal(first->number, 1);
	assert_day(second->hand_in, "2027-01-06");
	assert_int_equal(second->year, 2027);
	assert_int_equal(second->number, 1);
}

/* Due on Thursday 31 December, ten on the 15th and dearer from then on; given out for
 * Friday 8 January, which is too late: it moves to the last day before that serves, as a
 * rota has it. */
TEST(a_day_after_it_lapses_serves_at_no_price)
{
	static const struct station_price BY_AGE[] = {
	    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 1000},
	    {.kind = "lifejacket-auto",
		.task = TASK_SERVICE,
		.minor = 3000,
		.from_years = 10}};
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.prices = BY_AGE;
	loft.price_count = 2;
	(void)open_all_year(&port, "2025-12-31", "2027-01-08");
	port.scene.items[0].made = stamp_of("2016-12-15");
	plan(&port, &loft, 1, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_day(trip->hand_in, "2026-12-31");
	assert_int_equal(trip->moved_why, DAY_TOO_LATE);
	assert_int_equal(trip->lines.items[0].price_minor, 3000);
	/* no otherwise where its age is not known */
	port.scene.items[0].made = stamp_of("");
	plan(&port, &loft, 1, "2026-11-25");
	trip = &port.lists[0].hand_in.items[0];
	assert_day(trip->hand_in, "2026-12-31");
}

/* Due on Thursday 31 December, and ten, from when on it is dearer, only on 10 January;
 * given out for that day, on which nothing is taken in: it moves ahead, not to a day
 * behind the one on which it lapses. */
TEST(a_price_that_rises_after_it_lapses_moves_nothing_behind_that_day)
{
	static const struct station_price BY_AGE[] = {
	    {.kind = "lifejacket-auto", .task = TASK_SERVICE, .minor = 1000},
	    {.kind = "lifejacket-auto",
		.task = TASK_SERVICE,
		.minor = 3000,
		.from_years = 10}};
	const struct span shut = {day_of("2026-12-31"), day_of("2027-01-01")};
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.prices = BY_AGE;
	loft.price_count = 2;
	loft.shut = &shut;
	loft.shut_count = 1;
	(void)open_all_year(&port, "2025-12-31", "2026-12-31");
	port.scene.items[0].made = stamp_of("2017-01-10");
	plan(&port, &loft, 1, "2026-12-28");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_day(trip->hand_in, "2026-12-30");
	assert_int_equal(trip->moved_why, DAY_CLOSED);
}

/* Nothing says when it is due: it stays on the day it was given out for. */
TEST(what_has_no_due_day_stays_where_it_was_given_out)
{
	CLOSES_SCENE struct port port;
	(void)open_all_year(&port, NULL, "2026-12-04");
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 1);
	assert_day(port.lists[0].hand_in.items[0].hand_in, "2026-12-04");
	assert_true(port.lists[0].hand_in.items[0].settled);
	/* that it was given out for another due day says nothing of it */
	port.dues[0] = day_of("2026-12-31");
	plan(&port, &LOFT, 1, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 0);
}

/* Let on 1 and 2 December and due on the 31st; given out for Friday the 4th at the loft,
 * for 10. The yard asks 15, on any day that the loft has but those from which it could
 * not be fetched before; the barn says that it takes nothing in until it is due. */
TEST(a_settled_hand_in_of_a_boat_that_is_let_is_weighed_between_her_bookings)
{
	struct station_price prices[3];
	struct station stations[] = {LOFT, LOFT, LOFT};
	CLOSES_SCENE struct port port;
	const struct booking let = {.days = {day_of("2026-12-01"), day_of("2026-12-02")}};
	for (size_t s = 0; s < 3; s++) {
		prices[s] = (struct station_price){.kind = "lifejacket-auto",
		    .task = TASK_SERVICE,
		    .minor = s == 0 ? 1000 : 1500};
		stations[s].prices = &prices[s];
		stations[s].price_count = 1;
	}
	stations[1].name = "Yard";
	stations[2].name = "Barn";
	stations[2].not_before = day_of("2027-01-15");
	(void)open_all_year(&port, "2025-12-31", "2026-12-04");
	port.vessels[0].bookings = &let;
	port.vessels[0].booking_count = 1;
	plan(&port, stations, 3, "2026-11-25");
	const struct trip *trip = &port.lists[0].hand_in.items[0];
	assert_day(trip->hand_in, "2026-12-04");
	assert_true(trip->choice.any);
	assert_int_equal(trip->choice.saves_minor, 500);
}

/* Served every two years, due on 1 November 2028; from ten years, on 15 December 2026, it
 * costs 20, from eleven 30: only the next is told. */
TEST(of_several_ages_ahead_the_next_is_told)
{
	static const struct station_price BY_AGE[] = {
	    {.kind = "danbuoy-inflatable", .task = TASK_SERVICE, .minor = 1000},
	    {.kind = "danbuoy-inflatable",
		.task = TASK_SERVICE,
		.minor = 2000,
		.from_years = 10},
	    {.kind = "danbuoy-inflatable",
		.task = TASK_SERVICE,
		.minor = 3000,
		.from_years = 11}};
	struct station loft = LOFT;
	CLOSES_SCENE struct port port;
	loft.prices = BY_AGE;
	loft.price_count = 3;
	(void)open_all_year(&port, "2026-11-20", "2026-12-04");
	struct item *danbuoy = add(&port, 0, "danbuoy-inflatable", "D", "2026-11-01");
	danbuoy->made = stamp_of("2016-12-15");
	port.tags[0] = "D";
	port.dues[0] = day_of("2028-11-01");
	plan(&port, &loft, 1, "2026-11-25");
	assert_int_equal(port.lists[0].hand_in.count, 1);
	const struct shore_line *line = &port.lists[0].hand_in.items[0].lines.items[0];
	assert_int_equal(line->price_minor, 1000);
	assert_int_equal(line->later_years, 10);
	assert_day(line->later_from, "2026-12-15");
	assert_int_equal(line->later_minor, 2000);
}

RUN_TESTS(NULL, NULL)
