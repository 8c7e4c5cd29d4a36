/* Plans of the years added up, and held beside a shore list. The plans are written by
 * hand; nothing is planned. */
#include "becket_test.h"
#include "in_words.h"
#include "years/outlook.h"
#include "years/tips.h"

enum { RAFT, JACKET, FLARE, EPIRB, PUMP, PLB, BELT, ITEMS };

static struct item items[ITEMS] = {
    [RAFT] = {.kind = "liferaft-valise"},
    [JACKET] = {.kind = "lifejacket-auto"},
    [FLARE] = {.kind = "flare-red-hand"},
    [EPIRB] = {.kind = "epirb"},
    [PUMP] = {.kind = "bilge-pump"},
    [PLB] = {.kind = "plb"},
    [BELT] = {.kind = "tether"},
};

static const struct inventory INVENTORY = {.items = items, .item_count = ITEMS};

/* A raft serviced at a station in winter 0 and 2, carried there each time; flares bought
 * in winter 0, a beacon at a price that is not known, and a jacket looked at by her owner
 * in winter 1. */
static struct outlook_line lines[] = {
    {.item = RAFT,
	.task = TASK_SERVICE,
	.doer = DOER_STATION,
	.winter = 0,
	.minor = 30000,
	.carriage_minor = 1500},
    {.item = RAFT,
	.task = TASK_SERVICE,
	.doer = DOER_STATION,
	.winter = 2,
	.minor = 32000,
	.carriage_minor = 1500},
    {.item = FLARE, .task = TASK_RENEW, .doer = DOER_OWNER, .winter = 0, .minor = 4000},
    {.item = EPIRB,
	.task = TASK_RENEW,
	.doer = DOER_STATION,
	.winter = 2,
	.minor = -1,
	.carriage_minor = 200},
    {.item = JACKET, .task = TASK_INSPECT, .doer = DOER_OWNER, .winter = 1, .minor = 0},
};

static struct outlook_trip trips[] = {{.winter = 0, .station = 0, .minor = 2500},
    {.winter = 2, .station = 1, .minor = 700}};

static struct outlook
plan_of_three(void)
{
	return (struct outlook){.first_year = 2026,
	    .winters = 3,
	    .lines = lines,
	    .line_count = sizeof lines / sizeof lines[0],
	    .trips = trips,
	    .trip_count = 2};
}

static void
assert_sum(const struct outlook *plan, size_t winter, int64_t of_trips, int64_t work,
    int64_t new_gear)
{
	struct outlook_sum sum = outlook_sum_of(plan, winter);
	assert_int_equal(sum.trips, of_trips);
	assert_int_equal(sum.work, work);
	assert_int_equal(sum.new_gear, new_gear);
}

TEST(a_winter_costs_its_trips_its_work_and_what_is_bought)
{
	const struct outlook plan = plan_of_three();
	assert_sum(&plan, 0, 2500, 31500, 4000);
	assert_sum(&plan, 1, 0, 0, 0);
	assert_sum(&plan, 2, 700, 32000 + 1500 + 200, 0);
	assert_sum(&plan, 3, 3200, 31500 + 33700, 4000);
}

/* The raft 30000 + 32000 + 3000, the flares 4000, the beacon what carrying it costs, the
 * jacket nothing: it has no share. Twice the plan is twice all. */
TEST(the_dearest_kind_has_the_first_share)
{
	struct arena arena = {0};
	struct outlook_share *shares = NULL;
	size_t count = 0;
	const struct named_outlook plans[] = {
	    {.plan = plan_of_three()}, {.plan = plan_of_three()}};
	for (size_t times = 1; times <= 2; times++) {
		const struct outlook_view view = {
		    .inventory = &INVENTORY, .plans = plans, .count = times};
		outlook_shares(&view, &arena, &shares, &count);
		assert_int_equal(count, 3);
		assert_string_equal(shares[0].kind, "liferaft-valise");
		assert_int_equal(shares[0].minor, 65000 * (int64_t)times);
		assert_int_equal(shares[0].works, 2 * times);
		assert_int_equal(shares[0].renewals, 0);
		assert_string_equal(shares[1].kind, "flare-red-hand");
		assert_int_equal(shares[1].renewals, times);
		assert_int_equal(shares[1].works, 0);
		assert_string_equal(shares[2].kind, "epirb");
		assert_int_equal(shares[2].minor, 200 * (int64_t)times);
		assert_int_equal(shares[2].works, 0);
	}
	arena_clear(&arena);
}

TEST(what_costs_nothing_has_no_share)
{
	struct arena arena = {0};
	struct outlook_share *shares = NULL;
	size_t count = 1;
	struct outlook_line free[] = {
	    {.item = RAFT, .task = TASK_SERVICE, .doer = DOER_OWNER, .minor = 0}};
	const struct named_outlook plan = {
	    .plan = {.winters = 1, .lines = free, .line_count = 1}};
	const struct outlook_view view = {
	    .inventory = &INVENTORY, .plans = &plan, .count = 1};
	outlook_shares(&view, &arena, &shares, &count);
	assert_int_equal(count, 0);
	arena_clear(&arena);
}

TEST(of_two_kinds_that_cost_the_same_the_first_by_name_has_the_first_share)
{
	struct arena arena = {0};
	struct outlook_share *shares = NULL;
	size_t count = 0;
	struct outlook_line two[] = {
	    {.item = PUMP, .task = TASK_RENEW, .doer = DOER_OWNER, .minor = 100},
	    {.item = JACKET, .task = TASK_SERVICE, .doer = DOER_OWNER, .minor = 300},
	    {.item = EPIRB, .task = TASK_RENEW, .doer = DOER_OWNER, .minor = 100},
	    {.item = RAFT, .task = TASK_RENEW, .doer = DOER_OWNER, .minor = 200}};
	const struct named_outlook plan = {
	    .plan = {.winters = 1, .lines = two, .line_count = 4}};
	const struct outlook_view view = {
	    .inventory = &INVENTORY, .plans = &plan, .count = 1};
	outlook_shares(&view, &arena, &shares, &count);
	assert_int_equal(count, 4);
	assert_string_equal(shares[0].kind, "lifejacket-auto");
	/* her owner does it: no work at a station */
	assert_int_equal(shares[0].works, 0);
	assert_string_equal(shares[1].kind, "liferaft-valise");
	assert_string_equal(shares[2].kind, "bilge-pump");
	assert_string_equal(shares[3].kind, "epirb");
	arena_clear(&arena);
}

TEST(all_plans_together_span_their_winters_and_are_proven_if_each_is)
{
	struct named_outlook plans[] = {{.plan = {.first_year = 2027,
					     .winters = 3,
					     .minor = 100,
					     .bound = 90,
					     .when_due_minor = 150,
					     .unpriced = 1,
					     .supposed = 2,
					     .unknown_count = 3,
					     .assumed = 4,
					     .gap_count = 5,
					     .proven = true}},
	    {.plan = {.first_year = 2026,
		 .winters = 2,
		 .minor = 1000,
		 .bound = 900,
		 .when_due_minor = 1500,
		 .unpriced = 10,
		 .supposed = 20,
		 .unknown_count = 30,
		 .assumed = 40,
		 .gap_count = 50,
		 .proven = true}},
	    {.plan = {.first_year = 2028, .winters = 3, .all_year = true}}};
	struct outlook_total total = outlook_total_of(plans, 2);
	assert_int_equal(total.first_year, 2026);
	assert_int_equal(total.last_year, 2029);
	assert_int_equal(total.minor, 1100);
	assert_int_equal(total.bound, 990);
	assert_int_equal(total.when_due_minor, 1650);
	assert_int_equal(total.unpriced, 11);
	assert_int_equal(total.supposed, 22);
	assert_int_equal(total.unknowns, 33);
	assert_int_equal(total.assumed, 44);
	assert_int_equal(total.gaps, 55);
	assert_true(total.proven);
	assert_false(total.all_year);
	outlook_total_add(&total, &plans[2], 1);
	assert_int_equal(total.plans, 3);
	assert_true(total.all_year);
	assert_int_equal(total.first_year, 2026);
	assert_int_equal(total.last_year, 2030);
	assert_false(total.proven);
	/* one that is proven, and of no boat in use all year, behind one that is neither */
	outlook_total_add(&total, &plans[1], 1);
	assert_true(total.all_year);
	assert_false(total.proven);
	total = outlook_total_of(plans, 0);
	assert_true(total.last_year < total.first_year);
	assert_true(total.proven);
}

/* ---- beside the shore list ---- */

/* The list of winter 2026 has the raft and the beacon serviced, the beacon's battery
 * renewed, a jacket looked at and the small beacon tested; it buys pump and belt, and the
 * flares are renewed by her owner. */
struct listed {
	struct shore_line work[5];
	struct shore_line bought[2];
	struct shore_line own;
	struct trip trip;
	struct shore_list list;
};

static void
open_list(struct listed *listed)
{
	*listed = (struct listed){
	    .work = {{.item = RAFT, .task = TASK_SERVICE},
		{.item = EPIRB, .task = TASK_SERVICE},
		{.item = EPIRB, .task = TASK_RENEW},
		{.item = JACKET, .task = TASK_INSPECT}, {.item = PLB, .task = TASK_TEST}},
	    .bought = {{.item = PUMP, .task = TASK_RENEW},
		{.item = BELT, .task = TASK_RENEW}},
	    .own = {.item = FLARE, .task = TASK_RENEW},
	};
	listed->trip.lines.items = listed->work;
	listed->trip.lines.count = 5;
	listed->list = (struct shore_list){.has_winter = true,
	    .winter = {.year = 2026},
	    .hand_in = {&listed->trip, 1, 1},
	    .self = {&listed->own, 1, 1},
	    .buy = {listed->bought, 2, 2}};
}

/* In its first winter the plan buys a raft and a small beacon, has pump, flares and belt
 * worked on at a station, and the beacon renewed, which the list has done as well; it
 * looks at the jacket where the owner does, and buys one in the next winter. What clashes
 * is told as the inventory has it. */
TEST(what_one_buys_and_the_other_services_is_a_clash)
{
	struct arena arena = {0};
	struct winter_clashes clashes = {0};
	struct listed listed;
	struct outlook_line first[] = {
	    {.item = PUMP, .task = TASK_SERVICE, .doer = DOER_STATION},
	    {.item = FLARE, .task = TASK_TEST, .doer = DOER_STATION},
	    {.item = RAFT, .task = TASK_RENEW, .doer = DOER_OWNER},
	    {.item = EPIRB, .task = TASK_RENEW, .doer = DOER_STATION},
	    {.item = PLB, .task = TASK_RENEW, .doer = DOER_OWNER},
	    {.item = BELT, .task = TASK_INSPECT, .doer = DOER_STATION},
	    {.item = JACKET, .task = TASK_INSPECT, .doer = DOER_OWNER},
	    {.item = JACKET, .task = TASK_RENEW, .doer = DOER_OWNER, .winter = 1}};
	const struct outlook plan = {
	    .first_year = 2026, .winters = 2, .lines = first, .line_count = 8};
	open_list(&listed);
	outlook_clashes_find(&INVENTORY, &plan, &listed.list, &arena, &clashes);
	assert_int_equal(clashes.winters, 2);
	assert_int_equal(clashes.count, 5);
	assert_int_equal(clashes.items[0].item, RAFT);
	assert_true(clashes.items[0].renewed);
	assert_int_equal(clashes.items[1].item, FLARE);
	assert_false(clashes.items[1].renewed);
	assert_int_equal(clashes.items[2].item, PUMP);
	assert_false(clashes.items[2].renewed);
	assert_int_equal(clashes.items[3].item, PLB);
	assert_true(clashes.items[3].renewed);
	assert_int_equal(clashes.items[4].item, BELT);
	assert_false(clashes.items[4].renewed);
	/* the list of another winter, or of none, is not set beside it */
	listed.list.winter.year = 2027;
	outlook_clashes_find(&INVENTORY, &plan, &listed.list, &arena, &clashes);
	assert_int_equal(clashes.count, 0);
	listed.list.winter.year = 2026;
	listed.list.has_winter = false;
	outlook_clashes_find(&INVENTORY, &plan, &listed.list, &arena, &clashes);
	assert_int_equal(clashes.count, 0);
	arena_clear(&arena);
}

/* Of three boats the second alone is asked about: what else is planned at her base is no
 * clash of hers. */
TEST(gear_of_another_boat_is_no_clash)
{
	struct arena arena = {0};
	struct winter_clashes clashes = {0};
	struct item three[ITEMS];
	struct vessel vessels[3] = {0};
	struct listed listed;
	struct outlook_line first[] = {
	    {.item = RAFT, .task = TASK_RENEW, .doer = DOER_OWNER},
	    {.item = EPIRB, .task = TASK_SERVICE, .doer = DOER_STATION},
	    {.item = PUMP, .task = TASK_SERVICE, .doer = DOER_STATION},
	    {.item = BELT, .task = TASK_INSPECT, .doer = DOER_STATION}};
	const struct outlook plan = {
	    .first_year = 2026, .winters = 2, .lines = first, .line_count = 4};
	for (size_t i = 0; i < ITEMS; i++) {
		three[i] = items[i];
		three[i].vessel = i < EPIRB ? 0 : i <= PUMP ? 1 : 2;
	}
	const struct inventory inventory = {
	    .items = three, .item_count = ITEMS, .vessels = vessels, .vessel_count = 3};
	open_list(&listed);
	listed.list.vessel = 1;
	outlook_clashes_find(&inventory, &plan, &listed.list, &arena, &clashes);
	assert_int_equal(clashes.count, 1);
	assert_int_equal(clashes.items[0].item, PUMP);
	arena_clear(&arena);
}

RUN_TESTS(NULL, NULL)
