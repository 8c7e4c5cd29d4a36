/* The years ahead, by examples reckoned by hand, beside every possible course of a few items,
 * and with every season day of a plan asked of the due engine. */
#include "becket_test.h"
#include "draw.h"
#include "outlook_scene.h"

#include <string.h>

static struct item *
old_raft(struct scene *scene, int64_t new_minor)
{
	struct item *raft = scene_item(scene, "liferaft-canister");
	raft->made = stamp_of("2017-03-01");
	raft->price_minor = new_minor;
	scene_record(scene, raft, TASK_SERVICE, "2025-03-21", NULL);
	return raft;
}

TEST(an_old_raft_is_renewed_where_that_is_cheaper)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	old_raft(&scene, 150000);
	ask_plan(&scene, &asked, "2026-11-25", 8);
	/* Ten years old on 1 March 2027, so kept it is serviced in each of the eight winters
	 * 2026 to 2033: 8 x (400 + 50) = 3600. Renewed on 21 March 2027 for 1500 it is in date
	 * until 21 March 2030, serviced on that day until 21 March 2033, and once more on that
	 * one: 1500 + 2 x (400 + 50) = 2400. Serviced once more before that: 450 + 1500, then
	 * services in the winters 2030 and 2033: 450 + 1500 + 900 = 2850. */
	assert_int_equal(asked.plan.minor, 240000);
	assert_int_equal(asked.plan.bound, 240000);
	assert_true(asked.plan.proven);
	assert_int_equal(asked.plan.when_due_minor, 360000);
	assert_int_equal(asked.plan.line_count, 3);
	assert_int_equal(asked.plan.lines[0].task, TASK_RENEW);
	assert_int_equal(asked.plan.lines[0].winter, 0);
	assert_int_equal(asked.plan.lines[0].by, day_of("2027-03-21"));
	assert_int_equal(asked.plan.lines[1].winter, 3);
	assert_int_equal(asked.plan.lines[2].winter, 6);
	assert_int_equal(asked.plan.trip_count, 2);
	assert_int_equal(asked.plan.gap_count, 0);
}

TEST(an_old_raft_is_kept_where_a_new_one_is_dear)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	old_raft(&scene, 500000);
	ask_plan(&scene, &asked, "2026-11-25", 8);
	/* 8 x (400 + 50) = 3600, where a new one alone is 5000 */
	assert_int_equal(asked.plan.minor, 360000);
	assert_int_equal(count_lines(&asked.plan, TASK_SERVICE), 8);
	assert_int_equal(count_lines(&asked.plan, TASK_RENEW), 0);
}

TEST(without_a_price_for_a_new_one_it_is_not_renewed_before_it_must)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	old_raft(&scene, -1);
	ask_plan(&scene, &asked, "2026-11-25", 8);
	assert_int_equal(asked.plan.minor, 360000);
	assert_int_equal(asked.plan.unpriced, 0);
}

#define CELLS                                                                            \
	"  - id: cells\n    kinds: [lifebuoy-light]\n    task: renew\n"                  \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [last], months: 36 }\n    refit: yes\n" SOURCE

#define LIFE                                                                             \
	"  - id: life\n    kinds: [lifebuoy-light]\n    task: renew\n"                   \
	"    doer: owner\n    grade: practice\n    clocks:\n"                            \
	"      - { from: [made], months: 120 }\n" SOURCE

/* Due by 28 February 2028: once in the three winters. A rule that renews what is in it buys
 * no new one, so that the price of one says nothing of it; where another rule does buy a new
 * one it may be that. */
TEST(new_cells_cost_no_new_light)
{
	static const struct {
		const char *rules;
		int64_t minor;
		int64_t of_line;
	} CASES[] = {{CELLS, 0, -1}, {CELLS LIFE, 9000, 9000}};

	for (size_t i = 0; i < 2; i++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		scene_open(&scene, CASES[i].rules);
		open_station(&asked, 40000, 5000);
		struct item *light = scene_item(&scene, "lifebuoy-light");
		light->made = stamp_of("2020-06-01");
		light->price_minor = 9000;
		scene_record(&scene, light, TASK_RENEW, "2025-03-01", NULL);
		ask_plan(&scene, &asked, "2026-11-25", 3);
		assert_int_equal(asked.plan.line_count, 1);
		assert_int_equal(asked.plan.lines[0].task, TASK_RENEW);
		assert_int_equal(asked.plan.lines[0].minor, CASES[i].of_line);
		assert_int_equal(asked.plan.minor, CASES[i].minor);
	}
}

TEST(a_service_is_brought_forward_where_that_saves_a_trip)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    "  - id: service\n    kinds: [lifejacket-auto]\n    task: service\n"
	    "    doer: station\n    grade: maker\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE);
	open_station(&asked, 4000, 10000);
	/* Good until March 2027 and until March 2028: one must go in the winter of 2026, the
	 * other not before that of 2027. Together in 2026 and in 2028: 4 x 40 + 2 x 100 = 360.
	 * Each when due, in 2026 and 2028, in 2027 and 2029: 4 x 40 + 4 x 100 = 560. */
	scene_record(&scene, scene_item(&scene, "lifejacket-auto"), TASK_SERVICE,
	    "2025-03-10", NULL);
	scene_record(&scene, scene_item(&scene, "lifejacket-auto"), TASK_SERVICE,
	    "2026-03-10", NULL);
	ask_plan(&scene, &asked, "2026-11-25", 4);
	assert_int_equal(asked.plan.minor, 36000);
	assert_int_equal(asked.plan.when_due_minor, 56000);
	assert_int_equal(asked.plan.trip_count, 2);
	assert_int_equal(asked.plan.trips[0].winter, 0);
	assert_int_equal(asked.plan.trips[1].winter, 2);
}

TEST(contents_that_would_lapse_before_the_next_service_are_renewed_at_this_one)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    RAFT_RULES "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
		       "    doer: station\n    grade: practice\n    clocks:\n"
		       "      - { from: [marked] }\n" SOURCE);
	open_station(&asked, 40000, 5000);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	raft->made = stamp_of("2023-03-01");
	scene_record(&scene, raft, TASK_SERVICE, "2024-03-10", NULL);
	water->parent = 0;
	water->made = stamp_of("2023-01-01");
	water->expires = stamp_of("2028-06");
	water->price_minor = 4100;
	ask_plan(&scene, &asked, "2026-11-25", 5);
	/* The raft goes on 21 March 2027 and then on 21 March 2030, the fourth winter, which
	 * carries it through the fifth. The contents are good until June 2028, so they are
	 * renewed at the first of these; a new one lasts as long after its day as the old one
	 * did, 2007 days, until September 2032. 2 x 400 + 41 + 2 x 50 = 941. Opening the raft
	 * in the second winter instead would mean a third service in the fifth. */
	assert_int_equal(asked.plan.minor, 94100);
	assert_int_equal(asked.plan.line_count, 3);
	assert_int_equal(asked.plan.lines[1].item, 1);
	assert_int_equal(asked.plan.lines[1].winter, 0);
	assert_int_equal(asked.plan.lines[2].winter, 3);
}

/* Good until 10 March 2029 itself, but its water only until June 2027, before which it is
 * opened: in the first winter 400 + 41 + 50, and nothing in the second. */
TEST(what_is_done_when_due_opens_a_whole_for_what_is_inside)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    RAFT_RULES "  - id: contents\n    kinds: [raft-contents]\n    task: renew\n"
		       "    doer: station\n    grade: practice\n    clocks:\n"
		       "      - { from: [marked] }\n" SOURCE);
	open_station(&asked, 40000, 5000);
	struct item *raft = scene_item(&scene, "liferaft-canister");
	struct item *water = scene_item(&scene, "raft-contents");
	raft->made = stamp_of("2023-03-01");
	scene_record(&scene, raft, TASK_SERVICE, "2026-03-10", NULL);
	water->parent = 0;
	water->made = stamp_of("2023-01-01");
	water->expires = stamp_of("2027-06");
	water->price_minor = 4100;
	ask_plan(&scene, &asked, "2026-11-25", 2);
	assert_int_equal(asked.plan.when_due_minor, 49100);
}

/* A jacket good until 10 March 2027, and the station shut all that winter: when due it is
 * done in the next, on 21 March 2028, which carries it through the third: 40 + 100. In
 * the season of 2027 it has lapsed. */
TEST(what_is_due_while_the_station_is_shut_is_done_the_winter_after)
{
	const struct span shut = {day_of("2026-11-01"), day_of("2027-04-30")};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    "  - id: service\n    kinds: [lifejacket-auto]\n    task: service\n"
	    "    doer: station\n    grade: maker\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE);
	open_station(&asked, 4000, 10000);
	asked.station.shut = &shut;
	asked.station.shut_count = 1;
	scene_record(&scene, scene_item(&scene, "lifejacket-auto"), TASK_SERVICE,
	    "2025-03-10", NULL);
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.when_due_minor, 14000);
	assert_int_equal(asked.plan.gap_count, 1);
	assert_int_equal(asked.plan.gaps[0].winter, 0);
}

/* A cylinder good until 10 March 2027, in a jacket that is for years, and the station
 * shut that winter: a part that a station must see is not seen aboard. It goes in the
 * second: 40 + 100. */
TEST(a_part_is_not_worked_on_while_its_whole_stays_aboard)
{
	const struct span shut = {day_of("2026-11-01"), day_of("2027-04-30")};
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene,
	    "  - id: jacket\n    kinds: [lifejacket-auto]\n    task: service\n"
	    "    doer: station\n    grade: maker\n    clocks:\n"
	    "      - { from: [last], months: 120 }\n" SOURCE
	    "  - id: cylinder\n    kinds: [gas-cylinder]\n    task: service\n"
	    "    doer: station\n    grade: maker\n    clocks:\n"
	    "      - { from: [last], months: 24 }\n" SOURCE);
	open_station(&asked, 4000, 10000);
	list_price(&asked, "gas-cylinder", TASK_SERVICE, 0, 4000);
	asked.station.shut = &shut;
	asked.station.shut_count = 1;
	struct item *jacket = scene_item(&scene, "lifejacket-auto");
	struct item *cylinder = scene_item(&scene, "gas-cylinder");
	cylinder->parent = 0;
	scene_record(&scene, jacket, TASK_SERVICE, "2026-03-10", NULL);
	scene_record(&scene, cylinder, TASK_SERVICE, "2025-03-10", NULL);
	ask_plan(&scene, &asked, "2026-11-25", 2);
	assert_int_equal(asked.plan.when_due_minor, 14000);
	assert_int_equal(asked.plan.minor, 14000);
	assert_int_equal(asked.plan.gap_count, 1);
}

TEST(what_no_date_is_known_of_is_done_the_first_winter)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	(void)scene_item(&scene, "liferaft-canister");
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.lines[0].winter, 0);
	assert_int_equal(asked.plan.gap_count, 0);
}

TEST(what_cannot_be_helped_is_named)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	old_raft(&scene, -1);
	asked.station.turn_round_days = 300; /* never back in time */
	ask_plan(&scene, &asked, "2026-11-25", 3);
	assert_int_equal(asked.plan.gap_count, 3);
	assert_int_equal(asked.plan.gaps[0].task, TASK_SERVICE);
	assert_int_equal(asked.plan.minor, 0);
}

/* --- beside every possible course --- */

enum { BRUTE_WINTERS = 4, BRUTE_ITEMS = 3 };

/* What may be done to an item in a winter. */
enum act { ACT_NOTHING, ACT_SERVICE, ACT_RENEW, ACT_COUNT };

/* Does an act to an item on a day, straight on its fields. */
static void
do_act(struct item *item, struct record *records, enum act act, day_t day)
{
	switch (act) {
	case ACT_SERVICE:
		records[item->record_count++] = (struct record){.task = TASK_SERVICE,
		    .on = stamp_of_day(day),
		    .station = "",
		    .certificate = "",
		    .price_minor = -1};
		break;
	case ACT_RENEW:
		item->record_count = 0;
		item->made = stamp_of_day(day);
		item->fitted = stamp_of_day(day);
		break;
	case ACT_NOTHING:
	case ACT_COUNT:
		break;
	}
}

/* True when nothing of the item lapses on any day of a season, as seen from a day. */
static bool
in_date_through(
    const struct due_engine *engine, size_t item, day_t seen, struct span season)
{
	struct arena arena = {0};
	struct obligation *obligations = NULL;
	size_t count = 0;
	bool in_date = true;
	due_of_item(engine, item, seen, &arena, &obligations, &count);
	for (size_t i = 0; i < count; i++) {
		for (day_t day = season.first; day <= season.last && in_date; day++) {
			in_date =
			    obligation_state_on(&obligations[i], day) == STATE_IN_DATE;
		}
	}
	arena_clear(&arena);
	return in_date;
}

/* What the station asks for a service on a day: by the step its age has come to, birthdays
 * counted one by one. */
static int64_t
price_on(const struct asked *asked, const struct item *item, day_t day)
{
	int64_t minor = asked->prices[0].minor;
	int age = 0;
	while (day_add_months(stamp_first(item->made), 12 * (age + 1)) <= day) {
		age++;
		for (size_t i = 2; i < asked->station.price_count; i++) {
			const struct station_price *price = &asked->prices[i];
			minor = price->from_years == age ? price->minor : minor;
		}
	}
	return minor;
}

/* What a course (three to the power of winters: one act a winter) of an item costs, and in
 * which winters it needs a trip; -1 when something lapses in a season. */
static int64_t
course_cost(struct scene *scene, const struct asked *asked, size_t index, int course,
    unsigned *trips_out)
{
	struct item *item = &scene->items[index];
	struct item kept = *item;
	struct record records[SCENE_MOST];
	int64_t cost = 0;
	unsigned trips = 0;
	memcpy(records, item->records, sizeof records);
	item->records = records;
	for (int winter = 0; winter < BRUTE_WINTERS && cost >= 0; winter++) {
		enum act act = (enum act)(course % ACT_COUNT);
		int year = 2026 + winter;
		day_t day = day_from_civil(year + 1, 3, 21);
		struct span season = {
		    day_from_civil(year + 1, 4, 1), day_from_civil(year + 1, 10, 31)};
		do_act(item, records, act, day);
		trips |= act == ACT_SERVICE ? 1U << winter : 0;
		cost += act == ACT_SERVICE ? price_on(asked, item, day)
			: act == ACT_RENEW ? kept.price_minor
					   : 0;
		cost = in_date_through(&scene->engine, index, day, season) ? cost : -1;
		course /= ACT_COUNT;
	}
	*item = kept;
	*trips_out = trips;
	return cost;
}

/* The cheapest plan: every set of trips, every course of every item. */
static int64_t
brute_best(struct scene *scene, const struct asked *asked)
{
	int64_t cheapest[BRUTE_ITEMS][1 << BRUTE_WINTERS];
	int courses = ACT_COUNT * ACT_COUNT * ACT_COUNT * ACT_COUNT;
	for (size_t i = 0; i < scene->item_count; i++) {
		for (unsigned made = 0; made < 1U << BRUTE_WINTERS; made++) {
			cheapest[i][made] = -1;
		}
		for (int course = 0; course < courses; course++) {
			unsigned trips = 0;
			int64_t cost = course_cost(scene, asked, i, course, &trips);
			for (unsigned made = 0; made < 1U << BRUTE_WINTERS; made++) {
				bool goes = cost >= 0 && (trips & ~made) == 0;
				if (goes &&
				    (cheapest[i][made] < 0 || cost < cheapest[i][made])) {
					cheapest[i][made] = cost;
				}
			}
		}
	}
	int64_t best = -1;
	for (unsigned made = 0; made < 1U << BRUTE_WINTERS; made++) {
		int64_t cost = 0;
		for (int winter = 0; winter < BRUTE_WINTERS; winter++) {
			cost += (made >> winter & 1U) * asked->station.trip_minor;
		}
		for (size_t i = 0; i < scene->item_count && cost >= 0; i++) {
			int64_t own = cheapest[i][made];
			cost = own < 0 ? -1 : cost + own;
		}
		best = cost >= 0 && (best < 0 || cost < best) ? cost : best;
	}
	return best;
}

static void
draw_raft(struct scene *scene, unsigned *seed)
{
	struct item *raft = scene_item(scene, "liferaft-canister");
	int made = 2014 + (int)draw(seed, 12);
	raft->made = stamp_of_day(day_from_civil(made, 1, 1) + (day_t)draw(seed, 365));
	raft->price_minor = 5000 * (1 + draw(seed, 30));
	if (draw(seed, 3) > 0) {
		struct record *records = scene->records[raft - scene->items];
		int year = made < 2023 ? 2023 + (int)draw(seed, 3) : 2026;
		records[raft->record_count++] = (struct record){.task = TASK_SERVICE,
		    .on = stamp_of_day(
			day_from_civil(year, 1, 10) + (day_t)draw(seed, 300)),
		    .station = "",
		    .certificate = "",
		    .price_minor = -1};
	}
}

TEST(random_rafts_cost_what_the_best_of_all_courses_costs)
{
	unsigned seed = 4711;
	size_t renewed = 0;
	size_t serviced = 0;
	size_t better = 0;
	size_t stepped = 0;
	for (int round = 0; round < 60; round++) {
		CLOSES_SCENE struct scene scene;
		struct asked asked;
		scene_open(&scene, RAFT_RULES);
		open_station(
		    &asked, 5000 * (1 + draw(&seed, 12)), 2500 * draw(&seed, 12));
		int64_t dearer = asked.prices[0].minor;
		for (unsigned i = draw(&seed, 3), age = 0; i > 0; i--) {
			age += 1 + draw(&seed, 9);
			dearer += 5000 * draw(&seed, 8);
			list_price(
			    &asked, "liferaft-canister", TASK_SERVICE, (int)age, dearer);
		}
		size_t items = 1 + draw(&seed, BRUTE_ITEMS);
		for (size_t i = 0; i < items; i++) {
			draw_raft(&scene, &seed);
		}
		ask_plan(&scene, &asked, "2026-11-25", BRUTE_WINTERS);
		stepped += asked.plan.step_count > 0 ? 1 : 0;
		assert_true(asked.plan.proven);
		assert_int_equal(asked.plan.gap_count, 0);
		assert_int_equal(asked.plan.minor, brute_best(&scene, &asked));
		assert_true(asked.plan.when_due_minor >= asked.plan.minor);
		renewed += count_lines(&asked.plan, TASK_RENEW);
		serviced += count_lines(&asked.plan, TASK_SERVICE);
		better += asked.plan.when_due_minor > asked.plan.minor ? 1 : 0;
	}
	assert_true(renewed > 20 && serviced > 20 && better > 10 && stepped > 20);
}

/* --- every season day of a plan, asked of the engine --- */

/* Gear as an owner has it, under the sheet of common practice. */
static void
fit_out(struct scene *scene)
{
	struct item *raft = scene_item(scene, "liferaft-canister");
	raft->made = stamp_of("2018-06");
	raft->packed = stamp_of("2018-06-20");
	raft->price_minor = 189000;
	scene_record(scene, raft, TASK_SERVICE, "2024-11-18", NULL);
	scene_record(scene, raft, TASK_TEST, "2024-11-18", NULL);
	struct item *water = scene_item(scene, "raft-contents");
	water->parent = 0;
	water->expires = stamp_of("2027-08");
	struct item *jacket = scene_item(scene, "lifejacket-auto");
	jacket->made = stamp_of("2020-05");
	jacket->price_minor = 18900;
	scene_record(scene, jacket, TASK_SERVICE, "2025-11-20", NULL);
	struct item *head = scene_item(scene, "firing-head");
	head->parent = 2;
	head->expires = stamp_of("before 2027-06");
	struct item *powder = scene_item(scene, "extinguisher-powder");
	powder->made = stamp_of("2008-02");
	powder->price_minor = 4800;
	scene_record(scene, powder, TASK_SERVICE, "2026-02-10", NULL);
	struct item *flares = scene_item(scene, "flare-red-hand");
	flares->expires = stamp_of("2027-06");
	flares->quantity = 4;
	flares->price_minor = 1750;
	struct item *beacon = scene_item(scene, "epirb");
	beacon->made = stamp_of("2021-05");
	beacon->expires = stamp_of("2027-11");
	struct item *release = scene_item(scene, "hydrostatic-release");
	release->fitted = stamp_of("2025-04-12");
	release->parent = 0;
	(void)scene_item(scene, "first-aid-kit");
}

/* The printed date of what is bought in an item's place, as the outlook says it is reckoned. */
static struct stamp
printed_again(const struct item *old, day_t day)
{
	day_t made = stamp_first(old->made);
	day_t printed = stamp_good_through(old->expires);
	if (printed == DAY_NONE) {
		return (struct stamp){0};
	}
	return made == DAY_NONE ? (struct stamp){0} : stamp_of_day(day + printed - made);
}

/* Does everything the plan has for a winter, on copies of the book's items. */
static void
do_winter(const struct scene *scene, const struct outlook *plan, size_t winter,
    struct item *items, struct record records[SCENE_MOST][SCENE_MOST])
{
	for (size_t i = 0; i < plan->line_count; i++) {
		const struct outlook_line *line = &plan->lines[i];
		struct item *item = &items[line->item];
		if (line->winter != winter) {
			continue;
		}
		if (line->task != TASK_RENEW) {
			records[line->item][item->record_count++] =
			    (struct record){.task = line->task,
				.on = stamp_of_day(line->by),
				.station = "",
				.certificate = "",
				.price_minor = -1};
			continue;
		}
		if (line->refit) {
			struct record *refit = &records[line->item][item->record_count++];
			*refit = due_record(TASK_RENEW, line->by);
			refit->refit = true;
			item->expires = stamp_of_day(
			    day_add_months(line->by, printed_life_months(item->kind)));
			continue;
		}
		/* a new one, and with it new parts */
		for (size_t j = 0; j < scene->item_count; j++) {
			struct item *fresh = &items[j];
			if (j != line->item && fresh->parent != line->item) {
				continue;
			}
			struct stamp printed = printed_again(&scene->items[j], line->by);
			struct stamp none = {0};
			fresh->record_count = 0;
			fresh->made = stamp_of_day(line->by);
			fresh->fitted = fresh->made;
			fresh->packed = none;
			fresh->bought = none;
			fresh->expires = printed;
			if (strcmp(fresh->kind, "raft-contents") == 0) {
				fresh->expires = stamp_of_day(day_add_months(
				    line->by, printed_life_months(fresh->kind)));
			}
		}
	}
}

TEST(on_every_season_day_of_a_plan_the_engine_finds_nothing_lapsed)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	struct item items[SCENE_MOST];
	struct record records[SCENE_MOST][SCENE_MOST];
	size_t days = 0;
	scene_open(&scene, "practice.yaml");
	open_station(&asked, 4000, 1200);
	fit_out(&scene);
	ask_plan(&scene, &asked, "2026-11-25", 8);
	assert_int_equal(asked.plan.gap_count, 0);
	memcpy(items, scene.items, sizeof items);
	memcpy(records, scene.records, sizeof records);
	for (size_t i = 0; i < scene.item_count; i++) {
		items[i].records = records[i];
	}
	struct inventory inventory = scene.inventory;
	struct due_engine engine = scene.engine;
	inventory.items = items;
	engine.inventory = &inventory;
	for (size_t winter = 0; winter < 8; winter++) {
		int year = 2027 + (int)winter;
		do_winter(&scene, &asked.plan, winter, items, records);
		for (day_t day = day_from_civil(year, 4, 1);
		     day <= day_from_civil(year, 10, 31); day++, days++) {
			for (size_t i = 0; i < scene.item_count; i++) {
				struct arena arena = {0};
				struct obligation *due = NULL;
				size_t count = 0;
				due_of_item(&engine, i, day, &arena, &due, &count);
				for (size_t j = 0; j < count; j++) {
					if (!due[j].routine &&
					    due[j].state != STATE_IN_DATE) {
						char words[DAY_ISO_SIZE];
						fail_msg("%s: %s is %s on %s",
						    items[i].tag, task_word(due[j].task),
						    state_word(due[j].state),
						    day_iso(day, words));
					}
				}
				arena_clear(&arena);
			}
		}
	}
	assert_int_equal(days, 8 * 214);
}

TEST(the_lines_and_trips_of_a_plan_add_up_to_what_it_costs)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, "practice.yaml");
	open_station(&asked, 4000, 1200);
	asked.station.carriage_minor = 350;
	fit_out(&scene);
	ask_plan(&scene, &asked, "2026-11-25", 10);
	struct outlook_sum all = outlook_sum_of(&asked.plan, 10);
	int64_t by_winter = 0;
	for (size_t winter = 0; winter < 10; winter++) {
		struct outlook_sum sum = outlook_sum_of(&asked.plan, winter);
		by_winter += sum.trips + sum.work + sum.new_gear;
	}
	assert_int_equal(all.trips + all.work + all.new_gear, asked.plan.minor);
	assert_int_equal(by_winter, asked.plan.minor);
}

TEST(vessels_of_one_base_share_their_trips)
{
	CLOSES_SCENE struct scene scene;
	struct asked asked;
	scene_open(&scene, RAFT_RULES);
	open_station(&asked, 40000, 5000);
	old_raft(&scene, -1);
	old_raft(&scene, -1);
	struct vessel vessels[] = {scene.vessel, scene.vessel};
	const struct rulebook *rulebooks[] = {scene.rulebook, scene.rulebook};
	const size_t both[] = {0, 1};
	vessels[1].name = "Test too";
	scene.items[1].vessel = 1;
	scene.inventory.vessels = vessels;
	scene.inventory.vessel_count = 2;
	ask_plan(&scene, &asked, "2026-11-25", 1);
	assert_int_equal(asked.plan.minor, 45000);
	/* 2 x 400 + 50, where apart they would be 2 x 450 */
	scene.engine.rulebooks = rulebooks;
	asked.ask.vessels = both;
	asked.ask.vessel_count = 2;
	struct fault fault = {0};
	assert_true(outlook_make(&asked.ask, &scene.arena, &asked.plan, &fault));
	assert_int_equal(asked.plan.minor, 85000);
}

RUN_TESTS(NULL, NULL)
