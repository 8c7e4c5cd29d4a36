/* What the years ahead find once for things that are alike: two that differ in one point
 * cost together, where a trip costs nothing, what each costs by itself. Beside that, by
 * hand where it matters most. */
#include "becket_test.h"
#include "outlook_scene.h"

enum { WINTERS = 4 };

static const char RULES[] =
    "  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"
    "    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last, packed, made], months: 36 }\n" SOURCE
    "  - id: aged\n    kinds: [liferaft-canister]\n    when: {age-from: 120}\n"
    "    task: service\n    doer: station\n    grade: maker\n    clocks:\n"
    "      - { from: [last, packed, made], months: 12 }\n" SOURCE
    "  - id: rated\n    kinds: [liferaft-canister]\n    when: {ratings: [offshore]}\n"
    "    task: service\n    doer: station\n    grade: maker\n    clocks:\n"
    "      - { from: [last, packed, made], months: 12 }\n" SOURCE
    "  - id: aged-test\n    kinds: [liferaft-canister]\n"
    "    when: {age-from: 120, made-until: 2018-12-31}\n"
    "    task: test\n    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [last, made], months: 12 }\n" SOURCE
    "  - id: light\n    kinds: [lifebuoy-light]\n    task: renew\n    doer: owner\n"
    "    grade: practice\n    clocks:\n      - { from: [marked] }\n" SOURCE
    "  - id: aged-light\n    kinds: [lifebuoy-light]\n"
    "    when: {made-until: 2016-12-31}\n"
    "    task: renew\n    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [made], months: 120 }\n" SOURCE
    "  - id: new-bottle\n    kinds: [gas-cylinder]\n    when: {made-from: 2027-01-01}\n"
    "    task: renew\n    doer: station\n    grade: practice\n    clocks:\n"
    "      - { from: [made], months: 240 }\n" SOURCE
    "  - id: bottle\n    kinds: [gas-cylinder]\n    task: test\n    doer: station\n"
    "    grade: practice\n    clocks:\n      - { from: [last, made], months: 24 }\n" SOURCE;

/* One point in which a raft with her cylinder and light differs from the other. */
enum point {
	ALIKE,
	MAKE, /* another station is approved for it */
	MAKE_OF_BOTH,
	RATING,
	CAPACITY,
	NO_INTERVAL, /* of the maker's; else three years for a service */
	INTERVAL_YEAR,
	INTERVAL_FIRST,
	INTERVAL_SAID,
	INTERVAL_MADE,
	INTERVAL_TEST,
	YOUNG, /* no test is due of a young one */
	PRICE_OF_NEW,
	PRICE_PAID,
	QUANTITY,
	PRINTED,
	LIGHT_OLD, /* as long a life printed on it, but a station renews it */
	LIGHT_OF_CYLINDER,
	NO_LIGHT,
	POINTS
};

static const struct interval YEARLY = {
    TASK_SERVICE, 12, 0, ANCHOR_PACKED, false, "manual", 0};

/* The maker's interval of a raft. */
static const struct interval *
interval_of(enum point point)
{
	static const struct interval INTERVALS[POINTS] = {
	    [ALIKE] = {TASK_SERVICE, 36, 0, ANCHOR_PACKED, false, "manual", 0},
	    [INTERVAL_FIRST] = {TASK_SERVICE, 36, 48, ANCHOR_PACKED, false, "manual", 0},
	    [INTERVAL_SAID] = {TASK_SERVICE, 36, 0, ANCHOR_PACKED, true, "manual", 0},
	    [INTERVAL_MADE] = {TASK_SERVICE, 36, 0, ANCHOR_MADE, false, "manual", 0},
	    [INTERVAL_TEST] = {TASK_TEST, 36, 0, ANCHOR_PACKED, false, "manual", 0},
	};
	return point == INTERVAL_YEAR        ? &YEARLY
	       : INTERVALS[point].months > 0 ? &INTERVALS[point]
					     : &INTERVALS[ALIKE];
}

static void
add_parts(struct scene *scene, size_t raft, enum point point)
{
	struct item *cylinder = scene_item(scene, "gas-cylinder");
	size_t at = (size_t)(cylinder - scene->items);
	cylinder->parent = raft;
	cylinder->made = stamp_of("2021-03-01");
	scene_record(scene, cylinder, TASK_TEST, "2025-03-10", NULL);
	if (point == NO_LIGHT) {
		return;
	}
	struct item *light = scene_item(scene, "lifebuoy-light");
	light->parent = point == LIGHT_OF_CYLINDER ? at : raft;
	light->made = stamp_of(point == LIGHT_OLD ? "2015-06-01" : "2025-06-01");
	light->expires = stamp_of(point == PRINTED     ? "2026-12"
				  : point == LIGHT_OLD ? "2017-12-30"
						       : "2027-12");
	light->price_minor = 1100;
}

/* A raft that ten years make dear, so that it is bought new. */
static void
add_raft(struct scene *scene, enum point point)
{
	struct item *raft = scene_item(scene, "liferaft-canister");
	size_t at = (size_t)(raft - scene->items);
	raft->make = point == MAKE ? "Tarn" : point == MAKE_OF_BOTH ? "Kell" : "Orrin";
	raft->rating = point == RATING ? "offshore" : "coastal";
	raft->capacity = point == CAPACITY ? 6 : 4;
	raft->made = stamp_of(point == YOUNG ? "2022-03-01" : "2017-03-01");
	raft->intervals = interval_of(point);
	raft->interval_count = point == NO_INTERVAL ? 0 : 1;
	raft->quantity = point == QUANTITY ? 2 : 1;
	raft->price_minor = point == PRICE_OF_NEW ? 70000 : 60000;
	scene_record(scene, raft, TASK_SERVICE, "2025-03-21", NULL);
	scene_record(scene, raft, TASK_TEST, "2025-03-21", NULL);
	struct record *records = scene->records[at];
	records[1].station = "Loft";
	records[1].price_minor = point == PRICE_PAID ? 9000 : 2000;
	add_parts(scene, at, point);
}

/* What two plans agree on. */
struct told {
	int64_t minor;
	int64_t when_due;
	size_t lines;
};

/* The plan of one raft, or of two; POINTS for none. */
static struct told
told_of(enum point one, enum point other)
{
	static const struct station_make FIRST[] = {
	    {"liferaft-canister", "Orrin"}, {"liferaft-canister", "Kell"}};
	static const struct station_make SECOND[] = {
	    {"liferaft-canister", "Tarn"}, {"liferaft-canister", "Kell"}};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	struct fault fault = {0};
	scene_open(&scene, RULES);
	open_station(&asked, 0, 0);
	asked.station.price_count = 0;
	list_price(&asked, "liferaft-canister", TASK_SERVICE, 0, 40000);
	list_price(&asked, "gas-cylinder", TASK_TEST, 0, 3000);
	add_raft(&scene, one);
	if (other != POINTS) {
		add_raft(&scene, other);
	}
	ask_plan(&scene, &asked, "2026-11-25", WINTERS);
	struct station stations[] = {asked.station, asked.station};
	struct station_price dearer[] = {asked.prices[0], asked.prices[1]};
	dearer[0].minor = 43000;
	stations[0].makes = FIRST;
	stations[1].makes = SECOND;
	stations[0].make_count = stations[1].make_count = 2;
	stations[1].name = "Yard";
	stations[1].prices = dearer;
	asked.ask.stations = stations;
	asked.ask.station_count = 2;
	assert_true(outlook_make(&asked.ask, &scene.arena, &asked.plan, &fault));
	assert_true(asked.plan.proven);
	const struct told told = {
	    asked.plan.minor, asked.plan.when_due_minor, asked.plan.line_count};
	return told;
}

TEST(two_things_cost_together_what_each_costs_by_itself)
{
	const struct told alike = told_of(ALIKE, POINTS);
	for (enum point point = ALIKE; point < POINTS; point++) {
		const struct told other = told_of(point, POINTS);
		for (int turned = 0; turned < 2; turned++) {
			const struct told both =
			    turned ? told_of(point, ALIKE) : told_of(ALIKE, point);
			if (both.minor != alike.minor + other.minor) {
				fail_msg("point %d, turned %d: %lld, apart %lld and %lld",
				    point, turned, (long long)both.minor,
				    (long long)alike.minor, (long long)other.minor);
			}
			assert_int_equal(both.when_due, alike.when_due + other.when_due);
			assert_int_equal(both.lines, alike.lines + other.lines);
		}
	}
}

static struct item *
old_raft(struct scene *scene)
{
	struct item *raft = scene_item(scene, "liferaft-canister");
	raft->made = stamp_of("2017-03-01");
	raft->price_minor = 60000;
	scene_record(scene, raft, TASK_SERVICE, "2025-03-21", NULL);
	return raft;
}

/* Ten years old in March 2027, so that either is serviced in each of the four winters: 4
 * x 400 = 1600. One bought new for 600 is good for three years and serviced once: 1000;
 * but where the maker wants a service every year, of the new one too, that would be 600 +
 * 3 x 400 = 1800. */
TEST(a_new_one_has_the_makers_interval_of_the_old_and_no_other_has)
{
	static const int64_t MINOR[] = {100000, 160000};
	for (size_t first = 0; first < 2; first++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		scene_open(&scene, RAFT_RULES);
		open_station(&asked, 40000, 0);
		for (size_t i = 0; i < 2; i++) {
			struct item *raft = old_raft(&scene);
			raft->intervals = &YEARLY;
			raft->interval_count = i == first ? 1 : 0;
		}
		ask_plan(&scene, &asked, "2026-11-25", WINTERS);
		assert_int_equal(asked.plan.minor, MINOR[0] + MINOR[1]);
		assert_int_equal(count_lines(&asked.plan, TASK_SERVICE), 4 + 1);
		assert_int_equal(count_lines(&asked.plan, TASK_RENEW), 1);
	}
}

/* The boat goes from Port Marrin to Sandhavn in June 2028. The loft serves Port Marrin
 * for 100.00, and wherever it lies what went there before; the yard serves everywhere,
 * for 300.00. A raft is ten years old in March 2027, so that it is bought new for 600.00,
 * and the new one is serviced in the three winters after. One that went to the loft: 600
 * + 3 x 100 = 900; the other 600 + 100 + 2 x 300 = 1300. */
TEST(a_station_that_is_out_of_reach_of_one_is_not_gone_to_for_it)
{
	static const char SERVICED[] =
	    "  - id: service\n    kinds: [liferaft-canister]\n    task: service\n"
	    "    doer: station\n    grade: practice\n    clocks:\n"
	    "      - { from: [last, made], months: 12 }\n" SOURCE
	    "  - id: life\n    kinds: [liferaft-canister]\n    task: renew\n"
	    "    doer: owner\n    grade: practice\n    clocks:\n"
	    "      - { from: [made], months: 120 }\n" SOURCE;
	for (size_t own = 0; own < 2; own++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		struct fault fault = {0};
		scene_open(&scene, SERVICED);
		open_station(&asked, 10000, 0);
		for (size_t i = 0; i < 2; i++) {
			(void)old_raft(&scene);
			scene.records[i][0].station = i == own ? "Loft" : "";
		}
		scene.periods[0].says = SAYS_ANYTHING;
		scene.periods[0].base = "Port Marrin";
		scene.periods[0].laid_up = true;
		scene.periods[0].lay_up = scene.vessel.lay_up;
		scene.periods[1] = scene.periods[0];
		scene.periods[1].says = SAYS_BASE;
		scene.periods[1].base = "Sandhavn";
		scene.periods[1].from = day_of("2028-06-01");
		scene.vessel.period_count = 2;
		scene.vessel.base = "Port Marrin";
		ask_plan(&scene, &asked, "2026-11-25", WINTERS);
		struct station stations[] = {asked.station, asked.station};
		struct station_price dear = asked.prices[0];
		dear.minor = 30000;
		stations[0].base = "Port Marrin";
		stations[1].name = "Yard";
		stations[1].prices = &dear;
		stations[1].price_count = 1;
		asked.ask.stations = stations;
		asked.ask.station_count = 2;
		assert_true(outlook_make(&asked.ask, &scene.arena, &asked.plan, &fault));
		assert_int_equal(asked.plan.minor, 220000);
	}
}

/* Every two years from the last renewal, which was on 10 March 2025: bought new by 31 March 2027,
 * 2029 and 2031, whether or not the rule counts from the fitting, too. */
TEST(what_is_bought_new_has_its_renewal_on_record)
{
	static const char *const FROM[] = {"last", "last, fitted"};
	for (size_t i = 0; i < 2; i++) {
		char rules[512];
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		(void)snprintf(rules, sizeof rules,
		    "  - id: cells\n    kinds: [epirb]\n    task: renew\n    doer: owner\n"
		    "    grade: maker\n    clocks:\n      - { from: [%s], months: 24 }\n" SOURCE,
		    FROM[i]);
		scene_open(&scene, rules);
		open_station(&asked, 40000, 5000);
		struct item *beacon = scene_item(&scene, "epirb");
		beacon->price_minor = 10000;
		scene_record(&scene, beacon, TASK_RENEW, "2025-03-10", NULL);
		ask_plan(&scene, &asked, "2026-11-25", 5);
		assert_int_equal(asked.plan.assumed, 0);
		assert_int_equal(asked.plan.minor, 30000);
		assert_int_equal(asked.plan.line_count, 3);
		for (size_t line = 0; line < 3; line++) {
			assert_int_equal(asked.plan.lines[line].winter, 2 * line);
		}
	}
}

RUN_TESTS(NULL, NULL)
