/* The years ahead where a station asks more for what is older: by examples reckoned by hand, and
 * beside every possible course of a raft with its cylinder. */
#include "becket_test.h"
#include "draw.h"
#include "outlook_scene.h"

#include <string.h>

static const char RAFT[] = "liferaft-canister";

/* A raft made on a day and serviced on another; -1 for no price of a new one. */
static struct item *
raft_of(struct scene *scene, const char *made, const char *served, int64_t new_minor)
{
	struct item *raft = scene_item(scene, RAFT);
	raft->made = made == NULL ? (struct stamp){0} : stamp_of(made);
	raft->price_minor = new_minor;
	scene_record(scene, raft, TASK_SERVICE, served, NULL);
	return raft;
}

TEST(a_raft_is_renewed_before_its_service_grows_dear)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	raft_of(&scene, "2017-03-01", "2025-03-21", 140000);
	/* Ten years old on 1 March 2027, so kept it is serviced on 21 March of 2027 to 2030,
	 * ten to thirteen years old. At 400.00 whatever its age that is 4 x (400 + 50) = 1800;
	 * renewed, a new one is good for three years and then serviced or not needed:
	 * 1400 + 450 = 1850 at least. */
	open_station(&asked, 40000, 5000);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.minor, 180000);
	assert_int_equal(asked.plan.step_count, 0);
	/* From twelve years 900.00: kept, 2 x 450 + 2 x 950 = 2800. Renewed in 2027, and
	 * serviced in 2030 when it is three: 1400 + 450 = 1850. Serviced in 2027 and renewed
	 * in 2028, it is good for the rest: 450 + 1400 = 1850 too, and the later renewal goes
	 * before. Renewed in 2029: 2 x 450 + 1400 = 2300. */
	open_station(&asked, 40000, 5000);
	list_price(&asked, RAFT, TASK_SERVICE, 12, 90000);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.minor, 185000);
	assert_int_equal(asked.plan.bound, 185000);
	assert_true(asked.plan.proven);
	assert_int_equal(asked.plan.when_due_minor, 280000);
	assert_int_equal(asked.plan.line_count, 2);
	assert_int_equal(asked.plan.lines[0].task, TASK_SERVICE);
	assert_int_equal(asked.plan.lines[0].minor, 40000);
	assert_int_equal(asked.plan.lines[0].from_years, 0);
	assert_int_equal(asked.plan.lines[1].task, TASK_RENEW);
	assert_int_equal(asked.plan.lines[1].winter, 1);
	/* and both prices are told */
	assert_int_equal(asked.plan.step_count, 2);
	assert_int_equal(asked.plan.steps[0].from_years, 0);
	assert_int_equal(asked.plan.steps[0].minor, 40000);
	assert_int_equal(asked.plan.steps[1].from_years, 12);
	assert_int_equal(asked.plan.steps[1].minor, 90000);
}

TEST(the_price_steps_up_on_the_birthday)
{
	/* the work is done on 21 March 2027, and there is one winter */
	static const struct {
		const char *made;
		int64_t minor;
		int from_years;
	} ROWS[] = {
	    {"2017-03-22", 45000, 0},  /* ten on the day after */
	    {"2017-03-21", 67000, 10}, /* ten on that day */
	    {"2017-03", 67000, 10},    /* a month may mean its first day */
	    {"2017", 67000, 10},
	    {"2018", 45000, 0},
	    {"2012-03-22", 67000, 10},
	    {"2012-03-21", 95000, 15},
	    {"1999", 95000, 15},
	};

	for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		scene_open(&scene, RAFT_RULES);
		open_station(&asked, 40000, 5000);
		list_price(&asked, RAFT, TASK_SERVICE, 10, 62000);
		list_price(&asked, RAFT, TASK_SERVICE, 15, 90000);
		raft_of(&scene, ROWS[i].made, "2023-03-21", -1);
		ask_plan(&scene, &asked, "2026-11-25", 1);
		assert_int_equal(asked.plan.minor, ROWS[i].minor);
		assert_int_equal(asked.plan.lines[0].from_years, ROWS[i].from_years);
		/* that it steps up is told from that very day on */
		assert_int_equal(asked.plan.step_count > 0, ROWS[i].from_years > 0);
		assert_int_equal(asked.plan.ageless_count, 0);
	}
}

TEST(without_a_known_age_the_dearest_price_counts_and_that_is_told)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	list_price(&asked, RAFT, TASK_SERVICE, 10, 62000);
	struct item *raft = raft_of(&scene, NULL, "2023-03-21", -1);
	ask_plan(&scene, &asked, "2026-11-25", 1);
	assert_int_equal(asked.plan.minor, 67000);
	assert_int_equal(asked.plan.ageless_count, 1);
	assert_int_equal(asked.plan.ageless[0], 0);
	/* packed stands for made, as it does in the rules */
	raft->packed = stamp_of("2020-05-01");
	ask_plan(&scene, &asked, "2026-11-25", 1);
	assert_int_equal(asked.plan.minor, 45000);
	assert_int_equal(asked.plan.ageless_count, 0);
}

#define CYLINDER_RULES                                                                   \
	"  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"           \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 12 }\n" SOURCE                                  \
	"  - id: bottle\n    kinds: [gas-cylinder]\n    task: test\n"                    \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 36 }\n" SOURCE

TEST(a_part_is_worked_on_early_where_it_costs_more_later)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, CYLINDER_RULES);
	struct item *raft = raft_of(&scene, "2022-03-01", "2026-03-21", -1);
	struct item *cylinder = scene_item(&scene, "gas-cylinder");
	cylinder->parent = (size_t)(raft - scene.items);
	cylinder->made = stamp_of("2018-03-01");
	scene_record(&scene, cylinder, TASK_TEST, "2025-03-10", NULL);
	/* The raft goes on 21 March of 2027 to 2029: 3 x (100 + 50) = 450. The cylinder is
	 * good until 10 March 2028: tested in 2027 at nine years for 20.00, or in 2028 at ten
	 * for 80.00; either lasts beyond 2029. */
	open_station(&asked, 10000, 5000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 0, 2000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 10, 8000);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.minor, 47000);
	assert_true(asked.plan.proven);
	assert_int_equal(asked.plan.when_due_minor, 53000);
	/* where it costs less later, it waits: 20.00 from ten years, 80.00 before */
	open_station(&asked, 10000, 5000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 0, 8000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 10, 2000);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.minor, 47000);
	assert_int_equal(asked.plan.when_due_minor, 47000);
}

TEST(a_task_of_the_whole_is_done_early_where_it_costs_more_later)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    "  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 12 }\n" SOURCE
	    "  - id: pressure\n    kinds: [liferaft-canister]\n    task: test\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last], months: 36 }\n" SOURCE);
	struct item *raft = raft_of(&scene, "2018-03-01", "2026-03-21", -1);
	scene_record(&scene, raft, TASK_TEST, "2025-03-10", NULL);
	/* as above, the test being the raft's own */
	open_station(&asked, 10000, 5000);
	list_price(&asked, RAFT, TASK_TEST, 0, 2000);
	list_price(&asked, RAFT, TASK_TEST, 10, 8000);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.minor, 47000);
	assert_true(asked.plan.proven);
}

TEST(a_supposed_price_holds_from_its_age_and_the_stations_own_below)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	list_price(&asked, RAFT, TASK_SERVICE, 11, 50000);
	raft_of(&scene, "2017-03-01", "2025-03-21", -1);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	/* at ten 400.00, then 500.00: 400 + 3 x 500 + 4 x 50 */
	assert_int_equal(asked.plan.minor, 210000);
	/* if it were 700.00 from twelve on, and 300.00 from thirteen: 400 + 500 + 700 + 300 */
	const struct outlook_price prices[] = {
	    {RAFT, TASK_SERVICE, 30000, 13},
	    {RAFT, TASK_SERVICE, 70000, 12},
	    {"lifejacket-auto", TASK_SERVICE, 1, 0},
	};
	struct fault fault = {0};
	asked.ask.prices = prices;
	asked.ask.price_count = 3;
	assert_true(outlook_make(&asked.ask, &scene.arena, &asked.plan, &fault));
	assert_int_equal(asked.plan.minor, 210000);
	assert_int_equal(asked.plan.lines[2].minor, 70000);
	assert_int_equal(asked.plan.lines[2].from_years, 12);
	assert_int_equal(asked.plan.lines[3].minor, 30000);
	assert_int_equal(asked.plan.step_count, 4);
}

/* The price of the first year alone is another: both are told, though the raft is ten
 * years old. */
TEST(a_step_after_the_first_year_is_told)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	raft_of(&scene, "2017-03-01", "2025-03-21", -1);
	open_station(&asked, 10000, 5000);
	list_price(&asked, RAFT, TASK_SERVICE, 1, 20000);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.step_count, 2);
	assert_int_equal(asked.plan.steps[0].from_years, 0);
	assert_int_equal(asked.plan.steps[0].minor, 10000);
	assert_int_equal(asked.plan.steps[1].from_years, 1);
	assert_int_equal(asked.plan.steps[1].minor, 20000);
}

/* Two rafts serviced every year: in each of three winters twice 100.00 and one trip of
 * 50.00, which is 3 x 250 = 750.00 as it is due, too. */
TEST(one_trip_takes_all_that_falls_due_in_a_winter)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	raft_of(&scene, "2017-03-01", "2025-03-21", -1);
	raft_of(&scene, "2017-03-01", "2025-03-21", -1);
	open_station(&asked, 10000, 5000);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.minor, 75000);
	assert_int_equal(asked.plan.when_due_minor, 75000);
}

/* --- beside every possible course --- */

enum { WINTERS = 4, ACTS = 4, COURSES = ACTS * ACTS * ACTS * ACTS };

/* Whole years from a day to another, counted year by year. */
static int
slow_age(day_t born, day_t on)
{
	int age = 0;
	while (day_add_months(born, 12 * (age + 1)) <= on) {
		age++;
	}
	return age;
}

/* What the station asks, found by going through the ages. */
static int64_t
slow_price(const struct asked *asked, const char *kind, enum task task, int age)
{
	int64_t minor = 0;
	for (int years = 0; years <= age; years++) {
		for (size_t i = 0; i < asked->station.price_count; i++) {
			const struct station_price *price = &asked->prices[i];
			if (strcmp(price->kind, kind) == 0 && !price->every_task &&
			    price->task == task && price->from_years == years) {
				minor = price->minor;
			}
		}
	}
	return minor;
}

/* What a course costs: in each winter nothing, a service, a test of the cylinder, or both. -1
 * when something lapses in a season: what is done on 21 March lasts so many months from it. */
static int64_t
course_cost(const struct asked *asked, const struct item *raft,
    const struct item *cylinder, int course)
{
	day_t served = stamp_first(raft->records[0].on);
	day_t tested = stamp_first(cylinder->records[0].on);
	int64_t cost = 0;
	for (int winter = 0; winter < WINTERS; winter++, course /= ACTS) {
		bool serves = course % ACTS == 1 || course % ACTS == 3;
		bool tests = course % ACTS >= 2;
		day_t day = day_from_civil(2027 + winter, 3, 21);
		if (serves) {
			cost += slow_price(asked, RAFT, TASK_SERVICE,
			    slow_age(stamp_first(raft->made), day));
			served = day;
		}
		if (tests) {
			cost += slow_price(asked, "gas-cylinder", TASK_TEST,
			    slow_age(stamp_first(cylinder->made), day));
			tested = day;
		}
		cost += serves || tests ? asked->station.trip_minor : 0;
		day_t last = day_from_civil(2027 + winter, 10, 31);
		if (day_add_months(served, 24) < last ||
		    day_add_months(tested, 36) < last) {
			return -1;
		}
	}
	return cost;
}

#define BOTH_RULES                                                                       \
	"  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"           \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 24 }\n" SOURCE                                  \
	"  - id: bottle\n    kinds: [gas-cylinder]\n    task: test\n"                    \
	"    doer: station\n    grade: practice\n    clocks:\n"                          \
	"      - { from: [last], months: 36 }\n" SOURCE

/* Prices for a task: from new, and from up to two ages on, sometimes less than before. */
static void
draw_prices(unsigned *seed, struct asked *asked, const char *kind, enum task task)
{
	int age = 0;
	int64_t minor = 500 * (1 + (int64_t)draw(seed, 20));
	for (unsigned step = 0; step <= draw(seed, 3); step++) {
		list_price(asked, kind, task, age, minor);
		age += 1 + (int)draw(seed, 4);
		minor += 500 * (int64_t)draw(seed, 30) - 2000;
		minor = minor < 0 ? 0 : minor;
	}
}

static struct item *
draw_item(unsigned *seed, struct scene *scene, const char *kind, enum task task)
{
	struct item *item = scene_item(scene, kind);
	struct record *records = scene->records[item - scene->items];
	item->made =
	    stamp_of_day(day_from_civil(2019, 1, 1) + (day_t)draw(seed, 5 * 365));
	records[item->record_count++] = (struct record){.task = task,
	    .on = stamp_of_day(day_from_civil(2025, 1, 1) + (day_t)draw(seed, 660)),
	    .station = "",
	    .certificate = "",
	    .price_minor = -1};
	return item;
}

/* A raft with its cylinder, and a station with prices by age. */
static void
draw_boat(unsigned *seed, struct scene *scene, struct asked *asked)
{
	scene_open(scene, BOTH_RULES);
	open_station(asked, 0, (int64_t)draw(seed, 4) * 2500);
	asked->station.price_count = 0;
	draw_prices(seed, asked, RAFT, TASK_SERVICE);
	draw_prices(seed, asked, "gas-cylinder", TASK_TEST);
	(void)draw_item(seed, scene, RAFT, TASK_SERVICE);
	draw_item(seed, scene, "gas-cylinder", TASK_TEST)->parent = 0;
}

TEST(random_rafts_with_a_cylinder_cost_what_the_best_of_all_courses_costs)
{
	unsigned seed = 20261125;
	size_t stepped = 0;
	for (int round = 0; round < 300; round++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		int64_t best = -1;
		draw_boat(&seed, &scene, &asked);
		ask_plan(&scene, &asked, "2026-11-25", WINTERS);
		for (int course = 0; course < COURSES; course++) {
			int64_t cost =
			    course_cost(&asked, &scene.items[0], &scene.items[1], course);
			best = cost >= 0 && (best < 0 || cost < best) ? cost : best;
		}
		assert_true(asked.plan.proven);
		assert_int_equal(asked.plan.gap_count, 0);
		assert_int_equal(asked.plan.minor, best);
		stepped += asked.plan.step_count > 0 ? 1 : 0;
	}
	assert_true(stepped > 100);
}

TEST(prices_from_ages_that_nothing_comes_to_change_nothing)
{
	unsigned seed = 2027;
	for (int round = 0; round < 100; round++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		draw_boat(&seed, &scene, &asked);
		ask_plan(&scene, &asked, "2026-11-25", WINTERS);
		struct outlook before = asked.plan;
		/* made in 2019 at the earliest, and the last work is in March 2030 */
		list_price(&asked, RAFT, TASK_SERVICE, 20, 1);
		list_price(&asked, "gas-cylinder", TASK_TEST, 14, 99900);
		ask_plan(&scene, &asked, "2026-11-25", WINTERS);
		assert_int_equal(asked.plan.minor, before.minor);
		assert_int_equal(asked.plan.when_due_minor, before.when_due_minor);
		assert_int_equal(asked.plan.line_count, before.line_count);
		for (size_t i = 0; i < before.line_count; i++) {
			const struct outlook_line *line = &asked.plan.lines[i];
			assert_int_equal(line->item, before.lines[i].item);
			assert_int_equal(line->task, before.lines[i].task);
			assert_int_equal(line->winter, before.lines[i].winter);
			assert_int_equal(line->minor, before.lines[i].minor);
		}
	}
}

RUN_TESTS(NULL, NULL)
